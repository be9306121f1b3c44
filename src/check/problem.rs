//! The nest problem re-derived from the orders; the plan's must equal it, else a proof proves
//! nothing about the week.

use std::collections::{BTreeMap, BTreeSet};

use super::case::Case;
use super::delivery;
use super::docket::Docket;
use super::open::Open;
use super::rule::Rule;
use super::splice_set::{Set, group};
use super::supply::quote_name;
use super::tariff::{Tariff, new_usable, on_sale, rack_usable, tax};
use crate::measure::{Length, Money};
use crate::nest::{Aim, Credit, Group, Item, Pool, Slot};
use crate::order::{PipeId, Quote, Week};
use crate::plan::JointSource;
use crate::stock::{PoolSource, PoolStock, StockOrigin};

/// Judges the nest problem, pool by pool.
pub(super) fn judge(case: &Case<'_>, tariff: &Tariff, sets: &[Set], docket: &mut Docket) {
    let (plan, problem) = (case.plan, &case.plan.nest.problem);
    docket.same(problem.aim, Aim::Money, Rule::NestAim, "problem");
    let lengths = (problem.pools.len(), plan.nest.answers.len());
    docket.same(
        lengths,
        (plan.pools.len(), plan.pools.len()),
        Rule::NestPools,
        "problem",
    );
    let listed: BTreeSet<PipeId> = plan.pools.iter().map(|p| p.pipe).collect();
    let open = Open::of(case);
    for (index, part) in case.take_off.parts.iter().enumerate() {
        let still = open.plain(case, index) > 0 || open.of_lines(index).next().is_some();
        let wanted = part.ours && still && !case.part_left_out(part);
        docket.demand(
            !wanted || listed.contains(&part.pipe),
            Rule::NestPools,
            &part.mark,
            || format!("no pool of {}", case.week.pipe(part.pipe).title()),
        );
    }
    for (source, pool) in plan.pools.iter().zip(&problem.pools) {
        figures(case, tariff, source, pool, docket);
        stocks(case, tariff, source, pool, docket);
        let name = case.week.pipe(source.pipe).title();
        let own = items(case, source.pipe, sets);
        docket.same(&sorted_items(&pool.items), &own, Rule::NestItems, &name);
        let splice = tariff.splice(case.week, source.pipe);
        let charge = |class| tariff.class_charge(case.week, source.pipe, class);
        let own = sets
            .iter()
            .filter(|s| s.lines.first().is_some_and(|l| l.lane.pipe == source.pipe))
            .filter(|s| !s.copies.is_empty())
            .map(|s| {
                let class = delivery::class(case.week, source.pipe, Some(s.gate));
                group(case.week, s, class, (splice, &charge))
            })
            .collect();
        docket.same(
            merged(pool.groups.clone()),
            merged(own),
            Rule::NestGroups,
            &name,
        );
    }
    group_map(case, docket);
}

fn figures(
    case: &Case<'_>,
    tariff: &Tariff,
    source: &PoolSource,
    pool: &Pool,
    docket: &mut Docket,
) {
    let name = case.week.pipe(source.pipe).title();
    let shop = &case.week.shop;
    docket.same(pool.mark, shop.saw.mark.ticks(), Rule::NestMark, &name);
    docket.same(pool.kerf, shop.saw.kerf.ticks(), Rule::NestKerf, &name);
    let rate = tariff.rate(source.pipe);
    let credit = Credit {
        keep: shop.money.keep_length.ticks(),
        foot: Length::FOOT.ticks(),
        per_foot: rate,
    };
    docket.same(pool.credit, credit, Rule::NestCredit, &name);
    let per_foot = Money::from_millicents(rate);
    docket.same(source.credit_per_foot, per_foot, Rule::NestCredit, &name);
    docket.same(
        source.priced,
        tariff.priced(source.pipe),
        Rule::NestPriced,
        &name,
    );
}

