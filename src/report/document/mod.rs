//! `plan.json`: everything of a week in one document, by the schema in `data/plan.schema.json`.
//!
//! Names here are a promise to other programs: a field is added, never renamed or given another
//! meaning, without a new `version`. Every length is `{ticks, value, print}` (ticks of 1/320 mm;
//! value in the document's unit; the printed form) or, from geometry, `{value, print}`. Angles are
//! degrees. What is not known is `null`, never 0.

mod bending_entry;
pub(super) mod gate_entry;
mod joint_entry;
mod kit_entry;
mod money_entry;
pub(super) mod opening;
mod part_entry;
pub(super) mod quantity;
pub(super) mod splice_entry;
mod whole;

pub(super) use whole::{PLAN_FORMAT, plan_document, take_off_document};
