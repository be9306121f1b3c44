//! How one gate rolls and what hangs on it, as far as its order says; the rest by the shop.

use rust_decimal::Decimal;
use serde::Serialize;

use super::faults::Faults;
use super::leaf::Leaf;
use super::sheet::Cells;
use super::shop::CARRIERS;
use super::{Carrier, GateOrder, Shop};
use crate::measure::{Length, Misread, Units, parse_number};

/// What the order says of its rollers and loads; `None`: the shop's setting.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Rolling {
    /// Which horizontals carry the rollers.
    pub carrier: Option<Carrier>,
    /// Between the roller posts' axes.
    pub spacing: Option<Length>,
    /// How far the leaf's latch end stands past the front roller's axis when the gate is open.
    pub lead: Option<Length>,
    /// Fabric weight, lb/ft² (Inch) or kg/m² (Metric).
    pub fabric_weight: Option<Decimal>,
    /// Multiplies pipe and fabric weight where the bending is computed.
    pub load_factor: Option<Decimal>,
}

impl GateOrder {
    /// Which horizontals carry the rollers.
    pub fn carrier(&self, shop: &Shop) -> Carrier {
        self.rolling.carrier.unwrap_or(shop.gate.carrier)
    }

    /// Lead of the leaf past the front roller when open.
    pub fn lead(&self, shop: &Shop) -> Length {
        self.rolling.lead.unwrap_or(shop.gate.lead)
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
    Err(Misread::new(
        &format!("it must be from {least} to {most}"),
        "write a number within that, or leave it empty for the shop's",
    ))
}

/// The front roller stands on the leaf when open, the rear one when closed.
pub(super) fn judge_rollers(
    cells: &Cells<'_>,
    rolling: &Rolling,
    lead: Length,
    (leaf, opening): (&Leaf, Length),
    units: Units,
    faults: &mut Faults,
) -> Option<()> {
    let room = leaf.leaf - (opening + lead).geometric();
    if rolling.lead.is_some() && room <= 0.0 {
        faults.error(
            &cells.spot("lead"),
            "closed, the front roller would stand past the tail end",
            "write a smaller lead: how far the latch end stands past the front roller when open",
        );
        return None;
    }
    if rolling.spacing.is_none_or(|s| s.geometric() < room) {
        return Some(());
    }
    let what = format!(
        "closed, the rear roller would stand past the tail end: there is room for less than {}",
        Length::nearest_tick(room).print(units)
    );
    faults.error(
        &cells.spot("roller_spacing"),
        &what,
        "write the distance between the two roller posts' axes",
    );
    None
}
