//! The splice sets as the judge derives them: which lines are spliced, how often, where they may be.

use std::sync::Arc;

use super::case::Case;
use super::certificate::possible;
use super::docket::Docket;
use super::lane::{Lane, least_piece};
use super::outline::Outline;
use super::pane::{Pane, panes};
use super::rule::Rule;
use super::splice_claim;
use super::tariff::longest_usable;
use crate::gate::{self, Role};
use crate::measure::Length;
use crate::nest;
use crate::order::{SplicePolicy, Week};
use crate::splice::{ReachForm, WindowClass};
use crate::statics::{Envelope, Envelopes};

/// One spliceable line of a gate as the judge sees it.
#[derive(Clone, Debug)]
pub(super) struct Line {
    /// Index into `TakeOff::parts`.
    pub(super) part: usize,
    pub(super) lane: Lane,
    /// A sway brace: measured along itself, never from the latch face.
    pub(super) arc: bool,
    /// Long point to long point, nearest tick.
    pub(super) long: Length,
    /// Saw length when it is not spliced.
    pub(super) whole: Length,
    /// Fewest and most splices.
    pub(super) least: u32,
    pub(super) most: u32,
    pub(super) least_piece: Length,
    pub(super) panes: Vec<Pane>,
}

/// The lines of one gate order that are spliced together.
#[derive(Clone, Debug)]
pub(super) struct Set {
    pub(super) gate: usize,
    /// Copies whose splices are open.
    pub(super) copies: Vec<u32>,
    pub(super) lines: Vec<Line>,
    /// Top and bottom share no bay.
    pub(super) exclusive: bool,
    /// Form of rule 3.
    pub(super) form: ReachForm,
}

/// What the judge makes of one gate's lines.
enum Verdict {
    Whole,
    Spliced(Set),
    /// No way within the rules.
    NoWay,
    /// Too many ways to go through.
    TooLarge,
}

/// Judges the plan's sets; returns the judge's own.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) -> Vec<Set> {
    let mut own = Vec::new();
    let mut envelopes = Envelopes::new();
    for frame in &case.take_off.frames {
        let order = &case.week.gates[frame.gate];
        let Some(outline) = Outline::of(case.week, order) else {
            continue;
        };
        if order.count == 0 || case.gate_left_out(frame.gate) {
            continue;
        }
        for roles in [
            &[Role::BottomHorizontal, Role::TopHorizontal][..],
            &[Role::SwayBrace],
        ] {
            match verdict((case, frame.gate, &outline), roles, &mut envelopes) {
                Verdict::Whole => {}
                Verdict::Spliced(set) => own.push(set),
                Verdict::NoWay => docket.say(
                    Rule::SpliceImpossible,
                    &order.mark,
                    "no way to splice it within the rules, and it is not left out".to_owned(),
                ),
                Verdict::TooLarge => docket.say(
                    Rule::SpliceImpossible,
                    &order.mark,
                    "no way to splice it was found before the judge's search ended, and it is not left out".to_owned(),
                ),
            }
        }
    }
    docket.same(
        case.plan.splice_sets.len(),
        own.len(),
        Rule::SpliceSetMissing,
        "plan",
    );
    for (plan, own) in case.plan.splice_sets.iter().zip(&own) {
        splice_claim::judge(case, plan, own, docket);
    }
    own
}

/// The gate's bending, from a frame laid out anew from the order.
fn bending(week: &Week, gate: usize, envelopes: &mut Envelopes) -> Option<Arc<Envelope>> {
    let frame = gate::build(week, gate).ok()?;
    envelopes.of_gate(week, &frame).ok()
}

fn form(bending: Option<&Arc<Envelope>>) -> ReachForm {
    match bending {
        Some(_) => ReachForm::Envelope,
        None => ReachForm::EveryInteriorBay,
    }
}

