//! A list of what happened, as it comes back from the floor → wishes.

use std::fs;
use std::path::Path;

use super::wish::Wish;
use crate::cli::failure::Failure;
use crate::order::{ProgressRow, read_progress};
use crate::text::SourceFile;

/// The wishes of a list. Rows of one joint that name its pieces are one cut.
pub(super) fn wishes(path: &Path, who: Option<&str>) -> Result<Vec<Wish>, Failure> {
    let bytes = fs::read(path).map_err(|e| Failure::disk(path, &e))?;
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let file = SourceFile {
        name: name.into_owned(),
        bytes,
    };
    let rows =
        read_progress(&file).map_err(|faults| Failure::faulty(faults, "Nothing was written.\n"))?;
    let mut out: Vec<Wish> = Vec::new();
    for row in rows {
        let of_joint = |w: &&mut Wish| {
            w.what == "cut" && w.words.first() == Some(&row.joint) && !row.joint.is_empty()
        };
        let same = out.iter_mut().rev().find(of_joint);
        match same {
            Some(cut) if is_cut(&row) && !row.piece.is_empty() && !cut.actual.is_empty() => {
                add_piece(cut, &row);
            }
            _ => out.push(wish(&file.name, row, who)),
        }
    }
    Ok(out)
}

fn is_cut(row: &ProgressRow) -> bool {
    row.what.trim().eq_ignore_ascii_case("cut")
}

/// One more piece of a joint. Without a length it was cut as planned.
fn add_piece(cut: &mut Wish, row: &ProgressRow) {
    cut.actual.push((row.piece.clone(), row.length.clone()));
    if !row.note.is_empty() {
        let between = if cut.note.is_empty() { "" } else { "; " };
        cut.note.push_str(&format!("{between}{}", row.note));
    }
}

fn wish(file: &str, row: ProgressRow, who: Option<&str>) -> Wish {
    let given = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    let what = row.what.trim().to_lowercase();
    let mut wish = Wish {
        place: Some((file.to_owned(), row.line)),
        line: given(&row.order_line),
        tag: None,
        count: given(&row.count),
        by: given(&row.day),
        money: given(&row.money),
        note: row.note.clone(),
        who: given(&row.who).or_else(|| who.map(str::to_owned)),
        what: what.clone(),
        ..Wish::default()
    };
    match what.as_str() {
        "cut" => {
            wish.words = vec![row.joint.clone()];
            if row.piece.is_empty() {
                wish.floor = given(&row.length);
            } else {
                wish.actual = vec![(row.piece.clone(), row.length.clone())];
            }
            return wish;
        }
        "spoiled" | "bent" => wish.left = given(&row.length),
        _ => wish.lengths = given(&row.length).into_iter().collect(),
    }
    let subject = match what.as_str() {
        "tagged" | "measured" | "scrapped" => given(&row.tag).or(given(&row.piece)),
        _ => {
            wish.tag = given(&row.tag);
            given(&row.piece)
        }
    };
    wish.words = subject.into_iter().collect();
    wish.joint = given(&row.joint);
    wish
}
