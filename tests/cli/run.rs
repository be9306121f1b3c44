//! Running the binary on week folders made for one test.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

use serde_json::Value;

/// What a run came to.
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

/// Runs longpoint with these arguments.
pub fn longpoint(arguments: &[&str]) -> Ran {
    let output = Command::new(env!("CARGO_BIN_EXE_longpoint"))
        .args(arguments)
        .output()
        .expect("the binary is built before its tests");
    ran(output)
}

pub fn ran(output: Output) -> Ran {
    Ran {
        code: output.status.code().unwrap_or(-1),
        out: String::from_utf8(output.stdout).expect("output is UTF-8"),
        err: String::from_utf8(output.stderr).expect("messages are UTF-8"),
    }
}

/// An empty place for one test, whose name is nobody else's.
pub fn place(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("cli-{name}"));
    if path.exists() {
        fs::remove_dir_all(&path).expect("a place left by an earlier run can go");
    }
    fs::create_dir_all(&path).expect("the temporary folder can be written");
    path
}

/// The starter week in a place of its own.
pub fn starter(name: &str) -> PathBuf {
    let week = place(name).join("week");
    let ran = longpoint(&["new", text(&week), "--lone"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    week
}

pub fn text(path: &Path) -> &str {
    path.to_str().expect("test paths are UTF-8")
}

/// The demo weeks in data/.
pub fn demos() -> Vec<PathBuf> {
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
    let entries = fs::read_dir(data).expect("data/ is in the repository");
    let mut demos: Vec<PathBuf> = entries
        .map(|e| e.expect("data/ can be listed").path())
        .filter(|p| p.join("shop.toml").exists())
        .collect();
    demos.sort();
    assert!(!demos.is_empty());
    demos
}

/// Plans a week into a folder of this test and hands back that folder.
pub fn planned(name: &str, week: &Path, more: &[&str]) -> PathBuf {
    let out = place(name).join("out");
    let mut arguments = vec!["plan", text(week), "--out", text(&out)];
    arguments.extend(more);
    let ran = longpoint(&arguments);
    assert_eq!(ran.code, 0, "{}", ran.err);
    out
}

pub fn read(folder: &Path, file: &str) -> String {
    let path = folder.join(file);
    fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

pub fn json(text: &str) -> Value {
    serde_json::from_str(text).expect("one JSON document")
}

/// Every file of a folder by name (folders in it left out).
pub fn files(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut found: Vec<(String, Vec<u8>)> = fs::read_dir(folder)
        .expect("the folder was written")
        .map(|e| e.expect("the folder can be listed").path())
        .filter(|p| p.is_file())
        .map(|p| {
            let name = p.file_name().expect("entries have names");
            (
                name.to_string_lossy().into_owned(),
                fs::read(&p).expect("results are files"),
            )
        })
        .collect();
    found.sort();
    found
}

/// The demo weeks planned once for all tests that only read: (week, results folder).
pub fn planned_demos() -> &'static [(PathBuf, PathBuf)] {
    static PLANNED: OnceLock<Vec<(PathBuf, PathBuf)>> = OnceLock::new();
    PLANNED.get_or_init(|| {
        let weeks = demos().into_iter().enumerate();
        weeks
            .map(|(i, week)| {
                let out = planned(&format!("demo-{i}"), &week, &["--date", "2026-03-02"]);
                (week, out)
            })
            .collect()
    })
}

/// A copy of the US demo week that a test may spoil.
pub fn us_week(name: &str) -> PathBuf {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo_us");
    let to = place(name).join("week");
    fs::create_dir(&to).expect("the place is new");
    for (file, bytes) in files(&from) {
        fs::write(to.join(file), bytes).expect("the place can be written");
    }
    to
}
