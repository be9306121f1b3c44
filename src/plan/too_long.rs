//! Parts that no joint can give: named, with the smallest change that frees them.

use crate::measure::Length;
use crate::order::{Impossible, SplicePolicy, Week};
use crate::part::{Part, TakeOff};
use crate::splice::{SpliceSet, sets, would_do};
use crate::stock::{Late, in_time, late, on_sale, usable_of_new, usable_of_piece};

/// Every part of the week that is not spliced and fits neither a joint on sale nor a rack piece;
/// `named` holds the gates already refused for their splices.
pub(crate) fn too_long(
    week: &Week,
    take_off: &TakeOff,
    sets: &[SpliceSet],
    named: &[Impossible],
) -> Vec<Impossible> {
    let lines = || sets.iter().flat_map(|s| &s.lines);
    take_off
        .parts
        .iter()
        .enumerate()
        .filter(|(_, p)| p.ours && p.count > 0)
        .filter(|(i, p)| {
            !lines().any(|l| l.part == *i)
                && !named
                    .iter()
                    .any(|n| n.gate.is_some() && n.gate == p.gate && is_line(p))
        })
        .filter_map(|(_, part)| judge(week, take_off, part))
        .collect()
}

/// A part that splices may serve (its gate is already refused when they do not).
fn is_line(part: &Part) -> bool {
    use crate::gate::Role;
    matches!(
        part.role,
        Some(Role::TopHorizontal | Role::BottomHorizontal | Role::SwayBrace)
    )
}

fn judge(week: &Week, take_off: &TakeOff, part: &Part) -> Option<Impossible> {
    let saw = &week.shop.saw;
    let units = week.shop.units;
    let new = on_sale(week, part.pipe)
        .filter(|(_, q)| in_time(week, q, part.gate))
        .map(|(_, q)| usable_of_new(saw, q.planning));
    let rack = week
        .rack
        .iter()
        .filter(|r| r.pipe == part.pipe && r.count > 0)
        .map(|r| usable_of_piece(saw, r));
    let longest = new.chain(rack).max();
    if longest.is_some_and(|u| part.saw <= u) {
        return None;
    }
    // A late joint need not hold a line that splices may serve: the first that it can be made of frees it.
    let does = |u: Length| would_do(week, take_off, part, u);
    if let Some(late) = late(week, part.pipe, part.gate, does) {
        return Some(too_late(week, part, &late));
    }
    let pipe = week.pipe(part.pipe).title();
    let needs = part.saw + saw.near_trim + saw.far_trim + saw.hold_back;
    let first = late(week, part.pipe, part.gate, |_| true);
    let reason = match (longest, &first) {
        (None, Some(late)) => format!(
            "no new joint of {pipe} is here by {} (the first {}), none is on the rack, and none on sale \
             would do",
            late.wanted,
            late.comes()
        ),
        (None, None) => format!("no new joint of {pipe} is to be had and none is on the rack"),
        (Some(u), _) => format!(
            "{} of {pipe} is longer than what the longest joint or rack piece holds ({}), and it may \
             not be spliced",
            part.saw.print(units),
            u.print(units)
        ),
    };
    Some(Impossible {
        gate: part.gate,
        extra: part.extra,
        mark: owner_mark(week, part),
        part: Some(part.mark.clone()),
        reason,
        change: format!(
            "{}{}{}",
            change(week, part, needs),
            first.map_or(String::new(), |late| format!(", here by {}", late.wanted)),
            by_policy(week, part)
        ),
    })
}

/// Where the shop's policy alone keeps a line from being spliced, that it would do otherwise: tried.
fn by_policy(week: &Week, part: &Part) -> &'static str {
    if week.shop.splice.policy != SplicePolicy::Never || !is_line(part) {
        return "";
    }
    let mut other = week.clone();
    other.shop.splice.policy = SplicePolicy::AsFewAsNeeded;
    let (take_off, _) = crate::part::take_off(&other);
    let (sets, refused) = sets(&other, &take_off);
    let spliced = sets.iter().any(|s| Some(s.gate) == part.gate);
    if spliced && !refused.iter().any(|r| r.gate == part.gate) {
        "; or splices, which splice.policy forbids"
    } else {
        ""
    }
}

/// A joint that would do is on sale, but not here in time.
fn too_late(week: &Week, part: &Part, late: &Late) -> Impossible {
    Impossible {
        gate: part.gate,
        extra: part.extra,
        mark: owner_mark(week, part),
        part: Some(part.mark.clone()),
        reason: format!(
            "its {} must be here by {}; the first joint it can be cut from {}",
            week.pipe(part.pipe).title(),
            late.wanted,
            late.comes()
        ),
        change: late.mend(),
    }
}

fn owner_mark(week: &Week, part: &Part) -> String {
    match (part.gate, part.extra) {
        (Some(g), _) => week.gates[g].mark.clone(),
        (None, Some(e)) => week.extras[e].mark.clone(),
        (None, None) => part.mark.clone(),
    }
}

/// The shortest joint length sold elsewhere this week that would do, else the length to ask for.
fn change(week: &Week, part: &Part, needs: Length) -> String {
    let units = week.shop.units;
    let elsewhere = week
        .quotes
        .iter()
        .filter(|q| q.available != Some(0) && q.planning >= needs)
        .min_by_key(|q| q.planning);
    let joint = match elsewhere {
        Some(q) => format!(
            "a {} joint of this pipe (other pipe is sold in that length), at least {} with trims",
            q.nominal.print(units),
            needs.print(units)
        ),
        None => format!("a joint of at least {} with trims", needs.print(units)),
    };
    use crate::gate::Role;
    match part.role {
        Some(Role::EndPost | Role::Vertical | Role::Riser | Role::Stop) => {
            format!("{joint}; or a lower gate")
        }
        Some(Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal) => {
            format!("{joint}; or a lower gate or narrower bays")
        }
        _ => joint,
    }
}
