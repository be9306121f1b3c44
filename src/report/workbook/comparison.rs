//! The plan beside the same week done by hand.

use crate::measure::Money;
use crate::report::figures::Figures;
use crate::report::job::Job;
use crate::report::table::{Cell, Column, Kind, Table};

/// One row per way of working, the plan first.
pub(super) fn comparison(job: Job<'_>) -> Table {
    let plan = job.plan;
    let figures = Figures::of(job.week);
    let splices: usize = plan.spliced.iter().map(|l| l.splices.len()).sum();
    let money = |m: Option<Money>| figures.money(m);
    let mut rows = vec![vec![
        Cell::text("this plan"),
        Cell::count(plan.joints.len() as u64),
        Cell::count(splices as u64),
        money(plan.total),
        Cell::text(""),
    ]];
    for hand in &plan.references {
        rows.push(vec![
            Cell::text(&hand.name),
            Cell::count(hand.joints),
            Cell::count(hand.splices),
            money(hand.money),
            Cell::text(hand.failed.as_deref().unwrap_or("")),
        ]);
    }
    Table {
        columns: vec![
            Column::new("way", Kind::Mark),
            Column::new("joints", Kind::Number),
            Column::new("splices", Kind::Number),
            figures.money_column("money", "money"),
            Column::new("why it failed", Kind::Words),
        ],
        rows,
    }
}
