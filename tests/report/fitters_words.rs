//! What the fitter and the sawyer must be told stands in the drawn set and on the page, not in the text alone. Common
//! practice, no source.

use longpoint::measure::Length;
use longpoint::report::draw::Flat;
use longpoint::report::paper::{Paper, pages};
use longpoint::report::results;

use crate::made;

/// Words in one line: sheets break theirs.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn brackets_and_scribe_lines_stand_on_paper_and_page() {
    let mut week = made::demo_week("demo_us");
    week.gates[0].brackets = vec![Length::FOOT * 5 + Length::INCH * 2];
    let plan = made::checked_week(week);
    let all: Vec<Flat> = pages(&plan, Paper::Letter).iter().map(Flat::of).collect();
    let paper = flowing(&all.iter().map(Flat::words).collect::<Vec<_>>().join(" "));
    let files = results(&plan, Paper::Letter).expect("sheets");
    let file = |name: &str| {
        let (_, bytes) = files.iter().find(|(n, _)| n == name).expect("a sheet");
        flowing(&String::from_utf8_lossy(bytes).replace("&quot;", "\""))
    };
    let page = file("week.html");
    let brackets = "brackets at 5'-2\" from the latch face";
    for (name, words) in [("paper", &paper), ("page", &page)] {
        assert!(words.contains(brackets), "{name}");
    }
    // Each joint with pieces of a spliced line, as in the text.
    let text = file("cut_sheet.txt");
    let mut scribed = 0;
    for joint in &plan.plan().joints {
        let marks = joint.pieces.iter().filter(|p| p.piece.is_some());
        let marks: Vec<&str> = marks.map(|p| p.mark.as_str()).collect();
        if marks.is_empty() {
            continue;
        }
        scribed += 1;
        let words = format!(
            "Scribe the top line along {} before it is cut off",
            marks.join(", ")
        );
        for (name, all) in [("text", &text), ("paper", &paper), ("page", &page)] {
            assert!(all.contains(&words), "{name}: {words}");
        }
    }
    assert!(scribed > 4, "{scribed}");
}
