//! What a kit's reader is told in words, the same in text, on paper and on the page.

use crate::measure::Length;
use crate::order::{GateOrder, Week};
use crate::part::Part;

use super::blade::blade_rule;
use super::brace_words::brace_words;
use super::cautions::{gate_cautions, splice_cautions};
use super::figures::Figures;
use super::gate_weight::weight_pairs;
use super::job::Job;
use super::joint_block::fine;
use super::sheet::Block;

/// Title of what holds of the frame as it is put together.
pub(super) const STANDS: &str = "When it stands";

/// What the advice takes for granted about the customer's saw, and where the blade stands.
pub(super) fn assumed(week: &Week) -> String {
    let figures = Figures::of(week);
    let kit = &week.shop.kit;
    format!(
        "Assumed at your saw: kerf {}, {} cut off each end of a joint. RUNNING MARK is from the \
         raw end of the joint. {}",
        fine(figures, kit.kerf),
        fine(figures, kit.trim),
        blade_rule(kit.trim > Length::ZERO)
    )
}

/// Parts that we send and the carrier does not take, with their lengths; `None` when it takes all, or no limit
/// is known.
pub(super) fn over_carrier(job: Job<'_>, gate: usize) -> Option<String> {
    let limit = job.week.shop.kit.carrier_limit?;
    let figures = Figures::of(job.week);
    let long = |p: &Part| p.ours && p.saw > limit;
    let parts: Vec<String> = job
        .parts_of(gate)
        .filter(|(_, p)| long(p))
        .map(|(_, p)| format!("{} ({})", p.mark, figures.spoken(p.saw)))
        .collect();
    (!parts.is_empty()).then(|| {
        format!(
            "OVER THE CARRIER'S LIMIT of {}: {}",
            figures.spoken(limit),
            parts.join(", ")
        )
    })
}

/// Check measure, lifting weight and what is in it, centre of gravity, sway brace: label and value.
pub(super) fn stands(job: Job<'_>, gate: usize) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let mut pairs = Vec::new();
    let frame = job.frame(gate);
    if let Some(frame) = frame {
        pairs.push(Block::pair(
            "Check measure",
            format!(
                "{}, both ways equal, before it is welded out",
                figures.spoken_of(frame.check_measure)
            ),
        ));
    }
    pairs.extend(weight_pairs(job, gate));
    let brace = frame.and_then(|f| brace_words(job.week, f));
    pairs.extend(brace.map(|words| Block::pair("Sway brace", words)));
    pairs
}

/// The splices' cautions, then the gate's, each once: whoever welds has no other sheet.
pub(super) fn cautions(week: &Week, gate: &GateOrder) -> Vec<String> {
    let mut out = splice_cautions(week);
    for caution in gate_cautions(week, gate) {
        if !out.contains(&caution) {
            out.push(caution);
        }
    }
    out
}
