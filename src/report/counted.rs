//! `1 gate`, `2 gates`: a count with its noun.

use std::fmt::Display;

/// A count and its noun, in the number that fits.
pub(super) fn counted<N: Display + PartialEq + From<u8>>(n: N, one: &str, many: &str) -> String {
    let noun = if n == N::from(1) { one } else { many };
    format!("{n} {noun}")
}
