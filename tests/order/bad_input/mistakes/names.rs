//! Marks and names: what cannot be seen, what looks alike, what is spelled otherwise in another file.

use super::{mistakes, orders, stock, suppliers};
use crate::bad_input::world::{Files, read};

/// Two gates of these marks.
fn marks(one: &str, other: &str) -> Files {
    orders(&format!(
        "mark,count,opening,height,hand\n{one},1,12',6',left\n{other},1,12',6',left\n"
    ))
}

/// Two quotes of these suppliers, and suppliers.csv of these lines.
fn quoted(one: &str, other: &str, terms: &str) -> Files {
    Files {
        suppliers: Some(terms.as_bytes().to_vec()),
        ..stock(&format!(
            "pipe,supplier,length,price,per\nH,{one},21 ft,3.48,foot\nV,{other},21 ft,2.62,foot\n"
        ))
    }
}

mistakes! {
    a_mark_of_nothing_to_see: marks("A1", "\u{3164}") =>
        Error ValueUnreadable, "orders.csv" 3 "mark", "\u{3164}", "cannot be seen (U+3164)", "type it again by hand";
    a_soft_hyphen_in_a_mark: marks("A1", "A\u{AD}1") =>
        Error ValueUnreadable, "orders.csv" 3 "mark", "A\u{AD}1", "cannot be seen (U+00AD)", "type it again by hand";
    a_mark_that_turns_the_text: marks("A1", "\u{202E}B1") =>
        Error ValueUnreadable, "orders.csv" 3 "mark", "\u{202E}B1", "U+202E", "type it again by hand";
    a_mark_in_other_letters: marks("A1", "\u{410}1") =>
        Error NamesAlike, "orders.csv" 3 "mark", "\u{410}1", "looks like \"A1\", in other letters", "type it again";
    the_letter_o_for_a_nought: marks("B0", "BO") =>
        Warning NamesAlike, "orders.csv" 3 "mark", "BO", "easily taken for each other", "not O and 0";
    a_mark_twice_in_other_spaces: marks("Yard 2", "yard  2") =>
        Error GivenTwice, "orders.csv" 3 "mark", "yard  2", "already used in orders.csv line 2", "a mark of its own";
    a_mark_told_apart_by_signs: marks("A-1", "A/1") =>
        Warning NamesAlike, "orders.csv" 3 "mark", "A/1", "easily taken for each other", "not by signs alone";
    a_mark_too_long_to_paint: marks("A1", "north yard by the old gas works") =>
        Error ValueOutOfRange, "orders.csv" 3 "mark", "north yard by the old gas works", "cannot be painted", "put the rest in the note";
    a_supplier_in_other_case: quoted("Harbor", "HARBOR", "supplier,freight\nHarbor,65\n") =>
        Note NamesAlike, "stock.csv" 3 "supplier", "HARBOR", "taken as \"Harbor\" of stock.csv line 2", "spell it alike";
    a_supplier_with_two_spaces: quoted("Harbor Pipe", "Harbor Pipe", "supplier,freight\nharbor  pipe,65\n") =>
        Note NamesAlike, "suppliers.csv" 2 "supplier", "harbor  pipe", "taken as \"Harbor Pipe\" of stock.csv line 2", "spell it alike";
    a_supplier_in_other_letters: quoted("Harbor", "\u{397}arbor", "supplier,freight\nHarbor,65\n") =>
        Error NamesAlike, "stock.csv" 3 "supplier", "\u{397}arbor", "looks like \"Harbor\" of stock.csv line 2", "in the letters of the other";
    a_zero_width_space_in_a_supplier: quoted("Harbor", "Har\u{200B}bor", "supplier,freight\nHarbor,65\n") =>
        Error ValueUnreadable, "stock.csv" 3 "supplier", "Har\u{200B}bor", "cannot be seen (U+200B)", "type it again by hand";
    a_quote_of_a_misspelled_supplier: quoted("Harbor Pipe", "Harbour Pipe", "supplier,freight\nHarbor Pipe,65\n") =>
        Error NameUnknown, "stock.csv" 3 "supplier", "Harbour Pipe", "its name is near \"Harbor Pipe\"", "his name alone will do";
    terms_of_a_misspelled_supplier: suppliers("supplier,freight\nHarbour Pipe,65\n") =>
        Error NameUnknown, "suppliers.csv" 2 "supplier", "Harbour Pipe", "no row of stock.csv", "did you mean \"Harbor Pipe\"?";
    terms_of_nobody: suppliers("supplier,freight\nRidge Steel,65\n") =>
        Warning NameUnknown, "suppliers.csv" 2 "supplier", "Ridge Steel", "its terms bind nothing", "nothing is bought of this supplier";
    a_pipe_by_a_slip: stock("pipe,length,price,per\nH,21 ft,3.48,foot\nW,21 ft,2.62,foot\n") =>
        Error NameUnknown, "stock.csv" 3 "pipe", "W", "not declared in shop.toml", "known here: H, V";
    a_column_by_a_slip: orders("mark,count,openning,opening,height,hand\nA1,1,,12',6',left\n") =>
        Error HeadingUnknown, "orders.csv" 1 "openning", "", "not a column", "did you mean \"opening\"?";
}

/// Names of one supplier are one in the plan too: his terms bind every quote of his.
#[test]
fn one_supplier_is_one_whatever_the_case() {
    let files = quoted(
        "Harbor  Pipe",
        "HARBOR PIPE",
        "supplier,freight\nharbor pipe,65\n",
    );
    let week = read(&files).expect("read");
    let names: Vec<&str> = week.quotes.iter().map(|q| q.supplier.as_str()).collect();
    assert_eq!(names, ["Harbor Pipe", "Harbor Pipe"]);
    assert_eq!(week.suppliers.len(), 1);
    // The first spelling, spaces single, is the name.
    assert!(week.supplier("Harbor Pipe").is_some());
}

/// A supplier of another name may do without terms.
#[test]
fn a_supplier_like_no_other_needs_no_terms() {
    let files = quoted(
        "Harbor Pipe",
        "Ridge Steel",
        "supplier,freight\nHarbor Pipe,65\n",
    );
    assert_eq!(crate::bad_input::world::notices(&files), []);
}
