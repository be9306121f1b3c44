//! What of the rack's work fits in a day, and faults of stock told together.

use std::fs;

use crate::run::{longpoint, place, text};

const SHOP: &str = "name = \"Little (invented)\"\nunits = \"inch\"\n[[pipe]]\nname = \"H\"\nod = 2.375\nwall = 0.154\n\
                    [minutes]\njoint = 20\ncut = 10\nday_hours = 2\n[saw]\nsaws = 2\n";

/// Ten joints of 12 ft, one part of 10 ft each: 20 minutes to handle and two cuts of 10 (common practice, no
/// source, for what a joint takes; the sums by hand), 40 each. Two saws cut five each, 200 minutes; of 120 three.
#[test]
fn a_day_holds_what_its_hours_hold() {
    let week = place("in-a-day").join("week");
    fs::create_dir_all(&week).unwrap();
    fs::write(week.join("shop.toml"), SHOP).unwrap();
    fs::write(week.join("stock.csv"), "pipe,length,price,per\n").unwrap();
    fs::write(
        week.join("parts.csv"),
        "mark,pipe,length,count\nP1,H,10',10\n",
    )
    .unwrap();
    fs::write(
        week.join("rack.csv"),
        "tag,pipe,length,count\nR1,H,12',10\n",
    )
    .unwrap();
    let ran = longpoint(&["cut-now", text(&week)]);
    assert_eq!(ran.code, 0, "nothing is passed over: {}", ran.err);
    let words = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("saw 1 3.3 h, saw 2 3.3 h; coping 0.0 h, splicing 0.0 h"),
        "{words}"
    );
    assert!(
        words.contains("A day of 2 h holds 6 of 10 joints;"),
        "{words}"
    );
}

#[test]
fn a_part_too_long_and_stock_that_runs_out_are_told_together() {
    let week = place("stock-together").join("week");
    fs::create_dir_all(&week).unwrap();
    fs::write(week.join("shop.toml"), SHOP).unwrap();
    fs::write(
        week.join("stock.csv"),
        "pipe,length,price,per,available\nH,21 ft,3.48,foot,1\n",
    )
    .unwrap();
    fs::write(
        week.join("parts.csv"),
        "mark,pipe,length,count\nP1,H,30',1\nP2,H,9',10\n",
    )
    .unwrap();
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    for mark in ["P1", "P2"] {
        assert!(ran.err.contains(mark), "{mark}: {}", ran.err);
    }
    assert!(ran.err.contains("2 errors"), "{}", ran.err);
}
