//! The cheapest configuration of a group: each line's cheapest chain alone, then branching on
//! conflicts until the two agree.
//!
//! If splice a of one line and b of the other stand nearer than `apart`, any two positions in a span
//! shorter than `apart` that holds both conflict too: either the first line keeps out of that span or
//! the second does, and no legal configuration is lost. The same holds for a shared zone. Nodes are
//! taken best first, so the first agreeing pair is the cheapest. Lines that break the three-splice
//! rule are branched on the positions of their middle splice; past the node limit the value of the
//! best open node is still a lower bound.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::chain::{Chain, cheapest};
use super::lattice::{Position, Span, centre_unit};
use super::price::Price;
use super::problem::Group;

/// Nodes after which the search settles for a bound.
const MOST_NODES: usize = 400;
/// Steps after which it does so, too: a line of many splices takes millions of them a node.
const MOST_WORK: u64 = 20_000_000;
/// Steps that a search counts at least.
pub(super) const LEAST_WORK: u64 = 20_000;

/// A cheapest configuration.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Coupled {
    /// No configuration is cheaper than this.
    pub bound: i64,
    /// Value of `lines` when one was found.
    pub value: Option<i64>,
    /// Piece lengths per line.
    pub lines: Vec<Vec<i64>>,
    /// Steps taken.
    pub work: u64,
}

struct Node {
    banned: [Vec<Span>; 2],
    chains: Vec<Chain>,
}

/// The cheapest configuration under a price of pieces and (scale of charges, price of a splice);
/// `None` when no configuration is legal. Values from `enough` on are not pursued: the answer is then a
/// bound of at least `enough` without a configuration.
pub(super) fn couple(
    group: &Group,
    group_mark: i64,
    price: &Price,
    splice: (i64, i64),
    enough: i64,
) -> Option<Coupled> {
    let unit = centre_unit(group);
    let mut work = LEAST_WORK;
    let chain = |line: usize, banned: &[Span], work: &mut u64| {
        cheapest(
            &group.lines[line],
            (group_mark, unit),
            price,
            splice,
            (banned, work),
        )
    };
    let lines = 0..group.lines.len();
    let chains: Option<Vec<Chain>> = lines.map(|l| chain(l, &[], &mut work)).collect();
    let mut nodes: Vec<Node> = vec![Node {
        banned: [Vec::new(), Vec::new()],
        chains: chains?,
    }];
    let mut open: BinaryHeap<Reverse<(i64, usize)>> = BinaryHeap::new();
    open.push(Reverse((nodes[0].value(), 0)));
    while let Some(Reverse((value, at))) = open.pop() {
        let conflict = conflict(group, unit, &nodes[at].chains);
        let Some(conflict) = conflict else {
            return Some(Coupled {
                bound: value,
                value: Some(value),
                lines: nodes[at].chains.iter().map(|c| c.pieces.clone()).collect(),
                work,
            });
        };
        if nodes.len() > MOST_NODES || work > MOST_WORK || value >= enough {
            return Some(Coupled {
                bound: value,
                value: None,
                lines: Vec::new(),
                work,
            });
        }
        for (line, spans) in conflict {
            let mut banned = nodes[at].banned.clone();
            banned[line].extend(spans);
            // Only this line's chain changes.
            if let Some(changed) = chain(line, &banned[line], &mut work) {
                let mut chains = nodes[at].chains.clone();
                chains[line] = changed;
                let node = Node { banned, chains };
                open.push(Reverse((node.value(), nodes.len())));
                nodes.push(node);
            }
        }
    }
    None
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
    for (l, chain) in chains.iter().enumerate() {
        let over = unit * group.lines[l].three_over;
        if let Some(w) = chain
            .stands
            .windows(3)
            .find(|w| w[2].centre - w[0].centre <= over)
        {
            return Some(w.iter().map(|p| (l, vec![(p.centre, p.centre)])).collect());
        }
    }
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

    /// What a search counts grows with the positions and the prices it goes through: a budget of steps that
    /// counted each search alike would hold hundreds of times too many.
    #[test]
    fn many_splices_count_their_steps() {
        let (group, price) = long_lines();
        let found = couple(&group, 1, &price, (1, 1), i64::MAX).expect("there is a way");
        // Each line: four splices with some 1,300 places each, 60 prices.
        assert!(found.work > 2 * 4 * 1_000 * 60 / 4, "{}", found.work);
    }
}
