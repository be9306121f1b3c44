//! What a row of orders.csv can get wrong.

use super::world::{Files, demand, notices, only_error, order, read, shop_with, sound};
use longpoint::order::print_faults;

#[test]
fn sizes_of_an_order_are_judged() {
    const HEADER: &str = "mark,count,opening,height,overlap,tail,leaf";
    let cases = [
        ("A1,1,0,6',,,", "opening", "0", "over zero"),
        ("A1,1,-12',6',,,", "opening", "-12'", "over zero"),
        ("A1,1,NaN,6',,,", "opening", "NaN", "not a length"),
        ("A1,1,inf,6',,,", "opening", "inf", "not a length"),
        ("A1,1,9000',6',,,", "opening", "9000'", "too large"),
        ("A1,1,201',6',,,", "opening", "201'", "too large"),
        ("A1,1,3658,6',,,", "opening", "3658", "too large"),
        ("A1,1,2000,6',,,", "opening", "2000", "less may be meant"),
        ("A1,1,12',1829,,,", "height", "1829", "too large"),
        ("A1,1,12,6',,,", "opening", "12", "too small"),
        ("A1,1,30,6',,,", "opening", "30", "no unit"),
        ("A1,1,5-8,6',,,", "opening", "5-8", "two ways"),
        ("A1,1,20.11,6',,,", "opening", "20.11", "20 ft 11 in"),
        ("A1,1,12' 3 mm,6',,,", "opening", "12' 3 mm", "mixed"),
        ("A1,1,twelve,6',,,", "opening", "twelve", "not a length"),
        ("A1,1,,6',,,", "opening", "", "missing"),
        ("A1,1,12',6,,,", "height", "6", "too small"),
        ("A1,1,12',0',,,", "height", "0'", "over zero"),
        ("A1,1,12',90',,,", "height", "90'", "too large"),
        ("A1,1,12',6',-1',,", "overlap", "-1'", "below zero"),
        ("A1,1,12',6',,0,", "tail", "0", "over zero"),
        ("A1,1,12',6',,-2 ft,", "tail", "-2 ft", "over zero"),
        ("A1,1,12',6',,5,", "tail", "5", "no unit"),
        ("A1,1,12',6',,,12'", "leaf", "12'", "nothing for the tail"),
        ("A1,1,12',6',1',6',20'", "leaf", "20'", "which is 19'-0\""),
    ];
    for (row, column, value, what) in cases {
        let fault = only_error(&order(HEADER, row));
        demand(&fault, ("orders.csv", 2, column), value, what);
    }
    // Millimetres without their mark in a shop of inches: both readings are offered.
    for row in ["A1,1,3658,6',,,", "A1,1,2000,6',,,", "A1,1,12',1829,,,"] {
        let mend = only_error(&order(HEADER, row)).mend;
        assert!(mend.contains("mm for millimetres"), "{mend}");
    }
}

/// A mend speaks of what is wrong: of the sign, or of the bound that was passed.
#[test]
fn the_mend_of_a_size_fits_its_fault() {
    let mend = |row: &str| {
        let head = "mark,count,opening,height,overlap,tail,leaf";
        only_error(&order(head, row)).mend
    };
    assert!(mend("A1,1,12',6',,-6',").contains("without a minus"));
    assert!(mend("A1,1,12',5 in,,,").contains("1'-0\" or more"));
    assert!(mend("A1,1,201',6',,,").contains("200'-0\" or less"));
}

#[test]
fn of_leaf_overlap_and_tail_any_two_fix_the_third() {
    const HEADER: &str = "mark,count,opening,height,overlap,tail,leaf";
    let cases = [
        ("A1,1,12',6',,,", 12.0, 72.0, 228.0),
        ("A1,1,12',6',,,19'", 12.0, 72.0, 228.0),
        ("A1,1,12',6',14\",,19'", 14.0, 70.0, 228.0),
        ("A1,1,12',6',,70\",19'", 14.0, 70.0, 228.0),
        ("A1,1,12',6',14\",70\",", 14.0, 70.0, 228.0),
        ("A1,1,12',6',14\",70\",19'", 14.0, 70.0, 228.0),
        ("A1,1,7',6',,,", 12.0, 48.0, 144.0),
    ];
    for (row, overlap, tail, leaf) in cases {
        let week = read(&order(HEADER, row)).expect(row);
        let g = &week.gates[0];
        assert_eq!(
            (g.latch_overlap + g.roller_overlap).inches(),
            overlap,
            "{row}"
        );
        assert_eq!(g.tail / 8128.0, tail, "{row}");
        assert_eq!(g.leaf / 8128.0, leaf, "{row}");
    }
}

