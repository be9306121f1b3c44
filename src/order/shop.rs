//! `Shop`: the shop's standards and settings, from shop.toml. Every figure of the trade is here
//! with its default; DESIGN's defaults in brackets, their standing in the starter file's comments.

use jiff::civil::Date;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::Serialize;

use super::{PipeId, SpliceRules};
use crate::measure::{Length, Money, Units};

/// What the `height` column means; converted once to outside-to-outside of the horizontals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum HeightMeaning {
    /// Outside to outside of the horizontals (default).
    Outside,
    /// Between the horizontals' axes.
    Axes,
    /// Fabric height; the frame is this much taller.
    Fabric {
        /// Added to the fabric height (may be negative).
        difference: Length,
    },
    /// Grade to the top horizontal's outside face; the ground clearance is taken off.
    Grade,
}

/// How long the tail is when the order does not say.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum TailRule {
    /// A fraction of the opening, never under `least` [½, 4 ft].
    Fraction {
        /// Fraction of the opening.
        fraction: Decimal,
        /// Shortest tail.
        least: Length,
    },
    /// Rows (opening up to and including, tail), ascending; past the last row: refused.
    Steps(Vec<(Length, Length)>),
}

impl TailRule {
    /// The tail of a gate of this opening, ticks; `None` past the last step.
    pub fn tail(&self, opening: Length) -> Option<f64> {
        match self {
            TailRule::Fraction { fraction, least } => {
                let tail = fraction.to_f64()? * opening.geometric();
                Some(tail.max(least.geometric()))
            }
            TailRule::Steps(steps) => {
                let step = steps.iter().find(|(up_to, _)| opening <= *up_to);
                step.map(|(_, tail)| tail.geometric())
            }
        }
    }
}

/// Which way every diagonal leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Lean {
    /// Foot on the bottom horizontal at the latch side of its bay, head at the tail side (default).
    HeadToTail,
    /// Reversed: foot at the tail side, head at the latch side.
    HeadToLatch,
}

/// Which member runs through at the corners.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Variant {
    /// End posts run past; horizontals are coped onto them (default).
    PostsRunPast,
    /// *Through*: horizontals run the whole leaf square; end posts stand between them.
    Through,
}

/// How a cope station cuts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum CutMethod {
    /// True saddle: outside profile.
    TrueSaddle,
    /// Radial cut: square to the pipe axis, seated on the largest setback through the wall.
    Radial,
}

/// Which horizontals carry the rollers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Carrier {
    /// Carried on the bottom horizontals (default).
    Bottom,
    /// Hung from the top ones.
    Top,
    /// Both held.
    Both,
}

/// The words of `carrier`, in shop.toml and orders.csv.
pub(super) const CARRIERS: [(&str, Carrier); 3] = [
    ("bottom", Carrier::Bottom),
    ("top", Carrier::Top),
    ("both", Carrier::Both),
];

