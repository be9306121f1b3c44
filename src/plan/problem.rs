//! The week as a nest problem: items, stocks and groups of every pool, in an order that does not
//! depend on the order of rows.

use std::collections::{BTreeMap, BTreeSet};

use super::still::{Settled, counts, settled};
use crate::measure::{Length, Money};
use crate::nest::{
    Aim, Charge, ChargeKind, Credit, Group, Item, Line, Pool, Problem, Slot, Stock, StockOf,
};
use crate::order::{PipeId, Week};
use crate::part::TakeOff;
use crate::splice::{SpliceLine, SpliceSet, WindowClass};
use crate::stock::{PoolSource, StockOrigin, Term, TermKind, UNPRICED_SPLICE, terms};

/// A nest problem and what its indices stand for.
#[derive(Clone, Debug)]
pub(crate) struct Work {
    pub problem: Problem,
    /// Per pool, per item: the parts (indices into `TakeOff::parts`, ascending).
    pub items: Vec<Vec<Vec<usize>>>,
    /// Per pool: pieces of lines that stay as they were handed out, each with its item.
    pub settled: Vec<Vec<(usize, Settled)>>,
    /// Per pool, per group: the splice sets, as in `NestWork::groups`.
    pub groups: Vec<Vec<Vec<usize>>>,
}

/// Put the chosen parts and sets to the nest room.
pub(crate) fn problem(
    week: &Week,
    take_off: &TakeOff,
    pools: &[PoolSource],
    parts: &[usize],
    sets: &[SpliceSet],
) -> Work {
    let mut work = Work {
        problem: Problem {
            aim: Aim::Money,
            pools: Vec::new(),
            charges: charges(week, pools),
        },
        items: Vec::new(),
        settled: Vec::new(),
        groups: Vec::new(),
    };
    for source in pools {
        let Items {
            items,
            from,
            settled,
        } = items(week, take_off, source, parts, sets);
        let (groups, from_sets) = groups(week, take_off, source, sets);
        work.problem.pools.push(Pool {
            name: pool_name(week, source.pipe),
            mark: week.shop.saw.mark.ticks(),
            kerf: week.shop.saw.kerf.ticks(),
            credit: Credit {
                keep: week.shop.money.keep_length.ticks(),
                foot: Length::FOOT.ticks(),
                per_foot: units(source.credit_per_foot),
            },
            stocks: stocks(week, source),
            items,
            groups,
        });
        work.items.push(from);
        work.settled.push(settled);
        work.groups.push(from_sets);
    }
    work
}

/// What hangs on more than one joint, over the stocks of these pools.
fn charges(week: &Week, pools: &[PoolSource]) -> Vec<Charge> {
    let places = |quote: usize| {
        pools.iter().enumerate().filter_map(move |(pool, source)| {
            let mut stocks = source.stocks.iter();
            let stock = stocks.position(|s| s.origin == StockOrigin::Quote(quote))?;
            Some(StockOf { pool, stock })
        })
    };
    let charge = |(number, term): (usize, Term)| {
        let mut over: Vec<StockOf> = term.quotes.iter().copied().flat_map(places).collect();
        over.sort_unstable();
        Charge {
            name: format!("{}: {}", number + 1, term.name),
            over,
            kind: kind(term.kind),
        }
    };
    let named = terms(week, pools).into_iter().enumerate();
    named.map(charge).collect()
}

/// A term's money in the optimisation's integers.
fn kind(kind: TermKind) -> ChargeKind {
    match kind {
        TermKind::Freight { amount, free_over } => ChargeKind::Fixed {
            amount: units(amount),
            free_over: free_over.map(units),
        },
        TermKind::Lift {
            joints,
            fee,
            part_fee,
        } => ChargeKind::Lift {
            lift: joints,
            fee: units(fee),
            part_fee: units(part_fee),
        },
        TermKind::Minimum { least } => ChargeKind::Minimum {
            least: units(least),
        },
        TermKind::Count { least, most } => ChargeKind::Range { least, most },
    }
}

/// Integers of the optimisation; every amount here was judged to fit when the pool was made.
pub(crate) fn units(money: Money) -> i64 {
    money.millicents().unwrap_or(i64::MAX >> 20)
}

fn pool_name(week: &Week, pipe: PipeId) -> String {
    let pipe = week.pipe(pipe);
    if pipe.grade.is_empty() {
        pipe.title()
    } else {
        format!("{} {}", pipe.title(), pipe.grade)
    }
}

fn stocks(week: &Week, source: &PoolSource) -> Vec<Stock> {
    let named = source.stocks.iter().enumerate();
    named
        .map(|(i, s)| {
            let length = s.length.print(week.shop.units);
            Stock {
                name: match s.origin {
                    StockOrigin::Quote(_) => format!("{}: new {length}", i + 1),
                    StockOrigin::Rack(r) => format!("{}: rack {}", i + 1, week.rack[r].tag),
                },
                usable: s.usable.ticks(),
                cost: units(s.cost),
                price: s.price.map(units),
                limit: s.limit,
                serves: s.serves,
                length: s.length.ticks(),
            }
        })
        .collect()
}

/// A pool's items, and what stands behind each.
struct Items {
    items: Vec<Item>,
    /// Per item: plain parts, ascending.
    from: Vec<Vec<usize>>,
    /// Pieces of lines that stay as they were handed out.
    settled: Vec<(usize, Settled)>,
}

