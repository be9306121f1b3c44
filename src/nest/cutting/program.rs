//! One node's program: may the joints left hold what is left, in broken numbers?
//!
//! Columns are generated only until the answer is known: yes when the program with the columns at hand does
//! with the joints left, no when its duals, in exact integers, show that it never can (A. A. Farley 1990:
//! Σ value·count over the most a joint is worth bounds the joints from below).

use super::super::converge::Budget;
use super::super::simplex::{Sense, Simplex};
use super::fill::Fill;
use super::lot::{Cuts, Lot};
use super::parity::Parity;

/// What a node came to.
#[derive(Clone, Debug)]
pub(super) enum Verdict {
    /// No packing lies here.
    Empty,
    /// Steps or rounds ran out.
    Unknown,
    /// Patterns with their broken times.
    Broken(Vec<(Cuts, f64)>),
}

/// Values are whole numbers of 1/SCALE joint.
pub(super) const SCALE: i64 = 1 << 24;
/// Joints that an unmet piece costs.
pub(super) const PENALTY: f64 = 6.0;
/// Columns of a list cost a little more than one joint, each by another multiple of this: a program of equal costs
/// would stand on the same spot while cuts come in.
const APART: f64 = 1e-6 / (1u64 << 24) as f64;
/// Joints that a piece is worth at most.
const LARGEST: f64 = 64.0;
/// Patterns worth no more are not worth a column.
pub(super) const SLIGHT: i64 = SCALE + SCALE / 1_000_000;
/// Rounds of pricing in a node.
const ROUNDS: u32 = 3_000;
/// Pivots in one solve.
pub(super) const PIVOTS: u32 = 1_000;
/// Patterns taken in a round.
pub(super) const TAKEN: usize = 40;
/// What counts as nothing in broken numbers.
pub(super) const NOTHING: f64 = 1e-7;
/// Columns handed down, for each row.
const HANDED: usize = 4;

/// A dual as a value: rounded down, neither negative nor so large that sums overflow.
pub(super) fn whole(dual: f64) -> i64 {
    (dual.clamp(0.0, LARGEST) * SCALE as f64).floor() as i64
}

/// Columns that a node hands down.
#[derive(Clone, Debug, Default)]
pub(super) struct Handed {
    pub columns: Vec<Cuts>,
    /// So many of them, the first ones, were its basis.
    pub basis: usize,
    /// Kinds whose row had its slack in the basis.
    pub loose: Vec<u32>,
}

/// The program of a lot.
pub(super) struct Program<'l> {
    pub(super) lot: &'l Lot,
    pub(super) lp: Simplex,
    /// Row of each kind; kinds without pieces have none.
    pub(super) rows: Vec<Option<usize>>,
    /// Pattern of each column from `first` on.
    pub(super) columns: Vec<Cuts>,
    pub(super) first: usize,
    /// The columns are all that a packing may hold.
    whole: bool,
    /// Cuts by parity, with their rows.
    pub(super) cuts: Vec<(Parity, usize)>,
    known: std::collections::BTreeSet<Cuts>,
    /// How many columns, the first ones, were the basis of the node above.
    basis: usize,
}

