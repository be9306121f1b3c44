//! `Pen` and `Ink`: how a path is stroked and filled.

/// Ink: black, or white to cover what lies behind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// Black.
    Black,
    /// White.
    White,
}

/// A stroke.
#[derive(Clone, Debug, PartialEq)]
pub struct Pen {
    /// Width, points.
    pub width: f64,
    /// Dash pattern in points, on/off alternating; empty: solid.
    pub dash: Vec<f64>,
    /// Ink.
    pub ink: Ink,
}

impl Pen {
    /// A solid black line of a width in points.
    pub fn solid(width: f64) -> Pen {
        Pen {
            width,
            dash: Vec::new(),
            ink: Ink::Black,
        }
    }

    /// A dashed black line: width and one dash length (the gap is as long), points.
    pub fn dashed(width: f64, dash: f64) -> Pen {
        Pen {
            dash: vec![dash, dash],
            ..Pen::solid(width)
        }
    }

    /// A chain line as centre lines are drawn: long, gap, short, gap.
    pub fn chain(width: f64) -> Pen {
        Pen {
            dash: vec![9.0, 2.0, 2.0, 2.0],
            ..Pen::solid(width)
        }
    }
}
