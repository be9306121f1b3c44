//! A gate's weight in words: what it is, what it includes, where its centre of gravity hangs.

use super::figures::Figures;
use super::job::Job;
use super::sheet::Block;

/// What the sheets need of a gate's weight.
pub(super) struct Weight {
    /// Printed lifting weight, lb or kg.
    pub lifting: f64,
    /// Centre of gravity from the latch face, ticks.
    pub centre_x: f64,
}

/// The weight of one gate; `None` when its frame was not built.
pub(super) fn weight(_job: Job<'_>, _gate: usize) -> Option<Weight> {
    None
}

/// The weight's lines on the gate sheet.
pub(super) fn weight_pairs(job: Job<'_>, gate: usize) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let Some(weight) = weight(job, gate) else {
        return vec![Block::pair("Lifting weight", super::table::DASH)];
    };
    vec![
        Block::pair("Lifting weight", figures.spoken_weight(weight.lifting)),
        Block::pair(
            "Centre of gravity",
            format!("{} from the latch face", figures.spoken_of(weight.centre_x)),
        ),
    ]
}
