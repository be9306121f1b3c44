//! The rows of orders.csv as typed, to tell two versions of it apart.

use std::collections::BTreeMap;

use super::faults::Faults;
use super::orders_file::COLUMNS;
use super::sheet::Sheet;
use crate::text::SourceFile;

/// Rows by mark: what is written in each column. A file that cannot be read has none.
pub fn order_rows(file: &SourceFile) -> BTreeMap<String, String> {
    let sheet = Sheet::open(file, &COLUMNS, &mut Faults::default());
    let rows = sheet.rows().map(|cells| {
        let typed = COLUMNS.iter().map(|c| (c.name, cells.text(c.name)));
        let typed = typed.filter(|(name, text)| *name != "mark" && !text.is_empty());
        let typed: Vec<String> = typed.map(|(name, text)| format!("{name} {text}")).collect();
        (cells.text("mark").to_owned(), typed.join("; "))
    });
    rows.filter(|(mark, _)| !mark.is_empty()).collect()
}
