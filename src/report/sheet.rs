//! `Sheet`: what every printer prints. Blocks to be read, records to be computed with.

use super::table::Table;

/// One sheet of the week: the same data as blocks (text, later PDF and HTML) and as flat records
/// (CSV, later XLSX).
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Sheet {
    /// File name without ending: `cut_sheet`.
    pub stem: String,
    /// Title as printed: `CUT SHEET`.
    pub title: String,
    /// Shop name, plan number, revision, date.
    pub heading: Heading,
    /// What is read.
    pub blocks: Vec<Block>,
    /// What is computed with; `None`: the sheet is paper only.
    pub records: Option<Table>,
}

/// What every sheet carries.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Heading {
    /// Shop name; may be empty.
    pub shop: String,
    /// Plan number; empty on a take-off, which has no plan.
    pub plan: String,
    /// Revision.
    pub revision: String,
    /// Date as the user gave it; empty: none given.
    pub date: String,
    /// Marks left out of the plan; empty: none.
    pub left_out: String,
    /// Lengths stand bare in millimetres; said in the head of the sheet.
    pub metric: bool,
}

impl Heading {
    /// `plan 7F3A21C9 rev 0`, for the strip of every block; empty without a plan.
    pub fn strip(&self) -> String {
        if self.plan.is_empty() {
            return String::new();
        }
        format!("plan {} rev {}", self.plan, self.revision)
    }
}

/// One block, top to bottom.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Block {
    /// Blocks under one strip that belong on one page: a joint, a gate, a supplier.
    Group {
        /// Left of the strip, large: `JOINT 7 of 31`.
        title: String,
        /// Right of the strip.
        aside: String,
        /// What is in it.
        blocks: Vec<Block>,
    },
    /// Label and value, one pair a line.
    Pairs(Vec<(String, String)>),
    /// A headed table.
    Table(Table),
    /// A paragraph.
    Note(String),
    /// A paragraph that must not be missed.
    Alert(String),
    /// Short points.
    Points(Vec<String>),
}

impl Block {
    /// A pair with anything printable.
    pub fn pair(label: &str, value: impl Into<String>) -> (String, String) {
        (label.to_owned(), value.into())
    }
}
