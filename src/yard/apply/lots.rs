//! Scrapped, reserved, freed.

use super::super::{Account, Lot, Reserved, Scrapped, Stand, Trouble};
use super::rack::{joint, lying};
use super::{counted as count_of, week};
use crate::measure::Length;

pub(super) fn scrapped(stand: &mut Stand, name: &str, told: &Scrapped) -> Result<(), Trouble> {
    match told {
        Scrapped::Lot(Lot::Remnant { tag, count }) => {
            count_of(*count, "pieces scrapped")?;
            let found = lying(stand, tag)?;
            if *count > found.count {
                return Err(Trouble::question(
                    format!(
                        "{count} of {} are scrapped, and {} lie",
                        tag.tag, found.count
                    ),
                    "check the count",
                ));
            }
            let (pipe, all) = (found.pipe.clone(), found.length * i64::from(*count));
            stand.shift(&pipe, Account::OnSite, Account::Scrap, all);
            if let Some(found) = stand.rack.get_mut(tag) {
                found.take(name, *count, "scrapped");
            }
        }
        Scrapped::Lot(Lot::Whole { line, count }) => scrap_whole(stand, name, *line, *count)?,
        Scrapped::Joint(number) => {
            let joint = joint(stand, name, *number)?;
            if !joint.begun() {
                return Err(Trouble::question(
                    format!("joint {number} is not begun"),
                    "scrap a whole joint by its line, a remnant by its tag",
                ));
            }
            let (pipe, rest) = (joint.pipe.clone(), joint.tally.rest);
            stand.shift(&pipe, Account::AtSaw, Account::Scrap, rest);
            let week = stand.weeks.get_mut(name);
            if let Some(joint) = week.and_then(|w| w.joints.get_mut(number)) {
                joint.tally.rest = Length::ZERO;
                joint.tally.scrap += rest;
                joint.over = true;
            }
        }
    }
    Ok(())
}

fn scrap_whole(stand: &mut Stand, name: &str, number: u32, count: u32) -> Result<(), Trouble> {
    count_of(count, "joints scrapped")?;
    let known = week(stand, name)?.lines.get(&number);
    let known = known.ok_or_else(|| {
        Trouble::refusal(format!("{name} has no line {number}"), "check its number")
    })?;
    let Some(some) = known.some(count) else {
        return Err(Trouble::question(
            format!(
                "line {number}: {count} joints, and {} lie whole",
                known.lie()
            ),
            format!("tell what came first: delivered N --line {number}"),
        ));
    };
    let pipe = known.pipe.clone();
    for (length, n) in some {
        let line = stand
            .weeks
            .get_mut(name)
            .and_then(|w| w.lines.get_mut(&number));
        if let Some(line) = line {
            line.pick(length, n);
        }
        let all = length * i64::from(n);
        stand.shift(&pipe, Account::OnSite, Account::Scrap, all);
    }
    Ok(())
}

pub(super) fn reserved(stand: &mut Stand, name: &str, told: &Reserved) -> Result<(), Trouble> {
    week(stand, name)?;
    match &told.lot {
        Lot::Remnant { tag, count } => {
            count_of(*count, "pieces")?;
            let found = lying(stand, tag)?;
            if *count > found.free() {
                return Err(Trouble::question(
                    format!(
                        "{count} of {} are wanted, and {} are free",
                        tag.tag,
                        found.free()
                    ),
                    "free it first where another week keeps it",
                ));
            }
            if let Some(found) = stand.rack.get_mut(tag) {
                *found.reserved.entry(name.to_owned()).or_insert(0) += count;
            }
            Ok(())
        }
        Lot::Whole { line, count } => free_whole(stand, name, (*line, *count), false),
    }
}

pub(super) fn freed(stand: &mut Stand, name: &str, told: &Reserved) -> Result<(), Trouble> {
    week(stand, name)?;
    match &told.lot {
        Lot::Remnant { tag, count } => {
            count_of(*count, "pieces")?;
            let kept = lying(stand, tag)?.reserved.get(name).copied().unwrap_or(0);
            if *count > kept {
                return Err(Trouble::question(
                    format!("{count} of {} are freed, and {name} keeps {kept}", tag.tag),
                    "check the tag and the count",
                ));
            }
            if let Some(found) = stand.rack.get_mut(tag) {
                found.release(name, *count);
            }
            Ok(())
        }
        Lot::Whole { line, count } => free_whole(stand, name, (*line, *count), true),
    }
}

/// Whole joints are the week's that bought them until it frees them.
fn free_whole(
    stand: &mut Stand,
    name: &str,
    (number, count): (u32, u32),
    free: bool,
) -> Result<(), Trouble> {
    count_of(count, "joints")?;
    let line = stand
        .weeks
        .get_mut(name)
        .and_then(|w| w.lines.get_mut(&number));
    let line = line.ok_or_else(|| {
        Trouble::refusal(format!("{name} has no line {number}"), "check its number")
    })?;
    let may = if free {
        line.lie() - line.freed
    } else {
        line.freed
    };
    if count > may {
        return Err(Trouble::question(
            format!("line {number}: {count} joints, and there are {may}"),
            "check the line and the count",
        ));
    }
    line.freed = if free {
        line.freed + count
    } else {
        line.freed - count
    };
    Ok(())
}

/// A week that is over keeps nothing.
pub(super) fn free_all(stand: &mut Stand, name: &str) {
    for remnant in stand.rack.values_mut() {
        remnant.reserved.remove(name);
    }
    if let Some(week) = stand.weeks.get_mut(name) {
        for line in week.lines.values_mut() {
            line.freed = line.lie();
        }
    }
}
