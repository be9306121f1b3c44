//! The splice sets of a week: which lines are spliced, how often, where, and what cannot be.

use std::sync::Arc;

use super::refuse::refuse;
use super::track::{Track, brace, horizontal};
use super::{Lift, Prefer, ReachForm, SpliceLine, SpliceSet, Terms, configure, fewest, windows};
use crate::gate::{Frame, Role};
use crate::measure::Length;
use crate::order::{GateOrder, Impossible, SplicePolicy, Week};
use crate::part::{CopeEnd, Part, TakeOff};
use crate::statics::{Envelope, Envelopes, Line, envelope, model};
use crate::stock::longest_usable;

/// The lines of a gate that may be spliced, those together that bind each other.
const LINES: [&[Role]; 2] = [
    &[Role::BottomHorizontal, Role::TopHorizontal],
    &[Role::SwayBrace],
];

/// Every line of the week that must (or, by policy, may) be spliced, with its windows, one set per
/// gate order; and the gates for which the rules leave no way, each with the rule that bites and
/// the smallest changes that free it. Kit gates' horizontals are the buyer's, hence not here.
pub fn sets(week: &Week, take_off: &TakeOff) -> (Vec<SpliceSet>, Vec<Impossible>) {
    let mut envelopes = Envelopes::new();
    let mut sets = Vec::new();
    let mut impossible = Vec::new();
    if week.shop.splice.policy == SplicePolicy::Never {
        return (sets, impossible);
    }
    for frame in &take_off.frames {
        let Some(order) = week.gates.get(frame.gate).filter(|o| o.count > 0) else {
            continue;
        };
        for roles in LINES {
            let parts = parts_of(take_off, frame.gate, roles);
            let ours: Vec<usize> = parts
                .into_iter()
                .filter(|p| take_off.parts[*p].ours)
                .collect();
            match set_of((week, take_off, order, frame), &ours, &mut envelopes) {
                Ok(Some(set)) => sets.push(set),
                Ok(None) => {}
                Err(why) => impossible.push(*why),
            }
        }
    }
    (sets, impossible)
}

/// Where splices may stand on both horizontals of a gate, spliced or not (a kit's too); `None` when
/// the gate has no frame. How many splices there are to be is not settled.
pub fn places(week: &Week, take_off: &TakeOff, gate: usize) -> Option<SpliceSet> {
    let frame = take_off.frames.iter().find(|f| f.gate == gate)?;
    let bending = envelope(&model(week, frame)).map(Arc::new).ok();
    let case = Case {
        week,
        take_off,
        order: week.gates.get(gate)?,
        frame,
        bending: bending.as_ref(),
    };
    let roles = [Role::BottomHorizontal, Role::TopHorizontal];
    let find = |role: &Role| {
        let mut parts = take_off.parts.iter();
        parts.position(|p| p.gate == Some(gate) && p.role == Some(*role))
    };
    let parts: Vec<usize> = roles.iter().filter_map(find).collect();
    Some(shape(case, &parts, Lift::Nothing))
}

/// A gate's parts in the order of `roles`, as indices into `TakeOff::parts`.
fn parts_of(take_off: &TakeOff, gate: usize, roles: &[Role]) -> Vec<usize> {
    let find = |role: &Role| {
        take_off
            .parts
            .iter()
            .position(|p| p.gate == Some(gate) && p.role == Some(*role) && p.count > 0)
    };
    roles.iter().filter_map(find).collect()
}

/// Whether joints that hold `usable` would do for a part that may be spliced: whole, or spliced with the
/// other lines of its gate as the rules stand.
pub(crate) fn would_do(week: &Week, take_off: &TakeOff, part: &Part, usable: Length) -> bool {
    if part.saw <= usable {
        return true;
    }
    let frame = take_off.frames.iter().find(|f| Some(f.gate) == part.gate);
    let Some((frame, order)) = frame.and_then(|f| Some((f, week.gates.get(f.gate)?))) else {
        return false;
    };
    let lines = LINES
        .iter()
        .find(|l| part.role.is_some_and(|r| l.contains(&r)));
    let Some(roles) = lines.filter(|_| week.shop.splice.policy != SplicePolicy::Never) else {
        return false;
    };
    let mut long = parts_of(take_off, frame.gate, roles);
    long.retain(|p| take_off.parts[*p].ours && take_off.parts[*p].saw > usable);
    let bending = envelope(&model(week, frame)).map(Arc::new).ok();
    let case = Case {
        week,
        take_off,
        order,
        frame,
        bending: bending.as_ref(),
    };
    let mut set = shape(case, &long, Lift::Nothing);
    settle(week, &mut set, usable, Lift::Nothing)
}

