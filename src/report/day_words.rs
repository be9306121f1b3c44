//! How long the cutting is, saw by saw, and what of it fits in a day, in words no wider than a page.

use rust_decimal::prelude::ToPrimitive;

use crate::check::CheckedPlan;
use crate::plan::saw_days;

use super::counted::counted;
use super::job::Job;
use super::print_text::PAGE;
use super::wrap::wrap;

/// Hours a saw, coping and splicing beside them, and what a day holds; lines end in a break.
pub fn day_text(checked: &CheckedPlan) -> String {
    let job = Job::of(checked);
    let minutes = &job.plan.minutes;
    let rules = &job.week.shop.minutes;
    let day = rules.day_hours.to_f64().unwrap_or(8.0);
    let days = saw_days(job.week, job.plan, day);
    let hours = |minutes: f64| format!("{:.1} h", minutes / 60.0);
    let saws: Vec<String> = days
        .iter()
        .map(|d| format!("saw {} {}", d.saw, hours(d.minutes)))
        .collect();
    let bench = format!(
        "coping {}, splicing {} beside it",
        hours(minutes.copes),
        hours(minutes.splices)
    );
    let mut lines = wrap(
        &format!("Cutting (estimate): {}; {bench}.", saws.join(", ")),
        PAGE,
    );
    let cut: Vec<u32> = days.iter().flat_map(|d| d.cut.iter().copied()).collect();
    let all = job.plan.joints.len();
    let day = rules.day_hours.normalize();
    let fits = if cut.len() == all {
        format!("All of it fits in a day of {day} h.")
    } else {
        let done = job.plan.done.iter();
        let done = done.filter(|d| (1..=d.after_joint).all(|joint| cut.contains(&joint)));
        let marks: Vec<String> = done.map(|d| job.copy_mark(d.gate, d.copy)).collect();
        let complete = match marks.is_empty() {
            true => "no gate is complete then".to_owned(),
            false => format!("complete then: {}", marks.join(", ")),
        };
        format!(
            "A day of {day} h holds {} of {}; {complete}.",
            cut.len(),
            counted(all, "joint", "joints")
        )
    };
    lines.extend(wrap(&fits, PAGE));
    let mut text = lines.join("\n");
    text.push('\n');
    text
}
