//! `longpoint compare` and `longpoint cut-now` as a user runs them.

use std::fs;
use std::path::{Path, PathBuf};

use crate::run::{files, json, longpoint, place, read, starter, text};

fn demo(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("data")
        .join(name)
}

/// A comparison of the small demo week in a place of its own.
fn compared(name: &str, more: &[&str]) -> PathBuf {
    let out = place(name).join("out");
    let week = demo("demo_small");
    let mut arguments = vec!["compare", text(&week), "--out", text(&out)];
    arguments.extend(more);
    let ran = longpoint(&arguments);
    assert_eq!(ran.code, 0, "{}", ran.err);
    out
}

fn no_wider_than_a_page(words: &str) {
    for line in words.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn the_folder_holds_sheet_workbook_plots_and_document() {
    let out = compared("compare-folder", &["--date", "2026-03-02"]);
    let document = json(&read(&out, "comparison.json"));
    assert_eq!(document["format"], "longpoint comparison");
    let mut listed: Vec<String> = document["files"]
        .as_array()
        .expect("a list of files")
        .iter()
        .map(|f| f.as_str().expect("names").to_owned())
        .collect();
    listed.sort();
    let there: Vec<String> = files(&out).into_iter().map(|(name, _)| name).collect();
    assert_eq!(listed, there);
    for stem in ["money", "waste", "premium"] {
        let picture = fs::read(out.join(format!("{stem}.png"))).expect("a plot");
        assert!(picture.starts_with(b"\x89PNG"), "{stem}");
        assert!(
            read(&out, &format!("{stem}.svg")).contains("<svg"),
            "{stem}"
        );
    }
    let words = read(&out, "comparison.txt");
    no_wider_than_a_page(&words);
    assert!(words.contains("Date 2026-03-02"), "{words}");
    let rows = document["rows"].as_array().expect("rows");
    let csv = read(&out, "comparison.csv");
    assert_eq!(csv.lines().count(), rows.len() + 1);
    let (made, cannot): (Vec<_>, Vec<_>) = rows.iter().partition(|r| !r["made"].is_null());
    assert!(made.len() >= 12, "{}", made.len());
    for row in cannot {
        assert_eq!(
            (&row["name"], &row["cannot"][0]["mark"]),
            (&"no splice".into(), &"B2".into())
        );
        assert!(words.contains("cannot be made: B2"), "{words}");
    }
    for row in made {
        let made = &row["made"];
        let cents = |v: &serde_json::Value| (v.as_f64().expect("money") * 100.0).round();
        let split = &made["split"];
        let parts = [
            "pipe",
            "freight",
            "fees",
            "splice_labour",
            "rack",
            "kept_credit",
        ];
        let sum: f64 = parts.iter().map(|p| cents(&split[*p])).sum();
        assert_eq!(sum, cents(&made["money"]), "{row}");
    }
}

#[test]
fn the_first_row_is_what_plan_says_or_says_why_not() {
    let out = compared("compare-first", &[]);
    let document = json(&read(&out, "comparison.json"));
    let week = demo("demo_small");
    let target = place("compare-first-plan").join("out");
    let plan = longpoint(&["plan", text(&week), "--out", text(&target), "--json"]);
    let plan = json(&plan.out);
    let row = &document["rows"][0];
    assert_eq!(row["name"], "as it stands");
    let notes = row["notes"].to_string();
    if notes.contains("cheaper than its own search came to") {
        let of = |v: &serde_json::Value| v.as_f64().expect("money");
        assert!(of(&row["made"]["money"]) < of(&plan["totals"]["money"]));
    } else {
        assert_eq!(row["made"]["money"], plan["totals"]["money"]);
        assert_eq!(row["made"]["plan"], plan["plan"]);
    }
}

#[test]
fn thread_counts_change_no_byte() {
    let one = files(&compared("compare-one", &["--threads", "1"]));
    let two = files(&compared("compare-two", &["--threads", "2"]));
    assert!(one == two);
}

#[test]
fn wishes_and_references_are_followed_or_refused() {
    let out = compared(
        "compare-wishes",
        &[
            "--kerf",
            "3/16in",
            "--bay-limit",
            "4ft",
            "--time-limit",
            "600",
            "--reference",
            "40 FT alone",
        ],
    );
    let document = json(&read(&out, "comparison.json"));
    assert_eq!(document["reference"], "40 ft alone");
    let names: Vec<&str> = document["rows"]
        .as_array()
        .expect("rows")
        .iter()
        .map(|r| r["name"].as_str().expect("a name"))
        .collect();
    assert!(names.contains(&"kerf 3/16\""), "{names:?}");
    assert!(names.contains(&"bay limit 4'-0\""), "{names:?}");
    let week = demo("demo_small");
    for (option, value, says) in [
        ("--reference", "22 ft alone", "as it stands"),
        ("--pair", "21ft,30ft", "These are: 21 ft; 40 ft"),
        ("--kerf", "5-8", "5-8"),
        ("--tail", "0", "0.4"),
        ("--bay-limit", "-3in", "over 0"),
        ("--time-limit", "0", "more than 0 seconds"),
    ] {
        let out = place("compare-refused").join("out");
        let glued = format!("{option}={value}");
        let ran = longpoint(&["compare", text(&week), "--out", text(&out), &glued]);
        assert_eq!(ran.code, 2, "{glued}: {}", ran.err);
        assert!(ran.err.contains(says), "{glued}: {}", ran.err);
        assert!(!out.exists(), "{glued}: nothing is written");
    }
    for (option, value) in [
        ("--kerf", "-1"),
        ("--kerf", "-1in"),
        ("--pair", "-21ft,40ft"),
        ("--threads", "-2"),
    ] {
        let ran = longpoint(&["compare", text(&week), option, value]);
        assert_eq!(ran.code, 2, "{option} {value}: {}", ran.err);
        let says = format!("{option} {value}: a value below zero; it must be ");
        assert!(ran.err.starts_with(&says), "{}", ran.err);
    }
}

#[test]
fn several_weeks_are_tallied() {
    let week = starter("compare-weeks");
    let more = ["--weeks", text(&week)];
    let out = compared("compare-weeks-out", &more);
    let document = json(&read(&out, "comparison.json"));
    assert_eq!(document["weeks"].as_array().map(Vec::len), Some(2));
    let first = &document["tally"][0];
    assert_eq!((&first["weeks"], &first["wins"]), (&2.into(), &0.into()));
    let sheet = read(&out, "weeks.txt");
    no_wider_than_a_page(&sheet);
    let rows = document["rows"].as_array().expect("rows");
    for name in document["weeks"].as_array().expect("names") {
        let mine: Vec<_> = rows.iter().filter(|r| r["week"] == *name).collect();
        assert!(
            mine.len() > 5
                && mine
                    .iter()
                    .all(|r| r["money"].is_null() == r["gap"].is_null())
        );
    }
    assert_eq!(sheet.matches("status of money").count(), 2, "{sheet}");
    // Of two weeks the median is one of them.
    for of in document["tally"].as_array().expect("a tally") {
        let choice = |name: &serde_json::Value| {
            let name = name.as_str().expect("a name");
            name.replace(" alone", "")
                .replace(" (else as it stands)", "")
        };
        let mut own = rows
            .iter()
            .filter(|r| choice(&r["name"]) == choice(&of["name"]));
        assert!(
            of["median"].is_null() || of["median"] == 0.0 || own.any(|r| r["over"] == of["median"])
        );
    }
    let metric = demo("demo_metric");
    let (week, target) = (demo("demo_small"), place("compare-coins").join("out"));
    let ran = longpoint(&[
        "compare",
        text(&week),
        "--out",
        text(&target),
        "--weeks",
        text(&metric),
    ]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert!(ran.err.contains("one currency"), "{}", ran.err);
}

#[test]
fn the_rack_completes_the_gate_due_first_and_names_the_rest() {
    let out = place("cut-now").join("out");
    let week = demo("demo_small");
    let ran = longpoint(&["cut-now", text(&week), "--out", text(&out)]);
    // Something was passed over: done in part.
    assert_eq!(ran.code, 3, "{}", ran.err);
    assert!(
        ran.out.contains("Cutting (estimate): saw 1 "),
        "{}",
        ran.out
    );
    assert!(
        ran.out.contains("All of it fits in a day of 8 h."),
        "{}",
        ran.out
    );
    no_wider_than_a_page(&ran.out);
    assert!(
        ran.out.starts_with("Completed from the rack alone: B1\n"),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("Not today: B2: "), "{}", ran.out);
    let document = json(&read(&out, "plan.json"));
    assert_eq!(document["buy"], serde_json::json!([]));
    assert_eq!(document["totals"]["bought"], 0);
    // Nothing is on sale, so no money is known: none is said, not 0.00.
    assert!(
        document["totals"]["money"].is_null(),
        "{}",
        document["totals"]
    );
    assert!(ran.out.contains("nothing to buy"), "{}", ran.out);
    assert!(read(&out, "cut_sheet.txt").contains("S-1"));
}

#[test]
fn a_rack_that_completes_nothing_writes_nothing() {
    let week = starter("cut-now-nothing");
    let ran = longpoint(&["cut-now", text(&week)]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert!(ran.err.contains("completes no gate"), "{}", ran.err);
    assert!(ran.err.contains("Not today: A1"), "{}", ran.err);
    assert!(!week.join("cut_now").exists());
}

/// Joints limited so that only what is due first can be had.
#[test]
fn short_supply_builds_in_due_order_and_names_what_is_short() {
    let to = place("short-supply").join("week");
    fs::create_dir(&to).expect("the place is new");
    for (file, bytes) in files(&demo("demo_small")) {
        fs::write(to.join(file), bytes).expect("the place can be written");
    }
    let stock = "pipe,length,price,per,available\n1-7/8 SS40,21 ft,2.62,foot,2\n2-3/8 SS40,21 ft,3.48,foot,\n";
    fs::write(to.join("stock.csv"), stock).expect("the place can be written");
    let whole = longpoint(&["plan", text(&to)]);
    assert_eq!(whole.code, 2, "{}", whole.err);
    assert!(!whole.err.contains("B1"), "B1 is due first: {}", whole.err);
    let part = longpoint(&["plan", text(&to), "--partial", "--json"]);
    assert_eq!(part.code, 3, "{}", part.err);
    let document = json(&part.out);
    let out: Vec<&str> = document["left_out"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|i| i["mark"].as_str().expect("a mark"))
        .collect();
    assert!(!out.is_empty() && !out.contains(&"B1"), "{out:?}");
    assert!(part.err.contains("1-7/8 SS40"), "{}", part.err);
}
