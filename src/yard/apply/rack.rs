//! Tagged, measured, counted.

use std::collections::BTreeMap;

use super::super::{
    Account, Counted, CountedPiece, JointStand, Measured, MeasuredWhat, Remnant, Stand, TagFrom,
    Tagged, Trouble,
};
use super::spoil::new_tag;
use super::{believed, counted as count_of, week};
use crate::measure::Length;
use crate::order::{PipeKey, RemnantId};

/// The tag, or the tag with a figure behind it where the week had one like it.
pub(super) fn free_id(stand: &Stand, name: &str, tag: &str) -> RemnantId {
    let id = |tag: String| RemnantId {
        week: name.to_owned(),
        tag,
    };
    let plain = id(tag.to_owned());
    let others = (2u64..).map(|n| id(format!("{tag}-{n}")));
    let free = std::iter::once(plain.clone())
        .chain(others)
        .find(|id| !stand.rack.contains_key(id));
    free.unwrap_or(plain)
}

/// A remnant of which some lie.
pub(super) fn lying<'a>(stand: &'a Stand, id: &RemnantId) -> Result<&'a Remnant, Trouble> {
    match stand.rack.get(id) {
        Some(found) if found.count > 0 => Ok(found),
        Some(found) => Err(Trouble::question(
            format!("{} is not on the rack any more ({})", id.tag, found.gone),
            "count the rack, or undo what took it away",
        )),
        None => Err(Trouble::refusal(
            format!("nothing on the rack has the tag {id}"),
            "longpoint stand lists the rack",
        )),
    }
}

pub(super) fn tagged(stand: &mut Stand, name: &str, told: &Tagged) -> Result<(), Trouble> {
    match &told.from {
        TagFrom::Remnant(old) => {
            let found = lying(stand, old)?.clone();
            if let Some(kept_by) = found.reserved.keys().next() {
                return Err(Trouble::question(
                    format!("the sheets of {kept_by} name {} by its old tag", old.tag),
                    "leave the tag on until it is cut",
                ));
            }
            let id = new_tag(stand, name, &told.tag)?;
            if let Some(gone) = stand.rack.get_mut(old) {
                gone.take(name, found.count, &format!("tagged {}", told.tag));
            }
            stand.rack.insert(id, found);
        }
        TagFrom::Joint { joint, length } => tag_joint(stand, name, (&told.tag, *joint), *length)?,
        TagFrom::Found {
            pipe,
            length,
            count,
        } => {
            known(stand, pipe)?;
            believed(*length, "a piece found")?;
            count_of(*count, "pieces found")?;
            let id = new_tag(stand, name, &told.tag)?;
            let all = *length * i64::from(*count);
            stand.shift(pipe, Account::Found, Account::OnSite, all);
            put(stand, id, pipe, (*length, *count), ("found", (true, true)));
        }
    }
    Ok(())
}

fn known(stand: &Stand, pipe: &PipeKey) -> Result<(), Trouble> {
    if stand.pipes.contains_key(pipe) {
        return Ok(());
    }
    let names: Vec<&str> = stand.pipes.values().map(|p| p.name.as_str()).collect();
    Err(Trouble::refusal(
        format!("no plan handed out has the pipe {pipe}"),
        format!("known are {}", names.join(", ")),
    ))
}

fn put(
    stand: &mut Stand,
    id: RemnantId,
    pipe: &PipeKey,
    (length, count): (Length, u32),
    (from, (near_trim, far_trim)): (&str, (bool, bool)),
) {
    let remnant = Remnant {
        pipe: pipe.clone(),
        length,
        count,
        near_trim,
        far_trim,
        from: from.to_owned(),
        reserved: BTreeMap::new(),
        gone: String::new(),
    };
    stand.rack.insert(id, remnant);
}

/// The scrap of a joint that is cut, or the rest of one that is not, goes to the rack.
fn tag_joint(
    stand: &mut Stand,
    name: &str,
    (tag, number): (&str, u32),
    length: Option<Length>,
) -> Result<(), Trouble> {
    let joint = joint(stand, name, number)?;
    let (pipe, far) = (joint.pipe.clone(), joint.far);
    let (from, there) = if joint.over {
        (Account::Scrap, joint.tally.scrap)
    } else {
        (Account::AtSaw, joint.tally.rest)
    };
    let length = length.unwrap_or(there);
    if there == Length::ZERO {
        return Err(Trouble::question(
            format!("nothing is left of joint {number} by what was told"),
            "tell its cut first",
        ));
    }
    believed(length, "what gets the tag")?;
    if length > there {
        return Err(Trouble::refusal(
            format!("{length} is to be kept, and {there} is left of joint {number}"),
            "measure what is left first: measured --joint",
        ));
    }
    let id = new_tag(stand, name, tag)?;
    stand.shift(&pipe, from, Account::OnSite, length);
    let scrap = match from {
        Account::AtSaw => there - length,
        _ => Length::ZERO,
    };
    stand.shift(&pipe, from, Account::Scrap, scrap);
    let week = stand.weeks.get_mut(name);
    if let Some(joint) = week.and_then(|w| w.joints.get_mut(&number)) {
        joint.tally.drops += length;
        if joint.over {
            joint.tally.scrap -= length;
        } else {
            joint.tally.rest = Length::ZERO;
            joint.tally.scrap += scrap;
            joint.over = true;
        }
    }
    let from = format!("joint {number} of {name}");
    put(stand, id, &pipe, (length, 1), (&from, (false, far)));
    Ok(())
}

