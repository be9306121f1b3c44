//! Bad input and impossible work: exit codes, messages, nothing written.

use std::fs;
use std::path::Path;

use crate::run::{json, longpoint, read, starter, text};

/// The starter week with one more gate, its values by column; a column that the starter's orders
/// lack is added at the end.
fn with_gate(name: &str, gate: &[(&str, &str)]) -> std::path::PathBuf {
    let week = starter(name);
    let path = week.join("orders.csv");
    let orders = fs::read_to_string(&path).unwrap();
    let mut lines: Vec<String> = orders.trim_end().lines().map(str::to_owned).collect();
    let head = lines
        .iter()
        .position(|l| l.contains("opening,height"))
        .expect("the starter's orders have a header");
    let mut columns: Vec<String> = lines[head].split(',').map(str::to_owned).collect();
    for (column, _) in gate {
        if !columns.iter().any(|c| c == column) {
            columns.push((*column).to_owned());
            lines[head].push_str(&format!(",{column}"));
            lines[head + 1..].iter_mut().for_each(|l| l.push(','));
        }
    }
    let value = |column: &String| {
        gate.iter()
            .find(|(k, _)| k == column)
            .map_or("", |(_, v)| *v)
    };
    let row: Vec<&str> = columns.iter().map(value).collect();
    lines.push(row.join(","));
    fs::write(&path, lines.join("\n")).unwrap();
    week
}

fn nothing_written(week: &Path) {
    let entries = fs::read_dir(week).unwrap();
    let names: Vec<String> = entries
        .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    assert!(names.iter().all(|n| !n.contains("results")), "{names:?}");
}

