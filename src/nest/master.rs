//! The master program: which patterns and configurations, how often.
//!
//! Rows: one per item, or, in a class whose lines may be spliced, one per length in use (an item's or a
//! piece's); patterns supply rows, configurations take from them, and free exchange columns let a longer
//! piece serve a shorter need (so duals never fall with length). One equality per group, one limit per
//! stock, and the rows that branching moves: joints of each stock, all joints, all splices.

use std::collections::BTreeMap;

use super::answer::Configuration;
use super::problem::Pool;
use super::simplex::{Sense, Simplex};

/// A row that supplies pieces.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    /// Class bit index.
    pub class: u8,
    /// Piece length.
    pub length: i64,
    /// Items it stands for: index into the pool's items.
    pub item: Option<usize>,
    /// Row of the program.
    pub lp: usize,
}

/// What a column of the program means.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sort {
    /// Slack or penalty or exchange.
    Aid,
    /// Joint cut so: stock, (row, count).
    Pattern(usize, Vec<(usize, u32)>),
    /// One group spliced so.
    Splicing(usize, Vec<Vec<i64>>),
}

/// Rows that branching moves.
#[derive(Clone, Debug)]
pub(super) struct Counts {
    /// Per stock: at most, at least.
    pub stock: Vec<(usize, usize)>,
    /// All joints: at most, at least.
    pub joints: (usize, usize),
    /// All splices: at most, at least.
    pub splices: (usize, usize),
}

/// The program with its meaning.
#[derive(Clone, Debug)]
pub(super) struct Master<'a> {
    /// The pool.
    pub pool: &'a Pool,
    /// The program.
    pub lp: Simplex,
    /// Supply rows in order of making.
    pub rows: Vec<Row>,
    /// Rows of each linked class, ascending by length.
    pub linked: BTreeMap<u8, Vec<usize>>,
    /// Meaning per column.
    pub sorts: Vec<Sort>,
    /// Equality row per group.
    pub groups: Vec<usize>,
    /// Counting rows.
    pub counts: Counts,
    /// Costs are divided by this inside the program.
    pub unit: f64,
    known: std::collections::BTreeSet<(usize, Vec<(usize, u32)>)>,
    known_splicings: std::collections::BTreeSet<(usize, Vec<Vec<i64>>, Vec<u32>)>,
}

/// Rows from which a program is large.
const MANY_ROWS: usize = 100;
/// Penalty of an unmet row, in units of the dearest joint.
const PENALTY: f64 = 30.0;

