//! The drawn set of the demo weeks, read back by outside readers and by its own geometry.

use std::collections::BTreeMap;
use std::path::PathBuf;

use crate::labels_and_tags::kept_words;
use crate::{made, poppler};
use longpoint::check::CheckedPlan;
use longpoint::report::page::page;
use longpoint::report::paper::{Paper, elevations, set};

/// Where to leave the drawings for a person to look at, when `LONGPOINT_PAPER_OUT` names a folder.
fn keep(name: &str, bytes: &[u8]) {
    if let Some(folder) = std::env::var_os("LONGPOINT_PAPER_OUT") {
        std::fs::write(PathBuf::from(folder).join(name), bytes).expect("written");
    }
}

/// How often each word stands in a text.
fn words(text: &str) -> BTreeMap<&str, usize> {
    let mut count = BTreeMap::new();
    for word in text.split_whitespace() {
        *count.entry(word).or_insert(0) += 1;
    }
    count
}

/// Every mark, saw length, running mark, floor drop, tag and total of the plan is on paper.
fn says_everything(plan: &CheckedPlan, text: &str) {
    let (week, made) = (plan.week(), plan.plan());
    let (mark, units) = (week.shop.saw.mark, week.shop.units);
    let counted = words(text);
    let mut marks: BTreeMap<&str, usize> = BTreeMap::new();
    for joint in &made.joints {
        for piece in &joint.pieces {
            *marks.entry(piece.mark.as_str()).or_insert(0) += 1;
            // On one line of the cut sheet, as the saw man reads them.
            let (saw, running) = (piece.saw.print(units), piece.end.print_at(mark, units));
            let line =
                |l: &&str| l.contains(&piece.mark) && l.contains(&saw) && l.contains(&running);
            assert!(
                text.lines().any(|l| line(&l)),
                "{} {saw} {running}",
                piece.mark
            );
        }
        let floor = match joint.kept {
            true => kept_words(joint.floor, units),
            false => joint.floor.down_to(mark).print(units),
        };
        assert!(
            text.contains(&floor),
            "joint {} floor {floor}",
            joint.number
        );
        assert!(
            joint
                .keep_tag
                .iter()
                .all(|tag| counted.contains_key(tag.as_str()))
        );
    }
    for (mark, times) in marks {
        // Once on its cut sheet, once on its label.
        let printed = counted.get(mark).copied().unwrap_or(0);
        assert!(printed >= 2 * times, "{mark}: {printed} of {}", 2 * times);
    }
    let total = made.total.expect("the demo weeks are priced").to_string();
    assert!(text.contains(&total), "total {total}");
    for line in &made.buy {
        let money = line.money.expect("priced").to_string();
        assert!(text.contains(&money), "order line {money}");
    }
    let pages = text.matches('\u{c}').count();
    assert!(text.contains(&format!("page {pages} of {pages}")));
    let number = format!("plan {} · revision 0", made.number);
    assert!(
        text.matches(&number).count() >= pages,
        "the plan on every page"
    );
}

#[test]
fn the_us_week_says_everything_on_letter_and_the_same_bytes_twice() {
    let plan = made::checked(&made::demo("demo_us"));
    let bytes = set(&plan, Paper::Letter);
    assert_eq!(bytes, set(&plan, Paper::Letter));
    keep("us.pdf", &bytes);
    keep("us_a4.pdf", &set(&plan, Paper::A4));
    keep("us.html", page(&plan).as_bytes());
    for (name, svg) in elevations(&plan) {
        keep(&name, svg.as_bytes());
    }
    if let Some(text) = poppler::text_of(&bytes) {
        says_everything(&plan, &text);
    }
}

#[test]
fn the_metric_week_says_everything_on_a4() {
    let plan = made::checked(&made::demo("demo_metric"));
    let bytes = set(&plan, Paper::A4);
    keep("metric.pdf", &bytes);
    keep("metric.html", page(&plan).as_bytes());
    if let Some(text) = poppler::text_of(&bytes) {
        says_everything(&plan, &text);
    }
}

#[test]
fn the_small_weeks_say_everything_on_letter() {
    for week in ["demo_small", "demo_buying"] {
        let plan = made::checked(&made::demo(week));
        if let Some(text) = poppler::text_of(&set(&plan, Paper::Letter)) {
            says_everything(&plan, &text);
        }
    }
}

#[test]
fn a_kit_sheet_names_no_other_customers_gate() {
    let plan = made::checked(&made::demo("demo_us"));
    let Some(text) = poppler::text_of(&set(&plan, Paper::Letter)) else {
        return;
    };
    let kits: Vec<&str> = text
        .split('\u{c}')
        .filter(|p| p.contains("for the customer"))
        .collect();
    assert!(!kits.is_empty());
    for gate in plan.week().gates.iter().filter(|g| !g.kit) {
        let other = format!("{}-", gate.mark);
        assert!(kits.iter().all(|p| !p.contains(&other)), "{other}");
    }
}

/// A local joint that holds a horizontal with next to nothing left is to be measured first; the same
/// words on paper and in the text. One sixteenth more than the limit is not.
#[test]
fn a_tight_kit_joint_is_measured_first_on_paper_too() {
    let mut week = made::demo_week("demo_us");
    let units = week.shop.units;
    week.gates.retain(|g| g.kit);
    week.extras.clear();
    let whole = {
        let (parts, _) = longpoint::part::take_off(&week);
        let horizontal = parts.parts.iter().find(|p| !p.ours);
        horizontal.expect("a kit's horizontal").saw
    };
    let limit = week.shop.saw.measure_first_under;
    let kit = &mut week.shop.kit;
    let tight = whole + kit.trim + kit.trim;
    let easy = tight + limit;
    kit.local_joints = vec![tight, easy];
    let plan = made::checked_week(week);
    let files = longpoint::report::results(&plan, Paper::Letter).expect("sheets");
    let sheet = files
        .iter()
        .find(|(name, _)| name.starts_with("kit_") && name.ends_with(".txt"));
    let text = String::from_utf8_lossy(&sheet.expect("a kit sheet").1).into_owned();
    let said = format!(
        "MEASURE FIRST: joints 1, 2 must each be a full {}.",
        tight.print(units)
    );
    assert!(text.contains(&said), "{said} in {text}");
    assert_eq!(text.matches("MEASURE FIRST").count(), 1);
    if let Some(paper) = poppler::text_of(&set(&plan, Paper::Letter)) {
        assert_eq!(paper.matches(&said).count(), 1);
    }
}
