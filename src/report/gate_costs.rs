//! What each gate costs: the plan's landed money shared out, and per foot of opening.

use rust_decimal::Decimal;

use crate::measure::{Length, Money, Units};
use crate::plan::GateCost;

use super::figures::Figures;
use super::job::Job;
use super::sheet::{Block, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// How the money is shared, printed on the sheet.
pub(super) const SHARED: &str = "Each joint's money, less the credit of the drop kept from it, is shared over its \
                      pieces by saw length; kerf, trims and scrap go by the same share, and no gate pays \
                      for a drop that is kept. Splices go to their gate. What is paid for the order as a \
                      whole (freight, fees, a minimum, joints left whole less their credit) goes by the length \
                      cut from bought joints. Spare \
                      joints, labour other than splices, fabric, hardware and a kit's horizontals are \
                      not in it. Every column adds up to the plan's own money: to the cent, the cents that \
                      rounding leaves over going to the largest remainders.";

/// The sheet of gate costs.
pub(super) fn gate_costs(job: Job<'_>) -> Sheet {
    let costs = &job.plan.gate_costs;
    let mut blocks = Vec::new();
    if costs.is_empty() {
        blocks.push(Block::Note(
            "A price is missing, so no gate's money is known.".to_owned(),
        ));
    } else {
        blocks.push(Block::Table(table(job)));
        blocks.push(Block::Pairs(sums(job)));
        blocks.push(Block::Note(SHARED.to_owned()));
    }
    Sheet {
        stem: "gate_costs".to_owned(),
        title: "WHAT EACH GATE COSTS".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(table(job)),
    }
}

/// What the columns add up to.
pub(super) fn sums(job: Job<'_>) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let sum = |of: fn(&GateCost) -> Money| {
        let all: Money = job.plan.gate_costs.iter().map(of).sum();
        figures.spoken_money(Some(all))
    };
    vec![
        Block::pair("Pipe with its tax, less drops kept", sum(|c| c.pipe)),
        Block::pair("Splices with their charges", sum(|c| c.splices)),
        Block::pair("Order as a whole", sum(|c| c.shared)),
        Block::pair("All rows, the plan's total", sum(|c| c.total)),
    ]
}

/// A row a gate order or extra part.
pub(super) fn table(job: Job<'_>) -> Table {
    let figures = Figures::of(job.week);
    let per = match job.units() {
        Units::Inch => "per ft of opening",
        Units::Metric => "per m of opening",
    };
    Table {
        columns: vec![
            Column::new("gate", Kind::Mark),
            Column::new("count", Kind::Number),
            Column::new("pipe", Kind::Figure),
            Column::new("splices", Kind::Figure),
            Column::named("order as a whole", "shared", Kind::Figure),
            Column::new("money", Kind::Figure),
            Column::new("each", Kind::Figure),
            Column::named(per, "per_opening", Kind::Figure),
        ],
        rows: job
            .plan
            .gate_costs
            .iter()
            .map(|c| row(job, figures, c))
            .collect(),
    }
}

fn row(job: Job<'_>, figures: Figures<'_>, cost: &GateCost) -> Vec<Cell> {
    vec![
        Cell::text(mark(job, cost)),
        Cell::count(count(job, cost)),
        figures.money(Some(cost.pipe)),
        figures.money(Some(cost.splices)),
        figures.money(Some(cost.shared)),
        figures.money(Some(cost.total)),
        figures.money(each(job, cost)),
        figures.money(per_opening(job, cost)),
    ]
}

/// Mark of the gate or extra part.
pub(super) fn mark(job: Job<'_>, cost: &GateCost) -> String {
    let gate = cost.gate.and_then(|g| job.week.gates.get(g));
    let extra = cost.extra.and_then(|e| job.week.extras.get(e));
    let gate = gate.map(|g| g.mark.clone());
    gate.or(extra.map(|e| e.mark.clone())).unwrap_or_default()
}

/// How many of it.
pub(super) fn count(job: Job<'_>, cost: &GateCost) -> u32 {
    let gate = cost.gate.and_then(|g| job.week.gates.get(g));
    let extra = cost.extra.and_then(|e| job.week.extras.get(e));
    gate.map(|g| g.count)
        .or(extra.map(|e| e.count))
        .unwrap_or(0)
}

/// Money of one, rounded to the cent.
pub(super) fn each(job: Job<'_>, cost: &GateCost) -> Option<Money> {
    let n = Decimal::from(count(job, cost));
    Some(Money(cost.total.0.checked_div(n)?).cents())
}

/// Money of one gate by the foot (metre) of its clear opening, rounded to the cent; none of extra parts.
pub(super) fn per_opening(job: Job<'_>, cost: &GateCost) -> Option<Money> {
    let gate = job.week.gates.get(cost.gate?)?;
    let unit = match job.units() {
        Units::Inch => Length::FOOT,
        Units::Metric => Length::MM * 1000,
    };
    let n = Decimal::from(gate.count).checked_mul(Decimal::from(gate.opening.ticks()))?;
    let per = cost.total.0.checked_mul(Decimal::from(unit.ticks()))?;
    Some(Money(per.checked_div(n)?).cents())
}