fn verdict(
    (case, gate, outline): (&Case<'_>, usize, &Outline),
    roles: &[Role],
    envelopes: &mut Envelopes,
) -> Verdict {
    let week = case.week;
    if week.shop.splice.policy == SplicePolicy::Never {
        return Verdict::Whole;
    }
    let pays = week.shop.splice.policy == SplicePolicy::WhereverItPays;
    let mut lines = Vec::new();
    let mut longest = Length::ZERO;
    let mut bent = None;
    for role in roles {
        let found =
            case.take_off.parts.iter().position(|p| {
                p.gate == Some(gate) && p.role == Some(*role) && p.ours && p.count > 0
            });
        let Some(part) = found else {
            continue;
        };
        let Some(usable) = longest_usable(week, case.take_off.parts[part].pipe, Some(gate)) else {
            return Verdict::Whole;
        };
        let whole = case.take_off.parts[part].saw;
        if whole <= usable && !pays {
            continue;
        }
        longest = usable;
        if *role != Role::SwayBrace && bent.is_none() {
            bent = bending(week, gate, envelopes);
        }
        let lane = Lane::of(week, &week.gates[gate], outline, *role, bent.as_ref());
        match lane.and_then(|lane| line(case, part, lane, usable)) {
            Some(line) => lines.push(line),
            None => return Verdict::NoWay,
        }
    }
    if lines.is_empty() {
        return Verdict::Whole;
    }
    let set = Set {
        gate,
        copies: open_copies(case, gate, &lines),
        lines,
        exclusive: true,
        form: form(bent.as_ref()),
    };
    settle(week, set, longest, pays)
}

/// Copies of a gate of which no such line was handed out and begun.
fn open_copies(case: &Case<'_>, gate: usize, lines: &[Line]) -> Vec<u32> {
    let marks: Vec<&str> = lines
        .iter()
        .map(|l| case.take_off.parts[l.part].mark.as_str())
        .collect();
    let begun = |copy: u32| {
        let mut settled = case.week.begun.lines.iter();
        settled.any(|l| l.copy == copy && marks.contains(&l.mark.as_str()))
    };
    let all = 1..=case.week.gates[gate].count;
    all.filter(|copy| !begun(*copy)).collect()
}

fn line(case: &Case<'_>, part: usize, lane: Lane, usable: Length) -> Option<Line> {
    let week = case.week;
    let taken = &case.take_off.parts[part];
    let long = Length::nearest_tick(taken.long_exact);
    let least = fewest(week, long, taken.saw, usable)?;
    Some(Line {
        arc: case.take_off.parts.get(part).and_then(|p| p.role) == Some(Role::SwayBrace),
        part,
        long,
        whole: taken.saw,
        least,
        most: least,
        least_piece: least_piece(week, &lane),
        panes: panes(week, &lane),
        lane,
    })
}

/// m₀: fewest m with ⌊long − m·g⌋ ≤ (m + 1)·⌊U⌋, both down to the mark.
fn fewest(week: &Week, long: Length, whole: Length, usable: Length) -> Option<u32> {
    if whole <= usable {
        return Some(0);
    }
    let mark = week.shop.saw.mark;
    let each = usable.down_to(mark);
    (1..1000u32).find(|m| {
        let metal = (long - week.shop.splice.root_gap * i64::from(*m)).down_to(mark);
        metal <= each * (i64::from(*m) + 1)
    })
}

/// Both horizontals of a kit gate out of local joints that hold `usable`; `None` when the rules leave
/// no way (or too many to go through).
pub(super) fn kit(case: &Case<'_>, gate: usize, outline: &Outline, usable: Length) -> Option<Set> {
    let week = case.week;
    let mut lines = Vec::new();
    let bent = bending(week, gate, &mut Envelopes::new());
    for role in [Role::BottomHorizontal, Role::TopHorizontal] {
        let parts = &case.take_off.parts;
        let part = parts
            .iter()
            .position(|p| p.gate == Some(gate) && p.role == Some(role))?;
        let lane = Lane::of(week, &week.gates[gate], outline, role, bent.as_ref())?;
        lines.push(line(case, part, lane, usable)?);
    }
    let set = Set {
        gate,
        copies: vec![1],
        lines,
        exclusive: true,
        form: form(bent.as_ref()),
    };
    let pays = week.shop.splice.policy == SplicePolicy::WhereverItPays;
    match settle(week, set.clone(), usable, pays) {
        Verdict::Spliced(set) => Some(set),
        Verdict::Whole => Some(set),
        Verdict::NoWay | Verdict::TooLarge => None,
    }
}

/// The cap follows the policy; when stagger leaves no way, first more splices (the setting's number at most), then, only by
/// setting, the same bay (DESIGN §8 rule 4).
fn settle(week: &Week, mut set: Set, longest: Length, pays: bool) -> Verdict {
    let any_needed = set.lines.iter().any(|l| l.least > 0);
    let same_bay = week.shop.splice.same_bay;
    for exclusive in [true, false] {
        if !exclusive && !same_bay {
            break;
        }
        set.exclusive = exclusive;
        for extra in 0..=week.shop.splice.most_extra.max(u32::from(pays)) {
            let mut tried = set.clone();
            for line in &mut tried.lines {
                line.most = line.least + extra;
            }
            match way(week, &tried, longest, pays) {
                Err(()) => return Verdict::TooLarge,
                Ok(false) => {}
                Ok(true) => {
                    if pays {
                        for line in &mut tried.lines {
                            line.most = line.most.max(line.least + 1);
                        }
                    }
                    return Verdict::Spliced(tried);
                }
            }
        }
    }
    if any_needed {
        Verdict::NoWay
    } else {
        Verdict::Whole
    }
}

/// Whether a set has a way (with at least one splice, when none is needed).
fn way(week: &Week, set: &Set, longest: Length, pays: bool) -> Result<bool, ()> {
    let mark = week.shop.saw.mark.ticks();
    let group = group(week, set, 0, (0, &|_| 0));
    let tries: Vec<nest::Group> = if pays && set.lines.iter().all(|l| l.least == 0) {
        let forced = (0..set.lines.len()).filter(|i| set.lines[*i].most > 0);
        forced
            .map(|i| {
                let mut group = group.clone();
                group.lines[i].least_splices = 1;
                group
            })
            .collect()
    } else {
        vec![group]
    };
    for group in tries {
        if possible(&group, mark, longest.ticks()).map_err(|_| ())? {
            return Ok(true);
        }
    }
    Ok(false)
}

/// The set as a group of the nest problem.
pub(super) fn group(
    week: &Week,
    set: &Set,
    class: u8,
    (splice_cost, charge): (i64, &dyn Fn(WindowClass) -> i64),
) -> nest::Group {
    let rules = &week.shop.splice;
    let lines = set.lines.iter().map(|l| nest::Line {
        length: l.long.ticks(),
        whole: l.whole.ticks(),
        gap: rules.root_gap.ticks(),
        least_splices: l.least,
        most_splices: l.most,
        least_piece: l.least_piece.ticks(),
        three_over: rules.three_within.ticks(),
        slots: l
            .panes
            .iter()
            .map(|p| nest::Slot {
                lo: p.lo.ticks(),
                hi: p.hi.ticks(),
                zone: p.bay,
                charge: charge(p.class),
            })
            .collect(),
    });
    nest::Group {
        name: week.gates[set.gate].mark.clone(),
        count: u32::try_from(set.copies.len()).unwrap_or(u32::MAX),
        class,
        lines: lines.collect(),
        apart: rules.stagger.ticks(),
        zones_exclusive: set.exclusive,
        splice_cost,
    }
}
