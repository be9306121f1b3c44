//! Who takes a template, and how it is laid on: a table, and the check lengths in words.

use super::Kind;
use crate::gate::Role;
use crate::part::Part;
use crate::report::cope_scribe::ScribeRow;
use crate::report::counted::counted;
use crate::report::paper::desk::Desk;
use crate::report::paper::table::{Table, bold, figures, words};

/// Where the template's edge lies on the pipe: angle from the scribe line × end × parts × count.
pub fn scribe_table(desk: &Desk, kind: &Kind, room: f64) -> Table {
    let row = |row: &ScribeRow| {
        let each = row.parts.iter().map(|(index, count)| {
            let mark = desk.take_off.parts.get(*index).map_or("", |p| &p.mark);
            format!("{mark} × {count}")
        });
        vec![
            row.scribe.words(),
            row.end.to_owned(),
            row.ends().to_string(),
            each.collect::<Vec<_>>().join(", "),
        ]
    };
    Table {
        columns: vec![
            bold(words("scribe at", 1.05)),
            bold(words("end", 1.25)),
            figures("ends", 0.8),
            words("of", 1.8),
        ],
        rows: kind.rows.iter().map(row).collect(),
        size: 10.0,
        room,
    }
}

fn scribe_line(role: Option<Role>) -> &'static str {
    match role {
        Some(Role::TopHorizontal | Role::BottomHorizontal | Role::SwayBrace) => "up",
        Some(Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal) => "underside",
        _ => "toward the tail",
    }
}

/// How many ends, where their scribe line is, what to check them by.
pub fn users(desk: &Desk, kind: &Kind) -> String {
    let rows = &kind.rows;
    let ends = rows
        .iter()
        .map(ScribeRow::ends)
        .fold(0, u32::saturating_add);
    let mut parts: Vec<usize> = rows.iter().flat_map(|r| &r.parts).map(|p| p.0).collect();
    parts.sort_unstable();
    parts.dedup();
    let parts = parts.iter().filter_map(|i| desk.take_off.parts.get(*i));
    let mut roles: Vec<&str> = Vec::new();
    let mut checks: Vec<String> = Vec::new();
    for part in parts {
        if !roles.contains(&scribe_line(part.role)) {
            roles.push(scribe_line(part.role));
        }
        checks.extend(lines(desk, part));
    }
    let check = match checks.is_empty() {
        true => String::new(),
        false => format!(" Tip to tip along the pipe: {}.", checks.join("; ")),
    };
    let turned = match rows.iter().any(|r| r.scribe.degrees() != 0) {
        true => " 180° ends: the template's middle line, not its edge, lies on the scribe line.",
        false => "",
    };
    format!(
        "{} in all. The scribe line ({}) is one line for both ends of a part.{turned}{check} Heights are from the throat line toward the tip.",
        counted(ends, "end", "ends"),
        roles.join(" or "),
    )
}

/// A diagonal's check lengths: `A1-D top line …, under line …`.
fn lines(desk: &Desk, part: &Part) -> Option<String> {
    Some(format!(
        "{} top line {}, under line {}",
        part.mark,
        desk.geometry(part.top_line?),
        desk.geometry(part.under_line?)
    ))
}
