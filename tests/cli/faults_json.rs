//! `--json` on wrong input: the faults as one JSON document on stdout, and the same words as ever on stderr.

use std::fs;

use serde_json::Value;

use crate::run::{json, longpoint, starter, text};

/// The document that a refused command prints.
fn refused(arguments: &[&str]) -> Value {
    let ran = longpoint(arguments);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert!(!ran.err.is_empty(), "people are told, too");
    let document = json(&ran.out);
    assert_eq!(document["format"], "longpoint faults");
    assert_eq!(document["version"], 1);
    assert_eq!(document["exit_code"], 2);
    let mut schema: Value =
        serde_json::from_str(include_str!("../../data/plan.schema.json")).expect("a schema");
    let mut part = schema["$defs"]["faults"].clone();
    part["$defs"] = schema["$defs"].take();
    let validator = jsonschema::validator_for(&part).expect("a schema");
    assert!(validator.is_valid(&document), "{document}");
    document
}

#[test]
fn faults_of_files_have_place_value_and_mend() {
    let week = starter("faults-json");
    let orders = fs::read_to_string(week.join("orders.csv")).expect("orders");
    let spoiled = orders.replacen("6'", "6.3", 1);
    assert_ne!(orders, spoiled);
    fs::write(week.join("orders.csv"), spoiled).expect("it can be written");
    for command in ["plan", "parts", "compare", "cut-now"] {
        let document = refused(&[command, text(&week), "--json"]);
        let faults = document["faults"].as_array().expect("a list");
        let fault = faults.iter().find(|f| f["severity"] == "error");
        let fault = fault.unwrap_or_else(|| panic!("{command}: {document}"));
        assert_eq!(fault["file"], "orders.csv");
        assert!(fault["line"].as_u64().is_some_and(|n| n >= 2), "{fault}");
        for field in ["column", "value", "what", "mend"] {
            assert!(
                fault[field].as_str().is_some_and(|t| !t.is_empty()),
                "{field}: {fault}"
            );
        }
    }
}

#[test]
fn a_refusal_without_a_place_is_a_message() {
    let document = refused(&["plan", "no such folder", "--json"]);
    let said = document["message"].as_str().unwrap_or_default().to_owned()
        + &document["faults"].to_string();
    assert!(said.contains("no such folder"), "{document}");
}

#[test]
fn a_wrong_argument_is_json_too() {
    let document = refused(&["plan", "--json", "--work", "none", "."]);
    assert_eq!(document["faults"], Value::Array(Vec::new()));
    assert!(!document["message"].as_str().unwrap_or_default().is_empty());
    // What follows "--" is no option.
    let ran = longpoint(&["plan", "--", "--json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
}

#[test]
fn nests_own_faults_are_json() {
    let file = starter("faults-nest").join("problem.json");
    fs::write(&file, "{\"pools\": 3}").expect("it can be written");
    let document = refused(&["nest", text(&file), "--json"]);
    assert!(
        !document["faults"].as_array().expect("a list").is_empty(),
        "{document}"
    );
}

#[test]
fn splice_prints_its_windows_as_one_document() {
    let week = starter("splice-json");
    let ran = longpoint(&["parts", text(&week), "--json"]);
    let mark = json(&ran.out)["gates"][0]["mark"]
        .as_str()
        .expect("a gate")
        .to_owned();
    let ran = longpoint(&["splice", text(&week), &mark, "--json"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let document = json(&ran.out);
    let mut schema: Value =
        serde_json::from_str(include_str!("../../data/plan.schema.json")).expect("a schema");
    let mut part = schema["$defs"]["splice_view"].clone();
    part["$defs"] = schema["$defs"].take();
    let validator = jsonschema::validator_for(&part).expect("a schema");
    let said: Vec<String> = validator
        .iter_errors(&document)
        .map(|e| e.to_string())
        .collect();
    assert!(said.is_empty(), "{said:?}");
    assert_eq!(document["gate"]["mark"], mark.as_str());
    let lines = document["lines"].as_array().expect("lines");
    assert_eq!(lines.len(), 2);
    for line in lines {
        let windows = line["windows"].as_array().expect("windows");
        assert!(!windows.is_empty(), "{line}");
        for window in windows {
            let at = |end: &str| window[end]["ticks"].as_i64().expect("ticks");
            assert!(at("from") <= at("to"), "{window}");
        }
    }
}

/// The kinds that the faults of a document are of.
fn kinds(document: &Value) -> Vec<&str> {
    let faults = document["faults"].as_array().expect("a list").iter();
    faults.filter_map(|f| f["code"].as_str()).collect()
}

#[test]
fn the_kinds_that_only_a_command_can_tell_are_told() {
    let week = starter("faults-kinds");
    let orders = fs::read_to_string(week.join("orders.csv")).expect("orders");
    fs::write(week.join("order.csv"), &orders).expect("it can be written");
    fs::remove_file(week.join("orders.csv")).expect("it was there");
    assert!(kinds(&refused(&["plan", text(&week), "--json"])).contains(&"file-not-read"));

    fs::remove_file(week.join("order.csv")).expect("it was there");
    // One bay on an opening of 20 ft: the bay is far over its limit.
    let impossible = "mark,count,opening,height,hand,bays\nZ2,1,20',6',left,1\n";
    fs::write(week.join("orders.csv"), impossible).expect("it can be written");
    for command in ["plan", "parts"] {
        assert!(
            kinds(&refused(&[command, text(&week), "--json"])).contains(&"work-impossible"),
            "{command}"
        );
    }
}
