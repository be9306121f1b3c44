//! Prices: the wrong unit, a slipped point, a sign too many.

use super::{mistakes, stock};
use crate::bad_input::world::Files;

/// Two quotes of the horizontals' pipe, the second as given, and one of the verticals'.
fn second(length: &str, price: &str, per: &str) -> Files {
    stock(&format!(
        "pipe,supplier,length,price,per\nH,Ada,21 ft,3.48,foot\nH,Bob,{length},{price},{per}\nV,Ada,21 ft,2.62,foot\n"
    ))
}

/// One quote of the verticals' pipe as given beside one of the horizontals'.
fn lone(price: &str, per: &str) -> Files {
    stock(&format!(
        "pipe,length,price,per\nH,21 ft,3.48,foot\nV,21 ft,{price},{per}\n"
    ))
}

mistakes! {
    a_price_a_joint_under_foot: second("21 ft", "73.08", "foot") =>
        Error ValueOutOfRange, "stock.csv" 3 "price", "73.08", "21 times the 3.48 of line 2 for the same pipe", "write joint under per";
    a_price_a_foot_under_joint: second("21 ft", "3.48", "joint") =>
        Error ValueOutOfRange, "stock.csv" 3 "price", "3.48", "1/21 of the 3.48 of line 2", "if that is the price of one foot, write foot";
    a_point_left_out: second("21 ft", "$348", "foot") =>
        Error ValueOutOfRange, "stock.csv" 3 "price", "$348", "100 times the 3.48", "write 100 ft under per";
    a_point_one_place_left: second("40 ft", "9.32", "cwt") =>
        Error ValueOutOfRange, "stock.csv" 3 "price", "9.32", "of the 3.48 of line 2", "if the point slipped, write 93.2";
    a_price_a_hundred_feet_under_foot: second("40 ft", "351", "foot") =>
        Error ValueOutOfRange, "stock.csv" 3 "price", "351", "for the same pipe", "if that is the price of 100 ft, write 100 ft under per";
    a_price_a_pound_under_cwt: second("40 ft", "0.95", "cwt") =>
        Error ValueOutOfRange, "stock.csv" 3 "price", "0.95", "for the same pipe", "if that is the price of one pound, write lb under per";
    a_price_a_metre_under_foot: second("40 ft", "11.40", "foot") =>
        Warning ValueUnusual, "stock.csv" 3 "price", "11.40", "3.3 times the 3.48", "if that is the price of one metre, write metre";
    a_price_twice_the_others: second("40 ft", "7.20", "foot") =>
        Warning ValueUnusual, "stock.csv" 3 "price", "7.20", "2.1 times the 3.48", "leave it if it is meant";
    a_price_that_no_other_pipe_comes_near: lone("55.02", "foot") =>
        Error ValueOutOfRange, "stock.csv" 3 "price", "55.02", "a pound of it comes to 20.23", "write joint under per";
    a_price_the_point_of_which_slipped: lone("26.20", "foot") =>
        Warning ValueUnusual, "stock.csv" 3 "price", "26.20", "10 times the 0.95 of the other pipes", "if the point slipped, write 2.62";
    all_prices_a_joint_under_foot:
        stock("pipe,length,price,per\nH,21 ft,73.08,foot\nV,21 ft,55.02,foot\n") =>
        Warning ValueUnusual, "stock.csv" 3 "price", "55.02", "usual is 0.25 to 8.00", "write joint under per";
    a_ton_of_two_kinds: second("21 ft", "1900", "ton") =>
        Error ValueAmbiguous, "stock.csv" 3 "per", "ton", "2000 lb or as 1000 kg", "short ton";
    a_hundred_of_two_kinds: second("21 ft", "95", "C") =>
        Error ValueAmbiguous, "stock.csv" 3 "per", "C", "100 ft or as 100 lb", "write 100 ft or cwt";
    a_price_in_words: second("21 ft", "call", "foot") =>
        Error ValueUnreadable, "stock.csv" 3 "price", "call", "not a number", "such as 1.85";
    a_price_without_its_unit: second("21 ft", "3.48", "") =>
        Error ValueMissing, "stock.csv" 3 "per", "", "empty", "fill in the per";
    two_prices_in_one_cell: second("21 ft", "3.48/3.40", "foot") =>
        Error ValueUnreadable, "stock.csv" 3 "price", "3.48/3.40", "not a number", "such as 12.5";
    a_price_left_out_among_others: second("40 ft", "", "") =>
        Warning ValueMissing, "stock.csv" 3 "price", "", "the joint of 40'-0\" of H has no price", "fill in price and per";
    a_free_joint: second("21 ft", "0", "foot") =>
        Error ValueOutOfRange, "stock.csv" 3 "price", "0", "not a price", "leave it empty to plan by joints";
}

/// Sound price lists are not asked about: a third between suppliers, a break, pipes of several weights, each in the
/// unit its supplier quotes in.
#[test]
fn plain_price_lists_are_not_asked_about() {
    let files = stock(
        "pipe,supplier,length,price,per,from\nH,Ada,21 ft,3.48,LF,\nH,Bob,40 ft,4.60,ft,\nH,Bob,40 ft,4.20,ft,40\n\
         H,Cleo,21 ft,72,jt,\nH,Dan,20 ft,92.5,cwt,\nV,Ada,21 ft,262,100 ft,\nV,Bob,40 ft,0.99,lb,\nV,Dan,6 m,9.10,m,\n",
    );
    assert_eq!(crate::bad_input::world::notices(&files), []);
}
