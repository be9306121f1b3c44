//! The reference every answer must beat: naive legal splices, then longest first, best fit.

use super::answer::{Configuration, Cut, PoolAnswer, Status, StopReason};
use super::best_fit::{Need, Packed, best_fit, cut_length};
use super::couple::{Coupling, THOROUGH_WORK, couple};
use super::placing::Means;
use super::price::Price;
use super::problem::{Group, Pool};
use super::proof::{Branch, Leaf};
use super::tie::is_taken;

/// Longest-first best-fit with naive legal splices (fewest, cheapest places); `None` when something
/// cannot be had that way. The bound is 0 here.
pub fn longest_first(pool: &Pool) -> Option<PoolAnswer> {
    let answer = first_answer(pool, &|| false);
    (answer.status != Status::Short).then_some(answer)
}

/// The best longest-first answer over a few fixed stock orders; what is missing is named in it.
pub(super) fn first_answer(pool: &Pool, stop: &dyn Fn() -> bool) -> PoolAnswer {
    let mut best: Option<PoolAnswer> = None;
    // Where stocks without limit hold the longest pieces, both ways are one.
    let same =
        |g: &Group| longest_piece(pool, g.class, true) == longest_piece(pool, g.class, false);
    let ways: &[bool] = match pool.groups.iter().all(same) {
        true => &[false],
        false => &[true, false],
    };
    for &endless in ways {
        let configurations = naive_splices(pool, endless, stop);
        let needs = needs(pool, &configurations);
        for order in orders(pool) {
            let packed = best_fit(pool, Vec::new(), &needs, &order);
            let answer = answer_of(pool, packed, &configurations);
            if best.as_ref().is_none_or(|b| goes_first(pool, &answer, b)) {
                best = Some(answer);
            }
        }
    }
    best.unwrap_or_else(|| nothing_cut(pool))
}

/// Fewest missing first, then money and what decides between equal money.
fn goes_first(pool: &Pool, one: &PoolAnswer, other: &PoolAnswer) -> bool {
    let (mine, theirs) = (missing(one), missing(other));
    if mine != theirs || mine > 0 {
        return (mine, one.cost) < (theirs, other.cost);
    }
    is_taken(pool, one, other)
}

fn missing(answer: &PoolAnswer) -> u64 {
    answer.short.iter().map(|s| u64::from(s.1)).sum::<u64>()
        + answer
            .short_groups
            .iter()
            .map(|s| u64::from(s.1))
            .sum::<u64>()
}

/// Longest piece of a class any stock holds; only stocks without limit if asked.
pub(super) fn longest_piece(pool: &Pool, class: u8, endless: bool) -> i64 {
    let stocks = pool
        .stocks
        .iter()
        .filter(|s| s.serves >> class & 1 == 1 && s.limit != Some(0));
    let lengths = stocks
        .filter(|s| !endless || s.limit.is_none())
        .map(|s| s.usable);
    lengths.max().unwrap_or(0)
}

/// The fewest and cheapest legal splices of every group for which any are found.
pub(super) fn naive_splices(
    pool: &Pool,
    endless: bool,
    stop: &dyn Fn() -> bool,
) -> Vec<Configuration> {
    let mut made = Vec::new();
    for (g, group) in pool.groups.iter().enumerate().filter(|(_, g)| g.count > 0) {
        let found = any_splices(pool, group, longest_piece(pool, group.class, endless), stop);
        made.extend(found.lines().map(|lines| Configuration {
            group: g,
            times: group.count,
            lines,
        }));
    }
    made
}

/// The fewest and cheapest splices of a group out of pieces no longer than `longest`, whatever they cut.
pub(super) fn any_splices(
    pool: &Pool,
    group: &Group,
    longest: i64,
    stop: &dyn Fn() -> bool,
) -> Coupling {
    let price = Price::new(&[], longest);
    let means = Means {
        enough: i64::MAX,
        work: THOROUGH_WORK,
        stop,
    };
    couple(group, pool.mark, &price, (1, group.splice_cost), &means)
}

/// Everything to be cut under these configurations.
pub(super) fn needs(pool: &Pool, configurations: &[Configuration]) -> Vec<Need> {
    let mut needs: Vec<Need> = Vec::new();
    for (i, item) in pool.items.iter().enumerate() {
        needs.push(Need {
            cut: Cut::Item(i),
            length: item.length,
            class: item.class,
            count: u64::from(item.count),
        });
    }
    let mut pieces = std::collections::BTreeMap::new();
    for configuration in configurations {
        let class = pool.groups[configuration.group].class;
        for &length in configuration.lines.iter().flatten() {
            *pieces.entry((length, class)).or_insert(0u64) += u64::from(configuration.times);
        }
    }
    needs.extend(pieces.into_iter().map(|((length, class), count)| Need {
        cut: Cut::Piece { length, class },
        length,
        class,
        count,
    }));
    needs
}