#[test]
fn bad_input_is_told_together_and_nothing_is_written() {
    let week = with_gate(
        "bad-input",
        &[
            ("mark", "Z1"),
            ("count", "1.5"),
            ("opening", "5-8"),
            ("height", "-6'"),
            ("hand", "left"),
        ],
    );
    let ran = longpoint(&["plan", text(&week), "--json"]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert_eq!(json(&ran.out)["format"], "longpoint faults", "{}", ran.out);
    for said in ["orders.csv", "1.5", "5-8"] {
        assert!(ran.err.contains(said), "{said}: {}", ran.err);
    }
    nothing_written(&week);
}

#[test]
fn a_folder_that_is_not_there_is_named() {
    let ran = longpoint(&["plan", "no-such-week-anywhere"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("no-such-week-anywhere"), "{}", ran.err);
}

#[test]
fn impossible_work_stops_the_week_unless_partial() {
    // One bay on an opening of 20 ft: the bay is far over its limit.
    let week = with_gate(
        "impossible",
        &[
            ("mark", "Z2"),
            ("count", "1"),
            ("opening", "20'"),
            ("height", "6'"),
            ("hand", "left"),
            ("bays", "1"),
        ],
    );
    let refused = longpoint(&["plan", text(&week)]);
    assert_eq!(refused.code, 2, "{}", refused.err);
    let row = read(&week, "orders.csv").lines().count();
    let place = format!("orders.csv, line {row}: error: Z2");
    assert!(refused.err.contains(&place), "{place}: {}", refused.err);
    assert!(refused.err.contains("\n  mend:  "), "{}", refused.err);
    assert!(refused.err.contains("\n1 error, "), "{}", refused.err);
    nothing_written(&week);

    let partial = longpoint(&["plan", text(&week), "--partial"]);
    assert_eq!(partial.code, 3, "{}", partial.err);
    assert!(partial.out.contains("LEFT OUT"), "{}", partial.out);
    // A warning, since the rest is planned: in one list with the others, counted once.
    let place = format!("orders.csv, line {row}: warning: Z2 is left out");
    assert!(partial.err.contains(&place), "{place}: {}", partial.err);
    assert!(!partial.err.contains("error"), "{}", partial.err);
    let told = partial.err.matches(": warning: ").count();
    let counts: Vec<&str> = partial
        .err
        .lines()
        .filter(|l| l.contains(" warning") && l.ends_with('.'))
        .collect();
    let (words, notes) = (
        if told == 1 { "warning" } else { "warnings" },
        partial.err.matches(": note: ").count(),
    );
    let notes = format!("{notes} note{}", if notes == 1 { "" } else { "s" });
    assert_eq!(
        counts,
        [format!("{told} {words}, {notes}.")],
        "{}",
        partial.err
    );
    assert!(
        partial.out.contains(&format!("; {told} {words}")),
        "{}",
        partial.out
    );
    let document = json(&read(&week, "results/plan.json"));
    assert_eq!(document["left_out"][0]["mark"], "Z2");
    let gate = &document["left_out"][0]["gate"];
    for part in document["parts"].as_array().expect("parts") {
        assert_eq!(
            part["left_out"],
            (part["gate"] == *gate),
            "{}",
            part["mark"]
        );
    }
    let head = "LEFT OUT OF THIS PLAN: Z2";
    for sheet in [
        "cut_sheet",
        "gates",
        "copes",
        "splices",
        "buy_list",
        "gate_costs",
        "parts",
        "remnants",
    ] {
        let words = read(&week, &format!("results/{sheet}.txt"));
        assert!(words.contains(head), "{sheet}: {words}");
    }
    assert!(read(&week, "results/week.html").contains(head));
    assert!(read(&week, "results/gates.txt").contains("To make it possible: "));
    assert!(
        partial.out.contains("\n  To make it possible: "),
        "{}",
        partial.out
    );
    let parts = longpoint(&["parts", text(&week), "--partial"]);
    assert_eq!(parts.code, 3, "{}", parts.err);
    assert!(
        parts.err.contains(": warning: Z2 is left out"),
        "{}",
        parts.err
    );
}

/// A gate that builds but cannot be cut from any joint: its frame and parts exist, the plan has none.
#[test]
fn a_gate_left_out_is_on_no_list_and_in_no_count() {
    let whole = starter("left-out-whole");
    let plain = longpoint(&["plan", text(&whole)]);
    assert_eq!(plain.code, 0, "{}", plain.err);
    let week = with_gate(
        "left-out",
        &[
            ("mark", "Z3"),
            ("count", "2"),
            ("opening", "40'"),
            ("height", "6'"),
            ("hand", "left"),
            ("excluded_bays", "1-99"),
        ],
    );
    let orders = fs::read_to_string(week.join("orders.csv")).unwrap();
    let partial = longpoint(&["plan", text(&week), "--partial"]);
    assert_eq!(partial.code, 3, "{} {orders}", partial.err);
    let counts = |out: &str| {
        out.lines()
            .find(|l| l.contains(" out of "))
            .map(str::to_owned)
    };
    let (one, other) = (counts(&plain.out), counts(&partial.out));
    let upto = |l: &Option<String>| l.clone().unwrap().split("; ").next().unwrap().to_owned();
    assert_eq!(upto(&one), upto(&other));
    for sheet in ["copes", "parts", "cut_sheet"] {
        for ending in ["txt", "csv"] {
            let words = read(&week, &format!("results/{sheet}.{ending}"));
            assert!(!words.contains("Z3-"), "{sheet}.{ending}: {words}");
        }
    }
    assert!(!read(&week, "results/gates.csv").contains("Z3"));
    assert!(read(&week, "results/gates.txt").contains("LEFT OUT: Z3"));
}

#[test]
fn a_failed_plan_says_whose_sheets_still_stand() {
    let week = starter("earlier-sheets");
    assert_eq!(longpoint(&["plan", text(&week)]).code, 0);
    let number = json(&read(&week, "results/plan.json"))["plan"].to_string();
    let before = read(&week, "results/cut_sheet.txt");
    fs::write(week.join("orders.csv"), "mark,count\n").unwrap();
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    let said = format!(
        "are from the earlier plan {}; they were left",
        number.trim_matches('"')
    );
    assert!(ran.err.contains(&said), "{said}: {}", ran.err);
    assert_eq!(read(&week, "results/cut_sheet.txt"), before);
}

#[test]
fn a_file_instead_of_a_folder_is_told_its_folder() {
    let week = starter("a-file");
    let ran = longpoint(&["plan", text(&week.join("orders.csv"))]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err.contains("this is a file; give the folder it is in"),
        "{}",
        ran.err
    );
    assert!(!ran.err.contains("longpoint new"), "{}", ran.err);
}

#[test]
fn a_finish_nobody_has_is_one_fault_with_a_suggestion() {
    let week = with_gate(
        "finish",
        &[
            ("mark", "Z4"),
            ("count", "1"),
            ("opening", "20'"),
            ("height", "6'"),
            ("hand", "left"),
            ("finish", "galvanzied"),
        ],
    );
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert_eq!(ran.err.matches("galvanzied").count(), 2, "{}", ran.err);
    for said in ["orders.csv", "finish", "did you mean \"galvanized\"?"] {
        assert!(ran.err.contains(said), "{said}: {}", ran.err);
    }
}

#[test]
fn numbers_that_are_none_are_refused_in_plain_words() {
    for bad in [["--threads", "abc"], ["--revision", "B"]] {
        let ran = longpoint(&["plan", "anywhere", bad[0], bad[1]]);
        assert_eq!(ran.code, 2);
        assert!(ran.err.contains("whole number"), "{}", ran.err);
        assert!(!ran.err.contains("invalid digit"), "{}", ran.err);
    }
}

#[test]
fn a_day_that_is_none_is_refused_wherever_one_is_asked() {
    for bad in ["tomorrow", "2026-02-30", "3/2/2026"] {
        let asked: [&[&str]; 4] = [&["plan"], &["parts"], &["compare"], &["splice", "A1"]];
        for command in asked {
            let mut line = command.to_vec();
            line.extend(["anywhere", "--date", bad]);
            let ran = longpoint(&line);
            assert_eq!(ran.code, 2, "{line:?}");
            assert!(ran.err.contains(bad), "{}", ran.err);
        }
    }
    let ran = longpoint(&["plan", "anywhere", "--date", "3/2/2026"]);
    assert!(
        ran.err.contains("2026-03-02 or 2026-02-03")
            || ran.err.contains("2026-02-03 or 2026-03-02"),
        "{}",
        ran.err
    );
}

#[test]
fn a_file_that_cannot_be_read_is_named() {
    let week = starter("unreadable");
    let _ = fs::remove_file(week.join("rack.csv"));
    fs::create_dir(week.join("rack.csv")).unwrap();
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("rack.csv"), "{}", ran.err);
}

#[test]
fn any_bytes_are_refused_without_a_panic() {
    let week = starter("any-bytes");
    let noise: Vec<u8> = (0..4096u32).map(|i| (i * 37 % 251) as u8).collect();
    for file in ["orders.csv", "shop.toml", "stock.csv"] {
        let path = week.join(file);
        let good = fs::read(&path).unwrap();
        for bytes in [
            &noise[..],
            b"",
            b"\xff\xfe\x00",
            b"\xef\xbb\xbf",
            b"\"",
            b"\n\n\n",
        ] {
            fs::write(&path, bytes).unwrap();
            let ran = longpoint(&["plan", text(&week)]);
            assert!(ran.code == 2 || ran.code == 0, "{file}: {}", ran.err);
            assert!(!ran.err.contains("panicked"), "{file}: {}", ran.err);
        }
        fs::write(&path, good).unwrap();
    }
}
