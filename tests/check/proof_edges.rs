//! A proof's limits to the tick: splices just the stagger apart, a joint filled to the last mark, a drop of just the
//! keep length. The numbers are worked by hand beside each.

use longpoint::check::Rule;
use longpoint::check::certificate::verify;
use longpoint::nest::Problem;
use serde_json::json;

use crate::judge::{names, print};

/// A pool of one gate, whose lines of 400 are cut in these pieces; slots of 80 about each hundred.
fn spliced(
    lines: &[&[i64]],
    apart: i64,
    three_over: i64,
) -> (Problem, longpoint::nest::PoolAnswer) {
    let slots = json!([
        {"lo": 60, "hi": 140, "zone": 1, "charge": 0},
        {"lo": 160, "hi": 240, "zone": 2, "charge": 0},
        {"lo": 260, "hi": 340, "zone": 3, "charge": 0},
    ]);
    let line = |pieces: &&[i64]| {
        let m = pieces.len() - 1;
        json!({"length": 400, "whole": 400, "gap": 0, "least_splices": m, "most_splices": m, "least_piece": 1,
            "three_over": three_over, "slots": slots})
    };
    let problem = json!({"pools": [{"name": "pipe", "mark": 1, "kerf": 0,
        "credit": {"keep": 0, "foot": 1, "per_foot": 0},
        "stocks": [{"name": "pipe", "usable": 390, "cost": 100, "length": 390}], "items": [],
        "groups": [{"name": "A1", "count": 1, "lines": lines.iter().map(line).collect::<Vec<_>>(),
            "apart": apart, "zones_exclusive": false, "splice_cost": 0}]}]});
    let cuts: Vec<_> = (lines.iter().copied().flatten())
        .map(|length| json!({"stock": 0, "times": 1, "cuts": [{"piece": {"length": length, "class": 0}}]}))
        .collect();
    let leaf = json!({"leaf": {"item_duals": [], "dual_scale": 1, "length_duals": []}});
    let answer = json!({"patterns": cuts, "configurations": [{"group": 0, "times": 1, "lines": lines}],
        "cost": 100 * cuts.len(), "bound": 0, "proof": [leaf], "status": "within", "stop": "closed",
        "short": [], "short_groups": []});
    let problem = serde_json::from_value(problem).expect("a problem");
    (problem, serde_json::from_value(answer).expect("an answer"))
}

/// Splices of two lines just the stagger apart are legal and a tick less is not; the first and the third of three
/// must be over their distance.
#[test]
fn a_certificates_configurations_keep_their_distances_to_the_tick() {
    let named = |(problem, answer): (Problem, longpoint::nest::PoolAnswer)| match verify(
        &problem,
        &[answer],
        None,
    ) {
        Ok(_) => false,
        Err(found) => names(&found, Rule::CertificateConfiguration),
    };
    // Splices at 120 and 180, and a pair of which each lies between two of the other line.
    for (apart, refused) in [(59, false), (60, false), (61, true), (8188, true)] {
        assert_eq!(
            named(spliced(&[&[120, 280], &[180, 220]], apart, 0)),
            refused,
            "{apart}"
        );
        assert_eq!(
            named(spliced(&[&[180, 220], &[120, 280]], apart, 0)),
            refused,
            "{apart}"
        );
        let lines: [&[i64]; 2] = [&[120, 180, 100], &[180, 220]];
        assert_eq!(named(spliced(&lines, apart, 0)), refused, "{apart}");
    }
    // Splices at 100, 200 and 300.
    for (over, refused) in [(0, false), (199, false), (200, true), (201, true)] {
        assert_eq!(
            named(spliced(&[&[100, 100, 100, 100]], 0, over)),
            refused,
            "{over}"
        );
    }
}

