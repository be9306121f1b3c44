//! Every tree of joints that a plan cheaper than the best known may hold, each content at its least money.
//!
//! A joint with its items takes on hanging trees; a joint with one end of a further line in it is a tree that
//! hangs by the line's other piece. Of trees of equal content one with a shorter piece and less money serves
//! for another (labels as in shortest paths with resources: S. Irnich, G. Desaulniers 2005), so of every
//! credit the longest end is taken. Reduced costs under a bound's duals are never negative over what is left:
//! whatever is past the gap already is in no cheaper plan.

use std::collections::BTreeMap;

use super::super::best_fit::net;
use super::super::converge::Budget;
use super::kinds::Content;
use super::worth::Worth;

/// Labels of one search at most, and one for so many of the steps left.
const LABELS: (u64, u64) = (200_000, 1_000);

/// A joint still open, or a tree hanging by a piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Label {
    content: Content,
    /// Lengths + kerfs of what the open joint holds; length + kerf of the piece.
    length: i64,
    money: i64,
    worth: i64,
    /// What made it.
    pub from: From,
}

/// How a label was made.
#[derive(Clone, Copy, Debug)]
pub(super) enum From {
    /// Items alone.
    Items(Content),
    /// An open joint takes on a hanging tree.
    Joined(usize, usize),
    /// An open joint, its stock, the line cut into it, the pieces before the cut, and which piece hangs.
    Hung(usize, usize, usize, i64, bool),
}

/// A whole tree: content, money, its last joint and that joint's stock.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tree {
    pub content: Content,
    pub money: i64,
    pub joint: usize,
    pub stock: usize,
}

type Frontiers = BTreeMap<Content, Vec<usize>>;

/// The search.
pub(super) struct Forest<'f, 'p> {
    worth: &'f Worth<'p>,
    /// Labels by number.
    pub labels: Vec<Label>,
    trees: BTreeMap<Content, Tree>,
    most: usize,
    steps: u64,
}

/// All trees, no content with less in it for more money; `None` when there are too many.
pub(super) fn grow<'f, 'p>(
    worth: &'f Worth<'p>,
    budget: &mut Budget<'_>,
) -> Option<(Vec<Label>, Vec<Tree>)> {
    let mut forest = Forest {
        worth,
        labels: Vec::new(),
        trees: BTreeMap::new(),
        most: LABELS.0.min(budget.left / LABELS.1) as usize,
        steps: 0,
    };
    let mut open: Vec<Vec<usize>> = Vec::new();
    let mut hanging: Vec<Vec<usize>> = Vec::new();
    for lines in 0..=worth.lines() {
        let mut joints = Frontiers::new();
        if lines == 0 {
            forest.items(0, 0, (0, 0), &mut joints);
        } else {
            let mut hung = Frontiers::new();
            for &joint in &open[lines - 1] {
                forest.hang(joint, &mut hung);
            }
            hanging.push(forest.in_order(hung));
            for level in 1..=lines {
                for &joint in &open[lines - level] {
                    forest.join(joint, &hanging[level - 1], &mut joints);
                    if forest.over(budget) {
                        return None;
                    }
                }
            }
        }
        open.push(forest.in_order(joints));
        for &joint in &open[lines] {
            forest.close(joint);
        }
        if forest.over(budget) {
            return None;
        }
    }
    let trees = forest.fullest();
    budget.spend(forest.spent());
    Some((forest.labels, trees))
}

impl Forest<'_, '_> {
    /// There are too many labels.
    fn full(&self) -> bool {
        self.labels.len() > self.most
    }

    /// There are too many labels, or no steps left.
    fn over(&mut self, budget: &mut Budget<'_>) -> bool {
        let full = self.full();
        budget.cut |= full && (self.most as u64) < LABELS.0;
        budget.spend(self.spent()) || full
    }

    fn spent(&mut self) -> u64 {
        std::mem::take(&mut self.steps)
    }

    fn in_order(&self, frontiers: Frontiers) -> Vec<usize> {
        let mut found: Vec<usize> = frontiers.into_values().flatten().collect();
        found.sort_by_key(|&l| (self.labels[l].length, l));
        found
    }

    /// Open joints of items from `kind` on.
    fn items(
        &mut self,
        kind: usize,
        content: Content,
        (length, worth): (i64, i64),
        to: &mut Frontiers,
    ) {
        self.add(content, (length, 0, worth), From::Items(content), to);
        for k in kind..self.worth.items.len() {
            let item = self.worth.items[k];
            let (more, length) = (content + self.worth.kinds.one(k), length + item.weight);
            self.steps += 10;
            if !self.full()
                && self.worth.kinds.holds(more)
                && self.worth.joint_pays(length, 0, worth + item.value)
            {
                self.items(k, more, (length, worth + item.value), to);
            }
        }
    }

