//! One wish → what was told.

use super::find;
use super::wish::{Slip, Wish, length};
use super::{buying, rack};
use crate::order::suggestion;
use crate::yard::{
    Accepted, Changed, ChangedRow, Coped, Cut, EntryId, PieceState, Recut, Spoiled, Stand, Told,
    Undone, WeekStand, Welded, Withdrawn,
};

/// Every kind that can be told in words.
pub(super) const KINDS: [&str; 26] = [
    "ordered",
    "delivered",
    "short",
    "bent",
    "refused",
    "cut",
    "spoiled",
    "tagged",
    "measured",
    "counted",
    "scrapped",
    "welded",
    "coped",
    "done",
    "shipped",
    "changed",
    "withdrawn",
    "promised",
    "cancelled",
    "returned",
    "accepted",
    "reserved",
    "freed",
    "recut",
    "closed",
    "undone",
];

/// A gate's row of orders.csv at the issue, and now.
type Rows<'a> = &'a dyn Fn(&str) -> (Option<String>, Option<String>);

/// What a wish is understood by.
pub(super) struct Context<'a> {
    pub stand: &'a Stand,
    pub name: &'a str,
    pub week: &'a WeekStand,
    /// The row of a gate in orders.csv: at the issue, and now.
    pub rows: Rows<'a>,
    /// The id of what was told under a number, or under that very id.
    pub entry: &'a dyn Fn(&str) -> Option<EntryId>,
}

/// The kind as it is written, from what was typed.
pub(super) fn kind(typed: &str) -> Result<&'static str, Slip> {
    let folded = typed.trim().to_lowercase();
    if let Some(kind) = KINDS.iter().find(|k| **k == folded) {
        return Ok(kind);
    }
    if folded == "issued" {
        return Err(Slip::new(
            "what",
            typed,
            "a plan is handed out by a command of its own",
            "longpoint issue FOLDER",
        ));
    }
    Err(Slip::new(
        "what",
        typed,
        if typed.trim().is_empty() {
            "what happened?"
        } else {
            "nothing like this can be told"
        },
        suggestion(typed, KINDS),
    ))
}

/// What one wish tells.
pub(super) fn understand(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    match wish.what.as_str() {
        "cut" => cut(context, wish),
        "spoiled" | "coped" | "recut" | "accepted" => piece(context, wish),
        "welded" => {
            wish.stray(&[])?;
            let (line, splice) = find::spliced(context.week, wish.word("a spliced line")?)?;
            Ok(Told::Welded(Welded { line, splice }))
        }
        "done" | "shipped" => {
            wish.stray(&[])?;
            let gate = find::gate(context.week, wish.word("a gate")?)?;
            Ok(if wish.what == "done" {
                Told::Done(gate)
            } else {
                Told::Shipped(gate)
            })
        }
        "changed" => changed(context, wish),
        "withdrawn" => withdrawn(context, wish),
        "closed" => {
            wish.stray(&[])?;
            wish.no_words()?;
            Ok(Told::Closed {})
        }
        "undone" => undone(context, wish),
        "tagged" | "measured" | "counted" | "scrapped" | "reserved" | "freed" => {
            rack::understand(context, wish)
        }
        _ => buying::understand(context, wish),
    }
}

fn cut(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["to", "actual", "floor", "taken"])?;
    let units = context.week.units;
    let text = wish.word("a joint's number")?;
    let joint = super::wish::count("joint", text)?;
    if !context.week.joints.contains_key(&joint) {
        return Err(find::no_joint(context.week, text));
    }
    let to = wish.to.as_deref();
    let to = to.map(|text| find::on_joint(context.week, joint, text.trim(), 0));
    let (mut lengths, mut named, mut reached) = (Vec::new(), Vec::new(), 0);
    for (at, (mark, actual)) in wish.actual.iter().enumerate() {
        let before = wish.actual[..at].iter();
        let nth = before.filter(|(m, _)| m.eq_ignore_ascii_case(mark)).count();
        let piece = find::on_joint(context.week, joint, mark, nth)?;
        if named.contains(&piece) {
            return Err(Slip::new(
                "actual",
                mark,
                "it is named twice",
                "name it once",
            ));
        }
        reached = reached.max(piece);
        if !actual.is_empty() {
            lengths.push((piece, length("actual", actual, units)?));
        }
        named.push(piece);
    }
    lengths.sort_unstable();
    let maybe = |column, text: &Option<String>| {
        let text = text.as_deref();
        text.map(|text| length(column, text, units)).transpose()
    };
    // A list names the pieces that are cut; so does whoever says up to which.
    let to = match (to.transpose()?, wish.place.is_some() && reached > 0) {
        (None, true) => Some(reached),
        (to, _) => to,
    };
    let all = context.week.joints.get(&joint).map(|j| j.pieces.len());
    let to = to.filter(|to| usize::try_from(*to).ok() != all);
    Ok(Told::Cut(Cut {
        joint,
        to,
        lengths,
        taken: maybe("taken", &wish.taken)?,
        floor: maybe("floor", &wish.floor)?,
    }))
}

