//! A spliced line to scale: bay lines, windows, pieces, splices, parked rollers.

use crate::gate::{Frame, Role};
use crate::measure::MM;
use crate::plan::SplicedLine;
use crate::report::draw::{Path, Pen, Tag, Text};
use crate::report::paper::Block;
use crate::report::paper::desk::Desk;
use crate::report::splice_name::{piece_mark, splice_name};
use crate::report::window_bar::{legend, window_bar};
use crate::splice::{SpliceLine, track_of};

/// Height of the whole drawing; top and height of the pipe in it, points.
const HIGH: f64 = 76.0;
const TOP: f64 = 20.0;
const TALL: f64 = 22.0;

/// Where the line starts and how it is scaled.
struct View {
    start: f64,
    scale: f64,
}

/// The windows the splices were chosen in.
fn windows<'a>(desk: &Desk<'a>, made: &SplicedLine) -> Option<&'a SpliceLine> {
    let lines = desk.plan.splice_sets.iter().flat_map(|s| &s.lines);
    lines.into_iter().find(|l| l.part == made.part)
}

/// The line to scale with bay lines, windows and splices.
pub fn drawing(desk: &Desk, frame: &Frame, made: &SplicedLine) -> Block {
    let mut block = Block::new(HIGH);
    let part = desk.take_off.parts.get(made.part);
    let sway = part.and_then(|p| p.role) == Some(Role::SwayBrace);
    let mark = part.map_or("", |p| p.mark.as_str());
    let spec = windows(desk, made);
    let end = spec.map_or(0.0, |l| (l.x_long + l.long).geometric());
    let view = View {
        start: spec.map_or(0.0, |l| l.x_long.geometric()),
        scale: desk.room / frame.leaf.max(end).max(1.0),
    };
    let lines = match (part, desk.week.gates.get(frame.gate)) {
        // A brace is drawn straight, as it is measured: along itself.
        (Some(part), Some(order)) if sway => track_of(desk.week, order, frame, part).lines,
        _ => frame.bay_lines.clone(),
    };
    for x in lines.iter().map(|x| x * view.scale) {
        block.stroke(Path::line(x, 12.0, x, 56.0), Pen::chain(0.4));
    }
    if let Some(line) = spec {
        bars(&mut block, line, &view);
        let (x, wide) = (view.start * view.scale, (end - view.start) * view.scale);
        block.frame(x, TOP, wide, TALL, 1.2);
        pieces(&mut block, desk, made, mark, &view);
    }
    splices(&mut block, made, mark, &view);
    if !sway {
        rollers(&mut block, frame, &view);
    }
    let bars = spec.map_or(String::new(), |l| legend(l.windows.iter()));
    let words = if sway {
        format!("latch-end tip of the brace at the left, all measured along it · {bars}")
    } else {
        format!("latch end at the left · {bars} · dashed circles: parked rollers, open and closed")
    };
    block.text(Text::new(0.0, HIGH - 3.0, 8.0, words));
    block
}

/// Where a splice may stand, as bars under the pipe.
fn bars(block: &mut Block, line: &SpliceLine, view: &View) {
    for w in &line.windows {
        let at = |edge| (line.x_long + edge).geometric() * view.scale;
        let tag = Tag {
            class: String::from("window"),
            data: Vec::new(),
        };
        window_bar(block, w, (at(w.lo), at(w.hi)), TOP + TALL + 4.0, tag);
    }
}

fn pieces(block: &mut Block, desk: &Desk, made: &SplicedLine, mark: &str, view: &View) {
    let mut x = view.start;
    for (i, piece) in made.pieces.iter().enumerate() {
        let long = piece.geometric();
        let words = format!("{}: {}", piece_mark(mark, i), desk.length(*piece));
        let text = Text::new((x + long / 2.0) * view.scale, 36.0, 12.0, words);
        block.clear_text(text.bold().middle().fitted(long * view.scale - 6.0, 6.0));
        x += long + made.gap;
    }
}

fn splices(block: &mut Block, made: &SplicedLine, mark: &str, view: &View) {
    for (i, splice) in made.splices.iter().enumerate() {
        let at = view.start + splice.centre;
        let x = at * view.scale;
        let tag = Tag {
            class: String::from("splice"),
            data: vec![("x", format!("{:.5}", at / MM))],
        };
        let across = Path::line(x, TOP - 3.0, x, TOP + TALL + 3.0);
        block.shape(across, Some(Pen::solid(2.4)), None, Some(tag));
        let name = Text::new(x, 13.0, 11.0, splice_name(mark, i));
        block.clear_text(name.bold().middle());
    }
}

/// Both rollers, parked open and closed.
fn rollers(block: &mut Block, frame: &Frame, view: &View) {
    let rollers = &frame.rollers;
    for front in [rollers.front_open, rollers.front_closed] {
        for x in [front, front + rollers.spacing] {
            let at = Path::circle(x * view.scale, TOP + TALL + 15.0, 4.0);
            block.stroke(at, Pen::dashed(0.7, 1.5));
        }
    }
}
