//! Integers only: lengths, counts, stocks, charges, slots → patterns, splices, bound, certificate.
//!
//! Knows nothing of gates. All lengths are integers in one unit (the plan uses ticks of 1/320 mm);
//! all money is integers in one unit (the plan uses 1/1000 cent). Numbers past 2^40 are refused.

mod answer;
mod problem;

pub use answer::{Answer, Configuration, Cut, Pattern, PoolAnswer, Status, StopReason};
pub use problem::{Aim, Credit, Group, Item, Limits, Line, Pool, Problem, Slot, Stock};
