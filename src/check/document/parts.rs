//! Parts: counted as their gates are, cut to the nearest mark, weighed by pipe and saw length; what is left
//! out is left out by name.

use std::collections::BTreeSet;

use super::form::{End, Exact, Geometric, Part, Pipe};
use super::papers::{Papers, wide, within};
use crate::check::Rule;
use crate::check::docket::Docket;
use crate::measure::{INCH, MM};

/// Weights are rounded to 1/10,000.
const WEIGHT_WITHIN: f64 = 0.000_2;

/// Judges every part.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    let mut marks = BTreeSet::new();
    for part in &papers.plan.parts {
        docket.demand(
            marks.insert(part.mark.as_str()),
            Rule::FileParts,
            &part.mark,
            || "two parts carry this mark".to_owned(),
        );
        one(papers, part, docket);
    }
    for left in &papers.plan.left_out {
        let named = !left.reason.trim().is_empty();
        docket.demand(named, Rule::FileParts, &left.mark, || {
            "it is left out without a reason".to_owned()
        });
    }
}

fn one(papers: &Papers<'_>, part: &Part, docket: &mut Docket) {
    let plan = papers.plan;
    let gates = part.gate.map_or(1, |g| u64::from(plan.gates[g].count));
    let count = u64::from(part.per_gate) * gates;
    docket.same(part.count, count, Rule::FileParts, &part.mark);
    let horizontal = ["top horizontal", "bottom horizontal"].contains(&part.role.as_str());
    let kit = part.gate.is_some_and(|g| plan.gates[g].kit);
    docket.same(part.ours, !(kit && horizontal), Rule::FileParts, &part.mark);
    let named = |l: &super::form::LeftOut| match part.gate {
        Some(gate) => l.gate == Some(gate),
        None => l.mark == part.mark,
    };
    let out = plan.left_out.iter().any(named);
    docket.same(part.left_out, out, Rule::FileParts, &part.mark);
    let half = wide(plan.saw_mark.ticks.into()) / 2.0 + 0.1;
    let cut = |marked: Exact, exact: Geometric| {
        let whole = marked.ticks.rem_euclid(plan.saw_mark.ticks) == 0;
        whole && within(wide(marked.ticks.into()), exact.value * papers.unit(), half)
    };
    let marked = cut(part.saw_length, part.long_point) && cut(part.throat, part.throat_exact);
    docket.demand(marked, Rule::FileParts, &part.mark, || {
        "saw length and throat are not the exact ones at the nearest mark".to_owned()
    });
    docket.demand(set_back(papers, part), Rule::FileParts, &part.mark, || {
        "its axis less the setbacks is not its long point and throat".to_owned()
    });
    let weight = weigh(papers, &plan.pipes[part.pipe], part.saw_length.ticks);
    docket.near(
        part.weight_each,
        weight,
        WEIGHT_WITHIN,
        Rule::FileParts,
        &part.mark,
    );
}

/// Long point = axis − least setbacks, throat = axis − largest setbacks, cutback = largest − least.
fn set_back(papers: &Papers<'_>, part: &Part) -> bool {
    let same = |a: f64, b: f64| within(a * papers.unit(), b * papers.unit(), 0.1);
    let of = |length: Option<Geometric>| length.map_or(0.0, |l| l.value);
    let all =
        |f: fn(&End) -> Option<Geometric>| -> f64 { part.ends.iter().map(|e| of(f(e))).sum() };
    let cut = |e: &End| same(of(e.setback_largest) - of(e.setback_least), of(e.cutback));
    same(
        part.axis.value - all(|e| e.setback_least),
        part.long_point.value,
    ) && same(
        part.axis.value - all(|e| e.setback_largest),
        part.throat_exact.value,
    ) && part.ends.iter().all(cut)
}

/// Pounds by lb/ft = 10.69 (OD − t) t in inches, or kilograms by kg/m = 0.02466 (OD − t) t in mm (ASTM F1083 /
/// ASME B36.10M).
pub(super) fn weigh(papers: &Papers<'_>, pipe: &Pipe, ticks: i64) -> f64 {
    let of = |value: f64, unit: &str| value * if unit == "mm" { MM } else { INCH };
    let (od, wall) = (of(pipe.od, &pipe.od_unit), of(pipe.wall, &pipe.wall_unit));
    let length = wide(ticks.into());
    if papers.plan.units == "mm" {
        0.02466 * ((od - wall) / MM) * (wall / MM) * length / (1000.0 * MM)
    } else {
        10.69 * ((od - wall) / INCH) * (wall / INCH) * length / (12.0 * INCH)
    }
}
