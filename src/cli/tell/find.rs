//! What a typed word names: a piece, a tag, a gate, a line, a pipe.

use super::wish::{Slip, count};
use crate::measure::parse_count;
use crate::order::PieceId;
use crate::order::{PipeKey, RemnantId, suggestion};
use crate::yard::{GateCopy, LineStand, PieceStand, Stand, WeekStand};

/// Pieces that a mark names, by their names in order.
fn named<'a>(week: &'a WeekStand, text: &str) -> Vec<(&'a PieceId, &'a PieceStand)> {
    let painted = week.pieces.iter();
    let painted = painted.filter(|(_, p)| p.mark.eq_ignore_ascii_case(text));
    painted.collect()
}

/// The piece of that mark: of several alike the first that `fit` says may be meant, else the first of all.
pub(super) fn piece(
    week: &WeekStand,
    text: &str,
    fit: impl Fn(&PieceStand) -> bool,
) -> Result<PieceId, Slip> {
    let text = text.trim();
    let mine = named(week, text);
    if let Some((id, _)) = mine.iter().find(|(_, p)| fit(p)).or(mine.first()) {
        return Ok((*id).clone());
    }
    // The part's own mark where the gate has several copies.
    let parts = week
        .pieces
        .iter()
        .filter(|(id, _)| id.mark.eq_ignore_ascii_case(text));
    let mut marks: Vec<&str> = parts.map(|(_, p)| p.mark.as_str()).collect();
    marks.dedup();
    if !marks.is_empty() {
        return Err(Slip::new(
            "piece",
            text,
            format!("{text} is not the mark of one piece"),
            format!("write which: {}", marks.join(", ")),
        ));
    }
    let all = week.pieces.values().map(|p| p.mark.as_str());
    Err(unknown("piece", text, "no piece has this mark", all))
}

/// The spliced line of that mark, and which splice where `/n` stands behind it.
pub(super) fn spliced(week: &WeekStand, text: &str) -> Result<(PieceId, Option<u32>), Slip> {
    let text = text.trim();
    let (mark, splice) = match text.rsplit_once('/') {
        Some((mark, n)) => (mark, Some(count("piece", n)?)),
        None => (text, None),
    };
    let marks: Vec<(String, &PieceId)> = week
        .splices
        .keys()
        .map(|line| (line_mark(week, line), line))
        .collect();
    if let Some((_, line)) = marks.iter().find(|(m, _)| m.eq_ignore_ascii_case(mark)) {
        return Ok(((*line).clone(), splice));
    }
    let all = marks.iter().map(|(m, _)| m.as_str());
    Err(unknown("piece", text, "no spliced line has this mark", all))
}

/// The mark of a spliced line: its pieces', without the piece.
pub(super) fn line_mark(week: &WeekStand, line: &PieceId) -> String {
    let first = PieceId {
        piece: Some(1),
        ..line.clone()
    };
    let painted = week.pieces.get(&first).map(|p| p.mark.as_str());
    let bare = painted.and_then(|m| m.rsplit_once('/')).map(|(m, _)| m);
    bare.unwrap_or(&line.mark).to_owned()
}

/// Which of a joint's pieces, 1.., a mark or a number names; of several alike the `nth`, from 0.
pub(super) fn on_joint(week: &WeekStand, joint: u32, text: &str, nth: usize) -> Result<u32, Slip> {
    let Some(known) = week.joints.get(&joint) else {
        return Err(no_joint(week, &joint.to_string()));
    };
    let marks: Vec<&str> = known
        .pieces
        .iter()
        .map(|p| week.pieces.get(&p.id).map_or("", |p| p.mark.as_str()))
        .collect();
    let mut mine = (1u32..)
        .zip(&marks)
        .filter(|(_, m)| m.eq_ignore_ascii_case(text));
    if let Some((at, _)) = mine.nth(nth) {
        return Ok(at);
    }
    if marks.iter().any(|m| m.eq_ignore_ascii_case(text)) {
        return Err(Slip::new(
            "piece",
            text,
            format!("joint {joint} has not so many {text}"),
            format!("its pieces are {}", marks.join(", ")),
        ));
    }
    match parse_count(text) {
        Ok(at) if usize::try_from(at).is_ok_and(|at| (1..=marks.len()).contains(&at)) => Ok(at),
        _ => Err(Slip::new(
            "piece",
            text,
            format!("joint {joint} has no such piece"),
            format!("its pieces are 1 to {}: {}", marks.len(), marks.join(", ")),
        )),
    }
}

pub(super) fn no_joint(week: &WeekStand, text: &str) -> Slip {
    let (first, last) = (week.joints.keys().next(), week.joints.keys().next_back());
    let mend = match (first, last) {
        (Some(first), Some(last)) => format!("its joints are {first} to {last}"),
        _ => "its plan cuts nothing".to_owned(),
    };
    Slip::new("joint", text, format!("the week has no joint {text}"), mend)
}

