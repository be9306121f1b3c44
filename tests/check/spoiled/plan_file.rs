//! A sound plan.json with one lie at a time: `longpoint verify` refuses each by its rule, and so do the
//! Python pages. The lies are data: `plan_file_lies.json`.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::Command;

use longpoint::check::{CheckedPlan, Rule, check};
use longpoint::order::{Supplier, Week};
use longpoint::report::plan_json;
use serde_json::{Value, json};

use crate::judge::planned;
use crate::tiny_week::{landed, money, of, quote, week};
use crate::{outside, tiny};

/// Ticks of an inch.
const INCH: f64 = 8128.0;

/// A week bought to a least order, with joints left whole.
fn minimum() -> Week {
    let mut week = landed();
    week.shop.money.credit_rate = tiny::dec("0.95");
    week.quotes.truncate(1);
    week.quotes.push(of("Ada", quote(tiny::LIGHT, 21, "46.20")));
    week.suppliers = vec![Supplier {
        name: "Ada".into(),
        minimum: Some(money("1700")),
        ..Supplier::default()
    }];
    week
}

/// A week in which one quote has no price.
fn unpriced() -> Week {
    let mut week = week();
    week.quotes[0].price = None;
    week
}

/// Documents by the name of their week.
fn documents() -> BTreeMap<&'static str, Value> {
    let weeks = [
        ("week", week()),
        ("landed", landed()),
        ("minimum", minimum()),
        ("unpriced", unpriced()),
    ];
    let document = |week: Week| {
        let (take_off, plan) = planned(&week);
        let checked = check(week, take_off, plan).expect("a sound plan");
        let text = plan_json(&checked).expect("a document");
        serde_json::from_str(&text).expect("JSON")
    };
    weeks.map(|(name, week)| (name, document(week))).into()
}

/// The lies, row by row.
fn lies() -> Vec<Value> {
    let text = include_str!("plan_file_lies.json");
    serde_json::from_str(text).expect("a list of rows")
}

/// The rules that the lies are to be refused by.
pub fn rules() -> BTreeSet<Rule> {
    let named = |row: &Value| {
        let name = row["rule"].as_str();
        let rule = Rule::ALL.iter().find(|rule| Some(rule.name()) == name);
        *rule.unwrap_or_else(|| panic!("no such rule: {row}"))
    };
    lies().iter().map(named).collect()
}

/// The printed form of ticks at the nearest 1/64 in.
fn printed(ticks: f64) -> String {
    let n = (ticks / INCH * 64.0).round();
    let (sign, n) = (if n < 0.0 { "-" } else { "" }, n.abs());
    let (feet, rest) = ((n / 768.0).floor(), n % 768.0);
    let (inches, part) = ((rest / 64.0).floor(), rest % 64.0);
    if part > 0.0 {
        format!("{sign}{feet}'-{inches} {part}/64\"")
    } else {
        format!("{sign}{feet}'-{inches}\"")
    }
}

