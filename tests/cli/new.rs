//! `new`, help, and a reader that goes away.

use std::fs;
use std::process::{Command, Stdio};

use crate::run::{longpoint, place, ran, starter, text};

#[test]
fn the_starter_week_plans_as_it_is() {
    let week = starter("starter-plans");
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(week.join("results/cut_sheet.txt").exists());
    assert!(ran.out.contains("down the list"), "{}", ran.out);
    assert!(ran.out.contains("longest first, pooled"), "{}", ran.out);
    assert!(ran.out.lines().count() <= 40, "one screen: {}", ran.out);
}

#[test]
fn new_never_overwrites() {
    let folder = place("new-refuses");
    fs::write(folder.join("mine.txt"), "mine").unwrap();
    let ran = longpoint(&["new", text(&folder)]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("not empty"), "{}", ran.err);
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 1);
}

#[test]
fn help_is_a_result_and_a_wrong_option_is_bad_input() {
    let help = longpoint(&["--help"]);
    assert_eq!(help.code, 0);
    assert!(help.out.contains("plan") && help.err.is_empty());
    let wrong = longpoint(&["plan", "x", "--outt", "y"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.err.contains("--out"), "{}", wrong.err);
    for bad in ["0", "-3", "NaN", "soon"] {
        let ran = longpoint(&["plan", "x", &format!("--time-limit={bad}")]);
        assert_eq!(ran.code, 2, "{bad}");
    }
}

#[test]
fn a_closed_pipe_is_no_error() {
    let week = starter("closed-pipe");
    let mut child = Command::new(env!("CARGO_BIN_EXE_longpoint"))
        .args(["parts", text(&week)])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let ran = ran(child.wait_with_output().unwrap());
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(!ran.err.contains("panicked"), "{}", ran.err);
}

#[test]
fn parts_lists_every_part_without_a_plan() {
    let week = starter("parts-lists");
    let ran = longpoint(&["parts", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.contains("TAKE-OFF"), "{}", ran.out);
    assert!(!week.join("results").exists());
}
