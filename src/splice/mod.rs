//! Rules + envelope → slots on each horizontal where a splice may stand, with zone and charge.

mod configure;
mod reach;
mod refuse;
#[cfg(test)]
mod refuse_tests;
mod set;
#[cfg(test)]
mod tests;
mod track;
mod window;
#[cfg(test)]
pub(crate) mod world;

pub(crate) use configure::{Prefer, Terms, configure, fewest};
pub(crate) use reach::{Lift, windows};
pub(crate) use set::{Case, settle, shape, terms, track_of, would_do};
pub use set::{places, sets};
pub(crate) use track::Track;
pub use window::{ReachForm, SpliceLine, SpliceSet, Window, WindowClass, inward};

/// A setting's decimal as geometry's `f64`; a value that does not fit counts as 0 (never happens to
/// the small fractions judged by the order room).
pub(crate) fn fraction(d: rust_decimal::Decimal) -> f64 {
    use rust_decimal::prelude::ToPrimitive;
    d.to_f64().unwrap_or(0.0)
}
