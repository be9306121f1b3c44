//! Which pipe a joint was cut from, where only its number was told.

use super::super::{JointStand, Source, Stand, Trouble};
use crate::measure::Length;
use crate::order::RemnantId;

/// Pipe that lies, to be begun.
pub(super) enum Lying {
    /// A whole joint of that week, line and length.
    Whole(String, u32, Length),
    /// A remnant.
    Remnant(RemnantId, Length),
}

impl Lying {
    pub(super) fn length(&self) -> Length {
        match self {
            Lying::Whole(_, _, length) | Lying::Remnant(_, length) => *length,
        }
    }
}

/// The pipe that joint `number` of week `name` was cut from.
///
/// Pipe of one key is one pipe: where the planned line has none that is long enough, another line of
/// the week with the same pipe serves, then another week's. Of several, one as long as planned, else the shortest that is
/// long enough.
pub(super) fn find_pipe(
    stand: &Stand,
    name: &str,
    number: u32,
    joint: &JointStand,
) -> Result<Lying, Trouble> {
    match &joint.source {
        Source::Remnant(id) => remnant(stand, number, joint, id),
        Source::Line(line) => {
            let found = whole(stand, name, joint, Some(*line))
                .or_else(|| whole(stand, name, joint, None))
                .or_else(|| {
                    let others = stand.weeks.keys().filter(|other| *other != name);
                    others
                        .filter_map(|other| whole(stand, other, joint, None))
                        .next()
                });
            found.ok_or_else(|| nothing_lies(stand, name, number, *line, joint))
        }
    }
}

fn whole(stand: &Stand, name: &str, joint: &JointStand, line: Option<u32>) -> Option<Lying> {
    let least = joint.least();
    let lines = stand.weeks.get(name)?.lines.iter();
    let mine = lines.filter(|(n, l)| line.is_none_or(|only| only == **n) && l.pipe == joint.pipe);
    let lying = mine.flat_map(|(n, l)| l.lying.keys().map(|length| (*n, *length)));
    let long = lying.filter(|(_, length)| *length >= least);
    let best = long.min_by_key(|(n, length)| (*length != joint.length, *length, *n))?;
    Some(Lying::Whole(name.to_owned(), best.0, best.1))
}

fn remnant(
    stand: &Stand,
    number: u32,
    joint: &JointStand,
    id: &RemnantId,
) -> Result<Lying, Trouble> {
    let what = match stand.rack.get(id) {
        Some(found) if found.count > 0 && found.length >= joint.least() => {
            return Ok(Lying::Remnant(id.clone(), found.length));
        }
        Some(found) if found.count > 0 => format!(
            "joint {number} is cut from {}, which is {} long, and needs {}",
            id.tag,
            found.length,
            joint.least()
        ),
        Some(found) => format!(
            "joint {number} is cut from {}, which is not on the rack any more ({})",
            id.tag, found.gone
        ),
        None => format!(
            "joint {number} is cut from {}, which never lay here",
            id.tag
        ),
    };
    Err(Trouble::question(
        what,
        "tell where the pipe came from, or undo what took it away",
    ))
}

fn nothing_lies(stand: &Stand, name: &str, number: u32, line: u32, joint: &JointStand) -> Trouble {
    let known = stand.weeks.get(name).and_then(|w| w.lines.get(&line));
    let (came, lie) = known.map_or((0, 0), |l| (l.came, l.lie()));
    let what = if lie > 0 {
        format!(
            "joint {number} needs {} of pipe, and the {lie} of line {line} that lie are shorter",
            joint.least()
        )
    } else {
        format!("joint {number} is cut from line {line}, of which nothing lies ({came} came)")
    };
    Trouble::question(
        what,
        format!("tell what came first: delivered N --line {line}"),
    )
}
