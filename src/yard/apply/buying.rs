//! Ordered, delivered, short, bent, sent back, promised, cancelled, returned.

use super::super::{
    Account, Bent, Cancelled, Comes, Delivered, LineStand, Ordered, Promised, SentBack, Short,
    Stand, Trouble,
};
use super::{believed, counted, week, week_mut};
use crate::measure::{Length, Money};
use crate::order::PipeKey;

/// A line of a week, by number.
fn line<'a>(stand: &'a Stand, name: &str, number: u32) -> Result<&'a LineStand, Trouble> {
    let lines = &week(stand, name)?.lines;
    lines.get(&number).ok_or_else(|| {
        let known: Vec<String> = lines.keys().map(u32::to_string).collect();
        let mend = if known.is_empty() {
            "its plan buys nothing".to_owned()
        } else {
            format!("its lines are {}", known.join(", "))
        };
        Trouble::refusal(format!("{name} has no line {number}"), mend)
    })
}

/// The same to be changed; asked for by [`line`] before.
fn line_mut<'a>(
    stand: &'a mut Stand,
    name: &str,
    number: u32,
) -> Result<&'a mut LineStand, Trouble> {
    let lines = &mut week_mut(stand, name)?.lines;
    lines
        .get_mut(&number)
        .ok_or_else(|| Trouble::refusal(format!("{name} has no line {number}"), "name another"))
}

pub(super) fn ordered(stand: &mut Stand, name: &str, told: &Ordered) -> Result<(), Trouble> {
    if told.lines.is_empty() {
        return Err(Trouble::refusal(
            "an order without a line",
            "name what was ordered",
        ));
    }
    let mut money = told.fees.unwrap_or_default();
    for (at, row) in told.lines.iter().enumerate() {
        let known = line(stand, name, row.line)?;
        counted(row.joints, "joints ordered")?;
        if told.lines[..at].iter().any(|l| l.line == row.line) {
            return Err(Trouble::refusal(
                format!("line {} stands twice in one order", row.line),
                "write it once",
            ));
        }
        let most = known.wanted.saturating_mul(10).saturating_add(1000);
        if known.ordered.saturating_add(row.joints) > most {
            return Err(Trouble::question(
                format!(
                    "line {}: {} joints ordered already and {} more, where the plan wants {}",
                    row.line, known.ordered, row.joints, known.wanted
                ),
                "check the count",
            ));
        }
        money = add(money, row.money)?;
    }
    let total = add(week(stand, name)?.paid, Some(money))?;
    for row in &told.lines {
        let line = line_mut(stand, name, row.line)?;
        line.ordered += row.joints;
        if told.promised.is_some() {
            line.promised = told.promised;
        }
    }
    week_mut(stand, name)?.paid = total;
    Ok(())
}

fn add(sum: Money, more: Option<Money>) -> Result<Money, Trouble> {
    let more = more.unwrap_or_default();
    let sum = sum.0.checked_add(more.0).map(Money);
    sum.filter(|s| s.millicents().is_some())
        .ok_or_else(|| Trouble::refusal("more money than can be counted", "check the amount"))
}

pub(super) fn delivered(stand: &mut Stand, name: &str, told: &Delivered) -> Result<(), Trouble> {
    let known = line(stand, name, told.line)?;
    counted(told.joints, "joints delivered")?;
    let measured = u32::try_from(told.lengths.len()).unwrap_or(u32::MAX);
    if measured != 0 && measured != told.joints {
        return Err(Trouble::refusal(
            format!(
                "{} joints came and {measured} lengths are told",
                told.joints
            ),
            "tell the length of each, or of none",
        ));
    }
    for length in &told.lengths {
        believed(*length, "a joint")?;
    }
    if told.joints > known.may_come() {
        return Err(Trouble::question(
            format!(
                "line {}: {} joints came, and {} are still to come",
                told.line,
                told.joints,
                known.may_come()
            ),
            "check the line and the count; tell `ordered` first where more were ordered",
        ));
    }
    let (pipe, planning) = (known.pipe.clone(), known.planning);
    let lengths = if told.lengths.is_empty() {
        vec![(planning, told.joints)]
    } else {
        told.lengths.iter().map(|l| (*l, 1)).collect()
    };
    let line = line_mut(stand, name, told.line)?;
    line.came += told.joints;
    line.ordered = line.ordered.max(line.came + line.dropped);
    for (length, count) in &lengths {
        line.put(*length, *count);
    }
    for (length, count) in lengths {
        let all = length * i64::from(count);
        stand.shift(&pipe, Account::Mill, Account::OnSite, all);
    }
    Ok(())
}

pub(super) fn short(stand: &mut Stand, name: &str, told: &Short) -> Result<(), Trouble> {
    let known = line(stand, name, told.line)?;
    counted(told.joints, "joints short")?;
    if told.joints > known.may_come() {
        return Err(still_to_come(told.line, told.joints, known));
    }
    let back = money_back(stand, name, &told.comes)?;
    let line = line_mut(stand, name, told.line)?;
    // What is short was ordered, whether that was told or not.
    line.ordered = line.ordered.max(line.came + line.dropped + told.joints);
    not_here(line, told.joints, &told.comes);
    week_mut(stand, name)?.back = back;
    Ok(())
}

