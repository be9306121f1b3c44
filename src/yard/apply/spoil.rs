//! Finished pieces that become something else: spoiled, or stock again.

use super::super::{
    Account, PieceStand, PieceState, Recut, Remnant, Spoiled, Stand, Trouble, WeekStand,
};
use super::rack::free_id;
use super::{believed, week};
use crate::measure::Length;
use crate::order::PieceId;
use crate::order::{PipeKey, RemnantId};

/// A piece of a week, by name.
pub(super) fn piece<'a>(
    week: &'a WeekStand,
    name: &str,
    id: &PieceId,
) -> Result<&'a PieceStand, Trouble> {
    week.pieces.get(id).ok_or_else(|| {
        Trouble::refusal(
            format!("{name} has no piece {id}"),
            "longpoint stand lists its gates and what each still lacks",
        )
    })
}

/// A finished piece that nothing holds fast: its pipe and its length.
fn loose(stand: &Stand, name: &str, id: &PieceId) -> Result<(PipeKey, Length), Trouble> {
    let known = week(stand, name)?;
    let piece = piece(known, name, id)?;
    let PieceState::Made { length, .. } = piece.state else {
        return Err(Trouble::question(
            format!("{} is not told cut", piece.mark),
            "tell the cut of its joint first",
        ));
    };
    let fast = match known.copy_of(id) {
        Some(copy) => {
            let gate = known.gates.get(&copy.mark);
            let at = usize::try_from(copy.copy).unwrap_or(0).checked_sub(1);
            let copy = at.and_then(|at| gate?.copies.get(at));
            copy.is_some_and(|c| c.done || c.shipped)
        }
        None => false,
    };
    if fast || welded(known, id) {
        return Err(Trouble::question(
            format!("{} is told welded in", piece.mark),
            "undo that first where it is not so",
        ));
    }
    Ok((piece.pipe.clone(), length))
}

/// A splice at one of its ends is welded.
fn welded(week: &WeekStand, id: &PieceId) -> bool {
    let Some(piece) = id.piece.and_then(|p| usize::try_from(p).ok()) else {
        return false;
    };
    let line = PieceId {
        piece: None,
        ..id.clone()
    };
    let Some(splices) = week.splices.get(&line) else {
        return false;
    };
    // Splice j (from 0) joins pieces j + 1 and j + 2.
    let at = |splice: Option<usize>| splice.and_then(|s| splices.get(s)).copied() == Some(true);
    at(piece.checked_sub(1)) || at(piece.checked_sub(2))
}

pub(super) fn spoiled(stand: &mut Stand, name: &str, told: &Spoiled) -> Result<(), Trouble> {
    let (pipe, length) = loose(stand, name, &told.piece)?;
    let left = told.left.unwrap_or(Length::ZERO);
    if told.left.is_some() {
        believed(left, "what is left of the piece")?;
    }
    if left > length {
        return Err(Trouble::refusal(
            format!("{left} is left of a piece of {length}"),
            "write what can still be used",
        ));
    }
    let tag = match (&told.tag, left > Length::ZERO) {
        (Some(tag), true) => Some(new_tag(stand, name, tag)?),
        (None, true) => Some(next_tag(stand, name)),
        (Some(_), false) => {
            return Err(Trouble::refusal(
                "a tag for a piece of which nothing is left",
                "tell the length that is left, or no tag",
            ));
        }
        (None, false) => None,
    };
    stand.shift(&pipe, Account::Pieces, Account::Spoiled, length - left);
    unmake(stand, name, &told.piece, 1);
    if let Some(id) = tag {
        let words = format!("spoiled {}", mark(stand, name, &told.piece));
        to_rack(stand, id, (pipe, left), words);
    }
    Ok(())
}

pub(super) fn recut(stand: &mut Stand, name: &str, told: &Recut) -> Result<(), Trouble> {
    let (pipe, length) = loose(stand, name, &told.piece)?;
    let left = told.length.unwrap_or(length);
    believed(left, "what can be used of the piece")?;
    if left > length {
        return Err(Trouble::refusal(
            format!("{left} can be used of a piece of {length}"),
            "write what can be used",
        ));
    }
    let id = new_tag(stand, name, &told.tag)?;
    stand.shift(&pipe, Account::Pieces, Account::Scrap, length - left);
    unmake(stand, name, &told.piece, 0);
    let words = format!("finished {}", mark(stand, name, &told.piece));
    to_rack(stand, id, (pipe, left), words);
    Ok(())
}

fn mark(stand: &Stand, name: &str, id: &PieceId) -> String {
    let piece = stand.weeks.get(name).and_then(|w| w.pieces.get(id));
    piece.map_or_else(|| id.to_string(), |p| p.mark.clone())
}

fn unmake(stand: &mut Stand, name: &str, id: &PieceId, spoiled: u32) {
    let week = stand.weeks.get_mut(name);
    let Some(week) = week else {
        return;
    };
    if let Some(piece) = week.pieces.get_mut(id) {
        piece.state = PieceState::Missing;
        piece.spoiled += spoiled;
        if piece.wanted {
            week.replan
                .insert(format!("{} must be made again", piece.mark));
        }
    }
}

/// Clean at both ends: a saw cut it.
fn to_rack(stand: &mut Stand, id: RemnantId, (pipe, length): (PipeKey, Length), from: String) {
    stand.shift(&pipe, Account::Pieces, Account::OnSite, length);
    let remnant = Remnant::cut(pipe, length, false, from);
    stand.rack.insert(id, remnant);
}

/// A tag of this week that nothing carries.
pub(super) fn new_tag(stand: &Stand, name: &str, tag: &str) -> Result<RemnantId, Trouble> {
    if tag.is_empty() || tag.chars().any(|c| c.is_control() || c == '/') {
        return Err(Trouble::refusal(
            format!("\"{tag}\" is no tag"),
            "write letters and figures, such as R9",
        ));
    }
    let wanted = stand.weeks.get(name).is_some_and(|w| {
        let joints = w.joints.values().filter(|j| !j.over && !j.void);
        joints.filter_map(|j| j.keep.as_deref()).any(|k| k == tag)
    });
    if let Some(other) = stand.tagged(tag).first() {
        return Err(Trouble::refusal(
            format!("the tag {tag} lies on the rack already ({other})"),
            "paint another tag",
        ));
    }
    if wanted {
        return Err(Trouble::refusal(
            format!("the plan of {name} paints the tag {tag} itself"),
            "paint another tag",
        ));
    }
    Ok(RemnantId {
        week: name.to_owned(),
        tag: tag.to_owned(),
    })
}

/// `S1`, `S2`…: the first that this week never had.
fn next_tag(stand: &Stand, name: &str) -> RemnantId {
    let ids = (1u64..).map(|n| free_id(stand, name, &format!("S{n}")));
    let mut ids = ids.zip(1u64..).filter(|(id, n)| id.tag == format!("S{n}"));
    // The numbers have no end, the rack has.
    ids.next()
        .map_or_else(|| free_id(stand, name, "S"), |(id, _)| id)
}
