//! What is worth a second look in one gate order: braces, review, barbed wire near the ground.

use super::faults::Faults;
use super::sheet::Cells;
use super::usual;
use super::{GateOrder, Shop, WideOpening};
use crate::measure::{FaultCode, Length};

/// Barbed wire belongs at least this far above grade (ASTM F2200 as quoted in operator manuals).
const BARBED_ABOVE_GRADE: Length = Length::from_64ths(72 * 64);

/// Gates of one row that a week seldom has (common practice, no source).
const MANY_GATES: u32 = 100;
/// Barbed strands: three on one arm, six on two, eight where somebody insists (common practice, no source).
const MANY_STRANDS: u32 = 8;

/// Asks about what can be meant and seldom is: sizes that look swapped, a tail over the opening, very many.
pub(super) fn odd_notices(cells: &Cells<'_>, order: &GateOrder, shop: &Shop, faults: &mut Faults) {
    let print = |l: Length| l.print_with_unit(shop.units);
    if order.height > order.opening {
        faults.ask(
            &cells.spot("height"),
            &format!(
                "the height, {}, is over the opening, {}: are the two swapped?",
                print(order.height),
                print(order.opening)
            ),
            usual::MEND,
        );
    }
    if !order.tail_by_rule && order.tail > order.opening.geometric() {
        let name = if cells.text("tail").is_empty() {
            "leaf"
        } else {
            "tail"
        };
        faults.ask(
            &cells.spot(name),
            &format!(
                "the tail, {}, is over the opening, {}: usual is half of it",
                print(Length::nearest_tick(order.tail)),
                print(order.opening)
            ),
            usual::MEND,
        );
    }
    if order.count > MANY_GATES {
        let what = format!(
            "{} gates of one row: usual is up to {MANY_GATES}",
            order.count
        );
        faults.ask(&cells.spot("count"), &what, usual::MEND);
    }
    if order.barbed > MANY_STRANDS {
        let what = format!(
            "{} barbed strands: usual is up to {MANY_STRANDS}",
            order.barbed
        );
        faults.ask(&cells.spot("barbed"), &what, usual::MEND);
    }
}

/// Warns; never at equality.
pub(super) fn gate_notices(cells: &Cells<'_>, order: &GateOrder, shop: &Shop, faults: &mut Faults) {
    let print = |l: Length| l.print_with_unit(shop.units);
    let opening = cells.spot("opening");
    for asked in order.wide_opening(shop) {
        let (what, mend) = match asked {
            WideOpening::NoBrace => (
                format!(
                    "an opening over {} and no sway brace (common practice: braced)",
                    print(shop.sway.expected_over)
                ),
                "write yes in the column sway to add its pipe",
            ),
            WideOpening::Review => (
                format!(
                    "an opening over {}: engineer's review needed",
                    print(shop.sway.review_over)
                ),
                "have the gate sized by a licensed engineer",
            ),
        };
        faults.warn(FaultCode::Caution, &opening, &what, mend);
    }
    let Some(clearance) = shop.gate.clearance else {
        return;
    };
    if order.barbed > 0 && clearance + order.height < BARBED_ABOVE_GRADE {
        faults.warn(
            FaultCode::Caution,
            &cells.spot("barbed"),
            &format!(
                "the barbed wire starts {} above grade, under 6 ft",
                print(clearance + order.height)
            ),
            "raise the gate, or leave the wire off",
        );
    }
}
