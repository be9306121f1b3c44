//! `[saw]`: kerf, trims, hold-back, mark.

use super::section::{Range, Section};
use super::{Context, inches, mm};
use crate::measure::{FaultCode, Length, Units};
use crate::order::Saw;
use crate::order::faults::Faults;

/// 0.100 in up to a tick, and 2.5 mm.
const KERF: (Length, Length) = (Length::from_ticks(813), Length::from_ticks(800));
/// Reads `[saw]`.
pub(super) fn read_saw(context: &Context<'_>, faults: &mut Faults) -> Saw {
    let mut s = context.section("saw", faults);
    let entered = read_kerf(&mut s, faults);
    let kerf = Saw::kerf_as_planned(entered, s.units());
    let quarter = (Length::from_64ths(16), mm(6));
    let far_trim = read_far_trim(&mut s, kerf, quarter, faults);
    let near_trim = s.size_up("near_trim", quarter, Range::From, faults);
    judge_trim(&s, "near_trim", near_trim, faults);
    judge_trim(&s, "far_trim", far_trim, faults);
    let saw = Saw {
        kerf_entered: entered,
        kerf,
        near_trim,
        far_trim,
        hold_back: s.size_up("hold_back", (mm(0), mm(0)), Range::From, faults),
        mark: read_mark(&mut s, faults),
        measure_first_under: s.size(
            "measure_first_under",
            (Length::from_64ths(8), mm(3)),
            Range::From,
            faults,
        ),
        tape: s.maybe_size(
            "tape",
            Range::Over,
            super::section::Rounding::Nearest,
            faults,
        ),
        saws: read_saws(&mut s, faults),
        piece_tolerance: s.size(
            "piece_tolerance",
            (Length::from_64ths(2), Length::from_ticks(256)),
            Range::From,
            faults,
        ),
    };
    s.done(faults);
    saw
}

fn read_kerf(s: &mut Section<'_>, faults: &mut Faults) -> Length {
    let default = s.pick(KERF.0, KERF.1);
    let Some(kerf) = s.maybe_size("kerf", Range::From, super::section::Rounding::Up, faults) else {
        return default;
    };
    if kerf > inches(1) {
        faults.error(
            FaultCode::ValueOutOfRange,
            &s.spot("kerf"),
            "a kerf over an inch (25.4 mm) is not a saw's",
            "write the width the blade takes away, such as 0.100 in or 2.5 mm",
        );
        return default;
    }
    kerf
}

fn read_far_trim(
    s: &mut Section<'_>,
    kerf: Length,
    default: (Length, Length),
    faults: &mut Faults,
) -> Length {
    // Where no trim is named it is never under the kerf.
    let default = (default.0.max(kerf), default.1.max(kerf));
    let far = s.size_up("far_trim", default, Range::From, faults);
    if far > Length::ZERO && far < kerf {
        let units = s.units();
        faults.error(
            FaultCode::ValueOutOfRange,
            &s.spot("far_trim"),
            &format!(
                "a far trim between 0 and the kerf ({}) cannot be cut",
                shown(kerf, units)
            ),
            "write 0 for no trim, or at least the kerf",
        );
    }
    far
}

/// A trim squares a raw or flame-cut end: no shop takes more off (common practice, no source). What a machine
/// cannot reach is its hold-back.
const LONGEST_TRIM: Length = inches(24);

fn judge_trim(s: &Section<'_>, key: &str, trim: Length, faults: &mut Faults) {
    if trim > LONGEST_TRIM {
        let printed = trim.print_with_unit(s.units());
        faults.error(
            FaultCode::ValueOutOfRange, &s.spot(key),
            &format!("it reads as {printed}: a trim only squares the end of a joint"),
            "write what is cut off the end, such as 1/4 in or 6 mm; a length the saw grips goes under hold_back",
        );
    }
}

fn shown(length: Length, units: Units) -> String {
    match units {
        Units::Inch => format!("{} in", length.inches()),
        Units::Metric => format!("{} mm", length.millimetres()),
    }
}

fn read_mark(s: &mut Section<'_>, faults: &mut Faults) -> Length {
    let mark = s.size("mark", (Length::from_64ths(4), mm(1)), Range::Over, faults);
    if mark > inches(1) {
        faults.error(
            FaultCode::ValueOutOfRange,
            &s.spot("mark"),
            "a saw mark over an inch (25.4 mm) is no use",
            "write what the saw is set to, such as 1/16 in or 1 mm",
        );
        return s.pick(Length::from_64ths(4), mm(1));
    }
    mark
}

fn read_saws(s: &mut Section<'_>, faults: &mut Faults) -> u32 {
    let saws = s
        .read("saws", faults, crate::measure::parse_count)
        .unwrap_or(1);
    if !(1..=100).contains(&saws) {
        faults.error(
            FaultCode::ValueOutOfRange,
            &s.spot("saws"),
            "it must lie from 1 to 100",
            "write how many saws cut at once",
        );
        return 1;
    }
    saws
}
