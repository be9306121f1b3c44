//! What is printed: width, totals, running marks, and text that no spreadsheet runs.

use std::fs;
use std::path::Path;

use serde_json::Value;
use unicode_width::UnicodeWidthStr;

use crate::run::{files, json, planned, planned_demos, read, us_week};

fn sheets(folder: &Path, ending: &str) -> Vec<(String, String)> {
    let all = files(folder).into_iter();
    all.filter(|(name, _)| name.ends_with(ending))
        .map(|(name, bytes)| (name, String::from_utf8(bytes).unwrap()))
        .collect()
}

#[test]
fn no_sheet_is_wider_than_80_columns_and_each_carries_its_plan() {
    for (_, out) in planned_demos() {
        let number = json(&read(out, "plan.json"))["plan"]
            .as_str()
            .unwrap()
            .to_owned();
        for (name, text) in sheets(out, ".txt") {
            for line in text.lines() {
                assert!(line.width() <= 80, "{name}: {line}");
                assert!(!line.contains('\u{a0}'), "{name}: {line}");
            }
            let head = format!("Plan {number} | Revision 0 | Date 2026-03-02");
            if name.starts_with("order_") {
                // A letter: narrower, and the plan is our reference.
                let reference = format!("Our reference: plan {number} rev 0");
                assert!(text.contains(&reference), "{name}");
                assert!(text.lines().all(|l| l.width() <= 78), "{name}");
                continue;
            }
            assert!(text.contains(&head), "{name}");
        }
    }
}

#[test]
fn names_in_any_script_keep_the_width() {
    let week = us_week("scripts");
    let shop = fs::read_to_string(week.join("shop.toml")).unwrap();
    let line = shop
        .lines()
        .find(|l| l.starts_with("name"))
        .unwrap()
        .to_owned();
    let named = format!("name = \"{}\"", "門扉製作所 Ворота 🚧 बाड़ ".repeat(6));
    fs::write(week.join("shop.toml"), shop.replacen(&line, &named, 1)).unwrap();
    let out = planned("scripts-out", &week, &[]);
    for (name, text) in sheets(&out, ".txt") {
        assert!(text.contains("門扉製作所"), "{name}");
        assert!(text.lines().all(|l| l.width() <= 80), "{name}");
    }
}

/// The blocks of a sheet by the strip that opens them.
fn block<'t>(text: &'t str, title: &str) -> &'t str {
    let start = text.find(title).unwrap_or_else(|| panic!("{title}"));
    let rest = &text[start..];
    let body = rest.find("\n---").map_or(0, |i| i + 1);
    let end = rest[body..]
        .match_indices(&"-".repeat(80))
        .nth(1)
        .map_or(rest.len(), |(i, _)| body + i);
    &rest[..end]
}

#[test]
fn every_piece_and_running_mark_of_the_document_is_on_the_cut_sheet() {
    for (_, out) in planned_demos() {
        let document = json(&read(out, "plan.json"));
        let sheet = read(out, "cut_sheet.txt");
        let joints = document["joints"].as_array().unwrap();
        assert!(!joints.is_empty());
        for joint in joints {
            let title = format!("JOINT {} of {} ", joint["number"], joints.len());
            let block = block(&sheet, &title);
            for piece in joint["pieces"].as_array().unwrap() {
                check_row(block, piece);
            }
            let word = if joint["kept"] == true {
                "KEEP"
            } else {
                "SCRAP"
            };
            let floor = joint["floor"]["print"].as_str().unwrap();
            if joint["floor"]["ticks"] != 0 {
                assert!(block.contains(word) && block.contains(floor), "{block}");
            }
            assert_eq!(
                joint["measure_first"] == true,
                block.contains("MEASURE FIRST")
            );
        }
        for done in document["done"].as_array().unwrap() {
            let joint = &done["after_joint"];
            if *joint != 0 {
                let line = format!(
                    "Gate {} complete after joint {joint}.",
                    done["mark"].as_str().unwrap()
                );
                assert!(sheet.contains(&line), "{line}");
            }
        }
    }
}

