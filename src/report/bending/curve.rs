//! The envelope of one horizontal over the leaf: stress as a share of the gate's peak.

use super::Bending;
use super::leaf::{Place, bar};
use crate::report::draw::{Path, Pen, Tag, Text};
use crate::report::paper::Block;
use crate::report::peak_share::words;
use crate::splice::fraction;
use crate::statics::{Envelope, Line, PARTS};

/// Height of the plot for a share of 1, points.
const HIGH: f64 = 96.0;
/// Room over the plot for its title and the splices' figures, points.
const HEAD: f64 = 28.0;

/// Height a plot takes with its words, points.
pub(super) const ROOM: f64 = HEAD + HIGH + 22.0;

/// Draws one plot with its top at `top`.
pub(super) fn curve(block: &mut Block, view: &Bending<'_>, place: &Place, which: Line, top: f64) {
    let Some(found) = &view.set.bending else {
        return;
    };
    let base = top + HEAD + HIGH;
    let ends = (
        place.x(found.line_at(0)),
        place.x(found.line_at(found.bays())),
    );
    let peak = view.stress(found.worst(which).stress);
    let title = format!(
        "{}: highest {peak} over the whole travel",
        super::name(which)
    );
    block.text(Text::new(ends.0, top + 10.0, 10.0, title).bold());
    for bay in 0..=found.bays() {
        let x = place.x(found.line_at(bay));
        block.line(x, base, x, base - HIGH, 0.25);
    }
    let rules = &view.week.shop.splice;
    let over = if view.order.high_stress {
        "by order over"
    } else {
        "none over"
    };
    for (share, words) in [
        (0.0, "0"),
        (fraction(rules.charge_over), "free up to"),
        (fraction(rules.refuse_over), over),
        (1.0, "peak"),
    ] {
        let y = base - share * HIGH;
        let pen = if share == 0.0 {
            Pen::solid(0.8)
        } else {
            Pen::dashed(0.5, 3.0)
        };
        block.stroke(Path::line(ends.0, y, ends.1, y), pen);
        block.text(Text::new(ends.0 - 4.0, y + 3.0, 8.0, format!("{share:.2}")).end());
        block.text(Text::new(ends.1 + 4.0, y + 3.0, 8.0, words));
    }
    block.shape(
        Path::polyline(&points(found, which, place, base)),
        Some(Pen::solid(1.4)),
        None,
        Some(Tag {
            class: "envelope".to_owned(),
            data: vec![("line", super::name(which).to_owned())],
        }),
    );
    if let Some(line) = view.line(which) {
        for window in &line.windows {
            let from = place.x((line.x_long + window.lo).geometric());
            let to = place.x((line.x_long + window.hi).geometric());
            bar(block, window, (from, to), base + 3.0);
        }
    }
    for (name, splice) in view.splices_of(which) {
        let Some(x) = splice.x.map(|x| place.x(x)) else {
            continue;
        };
        block.line(x, base + 10.0, x, base - HIGH, 1.0);
        let words = splice
            .rel
            .map_or(name.clone(), |share| format!("{name}, {}", words(share)));
        block.text(Text::new(x, base - HIGH - 3.0, 8.0, words).middle());
    }
}

fn points(found: &Envelope, which: Line, place: &Place, base: f64) -> Vec<(f64, f64)> {
    let mut out = Vec::new();
    for bay in 1..=found.bays() {
        let (from, to) = (found.line_at(bay - 1), found.line_at(bay));
        for s in 0..=PARTS {
            let share = found.station(which, bay, s).unwrap_or(0.0) / found.peak();
            let x = from + (to - from) * (s as f64 / PARTS as f64);
            out.push((place.x(x), base - share * HIGH));
        }
    }
    out
}
