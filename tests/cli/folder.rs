//! The results folder: whole or not at all, and nobody else's files touched.

use std::fs;

use crate::run::{files, longpoint, place, read, starter, text};

#[test]
fn a_folder_of_somebody_else_is_left_alone() {
    let week = starter("foreign");
    let out = place("foreign-out");
    fs::write(out.join("plan.json"), "{\"format\": \"their plan\"}").unwrap();
    fs::write(out.join("letter.txt"), "dear").unwrap();
    let before = files(&out);
    let ran = longpoint(&["plan", text(&week), "--out", text(&out)]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert_eq!(files(&out), before);
}

#[test]
fn the_week_folder_itself_is_no_results_folder() {
    let week = starter("own-folder");
    let before = files(&week);
    let ran = longpoint(&["plan", text(&week), "--out", text(&week)]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert_eq!(files(&week), before);
}

#[test]
fn planning_again_replaces_our_sheets_and_keeps_a_note_of_the_foreman() {
    let week = starter("again");
    assert_eq!(longpoint(&["plan", text(&week)]).code, 0);
    let results = week.join("results");
    fs::write(results.join("note.txt"), "saw 2 is down").unwrap();
    let again = longpoint(&["plan", text(&week), "--revision", "1"]);
    assert_eq!(again.code, 0, "{}", again.err);
    assert_eq!(read(&results, "note.txt"), "saw 2 is down");
    assert!(read(&results, "cut_sheet.txt").contains("Revision 1"));
    let hidden = fs::read_dir(&week).unwrap();
    let hidden = hidden.filter(|e| {
        let name = e.as_ref().unwrap().file_name();
        name.to_string_lossy().starts_with('.')
    });
    assert_eq!(hidden.count(), 0, "no folder of the swap is left");
}

#[test]
fn a_stranger_in_the_way_of_a_sheet_stops_the_swap() {
    let week = starter("stranger");
    assert_eq!(longpoint(&["plan", text(&week)]).code, 0);
    let results = week.join("results");
    let listed = read(&results, "plan.json").replace("\"cut_sheet.txt\",", "");
    fs::write(results.join("plan.json"), listed).unwrap();
    let before = files(&results);
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert!(ran.err.contains("cut_sheet.txt"), "{}", ran.err);
    assert_eq!(files(&results), before);
}

#[test]
fn a_file_in_the_way_is_named() {
    let week = starter("file-in-way");
    let out = place("file-in-way-out").join("out");
    fs::write(&out, "x").unwrap();
    let ran = longpoint(&["plan", text(&week), "--out", text(&out)]);
    assert_eq!(ran.code, 2);
    assert_eq!(fs::read_to_string(&out).unwrap(), "x");
}

/// The sheets are written beside the folder first; nobody has heard of that hidden folder.
#[test]
fn a_refusal_of_the_disk_names_the_folder_that_was_given() {
    let week = starter("refused-by-the-disk");
    let name = "r".repeat(250);
    let out = week.join(&name);
    let ran = longpoint(&["plan", text(&week), "--out", text(&out)]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    assert!(ran.err.contains(&format!("/{name}: ")), "{}", ran.err);
    assert!(!ran.err.contains(".new-"), "{}", ran.err);
}
