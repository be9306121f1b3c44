//! What `longpoint nest` says of work that cannot be done or was not searched to its end, and of slips in options.

use std::fs;

use serde_json::{Value, json};

use crate::run::{Ran, longpoint, place, text};

fn nest(name: &str, problem: &Value, more: &[&str]) -> Ran {
    let file = place(name).join("list.json");
    fs::write(&file, problem.to_string()).expect("the place can be written");
    let mut arguments = vec!["nest", text(&file)];
    arguments.extend(more);
    longpoint(&arguments)
}

fn pool(stocks: Value, items: Value, groups: Value) -> Value {
    json!({"pools": [{"name": "p", "mark": 1, "kerf": 1, "credit": {"keep": 30, "foot": 10, "per_foot": 1},
        "stocks": stocks, "items": items, "groups": groups}]})
}

fn line(lo: i64, hi: i64, most_splices: u32) -> Value {
    json!([{"name": "g", "count": 2, "apart": 0, "zones_exclusive": false, "splice_cost": 1, "lines": [
        {"length": 150, "whole": 150, "gap": 0, "least_splices": 0, "most_splices": most_splices,
         "least_piece": 0, "three_over": 0, "slots": [{"lo": lo, "hi": hi, "zone": 0, "charge": 0}]}]}])
}

fn joint() -> Value {
    json!([{"name": "a", "usable": 100, "cost": 50, "length": 100}])
}

#[test]
fn what_is_missing_is_said_with_its_reason_and_its_mend() {
    let stocks = json!([
        {"name": "a", "usable": 100, "cost": 50, "limit": 1, "serves": 1, "length": 100},
        {"name": "b", "usable": 60, "cost": 50, "serves": 3, "length": 60},
    ]);
    let items = json!([{"length": 90, "count": 2}, {"length": 200, "count": 1},
        {"length": 70, "count": 1, "class": 1}, {"length": 50, "count": 3, "class": 2}]);
    let ran = nest("nest-missing", &pool(stocks, items, json!([])), &[]);
    assert_eq!(ran.code, 3, "{}", ran.err);
    for said in [
        "missing: 1 x 90: the stocks that hold it run out\n    frees it: more of a (1 to be had)\n",
        "missing: 1 x 200: longer than the usable 100 of every stock\n    frees it: a stock of usable 200 or more\n",
        "missing: 1 x 70: longer than the usable 60 of every stock that serves class 1\n",
        "missing: 3 x 50: no stock serves class 2\n    frees it: a stock that serves class 2 of usable 50 or more\n",
    ] {
        assert!(ran.out.contains(said), "{said}: {}", ran.out);
    }
}

#[test]
fn a_line_that_no_splice_frees_is_said_so_and_the_mend_does() {
    // Pieces of 20 and 130: the joint holds 100.
    let short = nest(
        "nest-no-splice",
        &pool(joint(), json!([]), line(10, 20, 1)),
        &[],
    );
    assert_eq!(short.code, 3, "{}", short.err);
    let said = "missing: 2 of g: no splices that its slots and rules allow";
    assert!(short.out.contains(said), "{}", short.out);
    assert!(
        short.out.contains("a stock of usable 150 or more"),
        "{}",
        short.out
    );
    let longer = json!([{"name": "a", "usable": 150, "cost": 50, "length": 150}]);
    let freed = nest("nest-freed", &pool(longer, json!([]), line(10, 20, 1)), &[]);
    assert_eq!(freed.code, 0, "{}", freed.out);
}

#[test]
fn a_star_is_explained_where_it_stands_and_nowhere_else() {
    let legend = "*: a piece of a spliced line\n";
    let spliced = nest("nest-star", &pool(joint(), json!([]), line(60, 90, 1)), &[]);
    assert!(
        spliced.out.contains("*\n") && spliced.out.ends_with(legend),
        "{}",
        spliced.out
    );
    let plain = nest(
        "nest-no-star",
        &pool(joint(), json!([{"length": 40, "count": 3}]), json!([])),
        &[],
    );
    assert!(!plain.out.contains('*'), "{}", plain.out);
    assert!(
        plain.out.starts_with("p: ") && plain.out.contains("proved"),
        "{}",
        plain.out
    );
}

