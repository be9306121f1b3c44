//! The yard: what is told, and where everything is.

mod commands;
mod database;
#[path = "../world/dice.rs"]
mod dice;
#[path = "../world/dice_of_lengths.rs"]
mod dice_of_lengths;
mod entries;
mod histories;
mod kills;
mod mistyped;
mod teller;
mod undo;
mod verdicts;
mod world;
