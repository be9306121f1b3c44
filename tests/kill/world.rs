//! A week that plans in milliseconds, what its results folder may hold, and runs that are cut off.

use std::collections::BTreeMap;
use std::fs;
use std::os::unix::fs::symlink;
use std::os::unix::process::ExitStatusExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

/// Every file and link of a folder by its path in it: bytes, or where the link leads.
pub type Snapshot = BTreeMap<String, Vec<u8>>;

/// The library that counts calls and kills, built once; `None`: no C compiler, which is said.
pub fn preload() -> Option<&'static Path> {
    static BUILT: OnceLock<Option<PathBuf>> = OnceLock::new();
    BUILT.get_or_init(build).as_deref()
}

fn build() -> Option<PathBuf> {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kill/preload.c");
    let built = Path::new(env!("CARGO_TARGET_TMPDIR")).join("kill-preload.so");
    let ran = Command::new("cc")
        .args(["-shared", "-fPIC", "-O1", "-o"])
        .args([&built, &source])
        .arg("-ldl")
        .output();
    match ran {
        Ok(out) if out.status.success() => Some(built),
        Err(e) if std::env::var_os("LONGPOINT_CC").is_none() => {
            eprintln!("left out, no C compiler here: {e}");
            None
        }
        Ok(out) => panic!("cc: {}", String::from_utf8_lossy(&out.stderr)),
        Err(e) => panic!("a C compiler is wanted here: {e}"),
    }
}

/// An empty place for one test, whose name is nobody else's.
pub fn place(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("kill-{name}"));
    if path.exists() {
        fs::remove_dir_all(&path).expect("a place left by an earlier run can go");
    }
    fs::create_dir_all(&path).expect("the temporary folder can be written");
    path
}

/// A week of two plain parts, made once; nothing is written into it.
pub fn week() -> &'static Path {
    static WEEK: OnceLock<PathBuf> = OnceLock::new();
    WEEK.get_or_init(|| {
        let whole = place("week").join("starter");
        let week = place("week-of-parts");
        let new = Command::new(env!("CARGO_BIN_EXE_longpoint"))
            .args(["new", "--lone"])
            .arg(&whole)
            .output();
        assert!(new.is_ok_and(|ran| ran.status.success()));
        for name in ["shop.toml", "stock.csv", "parts.csv"] {
            fs::copy(whole.join(name), week.join(name)).expect("the starter week was written");
        }
        week
    })
}

/// Plans the week into `out` under that revision, with these settings of the loaded library.
pub fn plan(out: &Path, revision: u32, settings: &[(&str, String)]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_longpoint"));
    command.arg("plan").arg(week()).arg("--out").arg(out);
    command.args(["--threads", "1", "--revision", &revision.to_string()]);
    with(&mut command, settings)
        .output()
        .expect("the binary is built before its tests")
}

/// A run that cannot plan: its week has no shop.
pub fn fail(out: &Path) -> Output {
    static EMPTY: OnceLock<PathBuf> = OnceLock::new();
    let empty = EMPTY.get_or_init(|| place("no-week"));
    let mut command = Command::new(env!("CARGO_BIN_EXE_longpoint"));
    command.arg("plan").arg(empty).arg("--out").arg(out);
    command
        .output()
        .expect("the binary is built before its tests")
}

/// The command with the library in front and its settings.
pub fn with<'a>(command: &'a mut Command, settings: &[(&str, String)]) -> &'a mut Command {
    if let (Some(library), false) = (preload(), settings.is_empty()) {
        command.env("LD_PRELOAD", library);
        command.envs(settings.iter().map(|(name, value)| (name, value)));
    }
    command
}

/// Whether the library ended it.
pub fn killed(ran: &Output) -> bool {
    ran.status.signal() == Some(9)
}

pub fn messages(ran: &Output) -> String {
    String::from_utf8_lossy(&ran.stderr).into_owned()
}

/// Everything in a folder.
pub fn snapshot(folder: &Path) -> Snapshot {
    let mut found = Snapshot::new();
    add(folder, "", &mut found);
    found
}

fn add(folder: &Path, before: &str, found: &mut Snapshot) {
    for entry in fs::read_dir(folder).expect("the folder can be listed") {
        let path = entry.expect("the folder can be listed").path();
        let name = path
            .file_name()
            .expect("entries have names")
            .to_string_lossy();
        let name = format!("{before}{name}");
        if path.is_symlink() {
            let leads = fs::read_link(&path).expect("a link can be read");
            found.insert(name, leads.as_os_str().as_encoded_bytes().to_vec());
        } else if path.is_dir() {
            found.insert(format!("{name}/"), Vec::new());
            add(&path, &format!("{name}/"), found);
        } else {
            found.insert(name, fs::read(&path).expect("results are files"));
        }
    }
}

/// What longpoint writes for the week under that revision.
pub fn sheets(revision: u32) -> &'static Snapshot {
    static SHEETS: OnceLock<Vec<Snapshot>> = OnceLock::new();
    let all = SHEETS.get_or_init(|| {
        let of = |revision| {
            let out = place(&format!("sheets-{revision}")).join("out");
            let ran = plan(&out, revision, &[]);
            assert!(ran.status.success(), "{}", messages(&ran));
            snapshot(&out)
        };
        (0..REVISIONS).map(of).collect()
    });
    &all[usize::try_from(revision).expect("few")]
}

/// Revisions that tests plan under.
pub const REVISIONS: u32 = 6;

/// What a foreman keeps among the sheets.
pub fn own_files() -> Snapshot {
    let own: [(&str, &[u8]); 5] = [
        ("note.txt", b"saw 2 is down"),
        ("photos/", b""),
        ("photos/first.jpg", b"not a picture"),
        ("photos/of monday/", b""),
        ("to the note", b"note.txt"),
    ];
    own.map(|(name, bytes)| (name.to_owned(), bytes.to_vec()))
        .into()
}

/// Writes that snapshot as a folder; our sheets are second names of one file, nothing writes into them.
pub fn lay_out(folder: &Path, holds: &Snapshot) {
    fs::create_dir(folder).expect("the place is new");
    for (name, bytes) in holds {
        let path = folder.join(name);
        if name.ends_with('/') {
            fs::create_dir(path).expect("the place is new");
        } else if name == "to the note" {
            symlink("note.txt", path).expect("links can be made here");
        } else {
            fs::write(path, bytes).expect("the place can be written");
        }
    }
}

/// Names that stand beside the results folder and should not.
pub fn hidden(place: &Path) -> Vec<String> {
    let names = snapshot(place).into_keys();
    names.filter(|name| name.starts_with('.')).collect()
}
