//! `Length`: whole ticks of 1/320 mm, its named roundings and its printed forms.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Mul, Neg, Sub, SubAssign};

use serde::{Deserialize, Serialize};

/// Ticks in one inch, as geometry's `f64`.
pub const INCH: f64 = 8128.0;
/// Ticks in one millimetre, as geometry's `f64`.
pub const MM: f64 = 320.0;

/// Which way a shop reads and prints its lengths.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Feet, inches and binary fractions: `5'-8 3/16"`.
    Inch,
    /// Whole millimetres: `1732`.
    Metric,
}

/// A length in ticks of 1/320 mm. Exact; may be negative as a difference.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Length(i64);

/// Guard against float noise where a geometric value lies on a half mark: 1e-7 of a mark.
const HALF_GUARD: f64 = 1e-7;

impl Length {
    /// Zero.
    pub const ZERO: Length = Length(0);
    /// One inch.
    pub const INCH: Length = Length(8_128);
    /// One foot.
    pub const FOOT: Length = Length(97_536);
    /// One millimetre.
    pub const MM: Length = Length(320);
    /// One sixty-fourth of an inch.
    pub const SIXTY_FOURTH: Length = Length(127);
    /// Numbers past 2^40 ticks (about 3,400 km) are refused wherever they enter.
    pub const MAX: Length = Length(1 << 40);

    /// From whole ticks of 1/320 mm.
    pub const fn from_ticks(ticks: i64) -> Length {
        Length(ticks)
    }

    /// From 64ths of an inch (exact).
    pub const fn from_64ths(n: i64) -> Length {
        Length(n * 127)
    }

    /// From whole millimetres (exact).
    pub const fn from_mm(n: i64) -> Length {
        Length(n * 320)
    }

    /// The ticks of 1/320 mm.
    pub const fn ticks(self) -> i64 {
        self.0
    }

    /// The value as geometry's `f64`, in ticks (exact below 2^53).
    pub fn geometric(self) -> f64 {
        // Exact: |self| ≤ 2^40 wherever a length entered the program.
        self.0 as f64
    }

    /// The value in inches, for printing numbers beside printed forms.
    pub fn inches(self) -> f64 {
        self.geometric() / INCH
    }

    /// The value in millimetres, for printing numbers beside printed forms.
    pub fn millimetres(self) -> f64 {
        self.geometric() / MM
    }

    /// Geometry → the nearest multiple of `mark`; half a mark rounds up. The cut-length rounding.
    /// `x` is in ticks.
    pub fn nearest_mark(x: f64, mark: Length) -> Length {
        let n = (x / mark.geometric() + 0.5 + HALF_GUARD).floor();
        Length(to_whole(n).saturating_mul(mark.0))
    }

    /// Geometry → the greatest multiple of `mark` not above `x` (ticks), forgiving 1e-7 of a mark.
    pub fn floor_mark(x: f64, mark: Length) -> Length {
        let n = (x / mark.geometric() + HALF_GUARD).floor();
        Length(to_whole(n).saturating_mul(mark.0))
    }

    /// Geometry → the least multiple of `mark` not below `x` (ticks), forgiving 1e-7 of a mark.
    pub fn ceil_mark(x: f64, mark: Length) -> Length {
        let n = (x / mark.geometric() - HALF_GUARD).ceil();
        Length(to_whole(n).saturating_mul(mark.0))
    }

    /// Geometry → the nearest tick.
    pub fn nearest_tick(x: f64) -> Length {
        Length::nearest_mark(x, Length(1))
    }

    /// This length rounded down to a multiple of `mark` (exact integers).
    pub fn down_to(self, mark: Length) -> Length {
        Length(self.0.div_euclid(mark.0.max(1)) * mark.0.max(1))
    }

    /// This length rounded up to a multiple of `mark` (exact integers).
    pub fn up_to(self, mark: Length) -> Length {
        Length(-(-self.0).div_euclid(mark.0.max(1)) * mark.0.max(1))
    }