fn set_of(
    (week, take_off, order, frame): (&Week, &TakeOff, &GateOrder, &Frame),
    parts: &[usize],
    envelopes: &mut Envelopes,
) -> Result<Option<SpliceSet>, Box<Impossible>> {
    let Some(usable) = parts
        .first()
        .and_then(|p| longest_usable(week, take_off.parts[*p].pipe, Some(frame.gate)))
    else {
        return Ok(None);
    };
    let wanted: Vec<usize> = parts
        .iter()
        .copied()
        .filter(|p| {
            take_off.parts[*p].saw > usable
                || week.shop.splice.policy == SplicePolicy::WhereverItPays
        })
        .collect();
    if wanted.is_empty() {
        return Ok(None);
    }
    let bending = envelopes.of_gate(week, frame).ok();
    let case = Case {
        week,
        take_off,
        order,
        frame,
        bending: bending.as_ref(),
    };
    let mut set = shape(case, &wanted, Lift::Nothing);
    if settle(week, &mut set, usable, Lift::Nothing) {
        Ok(Some(set))
    } else if set.lines.iter().all(|l| l.least == 0) {
        Ok(None)
    } else {
        Err(Box::new(refuse(case, &wanted, usable)))
    }
}

/// One gate whose lines are looked at.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Case<'a> {
    /// The week.
    pub week: &'a Week,
    /// Its parts.
    pub take_off: &'a TakeOff,
    /// The order.
    pub order: &'a GateOrder,
    /// Its frame.
    pub frame: &'a Frame,
    /// Its bending, when computed.
    pub bending: Option<&'a Arc<Envelope>>,
}

/// A set with its windows, caps not yet settled.
pub(crate) fn shape(case: Case<'_>, parts: &[usize], lift: Lift) -> SpliceSet {
    let rules = &case.week.shop.splice;
    let frame = case.frame;
    let lines: Vec<SpliceLine> = parts.iter().map(|p| line(case, *p, lift)).collect();
    let horizontals = parts
        .iter()
        .all(|p| case.take_off.parts[*p].role.and_then(Line::of).is_some());
    let bending = case.bending.filter(|_| horizontals).cloned();
    SpliceSet {
        gate: frame.gate,
        copies: open_copies(case, parts),
        lines,
        apart: if lift == Lift::Stagger {
            Length::ZERO
        } else {
            rules.stagger
        },
        bays_exclusive: lift != Lift::Stagger,
        form: match bending {
            Some(_) => ReachForm::Envelope,
            None => ReachForm::EveryInteriorBay,
        },
        bending,
    }
}

/// Copies of which no line of the set is settled.
fn open_copies(case: Case<'_>, parts: &[usize]) -> Vec<u32> {
    let begun = &case.week.begun;
    let settled = |copy: &u32| {
        let mut marks = parts.iter().map(|p| &case.take_off.parts[*p].mark);
        marks.any(|mark| begun.line(mark, *copy).is_some())
    };
    (1..=case.order.count).filter(|c| !settled(c)).collect()
}

fn line(case: Case<'_>, index: usize, lift: Lift) -> SpliceLine {
    let Case {
        week, order, frame, ..
    } = case;
    let part = &case.take_off.parts[index];
    let mut track = track_of(week, order, frame, part);
    let known = part.role.and_then(Line::of);
    track.bending = case.bending.cloned().zip(known);
    let bay = track
        .lines
        .windows(2)
        .map(|w| w[1] - w[0])
        .fold(0.0, f64::max);
    let least = if lift == Lift::LeastPiece {
        0.0
    } else {
        bay.max(week.shop.splice.least_piece.geometric())
    };
    let mark = week.shop.saw.mark;
    SpliceLine {
        part: index,
        horizontal: known,
        long: Length::nearest_tick(part.long_exact),
        whole: part.saw,
        x_long: Length::nearest_tick(track.long_at),
        least: 0,
        most: 0,
        least_piece: Length::ceil_mark(least, mark).max(mark),
        windows: windows(week, order, &track, lift),
    }
}

