//! How a search goes is told on a terminal, and nowhere else.

use std::process::Command;

use crate::run::{demos, longpoint, place, text};

/// Runs a command with stderr on a pseudo terminal and prints what came there.
const TERMINAL: &str = "
import os, pty, subprocess, sys
ours, theirs = pty.openpty()
run = subprocess.Popen(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=theirs)
os.close(theirs)
said = b''
try:
    while more := os.read(ours, 4096): said += more
except OSError: pass
sys.stdout.buffer.write(said)
sys.exit(run.wait())
";

#[test]
fn a_plan_tells_bound_best_gap_and_seconds_on_a_terminal_alone() {
    let week = &demos()[0];
    let out = place("progress").join("out");
    let arguments = ["plan", text(week), "--out", text(&out)];
    let quiet = longpoint(&arguments);
    assert_eq!(quiet.code, 0, "{}", quiet.err);
    assert!(!quiet.err.contains("bound"), "{}", quiet.err);
    let told = Command::new("python3")
        .args(["-c", TERMINAL, env!("CARGO_BIN_EXE_longpoint")])
        .args(arguments)
        .output();
    let Ok(told) = told else {
        println!("skipped: python3 is absent");
        return;
    };
    assert!(told.status.success());
    let said = String::from_utf8_lossy(&told.stdout);
    let line = said.lines().find(|l| l.contains(": bound "));
    let line = line.unwrap_or_else(|| panic!("no progress in: {said}"));
    let (seconds, rest) = line.split_once(" s  ").expect("seconds lead");
    let seconds: f64 = seconds.trim().parse().expect("seconds");
    assert!(seconds >= 0.0);
    let (_, amounts) = rest.split_once(": bound ").expect("a pool leads");
    let amounts: Vec<i64> = amounts
        .replace(", best ", " ")
        .replace(", gap ", " ")
        .split_whitespace()
        .map(|a| {
            let (units, cents) = a.split_once('.').expect("money with cents");
            assert_eq!(cents.len(), 2, "{line}");
            format!("{}{cents}", units.replace(',', ""))
                .parse()
                .expect("money")
        })
        .collect();
    let [bound, best, gap] = amounts[..] else {
        panic!("{line}");
    };
    assert!((best - bound - gap).abs() <= 1, "{line}");
}