/// Gate standards.
#[derive(Clone, Debug, Serialize)]
pub struct GateStandards {
    /// What `height` means.
    pub height: HeightMeaning,
    /// Ground clearance (for [`HeightMeaning::Grade`] and the barbed-wire warning); none if unknown.
    pub clearance: Option<Length>,
    /// Latch part of the overlap, past the latch support [6 in]. An order's own overlap is shared between both
    /// parts in their ratio here, half and half unless the shop splits it otherwise.
    pub latch_overlap: Length,
    /// Roller part of the overlap, behind the front roller support [6 in].
    pub roller_overlap: Length,
    /// Tail rule.
    pub tail: TailRule,
    /// Warn when the tail is under this fraction of the opening [0.40].
    pub tail_warning: Decimal,
    /// Bay limit, strict [60 in; metric 1524 mm].
    pub bay_limit: Length,
    /// Lean of the diagonals.
    pub lean: Lean,
    /// Both landings of a diagonal move into the bay by this much \[0\].
    pub landing_offset: Length,
    /// Which member runs through.
    pub variant: Variant,
    /// End post past the top horizontal's outside face: the roller stop [4 in].
    pub stop_rise: Length,
    /// End post past the bottom horizontal's outside face [1/2 in].
    pub post_drop: Length,
    /// Rise per barbed strand [4 in]; the rise is the larger of this × strands and the stop.
    pub barbed_pitch: Length,
    /// Risers on verticals are wanted (separate parts); refused unless `roller_on_top` is false.
    pub barbed_risers: bool,
    /// A roller runs on top of the top horizontal [true].
    pub roller_on_top: bool,
    /// Pipe of the horizontals when the order does not say.
    pub horizontal: PipeId,
    /// Pipe of the end posts.
    pub end_post: PipeId,
    /// Pipe of the verticals.
    pub vertical: PipeId,
    /// Pipe of the diagonals.
    pub diagonal: PipeId,
    /// How horizontals' ends are coped.
    pub horizontal_cut: CutMethod,
    /// How verticals' ends are coped (posts of the *through* variant too).
    pub vertical_cut: CutMethod,
    /// How diagonals' ends are coped.
    pub diagonal_cut: CutMethod,
    /// Which horizontals carry the rollers \[bottom\].
    pub carrier: Carrier,
    /// Roller support spacing as a fraction of leaf − opening [0.85].
    pub roller_spacing: Decimal,
    /// How far the leaf's latch end stands past the front roller's axis when the gate is open; `None`:
    /// by the latch part of the gate's overlap, so that the axis stands at the front roller support's face.
    pub lead: Option<Length>,
}

/// What hangs on the gate, for the lifting weight and the statics.
#[derive(Clone, Debug, Serialize)]
pub struct FabricRules {
    /// Fabric weight: lb/ft² (Inch) or kg/m² (Metric).
    pub weight_per_area: Option<Decimal>,
    /// Hardware per gate, lb or kg.
    pub hardware: Option<Decimal>,
    /// Zinc, percent of bare pipe weight.
    pub zinc_percent: Option<Decimal>,
    /// Multiplies pipe and fabric weight where the gate's bending is computed (1 when not given).
    pub load_factor: Decimal,
    /// A peak over this share of the yield given asks for an engineer [0.60].
    pub engineer_over: Decimal,
}

/// Sway brace.
#[derive(Clone, Debug, Serialize)]
pub struct SwayRules {
    /// Warn over this opening when no brace is ordered [25 ft].
    pub expected_over: Length,
    /// "Engineer's review needed" over this opening [30 ft].
    pub review_over: Length,
    /// Rise f of the arc at mid-leaf.
    pub rise: Length,
    /// Added at each end [2 in].
    pub end_allowance: Length,
    /// Its pipe when the order does not say.
    pub pipe: PipeId,
}

/// Kits: the customer buys the two horizontals locally.
#[derive(Clone, Debug, Serialize)]
pub struct KitRules {
    /// Local joint lengths to advise on [20, 21, 24, 40 ft].
    pub local_joints: Vec<Length>,
    /// Trims assumed [1/4 in].
    pub trim: Length,
    /// Kerf assumed [1/8 in].
    pub kerf: Length,
    /// Longest kit part the carrier takes; longer warns. None: no limit known.
    pub carrier_limit: Option<Length>,
}

/// The saw.
#[derive(Clone, Debug, Serialize)]
pub struct Saw {
    /// Kerf as entered.
    pub kerf_entered: Length,
    /// Kerf k as planned: entered, up to 1/64 in (0.25 mm). The one kerf of fit, drops, identity
    /// and running marks [0.100 in → 7/64 in].
    pub kerf: Length,
    /// Near trim a [1/4 in].
    pub near_trim: Length,
    /// Far trim b; 0 or ≥ kerf [1/4 in].
    pub far_trim: Length,
    /// Hold-back h: length the machine cannot cut because it grips it \[0\].
    pub hold_back: Length,
    /// Saw mark: cut lengths round to it [1/16 in; metric 1 mm].
    pub mark: Length,
    /// "Measure first" when the leftover is under this [1/8 in].
    pub measure_first_under: Length,
    /// The shop's tape; a running mark beyond it is flagged.
    pub tape: Option<Length>,
    /// Saws or crews the cutting is split over.
    pub saws: u32,
    /// A piece measured off its saw length by more is asked about before it counts [1/32 in].
    #[serde(skip)]
    pub piece_tolerance: Length,
}

