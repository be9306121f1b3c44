//! Many runs at once in one folder, and what an earlier run or somebody else has left beside it.

use std::fs::{self, File};
use std::io::Write;
use std::thread;

use crate::world::*;

/// Runs at once.
const RUNS: u32 = 12;

#[test]
fn runs_at_once_each_finish_or_refuse_and_the_result_is_whole() {
    let place = place("race");
    let out = place.join("out");
    for round in 0..3 {
        let ends: Vec<(u32, std::process::Output)> = thread::scope(|scope| {
            let run = |n: u32| {
                let out = &out;
                scope.spawn(move || (n % REVISIONS, plan(out, n % REVISIONS, &[])))
            };
            let all: Vec<_> = (0..RUNS).map(run).collect();
            all.into_iter()
                .map(|run| run.join().expect("a run ends"))
                .collect()
        });
        let mut done = Vec::new();
        for (revision, ran) in &ends {
            match ran.status.code() {
                Some(0) => done.push(*revision),
                Some(2) => assert!(messages(ran).contains("another run writes this folder")),
                other => panic!("{other:?}: {}", messages(ran)),
            }
        }
        let found = snapshot(&out);
        assert!(
            done.iter().any(|revision| found == *sheets(*revision)),
            "round {round}"
        );
        assert_eq!(hidden(&place), [""; 0], "round {round}");
    }
}

#[test]
fn a_run_that_hangs_is_named_after_ten_seconds() {
    let place = place("held");
    let mut lock = File::create(place.join(".out.lock")).expect("the place is new");
    lock.write_all(b"longpoint, process 1 since yesterday\n")
        .expect("room");
    lock.lock().expect("nobody else holds it");
    let ran = plan(&place.join("out"), 0, &[]);
    assert_eq!(ran.status.code(), Some(2));
    let said = messages(&ran);
    assert!(
        said.contains("another run writes this folder: longpoint, process 1 since yesterday"),
        "{said}"
    );
    assert!(!place.join("out").exists());
}

/// The number of a process that is gone, or of one in another container, says nothing.
#[test]
fn a_lock_file_that_nobody_holds_blocks_nobody() {
    let place = place("stale");
    let text = format!(
        "longpoint, process {} since yesterday\n",
        std::process::id()
    );
    fs::write(place.join(".out.lock"), text).expect("the place is new");
    let ran = plan(&place.join("out"), 0, &[]);
    assert!(ran.status.success(), "{}", messages(&ran));
    assert_eq!(hidden(&place), [""; 0]);
}

#[test]
fn what_is_not_ours_is_left_alone() {
    let place = place("foreign");
    let out = place.join("out");
    for folder in [".out.new-7", ".out.old-3", ".out.new-x"] {
        fs::create_dir(place.join(folder)).expect("the place is new");
        fs::write(place.join(folder).join("plan.json"), "{}").expect("room");
    }
    fs::write(place.join(".out.new-9"), "a file").expect("room");
    let before = snapshot(&place);
    let ran = plan(&out, 0, &[]);
    assert!(
        ran.status.success() && ran.stderr.is_empty(),
        "{}",
        messages(&ran)
    );
    fs::remove_dir_all(&out).expect("it was written");
    assert_eq!(snapshot(&place), before);
    fs::write(place.join(".out.lock"), "my own").expect("room");
    let ran = plan(&out, 0, &[]);
    assert_eq!(ran.status.code(), Some(1));
    assert!(
        messages(&ran).contains("no lock of ours"),
        "{}",
        messages(&ran)
    );
    assert_eq!(
        fs::read(place.join(".out.lock")).expect("still there"),
        b"my own"
    );
}
