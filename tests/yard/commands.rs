//! The commands on a shop of one's own, run as a user runs them.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;

use crate::database::shop;

/// What a run came to.
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

fn ran(output: Output) -> Ran {
    Ran {
        code: output.status.code().unwrap_or(-1),
        out: String::from_utf8(output.stdout).expect("output is UTF-8"),
        err: String::from_utf8(output.stderr).expect("messages are UTF-8"),
    }
}

/// Runs longpoint in a folder.
pub fn longpoint(folder: &Path, arguments: &[&str]) -> Ran {
    let output = Command::new(env!("CARGO_BIN_EXE_longpoint"))
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::null())
        .output();
    ran(output.expect("the binary is built before its tests"))
}

/// Must be done.
pub fn done(folder: &Path, arguments: &[&str]) -> String {
    let ran = longpoint(folder, arguments);
    assert_eq!(ran.code, 0, "{arguments:?}: {}{}", ran.out, ran.err);
    ran.out
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("it can be listed") {
        let from = entry.expect("it can be listed").path();
        let to = to.join(from.file_name().expect("named"));
        if from.is_dir() {
            copy(&from, &to);
        } else {
            fs::copy(&from, &to).expect("copied");
        }
    }
}

/// A starter shop whose first week is planned and issued, in a place of its own.
pub fn issued(name: &str) -> PathBuf {
    static MADE: OnceLock<PathBuf> = OnceLock::new();
    let made = MADE.get_or_init(|| {
        let place = shop("issued-once");
        done(&place, &["new", "shop"]);
        done(&place, &["plan", "shop/week-1", "--date", "2026-03-02"]);
        done(&place, &["issue", "shop/week-1"]);
        place.join("shop")
    });
    let place = shop(name);
    copy(made, &place);
    place
}

