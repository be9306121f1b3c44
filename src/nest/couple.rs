//! The cheapest configuration of a group.
//!
//! Lines of one splice or two: each line's cheapest chain alone, then branching on conflicts until the two
//! agree. If splice a of one line and b of the other stand nearer than `apart`, any two positions in a span
//! shorter than `apart` that holds both conflict too: either the first line keeps out of that span or
//! the second does, and no legal configuration is lost. The same holds for a shared zone. Nodes are
//! taken best first, so the first agreeing pair is the cheapest. Lines of more splices are placed splice by
//! splice (`placing.rs`). Past its limits a search settles for a bound, and says so: only one that looked at
//! every way says that there is none.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::chain::{Chain, cheapest};
use super::lattice::{Position, Span, centre_unit};
use super::loose::is_loose;
use super::placing::{Choices, Means, Placed, place};
use super::price::Price;
use super::problem::Group;
use super::to_go::ToGo;

/// Nodes after which the branching on conflicts settles for a bound.
const MOST_NODES: usize = 400;
/// Steps after which a search that prices does so.
pub(super) const PRICING_WORK: u64 = 20_000_000;
/// Steps of a search for any configuration at all, on which a plan hangs.
pub(super) const THOROUGH_WORK: u64 = 4_000_000_000;
/// Steps that a search counts at least.
pub(super) const LEAST_WORK: u64 = 20_000;
/// Splices of a line up to which chains are found in closed form.
const FEW: u32 = 2;

/// What a search for the cheapest configuration came to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Coupling {
    /// The cheapest.
    Found(Coupled),
    /// It gave up, and whether there is any configuration is not known: none is cheaper than `bound`.
    Open {
        /// No configuration is cheaper than this.
        bound: i64,
        /// Steps taken.
        work: u64,
    },
    /// Every way was looked at: no configuration is legal.
    Impossible {
        /// The verifiers see it, too: the group is not too large for them, or a line by itself has no way.
        seen: bool,
        /// Steps taken.
        work: u64,
    },
}

/// A cheapest configuration.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Coupled {
    /// No configuration is cheaper than this, and the verifiers see it: the value, or in a group too large
    /// for them what its lines cost apart.
    pub bound: i64,
    /// Value of `lines`.
    pub value: i64,
    /// Piece lengths per line.
    pub lines: Vec<Vec<i64>>,
    /// Steps taken.
    pub work: u64,
}

impl Coupling {
    /// No configuration is cheaper than this; of a group that has none, nothing is claimed.
    pub fn bound(&self) -> i64 {
        match self {
            Coupling::Found(found) => found.bound,
            Coupling::Open { bound, .. } => *bound,
            Coupling::Impossible { .. } => 0,
        }
    }

    /// Steps taken.
    pub fn work(&self) -> u64 {
        match self {
            Coupling::Found(found) => found.work,
            Coupling::Open { work, .. } | Coupling::Impossible { work, .. } => *work,
        }
    }

    /// Piece lengths per line, where a configuration was found.
    pub fn lines(self) -> Option<Vec<Vec<i64>>> {
        match self {
            Coupling::Found(found) => Some(found.lines),
            Coupling::Open { .. } | Coupling::Impossible { .. } => None,
        }
    }
}

struct Node {
    banned: [Vec<Span>; 2],
    chains: Vec<Chain>,
}

/// The cheapest configuration under a price of pieces and (scale of charges, price of a splice).
pub(super) fn couple(
    group: &Group,
    group_mark: i64,
    price: &Price,
    splice: (i64, i64),
    means: &Means<'_>,
) -> Coupling {
    if group.lines.iter().any(|l| l.most_splices > FEW) {
        return long_lines(group, group_mark, price, splice, means);
    }
    match short_lines(group, group_mark, price, splice, means.enough) {
        Coupling::Open { bound, work } if bound < means.enough && means.work > PRICING_WORK => {
            match long_lines(group, group_mark, price, splice, means) {
                Coupling::Open { .. } => Coupling::Open { bound, work },
                ended => ended,
            }
        }
        ended => ended,
    }
}

