//! The buy list: what goes to each supplier with its fees and tax, how the plan's money adds up, what
//! each gate costs of it, and what is taken off the rack.

mod money;
mod orders;

use crate::plan::JointSource;
use crate::report::draw::{Face, Text};

use super::desk::Desk;
use super::table::{TICK_CELL, Table, bold, figures, words};
use super::wrap::paragraph;
use super::{Block, Piece, Section};

pub use money::{
    GATES_TITLE, LEDGER_TITLE, SUMS_TITLE, gate_costs, gate_sums, ledger, shared, totals, warning,
};
pub use orders::{ASK, SPARES, orders};

/// A table under a title of its own, both repeated where it breaks.
fn titled(words: &str, aside: &str, table: &Table) -> Piece {
    let mut head = Block::new(22.0);
    let room = table.room * if aside.is_empty() { 1.0 } else { 0.7 };
    head.text(Text::new(0.0, 16.0, 15.0, words).bold().fitted(room, 8.0));
    head.text(Text::new(table.room, 16.0, 15.0, aside).bold().end());
    head.below(0.0, table.head());
    Piece {
        head: Some(head),
        blocks: table.piece().blocks,
    }
}

/// The buy list, with the money of the week.
pub fn sheet(desk: &Desk) -> Section {
    let mut pieces = Vec::new();
    for order in orders(desk) {
        if !order.lines.rows.is_empty() {
            pieces.push(titled(&order.title, &order.money, &order.lines));
        }
        if !order.spares.rows.is_empty() {
            pieces.push(titled(SPARES, "", &order.spares));
        }
        let freight = paragraph(Face::Regular, 10.0, desk.room, &order.freight);
        pieces.push(Piece::of(freight));
        pieces.push(Piece::of(paragraph(Face::Regular, 10.0, desk.room, ASK)));
    }
    pieces.extend(warning(desk).map(|w| Piece::of(paragraph(Face::Bold, 12.0, desk.room, w))));
    pieces.push(Piece::of(beside(desk)));
    let rack = rack(desk);
    if !rack.rows.is_empty() {
        pieces.push(titled("Take off the rack", "", &rack));
    }
    if let Some(costs) = gate_costs(desk) {
        pieces.push(titled(GATES_TITLE, "", &costs));
        let sums = pairs(SUMS_TITLE, &gate_sums(desk), 0.46 * desk.room);
        pieces.push(Piece::of(sums));
        pieces.push(Piece::of(paragraph(
            Face::Regular,
            9.0,
            desk.room,
            shared(),
        )));
    }
    Section {
        title: String::from("Buy list"),
        header: String::from("Buy list"),
        pieces,
    }
}

/// The order's totals, and beside them how the plan's money adds up.
fn beside(desk: &Desk) -> Block {
    let wide = 0.46 * desk.room;
    let mut block = pairs("All orders", &totals(desk), wide);
    if let Some(lines) = ledger(desk) {
        let right = pairs(LEDGER_TITLE, &lines, wide);
        block.height = block.height.max(right.height);
        block.place(desk.room - wide, 0.0, right);
    }
    block
}

/// Labels left and figures right under a title.
fn pairs(title: &str, lines: &[(String, String)], wide: f64) -> Block {
    let mut block = Block::new(18.0);
    block.text(Text::new(0.0, 13.0, 13.0, title).bold().fitted(wide, 8.0));
    for (label, value) in lines {
        let y = block.height + 13.0;
        block.text(Text::new(0.0, y, 12.0, label));
        block.text(Text::new(wide, y, 12.0, value).bold().end());
        block.height += 17.0;
        block.line(0.0, block.height, wide, block.height, 0.3);
    }
    block
}

/// Pieces taken off the rack.
pub fn rack(desk: &Desk) -> Table {
    let row = |j: &crate::plan::PlannedJoint| match j.source {
        JointSource::Rack(r, _) => desk.week.rack.get(r).map(|piece| {
            vec![
                TICK_CELL.to_string(),
                piece.tag.clone(),
                desk.pipe(piece.pipe),
                desk.length(piece.length),
                j.number.to_string(),
                piece.note.clone(),
            ]
        }),
        JointSource::Bought(_) => None,
    };
    Table {
        columns: vec![
            words("", 0.35),
            bold(words("tag", 1.2)),
            words("pipe", 3.4),
            figures("measured", 1.4),
            figures("joint", 0.8),
            words("note", 3.0),
        ],
        rows: desk.plan.joints.iter().filter_map(row).collect(),
        size: 11.0,
        room: desk.room,
    }
}
