//! What can be built in due order when the stock does not reach for everything.
//!
//! Owners (gate copies, then rows of extra parts) are taken in due order: by due date, undated last, then by
//! mark, copies in order. Each is built if it can be built *together with all those taken before it*, and
//! passed over if not. So the list of what is built is the first in the order of lists: no other choice
//! builds the first gate that this one leaves out without leaving out one that is due before it.

use super::owner::{Owner, owners};
use super::problem::{Work, problem};
use super::short::short;
use super::too_long::too_long;
use crate::nest::{Limits, Reach, Watch, reach, solve};
use crate::order::{Impossible, PipeId, Quote, Week};
use crate::part::{TakeOff, take_off};
use crate::splice::sets;
use crate::stock::pools_of;

/// Steps of a search whether stock reaches, per pool: a few tenths of a second.
const REACH_WORK: u64 = 100_000_000;

/// What is taken or passed over together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Each copy of a gate by itself.
    Copies,
    /// All copies of an order row.
    Rows,
}

/// An owner passed over, with the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PassedOver {
    /// Copies of it that are not built (of a gate), or 1.
    pub copies: u32,
    /// Why, by name.
    pub why: Impossible,
    /// False: no way was found, and none was ruled out either.
    pub proved: bool,
}

/// What can be built.
#[derive(Clone, Debug)]
pub struct Buildable {
    /// The week with only what can be built: counts lowered, rows kept.
    pub week: Week,
    /// Everything passed over, in due order.
    pub passed_over: Vec<PassedOver>,
}

/// Takes the week's owners in due order.
pub fn in_due_order(week: &Week, unit: Unit, watch: &dyn Watch) -> Buildable {
    let gates: Vec<usize> = (0..week.gates.len())
        .filter(|g| week.gates[*g].count > 0)
        .collect();
    let extras: Vec<usize> = (0..week.extras.len())
        .filter(|e| week.extras[*e].count > 0)
        .collect();
    let mut built = Buildable {
        week: nothing(week),
        passed_over: Vec::new(),
    };
    let mut list = owners(week, &gates, &extras);
    list.retain(|owner| unit == Unit::Copies || owner.copy <= 1);
    Desk { week, unit, watch }.take(&list, &mut built);
    built
}

/// What the search goes by.
struct Desk<'a> {
    week: &'a Week,
    unit: Unit,
    watch: &'a dyn Watch,
}

impl Desk<'_> {
    /// Takes or passes over these, in order. What can be built together can be built one after the other,
    /// so a row of owners that a plain plan reaches for is taken at once, and only halves that it does not
    /// reach for are asked again: a handful of trials where few of thousands are passed over.
    fn take(&self, list: &[Owner], built: &mut Buildable) {
        match list {
            [] => {}
            [owner] => self.take_one(*owner, built),
            _ => {
                let hopeless = list.iter().any(|o| self.no_easier(*o, built).is_some());
                if !hopeless {
                    let mut tried = built.week.clone();
                    list.iter().for_each(|o| self.add(&mut tried, *o));
                    if planned_at_once(&tried, self.watch) {
                        built.week = tried;
                        return;
                    }
                }
                let (first, second) = list.split_at(list.len() / 2);
                self.take(first, built);
                self.take(second, built);
            }
        }
    }

    fn take_one(&self, owner: Owner, built: &mut Buildable) {
        if let Some(why) = self.no_easier(owner, built) {
            pass_over(&mut built.passed_over, why, true);
            return;
        }
        let mut tried = built.week.clone();
        self.add(&mut tried, owner);
        match judge(&tried, owner, self.watch) {
            None => built.week = tried,
            Some((why, proved)) => pass_over(&mut built.passed_over, why, proved),
        }
    }

    /// Why an owner cannot be built when one that asked for no more was proved not to be: another copy of
    /// its gate, or a plain part of its pipe, no longer and no more of them.
    fn no_easier(&self, owner: Owner, built: &Buildable) -> Option<Impossible> {
        let extra = owner.extra.map(|e| &self.week.extras[e]);
        built.passed_over.iter().filter(|p| p.proved).find_map(|p| {
            if owner.gate.is_some() && p.why.gate == owner.gate {
                return Some(p.why.clone());
            }
            let (extra, less) = (extra?, &self.week.extras[p.why.extra?]);
            let harder =
                extra.pipe == less.pipe && extra.length >= less.length && extra.count >= less.count;
            harder.then(|| {
                let pipe = self.week.pipe(extra.pipe).title();
                unreached((None, owner.extra), &extra.mark, &pipe)
            })
        })
    }

    /// One owner more.
    fn add(&self, out: &mut Week, owner: Owner) {
        if let Some(gate) = owner.gate {
            match self.unit {
                Unit::Copies => out.gates[gate].count += 1,
                Unit::Rows => out.gates[gate].count = self.week.gates[gate].count,
            }
        }
        if let Some(extra) = owner.extra {
            out.extras[extra].count = self.week.extras[extra].count;
        }
    }
}

fn nothing(week: &Week) -> Week {
    let mut out = week.clone();
    out.gates.iter_mut().for_each(|g| g.count = 0);
    out.extras.iter_mut().for_each(|e| e.count = 0);
    out
}

