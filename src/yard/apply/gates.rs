//! Welded, coped, done, shipped, changed, withdrawn, closed.

use super::super::{
    Changed, Coped, CopyStand, GateCopy, PieceState, Stand, Trouble, WeekPlan, WeekStand, Welded,
    Withdrawn,
};
use super::lots::free_all;
use super::spoil::piece;
use super::{week, week_mut};
use crate::order::PieceId;

/// Most pieces named when a gate lacks some.
const NAMED: usize = 4;

fn copy<'a>(week: &'a WeekStand, name: &str, gate: &GateCopy) -> Result<&'a CopyStand, Trouble> {
    let order = week.gates.get(&gate.mark).ok_or_else(|| {
        let known: Vec<&str> = week.gates.keys().map(String::as_str).collect();
        Trouble::refusal(
            format!("{name} has no gate {}", gate.mark),
            format!("its gates are {}", known.join(", ")),
        )
    })?;
    let at = usize::try_from(gate.copy).unwrap_or(0).checked_sub(1);
    at.and_then(|at| order.copies.get(at)).ok_or_else(|| {
        Trouble::refusal(
            format!("{} has no copy {}", gate.mark, gate.copy),
            format!("there are {} of it", order.copies.len()),
        )
    })
}

fn copy_mut<'a>(week: &'a mut WeekStand, gate: &GateCopy) -> Option<&'a mut CopyStand> {
    let at = usize::try_from(gate.copy).ok()?.checked_sub(1)?;
    week.gates.get_mut(&gate.mark)?.copies.get_mut(at)
}

/// `A1`, or `A1.2` where there are several.
fn words(week: &WeekStand, gate: &GateCopy) -> String {
    let several = week
        .gates
        .get(&gate.mark)
        .is_some_and(|g| g.copies.len() > 1);
    if several {
        format!("{}.{}", gate.mark, gate.copy)
    } else {
        gate.mark.clone()
    }
}

/// The gate has all its pieces; the question otherwise.
fn whole(week: &WeekStand, gate: &GateCopy) -> Result<(), Trouble> {
    let lacking = week.of_copy(gate).filter(|(_, p)| p.wanted && !p.counts());
    let lacking: Vec<&str> = lacking.map(|(_, p)| p.mark.as_str()).collect();
    if lacking.is_empty() {
        return Ok(());
    }
    let mut named = lacking[..lacking.len().min(NAMED)].join(", ");
    if lacking.len() > NAMED {
        named.push_str(&format!(" and {} more", lacking.len() - NAMED));
    }
    Err(Trouble::question(
        format!("{} lacks {named}", words(week, gate)),
        "tell the cuts first",
    ))
}

pub(super) fn done(stand: &mut Stand, name: &str, told: &GateCopy) -> Result<(), Trouble> {
    let known = week(stand, name)?;
    let state = copy(known, name, told)?;
    if state.done {
        return Err(Trouble::question(
            format!("{} is told done already", words(known, told)),
            "check the mark",
        ));
    }
    whole(known, told)?;
    let week = week_mut(stand, name)?;
    weld_all(week, told);
    if let Some(copy) = copy_mut(week, told) {
        copy.done = true;
    }
    Ok(())
}

/// What is done has its splices welded.
fn weld_all(week: &mut WeekStand, gate: &GateCopy) {
    let mine: Vec<PieceId> = week
        .splices
        .keys()
        .filter(|line| week.copy_of_line(line).as_ref() == Some(gate))
        .cloned()
        .collect();
    for line in mine {
        if let Some(splices) = week.splices.get_mut(&line) {
            splices.fill(true);
        }
    }
}

impl WeekStand {
    /// The copy of a gate that a spliced line belongs to.
    fn copy_of_line(&self, line: &PieceId) -> Option<GateCopy> {
        let first = PieceId {
            piece: Some(1),
            ..line.clone()
        };
        self.copy_of(&first)
    }
}

pub(super) fn shipped(stand: &mut Stand, name: &str, told: &GateCopy) -> Result<(), Trouble> {
    let known = week(stand, name)?;
    let state = copy(known, name, told)?;
    if state.shipped {
        return Err(Trouble::question(
            format!("{} is told shipped already", words(known, told)),
            "check the mark",
        ));
    }
    whole(known, told)?;
    let week = week_mut(stand, name)?;
    weld_all(week, told);
    if let Some(copy) = copy_mut(week, told) {
        copy.done = true;
        copy.shipped = true;
    }
    Ok(())
}

