//! A nest problem that is not the week's: the judge names what differs.

use longpoint::check::Rule;
use longpoint::nest::Aim;

use super::spoil::{Spoil, all_named};
use crate::tiny;
use crate::tiny_week::week;

pub const NEST: &[(Rule, Spoil)] = &[
    (Rule::NestItems, |p, _, _| {
        p.nest.problem.pools[0].items[0].count += 1
    }),
    (Rule::NestItems, |p, _, _| {
        p.nest.problem.pools[0].items[0].length -= 508
    }),
    (Rule::NestGroups, |p, _, _| {
        let pool = p
            .nest
            .problem
            .pools
            .iter_mut()
            .find(|p| !p.groups.is_empty());
        let group = &mut pool.expect("a pool with groups").groups[0];
        group.lines[0].slots[0].lo += 508;
    }),
    (Rule::NestGroups, |p, _, _| {
        let pool = p
            .nest
            .problem
            .pools
            .iter_mut()
            .find(|p| !p.groups.is_empty());
        pool.expect("a pool with groups").groups[0].apart = 0;
    }),
    (Rule::NestGroupMap, |p, _, _| {
        for map in p.nest.groups.iter_mut().flatten() {
            map.push(0);
        }
    }),
    (Rule::NestKerf, |p, _, _| p.nest.problem.pools[0].kerf = 0),
    (Rule::NestMark, |p, _, _| p.nest.problem.pools[0].mark = 1),
    (Rule::NestCredit, |p, _, _| {
        p.nest.problem.pools[0].credit.per_foot += 1
    }),
    (Rule::NestStockUsable, |p, _, _| {
        p.nest.problem.pools[0].stocks[0].usable += 1
    }),
    (Rule::NestStockCost, |p, _, _| {
        p.nest.problem.pools[0].stocks[0].cost += 1
    }),
    (Rule::NestStockLimit, |p, _, _| {
        p.nest.problem.pools[0].stocks[0].limit = Some(0);
    }),
    (Rule::NestStocks, |p, _, _| {
        p.nest.problem.pools[0].stocks.pop();
    }),
    (Rule::NestPools, |p, _, _| {
        p.nest.problem.pools.pop();
    }),
    (Rule::NestAim, |p, _, _| p.nest.problem.aim = Aim::Joints),
    (Rule::CertificateAim, |p, _, _| {
        p.nest.problem.aim = Aim::Waste;
        p.nest.problem.pools[0].stocks[0].cost = 1 << 39;
    }),
    (Rule::NestPriced, |p, _, _| p.pools[0].priced ^= true),
    (Rule::NestStockLength, |p, _, _| {
        p.nest.problem.pools[0].stocks[0].length += 1;
    }),
    (Rule::NestStockServes, |p, _, _| {
        p.nest.problem.pools[0].stocks[0].serves = 1;
    }),
    (Rule::StockPaysAsDrop, |_, w, _| {
        w.shop.money.credit_rate = tiny::dec("1.2");
    }),
    (Rule::NestPatterns, |p, _, _| {
        p.nest.answers[0].patterns[0].times += 1;
    }),
];

#[test]
fn a_problem_that_is_not_the_weeks_is_named() {
    all_named(week, NEST);
}
