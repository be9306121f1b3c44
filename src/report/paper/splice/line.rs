//! One spliced horizontal: its drawing, then the figures.

use super::drawing::drawing;
use crate::gate::{Frame, Role};
use crate::part::Part;
use crate::plan::{Splice, SplicedLine};
use crate::report::draw::{Face, Text};
use crate::report::paper::Block;
use crate::report::paper::cope::fine_length;
use crate::report::paper::desk::Desk;
use crate::report::paper::table::{TICK_CELL, Table, bold, figures, words};
use crate::report::paper::wrap::paragraph;
use crate::report::peak_share;
use crate::report::splice_name::splice_name;
use crate::splice::{ReachForm, WindowClass, inward};

/// The block of one line.
pub fn block(desk: &Desk, frame: &Frame, made: &SplicedLine, names: &[String]) -> Block {
    let mut block = Block::new(20.0);
    let Some(part) = desk.take_off.parts.get(made.part) else {
        return block;
    };
    let title = title(desk, part, names);
    block.text(
        Text::new(0.0, 15.0, 15.0, title)
            .bold()
            .fitted(desk.room, 9.0),
    );
    block.below(0.0, drawing(desk, frame, made));
    block.below(
        2.0,
        paragraph(Face::Regular, 10.0, desk.room, &facts(desk, made, part)),
    );
    block.below(4.0, table(desk, made).block());
    block.height += 8.0;
    block
}

/// Which line of which gates.
pub fn title(desk: &Desk, part: &Part, names: &[String]) -> String {
    let which = match part.role {
        Some(Role::TopHorizontal) => "top horizontal",
        Some(Role::BottomHorizontal) => "bottom horizontal",
        _ => "sway brace",
    };
    format!(
        "{} · {which} of {} · {}",
        part.mark,
        names.join(", "),
        desk.pipe(part.pipe)
    )
}

/// What holds for the whole line.
pub fn facts(desk: &Desk, made: &SplicedLine, part: &Part) -> String {
    let pipe = desk.week.pipe(part.pipe);
    let units = desk.units();
    let form = match made.form {
        _ if part.role == Some(Role::SwayBrace) => {
            "a sway brace carries no roller; measured along the brace from its own latch-end tip"
        }
        ReachForm::EveryInteriorBay => {
            "roller bays: every interior bay of a carrying horizontal (bending not computed)"
        }
        ReachForm::Envelope => "roller bays: by the computed bending of the gate as it rolls",
    };
    let words = format!(
        "long point to long point {} · root gap as made {} (pieces are whole saw marks, the rest goes into the gap) · backing or sleeve: bore {} less its clearance · wall {} · {form}",
        desk.geometry(part.long_exact),
        fine_length(units, made.gap),
        match units {
            crate::measure::Units::Inch =>
                format!("{:.3}\"", 2.0 * pipe.bore_radius() / crate::measure::INCH),
            crate::measure::Units::Metric =>
                format!("{:.1}", 2.0 * pipe.bore_radius() / crate::measure::MM),
        },
        pipe.wall,
    );
    words
}

/// Its zone: whether loaded rollers pass, stress, and what asks for a second look.
pub fn why(splice: &Splice) -> String {
    let mut list: Vec<String> = Vec::new();
    list.push(String::from(if splice.roller_bay {
        "roller bay: near a vertical"
    } else {
        "no roller passes loaded"
    }));
    if let Some(rel) = splice.rel {
        list.push(peak_share::words(rel));
    }
    if splice.tolerated {
        list.push(String::from("TOLERATED REACH: look twice"));
    }
    match splice.class {
        WindowClass::Plain => {}
        WindowClass::Charged => list.push(String::from("charged class")),
        WindowClass::ByOrder => list.push(String::from("BY ORDER ONLY")),
    }
    list.join(", ")
}

/// Where it may stand, rounded inward to the mark: what is said to be allowed, is.
pub fn window(desk: &Desk, splice: &Splice) -> String {
    let (lo, hi) = inward(splice.window, desk.shop().saw.mark);
    format!("{} to {}", lo.print(desk.units()), hi.print(desk.units()))
}

/// Where each splice stands.
pub fn table(desk: &Desk, made: &SplicedLine) -> Table {
    let mark = desk.take_off.parts.get(made.part).map(|p| p.mark.as_str());
    let row = |(i, s): (usize, &Splice)| {
        vec![
            TICK_CELL.to_string(),
            splice_name(mark.unwrap_or_default(), i),
            s.bay.to_string(),
            s.x.map_or_else(|| String::from("–"), |x| desk.geometry(x)),
            desk.geometry(s.centre),
            desk.geometry(s.from_latch_side),
            desk.geometry(s.from_tail_side),
            window(desk, s),
            why(s),
        ]
    };
    Table {
        columns: vec![
            words("", 0.35),
            bold(words("splice", 1.15)),
            figures("bay", 0.4),
            bold(figures("centre from latch end", 1.35)),
            figures("from the long point", 1.1),
            figures("from latch-side bay line", 1.25),
            figures("from tail-side bay line", 1.25),
            words("window, from the long point", 2.15),
            words("zone", 1.65),
        ],
        rows: made.splices.iter().enumerate().map(row).collect(),
        size: 11.5,
        room: desk.room,
    }
}