fn still_to_come(number: u32, joints: u32, line: &LineStand) -> Trouble {
    Trouble::question(
        format!(
            "line {number}: {joints} joints do not come, and {} are still to come",
            line.may_come()
        ),
        "check the line and the count",
    )
}

fn not_here(line: &mut LineStand, joints: u32, comes: &Comes) {
    match comes {
        Comes::Later(None) => {}
        Comes::Later(day) => line.promised = *day,
        Comes::Not(_) => line.dropped += joints,
    }
}

/// Money back of the week with what this says.
fn money_back(stand: &Stand, name: &str, comes: &Comes) -> Result<Money, Trouble> {
    let back = week(stand, name)?.back;
    match comes {
        Comes::Later(_) => Ok(back),
        Comes::Not(money) => add(back, *money),
    }
}

/// Lengths of so many joints of the line that lie, or the question why not.
fn lying(line: &LineStand, number: u32, joints: u32) -> Result<Vec<(Length, u32)>, Trouble> {
    line.some(joints).ok_or_else(|| {
        Trouble::question(
            format!(
                "line {number}: {joints} joints, and {} lie whole",
                line.lie()
            ),
            format!("tell what came first: delivered N --line {number}"),
        )
    })
}

pub(super) fn bent(stand: &mut Stand, name: &str, told: &Bent) -> Result<(), Trouble> {
    let known = line(stand, name, told.line)?;
    counted(told.joints, "joints bent")?;
    if told.left != Length::ZERO {
        believed(told.left, "what is left of a bent joint")?;
    }
    let some = lying(known, told.line, told.joints)?;
    if let Some((whole, _)) = some.iter().find(|(whole, _)| *whole < told.left) {
        return Err(Trouble::refusal(
            format!("{} is left of a joint of {whole}", told.left),
            "write what can still be used",
        ));
    }
    let pipe = known.pipe.clone();
    let line = line_mut(stand, name, told.line)?;
    for (length, count) in &some {
        line.pick(*length, *count);
        if told.left > Length::ZERO {
            line.put(told.left, *count);
        }
    }
    for (length, count) in some {
        let gone = (length - told.left) * i64::from(count);
        stand.shift(&pipe, Account::OnSite, Account::Scrap, gone);
    }
    Ok(())
}

/// Takes whole joints of a line off the site, back to the mill.
fn back_to_mill(
    stand: &mut Stand,
    name: &str,
    number: u32,
    some: Vec<(Length, u32)>,
    pipe: &PipeKey,
) -> Result<(), Trouble> {
    let line = line_mut(stand, name, number)?;
    for (length, count) in &some {
        line.pick(*length, *count);
    }
    for (length, count) in some {
        let all = length * i64::from(count);
        stand.shift(pipe, Account::OnSite, Account::Mill, all);
    }
    Ok(())
}

pub(super) fn sent_back(stand: &mut Stand, name: &str, told: &SentBack) -> Result<(), Trouble> {
    let known = line(stand, name, told.line)?;
    counted(told.joints, "joints refused")?;
    let some = lying(known, told.line, told.joints.min(known.came.max(1)))?;
    if told.joints > known.came {
        return Err(Trouble::question(
            format!("line {}: {} came in all", told.line, known.came),
            "check the line and the count",
        ));
    }
    let pipe = known.pipe.clone();
    let back = money_back(stand, name, &told.comes)?;
    back_to_mill(stand, name, told.line, some, &pipe)?;
    let line = line_mut(stand, name, told.line)?;
    line.came -= told.joints;
    not_here(line, told.joints, &told.comes);
    week_mut(stand, name)?.back = back;
    Ok(())
}

pub(super) fn promised(stand: &mut Stand, name: &str, told: &Promised) -> Result<(), Trouble> {
    if told.lines.is_empty() {
        return Err(Trouble::refusal("a day for no line", "name the lines"));
    }
    for number in &told.lines {
        if line(stand, name, *number)?.may_come() == 0 {
            return Err(Trouble::question(
                format!("line {number}: nothing of it is still to come"),
                "check the line",
            ));
        }
    }
    for number in &told.lines {
        line_mut(stand, name, *number)?.promised = Some(told.day);
    }
    Ok(())
}

pub(super) fn cancelled(stand: &mut Stand, name: &str, told: &Cancelled) -> Result<(), Trouble> {
    let known = line(stand, name, told.line)?;
    counted(told.joints, "joints cancelled")?;
    if told.joints > known.on_order() {
        return Err(Trouble::question(
            format!(
                "line {}: {} joints are cancelled, and {} are on order",
                told.line,
                told.joints,
                known.on_order()
            ),
            "check the line and the count",
        ));
    }
    let back = add(week(stand, name)?.back, told.money)?;
    line_mut(stand, name, told.line)?.dropped += told.joints;
    week_mut(stand, name)?.back = back;
    Ok(())
}

pub(super) fn returned(stand: &mut Stand, name: &str, told: &Cancelled) -> Result<(), Trouble> {
    let known = line(stand, name, told.line)?;
    counted(told.joints, "joints returned")?;
    let some = lying(known, told.line, told.joints)?;
    let pipe = known.pipe.clone();
    let back = add(week(stand, name)?.back, told.money)?;
    back_to_mill(stand, name, told.line, some, &pipe)?;
    week_mut(stand, name)?.back = back;
    Ok(())
}