/// The demo's list stopped at once: why, and what that means, under every aim with its bound.
#[test]
fn a_search_cut_short_says_so_and_shows_its_bound() {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/data/nest_demo.json");
    let demo = fs::read_to_string(demo).expect("the demo is here");
    for aim in ["money", "joints", "waste", "splices"] {
        let mut problem: Value = serde_json::from_str(&demo).expect("JSON");
        problem["aim"] = json!(aim);
        let ran = nest(
            &format!("nest-stop-{aim}"),
            &problem,
            &["--time-limit", "0.000001"],
        );
        let whole = ran
            .out
            .lines()
            .find(|l| l.starts_with("all pools with charges"));
        let whole = whole.expect("the demo has charges");
        assert!(
            whole.contains("(bound ") && whole.ends_with(", stopped early"),
            "{aim}: {whole}"
        );
        let meaning =
            "stopped early: by --time-limit or by hand; more time may find a cheaper plan\n";
        assert!(ran.out.ends_with(meaning), "{aim}: {}", ran.out);
    }
}

/// Whatever stands in the way of reading a file is told at once, each with its place and its meaning.
#[test]
fn a_file_of_another_form_is_told_all_of_it() {
    let mut group = line(10, 20, 1);
    let first = group[0].as_object_mut().expect("an object");
    first.remove("apart");
    first.remove("zones_exclusive");
    let inner = group[0]["lines"][0].as_object_mut().expect("an object");
    inner.remove("three_over");
    inner.insert("whole".to_owned(), json!("150"));
    let mut problem = pool(joint(), json!([{"length": 40, "cuont": 3}]), group);
    problem["charges"] =
        json!([{"name": "c", "over": [{"pool": 0, "stock": 0}], "kind": {"minimum": {}}}]);
    problem["aim"] = Value::Null;
    let ran = nest("nest-form", &problem, &[]);
    assert_eq!(ran.code, 2, "{}", ran.out);
    for said in [
        "pools[0].groups[0].apart: error: it is missing: how far the splices of one line stay",
        "pools[0].groups[0].zones_exclusive: error: it is missing: true where the two lines",
        "pools[0].groups[0].lines[0].three_over: error: it is missing: of three splices in a row",
        "pools[0].groups[0].lines[0].whole: error: it is not a whole number",
        "pools[0].items[0].count: error: it is missing",
        "pools[0].items[0].cuont: error: there is no such field here\n  mend:  did you mean \"count\"?",
        "charges[0].kind.minimum.least: error: it is missing",
        "aim: error: it is not a text in quotes",
        "\n8 errors, ",
    ] {
        assert!(ran.err.contains(said), "{said}: {}", ran.err);
    }
    let places = ran.err.matches("list.json, line 1, column ").count();
    assert_eq!(places, 8, "{}", ran.err);
}

#[test]
fn slots_at_fault_are_told_apart() {
    let slot = |lo: i64, hi: i64, zone: u32| json!({"lo": lo, "hi": hi, "zone": zone, "charge": 0});
    for (name, slots, said) in [
        (
            "back",
            vec![slot(90, 60, 0)],
            "slot 1 runs backwards: lo 90 is over hi 60",
        ),
        (
            "over",
            vec![slot(20, 60, 0), slot(50, 70, 1)],
            "slot 2 starts at lo 50, before the one in front of it ends at 60",
        ),
        (
            "zone",
            vec![slot(20, 30, 0), slot(40, 50, 1), slot(60, 70, 0)],
            "slot 3 comes back to zone 0",
        ),
    ] {
        let mut group = line(0, 1, 1);
        group[0]["lines"][0]["slots"] = json!(slots);
        let ran = nest(
            &format!("nest-slot-{name}"),
            &pool(joint(), json!([]), group),
            &[],
        );
        assert_eq!(ran.code, 2, "{}", ran.out);
        assert!(ran.err.contains(said), "{said}: {}", ran.err);
    }
}

#[test]
fn an_options_value_that_cannot_be_is_told_as_our_own_faults_are() {
    for (arguments, said) in [
        (
            ["nest", "x", "--time-limit", "-1"],
            "--time-limit -1: a value below zero; it must be over 0",
        ),
        (
            ["plan", "x", "--time-limit", "soon"],
            "--time-limit soon: give a number of seconds",
        ),
        (
            ["plan", "x", "--revision", "-2"],
            "--revision -2: a value below zero; it must be 0 or more",
        ),
        (
            ["cut-now", "x", "--threads", "-3"],
            "--threads -3: a value below zero; it must be 1 or more",
        ),
        (
            ["compare", "x", "--tail", "-0.4"],
            "--tail -0.4: a value below zero; it must be over 0",
        ),
        (
            ["compare", "x", "--tail", "3"],
            "--tail 3: give a fraction of the opening",
        ),
        (
            ["compare", "x", "--pair", "21ft"],
            "--pair 21ft: give two lengths",
        ),
    ] {
        let ran = longpoint(&arguments);
        assert_eq!(ran.code, 2, "{}", ran.err);
        assert!(ran.err.starts_with(said), "{said}: {}", ran.err);
        assert_eq!(ran.err.trim_end().lines().count(), 1, "{}", ran.err);
    }
}
