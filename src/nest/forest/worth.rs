//! What trees are worth under a bound's duals, and by how much a cheaper plan may be off.

use super::super::chain::cheapest;
use super::super::grid::Grid;
use super::super::lattice::{Span, centre_unit, pieces_sum, stretches};
use super::super::leaves::Place;
use super::super::listing::Tables;
use super::super::problem::{Line, Pool};
use super::kinds::{Content, Kinds};

/// An item as its joints see it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Thing {
    /// Index into the pool's items.
    pub item: usize,
    /// Length + kerf.
    pub weight: i64,
    /// Worth of one.
    pub value: i64,
}

/// Ends of a line by the charge of their slot: spans of lengths, ascending.
type Ends = Vec<(i64, Vec<(i64, i64)>)>;

/// Lines alike.
#[derive(Clone, Debug)]
pub(super) struct LineKind<'p> {
    line: &'p Line,
    banned: &'p [Span],
    /// Its number among all kinds.
    pub kind: usize,
    /// Class bit index.
    pub class: u8,
    /// Money of its splice.
    pub splice_cost: i64,
    /// What its pieces sum to.
    pub total: i64,
    /// The least its splice, charge and pieces come to.
    pub worth: i64,
    /// Where the piece before the splice may end.
    pub first: Ends,
    /// The same of the piece after it.
    pub last: Ends,
    /// How many.
    pub count: u32,
}

/// All of it.
pub(super) struct Worth<'p> {
    pub pool: &'p Pool,
    pub kinds: Kinds,
    pub items: Vec<Thing>,
    pub line_kinds: Vec<LineKind<'p>>,
    /// Kind of each line of each group.
    pub of: Vec<Vec<usize>>,
    /// Longest usable length + kerf.
    pub room: i64,
    grid: Grid,
    tables: Tables<'p>,
    /// Kind and base of each limited stock.
    stocks: Vec<Option<(usize, i64)>>,
    gap: i64,
    serves: u32,
    /// Steps done.
    pub work: u64,
}

/// Where splices of each line of each group may not stand.
pub(super) type Banned = Vec<Vec<Vec<Span>>>;

/// Every joint may hold every piece, and every line is spliced once and too long for a closed round: k joints
/// on a round would hold k lines, and they do not.
pub(super) fn is_forest(pool: &Pool) -> bool {
    let groups = || pool.groups.iter().filter(|g| g.count > 0);
    let classes = pool.items.iter().filter(|i| i.count > 0).map(|i| i.class);
    let classes = classes
        .chain(groups().map(|g| g.class))
        .fold(0u32, |set, class| set | 1 << class);
    let longest = pool.stocks.iter().map(|s| s.usable).max().unwrap_or(0);
    let once = |line: &Line| {
        (line.least_splices, line.most_splices) == (1, 1)
            && pieces_sum(line, pool.mark, 1) + pool.kerf > longest
    };
    groups().next().is_some()
        && pool.stocks.iter().all(|s| s.serves & classes == classes)
        && groups().flat_map(|g| &g.lines).all(once)
}

