//! `longpoint compare --weeks`: each week on its own date, once, by its folder's name; and all added up.

use std::fs;
use std::path::{Path, PathBuf};

use crate::run::{json, longpoint, place, read, text};

const SHOP: &str = "name = \"Little (invented)\"\nunits = \"inch\"\n[[pipe]]\nname = \"H\"\nod = 2.375\nwall = 0.154\n\
                    [[pipe]]\nname = \"V\"\nod = 1.900\nwall = 0.145\n";

/// A week of plain parts.
fn week(folder: &Path, parts: &str, stock: &str, date: &str) {
    fs::create_dir_all(folder).unwrap();
    let buying = match date {
        "" => String::new(),
        day => format!("[buying]\norder_date = {day}\n"),
    };
    fs::write(folder.join("shop.toml"), format!("{SHOP}{buying}")).unwrap();
    fs::write(
        folder.join("parts.csv"),
        format!("mark,pipe,length,count\n{parts}"),
    )
    .unwrap();
    fs::write(
        folder.join("stock.csv"),
        format!("pipe,length,price,per,valid_until\n{stock}"),
    )
    .unwrap();
}

/// Two weeks: one buys H in 21 ft alone, the other H in both lengths and V in 40 ft alone.
fn two(name: &str) -> (PathBuf, PathBuf, PathBuf) {
    let place = place(name);
    let (one, other) = (place.join("one"), place.join("other"));
    week(
        &one,
        "P1,H,9',10\n",
        "H,21 ft,3.48,foot,2026-03-05\n",
        "2026-03-02",
    );
    week(
        &other,
        "P1,H,12',8\nP2,V,6',9\n",
        "H,21 ft,3.48,foot,2026-03-05\nH,40 ft,3.40,foot,\nV,40 ft,2.60,foot,\n",
        "2026-03-09",
    );
    (one, other, place.join("out"))
}

#[test]
fn weeks_add_up_row_by_row_each_on_its_own_date() {
    let (one, other, out) = two("weeks-add-up");
    let arguments = [
        "compare",
        text(&one),
        "--weeks",
        text(&other),
        "--out",
        text(&out),
        "--date",
        "2026-03-02",
    ];
    let ran = longpoint(&arguments);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let document = json(&read(&out, "comparison.json"));
    assert_eq!(
        document["dates"],
        serde_json::json!(["2026-03-02", "2026-03-09"])
    );
    // The other week's price of 21 ft has run out on its own date, which goes before --date.
    let warned = format!(
        "{}, line 2, valid_until: warning",
        other.join("stock.csv").display()
    );
    assert!(ran.err.contains(&warned), "{}", ran.err);
    assert!(
        !ran.err
            .contains(&format!("{}, line", one.join("stock.csv").display())),
        "{}",
        ran.err
    );
    let tally = document["tally"].as_array().expect("a tally");
    let row = |name: &str| {
        let found = tally.iter().find(|t| t["name"] == name);
        found
            .unwrap_or_else(|| panic!("{name} in {tally:?}"))
            .clone()
    };
    let rows = document["rows"].as_array().expect("rows");
    // 21 ft: the first week buys all of it so, the second its V as it stands; 40 ft: the first buys none so.
    let money = |week: usize, name: &str| {
        let folder = &document["weeks"][week];
        let own = rows
            .iter()
            .find(|r| r["week"] == *folder && r["name"] == name);
        own.unwrap_or_else(|| panic!("{name} in {rows:?}"))["money"]
            .as_f64()
            .expect("money")
    };
    for (name, own) in [
        (
            "21 ft (else as it stands)",
            ["21 ft alone", "21 ft (else as it stands)"],
        ),
        (
            "40 ft (else as it stands)",
            ["40 ft (else as it stands)", "40 ft alone"],
        ),
        ("as it stands", ["as it stands", "as it stands"]),
    ] {
        let tallied = row(name);
        assert_eq!(tallied["weeks"], 2, "{name}");
        let total = tallied["total"]["money"].as_f64().expect("a total");
        let sum = money(0, own[0]) + money(1, own[1]);
        assert!((total - sum).abs() < 0.005, "{name}: {total} is not {sum}");
    }
    // By hand, as it stands: ten of 9 ft on five of 21 ft; eight of 12 ft on three and nine of 6 ft on two of 40 ft.
    assert_eq!(row("as it stands")["total"]["joints"], 10);
    let all = &row("21 ft (else as it stands)")["total"];
    let waste = |key: &str| all[key].as_i64().expect("ticks");
    assert!(waste("all_in") >= waste("lost") && waste("all_in") <= waste("lost") + waste("kept"));
    let sheet = read(&out, "weeks.txt");
    for words in [
        "TOTAL OF THE 2 WEEKS",
        "all-in",
        "lost",
        "kept",
        "Ordered 2026-03-09.",
    ] {
        assert!(sheet.contains(words), "{words}:\n{sheet}");
    }
    for line in sheet.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn a_week_given_twice_is_a_fault() {
    let (one, other, out) = two("weeks-twice");
    let copy = one.with_file_name("copy");
    fs::create_dir(&copy).unwrap();
    for name in ["shop.toml", "parts.csv", "stock.csv"] {
        fs::copy(one.join(name), copy.join(name)).unwrap();
    }
    for again in [&one, &copy] {
        let weeks = ["--weeks", text(&other), text(again), "--out", text(&out)];
        let ran = longpoint(&[&["compare", text(&one)], &weeks[..]].concat());
        assert_eq!(ran.code, 2, "{}", ran.err);
        assert!(ran.err.contains("a week counts once"), "{}", ran.err);
        assert!(ran.err.contains(text(again)), "{}", ran.err);
        assert!(!out.exists());
    }
}

#[test]
fn faults_of_all_folders_come_together_by_name() {
    let (one, other, out) = two("weeks-faults");
    for folder in [&one, &other] {
        fs::write(
            folder.join("parts.csv"),
            "mark,pipe,length,count\nP1,H,5-8,1\n",
        )
        .unwrap();
    }
    let ran = longpoint(&[
        "compare",
        text(&one),
        "--weeks",
        text(&other),
        "--out",
        text(&out),
    ]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    for folder in [&one, &other] {
        let place = format!(
            "{}, line 2, length: error",
            folder.join("parts.csv").display()
        );
        assert!(ran.err.contains(&place), "{}", ran.err);
    }
}

/// A results folder that cannot be is told before anything is searched.
#[test]
fn a_folder_that_cannot_be_written_is_told_first() {
    let (one, other, _) = two("weeks-out");
    let out = one.join("shop.toml").join("out");
    for command in [
        vec!["plan", text(&one)],
        vec!["cut-now", text(&one)],
        vec!["compare", text(&one), "--weeks", text(&other)],
    ] {
        // Were it searched first, the missing work would be told.
        fs::write(
            one.join("stock.csv"),
            "pipe,length,price,per\nV,21 ft,2.60,foot\n",
        )
        .unwrap();
        let ran = longpoint(&[&command[..], &["--out", text(&out)]].concat());
        assert_eq!(ran.code, 1, "{command:?}: {}", ran.err);
        assert!(
            ran.err.contains("a file is in the way"),
            "{command:?}: {}",
            ran.err
        );
        assert!(!ran.err.contains("no joint"), "{command:?}: {}", ran.err);
    }
}
