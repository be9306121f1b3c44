//! The buy list: order lines by supplier, spares apart, what is taken off the rack.

use crate::measure::Money;
use crate::plan::{Bought, JointSource, Spare};
use crate::report::draw::{Face, Text};

use super::desk::Desk;
use super::table::{TICK_CELL, Table, bold, figures, words};
use super::wrap::paragraph;
use super::{Block, Piece, Section};

fn title(words: &str) -> Block {
    let mut block = Block::new(22.0);
    block.text(Text::new(0.0, 16.0, 15.0, words).bold());
    block
}

/// The buy list.
pub fn sheet(desk: &Desk) -> Section {
    let mut pieces = Vec::new();
    for supplier in suppliers(desk) {
        let name = if supplier.is_empty() {
            "Buy (supplier not named)"
        } else {
            &supplier
        };
        let table = bought(desk, &supplier);
        let mut head = title(name);
        head.below(0.0, table.head());
        pieces.push(Piece {
            head: Some(head),
            blocks: table.piece().blocks,
        });
    }
    pieces.push(Piece::of(total(desk)));
    let spares = spares(desk);
    if !spares.rows.is_empty() {
        let mut head = title("Spare joints on top (not needed by the plan)");
        head.below(0.0, spares.head());
        pieces.push(Piece {
            head: Some(head),
            blocks: spares.piece().blocks,
        });
    }
    let rack = rack(desk);
    if !rack.rows.is_empty() {
        let mut head = title("Take off the rack");
        head.below(0.0, rack.head());
        pieces.push(Piece {
            head: Some(head),
            blocks: rack.piece().blocks,
        });
    }
    let ask = "Ask for uniform length, no jointers, plain square ends, and the length tolerance in writing. Nominal lengths are billed; cutting is planned on the planning length where the two differ.";
    pieces.push(Piece::of(paragraph(Face::Regular, 10.0, desk.room, ask)));
    Section {
        title: String::from("Buy list"),
        header: String::from("Buy list"),
        pieces,
    }
}

/// Suppliers in the order of their first line.
pub fn suppliers(desk: &Desk) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    let quotes = desk
        .plan
        .buy
        .iter()
        .filter_map(|b| desk.week.quotes.get(b.quote));
    for quote in quotes {
        if !list.contains(&quote.supplier) {
            list.push(quote.supplier.clone());
        }
    }
    list
}

fn columns() -> Vec<super::table::Column> {
    vec![
        words("", 0.35),
        bold(figures("joints", 0.7)),
        bold(words("pipe", 3.1)),
        words("standard", 2.3),
        bold(figures("nominal", 0.9)),
        figures("all together", 1.1),
        words("as quoted", 1.4),
        figures("weight", 1.1),
        bold(figures("money", 1.2)),
    ]
}

fn line(
    desk: &Desk,
    quote: usize,
    joints: u32,
    nominal: String,
    weight: String,
    money: Option<Money>,
) -> Option<Vec<String>> {
    let q = desk.week.quotes.get(quote)?;
    Some(vec![
        TICK_CELL.to_string(),
        joints.to_string(),
        desk.pipe(q.pipe),
        desk.week.pipe(q.pipe).standard.clone(),
        desk.length(q.nominal),
        nominal,
        if q.quoted.is_empty() {
            String::from("no price")
        } else {
            q.quoted.clone()
        },
        weight,
        desk.money(money),
    ])
}

/// The order lines of one supplier.
pub fn bought(desk: &Desk, supplier: &str) -> Table {
    let of = |b: &&Bought| {
        desk.week
            .quotes
            .get(b.quote)
            .is_some_and(|q| q.supplier == supplier)
    };
    let row = |b: &Bought| {
        line(
            desk,
            b.quote,
            b.joints,
            desk.length(b.nominal),
            desk.weight(b.weight),
            b.money,
        )
    };
    Table {
        columns: columns(),
        rows: desk.plan.buy.iter().filter(of).filter_map(row).collect(),
        size: 11.0,
        room: desk.room,
    }
}

/// Spare joints on top.
pub fn spares(desk: &Desk) -> Table {
    let dash = || String::from("–");
    let row = |s: &Spare| line(desk, s.quote, s.joints, dash(), dash(), s.money);
    Table {
        columns: columns(),
        rows: desk.plan.spares.iter().filter_map(row).collect(),
        size: 11.0,
        room: desk.room,
    }
}

/// Joints, weight and money of all order lines.
pub fn total_words(desk: &Desk) -> String {
    let joints: u32 = desk.plan.buy.iter().map(|b| b.joints).sum();
    let weight: f64 = desk.plan.buy.iter().map(|b| b.weight).sum();
    let known: Option<Vec<Money>> = desk.plan.buy.iter().map(|b| b.money).collect();
    let money = known.map(|list| list.into_iter().sum::<Money>());
    format!(
        "{joints} joints to buy · {} · {}",
        desk.weight(weight),
        match money {
            Some(m) => format!("{} for the order lines above", desk.money(Some(m))),
            None => String::from("money not known: a price is missing"),
        }
    )
}

fn total(desk: &Desk) -> Block {
    let words = total_words(desk);
    let mut block = Block::new(22.0);
    block.text(Text::new(desk.room, 15.0, 14.0, words).bold().end());
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
