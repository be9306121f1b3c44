//! The side of its mark on which the blade stands, the same in every output. Source: the identity that every
//! joint is checked by, length = parts + kerfs + near trim + floor piece, the trim with its kerf inside: only
//! a trim cut on the near side of its mark leaves the first piece whole.

use longpoint::report::draw::Flat;
use longpoint::report::paper::{Paper, pages};
use longpoint::report::results;

use crate::made;

const RULE: &str =
    "The trim cut stands on the NEAR side of its mark, every other cut on the FAR side of its mark";

/// Words with every run of space one space: sheets break their lines.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_output_says_on_which_side_the_blade_stands() {
    let plan = made::checked(&made::demo("demo_us"));
    let files = results(&plan, Paper::Letter).expect("sheets");
    let read = |name: &str| {
        let found = files.iter().find(|(n, _)| n == name);
        let (_, bytes) = found.unwrap_or_else(|| panic!("{name}"));
        flowing(&String::from_utf8_lossy(bytes))
    };
    for name in ["cut_sheet.txt", "week.html", "kit_A6.txt"] {
        assert!(read(name).contains(RULE), "{name}");
    }
    let trimmed = plan.plan().joints.iter().filter(|j| j.near.ticks() > 0);
    let trimmed = trimmed.count();
    assert!(trimmed > 10);
    let at_trim = "blade NEAR side";
    assert_eq!(read("cut_sheet.txt").matches(at_trim).count(), trimmed);
    assert_eq!(read("week.html").matches(at_trim).count(), trimmed);

    let all: Vec<Flat> = pages(&plan, Paper::Letter).iter().map(Flat::of).collect();
    let cuts = all.iter().filter(|f| f.title == "Cut sheets");
    let paper = flowing(&cuts.map(Flat::words).collect::<Vec<_>>().join(" "));
    for words in [
        RULE,
        at_trim,
        "blade near side",
        "blade far side",
        "trim mark",
        "running mark",
    ] {
        assert!(paper.contains(words), "{words}");
    }
}

/// Each record says the side of its own mark, and the figures bear it out: from the trim's mark to the
/// first running mark is the first piece, no kerf less; from one running mark to the next a kerf more.
#[test]
fn the_records_say_the_side_and_their_figures_bear_it_out() {
    let plan = made::checked(&made::demo("demo_us"));
    let files = results(&plan, Paper::Letter).expect("sheets");
    let (_, bytes) = files
        .iter()
        .find(|(n, _)| n == "cut_sheet.csv")
        .expect("records");
    let text = String::from_utf8_lossy(bytes);
    let mut reader = csv::Reader::from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    let heads = reader.headers().expect("heads").clone();
    let at = |name: &str| {
        let found = heads.iter().position(|h| h == name);
        found.unwrap_or_else(|| panic!("{name} in {heads:?}"))
    };
    let (trim, cut) = (
        at("blade_side_of_trim_mark"),
        at("blade_side_of_running_mark"),
    );
    let mut rows = 0;
    for record in reader.records() {
        let record = record.expect("a row");
        let clean = record[at("near_trim_in")].parse::<f64>().expect("a number") == 0.0;
        assert_eq!(&record[trim], if clean { "–" } else { "near" });
        assert_eq!(&record[cut], "far");
        rows += 1;
    }
    let pieces: usize = plan.plan().joints.iter().map(|j| j.pieces.len()).sum();
    assert_eq!(rows, pieces);
    let kerf = plan.week().shop.saw.kerf;
    for joint in &plan.plan().joints {
        let mut mark = joint.near;
        for (i, piece) in joint.pieces.iter().enumerate() {
            let between = piece.end - mark;
            let wanted = if i == 0 { piece.saw } else { piece.saw + kerf };
            assert!(
                (between - wanted).ticks().abs() <= 127,
                "joint {}",
                joint.number
            );
            mark = piece.end;
        }
    }
}
