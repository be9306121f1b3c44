//! Dates as spreadsheets write them, and the columns that a shop keeps of its own.

use super::mistakes;
use crate::bad_input::world::{Files, SHOP, notices, read, sound};

/// A gate with a due date in a shop that says how it writes dates.
fn due(order: &str, date: &str) -> Files {
    Files {
        orders: Some(
            format!("mark,count,opening,height,hand,due\nA1,1,12',6',left,{date}\n").into_bytes(),
        ),
        shop: Some(format!("date_order = \"{order}\"\n{SHOP}").into_bytes()),
        ..sound()
    }
}

/// A gate with a column, in a shop that declares these its own.
fn own(declared: &str, column: &str) -> Files {
    Files {
        orders: Some(
            format!("mark,count,opening,height,hand,{column}\nA1,1,12',6',left,RAL 6005\n")
                .into_bytes(),
        ),
        shop: Some(format!("extra_columns = [{declared}]\n{SHOP}").into_bytes()),
        ..sound()
    }
}

mistakes! {
    a_day_first_among_months_first: due("month first", "14/3/2026") =>
        Error ValueUnreadable, "orders.csv" 2 "due", "14/3/2026", "no month 14: dates are written month first here", "correct date_order";
    a_month_first_among_days_first: due("day first", "3/14/2026") =>
        Error ValueUnreadable, "orders.csv" 2 "due", "3/14/2026", "no month 14: dates are written day first here", "year-month-day";
    an_order_of_dates_by_a_slip: due("month frist", "2026-03-04") =>
        Error ValueUnreadable, "shop.toml" 1 "date_order", "month frist", "none of the words", "did you mean \"month first\"?";
    a_column_of_the_shops_own_undeclared: own("", "paint") =>
        Error HeadingUnknown, "orders.csv" 1 "paint", "", "not a column", "listed under extra_columns in shop.toml is printed";
    a_list_of_columns_that_is_none:
        Files { shop: Some(format!("extra_columns = \"paint\"\n{SHOP}").into_bytes()), ..sound() } =>
        Error ValueUnreadable, "shop.toml" 1 "extra_columns", "paint", "a list is wanted", "extra_columns = [";
}

#[test]
fn the_dates_of_a_spreadsheet_are_read_as_the_shop_says() {
    for (order, text) in [
        ("month first", "3/4/2026"),
        ("month first", "3/4/26"),
        ("day first", "4/3/2026"),
        ("day first", "4-Mar-26"),
    ] {
        let week = read(&due(order, text)).expect("read");
        let day = week.gates[0].due.map(|d| d.to_string());
        assert_eq!(day.as_deref(), Some("2026-03-04"), "{order} {text}");
    }
}

#[test]
fn what_a_gate_is_made_under_is_kept() {
    let files = Files {
        orders: Some(
            b"mark,count,opening,height,hand,Customer,Job #,PO,Ship To,paint\n\
              A1,1,12',6',left,Hill Farm (invented),4711,1.10,yard 2,RAL 6005\nA2,1,12',6',left,,,,,\n"
                .to_vec(),
        ),
        shop: Some(format!("extra_columns = [\"Paint\"]\n{SHOP}").into_bytes()),
        parts: Some(b"mark,pipe,length,count,job,paint\nP1,H,5',1,4712,black\n".to_vec()),
        ..sound()
    };
    let week = read(&files).expect("read");
    assert_eq!(
        week.gates[0].paperwork.line(),
        "Customer: Hill Farm (invented); Job: 4711; Purchase order: 1.10; Ship to: yard 2; Paint: RAL 6005"
    );
    assert!(week.gates[1].paperwork.none());
    assert_eq!(week.extras[0].paperwork.line(), "Job: 4712; Paint: black");
    assert_eq!(notices(&own("\"paint\"", "paint")), []);
}
