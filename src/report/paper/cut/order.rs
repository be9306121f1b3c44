//! Pull order: every joint in cutting order, what to fetch, and the gates done after it.

use std::collections::BTreeMap;

use crate::report::paper::Section;
use crate::report::paper::desk::Desk;
use crate::report::paper::table::{TICK_CELL, Table, bold, figures, words};

/// Every joint in cutting order.
pub fn table(desk: &Desk) -> Table {
    let sittings = desk.plan.sittings.iter();
    let of = sittings.flat_map(|s| s.joints.iter().map(|number| (*number, s.saw)));
    let saws: BTreeMap<u32, u32> = of.collect();
    let row = |j: &crate::plan::PlannedJoint| {
        let saw = saws.get(&j.number);
        vec![
            TICK_CELL.to_string(),
            j.number.to_string(),
            desk.week.pipe(j.pipe).name.clone(),
            desk.source(j),
            saw.map_or(String::from("–"), u32::to_string),
            j.pieces.len().to_string(),
            j.keep_tag.clone().unwrap_or_else(|| String::from("scrap")),
            desk.done_after(j.number).join(", "),
        ]
    };
    Table {
        columns: vec![
            words("", 0.35),
            bold(figures("joint", 0.55)),
            words("pipe", 1.5),
            words("take", 3.5),
            figures("saw", 0.4),
            figures("pieces", 0.65),
            words("drop", 0.7),
            bold(words("gates complete after it", 1.8)),
        ],
        rows: desk.plan.joints.iter().map(row).collect(),
        size: 14.0,
        room: desk.room,
    }
}

/// The pull order of the week.
pub fn pull_order(desk: &Desk) -> Section {
    Section {
        title: String::from("Pull order"),
        header: String::from("Pull order"),
        pieces: vec![table(desk).piece()],
    }
}
