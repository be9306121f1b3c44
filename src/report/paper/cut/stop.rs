//! The same pieces by length, for a stop block: set once, cut every piece of that length.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::measure::Length;
use crate::order::PipeId;
use crate::report::draw::Text;
use crate::report::paper::desk::Desk;
use crate::report::paper::table::{TICK_CELL, Table, bold, figures, words};
use crate::report::paper::{Block, Piece, Section};

/// (joint number, mark) of every piece of one length.
type Pieces = Vec<(u32, String)>;

/// One table per pipe, under its name, longest first.
pub fn lengths(desk: &Desk) -> Vec<(String, Table)> {
    let mut pipes: BTreeMap<PipeId, BTreeMap<(Reverse<Length>, String), Pieces>> = BTreeMap::new();
    for joint in &desk.plan.joints {
        for piece in &joint.pieces {
            let key = (Reverse(piece.saw), desk.ends(piece));
            let list = pipes.entry(joint.pipe).or_default().entry(key).or_default();
            list.push((joint.number, piece.mark.clone()));
        }
    }
    let table = |lengths: &BTreeMap<(Reverse<Length>, String), Pieces>| {
        let row = |((saw, ends), list): (&(Reverse<Length>, String), &Pieces)| {
            vec![
                TICK_CELL.to_string(),
                desk.length(saw.0),
                list.len().to_string(),
                ends.clone(),
                marks(list),
            ]
        };
        Table {
            columns: vec![
                words("", 0.35),
                bold(figures("set the stop at", 1.5)),
                bold(figures("pieces", 0.8)),
                words("ends", 1.3),
                words("from", 6.0),
            ],
            rows: lengths.iter().map(row).collect(),
            size: 14.0,
            room: desk.room,
        }
    };
    let named = pipes.iter().map(|(pipe, l)| (desk.pipe(*pipe), table(l)));
    named.collect()
}

/// The tables as sheets, each pipe's name and head repeated where it breaks.
pub fn by_length(desk: &Desk) -> Section {
    let piece = |(name, table): (String, Table)| {
        let mut head = Block::new(20.0);
        head.text(Text::new(0.0, 15.0, 15.0, name).bold());
        head.below(0.0, table.head());
        Piece {
            head: Some(head),
            ..table.piece()
        }
    };
    Section {
        title: String::from("Cut by length"),
        header: String::from("The same pieces by length, for a stop block"),
        pieces: lengths(desk).into_iter().map(piece).collect(),
    }
}

/// `joint 2: 3 × A1.1-V, A2-V; joint 10: A2-V`.
fn marks(list: &Pieces) -> String {
    let joint = |pieces: &[(u32, String)]| {
        let each = pieces.chunk_by(|a, b| a.1 == b.1).map(|same| match same {
            [(_, mark)] => mark.clone(),
            _ => format!("{} × {}", same.len(), same[0].1),
        });
        let number = pieces.first().map_or(0, |p| p.0);
        format!("joint {number}: {}", each.collect::<Vec<_>>().join(", "))
    };
    let joints: Vec<String> = list.chunk_by(|a, b| a.0 == b.0).map(joint).collect();
    joints.join("; ")
}
