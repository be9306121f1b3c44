//! Cards in a grid with dashed cut lines: labels and tags on plain sheets.

use crate::report::draw::{Path, Pen};

use super::{Block, Piece};

/// Cards, `across` to a row, each `tall` points high; a row is never split over pages.
pub fn grid(cards: Vec<Block>, room: f64, across: usize, tall: f64) -> Piece {
    let across = across.max(1);
    let columns = f64::from(u32::try_from(across).unwrap_or(1));
    let wide = room / columns;
    let mut blocks = Vec::new();
    let mut cards = cards.into_iter().peekable();
    while cards.peek().is_some() {
        let mut row = Block::new(tall);
        let mut x = 0.0;
        for card in cards.by_ref().take(across) {
            row.place(x + 8.0, 6.0, card);
            row.stroke(Path::rect(x, 0.0, wide, tall), Pen::dashed(0.4, 3.0));
            x += wide;
        }
        blocks.push(row);
    }
    Piece {
        // An empty head keeps rows edge to edge: one cut parts two cards.
        head: Some(Block::new(0.0)),
        blocks,
    }
}

/// Width inside a card.
pub fn card_room(room: f64, across: f64) -> f64 {
    room / across - 16.0
}