pub(super) fn welded(stand: &mut Stand, name: &str, told: &Welded) -> Result<(), Trouble> {
    let known = week(stand, name)?;
    let splices = known.splices.get(&told.line).ok_or_else(|| {
        Trouble::refusal(
            format!("{} has no splice", told.line),
            "the splice sheet lists the lines that have",
        )
    })?;
    let all = splices.len();
    let asked: Vec<usize> = match told.splice {
        None => (0..all).filter(|s| !splices[*s]).collect(),
        Some(n) => {
            let at = usize::try_from(n).unwrap_or(0).checked_sub(1);
            let at = at.filter(|at| *at < all).ok_or_else(|| {
                Trouble::refusal(
                    format!("{} has no splice {n}", told.line),
                    format!("its splices are 1 to {all}"),
                )
            })?;
            vec![at]
        }
    };
    if asked.is_empty() || asked.iter().any(|s| splices[*s]) {
        return Err(Trouble::question(
            format!("{} is told welded already", told.line),
            "check the mark",
        ));
    }
    for splice in &asked {
        for side in [splice + 1, splice + 2] {
            let id = PieceId {
                piece: u32::try_from(side).ok(),
                ..told.line.clone()
            };
            let one = piece(known, name, &id)?;
            if !one.counts() {
                return Err(Trouble::question(
                    format!("{} is not there to be welded", one.mark),
                    "tell the cut of its joint first",
                ));
            }
        }
    }
    if let Some(splices) = week_mut(stand, name)?.splices.get_mut(&told.line) {
        for at in asked {
            splices[at] = true;
        }
    }
    Ok(())
}

pub(super) fn coped(stand: &mut Stand, name: &str, told: &Coped) -> Result<(), Trouble> {
    let known = piece(week(stand, name)?, name, &told.piece)?;
    match known.state {
        PieceState::Missing => {
            return Err(Trouble::question(
                format!("{} is not told cut", known.mark),
                "tell the cut of its joint first",
            ));
        }
        PieceState::Made { coped: true, .. } => {
            return Err(Trouble::question(
                format!("{} is told coped already", known.mark),
                "check the mark",
            ));
        }
        PieceState::Made { .. } => {}
    }
    let piece = week_mut(stand, name)?.pieces.get_mut(&told.piece);
    if let Some(PieceState::Made { coped, .. }) = piece.map(|p| &mut p.state) {
        *coped = true;
    }
    Ok(())
}

pub(super) fn changed(stand: &mut Stand, name: &str, told: &Changed) -> Result<(), Trouble> {
    let week = week_mut(stand, name)?;
    if told.rows.is_empty() || told.rows.iter().any(|r| r.before == r.after) {
        return Err(Trouble::refusal(
            "no row of the orders changed",
            "change orders.csv first, then tell which gates changed",
        ));
    }
    for row in &told.rows {
        if let Some(gate) = week.gates.get_mut(&row.mark) {
            gate.changed = true;
        }
        week.replan
            .insert(format!("the order of {} changed", row.mark));
    }
    Ok(())
}

pub(super) fn withdrawn(stand: &mut Stand, name: &str, told: &Withdrawn) -> Result<(), Trouble> {
    let known = week(stand, name)?;
    match told {
        Withdrawn::Gate { mark, copy: one } => {
            let first = GateCopy {
                mark: mark.clone(),
                copy: one.unwrap_or(1),
            };
            copy(known, name, &first)?;
            let gone = |c: &CopyStand| c.withdrawn || c.shipped;
            let copies: Vec<&CopyStand> = match one {
                Some(_) => vec![copy(known, name, &first)?],
                None => known.gates[mark].copies.iter().collect(),
            };
            if copies.iter().all(|c| gone(c)) {
                return Err(Trouble::question(
                    format!("{mark} is told shipped or withdrawn already"),
                    "check the mark",
                ));
            }
            let week = week_mut(stand, name)?;
            let copies = week.gates.get_mut(mark).map(|g| g.copies.iter_mut());
            for (number, copy) in (1u32..).zip(copies.into_iter().flatten()) {
                if one.is_none_or(|one| one == number) && !copy.shipped {
                    copy.withdrawn = true;
                }
            }
            week.replan.insert(format!("{mark} was withdrawn"));
        }
        Withdrawn::Plan => {
            if known.current().is_none() {
                return Err(Trouble::question(
                    format!("no plan of {name} is followed any more"),
                    "issue one first",
                ));
            }
            let week = week_mut(stand, name)?;
            week.plans.iter_mut().for_each(supersede);
            week.replan.insert("the plan was withdrawn".to_owned());
        }
    }
    Ok(())
}

fn supersede(plan: &mut WeekPlan) {
    plan.superseded = true;
}

pub(super) fn closed(stand: &mut Stand, name: &str) -> Result<(), Trouble> {
    if week(stand, name)?.closed {
        return Err(Trouble::question(
            format!("{name} is told closed already"),
            "nothing more is needed",
        ));
    }
    week_mut(stand, name)?.closed = true;
    free_all(stand, name);
    Ok(())
}
