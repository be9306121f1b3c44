//! Pieces of the page that every section uses: tables, drawings, headings.

use maud::{Markup, PreEscaped, html};

use crate::report::draw::{Anchor, Page};
use crate::report::paper::Block;
use crate::report::paper::table::{TICK_CELL, Table};
use crate::report::svg;

/// A section with an anchor.
pub(super) fn section(id: &str, title: &str, body: Markup) -> Markup {
    html! { section id=(id) { h2 { (title) } (body) } }
}

/// A table; on a narrow screen each row becomes a card with the column's title before each value.
pub(super) fn table(table: &Table) -> Markup {
    html! {
        table {
            thead { tr { @for c in &table.columns { th.n[c.anchor == Anchor::End] { (c.title) } } } }
            tbody {
                @for row in &table.rows {
                    tr {
                        @for (cell, c) in row.iter().zip(&table.columns) {
                            @if cell == TICK_CELL {
                                td.tick { (tick()) }
                            } @else {
                                td.n[c.anchor == Anchor::End].b[c.bold].none[cell.is_empty()]
                                    data-label=(c.title) { (cell) }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// A box to tick.
pub(super) fn tick() -> Markup {
    html! { input type="checkbox" aria-label="done"; }
}

/// A drawing that may be wider than the screen: it scrolls in its own frame.
pub(super) fn drawing(block: Block, width: f64, name: &str) -> Markup {
    html! { div.drawing { (PreEscaped(element(block, width, name))) } }
}

/// A drawing that shrinks with the screen.
pub(super) fn shrinking(block: Block, width: f64, name: &str, class: &str) -> Markup {
    html! { div.strip.(class) { (PreEscaped(element(block, width, name))) } }
}

fn element(block: Block, width: f64, name: &str) -> String {
    svg::element(&Page {
        width,
        height: block.height,
        title: name.to_string(),
        items: block.items,
    })
}
