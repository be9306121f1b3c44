//! Characters → rows and settings that remember where they stand; no judgement.
//!
//! [`decode`] makes text of any bytes, [`Table::read`] makes rows of spreadsheet text or a workbook as it comes,
//! [`Settings::read`] makes a tree of TOML. What could not be read is a [`Snag`]; whoever knows the
//! user's words turns it into a fault. [`shown`] writes out what in foreign text would steer a screen.

mod cell_text;
mod container;
mod decode;
mod quotes;
mod settings;
mod sheet_parts;
mod shown;
mod source_file;
mod stray;
mod table;
mod table_size;
mod workbook;

pub use cell_text::unit_of;
pub use decode::{Decoded, decode};
pub use settings::{Entry, Item, Settings, Value};
pub use shown::{shown, shown_json, shown_lines};
pub use source_file::{Snag, SourceFile};
pub use table::{Row, Table};
pub use workbook::{cell_name, is_workbook};
