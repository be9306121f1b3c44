//! Kinds of coped end: equal profiles get one number, whichever part carries them.

use std::collections::BTreeMap;
use std::f64::consts::{PI, TAU};

use crate::gate::{Meeting, Role};
use crate::order::{CutMethod, Impossible, PipeId, Week};
use crate::part::{Cope, CopeEnd, Part, TakeOff};

use super::figures::degrees;
use super::left_out::part_out;

/// One profile to be cut, and where it is used.
#[derive(Clone, Debug)]
pub(super) struct CopeKind {
    /// 1.. station by station.
    pub number: usize,
    /// Where it is cut.
    pub station: Station,
    /// Pipe being cut.
    pub branch: PipeId,
    /// How.
    pub cut: CutMethod,
    /// What it meets, as on its first use.
    pub meets: Vec<Meeting>,
    /// Cutback, ticks.
    pub cutback: f64,
    /// Feather edge at the long point.
    pub feather: bool,
    /// Uses: part, end (0 start, 1 end).
    pub uses: Vec<(usize, usize)>,
}

/// All kinds of a week.
#[derive(Clone, Debug, Default)]
pub(super) struct CopeKinds {
    /// By number.
    pub kinds: Vec<CopeKind>,
    /// (part, end) → index into `kinds`.
    places: BTreeMap<(usize, usize), usize>,
}

/// Equal keys are one profile: pipe met, its angle, its turn from the first met, offset, station.
type Key = (Station, PipeId, bool, Vec<(PipeId, i64, i64, i64, i64)>);

impl CopeKinds {
    /// Of every part of the week that is not left out, numbered station by station.
    pub fn of(take_off: &TakeOff, left_out: &[Impossible]) -> CopeKinds {
        let mut keys: Vec<Key> = Vec::new();
        let mut kinds = CopeKinds::default();
        for (p, e, cope) in coped_ends(take_off, left_out) {
            let part = &take_off.parts[p];
            let key = key(part, cope);
            let place = keys.iter().position(|k| *k == key).unwrap_or_else(|| {
                keys.push(key);
                kinds.kinds.push(kind(kinds.kinds.len() + 1, part, cope));
                kinds.kinds.len() - 1
            });
            kinds.kinds[place].uses.push((p, e));
            kinds.places.insert((p, e), place);
        }
        kinds
    }

    /// The kind of one end of a part; `None` for a square end.
    pub fn at(&self, part: usize, end: usize) -> Option<&CopeKind> {
        self.places
            .get(&(part, end))
            .map(|place| &self.kinds[*place])
    }
}

impl CopeKind {
    /// What it meets, in words: `onto 2-3/8 SS40 at 90.00°`.
    pub fn onto(&self, week: &Week) -> String {
        let each = self.meets.iter().map(|m| {
            let angle = degrees(acute(m.phi));
            format!("{} at {angle}", week.pipe(m.pipe).name)
        });
        format!("onto {}", each.collect::<Vec<_>>().join(" and "))
    }
}

/// A cope station: the ends that one machine, one way of cutting, makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Station {
    /// Horizontals onto end posts.
    Horizontals,
    /// Verticals, end posts of the *through* variant, stops.
    Verticals,
    /// Diagonals into their corners.
    Diagonals,
    /// Sway braces and what else.
    Other,
}

impl Station {
    /// All of them, in the order of the sheet.
    pub const ALL: [Station; 4] = [
        Station::Horizontals,
        Station::Verticals,
        Station::Diagonals,
        Station::Other,
    ];

    /// The station that cuts a role.
    pub fn of(role: Option<Role>) -> Station {
        match role {
            Some(Role::TopHorizontal | Role::BottomHorizontal) => Station::Horizontals,
            Some(Role::EndPost | Role::Vertical | Role::Stop | Role::Riser) => Station::Verticals,
            Some(Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal) => Station::Diagonals,
            Some(Role::SwayBrace | Role::Standoff) | None => Station::Other,
        }
    }

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Station::Horizontals => "horizontals",
            Station::Verticals => "verticals and end posts",
            Station::Diagonals => "diagonals",
            Station::Other => "other",
        }
    }
}

/// Coped ends as (part, end, cope), station by station, in part order.
fn coped_ends<'a>(take_off: &'a TakeOff, left_out: &[Impossible]) -> Vec<(usize, usize, &'a Cope)> {
    let mut ends = Vec::new();
    let parts = take_off.parts.iter().enumerate();
    for (p, part) in parts.filter(|(_, p)| !part_out(left_out, p)) {
        for (e, end) in part.ends.iter().enumerate() {
            if let CopeEnd::Coped(cope) = end {
                ends.push((p, e, cope));
            }
        }
    }
    ends.sort_by_key(|(p, e, _)| (Station::of(take_off.parts[*p].role), *p, *e));
    ends
}

/// The smaller of the two angles between two axes, radians.
pub(super) fn acute(phi: f64) -> f64 {
    phi.min(PI - phi)
}

/// Clock of a meeting's acute side on the part's scribe line, radians in 0..2π; a right angle has
/// no acute side and keeps its own.
pub(super) fn clock(meeting: &Meeting) -> f64 {
    let turned = if meeting.phi > PI / 2.0 + 1e-9 {
        meeting.beta + PI
    } else {
        meeting.beta
    };
    let turn = turned.rem_euclid(TAU);
    if TAU - turn < 1e-9 { 0.0 } else { turn }
}

fn kind(number: usize, part: &Part, cope: &Cope) -> CopeKind {
    CopeKind {
        number,
        station: Station::of(part.role),
        branch: part.pipe,
        cut: part.cut,
        meets: cope.meets.clone(),
        cutback: cope.cut.cutback,
        feather: cope.cut.feather,
        uses: Vec::new(),
    }
}

fn key(part: &Part, cope: &Cope) -> Key {
    let first = cope.meets.first().map_or(0.0, clock);
    let meets = cope.meets.iter().map(|m| {
        (
            m.pipe,
            step(acute(m.phi), 1e-5),
            step((clock(m) - first).rem_euclid(TAU), 1e-5),
            step(m.offset, 1.0),
            step(m.station, 1.0),
        )
    });
    (
        Station::of(part.role),
        part.pipe,
        part.cut == CutMethod::Radial,
        meets.collect(),
    )
}

/// Whole steps nearest to a finite figure; equal profiles differ by float noise only.
fn step(value: f64, size: f64) -> i64 {
    let steps = (value / size).round();
    // In range: angles are within 0..2π, offsets and stations within 2^40 ticks.
    steps as i64
}
