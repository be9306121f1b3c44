//! Whether a size can be meant: over zero, not absurd, and not feet written without their mark.

use super::faults::Faults;
use super::sheet::Cells;
use super::usual::{self, UsualSize};
use crate::measure::{FaultCode, Length, ParsedLength, Units};

/// The sizes that can be meant in one column.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds {
    pub least: Length,
    pub most: Length,
    /// A bare number of inches under this is as likely feet: refused, offering both.
    pub bare_least: Length,
    /// A bare number of inches over this is as likely millimetres: refused, offering both.
    pub bare_most: Length,
    /// Outside this a size is asked about.
    pub usual: UsualSize,
}

const fn feet(n: i64) -> Length {
    Length::from_64ths(n * 768)
}

impl Bounds {
    /// Openings.
    pub const SPAN: Bounds = Bounds {
        least: feet(2),
        most: feet(200),
        bare_least: feet(6),
        bare_most: feet(100),
        usual: usual::OPENING,
    };
    /// Leaves.
    pub const LEAF: Bounds = Bounds {
        usual: usual::LEAF,
        ..Bounds::SPAN
    };
    /// Heights.
    pub const HEIGHT: Bounds = Bounds {
        least: feet(1),
        most: feet(30),
        bare_least: feet(2),
        bare_most: feet(30),
        usual: usual::HEIGHT,
    };
    /// Tails and roller spacings.
    pub const TAIL: Bounds = Bounds {
        least: Length::INCH,
        most: feet(400),
        bare_least: feet(3),
        bare_most: feet(400),
        usual: usual::TAIL,
    };
    /// Overlaps: may be nothing.
    pub const OVERLAP: Bounds = Bounds {
        least: Length::ZERO,
        most: feet(40),
        bare_least: Length::ZERO,
        bare_most: feet(40),
        usual: usual::OVERLAP,
    };
    /// Joints on sale.
    pub const JOINT: Bounds = Bounds {
        least: feet(1),
        most: feet(200),
        bare_least: feet(8),
        bare_most: feet(200),
        usual: usual::JOINT,
    };
    /// Pieces and plain parts.
    pub const PIECE: Bounds = Bounds {
        least: Length::from_ticks(1),
        most: feet(200),
        bare_least: Length::ZERO,
        bare_most: feet(200),
        usual: usual::PART,
    };
}

/// The length when it lies within bounds; else its fault is on the list.
pub(super) fn judge_size(
    cells: &Cells<'_>,
    name: &str,
    parsed: &ParsedLength,
    bounds: Bounds,
    units: Units,
    faults: &mut Faults,
) -> Option<Length> {
    let length = parsed.length;
    let text = cells.text(name);
    let printed = length.print_with_unit(units);
    let both = match units {
        Units::Inch => format!("write {text}' for feet or {text}\" for inches"),
        Units::Metric => format!("write {text} m for metres or {text} mm for millimetres"),
    };
    let fine = match units {
        Units::Inch => format!("write {text}\" for inches or {text} mm for millimetres"),
        Units::Metric => format!("write {text} mm for millimetres, or its own unit"),
    };
    let full = match units {
        Units::Inch => "write it with its unit, such as 20 ft or 240 in",
        Units::Metric => "write it with its unit, such as 6 m or 6000 mm",
    };
    let within = |bound: Length, sense: &str| {
        let bound = bound.print_with_unit(units);
        format!("check it: {bound} or {sense} can be meant")
    };
    let sign = match units {
        Units::Inch => "write it without a minus and with its unit, such as 8 ft or 96 in",
        Units::Metric => "write it without a minus and with its unit, such as 2 m or 2000 mm",
    };
    let (what, mend) = if length < Length::ZERO && bounds.least <= Length::ZERO {
        (
            format!("the {name} must not be below zero"),
            sign.to_owned(),
        )
    } else if length < Length::ZERO {
        (format!("the {name} must be over zero"), sign.to_owned())
    } else if length == Length::ZERO && bounds.least > length {
        (format!("the {name} must be over zero"), full.to_owned())
    } else if length < bounds.least {
        (
            format!("the {name} reads as {printed}: too small to be meant"),
            if parsed.bare {
                both
            } else {
                within(bounds.least, "more")
            },
        )
    } else if length > bounds.most {
        (
            format!("the {name} reads as {printed}: too large to be meant"),
            if parsed.bare {
                fine
            } else {
                within(bounds.most, "less")
            },
        )
    } else if parsed.bare && units == Units::Inch && length > bounds.bare_most {
        (
            format!("the {name} has no unit: it reads as {printed}, and less may be meant"),
            fine,
        )
    } else if parsed.bare && units == Units::Inch && length < bounds.bare_least {
        (
            format!("the {name} has no unit: it reads as {printed}, and more may be meant"),
            both,
        )
    } else {
        if let Some(odd) = bounds.usual.odd(length, units) {
            let what = format!("the {name} reads as {printed}: {odd}");
            faults.ask(&cells.spot(name), &what, usual::MEND);
        }
        return Some(length);
    };
    faults.error(FaultCode::ValueOutOfRange, &cells.spot(name), &what, &mend);
    None
}
