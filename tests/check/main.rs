//! The checker: it passes what is sound, and names what is not.

mod check_dates;
mod check_fees;
mod check_plan;
mod check_stressed_splice;
mod check_take_off;
#[path = "../world/demo.rs"]
mod demo;
#[path = "../world/dice.rs"]
mod dice;
#[path = "../world/dice_of_lengths.rs"]
mod dice_of_lengths;
mod edges;
#[path = "../world/judge.rs"]
mod judge;
#[path = "../world/outside.rs"]
mod outside;
mod proof_edges;
mod spoiled;
#[path = "../world/tiny.rs"]
mod tiny;
#[path = "../world/tiny_week.rs"]
mod tiny_week;
