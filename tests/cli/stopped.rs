//! Ctrl-C: the first ends the search with the best plan, the second ends the program.
#![cfg(target_os = "linux")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use crate::run::{Ran, json, longpoint, place, ran, read, starter, text};

/// A week of six long gates, no two alike: its search goes on for minutes where it may, also in a fast build.
fn long_gates(name: &str) -> PathBuf {
    let week = starter(name);
    let gate = |n: u32| format!("G{n},1,{}',{}'\n", 40 + 13 * n, 5 + n % 3);
    let orders: String = (0..6).map(gate).collect();
    let orders = format!("mark,count,opening,height\n{orders}");
    fs::write(week.join("orders.csv"), orders).expect("room");
    for file in ["parts.csv", "rack.csv"] {
        let _ = fs::remove_file(week.join(file));
    }
    week
}

/// Starts longpoint and waits until it listens for Ctrl-C, and `more`.
fn started(arguments: &[&str], more: Duration) -> Child {
    let child = Command::new(env!("CARGO_BIN_EXE_longpoint"))
        .args(arguments)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the binary is built before its tests");
    let status = format!("/proc/{}/status", child.id());
    let listens = || {
        let status = fs::read_to_string(&status).unwrap_or_default();
        let caught = status.lines().find_map(|l| l.strip_prefix("SigCgt:"));
        let caught = caught.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
        // SIGINT is signal 2, the second bit.
        caught.is_some_and(|mask| mask & 2 != 0)
    };
    within(60, listens);
    sleep(more);
    child
}

fn within(seconds: u64, done: impl Fn() -> bool) {
    let from = Instant::now();
    while !done() {
        assert!(from.elapsed() < Duration::from_secs(seconds), "too late");
        sleep(Duration::from_millis(5));
    }
}

fn ctrl_c(child: &Child) {
    let kill = Command::new("kill")
        .args(["-INT", &child.id().to_string()])
        .status();
    assert!(kill.expect("every system here has kill").success());
}

fn ended(child: Child) -> Ran {
    ran(child.wait_with_output().expect("a child can be waited for"))
}

#[test]
fn the_first_ctrl_c_ends_a_plan_with_the_best_that_it_has() {
    let week = long_gates("stop-plan");
    // With no end of its own within the test's patience.
    let child = started(
        &["plan", text(&week), "--work", "100000"],
        Duration::from_secs(4),
    );
    ctrl_c(&child);
    let ended = ended(child);
    assert_eq!(ended.code, 0, "{}", ended.err);
    assert!(ended.out.contains("stopped early"), "{}", ended.out);
    let document = json(&read(&week.join("results"), "plan.json"));
    let answers = document["nest"]["answers"].as_array().expect("one a pipe");
    assert!(answers.iter().any(|a| a["stop"] == "interrupted"));
}

#[test]
fn stopped_before_any_plan_says_so_and_leaves_what_was_there() {
    let week = long_gates("stop-early");
    let results = week.join("results");
    let first = longpoint(&["plan", text(&week), "--time-limit", "1"]);
    let before = fs::read(results.join("plan.json")).ok();
    let child = started(&["plan", text(&week), "--work", "100000"], Duration::ZERO);
    ctrl_c(&child);
    let ended = ended(child);
    match ended.code {
        2 => {
            let words = "no plan was found before the search was stopped, and none is ruled out";
            assert!(ended.err.contains(words), "{}", ended.err);
            assert!(ended.err.contains("Nothing was written."), "{}", ended.err);
            assert_eq!(before, fs::read(results.join("plan.json")).ok());
        }
        // A fast machine has one by then.
        code => assert_eq!(code, 0, "{} {}", first.err, ended.err),
    }
}

#[test]
fn the_second_ctrl_c_ends_at_once_and_nothing_is_lost() {
    let week = long_gates("stop-twice");
    let child = started(
        &["plan", text(&week), "--work", "100000"],
        Duration::from_secs(4),
    );
    ctrl_c(&child);
    // Two signals at once may be told as one.
    sleep(Duration::from_millis(15));
    ctrl_c(&child);
    let ended = ended(child);
    assert_eq!(ended.code, 130, "{} {}", ended.out, ended.err);
    assert!(!week.join("results").exists());
    let again = longpoint(&["plan", text(&week), "--time-limit", "5"]);
    assert_eq!(again.code, 0, "{}", again.err);
}

#[test]
fn ctrl_c_ends_nest_with_the_best_that_it_has() {
    let week = long_gates("stop-nest");
    let planned = longpoint(&["plan", text(&week), "--time-limit", "5"]);
    assert_eq!(planned.code, 0, "{}", planned.err);
    let document = json(&read(&week.join("results"), "plan.json"));
    let problem = place("stop-nest-file").join("problem.json");
    fs::write(&problem, document["nest"]["problem"].to_string()).expect("room");
    let child = started(
        &["nest", text(Path::new(&problem)), "--work", "100000"],
        Duration::from_secs(4),
    );
    ctrl_c(&child);
    let ended = ended(child);
    assert_eq!(ended.code, 0, "{} {}", ended.out, ended.err);
    assert!(ended.out.contains("stopped early"), "{}", ended.out);
}