fn piece(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    let word = wish.word("a piece")?;
    let units = context.week.units;
    match wish.what.as_str() {
        "spoiled" => {
            wish.stray(&["left", "tag"])?;
            let piece = find::piece(context.week, word, crate::yard::PieceStand::made)?;
            let left = wish.left.as_deref();
            let left = left.map(|text| length("left", text, units)).transpose()?;
            let left = left.filter(|l| *l > crate::measure::Length::ZERO);
            let tag = match (&wish.tag, left) {
                (Some(tag), _) => Some(tag.trim().to_owned()),
                (None, Some(_)) => Some(rack::fresh_tag(context, "S")),
                (None, None) => None,
            };
            Ok(Told::Spoiled(Spoiled { piece, left, tag }))
        }
        "recut" => {
            wish.stray(&["tag", "length"])?;
            let piece = find::piece(context.week, word, crate::yard::PieceStand::made)?;
            let tag = wish
                .tag
                .clone()
                .unwrap_or_else(|| rack::fresh_tag(context, "S"));
            Ok(Told::Recut(Recut {
                piece,
                tag: tag.trim().to_owned(),
                length: rack::one_length(wish, units)?,
            }))
        }
        "coped" => {
            wish.stray(&[])?;
            let open = |p: &crate::yard::PieceStand| {
                matches!(p.state, PieceState::Made { coped: false, .. })
            };
            let piece = find::piece(context.week, word, open)?;
            Ok(Told::Coped(Coped { piece }))
        }
        _ => {
            wish.stray(&[])?;
            let asked = |p: &crate::yard::PieceStand| {
                matches!(p.state, PieceState::Made { doubt: true, .. })
            };
            let number = (context.entry)(word);
            match (find::piece(context.week, word, asked), number) {
                (Ok(piece), _) => Ok(Told::Accepted(Accepted::Piece(piece))),
                (Err(_), Some(id)) => Ok(Told::Accepted(Accepted::Entry(id))),
                (Err(slip), None) => Err(slip),
            }
        }
    }
}

fn changed(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&[])?;
    let word = wish.word("a gate")?;
    let mark = find::order_mark(context.week, word).unwrap_or_else(|| word.trim().to_owned());
    let (before, after) = (context.rows)(&mark);
    if before == after {
        return Err(Slip::new(
            "piece",
            word,
            match before {
                Some(_) => format!("the order of {mark} is as it was when the plan was handed out"),
                None => format!("orders.csv has no {mark}, and had none"),
            },
            "change its row in orders.csv first, then tell it",
        ));
    }
    Ok(Told::Changed(Changed {
        rows: vec![ChangedRow {
            mark,
            before,
            after,
        }],
    }))
}

fn withdrawn(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["plan"])?;
    if wish.plan {
        wish.no_words()?;
        return Ok(Told::Withdrawn(Withdrawn::Plan));
    }
    let word = wish.word("a gate, or --plan,")?;
    if let Some(mark) = find::order_mark(context.week, word) {
        return Ok(Told::Withdrawn(Withdrawn::Gate { mark, copy: None }));
    }
    let gate = find::gate(context.week, word)?;
    Ok(Told::Withdrawn(Withdrawn::Gate {
        mark: gate.mark,
        copy: Some(gate.copy),
    }))
}

fn undone(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&[])?;
    let mut ids = Vec::new();
    for word in wish.words.iter().flat_map(|w| w.split(',')) {
        let word = word.trim();
        if word.is_empty() {
            continue;
        }
        let id = (context.entry)(word).ok_or_else(|| {
            Slip::new(
                "what",
                word,
                "nothing was told under this number",
                "longpoint yard entries lists what was told",
            )
        })?;
        ids.push(id);
    }
    if ids.is_empty() {
        return Err(Slip::new(
            "what",
            "undone",
            "what is undone?",
            "write its number; longpoint yard entries lists what was told",
        ));
    }
    let entry = ids.remove(0);
    Ok(Told::Undone(Undone { entry, with: ids }))
}
