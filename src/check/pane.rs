//! `Pane`: an interval of splice centres that rules 1, 2 and 3 of DESIGN §8 allow, by the judge's
//! own code; and, for one centre, which of those rules it breaks.

use super::lane::{Lane, fraction};
use super::rule::Rule;
use crate::measure::{INCH, Length};
use crate::order::Week;
use crate::splice::WindowClass;

/// A closed interval of centres p, whole ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pane {
    pub(super) lo: Length,
    pub(super) hi: Length,
    pub(super) bay: u32,
    pub(super) roller_bay: bool,
    pub(super) tolerated: bool,
    /// What its stress costs.
    pub(super) class: WindowClass,
}

/// Parts of a bay the judge looks at: between two of them the bending is read once.
const CELLS: u32 = 20;

/// Rule 5: the stretches of a bay by their class; those over the refused share are left out unless
/// the order permits them. A cell's stress is the envelope's reading at its middle.
fn classes(week: &Week, lane: &Lane, from: f64, to: f64) -> Vec<(f64, f64, WindowClass)> {
    let rules = &week.shop.splice;
    let at = |k: u32| {
        if k == CELLS {
            to
        } else {
            from + (to - from) * (f64::from(k) / f64::from(CELLS))
        }
    };
    let class = |k: u32| {
        let middle = (at(k) + at(k + 1)) / 2.0;
        let rel = lane.rel(middle).unwrap_or(0.0);
        match (
            rel > fraction(rules.charge_over),
            rel > fraction(rules.refuse_over),
        ) {
            (false, _) => Some(WindowClass::Plain),
            (true, false) => Some(WindowClass::Charged),
            (true, true) => lane.high_stress.then_some(WindowClass::ByOrder),
        }
    };
    let mut out = Vec::new();
    let mut first = 0;
    for k in 1..=CELLS {
        if k == CELLS || class(k) != class(first) {
            if let Some(held) = class(first) {
                out.push((at(first), at(k), held));
            }
            first = k;
        }
    }
    out
}

/// Open intervals of stations that welds and rollers forbid inside one bay.
fn forbidden(week: &Week, lane: &Lane) -> Vec<(f64, f64)> {
    let near = week.shop.splice.parked_clear.geometric();
    let rollers = lane.parked.iter().map(|x| (x - near, x + near));
    let brackets = lane.brackets.iter().map(|(x, half)| {
        let away = half + lane.clear;
        (x - away, x + away)
    });
    rollers.chain(brackets).collect()
}

/// Where rule 3 lets a splice stand in a bay, with whether it is only tolerated.
fn allowed(week: &Week, lane: &Lane, bay: u32) -> Vec<(f64, f64, bool)> {
    let Some((from, to)) = lane.bay(bay) else {
        return Vec::new();
    };
    if !lane.roller_bay(week, bay) {
        return vec![(from, to, false)];
    }
    let rules = &week.shop.splice;
    let share = |d| fraction(d).clamp(0.0, 0.5) * (to - from);
    let (plain, most) = (share(rules.roller_bay_reach), share(rules.tolerated_reach));
    let mut out = vec![(from, from + plain, false), (to - plain, to, false)];
    if rules.allow_tolerated && most > plain {
        out.push((from + plain, from + most, true));
        out.push((to - most, to - plain, true));
    }
    out
}

impl Pane {
    /// The order of panes along a lane.
    pub(super) fn order(&self) -> (Length, Length, WindowClass, bool) {
        (self.lo, self.hi, self.class, self.tolerated)
    }
}

