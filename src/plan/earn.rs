//! Joints at the price their count earns: a break holds for every joint of the offer once the count is
//! reached, whichever rows the search took them from.

use super::lay::cost_of;
use crate::nest::{Pattern, PoolAnswer, Problem, Status, Whole, cost_with_charges};
use crate::order::{Quote, Week};
use crate::stock::{PoolSource, StockOrigin};

/// Moves joints of one offer to the row its count earns; costs follow, and only fall.
pub(crate) fn earn(
    week: &Week,
    pools: &[PoolSource],
    problem: &Problem,
    answers: &mut [PoolAnswer],
    whole: Option<&mut Whole>,
) {
    let mut moved = false;
    for (source, answer) in pools.iter().zip(answers.iter_mut()) {
        for stock in 0..source.stocks.len() {
            let Some(quote) = quote_of(week, source, stock).filter(|q| q.terms.from > 1) else {
                continue;
            };
            let rows = rows(week, source, quote);
            let count: u64 = joints(&answer.patterns, &rows);
            let best = rows
                .iter()
                .copied()
                .filter(|s| from(week, source, *s) <= count)
                .max_by_key(|s| from(week, source, *s));
            if let Some(best) = best {
                moved |= take_from(source, answer, &rows, best);
            }
        }
    }
    if let Some(whole) = whole.filter(|_| moved) {
        settle_whole(problem, answers, whole);
    }
}

/// The whole at the new counts; its bound stands, as it holds for every answer.
fn settle_whole(problem: &Problem, answers: &[PoolAnswer], whole: &mut Whole) {
    if let Ok((cost, charges)) = cost_with_charges(problem, answers) {
        whole.cost = cost;
        whole.charges = charges;
        if whole.bound < cost {
            // Freight that was free at the dearer prices may be due again.
            whole.status = Status::Within;
        }
        if whole.bound >= cost && whole.status == Status::Within {
            whole.status = Status::Proved;
        }
    }
}

fn quote_of<'w>(week: &'w Week, source: &PoolSource, stock: usize) -> Option<&'w Quote> {
    match source.stocks.get(stock)?.origin {
        StockOrigin::Quote(q) => week.quotes.get(q),
        StockOrigin::Rack(_) => None,
    }
}

/// Stocks that price the same joint.
fn rows(week: &Week, source: &PoolSource, quote: &Quote) -> Vec<usize> {
    let same = |s: &usize| quote_of(week, source, *s).is_some_and(|q| q.same_joint(quote));
    (0..source.stocks.len()).filter(same).collect()
}

fn from(week: &Week, source: &PoolSource, stock: usize) -> u64 {
    quote_of(week, source, stock).map_or(0, |q| u64::from(q.terms.from))
}

fn joints(patterns: &[Pattern], rows: &[usize]) -> u64 {
    let mine = patterns.iter().filter(|p| rows.contains(&p.stock));
    mine.map(|p| u64::from(p.times)).sum()
}

fn take_from(source: &PoolSource, answer: &mut PoolAnswer, rows: &[usize], best: usize) -> bool {
    let price = |stock: usize| cost_of(&source.stocks[stock]);
    let mut moved = false;
    for pattern in &mut answer.patterns {
        if pattern.stock != best && rows.contains(&pattern.stock) {
            let less = price(pattern.stock).saturating_sub(price(best));
            answer.cost -= less.saturating_mul(i64::from(pattern.times));
            pattern.stock = best;
            moved = true;
        }
    }
    if moved {
        answer.patterns = merged(std::mem::take(&mut answer.patterns));
        if answer.bound >= answer.cost && answer.status == Status::Within {
            answer.status = Status::Proved;
        }
    }
    moved
}

/// Equal patterns once, in a fixed order.
fn merged(mut patterns: Vec<Pattern>) -> Vec<Pattern> {
    patterns.sort_by(|a, b| (a.stock, &a.cuts).cmp(&(b.stock, &b.cuts)));
    let mut out: Vec<Pattern> = Vec::new();
    for pattern in patterns {
        match out.last_mut() {
            Some(last) if last.stock == pattern.stock && last.cuts == pattern.cuts => {
                last.times = last.times.saturating_add(pattern.times);
            }
            _ => out.push(pattern),
        }
    }
    out
}