impl<'p> Worth<'p> {
    /// Under a leaf's duals, for plans of `goal` at most; `None` where no plan so cheap is left or numbers are
    /// too large.
    pub fn new(
        pool: &'p Pool,
        place: &Place,
        banned: &'p Banned,
        goal: i64,
    ) -> Result<Worth<'p>, Unfit> {
        let grid = Grid::new(pool, place, &[]);
        let mut tables = Tables::new(pool, &grid);
        let least = tables.least_reduced(pool, &grid);
        let mut sum = grid.items_worth();
        let mut most: Vec<u32> = Vec::new();
        let mut items = Vec::new();
        for (i, item) in pool.items.iter().enumerate().filter(|(_, i)| i.count > 0) {
            let row = grid
                .rows
                .iter()
                .find(|r| (r.class, r.length) == (item.class, item.length));
            items.push(Thing {
                item: i,
                weight: item.length + pool.kerf,
                value: row.ok_or(Unfit::Large)?.value,
            });
            most.push(item.count);
        }
        let mut stocks = Vec::new();
        for ((stock, least), span) in pool.stocks.iter().zip(least).zip(&place.stock) {
            let base = least.min(0);
            sum += i128::from(base) * i128::from(span.1);
            stocks.push(stock.limit.map(|limit| {
                most.push(limit.min(span.1.try_into().unwrap_or(u32::MAX)));
                (most.len() - 1, base)
            }));
        }
        let mut worth = Worth {
            pool,
            kinds: Kinds::new(&[]).ok_or(Unfit::Large)?,
            items,
            line_kinds: Vec::new(),
            of: Vec::new(),
            room: pool.stocks.iter().map(|s| s.usable).max().unwrap_or(0) + pool.kerf,
            work: tables.work(),
            serves: pool.stocks.first().map_or(0, |s| s.serves),
            grid,
            tables,
            stocks,
            gap: 0,
        };
        for (g, banned) in banned.iter().enumerate() {
            worth.group(g, banned, &mut most)?;
        }
        for line in &worth.line_kinds {
            sum += i128::from(line.worth) * i128::from(line.count);
        }
        let gap = i128::from(goal) * i128::from(worth.grid.scale) - sum;
        if gap < 0 {
            return Err(Unfit::Nothing);
        }
        worth.gap = i64::try_from(gap).map_err(|_| Unfit::Large)?;
        worth.kinds = Kinds::new(&most).ok_or(Unfit::Large)?;
        Ok(worth)
    }

    /// The lines of a group of one.
    fn group(
        &mut self,
        g: usize,
        banned: &'p [Vec<Span>],
        most: &mut Vec<u32>,
    ) -> Result<(), Unfit> {
        let group = &self.pool.groups[g];
        let mut of = Vec::new();
        for (line, banned) in group.lines.iter().zip(banned) {
            if group.count == 0 {
                continue;
            }
            let alike = |k: &LineKind<'_>| {
                k.line == line
                    && k.banned == banned.as_slice()
                    && (k.class, k.splice_cost) == (group.class, group.splice_cost)
            };
            if let Some(known) = self.line_kinds.iter().position(alike) {
                self.line_kinds[known].count += group.count;
                most[self.line_kinds[known].kind] += group.count;
                of.push(known);
                continue;
            }
            let price = self.grid.prices.get(&group.class).ok_or(Unfit::Large)?;
            let (mark, unit) = (self.pool.mark, centre_unit(group));
            let splice = (self.grid.scale, self.grid.scale * group.splice_cost);
            self.work += 20_000;
            let least = cheapest(line, (mark, unit), price, splice, banned);
            let total = pieces_sum(line, mark, 1);
            let runs = stretches(line, mark, unit, (1, 1), banned);
            let turned = |s: (i64, i64)| (total - s.1, total - s.0);
            of.push(self.line_kinds.len());
            self.line_kinds.push(LineKind {
                line,
                banned,
                kind: most.len(),
                class: group.class,
                splice_cost: group.splice_cost,
                total,
                worth: least.ok_or(Unfit::Nothing)?.value,
                first: ends(runs.iter().map(|s| (s.charge, (s.from, s.to)))),
                last: ends(
                    runs.iter()
                        .rev()
                        .map(|s| (s.charge, turned((s.from, s.to)))),
                ),
                count: group.count,
            });
            most.push(group.count);
        }
        self.of.push(of);
        Ok(())
    }

    /// How many lines.
    pub fn lines(&self) -> usize {
        self.line_kinds.iter().map(|k| k.count as usize).sum()
    }

    /// What taking one of a stock adds to a content, and its base.
    pub fn taken(&self, stock: usize) -> (Content, i64) {
        self.stocks[stock].map_or((0, 0), |(kind, base)| (self.kinds.one(kind), base))
    }

    /// Money and worth so far are within the gap.
    pub fn pays(&self, money: i64, worth: i64) -> bool {
        let reduced = i128::from(money) * i128::from(self.grid.scale) - i128::from(worth);
        reduced <= i128::from(self.gap)
    }

    /// The same of a tree that hangs by a piece.
    pub fn hung_pays(&self, class: u8, piece: i64, money: i64, worth: i64) -> bool {
        let value = self.grid.worth(class, piece);
        value.is_some_and(|value| self.pays(money, worth - value))
    }

    /// The same of an open joint, whichever stock it is and whatever fills it up.
    pub fn joint_pays(&self, length: i64, money: i64, worth: i64) -> bool {
        let kerf = self.pool.kerf;
        self.pool.stocks.iter().zip(&self.stocks).any(|(s, own)| {
            let room = s.usable + kerf - length;
            room >= 0 && {
                let filled = self.tables.worth_at(self.serves, room);
                self.pays(money + s.cost, worth + own.map_or(0, |o| o.1) + filled)
            }
        })
    }

    /// The longest ends that leave nothing credited, and then each number of feet, in this room.
    pub fn ends(&self, room: i64) -> impl Iterator<Item = i64> {
        let (kerf, mark) = (self.pool.kerf, self.pool.mark);
        let credit = self.pool.credit;
        let foot = credit.foot.max(1);
        let full = room - kerf;
        let feet = (credit.per_foot > 0).then_some(full - kerf);
        let steps = feet.into_iter().flat_map(move |left| {
            let first = (credit.keep.max(0) / foot).max(1);
            (first..=left.max(0) / foot).map(move |n| left - (n * foot).max(credit.keep))
        });
        std::iter::once(full)
            .chain(steps)
            .map(move |end| end.div_euclid(mark) * mark)
    }
}

/// Why nothing can be grown.
pub(super) enum Unfit {
    /// Nothing so cheap is left.
    Nothing,
    /// Too much.
    Large,
}

fn ends(all: impl Iterator<Item = (i64, (i64, i64))>) -> Ends {
    let mut found: std::collections::BTreeMap<i64, Vec<(i64, i64)>> = Default::default();
    for (charge, run) in all {
        found.entry(charge).or_default().push(run);
    }
    found.into_iter().collect()
}
