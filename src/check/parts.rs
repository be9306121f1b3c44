//! The take-off against the judge's own pieces: marks, counts, saw lengths, throats, weights, top
//! and under lines; bay lines, rollers and check measure of each frame.

use std::collections::{BTreeMap, BTreeSet};

use super::case::Case;
use super::copes;
use super::docket::Docket;
use super::members;
use super::outline::{Outline, bay_within};
use super::piece::{Kind, Piece, pieces};
use super::rule::Rule;
use crate::gate::{Frame, Role};
use crate::measure::{INCH, Length, MM, Units};
use crate::order::Pipe;
use crate::part::Part;

/// 1e-5 in: what is asked of geometry before any rounding.
const WITHIN: f64 = 1e-5 * INCH;
/// Pounds or kilograms.
const WEIGHT_WITHIN: f64 = 1e-6;

/// Judges frames and parts.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    marks(case, docket);
    for frame in &case.take_off.frames {
        let order = &case.week.gates[frame.gate];
        let Some(outline) = Outline::of(case.week, order) else {
            let detail = "no number of bays meets both limits".to_owned();
            docket.say(Rule::BayLimit, &order.mark, detail);
            continue;
        };
        compare_frame(case, frame, &outline, docket);
        members::judge(case.week, order, frame, &outline, docket);
        match pieces(case.week, order, &outline) {
            Ok(own) => gate(case, frame.gate, &own, docket),
            Err(kind) => docket.say(
                Rule::CopeMisses,
                &order.mark,
                format!("{kind:?}: a surface line misses every pipe it meets"),
            ),
        }
    }
    for part in &case.take_off.parts {
        each(case, part, docket);
    }
    extras(case, docket);
}

/// Bare weight in lb or kg: lb/ft = 10.69 (OD − t) t, in; kg/m = 0.02466 (OD − t) t, mm (ASTM
/// F1083 / ASME B36.10M).
pub(super) fn weigh(units: Units, pipe: &Pipe, length: Length) -> f64 {
    let (od, wall) = (pipe.od.geometric(), pipe.wall.geometric());
    match units {
        Units::Inch => {
            let per_foot = 10.69 * ((od - wall) / INCH) * (wall / INCH);
            per_foot * length.geometric() / (12.0 * INCH)
        }
        Units::Metric => {
            let per_metre = 0.02466 * ((od - wall) / MM) * (wall / MM);
            per_metre * length.geometric() / (1000.0 * MM)
        }
    }
}

fn marks(case: &Case<'_>, docket: &mut Docket) {
    let mut seen = BTreeSet::new();
    for part in &case.take_off.parts {
        let once = seen.insert(part.mark.to_lowercase());
        docket.demand(once, Rule::PartMark, &part.mark, || {
            "two parts carry this mark".to_owned()
        });
    }
    let mut frames = BTreeSet::new();
    for frame in &case.take_off.frames {
        let mark = &case.week.gates[frame.gate].mark;
        docket.demand(frames.insert(frame.gate), Rule::FrameTwice, mark, || {
            "two frames for one order".to_owned()
        });
    }
}

