//! What is said and goes on.

use crate::world::{demand, notices, order, read, shop_with};

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
    assert_eq!(said("A1,1,20',6',8',"), 0, "a tail of just 40 %");
    assert_eq!(said("A1,1,20',6',7.99',"), 1);
}

#[test]
fn a_gate_due_before_the_order_date_is_said() {
    let said = |due: &str| {
        let files = crate::world::Files {
            shop: shop_with("buying", "order_date = 2026-03-02").shop,
            ..order(
                "mark,count,opening,height,hand,due",
                &format!("A1,1,12',6',l,{due}"),
            )
        };
        notices(&files)
    };
    assert_eq!(said("2026-03-02").len(), 0);
    demand(
        &said("2026-03-01")[0],
        ("orders.csv", 2, "due"),
        "2026-03-01",
        "before the order date 2026-03-02",
    );
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
    let stock = |row: &str| crate::world::Files {
        stock: Some(format!("pipe,length,price,per\n{row}\n").into_bytes()),
        ..crate::world::sound()
    };
    let price = |row: &str| {
        let week = read(&stock(row)).expect(row);
        let quote = &week.quotes[0];
        (
            quote.price.expect("priced").0.to_string(),
            quote.quoted.clone(),
        )
    };
    let is = |p: &str, q: &str| (p.to_owned(), q.to_owned());
    assert_eq!(price("H,21 ft,3.48,foot"), is("73.08", "3.48 / foot"));
    assert_eq!(price("H,21 ft,$73.08,each"), is("73.08", "73.08 / joint"));
    assert_eq!(price("H,6 m,\"5,90\",m"), is("35.4", "5.90 / metre"));
    assert_eq!(price("H,10 ft,1,metre"), is("3.048", "1 / metre"));
}