#[test]
fn what_an_order_says_of_its_rollers_is_judged() {
    let head = "mark,count,opening,height,carrier,lead,fabric weight,load factor,high stress";
    let cases = [
        ("A1,1,12',6',side,,,,", "carrier", "side", "no horizontal"),
        ("A1,1,12',6',,90',,,", "lead", "90'", "too large"),
        ("A1,1,12',6',,8',,,", "lead", "8'", "past the tail end"),
        ("A1,1,12',6',,,-1,,", "fabric weight", "-1", "from 0 to 100"),
        (
            "A1,1,12',6',,,,0.01,",
            "load factor",
            "0.01",
            "from 0.1 to 10",
        ),
        (
            "A1,1,12',6',,,,,perhaps",
            "high stress",
            "perhaps",
            "neither yes nor no",
        ),
    ];
    for (row, column, value, what) in cases {
        let fault = only_error(&order(head, row));
        demand(&fault, ("orders.csv", 2, column), value, what);
    }
    let week = read(&order(head, "A1,1,12',6',Top,9\",0.5,1.2,yes")).expect("sound");
    let gate = &week.gates[0];
    assert_eq!(gate.carrier(&week.shop), longpoint::order::Carrier::Top);
    assert_eq!(gate.lead(&week.shop).inches(), 9.0);
    assert!(gate.high_stress);
    let week = read(&order(head, "A1,1,12',6',,,,,")).expect("sound");
    let gate = &week.gates[0];
    assert_eq!(gate.carrier(&week.shop), week.shop.gate.carrier);
    assert_eq!(gate.lead(&week.shop), gate.latch_overlap);
    assert!(!gate.high_stress);
}

/// The front roller's axis stands at the latch part of the overlap, open, and at opening + latch part, closed,
/// unless the order or the shop says a lead; common practice, no source.
#[test]
fn the_front_roller_follows_the_latch_part_of_the_overlap() {
    let head = "mark,count,opening,height,hand,overlap,lead";
    let cases = [
        ("", "A1,1,12',6',left,,", 6.0),
        ("", "A1,1,12',6',left,18\",", 9.0),
        ("latch_overlap = 9", "A1,1,12',6',left,,", 9.0),
        (
            "latch_overlap = 9\nroller_overlap = 3",
            "A1,1,12',6',left,16\",",
            12.0,
        ),
        ("", "A1,1,12',6',left,18\",11\"", 11.0),
        ("lead = 10", "A1,1,12',6',left,18\",", 10.0),
        ("lead = 10", "A1,1,12',6',left,18\",11\"", 11.0),
    ];
    for (settings, row, inches) in cases {
        let files = Files {
            shop: shop_with("gate", settings).shop,
            ..order(head, row)
        };
        let week = read(&files).expect(row);
        assert_eq!(week.notices, [], "{settings} {row}");
        let frame = longpoint::gate::build(&week, 0).expect(row);
        let opening = week.gates[0].opening.inches();
        let place = |ticks: f64| ticks / 8128.0;
        assert_eq!(place(frame.rollers.front_open), inches, "{row}");
        assert_eq!(place(frame.rollers.front_closed), opening + inches, "{row}");
    }
}

/// A lead under the latch part puts the axis inside the clear opening: said by its name, and planned all the same.
#[test]
fn a_roller_inside_the_clear_opening_is_warned_of() {
    let head = "mark,count,opening,height,hand,overlap,lead";
    let shop = |line: &str, row: &str| Files {
        shop: shop_with("gate", line).shop,
        ..order(head, row)
    };
    let cases = [
        (
            "",
            "A1,1,12',6',left,18\",6\"",
            "6\"",
            "by a lead of 0'-6\" the front roller's axis stands 0'-3\" inside",
        ),
        (
            "lead = 6",
            "A1,1,12',6',left,18\",",
            "",
            "by the shop's lead of 0'-6\"",
        ),
    ];
    for (line, row, value, words) in cases {
        let said = notices(&shop(line, row));
        assert_eq!(said.len(), 1, "{row}");
        assert_eq!(said[0].severity, longpoint::order::Severity::Warning);
        demand(&said[0], ("orders.csv", 2, "lead"), value, words);
        assert!(said[0].mend.contains("0'-9\" or more"), "{}", said[0].mend);
    }
    assert_eq!(notices(&shop("", "A1,1,12',6',left,18\",9\"")), []);
}

/// The rear roller by the shop's rule of thumb, 0.85 of leaf less opening, is asked about where it stands past the
/// tail end; one that the order puts there is refused.
#[test]
fn a_rear_roller_past_the_tail_end_is_asked_about() {
    let head = "mark,count,opening,height,hand,overlap,roller spacing";
    let said = notices(&order(head, "A1,1,8',6',left,30\","));
    assert_eq!(said.len(), 1);
    demand(
        &said[0],
        ("orders.csv", 2, "roller spacing"),
        "",
        "past the tail end",
    );
    assert_eq!(notices(&order(head, "A1,1,8',6',left,30\",5'")), []);
    let fault = only_error(&order(head, "A1,1,8',6',left,30\",6'"));
    demand(
        &fault,
        ("orders.csv", 2, "roller spacing"),
        "6'",
        "past the tail end",
    );
}

