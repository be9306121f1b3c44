//! One spliced horizontal: drawn to scale with its bay lines, windows and splices, then the figures.

use crate::gate::{Frame, Role};

use crate::part::Part;
use crate::plan::{Splice, SplicedLine};
use crate::report::draw::{Face, Path, Pen, Tag, Text};
use crate::report::paper::Block;
use crate::report::paper::cope::fine_length;
use crate::report::paper::desk::Desk;
use crate::report::paper::table::{TICK_CELL, Table, bold, figures, words};
use crate::report::paper::wrap::paragraph;
use crate::splice::{ReachForm, SpliceLine, WindowClass, inward, track_of};

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

/// The windows the splices were chosen in.
fn windows<'a>(desk: &Desk<'a>, made: &SplicedLine) -> Option<&'a SpliceLine> {
    let lines = desk.plan.splice_sets.iter().flat_map(|s| &s.lines);
    lines.into_iter().find(|l| l.part == made.part)
}

/// The line to scale with bay lines, windows and splices.
pub fn drawing(desk: &Desk, frame: &Frame, made: &SplicedLine) -> Block {
    let mut block = Block::new(76.0);
    let part = desk.take_off.parts.get(made.part);
    let sway = part.and_then(|p| p.role) == Some(Role::SwayBrace);
    let spec = windows(desk, made);
    let start = spec.map_or(0.0, |l| l.x_long.geometric());
    let end = spec.map_or(0.0, |l| (l.x_long + l.long).geometric());
    let scale = desk.room / frame.leaf.max(end).max(1.0);
    let lines = match (part, desk.week.gates.get(frame.gate)) {
        // A brace is drawn straight, as it is measured: along itself.
        (Some(part), Some(order)) if sway => track_of(desk.week, order, frame, part).lines,
        _ => frame.bay_lines.clone(),
    };
    let (top, tall) = (20.0, 22.0);
    let rollers = &frame.rollers;
    for x in &lines {
        block.stroke(
            Path::line(x * scale, 12.0, x * scale, 56.0),
            Pen::chain(0.4),
        );
    }
    if let Some(line) = spec {
        for w in &line.windows {
            let (a, b) = (
                (line.x_long + w.lo).geometric(),
                (line.x_long + w.hi).geometric(),
            );
            let path = Path::rect(a * scale, top + tall + 4.0, ((b - a) * scale).max(0.8), 5.0);
            block.shape(path, Some(Pen::solid(0.5)), None, None);
        }
        block.frame(start * scale, top, (end - start) * scale, tall, 1.2);
        pieces(&mut block, desk, made, start, scale);
    }
    for (i, splice) in made.splices.iter().enumerate() {
        let at = start + splice.centre;
        let x = at * scale;
        let tag = Tag {
            class: String::from("splice"),
            data: vec![("x", format!("{:.5}", at / crate::measure::MM))],
        };
        block.shape(
            Path::line(x, top - 3.0, x, top + tall + 3.0),
            Some(Pen::solid(2.4)),
            None,
            Some(tag),
        );
        let name = Text::new(x, 13.0, 11.0, format!("splice {}", i + 1));
        block.clear_text(name.bold().middle());
    }
    let parked = [rollers.front_open, rollers.front_closed];
    for x in parked
        .into_iter()
        .flat_map(|x| [x, x + rollers.spacing])
        .filter(|_| !sway)
    {
        let at = Path::circle(x * scale, top + tall + 15.0, 4.0);
        block.stroke(at, Pen::dashed(0.7, 1.5));
    }
    let words = if sway {
        "latch-end tip of the brace at the left, all measured along it · hollow bars: where a splice may stand"
    } else {
        "latch end at the left · hollow bars: where a splice may stand · dashed circles: parked rollers, open and closed"
    };
    block.text(Text::new(0.0, 73.0, 8.0, words));
    block
}

fn pieces(block: &mut Block, desk: &Desk, made: &SplicedLine, start: f64, scale: f64) {
    let mut x = start;
    for (i, piece) in made.pieces.iter().enumerate() {
        let long = piece.geometric();
        let words = format!("{}: {}", i + 1, desk.length(*piece));
        let text = Text::new((x + long / 2.0) * scale, 36.0, 12.0, words)
            .bold()
            .middle();
        block.clear_text(text.fitted(long * scale - 6.0, 6.0));
        x += long + made.gap;
    }
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
        list.push(format!("{:.0} % of peak stress", rel * 100.0));
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
    let row = |(i, s): (usize, &Splice)| {
        vec![
            TICK_CELL.to_string(),
            (i + 1).to_string(),
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
            bold(figures("splice", 0.6)),
            figures("bay", 0.4),
            bold(figures("centre from latch end", 1.35)),
            figures("from the long point", 1.1),
            figures("from latch-side bay line", 1.25),
            figures("from tail-side bay line", 1.25),
            words("window, from the long point", 2.35),
            words("zone", 2.0),
        ],
        rows: made.splices.iter().enumerate().map(row).collect(),
        size: 11.5,
        room: desk.room,
    }
}
