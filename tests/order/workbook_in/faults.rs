//! What is said of a workbook's faults: sheet and cell, value, what is wrong, how to mend it.

use longpoint::order::{Fault, print_faults};

use super::world::Typed::{self, Day, Nothing, Number, Shown, Sum, Text};
use super::world::{book, errors, with};

const HEAD: &[Typed] = &[
    Text("mark"),
    Text("count"),
    Text("opening"),
    Text("height"),
    Text("hand"),
];

fn orders(rows: &[&[Typed]]) -> Vec<Fault> {
    let rows: Vec<&[Typed]> = [&[HEAD], rows].concat();
    errors(&with("orders.xlsx", book(&[("Week 12", &rows)])))
}

#[track_caller]
fn demand(fault: &Fault, cell: Option<&str>, value: Option<&str>, what: &str) {
    assert_eq!(fault.file, "orders.xlsx", "{fault:?}");
    assert_eq!(fault.sheet.as_deref(), Some("Week 12"), "{fault:?}");
    assert_eq!(fault.cell.as_deref(), cell, "{fault:?}");
    assert_eq!(fault.value.as_deref(), value, "{fault:?}");
    assert!(fault.what.contains(what), "{fault:?}");
    assert!(fault.mend.len() > 5, "{fault:?}");
}

#[test]
fn every_fault_names_its_cell() {
    let faults = orders(&[
        &[
            Text("A1"),
            Text("two"),
            Text("5-8"),
            Day(2026, 5, 16),
            Text("left"),
        ],
        &[
            Text("A2"),
            Number(1.5),
            Nothing,
            Sum("=1/0", "#DIV/0!"),
            Text("lift"),
        ],
    ]);
    let [count, opening, date, half, none, failed, hand] = faults.as_slice() else {
        panic!("{}", print_faults(&faults));
    };
    demand(count, Some("B2"), Some("two"), "");
    demand(opening, Some("C2"), Some("5-8"), "");
    demand(date, Some("D2"), Some("2026-05-16"), "date");
    demand(half, Some("B3"), Some("1.5"), "");
    demand(none, Some("C3"), None, "missing");
    demand(failed, Some("D3"), Some("#DIV/0!"), "could not work");
    demand(hand, Some("E3"), Some("lift"), "no hand");
    let said = print_faults(&faults);
    assert!(
        said.contains("orders.xlsx, sheet Week 12, cell C2, opening: error:"),
        "{said}"
    );
}

#[test]
fn a_bare_number_follows_the_shops_units_and_a_shown_unit_counts() {
    // 12 in of opening is past all sense; 12 shown as feet is not.
    let row = |opening| [Text("A1"), Number(1.0), opening, Text("6'"), Text("left")];
    demand(&orders(&[&row(Number(2.0))])[0], Some("C2"), Some("2"), "");
    let shown = row(Shown(12.0, "0.00\\ \\f\\t"));
    let rows: &[&[Typed]] = &[HEAD, &shown];
    let read = super::world::week(&with("orders.xlsx", book(&[("Week 12", rows)])));
    assert_eq!(read.gates[0].opening, longpoint::measure::Length::FOOT * 12);
}

#[test]
fn headings_are_judged_by_their_cell_too() {
    let rows: &[&[Typed]] = &[
        &[
            Text("mark"),
            Text("count"),
            Text("opning"),
            Text("height"),
            Text("hand"),
        ],
        &[
            Text("A1"),
            Number(1.0),
            Text("12'"),
            Text("6'"),
            Text("left"),
            Text("stray"),
        ],
    ];
    let faults = errors(&with("orders.xlsx", book(&[("Week 12", rows)])));
    let [unknown, missing, stray] = faults.as_slice() else {
        panic!("{}", print_faults(&faults));
    };
    demand(unknown, Some("C1"), None, "not a column");
    demand(missing, None, None, "opening is missing");
    demand(
        stray,
        Some("F2"),
        Some("stray"),
        "right of the last named column",
    );
}

#[test]
fn which_sheet_is_meant_must_be_plain() {
    let row: &[Typed] = &[
        Text("A1"),
        Number(1.0),
        Text("12'"),
        Text("6'"),
        Text("left"),
    ];
    let rows: &[&[Typed]] = &[HEAD, row];
    let two = errors(&with(
        "orders.xlsx",
        book(&[("Week 11", rows), ("Week 12", rows)]),
    ));
    assert_eq!(two.len(), 1, "{two:?}");
    assert!(
        two[0].what.contains("\"Week 11\" and \"Week 12\""),
        "{two:?}"
    );
    assert!(two[0].mend.contains("orders"), "{two:?}");
    let none: &[&[Typed]] = &[&[Text("nothing of the kind")]];
    let none = errors(&with("orders.xlsx", book(&[("Week 12", none)])));
    demand(
        &none[0],
        None,
        Some("nothing of the kind"),
        "names the columns",
    );
    let empty = errors(&with("orders.xlsx", book(&[("Week 12", &[])])));
    assert!(empty[0].what.contains("empty"), "{empty:?}");
}

#[test]
fn a_workbook_under_a_texts_name_and_a_text_under_a_workbooks_are_told_apart() {
    let rows: &[&[Typed]] = &[HEAD];
    let text = errors(&with("orders.csv", book(&[("Week 12", rows)])));
    assert!(text[0].mend.contains(".xlsx"), "{text:?}");
    let book = errors(&with(
        "orders.xlsx",
        b"mark,count,opening,height\n".to_vec(),
    ));
    assert!(book[0].mend.contains(".csv"), "{book:?}");
}
