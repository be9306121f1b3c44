//! Fees, ledger, total, gate costs and references: each line the sum of what it is made of.

use super::form::{FeeKind, GateCost, Ledger};
use super::papers::{HALF_CENT, Papers, SAME, money, number, wide, within};
use crate::check::Rule;
use crate::check::docket::Docket;
use crate::measure::{INCH, MM};
use crate::nest::Status;

/// Judges the money of the week.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    priced(papers, docket);
    fees(papers, docket);
    if let Some(own) = &papers.plan.ledger {
        ledger(papers, own, docket);
    }
    gate_costs(papers, docket);
    references(papers, docket);
}

/// Where every pipe has money the week has, and nowhere else; a priced pipe has a price on every line.
fn priced(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let all = plan.outcomes.iter().all(|o| o.priced);
    let said = (plan.ledger.is_some(), plan.totals.money.is_some());
    docket.same(said, (all, all), Rule::FilePriced, "totals");
    docket.demand(
        all || plan.gate_costs.is_empty(),
        Rule::FilePriced,
        "gate costs",
        || "a price is missing, and gates have costs".to_owned(),
    );
    for outcome in plan.outcomes.iter().filter(|o| o.priced) {
        let mut lines = plan.buy.iter().filter(|b| b.pipe == outcome.pipe);
        let known = lines.all(|b| b.money.is_some());
        docket.demand(
            known,
            Rule::FilePriced,
            &plan.pipes[outcome.pipe].title,
            || "it has money, and a line of it has none".to_owned(),
        );
    }
}

/// So many figures, each rounded once.
fn rounded(n: usize) -> f64 {
    HALF_CENT * f64::from(u32::try_from(n).unwrap_or(u32::MAX).max(1))
}

fn fees(papers: &Papers<'_>, docket: &mut Docket) {
    let fees = &papers.plan.fees;
    let charges = papers
        .whole
        .map_or(0, |w| w.charges.iter().map(|c| i128::from(*c)).sum());
    let sum: f64 = fees.iter().map(|f| f.money).sum();
    docket.near(
        sum,
        money(charges),
        rounded(fees.len()),
        Rule::FileFees,
        "fees",
    );
    let owed = fees.iter().all(|f| f.money >= 0.0);
    docket.demand(owed, Rule::FileFees, "fees", || {
        "a fee under nothing".to_owned()
    });
}

fn ledger(papers: &Papers<'_>, said: &Ledger, docket: &mut Docket) {
    let plan = papers.plan;
    let of = |kind| {
        let fees = plan.fees.iter().filter(move |f| f.kind == kind);
        fees.map(|f| f.money).sum::<f64>()
    };
    let bought: f64 = plan.buy.iter().filter_map(|b| b.money).sum();
    let taxes: f64 = plan.buy.iter().filter_map(|b| b.tax).sum();
    let kept: f64 = plan.kept.iter().filter_map(|k| k.credit).sum();
    let whole: f64 = plan.uncut.iter().map(|u| u.credit).sum();
    let stocks = plan
        .outcomes
        .iter()
        .map(|o| i128::from(o.pipe_money_millicents));
    let rack = money(stocks.sum()) - bought - taxes;
    let (splices, welds) = welds(papers);
    let mut line = |name: &str, said: f64, own: f64, apart: f64| {
        docket.near(said, own, apart, Rule::FileLedger, name);
    };
    line("pipe", said.pipe, bought, SAME);
    line("tax", said.tax, taxes, SAME);
    line("freight", said.freight, of(FeeKind::Freight), SAME);
    line("lifts", said.lifts, of(FeeKind::Lift), SAME);
    line("minimum", said.minimum, of(FeeKind::Minimum), SAME);
    line("rack", said.rack, rack, rounded(2 * plan.buy.len() + 1));
    line("splices", said.splices, splices, HALF_CENT);
    line("classes", said.classes, welds - splices, 2.0 * HALF_CENT);
    line(
        "kept",
        said.kept,
        kept + whole,
        rounded(1 + plan.uncut.len()),
    );
    let fees = said.freight + said.lifts + said.minimum;
    let total = said.pipe + said.tax + fees + said.rack + said.splices + said.classes - said.kept;
    line("total", said.total, total, SAME);
    line(
        "total",
        plan.totals.money.unwrap_or(f64::NAN),
        said.total,
        SAME,
    );
}

