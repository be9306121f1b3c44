//! Labels and tags: one for every piece and kept drop, clear of the cut lines, saying what the lists say.

use std::collections::BTreeMap;

use longpoint::measure::{Length, Units};
use longpoint::report::draw::Run;
use longpoint::report::paper::Paper;

use crate::paper_pages::{PAPERS, flat, sets};

#[test]
fn every_piece_has_a_label_and_every_kept_drop_a_tag() {
    for (name, plan) in sets() {
        for paper in PAPERS {
            let all = flat(plan, paper);
            let large = |title: &str, words: &str| {
                let pages = all.iter().filter(|f| f.title == title);
                let runs = pages.flat_map(|f| &f.runs);
                runs.filter(|r| r.text.words == words && r.text.size >= 10.0)
                    .count()
            };
            let mut marks: BTreeMap<&str, usize> = BTreeMap::new();
            for piece in plan.plan().joints.iter().flat_map(|j| &j.pieces) {
                *marks.entry(&piece.mark).or_default() += 1;
            }
            for (mark, times) in marks {
                assert_eq!(large("Labels", mark), times, "{name} {paper:?} {mark}");
            }
            for kept in &plan.plan().kept {
                assert_eq!(large("Remnant tags", &kept.tag), 1, "{name} {}", kept.tag);
            }
        }
    }
}

/// A label's words stand clear of its cut lines on either paper.
#[test]
fn no_label_or_tag_prints_on_its_cut_line() {
    for (name, plan) in sets() {
        for paper in PAPERS {
            let all = flat(plan, paper);
            let cards = all
                .iter()
                .filter(|f| f.title == "Labels" || f.title == "Remnant tags");
            for page in cards {
                for (path, filled) in &page.paths {
                    let &[(left, top), _, (right, bottom), _] = path.as_slice() else {
                        continue;
                    };
                    if *filled {
                        continue;
                    }
                    let inside = |r: &&Run| {
                        let (x, y) = (r.bounds().0, r.text.y);
                        x >= left && x < right && y > top && y <= bottom
                    };
                    for run in page.runs.iter().filter(inside) {
                        let b = run.bounds();
                        let clear = (b.1 - top).min(bottom - b.3).min(right - b.2);
                        let words = &run.text.words;
                        assert!(clear > 2.0, "{name} {paper:?}: {words} {clear:.1} pt");
                    }
                }
            }
        }
    }
}

/// A kept drop's length in print: down to 1/64 in, or every decimal of the millimetres.
pub(crate) fn kept_words(length: Length, units: Units) -> String {
    match units {
        Units::Inch => length.down_to(Length::SIXTY_FOURTH).print(units),
        Units::Metric => length.millimetres().to_string(),
    }
}

/// What a tag says lies there is what the cut sheet, the remnants sheet, the page, plan.json and the next
/// week's rack list say, to the letter, and never more than lies there.
#[test]
fn every_output_says_one_length_of_a_kept_drop() {
    let mut kept_drops = 0;
    for (name, plan) in sets() {
        let files = longpoint::report::results(plan, Paper::Letter).expect("sheets");
        let file = |stem: &str| {
            let found = files.iter().find(|(n, _)| n == stem);
            String::from_utf8_lossy(&found.expect("written").1).into_owned()
        };
        let rack = file("rack_next.csv");
        let mut reader = csv::Reader::from_reader(rack.trim_start_matches('\u{feff}').as_bytes());
        let rack: Vec<csv::StringRecord> = reader.records().map(|r| r.expect("a row")).collect();
        let document: serde_json::Value = serde_json::from_str(&file("plan.json")).expect("JSON");
        let all = flat(plan, Paper::Letter);
        let tags = all.iter().filter(|f| f.title == "Remnant tags");
        let tags: Vec<&str> = tags
            .flat_map(|f| &f.runs)
            .map(|r| r.text.words.as_str())
            .collect();
        let units = plan.week().shop.units;
        for (i, kept) in plan.plan().kept.iter().enumerate() {
            let words = kept_words(kept.floor, units);
            let at = tags.iter().position(|w| *w == kept.tag).expect("a tag");
            assert_eq!(tags[at + 1], words, "{name}: {}", kept.tag);
            let row = rack.iter().find(|r| r[0] == kept.tag).expect("listed");
            assert_eq!(row[3].trim_end_matches(" mm"), words, "{name}");
            assert_eq!(document["kept"][i]["floor"]["print"], words, "{name}");
            let joint = plan
                .plan()
                .joints
                .iter()
                .position(|j| j.number == kept.joint);
            let joint = &document["joints"][joint.expect("its joint")];
            assert_eq!(joint["floor"]["print"], words, "{name}");
            for (stem, alone) in [("remnants.txt", true), ("cut_sheet.txt", false)] {
                let text = file(stem).replace('\u{a0}', " ");
                let mut lines = text.lines().filter(|l| l.contains(kept.tag.as_str()));
                let said = lines.any(|l| l.contains(&words));
                assert!(
                    said || !alone && text.contains(&words),
                    "{name} {stem}: {words}"
                );
            }
            let page = file("week.html").replace("&quot;", "\"");
            let of_tag = format!("data-label=\"tag\">{}<", kept.tag);
            let row = page.split("<tr").find(|r| r.contains(&of_tag));
            assert!(
                row.expect("on the page").contains(&words),
                "{name}: {words}"
            );
            kept_drops += 1;
        }
    }
    assert!(kept_drops > 3, "{kept_drops}");
}
