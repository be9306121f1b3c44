//! What is said and goes on.

use super::world::{SHOP, demand, notices, order, read, read_on};
use longpoint::order::Severity;

#[test]
fn a_count_of_zero_is_kept_and_noted() {
    let files = order(
        "mark,count,opening,height,hand",
        "A1,0,12',6',l\nA2,1,12',6',r",
    );
    let week = read(&files).expect("read");
    assert_eq!((week.gates.len(), week.gates[0].count), (2, 0));
    demand(
        &week.notices[0],
        ("orders.csv", 2, "count"),
        "0",
        "does nothing",
    );
}

#[test]
fn warnings_do_not_fire_at_equality() {
    let head = "hand,mark,count,opening,height,tail,sway";
    let said = |row: &str| notices(&order(head, &format!("left,{row}"))).len();
    assert_eq!(said("A1,1,25',6',,"), 0);
    assert_eq!(said("A1,1,25.01',6',,"), 1);
    assert_eq!(said("A1,1,25.01',6',,yes"), 0);
    assert_eq!(said("A1,1,30',6',,yes"), 0);
    assert_eq!(said("A1,1,30.01',6',,yes"), 1);
    assert_eq!(said("A1,1,30',6',,"), 1);
    assert_eq!(
        said("A1,1,30.01',6',,"),
        2,
        "a brace is expected, and a review"
    );
    assert_eq!(said("A1,1,20',6',8',"), 0, "a tail of just 40 %");
    assert_eq!(said("A1,1,20',6',7.99',"), 1);
}

/// Late is said, not refused: what is on the rack may still serve the gate. `--date` is an order date too.
#[test]
fn a_gate_due_before_the_order_date_is_said() {
    let said = |settings: &str, date: Option<&str>, due: &str| {
        let rows = format!("A1,1,12',6',l,{due}\nA2,0,12',6',l,2020-01-01");
        let mut files = order("mark,count,opening,height,hand,due", &rows);
        files.shop = Some(format!("{SHOP}[buying]\n{settings}\n").into_bytes());
        let week = read_on(&files, date.map(|d| d.parse().expect("a day")));
        let mut said = week.expect("read").notices;
        said.retain(|fault| fault.severity == Severity::Warning);
        said
    };
    let place = ("orders.csv", 2, "due");
    let set = "order_date = 2026-03-02";
    assert_eq!(said(set, None, "2026-03-02"), []);
    let late = said(set, None, "2026-03-01");
    assert_eq!(late.len(), 1, "a row of no gates is late for nobody");
    let words = "before the order date 2026-03-02";
    demand(&late[0], place, "2026-03-01", words);
    let late = said("shop_days = 0", Some("2026-03-02"), "2026-03-01");
    demand(&late[0], place, "2026-03-01", words);
    let slow = "shop_days = 3";
    assert_eq!(said(slow, Some("2026-03-02"), "2026-03-05"), []);
    let late = said(slow, Some("2026-03-02"), "2026-03-04");
    demand(&late[0], place, "2026-03-04", "less 3 shop days");
}

#[test]
fn a_missing_hand_is_said_once_per_place() {
    let none = notices(&order("mark,count,opening,height", "A1,1,12',6'"));
    demand(&none[0], ("orders.csv", 1, "hand"), "", "no column hand");
    let empty = notices(&order("mark,count,opening,height,hand", "A1,1,12',6',"));
    demand(&empty[0], ("orders.csv", 2, "hand"), "", "no hand is given");
    assert_eq!((none.len(), empty.len()), (1, 1));
}

#[test]
fn price_basis_is_converted_exactly() {
    let stock = |row: &str| super::world::Files {
        stock: Some(format!("pipe,length,price,per\n{row}\n").into_bytes()),
        ..super::world::sound()
    };
    let price = |row: &str| {
        let week = read(&stock(row)).expect(row);
        let quote = &week.quotes[0];
        (
            quote.price.expect("priced").0.to_string(),
            quote.quoted_words(),
        )
    };
    let is = |p: &str, q: &str| (p.to_owned(), q.to_owned());
    assert_eq!(price("H,21 ft,3.48,foot"), is("73.08", "3.48 / foot"));
    assert_eq!(price("H,21 ft,$73.08,each"), is("73.08", "73.08 / joint"));
    assert_eq!(price("H,6 m,\"5,90\",m"), is("35.4", "5.90 / metre"));
    assert_eq!(price("H,10 ft,1,metre"), is("3.048", "1 / metre"));
}
