//! The drawn set of the demo weeks.

mod made;

use std::path::PathBuf;

use longpoint::report::paper::{Paper, elevations, set};

/// Where to leave the drawings for a person to look at, when `LONGPOINT_PAPER_OUT` names a folder.
fn keep(name: &str, bytes: &[u8]) {
    if let Some(folder) = std::env::var_os("LONGPOINT_PAPER_OUT") {
        std::fs::write(PathBuf::from(folder).join(name), bytes).expect("written");
    }
}

#[test]
fn the_us_week_is_drawn_and_the_same_bytes_twice() {
    let plan = made::checked(&made::demo("demo_us"));
    let bytes = set(&plan, Paper::Letter);
    assert_eq!(bytes, set(&plan, Paper::Letter));
    keep("us.pdf", &bytes);
    keep("us.html", longpoint::report::page::page(&plan).as_bytes());
    keep("us_a4.pdf", &set(&plan, Paper::A4));
    for (name, svg) in elevations(&plan) {
        keep(&name, svg.as_bytes());
    }
}

#[test]
fn the_metric_week_is_drawn() {
    let plan = made::checked(&made::demo("demo_metric"));
    let bytes = set(&plan, Paper::A4);
    assert!(bytes.starts_with(b"%PDF-1.7"));
    keep("metric.pdf", &bytes);
    keep(
        "metric.html",
        longpoint::report::page::page(&plan).as_bytes(),
    );
}
