//! The order to one supplier as plain text, under 78 columns: to paste into an email as it is.

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::{Dimension, Money, Unit};
use crate::plan::FeeKind;

use super::buy_list::footage;
use super::figures::Figures;
use super::freight_words::{free_by_amount, freight_words};
use super::job::Job;
use super::order_line::{
    OrderLine, delivery_words, ends_words, order_lines, price_words, sum_known, suppliers,
};
use super::table::{Cell, clean};
use super::wrap::{fill, fill_left, soften, wrap};

/// Widest line.
const WIDTH: usize = 77;
/// Width of the money column of the totals.
const AMOUNT: usize = 16;

/// File name and text of each supplier's order.
pub(super) fn order_letters(job: Job<'_>) -> Vec<(String, String)> {
    let lines = order_lines(job);
    let mut stems: Vec<String> = Vec::new();
    let mut out = Vec::new();
    for supplier in suppliers(&lines) {
        let mine: Vec<&OrderLine<'_>> =
            lines.iter().filter(|l| l.of.supplier == supplier).collect();
        let name = if supplier.is_empty() {
            "supplier"
        } else {
            &supplier
        };
        let stem = super::kit_sheet::file_stem("order", &plain(name), &stems);
        stems.push(stem.to_lowercase());
        out.push((format!("{stem}.txt"), letter(job, &supplier, &mine)));
    }
    out
}

/// The words of a name, for a file's.
fn plain(name: &str) -> String {
    let words = name.split(|c: char| !c.is_alphanumeric());
    let words: Vec<&str> = words.filter(|w| !w.is_empty()).collect();
    words.join("_")
}

fn letter(job: Job<'_>, supplier: &str, lines: &[&OrderLine<'_>]) -> String {
    let heading = job.heading();
    let mut out: Vec<String> = Vec::new();
    let mut pair = |label: &str, value: &str| {
        if !value.is_empty() {
            out.extend(wrap(&format!("{label}: {value}"), WIDTH));
        }
    };
    pair("To", &clean(supplier));
    pair("From", &heading.shop);
    pair("Date", &heading.date);
    pair("Our reference", &heading.strip());
    for words in made_for(job, lines) {
        pair("For", &words);
    }
    out.push(String::new());
    out.push("Please supply:".to_owned());
    for (number, line) in lines.iter().enumerate() {
        out.push(String::new());
        out.extend(line_words(job, number + 1, line));
    }
    out.push(String::new());
    out.extend(conditions(job));
    out.push(String::new());
    out.extend(totals(job, supplier, lines));
    out.push(String::new());
    out.extend(wrap(&freight_words(job, supplier, lines, "your"), WIDTH));
    let mut text = soften(&out.join("\n"));
    text.push('\n');
    text
}

/// The jobs whose parts are cut from these joints, each with the marks it goes by: `job 4711, purchase order
/// 88-17, Hill Farm, ship to yard 2: A1, A2`.
fn made_for(job: Job<'_>, lines: &[&OrderLine<'_>]) -> Vec<String> {
    let marks = lines.iter().flat_map(|l| &l.marks).map(String::as_str);
    let marks: BTreeSet<&str> = marks.collect();
    let cut = |mark: &str| marks.contains(mark);
    let gates = job.week.gates.iter().map(|g| (&g.mark, &g.paperwork));
    let extras = job.week.extras.iter().map(|e| (&e.mark, &e.paperwork));
    let mut out: Vec<(String, Vec<&str>)> = Vec::new();
    let mut known: BTreeMap<String, usize> = BTreeMap::new();
    for (mark, paperwork) in gates.chain(extras).filter(|(mark, _)| cut(mark)) {
        let words = [
            ("job ", &paperwork.job),
            ("purchase order ", &paperwork.purchase_order),
            ("", &paperwork.customer),
            ("ship to ", &paperwork.ship_to),
        ];
        let words = words.iter().filter(|(_, value)| !value.is_empty());
        let words: Vec<String> = words
            .map(|(name, value)| format!("{name}{value}"))
            .collect();
        if words.is_empty() {
            continue;
        }
        let words = words.join(", ");
        let at = *known.entry(words.clone()).or_insert(out.len());
        match out.get_mut(at) {
            Some((_, marks)) => marks.push(mark),
            None => out.push((words, vec![mark])),
        }
    }
    let said =
        |(words, marks): (String, Vec<&str>)| clean(&format!("{words}: {}", marks.join(", ")));
    out.into_iter().map(said).collect()
}

