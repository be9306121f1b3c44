//! Sheet → text, never wider than 80 columns as a terminal or a printer counts them.

use super::lay_table::lay_table;
use super::sheet::{Block, Heading, Sheet};
use super::table::DASH;
use super::wrap::{fill, soften, width, wrap};

/// Columns of the page.
pub(super) const PAGE: usize = 80;

/// Widest label of a pair.
const LABEL: usize = 30;

/// The sheet as text, ending in a line break.
pub(super) fn print_text(sheet: &Sheet) -> String {
    let mut out = Vec::new();
    head(&mut out, sheet);
    for block in &sheet.blocks {
        out.push(String::new());
        lay(&mut out, block, 0);
    }
    let mut text = String::new();
    for line in out {
        text.push_str(&soften(line.trim_end()));
        text.push('\n');
    }
    text
}

fn head(out: &mut Vec<String>, sheet: &Sheet) {
    out.push("=".repeat(PAGE));
    apart(out, &sheet.title, &sheet.heading.shop);
    let line = heading_line(&sheet.heading);
    if !line.is_empty() {
        out.extend(wrap(&line, PAGE));
    }
    if !sheet.heading.left_out.is_empty() {
        let words = format!(
            "LEFT OUT OF THIS PLAN: {} (nothing of it is cut or bought; see GATES)",
            sheet.heading.left_out
        );
        hang(out, "!! ", &words, PAGE, "");
    }
    out.push("=".repeat(PAGE));
}

fn heading_line(heading: &Heading) -> String {
    let mut words = Vec::new();
    if !heading.plan.is_empty() {
        let date = if heading.date.is_empty() {
            DASH
        } else {
            &heading.date
        };
        words.push(format!("Plan {}", heading.plan));
        words.push(format!("Revision {}", heading.revision));
        words.push(format!("Date {date}"));
    }
    if heading.metric {
        words.push("Lengths in mm".to_owned());
    }
    words.join(" | ")
}

/// Left and right on one line when they fit, else one under the other.
fn apart(out: &mut Vec<String>, left: &str, right: &str) {
    let used = width(left) + width(right);
    if right.is_empty() {
        out.extend(wrap(left, PAGE));
    } else if used + 2 <= PAGE {
        out.push(format!("{left}{}{right}", " ".repeat(PAGE - used)));
    } else {
        out.extend(wrap(left, PAGE));
        out.extend(wrap(right, PAGE));
    }
}

fn lay(out: &mut Vec<String>, block: &Block, indent: usize) {
    let room = PAGE.saturating_sub(indent);
    let pad = " ".repeat(indent);
    match block {
        Block::Group {
            title,
            aside,
            blocks,
        } => {
            out.push("-".repeat(PAGE));
            apart(out, title, aside);
            out.push("-".repeat(PAGE));
            for inner in blocks {
                lay(out, inner, 0);
            }
        }
        Block::Pairs(pairs) => lay_pairs(out, pairs, indent),
        Block::Table(table) => {
            out.extend(lay_table(table, room).iter().map(|l| format!("{pad}{l}")));
        }
        Block::Note(words) => out.extend(wrap(words, room).iter().map(|l| format!("{pad}{l}"))),
        Block::Alert(words) => hang(out, "!! ", words, room, &pad),
        Block::Points(points) => {
            for point in points {
                hang(out, " - ", point, room, &pad);
            }
        }
    }
}

/// A lead-in and its words, further lines hanging under the first.
fn hang(out: &mut Vec<String>, lead: &str, words: &str, room: usize, pad: &str) {
    let inner = room.saturating_sub(width(lead)).max(1);
    for (i, line) in wrap(words, inner).iter().enumerate() {
        let start = if i == 0 {
            lead.to_owned()
        } else {
            " ".repeat(width(lead))
        };
        out.push(format!("{pad}{start}{line}"));
    }
}

fn lay_pairs(out: &mut Vec<String>, pairs: &[(String, String)], indent: usize) {
    let label = pairs.iter().map(|(l, _)| width(l)).max().unwrap_or(0);
    let label = label.min(LABEL);
    let pad = " ".repeat(indent);
    for (name, value) in pairs {
        let names = wrap(name, label.max(1));
        let values = wrap(value, PAGE.saturating_sub(indent + label + 2).max(1));
        for i in 0..names.len().max(values.len()) {
            let left = names.get(i).map_or("", String::as_str);
            let right = values.get(i).map_or("", String::as_str);
            out.push(format!("{pad}{}  {right}", fill(left, label)));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet(title: &str, blocks: Vec<Block>) -> Sheet {
        Sheet {
            stem: "x".to_owned(),
            title: title.to_owned(),
            heading: Heading {
                shop: "Тестовый двор / 試験".to_owned(),
                plan: "P1".to_owned(),
                revision: "0".to_owned(),
                date: String::new(),
                left_out: String::new(),
                metric: true,
            },
            blocks,
            records: None,
        }
    }

    #[test]
    fn nothing_is_wider_than_the_page_in_any_script() {
        let long = "試験門扉".repeat(60);
        let text = print_text(&sheet(
            &long,
            vec![
                Block::Note(long.clone()),
                Block::Alert(long.clone()),
                Block::Points(vec![long.clone()]),
                Block::Pairs(vec![(long.clone(), long.clone())]),
                Block::Group {
                    title: long.clone(),
                    aside: long.clone(),
                    blocks: vec![],
                },
            ],
        ));
        assert!(text.lines().all(|l| width(l) <= PAGE), "{text}");
    }

    #[test]
    fn the_head_carries_plan_revision_and_a_dash_for_no_date() {
        let text = print_text(&sheet("CUT SHEET", vec![]));
        let line = "Plan P1 | Revision 0 | Date – | Lengths in mm";
        assert!(text.contains(line), "{text}");
    }
}
