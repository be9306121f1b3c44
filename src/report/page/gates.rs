//! Gates, splices and copes.

use maud::{Markup, html};

use crate::gate::Frame;
use crate::order::GateOrder;
use crate::plan::SplicedLine;
use crate::report::paper::desk::Desk;
use crate::report::paper::elevation::Give;
use crate::report::paper::{cope, gate, splice};

use super::parts::{drawing, section, shrinking, table};

/// One card per gate order and way of splicing.
pub(super) fn gates(desk: &Desk) -> Markup {
    let cards = html! {
        nav { @for (place, name) in places(desk) { a href=(format!("#{place}")) { (name) } } }
        @for frame in desk.frames() {
            @for (copies, made) in gate::copies(desk, frame) {
                @if let Some(order) = desk.week.gates.get(frame.gate) {
                    (card(desk, frame, order, &copies, &made))
                }
            }
        }
    };
    section("gates", "Gates", cards)
}

/// Where a gate's card stands on the page: by its place in the week, for marks may hold anything.
fn place(frame: &Frame, copies: &[u32]) -> String {
    format!("gate-{}-{}", frame.gate + 1, copies.first().unwrap_or(&1))
}

/// Every card with its name.
fn places(desk: &Desk) -> Vec<(String, String)> {
    let cards = |frame: &Frame| {
        let copies = gate::copies(desk, frame).into_iter();
        let card = |(c, _): (Vec<u32>, _)| (place(frame, &c), names(desk, frame, &c).join(", "));
        copies.map(card).collect::<Vec<_>>()
    };
    desk.frames().flat_map(cards).collect()
}

fn names(desk: &Desk, frame: &Frame, copies: &[u32]) -> Vec<String> {
    copies
        .iter()
        .map(|c| desk.gate_copy(frame.gate, *c))
        .collect()
}

fn card(
    desk: &Desk,
    frame: &Frame,
    order: &GateOrder,
    copies: &[u32],
    made: &[&SplicedLine],
) -> Markup {
    let spliced = !made.is_empty();
    let name = format!("gate {}", order.mark);
    let elevation = gate::elevation(desk, frame, made);
    let brace = elevation.brace(desk.room);
    let elevation = elevation.block(desk.room, f64::INFINITY, Give::NOTHING);
    html! {
        article.gate id=(place(frame, copies)) {
            h3 { "Gate " (order.mark) ": make " (names(desk, frame, copies).join(", ")) }
            (drawing(elevation, desk.room, &name))
            @if let Some(brace) = brace { (drawing(brace, desk.room, &format!("{name}, brace"))) }
            @for words in gate::facts(desk, frame, order) { p { (words) } }
            (shrinking(gate::view(frame, order), gate::VIEW, "approval drawing in the ordered hand", "view"))
            (table(&gate::tables::parts(desk, frame, desk.room)))
            (table(&gate::tables::bay_lines(desk, frame, gate::throat(frame), desk.room)))
            h4 { "Fit-up (common practice)" }
            ol { @for words in gate::notes::fit_up(desk, frame, spliced) { li { (words) } } }
            h4 { "Cautions" }
            ul { @for words in gate::cautions(desk, order, spliced) { li { (words) } } }
        }
    }
}

/// Every spliced horizontal.
pub(super) fn splices(desk: &Desk) -> Markup {
    let cards = html! {
        @for frame in desk.frames() {
            @for (copies, made) in gate::copies(desk, frame) {
                @for line in made { (spliced(desk, frame, line, &names(desk, frame, &copies))) }
            }
        }
        h3 { "Every splice" }
        ul { @for words in splice::NOTES { li { (words) } } }
    };
    section("splices", "Splices", cards)
}

fn spliced(desk: &Desk, frame: &Frame, line: &SplicedLine, names: &[String]) -> Markup {
    let Some(part) = desk.take_off.parts.get(line.part) else {
        return html! {};
    };
    html! {
        article {
            h3 { (splice::line::title(desk, part, names)) }
            (drawing(splice::drawing(desk, frame, line), desk.room, &part.mark))
            p { (splice::line::facts(desk, line, part)) }
            (table(&splice::line::table(desk, line)))
        }
    }
}

/// Every kind of coped end with its template.
pub(super) fn copes(desk: &Desk) -> Markup {
    let cards = html! {
        p { "Templates print true only from sheets.pdf at 100 %; on a screen they show the shape." }
        @for kind in cope::shop_kinds(desk) {
            article {
                h3 { (kind.code) ": " (desk.pipe(kind.pipe)) }
                p { (cope::meets(desk, kind)) }
                (table(&cope::scribe_table(desk, kind, desk.room)))
                p { (cope::users(desk, kind)) }
                (drawing(cope::template(desk, kind), desk.room, &kind.code))
            }
        }
    };
    section("copes", "Copes", cards)
}
