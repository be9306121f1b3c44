//! The yard: what is told, and where everything is.

mod commands;
mod database;
#[path = "../world/dice.rs"]
mod dice;
#[path = "../world/dice_of_lengths.rs"]
mod dice_of_lengths;
mod entries;
mod follow;
mod histories;
mod kills;
mod mistyped;
mod teller;
#[path = "../world/tiny.rs"]
mod tiny;
#[path = "../world/tiny_week.rs"]
mod tiny_week;
mod undo;
mod verdicts;
mod world;