pub(super) fn joint<'a>(
    stand: &'a Stand,
    name: &str,
    number: u32,
) -> Result<&'a JointStand, Trouble> {
    let joint = week(stand, name)?.joints.get(&number);
    joint.ok_or_else(|| {
        Trouble::refusal(
            format!("{name} has no joint {number}"),
            "check the number on the cut sheet",
        )
    })
}

pub(super) fn measured(stand: &mut Stand, name: &str, told: &Measured) -> Result<(), Trouble> {
    believed(told.length, "what was measured")?;
    match &told.what {
        MeasuredWhat::Remnant(id) => {
            let found = lying(stand, id)?;
            let (pipe, count) = (found.pipe.clone(), found.count);
            let more = (told.length - found.length) * i64::from(count);
            stand.shift(&pipe, Account::Difference, Account::OnSite, more);
            if let Some(found) = stand.rack.get_mut(id) {
                found.length = told.length;
            }
        }
        MeasuredWhat::Joint(number) => {
            let joint = joint(stand, name, *number)?;
            if !joint.begun() {
                return Err(Trouble::question(
                    format!("joint {number} is not begun"),
                    "measure the remnant it left by its tag, or tell its cut first",
                ));
            }
            let more = told.length - joint.tally.rest;
            let pipe = joint.pipe.clone();
            stand.shift(&pipe, Account::Difference, Account::AtSaw, more);
            let week = stand.weeks.get_mut(name);
            if let Some(joint) = week.and_then(|w| w.joints.get_mut(number)) {
                joint.tally.rest = told.length;
                joint.tally.difference += more;
            }
        }
    }
    Ok(())
}

pub(super) fn counted(stand: &mut Stand, told: &Counted) -> Result<(), Trouble> {
    known(stand, &told.pipe)?;
    for (at, piece) in told.pieces.iter().enumerate() {
        judge_counted(stand, told, piece)?;
        if told.pieces[..at].iter().any(|p| p.tag == piece.tag) {
            return Err(Trouble::refusal(
                format!("{} stands twice in the count", piece.tag.tag),
                "write each tag once, with its count",
            ));
        }
    }
    let here = stand.rack.iter();
    let here = here.filter(|(_, r)| r.pipe == told.pipe && r.count > 0);
    let gone: Vec<RemnantId> = here
        .map(|(id, _)| id.clone())
        .filter(|id| !told.pieces.iter().any(|p| p.tag == *id))
        .collect();
    for id in gone {
        recount(stand, &told.pipe, &id, 0);
    }
    for piece in &told.pieces {
        if stand.rack.get(&piece.tag).is_none_or(|r| r.count == 0) {
            let length = piece
                .length
                .or(stand.rack.get(&piece.tag).map(|r| r.length));
            let length = length.unwrap_or(Length::ZERO);
            let id = piece.tag.clone();
            put(stand, id, &told.pipe, (length, 0), ("found", (true, true)));
        }
        if let Some(length) = piece.length {
            let found = stand.rack.get_mut(&piece.tag);
            let more = found.map(|r| {
                let more = (length - r.length) * i64::from(r.count);
                r.length = length;
                more
            });
            let more = more.unwrap_or(Length::ZERO);
            stand.shift(&told.pipe, Account::Difference, Account::OnSite, more);
        }
        recount(stand, &told.pipe, &piece.tag, piece.count);
    }
    Ok(())
}

fn judge_counted(stand: &Stand, told: &Counted, piece: &CountedPiece) -> Result<(), Trouble> {
    count_of(piece.count, "pieces of one tag")?;
    if let Some(length) = piece.length {
        believed(length, "a piece of the count")?;
    }
    match stand.rack.get(&piece.tag) {
        Some(known) if known.pipe != told.pipe => Err(Trouble::refusal(
            format!("{} is of another pipe", piece.tag.tag),
            "count it with its own pipe",
        )),
        None if piece.length.is_none() => Err(Trouble::refusal(
            format!("nothing was told of {} before", piece.tag.tag),
            "measure it and tell its length: TAG=LENGTH",
        )),
        _ => Ok(()),
    }
}

/// So many lie: what is more was found, what is less is lost.
fn recount(stand: &mut Stand, pipe: &PipeKey, id: &RemnantId, count: u32) {
    let Some(remnant) = stand.rack.get_mut(id) else {
        return;
    };
    let more = remnant.length * (i64::from(count) - i64::from(remnant.count));
    if count == 0 {
        let all = remnant.count;
        remnant.take("", all, "not there at a count of the rack");
    } else {
        remnant.count = count;
        remnant.gone.clear();
        remnant.keep_no_more_than_lies();
    }
    stand.shift(pipe, Account::Found, Account::OnSite, more);
}
