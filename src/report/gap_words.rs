//! A gap in words: `within $12.30 (1.02 %)`, the same on every sheet.

use crate::plan::Gap;

use super::figures::Figures;
use super::job::Job;

/// Said in place of a gap as large as the pipe's money: a bound so low tells a buyer nothing.
const NO_BOUND: &str = "no useful bound";

/// What is said of a plan whose search left a gap open; `base`: pipe money before credits, 1/1000 cent.
pub(super) fn within(job: Job<'_>, gap: Gap, base: i64) -> String {
    figure(job, gap, base).unwrap_or_else(|| format!("{NO_BOUND} yet"))
}

/// What the certificate carries of a proof by search.
pub(super) fn certified(job: Job<'_>, gap: Gap, base: i64) -> String {
    match figure(job, gap, base) {
        Some(words) => format!("certified {words}"),
        None => format!("{NO_BOUND} certified"),
    }
}

fn figure(job: Job<'_>, gap: Gap, base: i64) -> Option<String> {
    if gap.millicents() > base && base > 0 {
        return None;
    }
    let money = Figures::of(job.week).spoken_money(Some(gap.money()));
    let percent = gap.percent_of(base);
    let percent = percent.map_or_else(String::new, |p| format!(" ({p:.2} %)"));
    Some(format!("within {money}{percent}"))
}
