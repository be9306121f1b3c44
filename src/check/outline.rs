//! `Outline`: one gate by the judge's own short arithmetic, straight from the order (DESIGN §5).
//! Ticks; x from the outside face of the latch end's post toward the tail.

use crate::measure::INCH;
use crate::order::{Bays, GateOrder, Lean, Variant, Week};

/// The lines of one gate.
#[derive(Clone, Debug)]
pub(super) struct Outline {
    /// Leaf overall.
    pub(super) leaf: f64,
    /// Outside to outside of the horizontals.
    pub(super) height: f64,
    /// Between the horizontals' axes.
    pub(super) axis_height: f64,
    /// Post past the top horizontal's outside face.
    pub(super) rise: f64,
    /// Post past the bottom horizontal's outside face.
    pub(super) drop: f64,
    /// Bay lines 0..=n.
    pub(super) bay_lines: Vec<f64>,
    /// Roller axes seen on the leaf: front closed, front open, rear closed, rear open.
    pub(super) rollers: [f64; 4],
    /// Corner to corner.
    pub(super) check_measure: f64,
    /// Variant.
    pub(super) variant: Variant,
    /// Lean.
    pub(super) lean: Lean,
}

/// Millionths of an inch: strict limits compare after this rounding.
fn millionths(x: f64) -> f64 {
    (x / INCH * 1e6).round()
}

/// Whether a bay is strictly under both limits.
pub(super) fn bay_within(bay: f64, limit: f64, axis_height: f64) -> bool {
    millionths(bay) < millionths(limit) && millionths(bay) < millionths(axis_height)
}

/// Largest number of bays ever laid out; more is a spoiled order.
const MOST_BAYS: u32 = 100_000;

impl Outline {
    /// The outline of one order; `None` when no number of bays meets the limits.
    pub(super) fn of(week: &Week, order: &GateOrder) -> Option<Outline> {
        let gate = &week.shop.gate;
        let od = |pipe| week.pipe(pipe).diameter();
        let height = order.height.geometric();
        let axis_height = height - od(order.pipes.horizontal);
        let first = od(order.pipes.latch_post) / 2.0;
        let last = order.leaf - od(order.pipes.tail_post) / 2.0;
        let bay_lines = bay_lines(week, order, first, last, axis_height)?;
        let barbed = gate.barbed_pitch.geometric() * f64::from(order.barbed);
        let rise = gate.stop_rise.geometric().max(barbed);
        // *Through*: nothing below the bottom horizontal.
        let (drop, upright) = match gate.variant {
            Variant::PostsRunPast => {
                let drop = gate.post_drop.geometric();
                (drop, height + rise + drop)
            }
            Variant::Through => (0.0, height),
        };
        Some(Outline {
            leaf: order.leaf,
            height,
            axis_height,
            rise,
            drop,
            bay_lines,
            rollers: rollers(week, order),
            check_measure: order.leaf.hypot(upright),
            variant: gate.variant,
            lean: gate.lean,
        })
    }

    /// Number of bays.
    pub(super) fn bays(&self) -> usize {
        self.bay_lines.len().saturating_sub(1)
    }

    /// Latch-side and tail-side bay line of bay 1..n.
    pub(super) fn bay(&self, bay: usize) -> Option<(f64, f64)> {
        let from = self.bay_lines.get(bay.checked_sub(1)?)?;
        Some((*from, *self.bay_lines.get(bay)?))
    }

    /// Angle of a bay's diagonal from the horizontal, both landings moved in by `offset`.
    pub(super) fn alpha(&self, bay: usize, offset: f64) -> f64 {
        let (from, to) = self.bay(bay).unwrap_or((0.0, 0.0));
        self.axis_height.atan2(to - from - 2.0 * offset)
    }
}

fn bay_lines(
    week: &Week,
    order: &GateOrder,
    first: f64,
    last: f64,
    axis_height: f64,
) -> Option<Vec<f64>> {
    let limit = week.shop.gate.bay_limit.geometric();
    let span = last - first;
    let equal = |n: u32| -> Vec<f64> {
        (0..=n)
            .map(|i| first + span * f64::from(i) / f64::from(n))
            .collect()
    };
    match &order.bays {
        Bays::Least => (1..MOST_BAYS)
            .find(|&n| bay_within(span / f64::from(n), limit, axis_height))
            .map(equal),
        Bays::Count(n) => (1..MOST_BAYS).contains(n).then(|| equal(*n)),
        Bays::Fixed(fixed) => {
            let mut lines = vec![first];
            for end in fixed.iter().map(|l| l.geometric()).chain([last]) {
                let start = *lines.last()?;
                let n = (1..MOST_BAYS)
                    .find(|&n| bay_within((end - start) / f64::from(n), limit, axis_height))?;
                let inner = (1..n).map(|i| start + (end - start) * f64::from(i) / f64::from(n));
                lines.extend(inner.chain([end]));
            }
            Some(lines)
        }
        Bays::Lines(lines) => {
            let inner = lines.iter().map(|l| l.geometric());
            Some(
                std::iter::once(first)
                    .chain(inner)
                    .chain(std::iter::once(last))
                    .collect(),
            )
        }
    }
}

fn rollers(week: &Week, order: &GateOrder) -> [f64; 4] {
    let opening = order.opening.geometric();
    // What the order says, else the shop, else the front axis stands in line with the front roller support's face.
    let said = [order.rolling.lead, week.shop.gate.lead];
    let open = match said.into_iter().flatten().next() {
        Some(lead) => lead.geometric(),
        None => order.latch_overlap.geometric(),
    };
    let closed = opening + open;
    let spacing = match order.rolling.spacing {
        Some(s) => s.geometric(),
        None => {
            let fraction = week.shop.gate.roller_spacing;
            let fraction = rust_decimal::prelude::ToPrimitive::to_f64(&fraction);
            fraction.unwrap_or(f64::NAN) * (order.leaf - opening)
        }
    };
    [closed, open, closed + spacing, open + spacing]
}