fn compare_frame(case: &Case<'_>, frame: &Frame, own: &Outline, docket: &mut Docket) {
    let order = &case.week.gates[frame.gate];
    let mark = &order.mark;
    let sum = order.opening.geometric()
        + order.latch_overlap.geometric()
        + order.roller_overlap.geometric()
        + order.tail;
    docket.near(order.leaf, sum, 1.0, Rule::LeafSum, mark);
    docket.near(frame.leaf, own.leaf, WITHIN, Rule::FrameLeaf, mark);
    docket.near(frame.height, own.height, WITHIN, Rule::FrameHeight, mark);
    docket.near(
        frame.axis_height,
        own.axis_height,
        WITHIN,
        Rule::FrameHeight,
        mark,
    );
    docket.near(frame.rise, own.rise, WITHIN, Rule::FrameRise, mark);
    docket.near(frame.drop, own.drop, WITHIN, Rule::FrameDrop, mark);
    docket.near(
        frame.check_measure,
        own.check_measure,
        WITHIN,
        Rule::CheckMeasure,
        mark,
    );
    docket.same(
        frame.bay_lines.len(),
        own.bay_lines.len(),
        Rule::BayCount,
        mark,
    );
    for (plan, own) in frame.bay_lines.iter().zip(&own.bay_lines) {
        docket.near(*plan, *own, WITHIN, Rule::BayLine, mark);
    }
    let limit = case.week.shop.gate.bay_limit.geometric();
    for bay in 1..=own.bays() {
        let (from, to) = own.bay(bay).unwrap_or((0.0, 0.0));
        let holds = to > from && bay_within(to - from, limit, own.axis_height);
        docket.demand(holds, Rule::BayLimit, mark, || {
            format!(
                "bay {bay} of {} in; limit {} in, between the axes {} in",
                (to - from) / INCH,
                limit / INCH,
                own.axis_height / INCH
            )
        });
    }
    let [closed, open, rear, _] = own.rollers;
    docket.near(
        frame.rollers.front_closed,
        closed,
        WITHIN,
        Rule::Rollers,
        mark,
    );
    docket.near(frame.rollers.front_open, open, WITHIN, Rule::Rollers, mark);
    docket.near(
        frame.rollers.spacing,
        rear - closed,
        WITHIN,
        Rule::Rollers,
        mark,
    );
}

fn kind(role: Role) -> Option<Kind> {
    match role {
        Role::TopHorizontal => Some(Kind::Top),
        Role::BottomHorizontal => Some(Kind::Bottom),
        Role::EndPost => Some(Kind::Post),
        Role::Vertical => Some(Kind::Vertical),
        Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal => Some(Kind::Diagonal),
        Role::Stop => Some(Kind::Stop),
        Role::Riser => Some(Kind::Riser),
        Role::SwayBrace => Some(Kind::Sway),
        Role::Standoff => Some(Kind::Standoff),
    }
}

/// Letters of a mark behind the gate's; digits may follow.
fn letters(role: Role) -> &'static str {
    match role {
        Role::TopHorizontal => "HT",
        Role::BottomHorizontal => "HB",
        Role::EndPost => "P",
        Role::Vertical => "V",
        Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal => "D",
        Role::Stop => "S",
        Role::Riser => "R",
        Role::SwayBrace => "B",
        Role::Standoff => "BS",
    }
}

/// How far a part is from a piece: the sum of the differences, the lines the better way round when
/// the part may be turned end for end.
fn distance(part: &Part, piece: &Piece) -> f64 {
    let lines = match (part.top_line, part.under_line, piece.lines) {
        (Some(top), Some(under), Some((own_top, own_under))) => {
            let laid = (top - own_top).abs() + (under - own_under).abs();
            let turned = (under - own_top).abs() + (top - own_under).abs();
            if part.swaps_in_last_bay {
                laid.min(turned)
            } else {
                laid
            }
        }
        (None, None, None) => 0.0,
        _ => f64::INFINITY,
    };
    (part.long_exact - piece.long).abs() + (part.throat_exact - piece.throat).abs() + lines
}

fn gate(case: &Case<'_>, gate: usize, own: &[Piece], docket: &mut Docket) {
    let parts: Vec<&Part> = case
        .take_off
        .parts
        .iter()
        .filter(|p| p.gate == Some(gate) && p.role.and_then(kind).is_some())
        .collect();
    let mut counts = vec![0u32; parts.len()];
    for piece in own {
        let alike = parts
            .iter()
            .enumerate()
            .filter(|(_, p)| p.role.and_then(kind) == Some(piece.kind) && p.pipe == piece.pipe)
            .min_by(|a, b| distance(a.1, piece).total_cmp(&distance(b.1, piece)));
        match alike {
            Some((index, part)) => {
                counts[index] += 1;
                compare(part, piece, docket);
            }
            None => docket.say(
                Rule::PartMissing,
                &case.week.gates[gate].mark,
                format!(
                    "no part for a {:?} of {}",
                    piece.kind,
                    case.week.pipe(piece.pipe).name
                ),
            ),
        }
    }
    for (part, own) in parts.iter().zip(counts) {
        docket.same(part.per_gate, own, Rule::PartCount, &part.mark);
    }
}

