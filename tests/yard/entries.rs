//! Entries as lines of JSON.

use longpoint::yard::{Cut, Entry, FORM, Told};

use crate::world::{entry, inches, small};

#[test]
fn a_line_says_what_was_told_in_words() {
    let told = Told::Cut(Cut {
        joint: 28,
        to: Some(2),
        lengths: vec![(2, inches(60))],
        taken: None,
        floor: None,
    });
    let line = entry("e1", "week-1", told).to_line().expect("JSON");
    assert_eq!(
        line,
        "{\"form\":1,\"id\":\"e1\",\"at\":\"1970-01-01T00:00:00Z\",\"who\":\"foreman\",\"week\":\"week-1\",\
         \"told\":{\"cut\":{\"joint\":28,\"to\":2,\"lengths\":[[2,487680]]}}}"
    );
    let issued = entry("e2", "week-1", Told::Issued(Box::new(small())));
    let line = issued.to_line().expect("JSON");
    assert_eq!(Entry::from_line(&line), Ok(issued));
    assert!(!line.contains('\n'));
}

#[test]
fn what_is_no_entry_is_refused_and_a_newer_form_by_name() {
    let good = entry("e1", "week-1", Told::Closed {})
        .to_line()
        .expect("JSON");
    assert!(Entry::from_line(&good).is_ok());
    for bad in [
        "",
        "{}",
        "null",
        &good.replace("closed", "cloosed"),
        &good.replace("\"who\"", "\"whom\""),
        &good.replace("1970", "197O"),
    ] {
        assert!(Entry::from_line(bad).is_err(), "{bad}");
    }
    let newer = good.replace("\"form\":1", &format!("\"form\":{}", FORM + 1));
    for newer in [newer.clone(), newer.replace("closed", "melted")] {
        let why = Entry::from_line(&newer).expect_err("newer");
        assert!(why.contains("newer"), "{why}");
    }
}