impl<'a> Master<'a> {
    /// The rows of a pool, no columns yet.
    pub fn new(pool: &'a Pool) -> Master<'a> {
        let dearest = pool.stocks.iter().map(|s| s.cost).max().unwrap_or(1).max(1);
        let splice = pool.groups.iter().map(|g| g.splice_cost).max().unwrap_or(0);
        let mut master = Master {
            pool,
            lp: Simplex::default(),
            rows: Vec::new(),
            linked: BTreeMap::new(),
            sorts: Vec::new(),
            groups: Vec::new(),
            counts: Counts {
                stock: Vec::new(),
                joints: (0, 0),
                splices: (0, 0),
            },
            unit: dearest.max(splice) as f64,
            known: Default::default(),
            known_splicings: Default::default(),
        };
        let all = pieces_at_most(pool) as f64;
        for stock in &pool.stocks {
            let most = stock.limit.map_or(all, |l| f64::from(l).min(all));
            let pair = (
                master.row(Sense::Le, most, 1.0),
                master.row(Sense::Ge, -1.0, 1.0),
            );
            master.counts.stock.push(pair);
        }
        let splices = splices_at_most(pool) as f64 + 1.0;
        // One more than the rows of the single stocks allow together: at the root it never binds, so
        // the bound leans only on what the certificate carries.
        let joints = joints_at_most(pool) as f64 + 1.0;
        master.counts.joints = (
            master.row(Sense::Le, joints, 1.0),
            master.row(Sense::Ge, -1.0, 1.0),
        );
        master.counts.splices = (
            master.row(Sense::Le, splices, 1.0),
            master.row(Sense::Ge, -1.0, 1.0),
        );
        for group in &pool.groups {
            let pieces: u32 = group.lines.iter().map(|l| l.most_splices + 1).sum();
            let row = master.row(Sense::Eq, f64::from(group.count), f64::from(pieces));
            master.groups.push(row);
            if group.count > 0 {
                master.linked.entry(group.class).or_default();
            }
        }
        for (i, item) in pool.items.iter().enumerate().filter(|(_, i)| i.count > 0) {
            master.supply_row(item.class, item.length, Some(i), f64::from(item.count));
        }
        master
    }

    fn row(&mut self, sense: Sense, right: f64, weight: f64) -> usize {
        let row = self.lp.add_row(sense, right, PENALTY * weight);
        self.sorts.extend([Sort::Aid, Sort::Aid]);
        row
    }

    fn supply_row(&mut self, class: u8, length: i64, item: Option<usize>, right: f64) -> usize {
        let lp = self.row(Sense::Ge, right, 1.0);
        let id = self.rows.len();
        self.rows.push(Row {
            class,
            length,
            item,
            lp,
        });
        if let Some(list) = self.linked.get_mut(&class) {
            let at = list.partition_point(|&r| self.rows[r].length < length);
            let below = at.checked_sub(1).map(|b| list[b]);
            let above = list.get(at).copied();
            list.insert(at, id);
            if let Some(below) = below {
                self.exchange(id, below);
            }
            if let Some(above) = above {
                self.exchange(above, id);
            }
        }
        id
    }

    /// A longer piece serves a shorter need.
    fn exchange(&mut self, longer: usize, shorter: usize) {
        let entries = vec![
            (self.rows[longer].lp as u32, -1.0),
            (self.rows[shorter].lp as u32, 1.0),
        ];
        self.lp.add_column(0.0, entries);
        self.sorts.push(Sort::Aid);
    }

    /// So many items, and no lines, that it takes several patterns a round and is shaken.
    pub fn is_large(&self) -> bool {
        self.rows.len() > MANY_ROWS && self.linked.is_empty()
    }

    /// The row of exactly this piece length in a linked class, made when missing.
    pub fn piece_row(&mut self, class: u8, length: i64) -> usize {
        let list = self.linked.entry(class).or_default();
        let at = list.partition_point(|&r| self.rows[r].length < length);
        match list.get(at) {
            Some(&row) if self.rows[row].length == length => row,
            _ => self.supply_row(class, length, None, 0.0),
        }
    }

    /// The shortest row at least this long; `None` past the longest.
    pub fn row_above(&self, class: u8, length: i64) -> Option<usize> {
        let list = self.linked.get(&class)?;
        list.get(list.partition_point(|&r| self.rows[r].length < length))
            .copied()
    }

    /// Weight (length + kerf) of a pattern.
    pub fn weight(&self, cuts: &[(usize, u32)]) -> i64 {
        let each = |&(r, n): &(usize, u32)| (self.rows[r].length + self.pool.kerf) * i64::from(n);
        cuts.iter().map(each).sum()
    }

    /// Cost of a joint cut so, less its credit.
    pub fn pattern_cost(&self, stock: usize, cuts: &[(usize, u32)]) -> i64 {
        super::best_fit::net(self.pool, stock, self.weight(cuts))
            .unwrap_or(self.pool.stocks[stock].cost)
    }

    /// What the program costs now, rounded up to the money all costs share: no bound goes over it.
    pub fn round_up(&self) -> i64 {
        let step = super::bound::money_step(self.pool) as f64;
        let cost = self.lp.objective() * self.unit / step;
        ((cost - 1e-6).ceil() * step) as i64
    }

    /// Steps that copying the program takes.
    pub fn size(&self) -> u64 {
        let rows = (self.rows.len() + self.groups.len()) as u64;
        rows * rows + self.sorts.len() as u64 * 100
    }

    /// Reduced cost of a pattern in the program.
    pub fn pattern_reduced(&self, stock: usize, cuts: &[(usize, u32)]) -> f64 {
        let dual = self.lp.duals();
        let (most, least) = self.counts.stock[stock];
        let (all_most, all_least) = self.counts.joints;
        let pieces: f64 = cuts
            .iter()
            .map(|&(r, n)| dual[self.rows[r].lp] * f64::from(n))
            .sum();
        let counts = dual[most] + dual[least] + dual[all_most] + dual[all_least];
        self.pattern_cost(stock, cuts) as f64 / self.unit - pieces - counts
    }

    /// Reduced cost of a splicing on the present rows.
    pub fn splicing_reduced(&self, group: usize, lines: &[Vec<i64>], money: i64) -> f64 {
        let dual = self.lp.duals();
        let class = self.pool.groups[group].class;
        let splices: usize = lines.iter().map(|l| l.len() - 1).sum();
        let rows = lines
            .iter()
            .flatten()
            .filter_map(|&p| self.row_above(class, p));
        let pieces: f64 = rows.map(|r| dual[self.rows[r].lp]).sum();
        let counts = dual[self.counts.splices.0] + dual[self.counts.splices.1];
        let own = dual[self.groups[group]] + counts * splices as f64;
        money as f64 / self.unit + pieces - own
    }

    /// Adds a pattern; false when it is there already.
    pub fn add_pattern(&mut self, stock: usize, mut cuts: Vec<(usize, u32)>) -> bool {
        cuts.sort_unstable();
        if !self.known.insert((stock, cuts.clone())) {
            return false;
        }
        let cost = self.pattern_cost(stock, &cuts) as f64 / self.unit;
        let (most, least) = self.counts.stock[stock];
        let mut entries: Vec<(u32, f64)> =
            [most, least, self.counts.joints.0, self.counts.joints.1]
                .map(|r| (r as u32, 1.0))
                .to_vec();
        entries.extend(
            cuts.iter()
                .map(|&(r, n)| (self.rows[r].lp as u32, f64::from(n))),
        );
        self.lp.add_column(cost, entries);
        self.sorts.push(Sort::Pattern(stock, cuts));
        true
    }

    /// Adds a splicing at its own money; each piece takes from the shortest row at least as long. False
    /// when it is there already on these rows, or no row is long enough.
    pub fn add_splicing(&mut self, group: usize, lines: Vec<Vec<i64>>, money: i64) -> bool {
        let class = self.pool.groups[group].class;
        let mut taken: BTreeMap<u32, f64> = BTreeMap::new();
        for &piece in lines.iter().flatten() {
            let Some(row) = self.row_above(class, piece) else {
                return false;
            };
            *taken.entry(self.rows[row].lp as u32).or_insert(0.0) -= 1.0;
        }
        let key = (group, lines.clone(), taken.keys().copied().collect());
        if !self.known_splicings.insert(key) {
            return false;
        }
        let splices: usize = lines.iter().map(|l| l.len() - 1).sum();
        let mut entries = vec![(self.groups[group] as u32, 1.0)];
        if splices > 0 {
            entries.push((self.counts.splices.0 as u32, splices as f64));
            entries.push((self.counts.splices.1 as u32, splices as f64));
        }
        entries.extend(taken);
        self.lp.add_column(money as f64 / self.unit, entries);
        self.sorts.push(Sort::Splicing(group, lines));
        true
    }

    /// Rows for what the joints in use leave over: the longest of their pieces made longer by the leftover,
    /// and one more piece of all of it. Lengths worth knowing when lines are spliced.
    pub fn fill_rows(&mut self) -> usize {
        let (mark, kerf) = (self.pool.mark, self.pool.kerf);
        let mut wanted: Vec<(u8, i64)> = Vec::new();
        for (column, value) in self.lp.basics() {
            let Sort::Pattern(stock, cuts) = &self.sorts[column] else {
                continue;
            };
            let left = self.pool.stocks[*stock].usable + kerf - self.weight(cuts);
            if value < 1e-6 || left < mark {
                continue;
            }
            for &class in self.linked.keys() {
                if self.pool.stocks[*stock].serves >> class & 1 == 0 {
                    continue;
                }
                let pieces = cuts
                    .iter()
                    .map(|&(r, _)| self.rows[r])
                    .filter(|r| r.class == class);
                wanted.extend(pieces.map(|r| (class, (r.length + left) / mark * mark)));
                wanted.push((class, (left - kerf) / mark * mark));
            }
        }
        let before = self.rows.len();
        for (class, length) in wanted {
            let shortest = self.pool.groups.iter().filter(|g| g.class == class);
            let least = shortest
                .flat_map(|g| &g.lines)
                .map(|l| l.least_piece.max(mark))
                .min();
            let longest = super::longest_first::longest_piece(self.pool, class, false);
            if least.is_some_and(|l| l <= length) && length <= longest {
                self.piece_row(class, length);
            }
        }
        self.rows.len() - before
    }

    /// The program of the same pool with narrower slots: what is no longer legal costs as much as what is missing.
    pub fn restrict(&mut self, pool: &'a Pool) {
        self.pool = pool;
        let mut dear = Vec::new();
        for (column, sort) in self.sorts.iter().enumerate() {
            if let Sort::Splicing(g, lines) = sort
                && super::rules::configuration_cost(&pool.groups[*g], pool.mark, lines).is_err()
            {
                dear.push(column);
            }
        }
        self.lp.set_costs(&dear, PENALTY * 8.0);
    }

    /// Rows and columns for an answer's configurations; its patterns are added by the caller.
    pub fn add_configurations(&mut self, configurations: &[Configuration]) {
        for c in configurations {
            let group = &self.pool.groups[c.group];
            for &piece in c.lines.iter().flatten() {
                self.piece_row(group.class, piece);
            }
            let money = super::rules::configuration_cost(group, self.pool.mark, &c.lines);
            if let Ok(money) = money {
                self.add_splicing(c.group, c.lines.clone(), money);
            }
        }
    }
}

/// Most pieces the problem can hold: every item and every group with all its splices.
pub(super) fn pieces_at_most(pool: &Pool) -> i64 {
    let items: i64 = pool.items.iter().map(|i| i64::from(i.count)).sum();
    let lines = pool.groups.iter().map(|g| {
        let each: i64 = g.lines.iter().map(|l| i64::from(l.most_splices) + 1).sum();
        each * i64::from(g.count)
    });
    items + lines.sum::<i64>()
}

/// Most joints the rows of the single stocks allow together.
pub(super) fn joints_at_most(pool: &Pool) -> i64 {
    pieces_at_most(pool).saturating_mul(i64::try_from(pool.stocks.len()).unwrap_or(i64::MAX))
}

/// Most splices the problem can hold.
pub(super) fn splices_at_most(pool: &Pool) -> i64 {
    let each = |g: &super::problem::Group| -> i64 {
        g.lines
            .iter()
            .map(|l| i64::from(l.most_splices))
            .sum::<i64>()
            * i64::from(g.count)
    };
    pool.groups.iter().map(each).sum()
}