/// The remnant under a painted tag: `K3`, or `week-1/K3` where two weeks painted it.
pub(super) fn remnant(stand: &Stand, text: &str) -> Result<RemnantId, Slip> {
    let text = text.trim();
    if let Some((week, tag)) = text.split_once('/') {
        let id = stand
            .rack
            .keys()
            .find(|id| id.week.eq_ignore_ascii_case(week) && id.tag.eq_ignore_ascii_case(tag));
        if let Some(id) = id {
            return Ok(id.clone());
        }
    }
    let lie = stand.tagged(text);
    match lie.as_slice() {
        [one] => return Ok((*one).clone()),
        [] => {}
        several => {
            let names: Vec<String> = several.iter().map(ToString::to_string).collect();
            return Err(Slip::new(
                "tag",
                text,
                format!("{text} lies on the rack more than once"),
                format!("write which: {}", names.join(", ")),
            ));
        }
    }
    // One that is gone is still known: what is told of it may be a question.
    let gone = stand.rack.keys().rev();
    if let Some(id) = gone
        .into_iter()
        .find(|id| id.tag.eq_ignore_ascii_case(text))
    {
        return Ok(id.clone());
    }
    let all = stand.rack.iter().filter(|(_, r)| r.count > 0);
    let all = all.map(|(id, _)| id.tag.as_str());
    Err(unknown(
        "tag",
        text,
        "nothing on the rack has this tag",
        all,
    ))
}

/// A gate and its copy: `A1`, or `A1.2` where there are several.
pub(super) fn gate(week: &WeekStand, text: &str) -> Result<GateCopy, Slip> {
    let text = text.trim();
    let whole = |mark: &str| {
        let known = week.gates.iter();
        let mut known = known.filter(|(m, _)| m.eq_ignore_ascii_case(mark));
        known.next().map(|(m, g)| (m.clone(), g.copies.len()))
    };
    if let Some((mark, copies)) = whole(text) {
        if copies <= 1 {
            return Ok(GateCopy { mark, copy: 1 });
        }
        let names: Vec<String> = (1..=copies).map(|n| format!("{mark}.{n}")).collect();
        return Err(Slip::new(
            "piece",
            text,
            format!("{mark} is {copies} gates"),
            format!("write which: {}", names.join(", ")),
        ));
    }
    if let Some((mark, copy)) = text.rsplit_once('.')
        && let (Some((mark, copies)), Ok(copy)) = (whole(mark), parse_count(copy))
    {
        if usize::try_from(copy).is_ok_and(|n| (1..=copies).contains(&n)) {
            return Ok(GateCopy { mark, copy });
        }
        return Err(Slip::new(
            "piece",
            text,
            format!("{mark} has no copy {copy}"),
            format!("there are {copies} of it"),
        ));
    }
    let all = week.gates.keys().map(String::as_str);
    Err(unknown("piece", text, "no gate has this mark", all))
}

/// The mark of a gate order, every copy of it meant.
pub(super) fn order_mark(week: &WeekStand, text: &str) -> Option<String> {
    let mut known = week.gates.keys();
    known.find(|m| m.eq_ignore_ascii_case(text.trim())).cloned()
}

/// A line by its number.
pub(super) fn line<'a>(
    week: &'a WeekStand,
    text: Option<&str>,
    what: &str,
) -> Result<(u32, &'a LineStand), Slip> {
    let listed = || {
        let lines = week.lines.iter();
        let lines = lines.map(|(n, l)| format!("{n} ({} joints from {})", l.wanted, l.supplier));
        lines.collect::<Vec<_>>().join(", ")
    };
    let Some(text) = text else {
        return Err(Slip::new(
            "line",
            "",
            format!("which line of the order is {what}?"),
            format!("write --line N; its lines are {}", listed()),
        ));
    };
    let number = count("line", text.trim().trim_start_matches("line").trim())?;
    let found = week.lines.get(&number).map(|l| (number, l));
    found.ok_or_else(|| {
        Slip::new(
            "line",
            text,
            format!("the plan has no line {number}"),
            format!("its lines are {}", listed()),
        )
    })
}

/// A pipe by its trade name or its key.
pub(super) fn pipe(stand: &Stand, text: Option<&str>) -> Result<PipeKey, Slip> {
    let text = text.unwrap_or_default().trim();
    let same = stand.pipes.iter();
    let same: Vec<&PipeKey> = same
        .filter(|(k, p)| p.name.eq_ignore_ascii_case(text) || k.0 == text)
        .map(|(k, _)| k)
        .collect();
    match same.as_slice() {
        [one] => Ok((*one).clone()),
        [] => {
            let all = stand.pipes.values().map(|p| p.name.as_str());
            Err(unknown("pipe", text, "no pipe has this name", all))
        }
        several => {
            let keys: Vec<String> = several.iter().map(ToString::to_string).collect();
            Err(Slip::new(
                "pipe",
                text,
                format!("{text} is the name of more than one pipe"),
                format!("write which: {}", keys.join("; ")),
            ))
        }
    }
}

fn unknown<'a>(
    column: &str,
    text: &str,
    what: &str,
    all: impl IntoIterator<Item = &'a str>,
) -> Slip {
    let mut all: Vec<&str> = all.into_iter().collect();
    all.dedup();
    let mend = match suggestion(text, all.iter().copied()) {
        long if long.len() > 200 => "longpoint stand lists what there is".to_owned(),
        short => short,
    };
    Slip::new(column, text, what, mend)
}