/// One edit: `set` a value, `add` to a number, `move` a length by ticks in all its three forms, `drop` an
/// entry, `twice` an entry, `swap` with another place, `lose` a field.
fn edit(document: &mut Value, edit: &Value) {
    let at = edit["at"].as_str().expect("a place");
    let (inside, last) = at.rsplit_once('/').expect("a place under something");
    let found = document.pointer(at).cloned();
    let found = found.unwrap_or_else(|| panic!("nothing at {at}"));
    let list = |document: &mut Value| -> Vec<Value> {
        let list = document.pointer_mut(inside).and_then(Value::as_array_mut);
        list.map(std::mem::take).unwrap_or_default()
    };
    let place = |document: &mut Value, value: Value| {
        *document.pointer_mut(at).expect("it was found") = value;
    };
    if let Some(value) = edit.get("set") {
        place(document, value.clone());
    } else if let Some(by) = edit.get("add") {
        let sum = match (found.as_i64(), by.as_i64()) {
            (Some(n), Some(by)) => json!(n + by),
            _ => {
                let sum = found.as_f64().expect("a number") + by.as_f64().expect("a number");
                json!((sum * 1e6).round() / 1e6)
            }
        };
        place(document, sum);
    } else if let Some(by) = edit.get("move") {
        let by = by.as_f64().expect("ticks");
        let mut length = found;
        let ticks = match length["ticks"].as_f64() {
            Some(ticks) => ticks + by,
            None => length["value"].as_f64().expect("a length") * INCH + by,
        };
        if length["ticks"].is_i64() {
            length["ticks"] = json!(ticks.round() as i64);
        }
        length["value"] = json!((ticks / INCH * 1e6).round() / 1e6);
        length["print"] = json!(printed(ticks));
        place(document, length);
    } else if let Some(other) = edit["swap"].as_str() {
        let there = document.pointer(other).expect("another place").clone();
        *document.pointer_mut(other).expect("it was found") = found;
        place(document, there);
    } else if edit["lose"].is_boolean() {
        let object = document.pointer_mut(inside).and_then(Value::as_object_mut);
        object.expect("a field of an object").remove(last);
    } else {
        let index: usize = last.parse().expect("an entry of a list");
        let mut entries = list(document);
        if edit["drop"].is_boolean() {
            entries.remove(index);
        } else {
            assert!(edit["twice"].is_boolean(), "{edit}");
            entries.insert(index, found);
        }
        *document.pointer_mut(inside).expect("the list") = json!(entries);
    }
}

fn folder() -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("plan-file-lies");
    std::fs::create_dir_all(&folder).expect("the test's folder can be made");
    folder
}

/// Exit code and words of `longpoint verify`; the pages' verdict must be the same.
fn judged(document: &Value, name: &str) -> (i32, String) {
    let file = folder().join(format!("{name}.json"));
    std::fs::write(&file, document.to_string()).expect("it can be written");
    let binary = env!("CARGO_BIN_EXE_longpoint");
    let done = Command::new(binary).arg("verify").arg(&file).output();
    let done = done.expect("the binary runs");
    let code = done.status.code().unwrap_or(-1);
    let words = String::from_utf8_lossy(&done.stderr).into_owned();
    if let Some((own, said)) = outside::verify_file(&file) {
        assert_eq!(own == 0, code == 0, "{name}: {words}\nthe pages: {said}");
    }
    (code, words)
}

/// Both pass the document of a sound plan.
pub fn holds(checked: &CheckedPlan, name: &str) {
    let text = plan_json(checked).expect("a document");
    let document = serde_json::from_str(&text).expect("JSON");
    let (code, words) = judged(&document, &format!("holds-{}", name.replace(' ', "-")));
    assert_eq!(code, 0, "{name}: {words}");
}

#[test]
fn sound_documents_pass_both() {
    for (name, document) in documents() {
        let (code, words) = judged(&document, &format!("sound-{name}"));
        assert_eq!(code, 0, "{name}: {words}");
    }
}

#[test]
fn every_lie_is_refused_by_both_for_what_it_is() {
    let documents = documents();
    let rows = lies();
    assert!(rows.len() >= 100, "{} lies", rows.len());
    let mut missed = String::new();
    for (number, row) in rows.iter().enumerate() {
        let name = row["week"].as_str().unwrap_or("week");
        let mut document = documents[name].clone();
        for one in row["edits"].as_array().expect("edits") {
            edit(&mut document, one);
        }
        assert_ne!(document, documents[name], "{row} changes nothing");
        let (code, words) = judged(&document, &format!("lie-{number}"));
        let rule = row["rule"].as_str().expect("a rule");
        if code == 0 || !words.contains(rule) {
            missed += &format!("{row}: {words}\n");
        }
    }
    assert!(missed.is_empty(), "{missed}");
}
