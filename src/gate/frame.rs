//! `Frame`: one gate's centre lines.

use serde::Serialize;

use crate::order::{CutMethod, Lean, PipeId, Variant};

/// A point of the gate's plane, ticks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Point {
    /// From the latch end post's outside face toward the tail.
    pub x: f64,
    /// Up from the bottom horizontal's axis.
    pub y: f64,
}

/// What a member is. The order is the order of parts on sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub enum Role {
    /// Top horizontal, mark `HT`.
    TopHorizontal,
    /// Bottom horizontal, mark `HB`.
    BottomHorizontal,
    /// End post, mark `P` (`P1` latch, `P2` tail when the two differ).
    EndPost,
    /// Vertical at an interior bay line, mark `V`.
    Vertical,
    /// First diagonal when it differs, mark `D1`.
    FirstDiagonal,
    /// Diagonal, mark `D`.
    Diagonal,
    /// Last diagonal when it differs from both, mark `D2`.
    LastDiagonal,
    /// Roller stop of the *through* variant, mark `S`.
    Stop,
    /// Riser of a barbed top that is a part of its own, mark `R`.
    Riser,
    /// Sway brace, mark `B`.
    SwayBrace,
    /// Sway brace standoff, marks `B1`, `B2`… (bay line number).
    Standoff,
}

impl Role {
    /// Its letters in a mark (`A1-HB`); posts, stops and standoffs may take a number after them.
    pub fn letters(self) -> &'static str {
        match self {
            Role::TopHorizontal => "HT",
            Role::BottomHorizontal => "HB",
            Role::EndPost => "P",
            Role::Vertical => "V",
            Role::FirstDiagonal => "D1",
            Role::Diagonal => "D",
            Role::LastDiagonal => "D2",
            Role::Stop => "S",
            Role::Riser => "R",
            Role::SwayBrace => "B",
            // Not B1, which a spliced brace's piece B/1 would be taken for.
            Role::Standoff => "BS",
        }
    }

    /// Its name in a sentence.
    pub fn noun(self) -> &'static str {
        match self {
            Role::TopHorizontal => "top horizontal",
            Role::BottomHorizontal => "bottom horizontal",
            Role::EndPost => "end post",
            Role::Vertical => "vertical",
            Role::FirstDiagonal => "first diagonal",
            Role::Diagonal => "diagonal",
            Role::LastDiagonal => "last diagonal",
            Role::Stop => "roller stop",
            Role::Riser => "riser",
            Role::SwayBrace => "sway brace",
            Role::Standoff => "sway brace standoff",
        }
    }

    /// A diagonal of any mark.
    pub fn is_diagonal(self) -> bool {
        matches!(
            self,
            Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal
        )
    }
}

/// A pipe that an end meets.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Meeting {
    /// The pipe met.
    pub pipe: PipeId,
    /// What that member is.
    pub role: Role,
    /// Angle between the axes, radians.
    pub phi: f64,
    /// Clock of its plane on the branch's own scribe line, radians (see [`Member::ends`]).
    pub beta: f64,
    /// Offset of axes (0 in a flat gate), ticks.
    pub offset: f64,
    /// Station along the branch axis from the axis end, ticks (non-zero for moved landings).
    pub station: f64,
}

/// One end of a member: square, or coped onto what it meets.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct End {
    /// Empty: square cut at the axis end.
    pub meets: Vec<Meeting>,
    /// Capped on the sheet.
    pub capped: bool,
}

/// One member by centre line. Equal members of a gate appear once each (not grouped).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Member {
    /// What it is.
    pub role: Role,
    /// Bay (diagonals, 1..n) or bay line (verticals 1..n−1, posts 0 and n); 0 for horizontals.
    pub place: usize,
    /// Its pipe.
    pub pipe: PipeId,
    /// Axis start: the latch end of a horizontal, the foot of what stands or leans.
    pub start: Point,
    /// Axis end: the tail end of a horizontal, the head of what stands or leans.
    pub end: Point,
    /// Axis length, ticks (equal to the distance start–end for flat members).
    pub axis: f64,
    /// Ends `[start, end]`. The scribe line (clock 0): vertical and post toward +x, horizontal up,
    /// diagonal underside, the same for both ends.
    pub ends: [End; 2],
    /// How its ends are cut.
    pub cut: CutMethod,
}

/// One bay, 1..n from the latch end.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Bay {
    /// x of its latch-side bay line.
    pub from: f64,
    /// x of its tail-side bay line.
    pub to: f64,
    /// Angle of its diagonal's axis from the horizontal, radians.
    pub alpha: f64,
    /// Length of its diagonal's axis (moved landings included), ticks.
    pub diagonal_axis: f64,
}

/// Roller axes in gate coordinates (x), ticks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rollers {
    /// Front roller, gate closed.
    pub front_closed: f64,
    /// Front roller, gate open.
    pub front_open: f64,
    /// Distance to the rear roller.
    pub spacing: f64,
}

/// Sway brace by its arc.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sway {
    /// Chord c.
    pub chord: f64,
    /// Rise f.
    pub rise: f64,
    /// Radius ρ = (c² + 4f²)/(8f).
    pub radius: f64,
    /// Pipe length: 2ρ·asin(c/2ρ) + end allowance at each end.
    pub length: f64,
    /// Standoffs: (bay line, length = ordinate less half ODs).
    pub standoffs: Vec<(usize, f64)>,
}

/// One gate by centre lines (copies of an order line are alike).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Frame {
    /// Index into `Week::gates`.
    pub gate: usize,
    /// Variant.
    pub variant: Variant,
    /// Lean.
    pub lean: Lean,
    /// Leaf overall, ticks.
    pub leaf: f64,
    /// Outside to outside of the horizontals, ticks.
    pub height: f64,
    /// Between the horizontals' axes, ticks.
    pub axis_height: f64,
    /// Post past the top horizontal's outside face (or stop / barbed rise), ticks.
    pub rise: f64,
    /// Post past the bottom horizontal's outside face, ticks.
    pub drop: f64,
    /// Bay lines 0..=n, x; the first and last are the end posts' axes.
    pub bay_lines: Vec<f64>,
    /// Bays 1..=n at index 0..n.
    pub bays: Vec<Bay>,
    /// Members in sheet order.
    pub members: Vec<Member>,
    /// Rollers.
    pub rollers: Rollers,
    /// Sway brace if ordered.
    pub sway: Option<Sway>,
    /// Check measure corner to corner, both ways equal, ticks.
    pub check_measure: f64,
}
