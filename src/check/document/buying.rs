//! The buy list, spares, and joints left whole: counts, feet, weights and money of every line.

use std::collections::BTreeSet;

use super::form::Buy;
use super::papers::{HALF_CENT, Papers, money, number, within};
use super::parts::weigh;
use crate::check::Rule;
use crate::check::docket::Docket;

/// Judges every line.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    let mut quotes = BTreeSet::new();
    for line in &papers.plan.buy {
        let name = format!("quote {} of {}", line.quote, line.supplier);
        docket.demand(quotes.insert(line.quote), Rule::FileBuy, &name, || {
            "two lines of one quote".to_owned()
        });
        each(papers, line, &name, docket);
    }
    spares(papers, docket);
    uncut(papers, docket);
}

fn each(papers: &Papers<'_>, line: &Buy, name: &str, docket: &mut Docket) {
    let plan = papers.plan;
    let cut = plan.joints.iter().filter(|j| j.quote == Some(line.quote));
    let whole = plan.uncut.iter().filter(|u| u.quote == line.quote);
    let own = number(cut.count()) + whole.map(|u| i128::from(u.joints)).sum::<i128>();
    docket.same(i128::from(line.joints), own, Rule::FileBuy, name);
    let billed = i128::from(line.joint.ticks) * i128::from(line.joints);
    docket.same(i128::from(line.billed.ticks), billed, Rule::FileBuy, name);
    let weight = weigh(papers, &plan.pipes[line.pipe], line.billed.ticks);
    let near = line.weight.is_some_and(|w| within(w, weight, 0.050_1));
    docket.demand(near, Rule::FileBuy, name, || {
        format!("a weight of {:?}, {weight} found", line.weight)
    });
    let agrees = match (line.each, line.money) {
        (Some(each), Some(money)) => within(money, each * f64::from(line.joints), HALF_CENT),
        (each, money) => each.is_none() && money.is_none(),
    };
    docket.demand(agrees, Rule::FileBuy, name, || {
        format!("{:?} for {} at {:?}", line.money, line.joints, line.each)
    });
    // One supplier has one rate of tax.
    let rate = |b: &Buy| Some((b.money?, b.tax?));
    let first = plan.buy.iter().filter(|b| b.supplier == line.supplier);
    let first = first
        .filter(|b| b.money.is_some_and(|m| m > 0.0))
        .find_map(rate);
    let fits = match (rate(line), first) {
        (Some((money, tax)), Some((m, t))) => {
            tax >= 0.0 && within(tax * m, t * money, HALF_CENT * (m + money))
        }
        (own, _) => own.is_none() && line.tax.is_none(),
    };
    docket.demand(fits, Rule::FileBuy, name, || {
        format!("a tax of {:?} on {:?}", line.tax, line.money)
    });
}

fn spares(papers: &Papers<'_>, docket: &mut Docket) {
    let mut pipes = BTreeSet::new();
    for spare in &papers.plan.spares {
        let name = format!("spares of quote {}", spare.quote);
        docket.demand(pipes.insert(spare.pipe), Rule::FileSpares, &name, || {
            "two lines of spares for one pipe".to_owned()
        });
        let line = papers.plan.buy.iter().find(|b| b.quote == spare.quote);
        let each = line.and_then(|b| b.each);
        let fits = line.is_none_or(|b| b.pipe == spare.pipe)
            && match (each, spare.money) {
                (Some(each), Some(m)) => within(m, each * f64::from(spare.joints), HALF_CENT),
                _ => line.is_none() || (each.is_none() && spare.money.is_none()),
            };
        docket.demand(fits, Rule::FileSpares, &name, || {
            format!("{} for {:?}", spare.joints, spare.money)
        });
    }
}

/// Joints left whole are bought, and credited by what a whole one is worth.
fn uncut(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    for row in &plan.uncut {
        let listed = papers.pipe_of_quote(row.quote).is_some();
        docket.demand(listed, Rule::FileBuy, "uncut", || {
            format!("quote {} is not on the buy list", row.quote)
        });
    }
    for outcome in &plan.outcomes {
        let Some((pool, answer)) = papers.pool(outcome.pipe) else {
            continue;
        };
        let whole = answer.patterns.iter().filter(|p| p.cuts.is_empty());
        let own = whole.map(|p| {
            let usable = pool.stocks.get(p.stock).map_or(0, |s| s.usable);
            let feet = usable / pool.credit.foot.max(1);
            let kept = usable >= pool.credit.keep;
            let each = i128::from(pool.credit.per_foot) * i128::from(if kept { feet } else { 0 });
            each * i128::from(p.times)
        });
        let own = money(own.sum());
        let mine = |u: &&super::form::Uncut| papers.pipe_of_quote(u.quote) == Some(outcome.pipe);
        let said: f64 = plan.uncut.iter().filter(mine).map(|u| u.credit).sum();
        let rows = plan.uncut.len();
        let apart = HALF_CENT * f64::from(u32::try_from(rows).unwrap_or(u32::MAX).max(1));
        docket.near(said, own, apart, Rule::FileBuy, "uncut");
    }
}
