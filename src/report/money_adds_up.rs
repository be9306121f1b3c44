//! How the plan's money adds up: the order, the rack, the splices, less what is kept.

use crate::measure::Money;
use crate::plan::JointSource;
use crate::stock::StockOrigin;

use super::figures::Figures;
use super::job::Job;
use super::sheet::Block;

/// The lines that make the plan's total; none when a price is missing.
pub(super) fn money_adds_up(job: Job<'_>) -> Option<Block> {
    let figures = Figures::of(job.week);
    let total = job.plan.total?;
    let amounts: Option<Vec<Money>> = job.plan.buy.iter().map(|b| b.money).collect();
    let order: Money = amounts?.into_iter().sum();
    let rack = rack(job);
    let credits: Money = job.plan.kept.iter().map(|k| k.credit).sum();
    // What is left is splices and their class charges: the plan's total has no other part.
    let splices = total - order - rack + credits;
    let money = |m: Money| figures.spoken_money(Some(m));
    Some(Block::Group {
        title: "HOW THE PLAN'S MONEY ADDS UP".to_owned(),
        aside: job.heading().strip(),
        blocks: vec![Block::Pairs(vec![
            Block::pair("Joints bought", money(order)),
            Block::pair("Rack pieces at their credit", money(rack)),
            Block::pair("Splices", money(splices)),
            Block::pair("Kept drops, taken off", money(Money::ZERO - credits)),
            Block::pair("The plan's total", money(total)),
        ])],
    })
}

/// What the rack pieces cut are worth as credit.
fn rack(job: Job<'_>) -> Money {
    let joints = job.plan.joints.iter();
    let pieces = joints.filter_map(|j| match j.source {
        JointSource::Rack(piece, _) => Some(piece),
        JointSource::Bought(_) => None,
    });
    pieces.map(|piece| cost(job, piece)).sum()
}

fn cost(job: Job<'_>, piece: usize) -> Money {
    let mut stocks = job.plan.pools.iter().flat_map(|p| &p.stocks);
    stocks
        .find(|s| s.origin == StockOrigin::Rack(piece))
        .map_or(Money::ZERO, |s| s.cost)
}
