//! Suppliers' terms: tax as a fraction, minimums and freights of a wrong place, dates.

use super::{mistakes, stock, suppliers};
use crate::bad_input::world::{Files, shop_with};

/// Quotes with one more column, on an order date.
fn dated(column: &str, cell: &str) -> Files {
    Files {
        shop: shop_with("buying", "order_date = 2026-03-02").shop,
        ..stock(&format!(
            "pipe,length,price,per,{column}\nH,21 ft,3.48,foot,{cell}\nV,21 ft,2.62,foot,\n"
        ))
    }
}

/// A quote of a banded joint.
fn lift(cells: &str) -> Files {
    stock(&format!(
        "pipe,length,price,per,lift,lift fee,part lift fee\nH,21 ft,3.48,foot,{cells}\nV,21 ft,2.62,foot,,,\n"
    ))
}

mistakes! {
    tax_as_a_fraction: suppliers("supplier,tax\nHarbor Pipe,0.0825\n") =>
        Error ValueAmbiguous, "suppliers.csv" 2 "tax", "0.0825", "8.25 % may be meant", "write 8.25, or 0.0825 % with its sign";
    tax_without_its_point: suppliers("supplier,tax\nHarbor Pipe,82.5\n") =>
        Warning ValueUnusual, "suppliers.csv" 2 "tax", "82.5", "usual is up to 27 %", "correct it";
    tax_over_everything: suppliers("supplier,tax\nHarbor Pipe,825\n") =>
        Error ValueOutOfRange, "suppliers.csv" 2 "tax", "825", "not a rate of tax", "such as 8.25";
    a_minimum_of_a_shipload: suppliers("supplier,minimum\nHarbor Pipe,1461380.76\n") =>
        Error ValueOutOfRange, "suppliers.csv" 2 "minimum", "1461380.76", "buys 19997 joints", "such as 250";
    a_minimum_of_a_truckload: suppliers("supplier,minimum\nHarbor Pipe,25000\n") =>
        Warning ValueUnusual, "suppliers.csv" 2 "minimum", "25000", "buys 343 joints", "correct it";
    a_freight_in_cents: suppliers("supplier,freight\nHarbor Pipe,8500\n") =>
        Warning ValueUnusual, "suppliers.csv" 2 "freight", "8500", "the price of 117 of his dearest joints", "correct it";
    freight_free_from_nowhere: suppliers("supplier,freight,free over\nHarbor Pipe,65,1500000\n") =>
        Warning ValueUnusual, "suppliers.csv" 2 "free over", "1500000", "no order comes to that", "correct it";
    a_negative_freight: suppliers("supplier,freight\nHarbor Pipe,-65\n") =>
        Error ValueOutOfRange, "suppliers.csv" 2 "freight", "-65", "below zero", "0 or more";
    a_freight_for_shorter_joints: suppliers("supplier,freight,up to\nHarbor Pipe,65,20 ft\n") =>
        Error ValuesDisagree, "suppliers.csv" 2 "freight", "65", "21'-0\" joints are on sale", "add a row";
    another_currency: suppliers("supplier,minimum\nHarbor Pipe,€250\n") =>
        Error ValuesDisagree, "suppliers.csv" 2 "minimum", "€250", "currencies cannot be mixed", "write the amount in $";
    a_fee_a_lift_for_many_joints: lift("7,900,") =>
        Warning ValueUnusual, "stock.csv" 2 "lift fee", "900", "the price of 13 joints", "correct it";
    a_lift_of_no_joints: lift("0,12,") =>
        Error ValueOutOfRange, "stock.csv" 2 "lift", "0", "no joints", "leave it empty";
    a_price_of_the_next_century: dated("valid until", "2126-03-31") =>
        Warning ValueUnusual, "stock.csv" 2 "valid_until", "2126-03-31", "over two years after the order date", "correct it";
    a_price_that_ran_out: dated("valid until", "2026-02-28") =>
        Warning DatePassed, "stock.csv" 2 "valid_until", "2026-02-28", "ran out", "ask for a new price";
    days_as_weeks: dated("lead days", "3 wks") =>
        Error ValueUnreadable, "stock.csv" 2 "lead days", "3 wks", "not a number", "whole number";
    days_over_a_year: dated("lead days", "2026") =>
        Error ValueOutOfRange, "stock.csv" 2 "lead days", "2026", "over a year", "such as 3";
    a_part_of_a_joint_to_be_had: dated("available", "12.5") =>
        Error ValueUnreadable, "stock.csv" 2 "available", "12.5", "not a whole number", "whole number";
}
