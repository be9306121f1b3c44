//! `Told`: every kind of thing that changes the stand, and nothing else does.

use serde::{Deserialize, Serialize};

use super::told_buying::{Bent, Cancelled, Delivered, Ordered, Promised, SentBack, Short};
use super::{EntryId, IssuedPlan};
use crate::measure::Length;
use crate::order::PieceId;
use crate::order::{PipeKey, RemnantId};

/// What was told. Joints, lines and gates are those of the entry's week.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Told {
    /// A plan was handed out.
    Issued(Box<IssuedPlan>),
    /// Joints were ordered.
    Ordered(Ordered),
    /// Joints came.
    Delivered(Delivered),
    /// Joints of an order did not come.
    Short(Short),
    /// Joints came bent.
    Bent(Bent),
    /// Joints were sent back at the gate.
    Refused(SentBack),
    /// A joint was cut, all of it or some pieces.
    Cut(Cut),
    /// A finished piece cannot be used.
    Spoiled(Spoiled),
    /// A tag was painted.
    Tagged(Tagged),
    /// A remnant or the rest of a begun joint was measured.
    Measured(Measured),
    /// All that lies on the rack of one pipe was counted.
    Counted(Counted),
    /// Pipe was thrown away.
    Scrapped(Scrapped),
    /// A splice was welded.
    Welded(Welded),
    /// A gate is finished.
    Done(GateCopy),
    /// A gate left the shop.
    Shipped(GateCopy),
    /// Orders changed.
    Changed(Changed),
    /// A gate, or the whole plan, is not wanted any more.
    Withdrawn(Withdrawn),
    /// A delivery day moved.
    Promised(Promised),
    /// Joints on order were cancelled.
    Cancelled(Cancelled),
    /// Joints that lie were sent back.
    Returned(Cancelled),
    /// A piece's ends were coped.
    Coped(Coped),
    /// A piece measured off, or a question, is accepted.
    Accepted(Accepted),
    /// Pipe is kept for this week.
    Reserved(Reserved),
    /// Pipe is free again.
    Freed(Reserved),
    /// A finished piece is stock again.
    Recut(Recut),
    /// The week is over.
    Closed {},
    /// Earlier entries count no more.
    Undone(Undone),
}

/// A joint cut.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cut {
    /// Joint number.
    pub joint: u32,
    /// Up to this piece, 1..; `None`: all of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<u32>,
    /// Pieces that were measured: which, 1.., and how long.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lengths: Vec<(u32, Length)>,
    /// Length of the joint that was taken, where it was measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<Length>,
    /// What lies on the floor after the last cut, where it was measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub floor: Option<Length>,
}

/// A piece that cannot be used.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spoiled {
    /// The piece.
    pub piece: PieceId,
    /// Length that is left of it, clean at both ends; `None`: nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left: Option<Length>,
    /// Tag painted on what is left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tag: Option<String>,
}

/// A tag painted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tagged {
    /// The tag.
    pub tag: String,
    /// On what.
    pub from: TagFrom,
}

/// What gets a tag.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum TagFrom {
    /// A remnant that had another tag.
    Remnant(RemnantId),
    /// What is left of a joint: its scrap, or all that is not cut yet.
    Joint {
        /// Joint number.
        joint: u32,
        /// Its length; `None`: as computed.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        length: Option<Length>,
    },
    /// Pipe that nothing was told of before.
    Found {
        /// Pipe.
        pipe: PipeKey,
        /// Length of each.
        length: Length,
        /// How many.
        count: u32,
    },
}

/// A measuring.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// Of what.
    pub what: MeasuredWhat,
    /// How long it is.
    pub length: Length,
}

/// What was measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MeasuredWhat {
    /// A remnant.
    Remnant(RemnantId),
    /// What is left of a begun joint.
    Joint(u32),
}

/// A count of the rack of one pipe: what is not in it is gone.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Counted {
    /// Pipe.
    pub pipe: PipeKey,
    /// What lies.
    pub pieces: Vec<CountedPiece>,
}

/// One tag of a count.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CountedPiece {
    /// Tag.
    pub tag: RemnantId,
    /// How many.
    pub count: u32,
    /// Length of each, where it was measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Length>,
}

/// Some pipe that lies.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Lot {
    /// Pieces of one tag.
    Remnant {
        /// Tag.
        tag: RemnantId,
        /// How many.
        count: u32,
    },
    /// Whole joints of a line.
    Whole {
        /// Line number.
        line: u32,
        /// How many.
        count: u32,
    },
}

/// Pipe thrown away.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Scrapped {
    /// Pipe that lies.
    Lot(Lot),
    /// All that is not cut yet of a begun joint.
    Joint(u32),
}

/// A splice welded.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Welded {
    /// The line: `piece` is `None`.
    pub line: PieceId,
    /// Which splice from the latch end, 1..; `None`: all that are open.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub splice: Option<u32>,
}

/// One gate of an order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GateCopy {
    /// Order mark.
    pub mark: String,
    /// Copy, 1...
    pub copy: u32,
}

/// Orders changed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Changed {
    /// Rows.
    pub rows: Vec<ChangedRow>,
}

/// A row of orders.csv before and after.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChangedRow {
    /// Order mark.
    pub mark: String,
    /// The row as it was; `None`: it was not there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub before: Option<String>,
    /// The row as it is; `None`: it went.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after: Option<String>,
}

/// What is not wanted any more.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Withdrawn {
    /// A gate.
    Gate {
        /// Order mark.
        mark: String,
        /// Copy; `None`: every copy.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        copy: Option<u32>,
    },
    /// The whole plan.
    Plan,
}

/// A piece coped at its ends.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Coped {
    /// The piece.
    pub piece: PieceId,
}

/// What is accepted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Accepted {
    /// A piece measured off by more than the tolerance counts as its part.
    Piece(PieceId),
    /// An entry held as a question is true.
    Entry(EntryId),
}

/// Pipe kept for the entry's week, or free again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reserved {
    /// The pipe.
    pub lot: Lot,
}

/// A finished piece that is stock again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Recut {
    /// The piece.
    pub piece: PieceId,
    /// Tag painted on it.
    pub tag: String,
    /// Length that can be used; `None`: all of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Length>,
}

/// Entries that count no more.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Undone {
    /// The entry.
    pub entry: EntryId,
    /// Later entries that hang on it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub with: Vec<EntryId>,
}
