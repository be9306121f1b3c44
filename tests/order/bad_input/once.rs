//! One slip gives one fault, however many places it reaches.

use super::world::{Files, SHOP, demand, notices, only_error, read, shop_with, sound};
use longpoint::order::Severity;

fn text(text: &str) -> Option<Vec<u8>> {
    Some(text.as_bytes().to_vec())
}

const RACK: &str = "tag,pipe,length\nR1,H,4'\nR2,V,9'\n";

#[test]
fn a_day_that_is_none_is_not_called_missing_too() {
    let dated = "pipe,length,price,per,lead_days\nH,21 ft,3.48,foot,3\nV,21 ft,2.62,foot,3\n";
    let files = Files {
        stock: text(dated),
        ..shop_with("buying", "order_date = \"2026-13-02\"")
    };
    let faults = read(&files).expect_err("refused");
    assert_eq!(faults.len(), 1, "{faults:?}");
    let idle = Files {
        stock: text(dated),
        ..sound()
    };
    assert!(
        notices(&idle)
            .iter()
            .any(|n| n.what.contains("no order date"))
    );
}

#[test]
fn a_pipe_that_is_called_otherwise_is_said_once_with_every_place() {
    let files = Files {
        shop: text(&SHOP.replacen("name = \"H\"", "name = \"HH\"", 1)),
        rack: text(RACK),
        ..sound()
    };
    let fault = only_error(&files);
    demand(
        &fault,
        ("shop.toml", 12, "gate.horizontal"),
        "H",
        "\"H\" is not declared",
    );
    for place in [
        "shop.toml, line 13",
        "stock.csv, line 2",
        "rack.csv, line 2",
    ] {
        assert!(fault.what.contains(place), "{fault:?}");
    }
}

#[test]
fn other_headings_below_the_first_stop_the_list() {
    let files = Files {
        orders: text(
            "mark,count,opening,height,hand\nA1,1,12',6',left\n\nmark,opening,width\nA2,12',3\n",
        ),
        ..sound()
    };
    let fault = only_error(&files);
    assert_eq!((fault.file.as_str(), fault.line), ("orders.csv", Some(4)));
    assert!(fault.what.contains("other headings"), "{fault:?}");
    let mut other = read(&files).expect_err("refused");
    other.retain(|f| f.severity != Severity::Note);
    assert_eq!(other.len(), 1, "{other:?}");
}

#[test]
fn trims_over_every_joint_are_a_setting_at_fault() {
    let files = Files {
        rack: text(RACK),
        ..shop_with("saw", "hold_back = \"22 ft\"")
    };
    let fault = only_error(&files);
    let place = (fault.file.as_str(), fault.column.as_deref());
    assert_eq!(place, ("shop.toml", Some("saw.hold_back")));
    assert!(fault.what.contains("eat every joint"), "{fault:?}");
}

#[test]
fn marks_told_apart_by_signs_alone_are_warned_of() {
    let with = |second: &str| Files {
        orders: text(&format!(
            "mark,count,opening,height,hand\nG5-B2,1,12',6',left\n{second},1,12',6',left\n"
        )),
        ..sound()
    };
    let found = notices(&with("g5-b/2"));
    assert_eq!(found.len(), 1, "{found:?}");
    demand(
        &found[0],
        ("orders.csv", 3, "mark"),
        "g5-b/2",
        "easily taken",
    );
    assert_eq!(notices(&with("G5-B3")), []);
}