fn check_row(block: &str, piece: &Value) {
    let mark = piece["mark"].as_str().unwrap();
    let saw = piece["saw_length"]["print"].as_str().unwrap();
    let end = piece["end"]["print"].as_str().unwrap();
    let row = block.lines().find(|l| {
        let l = l.trim_end_matches('*');
        l.contains(&format!("{mark} ")) && l.contains(saw) && l.ends_with(end)
    });
    let row = row.unwrap_or_else(|| panic!("{mark} {saw} {end} not in\n{block}"));
    assert!(row.starts_with("[ ]"), "{row}");
    assert_eq!(piece["over_tape"] == true, row.ends_with('*'), "{row}");
}

#[test]
fn totals_on_paper_are_the_documents_totals() {
    for (_, out) in planned_demos() {
        let document = json(&read(out, "plan.json"));
        let totals = &document["totals"];
        let buy = read(out, "buy_list.txt");
        let line = |label: &str| {
            let line = buy.lines().find(|l| l.starts_with(label));
            let line = line.unwrap_or_else(|| panic!("{label} in {buy}"));
            line[label.len()..].trim().to_owned()
        };
        assert_eq!(line("Joints to buy"), totals["bought"].to_string());
        let rack = line("Taken off the rack");
        assert_eq!(rack, format!("{} pieces", totals["from_rack"]));
        let total: String = line("The plan's total")
            .chars()
            .filter(|c| c.is_ascii_digit() || *c == '.')
            .collect();
        assert_eq!(
            total.parse::<f64>().unwrap(),
            totals["money"].as_f64().unwrap()
        );
        let lines = document["buy"].as_array().unwrap();
        let joints: u64 = lines.iter().map(|l| l["joints"].as_u64().unwrap()).sum();
        assert_eq!(joints, totals["bought"].as_u64().unwrap());
        let kept = document["kept"].as_array().unwrap().len();
        assert_eq!(kept, totals["kept"].as_u64().unwrap() as usize);
        csv_counts(out, &document);
    }
}

fn csv_counts(out: &Path, document: &Value) {
    let rows = |file: &str| {
        let text = read(out, file);
        let text = text
            .strip_prefix('\u{feff}')
            .expect("UTF-8 mark")
            .to_owned();
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        reader.records().filter(Result::is_ok).count()
    };
    let joints = document["joints"].as_array().unwrap();
    let pieces: usize = joints
        .iter()
        .map(|j| j["pieces"].as_array().unwrap().len().max(1))
        .sum();
    assert_eq!(rows("cut_sheet.csv"), pieces);
    assert_eq!(
        rows("parts.csv"),
        document["parts"].as_array().unwrap().len()
    );
    assert_eq!(
        rows("remnants.csv"),
        document["kept"].as_array().unwrap().len()
    );
    let listed = ["buy", "spares", "fees"].map(|of| document[of].as_array().unwrap().len());
    assert_eq!(rows("buy_list.csv"), listed.iter().sum::<usize>());
}

#[test]
fn user_text_is_never_a_formula() {
    let week = us_week("formula");
    let orders = fs::read_to_string(week.join("orders.csv")).unwrap();
    assert!(
        orders.contains("\nA1,") && orders.contains("Feed store"),
        "{orders}"
    );
    let orders = orders
        .replace("\nA1,", "\n=A1,")
        .replace("Feed store", "=1+1");
    fs::write(week.join("orders.csv"), orders).unwrap();
    let stock = fs::read_to_string(week.join("stock.csv")).unwrap();
    assert!(stock.contains("Harbor Pipe"), "{stock}");
    fs::write(
        week.join("stock.csv"),
        stock.replace("Harbor Pipe", "@Harbor Pipe"),
    )
    .unwrap();
    let out = planned("formula-out", &week, &[]);
    let mut seen = 0;
    for (name, text) in sheets(&out, ".csv") {
        let text = text.trim_start_matches('\u{feff}');
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(text.as_bytes());
        for record in reader.records() {
            for cell in &record.unwrap() {
                let number = cell.parse::<f64>().is_ok();
                let bad = cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && !number;
                assert!(!bad, "{name}: {cell}");
                seen += usize::from(cell.starts_with("'=") || cell.starts_with("'@"));
            }
        }
    }
    assert!(seen > 0, "the week carries such text");
}
