//! Windows of one track: where a splice centre may stand by rules 1, 2 and 3 of DESIGN §8.

use super::{Track, Window, WindowClass};
use crate::measure::{Length, Money};
use crate::order::{GateOrder, Week};

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
        // Until the envelope is computed every interior bay of a carrying line is a roller bay.
        let roller_bay = track.carries && lift != Lift::RollerBays;
        for (stretch, tolerated) in reach(week, track, bay, roller_bay) {
            for (lo, hi) in open_stretches(week, track, bay, stretch, lift) {
                let window = Window {
                    lo: Length::ceil_mark(lo - track.long_at, Length::from_ticks(1)),
                    hi: Length::floor_mark(hi - track.long_at, Length::from_ticks(1)),
                    bay: number,
                    roller_bay,
                    tolerated,
                    class: WindowClass::Plain,
                    charge: Money::ZERO,
                };
                if window.lo <= window.hi {
                    out.push(window);
                }
            }
        }
    }
    out
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
