//! From the orders up: re-derives the nest problem and every rule; → [`CheckedPlan`] or the list of
//! violations. Uses measure, order, gate, cope, part and statics only; never the arithmetic of
//! splice, stock, nest or plan (their data types are what is being judged).

mod checked;

pub use checked::{CheckedPlan, Violation};
