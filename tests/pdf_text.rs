//! What a PDF of ours says when an outside reader (poppler) takes its text out.
//!
//! Poppler is a system package, so a machine without it leaves this out with a note; where
//! `LONGPOINT_POPPLER` is set (continuous integration) its absence is a failure.

use std::io::Write;
use std::process::{Command, Stdio};

use longpoint::report::draw::{Item, Page, Text};
use longpoint::report::pdf;

/// The text of a PDF, or `None` where poppler is not installed.
fn text_of(bytes: &[u8]) -> Option<String> {
    let spawned = Command::new("pdftotext")
        .args(["-layout", "-", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let mut child = match spawned {
        Ok(child) => child,
        Err(e) if std::env::var_os("LONGPOINT_POPPLER").is_none() => {
            eprintln!("left out, no pdftotext here: {e}");
            return None;
        }
        Err(e) => panic!("pdftotext is wanted here: {e}"),
    };
    let mut stdin = child.stdin.take().expect("stdin was piped");
    stdin.write_all(bytes).expect("pdftotext reads");
    drop(stdin);
    let out = child.wait_with_output().expect("pdftotext ends");
    let complaints = String::from_utf8_lossy(&out.stderr);
    assert!(
        out.status.success() && complaints.is_empty(),
        "{complaints}"
    );
    Some(String::from_utf8(out.stdout).expect("UTF-8"))
}

#[test]
fn every_script_comes_back_as_it_was_written() {
    let lines = [
        "A3.1-HB/2  5'-8 3/16\"  running 12'-0\"",
        "½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ 6′-2″ 45° ±1",
        "Łódź Ærø Ñandú Tiếng Việt",
        "Ворота на север",
        "Κήπος",
        "北京大门 東京ゲート 서울 대문",
    ];
    let mut items: Vec<Item> = Vec::new();
    let mut y = 40.0;
    for (i, line) in lines.iter().enumerate() {
        items.push(Item::Text(Text::new(20.0, y, 14.0, *line)));
        items.push(Item::Text(
            Text::new(580.0, y, 14.0, format!("{i}!")).bold().end(),
        ));
        y += 30.0;
    }
    let page = Page {
        width: 612.0,
        height: 396.0,
        title: String::from("scripts"),
        items,
    };
    let Some(text) = text_of(&pdf::file(&[page], "scripts")) else {
        return;
    };
    for (i, line) in lines.iter().enumerate() {
        for word in line.split_whitespace() {
            assert!(text.contains(word), "{word} not in\n{text}");
        }
        assert!(text.contains(&format!("{i}!")));
    }
}
