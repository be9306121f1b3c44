//! Files beside a week's lists that look like one of them.

use std::fs;

use crate::run::{longpoint, starter, text};

#[test]
fn a_list_in_another_form_is_named_and_not_passed_over() {
    let week = starter("stray-ods");
    fs::remove_file(week.join("rack.csv")).unwrap();
    fs::write(week.join("rack.ods"), b"PK").unwrap();
    fs::write(week.join("supplier.csv"), "supplier,freight\n").unwrap();
    let ran = longpoint(&["parts", text(&week)]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    for words in [
        "rack.ods: error: this file is not read, and rack.csv is not there",
        "save it as rack.csv",
        "supplier.csv: error: this file is not read, and suppliers.csv is not there",
        "name it suppliers.csv",
    ] {
        assert!(ran.err.contains(words), "{words}:\n{}", ran.err);
    }
}

#[test]
fn a_copy_beside_its_list_is_said() {
    let week = starter("stray-copy");
    fs::copy(week.join("orders.csv"), week.join("orders (1).csv")).unwrap();
    let ran = longpoint(&["parts", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let words = "orders (1).csv: warning: this file is not read: orders.csv or its workbook is";
    assert!(ran.err.contains(words), "{}", ran.err);
}
