//! Whether a group has any legal configuration: splices of both lines laid in the order in which they stand, depth
//! first.
//!
//! A state is which slot the last splice of each line stands in and what is known of the last two of each: a
//! closed system of differences. Whatever can follow a state can follow one in the same slots that knows less, so
//! a state within one already left without success is not looked into again, and the search ends. Slots are
//! first narrowed, from the line's end, to the places from which the line alone can be completed.

use std::collections::BTreeMap;

use super::chain::{Chain, apart};
use super::tie::Ties;
use crate::nest::Group;

/// The search gave up: the group has too many states.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::check) struct TooLarge;

/// States after which it gives up.
const MOST_STATES: u64 = 2_000_000;

/// Variables: the start, then the last splice and the last but one of either line, and the new one.
const NEW: usize = 5;

fn last(line: usize) -> usize {
    1 + 2 * line
}

/// Marks of metal before a splice in one slot, from which its line alone can be completed.
#[derive(Clone, Copy)]
struct Place {
    slot: usize,
    lo: i64,
    hi: i64,
}

/// A line with its splices settled; `None` inside: it stays whole.
struct Laid<'a> {
    chain: Option<Chain<'a>>,
    /// Places of splice j at j − 1, by rising marks.
    places: Vec<Vec<Place>>,
}

impl Laid<'_> {
    fn splices(&self) -> usize {
        self.places.len()
    }
}

/// Whether a group has any legal configuration of pieces no longer than `longest`.
///
/// # Errors
/// [`TooLarge`]: neither was found within a large fixed number of states.
pub(in crate::check) fn possible(group: &Group, mark: i64, longest: i64) -> Result<bool, TooLarge> {
    possible_within(group, mark, longest, MOST_STATES)
}

/// The same, given up after so many states for each pair of numbers of splices.
pub(super) fn possible_within(
    group: &Group,
    mark: i64,
    longest: i64,
    states: u64,
) -> Result<bool, TooLarge> {
    let all: Vec<Vec<Laid<'_>>> = (group.lines.iter())
        .map(|line| {
            let counts = line.least_splices..=line.most_splices;
            counts
                .filter_map(|m| laid(line, m, mark, longest))
                .collect()
        })
        .collect();
    let mut given_up = false;
    for one in all.first().into_iter().flatten() {
        let mut pairs: Vec<Vec<&Laid<'_>>> = Vec::new();
        match all.get(1) {
            Some(second) => pairs.extend(second.iter().map(|other| vec![one, other])),
            None => pairs.push(vec![one]),
        }
        for lines in pairs {
            let mut search = Search {
                group,
                lines,
                left: states,
                met: BTreeMap::new(),
            };
            match search.follow(&State::start()) {
                Some(true) => return Ok(true),
                Some(false) => {}
                None => given_up = true,
            }
        }
    }
    if given_up { Err(TooLarge) } else { Ok(false) }
}

fn laid(line: &crate::nest::Line, m: u32, mark: i64, longest: i64) -> Option<Laid<'_>> {
    if m == 0 {
        return (line.whole <= longest).then_some(Laid {
            chain: None,
            places: Vec::new(),
        });
    }
    let chain = Chain::new(line, m, mark, longest)?;
    let mut behind: Option<Vec<Place>> = None;
    let mut places = Vec::new();
    for j in (1..=chain.m).rev() {
        let mut here = Vec::new();
        for slot in 0..chain.line.slots.len() {
            let (lo, hi) = chain.range(j, slot);
            let spans = match &behind {
                None => vec![(chain.metal - chain.longest, chain.metal - chain.least)],
                Some(next) => joined(&chain, slot, next),
            };
            let within = |(a, b): (i64, i64)| Place {
                slot,
                lo: lo.max(a).max(j * chain.least),
                hi: hi.min(b).min(j.saturating_mul(chain.longest)),
            };
            here.extend(spans.into_iter().map(within).filter(|p| p.lo <= p.hi));
        }
        if here.is_empty() {
            return None;
        }
        places.push(here.clone());
        behind = Some(here);
    }
    places.reverse();
    Some(Laid {
        chain: Some(chain),
        places,
    })
}

/// Where a splice of this slot may stand for one of these places to follow it: spans that do not overlap.
fn joined(chain: &Chain<'_>, slot: usize, next: &[Place]) -> Vec<(i64, i64)> {
    let zone = |s: usize| chain.line.slots[s].zone;
    let follows = next.iter().filter(|p| zone(p.slot) != zone(slot));
    let mut spans: Vec<(i64, i64)> = follows
        .map(|p| (p.lo - chain.longest, p.hi - chain.least))
        .collect();
    spans.sort_unstable();
    let mut out: Vec<(i64, i64)> = Vec::new();
    for (a, b) in spans {
        match out.last_mut() {
            Some(before) if a <= before.1.saturating_add(1) => before.1 = before.1.max(b),
            _ => out.push((a, b)),
        }
    }
    out
}

