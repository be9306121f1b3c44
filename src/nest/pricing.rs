//! Pricing: the columns the master program lacks, and what their absence proves.
//!
//! Duals are turned into integers ≥ 0 first (scaled by a power of two and rounded down; in a linked class
//! made to rise with length), so every oracle works exactly and its results enter the certified bound of
//! DESIGN §9 as they are:
//! Σ πᵢnᵢ + Σ multiplier·right side + Σₛ Nₛ·min(0, rₛ) + Σ_g N_g·q_g.

use super::couple::{Coupled, couple};
use super::longest_first::longest_piece;
use super::master::{Master, pieces_at_most};
use super::oracle::{Oracle, Thing};
use super::price::Price;

/// Integer duals in units of 1/`scale` money.
#[derive(Clone, Debug)]
pub(super) struct Duals {
    /// Denominator.
    pub scale: i64,
    /// Per supply row.
    pub rows: Vec<i64>,
    /// Per stock: sum of the multipliers of the branch rows it is in.
    pub stocks: Vec<i64>,
    /// Multiplier of the splice rows.
    pub splices: i64,
    /// Σ multiplier × right side of the branch rows.
    pub fixed: i128,
}

/// What a round of pricing proved and added.
#[derive(Clone, Debug, Default)]
pub(super) struct Priced {
    /// Columns added.
    pub added: usize,
    /// Lower bounds of rₛ (or of q_g), in units of 1/scale.
    pub least: Vec<i64>,
    /// Work done.
    pub work: u64,
}

