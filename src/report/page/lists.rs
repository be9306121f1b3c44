//! Buying, kits and remnants.

use maud::{Markup, html};

use crate::measure::Money;
use crate::part::Part;
use crate::plan::Kept;
use crate::report::kit_sheet::measure_first;
use crate::report::kit_words;
use crate::report::paper::desk::Desk;
use crate::report::paper::{buy as sheet, kit};
use crate::report::rack_next::whole_tags;
use crate::report::remnants::credits;

use super::parts::{section, table, tick};

/// The buy list with the money of the week.
pub(super) fn buy(desk: &Desk) -> Markup {
    let rack = sheet::rack(desk);
    let lists = html! {
        @for order in sheet::orders(desk) {
            h3 { (order.title) ": " (order.money) }
            @if !order.lines.rows.is_empty() { (table(&order.lines)) }
            @if !order.spares.rows.is_empty() { h4 { (sheet::SPARES) } (table(&order.spares)) }
            p { (order.freight) }
            p { (sheet::ASK) }
        }
        @if let Some(words) = sheet::warning(desk) { p.flag { (words) } }
        h3 { "All orders" }
        (pairs(&sheet::totals(desk)))
        @if let Some(lines) = sheet::ledger(desk) { h3 { (sheet::LEDGER_TITLE) } (pairs(&lines)) }
        @if !rack.rows.is_empty() { h3 { "Take off the rack" } (table(&rack)) }
        @if let Some(costs) = sheet::gate_costs(desk) {
            h3 { (sheet::GATES_TITLE) }
            (table(&costs))
            h4 { (sheet::SUMS_TITLE) }
            (pairs(&sheet::gate_sums(desk)))
            p { (sheet::shared()) }
        }
    };
    section("buy", "Buy list", lists)
}

/// Labels and figures, a line each.
fn pairs(lines: &[(String, String)]) -> Markup {
    html! {
        dl { @for (label, value) in lines { div { dt { (label) } dd { (value) } } } }
    }
}

/// Kit gates: what to buy locally and what is in the crate.
pub(super) fn kits(desk: &Desk) -> Markup {
    let kits = desk.plan.kits.iter();
    let cards = html! {
        @for advice in kits {
            @let mark = desk.week.gates.get(advice.gate).map_or("", |g| g.mark.as_str());
            @let parts: Vec<&Part> = desk.take_off.parts.iter().filter(|p| p.gate == Some(advice.gate)).collect();
            article {
                h3 { "Kit " (mark) }
                p { (kit_words::assumed(desk.week)) }
                (table(&kit::options(desk, advice)))
                @for option in advice.options.iter().filter(|o| o.refused.is_none()) {
                    h4 { "From " (desk.length(option.joint)) " joints" }
                    (table(&kit::cut_table(desk, option)))
                    @if let Some(words) = measure_first(desk.week, option) { p.flag { (words) } }
                    @for words in kit::splice_words(desk, option) { p { (words) } }
                }
                h4 { "In the crate" }
                (table(&kit::checklist(desk, &parts)))
                @if let Some(words) = kit_words::over_carrier(desk.job(), advice.gate) { p.flag { (words) } }
                h4 { (kit_words::STANDS) }
                (pairs(&kit_words::stands(desk.job(), advice.gate)))
                @if let Some(gate) = desk.week.gates.get(advice.gate) {
                    h4 { "Cautions" }
                    ul { @for words in kit_words::cautions(desk.week, gate) { li { (words) } } }
                }
            }
        }
        @if desk.plan.kits.is_empty() { p { "No kit this week." } }
    };
    section("kits", "Kits", cards)
}

/// Kept drops.
pub(super) fn remnants(desk: &Desk) -> Markup {
    let row = |k: &Kept, credit: Money| {
        html! { tr {
            td.tick { (tick()) }
            td.b data-label="tag" { (k.tag) }
            td data-label="pipe" { (desk.pipe(k.pipe)) }
            td.n.b data-label="on the floor" { (desk.left(k.floor, true)) }
            td.n data-label="from joint" { (k.joint) }
            td.n data-label="credit" { (desk.money(Some(credit))) }
        } }
    };
    let list = html! {
        table {
            thead { tr {
                th {} th { "tag" } th { "pipe" } th.n { "on the floor" } th.n { "from joint" } th.n { "credit" }
            } }
            tbody { @for (k, credit) in desk.plan.kept.iter().zip(credits(desk.plan)) { (row(k, credit)) } }
        }
        @for (whole, tag) in desk.plan.uncut.iter().zip(whole_tags(desk.job())) {
            @if let Some(quote) = desk.week.quotes.get(whole.quote) {
                p { "To the rack as they came: " (whole.joints) " × " (tag) ", " (desk.length(quote.nominal)) " of " (desk.pipe(quote.pipe)) }
            }
        }
    };
    section("remnants", "Remnants to keep", list)
}
