//! Every piece of every gate copy and every extra part is cut exactly once, under its own mark and
//! to its own saw length; spliced lines piece by piece.

use std::collections::{BTreeMap, BTreeSet};

use super::case::{Case, joint_name};
use super::docket::Docket;
use super::open::Open;
use super::rule::Rule;
use crate::measure::Length;
use crate::part::Part;
use crate::plan::PieceCut;

/// (part, copy, serial, piece of a spliced line or 0).
type Key = (usize, u32, u32, u32);

/// What one piece must be.
struct Wanted {
    mark: String,
    saw: Length,
}

/// Judges that what is cut is what is ordered.
pub(super) fn judge(case: &Case<'_>, docket: &mut Docket) {
    left_out(case, docket);
    spliced_lines(case, docket);
    let wanted = wanted(case);
    let mut cut: BTreeMap<Key, u32> = BTreeMap::new();
    for (joint, piece) in case.cuts() {
        let key = key(piece);
        let subject = format!("{}, {}", joint_name(joint), piece.mark);
        *cut.entry(key).or_default() += 1;
        let part = &case.take_off.parts[piece.part];
        docket.demand(part.ours, Rule::PieceNotOurs, &subject, || {
            "the customer buys it locally".to_owned()
        });
        match wanted.get(&key) {
            None => docket.say(
                Rule::PieceUnknown,
                &subject,
                format!(
                    "no such piece is ordered: copy {}, number {}, piece {:?} of {}",
                    piece.copy, piece.serial, piece.piece, part.mark
                ),
            ),
            Some(w) => {
                docket.same(piece.saw, w.saw, Rule::PieceSaw, &subject);
                docket.same(
                    piece.mark.as_str(),
                    w.mark.as_str(),
                    Rule::PieceMark,
                    &subject,
                );
            }
        }
    }
    for (key, w) in &wanted {
        let n = cut.get(key).copied().unwrap_or(0);
        docket.demand(n <= 1, Rule::PieceTwice, &w.mark, || {
            format!("cut {n} times (number {} of its gate)", key.2)
        });
        docket.demand(n >= 1, Rule::PieceMissing, &w.mark, || {
            format!("number {} of its gate is on no joint", key.2)
        });
    }
}

fn key(piece: &PieceCut) -> Key {
    (
        piece.part,
        piece.copy,
        piece.serial,
        piece.piece.unwrap_or(0),
    )
}

/// A gate that has no frame is left out by name, and whatever is left out says why.
fn left_out(case: &Case<'_>, docket: &mut Docket) {
    for (gate, order) in case.week.gates.iter().enumerate() {
        let built = case.take_off.frames.iter().any(|f| f.gate == gate);
        docket.demand(
            built || case.gate_left_out(gate),
            Rule::GateForgotten,
            &order.mark,
            || "it has no frame and is not left out by name".to_owned(),
        );
    }
    for left in &case.plan.left_out {
        docket.demand(
            !left.reason.trim().is_empty() && !left.mark.trim().is_empty(),
            Rule::LeftOutUnexplained,
            &left.mark,
            || "what is left out is named with its reason".to_owned(),
        );
    }
}

/// Spliced lines: each once, of a piece that exists.
fn spliced_lines(case: &Case<'_>, docket: &mut Docket) {
    let mut seen = BTreeSet::new();
    let open = Open::of(case);
    for line in &case.plan.spliced {
        let part = &case.take_off.parts[line.part];
        let (first, last) = case.copies(part);
        let exists = (first..=last).contains(&line.copy)
            && (1..=part.per_gate).contains(&line.serial)
            && part.ours;
        docket.demand(exists, Rule::SplicedLineUnknown, &part.mark, || {
            format!("copy {}, number {} is not ordered", line.copy, line.serial)
        });
        let once = seen.insert((line.part, line.copy, line.serial));
        docket.demand(once, Rule::SplicedLineTwice, &part.mark, || {
            format!(
                "copy {}, number {} is spliced twice",
                line.copy, line.serial
            )
        });
        let handed_out = open.line(line.part, line.copy);
        docket.same(
            line.stays,
            handed_out.is_some(),
            Rule::BegunLine,
            &part.mark,
        );
        if let Some(own) = handed_out {
            docket.same(&line.pieces, &own.pieces, Rule::BegunLine, &part.mark);
        }
        docket.demand(
            line.pieces.len() >= 2 && line.splices.len() + 1 == line.pieces.len(),
            Rule::SplicePieceCount,
            &part.mark,
            || {
                format!(
                    "{} pieces and {} splices",
                    line.pieces.len(),
                    line.splices.len()
                )
            },
        );
    }
}

fn wanted(case: &Case<'_>) -> BTreeMap<Key, Wanted> {
    let mut spliced = BTreeMap::new();
    for line in &case.plan.spliced {
        spliced.insert((line.part, line.copy, line.serial), &line.pieces);
    }
    let open = Open::of(case);
    let mut out = BTreeMap::new();
    for (index, part) in case.take_off.parts.iter().enumerate() {
        if !part.ours || case.part_left_out(part) {
            continue;
        }
        let (first, last) = case.copies(part);
        for copy in first..=last {
            for serial in 1..=part.per_gate {
                let mark = mark(case, part, copy);
                match spliced.get(&(index, copy, serial)) {
                    None => {
                        let saw = part.saw;
                        out.insert((index, copy, serial, 0), Wanted { mark, saw });
                    }
                    Some(pieces) => {
                        for (number, &saw) in (1u32..).zip(pieces.iter()) {
                            let mark = format!("{mark}/{number}");
                            out.insert((index, copy, serial, number), Wanted { mark, saw });
                        }
                    }
                }
            }
        }
    }
    out.retain(|(part, copy, serial, piece), _| !open.made(*part, (*copy, *serial, *piece)));
    out
}

/// `A3.2-V`: the gate's mark, its copy when there are several, the part.
fn mark(case: &Case<'_>, part: &Part, copy: u32) -> String {
    let Some(gate) = part.gate else {
        return part.mark.clone();
    };
    let order = &case.week.gates[gate];
    let tail = part
        .mark
        .strip_prefix(order.mark.as_str())
        .unwrap_or(&part.mark);
    if order.count > 1 {
        format!("{}.{copy}{tail}", order.mark)
    } else {
        part.mark.clone()
    }
}