fn compare(part: &Part, piece: &Piece, docket: &mut Docket) {
    let mark = &part.mark;
    docket.near(part.axis, piece.axis, WITHIN, Rule::PartAxis, mark);
    docket.near(
        part.long_exact,
        piece.long,
        WITHIN,
        Rule::PartLongPoint,
        mark,
    );
    docket.near(
        part.throat_exact,
        piece.throat,
        WITHIN,
        Rule::PartThroat,
        mark,
    );
    docket.demand(piece.throat > 0.0, Rule::PartThroat, mark, || {
        format!("a throat of {} in", piece.throat / INCH)
    });
    let Some((top, under)) = piece.lines else {
        copes::judge(part, piece, docket);
        return;
    };
    let (mut part_top, mut part_under) = (
        part.top_line.unwrap_or(f64::NAN),
        part.under_line.unwrap_or(f64::NAN),
    );
    if part.swaps_in_last_bay && (part_top - top).abs() > WITHIN {
        // Turned end for end in the last bay: its copes are judged where it lies as drawn.
        std::mem::swap(&mut part_top, &mut part_under);
    } else {
        copes::judge(part, piece, docket);
    }
    docket.near(part_top, top, WITHIN, Rule::PartTopLine, mark);
    docket.near(part_under, under, WITHIN, Rule::PartUnderLine, mark);
}

/// What holds of every part by itself.
fn each(case: &Case<'_>, part: &Part, docket: &mut Docket) {
    let (week, mark) = (case.week, &part.mark);
    let saw = Length::nearest_mark(part.long_exact, week.shop.saw.mark);
    docket.same(part.saw, saw, Rule::PartSaw, mark);
    let throat = Length::nearest_mark(part.throat_exact, week.shop.saw.mark);
    docket.same(part.throat, throat, Rule::PartThroat, mark);
    let weight = weigh(week.shop.units, week.pipe(part.pipe), part.saw);
    docket.near(part.weight, weight, WEIGHT_WITHIN, Rule::PartWeight, mark);
    let (Some(gate), Some(role)) = (part.gate, part.role) else {
        return;
    };
    let order = &week.gates[gate];
    let count = u64::from(part.per_gate) * u64::from(order.count);
    docket.same(u64::from(part.count), count, Rule::PartCount, mark);
    let horizontal = matches!(role, Role::TopHorizontal | Role::BottomHorizontal);
    docket.same(part.ours, !(order.kit && horizontal), Rule::PartOurs, mark);
    let suffix = part
        .mark
        .strip_prefix(order.mark.as_str())
        .and_then(|m| m.strip_prefix('-'))
        .and_then(|m| m.strip_prefix(letters(role)));
    let digits = suffix.is_some_and(|s| s.chars().all(|c| c.is_ascii_digit()));
    docket.demand(digits, Rule::PartMark, mark, || {
        format!(
            "a {role:?} of {} is marked {}-{}",
            order.mark,
            order.mark,
            letters(role)
        )
    });
}

fn extras(case: &Case<'_>, docket: &mut Docket) {
    let mut of_row: BTreeMap<usize, Vec<&Part>> = BTreeMap::new();
    for part in &case.take_off.parts {
        if let Some(row) = part.extra {
            of_row.entry(row).or_default().push(part);
        }
    }
    for (index, row) in case.week.extras.iter().enumerate() {
        let Some([part]) = of_row.get(&index).map(Vec::as_slice) else {
            docket.demand(
                case.extra_left_out(index),
                Rule::ExtraPart,
                &row.mark,
                || "it has not just one part in the take-off".to_owned(),
            );
            continue;
        };
        docket.same(
            part.mark.as_str(),
            row.mark.as_str(),
            Rule::ExtraPart,
            &row.mark,
        );
        docket.same(part.pipe, row.pipe, Rule::ExtraPart, &row.mark);
        docket.same(part.count, row.count, Rule::ExtraPart, &row.mark);
        docket.same(part.per_gate, row.count, Rule::ExtraPart, &row.mark);
        docket.same(part.ours, true, Rule::ExtraPart, &row.mark);
        let length = row.length.geometric();
        docket.near(part.long_exact, length, WITHIN, Rule::ExtraPart, &row.mark);
        docket.near(
            part.throat_exact,
            length,
            WITHIN,
            Rule::ExtraPart,
            &row.mark,
        );
    }
}
