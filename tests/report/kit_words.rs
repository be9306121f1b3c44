//! What a kit's reader is told is the same in text, on paper and on the page; what only the customer cuts is not
//! asked of the shop. Common practice, no source.

use longpoint::check::CheckedPlan;
use longpoint::measure::Length;
use longpoint::report::draw::Flat;
use longpoint::report::paper::{Paper, pages};
use longpoint::report::results;

use crate::made;

/// The demo's kit alone, wide enough to ask for a brace and a review, with parts too long for its carrier.
fn kit(sway: bool) -> CheckedPlan {
    let mut week = made::demo_week("demo_us");
    week.gates.retain(|g| g.kit);
    week.extras.clear();
    let gate = &mut week.gates[0];
    gate.leaf += (Length::FOOT * 31 - gate.opening).geometric();
    gate.opening = Length::FOOT * 31;
    gate.sway = sway;
    week.shop.kit.carrier_limit = Some(Length::FOOT * 6);
    made::checked_week(week)
}

/// Words with every run of space one space and no tags: sheets break their lines.
fn flowing(text: &str) -> String {
    let bits = text.split('<').map(|bit| match bit.split_once('>') {
        Some((_, words)) if text.starts_with("<!DOCTYPE") => words,
        _ => bit,
    });
    let whole = bits.collect::<Vec<_>>().join(" ");
    let whole = whole.replace("&quot;", "\"").replace("&amp;", "&");
    whole.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn file(plan: &CheckedPlan, name: &str) -> String {
    let files = results(plan, Paper::Letter).expect("sheets");
    let found = files.iter().find(|(n, _)| n == name);
    let (_, bytes) = found.unwrap_or_else(|| panic!("{name}"));
    String::from_utf8(bytes.clone()).expect("text")
}

/// The words of a section of the set.
fn paper(plan: &CheckedPlan, title: &str) -> String {
    let all: Vec<Flat> = pages(plan, Paper::Letter).iter().map(Flat::of).collect();
    let mine = all.iter().filter(|f| f.title == title).map(Flat::words);
    flowing(&mine.collect::<Vec<_>>().join(" "))
}

/// A section of the page, by its id.
fn on_page(plan: &CheckedPlan, id: &str) -> String {
    let page = file(plan, "week.html");
    let (_, from) = page
        .split_once(&format!("<section id=\"{id}\""))
        .expect("the section");
    let (section, _) = from.split_once("</section>").expect("its end");
    flowing(&format!("<!DOCTYPE <section {section}"))
}

/// The points of the text's last group, each on one line.
fn cautions(text: &str) -> Vec<String> {
    let (_, group) = text.split_once("CAUTIONS").expect("cautions");
    let points = group.split("\n - ").skip(1);
    points
        .map(|p| flowing(p).trim_end_matches(['-', '=']).trim().to_owned())
        .collect()
}

#[test]
fn paper_and_page_say_what_the_kits_text_says() {
    for sway in [false, true] {
        let plan = kit(sway);
        let text = file(&plan, "kit_A6.txt");
        let said = cautions(&text);
        assert!(said.len() >= 7, "{said:?}");
        let mut wanted = said.clone();
        let expected = said.iter().any(|c| c.contains("sway brace is expected"));
        assert_eq!(expected, !sway, "{said:?}");
        assert!(said.iter().any(|c| c.contains("Engineer's review")));
        let text = flowing(&text);
        for words in [
            "The trim cut stands on the NEAR side of its mark, every other cut on the FAR side",
            "lb = bare pipe",
            "above the bottom horizontal's underside",
            "OVER THE CARRIER'S LIMIT of 6'-0\":",
        ] {
            assert!(text.contains(words), "{words} in {text}");
            wanted.push(words.to_owned());
        }
        if sway {
            let (_, brace) = text.split_once("Sway brace ").expect("the brace");
            wanted.push(brace.split('.').next().expect("a sentence").to_owned());
        }
        for (name, all) in [
            ("paper", paper(&plan, "Kit sheets")),
            ("page", on_page(&plan, "kits")),
        ] {
            for words in &wanted {
                assert!(all.contains(words.as_str()), "{name}: {words} in {all}");
            }
        }
    }
}

/// Nothing is said of a carrier that takes everything, nor where the shop gives no limit.
#[test]
fn a_carrier_that_takes_all_is_not_spoken_of() {
    let mut week = made::demo_week("demo_us");
    week.gates.retain(|g| g.kit);
    week.extras.clear();
    for limit in [None, Some(Length::FOOT * 60)] {
        week.shop.kit.carrier_limit = limit;
        let plan = made::checked_week(week.clone());
        for all in [
            file(&plan, "kit_A6.txt"),
            paper(&plan, "Kit sheets"),
            on_page(&plan, "kits"),
        ] {
            assert!(!all.to_lowercase().contains("carrier"), "{all}");
        }
    }
}

/// The customer copes a kit's horizontals: the shop's list, templates and counts leave them out, the kit's own
/// templates are theirs alone.
#[test]
fn the_shop_is_not_asked_to_cope_a_kits_horizontals() {
    let plan = made::checked(&made::demo("demo_us"));
    let theirs = |mark: &str| format!("{mark}-H");
    let kits: Vec<&str> = plan
        .week()
        .gates
        .iter()
        .filter(|g| g.kit)
        .map(|g| g.mark.as_str())
        .collect();
    assert!(!kits.is_empty());
    let (text, table) = (file(&plan, "copes.txt"), file(&plan, "copes.csv"));
    let (sheets, page) = (paper(&plan, "Cope sheets"), on_page(&plan, "copes"));
    for mark in kits {
        for all in [&text, &table, &sheets, &page] {
            assert!(!all.contains(&theirs(mark)), "{mark} in {all}");
        }
        // Their own sheet has the template, with how to lay it on.
        let kit = paper(&plan, "Kit sheets");
        for part in ["HT", "HB"] {
            assert!(kit.contains(&format!("{mark}-{part} × 1")), "{kit}");
        }
        for end in ["latch end", "tail end"] {
            assert!(kit.contains(end), "{end} in {kit}");
        }
    }
    // A week of kits alone asks for no horizontal at all.
    let alone = kit(false);
    assert!(!file(&alone, "copes.txt").contains("STATION: HORIZONTALS"));
    assert!(!file(&alone, "copes.csv").contains("horizontals"));
}
