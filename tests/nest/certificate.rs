//! Certificates of the demo weeks hold by both verifiers, the crate's and the Python pages beside this
//! file; spoiled ones are refused.

use std::path::Path;

use crate::judge::{demo, demos, names, planned, print};
use crate::outside;
use longpoint::check::certificate::verify;
use longpoint::nest::{
    Branch, Counted, Leaf, Limits, Multiplier, NoWatch, PoolAnswer, Problem, Status, solve,
};
use longpoint::plan::NestWork;
use serde_json::{Value, json};

fn certificate(folder: &str) -> NestWork {
    planned(&demo(folder)).1.nest
}

/// Index of a pool in which gates are spliced top and bottom.
fn spliced(work: &NestWork) -> usize {
    let pair = |p: &longpoint::nest::Pool| p.groups.iter().any(|g| g.lines.len() == 2);
    let found = work.problem.pools.iter().position(pair);
    found.expect("the demo week splices horizontals")
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

/// A change to a sound certificate.
type Spoil = fn(&mut Problem, &mut Vec<PoolAnswer>, usize);

/// Changes the duals of every leaf: one leaf alone need not be the one the bound leans on.
fn each_leaf(answer: &mut PoolAnswer, change: fn(&mut Leaf)) {
    for node in &mut answer.proof {
        if let Branch::Leaf(leaf) = node {
            change(leaf);
        }
    }
}

const BOUND: [(&str, Spoil); 12] = [
    ("certificate-bound", |_, a, s| {
        each_leaf(&mut a[s], |leaf| leaf.item_duals.fill(0));
    }),
    ("certificate-bound", |_, a, s| {
        // Twice what the stocks bear.
        each_leaf(&mut a[s], |leaf| {
            leaf.item_duals.iter_mut().for_each(|dual| *dual *= 2);
        });
    }),
    ("certificate-bound", |_, a, s| {
        each_leaf(&mut a[s], |leaf| leaf.length_duals.clear());
    }),
    ("certificate-bound", |_, a, s| {
        each_leaf(&mut a[s], |leaf| leaf.dual_scale /= 2);
    }),
    ("certificate-duals", |_, a, s| {
        each_leaf(&mut a[s], |leaf| leaf.item_duals[0] = -1);
    }),
    ("certificate-duals", |_, a, s| {
        each_leaf(&mut a[s], |leaf| {
            leaf.item_duals.pop();
        });
    }),
    ("certificate-bound", |_, a, s| {
        a[s].bound = a[s].cost;
        each_leaf(&mut a[s], |leaf| {
            leaf.item_duals[0] -= leaf.item_duals[0] / 3
        });
    }),
    ("certificate-status", |_, a, s| a[s].bound = a[s].cost + 1),
    ("certificate-tree", |_, a, s| a[s].proof.clear()),
    ("certificate-tree", |_, a, s| {
        // A second tree beside the first.
        let first = a[s].proof[0].clone();
        a[s].proof.push(first);
    }),
    ("certificate-tree", |_, a, s| {
        // One side of a split twice, the other never.
        let first = a[s].proof[0].clone();
        let split = Branch::Split {
            counted: Counted::Joints(vec![0]),
            most: 3,
            under: 1,
            over: 1,
        };
        a[s].proof = vec![split, first];
    }),
    ("certificate-tree", |_, a, s| {
        each_leaf(&mut a[s], |leaf| {
            leaf.multipliers.push(Multiplier {
                counted: Counted::Joints(vec![0]),
                value: -1,
            });
        });
    }),
];

const REST: [(&str, Spoil); 16] = [
    ("certificate-cost", |_, a, s| a[s].cost -= 1),
    ("certificate-cost", |p, _, s| p.pools[s].stocks[0].cost += 1),
    ("certificate-status", |_, a, s| {
        a[s].status = Status::Proved;
        a[s].bound = a[s].cost - 1;
    }),
    ("certificate-short", |_, a, s| a[s].status = Status::Short),
    ("certificate-pattern", |_, a, s| a[s].patterns[0].stock = 99),
    ("certificate-pattern", |_, a, s| {
        a[s].patterns[0].cuts.clear()
    }),
    ("certificate-pattern", |_, a, s| {
        let again = a[s].patterns[0].cuts.clone();
        for _ in 0..9 {
            a[s].patterns[0].cuts.extend(again.clone());
        }
    }),
    ("certificate-pattern", |p, _, s| {
        for stock in &mut p.pools[s].stocks {
            stock.serves = 2;
        }
    }),
    ("certificate-piece-count", |_, a, s| {
        let pieces = |p: &&mut longpoint::nest::Pattern| {
            let piece = |c: &longpoint::nest::Cut| matches!(c, longpoint::nest::Cut::Piece { .. });
            p.cuts.iter().any(piece)
        };
        let pattern = a[s].patterns.iter_mut().find(pieces);
        pattern.expect("pieces are cut").times += 1;
    }),
    ("certificate-item-count", |p, _, s| {
        p.pools[s].items[0].count += 1
    }),
    ("certificate-stock-limit", |p, a, s| {
        p.pools[s].stocks[a[s].patterns[0].stock].limit = Some(0);
    }),
    ("certificate-configuration", |_, a, s| {
        let line = &mut a[s].configurations[0].lines[0];
        line[1] += line[0] - 508;
        line[0] = 508;
    }),
    ("certificate-configuration", |_, a, s| {
        a[s].configurations[0].group = 99
    }),
    ("certificate-group-count", |_, a, s| {
        a[s].configurations[0].times += 1
    }),
    ("certificate-size", |p, _, s| {
        p.pools[s].items[0].length = 1 << 41
    }),
    ("certificate-pools", |_, a, _| {
        a.pop();
    }),
];

#[test]
fn spoiled_certificates_are_refused() {
    let work = certificate("demo_us");
    let at = spliced(&work);
    for (number, (rule, spoil)) in BOUND.iter().chain(&REST).enumerate() {
        let (mut problem, mut answers) = (work.problem.clone(), work.answers.clone());
        spoil(&mut problem, &mut answers, at);
        let found = verify(&problem, &answers, None).expect_err(rule);
        assert!(
            names(&found, rule),
            "{number}: {rule} not named in:\n{}",
            print(&found)
        );
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

#[test]
fn the_python_verifier_refuses_what_is_spoiled() {
    let work = certificate("demo_us");
    let at = spliced(&work);
    for (number, (rule, spoil)) in BOUND.iter().chain(&REST).enumerate() {
        let (mut problem, mut answers) = (work.problem.clone(), work.answers.clone());
        spoil(&mut problem, &mut answers, at);
        let Some((code, text)) = python(&problem, &answers, &format!("spoiled-{number}")) else {
            return;
        };
        assert_eq!(code, 1, "{number} ({rule}): {text}");
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