#[test]
fn a_new_shop_plans_issues_and_remembers() {
    let home = issued("remembers");
    let names: Vec<String> = fs::read_dir(&home)
        .expect("listed")
        .map(|e| {
            e.expect("listed")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    for name in ["shop.toml", "stock.csv", "week-1", "yard.db"] {
        assert!(names.iter().any(|n| n == name), "{name} in {names:?}");
    }
    assert!(
        !home.join("week-1/shop.toml").exists(),
        "the shop's serve every week"
    );
    let again = done(&home, &["issue", "week-1"]);
    assert!(again.contains("handed out already"), "{again}");
    let week = done(&home, &["new", "week-2"]);
    assert!(home.join("week-2/orders.csv").exists() && !home.join("week-2/stock.csv").exists());
    assert!(week.contains("week-2"), "{week}");
    done(&home, &["parts", "week-2"]);
}

/// Common practice, no source: the sheets on the saws are followed until somebody takes them away.
#[test]
fn a_week_that_is_handed_out_is_not_planned_from_its_beginning() {
    let home = issued("as-if-new");
    let sheets = || fs::read(home.join("week-1/results/plan.json")).expect("handed out");
    let before = sheets();
    let ran = longpoint(&home, &["plan", "week-1"]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    for words in [
        "is handed out",
        "cut and order again",
        "--as-if-new",
        "Nothing was written",
    ] {
        assert!(ran.err.contains(words), "{words}: {}", ran.err);
    }
    let ran = longpoint(&home, &["plan", "week-1", "--as-if-new"]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert!(
        ran.err.contains("its sheets stand in this folder"),
        "{}",
        ran.err
    );
    assert_eq!(sheets(), before);
    done(&home, &["plan", "week-1", "--as-if-new", "--out", "other"]);
    assert_eq!(sheets(), before);
    assert!(home.join("other/plan.json").exists());
}

#[test]
fn the_weeks_own_file_goes_before_the_shops_and_the_plan_says_so() {
    let home = issued("own-file");
    let read = |week: &str| longpoint(&home, &["parts", week]);
    assert!(!read("week-1").err.contains("reads its own"));
    fs::copy(home.join("stock.csv"), home.join("week-1/stock.csv")).expect("copied");
    let own = read("week-1");
    assert!(
        own.err.contains("reads its own stock, not the shop's"),
        "{}",
        own.err
    );
    fs::write(
        home.join("week-1/stock.csv"),
        "pipe,length\nnothing like it,21 ft\n",
    )
    .expect("written");
    assert_eq!(
        read("week-1").code,
        2,
        "the week's own is the one that is read"
    );
}

#[test]
fn a_lone_week_works_without_a_yard_and_is_told_how_to_get_one() {
    let place = shop("lone");
    done(&place, &["new", "week", "--lone"]);
    done(&place, &["parts", "week"]);
    for arguments in [
        ["issue", "week"].as_slice(),
        &["tell", "week", "cut", "1"],
        &["stand", "week"],
    ] {
        let ran = longpoint(&place, arguments);
        assert_eq!(ran.code, 2, "{arguments:?}");
        assert!(ran.err.contains("shop folder"), "{}", ran.err);
    }
    assert!(!place.join("week/yard.db").exists() && !place.join("yard.db").exists());
}

#[test]
fn a_plan_of_other_files_is_not_handed_out() {
    let place = shop("other-files");
    done(&place, &["new", "shop"]);
    let home = place.join("shop");
    let none = longpoint(&home, &["issue", "week-1"]);
    assert!(
        none.code == 2 && none.err.contains("longpoint plan week-1"),
        "{}",
        none.err
    );
    copy(
        &issued("other-files-from").join("week-1/results"),
        &home.join("week-1/results"),
    );
    let orders = fs::read_to_string(home.join("week-1/orders.csv")).expect("read");
    fs::write(
        home.join("week-1/orders.csv"),
        orders.replace("A1,1,12'", "A1,1,13'"),
    )
    .expect("written");
    let stale = longpoint(&home, &["issue", "week-1"]);
    assert!(
        stale.code == 2 && stale.err.contains("changed since plan"),
        "{}",
        stale.err
    );
    assert!(!home.join("yard.db").exists(), "nothing was written");
}

#[test]
fn a_list_is_shown_before_it_is_written_and_written_whole() {
    let home = issued("progress");
    done(&home, &["tell", "week-1", "delivered", "--line", "1"]);
    let list = "what,joint,piece,length,count,note\ncut,1,,,,\ncut,2,1,,,\ncut,2,2,5'-8 3/16\",,measured\n";
    fs::write(home.join("progress.csv"), list).expect("written");
    let before = done(&home, &["yard", "entries", "."]);
    let asked = longpoint(&home, &["tell", "week-1", "--file", "progress.csv"]);
    assert_eq!(asked.code, 2, "nobody said yes");
    assert!(asked.out.contains("joint 1 cut") && asked.err.contains("Write 2 lines?"));
    assert_eq!(done(&home, &["yard", "entries", "."]), before);
    done(
        &home,
        &["tell", "week-1", "--file", "progress.csv", "--yes"],
    );
    let stand = done(&home, &["stand", "week-1", "--check"]);
    assert!(stand.contains("all pipe is accounted for"), "{stand}");
    let bad = format!("{list}cut,77,,,,\n");
    fs::write(home.join("progress.csv"), bad).expect("written");
    let after = done(&home, &["yard", "entries", "."]);
    let ran = longpoint(
        &home,
        &["tell", "week-1", "--file", "progress.csv", "--yes"],
    );
    assert!(
        ran.code == 2 && ran.err.contains("progress.csv, line 5, joint"),
        "{}",
        ran.err
    );
    assert!(
        ran.err.contains("line 2"),
        "joint 1 is cut already: {}",
        ran.err
    );
    assert_eq!(done(&home, &["yard", "entries", "."]), after);
}

#[test]
fn telling_under_one_id_twice_changes_nothing() {
    let home = issued("one-id");
    let arguments = [
        "tell",
        "week-1",
        "delivered",
        "3",
        "--line",
        "1",
        "--id",
        "phone-7",
    ];
    done(&home, &arguments);
    let before = done(&home, &["stand", "week-1", "--json"]);
    assert!(done(&home, &arguments).contains("told before"));
    assert_eq!(done(&home, &["stand", "week-1", "--json"]), before);
    let other = longpoint(
        &home,
        &[
            "tell",
            "week-1",
            "delivered",
            "2",
            "--line",
            "1",
            "--id",
            "phone-7",
        ],
    );
    assert!(
        other.code == 2 && other.err.contains("said something else"),
        "{}",
        other.err
    );
}

#[test]
fn export_and_import_make_the_same_yard() {
    let home = issued("exported-cli");
    done(&home, &["tell", "week-1", "delivered", "--line", "1"]);
    let lines = done(&home, &["yard", "export", "."]);
    done(&home, &["yard", "export", ".", "--out", "yard.jsonl"]);
    assert_eq!(
        fs::read_to_string(home.join("yard.jsonl")).expect("read"),
        lines
    );
    let other = shop("imported-cli");
    fs::copy(home.join("shop.toml"), other.join("shop.toml")).expect("copied");
    fs::write(other.join("lines"), &lines).expect("written");
    done(&other, &["yard", "import", ".", "lines"]);
    assert_eq!(done(&other, &["yard", "export", "."]), lines);
    assert_eq!(longpoint(&other, &["yard", "import", ".", "lines"]).code, 2);
    done(&home, &["yard", "copy", ".", "copy.db"]);
    assert!(home.join("copy.db").exists());
}

#[test]
fn the_stand_fits_one_screen_and_says_what_is_asked() {
    let home = issued("screen");
    let cut = longpoint(&home, &["tell", "week-1", "cut", "1", "--hold"]);
    assert!(
        cut.code == 0 && cut.out.contains("a question"),
        "{}{}",
        cut.out,
        cut.err
    );
    let text = done(&home, &["stand", "week-1"]);
    assert!(text.lines().count() <= 50, "{text}");
    assert!(text.lines().all(|l| l.chars().count() <= 80), "{text}");
    assert!(text.contains("Questions"), "{text}");
    done(&home, &["tell", "week-1", "undone", "2"]);
    assert!(!done(&home, &["stand", "week-1"]).contains("Questions"));
}

#[test]
fn a_changed_order_is_told_with_its_rows() {
    let home = issued("changed");
    let same = longpoint(&home, &["tell", "week-1", "changed", "A1"]);
    assert!(
        same.code == 2 && same.err.contains("as it was"),
        "{}",
        same.err
    );
    let orders = fs::read_to_string(home.join("week-1/orders.csv")).expect("read");
    let moved = orders.replace("A1,1,12'", "A1,1,13'");
    assert_ne!(moved, orders);
    fs::write(home.join("week-1/orders.csv"), moved).expect("written");
    done(&home, &["tell", "week-1", "changed", "A1"]);
    let lines = done(&home, &["yard", "export", "."]);
    assert!(lines.contains("opening 12'") && lines.contains("opening 13'"));
    assert!(done(&home, &["stand", "week-1"]).contains("the order of A1 changed"));
}
