//! `Dimension`: an exact decimal in the unit it was written in (pipe OD and wall), never a `Length`.

use std::fmt;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::{Deserialize, Serialize};

use super::{INCH, MM, Units};

/// Unit a dimension was written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Unit {
    /// Inches.
    Inch,
    /// Millimetres.
    Mm,
}

impl Unit {
    /// The unit of a bare number in a shop of these units.
    pub fn of(units: Units) -> Unit {
        match units {
            Units::Inch => Unit::Inch,
            Units::Metric => Unit::Mm,
        }
    }
}

/// An exact pipe dimension. 48.3 mm and 1.900 in (48.26 mm) differ; 25.4 mm and 1 in are equal
/// by [`Dimension::exact_mm`], which is what pipe keys compare.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
pub struct Dimension {
    /// The number as written.
    pub value: Decimal,
    /// Its unit.
    pub unit: Unit,
}

impl Dimension {
    /// Inches, exactly as written.
    pub fn inch(value: Decimal) -> Dimension {
        Dimension {
            value,
            unit: Unit::Inch,
        }
    }

    /// Millimetres, exactly as written.
    pub fn mm(value: Decimal) -> Dimension {
        Dimension {
            value,
            unit: Unit::Mm,
        }
    }

    /// The exact value in millimetres.
    pub fn exact_mm(self) -> Decimal {
        match self.unit {
            Unit::Mm => self.value.normalize(),
            Unit::Inch => (self.value * Decimal::new(254, 1)).normalize(),
        }
    }

    /// The value as geometry's `f64`, in ticks.
    pub fn geometric(self) -> f64 {
        let v = self.value.to_f64().unwrap_or(f64::NAN);
        match self.unit {
            Unit::Inch => v * INCH,
            Unit::Mm => v * MM,
        }
    }

    /// The value in inches.
    pub fn inches(self) -> f64 {
        self.geometric() / INCH
    }

    /// The value in millimetres.
    pub fn millimetres(self) -> f64 {
        self.geometric() / MM
    }
}

impl PartialEq for Dimension {
    fn eq(&self, o: &Dimension) -> bool {
        self.exact_mm() == o.exact_mm()
    }
}
impl Eq for Dimension {}

impl fmt::Display for Dimension {
    /// `2.375` in inches, `60.3 mm` in millimetres; digits as written.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.unit {
            Unit::Inch => write!(f, "{}", self.value),
            Unit::Mm => write!(f, "{} mm", self.value),
        }
    }
}