/// Reduced costs nearer to 0 than this part of the unit do not matter.
const SLIGHT: f64 = 1e-8;

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
        let mut fixed = 0i128;
        let mut share = |(most, least): (usize, usize), own: bool| {
            let (a, b) = (if own { 0 } else { down(most).min(0) }, down(least).max(0));
            for (m, row) in [(a, most), (b, least)] {
                fixed += i128::from(m) * master.lp.right(row) as i128;
            }
            a + b
        };
        let joints = share(master.counts.joints, false);
        let splices = share(master.counts.splices, false);
        let stocks = master
            .counts
            .stock
            .iter()
            .map(|&pair| joints + share(pair, true))
            .collect();
        Duals {
            scale,
            rows,
            stocks,
            splices,
            fixed,
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

/// Things of the classes in `serves` under these duals. A row no dearer than a shorter one adds only to
/// how many of the shorter there may be.
fn things(master: &Master<'_>, duals: &Duals, serves: u32) -> Vec<Thing> {
    let kerf = master.pool.kerf;
    let want = |r: usize| master.lp.right(master.rows[r].lp).max(0.0) as u32;
    let served = |class: u8| serves >> class & 1 == 1;
    let mut things: Vec<Thing> = Vec::new();
    for (r, row) in master.rows.iter().enumerate() {
        if served(row.class) && !master.linked.contains_key(&row.class) {
            things.push(Thing {
                weight: row.length + kerf,
                value: duals.rows[r],
                most: want(r),
                id: r,
            });
        }
    }
    for (&class, list) in master.linked.iter().filter(|(c, _)| served(**c)) {
        let pieces: f64 = master
            .pool
            .groups
            .iter()
            .zip(&master.groups)
            .filter(|(g, _)| g.class == class)
            .map(|(g, &row)| {
                let each: u32 = g.lines.iter().map(|l| l.most_splices + 1).sum();
                master.lp.right(row).max(0.0) * f64::from(each)
            })
            .sum();
        let mut last = 0;
        for &r in list {
            let value = duals.rows[r];
            if value > last {
                last = value;
                things.push(Thing {
                    weight: master.rows[r].length + kerf,
                    value,
                    most: pieces as u32 + want(r),
                    id: r,
                });
            } else if let Some(before) = things.last_mut().filter(|_| last > 0) {
                before.most = before.most.saturating_add(want(r));
            }
        }
    }
    things
}

/// Adds the dearest pattern of every stock; `least` gets a lower bound of each stock's rₛ.
pub(super) fn price_patterns(master: &mut Master<'_>, duals: &Duals) -> Priced {
    let pool = master.pool;
    let slight = duals.slight(master);
    let mut priced = Priced {
        least: vec![0; pool.stocks.len()],
        ..Priced::default()
    };
    let mut done = vec![false; pool.stocks.len()];
    for s in 0..pool.stocks.len() {
        if done[s] {
            continue;
        }
        let serves = pool.stocks[s].serves;
        let alike: Vec<usize> = (s..pool.stocks.len())
            .filter(|&o| pool.stocks[o].serves == serves)
            .collect();
        let longest = alike
            .iter()
            .map(|&o| pool.stocks[o].usable)
            .max()
            .unwrap_or(0);
        let things = things(master, duals, serves);
        let mut oracle = Oracle::new(
            things,
            &pool.credit,
            duals.scale,
            pool.kerf,
            longest + pool.kerf,
        );
        for o in alike {
            done[o] = true;
            let (most, _) = master.counts.stock[o];
            let limit =
                (master.lp.duals()[most].min(0.0) * master.unit * duals.scale as f64) as i64;
            let cost = pool.stocks[o].cost * duals.scale - duals.stocks[o];
            if master.lp.right(most) < 0.5 {
                continue;
            }
            let found = oracle.dearest(pool.stocks[o].usable, cost);
            priced.least[o] = cost - found.bound;
            for (worth, cuts) in found.found {
                if worth > cost - limit + slight && master.add_pattern(o, cuts) {
                    priced.added += 1;
                }
            }
        }
        priced.work += oracle.work;
    }
    priced
}

/// Price of a piece rounded up to the rows: what an existing row can serve.
fn price_up(master: &Master<'_>, duals: &Duals, class: u8, longest: i64) -> Price {
    let list = master
        .linked
        .get(&class)
        .map(Vec::as_slice)
        .unwrap_or_default();
    let (mut jumps, mut from, mut before) = (Vec::new(), 1, 0);
    for &r in list {
        if duals.rows[r] > before {
            jumps.push((from, duals.rows[r] - before));
            before = duals.rows[r];
        }
        from = master.rows[r].length + 1;
    }
    Price::new(&jumps, longest.min(from - 1))
}

/// The cheapest splicing of a group under these duals: on existing rows (`up`), or with lengths rounded
/// down to them, which no real splicing undercuts.
pub(super) fn splicing(
    master: &Master<'_>,
    duals: &Duals,
    group: usize,
    up: bool,
) -> Option<Coupled> {
    let g = &master.pool.groups[group];
    let longest = longest_piece(master.pool, g.class, false);
    let price = if up {
        price_up(master, duals, g.class, longest)
    } else {
        Price::new(&duals.jumps(master, g.class), longest)
    };
    let splice = g.splice_cost * duals.scale - duals.splices;
    couple(g, master.pool.mark, &price, (duals.scale, splice))
}

/// Adds the cheapest splicing of every group on existing rows.
pub(super) fn price_splicings(master: &mut Master<'_>, duals: &Duals) -> Priced {
    refine(master, duals, true)
}

/// Adds the cheapest splicing of every group and, when lengths are rounded down, the rows it needs;
/// `least` gets a lower bound of each q_g.
pub(super) fn refine(master: &mut Master<'_>, duals: &Duals, up: bool) -> Priced {
    let pool = master.pool;
    let slight = duals.slight(master);
    let mut priced = Priced {
        least: vec![0; pool.groups.len()],
        ..Priced::default()
    };
    for (g, group) in pool.groups.iter().enumerate() {
        if master.lp.right(master.groups[g]) < 0.5 {
            continue;
        }
        let Some(found) = splicing(master, duals, g, up) else {
            continue;
        };
        priced.work += 2000;
        priced.least[g] = found.bound;
        let dual = master.lp.duals()[master.groups[g]] * master.unit * duals.scale as f64;
        let Some(value) = found.value.filter(|v| *v < dual as i64 - slight) else {
            continue;
        };
        debug_assert!(value >= found.bound);
        if !up {
            for &piece in found.lines.iter().flatten() {
                master.piece_row(group.class, piece);
            }
        }
        if let Ok(money) = super::rules::configuration_cost(group, pool.mark, &found.lines)
            && master.add_splicing(g, found.lines, money)
        {
            priced.added += 1;
        }
    }
    priced
}

/// The certified bound in money, rounded up to the money all costs share; `patterns` and `splicings`
/// hold the least reduced costs found under these duals.
pub(super) fn bound(
    master: &Master<'_>,
    duals: &Duals,
    patterns: &[i64],
    splicings: &[i64],
) -> i64 {
    let pool = master.pool;
    let mut sum = duals.fixed;
    for (row, dual) in master.rows.iter().zip(&duals.rows) {
        let count = row.item.map_or(0, |i| pool.items[i].count);
        sum += i128::from(*dual) * i128::from(count);
    }
    let all = pieces_at_most(pool);
    for (s, least) in patterns.iter().enumerate() {
        let most = (master.lp.right(master.counts.stock[s].0) as i64).min(all);
        sum += i128::from((*least).min(0)) * i128::from(most);
    }
    for (group, least) in pool.groups.iter().zip(splicings) {
        sum += i128::from(*least) * i128::from(group.count);
    }
    let step = i128::from(super::bound::money_step(pool));
    let floor = i128::from(duals.scale) * step;
    let up = -(-sum).div_euclid(floor) * step;
    i64::try_from(up).unwrap_or(if up < 0 { i64::MIN } else { i64::MAX })
}