/// Lines whose splices are placed one by one.
fn long_lines(
    group: &Group,
    mark: i64,
    price: &Price,
    (scale, splice): (i64, i64),
    means: &Means<'_>,
) -> Coupling {
    let unit = centre_unit(group);
    let mut work = LEAST_WORK;
    let mut choices: Vec<Choices<'_>> = Vec::new();
    for line in &group.lines {
        let splices = line.least_splices..=line.most_splices;
        let way = |m| ToGo::new(line, (mark, unit), price, (m, scale), &mut work);
        let ways: Vec<ToGo> = splices.map(way).filter(|w| w.least.is_some()).collect();
        if ways.is_empty() {
            return Coupling::Impossible { seen: true, work };
        }
        choices.push(Choices { line, ways });
    }
    let alone = |c: &Choices<'_>| {
        let each = |w: &ToGo| Some(w.least? + splice * i64::from(w.splices));
        c.ways.iter().filter_map(each).min().unwrap_or(0)
    };
    let apart: i64 = choices.iter().map(alone).sum();
    let bind = group.zones_exclusive || group.apart > 0;
    let parts: Vec<&[Choices<'_>]> = if bind {
        vec![&choices]
    } else {
        choices.chunks(1).collect()
    };
    let (mut value, mut lines) = (0, Vec::new());
    for part in parts {
        let rest = apart - part.iter().map(alone).sum::<i64>();
        let own = Means {
            enough: means.enough.saturating_sub(rest),
            ..*means
        };
        match place(
            group,
            (mark, unit),
            part,
            (scale, splice),
            (&own, &mut work),
        ) {
            Placed::Found(own, made) => {
                value += own;
                lines.extend(made);
            }
            Placed::Nothing => {
                let seen = !is_loose(group);
                return Coupling::Impossible { seen, work };
            }
            Placed::Open(_) if is_loose(group) => return Coupling::Open { bound: apart, work },
            Placed::Open(least) => {
                let bound = least + rest;
                return Coupling::Open { bound, work };
            }
        }
    }
    let bound = if is_loose(group) { apart } else { value };
    Coupling::Found(Coupled {
        bound,
        value,
        lines,
        work,
    })
}

/// Lines of at most two splices; values from `enough` on are not pursued.
fn short_lines(
    group: &Group,
    group_mark: i64,
    price: &Price,
    splice: (i64, i64),
    enough: i64,
) -> Coupling {
    let unit = centre_unit(group);
    let work = LEAST_WORK;
    let chain = |line: usize, banned: &[Span]| {
        let line = &group.lines[line];
        cheapest(line, (group_mark, unit), price, splice, banned)
    };
    let lines = 0..group.lines.len();
    let chains: Option<Vec<Chain>> = lines.map(|l| chain(l, &[])).collect();
    let Some(chains) = chains else {
        return Coupling::Impossible { seen: true, work };
    };
    let mut nodes: Vec<Node> = vec![Node {
        banned: [Vec::new(), Vec::new()],
        chains,
    }];
    let apart = nodes[0].value();
    let seen = |value: i64| if is_loose(group) { apart } else { value };
    let mut open: BinaryHeap<Reverse<(i64, usize)>> = BinaryHeap::new();
    open.push(Reverse((apart, 0)));
    while let Some(Reverse((value, at))) = open.pop() {
        let conflict = conflict(group, unit, &nodes[at].chains);
        let bound = seen(value);
        let Some(conflict) = conflict else {
            let lines = nodes[at].chains.iter().map(|c| c.pieces.clone()).collect();
            return Coupling::Found(Coupled {
                bound,
                value,
                lines,
                work,
            });
        };
        if nodes.len() > MOST_NODES || value >= enough {
            return Coupling::Open { bound, work };
        }
        for (line, spans) in conflict {
            let mut banned = nodes[at].banned.clone();
            banned[line].extend(spans);
            // Only this line's chain changes.
            if let Some(changed) = chain(line, &banned[line]) {
                let mut chains = nodes[at].chains.clone();
                chains[line] = changed;
                let node = Node { banned, chains };
                open.push(Reverse((node.value(), nodes.len())));
                nodes.push(node);
            }
        }
    }
    let seen = !is_loose(group);
    Coupling::Impossible { seen, work }
}

impl Node {
    fn value(&self) -> i64 {
        self.chains.iter().map(|c| c.value).sum()
    }
}

