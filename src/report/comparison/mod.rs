//! `Comparison` → its sheet (text, CSV, workbook), its plots (SVG, PNG) and its document.

mod bars;
mod document;
mod plots;
mod sheet;
mod turn_words;
mod weeks;
mod words;

pub use weeks::{weeks_results, weeks_text};

use crate::compare::Comparison;
use crate::report::draw::Page;

use super::figures::Figures;
use super::print_text::print_text;
use super::sheet::Heading;
use super::workbook::one_table;
use super::{ResultFile, ResultsFault, bytes, png, print, svg};

/// Name of the document in a comparison's folder.
pub const DOCUMENT: &str = "comparison.json";
/// The document's `format`, by which a comparison's folder is known as ours.
pub const FORMAT: &str = "longpoint comparison";
/// Name of the workbook.
const WORKBOOK: &str = "comparison.xlsx";

/// The comparison as text, for the screen.
pub fn text(comparison: &Comparison, date: Option<&str>) -> String {
    print_text(&sheet::sheet(comparison, heading(comparison, date)))
}

/// The comparison as its document: JSON, ending in a line break.
///
/// # Errors
/// When a figure cannot be written as JSON, which no checked plan holds.
pub fn document(
    comparison: &Comparison,
    date: Option<&str>,
    files: &[String],
) -> Result<String, serde_json::Error> {
    document::document(comparison, date, files)
}

/// The comparison's folder: sheet as text, CSV and workbook, plots as SVG and PNG, and last the
/// document, which names them all.
///
/// # Errors
/// When a figure cannot be written as JSON or in a workbook, which no checked plan holds.
pub fn results(
    comparison: &Comparison,
    date: Option<&str>,
) -> Result<Vec<ResultFile>, ResultsFault> {
    let sheet = sheet::sheet(comparison, heading(comparison, date));
    let mut files: Vec<ResultFile> = print(std::slice::from_ref(&sheet))
        .into_iter()
        .map(bytes)
        .collect();
    let units = comparison.week.shop.units;
    files.push((WORKBOOK.to_owned(), one_table(&sheet, "Comparison", units)?));
    for (stem, page) in plots::plots(comparison) {
        files.push(bytes((format!("{stem}.svg"), svg::file(&page))));
        files.extend(png_file(&stem, &page));
    }
    let mut names: Vec<String> = files.iter().map(|(name, _)| name.clone()).collect();
    names.push(DOCUMENT.to_owned());
    let text = document::document(comparison, date, &names)?;
    files.push(bytes((DOCUMENT.to_owned(), text)));
    Ok(files)
}

fn png_file(stem: &str, page: &Page) -> Option<ResultFile> {
    Some((format!("{stem}.png"), png::file(page)?))
}

fn heading(comparison: &Comparison, date: Option<&str>) -> Heading {
    let plan = comparison.rows.first().and_then(|r| r.figures());
    Heading {
        shop: super::table::clean(&comparison.week.shop.name),
        plan: plan.map(|f| f.plan.clone()).unwrap_or_default(),
        revision: "0".to_owned(),
        date: date.map(super::table::clean).unwrap_or_default(),
        ..Heading::default()
    }
}

fn figures(comparison: &Comparison) -> Figures<'_> {
    Figures::of(&comparison.week)
}
