//! How the plan's money adds up: every line of its ledger, to the cent.

use crate::measure::Money;
use crate::plan::Ledger;

use super::figures::Figures;
use super::job::Job;
use super::sheet::Block;

/// The lines that make the plan's total; none when a price is missing.
pub(super) fn money_adds_up(job: Job<'_>) -> Option<Block> {
    let ledger = job.plan.ledger?;
    Some(Block::Group {
        title: "HOW THE PLAN'S MONEY ADDS UP".to_owned(),
        aside: job.heading().strip(),
        blocks: vec![Block::Pairs(money_lines(job, &ledger))],
    })
}

/// Labels and amounts; joints, splices and the total always, the others where there are any.
pub(super) fn money_lines(job: Job<'_>, ledger: &Ledger) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let lines = [
        ("Joints bought", ledger.pipe, true),
        ("Tax", ledger.tax, false),
        ("Freight", ledger.freight, false),
        ("Lift fees", ledger.lifts, false),
        ("Up to minimum orders", ledger.minimum, false),
        ("Rack pieces at their credit", ledger.rack, false),
        ("Splices", ledger.splices, true),
        ("Charges of stressed bays", ledger.classes, false),
        ("Kept, taken off", Money::ZERO - ledger.kept, false),
        ("The plan's total", ledger.total(), true),
    ];
    let shown = lines
        .into_iter()
        .filter(|(_, m, always)| *always || *m != Money::ZERO);
    shown
        .map(|(label, money, _)| Block::pair(label, figures.spoken_money(Some(money))))
        .collect()
}
