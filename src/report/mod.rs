//! `CheckedPlan` → sheets → text, CSV, XLSX, JSON, and what is drawn: PDF, SVG, HTML.
//!
//! Data → `Sheet` (blocks to be read, records to be computed with) → one printer per form.
//! Sheets are made from the plan's figures; printers hold no arithmetic. Only a checked plan
//! becomes a sheet; the take-off listing is the one exception and says so in its title.

pub mod bending;
pub mod comparison;
pub mod draw;
pub mod page;
pub mod paper;
pub mod pdf;
pub mod png;
pub mod svg;

mod blade;
mod brace_words;
mod built;
mod buy_list;
mod cautions;
mod cope_kind;
mod cope_scribe;
mod cope_sheet;
mod counted;
mod cut_records;
mod cut_sheet;
mod day_words;
mod document;
mod fault;
mod fewest_joints;
mod figures;
mod freight_words;
mod gap_words;
mod gate_costs;
mod gate_lines;
mod gate_sheet;
mod gate_weight;
mod hand_words;
mod job;
mod joint_block;
mod kit_sheet;
mod kit_words;
mod lay_table;
mod left_out;
mod money_adds_up;
mod order_letter;
mod order_line;
mod parts_sheet;
mod peak_share;
mod piece_ends;
mod planned_length;
mod print_csv;
mod print_text;
mod rack_next;
mod remnants;
mod roller_words;
mod sheet;
mod splice_name;
mod splice_sheet;
mod summary;
mod table;
mod why_ended;
mod window_bar;
mod workbook;
mod wrap;

#[cfg(test)]
mod tests;
#[cfg(test)]
mod world;

pub use built::built_text;
pub use day_words::day_text;
pub use fault::ResultsFault;
pub(crate) use figures::with_currency;
pub(crate) use lay_table::plain_table;
pub use summary::summary;
pub(crate) use why_ended::{endings, why_ended};
pub(crate) use wrap::wrap as wrapped;

use crate::check::CheckedPlan;
use crate::measure::Units;
use crate::order::{Impossible, Week};
use crate::part::TakeOff;

use cope_kind::CopeKinds;
use job::Job;
use sheet::{Heading, Sheet};

/// Name of the document in a results folder.
pub const DOCUMENT: &str = "plan.json";
/// Name of the drawn set in a results folder.
pub const SET: &str = "sheets.pdf";
/// Name of the workbook in a results folder.
pub const WORKBOOK: &str = "week.xlsx";
/// Name of the page for browser and phone in a results folder.
pub const PAGE: &str = "week.html";
/// The document's `format`, by which a results folder is known as ours.
pub const FORMAT: &str = document::PLAN_FORMAT;

/// One file of a results folder: its name and its bytes (all but the PDF are UTF-8 text).
pub type ResultFile = (String, Vec<u8>);

/// The results folder of a checked plan: every sheet as text and as CSV, the workbook, the drawn set for the paper
/// ([`SET`]), the elevations as SVG, and last the document [`DOCUMENT`], which names them all.
///
/// # Errors
/// When a figure cannot be written as JSON, which no checked plan holds, or a table outgrows a
/// workbook.
pub fn results(
    checked: &CheckedPlan,
    paper: paper::Paper,
) -> Result<Vec<ResultFile>, ResultsFault> {
    let job = Job::of(checked);
    // Side by side, then put together in one order: the bytes do not hang on the threads.
    let (drawn, written) = rayon::join(|| drawn(checked, paper), || written(job));
    results_of(job, written?, drawn)
}

/// The drawn set, the page and the elevations.
fn drawn(checked: &CheckedPlan, paper: paper::Paper) -> Vec<ResultFile> {
    let (set, (page, elevations)) = rayon::join(
        || paper::set(checked, paper),
        || (page::page(checked), paper::elevations(checked)),
    );
    let mut files = vec![(SET.to_owned(), set), (PAGE.to_owned(), page.into_bytes())];
    files.extend(elevations.into_iter().map(bytes));
    files
}

/// Every sheet as text and CSV, and the workbook.
fn written(job: Job<'_>) -> Result<Vec<ResultFile>, ResultsFault> {
    let mut sheets = week_sheets(job);
    let mut files: Vec<ResultFile> = print(&sheets).into_iter().map(bytes).collect();
    // What is read of a long list takes much memory; the workbook needs the records alone.
    sheets.iter_mut().for_each(|s| s.blocks = Vec::new());
    files.extend(order_letter::order_letters(job).into_iter().map(bytes));
    files.extend(rack_next::rack_next(job).map(bytes));
    files.push((WORKBOOK.to_owned(), workbook::workbook(job, &sheets)?));
    Ok(files)
}

/// The files together, and last the document that names them all.
fn results_of(
    job: Job<'_>,
    mut files: Vec<ResultFile>,
    drawn: Vec<ResultFile>,
) -> Result<Vec<ResultFile>, ResultsFault> {
    files.extend(drawn);
    let mut names: Vec<String> = files.iter().map(|(name, _)| name.clone()).collect();
    names.push(DOCUMENT.to_owned());
    files.push(bytes((
        DOCUMENT.to_owned(),
        document::plan_document(job, &names)?,
    )));
    Ok(files)
}

fn bytes((name, text): (String, String)) -> ResultFile {
    (name, text.into_bytes())
}

/// The plan's document alone, as in a results folder that holds no other file.
///
/// # Errors
/// As [`results`].
pub fn plan_json(checked: &CheckedPlan) -> Result<String, serde_json::Error> {
    document::plan_document(Job::of(checked), &[DOCUMENT.to_owned()])
}

/// The take-off as one JSON document.
///
/// # Errors
/// As [`results`].
pub fn take_off_json(
    week: &Week,
    take_off: &TakeOff,
    left_out: &[Impossible],
) -> Result<String, serde_json::Error> {
    document::take_off_document(week, take_off, left_out)
}

/// The take-off as text: parts only, nothing nested and nothing checked.
pub fn take_off_text(week: &Week, take_off: &TakeOff) -> String {
    let kinds = CopeKinds::of(take_off, &[]);
    let heading = Heading {
        shop: table::clean(&week.shop.name),
        metric: week.shop.units == Units::Metric,
        ..Heading::default()
    };
    print_text::print_text(&parts_sheet::parts_sheet(
        week,
        take_off,
        &kinds,
        heading,
        &[],
    ))
}

fn week_sheets(job: Job<'_>) -> Vec<Sheet> {
    let kinds = CopeKinds::of(job.take_off, &job.plan.left_out);
    let mut sheets = vec![
        cut_sheet::cut_sheet(job, &kinds),
        gate_sheet::gate_sheet(job),
        cope_sheet::cope_sheet(job, &kinds),
        splice_sheet::splice_sheet(job),
        buy_list::buy_list(job),
        gate_costs::gate_costs(job),
        parts_sheet::parts_sheet(
            job.week,
            job.take_off,
            &kinds,
            job.heading(),
            &job.plan.left_out,
        ),
        remnants::remnants(job),
    ];
    sheets.extend(kit_sheet::kit_sheets(job, &kinds));
    sheets
}

fn print(sheets: &[Sheet]) -> Vec<(String, String)> {
    let mut files = Vec::new();
    for sheet in sheets {
        files.push((format!("{}.txt", sheet.stem), print_text::print_text(sheet)));
        if let Some(csv) = print_csv::print_csv(sheet) {
            files.push((format!("{}.csv", sheet.stem), csv));
        }
    }
    files
}
