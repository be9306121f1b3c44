//! What is worth a second look in one gate order: braces, review, barbed wire near the ground.

use super::faults::Faults;
use super::sheet::Cells;
use super::{GateOrder, Shop, WideOpening};
use crate::measure::Length;

/// Barbed wire belongs at least this far above grade (ASTM F2200 as quoted in operator manuals).
const BARBED_ABOVE_GRADE: Length = Length::from_64ths(72 * 64);

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
        faults.warn(&opening, &what, mend);
    }
    let Some(clearance) = shop.gate.clearance else {
        return;
    };
    if order.barbed > 0 && clearance + order.height < BARBED_ABOVE_GRADE {
        faults.warn(
            &cells.spot("barbed"),
            &format!(
                "the barbed wire starts {} above grade, under 6 ft",
                print(clearance + order.height)
            ),
            "raise the gate, or leave the wire off",
        );
    }
}
