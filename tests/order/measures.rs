//! Lengths, numbers and amounts at their edges: the half that is rounded up, the mark of one tick, what is said of
//! what cannot be read. Common practice, no source.

use longpoint::measure::{Length, Unit, parse_length, parse_money};

fn ticks(text: &str) -> i64 {
    let read = parse_length(text, Some(Unit::Inch)).unwrap_or_else(|f| panic!("{text}: {f:?}"));
    read.length.ticks()
}

fn refused(text: &str, default: Unit) -> String {
    let fault = parse_length(text, Some(default)).expect_err(text);
    format!("{fault:?}")
}

/// An inch is 8,128 ticks; what lies between two is taken to the nearer, a half up.
#[test]
fn a_decimal_inch_is_read_to_the_nearest_tick() {
    // 6.5024, 6.4999 and 6.5 ticks (0.5 tick is 1/16256 in: 0.0625 in is 508 exactly).
    assert_eq!(ticks("0.0008\""), 7);
    assert_eq!(ticks("0.00079970\""), 6);
    assert_eq!(ticks("0.0625\""), 508);
    assert_eq!(ticks("0.07\""), 569);
}

#[test]
fn a_mark_of_one_tick_moves_no_length() {
    let tick = Length::from_ticks(1);
    for n in [-3, -1, 0, 1, 3, 8129] {
        let length = Length::from_ticks(n);
        for moved in [
            length.down_to(tick),
            length.up_to(tick),
            length.to_nearest(tick),
        ] {
            assert_eq!(moved, length);
        }
    }
    // A mark of nothing is taken for one tick, not divided by.
    let three = Length::from_ticks(3);
    assert_eq!(three.down_to(Length::ZERO), three);
    assert_eq!(three.up_to(Length::ZERO), three);
}

/// What a spreadsheet has made of 5/16 is called a date, whatever the month; no other word is.
#[test]
fn a_length_made_a_date_is_called_one() {
    for month in [
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
    ] {
        let said = refused(&format!("5-{month}"), Unit::Inch);
        assert!(said.contains("this is a date"), "{month}: {said}");
    }
    let said = refused("5 furlongs", Unit::Inch);
    assert!(said.contains("is not a unit"), "{said}");
}

/// 21/16 is one and five sixteenths or two and one sixteenth: both are written out.
#[test]
fn a_fraction_over_one_is_written_both_ways() {
    let said = refused("21/16\"", Unit::Inch);
    for words in ["21/16 can be read two ways", "write 1 5/16", "or 2 1/16"] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let said = refused("35/8\"", Unit::Inch);
    assert!(
        said.contains("write 4 3/8") && said.contains("or 3 5/8"),
        "{said}"
    );
}

/// Two numbers without a unit may be feet and inches, or a ruler's fraction: only where the second is one of a ruler's
/// and the first is less.
#[test]
fn a_pair_without_a_unit_is_a_fraction_only_of_a_ruler() {
    for (text, fraction) in [
        ("5-8", Some("5/8")),
        ("3-16", Some("3/16")),
        ("9-8", None),
        ("8-8", None),
        ("5-7", None),
        ("5 8", None),
        ("2 7", None),
    ] {
        let said = refused(text, Unit::Inch);
        match fraction {
            Some(f) => assert!(
                said.contains(&format!("{f}\\\" for the fraction")),
                "{said}"
            ),
            None => assert!(!said.contains("for the fraction"), "{text}: {said}"),
        }
    }
}

#[test]
fn an_amount_without_a_digit_is_no_number() {
    for text in ["", "$", "-", "$ .", "n/a", "$-"] {
        let said = parse_money(text).expect_err(text);
        let said = format!("{said:?}");
        assert!(said.contains("is not a number"), "{text}: {said}");
        assert!(
            said.contains("write an amount such as 1.85"),
            "{text}: {said}"
        );
    }
}
