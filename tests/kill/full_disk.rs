//! A disk that fills up at any call: what was there stays, nothing is left behind, and it is said.

use std::fs::{self, OpenOptions};
use std::process::{Command, Output};

use crate::world::*;

fn full_at(n: usize) -> Vec<(&'static str, String)> {
    vec![("LONGPOINT_FULL_AT", n.to_string())]
}

/// Runs it full at the first call, at the second…, until it ends well; `check` looks after each failure.
fn each_call(run: impl Fn(usize) -> Output, check: impl Fn(&str)) -> usize {
    for n in 1..1000 {
        let ran = run(n);
        let said = messages(&ran);
        if ran.status.success() {
            return n;
        }
        assert_eq!(ran.status.code(), Some(1), "call {n}: {said}");
        assert!(said.contains("the disk is full"), "call {n}: {said}");
        check(&format!("call {n}: {said}"));
    }
    panic!("it never ends well");
}

#[test]
fn new_leaves_nothing_on_a_full_disk() {
    if preload().is_none() {
        return;
    }
    let place = place("full-new");
    let deep = place.join("a/b/week");
    let there = place.join("there");
    fs::create_dir(&there).expect("the place is new");
    let before = snapshot(&place);
    for (week, least) in [(&deep, 10), (&there, 8)] {
        let run = |n| {
            let mut new = Command::new(env!("CARGO_BIN_EXE_longpoint"));
            with(new.args(["new", "--lone"]).arg(week), &full_at(n))
                .output()
                .expect("built")
        };
        let calls = each_call(run, |after| assert_eq!(snapshot(&place), before, "{after}"));
        assert!(calls > least, "{calls} calls");
        assert_eq!(fs::read_dir(week).expect("written").count(), 5);
        let first = if week == &deep {
            place.join("a")
        } else {
            there.clone()
        };
        fs::remove_dir_all(first).expect("it can go");
        let _ = fs::create_dir(&there);
    }
}

#[test]
fn a_full_disk_leaves_the_earlier_results() {
    if preload().is_none() {
        return;
    }
    let place = place("full-plan");
    let mut holds = sheets(0).clone();
    holds.extend(own_files());
    lay_out(&place.join("out"), &holds);
    let before = snapshot(&place);
    let calls = each_call(
        |n| plan(&place.join("out"), 1, &full_at(n)),
        |after| assert_eq!(snapshot(&place), before, "{after}"),
    );
    assert!(calls > 50, "{calls} calls");
}

/// What a full standard output cannot say, standard error does: the folder was written all the same.
#[test]
fn a_full_standard_output_says_that_the_folder_was_replaced() {
    let place = place("full-stdout");
    for (command, out) in [("plan", "results"), ("compare", "comparison")] {
        let target = place.join(out);
        let full = OpenOptions::new()
            .write(true)
            .open("/dev/full")
            .expect("Linux has it");
        let mut run = Command::new(env!("CARGO_BIN_EXE_longpoint"));
        let run = run.arg(command).arg(week()).arg("--out").arg(&target);
        let ran = run.stdout(full).output().expect("built");
        let said = messages(&ran);
        assert_eq!(ran.status.code(), Some(1), "{said}");
        assert!(
            said.contains("standard output") && said.contains("the disk is full"),
            "{said}"
        );
        let was = format!("{} was written all the same", target.display());
        assert!(said.contains(&was), "{said}");
        assert!(target.is_dir());
    }
}
