//! The rack that a plan leaves, as next week's rack.csv.

use std::fs;
use std::path::Path;

use longpoint::order::{WeekFiles, print_faults, read_week};
use longpoint::stock::usable_of_piece;
use longpoint::text::SourceFile;

use crate::run::{files, json, longpoint, place, planned_demos, read, text};

/// What of next week's rack counts, tag by tag, in ticks; the next week is the same with another rack.
fn counts(week: &Path, rack: &str) -> Vec<(String, u32, i64)> {
    let file = |name: &str| {
        let bytes = fs::read(week.join(name)).ok()?;
        Some(SourceFile {
            name: name.to_owned(),
            bytes,
        })
    };
    let next = read_week(&WeekFiles {
        orders: file("orders.csv"),
        shop: file("shop.toml"),
        stock: file("stock.csv"),
        suppliers: file("suppliers.csv"),
        parts: file("parts.csv"),
        rack: Some(SourceFile {
            name: "rack.csv".to_owned(),
            bytes: rack.as_bytes().to_vec(),
        }),
        date: None,
    });
    let next = next.unwrap_or_else(|faults| panic!("{}", print_faults(&faults)));
    let pieces = next.rack.iter();
    let row = |p: &longpoint::order::RackPiece| {
        let usable = usable_of_piece(&next.shop.saw, p).ticks();
        (p.tag.clone(), p.count, usable)
    };
    pieces.map(row).collect()
}

/// Every demo's rack reads as it stands, and a kept drop counts for what it was credited as.
#[test]
fn the_next_rack_counts_what_this_plan_credits() {
    let mut drops = 0;
    for (week, out) in planned_demos() {
        let plan = json(&read(out, "plan.json"));
        let next = counts(week, &read(out, "rack_next.csv"));
        for kept in plan["kept"].as_array().expect("a list") {
            let tag = kept["tag"].as_str().expect("a tag");
            let found = next.iter().find(|(t, ..)| t == tag);
            let credited = kept["credited"]["ticks"].as_i64().expect("ticks");
            assert_eq!(found, Some(&(tag.to_owned(), 1, credited)), "{week:?}");
            drops += 1;
        }
        let stays: u32 = next.iter().map(|(_, count, _)| count).sum();
        let kept = u32::try_from(plan["kept"].as_array().map_or(0, Vec::len)).expect("few");
        let whole: u64 = plan["uncut"].as_array().map_or(0, |list| {
            list.iter().filter_map(|u| u["joints"].as_u64()).sum()
        });
        let rack = fs::read_to_string(week.join("rack.csv"));
        let rack = counts(week, &rack.unwrap_or_else(|_| "pipe,length\n".to_owned()));
        let rack: u32 = rack.iter().map(|(_, count, _)| count).sum();
        let taken = plan["joints"].as_array().expect("a list").iter();
        let taken = taken.filter(|joint| joint["source"] == "rack");
        let taken = u32::try_from(taken.count()).expect("few");
        assert_eq!(
            stays,
            rack - taken + kept + u32::try_from(whole).expect("few"),
            "{week:?}"
        );
    }
    assert!(drops > 10);
}

/// Week after week: the next plan takes what the last one kept.
#[test]
fn a_week_plans_on_the_rack_that_the_last_one_left() {
    let small = planned_demos()
        .iter()
        .find(|(week, _)| week.ends_with("demo_small"));
    let (week, out) = small.expect("the demo is there");
    let next = place("next-week").join("week");
    fs::create_dir(&next).expect("the place is new");
    for (name, bytes) in files(week) {
        fs::write(next.join(name), bytes).expect("the place can be written");
    }
    fs::copy(out.join("rack_next.csv"), next.join("rack.csv")).expect("as a user copies it");
    let ran = longpoint(&["plan", text(&next), "--json"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let again = longpoint(&["verify", text(&next.join("results/plan.json"))]);
    assert_eq!(again.code, 0, "{}", again.err);
    let kept = read(&next.join("results"), "rack_next.csv");
    assert!(kept.starts_with('\u{feff}') && kept.contains("tag,pipe,finish,length,count"));
}
