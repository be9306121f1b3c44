//! plan.json and the take-off's document against data/plan.schema.json.

use std::fs;
use std::path::Path;

use jsonschema::Validator;
use serde_json::{Value, json};

use crate::run::{json, longpoint, planned_demos, read, starter, text};

fn schema() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/plan.schema.json");
    json(&fs::read_to_string(path).unwrap())
}

fn plan_validator() -> Validator {
    jsonschema::validator_for(&schema()).unwrap()
}

fn faults(validator: &Validator, document: &Value) -> Vec<String> {
    let errors = validator.iter_errors(document);
    errors
        .map(|e| format!("{}: {e}", e.instance_path()))
        .collect()
}

#[test]
fn every_demo_plan_validates() {
    let validator = plan_validator();
    for (week, out) in planned_demos() {
        let document = json(&read(out, "plan.json"));
        let faults = faults(&validator, &document);
        assert!(faults.is_empty(), "{}: {faults:#?}", week.display());
        assert_eq!(document["date"], "2026-03-02");
    }
}

#[test]
fn json_on_stdout_is_the_document_and_nothing_else() {
    let week = starter("json-stdout");
    let ran = longpoint(&["plan", text(&week), "--json", "--revision", "3"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert_eq!(ran.out, read(&week, "results/plan.json"));
    assert_eq!(json(&ran.out)["revision"], 3);
}

#[test]
fn the_take_off_validates() {
    let mut part = schema()["$defs"]["take_off"].clone();
    part["$defs"] = schema()["$defs"].clone();
    let validator = jsonschema::validator_for(&part).unwrap();
    let ran = longpoint(&["parts", text(&starter("take-off-json")), "--json"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let document = json(&ran.out);
    let faults = faults(&validator, &document);
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn spoiled_documents_do_not_validate() {
    let validator = plan_validator();
    let (_, out) = &planned_demos()[0];
    let good = json(&read(out, "plan.json"));
    assert!(validator.is_valid(&good));
    let spoilings: [(&str, Value); 12] = [
        ("/format", json!("another plan")),
        ("/version", json!(2)),
        ("/units", json!("ft")),
        ("/joints/0/number", json!(0)),
        ("/joints/0/length/ticks", json!(1.5)),
        ("/joints/0/pieces/0/mark", json!("")),
        ("/joints/0/kept", json!("yes")),
        ("/outcomes/0/status", json!("optimal")),
        ("/parts/0/ends", json!([])),
        ("/gates/0/due", json!("next week")),
        ("/nest/problem/pools/0/items/0/length", json!(0)),
        ("/totals/money", json!("12.00")),
    ];
    for (place, value) in spoilings {
        let mut bad = good.clone();
        *bad.pointer_mut(place).expect(place) = value;
        assert!(!validator.is_valid(&bad), "{place}");
    }
    for missing in ["plan", "joints", "nest", "left_out"] {
        let mut bad = good.clone();
        bad.as_object_mut().unwrap().remove(missing);
        assert!(!validator.is_valid(&bad), "without {missing}");
    }
    let mut bad = good.clone();
    bad["surprise"] = json!(1);
    assert!(!validator.is_valid(&bad), "an unknown field");
}

#[test]
fn a_sway_brace_is_measured_along_itself() {
    let mut braces = 0;
    for (_, out) in crate::run::planned_demos() {
        let document = json(&read(out, "plan.json"));
        let parts = &document["parts"];
        for line in document["spliced"].as_array().unwrap() {
            let part = usize::try_from(line["part"].as_u64().unwrap()).unwrap();
            let brace = parts[part]["role"] == "sway brace";
            for splice in line["splices"].as_array().unwrap() {
                assert_eq!(splice["from_latch_face"].is_null(), brace, "{line}");
            }
            if !brace {
                continue;
            }
            braces += 1;
            let words = read(out, "splices.txt");
            let flat = words.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(
                flat.contains("measured along the brace from its own"),
                "{words}"
            );
        }
    }
    assert!(braces > 0, "a demo week splices a brace");
}

/// Money in the file's currency, to the last thousandth of a cent; a pipe without prices has none.
#[test]
fn verify_prints_the_plans_own_money() {
    let mut euros = false;
    for (week, out) in planned_demos() {
        let document = json(&read(out, "plan.json"));
        let ran = longpoint(&["verify", text(&out.join("plan.json"))]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        let currency = document["currency"].as_str().unwrap();
        euros |= currency == "EUR";
        for (outcome, line) in document["outcomes"]
            .as_array()
            .unwrap()
            .iter()
            .zip(ran.out.lines().skip(1))
        {
            let cost = outcome["cost_millicents"].as_i64().unwrap();
            let said = line.replace(',', "");
            let (whole, rest) = (cost / 100_000, cost % 100_000);
            let (cents, beyond) = (rest / 1_000, rest % 1_000);
            let mut amount = format!("{whole}.{cents:02}");
            if beyond > 0 {
                amount += format!("{beyond:03}").trim_end_matches('0');
            }
            let sign = if currency == "$" { "$" } else { "EUR " };
            assert!(
                said.contains(&format!(": {sign}{amount} ")),
                "{}: {amount}: {line}",
                week.display()
            );
        }
    }
    assert!(euros, "a demo has another currency");
}

#[test]
fn verify_says_what_numbers_count_without_prices() {
    let week = starter("verify-unpriced");
    let stock = fs::read_to_string(week.join("stock.csv")).unwrap();
    fs::write(week.join("stock.csv"), stock.replace(",2.62,foot", ",,")).unwrap();
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let ran = longpoint(&["verify", text(&week.join("results/plan.json"))]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let line = |pipe: &str| {
        ran.out
            .lines()
            .find(|l| l.starts_with(pipe))
            .unwrap_or_else(|| panic!("{}", ran.out))
    };
    assert!(!line("1-7/8 SS40").contains('$'), "{}", ran.out);
    assert!(line("2-3/8 SS40").contains(": $"), "{}", ran.out);
    assert!(line("no price").contains("1000000 a joint"), "{}", ran.out);
}
