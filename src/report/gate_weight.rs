//! A gate's weight in words: what it is, what it includes, where its centre of gravity hangs.

use crate::part::{GateWeight, gate_weight};

use super::figures::Figures;
use super::job::Job;
use super::sheet::Block;
use super::table::DASH;

/// The weight of one gate; `None` when its frame was not built.
pub(super) fn weight(job: Job<'_>, gate: usize) -> Option<GateWeight> {
    gate_weight(job.week, job.take_off, gate)
}

/// The weight's lines on a gate or kit sheet.
pub(super) fn weight_pairs(job: Job<'_>, gate: usize) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let Some(weight) = weight(job, gate) else {
        return vec![Block::pair("LIFTING WEIGHT", DASH)];
    };
    let lifting = format!(
        "{} = {}",
        figures.spoken_weight(weight.total),
        includes(figures, &weight)
    );
    let centre = weight.centre_of_gravity;
    let bottom = job.week.gates[gate].pipes.horizontal;
    let up = centre.y + job.week.pipe(bottom).radius();
    vec![
        Block::pair("LIFTING WEIGHT", lifting),
        Block::pair(
            "Centre of gravity",
            format!(
                "{} from the latch face, {} above the bottom horizontal's underside",
                figures.spoken_of(centre.x),
                figures.spoken_of(up)
            ),
        ),
    ]
}

/// What is in the weight, and by name what is not.
fn includes(figures: Figures<'_>, weight: &GateWeight) -> String {
    let mut words = format!("bare pipe {}", figures.spoken_weight(weight.pipe));
    let mut missing = Vec::new();
    for (name, part) in [
        ("fabric", weight.fabric),
        ("hardware", weight.hardware),
        ("zinc", weight.zinc),
    ] {
        match part {
            Some(part) => words.push_str(&format!(" + {name} {}", figures.spoken_weight(part))),
            None => missing.push(name),
        }
    }
    if !missing.is_empty() {
        words.push_str(&format!("; NOT in it: {}", missing.join(", ")));
    }
    words
}