/// One line a gate or extra part, its copies counted.
fn pass_over(list: &mut Vec<PassedOver>, why: Impossible, proved: bool) {
    let same = |p: &&mut PassedOver| p.why.gate == why.gate && p.why.extra == why.extra;
    if let Some(known) = list.iter_mut().find(same) {
        known.copies += 1;
        known.proved &= proved;
        return;
    }
    list.push(PassedOver {
        copies: 1,
        why,
        proved,
    });
}

/// A week as the nest room is asked about it.
struct Asked {
    taken: TakeOff,
    work: Work,
    /// What the plan that takes no search leaves over; `None`: the problem was not admitted.
    missing: Option<Vec<Impossible>>,
}

/// Asks for a plan without any search.
///
/// # Errors
/// What no stock could serve.
fn ask(week: &Week, watch: &dyn Watch) -> Result<Asked, Vec<Impossible>> {
    let (taken, no_frame) = take_off(week);
    let (sets, unspliceable) = sets(week, &taken);
    let mut cannot = no_frame;
    cannot.extend(unspliceable.iter().cloned());
    cannot.extend(too_long(week, &taken, &sets, &unspliceable));
    if !cannot.is_empty() {
        return Err(cannot);
    }
    let parts: Vec<usize> = (0..taken.parts.len())
        .filter(|p| taken.parts[*p].ours && taken.parts[*p].count > 0)
        .collect();
    let mut pipes: Vec<PipeId> = parts.iter().map(|p| taken.parts[*p].pipe).collect();
    pipes.sort_unstable();
    pipes.dedup();
    let pools = pools_of(week, &pipes)?;
    let work = problem(week, &taken, &pools, &parts, &sets);
    let quick = Limits {
        work: 0,
        time: None,
    };
    let answers = solve(&work.problem, &quick, watch);
    let missing = answers
        .map(|a| short(week, &taken, &work, &sets, (&a.pools, a.whole.as_ref())))
        .ok();
    Ok(Asked {
        taken,
        work,
        missing,
    })
}

/// The plan that takes no search makes everything.
fn planned_at_once(week: &Week, watch: &dyn Watch) -> bool {
    let asked = ask(&at_first_prices(week), watch);
    asked.is_ok_and(|a| a.missing.is_some_and(|missing| missing.is_empty()))
}

/// Why this week cannot be built with its newest owner, and whether that is proved; `None`: it can.
fn judge(week: &Week, newest: Owner, watch: &dyn Watch) -> Option<(Impossible, bool)> {
    let week = &at_first_prices(week);
    let of_newest = |i: &&Impossible| i.gate == newest.gate && i.extra == newest.extra;
    let asked = match ask(week, watch) {
        Ok(asked) => asked,
        Err(cannot) => {
            let why = cannot.iter().find(of_newest).or(cannot.first());
            return why.map(|why| (why.clone(), true));
        }
    };
    if asked.missing.as_ref().is_some_and(Vec::is_empty) {
        return None;
    }
    let limits = Limits {
        work: REACH_WORK,
        time: None,
    };
    let proved = match reach(&asked.work.problem, &limits, watch) {
        Reach::All => return None,
        Reach::NotAll => true,
        Reach::Unknown => false,
    };
    let missing = asked.missing.unwrap_or_default();
    let why = missing.iter().find(of_newest).cloned();
    Some((
        why.unwrap_or_else(|| unnamed(week, &asked.taken, newest)),
        proved,
    ))
}

/// The week with the first price of each offer alone: breaks change what joints cost, not how many are to
/// be had, and one stock an offer is easily counted.
fn at_first_prices(week: &Week) -> Week {
    let mut out = week.clone();
    let first = |q: &Quote| {
        let mut others = week.quotes.iter().filter(|o| o.same_joint(q));
        others.all(|o| o.terms.from.max(1) >= q.terms.from.max(1))
    };
    out.quotes.retain(first);
    out.quotes.iter_mut().for_each(|q| q.terms.from = 0);
    out
}

/// The newest owner's reason when the pieces left over are called by another's name: equal pieces are
/// anybody's.
fn unnamed(week: &Week, taken: &TakeOff, newest: Owner) -> Impossible {
    let part = taken
        .parts
        .iter()
        .find(|p| p.gate == newest.gate && p.extra == newest.extra);
    let mark = match (newest.gate, newest.extra) {
        (Some(g), _) => week.gates[g].mark.clone(),
        (None, Some(e)) => week.extras[e].mark.clone(),
        (None, None) => String::new(),
    };
    let pipe = part.map_or(String::new(), |p| week.pipe(p.pipe).title());
    unreached((newest.gate, newest.extra), &mark, &pipe)
}

/// Stock does not reach for a gate or plain part beside what is due before it.
fn unreached((gate, extra): (Option<usize>, Option<usize>), mark: &str, pipe: &str) -> Impossible {
    Impossible {
        gate,
        extra,
        mark: mark.to_owned(),
        part: None,
        reason: format!(
            "the stock to be had does not reach for it beside what is due before it ({pipe} and its \
             other pipes)"
        ),
        change: "more joints to be had of its pipes".to_owned(),
    }
}
