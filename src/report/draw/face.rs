//! `Face`: the fonts in the house, by what they are for.

/// A face of the printed family.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Text.
    Regular,
    /// What is read at the saw.
    Bold,
    /// Han, kana, Hangul: used of itself for characters the other two lack.
    Fallback,
}

impl Face {
    /// Every face, in the order of the PDF's fonts.
    pub const ALL: [Face; 3] = [Face::Regular, Face::Bold, Face::Fallback];

    /// Its place in [`Face::ALL`].
    pub const fn index(self) -> usize {
        match self {
            Face::Regular => 0,
            Face::Bold => 1,
            Face::Fallback => 2,
        }
    }

    /// The font file's bytes (TrueType outlines); see data/fonts/README.md.
    pub const fn data(self) -> &'static [u8] {
        match self {
            Face::Regular => include_bytes!("../../../data/fonts/NotoSans-Regular.ttf"),
            Face::Bold => include_bytes!("../../../data/fonts/NotoSans-Bold.ttf"),
            Face::Fallback => include_bytes!("../../../data/fonts/DroidSansFallback.ttf"),
        }
    }

    /// The font's name as PDF readers show it.
    pub const fn name(self) -> &'static str {
        match self {
            Face::Regular => "NotoSans-Regular",
            Face::Bold => "NotoSans-Bold",
            Face::Fallback => "DroidSansFallback",
        }
    }
}
