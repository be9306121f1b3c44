//! The drawing's page: the leaf, and below it the envelope of each horizontal to the same scale.

use super::Bending;
use super::curve::{ROOM, curve};
use super::leaf::{Place, leaf};
use super::notes::{STANDING, peak};
use crate::report::draw::{Page, Text};
use crate::report::paper::Block;
use crate::report::table::clean;
use crate::report::window_bar::legend;
use crate::statics::{Line, engineer};

/// Page width, margin, and room for words beside the plots, points.
const WIDTH: f64 = 1008.0;
const MARGIN: f64 = 36.0;
const SIDE: f64 = 48.0;
/// The leaf is drawn no higher than this, points.
const TALLEST: f64 = 150.0;

/// The drawing of one gate.
pub fn drawing(view: &Bending<'_>) -> Page {
    let mut block = Block::new(0.0);
    let scale = (WIDTH - 2.0 * (MARGIN + SIDE)) / view.frame.leaf.max(1.0);
    let high = (view.frame.axis_height * scale).min(TALLEST);
    let mark = clean(&view.order.mark);
    let title = format!("Gate {mark}: where a splice may stand");
    block.text(Text::new(MARGIN, MARGIN + 12.0, 16.0, title.clone()).bold());
    let place = Place {
        scale,
        left: MARGIN + SIDE,
        base: MARGIN + 64.0 + high,
        high,
    };
    leaf(&mut block, view, &place);
    let mut y = place.base + 66.0;
    if view.set.bending.is_some() {
        for which in [Line::Top, Line::Bottom] {
            curve(&mut block, view, &place, which, y);
            y += ROOM;
        }
    }
    y += 8.0;
    for words in notes(view) {
        block.text(Text::new(MARGIN, y, 9.0, words));
        y += 13.0;
    }
    Page {
        width: WIDTH,
        height: y + MARGIN,
        title,
        items: block.items,
    }
}

fn notes(view: &Bending<'_>) -> Vec<String> {
    let mut bars = legend(view.set.lines.iter().flat_map(|l| &l.windows));
    if let Some(first) = bars.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    let mut out = vec![format!(
        "Latch end at the left. {bars}. Arrowheads: splices, all copies. Dashed circles: rollers, closed and open."
    )];
    match &view.set.bending {
        Some(found) => {
            let peak = peak(view.week.shop.units, found);
            out.push(format!("Gate's peak: {peak}. {STANDING}"));
        }
        None => out.push(
            "Bending not computed: every interior bay of a carrying horizontal counts as a roller \
             bay."
                .to_owned(),
        ),
    }
    out.extend(engineer(view.week, view.frame));
    out
}