/// Money of all splices without and with what their places cost, out of the verified costs: what an answer
/// costs beside its joints less their drops.
fn welds(papers: &Papers<'_>) -> (f64, f64) {
    let (mut splices, mut all) = (0i128, 0i128);
    for (pool, answer) in papers.problem.pools.iter().zip(papers.answers) {
        all += i128::from(answer.cost);
        for pattern in &answer.patterns {
            let Some(stock) = pool.stocks.get(pattern.stock) else {
                continue;
            };
            let lengths = pattern.cuts.iter().map(|cut| match *cut {
                crate::nest::Cut::Item(i) => pool.items.get(i).map_or(0, |i| i.length),
                crate::nest::Cut::Piece { length, .. } => length,
            });
            let filled: i64 = lengths.map(|l| l + pool.kerf).sum();
            let drop = (stock.usable - filled).max(0);
            let feet = if drop >= pool.credit.keep {
                drop / pool.credit.foot.max(1)
            } else {
                0
            };
            let credit = i128::from(pool.credit.per_foot) * i128::from(feet);
            all -= (i128::from(stock.cost) - credit) * i128::from(pattern.times);
        }
        for made in &answer.configurations {
            let each = pool.groups.get(made.group).map_or(0, |g| g.splice_cost);
            let welds: usize = made.lines.iter().map(|l| l.len().saturating_sub(1)).sum();
            splices += i128::from(each) * i128::from(made.times) * number(welds);
        }
    }
    (money(splices), money(all))
}

fn gate_costs(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let Some(total) = plan.totals.money else {
        return;
    };
    for row in &plan.gate_costs {
        gate_cost(papers, row, docket);
    }
    let sum: f64 = plan.gate_costs.iter().map(|c| c.money).sum();
    let welded: f64 = plan.gate_costs.iter().map(|c| c.splices).sum();
    let ledger = plan.ledger.as_ref().map_or(0.0, |l| l.splices + l.classes);
    docket.near(sum, total, SAME, Rule::FileGateCosts, "rows");
    docket.near(welded, ledger, SAME, Rule::FileGateCosts, "splices");
    let rows = plan.gate_costs.iter().filter_map(|c| c.gate);
    let rows: Vec<usize> = rows.collect();
    let gates = 0..plan.gates.len();
    let own = gates.filter(|g| plan.gates[*g].count > 0 && !papers.gate_left_out(*g));
    docket.same(rows, own.collect(), Rule::FileGateCosts, "rows");
}

fn gate_cost(papers: &Papers<'_>, row: &GateCost, docket: &mut Docket) {
    let plan = papers.plan;
    let sum = row.pipe + row.splices + row.shared;
    docket.near(row.money, sum, SAME, Rule::FileGateCosts, &row.mark);
    let each = row.money / f64::from(row.count);
    docket.near(row.each, each, HALF_CENT, Rule::FileGateCosts, &row.mark);
    let Some(gate) = row.gate.map(|g| &plan.gates[g]) else {
        return;
    };
    let said = (row.mark.as_str(), row.count);
    let own = (gate.mark.as_str(), gate.count);
    docket.same(said, own, Rule::FileGateCosts, &row.mark);
    let unit = if plan.units == "mm" {
        1000.0 * MM
    } else {
        12.0 * INCH
    };
    let per = each * unit / wide(gate.opening.ticks.into());
    let near = row
        .per_opening
        .is_some_and(|said| within(said, per, HALF_CENT));
    docket.demand(near, Rule::FileGateCosts, &row.mark, || {
        format!("{:?} by the opening, {per} found", row.per_opening)
    });
}

/// No other way of working is cheaper than the bound, and none that failed has a price.
fn references(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let bounded = Status::has_plan;
    let known = papers.answers.iter().all(|a| bounded(a.status));
    let alone = papers.answers.iter().map(|a| i128::from(a.bound)).sum();
    let bound = money(papers.whole.map_or(alone, |w| w.bound.into()));
    for reference in &plan.references {
        let name = reference.name.as_str();
        docket.demand(
            reference.failed.is_none() || reference.money.is_none(),
            Rule::FileReferences,
            name,
            || "it could not do the week, and has a price".to_owned(),
        );
        let (Some(said), Some(total), true) = (reference.money, plan.totals.money, known) else {
            continue;
        };
        let pooled = name.starts_with("longest first");
        let cents = rounded(2 * plan.buy.len() + plan.fees.len() + 4);
        let sane = said >= bound - HALF_CENT && (!pooled || total <= said + cents);
        docket.demand(sane, Rule::FileReferences, name, || {
            format!("{said}; the plan costs {total}, no less than {bound}")
        });
    }
}
