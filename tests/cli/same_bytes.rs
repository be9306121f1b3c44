//! Same input, same bytes.

use std::fs;

use crate::run::{demos, files, longpoint, planned, starter, text};

#[test]
fn twice_and_on_one_or_two_threads() {
    for (i, week) in demos().iter().enumerate() {
        let first = files(&planned(&format!("same-{i}-a"), week, &["--threads", "1"]));
        let second = files(&planned(&format!("same-{i}-b"), week, &["--threads", "2"]));
        let third = files(&planned(&format!("same-{i}-c"), week, &[]));
        assert!(first == second, "{}: threads", week.display());
        assert!(first == third, "{}: twice", week.display());
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