    /// Keeps a label where none is shorter and cheaper.
    fn add(
        &mut self,
        content: Content,
        (length, money, worth): (i64, i64, i64),
        from: From,
        to: &mut Frontiers,
    ) {
        let frontier = to.entry(content).or_default();
        self.steps += 150 + 4 * frontier.len() as u64;
        let labels = &self.labels;
        if frontier
            .iter()
            .any(|&l| labels[l].length <= length && labels[l].money <= money)
        {
            return;
        }
        frontier.retain(|&l| labels[l].length < length || labels[l].money < money);
        frontier.push(labels.len());
        self.labels.push(Label {
            content,
            length,
            money,
            worth,
            from,
        });
    }

    /// An open joint takes on each hanging tree that fits.
    fn join(&mut self, joint: usize, hanging: &[usize], to: &mut Frontiers) {
        let open = self.labels[joint];
        for &tree in hanging {
            let hung = self.labels[tree];
            let length = open.length + hung.length;
            self.steps += 4;
            if length > self.worth.room {
                break;
            }
            let (content, money) = (open.content + hung.content, open.money + hung.money);
            let worth = open.worth + hung.worth;
            if self.worth.kinds.holds(content) && self.worth.joint_pays(length, money, worth) {
                let from = From::Joined(joint, tree);
                self.add(content, (length, money, worth), from, to);
            }
        }
    }

    /// One end of a further line goes into an open joint: as long as each credit leaves it.
    fn hang(&mut self, joint: usize, to: &mut Frontiers) {
        let open = self.labels[joint];
        let all = self.worth;
        for (s, stock) in all.pool.stocks.iter().enumerate() {
            let room = stock.usable + all.pool.kerf - open.length;
            let (taken, base) = all.taken(s);
            let content = open.content + taken;
            if room <= 0 || !all.kinds.holds(content) {
                continue;
            }
            for (k, line) in all.line_kinds.iter().enumerate() {
                let content = content + all.kinds.one(line.kind);
                if !all.kinds.holds(content) {
                    continue;
                }
                let worth = open.worth + base + line.worth;
                for (hangs_last, ends) in [(true, &line.first), (false, &line.last)] {
                    for (charge, runs) in ends {
                        let mut before = i64::MAX;
                        for most in all.ends(room) {
                            self.steps += 12;
                            let Some(end) = longest(runs, most) else {
                                break;
                            };
                            if end == before {
                                continue;
                            }
                            before = end;
                            let length = open.length + end + all.pool.kerf;
                            let Some(cost) = net(all.pool, s, length) else {
                                continue;
                            };
                            let hung = line.total - end;
                            let money = open.money + cost + charge + line.splice_cost;
                            if all.hung_pays(line.class, hung, money, worth) {
                                let cut = if hangs_last { end } else { hung };
                                let from = From::Hung(joint, s, k, cut, hangs_last);
                                let length = hung + all.pool.kerf;
                                self.add(content, (length, money, worth), from, to);
                            }
                        }
                    }
                }
            }
        }
    }

    /// An open joint of each stock with nothing more in it.
    fn close(&mut self, joint: usize) {
        let open = self.labels[joint];
        if open.content == 0 {
            return;
        }
        for stock in 0..self.worth.pool.stocks.len() {
            let (taken, base) = self.worth.taken(stock);
            let content = open.content + taken;
            self.steps += 20;
            let Some(cost) = net(self.worth.pool, stock, open.length) else {
                continue;
            };
            let money = open.money + cost;
            if !self.worth.kinds.holds(content) || !self.worth.pays(money, open.worth + base) {
                continue;
            }
            let tree = Tree {
                content,
                money,
                joint,
                stock,
            };
            let best = self.trees.entry(content).or_insert(tree);
            if money < best.money {
                *best = tree;
            }
        }
    }

    /// Trees that hold as much of everything as their money allows.
    fn fullest(&mut self) -> Vec<Tree> {
        let kinds = &self.worth.kinds;
        self.steps += self.trees.len() as u64 * 20 * self.worth.items.len() as u64;
        let beaten = |tree: &Tree| {
            (0..self.worth.items.len()).any(|k| {
                let more = self.trees.get(&(tree.content + kinds.one(k)));
                more.is_some_and(|m| m.money <= tree.money)
            })
        };
        let trees = self.trees.values();
        trees.filter(|t| !beaten(t)).copied().collect()
    }
}

/// The longest end at most so long.
fn longest(runs: &[(i64, i64)], most: i64) -> Option<i64> {
    let after = runs.partition_point(|r| r.0 <= most);
    let run = runs.get(after.checked_sub(1)?)?;
    Some(run.1.min(most))
}
