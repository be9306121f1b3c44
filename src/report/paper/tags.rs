//! Remnant tags: one card per kept drop, to go on the rack with it.

use crate::measure::Money;
use crate::plan::{Kept, Uncut};
use crate::report::draw::Text;
use crate::report::rack_next::whole_tags;
use crate::report::remnants::credits;

use super::desk::Desk;
use super::grid::{card_room, grid};
use super::{Block, Section};

/// What one tag says.
struct Tag {
    name: String,
    length: String,
    aside: &'static str,
    pipe: String,
    from: String,
}

/// One tag per kept drop, and one per joint bought and left whole; none, no section.
pub fn sheet(desk: &Desk) -> Option<Section> {
    let mut tags: Vec<Tag> = desk
        .plan
        .kept
        .iter()
        .zip(credits(desk.plan))
        .map(|(k, c)| drop(desk, k, c))
        .collect();
    for (whole, name) in desk.plan.uncut.iter().zip(whole_tags(desk.job())) {
        tags.extend((0..whole.joints).filter_map(|_| new_joint(desk, whole, &name)));
    }
    if tags.is_empty() {
        return None;
    }
    let room = card_room(desk.room, 2.0);
    let cards = tags.iter().map(|t| card(desk, t, room)).collect();
    Some(Section {
        title: String::from("Remnant tags"),
        header: String::from("Remnant tags"),
        pieces: vec![grid(cards, desk.room, 2, 118.0)],
    })
}

/// The tag of a kept drop.
fn drop(desk: &Desk, kept: &Kept, credit: Money) -> Tag {
    Tag {
        name: kept.tag.clone(),
        length: desk.left(kept.floor, true),
        aside: "on the floor, far end not trimmed",
        pipe: desk.pipe(kept.pipe),
        from: format!(
            "from joint {} · counts as {} · credit {}",
            kept.joint,
            desk.left(kept.drop, true),
            desk.money(Some(credit))
        ),
    }
}

/// The tag of a joint bought and left whole.
fn new_joint(desk: &Desk, whole: &Uncut, name: &str) -> Option<Tag> {
    let quote = desk.week.quotes.get(whole.quote)?;
    Some(Tag {
        name: name.to_owned(),
        length: desk.left(quote.planning, true),
        aside: "new, to be measured, both ends as they came",
        pipe: desk.pipe(quote.pipe),
        from: format!(
            "bought as {} and left whole · {}",
            desk.length(quote.nominal),
            quote.supplier
        ),
    })
}

fn card(desk: &Desk, tag: &Tag, room: f64) -> Block {
    let mut card = Block::new(110.0);
    let name = Text::new(0.0, 44.0, 48.0, &tag.name).bold();
    card.text(name.fitted(room * 0.42, 14.0));
    let length = Text::new(room, 30.0, 26.0, &tag.length).bold().end();
    card.text(length.fitted(room * 0.55, 12.0));
    card.text(Text::new(room, 44.0, 9.0, tag.aside).end());
    let pipe = Text::new(0.0, 66.0, 15.0, &tag.pipe).bold();
    card.text(pipe.fitted(room, 8.0));
    card.text(Text::new(0.0, 82.0, 11.0, &tag.from).fitted(room, 7.0));
    card.text(Text::new(0.0, 102.0, 10.0, "measured"));
    card.line(48.0, 103.0, 150.0, 103.0, 0.6);
    let plan = Text::new(room, 102.0, 9.0, desk.plan_line()).end();
    card.text(plan.fitted(room - 160.0, 6.0));
    card
}
