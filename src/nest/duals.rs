//! Integer duals of the master program, made exact before anything is priced with them.
//!
//! Scaled by a power of two and rounded down to integers ≥ 0, and in a linked class made to rise with
//! length.

use super::master::{Master, joints_at_most, splices_at_most};
use super::proof::{Counted, Leaf, Multiplier};

/// Integer duals in units of 1/`scale` money.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Duals {
    /// Denominator.
    pub scale: i64,
    /// Per supply row (in a linked class the value of a piece so long).
    pub rows: Vec<i64>,
    /// Multipliers of the counting rows: per stock at least, joints and splices at most and at least.
    pub stock: Vec<i64>,
    /// All joints: at most (≤ 0), at least (≥ 0).
    pub joints: (i64, i64),
    /// All splices: at most (≤ 0), at least (≥ 0).
    pub splices: (i64, i64),
}

/// Reduced costs nearer to 0 than this part of the unit do not matter.
pub(super) const SLIGHT: f64 = 1e-8;

impl Duals {
    /// The present duals of the program in integers.
    pub fn of(master: &Master<'_>) -> Duals {
        let bits = 64 - (master.unit as u64).leading_zeros();
        let scale = 1i64 << (44u32.saturating_sub(bits)).min(30);
        let factor = master.unit * scale as f64;
        let dual = master.lp.duals();
        let down = |row: usize| (dual[row] * factor).floor() as i64;
        let mut rows: Vec<i64> = master.rows.iter().map(|r| down(r.lp).max(0)).collect();
        for list in master.linked.values() {
            let mut before = 0;
            for &r in list {
                before = rows[r].max(before);
                rows[r] = before;
            }
        }
        let pair = |(most, least): (usize, usize)| (down(most).min(0), down(least).max(0));
        Duals {
            scale,
            rows,
            stock: master
                .counts
                .stock
                .iter()
                .map(|&(_, least)| down(least).max(0))
                .collect(),
            joints: pair(master.counts.joints),
            splices: pair(master.counts.splices),
        }
    }

    /// Σ multiplier × right side over the counting rows.
    pub fn fixed(&self, master: &Master<'_>) -> i128 {
        let counts = &master.counts;
        let term = |m: i64, row: usize| i128::from(m) * master.lp.right(row) as i128;
        let pair =
            |(a, b): (i64, i64), (most, least): (usize, usize)| term(a, most) + term(b, least);
        let stocks = self
            .stock
            .iter()
            .zip(&counts.stock)
            .map(|(&m, &(_, least))| term(m, least));
        stocks.sum::<i128>() + pair(self.joints, counts.joints) + pair(self.splices, counts.splices)
    }

    /// What the counting rows pay a joint of a stock.
    pub fn share(&self, stock: usize) -> i64 {
        self.stock[stock] + self.joints.0 + self.joints.1
    }

    /// `parts` sixteenths of these and the rest of others; rows made since have the value of the row
    /// below them.
    pub fn blend(&self, others: &Duals, parts: i64, master: &Master<'_>) -> Duals {
        let mut old = self.rows.clone();
        old.resize(master.rows.len(), 0);
        for list in master.linked.values() {
            let mut before = 0;
            for &r in list {
                before = old[r].max(before);
                old[r] = before;
            }
        }
        let mix = |a: i64, b: i64| (a * parts + b * (16 - parts)).div_euclid(16);
        let mixed = |a: &[i64], b: &[i64]| a.iter().zip(b).map(|(a, b)| mix(*a, *b)).collect();
        let pair = |a: (i64, i64), b: (i64, i64)| (mix(a.0, b.0), mix(a.1, b.1));
        Duals {
            scale: self.scale,
            rows: mixed(&old, &others.rows),
            stock: mixed(&self.stock, &others.stock),
            joints: pair(self.joints, others.joints),
            splices: pair(self.splices, others.splices),
        }
    }

    /// Reduced costs above this are worth a column.
    pub fn slight(&self, master: &Master<'_>) -> i64 {
        (SLIGHT * master.unit * self.scale as f64) as i64
    }

    /// Jumps of the value of a piece of a linked class: (row length, rise), ascending.
    pub fn jumps(&self, master: &Master<'_>, class: u8) -> Vec<(i64, i64)> {
        let mut before = 0;
        let mut jumps = Vec::new();
        for &r in master
            .linked
            .get(&class)
            .map(Vec::as_slice)
            .unwrap_or_default()
        {
            // Rows made after these duals have none.
            let dual = self.rows.get(r).copied().unwrap_or(0);
            if dual > before {
                jumps.push((master.rows[r].length, dual - before));
                before = dual;
            }
        }
        jumps
    }
}

impl Duals {
    /// These duals as they leave the room. Multipliers of counts that nothing bounds are left out: they
    /// can only have cost the bound something.
    pub fn leaf(&self, master: &Master<'_>) -> Leaf {
        let pool = master.pool;
        let mut leaf = Leaf::nothing(pool.items.len());
        leaf.dual_scale = self.scale;
        for (row, dual) in master.rows.iter().zip(&self.rows) {
            if let Some(item) = row.item {
                leaf.item_duals[item] = *dual;
            }
        }
        for &class in master.linked.keys() {
            let jumps = self.jumps(master, class).into_iter();
            leaf.length_duals
                .extend(jumps.map(|(length, rise)| (length, class, rise)));
        }
        let all = |n: usize| (0..n).collect();
        let counts = [
            (
                Counted::Joints(all(pool.stocks.len())),
                self.joints,
                master.counts.joints,
            ),
            (
                Counted::Splices(all(pool.groups.len())),
                self.splices,
                master.counts.splices,
            ),
        ];
        let free = [joints_at_most(pool), splices_at_most(pool)];
        for ((counted, (most, least), (top, bottom)), free) in counts.into_iter().zip(free) {
            let capped = master.lp.right(top) <= free as f64;
            let floored = master.lp.right(bottom) >= 0.0;
            let value = if capped { most } else { 0 } + if floored { least } else { 0 };
            if value != 0 {
                leaf.multipliers.push(Multiplier { counted, value });
            }
        }
        leaf
    }
}