/// The stocks of a pipe as the judge finds them, by origin.
fn own_stocks(week: &Week, tariff: &Tariff, pipe: PipeId) -> BTreeMap<(bool, usize), PoolStock> {
    let saw = &week.shop.saw;
    let mut out = BTreeMap::new();
    let taxed = |q: &Quote| tariff.priced(pipe) && !tax(week, q).is_zero();
    for (index, quote) in on_sale(week, pipe) {
        let stock = PoolStock {
            origin: StockOrigin::Quote(index),
            length: quote.planning,
            near: saw.near_trim,
            far: saw.far_trim,
            hold: saw.hold_back,
            usable: new_usable(week, quote),
            cost: Money::from_millicents(tariff.cost(week, JointSource::Bought(index))),
            price: quote.price.filter(|_| taxed(quote)),
            serves: delivery::serves(week, pipe, delivery::day(week, quote)),
            limit: to_be_had(week, quote),
        };
        out.insert((false, index), stock);
    }
    for (index, row) in week.rack.iter().enumerate() {
        let usable = rack_usable(week, index);
        if row.pipe != pipe || row.count == 0 || usable <= Length::ZERO {
            continue;
        }
        let trim = |wanted: bool, t: Length| if wanted { t } else { Length::ZERO };
        let stock = PoolStock {
            origin: StockOrigin::Rack(index),
            length: row.length,
            near: trim(row.near_trim, saw.near_trim),
            far: trim(row.far_trim, saw.far_trim),
            hold: saw.hold_back,
            usable,
            cost: Money::from_millicents(tariff.cost(week, JointSource::Rack(index, 0))),
            price: None,
            serves: delivery::serves(week, pipe, row.arrives),
            limit: Some(row.count),
        };
        out.insert((true, index), stock);
    }
    out
}

/// Joints to be had at a row's price: as many as the supplier has, but no more than leave the count short
/// of the offer's next break.
fn to_be_had(week: &Week, quote: &Quote) -> Option<u32> {
    let mut most = quote.available;
    for other in &week.quotes {
        let count = other.terms.from;
        if quote.same_joint(other) && count >= 2 && count > quote.terms.from {
            most = Some(most.map_or(count - 1, |m| m.min(count - 1)));
        }
    }
    most
}

fn stocks(case: &Case<'_>, tariff: &Tariff, source: &PoolSource, pool: &Pool, docket: &mut Docket) {
    let title = case.week.pipe(source.pipe).title();
    let mut own = own_stocks(case.week, tariff, source.pipe);
    docket.same(
        pool.stocks.len(),
        source.stocks.len(),
        Rule::NestStocks,
        &title,
    );
    for (listed, stock) in source.stocks.iter().zip(&pool.stocks) {
        let key = match listed.origin {
            StockOrigin::Quote(q) => (false, q),
            StockOrigin::Rack(r) => (true, r),
        };
        let Some(want) = own.remove(&key) else {
            let what = format!(
                "{:?} is not a stock of this pipe, or is listed twice",
                listed.origin
            );
            docket.say(Rule::NestStocks, &title, what);
            continue;
        };
        let name = match listed.origin {
            StockOrigin::Quote(q) => quote_name(case, q),
            StockOrigin::Rack(r) => case.week.rack[r].tag.clone(),
        };
        docket.same(listed, &want, Rule::NestStocks, &name);
        docket.same(
            stock.usable,
            want.usable.ticks(),
            Rule::NestStockUsable,
            &name,
        );
        docket.same(
            Some(stock.cost),
            want.cost.millicents(),
            Rule::NestStockCost,
            &name,
        );
        docket.same(stock.limit, want.limit, Rule::NestStockLimit, &name);
        docket.same(
            stock.length,
            want.length.ticks(),
            Rule::NestStockLength,
            &name,
        );
        docket.same(stock.serves, want.serves, Rule::NestStockServes, &name);
        let price = want.price.map(|p| p.millicents().unwrap_or(0));
        docket.same(stock.price, price, Rule::NestStockPrice, &name);
        let whole = tariff.credit(case.week, source.pipe, want.usable);
        let pays =
            key.0 || !tariff.priced(source.pipe) || want.cost > Money::from_millicents(whole);
        docket.demand(pays, Rule::StockPaysAsDrop, &name, || {
            format!("it costs {} and would be credited {whole} uncut", want.cost)
        });
    }
    for (_, missing) in own {
        let what = format!("{:?} is not among the stocks", missing.origin);
        docket.say(Rule::NestStocks, &title, what);
    }
}

