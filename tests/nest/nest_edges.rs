//! The edges of the engine: lines of many splices, problems without a plan, limits, bounds by length, proofs kept.
//! Problems are worked out beside each test: common practice, no source.

use std::process::Command;

use serde_json::{Value, json};

use crate::outside;
use longpoint::check::certificate::verify;
use longpoint::nest::{Answer, Limits, NoWatch, Problem, Status, solve};

fn problem(value: &Value) -> Problem {
    serde_json::from_value(value.clone()).expect("a problem")
}

/// Solved, and verified by both verifiers.
fn solved(value: &Value) -> Answer {
    let problem = problem(value);
    let answer = solve(&problem, &Limits::default(), &NoWatch).expect("a sound problem");
    let found = verify(&problem, &answer.pools, answer.whole.as_ref());
    assert!(found.is_ok(), "{found:?}");
    let document = json!({"problem": problem, "answers": answer.pools, "whole": answer.whole});
    if let Some((code, said)) = outside::verify(&document, "edges") {
        assert_eq!(code, 0, "{said}");
    }
    answer
}

/// One pool of joints of 4,032 at 6,500 each, a kerf of 3, nothing credited.
fn pool(items: Value, groups: Value) -> Value {
    json!({"pools": [{"name": "p", "mark": 1, "kerf": 3,
        "credit": {"keep": 0, "foot": 1, "per_foot": 0},
        "stocks": [{"name": "s0", "usable": 4032, "length": 4032, "cost": 6500, "limit": null}],
        "items": items, "groups": groups}]})
}

/// A line whose slots lie in every bay, `of` marks long each, `apart` from start to start.
fn line(length: i64, most: u32, (bays, from, apart, of): (i64, i64, i64, i64)) -> Value {
    let slots: Vec<Value> = (0..bays)
        .map(|bay| {
            let lo = from + bay * apart;
            json!({"lo": lo, "hi": lo + of, "zone": bay + 1, "charge": 0})
        })
        .collect();
    json!({"length": length, "whole": length, "gap": 2, "least_splices": 0, "most_splices": most,
        "least_piece": 500, "three_over": 0, "slots": slots})
}

fn group(lines: Vec<Value>, count: u32, apart: i64) -> Value {
    json!({"name": "g", "count": count, "apart": apart, "zones_exclusive": lines.len() > 1,
        "splice_cost": 2500, "lines": lines})
}

/// The checker once refused such answers as too large to verify, after 38 s: now they have a plan and a bound.
#[test]
fn a_line_of_eight_splices_has_a_plan_and_a_bound() {
    let long = line(24_000, 8, (24, 660, 960, 600));
    let answer = solved(&pool(
        json!([{"length": 1400, "count": 3}]),
        json!([group(vec![long], 2, 0)]),
    ));
    let answer = &answer.pools[0];
    assert!(answer.status.has_plan());
    // 2 · 24,000 + 3 · 1,400 of 4,032 a joint, and 2 · 5 splices: 13 joints of 6,500 and 25,000 at the least.
    assert!(answer.bound >= 13 * 6_500 + 25_000, "{}", answer.bound);
}

/// Two lines of ten splices, one of sixteen: legal plans exist, and a search that gave up once called them missing.
#[test]
fn lines_of_ten_and_of_sixteen_splices_are_made() {
    let ten = line(32_000, 10, (32, 949, 970, 40));
    let sixteen = line(62_000, 16, (61, 949, 1_000, 40));
    for lines in [vec![ten.clone(), ten], vec![sixteen]] {
        let answer = solved(&pool(json!([]), json!([group(lines, 2, 300)])));
        let answer = &answer.pools[0];
        assert!(answer.status.has_plan(), "{:?}", answer.status);
        assert!(answer.short_groups.is_empty());
    }
}

/// Windows that no piece reaches across: every way was tried, so "never" may be said; a search that is stopped
/// at once may not say it.
#[test]
fn only_an_exhausted_search_says_never() {
    // From 5,049 on no splice is within one joint of the first 949.
    let mut gap = line(32_000, 10, (32, 949, 970, 40));
    let slots = gap["slots"].as_array_mut().expect("a list");
    slots.retain(|s| !(1_900..5_700).contains(&s["lo"].as_i64().expect("whole")));
    let none = solved(&pool(json!([]), json!([group(vec![gap], 1, 0)])));
    assert_eq!(none.pools[0].status, Status::Short);
    let ten = line(32_000, 10, (32, 949, 970, 40));
    let two = problem(&pool(
        json!([]),
        json!([group(vec![ten.clone(), ten], 1, 300)]),
    ));
    let limits = Limits {
        work: 0,
        time: Some(std::time::Duration::ZERO),
    };
    let stopped = solve(&two, &limits, &NoWatch).expect("a sound problem");
    assert_ne!(stopped.pools[0].status, Status::Short);
}

/// A group of which none is wanted shares no money with the rest: the checker once counted its splices' money
/// into what all costs share, and refused the bound rounded up without it.
#[test]
fn a_group_of_none_changes_nothing() {
    let unwanted = json!({"name": "u", "count": 0, "apart": 0, "zones_exclusive": false, "splice_cost": 7,
        "lines": [line(5_000, 1, (4, 1_500, 600, 40))]});
    let items = json!([{"length": 1900, "count": 5}, {"length": 1400, "count": 3}]);
    let answer = solved(&pool(items, json!([unwanted])));
    assert_eq!(answer.pools[0].status, Status::Proved);
    assert_eq!(answer.pools[0].cost % 6_500, 0);
}

