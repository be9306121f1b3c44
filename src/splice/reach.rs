//! Windows of one track: where a splice centre may stand by rules 1, 2 and 3 of DESIGN §8.

use super::{Track, Window, WindowClass};
use crate::measure::{Length, Money};
use crate::order::{GateOrder, Week};
use crate::statics::PARTS;

/// A rule that may be lifted, only to learn which one bites.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lift {
    /// All rules stand.
    Nothing,
    /// Rule 1: clear of weld toes.
    Toes,
    /// Rule 2: not in the first or last bay.
    EndBays,
    /// Rule 2: not near a parked roller.
    Parked,
    /// Rule 2: bays the order excludes.
    Excluded,
    /// Rule 3: roller bays only near a vertical.
    RollerBays,
    /// Rule 5: nowhere over the refused share of the gate's peak.
    Stress,
    /// Rule 4: top and bottom share no bay and stay apart.
    Stagger,
    /// Rule 4: least piece.
    LeastPiece,
    /// Rule 4: three within ten feet.
    Three,
}

/// A stretch of stations, ends included.
type Stretch = (f64, f64);

/// The windows of a track, ascending, as p (rounded inward to ticks).
pub(crate) fn windows(week: &Week, order: &GateOrder, track: &Track, lift: Lift) -> Vec<Window> {
    let bays = track.lines.len().saturating_sub(1);
    let mut out = Vec::new();
    for bay in 1..=bays {
        if lift != Lift::EndBays && (bay == 1 || bay == bays) {
            continue;
        }
        let number = u32::try_from(bay).unwrap_or(u32::MAX);
        if lift != Lift::Excluded && order.excluded_bays.contains(&number) {
            continue;
        }
        let roller_bay = lift != Lift::RollerBays && is_roller_bay(week, track, bay);
        for (stretch, tolerated) in reach(week, track, bay, roller_bay) {
            for (part, class) in by_class((week, order), track, bay, stretch, lift) {
                for (lo, hi) in open_stretches(week, track, bay, part, lift) {
                    let window = Window {
                        lo: Length::ceil_mark(lo - track.long_at, Length::from_ticks(1)),
                        hi: Length::floor_mark(hi - track.long_at, Length::from_ticks(1)),
                        bay: number,
                        roller_bay,
                        tolerated,
                        class,
                        charge: match class {
                            WindowClass::Plain => Money::ZERO,
                            WindowClass::Charged => week.shop.splice.class_charge,
                            WindowClass::ByOrder => week.shop.splice.high_stress_charge,
                        },
                    };
                    if window.lo <= window.hi {
                        out.push(window);
                    }
                }
            }
        }
    }
    out
}

/// Rule 3's question of one bay: does its travel envelope peak at the setting's share of the gate's
/// peak or more. Where the envelope is not computed every bay of a carrying line counts.
fn is_roller_bay(week: &Week, track: &Track, bay: usize) -> bool {
    let Some((envelope, line)) = &track.bending else {
        return track.carries;
    };
    let from = super::fraction(week.shop.splice.roller_bay_from);
    envelope.bay_peak(*line, bay) >= from * envelope.peak()
}

/// Rule 5: a stretch cut where its class changes, stresses over the refusal left out unless the order
/// permits them. Between two stations of the envelope the higher one's class holds.
fn by_class(
    (week, order): (&Week, &GateOrder),
    track: &Track,
    bay: usize,
    (lo, hi): Stretch,
    lift: Lift,
) -> Vec<(Stretch, WindowClass)> {
    let Some((envelope, line)) = &track.bending else {
        return vec![((lo, hi), WindowClass::Plain)];
    };
    let (from, to) = (track.lines[bay - 1], track.lines[bay]);
    let station = |s: usize| match s {
        PARTS => to,
        s => from + (to - from) * (s as f64 / PARTS as f64),
    };
    let stress = |s: usize| envelope.station(*line, bay, s).unwrap_or(f64::INFINITY);
    let mut out: Vec<(Stretch, WindowClass)> = Vec::new();
    for s in 0..PARTS {
        let rel = stress(s).max(stress(s + 1)) / envelope.peak();
        let Some(class) = class_of(week, order, rel, lift) else {
            continue;
        };
        let cell = (station(s), station(s + 1));
        match out.last_mut() {
            Some(((_, end), last)) if *end == cell.0 && *last == class => *end = cell.1,
            _ => out.push((cell, class)),
        }
    }
    let inside = |((a, b), class): (Stretch, WindowClass)| ((a.max(lo), b.min(hi)), class);
    let parts = out.into_iter().map(inside);
    parts.filter(|((a, b), _)| a <= b).collect()
}

/// Class of a stress as a share of the gate's peak; `None`: refused.
fn class_of(week: &Week, order: &GateOrder, rel: f64, lift: Lift) -> Option<WindowClass> {
    let rules = &week.shop.splice;
    if rel <= super::fraction(rules.charge_over) {
        Some(WindowClass::Plain)
    } else if rel <= super::fraction(rules.refuse_over)
        || matches!(lift, Lift::Stress | Lift::RollerBays)
    {
        Some(WindowClass::Charged)
    } else {
        order.high_stress.then_some(WindowClass::ByOrder)
    }
}

/// Rule 3: the stretches of a bay, with whether they are only tolerated; ascending.
fn reach(week: &Week, track: &Track, bay: usize, roller_bay: bool) -> Vec<(Stretch, bool)> {
    let (from, to) = (track.lines[bay - 1], track.lines[bay]);
    if !roller_bay {
        return vec![((from, to), false)];
    }
    let rules = &week.shop.splice;
    let width = to - from;
    let plain = super::fraction(rules.roller_bay_reach).clamp(0.0, 0.5) * width;
    let most = super::fraction(rules.tolerated_reach).clamp(0.0, 0.5) * width;
    let mut out = vec![((from, from + plain), false), ((to - plain, to), false)];
    if rules.allow_tolerated && most > plain {
        out.insert(1, ((to - most, to - plain), true));
        out.insert(1, ((from + plain, from + most), true));
    }
    out
}

/// Rules 1 and 2: a stretch less toes, other welds and parked rollers.
fn open_stretches(
    week: &Week,
    track: &Track,
    bay: usize,
    stretch: Stretch,
    lift: Lift,
) -> Vec<Stretch> {
    let mut blocked: Vec<Stretch> = Vec::new();
    if lift != Lift::Toes {
        for line in [bay - 1, bay] {
            let (x, toes) = (track.lines[line], track.toes[line]);
            blocked.push((x - toes.latch - track.clear, x + toes.tail + track.clear));
        }
        for (x, half) in &track.others {
            blocked.push((x - half - track.clear, x + half + track.clear));
        }
    }
    if lift != Lift::Parked {
        let near = week.shop.splice.parked_clear.geometric();
        blocked.extend(track.parked.iter().map(|x| (x - near, x + near)));
    }
    let mut open = vec![stretch];
    for (from, to) in blocked {
        open = open
            .into_iter()
            .flat_map(|(lo, hi)| [(lo, hi.min(from)), (lo.max(to), hi)])
            .filter(|(lo, hi)| lo <= hi)
            .collect();
    }
    open.sort_by(|a, b| a.0.total_cmp(&b.0));
    // A block of no width leaves two touching halves, which is harmless: same bay, same charge.
    open
}