impl<'l> Program<'l> {
    /// With these columns, those that the lot does not allow left out. `whole`: a packing holds no others.
    pub fn new(lot: &'l Lot, handed: &Handed, whole: bool) -> Program<'l> {
        let mut lp = Simplex::default();
        let row = |kind: &super::lot::Kind| {
            let count = f64::from(kind.count());
            (count > 0.0).then(|| lp.add_row(Sense::Ge, count, PENALTY))
        };
        let rows: Vec<Option<usize>> = lot.kinds.iter().map(row).collect();
        let first = rows.iter().flatten().count() * 2;
        let mut program = Program {
            lot,
            lp,
            rows,
            columns: Vec::new(),
            first,
            whole,
            cuts: Vec::new(),
            known: Default::default(),
            basis: 0,
        };
        let waste = lot.waste();
        for (c, cuts) in handed.columns.iter().enumerate() {
            if lot.allows(cuts) && lot.room - lot.weight(cuts) <= waste {
                let new = program.add(cuts.clone());
                program.basis += usize::from(new && c < handed.basis);
            }
        }
        program
    }

    /// Starts from the basis of the node above.
    pub fn start(&mut self, loose: &[u32], budget: &mut Budget<'_>) {
        let before = self.lp.work;
        let row = |&k: &u32| self.rows.get(k as usize).copied().flatten();
        // Each row's penalty comes before its slack.
        let slacks = loose.iter().filter_map(row).map(|r| r * 2 + 1);
        let basis: Vec<usize> = slacks.chain(self.first..self.first + self.basis).collect();
        self.lp.start_from(&basis);
        budget.spend(self.lp.work - before);
    }

    pub(super) fn add(&mut self, cuts: Cuts) -> bool {
        if !self.known.insert(cuts.clone()) {
            return false;
        }
        let entry = |&(k, n): &(u32, u32)| Some((self.rows[k as usize]? as u32, f64::from(n)));
        let entries = cuts.iter().filter_map(entry).collect();
        let apart = (self.columns.len() as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40;
        let cost = if self.whole {
            1.0 + APART * apart as f64
        } else {
            1.0
        };
        self.lp.add_column(cost, entries);
        self.columns.push(cuts);
        true
    }

    /// Values of kinds in whole numbers, rounded down.
    pub(super) fn values(&self) -> Vec<i64> {
        let dual = self.lp.duals();
        let value = |row: &Option<usize>| row.map_or(0, |r| whole(dual[r]));
        self.rows.iter().map(value).collect()
    }

    /// The present answer: joints, and whether every piece is met.
    fn joints(&self) -> (f64, bool) {
        let (mut joints, mut unmet) = (0.0, 0.0);
        for (column, value) in self.lp.basics() {
            if column >= self.first {
                joints += value;
            } else if column % 2 == 0 {
                // Each row's penalty comes before its slack.
                unmet += value;
            }
        }
        (joints, unmet < NOTHING)
    }

    /// The cuts that bear on the answer.
    pub fn binding(&self) -> Vec<Parity> {
        let dual = self.lp.duals();
        let bears = |c: &&(Parity, usize)| dual[c.1] < -NOTHING;
        self.cuts
            .iter()
            .filter(bears)
            .map(|c| c.0.clone())
            .collect()
    }

    /// Decides; `table` is memory used again.
    pub fn decide(&mut self, table: &mut Vec<i64>, budget: &mut Budget<'_>) -> Verdict {
        if self.whole {
            return self.decide_whole(budget);
        }
        for _ in 0..ROUNDS {
            self.lp.solve(PIVOTS, &mut |steps| budget.spend(steps));
            if budget.over() {
                return Verdict::Unknown;
            }
            let (joints, met) = self.joints();
            if met && joints <= self.lot.bins as f64 + NOTHING {
                return Verdict::Broken(self.broken());
            }
            let values = self.values();
            let all = self.all(&values);
            let bins = i128::from(self.lot.bins);
            let too_many = |most: i64| all > i128::from(most) * bins;
            let mut fill = Fill::new(self.lot, &values, std::mem::take(table));
            let mut added = 0;
            let mut empty = too_many(fill.bound().max(SCALE));
            let led = if empty { Vec::new() } else { fill.led(SLIGHT) };
            for (_, cuts) in led {
                added += usize::from(self.add(cuts));
                if added >= TAKEN {
                    break;
                }
            }
            if added == 0 && !empty {
                let (most, found) = fill.best(SCALE);
                empty = too_many(most);
                added += usize::from(found.is_some_and(|cuts| self.add(cuts)));
            }
            let over = budget.spend(fill.work);
            *table = fill.into_table();
            if empty {
                return Verdict::Empty;
            }
            if over || added == 0 {
                return Verdict::Unknown;
            }
        }
        Verdict::Unknown
    }

    /// What a joint must be worth at least where none is worth more than `most`: all pieces less the other
    /// joints at their best.
    pub(super) fn need(&self, all: i128, most: i64) -> i128 {
        all - i128::from(most) * i128::from(self.lot.bins - 1)
    }

    /// Σ value·count.
    pub(super) fn all(&self, values: &[i64]) -> i128 {
        let worth = |(kind, value): (&super::lot::Kind, &i64)| {
            i128::from(*value) * i128::from(kind.count())
        };
        self.lot.kinds.iter().zip(values).map(worth).sum()
    }

    /// The present values made such that no joint whatever holds more than `SCALE`.
    pub fn certificate(&self, table: &mut Vec<i64>, budget: &mut Budget<'_>) -> Vec<i64> {
        let values = self.values();
        let mut fill = Fill::any(self.lot, &values, std::mem::take(table));
        let (most, _) = fill.best(SCALE);
        budget.spend(fill.work);
        *table = fill.into_table();
        let part = |v: &i64| i64::try_from(i128::from(*v) * i128::from(SCALE) / i128::from(most));
        values.iter().map(|v| part(v).unwrap_or(0)).collect()
    }

    pub(super) fn broken(&self) -> Vec<(Cuts, f64)> {
        let end = self.first + self.columns.len();
        let mut used: Vec<(usize, f64)> = self
            .lp
            .basics()
            .filter(|(c, v)| (self.first..end).contains(c) && *v > NOTHING)
            .collect();
        used.sort_by_key(|u| u.0);
        used.into_iter()
            .map(|(c, v)| (self.columns[c - self.first].clone(), v))
            .collect()
    }

    /// The columns worth handing down: the basic ones, then those of least reduced cost; all of a list.
    pub fn handed(self) -> Handed {
        let dual = self.lp.duals();
        let mut basic = vec![false; self.columns.len()];
        let mut slack = vec![false; self.first / 2];
        for (column, _) in self.lp.basics() {
            match column.checked_sub(self.first) {
                // Rows of cuts have columns, too.
                Some(c) => basic.get_mut(c).into_iter().for_each(|b| *b = true),
                None => slack[column / 2] |= column % 2 == 1,
            }
        }
        let kinds = (0u32..).zip(&self.rows);
        let loose = kinds.filter(|(_, row)| row.is_some_and(|r| slack[r]));
        let loose = loose.map(|(k, _)| k).collect();
        let reduced = |cuts: &Cuts| {
            if self.whole {
                return 0.0;
            }
            let worth = |&(k, n): &(u32, u32)| {
                self.rows[k as usize].map_or(0.0, |r| dual[r] * f64::from(n))
            };
            1.0 - cuts.iter().map(worth).sum::<f64>()
        };
        let mut ranked: Vec<(bool, f64, usize)> = self
            .columns
            .iter()
            .enumerate()
            .filter(|(c, _)| self.lp.is_open(self.first + c))
            .map(|(c, cuts)| (!basic[c], reduced(cuts), c))
            .collect();
        ranked.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
        if !self.whole {
            ranked.truncate(self.first / 2 * HANDED);
        }
        let first = ranked.iter().filter(|r| !r.0).count();
        let mut columns = self.columns;
        let take = |(_, _, c): (bool, f64, usize)| std::mem::take(&mut columns[c]);
        Handed {
            columns: ranked.into_iter().map(take).collect(),
            basis: first,
            loose,
        }
    }
}
