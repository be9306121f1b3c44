//! No way to splice a gate: which rule bites, and the smallest changes that free it, found by
//! trying them.

use std::sync::Arc;

use super::{Case, Lift, SpliceSet, settle, shape};
use crate::gate;
use crate::measure::{Length, Units};
use crate::order::{Bays, GateOrder, Impossible, SpliceRules, Week};
use crate::statics::{envelope, model};
use crate::stock::{Late, late, usable_of_new};

/// The rules in the order they are tried, with their plain names.
const RULES: [(Lift, &str); 9] = [
    (
        Lift::Stress,
        "rule 5: nowhere over the refused share of the gate's peak stress",
    ),
    (
        Lift::RollerBays,
        "rule 3: in a bay that a roller crosses only next to a vertical",
    ),
    (
        Lift::Toes,
        "rule 1: clear of the welds of verticals, diagonals and brackets",
    ),
    (Lift::EndBays, "rule 2: never in the first or last bay"),
    (Lift::Parked, "rule 2: clear of the parked rollers"),
    (Lift::Excluded, "rule 2: not in the bays the order excludes"),
    (
        Lift::Stagger,
        "rule 4: top and bottom share no bay and stay staggered",
    ),
    (Lift::LeastPiece, "rule 4: no piece under the least piece"),
    (Lift::Three, "rule 4: no three splices within ten feet"),
];

/// One gate's lines, to be tried under other terms.
#[derive(Clone, Copy)]
struct Trial<'a> {
    case: Case<'a>,
    parts: &'a [usize],
    usable: Length,
}

impl Trial<'_> {
    /// The set settled under these terms, and whether a way was found.
    fn settle(&self, lift: Lift) -> (SpliceSet, bool) {
        let mut set = shape(self.case, self.parts, lift);
        let found = settle(self.case.week, &mut set, self.usable, lift);
        (set, found)
    }

    fn works(&self) -> bool {
        self.settle(Lift::Nothing).1
    }
}

/// Name the rule that bites and what would free the gate.
pub(crate) fn refuse(case: Case<'_>, parts: &[usize], usable: Length) -> Impossible {
    let trial = Trial {
        case,
        parts,
        usable,
    };
    let Case {
        week,
        take_off,
        order,
        frame,
        ..
    } = case;
    let units = week.shop.units;
    let (set, _) = trial.settle(Lift::Nothing);
    let bites: Vec<&str> = RULES
        .iter()
        .filter(|(lift, _)| trial.settle(*lift).1)
        .map(|(_, name)| *name)
        .collect();
    let part = &take_off.parts[parts[0]];
    let late = late_joint(&trial);
    let holds = match &late {
        Some((late, _)) => format!(
            "of the pipe that is here by {} holds ({}; a longer joint {})",
            late.wanted,
            usable.print(units),
            late.comes()
        ),
        None => format!("joint on sale holds ({})", usable.print(units)),
    };
    let reason = format!(
        "{} is longer than what the longest {holds} and no place is left for {}: {}",
        part.saw.print(units),
        splices(&set),
        match bites.as_slice() {
            [] => "the splice rules bite together, none alone".to_owned(),
            names => format!("what bites is {}", names.join(", or ")),
        }
    );
    let mut changes = changes(&trial);
    if let Some((late, true)) = late {
        changes.insert(0, late.mend());
    }
    Impossible {
        gate: Some(frame.gate),
        extra: None,
        mark: order.mark.clone(),
        part: Some(part.mark.clone()),
        reason,
        change: if changes.is_empty() {
            "another leaf length: no longer joint, further splice, other bay count or setting that \
             was tried frees it"
                .to_owned()
        } else {
            changes.join("; or ")
        },
    }
}

/// The first longer joint that comes too late and, were it here, would free the gate (true); else the first
/// longer one.
fn late_joint(trial: &Trial) -> Option<(Late, bool)> {
    let week = trial.case.week;
    let pipe = trial.case.take_off.parts[trial.parts[0]].pipe;
    let gate = Some(trial.case.frame.gate);
    let longer = |u: Length| u > trial.usable;
    let frees = |usable: Length| longer(usable) && Trial { usable, ..*trial }.works();
    let freed = late(week, pipe, gate, frees).map(|late| (late, true));
    freed.or_else(|| late(week, pipe, gate, longer).map(|late| (late, false)))
}

/// "its splice" or "its 2 splices", at m₀ of the line that needs most.
fn splices(set: &SpliceSet) -> String {
    match set.lines.iter().map(|l| l.least).max().unwrap_or(0) {
        0 | 1 => "its splice".to_owned(),
        n => format!("its {n} splices"),
    }
}

