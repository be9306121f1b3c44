//! Owners: gate copies and extra parts in the order they should finish, and what each wants cut.

use std::cmp::Ordering;
use std::collections::{BTreeMap, VecDeque};

use super::problem::Work;
use super::still::serials;
use crate::nest::{Configuration, Cut, PoolAnswer};
use crate::order::Week;
use crate::part::TakeOff;
use crate::splice::SpliceSet;

/// One gate copy, or one row of extra parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Owner {
    pub gate: Option<usize>,
    pub extra: Option<usize>,
    /// 1..count of a gate; 0 for extra parts.
    pub copy: u32,
}

/// One piece that somebody wants.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Want {
    /// Rank of its owner: place in [`owners`].
    pub owner: usize,
    pub part: usize,
    pub serial: u32,
    pub piece: Option<u32>,
}

/// Pieces wanted of one cut of one pool, in the order in which they are to be served.
pub(crate) type Wants = BTreeMap<(usize, Cut), VecDeque<Want>>;

/// A spliced line of one copy as configured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Made {
    pub set: usize,
    /// Which line of the set.
    pub line: usize,
    pub copy: u32,
    pub pieces: Vec<i64>,
}

/// Gate copies by due date (undated last), then mark; extra parts after all gates.
pub(crate) fn owners(week: &Week, gates: &[usize], extras: &[usize]) -> Vec<Owner> {
    let mut gates = gates.to_vec();
    gates.sort_by(|a, b| {
        let (x, y) = (&week.gates[*a], &week.gates[*b]);
        (x.due.is_none(), x.due)
            .cmp(&(y.due.is_none(), y.due))
            .then_with(|| by_mark(&x.mark, &y.mark))
    });
    let mut extras = extras.to_vec();
    extras.sort_by(|a, b| by_mark(&week.extras[*a].mark, &week.extras[*b].mark));
    let copies = gates.into_iter().flat_map(|gate| {
        (1..=week.gates[gate].count).map(move |copy| Owner {
            gate: Some(gate),
            extra: None,
            copy,
        })
    });
    let rows = extras.into_iter().map(|extra| Owner {
        gate: None,
        extra: Some(extra),
        copy: 0,
    });
    copies.chain(rows).collect()
}

/// Marks as people order them: A2 before A10.
pub(crate) fn by_mark(a: &str, b: &str) -> Ordering {
    let key = |mark: &str| {
        let lower = mark.to_lowercase();
        let digits = lower.chars().rev().take_while(char::is_ascii_digit).count();
        let (stem, number) = lower.split_at(lower.len() - digits);
        (
            stem.to_owned(),
            number.trim_start_matches('0').len(),
            number.trim_start_matches('0').to_owned(),
        )
    };
    key(a).cmp(&key(b)).then_with(|| a.cmp(b))
}

/// What every owner wants, and how each copy's spliced lines are made: configurations go to the
/// copies in due order, in the answer's order.
pub(crate) fn wants(
    week: &Week,
    take_off: &TakeOff,
    work: &Work,
    sets: &[SpliceSet],
    answers: &[PoolAnswer],
    owners: &[Owner],
) -> (Wants, Vec<Made>) {
    let mut wants = Wants::new();
    let mut made = Vec::new();
    for (pool, answer) in answers.iter().enumerate() {
        let mut configurations: Vec<VecDeque<&Configuration>> =
            work.groups[pool].iter().map(|_| VecDeque::new()).collect();
        for c in &answer.configurations {
            for _ in 0..c.times {
                if let Some(queue) = configurations.get_mut(c.group) {
                    queue.push_back(c);
                }
            }
        }
        let of_owner = items_by_owner(take_off, &work.items[pool]);
        for item in 0..work.items[pool].len() {
            wants.entry((pool, Cut::Item(item))).or_default();
        }
        for (rank, owner) in owners.iter().enumerate() {
            let own = of_owner.get(&(owner.gate, owner.extra));
            for &(item, part) in own.into_iter().flatten() {
                let queue = wants.entry((pool, Cut::Item(item))).or_default();
                let serials = serials(week, take_off, part, owner.copy);
                queue.extend(serials.into_iter().map(|serial| Want {
                    owner: rank,
                    part,
                    serial,
                    piece: None,
                }));
            }
            for (item, settled) in &work.settled[pool] {
                let gate = take_off.parts[settled.part].gate;
                if gate == owner.gate && settled.copy == owner.copy {
                    let queue = wants.entry((pool, Cut::Item(*item))).or_default();
                    queue.push_back(Want {
                        owner: rank,
                        part: settled.part,
                        serial: 1,
                        piece: settled.piece,
                    });
                }
            }
            for (group, from) in work.groups[pool].iter().enumerate() {
                for set in from.iter().copied() {
                    if Some(sets[set].gate) != owner.gate {
                        continue;
                    }
                    if !sets[set].copies.contains(&owner.copy) {
                        continue;
                    }
                    let Some(configuration) = configurations[group].pop_front() else {
                        continue;
                    };
                    for (line, pieces) in configuration.lines.iter().enumerate() {
                        let class = work.problem.pools[pool].groups[group].class;
                        let line_of = (pool, class, line);
                        want_line(&mut wants, line_of, rank, &sets[set], pieces);
                        made.push(Made {
                            set,
                            line,
                            copy: owner.copy,
                            pieces: pieces.clone(),
                        });
                    }
                }
            }
        }
    }
    (wants, made)
}

/// Gate or extra part.
type OfWhom = (Option<usize>, Option<usize>);

/// The items of a pool and their parts, in order, by the gate or extra part that they are of.
fn items_by_owner(
    take_off: &TakeOff,
    items: &[Vec<usize>],
) -> BTreeMap<OfWhom, Vec<(usize, usize)>> {
    let mut out: BTreeMap<OfWhom, Vec<(usize, usize)>> = BTreeMap::new();
    for (item, parts) in items.iter().enumerate() {
        for &part in parts {
            let p = &take_off.parts[part];
            out.entry((p.gate, p.extra)).or_default().push((item, part));
        }
    }
    out
}

fn want_line(
    wants: &mut Wants,
    (pool, class, line): (usize, u8, usize),
    owner: usize,
    set: &SpliceSet,
    pieces: &[i64],
) {
    let spliced = pieces.len() > 1;
    for (number, length) in (1u32..).zip(pieces) {
        let cut = Cut::Piece {
            length: *length,
            class,
        };
        wants.entry((pool, cut)).or_default().push_back(Want {
            owner,
            part: set.lines[line].part,
            serial: 1,
            piece: spliced.then_some(number),
        });
    }
}
