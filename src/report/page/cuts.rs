//! Pull order and the cut sheets.

use maud::{Markup, html};

use crate::measure::Length;
use crate::plan::{PieceCut, PlannedJoint};
use crate::report::joint_block::TOO_SHORT;
use crate::report::joint_block::scribe_words;
use crate::report::paper::cut;
use crate::report::paper::desk::Desk;
use crate::report::planned_length::keep_if_longer;
use crate::report::wrap::soften;

use super::parts::{section, shrinking, table, tick};

/// Width of a strip for a phone, points: drawn at this size nothing in it gets too small.
const NARROW: f64 = 290.0;

/// The pull order.
pub(super) fn pull(desk: &Desk) -> Markup {
    section("pull", "Pull order", table(&cut::pull_table(desk)))
}

/// The same pieces by length.
pub(super) fn by_length(desk: &Desk) -> Markup {
    let tables = html! {
        @for (name, lengths) in cut::lengths(desk) { h3 { (name) } (table(&lengths)) }
    };
    section("lengths", "By length, for a stop block", tables)
}

/// One card per joint.
pub(super) fn joints(desk: &Desk) -> Markup {
    let longest = desk.plan.joints.iter().map(|j| j.length).max();
    let longest = longest.unwrap_or(Length::FOOT);
    let cards = html! {
        p { (cut::rule(desk)) }
        (shrinking(cut::blade::picture(desk), cut::blade::WIDE, "which side the blade stands on", "view"))
        nav { @for joint in &desk.plan.joints { a href=(format!("#joint-{}", joint.number)) { (joint.number) } } }
        @for joint in &desk.plan.joints { (card(desk, joint, longest)) }
    };
    section("cuts", "Cut sheets", cards)
}

fn card(desk: &Desk, joint: &PlannedJoint, longest: Length) -> Markup {
    let last = |i: usize| joint.pieces.get(i).is_none_or(|p| desk.is_last(p));
    let strip = |room: f64| {
        let number = joint.number.to_string();
        cut::strip(joint, &number, &desk.take_off.parts, longest, room, last)
    };
    let name = format!("joint {}", joint.number);
    let done = desk.done_after(joint.number);
    let least = (joint.length - joint.leftover).up_to(desk.shop().saw.mark);
    html! {
        article.joint id=(format!("joint-{}", joint.number)) {
            h3 { "Joint " (joint.number) ": " (desk.pipe(joint.pipe)) }
            p { (desk.source(joint)) }
            @if joint.measure_first {
                p.flag { "MEASURE FIRST: " (desk.length(least)) " or longer. " (TOO_SHORT) "." }
            }
            (shrinking(strip(desk.room), desk.room, &name, "wide"))
            (shrinking(strip(NARROW), NARROW, &name, "narrow"))
            @if let Some(words) = cut::near_trim(desk, joint) { p { (words) } }
            table {
                thead { tr {
                    th {} th.n { "no." } th { "mark" } th { "gate" } th.n { "saw length" }
                    th.n { "throat" } th { "ends" } th.n { "running mark" }
                } }
                tbody { @for (i, piece) in joint.pieces.iter().enumerate() { (line(desk, i, piece)) } }
            }
            p.floor {
                "Floor " (desk.left(joint.floor, joint.kept)) " "
                @if joint.kept { span.flag { "KEEP " (joint.keep_tag.as_deref().unwrap_or("")) } }
                @else { "SCRAP" }
            }
            @if let Some(words) = scribe_words(joint) { p { (words) } }
            @if let Some(words) = keep_if_longer(desk.week, joint) { p { (soften(&words)) } }
            @if !done.is_empty() { p.done { "Complete after this joint: " (done.join(", ")) } }
        }
    }
}

fn line(desk: &Desk, i: usize, piece: &PieceCut) -> Markup {
    html! {
        tr {
            td.tick { (tick()) }
            td.n data-label="no." { (i + 1) }
            td.b data-label="mark" { (piece.mark) }
            td data-label="gate" { (desk.gate_of(piece)) }
            td.n.b data-label="saw length" { (desk.length(piece.saw)) }
            td.n data-label="throat" { (cut::throat_words(desk, piece)) }
            td data-label="ends" { (desk.ends(piece)) }
            td.n.b.over[cut::beyond_tape(desk, piece)] data-label="running mark" {
                (desk.at_mark(piece.end))
            }
        }
    }
}