impl Saw {
    /// A kerf as planned: up to 1/64 in, metric 0.25 mm (DESIGN §7).
    pub fn kerf_as_planned(entered: Length, units: Units) -> Length {
        entered.up_to(match units {
            Units::Inch => Length::SIXTY_FOURTH,
            Units::Metric => Length::from_ticks(80),
        })
    }
}

/// Money and keeping.
#[derive(Clone, Debug, Serialize)]
pub struct MoneyRules {
    /// Currency sign or code, printed before amounts.
    pub currency: String,
    /// Keep length [36 in]: a drop at least this long is kept.
    pub keep_length: Length,
    /// Credit rate: fraction of the least landed price per nominal foot [0.50].
    pub credit_rate: Decimal,
    /// Spare joints per pipe, bought on top and shown apart.
    pub spares: Vec<(PipeId, u32)>,
    /// Credit of a kept foot of a pipe, where it does not go by what is on sale: a comparison holds it, so
    /// that rows of other quotes count what they keep alike.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub held_credits: Vec<(PipeId, Money)>,
}

impl MoneyRules {
    /// The held credit of a kept foot of a pipe.
    pub fn held_credit(&self, pipe: PipeId) -> Option<Money> {
        let held = self.held_credits.iter().find(|(of, _)| *of == pipe);
        held.map(|(_, credit)| *credit)
    }
}

/// Buying.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct BuyingRules {
    /// Day of the order: prices are valid and days to delivery count from it. Not part of the shop's
    /// data (the plan number takes it where a quote has dates).
    #[serde(skip)]
    pub order_date: Option<Date>,
    /// Days the shop wants the pipe before a gate is due \[0\].
    pub shop_days: u32,
    /// Length tolerance asked for, as the order says it; empty: the supplier is asked to state his.
    pub tolerance: String,
    /// What a delivery must keep to (hours, unloading, longest truck), as the order says it.
    pub delivery: String,
}

impl BuyingRules {
    fn none(&self) -> bool {
        self.shop_days == 0 && self.tolerance.is_empty() && self.delivery.is_empty()
    }
}

/// Minutes on the floor (estimates, common practice, no source).
#[derive(Clone, Debug, Serialize)]
pub struct MinuteRules {
    /// Per joint handled [2.0].
    pub joint: Decimal,
    /// Per cut [1.2 with tape].
    pub cut: Decimal,
    /// Per coped end \[3\].
    pub cope: Decimal,
    /// Per splice \[25\].
    pub splice: Decimal,
    /// Hours a saw cuts in a day \[8\]; says what fits in one, and changes no plan.
    #[serde(skip)]
    pub day_hours: Decimal,
}

/// Who galvanises, for the vent-and-drain caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Finisher {
    /// Pipe is bought coated and repaired at the welds.
    PipeBoughtCoated,
    /// Gates are galvanised after welding.
    AfterWelding,
}

/// The shop.
#[derive(Clone, Debug, Serialize)]
pub struct Shop {
    /// Name printed on sheets; may be empty.
    pub name: String,
    /// Units read without a unit and printed.
    pub units: Units,
    /// Gate standards.
    pub gate: GateStandards,
    /// Fabric, hardware, zinc.
    pub fabric: FabricRules,
    /// Sway brace.
    pub sway: SwayRules,
    /// Kits.
    pub kit: KitRules,
    /// Saw.
    pub saw: Saw,
    /// Splices.
    pub splice: SpliceRules,
    /// Money.
    pub money: MoneyRules,
    /// Buying.
    #[serde(skip_serializing_if = "BuyingRules::none")]
    pub buying: BuyingRules,
    /// Minutes.
    pub minutes: MinuteRules,
    /// Who galvanises.
    pub finisher: Finisher,
}