/// Two pieces of 49 with the kerf of 2 between them fill a joint of 100: a proof that needs a joint for each is
/// none. A drop of just the keep length is paid for, and a joint as long as a freight step takes that step.
#[test]
fn a_joint_that_is_filled_to_the_tick_is_counted() {
    let problem = json!({"pools": [{"name": "pipe", "mark": 1, "kerf": 2,
        "credit": {"keep": 0, "foot": 1, "per_foot": 0},
        "stocks": [{"name": "pipe", "usable": 100, "cost": 100, "length": 100}],
        "items": [{"length": 49, "count": 2}], "groups": []}]});
    let problem: Problem = serde_json::from_value(problem).expect("a problem");
    let answer = |times: u32, cuts: serde_json::Value, cost: i64, dual: i64| {
        let leaf = json!({"leaf": {"item_duals": [dual], "dual_scale": 1, "length_duals": []}});
        let answer = json!({"patterns": [{"stock": 0, "times": times, "cuts": cuts}],
            "configurations": [], "cost": cost, "bound": cost, "proof": [leaf],
            "status": "proved", "stop": "closed", "short": [], "short_groups": []});
        serde_json::from_value(answer).expect("an answer")
    };
    let item = json!({"item": 0});
    let sound = answer(1, json!([item, item]), 100, 50);
    verify(&problem, &[sound], None).expect("one joint holds both");
    let two = answer(2, json!([item]), 200, 100);
    let found = verify(&problem, &[two], None).expect_err("two joints are one too many");
    assert!(names(&found, Rule::CertificateBound), "{}", print(&found));
}

/// A stock with its usable length, its cost and the one pool of it with a piece of this length.
fn one_pool(stocks: &[(i64, i64)], length: i64, count: u32) -> Problem {
    let stocks: Vec<_> = stocks
        .iter()
        .map(|(usable, cost)| json!({"name": format!("{usable}"), "usable": usable, "cost": cost, "length": usable}))
        .collect();
    let problem = json!({"pools": [{"name": "pipe", "mark": 1, "kerf": 2,
        "credit": {"keep": 30, "foot": 10, "per_foot": 5}, "stocks": stocks,
        "items": [{"length": length, "count": count}], "groups": []}]});
    serde_json::from_value(problem).expect("a problem")
}

/// One piece a joint, said to be proved by a dual for each.
fn proved(stock: usize, times: u32, cost: i64, dual: i64) -> longpoint::nest::PoolAnswer {
    let leaf = json!({"leaf": {"item_duals": [dual], "dual_scale": 1, "length_duals": []}});
    let answer = json!({"patterns": [{"stock": stock, "times": times, "cuts": [{"item": 0}]}],
        "configurations": [], "cost": cost, "bound": cost, "proof": [leaf],
        "status": "proved", "stop": "closed", "short": [], "short_groups": []});
    serde_json::from_value(answer).expect("an answer")
}

/// 100 less 68 and a kerf of 2 leaves a drop of just the keep length, 30: three feet are paid, 15. So the joint
/// that costs 100 comes to 85, and one of 90 that leaves nothing is not the cheapest.
#[test]
fn a_drop_of_just_the_keep_length_is_paid_in_a_proof() {
    let problem = one_pool(&[(100, 100), (69, 90)], 68, 1);
    verify(&problem, &[proved(0, 1, 85, 85)], None).expect("the long joint is the cheapest");
    let found = verify(&problem, &[proved(1, 1, 90, 90)], None).expect_err("it is cheaper by 5");
    assert!(names(&found, Rule::CertificateBound), "{}", print(&found));
}

/// Where no drop reaches the keep length plans differ by whole joints alone: a bound of 150 is one of 200.
#[test]
fn a_drop_that_cannot_be_kept_makes_no_smaller_step_of_money() {
    // 31 holds one piece of 20; the longest drop is 31 less a mark and a kerf, 28.
    let problem = one_pool(&[(31, 100)], 20, 2);
    verify(&problem, &[proved(0, 2, 200, 75)], None).expect("two joints, proved");
}
