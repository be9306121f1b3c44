//! `GateOrder`: one row of orders.csv, every optional column settled by the shop's standards.

use jiff::civil::Date;
use serde::Serialize;

use super::{Origin, Paperwork, PipeId, Rolling};
use crate::measure::Length;

/// From which side `hand` is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum SeenFrom {
    /// From outside.
    Street,
    /// From inside.
    Yard,
}

/// Which way the gate opens, seen from the stated side. Changes no part (a right-hand leaf is the
/// left-hand leaf seen from its other face).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Hand {
    /// Opens to the left.
    Left,
    /// Opens to the right.
    Right,
}

/// How the bays of one gate are laid.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Bays {
    /// The least number of equal bays within both limits.
    Least,
    /// This many equal bays, judged by the same limits.
    Count(u32),
    /// Interior bay lines, each measured from the outside face of the latch end's post, ascending.
    Lines(Vec<Length>),
    /// These bay lines stand where they are given, measured and ordered as [`Bays::Lines`]; between them, and to
    /// the end posts, the least number of equal bays within both limits.
    Fixed(Vec<Length>),
}

/// The pipes of one gate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct GatePipes {
    /// Both horizontals.
    pub horizontal: PipeId,
    /// The end post at the latch end.
    pub latch_post: PipeId,
    /// The end post at the tail end (the same as the latch end's unless ordered otherwise).
    pub tail_post: PipeId,
    /// Verticals.
    pub vertical: PipeId,
    /// Diagonals.
    pub diagonal: PipeId,
    /// Sway brace and its standoffs.
    pub sway: PipeId,
}

/// One gate order. Lengths given by the user are exact `Length`s; leaf and tail, which the tail
/// rule may put between ticks, are geometry (`f64` ticks) and stay exact until the saw rounding.
#[derive(Clone, Debug, Serialize)]
pub struct GateOrder {
    /// The gate's mark (`A3`), unique in the week without regard to case.
    pub mark: String,
    /// How many identical gates. May be 0: kept, noted, does nothing.
    pub count: u32,
    /// Clear opening, face to face of the supports.
    pub opening: Length,
    /// Outside to outside of the horizontals (whatever meaning the shop declared is converted).
    pub height: Length,
    /// Hand as ordered.
    pub hand: Hand,
    /// From which side the hand is seen; `None`: the order does not say, and the sheets say so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seen_from: Option<SeenFrom>,
    /// How far the leaf runs past the latch support's face when closed.
    pub latch_overlap: Length,
    /// How far the leaf runs past the front roller support's face beside the tail when closed.
    pub roller_overlap: Length,
    /// Tail (counterbalance), ticks, > 0.
    pub tail: f64,
    /// Leaf overall, outside to outside of the end posts, ticks; = opening + overlaps + tail.
    pub leaf: f64,
    /// The tail is the shop's rule's, not the order's own: another rule would move it. No part follows
    /// from it, so it is no part of the plan's number.
    #[serde(skip)]
    pub tail_by_rule: bool,
    /// Bays.
    pub bays: Bays,
    /// Pipes, the order's finish already applied.
    pub pipes: GatePipes,
    /// Due date, if any.
    pub due: Option<Date>,
    /// Barbed strands on top (0 = none).
    pub barbed: u32,
    /// Add a sway brace's pipe.
    pub sway: bool,
    /// Automated: sphere reminder on the sheet.
    pub automated: bool,
    /// Kit: the customer buys the horizontals locally.
    pub kit: bool,
    /// Bays (1..n from the latch end) in which no splice may stand.
    pub excluded_bays: Vec<u32>,
    /// Brackets and other welds on both horizontals, from the latch face, beside the shop's own.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub brackets: Vec<Length>,
    /// Rollers and loads as far as the order says; else the shop's.
    pub rolling: Rolling,
    /// Permits splices over the refused share of the gate's peak stress.
    pub high_stress: bool,
    /// What it is made under.
    #[serde(skip_serializing_if = "Paperwork::none")]
    pub paperwork: Paperwork,
    /// Free note, printed on the sheet.
    pub note: String,
    /// Where the row stands.
    pub origin: Origin,
}
