//! Pricing: the columns the master program lacks, and what their absence proves.
//!
//! Duals are integers (`duals`), so every oracle works exactly and its results enter the certified bound of
//! DESIGN §9 as they are:
//! Σ πᵢnᵢ + Σ multiplier·right side + Σₛ Nₛ·min(0, rₛ) + Σ_g N_g·q_g.

use super::couple::{Coupled, Coupling, PRICING_WORK, couple};
use super::duals::SLIGHT;
use super::longest_first::longest_piece;
use super::master::{Master, pieces_at_most};
use super::oracle::{Oracle, Thing};
use super::placing::Means;
use super::price::Price;

pub(super) use super::duals::Duals;

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

/// Things of the classes in `serves` under these duals. A row no dearer than a shorter one adds only to
/// how many of the shorter there may be.
fn things(master: &Master<'_>, duals: &Duals, serves: u32) -> Vec<Thing> {
    let kerf = master.pool.kerf;
    // Never less than what is wanted: right sides are floats.
    let want = |r: usize| (master.lp.right(master.rows[r].lp) + 1e-6).max(0.0) as u32;
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
        let mut last: Option<i64> = None;
        for &r in list {
            let value = duals.rows[r];
            if last.is_none_or(|l| value > l) {
                last = Some(value);
                things.push(Thing {
                    weight: master.rows[r].length + kerf,
                    value,
                    most: pieces as u32 + want(r),
                    id: r,
                });
            } else if let Some(before) = things.last_mut() {
                before.most = before.most.saturating_add(want(r));
            }
        }
    }
    things
}

/// Adds the dearest pattern of every stock; `least` gets a lower bound of each stock's rₛ.
pub(super) fn price_patterns(master: &mut Master<'_>, duals: &Duals) -> Priced {
    let pool = master.pool;
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
            let cost = pool.stocks[o].cost * duals.scale - duals.share(o);
            if master.lp.right(most) < 0.5 {
                continue;
            }
            let usable = pool.stocks[o].usable;
            // In a large program any pattern that pays will do; the dearest is sought when none is seen.
            let pays = |cuts: &[(usize, u32)]| master.pattern_reduced(o, cuts) < -SLIGHT;
            let glance = master.is_large().then(|| oracle.glance(usable, cost));
            let found = glance
                .filter(|seen| seen.found.iter().any(|(_, cuts)| pays(cuts)))
                .unwrap_or_else(|| oracle.dearest(usable, cost));
            priced.least[o] = cost - found.bound;
            let best = found.found.last().map(|(_, cuts)| cuts.clone());
            for (_, cuts) in found.found {
                if master.pattern_reduced(o, &cuts) < -SLIGHT && master.add_pattern(o, cuts) {
                    priced.added += 1;
                }
            }
            if let Some(best) = best.filter(|_| master.is_large()) {
                let (added, work) = price_the_rest(master, duals, o, best);
                priced.added += added;
                priced.work += work;
            }
        }
        priced.work += oracle.work;
    }
    priced
}

/// Rows for each further pattern of a round.
const ROWS_A_PATTERN: usize = 12;

