//! Same input, same bytes.

use std::fs;

use crate::run::{files, longpoint, planned, planned_demos, starter, text};

#[test]
fn twice_and_on_one_or_two_threads() {
    for (i, (week, third)) in planned_demos().iter().enumerate() {
        let first = files(&planned(
            &format!("same-{i}-a"),
            week,
            &["--date", "2026-03-02", "--threads", "1"],
        ));
        let second = files(&planned(
            &format!("same-{i}-b"),
            week,
            &["--date", "2026-03-02", "--threads", "2"],
        ));
        assert!(first == second, "{}: threads", week.display());
        assert!(first == files(third), "{}: twice", week.display());
    }
}

#[test]
fn json_and_folder_do_not_differ_by_where_they_go() {
    let week = starter("where");
    let inside = longpoint(&["plan", text(&week), "--json"]);
    let outside = planned("where-out", &week, &[]);
    let document = fs::read_to_string(outside.join("plan.json")).unwrap();
    assert_eq!(inside.out, document);
}

/// A limit far too short still gives a checked plan, never an error.
#[test]
fn a_short_time_limit_gives_the_best_plan_so_far() {
    let week = starter("time-limit");
    let ran = longpoint(&["plan", text(&week), "--time-limit", "0.001", "--json"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let document = crate::run::json(&ran.out);
    for outcome in document["outcomes"].as_array().unwrap() {
        let cost = outcome["cost_millicents"].as_i64().unwrap();
        assert!(outcome["bound_millicents"].as_i64().unwrap() <= cost);
    }
}
