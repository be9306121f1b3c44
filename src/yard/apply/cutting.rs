//! `cut`: pieces off a joint, kerf by kerf, and its drop.

use super::super::{
    Account, Cut, JointStand, PieceStand, PieceState, Remnant, Stand, Tally, Trouble, WeekStand,
};
use super::find_pipe::{Lying, find_pipe};
use super::{believed, week};
use crate::measure::Length;
use crate::order::PieceId;
use crate::order::{PipeKey, RemnantId};

/// Measured pieces may come to so much more than lies before it is asked about: they then tell that
/// the joint was longer than planned.
const LONGER: Length = Length::INCH;

/// One piece off the saw.
struct Off {
    id: PieceId,
    length: Length,
    kerf: Length,
    doubt: bool,
}

/// What a cut comes to.
struct Worked {
    /// Pipe that is begun by it.
    begun: Option<Lying>,
    /// What the measured length of that pipe adds.
    longer: Length,
    near: Length,
    off: Vec<Off>,
    /// What measured pieces or a measured floor add.
    difference: Length,
    /// The last piece is off: what lies on the floor.
    floor: Option<Length>,
    /// Its tag where it is kept.
    keep: Option<RemnantId>,
}

pub(super) fn cut(stand: &mut Stand, name: &str, told: &Cut) -> Result<(), Trouble> {
    let known = week(stand, name)?;
    let joint = known
        .joints
        .get(&told.joint)
        .ok_or_else(|| no_joint(known, name, told.joint))?;
    let to = reach(joint, told)?;
    let worked = work_out(stand, name, known, joint, (told, to))?;
    carry_out(stand, name, told.joint, to, worked);
    Ok(())
}

fn no_joint(week: &WeekStand, name: &str, number: u32) -> Trouble {
    let (first, last) = (week.joints.keys().next(), week.joints.keys().next_back());
    let mend = match (first, last) {
        (Some(first), Some(last)) => format!("its joints are {first} to {last}"),
        _ => "its plan cuts nothing".to_owned(),
    };
    Trouble::refusal(format!("{name} has no joint {number}"), mend)
}

/// How many of its pieces are off after this.
fn reach(joint: &JointStand, told: &Cut) -> Result<usize, Trouble> {
    let all = joint.pieces.len();
    let to = told
        .to
        .map_or(all, |n| usize::try_from(n).unwrap_or(usize::MAX));
    if to == 0 || to > all {
        return Err(Trouble::refusal(
            format!("joint {} has no piece {to}", told.joint),
            format!("its pieces are 1 to {all}"),
        ));
    }
    if joint.over || to <= joint.cut {
        let how = if joint.cut == all {
            "is told cut already".to_owned()
        } else if joint.over {
            format!("ended after piece {}", joint.cut)
        } else {
            format!("is told cut up to piece {} already", joint.cut)
        };
        return Err(Trouble::question(
            format!("joint {} {how}", told.joint),
            "check the number; what is true of both, a foreman can say",
        ));
    }
    for (at, length) in &told.lengths {
        let at = usize::try_from(*at).unwrap_or(usize::MAX);
        if at <= joint.cut || at > to {
            return Err(Trouble::refusal(
                format!("joint {}: a length for piece {at}", told.joint),
                format!("this cut takes off pieces {} to {to}", joint.cut + 1),
            ));
        }
        believed(*length, "a piece")?;
    }
    if told.taken.is_some() && joint.cut > 0 {
        return Err(Trouble::refusal(
            format!("joint {} is begun already", told.joint),
            "tell the length of what is left of it: measured --joint",
        ));
    }
    if told.floor.is_some() && to < all {
        return Err(Trouble::refusal(
            format!("joint {} is not cut to its end", told.joint),
            "tell what lies on the floor with the last piece",
        ));
    }
    Ok(to)
}

fn work_out(
    stand: &Stand,
    name: &str,
    known: &WeekStand,
    joint: &JointStand,
    (told, to): (&Cut, usize),
) -> Result<Worked, Trouble> {
    let mut worked = Worked {
        begun: None,
        longer: Length::ZERO,
        near: Length::ZERO,
        off: Vec::new(),
        difference: Length::ZERO,
        floor: None,
        keep: None,
    };
    let mut rest = joint.tally.rest;
    if joint.cut == 0 {
        let lying = find_pipe(stand, name, told.joint, joint)?;
        if let Some(taken) = told.taken {
            believed(taken, "the joint that was taken")?;
            worked.longer = taken - lying.length();
        }
        rest = lying.length() + worked.longer;
        worked.near = joint.near.min(rest);
        rest -= worked.near;
        worked.begun = Some(lying);
    }
    for at in joint.cut..to {
        take_off(&mut worked, &mut rest, known, joint, (told, at))?;
    }
    if to == joint.pieces.len() {
        if let Some(floor) = told.floor {
            if floor != Length::ZERO {
                believed(floor, "what lies on the floor")?;
            }
            worked.difference += floor - rest;
            rest = floor;
        }
        worked.floor = Some(rest);
        worked.keep = kept(stand, name, known.keep, joint, (told.joint, rest));
    }
    Ok(worked)
}

