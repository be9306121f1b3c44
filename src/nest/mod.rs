//! Integers only: lengths, counts, stocks, charges, slots → patterns, splices, bound, certificate.
//!
//! Knows nothing of gates. All lengths are integers in one unit (the plan uses ticks of 1/320 mm);
//! all money is integers in one unit (the plan uses 1/1000 cent). Numbers past 2^40 are refused.

mod admit;
mod aim;
mod answer;
mod assemble;
mod best_fit;
mod bound;
mod chain;
mod charge;
mod charges;
mod closing;
mod compact;
mod converge;
mod cost;
mod couple;
mod dive;
mod duals;
mod fault;
mod few;
mod grid;
mod improve;
mod integer_master;
mod lattice;
mod leaves;
mod listing;
mod longest_first;
mod master;
mod oracle;
mod price;
mod pricing;
mod problem;
mod proof;
mod reach;
mod realise;
mod rules;
mod simplex;
mod solve;
mod tableau;
mod tree;
mod watch;
mod ways;
mod whole;
mod whole_numbers;

pub use aim::{Weighing, solve, weighing};
pub use answer::{Answer, Configuration, Cut, Pattern, PoolAnswer, Status, StopReason};
pub use charge::{Charge, ChargeKind, StockOf};
pub use cost::{cost, cost_with_charges};
pub use fault::NestFault;
pub use longest_first::longest_first;
pub use problem::{Aim, Credit, Group, Item, Limits, Line, Pool, Problem, Slot, Stock};
pub use proof::{Branch, Counted, Leaf, Multiplier};
pub use reach::{Reach, reach};
pub use watch::{NoWatch, Watch};
pub use whole::{Fork, Whole};
