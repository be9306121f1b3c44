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