/// Orders in which new joints are taken: limited ones shortest first and then the rest by price per
/// length; the same without favour; and each endless stock before all others.
pub(super) fn orders(pool: &Pool) -> Vec<Vec<usize>> {
    let all: Vec<usize> = (0..pool.stocks.len()).collect();
    let per_length = |s: &usize| {
        let stock = &pool.stocks[*s];
        (i128::from(stock.cost) << 40) / i128::from(stock.usable.max(1))
    };
    let limited = |s: &usize| pool.stocks[*s].limit.is_some();
    let mut by_price = all.clone();
    by_price.sort_by_key(|s| (per_length(s), *s));
    let mut rack_first = by_price.clone();
    rack_first.sort_by_key(|s| {
        if limited(s) {
            (0, pool.stocks[*s].usable)
        } else {
            (1, 0)
        }
    });
    let mut orders = vec![rack_first.clone(), by_price.clone()];
    for first in all.iter().filter(|s| !limited(s)) {
        for base in [&by_price, &rack_first] {
            let mut order = base.clone();
            order.retain(|s| s != first);
            let at = order
                .iter()
                .take_while(|s| base == &rack_first && limited(s))
                .count();
            order.insert(at, *first);
            orders.push(order);
        }
    }
    orders.sort();
    orders.dedup();
    orders
}

/// A packing under these configurations as an answer; what is missing is named in it.
pub(super) fn answer_of(
    pool: &Pool,
    packed: Packed,
    configurations: &[Configuration],
) -> PoolAnswer {
    let mut answer = nothing_cut(pool);
    answer.patterns = packed.patterns;
    answer.configurations = configurations.to_vec();
    let spliced = configurations
        .iter()
        .map(|c| splices_money(pool, c))
        .sum::<i64>();
    answer.cost = packed.cost + spliced;
    answer
        .short_groups
        .retain(|(g, _)| configurations.iter().all(|c| c.group != *g));
    answer.short = Vec::new();
    let mut lost: Vec<Need> = Vec::new();
    for need in packed.missing {
        match need.cut {
            Cut::Item(i) => {
                answer
                    .short
                    .push((i, u32::try_from(need.count).unwrap_or(u32::MAX)));
            }
            Cut::Piece { .. } => lost.push(need),
        }
    }
    answer.short.sort_unstable();
    if !lost.is_empty() {
        unmake(pool, &mut answer, lost);
    }
    let whole = answer.short.is_empty() && answer.short_groups.is_empty();
    answer.status = if whole { Status::Within } else { Status::Short };
    answer
}

/// Money of splices and charges of a configuration, all its times.
fn splices_money(pool: &Pool, c: &Configuration) -> i64 {
    let group = &pool.groups[c.group];
    super::rules::configuration_cost(group, pool.mark, &c.lines).unwrap_or(0) * i64::from(c.times)
}

/// Takes back configurations whose pieces are missing: their pieces already cut go too.
fn unmake(pool: &Pool, answer: &mut PoolAnswer, lost: Vec<Need>) {
    let mut lost: Vec<(Cut, u64)> = lost.into_iter().map(|n| (n.cut, n.count)).collect();
    let mut spare: Vec<Cut> = Vec::new();
    for configuration in &mut answer.configurations {
        let class = pool.groups[configuration.group].class;
        let before = configuration.times;
        let cuts: Vec<Cut> = configuration
            .lines
            .iter()
            .flatten()
            .map(|&length| Cut::Piece { length, class })
            .collect();
        while configuration.times > 0
            && cuts
                .iter()
                .any(|c| lost.iter().any(|(l, n)| l == c && *n > 0))
        {
            configuration.times -= 1;
            for cut in &cuts {
                match lost.iter_mut().find(|(l, n)| l == cut && *n > 0) {
                    Some((_, n)) => *n -= 1,
                    None => spare.push(*cut),
                }
            }
        }
        if configuration.times < before {
            answer
                .short_groups
                .push((configuration.group, before - configuration.times));
        }
    }
    answer.short_groups.sort_unstable();
    answer.configurations.retain(|c| c.times > 0);
    for cut in spare {
        remove_one(&mut answer.patterns, cut);
    }
    let net = |p: &super::answer::Pattern| -> i64 {
        let taken = p.cuts.iter().map(|c| cut_length(pool, c) + pool.kerf).sum();
        super::best_fit::net(pool, p.stock, taken).unwrap_or(0) * i64::from(p.times)
    };
    let spliced = answer
        .configurations
        .iter()
        .map(|c| splices_money(pool, c))
        .sum::<i64>();
    answer.cost = answer.patterns.iter().map(net).sum::<i64>() + spliced;
}

fn remove_one(patterns: &mut Vec<super::answer::Pattern>, cut: Cut) {
    let Some(p) = patterns.iter().position(|p| p.cuts.contains(&cut)) else {
        return;
    };
    let mut changed = patterns[p].clone();
    changed.times = 1;
    if let Some(at) = changed.cuts.iter().position(|c| *c == cut) {
        changed.cuts.remove(at);
    }
    patterns[p].times -= 1;
    if !changed.cuts.is_empty() {
        patterns.push(changed);
    }
    patterns.retain(|p| p.times > 0);
    patterns.sort_by(|a, b| (a.stock, &a.cuts).cmp(&(b.stock, &b.cuts)));
}

/// The empty answer: everything missing.
pub(super) fn nothing_cut(pool: &Pool) -> PoolAnswer {
    let items = pool.items.iter().enumerate().filter(|(_, i)| i.count > 0);
    let groups = pool.groups.iter().enumerate().filter(|(_, g)| g.count > 0);
    PoolAnswer {
        patterns: Vec::new(),
        configurations: Vec::new(),
        cost: 0,
        bound: 0,
        proof: vec![Branch::Leaf(Leaf::nothing(pool.items.len()))],
        status: Status::Short,
        stop: StopReason::Exhausted,
        short: items.map(|(i, item)| (i, item.count)).collect(),
        short_groups: groups.map(|(g, group)| (g, group.count)).collect(),
    }
}
