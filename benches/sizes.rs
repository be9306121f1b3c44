//! Whole commands on very long lists: time and the most memory they take.
//!
//! `cargo bench --bench sizes` (Linux: memory is read from /proc).

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

fn main() {
    let place = std::env::temp_dir().join(format!("longpoint-sizes-{}", std::process::id()));
    for rows in [1_000, 10_000] {
        let week = week(&place, &format!("rack-{rows}"));
        fs::write(week.join("rack.csv"), rack(rows)).expect("room");
        tell(&format!("plan, rack of {rows} rows"), &["plan"], &week);
    }
    for rows in [10_000, 30_000, 100_000] {
        let week = week(&place, &format!("parts-{rows}"));
        fs::write(week.join("parts.csv"), parts(rows)).expect("room");
        tell(&format!("parts, {rows} rows of parts"), &["parts"], &week);
        tell(&format!("plan, {rows} rows of parts"), &["plan"], &week);
    }
    let week = week(&place, "commas");
    for megabytes in [60, 100] {
        fs::write(week.join("parts.csv"), vec![b','; megabytes << 20]).expect("room");
        tell(&format!("plan, {megabytes} MB of commas"), &["plan"], &week);
    }
    fs::remove_dir_all(place).expect("the place can go");
}

/// A copy of the US demo week.
fn week(place: &Path, name: &str) -> PathBuf {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo_us");
    let week = place.join(name);
    fs::create_dir_all(&week).expect("room");
    for file in [
        "orders.csv",
        "shop.toml",
        "stock.csv",
        "rack.csv",
        "parts.csv",
    ] {
        fs::copy(from.join(file), week.join(file)).expect("the demo has it");
    }
    week
}

/// Remnants of 36 to 252 in by the sixteenth, of the demo's pipes.
fn rack(rows: usize) -> String {
    let pipes = ["1-7/8 SS40", "2-3/8 SS40", "2-3/8 IC", "2-7/8 SS40"];
    let mut list = String::from("tag,pipe,length,count,near trim,far trim,note\n");
    for n in 0..rows {
        let sixteenths = 576 + n * 7919 % 3456;
        let length = sixteenths as f64 / 16.0;
        let _ = writeln!(list, "R{n},{},{length} in,1,no,yes,", pipes[n % 4]);
    }
    list
}

/// Parts of 12 to 120 in by the eighth.
fn parts(rows: usize) -> String {
    let pipes = ["1-7/8 SS40", "2-3/8 SS40"];
    let mut list = String::from("mark,pipe,length,count,note\n");
    for n in 0..rows {
        let length = (96 + n * 7919 % 864) as f64 / 8.0;
        let _ = writeln!(list, "LP{n},{},{length} in,1,", pipes[n % 2]);
    }
    list
}

/// Runs a command on the week and prints what it took.
fn tell(name: &str, command: &[&str], week: &Path) {
    let started = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_longpoint"))
        .args(command)
        .arg(week)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the binary is built before its benches");
    let mut most = 0;
    let code = loop {
        most = most.max(memory(child.id()));
        match child.try_wait().expect("a child can be waited for") {
            Some(status) => break status.code(),
            None => thread::sleep(Duration::from_millis(2)),
        }
    };
    let seconds = started.elapsed().as_secs_f64();
    let code = code.map_or("killed".to_owned(), |code| code.to_string());
    println!("{name}: {seconds:.2} s, {} MB, exit {code}", most / 1024);
}

/// The most memory a process has had so far, in kB; 0 where nothing tells.
fn memory(process: u32) -> u64 {
    let status = fs::read_to_string(format!("/proc/{process}/status")).unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    let number = line.and_then(|l| l.split_whitespace().next()?.parse().ok());
    number.unwrap_or(0)
}
