//! Remnant tags: one card per kept drop, to go on the rack with it.

use crate::report::draw::Text;

use super::desk::Desk;
use super::grid::{card_room, grid};
use super::{Block, Section};

/// One tag per kept drop; none, no section.
pub fn sheet(desk: &Desk) -> Option<Section> {
    if desk.plan.kept.is_empty() {
        return None;
    }
    let room = card_room(desk.room, 2.0);
    let mut cards = Vec::new();
    for kept in &desk.plan.kept {
        let mut card = Block::new(110.0);
        card.text(
            Text::new(0.0, 44.0, 48.0, &kept.tag)
                .bold()
                .fitted(room * 0.42, 14.0),
        );
        card.text(
            Text::new(room, 30.0, 26.0, desk.at_mark(kept.floor))
                .bold()
                .end()
                .fitted(room * 0.55, 12.0),
        );
        card.text(Text::new(room, 44.0, 9.0, "on the floor, far end not trimmed").end());
        card.text(
            Text::new(0.0, 66.0, 15.0, desk.pipe(kept.pipe))
                .bold()
                .fitted(room, 8.0),
        );
        let credit = format!(
            "counts as {} · credit {}",
            desk.at_mark(kept.drop),
            desk.money(Some(kept.credit))
        );
        card.text(
            Text::new(
                0.0,
                82.0,
                11.0,
                format!("from joint {} · {credit}", kept.joint),
            )
            .fitted(room, 7.0),
        );
        card.text(Text::new(0.0, 102.0, 10.0, "measured"));
        card.line(48.0, 103.0, 150.0, 103.0, 0.6);
        card.text(
            Text::new(room, 102.0, 9.0, desk.plan_line())
                .end()
                .fitted(room - 160.0, 6.0),
        );
        cards.push(card);
    }
    Some(Section {
        title: String::from("Remnant tags"),
        header: String::from("Remnant tags"),
        pieces: vec![grid(cards, desk.room, 2, 118.0)],
    })
}
