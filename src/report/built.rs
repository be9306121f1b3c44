//! What the rack alone completes, in words no wider than a page.

use crate::plan::{Buildable, PassedOver};

use super::counted::counted;
use super::print_text::PAGE;
use super::wrap::wrap;

/// What is completed and what is not, due first; lines end in a break.
pub fn built_text(built: &Buildable) -> String {
    let week = &built.week;
    let gates = week.gates.iter().map(|g| (g.mark.as_str(), g.count));
    let extras = week.extras.iter().map(|e| (e.mark.as_str(), e.count));
    let marks: Vec<String> = gates
        .chain(extras)
        .filter(|(_, n)| *n > 0)
        .map(|(m, n)| times(m, n))
        .collect();
    let marks = if marks.is_empty() {
        "nothing".to_owned()
    } else {
        marks.join(", ")
    };
    let mut lines = wrap(&format!("Completed from the rack alone: {marks}"), PAGE);
    for item in &built.passed_over {
        let mut words = wrap(&passed_over(item), PAGE - 2).into_iter();
        lines.extend(words.next());
        lines.extend(words.map(|l| format!("  {l}")));
    }
    let mut text = lines.join("\n");
    text.push('\n');
    text
}

fn times(mark: &str, count: u32) -> String {
    match count {
        1 => mark.to_owned(),
        n => format!("{mark} ({})", counted(n, "of it", "of them")),
    }
}

fn passed_over(item: &PassedOver) -> String {
    let standing = if item.proved {
        ""
    } else {
        " (no way was found, and none was ruled out)"
    };
    let part = match &item.why.part {
        Some(part) => format!("{part}: "),
        None => String::new(),
    };
    format!(
        "Not today: {}: {part}{}{standing}",
        times(&item.why.mark, item.copies),
        item.why.reason
    )
}
