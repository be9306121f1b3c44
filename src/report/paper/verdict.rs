//! What is proved, in words: the status of money of each pipe.

use crate::nest::{Status, StopReason};
use crate::plan::PipeOutcome;

use crate::report::gap_words::{certified, within};
use crate::report::job::Job;
use crate::report::summary::joints_verdict;
use crate::report::wrap::soften;

/// One pipe's verdict.
pub(in crate::report) fn verdict(job: Job<'_>, pipe: &PipeOutcome) -> String {
    if !pipe.priced && pipe.status.has_plan() {
        let words = joints_verdict(job.plan, job.take_off, pipe, pipe.status);
        return format!("{words} (prices missing)");
    }
    match pipe.status {
        Status::Proved => String::from("proved: no plan costs less"),
        Status::ProvedBySearch => {
            let certified = certified(job, pipe.gap(), pipe.pipe_money);
            soften(&format!("proved by search; {certified}"))
        }
        // With fees a pipe may be cut dearer than by itself, and the week be cheaper for it.
        Status::Within if job.plan.nest.whole.is_some() => {
            String::from("see all pipes together, below")
        }
        Status::Within => {
            let within = within(job, pipe.gap(), pipe.pipe_money);
            soften(&format!("{within}; {}", why(pipe.stop)))
        }
        Status::Short => String::from("SHORT: the stock to be had does not make the week"),
        Status::NoneFound => String::from("no plan was found, and none is ruled out"),
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
