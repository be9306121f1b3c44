//! `longpoint splice`: text, drawing, splice sheet and document say the same.

use std::fs;

use serde_json::Value;

use crate::run::{demos, json, longpoint, place, planned_demos, read, text, us_week};

/// Every spliced horizontal of the document: gate mark, splices.
fn spliced(document: &Value) -> Vec<(String, Vec<Value>)> {
    let lines = document["spliced"].as_array().expect("spliced lines");
    let line = |l: &Value| {
        let mark = l["mark"].as_str().expect("a mark").to_owned();
        (mark, l["splices"].as_array().expect("splices").clone())
    };
    let mut found: Vec<(String, Vec<Value>)> = lines.iter().map(line).collect();
    found.retain(|(mark, _)| mark.contains("-H")); // no sway braces
    found
}

#[test]
fn drawing_text_and_document_agree_on_every_splice() {
    let mut shown_weeks = 0;
    for (demo, results) in planned_demos() {
        let folder = place(&format!(
            "splice-{}",
            demo.file_name().expect("named").display()
        ));
        let document = json(&read(results, "plan.json"));
        let lines = spliced(&document);
        // A week off a full rack may splice nothing.
        let Some((mark, splices)) = lines.first() else {
            continue;
        };
        shown_weeks += 1;
        let gate = mark.split(['-', '.']).next().expect("a gate's mark");
        let file = folder.join("gate.svg");
        let shown = longpoint(&[
            "splice",
            text(demo),
            &gate.to_lowercase(),
            "--svg",
            text(&file),
        ]);
        assert_eq!(shown.code, 0, "{}", shown.err);
        for splice in splices {
            let rel = splice["rel"].as_f64().expect("the bending is computed");
            let bay = splice["bay"].as_u64().expect("a bay");
            let row = shown.out.lines().find(|l| {
                let cells: Vec<&str> = l.split_whitespace().collect();
                cells.get(1) == Some(&bay.to_string().as_str())
                    && cells.last() == Some(&format!("{:.0}", rel * 100.0).as_str())
            });
            assert!(
                row.is_some(),
                "bay {bay}, {rel:.2} of the peak, in\n{}",
                shown.out
            );
        }
        let svg = fs::read_to_string(&file).expect("the drawing is written");
        let count = |what: &str| svg.matches(&format!("class=\"{what}\"")).count();
        let of_gate = lines
            .iter()
            .filter(|(m, _)| m.split(['-', '.']).next() == Some(gate));
        assert_eq!(
            count("splice"),
            of_gate.map(|(_, s)| s.len()).sum::<usize>()
        );
        assert_eq!((count("roller"), count("envelope")), (4, 2));
        assert!(count("window") > 4);
    }
    assert!(shown_weeks >= 2, "the demo weeks splice");
}

/// Where a splice may stand is rounded inward to the saw mark: the list and the sheet name the same marks.
#[test]
fn the_list_and_the_sheet_of_splices_name_the_same_windows() {
    let mut windows = 0;
    for (_, results) in planned_demos() {
        let list = read(results, "splices.csv");
        let list = list.trim_start_matches('\u{feff}');
        let sheet = read(results, "splices.txt").replace(['\n', ' ', '\u{a0}'], "");
        let mut rows = csv::Reader::from_reader(list.as_bytes());
        let head = rows.headers().expect("a head").clone();
        let at = |name: &str| head.iter().position(|h| h == name).expect("a column");
        let (from, to) = (at("window_from_printed"), at("window_to_printed"));
        for row in rows.records() {
            let row = row.expect("a row");
            let end = |i: usize| row[i].replace(' ', "");
            let metric = if row[from].contains('\'') { "" } else { "mm" };
            let said = format!("maystandfrom{}{metric}to{}{metric}", end(from), end(to));
            assert!(sheet.contains(&said), "{said} in {}", results.display());
            windows += 1;
        }
    }
    assert!(windows > 4);
}

#[test]
fn a_gate_that_is_not_there_is_refused_with_those_that_are() {
    let demo = demos().into_iter().next().expect("a demo week");
    let ran = longpoint(&["splice", text(&demo), "nobody"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("nobody") && ran.err.contains("Its gates: "),
        "{}",
        ran.err
    );
}

/// 0.6 of the yield given: 13,051 psi is over it at 20,000 psi and under it at 30,000.
#[test]
fn a_gate_stressed_past_its_share_of_yield_asks_for_an_engineer() {
    let week = us_week("engineer");
    let shop = read(&week, "shop.toml");
    let calm = longpoint(&["splice", text(&week), "A7"]);
    assert!(calm.code == 0 && !calm.out.contains("Ask an engineer"));
    let weak = shop.replace("yield_strength = 30000", "yield_strength = 20000");
    fs::write(week.join("shop.toml"), weak).expect("the place can be written");
    let asked = longpoint(&["splice", text(&week), "A7"]);
    assert!(asked.out.contains("Ask an engineer"), "{}", asked.out);
    assert!(!asked.out.contains("pass") && !asked.out.contains("fail"));
    let out = place("engineer-out").join("out");
    let ran = longpoint(&["plan", text(&week), "--out", text(&out)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(read(&out, "gates.txt").contains("Ask an engineer"));
    assert!(ran.err.contains("warning: Ask an engineer"), "{}", ran.err);
    let notices = json(&read(&out, "plan.json"))["notices"].clone();
    let asked = |n: &&Value| {
        n["what"]
            .as_str()
            .is_some_and(|w| w.starts_with("Ask an engineer"))
    };
    let gates: Vec<&Value> = notices
        .as_array()
        .expect("a list")
        .iter()
        .filter(asked)
        .collect();
    assert!(gates.iter().any(|n| n["value"] == "A7"), "{notices}");
}

/// A drawing is written over an earlier drawing of the same command and over nothing else.
#[test]
fn only_its_own_drawing_is_replaced() {
    let week = crate::run::starter("splice-own");
    let folder = place("splice-own-files");
    let splice =
        |file: &std::path::Path| longpoint(&["splice", text(&week), "A1", "--svg", text(file)]);
    let drawn = folder.join("gate.svg");
    let first = splice(&drawn);
    assert_eq!(first.code, 0, "{}", first.err);
    let svg = fs::read(&drawn).expect("the drawing is written");
    fs::write(&drawn, [&svg[..], b"<!-- older -->"].concat()).expect("room");
    assert_eq!(splice(&drawn).code, 0);
    assert_eq!(fs::read(&drawn).expect("still there"), svg);
    let others = ["photo.svg", "orders.csv", "empty.svg"];
    let held: [&[u8]; 3] = [
        b"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg/>",
        b"mark\n",
        b"",
    ];
    for (name, bytes) in others.into_iter().zip(held) {
        let other = folder.join(name);
        fs::write(&other, bytes).expect("room");
        let ran = splice(&other);
        assert_eq!(ran.code, 2, "{name}: {}", ran.err);
        assert!(
            ran.err.contains("give another name") && ran.out.is_empty(),
            "{}",
            ran.err
        );
        assert_eq!(fs::read(&other).expect("left alone"), bytes);
    }
    assert_eq!(splice(&folder).code, 2, "a folder is no file");
    let names = crate::run::files(&folder);
    assert_eq!(
        names.len(),
        4,
        "nothing is left beside: {:?}",
        names.iter().map(|(n, _)| n)
    );
}
