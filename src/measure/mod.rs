//! Length, Angle, Money, Weight: parse, print, named roundings.
//!
//! Integers inside, units only at the edge, one named rounding per crossing:
//!
//! - [`Length`] is an `i64` in ticks of 1/320 mm (1 mm = 320, 1/64 in = 127, 1 in = 8128: all whole).
//! - Geometry is `f64` **in ticks** (so every shop length that is whole in ticks is exact in the
//!   float too) and enters [`Length`] through one of [`Length`]'s named roundings.
//! - [`Money`] is a `rust_decimal`; inside the optimisation it is an `i64` in 1/1000 cent
//!   ([`Money::MILLICENTS_PER_UNIT`]).
//! - Angles are `f64` radians inside; names say `_deg` where a number is in degrees.

mod dimension;
mod fault_code;
mod length;
mod lexeme;
mod misread;
mod money;
mod parse_date;
mod parse_length;
mod parse_number;
mod share_out;

pub use dimension::{Dimension, Unit};
pub use fault_code::FaultCode;
pub use length::{INCH, Length, MM, Units};
pub use misread::Misread;
pub use money::Money;
pub use parse_date::{DateOrder, parse_date, parse_date_in};
pub use parse_length::{LengthFault, ParsedLength, parse_length};
pub use parse_number::{
    has_decimal_comma, has_decimal_point, parse_count, parse_money, parse_number, parse_yes,
    reads_as_thousands,
};
pub use share_out::{cents_that_add, cents_that_come_to, share_out};