#[derive(Clone)]
struct State {
    /// Splices laid of each line.
    laid: [usize; 2],
    /// Slots taken, in order.
    slots: [Vec<usize>; 2],
    known: Ties,
}

impl State {
    fn start() -> State {
        let mut known = Ties::new(NEW);
        for of in 1..=NEW {
            known.at_most(of, 0, 0);
            known.at_least(of, 0, 0);
        }
        known.close();
        State {
            laid: [0; 2],
            slots: [Vec::new(), Vec::new()],
            known,
        }
    }
}

/// What states are told apart by, what is known of their positions aside.
type Kind = ([usize; 2], [Option<usize>; 2], [Vec<u32>; 2]);

struct Search<'a> {
    group: &'a Group,
    lines: Vec<&'a Laid<'a>>,
    left: u64,
    met: BTreeMap<Kind, Vec<Ties>>,
}

impl Search<'_> {
    /// Whether anything whole follows a state; `None`: given up.
    fn follow(&mut self, state: &State) -> Option<bool> {
        let open: Vec<usize> = (0..self.lines.len())
            .filter(|l| state.laid[*l] < self.lines[*l].splices())
            .collect();
        if open.is_empty() {
            return Some(true);
        }
        let met = self.met.entry(kind(self.group, state)).or_default();
        if met.iter().any(|known| state.known.is_within(known)) {
            return Some(false);
        }
        met.push(state.known.clone());
        for line in open {
            for at in 0..self.lines[line].places[state.laid[line]].len() {
                self.left = self.left.checked_sub(1)?;
                let Some(next) = self.lay(state, line, at) else {
                    continue;
                };
                if self.follow(&next)? {
                    return Some(true);
                }
            }
        }
        Some(false)
    }

    /// The state with the next splice of a line in a place; `None`: the rules forbid it.
    fn lay(&self, state: &State, line: usize, at: usize) -> Option<State> {
        let (own, laid) = (self.lines[line], state.laid[line]);
        let (chain, place) = (own.chain.as_ref()?, own.places[laid][at]);
        let j = i64::try_from(laid).ok()? + 1;
        let zone = chain.line.slots[place.slot].zone;
        let taken = |l: usize| {
            let slots = self.group.lines[l].slots.as_slice();
            state.slots[l].iter().any(|s| slots[*s].zone == zone)
        };
        if taken(line) || (self.group.zones_exclusive && self.lines.len() > 1 && taken(1 - line)) {
            return None;
        }
        let mut known = state.known.freed(NEW);
        known.at_least(NEW, 0, place.lo);
        known.at_most(NEW, 0, place.hi);
        known.at_least(NEW, last(line), chain.least);
        known.at_most(NEW, last(line), chain.longest);
        if j > 2 {
            known.at_least(NEW, last(line) + 1, chain.third());
        }
        // Laid in the order of their centres: behind the other line's last one.
        if let Some(other) = self.lines.get(1 - line)
            && let Some(theirs) = other.chain.as_ref().filter(|_| state.laid[1 - line] > 0)
        {
            let k = i64::try_from(state.laid[1 - line]).ok()?;
            let by = apart(self.group, (chain, j), (theirs, k));
            known.at_least(NEW, last(1 - line), by);
        }
        if !known.close() {
            return None;
        }
        known.moved(last(line), last(line) + 1);
        known.moved(NEW, last(line));
        known = known.freed(NEW);
        let mut next = State {
            known,
            ..state.clone()
        };
        next.laid[line] += 1;
        next.slots[line].push(place.slot);
        Some(next)
    }
}

/// Slots of the last splices, and zones of either line that the other could still take.
fn kind(group: &Group, state: &State) -> Kind {
    let zones = |line: usize| -> Vec<u32> {
        let Some(other) = group.lines.get(1 - line).filter(|_| group.zones_exclusive) else {
            return Vec::new();
        };
        let from = state.slots[1 - line].last().map_or(0, |s| s + 1);
        let taken = state.slots[line].iter();
        let zones = taken.map(|s| group.lines[line].slots[*s].zone);
        let mut zones: Vec<u32> = zones
            .filter(|z| other.slots.iter().skip(from).any(|s| s.zone == *z))
            .collect();
        zones.sort_unstable();
        zones
    };
    let two = group.lines.len() > 1;
    let ahead = if two {
        [zones(0), zones(1)]
    } else {
        [Vec::new(), Vec::new()]
    };
    (
        state.laid,
        [0, 1].map(|l| state.slots[l].last().copied()),
        ahead,
    )
}
