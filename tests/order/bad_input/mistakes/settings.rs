//! shop.toml: sizes in the wrong unit, pipe that no mill rolls.

use super::mistakes;
use crate::bad_input::world::{Files, SHOP, shop_with, sound};

/// One more pipe, its name in line 19.
fn pipe(text: &str) -> Files {
    Files {
        shop: Some(format!("{SHOP}[[pipe]]\nname = \"X\"\n{text}\n").into_bytes()),
        ..sound()
    }
}

mistakes! {
    a_wall_of_foil: pipe("od = 2.375\nwall = 0.0001") =>
        Error ValueOutOfRange, "shop.toml" 21 "pipe.wall", "0.0001", "no pipe is that thin", "write the true wall";
    a_wall_of_sheet: pipe("od = 2.25\nwall = 0.040") =>
        Warning ValueUnusual, "shop.toml" 21 "pipe.wall", "0.040", "usual is 0'-0 3/64\"", "the true size";
    a_wall_in_sixteenths: pipe("od = 2.375\nwall = 1.54") =>
        Error ValueOutOfRange, "shop.toml" 21 "pipe.wall", "1.54", "half the OD", "wall 0.154";
    an_od_in_millimetres: pipe("od = 60.3\nwall = 3.91") =>
        Error ValueOutOfRange, "shop.toml" 20 "pipe.od", "60.3", "over zero and under a metre", "true size";
    an_od_of_a_main: pipe("od = 12.75\nwall = 0.375") =>
        Warning ValueUnusual, "shop.toml" 20 "pipe.od", "12.75", "usual is", "the true size";
    a_yield_in_ksi: pipe("od = 2.25\nwall = 0.10\nyield_strength = 50") =>
        Warning ValueUnusual, "shop.toml" 22 "pipe.yield_strength", "50", "usual is 20000 to 120000", "correct it";
    a_trim_of_half_the_joint: shop_with("saw", "near_trim = \"10 ft\"") =>
        Error ValueOutOfRange, "shop.toml" 19 "saw.near_trim", "10 ft", "a trim only squares the end", "hold_back";
    a_trim_of_six_inches: shop_with("saw", "far_trim = 6") =>
        Warning ValueUnusual, "shop.toml" 19 "saw.far_trim", "6", "usual is 0'-0\" to 0'-2\"", "correct it";
    a_kerf_of_half_an_inch: shop_with("saw", "kerf = 0.5") =>
        Warning ValueUnusual, "shop.toml" 19 "saw.kerf", "0.5", "usual is", "correct it";
    a_saw_mark_of_half_an_inch: shop_with("saw", "mark = \"1/2 in\"") =>
        Warning ValueUnusual, "shop.toml" 19 "saw.mark", "1/2 in", "usual is", "correct it";
    a_hold_back_of_feet: shop_with("saw", "hold_back = \"5 ft\"") =>
        Warning ValueUnusual, "shop.toml" 19 "saw.hold_back", "5 ft", "usual is 0'-0\" to 3'-0\"", "correct it";
    a_tape_of_inches: shop_with("saw", "tape = 25") =>
        Warning ValueUnusual, "shop.toml" 19 "saw.tape", "25", "usual is 10'-0\"", "correct it";
    a_bay_limit_in_feet: shop_with("gate", "bay_limit = 5") =>
        Warning ValueUnusual, "shop.toml" 12 "gate.bay_limit", "5", "usual is 2'-0\" to 10'-0\"", "correct it";
    a_keep_length_in_feet: shop_with("money", "keep_length = 3") =>
        Warning ValueUnusual, "shop.toml" 19 "money.keep_length", "3", "usual is 0'-6\"", "correct it";
    a_root_gap_of_an_inch: shop_with("splice", "root_gap = 1") =>
        Warning ValueUnusual, "shop.toml" 17 "splice.root_gap", "1", "usual is", "correct it";
    a_tail_of_percent: shop_with("gate", "tail_fraction = 5") =>
        Warning ValueUnusual, "shop.toml" 12 "gate.tail_fraction", "5", "usual is 0.3 to 1", "correct it";
    minutes_of_an_hour_a_cut: shop_with("minutes", "cut = 60") =>
        Warning ValueUnusual, "shop.toml" 19 "minutes.cut", "60", "usual is 0 to 20", "correct it";
    a_splice_dearer_than_a_truck:
        Files { shop: Some(SHOP.replace("cost = 40", "cost = 4000").into_bytes()), ..sound() } =>
        Warning ValueUnusual, "shop.toml" 17 "splice.cost", "4000", "the price of 55 of the dearest joints", "correct it";
    a_splice_for_nothing:
        Files { shop: Some(SHOP.replace("cost = 40", "cost = 0").into_bytes()), ..sound() } =>
        Warning ValueUnusual, "shop.toml" 17 "splice.cost", "0", "a splice for nothing", "correct it";
}
