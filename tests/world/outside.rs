//! Runs the outside verifier, plain Python beside the tests, over a file.

use std::path::Path;
use std::process::Command;
use std::sync::atomic::{AtomicU32, Ordering};

use serde_json::Value;

/// Files written so far: the tests of one binary run side by side.
static FILES: AtomicU32 = AtomicU32::new(0);

/// Its exit code and what it printed of a document; `None` when python3 is absent.
pub fn verify(document: &Value, name: &str) -> Option<(i32, String)> {
    let number = FILES.fetch_add(1, Ordering::Relaxed);
    let file = format!("longpoint-{}-{number}-{name}.json", std::process::id());
    let file = std::env::temp_dir().join(file);
    std::fs::write(&file, document.to_string()).expect("the temporary folder takes a file");
    let said = verify_file(&file);
    std::fs::remove_file(&file).expect("the file just written");
    said
}

/// The same of a file.
pub fn verify_file(file: &Path) -> Option<(i32, String)> {
    let pages = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/verify_certificate");
    let Ok(run) = Command::new("python3")
        .arg("-B")
        .arg(pages)
        .arg(file)
        .output()
    else {
        println!("skipped: python3 is absent");
        return None;
    };
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let said = text(&run.stdout) + &text(&run.stderr);
    Some((run.status.code().unwrap_or(-1), said))
}