fn joints_of_100(charge: Value) -> Value {
    json!({"pools": [{"name": "p", "mark": 1, "kerf": 2, "credit": {"keep": 10, "foot": 10, "per_foot": 1},
        "stocks": [{"name": "s", "usable": 100, "length": 100, "cost": 50}],
        "items": [{"length": 30, "count": 4}, {"length": 45, "count": 3}]}],
        "charges": [{"name": "c", "over": [{"pool": 0, "stock": 0}], "kind": charge}]})
}

/// 269 of weight out of two joints of 102: never.
#[test]
fn joints_capped_under_the_need_are_never_enough() {
    let answer = solved(&joints_of_100(json!({"range": {"least": 1, "most": 2}})));
    assert_eq!(answer.whole.map(|w| w.status), Some(Status::Short));
}

/// Free freight from a sum that nobody reaches is freight: 148 for the joints and 100.
#[test]
fn free_freight_out_of_reach_is_paid() {
    for far in [1_000_000_000i64, 1 << 40] {
        let answer = solved(&joints_of_100(
            json!({"fixed": {"amount": 100, "free_over": far}}),
        ));
        let whole = answer.whole.expect("charges make a whole");
        assert_eq!((whole.cost, whole.status), (248, Status::Proved), "{far}");
    }
}

/// Four small weeks whose optimum a search proves; a plan of equal money once took the proof away.
#[test]
fn a_plan_of_equal_money_keeps_the_proof() {
    for text in [
        include_str!("../nest_cases/one_line_and_two.json"),
        include_str!("../nest_cases/two_lengths_and_remnants.json"),
        include_str!("../nest_cases/two_lines_and_two_remnants.json"),
        include_str!("../nest_cases/two_remnants_of_worth.json"),
    ] {
        let answer = solved(&serde_json::from_str(text).expect("JSON"));
        let status = answer.pools[0].status;
        assert!(
            matches!(status, Status::Proved | Status::ProvedBySearch),
            "{status:?}"
        );
    }
}

/// Stopped at once, a list still has the bound of its length.
#[test]
fn length_alone_bounds_a_list_whose_search_was_stopped() {
    let items: Vec<Value> = (0..400)
        .map(|i| json!({"length": 900 + 3 * i, "count": 1}))
        .collect();
    let long = line(9_000, 4, (9, 500, 950, 40));
    for groups in [json!([]), json!([group(vec![long], 3, 0)])] {
        let value = pool(json!(items), groups);
        let limits = Limits {
            work: 0,
            time: None,
        };
        let problem = problem(&value);
        let answer = solve(&problem, &limits, &NoWatch).expect("a sound problem");
        assert!(verify(&problem, &answer.pools, None).is_ok());
        // 400 · 1,501.5 of 4,035 a joint.
        assert!(
            answer.pools[0].bound >= 149 * 6_500,
            "{}",
            answer.pools[0].bound
        );
    }
}

fn nest(value: &Value) -> (i32, String, String) {
    let name = format!(
        "longpoint-edges-{}-{}.json",
        std::process::id(),
        value.to_string().len()
    );
    let file = std::env::temp_dir().join(name);
    std::fs::write(&file, value.to_string()).expect("the temporary folder takes a file");
    let run = Command::new(env!("CARGO_BIN_EXE_longpoint"))
        .arg("nest")
        .arg(&file)
        .output()
        .expect("the binary runs");
    std::fs::remove_file(&file).expect("the file just written");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (
        run.status.code().unwrap_or(-1),
        text(&run.stdout),
        text(&run.stderr),
    )
}

#[test]
fn no_plan_is_exit_3_in_the_words_of_what_is_known() {
    let (code, out, _) = nest(&joints_of_100(json!({"range": {"least": 1, "most": 2}})));
    assert_eq!(code, 3, "{out}");
    assert!(
        out.contains("all pools with charges: short, no plan can be"),
        "{out}"
    );
    // Three pieces of 51 out of two joints of 100, of a class that no exhaustive means looks into.
    let (code, out, _) = nest(&json!({"pools": [{"name": "p", "mark": 1, "kerf": 0,
        "credit": {"keep": 10, "foot": 10, "per_foot": 1},
        "stocks": [{"name": "s", "usable": 100, "length": 100, "cost": 50, "limit": 2}],
        "items": [{"length": 51, "count": 3, "class": 1}]}]}));
    assert_eq!(code, 3, "{out}");
    assert!(
        out.contains("p: none found, and none is ruled out"),
        "{out}"
    );
    assert!(out.contains("the best try leaves out 1 x 51"), "{out}");
    assert!(out.contains("What helps: --work 10"), "{out}");
}

#[test]
fn items_of_one_length_add_up_and_limits_are_named() {
    let mut twice = pool(
        json!([{"length": 1400, "count": 3}, {"length": 1400, "count": 2}]),
        json!([]),
    );
    let (code, out, err) = nest(&twice);
    assert_eq!(code, 0, "{err}");
    assert!(out.contains("2 x 1400") && out.contains("proved"), "{out}");
    twice["pools"][0]["groups"] =
        json!([group(vec![line(62_000, 17, (61, 949, 1_000, 40))], 1, 0)]);
    let (code, _, err) = nest(&twice);
    assert_eq!(code, 2, "{err}");
    assert!(
        err.contains("most splices of g line 1 is 17, over the most allowed, 16"),
        "{err}"
    );
    twice["pools"][0]["groups"] = json!([]);
    twice["pools"][0]["items"][0]["class"] = json!(32);
    let (_, _, err) = nest(&twice);
    assert!(
        err.contains("class of item 1 is 32, over the most allowed, 31"),
        "{err}"
    );
}
