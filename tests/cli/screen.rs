//! Nothing that steers a screen reaches one: escapes, carriage returns, directions of writing and line breaks
//! put into every column, setting, name and argument.

use std::ffi::OsStr;
use std::fs;
use std::path::Path;

use crate::run::{Ran, longpoint, place, starter, text};

/// What a screen obeys, each between two words; the second word must not begin a line.
/// Source: ECMA-48 (controls of both sets) and the Unicode bidirectional algorithm, UAX 9; from memory.
pub const STEERING: [&str; 12] = [
    "\u{1b}[2J",
    "\u{1b}]0;x\u{7}",
    "\r",
    "\n",
    "\r\n",
    "\u{8}\u{8}",
    "\u{9b}31m",
    "\u{85}",
    "\u{202E}",
    "\u{2066}",
    "\u{2028}",
    "\u{7f}",
];

pub fn between(words: &str, steering: &str) -> String {
    format!("{words}{steering}verified: forged")
}

/// Both streams hold lines of our own alone.
pub fn harmless(ran: &Ran, of: &str) {
    assert!(!ran.err.contains("panicked"), "{of}: {}", ran.err);
    for (stream, words) in [("stdout", &ran.out), ("stderr", &ran.err)] {
        for line in words.split('\n') {
            let steers = |c: char| {
                c.is_control()
                    || matches!(c, '\u{061C}' | '\u{200E}' | '\u{200F}' | '\u{2028}'..='\u{202E}'
                        | '\u{2066}'..='\u{2069}' | '\u{FEFF}')
            };
            let found = line.chars().find(|c| steers(*c));
            assert_eq!(found, None, "{of}: {stream}: {line:?}");
            assert!(
                !line.trim_start().starts_with("verified: forged"),
                "{of}: {stream}: {words}"
            );
        }
    }
}

fn quoted(cell: &str) -> String {
    format!("\"{}\"", cell.replace('"', "\"\""))
}

