//! Counts past all sense are refused where they stand, naming the limit.

use super::world::{Files, demand, only_error, order, read, sound};

fn gates(count: &str) -> Files {
    order(
        "mark,count,opening,height,hand",
        &format!("A1,{count},12',6',left"),
    )
}

fn parts(count: &str) -> Files {
    Files {
        parts: Some(format!("mark,pipe,length,count\nP1,H,5',{count}\n").into_bytes()),
        ..sound()
    }
}

#[test]
fn a_row_of_gates_has_a_limit() {
    for count in ["10000", "99999"] {
        let fault = only_error(&gates(count));
        demand(
            &fault,
            ("orders.csv", 2, "count"),
            count,
            "at most 9999 gates",
        );
    }
    assert_eq!(read(&gates("9999")).expect("read").gates[0].count, 9_999);
}

/// Counts are whole: no mend offers 12.5.
#[test]
fn the_mend_of_a_count_offers_a_whole_number() {
    for count in ["three", "1,000", "1.5", "-2"] {
        let row = format!("A1,\"{count}\",12',6',left");
        let fault = only_error(&order("mark,count,opening,height,hand", &row));
        assert!(!fault.mend.contains('.'), "{count}: {}", fault.mend);
        assert!(
            fault.mend.contains("whole number"),
            "{count}: {}",
            fault.mend
        );
    }
}

#[test]
fn a_row_of_parts_has_a_limit() {
    let fault = only_error(&parts("100000"));
    demand(
        &fault,
        ("parts.csv", 2, "count"),
        "100000",
        "at most 99999 parts",
    );
    assert_eq!(read(&parts("99999")).expect("read").extras[0].count, 99_999);
}
