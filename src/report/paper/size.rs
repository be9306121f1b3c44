//! `Paper`: the two sheet sizes offices print on, always landscape, and the room on them.

/// Paper a set is laid out for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// Letter, 11 × 8½ in.
    #[default]
    Letter,
    /// A4, 297 × 210 mm.
    A4,
}

/// Points in a millimetre.
pub const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// Bare room at the top for a clipboard's clip, points.
pub const CLIP_ROOM: f64 = 46.0;
/// Margin left and right, points.
pub const SIDE: f64 = 34.0;
/// Height of the header line under the clip room, points.
pub const HEADER: f64 = 26.0;
/// Foot margin with the footer in it, points.
pub const FOOT: f64 = 36.0;

impl Paper {
    /// Landscape width and height, points.
    pub fn size(self) -> (f64, f64) {
        match self {
            Paper::Letter => (792.0, 612.0),
            Paper::A4 => (297.0 * POINTS_PER_MM, 210.0 * POINTS_PER_MM),
        }
    }

    /// Width between the side margins, points.
    pub fn room_width(self) -> f64 {
        self.size().0 - 2.0 * SIDE
    }

    /// Height between header and footer, points.
    pub fn room_height(self) -> f64 {
        self.size().1 - CLIP_ROOM - HEADER - FOOT
    }

    /// The paper of a name as typed (`letter`, `a4`), in any case.
    pub fn named(name: &str) -> Option<Paper> {
        match name.to_ascii_lowercase().as_str() {
            "letter" => Some(Paper::Letter),
            "a4" => Some(Paper::A4),
            _ => None,
        }
    }
}
