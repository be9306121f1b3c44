//! `longpoint nest` and `longpoint verify` on the demo problem, on bad files, and on spoiled certificates with
//! charges, by both verifiers.

use crate::outside;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::{Value, json};

fn repository() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn place(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("nest_command");
    fs::create_dir_all(&folder).expect("the test's folder can be made");
    folder.join(name)
}

fn longpoint(arguments: &[&str]) -> Output {
    let run = Command::new(env!("CARGO_BIN_EXE_longpoint"))
        .args(arguments)
        .output();
    run.expect("the binary runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn read(file: &str) -> Value {
    let text = fs::read_to_string(repository().join(file)).expect("it is here");
    serde_json::from_str(&text).expect("JSON")
}

/// A small problem with two pools and every kind of charge, solved quickly and proved.
fn small() -> Value {
    let stock = |name: &str, usable: i64, cost: i64| json!({"name": name, "usable": usable, "cost": cost, "length": usable});
    let pool = |name: &str, stocks: Vec<Value>, items: Value| {
        json!({"name": name, "mark": 1, "kerf": 1, "credit": {"keep": 30, "foot": 10, "per_foot": 1},
            "stocks": stocks, "items": items, "groups": []})
    };
    let rail = vec![stock("a", 100, 50), stock("b", 120, 61)];
    let post = vec![stock("a", 100, 40), stock("b", 80, 34)];
    json!({
        "pools": [
            pool("rail", rail, json!([{"length": 40, "count": 5}, {"length": 33, "count": 4}])),
            pool("post", post, json!([{"length": 26, "count": 6}])),
        ],
        "charges": [
            {"name": "freight a", "over": [{"pool": 0, "stock": 0}, {"pool": 1, "stock": 0}], "kind": {"fixed": {"amount": 30, "free_over": 300}}},
            {"name": "freight b", "over": [{"pool": 0, "stock": 1}, {"pool": 1, "stock": 1}], "kind": {"fixed": {"amount": 12}}},
            {"name": "minimum b", "over": [{"pool": 0, "stock": 1}, {"pool": 1, "stock": 1}], "kind": {"minimum": {"least": 200}}},
            {"name": "lift a", "over": [{"pool": 0, "stock": 0}], "kind": {"lift": {"lift": 3, "fee": 7, "part_fee": 4}}},
            {"name": "from 2", "over": [{"pool": 1, "stock": 1}], "kind": {"range": {"least": 2}}},
        ],
    })
}

fn write(name: &str, value: &Value) -> String {
    let file = place(name);
    fs::write(&file, value.to_string()).expect("it can be written");
    file.to_str().expect("a path in words").to_owned()
}

fn solved(name: &str, problem: &Value) -> Value {
    let done = longpoint(&["nest", &write(name, problem), "--json"]);
    assert_eq!(done.status.code(), Some(0), "{}", text(&done.stderr));
    serde_json::from_slice(&done.stdout).expect("one JSON document")
}

#[test]
fn the_demo_problem_is_solved_checked_and_of_its_schema() {
    let problem = read("data/nest_demo.json");
    let schema = jsonschema::validator_for(&read("data/nest_problem.schema.json")).expect("sound");
    for (what, value) in [("demo", &problem), ("small", &small())] {
        let faults: Vec<String> = schema.iter_errors(value).map(|e| e.to_string()).collect();
        assert!(faults.is_empty(), "{what}: {faults:?}");
    }
    let document = solved("demo.json", &problem);
    let whole = &document["whole"];
    assert!(whole["bound"].as_i64() <= whole["cost"].as_i64());
    let mut answer = read("data/plan.schema.json");
    answer["$ref"] = json!("#/$defs/nest");
    for gone in [
        "properties",
        "required",
        "type",
        "additionalProperties",
        "$id",
    ] {
        answer.as_object_mut().expect("an object").remove(gone);
    }
    let schema = jsonschema::validator_for(&answer).expect("sound");
    let mut nest = document.clone();
    let nest = nest.as_object_mut().expect("an object");
    nest.remove("format");
    nest.remove("version");
    nest.insert("groups".to_owned(), json!([]));
    let nest = Value::Object(nest.clone());
    let faults: Vec<String> = schema.iter_errors(&nest).map(|e| e.to_string()).collect();
    assert!(faults.is_empty(), "{faults:?}");
    let file = write("demo-answer.json", &document);
    let verified = longpoint(&["verify", &file]);
    assert_eq!(
        verified.status.code(),
        Some(0),
        "{}",
        text(&verified.stderr)
    );
    let said = text(&verified.stdout);
    assert!(said.contains("all pools with charges"), "{said}");
    assert!(said.contains("in the units of the problem"), "{said}");
    if let Some((code, words)) = outside::verify_file(Path::new(&file)) {
        assert_eq!(code, 0, "{words}");
    }
}

#[test]
fn threads_change_no_byte() {
    let file = write("threads.json", &small());
    let run = |threads| longpoint(&["nest", &file, "--json", "--threads", threads]).stdout;
    let one = run("1");
    assert!(!one.is_empty() && one == run("2") && one == run("4"));
}

#[test]
fn bad_problems_are_named_with_their_mend() {
    let mut cases: Vec<(Value, &str)> = vec![(json!({"pools": 3}), "line 1")];
    let mut spoil = |path: &str, value: Value, says: &'static str| {
        let mut problem = small();
        *problem.pointer_mut(path).expect("it is there") = value;
        cases.push((problem, says));
    };
    spoil("/pools/0/stocks/0/cost", json!(-1), "cost of a is -1");
    spoil("/pools/1/items/0/length", json!(1u64 << 41), "past 2^40");
    spoil(
        "/pools/0/stocks/0/length",
        json!(1),
        "length of a is 1, under",
    );
    spoil("/pools/1/name", json!("rail"), "occurs twice");
    spoil("/charges/0/over/0/stock", json!(9), "there is none");
    spoil("/charges/3/kind/lift/lift", json!(0), "lift of 0");
    spoil(
        "/charges/0/kind",
        json!({"gift": {}}),
        "kind.gift: error: there is no such field here",
    );
    spoil("/pools/0/stocks/0/cost", json!(5), "would be credited 10");
    // Nothing to cut, and a credit past all sums asked for by a charge alone.
    let mut idle = small();
    let pool = &mut idle["pools"][0];
    pool["items"] = json!([]);
    pool["credit"] = json!({"keep": 0, "foot": 1, "per_foot": 1u64 << 40});
    pool["stocks"][0]["usable"] = json!(1u64 << 40);
    pool["stocks"][0]["length"] = json!(1u64 << 40);
    cases.push((idle, "too large to add up"));
    for (number, (problem, says)) in cases.iter().enumerate() {
        let file = write(&format!("bad-{number}.json"), problem);
        let done = longpoint(&["nest", &file]);
        let words = text(&done.stderr);
        assert_eq!(done.status.code(), Some(2), "{number}: {words}");
        assert!(
            words.contains(says) && words.contains("nest_problem.schema.json"),
            "{words}"
        );
        assert!(done.stdout.is_empty());
    }
    let gone = longpoint(&["verify", "no-such-file.json"]);
    assert_eq!(gone.status.code(), Some(2));
}