/// Pieces of one length and class.
#[derive(Default)]
struct Equal {
    count: u32,
    from: Vec<usize>,
    settled: Vec<Settled>,
}

/// Distinct saw lengths of a pipe's unspliced pieces by class, longest first.
fn items(
    week: &Week,
    take_off: &TakeOff,
    source: &PoolSource,
    parts: &[usize],
    sets: &[SpliceSet],
) -> Items {
    let spliced: BTreeSet<usize> = sets
        .iter()
        .flat_map(|s| s.lines.iter().map(|l| l.part))
        .collect();
    let still = counts(week, take_off);
    let mut by_length: BTreeMap<(Length, u8), Equal> = BTreeMap::new();
    for index in parts.iter().copied() {
        let part = &take_off.parts[index];
        let count = still.get(&index).copied().unwrap_or(part.count);
        if part.pipe == source.pipe && count > 0 && !spliced.contains(&index) {
            let class = source.days.class(week, part.gate);
            let entry = by_length.entry((part.saw, class)).or_default();
            entry.count = entry.count.saturating_add(count);
            entry.from.push(index);
        }
    }
    for piece in settled(week, take_off, |pipe| pipe == source.pipe) {
        if parts.binary_search(&piece.part).is_ok() {
            let class = source.days.class(week, take_off.parts[piece.part].gate);
            let entry = by_length.entry((piece.length, class)).or_default();
            entry.count = entry.count.saturating_add(1);
            entry.settled.push(piece);
        }
    }
    let mut out = Items {
        items: Vec::new(),
        from: Vec::new(),
        settled: Vec::new(),
    };
    for (at, ((length, class), equal)) in by_length.into_iter().rev().enumerate() {
        out.items.push(Item {
            length: length.ticks(),
            count: equal.count,
            class,
        });
        out.from.push(equal.from);
        out.settled
            .extend(equal.settled.into_iter().map(|p| (at, p)));
    }
    out
}

/// The distinct shapes of a pipe's splice sets, longest line first.
fn groups(
    week: &Week,
    take_off: &TakeOff,
    source: &PoolSource,
    sets: &[SpliceSet],
) -> (Vec<Group>, Vec<Vec<usize>>) {
    let mut shapes: Vec<(Group, Vec<usize>)> = Vec::new();
    for (index, set) in sets.iter().enumerate().filter(|(_, s)| s.count() > 0) {
        let of_pool = |l: &SpliceLine| take_off.parts[l.part].pipe == source.pipe;
        if !set.lines.first().is_some_and(of_pool) {
            continue;
        }
        let class = source.days.class(week, Some(set.gate));
        let new = group(week, source.priced, class, set);
        let same = |g: &Group| {
            g.class == new.class
                && g.lines == new.lines
                && g.apart == new.apart
                && g.zones_exclusive == new.zones_exclusive
        };
        if let Some((group, from)) = shapes.iter_mut().find(|(g, _)| same(g)) {
            group.count = group.count.saturating_add(new.count);
            group.name = format!("{}, {}", group.name, new.name);
            from.push(index);
        } else {
            shapes.push((new, vec![index]));
        }
    }
    shapes.sort_by_cached_key(|(g, _)| std::cmp::Reverse(shape_key(g)));
    shapes.into_iter().unzip()
}

/// A shape as a row of integers, for a fixed order of groups.
fn shape_key(group: &Group) -> Vec<i64> {
    let mut key = Vec::new();
    for l in &group.lines {
        key.extend([
            l.length,
            i64::from(l.least_splices),
            i64::from(l.most_splices),
            l.least_piece,
            l.whole,
        ]);
        for s in &l.slots {
            key.extend([s.lo, s.hi, i64::from(s.zone), s.charge]);
        }
    }
    key.extend([
        group.apart,
        i64::from(group.zones_exclusive),
        i64::from(group.class),
    ]);
    key
}

/// One set as a nest group; without prices charges count nothing, but a place that only the order
/// permits counts as one more splice.
pub(crate) fn group(week: &Week, priced: bool, class: u8, set: &SpliceSet) -> Group {
    let line = |l: &SpliceLine| Line {
        length: l.long.ticks(),
        whole: l.whole.ticks(),
        gap: week.shop.splice.root_gap.ticks(),
        least_splices: l.least,
        most_splices: l.most,
        least_piece: l.least_piece.ticks(),
        three_over: week.shop.splice.three_within.ticks(),
        slots: l
            .windows
            .iter()
            .map(|w| Slot {
                lo: w.lo.ticks(),
                hi: w.hi.ticks(),
                zone: w.bay,
                charge: match (priced, w.class) {
                    (true, _) => units(w.charge),
                    (false, WindowClass::ByOrder) => UNPRICED_SPLICE,
                    (false, _) => 0,
                },
            })
            .collect(),
    };
    Group {
        name: week.gates[set.gate].mark.clone(),
        count: set.count(),
        class,
        lines: set.lines.iter().map(line).collect(),
        apart: set.apart.ticks(),
        zones_exclusive: set.bays_exclusive,
        splice_cost: if priced {
            units(week.shop.splice.cost)
        } else {
            UNPRICED_SPLICE
        },
    }
}