/// Ways out of the first conflict: (line, spans it must keep out of); one of them holds in every
/// legal configuration.
pub(super) fn conflict(
    group: &Group,
    unit: i64,
    chains: &[Chain],
) -> Option<Vec<(usize, Vec<Span>)>> {
    let [a, b] = chains else { return None };
    for x in &a.stands {
        for y in &b.stands {
            if group.zones_exclusive && x.zone == y.zone {
                return Some(vec![
                    (0, zone_spans(group, unit, 0, x.zone)),
                    (1, zone_spans(group, unit, 1, x.zone)),
                ]);
            }
            if (x.centre - y.centre).abs() < unit * group.apart {
                let span = around(x, y, unit * group.apart);
                return Some(vec![(0, vec![span]), (1, vec![span])]);
            }
        }
    }
    None
}

/// The closed span of integers, one short of `apart`, with x and y in its middle.
fn around(x: &Position, y: &Position, apart: i64) -> Span {
    let (low, high) = (x.centre.min(y.centre), x.centre.max(y.centre));
    let spare = apart - 1 - (high - low);
    let from = low - spare / 2;
    (from, from + apart - 1)
}

/// Where a splice stands in this zone of a line. A shared end goes with the cheapest slot that holds it, the
/// earliest of equals: where that one is of another zone, the end is not in this one.
fn zone_spans(group: &Group, unit: i64, line: usize, zone: u32) -> Vec<Span> {
    let slots = &group.lines[line].slots;
    let elsewhere = |end: i64| {
        let holding = slots.iter().filter(|s| s.lo <= end && end <= s.hi);
        let owner = holding.min_by_key(|s| s.charge);
        i64::from(owner.is_some_and(|s| s.zone != zone))
    };
    let own = slots.iter().filter(|s| s.zone == zone);
    own.map(|s| (unit * s.lo + elsewhere(s.lo), unit * s.hi - elsewhere(s.hi)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::problem::{Line, Slot};
    use super::*;

    /// Two lines of four splices each, free almost everywhere, of 60 prices of pieces.
    fn long_lines() -> (Group, Price) {
        let slots = (0..20).map(|zone: u32| Slot {
            lo: 100 + 300 * i64::from(zone),
            hi: 390 + 300 * i64::from(zone),
            zone,
            charge: 0,
        });
        let line = Line {
            length: 6_200,
            whole: 6_200,
            gap: 0,
            least_splices: 4,
            most_splices: 4,
            least_piece: 50,
            three_over: 0,
            slots: slots.collect(),
        };
        let group = Group {
            name: "g".to_owned(),
            count: 1,
            class: 0,
            lines: vec![line.clone(), line],
            apart: 0,
            zones_exclusive: true,
            splice_cost: 1,
        };
        let jumps: Vec<(i64, i64)> = (1..=60).map(|i| (25 * i, 1 + i % 7)).collect();
        (group, Price::new(&jumps, 1_500))
    }

    fn means(work: u64) -> Means<'static> {
        Means {
            enough: i64::MAX,
            work,
            stop: &|| false,
        }
    }

    /// What a search counts grows with the slots and the prices it goes through: a budget of steps that
    /// counted each search alike would hold many times too many.
    #[test]
    fn many_splices_count_their_steps() {
        let (group, price) = long_lines();
        let found = couple(&group, 1, &price, (1, 1), &means(PRICING_WORK));
        let Coupling::Found(found) = found else {
            panic!("there is a way: {found:?}");
        };
        assert!(found.work > 10 * LEAST_WORK, "{}", found.work);
        // Eight splices of 1 each, and pieces of 1,240 between them.
        let made = super::super::rules::configuration_cost(&group, 1, &found.lines);
        assert_eq!(made, Ok(8));
    }

    /// A search that gives up says so; only one that looked at every way says that there is none.
    #[test]
    fn giving_up_is_not_impossible() {
        let (mut group, price) = long_lines();
        let hurried = couple(&group, 1, &price, (1, 1), &means(1));
        assert!(matches!(hurried, Coupling::Open { .. }), "{hurried:?}");
        let never = |group: &Group, work: u64| {
            let none = couple(group, 1, &price, (1, 1), &means(work));
            assert!(matches!(none, Coupling::Impossible { .. }), "{none:?}");
        };
        // Splices farther apart than the lines are long, or than the pieces between them.
        for apart in [7_000, 3_000, 1_600] {
            group.apart = apart;
            never(&group, PRICING_WORK);
        }
        // A line without a place for its splices has no way.
        group.lines[0].slots.clear();
        never(&group, THOROUGH_WORK);
    }
}
