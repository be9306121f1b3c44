//! What is proved, in words: the status of money of each pipe.

use crate::measure::Money;
use crate::nest::{Status, StopReason};
use crate::plan::PipeOutcome;

use super::desk::Desk;
use crate::report::summary::{NO_BOUND, joints_verdict, tells_nothing};

/// One pipe's verdict.
pub fn verdict(desk: &Desk, pipe: &PipeOutcome) -> String {
    if !pipe.priced && !matches!(pipe.status, Status::Short | Status::Stopped) {
        let words = joints_verdict(desk.plan, desk.take_off, pipe, pipe.status);
        return format!("{words} (prices missing)");
    }
    let money = |m: i64| desk.money(Some(Money::from_millicents(m)));
    let gap = pipe.cost.saturating_sub(pipe.bound);
    match pipe.status {
        Status::Proved => String::from("proved: no plan costs less"),
        Status::ProvedBySearch => {
            format!("proved by search; certified bound {}", money(pipe.bound))
        }
        // With fees a pipe may be cut dearer than by itself, and the week be cheaper for it.
        Status::Within if desk.plan.nest.whole.is_some() => {
            String::from("see all pipes together, below")
        }
        Status::Within if tells_nothing(gap, pipe.pipe_money) => {
            format!("{NO_BOUND}; {}", why(pipe.stop))
        }
        Status::Within => format!(
            "within {}{} of the least possible; {}",
            money(gap),
            percent(gap, pipe.pipe_money),
            why(pipe.stop)
        ),
        Status::Short => String::from("SHORT: the stock to be had does not make the week"),
        Status::Stopped => String::from("stopped before any bound was reached"),
    }
}

/// Share of the pipe money before credits, as ` (0.12 %)`.
fn percent(gap: i64, base: i64) -> String {
    // Money in 1/1000 cent stays far under 2^53: the quotient is for print only.
    let (gap, base) = (gap as f64, base as f64);
    if base > 0.0 {
        format!(" ({:.2} %)", 100.0 * gap / base)
    } else {
        String::new()
    }
}

fn why(stop: StopReason) -> &'static str {
    match stop {
        StopReason::Closed => "bound and cost met",
        StopReason::Exhausted => "all means were tried",
        StopReason::WorkBudget => "the work budget ran out",
        StopReason::Interrupted => "stopped by the time limit or by hand",
    }
}
