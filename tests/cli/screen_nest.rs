//! No name in a cutting list or in a certificate steers a screen.

use std::fs;

use serde_json::{Value, json};

use crate::run::{longpoint, place, text};
use crate::screen::{STEERING, between, harmless};

/// Every text of a cutting list and of its certified answer.
#[test]
fn no_name_of_a_cutting_list_steers() {
    let folder = place("screen-nest");
    let problem = json!({
        "pools": [{
            "name": "pool", "mark": 1, "kerf": 1, "credit": {"keep": 50, "foot": 10, "per_foot": 1},
            "stocks": [{"name": "stock", "usable": 100, "cost": 100, "length": 100, "limit": 4}],
            "items": [{"length": 40, "count": 3}],
            "groups": [{
                "name": "group", "count": 1, "apart": 0, "zones_exclusive": false, "splice_cost": 5,
                "lines": [{
                    "length": 150, "whole": 150, "gap": 1, "least_splices": 1, "most_splices": 1,
                    "least_piece": 20, "three_over": 0, "slots": [{"lo": 60, "hi": 90, "zone": 0, "charge": 0}]
                }]
            }]
        }],
        "charges": []
    });
    let short = {
        let mut short = problem.clone();
        short["pools"][0]["stocks"][0]["limit"] = json!(1);
        short
    };
    let file = folder.join("list.json");
    for (problem, wanted) in [(&problem, 0), (&short, 3)] {
        fs::write(&file, problem.to_string()).expect("room");
        let ran = longpoint(&["nest", text(&file)]);
        assert_eq!(ran.code, wanted, "{}{}", ran.out, ran.err);
        for steering in STEERING {
            let mut bad = problem.clone();
            spoil(&mut bad, steering);
            fs::write(&file, bad.to_string()).expect("room");
            let answer = longpoint(&["nest", text(&file), "--json"]);
            harmless(&answer, &format!("nest --json, {steering:?}"));
            harmless(
                &longpoint(&["nest", text(&file)]),
                &format!("nest, {steering:?}"),
            );
            fs::write(&file, &answer.out).expect("room");
            harmless(
                &longpoint(&["verify", text(&file)]),
                &format!("verify, {steering:?}"),
            );
            // What does not hold, and what is no list, is told with their words, too.
            let untrue = answer.out.replacen("\"bound\": ", "\"bound\": 9", 1);
            fs::write(&file, untrue).expect("room");
            harmless(
                &longpoint(&["verify", text(&file)]),
                &format!("verify untrue, {steering:?}"),
            );
            bad["pools"][0][between("odd", steering)] = json!(1);
            bad["aim"] = json!(between("odd", steering));
            fs::write(&file, bad.to_string()).expect("room");
            for command in ["nest", "verify"] {
                harmless(
                    &longpoint(&[command, text(&file)]),
                    &format!("{command} odd, {steering:?}"),
                );
            }
        }
    }
}

/// Puts it into every text of a document.
fn spoil(value: &mut Value, steering: &str) {
    match value {
        Value::String(words) => *words = between(words, steering),
        Value::Array(all) => all.iter_mut().for_each(|v| spoil(v, steering)),
        Value::Object(all) => all.values_mut().for_each(|v| spoil(v, steering)),
        _ => {}
    }
}
