//! A row's status and reasons in words, each on one line.

use crate::compare::{Figures as Made, Outcome, Row};
use crate::order::Impossible;

use super::super::counted::counted;

/// Marks named before the rest are counted.
const NAMED: usize = 4;

/// `proved`, `within the gap, 1 of 4 pipes proved` (with charges the whole is proved or not), or why there is no plan.
pub(super) fn status(row: &Row) -> String {
    match &row.outcome {
        Outcome::Made(made) => money_status(made),
        Outcome::Cannot(why) => cannot(why),
        Outcome::Refused(_) => "the checker refused this plan: it does not count".to_owned(),
    }
}

fn money_status(made: &Made) -> String {
    let (proved, all) = made.proved;
    let early = if made.stopped { ", stopped early" } else { "" };
    let asked = match made.expired {
        0 => "",
        _ => "; ON A PRICE THAT RAN OUT",
    };
    match made.money {
        None => format!("no price: by joints{early}{asked}"),
        Some(_) if proved == all => format!("proved{early}{asked}"),
        Some(_) if made.together => format!("within the gap{early}{asked}"),
        Some(_) => format!(
            "within the gap, {proved} of {} proved{early}{asked}",
            counted(all, "pipe", "pipes")
        ),
    }
}

/// Which gates cannot be made and why: the marks, then the first one's reason.
pub(super) fn cannot(why: &[Impossible]) -> String {
    let mut marks: Vec<&str> = Vec::new();
    for item in why {
        if !marks.contains(&item.mark.as_str()) {
            marks.push(&item.mark);
        }
    }
    let more = marks.len().saturating_sub(NAMED);
    marks.truncate(NAMED);
    let rest = match more {
        0 => String::new(),
        n => format!(
            " and {}",
            counted(u64::try_from(n).unwrap_or(u64::MAX), "other", "others")
        ),
    };
    let first = why.first().map_or(String::new(), |item| {
        let part = item.part.as_deref().unwrap_or(&item.mark);
        format!("; {part}: {}", item.reason)
    });
    format!("cannot be made: {}{rest}{first}", marks.join(", "))
}
