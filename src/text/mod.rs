//! Characters → rows and settings that remember where they stand; no judgement.
//!
//! [`decode`] makes text of any bytes, [`Table::read`] makes rows of spreadsheet text as it comes,
//! [`Settings::read`] makes a tree of TOML. What could not be read is a [`Snag`]; whoever knows the
//! user's words turns it into a fault.

mod decode;
mod quotes;
mod settings;
mod source_file;
mod table;

pub use decode::{Decoded, decode};
pub use settings::{Entry, Item, Settings, Value};
pub use source_file::{Snag, SourceFile};
pub use table::{Row, Table};