/// The track of a part that may be spliced.
pub(crate) fn track_of(week: &Week, order: &GateOrder, frame: &Frame, part: &Part) -> Track {
    if let (Some(Role::SwayBrace), Some(sway)) = (part.role, &frame.sway) {
        return brace(week, order, frame, sway);
    }
    let role = part.role.unwrap_or(Role::BottomHorizontal);
    let axis_start = frame
        .members
        .iter()
        .find(|m| m.role == role)
        .map_or(0.0, |m| m.start.x);
    let setback = match &part.ends[0] {
        CopeEnd::Square { .. } => 0.0,
        CopeEnd::Coped(cope) => cope.cut.s_long,
    };
    horizontal(week, order, frame, role, axis_start + setback)
}

/// The figures of a set's search.
pub(crate) fn terms(week: &Week, set: &SpliceSet, usable: Length, lift: Lift) -> Terms {
    Terms {
        gap: week.shop.splice.root_gap,
        mark: week.shop.saw.mark,
        longest: usable,
        apart: set.apart,
        exclusive: set.bays_exclusive,
        three_over: if lift == Lift::Three {
            Length::ZERO
        } else {
            week.shop.splice.three_within
        },
    }
}

/// Settle m₀ and the cap of every line; false when the rules leave no way.
///
/// As few as needed: cap m₀, raised one by one, by the setting's number at most (one, unless said),
/// only when nothing is found below. Wherever it pays: cap m₀ + 1 at least. When stagger leaves no way even so and the shop's setting allows it, top and bottom
/// may share a bay (still apart).
pub(crate) fn settle(week: &Week, set: &mut SpliceSet, usable: Length, lift: Lift) -> bool {
    let figures = terms(week, set, usable, lift);
    for line in &mut set.lines {
        if line.whole <= usable {
            line.least = 0;
        } else if let Some(m) = fewest(line.long, &figures) {
            line.least = m;
        } else {
            return false;
        }
        line.most = line.least;
    }
    let opt_in = week.shop.splice.policy == SplicePolicy::WhereverItPays;
    let mut exclusive = vec![set.bays_exclusive];
    if set.bays_exclusive && week.shop.splice.same_bay {
        exclusive.push(false);
    }
    for bays_exclusive in exclusive {
        set.bays_exclusive = bays_exclusive;
        for extra in 0..=most_extra(week, opt_in) {
            if settles(set, &terms(week, set, usable, lift), extra, opt_in) {
                for line in &mut set.lines {
                    line.most = line.least + extra.max(u32::from(opt_in));
                }
                return true;
            }
        }
    }
    false
}

/// Splices over the fewest that may be tried.
fn most_extra(week: &Week, opt_in: bool) -> u32 {
    week.shop.splice.most_extra.max(u32::from(opt_in))
}

/// Whether some choice of m₀ … m₀ + `extra` splices per line works out. A set of lines that may all
/// stay whole must gain something by being one: it asks for a way with a splice.
fn settles(set: &SpliceSet, figures: &Terms, extra: u32, opt_in: bool) -> bool {
    let each = extra + 1;
    let choices = each.saturating_pow(u32::try_from(set.lines.len()).unwrap_or(u32::MAX));
    (0..choices).any(|code| {
        let mut rest = code;
        let mut next = |line: &SpliceLine| {
            let more = rest % each;
            rest /= each;
            line.least + more
        };
        let splices: Vec<u32> = set.lines.iter().map(&mut next).collect();
        (!opt_in || splices.iter().any(|m| *m > 0))
            && configure(&set.lines, &splices, figures, Prefer::Latch).is_some()
    })
}
