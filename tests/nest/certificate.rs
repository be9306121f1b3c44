//! Certificates of the demo weeks hold by both verifiers, the crate's and the Python pages beside this
//! file; spoiled ones are refused.

use crate::outside;
use std::path::Path;

use crate::judge::{demo, demos, planned, print};
use longpoint::check::certificate::verify;
use longpoint::nest::{Branch, Leaf, Limits, NoWatch, PoolAnswer, Problem, solve};
use longpoint::plan::NestWork;
use serde_json::{Value, json};

fn certificate(folder: &str) -> NestWork {
    planned(&demo(folder)).1.nest
}

#[test]
fn the_demo_weeks_certificates_hold() {
    for folder in demos() {
        let work = certificate(&folder);
        let verified = verify(&work.problem, &work.answers, work.whole.as_ref());
        let verified = verified.unwrap_or_else(|found| panic!("{folder}:\n{}", print(&found)));
        for (answer, verified) in work.answers.iter().zip(verified.pools) {
            let verified = verified.expect("nothing is short in the demo weeks");
            assert_eq!(verified.cost, answer.cost);
            assert!(verified.bound >= answer.bound && verified.bound <= answer.cost);
        }
    }
}

/// Exit code of the Python verifier and what it printed of answers without charges; `None` when python3 is
/// absent.
fn python(problem: &Problem, answers: &[PoolAnswer], name: &str) -> Option<(i32, String)> {
    python_of(json!({ "problem": problem, "answers": answers }), name)
}

fn python_of(nest: Value, name: &str) -> Option<(i32, String)> {
    outside::verify(&json!({ "nest": nest }), name)
}

#[test]
fn the_python_verifier_agrees() {
    for folder in demos() {
        let work = certificate(&folder);
        let verified = verify(&work.problem, &work.answers, work.whole.as_ref()).expect("holds");
        let Some((code, text)) = python_of(json!(work), &folder) else {
            return;
        };
        assert_eq!(code, 0, "{folder}: {text}");
        for verified in verified.pools.into_iter().chain([verified.whole]).flatten() {
            let found = format!("found {}", verified.bound);
            assert!(text.contains(&found), "{folder}: no \"{found}\" in {text}");
        }
    }
}

/// The proof by hand in data/cutting_lists.md: 3 a centimetre, and with it every whole mark of a spliced piece.
#[test]
fn worths_found_by_hand_are_verified_by_both() {
    let text = include_str!("../../data/nest_class.json");
    let problem: Problem = serde_json::from_str(text).expect("a problem");
    let mut answer = solve(&problem, &Limits::default(), &NoWatch).expect("a sound problem");
    let pool = &mut answer.pools[0];
    pool.proof = vec![Branch::Leaf(Leaf {
        item_duals: vec![330, 270, 240],
        dual_scale: 1,
        length_duals: (1..=60).map(|mark| (5 * mark, 0, 15)).collect(),
        multipliers: Vec::new(),
    })];
    let found = verify(&problem, &answer.pools, None).expect("holds");
    let own = found.pools[0].expect("a bound");
    assert_eq!((own.cost, own.bound), (3750, 3750));
    if let Some((code, words)) = python(&problem, &answer.pools, "by-hand") {
        assert_eq!(code, 0, "{words}");
    }
}

/// A change to the nodes of a proof.
type SpoilTree = fn(&mut Vec<Value>);

/// Changes to a proof of one split (joints at most 4, or more) with a leaf on each side.
const TREES: [(&str, SpoilTree); 8] = [
    ("a split one up", |nodes| {
        nodes[0]["split"]["most"] = json!(5)
    }),
    ("a split one down", |nodes| {
        nodes[0]["split"]["most"] = json!(3)
    }),
    ("sides exchanged", |nodes| nodes.swap(1, 2)),
    ("one leaf twice", |nodes| nodes[2] = nodes[1].clone()),
    ("a set of fewer stocks", |nodes| {
        nodes[0]["split"]["counted"]["joints"] = json!([0]);
    }),
    ("a stock that is not there", |nodes| {
        nodes[0]["split"]["counted"]["joints"] = json!([0, 7]);
    }),
    ("no multiplier", |nodes| {
        nodes[1]["leaf"]
            .as_object_mut()
            .expect("a leaf")
            .remove("multipliers");
    }),
    ("no split", |nodes| {
        nodes.truncate(2);
        nodes.remove(0);
    }),
];

#[test]
fn a_spoiled_tree_is_refused_by_both() {
    let sound: Value =
        serde_json::from_str(include_str!("../nest_cases/proved_by_a_tree.json")).expect("JSON");
    let judge = |what: &str, nest: &Value| {
        let problem: Problem = serde_json::from_value(nest["problem"].clone()).expect("a problem");
        let answers: Vec<PoolAnswer> =
            serde_json::from_value(nest["answers"].clone()).expect("answers");
        let holds = verify(&problem, &answers, None).is_ok();
        if let Some((code, words)) = python(&problem, &answers, "tree") {
            assert_eq!(code == 0, holds, "{what}: {words}");
        }
        holds
    };
    assert!(judge("sound", &sound));
    for (what, spoil) in TREES {
        let mut nest = sound.clone();
        let nodes = nest["answers"][0]["proof"].as_array_mut();
        spoil(nodes.expect("nodes"));
        assert!(!judge(what, &nest), "{what}");
    }
}

/// Whoever doubts a proof reads one page.
#[test]
fn the_python_page_that_matters_is_one_page() {
    let pages = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/verify_certificate");
    let mut widest = 0;
    for file in std::fs::read_dir(&pages).expect("the pages are here") {
        let path = file.expect("the folder can be listed").path();
        if path.extension().is_some_and(|e| e == "py") {
            let text = std::fs::read_to_string(&path).expect("text");
            widest = text.lines().map(str::len).fold(widest, usize::max);
        }
    }
    assert!((60..=100).contains(&widest), "a line of {widest}");
    let page = std::fs::read_to_string(pages.join("proof.py")).expect("the page");
    assert!(page.lines().count() <= 70);
}
