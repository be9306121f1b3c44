//! `[[pipe]]`: the shop's pipes by name.

use rust_decimal::Decimal;

use super::section::Section;
use crate::measure::{Dimension, FaultCode, Length, Unit, Units, parse_length};
use crate::order::Pipe;
use crate::order::faults::{Faults, Spot};
use crate::order::pipe_book::{PipeBook, finish_of};
use crate::order::published_pipe::{od_slip, wall_slip};
use crate::order::usual::{self, UsualSize};
use crate::text::{Entry, Value};

/// No pipe is rolled of thinner sheet: 1/64 in, 0.4 mm (common practice, no source).
const THINNEST_WALL: Length = Length::SIXTY_FOURTH;

/// Reads every `[[pipe]]` into the book.
pub(super) fn read_pipes(
    file: &str,
    entry: Option<&Entry>,
    units: Option<Units>,
    book: &mut PipeBook,
    faults: &mut Faults,
) {
    let Some(entry) = entry else {
        faults.error(
            FaultCode::ValueMissing,
            &Spot {
                column: Some("pipe".to_owned()),
                ..Spot::file(file)
            },
            "no pipe is declared",
            "add a [[pipe]] with name, od and wall for every pipe the shop uses",
        );
        return;
    };
    let Value::List(items) = &entry.value else {
        faults.error(
            FaultCode::ValueUnreadable,
            &Spot::at(file, entry.line, "pipe", &entry.value.shown()),
            "pipes are declared one by one",
            "write [[pipe]] (two brackets) above each pipe's name, od and wall",
        );
        return;
    };
    for item in items {
        let Value::Table(entries) = &item.value else {
            faults.error(
                FaultCode::ValueUnreadable,
                &Spot::at(file, item.line, "pipe", &item.value.shown()),
                "a pipe needs a name, an od and a wall",
                "write [[pipe]] (two brackets) above each pipe's name, od and wall",
            );
            continue;
        };
        let line = entries.first().map_or(item.line, |e| e.line);
        read_pipe(
            Section::new(file, "pipe", Some(line), entries, units),
            book,
            faults,
        );
    }
}

fn read_pipe(mut s: Section<'_>, book: &mut PipeBook, faults: &mut Faults) {
    let name = s.text("name", faults).filter(|n| !n.is_empty());
    let od = dimension(&mut s, "od", faults);
    let wall = dimension(&mut s, "wall", faults);
    let grade = s.text("grade", faults).unwrap_or_default();
    let standard = s.text("standard", faults).unwrap_or_default();
    let finish = finish_of(&s.text("finish", faults).unwrap_or_default());
    let most = Decimal::from(1_000_000);
    let yield_strength = s.number("yield_strength", (Decimal::ONE, most), faults);
    let spot = s.spot("wall");
    let od_spot = s.spot("od");
    let name_spot = s.spot("name");
    let units = s.units();
    let name_unread = s.has("name") && s.entry("name").is_none();
    s.done(faults);
    let Some(name) = name else {
        if name_unread {
            return;
        }
        faults.error(
            FaultCode::ValueMissing,
            &name_spot,
            "the pipe has no name",
            "give it the name the orders use",
        );
        return;
    };
    let pipe = od.zip(wall).and_then(|(od, wall)| {
        if wall.exact_mm() * Decimal::TWO >= od.exact_mm() {
            faults.error(
                FaultCode::ValueOutOfRange,
                &spot,
                &format!("the wall is half the OD ({od}) or more: no pipe has that"),
                "check od and wall (2-3/8 Schedule 40 is od 2.375, wall 0.154)",
            );
            return None;
        }
        doubt_size(&od_spot, od_slip(od), (usual::OD, od, units), faults);
        doubt_size(
            &spot,
            wall_slip(od, wall),
            (usual::WALL, wall, units),
            faults,
        );
        Some(Pipe {
            name: name.clone(),
            od,
            wall,
            standard,
            grade,
            finish,
            yield_strength,
        })
    });
    declare(&name, pipe, &name_spot, book, faults);
}

/// A slip by the published sizes, else a size that no fence pipe has.
fn doubt_size(
    spot: &Spot,
    slip: Option<String>,
    (usual, size, units): (UsualSize, Dimension, Units),
    faults: &mut Faults,
) {
    let odd = || {
        let length = Length::nearest_tick(size.geometric());
        Some(format!("it reads as {size}: {}", usual.odd(length, units)?))
    };
    if let Some(what) = slip.or_else(odd) {
        faults.warn(
            FaultCode::ValueUnusual,
            spot,
            &what,
            "correct it, or leave it if this is the true size",
        );
    }
}

fn declare(name: &str, pipe: Option<Pipe>, spot: &Spot, book: &mut PipeBook, faults: &mut Faults) {
    if book.knows(name) {
        let first = book.get_named(name);
        let (what, mend) = match (&pipe, first) {
            (Some(p), Some(f)) if p.od == f.od && p.wall != f.wall => (
                format!("\"{name}\" has two walls: {} and {}", f.wall, p.wall),
                "give each wall a name of its own",
            ),
            _ => (
                format!("the pipe \"{name}\" is declared twice"),
                "take one away, or give it a name of its own",
            ),
        };
        faults.error(FaultCode::GivenTwice, spot, &what, mend);
        return;
    }
    if let Some(p) = &pipe
        && let Some(other) = book.same_key(p).and_then(|id| book.get(id))
    {
        let what = format!(
            "\"{name}\" is the same pipe as \"{}\": same OD, wall, grade and finish",
            other.name
        );
        faults.error(
            FaultCode::GivenTwice,
            spot,
            &what,
            "keep one name, or say what differs",
        );
        book.declare(name, None);
        return;
    }
    book.declare(name, pipe);
}

/// An OD or wall: exact, in the unit written or the shop's.
fn dimension(s: &mut Section<'_>, key: &'static str, faults: &mut Faults) -> Option<Dimension> {
    let default = Unit::of(s.units());
    let Some(parsed) = s.read(key, faults, |t| parse_length(t, Some(default))) else {
        if !s.has(key) {
            faults.error(
                FaultCode::ValueMissing,
                &s.spot(key),
                &format!("the pipe has no {key}"),
                &format!(
                    "add {key} = the true size, such as {}",
                    if key == "od" { "2.375" } else { "0.154" }
                ),
            );
        }
        return None;
    };
    let most = Decimal::from(1000);
    let least = THINNEST_WALL.geometric();
    if key == "wall" && parsed.exact.value > Decimal::ZERO && parsed.exact.geometric() < least {
        faults.error(
            FaultCode::ValueOutOfRange,
            &s.spot(key),
            &format!("it reads as {}: no pipe is that thin", parsed.exact),
            "write the true wall, such as 0.154 in or 3.9 mm",
        );
        return None;
    }
    if parsed.exact.value <= Decimal::ZERO || parsed.exact.exact_mm() > most {
        faults.error(
            FaultCode::ValueOutOfRange,
            &s.spot(key),
            "it must be over zero and under a metre",
            "write the true size of the pipe",
        );
        return None;
    }
    Some(parsed.exact)
}