    /// This length rounded to the nearest multiple of `mark`, half a mark up (exact integers).
    pub fn to_nearest(self, mark: Length) -> Length {
        let m = mark.0.max(1);
        Length((2 * self.0 + m).div_euclid(2 * m) * m)
    }

    /// The printed form: `5'-8 3/16"` (nearest 1/64 in, lowest terms, zero inches shown) or whole
    /// millimetres. Values on the saw mark print exactly.
    pub fn print(self, units: Units) -> String {
        match units {
            Units::Metric => format!("{}", self.to_nearest(Length::MM).0 / 320),
            Units::Inch => self.print_feet(),
        }
    }

    /// As [`Length::print`], with the unit where the bare number would not show it.
    pub fn print_with_unit(self, units: Units) -> String {
        let words = self.print(units);
        match units {
            Units::Inch => words,
            Units::Metric => format!("{words} mm"),
        }
    }

    /// As [`Length::print`], first rounded to the nearest `mark` (the named rounding of a running mark).
    pub fn print_at(self, mark: Length, units: Units) -> String {
        self.to_nearest(mark).print(units)
    }

    fn print_feet(self) -> String {
        let n = self.to_nearest(Length::SIXTY_FOURTH).0 / 127;
        let (sign, n) = if n < 0 { ("-", -n) } else { ("", n) };
        let (feet, rest) = (n / 768, n % 768);
        let (inches, mut num) = (rest / 64, rest % 64);
        let mut den = 64;
        while num % 2 == 0 && den > 1 {
            num /= 2;
            den /= 2;
        }
        if num == 0 {
            format!("{sign}{feet}'-{inches}\"")
        } else {
            format!("{sign}{feet}'-{inches} {num}/{den}\"")
        }
    }
}

/// Float → integer for values already floored; saturates instead of wrapping, NaN is 0.
fn to_whole(n: f64) -> i64 {
    n as i64
}

impl fmt::Display for Length {
    /// Feet and inches; use [`Length::print`] where the shop's units are known.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.print_feet())
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, o: Length) -> Length {
        Length(self.0 + o.0)
    }
}
impl Sub for Length {
    type Output = Length;
    fn sub(self, o: Length) -> Length {
        Length(self.0 - o.0)
    }
}
impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(-self.0)
    }
}
impl Mul<i64> for Length {
    type Output = Length;
    fn mul(self, n: i64) -> Length {
        Length(self.0 * n)
    }
}
impl AddAssign for Length {
    fn add_assign(&mut self, o: Length) {
        self.0 += o.0;
    }
}
impl SubAssign for Length {
    fn sub_assign(&mut self, o: Length) {
        self.0 -= o.0;
    }
}
impl Sum for Length {
    fn sum<I: Iterator<Item = Length>>(iter: I) -> Length {
        Length(iter.map(|l| l.0).sum())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prints_feet_in_lowest_terms_with_zero_inches() {
        assert_eq!(
            Length::from_64ths(12 * 12 * 64).print(Units::Inch),
            "12'-0\""
        );
        assert_eq!(
            Length::from_64ths(68 * 64 + 12).print(Units::Inch),
            "5'-8 3/16\""
        );
        assert_eq!(Length::from_64ths(-1).print(Units::Inch), "-0'-0 1/64\"");
        assert_eq!(Length::from_mm(1732).print(Units::Metric), "1732");
    }

    #[test]
    fn rounds_half_a_mark_up_and_forgives_float_noise() {
        let sixteenth = Length::from_64ths(4);
        assert_eq!(
            Length::nearest_mark(68.2 * INCH, sixteenth),
            Length::from_64ths(68 * 64 + 12)
        );
        assert_eq!(Length::nearest_mark(254.0, sixteenth), sixteenth);
        assert_eq!(Length::nearest_mark(253.0, sixteenth), Length::ZERO);
        assert_eq!(Length::from_ticks(254).to_nearest(sixteenth), sixteenth);
        assert_eq!(Length::from_ticks(-1).up_to(sixteenth), Length::ZERO);
        assert_eq!(Length::from_ticks(1).up_to(sixteenth), sixteenth);
    }
}
