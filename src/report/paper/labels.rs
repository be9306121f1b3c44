//! Part labels: one card per piece, in cutting order, the mark large.

use crate::report::draw::Text;

use super::desk::Desk;
use super::grid::{card_room, grid};
use super::{Block, Section};

/// Rows of labels on a page, whichever paper.
const ROWS: f64 = 7.0;
/// Height of a label at most, points.
const TALL: f64 = 72.0;

/// One label per piece of the week.
pub fn sheet(desk: &Desk) -> Section {
    let room = card_room(desk.room, 4.0);
    let mut cards = Vec::new();
    for joint in &desk.plan.joints {
        for piece in &joint.pieces {
            let mut card = Block::new(60.0);
            card.text(
                Text::new(0.0, 22.0, 24.0, &piece.mark)
                    .bold()
                    .fitted(room, 10.0),
            );
            card.text(Text::new(0.0, 38.0, 15.0, desk.length(piece.saw)).bold());
            card.text(
                Text::new(room, 38.0, 12.0, desk.ends(piece))
                    .end()
                    .fitted(room * 0.5, 8.0),
            );
            let pipe = &desk.week.pipe(joint.pipe).name;
            let gate = match desk.gate_of(piece).as_str() {
                "–" => String::new(),
                gate => format!("gate {gate} · "),
            };
            let line = format!("{gate}joint {} · {pipe}", joint.number);
            card.text(Text::new(0.0, 49.0, 9.5, line).fitted(room, 6.0));
            let plan = format!("plan {} rev {}", desk.plan.number, desk.plan.revision);
            card.text(Text::new(0.0, 58.0, 7.5, plan).fitted(room, 5.0));
            cards.push(card);
        }
    }
    Section {
        title: String::from("Labels"),
        header: String::from("Part labels, in cutting order"),
        pieces: vec![grid(cards, desk.room, 4, (desk.high / ROWS).min(TALL))],
    }
}
