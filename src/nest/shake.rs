//! Shaking a large program: right sides a little apart, and exactly back.
//!
//! Many equal right sides make a program stand on one spot for hundreds of steps; duals are valid whatever the
//! right sides were.

use super::master::Master;

/// Most that a right side is moved by, as a part of it.
const SHAKE: f64 = 1e-3;

impl Master<'_> {
    /// Moves the right side of every item's row up a little, or back to the item's count. False when the
    /// program is too small to gain by it.
    pub fn shake(&mut self, on: bool) -> bool {
        if !self.is_large() {
            return false;
        }
        for r in 0..self.rows.len() {
            let part = (r as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40;
            let lp = self.rows[r].lp;
            let count = self.rows[r].item.map_or(0, |i| self.pool.items[i].count);
            let by = if on {
                SHAKE * (part as f64 / (1u64 << 24) as f64)
            } else {
                0.0
            };
            self.lp.set_right(lp, f64::from(count) * (1.0 + by));
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::super::problem::{Credit, Item, Pool, Stock};
    use super::*;

    /// A right side a hair under its count would be read as one piece less, and bounds would be false.
    #[test]
    fn right_sides_come_back_exactly() {
        let item = |n: i64| Item {
            length: 100 + n,
            count: 1 + (n % 3) as u32,
            class: 0,
        };
        let pool = Pool {
            name: "p".into(),
            mark: 1,
            kerf: 0,
            credit: Credit::NONE,
            stocks: vec![Stock {
                name: "s".into(),
                usable: 1000,
                cost: 1,
                price: None,
                limit: None,
                serves: 1,
                length: 1000,
            }],
            items: (0..400).map(item).collect(),
            groups: Vec::new(),
        };
        let mut master = Master::new(&pool);
        let rights =
            |m: &Master<'_>| -> Vec<f64> { m.rows.iter().map(|r| m.lp.right(r.lp)).collect() };
        let before = rights(&master);
        assert!(master.shake(true), "large enough to be shaken");
        assert_ne!(rights(&master), before);
        master.shake(false);
        assert_eq!(rights(&master), before);
    }
}
