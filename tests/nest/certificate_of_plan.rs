//! A plan.json proves something about its week only with the week's own nest problem: a sound certificate of
//! another problem in its place is refused by both verifiers.

use std::path::Path;
use std::process::Command;

use crate::outside;
use longpoint::check::certificate::verify;
use longpoint::nest::{Limits, NoWatch, Problem, solve};
use serde_json::{Value, json};

/// The small week's plan.json.
fn plan_file(folder: &Path) -> Value {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo_small");
    std::fs::create_dir_all(folder).expect("the test's folder can be made");
    for file in std::fs::read_dir(from).expect("the demo week is here") {
        let file = file.expect("the folder can be listed").path();
        if let Some(name) = file.file_name().filter(|_| file.is_file()) {
            std::fs::copy(&file, folder.join(name)).expect("a demo file can be copied");
        }
    }
    let planned = longpoint().arg("plan").arg(folder).output();
    assert!(planned.expect("the binary runs").status.success());
    let text = std::fs::read_to_string(folder.join("results/plan.json"));
    serde_json::from_str(&text.expect("it was written")).expect("JSON")
}

fn longpoint() -> Command {
    Command::new(env!("CARGO_BIN_EXE_longpoint"))
}

/// A change that makes another problem.
type Change = fn(&mut Problem);

/// Other problems than the week's: each gets a sound certificate of its own.
const OTHERS: [(&str, Change); 4] = [
    ("an item less", |p| p.pools[0].items[0].count -= 1),
    ("an item shorter", |p| {
        p.pools[0].items[0].length -= p.pools[0].mark
    }),
    ("dearer stock", |p| {
        p.pools[0].stocks.iter_mut().for_each(|s| s.cost += 100_000)
    }),
    ("no spliced lines", |p| {
        p.pools.iter_mut().for_each(|pool| pool.groups.clear())
    }),
];

#[test]
fn a_sound_certificate_of_another_problem_is_refused_by_both() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("certificate-of-another");
    let sound = plan_file(&folder);
    let file = folder.join("plan.json");
    let judge = |what: &str, plan: &Value| {
        std::fs::write(&file, plan.to_string()).expect("it can be written");
        let done = longpoint()
            .arg("verify")
            .arg(&file)
            .output()
            .expect("the binary runs");
        let words = String::from_utf8_lossy(&done.stderr).into_owned();
        if let Some((code, said)) = outside::verify_file(&file) {
            assert_eq!(Some(code), done.status.code(), "{what}: {said}");
        }
        (done.status.code(), words)
    };
    assert_eq!(judge("sound", &sound), (Some(0), String::new()));
    for (what, change) in OTHERS {
        let mut plan = sound.clone();
        let mut problem = serde_json::from_value(plan["nest"]["problem"].take()).expect("its own");
        change(&mut problem);
        let limits = Limits {
            work: 20_000_000,
            time: None,
        };
        let answer = solve(&problem, &limits, &NoWatch).expect("a sound problem");
        assert!(verify(&problem, &answer.pools, None).is_ok(), "{what}");
        plan["nest"]["problem"] = json!(problem);
        plan["nest"]["answers"] = json!(answer.pools);
        let (code, words) = judge(what, &plan);
        assert_eq!(code, Some(1), "{what}");
        assert!(words.contains("certificate-plan"), "{what}: {words}");
    }
    for (what, path, value) in [
        (
            "another piece",
            "/joints/0/pieces/0/saw_length",
            json!({"ticks": 508, "value": 0.0625, "print": "0'-0 1/16\""}),
        ),
        ("another money", "/outcomes/0/cost_millicents", json!(1)),
        ("another bound", "/outcomes/0/bound_millicents", json!(1)),
    ] {
        let mut plan = sound.clone();
        *plan.pointer_mut(path).expect("it is there") = value;
        let (code, words) = judge(what, &plan);
        assert_eq!(code, Some(1), "{what}");
        assert!(words.contains("certificate-plan"), "{what}: {words}");
    }
}
