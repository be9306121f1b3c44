//! Gates: the leaf is the sum of its lengths, bay lines ascend within it, rollers stand an opening apart
//! open and closed.

use super::form::{Gate, Push};
use super::papers::{Papers, wide, within};
use crate::check::Rule;
use crate::check::docket::Docket;

/// Ticks: figures are rounded to a millionth of an inch or 1/10,000 mm, and a few are added.
const WITHIN: f64 = 0.1;
/// Weights are rounded to 1/10,000, and a few dozen are added.
const WEIGHT_WITHIN: f64 = 0.01;

/// Judges every gate.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    for gate in &papers.plan.gates {
        one(papers, gate, docket);
        bays(papers, gate, docket);
    }
    for (index, gate) in papers.plan.gates.iter().enumerate() {
        weight(papers, index, gate, docket);
    }
}

fn one(papers: &Papers<'_>, gate: &Gate, docket: &mut Docket) {
    let ticks = |value: f64| value * papers.unit();
    let given = [gate.opening, gate.latch_overlap, gate.roller_overlap];
    let given: f64 = given.iter().map(|l| wide(l.ticks.into())).sum();
    let (leaf, sum) = (ticks(gate.leaf.value), given + ticks(gate.tail.value));
    docket.demand(within(leaf, sum, 2.0), Rule::FileGates, &gate.mark, || {
        format!("a leaf of {leaf} ticks; opening, overlap and tail add up to {sum}")
    });
    let Some(frame) = &gate.frame else {
        return;
    };
    let lines: Vec<f64> = frame.bay_lines.iter().map(|x| x.value).collect();
    let placed = lines.windows(2).all(|w| w[0] < w[1])
        && lines.first().is_some_and(|x| *x >= 0.0)
        && lines.last().is_some_and(|x| *x <= gate.leaf.value)
        && frame.lean_deg.len() + 1 == lines.len();
    docket.demand(placed, Rule::FileGates, &gate.mark, || {
        format!("bay lines at {lines:?}, {} leans", frame.lean_deg.len())
    });
    let closed = frame.roller_front_closed.value;
    let open = frame.roller_front_open.value;
    let between = ticks(closed - open);
    let opening = wide(gate.opening.ticks.into());
    docket.demand(
        within(between, opening, WITHIN),
        Rule::FileGates,
        &gate.mark,
        || format!("the front roller moves {between} ticks over an opening of {opening}"),
    );
    let Some(bending) = &gate.bending else {
        return;
    };
    let spacing = frame.roller_spacing.value;
    let stands = |pushes: &[Push], front: f64| {
        let at = |push: &Push| match push.roller.as_str() {
            "front" => front,
            _ => front + spacing,
        };
        let near = |p: &Push| within(ticks(p.from_latch_face.value), ticks(at(p)), WITHIN);
        pushes.iter().all(near)
    };
    let both = stands(&bending.rollers_closed, closed) && stands(&bending.rollers_open, open);
    docket.demand(both, Rule::FileGates, &gate.mark, || {
        "its bending has rollers in other places".to_owned()
    });
}

/// Bays go from bay line to bay line, and the rear rollers stand a spacing behind the front ones.
fn bays(papers: &Papers<'_>, gate: &Gate, docket: &mut Docket) {
    let Some(frame) = &gate.frame else {
        return;
    };
    let same = |a: f64, b: f64| within(a * papers.unit(), b * papers.unit(), WITHIN);
    let lines = frame.bay_lines.windows(2).zip(&frame.lean_deg);
    let laid = frame.bays.len() + 1 == frame.bay_lines.len()
        && frame
            .bays
            .iter()
            .zip(lines)
            .enumerate()
            .all(|(i, (bay, (ends, lean)))| {
                bay.bay == i + 1
                    && same(bay.from.value, ends[0].value)
                    && same(bay.to.value, ends[1].value)
                    && same(bay.width.value, ends[1].value - ends[0].value)
                    && bay.lean_deg == *lean
            });
    docket.demand(laid, Rule::FileGates, &gate.mark, || {
        "its bays are not those of its bay lines".to_owned()
    });
    let behind = |rear: f64, front: f64| same(rear, front + frame.roller_spacing.value);
    let stand = behind(
        frame.roller_rear_closed.value,
        frame.roller_front_closed.value,
    ) && behind(frame.roller_rear_open.value, frame.roller_front_open.value);
    docket.demand(stand, Rule::FileGates, &gate.mark, || {
        "its rear rollers do not stand a spacing behind the front ones".to_owned()
    });
}

/// The pipe of a gate weighs what its parts weigh; the total is all that is known.
fn weight(papers: &Papers<'_>, index: usize, gate: &Gate, docket: &mut Docket) {
    let Some(said) = &gate.weight else {
        return;
    };
    let own = papers.plan.parts.iter().filter(|p| p.gate == Some(index));
    let pipe: f64 = own.map(|p| p.weight_each * f64::from(p.per_gate)).sum();
    docket.near(said.pipe, pipe, WEIGHT_WITHIN, Rule::FileGates, &gate.mark);
    let more = [said.fabric, said.hardware, said.zinc];
    let total = said.pipe + more.iter().flatten().sum::<f64>();
    docket.near(
        said.total,
        total,
        WEIGHT_WITHIN,
        Rule::FileGates,
        &gate.mark,
    );
}
