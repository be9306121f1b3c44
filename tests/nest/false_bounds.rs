//! Bounds that are false, though the sums behind them look right, are refused by both verifiers: each of these
//! was once let pass by one of them.

use crate::outside;
use longpoint::check::Rule;
use longpoint::check::certificate::verify;
use longpoint::nest::{Limits, NestFault, NoWatch, PoolAnswer, Problem, solve};
use serde_json::{Value, json};

/// One stock without limit, cut without kerf; items as (length, count).
fn problem(usable: i64, cost: i64, items: &[(i64, u32)], credit: &Value) -> Value {
    let items: Vec<Value> = items
        .iter()
        .map(|(length, count)| json!({"length": length, "count": count}))
        .collect();
    let stock = json!({"name": "pipe", "usable": usable, "cost": cost, "length": usable});
    json!({"pools": [{"name": "pipe", "mark": 1, "kerf": 0, "credit": credit, "stocks": [stock],
        "items": items, "groups": []}]})
}

/// A drop is paid 5 for each 10 of it.
fn half() -> Value {
    json!({"keep": 10, "foot": 10, "per_foot": 5})
}

/// An answer of patterns (times, items) that says it is proved.
fn proved(cost: i64, proof: &Value, patterns: &[(u32, &[usize])]) -> Value {
    let patterns: Vec<Value> = patterns
        .iter()
        .map(|(times, cuts)| {
            let cuts: Vec<Value> = cuts.iter().map(|i| json!({"item": i})).collect();
            json!({"stock": 0, "times": times, "cuts": cuts})
        })
        .collect();
    json!({"patterns": patterns, "configurations": [], "cost": cost, "bound": cost, "proof": proof,
        "status": "proved", "stop": "closed", "short": [], "short_groups": []})
}

fn leaf(duals: &[i64]) -> Value {
    json!({"leaf": {"item_duals": duals, "dual_scale": 1, "length_duals": []}})
}

/// Both verifiers refuse the answer, for its bound.
fn refused(name: &str, problem: &Value, answer: &Value) {
    let said = json!({"problem": problem, "answers": [answer]});
    let problem: Problem = serde_json::from_value(problem.clone()).expect("a problem");
    let answer: PoolAnswer = serde_json::from_value(answer.clone()).expect("an answer");
    let found = verify(&problem, &[answer], None).expect_err(name);
    assert_eq!(found.len(), 1, "{name}: {found:?}");
    assert_eq!(found[0].rule, Rule::CertificateBound, "{name}");
    // The engine's own reader gives every default its value.
    let said = json!({"problem": problem, "answers": said["answers"]});
    if let Some((code, words)) = outside::verify(&said, name) {
        assert_eq!(code, 1, "{name}: {words}");
        assert!(words.contains("its proof gives"), "{name}: {words}");
    }
}

/// One long piece and two short: two joints for 150 + 60. With a joint for each short piece 260, and "proved" so
/// by duals under which the short pieces are worth nothing: where at least two joints are taken each then seems to
/// cost 149, though one with a short piece costs 150 less 95 for its drop.
#[test]
fn a_joint_with_worthless_pieces_is_a_joint() {
    let split = json!({"split": {"counted": {"joints": [0]}, "most": 1, "under": 1, "over": 2}});
    let proof = json!([split, leaf(&[10_000, 10_000]), leaf(&[1, 0])]);
    let problem = problem(200, 150, &[(195, 1), (10, 2)], &half());
    let answer = proved(260, &proof, &[(1, &[0]), (2, &[1])]);
    refused("worthless", &problem, &answer);
}

/// A joint of 50 whose drop is paid 95: the more joints the better, and a bound of 0 is false. Two joints come to
/// 50 - 95 and 50 - 25, one to 50 - 20. The engine takes no such problem.
#[test]
fn a_drop_may_pay_more_than_its_joint() {
    let problem = problem(200, 50, &[(10, 1), (150, 1)], &half());
    let mut answer = proved(30, &json!([leaf(&[0, 0])]), &[(1, &[1, 0])]);
    answer["bound"] = json!(0);
    answer["status"] = json!("within");
    refused("paying", &problem, &answer);
    let problem: Problem = serde_json::from_value(problem).expect("a problem");
    let fault = solve(&problem, &Limits::default(), &NoWatch).expect_err("money under nothing");
    assert!(
        matches!(
            fault,
            NestFault::Pays {
                cost: 50,
                credit: 100,
                ..
            }
        ),
        "{fault}"
    );
}

/// Pieces shorter than a cell of a coarse table go together on one joint; two joints are not "proved".
#[test]
fn the_shortest_pieces_of_a_long_joint_are_counted() {
    let none = json!({"keep": 0, "foot": 1, "per_foot": 0});
    let problem = problem(1 << 40, 1_000_000_000, &[(1000, 2)], &none);
    let proof = json!([leaf(&[1_000_000_000])]);
    refused(
        "shortest",
        &problem,
        &proved(2_000_000_000, &proof, &[(2, &[0])]),
    );
}