/// One piece off what is left of the joint, and the kerf behind it.
fn take_off(
    worked: &mut Worked,
    rest: &mut Length,
    week: &WeekStand,
    joint: &JointStand,
    (told, at): (&Cut, usize),
) -> Result<(), Trouble> {
    let piece = &joint.pieces[at];
    let known = week.pieces.get(&piece.id);
    let mark = known.map_or_else(|| piece.id.to_string(), |p| p.mark.clone());
    if known.is_none_or(PieceStand::made) {
        return Err(Trouble::question(
            format!("joint {}: {mark} is made already", told.joint),
            "check the number, or undo the other cut",
        ));
    }
    let measured = told.lengths.iter();
    let measured = measured
        .clone()
        .find(|(n, _)| usize::try_from(*n) == Ok(at + 1));
    let length = measured.map_or(piece.saw, |(_, length)| *length);
    if length > *rest {
        if measured.is_none() || length - *rest > LONGER {
            return Err(Trouble::question(
                format!(
                    "joint {}: {rest} is left of it, and {mark} is {length}",
                    told.joint
                ),
                "measure what is left, or check the joint's number",
            ));
        }
        worked.difference += length - *rest;
        *rest = length;
    }
    *rest -= length;
    let kerf = piece.kerf.min(*rest);
    *rest -= kerf;
    let off = (length - piece.saw).max(piece.saw - length);
    worked.off.push(Off {
        id: piece.id.clone(),
        length,
        kerf,
        doubt: off > week.tolerance,
    });
    Ok(())
}

/// The tag of what lies on the floor: the plan's, or one of the joint's own number where another pipe than planned left much
/// more.
fn kept(
    stand: &Stand,
    name: &str,
    keep: Length,
    joint: &JointStand,
    (number, floor): (u32, Length),
) -> Option<RemnantId> {
    if floor <= Length::ZERO {
        return None;
    }
    let tag = match &joint.keep {
        Some(tag) => tag.clone(),
        None if floor >= joint.floor + keep => format!("J{number}"),
        None => return None,
    };
    Some(super::rack::free_id(stand, name, &tag))
}

fn carry_out(stand: &mut Stand, name: &str, number: u32, to: usize, worked: Worked) {
    // All of it is known to be there: `work_out` asked.
    let Some(joint) = stand.weeks.get(name).and_then(|w| w.joints.get(&number)) else {
        return;
    };
    let (pipe, far, void) = (joint.pipe.clone(), joint.far, joint.void);
    let mut tally = joint.tally;
    if let Some(lying) = &worked.begun {
        begin(stand, name, number, lying);
        let length = lying.length();
        stand.shift(&pipe, Account::OnSite, Account::AtSaw, length);
        tally.taken = length;
        tally.rest = length;
    }
    saw(stand, &pipe, &mut tally, &worked);
    if let Some(floor) = worked.floor {
        tally.rest -= floor;
        match worked.keep {
            Some(id) => {
                stand.shift(&pipe, Account::AtSaw, Account::OnSite, floor);
                tally.drops += floor;
                let words = format!("joint {number} of {name}");
                stand.rack.insert(id, Remnant::cut(pipe, floor, far, words));
            }
            None => {
                stand.shift(&pipe, Account::AtSaw, Account::Scrap, floor);
                tally.scrap += floor;
            }
        }
    }
    let Some(week) = stand.weeks.get_mut(name) else {
        return;
    };
    for off in worked.off {
        if let Some(piece) = week.pieces.get_mut(&off.id) {
            piece.state = PieceState::Made {
                length: off.length,
                joint: number,
                doubt: off.doubt,
                coped: false,
            };
        }
    }
    if void {
        week.replan
            .insert(format!("joint {number} was cut by an old sheet"));
    }
    if let Some(joint) = week.joints.get_mut(&number) {
        joint.cut = to;
        joint.over = worked.floor.is_some();
        joint.tally = tally;
    }
}

/// The pipe that is begun lies no more.
fn begin(stand: &mut Stand, name: &str, number: u32, lying: &Lying) {
    match lying {
        Lying::Whole(week, line, length) => {
            let week = stand.weeks.get_mut(week);
            if let Some(line) = week.and_then(|w| w.lines.get_mut(line)) {
                line.pick(*length, 1);
            }
        }
        Lying::Remnant(id, _) => {
            if let Some(remnant) = stand.rack.get_mut(id) {
                remnant.take(name, 1, &format!("cut as joint {number} of {name}"));
            }
        }
    }
}

/// Trim, pieces and kerfs leave what is at the saw; measuring adds to it or takes from it.
fn saw(stand: &mut Stand, pipe: &PipeKey, tally: &mut Tally, worked: &Worked) {
    let added = worked.longer + worked.difference;
    stand.shift(pipe, Account::Difference, Account::AtSaw, added);
    tally.difference += added;
    tally.rest += added;
    stand.shift(pipe, Account::AtSaw, Account::Trim, worked.near);
    tally.trim += worked.near;
    tally.rest -= worked.near;
    for off in &worked.off {
        stand.shift(pipe, Account::AtSaw, Account::Pieces, off.length);
        stand.shift(pipe, Account::AtSaw, Account::Kerf, off.kerf);
        tally.pieces += off.length;
        tally.kerf += off.kerf;
        tally.rest -= off.length + off.kerf;
    }
}
