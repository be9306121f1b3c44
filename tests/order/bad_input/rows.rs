//! What rows of stock.csv, rack.csv and parts.csv can get wrong.

use super::world::{Files, demand, notices, only_error, shop_with, sound};
use longpoint::order::Severity;

#[test]
fn stock_rack_and_parts_are_judged() {
    let stock = |row: &str| Files {
        stock: Some(format!("pipe,length,planning,price,per,available\n{row}\n").into_bytes()),
        ..sound()
    };
    let cases = [
        ("H,21,,3,foot,", "length", "21", "no unit"),
        ("H,6,,3,foot,", "length", "6", "too small"),
        ("H,-21 ft,,3,foot,", "length", "-21 ft", "over zero"),
        ("H,,,3,foot,", "length", "", "no length"),
        (
            "H,21 ft,22 ft,3,foot,",
            "planning",
            "22 ft",
            "over the length",
        ),
        ("H,21 ft,,3,,", "per", "", "empty"),
        ("H,21 ft,,3,yard,", "per", "yard", "not what a price is for"),
        ("H,21 ft,,-3,foot,", "price", "-3", "below zero"),
        ("H,21 ft,,0,foot,", "price", "0", "not a price"),
        ("H,21 ft,,abc,foot,", "price", "abc", "not a number"),
        ("H,21 ft,,3,foot,1.5", "available", "1.5", "whole number"),
        ("Q,21 ft,,3,foot,", "pipe", "Q", "not declared"),
        (",21 ft,,3,foot,", "pipe", "", "empty"),
    ];
    for (row, column, value, what) in cases {
        demand(
            &only_error(&stock(row)),
            ("stock.csv", 2, column),
            value,
            what,
        );
    }
    let eaten = Files {
        shop: shop_with("saw", "hold_back = \"21 ft\"").shop,
        ..stock("H,21 ft,,3,foot,")
    };
    demand(
        &only_error(&eaten),
        ("stock.csv", 2, "length"),
        "21 ft",
        "eat the whole joint",
    );
    let note = &notices(&stock("H,21 ft,,,,"))[0];
    assert_eq!(note.severity, Severity::Note);
    demand(note, ("stock.csv", 2, "price"), "", "planned by joints");

    let rack = |row: &str| Files {
        rack: Some(format!("tag,pipe,length,count\n{row}\n").into_bytes()),
        ..sound()
    };
    demand(
        &only_error(&rack("R1,H,1/2 in,1")),
        ("rack.csv", 2, "length"),
        "1/2 in",
        "trims",
    );
    demand(
        &only_error(&rack("R1,H,9',1\nr1,H,8',1")),
        ("rack.csv", 3, "tag"),
        "r1",
        "already used",
    );
    demand(
        &notices(&rack("R1,H,21,1"))[0],
        ("rack.csv", 2, "length"),
        "21",
        "without a unit",
    );

    let parts = |row: &str| Files {
        parts: Some(format!("mark,pipe,length,count\n{row}\n").into_bytes()),
        ..sound()
    };
    demand(
        &only_error(&parts("P1,H,0,1")),
        ("parts.csv", 2, "length"),
        "0",
        "over zero",
    );
    demand(
        &only_error(&parts("P1,H,5',1/2")),
        ("parts.csv", 2, "count"),
        "1/2",
        "not a number",
    );
    demand(
        &only_error(&parts("a1,H,5',1")),
        ("parts.csv", 2, "mark"),
        "a1",
        "already used in orders.csv",
    );
}

#[test]
fn names_are_judged_as_names_and_counts_by_their_own_limit() {
    let stock = Files {
        stock: Some(b"pipe,supplier,length\nH,a supplier with a name of no end,21 ft\n".to_vec()),
        ..sound()
    };
    demand(
        &only_error(&stock),
        ("stock.csv", 2, "supplier"),
        "a supplier with a name of no end",
        "the name is longer than 24 characters",
    );
    for count in ["100000", "100001", "1000000000000"] {
        let parts = Files {
            parts: Some(format!("mark,pipe,length,count\nP1,H,5 ft,{count}\n").into_bytes()),
            ..sound()
        };
        demand(
            &only_error(&parts),
            ("parts.csv", 2, "count"),
            count,
            "at most 99999 parts",
        );
    }
}
