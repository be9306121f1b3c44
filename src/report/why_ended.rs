//! Why a search ended, in words, and what the words mean.

use crate::nest::StopReason;

use super::print_text::PAGE;
use super::wrap::wrap;

/// Why a search ended, in two words.
pub(crate) fn why_ended(stop: StopReason) -> &'static str {
    match stop {
        StopReason::Closed => "closed",
        StopReason::Exhausted => "all tried",
        StopReason::WorkBudget => "work budget",
        StopReason::Interrupted => "stopped early",
    }
}

/// What the words of [`why_ended`] that stand in `said` mean, whole lines.
pub(crate) fn endings(said: &str) -> Vec<String> {
    let meant = [
        (
            StopReason::Exhausted,
            "every means was tried to its end; more work finds no more",
        ),
        (
            StopReason::WorkBudget,
            "the search did its set amount of work, the same on every machine; --work 10 lets it do ten times as much",
        ),
        (
            StopReason::Interrupted,
            "by --time-limit or by hand; more time may find a cheaper plan",
        ),
    ];
    let meant = meant.map(|(why, words)| (why_ended(why), words));
    let here = meant.into_iter().filter(|(why, _)| said.contains(why));
    here.flat_map(|(why, words)| wrap(&format!("{why}: {words}"), PAGE))
        .collect()
}