/// Patterns that pay and hold none of the pieces the ones before them took: together they move many rows at
/// once, where the dearest alone would leave the program standing on the same spot for hundreds of steps.
fn price_the_rest(
    master: &mut Master<'_>,
    duals: &Duals,
    stock: usize,
    mut taken: Vec<(usize, u32)>,
) -> (usize, u64) {
    let pool = master.pool;
    let (usable, serves) = (pool.stocks[stock].usable, pool.stocks[stock].serves);
    let cost = pool.stocks[stock].cost * duals.scale - duals.share(stock);
    let mut left = things(master, duals, serves);
    let (mut added, mut work) = (0, 0);
    for _ in 0..master.rows.len() / ROWS_A_PATTERN {
        for thing in &mut left {
            if taken.iter().any(|(r, _)| *r == thing.id) {
                thing.most = 0;
            }
        }
        let mut oracle = Oracle::new(
            left.clone(),
            &pool.credit,
            duals.scale,
            pool.kerf,
            usable + pool.kerf,
        );
        let found = oracle.glance(usable, cost);
        work += oracle.work;
        let Some((_, cuts)) = found.found.into_iter().next_back() else {
            break;
        };
        taken.clone_from(&cuts);
        if master.pattern_reduced(stock, &cuts) >= -SLIGHT || !master.add_pattern(stock, cuts) {
            break;
        }
        added += 1;
    }
    (added, work)
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

/// Price of a piece of a class rounded down to the rows: what no real piece undercuts.
fn price_down(master: &Master<'_>, duals: &Duals, class: u8, longest: i64) -> Price {
    Price::new(&duals.jumps(master, class), longest)
}

/// The cheapest splicing of a group under a price of pieces.
fn splicing(
    master: &Master<'_>,
    duals: &Duals,
    group: usize,
    (price, enough): (&Price, i64),
    stop: &dyn Fn() -> bool,
) -> Coupling {
    let g = &master.pool.groups[group];
    let splice = g.splice_cost * duals.scale - duals.splices.0 - duals.splices.1;
    let means = Means {
        enough,
        work: PRICING_WORK,
        stop,
    };
    couple(g, master.pool.mark, price, (duals.scale, splice), &means)
}

/// Values from here on do not enter the program.
fn enough(master: &Master<'_>, duals: &Duals, group: usize) -> i64 {
    let dual = master.lp.duals()[master.groups[group]] * master.unit * duals.scale as f64;
    dual as i64 - duals.slight(master)
}

/// Adds the cheapest splicing of every group on existing rows.
pub(super) fn price_splicings(
    master: &mut Master<'_>,
    duals: &Duals,
    stop: &dyn Fn() -> bool,
) -> Priced {
    let pool = master.pool;
    let mut priced = Priced::default();
    for (g, group) in pool.groups.iter().enumerate() {
        if master.lp.right(master.groups[g]) < 0.5 {
            continue;
        }
        let longest = longest_piece(pool, group.class, false);
        let price = price_up(master, duals, group.class, longest);
        let enough = enough(master, duals, g);
        let found = match splicing(master, duals, g, (&price, enough), stop) {
            Coupling::Found(found) => found,
            Coupling::Open { work, .. } | Coupling::Impossible { work, .. } => {
                priced.work += work;
                continue;
            }
        };
        priced.work += found.work;
        if let Some(money) = money(master, g, &found)
            && master.splicing_reduced(g, &found.lines, money) < -SLIGHT
            && master.add_splicing(g, found.lines, money)
        {
            priced.added += 1;
        }
    }
    priced
}

fn money(master: &Master<'_>, group: usize, found: &Coupled) -> Option<i64> {
    let pool = master.pool;
    super::rules::configuration_cost(&pool.groups[group], pool.mark, &found.lines).ok()
}

/// Splicings taken from one group in one round.
const TAKEN: u32 = 2;

/// The cheapest splicings of every group with lengths rounded down, and the rows they need; `least` gets a
/// lower bound of each q_g.
pub(super) fn refine(master: &mut Master<'_>, duals: &Duals, stop: &dyn Fn() -> bool) -> Priced {
    let pool = master.pool;
    let mut priced = Priced {
        least: vec![0; pool.groups.len()],
        ..Priced::default()
    };
    for (g, group) in pool.groups.iter().enumerate() {
        if master.lp.right(master.groups[g]) < 0.5 {
            continue;
        }
        let longest = longest_piece(pool, group.class, false);
        let mut price = price_down(master, duals, group.class, longest);
        let enough = enough(master, duals, g);
        for again in 0..TAKEN {
            let found = splicing(master, duals, g, (&price, enough), stop);
            if again == 0 {
                priced.least[g] = found.bound();
            }
            priced.work += found.work();
            let Coupling::Found(found) = found else {
                break;
            };
            let Some(money) = money(master, g, &found) else {
                break;
            };
            let mut raised = false;
            for &piece in found.lines.iter().flatten() {
                master.piece_row(group.class, piece);
                raised |= price.raise(piece);
            }
            priced.added += usize::from(master.add_splicing(g, found.lines, money));
            if !raised {
                break;
            }
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
    let mut sum = duals.fixed(master);
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