/// The files of the starter week with a column or two more each, so that there is one of every kind of text.
fn lists() -> [(&'static str, Vec<&'static str>, Vec<&'static str>); 5] {
    [
        (
            "orders.csv",
            vec![
                "mark",
                "count",
                "opening",
                "height",
                "hand",
                "due",
                "splice_free_bays",
                "pipe",
                "note",
            ],
            vec!["A1", "1", "12 ft", "6 ft", "left", "2026-03-20", "", "", ""],
        ),
        (
            "stock.csv",
            vec![
                "pipe",
                "finish",
                "supplier",
                "length",
                "price",
                "per",
                "available",
                "valid_until",
                "currency",
                "note",
            ],
            vec![
                "2-3/8 SS40",
                "",
                "Harbor",
                "21 ft",
                "3.48",
                "foot",
                "",
                "2026-12-31",
                "",
                "",
            ],
        ),
        (
            "suppliers.csv",
            vec!["supplier", "freight", "note"],
            vec!["Harbor", "10", ""],
        ),
        (
            "rack.csv",
            vec![
                "tag",
                "pipe",
                "finish",
                "length",
                "count",
                "near_trim",
                "note",
            ],
            vec!["R1", "2-3/8 SS40", "", "14 ft", "1", "yes", ""],
        ),
        (
            "parts.csv",
            vec!["mark", "pipe", "finish", "length", "count", "note"],
            vec!["LP1", "2-3/8 SS40", "", "9 ft", "2", ""],
        ),
    ]
}

/// A week that plans in a blink: plain parts, a supplier, a rack.
fn week(name: &str) -> std::path::PathBuf {
    let week = starter(name);
    fs::remove_file(week.join("orders.csv")).expect("the starter has orders");
    for (file, heads, cells) in lists().into_iter().skip(1) {
        fs::write(week.join(file), table(&heads, &cells)).expect("room");
    }
    week
}

fn table(heads: &[&str], cells: &[&str]) -> String {
    let row = |cells: &[&str]| {
        cells
            .iter()
            .map(|c| quoted(c))
            .collect::<Vec<_>>()
            .join(",")
    };
    format!("{}\n{}\n", row(heads), row(cells))
}

#[test]
fn no_cell_and_no_heading_of_a_list_steers() {
    let week = week("screen-lists");
    assert_eq!(
        longpoint(&["plan", text(&week)]).code,
        0,
        "the week is sound before it is spoiled"
    );
    for (file, heads, cells) in lists() {
        let path = week.join(file);
        let before = fs::read(&path).ok();
        for at in 0..heads.len() {
            // All at once in a cell, and a few alone; the whole set alone in one column of each list.
            for steering in STEERING
                .iter()
                .filter(|s| at == 0 || s.len() < 3)
                .chain([&"\u{1b}[2J\r\n\u{202E}"])
            {
                let mut bad = cells.clone();
                let cell = between(cells[at], steering);
                bad[at] = &cell;
                fs::write(&path, table(&heads, &bad)).expect("room");
                let of = format!("{file}, {}, {steering:?}", heads[at]);
                let command = if file == "orders.csv" || at % 3 > 0 {
                    "parts"
                } else {
                    "plan"
                };
                harmless(&longpoint(&[command, text(&week)]), &of);
                let heading = between(heads[at], steering);
                let mut named = heads.clone();
                named[at] = &heading;
                if steering.len() < 3 {
                    fs::write(&path, table(&named, &cells)).expect("room");
                    harmless(
                        &longpoint(&["parts", text(&week)]),
                        &format!("heading of {of}"),
                    );
                }
            }
        }
        match before {
            Some(bytes) => fs::write(&path, bytes).expect("room"),
            None => fs::remove_file(&path).expect("it was written"),
        }
    }
}

#[test]
fn no_text_of_a_sound_week_steers() {
    let week = week("screen-sound");
    for (file, heads, cells) in lists().into_iter().skip(1) {
        for steering in STEERING {
            let mut noted = cells.clone();
            let note = between("note", steering);
            *noted.last_mut().expect("a note") = &note;
            fs::write(week.join(file), table(&heads, &noted)).expect("room");
            let of = format!("{file}, {steering:?}");
            harmless(&longpoint(&["plan", text(&week)]), &of);
            harmless(
                &longpoint(&["plan", text(&week), "--json"]),
                &format!("{of}, as JSON"),
            );
        }
    }
    for command in ["parts", "cut-now", "compare"] {
        harmless(&longpoint(&[command, text(&week)]), command);
        harmless(&longpoint(&[command, text(&week), "--json"]), command);
    }
    harmless(
        &longpoint(&["verify", text(&week.join("results/plan.json"))]),
        "verify",
    );
}

/// TOML takes escapes in its texts and refuses raw controls; both ways lead to the screen.
#[test]
fn no_setting_of_a_shop_steers() {
    let week = week("screen-shop");
    let path = week.join("shop.toml");
    let shop = fs::read_to_string(&path).expect("the starter has a shop");
    let lines: Vec<&str> = shop.lines().collect();
    for (at, line) in lines.iter().enumerate() {
        let Some((key, value)) = line.split_once(" = \"") else {
            continue;
        };
        let end = value.find('"').expect("a text ends");
        for steering in [
            "\\u001b[2J",
            "\\n",
            "\\r",
            "\\u009b1m",
            "\\u202E",
            "\u{1b}[2J",
            "\u{202E}",
        ] {
            let mut bad = lines.clone();
            let spoiled = format!(
                "{key} = \"{}{}",
                between(&value[..end], steering),
                &value[end..]
            );
            bad[at] = &spoiled;
            fs::write(&path, bad.join("\n")).expect("room");
            harmless(&longpoint(&["parts", text(&week)]), &spoiled);
        }
    }
    for line in [
        "\"a\\u001b[2J\\nverified: forged\" = 1",
        "[\"x\\nverified: forged\"]",
        "a\u{1b}b = 1",
    ] {
        fs::write(&path, format!("{line}\n{shop}")).expect("room");
        harmless(&longpoint(&["plan", text(&week)]), line);
    }
}

#[test]
fn no_argument_steers() {
    let week = week("screen-arguments");
    let folder = text(&week);
    // Some of these are names that a folder can be made under.
    let place = place("screen-arguments-inside");
    let longpoint = |arguments: &[&str]| longpoint_in(&place, arguments);
    for steering in STEERING {
        let bad = between("x", steering);
        let valued = [
            "--date",
            "--revision",
            "--paper",
            "--work",
            "--time-limit",
            "--threads",
            "--kerf",
            "--tail",
            "--bay-limit",
            "--keep",
            "--pair",
            "--reference",
            "--weeks",
            "--out",
            "--no-such",
        ];
        for command in [
            "new", "plan", "compare", "cut-now", "parts", "splice", "nest", "verify", &bad,
        ] {
            harmless(&longpoint(&[command, &bad]), &format!("{command} {bad:?}"));
            harmless(
                &longpoint(&[command, folder, &bad, &bad]),
                &format!("{command} FOLDER {bad:?}"),
            );
        }
        for option in valued {
            harmless(
                &longpoint(&["compare", folder, option, &bad]),
                &format!("{option} {bad:?}"),
            );
            harmless(
                &longpoint(&["plan", folder, &format!("{option}={bad}")]),
                option,
            );
        }
    }
}

/// Folders and files of such names, as others may have made them.
#[test]
fn no_name_on_the_disk_steers() {
    let place = place("screen-names");
    for (n, steering) in STEERING.into_iter().enumerate() {
        let odd = place.join(format!("{n}-{}", between("x", steering)));
        fs::create_dir(&odd).expect("a disk takes such names");
        fs::write(odd.join("nest.json"), "{").expect("room");
        let ran = std::process::Command::new(env!("CARGO_BIN_EXE_longpoint"))
            .current_dir(&odd)
            .args([OsStr::new("nest"), OsStr::new("nest.json")])
            .output();
        harmless(&crate::run::ran(ran.expect("built")), "nest inside");
        let made = longpoint_in(&odd, &["new", "week", "--lone"]);
        harmless(&made, "new inside");
        fs::remove_file(odd.join("week/orders.csv")).expect("written");
        harmless(&longpoint_in(&odd, &["plan", "week"]), "plan inside");
        fs::create_dir(odd.join("week/.results.new-1")).expect("room");
        harmless(
            &longpoint_in(&odd, &["plan", "week"]),
            "plan after a cut inside",
        );
        fs::write(odd.join("week/results/plan.json"), "{}").expect("room");
        harmless(
            &longpoint_in(&odd, &["plan", "week"]),
            "a foreign folder inside",
        );
        harmless(
            &longpoint(&["plan", text(&odd.join("week"))]),
            "plan from outside",
        );
    }
}

fn longpoint_in(folder: &Path, arguments: &[&str]) -> Ran {
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_longpoint"));
    let ran = command.current_dir(folder).args(arguments).output();
    crate::run::ran(ran.expect("the binary is built before its tests"))
}
