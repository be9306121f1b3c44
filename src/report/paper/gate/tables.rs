//! The gate sheet's tables: its parts and its bay lines.

use crate::gate::{Frame, Role};
use crate::measure::{INCH, MM, Units};
use crate::part::{CopeEnd, Part};
use crate::report::paper::desk::Desk;
use crate::report::paper::elevation::short;
use crate::report::paper::table::{Table, bold, figures, words};

/// A cutback as decimals: it is checked with a rule at the tip.
pub fn cutback(desk: &Desk, ticks: f64) -> String {
    match desk.units() {
        Units::Inch => format!("{:.3}\"", ticks / INCH),
        Units::Metric => format!("{:.1}", ticks / MM),
    }
}

fn ends(desk: &Desk, index: usize, part: &Part) -> String {
    let one = |end: usize| match &part.ends[end] {
        CopeEnd::Coped(_) => desk.kinds.code(index, end).unwrap_or("coped").to_string(),
        CopeEnd::Square { capped: true } => String::from("sq, cap"),
        CopeEnd::Square { capped: false } => String::from("sq"),
    };
    format!("{} / {}", one(0), one(1))
}

/// The parts of one gate.
pub fn parts(desk: &Desk, frame: &Frame, room: f64) -> Table {
    let line = |x: Option<f64>| x.map_or(String::from("–"), |x| desk.geometry(x));
    let row = |(i, p): (usize, &Part)| {
        let own = if p.ours { "" } else { " (bought locally)" };
        let swaps = if p.swaps_in_last_bay {
            " (last bay: end for end)"
        } else {
            ""
        };
        vec![
            format!("{}{own}{swaps}", short(&p.mark)),
            p.per_gate.to_string(),
            desk.week.pipe(p.pipe).name.clone(),
            desk.length(p.saw),
            desk.throat_words(p.throat, p.saw),
            line(p.top_line),
            line(p.under_line),
            ends(desk, i, p),
            format!("{:.1}", p.weight),
        ]
    };
    let of_gate = |(_, p): &(usize, &Part)| p.gate == Some(frame.gate);
    Table {
        columns: vec![
            bold(words("part", 2.7)),
            figures("pieces", 0.7),
            words("pipe", 1.4),
            bold(figures("saw length", 1.5)),
            figures("throat", 1.4),
            figures("top line", 1.4),
            figures("under line", 1.4),
            words("ends", 1.7),
            figures(
                match desk.units() {
                    Units::Inch => "lb each",
                    Units::Metric => "kg each",
                },
                0.9,
            ),
        ],
        rows: desk
            .take_off
            .parts
            .iter()
            .enumerate()
            .filter(of_gate)
            .map(row)
            .collect(),
        size: 10.5,
        room,
    }
}

/// Half the width of a vertical.
fn half(desk: &Desk, frame: &Frame) -> f64 {
    let vertical = frame.members.iter().find(|m| m.role == Role::Vertical);
    vertical.map_or(0.0, |m| desk.week.pipe(m.pipe).radius())
}

/// Bay lines by every tape, and the edges to set a vertical by. An end post stands at the horizontals'
/// ends: no tape from their throat reads it, and its edges are the leaf's own ends.
pub fn bay_lines(desk: &Desk, frame: &Frame, throat: f64, room: f64) -> Table {
    let last = frame.bay_lines.len().saturating_sub(1);
    let half = half(desk, frame);
    let row = |(i, x): (usize, &f64)| {
        let stands_inside = i > 0 && i < last;
        let inside = |x: f64| match stands_inside {
            true => desk.geometry(x),
            false => String::from("–"),
        };
        let next = frame.bays.get(i).map(|b| b.to - b.from);
        let stands = match i {
            0 => String::from("end post, latch"),
            i if i == last => String::from("end post, tail"),
            _ => String::from("vertical"),
        };
        vec![
            i.to_string(),
            stands,
            desk.geometry(*x),
            inside(x - throat),
            inside(x - half),
            inside(x + half),
            next.map_or(String::from("–"), |s| desk.geometry(s)),
        ]
    };
    Table {
        columns: vec![
            bold(figures("line", 0.45)),
            words("stands", 1.3),
            bold(figures("from latch end", 1.4)),
            figures("from throat", 1.4),
            figures("near edge", 1.4),
            figures("far edge", 1.4),
            figures("bay to next", 1.3),
        ],
        rows: frame.bay_lines.iter().enumerate().map(row).collect(),
        size: 10.5,
        room,
    }
}
