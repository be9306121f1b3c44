//! How one gate rolls and what hangs on it, as far as its order says; the rest by the shop.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

use super::faults::Faults;
use super::leaf::Leaf;
use super::sheet::Cells;
use super::shop::CARRIERS;
use super::{Carrier, GateOrder, Shop};
use crate::measure::{FaultCode, Length, Misread, parse_number};

/// What the order says of its rollers and loads; `None`: the shop's setting.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Rolling {
    /// Which horizontals carry the rollers.
    pub carrier: Option<Carrier>,
    /// Between the roller supports' axes.
    pub spacing: Option<Length>,
    /// How far the leaf's latch end stands past the front roller's axis when the gate is open.
    pub lead: Option<Length>,
    /// Fabric weight, lb/ft² (Inch) or kg/m² (Metric).
    pub fabric_weight: Option<Decimal>,
    /// Multiplies pipe and fabric weight where the bending is computed.
    pub load_factor: Option<Decimal>,
}

impl Rolling {
    /// The lead where the latch part of the overlap is this.
    fn lead(&self, shop: &Shop, latch_overlap: Length) -> Length {
        self.lead.or(shop.gate.lead).unwrap_or(latch_overlap)
    }
}

impl GateOrder {
    /// Which horizontals carry the rollers.
    pub fn carrier(&self, shop: &Shop) -> Carrier {
        self.rolling.carrier.unwrap_or(shop.gate.carrier)
    }

    /// How far the open leaf's latch end stands past the front roller's axis: by the order, else by the
    /// shop, else the latch part of the overlap.
    pub fn lead(&self, shop: &Shop) -> Length {
        self.rolling.lead(shop, self.latch_overlap)
    }

    /// Fabric weight, lb/ft² (Inch) or kg/m² (Metric), when it is known.
    pub fn fabric_weight(&self, shop: &Shop) -> Option<Decimal> {
        self.rolling.fabric_weight.or(shop.fabric.weight_per_area)
    }

    /// Load factor of the bending.
    pub fn load_factor(&self, shop: &Shop) -> Decimal {
        self.rolling.load_factor.unwrap_or(shop.fabric.load_factor)
    }
}

/// Fabric weights and load factors that can be meant; the same in shop.toml.
pub(super) const FABRIC_WEIGHTS: (Decimal, Decimal) = (Decimal::ZERO, Decimal::ONE_HUNDRED);
pub(super) const LOAD_FACTORS: (Decimal, Decimal) = (
    Decimal::from_parts(1, 0, 0, false, 1),
    Decimal::from_parts(10, 0, 0, false, 0),
);

/// The cells that are no lengths.
pub(super) fn read_rolling(cells: &Cells<'_>, faults: &mut Faults) -> Rolling {
    Rolling {
        carrier: cells.read("carrier", faults, parse_carrier),
        fabric_weight: cells.read("fabric_weight", faults, |t| within(t, FABRIC_WEIGHTS)),
        load_factor: cells.read("load_factor", faults, |t| within(t, LOAD_FACTORS)),
        ..Rolling::default()
    }
}

fn parse_carrier(text: &str) -> Result<Carrier, Misread> {
    let wanted = text.to_lowercase();
    let found = CARRIERS.iter().find(|(word, _)| *word == wanted);
    found.map(|(_, carrier)| *carrier).ok_or_else(|| {
        Misread::new(
            &format!("\"{text}\" says no horizontal that carries the rollers"),
            "write bottom, top or both",
        )
    })
}

fn within(text: &str, (least, most): (Decimal, Decimal)) -> Result<Decimal, Misread> {
    let value = parse_number(text)?;
    if (least..=most).contains(&value) {
        return Ok(value);
    }
    Err(Misread::beyond(
        &format!("it must be from {least} to {most}"),
        "write a number within that, or leave it empty for the shop's",
    ))
}

/// What the rollers of one order are judged by.
#[derive(Clone, Copy)]
pub(super) struct Asked<'a> {
    pub rolling: &'a Rolling,
    pub leaf: &'a Leaf,
    pub opening: Length,
}

/// Both rollers stand under the leaf, open and closed, and the front one not inside the clear opening.
pub(super) fn judge_rollers(
    cells: &Cells<'_>,
    asked: Asked<'_>,
    shop: &Shop,
    faults: &mut Faults,
) -> Option<()> {
    let lead = asked.rolling.lead(shop, asked.leaf.latch_overlap);
    let room = asked.leaf.leaf - (asked.opening + lead).geometric();
    if room <= 0.0 {
        faults.error(
            FaultCode::ValueOutOfRange,
            &cells.spot("lead"),
            "closed, the front roller would stand past the tail end",
            "write a smaller lead: how far the latch end stands past the front roller when open",
        );
        return None;
    }
    judge_front(cells, asked, lead, shop, faults);
    judge_rear(cells, asked, room, shop, faults)
}

/// The front roller's axis is fixed in the ground, `lead` in from the open leaf's latch end; the clear opening ends
/// the latch part of the overlap in from there.
fn judge_front(
    cells: &Cells<'_>,
    asked: Asked<'_>,
    lead: Length,
    shop: &Shop,
    faults: &mut Faults,
) {
    let latch = asked.leaf.latch_overlap;
    if lead >= latch {
        return;
    }
    let say = |l: Length| l.print_with_unit(shop.units);
    let whose = match asked.rolling.lead {
        Some(_) => "a lead",
        None => "the shop's lead",
    };
    faults.warn(
        FaultCode::Caution, &cells.spot("lead"),
        &format!(
            "by {whose} of {} the front roller's axis stands {} inside the clear opening",
            say(lead),
            say(latch - lead)
        ),
        &format!(
            "write a lead of {} or more, or none at all: the axis then stands in line with the front roller support's face",
            say(latch)
        ),
    );
}

/// An order's own distance between the rollers must leave the rear one under the leaf; the shop's rule of thumb is
/// asked about.
fn judge_rear(
    cells: &Cells<'_>,
    asked: Asked<'_>,
    room: f64,
    shop: &Shop,
    faults: &mut Faults,
) -> Option<()> {
    let fraction = shop.gate.roller_spacing.to_f64().unwrap_or(f64::NAN);
    let by_rule = fraction * (asked.leaf.leaf - asked.opening.geometric());
    let given = asked.rolling.spacing.map(Length::geometric);
    if given.unwrap_or(by_rule) < room {
        return Some(());
    }
    let what = format!(
        "closed, the rear roller would stand past the tail end: there is room for less than {}",
        Length::nearest_tick(room).print(shop.units)
    );
    let mend = "write the distance between the two roller supports' axes";
    if given.is_some() {
        faults.error(
            FaultCode::ValueOutOfRange,
            &cells.spot("roller_spacing"),
            &what,
            mend,
        );
        return None;
    }
    faults.warn(
        FaultCode::Caution,
        &cells.spot("roller_spacing"),
        &what,
        mend,
    );
    Some(())
}