/// Items by length and class, longest first, equal ones together.
fn sorted_items(items: &[Item]) -> Vec<(i64, u8, u64)> {
    let mut sums: BTreeMap<(i64, u8), u64> = BTreeMap::new();
    for item in items {
        *sums.entry((item.length, item.class)).or_default() += u64::from(item.count);
    }
    let rows = sums.into_iter().rev().filter(|(_, n)| *n > 0);
    rows.map(|((length, class), n)| (length, class, n))
        .collect()
}

fn items(case: &Case<'_>, pipe: PipeId, sets: &[Set]) -> Vec<(i64, u8, u64)> {
    let lanes: BTreeSet<usize> = sets
        .iter()
        .flat_map(|s| s.lines.iter().map(|l| l.part))
        .collect();
    let open = Open::of(case);
    let mut items = Vec::new();
    for (index, part) in case.take_off.parts.iter().enumerate() {
        if !part.ours || part.pipe != pipe || case.part_left_out(part) {
            continue;
        }
        let class = delivery::class(case.week, pipe, part.gate);
        let mut cut = |length: Length, count: u32| {
            items.push(Item {
                length: length.ticks(),
                count,
                class,
            });
        };
        if !lanes.contains(&index) {
            cut(part.saw, open.plain(case, index));
        }
        open.of_lines(index).for_each(|length| cut(length, 1));
    }
    sorted_items(&items)
}

/// Groups of one shape together, without their names, in a fixed order; touching slots of one zone
/// and charge joined.
fn merged(groups: Vec<Group>) -> Vec<Group> {
    let mut out: Vec<Group> = Vec::new();
    for mut group in groups {
        group.name.clear();
        for line in &mut group.lines {
            line.slots = joined(std::mem::take(&mut line.slots));
        }
        let count = std::mem::take(&mut group.count);
        match out.iter_mut().find(|g| shape(g) == shape(&group)) {
            Some(found) => found.count = found.count.saturating_add(count),
            None => {
                group.count = count;
                out.push(group);
            }
        }
    }
    out.sort_by_key(|g| format!("{:?}", shape(g)));
    out
}

fn shape(group: &Group) -> Group {
    Group {
        count: 0,
        ..group.clone()
    }
}

fn joined(mut slots: Vec<Slot>) -> Vec<Slot> {
    slots.sort_by_key(|s| (s.lo, s.hi));
    let mut out: Vec<Slot> = Vec::new();
    for slot in slots {
        match out.last_mut() {
            Some(last)
                if last.zone == slot.zone && last.charge == slot.charge && slot.lo <= last.hi =>
            {
                last.hi = last.hi.max(slot.hi);
            }
            _ => out.push(slot),
        }
    }
    out
}

/// Which sets a nest group stands for: each set once, counts added up.
fn group_map(case: &Case<'_>, docket: &mut Docket) {
    let nest = &case.plan.nest;
    docket.same(
        nest.groups.len(),
        nest.problem.pools.len(),
        Rule::NestGroupMap,
        "problem",
    );
    let mut seen = BTreeSet::new();
    for (pool, map) in nest.problem.pools.iter().zip(&nest.groups) {
        docket.same(map.len(), pool.groups.len(), Rule::NestGroupMap, &pool.name);
        for (group, sets) in pool.groups.iter().zip(map) {
            let mut count = 0u64;
            for index in sets {
                docket.demand(seen.insert(*index), Rule::NestGroupMap, &group.name, || {
                    format!("set {index} stands in two groups")
                });
                let set = case.plan.splice_sets.get(*index);
                count += set.map_or(0, |s| u64::from(s.count()));
            }
            docket.same(
                u64::from(group.count),
                count,
                Rule::NestGroupMap,
                &group.name,
            );
        }
    }
    let open = case
        .plan
        .splice_sets
        .iter()
        .filter(|s| !s.copies.is_empty());
    docket.same(seen.len(), open.count(), Rule::NestGroupMap, "problem");
}
