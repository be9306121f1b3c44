//! Every command that README.md and DEVELOPERS.md show is run here, and every output they show is
//! compared byte for byte. `LONGPOINT_WRITE_DOCUMENTS=1 cargo test --test cli documents` rewrites the
//! outputs from what the commands print today. A block marked `json NAME` is the file of that name.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// One fenced block: its language, its lines, and where its body starts and ends in the text.
struct Block {
    language: String,
    body: String,
    range: std::ops::Range<usize>,
}

fn blocks(text: &str) -> Vec<Block> {
    let mut found = Vec::new();
    let mut open: Option<(String, usize)> = None;
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let end = at + line.len();
        if let Some(rest) = line.strip_prefix("```") {
            open = match open.take() {
                None => Some((rest.trim().to_string(), end)),
                Some((language, start)) => {
                    found.push(Block {
                        language,
                        body: text[start..at].to_string(),
                        range: start..at,
                    });
                    None
                }
            };
        }
        at = end;
    }
    assert!(open.is_none(), "a fenced block is never closed");
    found
}

fn repository() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A folder of this test's own holding the repository's data, so that results never land in it.
fn workplace(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    for week in ["demo_us", "demo_metric", "demo_small", "demo_buying"] {
        let to = folder.join("data").join(week);
        fs::create_dir_all(&to).expect("the test's folder can be made");
        for file in
            fs::read_dir(repository().join("data").join(week)).expect("the demo weeks are here")
        {
            let file = file.expect("the folder can be listed").path();
            if file.is_file() {
                fs::copy(&file, to.join(file.file_name().expect("a file has a name")))
                    .expect("a demo file can be copied");
            }
        }
    }
    for problem in ["nest_demo.json", "nest_class.json"] {
        let problem = Path::new("data").join(problem);
        let copied = fs::copy(repository().join(&problem), folder.join(&problem));
        copied.expect("the problems are here");
    }
    folder
}

/// Runs one shown line in `folder`; returns stdout, or `None` where the line is not longpoint's. With `> FILE`
/// that file gets it instead.
fn run(line: &str, folder: &Path) -> Option<String> {
    let (line, file) = match line.split_once(" > ") {
        Some((line, file)) => (line, Some(file.trim())),
        None => (line, None),
    };
    let words: Vec<&str> = line.split_whitespace().collect();
    let arguments = words
        .strip_prefix(&["cargo", "run", "--release", "--"])
        .or_else(|| words.strip_prefix(&["longpoint"]))?;
    let done = Command::new(env!("CARGO_BIN_EXE_longpoint"))
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("the binary runs");
    // 0: done; 3: done in part, and the text shown says of what.
    assert!(
        matches!(done.status.code(), Some(0 | 3)),
        "`{line}` failed:\n{}",
        String::from_utf8_lossy(&done.stderr)
    );
    if let Some(file) = file {
        fs::write(folder.join(file), &done.stdout).expect("the test's folder takes a file");
        return Some(String::new());
    }
    Some(String::from_utf8(done.stdout).expect("output is UTF-8"))
}

/// Lines that are run elsewhere: by CI itself, or by hand because they time things.
fn run_elsewhere(line: &str) -> bool {
    [
        "cargo test",
        "cargo bench",
        "cargo fmt",
        "cargo clippy",
        ".ci/run",
        "bash .ci/run",
    ]
    .iter()
    .any(|c| line.starts_with(c))
}

fn hold(document: &str) {
    let path = repository().join(document);
    let mut text = fs::read_to_string(&path).expect("the document is in the repository");
    let folder = workplace(document);
    let write = std::env::var_os("LONGPOINT_WRITE_DOCUMENTS").is_some();
    let mut commands = 0;
    let mut printed: Option<String> = None;
    let mut rewrites = Vec::new();
    for block in blocks(&text) {
        match block.language.as_str() {
            "sh" => {
                printed = None;
                for line in block.body.lines().filter(|l| !l.trim().is_empty()) {
                    printed = run(line, &folder);
                    assert!(
                        printed.is_some() || run_elsewhere(line),
                        "{document}: nothing runs `{line}`"
                    );
                    commands += 1;
                }
            }
            "text" => {
                if let Some(out) = printed.take() {
                    if write {
                        rewrites.push((block.range, out));
                    } else {
                        assert_eq!(
                            block.body, out,
                            "{document} shows another output than the command prints"
                        );
                    }
                }
            }
            // A file that the commands below it read.
            language if language.starts_with("json ") => {
                let name = &language["json ".len()..];
                fs::write(folder.join(name), &block.body).expect("the test's folder takes a file");
                printed = None;
            }
            _ => printed = None,
        }
    }
    assert!(commands > 0, "{document} shows no command");
    for (range, out) in rewrites.into_iter().rev() {
        text.replace_range(range, &out);
        fs::write(&path, &text).expect("the document can be written");
    }
}

#[test]
fn the_readme_shows_what_the_commands_print() {
    hold("README.md");
}

#[test]
fn the_page_on_cutting_lists_shows_what_the_commands_print() {
    hold("data/cutting_lists.md");
    // The problem it goes through is the one in data/.
    let read = |name: &str| fs::read_to_string(repository().join(name)).expect("it is here");
    let problem = read("data/nest_class.json");
    let page = read("data/cutting_lists.md");
    let shown = blocks(&page).into_iter().find(|b| b.language == "json");
    assert_eq!(shown.map(|b| b.body), Some(problem));
}

#[test]
fn the_developers_page_shows_what_the_commands_print() {
    hold("DEVELOPERS.md");
}