#[test]
fn the_side_a_hand_is_seen_from_is_read_and_judged() {
    use longpoint::order::SeenFrom::{Street, Yard};
    let head = "mark,count,opening,height,hand,seen from";
    for (side, wanted) in [("Street", Some(Street)), ("yard", Some(Yard)), ("", None)] {
        let week = read(&order(head, &format!("A1,1,12',6',left,{side}"))).expect(side);
        assert_eq!(week.gates[0].seen_from, wanted);
        assert_eq!(week.notices, []);
    }
    let fault = only_error(&order(head, "A1,1,12',6',left,front"));
    demand(&fault, ("orders.csv", 2, "seen from"), "front", "no side");
    assert!(fault.mend.contains("street or yard"));
}

#[test]
fn the_rest_of_an_order_row_is_judged() {
    let head = "mark,count,opening,height,hand,bays,bay lines,horizontal,due,barbed,kit,excluded bays,roller spacing";
    let cases = [
        ("A1,1.5,12',6',,,,,,,,,", "count", "1.5", "whole number"),
        ("A1,-1,12',6',,,,,,,,,", "count", "-1", "below zero"),
        ("A1,x,12',6',,,,,,,,,", "count", "x", "not a number"),
        ("A1,,12',6',,,,,,,,,", "count", "", "empty"),
        (
            "A1,999999999,12',6',,,,,,,,,",
            "count",
            "999999999",
            "at most 9999 gates",
        ),
        (",1,12',6',,,,,,,,,", "mark", "", "empty"),
        ("A1,1,12',6',up,,,,,,,,", "hand", "up", "no hand"),
        ("A1,1,12',6',,0,,,,,,,", "bays", "0", "from 1 to 200"),
        ("A1,1,12',6',,2.5,,,,,,,", "bays", "2.5", "whole number"),
        (
            "A1,1,12',6',,,9' | 4',,,,,,",
            "bay lines",
            "9' | 4'",
            "rise",
        ),
        (
            "A1,1,12',6',,,4' | 90',,,,,,",
            "bay lines",
            "4' | 90'",
            "inside the leaf",
        ),
        ("A1,1,12',6',,4,4',,,,,,", "bay lines", "4'", "both"),
        ("A1,1,12',6',,,,HH,,,,,", "horizontal", "HH", "not declared"),
        (
            "A1,1,12',6',,,,,3/4/2026,,,,",
            "due",
            "3/4/2026",
            "month first or day first",
        ),
        (
            "A1,1,12',6',,,,,2026-02-30,,,,",
            "due",
            "2026-02-30",
            "not a day",
        ),
        ("A1,1,12',6',,,,,soon,,,,", "due", "soon", "not a date"),
        ("A1,1,12',6',,,,,,99,,,", "barbed", "99", "barbed"),
        (
            "A1,1,12',6',,,,,,,maybe,,",
            "kit",
            "maybe",
            "neither yes nor no",
        ),
        (
            "A1,1,12',6',,,,,,,,0,",
            "excluded bays",
            "0",
            "no list of bays",
        ),
        (
            "A1,1,12',6',,,,,,,,,7'",
            "roller spacing",
            "7'",
            "past the tail end",
        ),
    ];
    for (row, column, value, what) in cases {
        let fault = only_error(&order(head, row));
        demand(&fault, ("orders.csv", 2, column), value, what);
    }
    let fault = only_error(&order(head, "A1,1,12',6',,,,Q9,,,,,"));
    assert!(fault.mend.contains("known here: H, V"), "{fault:?}");
}

#[test]
fn marks_are_unique_visible_and_short() {
    let head = "mark,count,opening,height";
    let dup = only_error(&order(head, "A1,1,12',6'\na1,1,12',6'"));
    demand(
        &dup,
        ("orders.csv", 3, "mark"),
        "a1",
        "already used in orders.csv line 2",
    );
    let copy = only_error(&order(head, "A1,2,12',6'\nA1.2,1,12',6'"));
    demand(&copy, ("orders.csv", 3, "mark"), "A1.2", "a copy of gate");
    let mut files = sound();
    files.parts = Some(b"mark,pipe,length,count\nA1-HT,H,5',1\n".to_vec());
    demand(
        &only_error(&files),
        ("parts.csv", 2, "mark"),
        "A1-HT",
        "a part of gate",
    );
    let long = "A".repeat(500);
    let fault = only_error(&order(head, &format!("{long},1,12',6'")));
    assert!(fault.what.contains("longer than"), "{fault:?}");
    assert!(
        print_faults(&[fault]).len() < 400,
        "long values are cut in print"
    );
    let fault = only_error(&order(head, "A\u{7}1,1,12',6'"));
    assert!(fault.what.contains("U+0007"), "{fault:?}");
    assert!(print_faults(&[fault]).contains("\\u{7}"));
    for mark in ["ворота", "門3", "Čtyři", "بوابة"] {
        let week = read(&order(head, &format!("{mark},1,12',6'"))).expect(mark);
        assert_eq!(week.gates[0].mark, mark);
    }
}
