//! Kit advice: for each local joint length how many joints the buyer needs for both horizontals,
//! where to splice and the running marks, or a plain sentence why that length cannot do.
//!
//! Fewest joints first, then fewest splices, then those in the calmer windows, by the same engine that
//! cuts the week; then splices slide inside their windows as the week's own do.

use super::kit_joints::KitFloor;
use super::owner::Made;
use super::problem::group;
use super::slide::slide;
use super::welded::weld;
use super::{KitAdvice, KitOption};
use crate::measure::Length;
use crate::nest::{
    Credit, Group, Limits, NoWatch, Pool, PoolAnswer, Problem, Stock, longest_first, solve,
};
use crate::order::Week;
use crate::part::TakeOff;
use crate::splice::{Lift, SpliceSet, WindowClass, places, settle};

/// A splice weighs more than the class of its window.
const SPLICE: i64 = 100;
/// A place that only the order permits is taken last.
const HIGH_STRESS: i64 = 50;
/// A joint weighs more than any number of splices.
const JOINT: i64 = 1_000_000;
/// Work budget of one little problem of four to eight pieces, where the plain way is not surely best.
const WORK: u64 = 300_000;

/// Advice for every kit gate among `gates` (indices into `Week::gates`), in week order.
pub(crate) fn advise(week: &Week, take_off: &TakeOff, gates: &[usize]) -> Vec<KitAdvice> {
    let kits = gates.iter().filter(|g| week.gates[**g].kit);
    kits.map(|gate| KitAdvice {
        gate: *gate,
        options: week
            .shop
            .kit
            .local_joints
            .iter()
            .map(|joint| option(week, take_off, *gate, *joint))
            .collect(),
    })
    .collect()
}

fn option(week: &Week, take_off: &TakeOff, gate: usize, joint: Length) -> KitOption {
    let kit = &week.shop.kit;
    let usable = joint - kit.trim - kit.trim;
    let refused = |why: &str| KitOption {
        joint,
        usable,
        joints_per_gate: 0,
        cuts: Vec::new(),
        lines: Vec::new(),
        refused: Some(format!(
            "{} joints cannot do: {why}.",
            joint.print(week.shop.units)
        )),
    };
    let Some(mut set) = lines(week, take_off, gate) else {
        return refused("the gate has no horizontals to cut");
    };
    if usable <= Length::ZERO {
        return refused("the trims use it up");
    }
    if !settle(week, &mut set, usable, Lift::Nothing) {
        // Splices where they pay are an offer: lines that fit whole are cut whole without them.
        if set.lines.iter().any(|l| l.whole > usable) {
            return refused("no places for the splices meet all the rules");
        }
        for line in &mut set.lines {
            line.most = 0;
        }
    }
    let Some(answer) = cut(week, &set, usable) else {
        return refused("no way of cutting was found");
    };
    let mut made: Vec<Made> = answer
        .configurations
        .first()
        .into_iter()
        .flat_map(|c| c.lines.iter().enumerate())
        .map(|(line, pieces)| Made {
            set: 0,
            line,
            copy: 1,
            pieces: pieces.clone(),
        })
        .collect();
    let mut floor = KitFloor::lay(week, &made, &answer, usable);
    slide(week, std::slice::from_ref(&set), &mut made, &mut floor);
    let cuts = floor.marked(week, take_off, &set, joint);
    KitOption {
        joint,
        usable,
        joints_per_gate: u32::try_from(cuts.len()).unwrap_or(u32::MAX),
        lines: made
            .iter()
            .filter(|m| m.pieces.len() > 1)
            .filter_map(|m| {
                let pieces = m.pieces.iter().map(|p| Length::from_ticks(*p)).collect();
                weld(week, take_off, &set, m.line, 1, pieces)
            })
            .collect(),
        cuts,
        refused: None,
    }
}

/// Both horizontals of one gate as a set.
fn lines(week: &Week, take_off: &TakeOff, gate: usize) -> Option<SpliceSet> {
    let mut set = places(week, take_off, gate).filter(|set| !set.lines.is_empty())?;
    set.copies = vec![1];
    Some(set)
}

/// Cut one gate's horizontals from joints that hold `usable`.
fn cut(week: &Week, set: &SpliceSet, usable: Length) -> Option<PoolAnswer> {
    let mut horizontals = Group {
        splice_cost: SPLICE,
        ..group(week, true, 0, set)
    };
    let windows = set.lines.iter().flat_map(|l| &l.windows);
    let slots = horizontals.lines.iter_mut().flat_map(|l| &mut l.slots);
    for (slot, window) in slots.zip(windows) {
        slot.charge = match window.class {
            WindowClass::Plain => 0,
            WindowClass::Charged => 1,
            WindowClass::ByOrder => HIGH_STRESS,
        };
    }
    let pool = Pool {
        name: "kit".to_owned(),
        mark: week.shop.saw.mark.ticks(),
        kerf: week.shop.kit.kerf.ticks(),
        credit: Credit {
            keep: Length::FOOT.ticks(),
            foot: Length::FOOT.ticks(),
            per_foot: 0,
        },
        stocks: vec![Stock {
            name: "local".to_owned(),
            usable: usable.ticks(),
            cost: JOINT,
            price: None,
            limit: None,
            serves: u32::MAX,
            length: usable.ticks(),
        }],
        items: Vec::new(),
        groups: vec![horizontals],
    };
    // Several splices in a line make an exact search far longer than a kit is worth: there the plain
    // way stands, legal in every place and seldom a joint too many.
    let small = set.lines.iter().all(|l| l.most <= 1);
    let good = |a: &PoolAnswer| !small || surely_best(&pool, set, a);
    if let Some(plain) = longest_first(&pool).filter(good) {
        return Some(plain);
    }
    let problem = Problem {
        aim: crate::nest::Aim::Money,
        pools: vec![pool],
        charges: Vec::new(),
    };
    let limits = Limits {
        work: WORK,
        time: None,
    };
    let answer = solve(&problem, &limits, &NoWatch).ok()?;
    let first = answer.pools.into_iter().next();
    first.filter(|a| a.status.has_plan())
}

/// Whether no way needs fewer joints or splices, or places splices cheaper: the metal alone fills
/// one joint less than these, every line has its fewest splices, none is charged.
fn surely_best(pool: &Pool, set: &SpliceSet, answer: &PoolAnswer) -> bool {
    let (kerf, stock) = (pool.kerf, pool.stocks.first());
    let joints: i64 = answer.patterns.iter().map(|p| i64::from(p.times)).sum();
    let Some(configuration) = answer.configurations.first() else {
        return false;
    };
    let lines = set.lines.iter().zip(&configuration.lines);
    let splices: i64 = set.lines.iter().map(|l| i64::from(l.least)).sum();
    let fewest = lines
        .clone()
        .all(|(l, pieces)| Ok(l.least) == u32::try_from(pieces.len() - 1));
    let load: i64 = lines.flat_map(|(_, pieces)| pieces).map(|p| p + kerf).sum();
    let room = stock.map_or(0, |s| s.usable + kerf);
    fewest && answer.cost == joints * JOINT + splices * SPLICE && load > (joints - 1) * room
}
