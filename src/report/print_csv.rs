//! Sheet → CSV: numbers as numbers, printed forms beside them, text that no spreadsheet runs.

use super::sheet::{Heading, Sheet};
use super::table::{Cell, DASH, Kind, Table};
use super::wrap::soften;

/// Spreadsheets need it to read UTF-8 names in any script.
pub(super) const BYTE_ORDER_MARK: &str = "\u{feff}";

/// The sheet's records as CSV (RFC 4180, UTF-8 with mark), every row carrying plan number, revision
/// and date; `None` when the sheet is paper only.
pub(super) fn print_csv(sheet: &Sheet) -> Option<String> {
    let records = sheet.records.as_ref()?;
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let mut rows = vec![head(records)];
    rows.extend(records.rows.iter().map(|r| row(records, r, &sheet.heading)));
    for row in rows {
        // Writing to memory fails for no reason but unequal rows, and all rows follow `columns`.
        writer.write_record(&row).ok()?;
    }
    let bytes = writer.into_inner().ok()?;
    Some(format!(
        "{BYTE_ORDER_MARK}{}",
        String::from_utf8(bytes).ok()?
    ))
}

fn head(table: &Table) -> Vec<String> {
    let mut names = Vec::new();
    for column in &table.columns {
        names.push(column.name.clone());
        if column.kind == Kind::Figure {
            names.push(format!("{}_printed", without_unit(&column.name)));
        }
    }
    names.extend(["plan", "revision", "date"].map(str::to_owned));
    names
}

/// `saw_length_in` → `saw_length`.
fn without_unit(name: &str) -> &str {
    ["_in", "_mm"]
        .iter()
        .find_map(|unit| name.strip_suffix(unit))
        .unwrap_or(name)
}

fn row(table: &Table, cells: &[Cell], heading: &Heading) -> Vec<String> {
    let mut out = Vec::new();
    for (column, cell) in table.columns.iter().zip(cells) {
        match (column.kind, cell) {
            (Kind::Words | Kind::Mark, cell) => out.push(safe(cell.printed())),
            (_, Cell::Figure { number, .. }) => out.push(number.normalize().to_string()),
            (_, Cell::Text(words)) => out.push(safe(words)),
            (_, Cell::Missing) => out.push(String::new()),
        }
        if column.kind == Kind::Figure {
            out.push(safe(cell.printed()));
        }
    }
    let date = if heading.date.is_empty() {
        DASH
    } else {
        &heading.date
    };
    out.extend([safe(&heading.plan), safe(&heading.revision), safe(date)]);
    out
}

/// What a spreadsheet takes for the beginning of a formula; the wide forms are its East Asian ones.
const FORMULA: [char; 10] = ['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠'];

/// Text that a spreadsheet would take for a formula gets an apostrophe in front, the sign by which
/// spreadsheets know text.
///
/// Where the system's list separator is a semicolon a spreadsheet also splits cells at one inside our text,
/// so what follows it counts as a beginning, too, behind spaces and quotation marks.
pub(super) fn safe(text: &str) -> String {
    let text = soften(text);
    let mut out = String::with_capacity(text.len());
    let mut begins = true;
    let mut split = false;
    for c in text.chars() {
        if begins && FORMULA.contains(&c) {
            out.push('\'');
        }
        out.push(c);
        split |= c == ';';
        begins = c == ';' || (begins && split && matches!(c, ' ' | '"'));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::super::table::Column;
    use super::*;

    /// Common practice, no source: how spreadsheets guess at formulas in text files.
    #[test]
    fn no_cell_begins_a_formula_whatever_separates_cells() {
        for (text, want) in [
            ("=1+1", "'=1+1"),
            ("＝1+1", "'＝1+1"),
            ("a;=1+1", "a;'=1+1"),
            ("a; \"-1; @b;c", "a; \"'-1; '@b;c"),
            (";;+1", ";;'+1"),
            ("a;b=c-d", "a;b=c-d"),
            ("5 -3", "5 -3"),
            ("\"=1", "\"=1"),
        ] {
            assert_eq!(safe(text), want, "{text}");
        }
    }

    #[test]
    fn numbers_stay_numbers_and_formulas_become_text() {
        let sheet = Sheet {
            stem: "x".to_owned(),
            title: "X".to_owned(),
            heading: Heading {
                plan: "P1".to_owned(),
                revision: "2".to_owned(),
                ..Heading::default()
            },
            blocks: vec![],
            records: Some(Table {
                columns: vec![
                    Column::new("note", Kind::Words),
                    Column::named("saw length", "saw_length_in", Kind::Figure),
                    Column::new("count", Kind::Number),
                ],
                rows: vec![
                    vec![
                        Cell::text("=1+1"),
                        Cell::Figure {
                            number: "68.1875".parse().unwrap(),
                            printed: "5'-8 3/16\"".to_owned(),
                        },
                        Cell::count(3),
                    ],
                    vec![Cell::Missing, Cell::Missing, Cell::Missing],
                ],
            }),
        };
        let text = print_csv(&sheet).unwrap();
        let want = "\u{feff}note,saw_length_in,saw_length_printed,count,plan,revision,date\r\n\
                    '=1+1,68.1875,\"5'-8 3/16\"\"\",3,P1,2,–\r\n\
                    –,,–,,P1,2,–\r\n";
        assert_eq!(text, want);
    }
}
