//! What a list's stocks do not reach for: what is missing, why, and the smallest change that frees it.

use crate::nest::{Pool, PoolAnswer, Status, Stock};
use crate::text::shown;

/// A line for each item and each group that is missing, its mend under it.
pub(super) fn missing(pool: &Pool, answer: &PoolAnswer) -> Vec<String> {
    if answer.status == Status::NoneFound {
        return best_try(pool, answer);
    }
    let items = answer.short.iter().filter_map(|(index, count)| {
        let item = pool.items.get(*index)?;
        let (why, mend) = why_item(pool, item.length, item.class);
        Some(lines(&format!("{count} x {}", item.length), why, mend))
    });
    let groups = answer.short_groups.iter().filter_map(|(index, count)| {
        let group = pool.groups.get(*index)?;
        let whole = group.lines.iter().map(|l| l.whole).max()?;
        let (why, mend) = why_group(pool, whole, group.class);
        Some(lines(
            &format!("{count} of {}", shown(&group.name)),
            why,
            mend,
        ))
    });
    items.chain(groups).flatten().collect()
}

/// What the best try leaves out, where nothing is proved to be missing.
fn best_try(pool: &Pool, answer: &PoolAnswer) -> Vec<String> {
    let items = answer.short.iter().filter_map(|(index, count)| {
        let item = pool.items.get(*index)?;
        Some(format!("{count} x {}", item.length))
    });
    let groups = answer.short_groups.iter().filter_map(|(index, count)| {
        let group = pool.groups.get(*index)?;
        Some(format!("{count} of {}", group.name))
    });
    let left = items.chain(groups);
    left.map(|what| format!("  the best try leaves out {what}"))
        .collect()
}

fn lines(what: &str, why: String, mend: String) -> [String; 2] {
    [
        format!("  missing: {what}: {why}"),
        format!("    frees it: {mend}"),
    ]
}

/// Stocks that serve a class and of which there is at least one.
fn serving(pool: &Pool, class: u8) -> impl Iterator<Item = &Stock> {
    let serves = move |s: &&Stock| s.serves >> class & 1 == 1 && s.limit != Some(0);
    pool.stocks.iter().filter(serves)
}

/// Why an item is missing, and what frees it.
fn why_item(pool: &Pool, length: i64, class: u8) -> (String, String) {
    let Some(longest) = serving(pool, class).map(|s| s.usable).max() else {
        return unserved(class, length);
    };
    if longest < length {
        return (
            format!(
                "longer than the usable {longest} of every stock{}",
                of(class)
            ),
            wanted(class, length),
        );
    }
    ran_out(pool, class, length)
}

/// Why a group is missing, and what surely frees it: stocks that hold its lines whole.
fn why_group(pool: &Pool, whole: i64, class: u8) -> (String, String) {
    let Some(longest) = serving(pool, class).map(|s| s.usable).max() else {
        return unserved(class, whole);
    };
    let all = pool.stocks.iter().all(|s| s.limit.is_none());
    if longest < whole && all {
        return (
            format!(
                "no splices that its slots and rules allow leave pieces within the usable {longest} of any stock{}",
                of(class)
            ),
            format!("wider slots or more splices, or {}", wanted(class, whole)),
        );
    }
    ran_out(pool, class, whole.min(longest))
}

fn unserved(class: u8, length: i64) -> (String, String) {
    (
        format!("no stock serves class {class}"),
        wanted(class, length),
    )
}

/// The stocks that hold a piece of this length are used up.
fn ran_out(pool: &Pool, class: u8, length: i64) -> (String, String) {
    let holds = serving(pool, class).filter(|s| s.usable >= length);
    let named: Vec<String> = holds
        .map(|s| match s.limit {
            Some(limit) => format!("{} ({limit} to be had)", shown(&s.name)),
            None => shown(&s.name),
        })
        .collect();
    let named = named.join(", ");
    (
        "the stocks that hold it run out".to_owned(),
        format!("more of {named}"),
    )
}

fn wanted(class: u8, length: i64) -> String {
    format!("a stock{} of usable {length} or more", of(class))
}

/// Said of a class only where it is not the first, which every list has.
fn of(class: u8) -> String {
    match class {
        0 => String::new(),
        class => format!(" that serves class {class}"),
    }
}