/// Every single change that frees the gate, smallest of its kind.
fn changes(trial: &Trial) -> Vec<String> {
    let units = trial.case.week.shop.units;
    let mut out = Vec::new();
    let saw = &trial.case.week.shop.saw;
    let longer = longer_joints(trial.case.week, trial.usable)
        .into_iter()
        .find(|joint| {
            let usable = usable_of_new(saw, *joint);
            Trial { usable, ..*trial }.works()
        });
    if let Some(joint) = longer {
        let gate = trial.case.frame.gate;
        let by = match trial.case.week.wanted(gate) {
            Some(wanted) if late_joint(trial).is_some() => format!(" and here by {wanted}"),
            _ => String::new(),
        };
        out.push(format!("a joint of {} on sale{by}", joint.print(units)));
    }
    let bays = trial.case.frame.bays.len();
    let other = [bays + 1, bays + 2, bays.saturating_sub(1)].into_iter();
    if let Some(n) = other.filter(|n| *n > 0).find(|n| rebayed(trial, *n)) {
        out.push(format!("{n} bays instead of {bays}"));
    }
    out.extend(settings(trial));
    out
}

/// Joint lengths worth trying, longer than the longest on sale, ascending: whatever any pipe of the
/// week is sold in, and the lengths pipe commonly comes in (common practice, no source).
fn longer_joints(week: &Week, usable: Length) -> Vec<Length> {
    let common: Vec<Length> = match week.shop.units {
        Units::Inch => [20, 21, 24, 40, 42, 60]
            .map(|feet| Length::FOOT * feet)
            .to_vec(),
        Units::Metric => [6_000, 6_400, 7_000, 12_000, 18_000]
            .map(Length::from_mm)
            .to_vec(),
    };
    let mut all: Vec<Length> = week
        .quotes
        .iter()
        .map(|q| q.planning)
        .chain(common)
        .filter(|j| usable_of_new(&week.shop.saw, *j) > usable)
        .collect();
    all.sort_unstable();
    all.dedup();
    all
}

/// Whether the order with n equal bays, laid out anew, has a way.
fn rebayed(trial: &Trial, n: usize) -> bool {
    let gate = trial.case.frame.gate;
    let mut week = trial.case.week.clone();
    match (week.gates.get_mut(gate), u32::try_from(n)) {
        (Some(order), Ok(n)) => order.bays = Bays::Count(n),
        _ => return false,
    }
    let Ok(frame) = gate::build(&week, gate) else {
        return false;
    };
    let bending = envelope(&model(&week, &frame)).map(Arc::new).ok();
    let case = Case {
        week: &week,
        order: &week.gates[gate],
        frame: &frame,
        bending: bending.as_ref(),
        ..trial.case
    };
    Trial { case, ..*trial }.works()
}

/// Settings of the shop or the order that would free it, none of them on today.
fn settings(trial: &Trial) -> Vec<String> {
    let mut out = Vec::new();
    let rules = &trial.case.week.shop.splice;
    let mut try_rules = |on: bool, change: fn(&mut SpliceRules), says: &str| {
        if on {
            let mut week = trial.case.week.clone();
            change(&mut week.shop.splice);
            let case = Case {
                week: &week,
                ..trial.case
            };
            if (Trial { case, ..*trial }).works() {
                out.push(says.to_owned());
            }
        }
    };
    let more = format!(
        "one more splice (splice.most_extra = {})",
        rules.most_extra + 1
    );
    try_rules(
        rules.most_extra < SpliceRules::MOST_EXTRA,
        |r| r.most_extra += 1,
        &more,
    );
    try_rules(
        !rules.allow_tolerated,
        |r| r.allow_tolerated = true,
        "the tolerated reach (splice.allow_tolerated), with its warning",
    );
    try_rules(
        !rules.same_bay,
        |r| r.same_bay = true,
        "top and bottom splices in one bay (splice.same_bay), still staggered",
    );
    let mut try_order = |on: bool, change: fn(&mut GateOrder), says: &str| {
        if on {
            let mut order = trial.case.order.clone();
            change(&mut order);
            let case = Case {
                order: &order,
                ..trial.case
            };
            if (Trial { case, ..*trial }).works() {
                out.push(says.to_owned());
            }
        }
    };
    let order = trial.case.order;
    try_order(
        !order.high_stress,
        |o| o.high_stress = true,
        "splices at higher stress, by order (high_stress = yes), with its warning",
    );
    try_order(
        !order.excluded_bays.is_empty(),
        |o| o.excluded_bays.clear(),
        "no bays excluded in the order",
    );
    out
}