/// The panes of a lane, ascending.
pub(super) fn panes(week: &Week, lane: &Lane) -> Vec<Pane> {
    let mut out = Vec::new();
    for bay in 2..lane.bays() {
        let Some((from, to)) = lane.bay(bay) else {
            continue;
        };
        if lane.excluded.contains(&bay) {
            continue;
        }
        let (first, last) = toe_limits(lane, bay, from, to);
        let classes = classes(week, lane, from, to);
        for ((lo, hi, tolerated), (a, b, class)) in allowed(week, lane, bay)
            .into_iter()
            .flat_map(|stretch| classes.iter().map(move |class| (stretch, *class)))
        {
            let mut free = vec![(lo.max(first).max(a), hi.min(last).min(b))];
            for (a, b) in forbidden(week, lane) {
                free = free
                    .into_iter()
                    .flat_map(|(lo, hi)| [(lo, hi.min(a)), (lo.max(b), hi)])
                    .collect();
            }
            for (lo, hi) in free.into_iter().filter(|(lo, hi)| lo <= hi) {
                out.push(Pane {
                    lo: Length::ceil_mark(lo - lane.long_at, Length::from_ticks(1)),
                    hi: Length::floor_mark(hi - lane.long_at, Length::from_ticks(1)),
                    bay,
                    roller_bay: lane.roller_bay(week, bay),
                    tolerated,
                    class,
                });
            }
        }
    }
    out.retain(|p| p.lo <= p.hi);
    out.sort_by_key(Pane::order);
    out.dedup();
    out
}

/// First and last station of a bay that is clear of the toes at its two bay lines.
fn toe_limits(lane: &Lane, bay: u32, from: f64, to: f64) -> (f64, f64) {
    let line = usize::try_from(bay).unwrap_or(0);
    let at = |line: usize| lane.toes.get(line).copied();
    let behind = at(line.saturating_sub(1)).map_or(f64::INFINITY, |t| t.behind);
    let before = at(line).map_or(f64::INFINITY, |t| t.before);
    (from + behind + lane.clear, to - before - lane.clear)
}

/// The rules a centre at station x breaks, each with its numbers; a tick of slack, since panes are
/// whole ticks.
pub(super) fn broken(week: &Week, lane: &Lane, x: f64) -> Vec<(Rule, String)> {
    const SLACK: f64 = 1.0;
    let at = |v: f64| format!("{:.4} in", v / INCH);
    let mut out = Vec::new();
    let n = lane.bays();
    let bay = (1..=n).find(|b| lane.bay(*b).is_some_and(|(from, to)| from <= x && x <= to));
    let Some((bay, (from, to))) = bay.and_then(|b| Some((b, lane.bay(b)?))) else {
        out.push((
            Rule::SpliceOffTheLine,
            format!("x = {} is in no bay", at(x)),
        ));
        return out;
    };
    if bay == 1 || bay == n {
        out.push((Rule::SpliceEndBay, format!("bay {bay} of {n}")));
    }
    if lane.excluded.contains(&bay) {
        out.push((Rule::SpliceExcludedBay, format!("bay {bay}")));
    }
    let (first, last) = toe_limits(lane, bay, from, to);
    let toes = format!("x = {}, clear from {} to {}", at(x), at(first), at(last));
    if x < first - SLACK || x > last + SLACK {
        out.push((Rule::SpliceClearOfToes, toes));
    }
    for (station, half) in &lane.brackets {
        if (x - station).abs() < half + lane.clear - SLACK {
            let detail = format!("x = {}, bracket at {}", at(x), at(*station));
            out.push((Rule::SpliceClearOfBracket, detail));
        }
    }
    let near = week.shop.splice.parked_clear.geometric();
    for roller in &lane.parked {
        if (x - roller).abs() < near - SLACK {
            let detail = format!("x = {}, roller parks at {}", at(x), at(*roller));
            out.push((Rule::SpliceParkedRoller, detail));
        }
    }
    let refused = fraction(week.shop.splice.refuse_over);
    let over = |rel: &f64| !lane.high_stress && *rel > refused;
    if let Some(rel) = lane.rel(x).filter(over) {
        let detail = format!("x = {}, {rel:.4} of the gate's peak", at(x));
        out.push((Rule::SpliceHighStress, detail));
    }
    let reached = allowed(week, lane, bay)
        .iter()
        .any(|(lo, hi, _)| *lo - SLACK <= x && x <= *hi + SLACK);
    if !reached {
        let share = (x - from).min(to - x) / (to - from);
        let detail = format!("{share:.4} of the bay from its nearer vertical");
        out.push((Rule::SpliceRollerBayReach, detail));
    }
    out
}
