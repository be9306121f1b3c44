//! What is taken for a length, what is refused, and what it comes to.

use super::*;

fn inches(text: &str) -> f64 {
    parse_length(text, None).expect(text).length.inches()
}

#[test]
fn takes_every_plain_form() {
    for text in [
        "10'-6 1/2\"",
        "10' 6-1/2\"",
        "10'6 1/2",
        "10ft 6.5in",
        "10 ft. 6,5 in.",
        "126 1/2 in",
        "126-1/2\"",
        "10’ – 6½”",
        "10′6½″",
        "10' 6 1/2''",
        "10 FEET 6.50 inches",
    ] {
        assert_eq!(inches(text), 126.5, "{text}");
    }
    assert_eq!(inches("5/8\""), 0.625);
    assert_eq!(inches("10.5'"), 126.0);
    let mm = |t| parse_length(t, None).expect(t).length;
    assert_eq!(mm("3213 mm"), Length::from_mm(3213));
    assert_eq!(mm("3.213 m"), Length::from_mm(3213));
    assert_eq!(mm("3 m 21 cm"), Length::from_mm(3210));
    assert_eq!(mm("1,234.5 mm").ticks(), 1234 * 320 + 160);
    assert_eq!(mm("-4\""), -Length::INCH * 4);
    // Digits grouped by spaces, thin or not (ISO 80000-1, 7.3.1, from memory).
    for text in ["1 800 mm", "1\u{a0}800 mm", "1\u{2009}800,0 mm"] {
        assert_eq!(mm(text), Length::from_mm(1800), "{text}");
    }
    assert_eq!(mm("1 234 567 mm"), Length::from_mm(1_234_567));
}

#[test]
fn refuses_what_two_people_read_differently() {
    for text in [
        "5-8",
        "5 8\"",
        "6.3",
        "20.11",
        "3,213 m",
        "61/2\"",
        "5-8 1/2",
        "1 80 mm",
        "0 800 mm",
        "1800 200 mm",
    ] {
        assert!(parse_length(text, None).is_err(), "{text}");
    }
    for (text, says, mend) in [
        (
            "5-8",
            "5 ft 8 in, or 5/8 in",
            "5'-8\" for feet and inches, or 5/8\"",
        ),
        (
            "14-6",
            "14 ft 6 in, or 14 in and a part",
            "14'-6\" for feet and inches, or the inches",
        ),
        ("14-6-1/2", "14 ft 6 1/2 in", "14'-6 1/2\""),
    ] {
        let refused = parse_length(text, Some(Unit::Inch)).expect_err(text);
        assert!(
            refused.what.contains(says) && refused.mend.contains(mend),
            "{refused:?}"
        );
    }
    for text in ["5-8", "20.11", "20.10", "5 8"] {
        let fault = parse_length(text, Some(Unit::Inch)).expect_err(text);
        assert!(fault.mend.contains("'-"), "{text}: {fault:?}");
    }
    // A wall or a kerf has no feet to be taken for.
    for text in ["0.10", "0.11"] {
        let read = parse_length(text, Some(Unit::Inch)).map(|l| l.exact.value.to_string());
        assert_eq!(read.as_deref(), Ok(text));
    }
    assert!(parse_length("20.11", Some(Unit::Mm)).is_ok());
    assert!(parse_length("6.3", Some(Unit::Inch)).is_ok());
}

#[test]
fn refuses_nonsense_with_a_way_out() {
    for text in [
        "",
        " ",
        "nan",
        "inf",
        "1e3 mm",
        "abc",
        "'",
        "-",
        "10'-",
        "1..2 in",
        "1/3 in",
        "1/0 in",
        "6-May",
        "10' 6 mm",
        "1 2 3",
        "9999999999999999 mm",
        "10.5' 6\"",
        "0/8\"",
        "5/\"",
    ] {
        let fault = parse_length(text, Some(Unit::Inch)).expect_err(text);
        assert!(!fault.what.is_empty() && !fault.mend.is_empty(), "{text}");
    }
}

/// Nobody means feet in a metric shop: the fault does not speak of them.
#[test]
fn two_numbers_in_a_row_are_asked_about_in_the_shops_own_units() {
    for text in ["1 80", "1800 600", "1 8000", "1.5 800"] {
        let fault = parse_length(text, Some(Unit::Mm)).expect_err(text);
        assert!(!fault.what.contains("ft"), "{text}: {}", fault.what);
        assert!(fault.mend.contains("millimetres"), "{text}: {}", fault.mend);
    }
    let grouped = parse_length("1\u{202f}800", Some(Unit::Mm)).expect("one number");
    assert_eq!(grouped.length, Length::from_mm(1800));
}

#[test]
fn carries_and_doubts_aloud() {
    let carried = parse_length("5' 13\"", None).expect("read");
    assert_eq!(carried.length.inches(), 73.0);
    assert!(carried.warning.is_some());
    assert!(
        parse_length("20.11'", None)
            .expect("read")
            .warning
            .is_some()
    );
}

#[test]
fn rounds_by_name() {
    let third = parse_length("0.0001 in", None).expect("read");
    assert_eq!(third.length, Length::from_ticks(1));
    assert_eq!(third.down(), Length::ZERO);
    assert_eq!(third.up(), Length::from_ticks(1));
    assert_eq!(third.exact.value.to_string(), "0.0001");
}
