//! Sizes of gates, racks and parts: swapped, slipped, or in the wrong unit.

use super::{gate, mistakes, orders, parts, rack, stock};

mistakes! {
    a_height_of_a_house: orders("mark,count,opening,height,hand\nA1,1,20',16',left\n") =>
        Warning ValueUnusual, "orders.csv" 2 "height", "16'", "usual is 3'-0\" to 12'-0\"", "leave it as it is if it is meant";
    opening_and_height_swapped: orders("mark,count,opening,height,hand\nA1,1,6',12',left\n") =>
        Warning ValueUnusual, "orders.csv" 2 "height", "12'", "are the two swapped?", "correct it";
    a_tail_as_long_as_a_leaf: gate("tail", "18'") =>
        Warning ValueUnusual, "orders.csv" 2 "tail", "18'", "over the opening, 12'-0\": usual is half of it", "correct it";
    an_overlap_of_feet: orders("mark,count,opening,height,hand,overlap\nA1,1,20',6',left,50 in\n") =>
        Warning ValueUnusual, "orders.csv" 2 "overlap", "50 in", "usual is 0'-0\" to 4'-0\"", "correct it";
    more_gates_than_a_week_has: orders("mark,count,opening,height,hand\nA1,144,12',6',left\n") =>
        Warning ValueUnusual, "orders.csv" 2 "count", "144", "144 gates of one row", "correct it";
    a_count_of_half: orders("mark,count,opening,height,hand\nA1,1/2,12',6',left\n") =>
        Error ValueUnreadable, "orders.csv" 2 "count", "1/2", "not a number", "whole number";
    more_strands_than_arms_hold: gate("barbed", "12") =>
        Warning ValueUnusual, "orders.csv" 2 "barbed", "12", "12 barbed strands", "correct it";
    feet_without_their_mark: orders("mark,count,opening,height,hand\nA1,1,20,6',left\n") =>
        Error ValueOutOfRange, "orders.csv" 2 "opening", "20", "too small to be meant", "write 20' for feet or 20\" for inches";
    feet_and_inches_with_a_dash: orders("mark,count,opening,height,hand\nA1,1,12-6,6',left\n") =>
        Error ValueAmbiguous, "orders.csv" 2 "opening", "12-6", "12 ft 6 in", "write 12'-6\"";
    a_lone_point: orders("mark,count,opening,height,hand\nA1,1,.,6',left\n") =>
        Error ValueUnreadable, "orders.csv" 2 "opening", ".", "not a number", "write digits";
    a_lone_foot_mark: gate("lead", ".'") =>
        Error ValueUnreadable, "orders.csv" 2 "lead", ".'", "not a number", "write digits";
    a_range: orders("mark,count,opening,height,hand\nA1,1,12' to 14',6',left\n") =>
        Error ValueUnreadable, "orders.csv" 2 "opening", "12' to 14'", "'to' is not a unit", "use ' or ft";
    a_size_to_be_measured: orders("mark,count,opening,height,hand\nA1,1,TBD,6',left\n") =>
        Error ValueUnreadable, "orders.csv" 2 "opening", "TBD", "not a length", "write digits";
    bay_lines_that_fall: gate("bay_lines", "9' | 4'") =>
        Error ValueOutOfRange, "orders.csv" 2 "bay_lines", "9' | 4'", "rise", "in order";
    a_bracket_beside_the_gate: gate("brackets", "6' | 90'") =>
        Error ValueOutOfRange, "orders.csv" 2 "brackets", "6' | 90'", "outside the leaf", "from the latch face";
    a_bay_line_by_a_word: gate("bay_lines", "8' | equal") =>
        Error ValueUnreadable, "orders.csv" 2 "bay_lines", "8' | equal", "not a length", "write digits";
    bay_lines_parted_by_a_decimal_comma: gate("bay_lines", "\"8,12' | even\"") =>
        Error ValueAmbiguous, "orders.csv" 2 "bay_lines", "8,12' | even", "decimal comma", "by bars";
    a_bay_line_without_its_unit: gate("bay_lines", "\"4, 9'\"") =>
        Error ValueAmbiguous, "orders.csv" 2 "bay_lines", "4, 9'", "4 has no unit", "the unit with every one";
    a_bracket_with_a_decimal_comma: gate("brackets", "\"5,2'\"") =>
        Error ValueAmbiguous, "orders.csv" 2 "brackets", "5,2'", "decimal comma", "with a point";
    a_rack_piece_in_the_wrong_unit: rack("tag,pipe,length\nR1,H,126'\n") =>
        Warning ValueUnusual, "rack.csv" 2 "length", "126'", "the longest joint on sale is 21'-0\"", "measure it again";
    a_rack_piece_longer_than_sold: rack("tag,pipe,length\nR1,H,24'\n") =>
        Warning ValueUnusual, "rack.csv" 2 "length", "24'", "the longest joint on sale is 21'-0\"", "check its unit";
    a_rack_piece_shorter_than_its_trims: rack("tag,pipe,length\nR1,H,1/4 in\n") =>
        Error ValueOutOfRange, "rack.csv" 2 "length", "1/4 in", "no longer than its trims", "scrap it";
    the_same_tag_on_two_pieces: rack("tag,pipe,length\nR1,H,9'\nr1,H,8'\n") =>
        Error GivenTwice, "rack.csv" 3 "tag", "r1", "already used in line 2", "a tag of its own";
    a_part_of_no_length: parts("mark,pipe,length,count\nP1,H,,4\n") =>
        Error ValueMissing, "parts.csv" 2 "length", "", "no length", "write its length";
    a_part_longer_than_any_joint: parts("mark,pipe,length,count\nP1,H,60',1\n") =>
        Warning ValueUnusual, "parts.csv" 2 "length", "60'", "usual is 0'-1\" to 45'-0\"", "correct it";
    a_joint_longer_than_a_truck: stock("pipe,length,price,per\nH,60 ft,3.48,foot\nV,21 ft,2.62,foot\n") =>
        Warning ValueUnusual, "stock.csv" 2 "length", "60 ft", "usual is 10'-0\" to 45'-0\"", "correct it";
    a_planning_length_of_half_a_joint:
        stock("pipe,length,planning,price,per\nH,21 ft,12 ft,3.48,foot\nV,21 ft,,2.62,foot\n") =>
        Warning ValueUnusual, "stock.csv" 2 "planning", "12 ft", "planned of a joint of 21'-0\"", "correct it";
    a_planning_length_over_the_joint:
        stock("pipe,length,planning,price,per\nH,21 ft,22 ft,3.48,foot\nV,21 ft,,2.62,foot\n") =>
        Error ValuesDisagree, "stock.csv" 2 "planning", "22 ft", "over the length", "leave it empty";
}

/// An opening over 60 ft is asked about beside what any wide opening is told.
#[test]
fn an_opening_that_one_leaf_does_not_span() {
    let files = orders("mark,count,opening,height,hand,sway\nA1,1,64',6',left,yes\n");
    let said = crate::bad_input::world::notices(&files);
    let odd = said
        .iter()
        .find(|f| f.what.contains("usual is 4'-0\" to 60'-0\""));
    let odd = odd.expect("asked about");
    assert_eq!(
        (odd.line, odd.column.as_deref()),
        (Some(2), Some("opening"))
    );
}
