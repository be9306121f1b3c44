//! Every pattern that a packing into so many joints may hold, when they are few.
//!
//! Under any values of the kinds the joints of a packing are together worth what all pieces are. Where no joint
//! is worth more than `most`, each is so worth at least all pieces less `most` for every other joint. What falls
//! short is in no packing, and what is left under one set of values is sifted by the next. All of it is done in
//! whole numbers; the program in floats only proposes the values. Once every pattern is listed a node needs no
//! pricing: its bound is summed over the list (R. Baldacci, N. Christofides, A. Mingozzi 2008).

use super::super::converge::Budget;
use super::fill::Fill;
use super::lot::Cuts;
use super::parity::{Parity, lacking};
use super::program::{PENALTY, PIVOTS, Program, SLIGHT, TAKEN, Verdict, whole};

/// Patterns in a list.
const LISTED: usize = 20_000;
/// Rounds of pricing under one set of right sides.
const ROUNDS: u32 = 100;
/// Right sides tried for other values that bound the joints alike.
const LEANINGS: u64 = 6;
/// Rounds of cuts in a node that has none yet.
const ROOT_ROUNDS: u32 = 10;
/// Rounds of cuts in another.
const CUT_ROUNDS: u32 = 3;
/// Cuts of a round.
const CUTS: usize = 20;
/// Most that a right side is moved by, as a part of it.
const LEAN: f64 = 0.01;

impl Program<'_> {
    /// Every pattern that a packing may hold. The right sides are not what they were after it.
    pub fn list(&mut self, table: &mut Vec<i64>, budget: &mut Budget<'_>) -> Option<Vec<Cuts>> {
        let mut list: Option<Vec<Cuts>> = None;
        for leaning in 0..LEANINGS {
            self.lean(leaning);
            let (values, most) = self.settle(table, budget);
            if budget.over() {
                return None;
            }
            let need = self.need(self.all(&values), most);
            match &mut list {
                Some(list) => list.retain(|cuts| i128::from(worth(&values, cuts)) >= need),
                None => {
                    let mut fill = Fill::new(self.lot, &values, std::mem::take(table));
                    list = fill.every(i64::try_from(need).ok()?, LISTED);
                    budget.spend(fill.work);
                    *table = fill.into_table();
                }
            }
        }
        list
    }

    /// Moves the right sides: not at all, then away from what the columns hold in the mean (their reduced costs
    /// grow), then up and down by chance.
    fn lean(&mut self, leaning: u64) {
        let mut held = vec![0.0; self.rows.len()];
        for &(k, n) in self.columns.iter().flatten() {
            held[k as usize] += f64::from(n);
        }
        let times = self.lot.bins as f64 / self.columns.len().max(1) as f64;
        for (k, row) in self.rows.iter().enumerate() {
            let Some(row) = row else { continue };
            let count = f64::from(self.lot.kinds[k].count());
            let chance = (k as u64 + 1 + leaning * 7919).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40;
            let by = match leaning {
                0 => 0.0,
                1 => count - held[k] * times,
                _ => count * (chance as f64 / f64::from(1u32 << 23) - 1.0),
            };
            self.lp.set_right(*row, (count + by * LEAN).max(0.0));
        }
    }

    /// Values under the present right sides, and what no pattern passes.
    fn settle(&mut self, table: &mut Vec<i64>, budget: &mut Budget<'_>) -> (Vec<i64>, i64) {
        let mut round = 0;
        loop {
            self.lp.solve(PIVOTS, &mut |steps| budget.spend(steps));
            round += 1;
            let values = self.values();
            let mut fill = Fill::new(self.lot, &values, std::mem::take(table));
            let mut added = 0;
            for (_, cuts) in fill.led(SLIGHT) {
                added += usize::from(self.add(cuts));
                if added >= TAKEN {
                    break;
                }
            }
            let last = added == 0 || round >= ROUNDS || budget.over();
            let (most, found) = if last { fill.best(1) } else { (1, None) };
            added += usize::from(most > SLIGHT && found.is_some_and(|cuts| self.add(cuts)));
            let over = budget.spend(fill.work);
            *table = fill.into_table();
            if last && (added == 0 || round >= ROUNDS || over) {
                return (values, most);
            }
        }
    }

    /// Decides over a list, and sifts it.
    pub fn decide_whole(&mut self, budget: &mut Budget<'_>) -> Verdict {
        let mut held = vec![false; self.rows.len()];
        for &(k, _) in self.columns.iter().flatten() {
            held[k as usize] = true;
        }
        if self
            .rows
            .iter()
            .zip(held)
            .any(|(r, held)| r.is_some() && !held)
        {
            return Verdict::Empty;
        }
        let most = if self.cuts.is_empty() {
            ROOT_ROUNDS
        } else {
            CUT_ROUNDS
        };
        let mut open = vec![true; self.columns.len()];
        for round in 0.. {
            while !self.lp.solve(PIVOTS, &mut |steps| budget.spend(steps)) {
                if budget.over() {
                    return Verdict::Unknown;
                }
            }
            if self.sift(&mut open) {
                return Verdict::Empty;
            }
            budget.spend(self.columns.len() as u64 * (10 + 3 * self.cuts.len() as u64));
            let broken = self.broken();
            let cuts = if round < most && self.lp.is_feasible() {
                lacking(self.lot, &broken, CUTS)
            } else {
                Vec::new()
            };
            if cuts.is_empty() {
                return Verdict::Broken(broken);
            }
            for cut in cuts {
                self.cut(cut);
            }
        }
        Verdict::Unknown
    }

    /// Closes the columns that no packing holds; true when there is no packing at all.
    fn sift(&mut self, open: &mut [bool]) -> bool {
        let values = self.values();
        let dual = self.lp.duals();
        let cuts = self.cuts.iter();
        let cuts = cuts.map(|(cut, row)| (cut, whole(-dual[*row])));
        let cuts: Vec<(&Parity, i64)> = cuts.filter(|c| c.1 > 0).collect();
        let worth = |c: &Cuts| {
            let odd = cuts.iter().filter(|(cut, _)| cut.is_odd(c));
            worth(&values, c) + odd.map(|c| c.1).sum::<i64>()
        };
        let worths: Vec<i64> = self.columns.iter().map(worth).collect();
        let there = worths.iter().zip(&*open).filter(|w| *w.1);
        let most = there.map(|w| *w.0).max().unwrap_or(0);
        let all = self.all(&values) + cuts.iter().map(|c| i128::from(c.1)).sum::<i128>();
        let need = self.need(all, most);
        for (c, worth) in worths.iter().enumerate() {
            if open[c] && i128::from(*worth) < need {
                open[c] = false;
                self.lp.close(self.first + c);
            }
        }
        need > i128::from(most)
    }

    /// Takes cuts over, those that still hold.
    pub fn take(&mut self, cuts: &[Parity]) {
        for cut in cuts.iter().filter(|c| c.holds(self.lot)) {
            self.cut(cut.clone());
        }
    }

    /// At least one joint holds an odd number, as a row of at most −1.
    fn cut(&mut self, cut: Parity) {
        let odd = self.columns.iter().enumerate().filter(|c| cut.is_odd(c.1));
        let entries: Vec<(usize, f64)> = odd.map(|c| (self.first + c.0, -1.0)).collect();
        let row = self.lp.add_cut(-1.0, PENALTY, &entries);
        self.cuts.push((cut, row));
    }
}

/// What a pattern is worth.
fn worth(values: &[i64], cuts: &Cuts) -> i64 {
    let each = |&(k, n): &(u32, u32)| values[k as usize] * i64::from(n);
    cuts.iter().map(each).sum()
}
