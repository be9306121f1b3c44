//! The week as one self-contained HTML page: no network, works offline, readable on a phone, prints.
//!
//! The same tables and drawings as the PDF; ticks stay in the browser that made them.

mod cuts;
mod gates;
mod lists;
mod parts;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::check::CheckedPlan;
use crate::report::paper::Paper;
use crate::report::paper::cover;
use crate::report::paper::desk::Desk;

use parts::{section, table};

/// The page's style sheet.
const STYLE: &str = include_str!("style.css");
/// Keeps ticks in the browser, by plan number and place.
const SCRIPT: &str = include_str!("ticks.js");

/// The page of a week.
pub fn page(checked: &CheckedPlan) -> String {
    let paper = Paper::Letter;
    let desk = Desk::of(checked, paper.room_width(), paper.room_height());
    let plan = desk.plan_line();
    let body = html! {
        (head(&desk, &plan))
        main {
            (cuts::pull(&desk))
            (cuts::joints(&desk))
            (cuts::by_length(&desk))
            (gates::gates(&desk))
            (gates::splices(&desk))
            (gates::copes(&desk))
            (lists::buy(&desk))
            (lists::kits(&desk))
            (lists::remnants(&desk))
        }
        footer { (desk.shop().name) " · " (plan) }
    };
    let whole = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (desk.plan_line()) }
                style { (PreEscaped(STYLE)) }
            }
            body data-plan=(format!("{}-{}", desk.plan.number, desk.plan.revision)) {
                (body)
                script { (PreEscaped(SCRIPT)) }
            }
        }
    };
    whole.into_string()
}

fn head(desk: &Desk, plan: &str) -> Markup {
    let [facts, money, hours] = cover::facts(desk);
    let watch = cover::watch(desk);
    let links = [
        ("pull", "Pull order"),
        ("cuts", "Cut sheets"),
        ("lengths", "By length"),
        ("gates", "Gates"),
        ("splices", "Splices"),
        ("copes", "Copes"),
        ("buy", "Buy"),
        ("kits", "Kits"),
        ("remnants", "Remnants"),
    ];
    html! {
        header {
            h1 { "Plan " (desk.plan.number) }
            p.plan { (plan) }
            @if !desk.left_out().is_empty() {
                p.flag { "LEFT OUT OF THIS PLAN: " (desk.left_out()) }
            }
            p.facts { (facts) }
            p { (money) br; (hours) }
            nav { @for (id, name) in links { a href=(format!("#{id}")) { (name) } } }
        }
        (section("cover", "The week", html! {
            (table(&cover::gates(desk)))
            (table(&cover::pipes(desk)))
            p { (cover::waste(desk)) }
            @if !watch.is_empty() {
                h3 { "Watch" }
                ul { @for words in watch { li { (words) } } }
            }
        }))
    }
}
