//! Lists as long as a careless export: planned, or refused in words, in a set amount of memory.

use std::fmt::Write;
use std::fs;
use std::path::Path;
use std::process::Command;

use crate::run::{Ran, ran, starter, text};

/// Runs longpoint in so many megabytes of address space.
fn within(megabytes: u32, arguments: &[&str]) -> Ran {
    let limited = format!("ulimit -v {} && exec \"$0\" \"$@\"", megabytes * 1024);
    let mut command = Command::new("sh");
    command.args(["-c", &limited, env!("CARGO_BIN_EXE_longpoint")]);
    ran(command
        .args(arguments)
        .output()
        .expect("every system here has a shell"))
}

/// The starter week with plain parts alone, so many of them, and a rack of so many rows.
fn week(name: &str, parts: usize, rack: usize) -> std::path::PathBuf {
    let week = starter(name);
    fs::remove_file(week.join("orders.csv")).expect("the starter has orders");
    let mut list = String::from("mark,pipe,length,count,note\n");
    for n in 0..parts {
        let _ = writeln!(list, "LP{n},2-3/8 SS40,{}.5 in,1,", 12 + n * 7 % 97);
    }
    fs::write(week.join("parts.csv"), list).expect("room");
    let mut list = String::from("tag,pipe,length,count,note\n");
    for n in 0..rack {
        // Lengths of 36 to 236 in, by the sixteenth.
        let sixteenths = 576 + n * 7919 % 3200;
        let _ = writeln!(list, "R{n},2-3/8 SS40,{} in,1,", sixteenths as f64 / 16.0);
    }
    fs::write(week.join("rack.csv"), list).expect("room");
    week
}

#[test]
fn a_rack_of_ten_thousand_rows_is_planned() {
    let week = week("sizes-rack", 40, 10_000);
    let planned = within(600, &["plan", text(&week)]);
    assert_eq!(planned.code, 0, "{}", planned.err);
    assert!(planned.out.contains("40 parts"), "{}", planned.out);
    let next = fs::read_to_string(week.join("results/rack_next.csv")).expect("written");
    assert!(next.lines().count() > 9_900, "what is not cut stays");
}

#[test]
fn a_hundred_thousand_parts_are_listed() {
    let week = week("sizes-parts", 100_000, 0);
    let listed = within(1024, &["parts", text(&week)]);
    assert_eq!(listed.code, 0, "{}", listed.err);
    assert!(
        listed.out.contains("LP99999 "),
        "the last part is there, too"
    );
}

#[test]
fn what_is_no_list_is_refused_in_words() {
    let week = week("sizes-commas", 2, 2);
    let refused = |file: &str, bytes: &[u8], words: &str| {
        let path = week.join(file);
        let before = fs::read(&path).expect("the week has it");
        fs::write(&path, bytes).expect("room");
        let ran = within(1024, &["plan", text(&week)]);
        assert_eq!(ran.code, 2, "{file}: {}", ran.err);
        assert!(
            ran.err.contains(file) && ran.err.contains(words),
            "{}",
            ran.err
        );
        assert!(ran.err.lines().count() < 8, "{}", ran.err);
        fs::write(path, before).expect("room");
    };
    let megabyte = 1024 * 1024;
    refused("parts.csv", &vec![b','; 100 * megabyte], "over 64 MB");
    refused(
        "parts.csv",
        &vec![b','; 60 * megabyte],
        "cells: that is no list",
    );
    refused(
        "rack.csv",
        ";;;;;;;\n".repeat(7 * megabyte).as_bytes(),
        "cells: that is no list",
    );
    refused(
        "shop.toml",
        "a = 1\n".repeat(megabyte).as_bytes(),
        "over 1 MB",
    );
    assert!(!Path::new(&week).join("results").exists());
}

/// A list whose every row is wrong is told as far as anybody reads.
#[test]
fn messages_of_one_file_stop_after_fifty() {
    let week = week("sizes-faults", 0, 0);
    let mut list = String::from("mark,pipe,length,count\n");
    for n in 0..70 {
        let _ = writeln!(list, "LP{n},2-3/8 SS40,1 ft,many");
    }
    fs::write(week.join("parts.csv"), list).expect("room");
    let ran = within(1024, &["plan", text(&week)]);
    assert_eq!(ran.code, 2);
    assert_eq!(
        ran.err.matches("parts.csv, line").count(),
        50,
        "{}",
        ran.err
    );
    assert!(
        ran.err
            .contains("parts.csv: 20 more like these are not shown"),
        "{}",
        ran.err
    );
    assert!(ran.err.contains("70 errors"), "{}", ran.err);
}
