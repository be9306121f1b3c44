//! `Model`: one gate as the plane frame that rolls, in inches, pounds-force and psi.

use std::fmt;

use serde::Serialize;

use super::Section;
use crate::order::{Carrier, Lean};

/// How verticals, end posts and diagonals meet the horizontals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WebEnds {
    /// Welded: full moment continuity.
    Rigid,
    /// Moment released at both ends of each of them.
    Pinned,
}

/// One gate as a plane frame. x from the latch end post's axis, y from the bottom horizontal's.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// x of the latch end post's axis in the gate's own coordinates (half the post's OD), in.
    pub origin: f64,
    /// Bay lines from 0 to the tail end post's axis, in, ascending.
    pub lines: Vec<f64>,
    /// Between the axes of the horizontals, in.
    pub height: f64,
    /// Both horizontals.
    pub horizontal: Section,
    /// Verticals at interior bay lines.
    pub vertical: Section,
    /// Diagonals.
    pub diagonal: Section,
    /// End posts, latch end first.
    pub posts: [Section; 2],
    /// Which way every diagonal leans.
    pub lean: Lean,
    /// Diagonals end on the horizontals this far inside their bay, in; 0: on the bay lines' nodes.
    pub landing: f64,
    /// Fixity of the web.
    pub web_ends: WebEnds,
    /// Modulus of elasticity, psi.
    pub elasticity: f64,
    /// Weight of steel, lbf/in³.
    pub unit_weight: f64,
    /// Fabric, lbf/in², half of it on each horizontal.
    pub fabric: f64,
    /// Multiplies pipe and fabric weight, never the nose load.
    pub load_factor: f64,
    /// Load down on the top node of the latch end, lbf.
    pub nose_load: f64,
    /// Which horizontals carry the rollers.
    pub carrier: Carrier,
    /// Front roller's axis when open, in from the latch end post's axis.
    pub front_open: f64,
    /// Front roller's axis when closed.
    pub front_closed: f64,
    /// Rear roller behind the front one, in.
    pub spacing: f64,
}

/// Modulus of elasticity of steel, psi (design handbooks' round figure).
pub const STEEL_ELASTICITY: f64 = 29.0e6;
/// Weight of steel, lbf/in³: 490 lbf/ft³ (AISC *Manual*, from memory).
pub const STEEL_WEIGHT: f64 = 490.0 / 1728.0;
/// Bays past this many are not computed: no leaf is 1,000 ft long.
const MOST_BAYS: usize = 200;

/// Why a gate's bending cannot be computed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StaticsFault {
    /// A figure is missing, not finite or not over zero; which.
    Figure(&'static str),
    /// A roller would run off the leaf: front and rear position and leaf between posts' axes, in.
    OffLeaf {
        /// The roller's place, in from the latch end post's axis.
        at: f64,
        /// The tail end post's axis.
        leaf: f64,
    },
    /// More bays than are computed.
    TooManyBays(usize),
    /// The structure is a mechanism.
    Mechanism,
}

impl fmt::Display for StaticsFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StaticsFault::Figure(which) => write!(f, "no bending computed: {which} is not usable"),
            StaticsFault::OffLeaf { at, leaf } => write!(
                f,
                "no bending computed: a roller would stand {at:.2} in from the latch end post's axis, the leaf runs from 0 to {leaf:.2} in"
            ),
            StaticsFault::TooManyBays(bays) => {
                write!(f, "no bending computed: {bays} bays, at most {MOST_BAYS}")
            }
            StaticsFault::Mechanism => write!(f, "no bending computed: the frame is a mechanism"),
        }
    }
}

impl Model {
    /// Tail end post's axis.
    pub fn leaf(&self) -> f64 {
        self.lines.last().copied().unwrap_or(0.0)
    }

    /// Number of bays.
    pub fn bays(&self) -> usize {
        self.lines.len().saturating_sub(1)
    }

    /// Load down per inch of each horizontal, lbf/in: its pipe and half the fabric's height.
    pub fn horizontal_load(&self) -> f64 {
        self.load_factor
            * (self.horizontal.area() * self.unit_weight + self.fabric * self.height / 2.0)
    }

    /// Load down per inch of a web member, lbf/in.
    pub fn web_load(&self, section: Section) -> f64 {
        self.load_factor * section.area() * self.unit_weight
    }

    /// Whether every figure can be computed with.
    pub fn judge(&self) -> Result<(), StaticsFault> {
        let over_zero = |value: f64, name| {
            let good = value.is_finite() && value > 0.0;
            if good {
                Ok(())
            } else {
                Err(StaticsFault::Figure(name))
            }
        };
        let not_under_zero = |value: f64, name| {
            let good = value.is_finite() && value >= 0.0;
            if good {
                Ok(())
            } else {
                Err(StaticsFault::Figure(name))
            }
        };
        if self.bays() > MOST_BAYS {
            return Err(StaticsFault::TooManyBays(self.bays()));
        }
        if self.bays() == 0 || self.lines[0] != 0.0 {
            return Err(StaticsFault::Figure("bay lines"));
        }
        for pair in self.lines.windows(2) {
            over_zero(pair[1] - pair[0], "bay")?;
            over_zero(pair[1] - pair[0] - 2.0 * self.landing, "landing offset")?;
        }
        over_zero(self.height, "height")?;
        not_under_zero(self.origin, "end post")?;
        not_under_zero(self.landing, "landing offset")?;
        over_zero(self.elasticity, "modulus of elasticity")?;
        over_zero(self.unit_weight, "unit weight")?;
        over_zero(self.load_factor, "load factor")?;
        not_under_zero(self.fabric, "fabric weight")?;
        not_under_zero(self.nose_load, "nose load")?;
        over_zero(self.spacing, "roller spacing")?;
        not_under_zero(self.front_closed - self.front_open, "opening")?;
        for section in [
            self.horizontal,
            self.vertical,
            self.diagonal,
            self.posts[0],
            self.posts[1],
        ] {
            if !section.is_sound() {
                return Err(StaticsFault::Figure("pipe"));
            }
        }
        self.judge_roller(self.front_open)?;
        self.judge_roller(self.front_closed + self.spacing)
    }

    /// Whether a roller place is on the leaf (between the end posts' axes).
    pub fn judge_roller(&self, at: f64) -> Result<(), StaticsFault> {
        let leaf = self.leaf();
        if at.is_finite() && (0.0..=leaf).contains(&at) {
            Ok(())
        } else {
            Err(StaticsFault::OffLeaf { at, leaf })
        }
    }
}
