//! The six outputs of a plan, read back: words of text, paper and page; rows of CSV and workbook; fields of JSON.

use std::collections::BTreeMap;
use std::io::Cursor;

use calamine::{Reader, Xlsx};
use longpoint::check::CheckedPlan;
use longpoint::report::draw::Flat;
use longpoint::report::paper::{Paper, pages};
use longpoint::report::results;
use serde_json::Value;

/// The outputs in the order of the table's cells.
pub const NAMES: [&str; 6] = ["text", "csv", "paper", "page", "workbook", "json"];

/// How far from its label a value may stand in words: a row of a table or a sentence.
const NEAR: usize = 260;

/// What the outputs hold.
pub struct Outputs {
    /// Flowing words of text, paper and page.
    words: BTreeMap<&'static str, String>,
    /// Cells of CSV and workbook: column, then what stands in it.
    cells: BTreeMap<&'static str, Vec<(String, String)>>,
    document: Value,
}

impl Outputs {
    pub fn of(plan: &CheckedPlan) -> Outputs {
        let files = results(plan, Paper::Letter).expect("sheets");
        let file = |name: &str| &files.iter().find(|(n, _)| n == name).expect("written").1;
        let ending = |end: &'static str| files.iter().filter(move |(n, _)| n.ends_with(end));
        let text = ending(".txt").map(|(_, b)| String::from_utf8_lossy(b).into_owned());
        let all: Vec<String> = pages(plan, Paper::Letter)
            .iter()
            .map(|p| Flat::of(p).words())
            .collect();
        let page = String::from_utf8_lossy(file("week.html")).into_owned();
        let words = [
            ("text", flowing(&text.collect::<Vec<_>>().join("\n"))),
            ("paper", flowing(&all.join("\n"))),
            ("page", flowing(&untagged(&page))),
        ];
        let mut csv = Vec::new();
        for (_, bytes) in ending(".csv") {
            csv.extend(rows(bytes));
        }
        let document = serde_json::from_slice(file("plan.json")).expect("JSON");
        Outputs {
            words: words.into(),
            cells: [("csv", csv), ("workbook", tabs(file("week.xlsx")))].into(),
            document,
        }
    }

    /// Whether an output says a value under a name: near these words, in this column, in this field.
    pub fn holds(&self, output: &str, name: &str, value: &str) -> bool {
        if let Some(words) = self.words.get(output) {
            return near(words, name, value);
        }
        match self.cells.get(output) {
            Some(cells) => cells
                .iter()
                .any(|(c, v)| same_name(c, name) && says(v, value)),
            None => in_field(&self.document, name, value),
        }
    }
}

/// A name without regard to case, underscores and what an output adds of unit or form.
fn plain(name: &str) -> String {
    let name = name.to_lowercase().replace('_', " ");
    let name = name.trim_end_matches(" printed");
    let units = [" (in)", " (lb)", " (number)", " in", " lb", " deg"];
    let bare = units.iter().find_map(|u| name.strip_suffix(u));
    bare.unwrap_or(name).to_owned()
}

fn same_name(a: &str, b: &str) -> bool {
    plain(a) == plain(b)
}

/// Whether a cell says the value: as words of their own, or as the same number.
fn says(cell: &str, value: &str) -> bool {
    let number = |t: &str| t.replace(',', "").parse::<f64>().ok();
    match (number(cell), number(value)) {
        (Some(a), Some(b)) => (a - b).abs() < 0.006,
        _ => alone(&flowing(cell), &flowing(value)).next().is_some(),
    }
}

/// Places where a text has these words, not as a part of longer ones or of a longer number.
fn alone<'t>(text: &'t str, words: &'t str) -> impl Iterator<Item = usize> + 't {
    text.match_indices(words)
        .map(|(at, _)| at)
        .filter(move |at| {
            let before = text[..*at].chars().next_back();
            let after = text[at + words.len()..].chars().next();
            let part = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
            let ends = |w: Option<char>| w.is_some_and(char::is_alphanumeric);
            let runs_on = |edge: Option<char>, beside| ends(edge) && part(beside);
            !runs_on(words.chars().next(), before) && !runs_on(words.chars().next_back(), after)
        })
}

/// Whether the value stands within a row or a sentence of the label.
fn near(text: &str, label: &str, value: &str) -> bool {
    let (text, label, value) = (
        text.to_lowercase(),
        label.to_lowercase(),
        flowing(value).to_lowercase(),
    );
    let values: Vec<usize> = alone(&text, &value).collect();
    alone(&text, &label).any(|at| values.iter().any(|v| v.abs_diff(at) < NEAR))
}

fn in_field(document: &Value, name: &str, value: &str) -> bool {
    match document {
        Value::Object(fields) => fields.iter().any(|(key, inner)| {
            (same_name(key, name) && has(inner, value)) || in_field(inner, name, value)
        }),
        Value::Array(list) => list.iter().any(|inner| in_field(inner, name, value)),
        _ => false,
    }
}

/// A field's own value, a printed length's form, or one of a list of such.
fn has(field: &Value, value: &str) -> bool {
    match field {
        Value::String(words) => says(words, value),
        Value::Number(number) => says(&number.to_string(), value),
        Value::Bool(yes) => says(if *yes { "yes" } else { "no" }, value),
        Value::Object(length) => length.get("print").is_some_and(|p| has(p, value)),
        Value::Array(list) => list.iter().any(|inner| has(inner, value)),
        Value::Null => false,
    }
}

fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The words between tags.
fn untagged(page: &str) -> String {
    let body = page.split_once("<body").expect("a body").1;
    let bits = body.split('<').filter_map(|bit| bit.split_once('>'));
    let words = bits.map(|(_, words)| words).collect::<Vec<_>>().join(" ");
    words
        .replace("&quot;", "\"")
        .replace("&gt;", ">")
        .replace("&amp;", "&")
}

fn rows(bytes: &[u8]) -> Vec<(String, String)> {
    let text = String::from_utf8_lossy(bytes).into_owned();
    let mut reader = csv::Reader::from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    let head = reader.headers().expect("a head").clone();
    let mut out = Vec::new();
    for row in reader.records() {
        let row = row.expect("a row");
        out.extend(
            head.iter()
                .zip(row.iter())
                .map(|(h, c)| (h.to_owned(), c.to_owned())),
        );
    }
    out
}

fn tabs(bytes: &[u8]) -> Vec<(String, String)> {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).expect("a workbook");
    let mut out = Vec::new();
    for name in book.sheet_names() {
        let range = book.worksheet_range(&name).expect("a tab");
        let mut rows = range.rows();
        let head: Vec<String> = rows
            .next()
            .expect("a head")
            .iter()
            .map(ToString::to_string)
            .collect();
        for row in rows {
            out.extend(
                head.iter()
                    .zip(row)
                    .map(|(h, c)| (h.clone(), c.to_string())),
            );
        }
    }
    out
}