#[test]
fn what_cannot_be_cut_is_named_and_the_rest_is_printed() {
    let mut problem = small();
    problem["pools"][0]["items"][0]["length"] = json!(500);
    let done = longpoint(&["nest", &write("short.json", &problem)]);
    assert_eq!(done.status.code(), Some(3), "{}", text(&done.stderr));
    assert!(text(&done.stdout).contains("missing: 5 x 500"));
}

/// A change to a sound document.
type Spoil = (&'static str, fn(&mut Value));

fn first_leaf(document: &mut Value) -> &mut Value {
    let nodes = document["whole"]["nodes"].as_array_mut().expect("nodes");
    let leaf = nodes.iter_mut().find(|n| n.get("leaf").is_some());
    &mut leaf.expect("a tree has a leaf")["leaf"]
}

const SPOILS: [Spoil; 14] = [
    ("another problem: cheaper freight", |d| {
        d["problem"]["charges"][1]["kind"]["fixed"]["amount"] = json!(1);
    }),
    ("another problem: a cheaper joint", |d| {
        for pool in d["problem"]["pools"].as_array_mut().expect("pools") {
            for stock in pool["stocks"].as_array_mut().expect("stocks") {
                stock["cost"] = json!(stock["cost"].as_i64().unwrap_or(0) - 9);
            }
        }
    }),
    ("a bound over the cost", |d| {
        d["whole"]["bound"] = json!(d["whole"]["cost"].as_i64().unwrap_or(0) + 1);
    }),
    ("no duals", |d| {
        for proof in d["whole"]["proofs"].as_array_mut().expect("proofs") {
            for node in proof.as_array_mut().expect("nodes") {
                for dual in node["leaf"]["item_duals"]
                    .as_array_mut()
                    .into_iter()
                    .flatten()
                {
                    *dual = json!(0);
                }
            }
        }
    }),
    ("a coarser grain", |d| d["whole"]["grain"] = json!(1)),
    ("one node too many", |d| {
        let node = d["whole"]["nodes"]
            .as_array()
            .and_then(|n| n.last().cloned());
        d["whole"]["nodes"]
            .as_array_mut()
            .expect("nodes")
            .push(node.expect("one"));
    }),
    ("no nodes", |d| d["whole"]["nodes"] = json!([])),
    ("a leaf called empty", |d| {
        let nodes = d["whole"]["nodes"].as_array_mut().expect("nodes");
        let leaf = nodes.iter_mut().find(|n| n.get("leaf").is_some());
        *leaf.expect("a leaf") = json!("nothing");
    }),
    ("a slope too few", |d| {
        first_leaf(d)["slopes"]
            .as_array_mut()
            .expect("slopes")
            .pop();
    }),
    ("steep slopes", |d| {
        let steep =
            |d: &mut Value| d["slopes"] = json!([900_000, 900_000, 9_000, 900_000, 900_000]);
        steep(first_leaf(d));
    }),
    ("a proof that is not there", |d| {
        first_leaf(d)["proofs"][0] = json!(999)
    }),
    ("charges that do not add up", |d| {
        d["whole"]["charges"][0] = json!(d["whole"]["charges"][0].as_i64().unwrap_or(0) + 1);
    }),
    ("a cost too low", |d| {
        d["whole"]["cost"] = json!(d["whole"]["cost"].as_i64().unwrap_or(0) - 1);
        d["whole"]["bound"] = d["whole"]["cost"].clone();
    }),
    ("no whole", |d| {
        d.as_object_mut().expect("an object").remove("whole");
    }),
];

#[test]
fn spoiled_certificates_with_charges_are_refused_by_both() {
    let sound = solved("small.json", &small());
    assert_eq!(sound["whole"]["status"], "proved");
    for (number, (what, spoil)) in SPOILS.iter().enumerate() {
        let mut document = sound.clone();
        spoil(&mut document);
        let file = write(&format!("spoiled-{number}.json"), &document);
        let done = longpoint(&["verify", &file]);
        assert_ne!(
            done.status.code(),
            Some(0),
            "{what}: {}",
            text(&done.stdout)
        );
        if let Some((code, words)) = outside::verify_file(Path::new(&file)) {
            assert_ne!(code, 0, "{what}: {words}");
        }
    }
}

#[test]
fn other_aims_are_followed_by_both_verifiers() {
    for (aim, other, says) in [
        ("joints", "splices", "joints, money"),
        ("waste", "joints", "taken, money"),
        ("splices", "waste", "splices, money"),
    ] {
        let mut problem = small();
        problem["aim"] = json!(aim);
        let shown = longpoint(&["nest", &write(&format!("{aim}.json"), &problem)]);
        assert!(
            text(&shown.stdout).contains(says),
            "{}",
            text(&shown.stdout)
        );
        let sound = solved(&format!("{aim}.json"), &problem);
        let mut cases = [
            (sound.clone(), true),
            (sound.clone(), false),
            (sound.clone(), false),
        ];
        // Claims about another aim, and a bound of one more of what is counted.
        cases[1].0["problem"]["aim"] = json!(other);
        cases[1]
            .0
            .as_object_mut()
            .expect("an object")
            .remove("weighing");
        let weight = sound["weighing"]["weight"].as_i64().expect("a weight");
        for claim in ["bound", "cost"] {
            let more = sound["whole"][claim].as_i64().expect("money") + weight;
            cases[2].0["whole"][claim] = json!(more);
        }
        for (number, (document, holds)) in cases.iter().enumerate() {
            let file = write(&format!("{aim}-{number}.json"), document);
            let done = longpoint(&["verify", &file]);
            assert_eq!(
                done.status.success(),
                *holds,
                "{aim} {number}: {}",
                text(&done.stderr)
            );
            if let Some((code, words)) = outside::verify_file(Path::new(&file)) {
                assert_eq!(code == 0, *holds, "{aim} {number}: {words}");
            }
        }
        let mut lighter = sound;
        lighter["weighing"]["weight"] = json!(weight - 1);
        let done = longpoint(&["verify", &write(&format!("{aim}-lighter.json"), &lighter)]);
        assert_eq!(done.status.code(), Some(1), "{}", text(&done.stdout));
    }
}