/// One order line under its number.
fn line_words(job: Job<'_>, number: usize, line: &OrderLine<'_>) -> Vec<String> {
    let figures = Figures::of(job.week);
    let pipe = job.week.pipe(line.of.pipe);
    let size = |d: Dimension| match d.unit {
        Unit::Inch => format!("{d} in"),
        Unit::Mm => d.to_string(),
    };
    let count = super::counted::counted(line.joints, "joint", "joints");
    let spare = if line.spare { " (spare)" } else { "" };
    let mut made = format!(
        "{}: OD {} x wall {}",
        clean(&pipe.name),
        size(pipe.od),
        size(pipe.wall)
    );
    for word in [&pipe.standard, &pipe.grade, &pipe.finish] {
        if !word.is_empty() {
            made.push_str(&format!(", {}", clean(word)));
        }
    }
    let mut words = vec![
        format!(
            "{count} of {}{spare}, {} in all, about {} {}",
            figures.spoken(line.of.nominal),
            footage(job, line.nominal),
            Cell::number(line.weight, 0).printed(),
            figures.weight_unit()
        ),
        made,
        price(job, line),
    ];
    if let Some(last) = line.expired {
        words.push(format!("Your price ran out on {last}: please confirm it."));
    }
    let day = line.needed.map(|day| format!("here by {day}"));
    let marks = (!line.marks.is_empty()).then(|| format!("for {}", line.marks.join(", ")));
    let wanted: Vec<String> = day.into_iter().chain(marks).collect();
    if !wanted.is_empty() {
        words.push(clean(&wanted.join("; ")));
    }
    let lead = format!("{number:>2}. ");
    let pad = " ".repeat(lead.len());
    let mut out = Vec::new();
    for text in words {
        for row in wrap(&text, WIDTH - lead.len()) {
            let start = if out.is_empty() { &lead } else { &pad };
            out.push(format!("{start}{row}"));
        }
    }
    out
}

fn price(job: Job<'_>, line: &OrderLine<'_>) -> String {
    let figures = Figures::of(job.week);
    let Some(words) = price_words(job, line) else {
        return "price: please quote".to_owned();
    };
    let money = figures.spoken_money(line.money);
    match line.tax.filter(|t| *t > Money::ZERO) {
        Some(tax) => format!("{words}: {money}, tax {}", figures.spoken_money(Some(tax))),
        None => format!("{words}: {money}"),
    }
}

/// What holds for every line.
fn conditions(job: Job<'_>) -> Vec<String> {
    let ends = format!("{}.", ends_words(job));
    let delivery = delivery_words(job).map(|d| format!("Delivery: {d}"));
    let all = [Some(ends), delivery].into_iter().flatten();
    all.flat_map(|words| wrap(&words, WIDTH)).collect()
}

/// Joints, tax, fees, and their sum; freight that is not billed because the order reaches its amount, too.
fn totals(job: Job<'_>, supplier: &str, lines: &[&OrderLine<'_>]) -> Vec<String> {
    let figures = Figures::of(job.week);
    let joints = sum_known(lines.iter().map(|l| l.money));
    let tax = sum_known(lines.iter().map(|l| l.tax));
    let mut rows = vec![("Joints".to_owned(), joints)];
    if tax != Some(Money::ZERO) {
        rows.push(("Tax".to_owned(), tax));
    }
    for fee in job.plan.fees.iter().filter(|f| f.supplier == supplier) {
        let name = match fee.kind {
            FeeKind::Freight => "Freight",
            FeeKind::Lift => "Lifts",
            FeeKind::Minimum => "To your minimum order",
        };
        match rows.iter_mut().find(|(n, _)| n == name) {
            Some((_, sum)) => *sum = sum.map(|s| s + fee.money),
            None => rows.push((name.to_owned(), Some(fee.money))),
        }
    }
    if free_by_amount(job, supplier, lines) {
        rows.push(("Freight, free by amount".to_owned(), Some(Money::ZERO)));
    }
    rows.push(("TOTAL".to_owned(), sum_known(rows.iter().map(|(_, m)| *m))));
    let row = |(name, money): (String, Option<Money>)| {
        let amount = figures.spoken_money(money);
        format!("{}{}", fill(&name, 24), fill_left(&amount, AMOUNT))
    };
    rows.into_iter().map(row).collect()
}
