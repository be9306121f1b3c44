//! `Table`: spreadsheet text or a workbook as it comes → one header and rows that remember their lines.
//!
//! Forgives: commas, semicolons or tabs between cells; title rows above the header; blank rows;
//! spaces and curly quotes around cells; rows shorter than the header.

use super::decode::line_at;
use super::quotes::straighten;
use super::stray::{even_out, hidden_rows};
use super::table_size::too_large;
use super::workbook::{Tab, is_workbook, tabs};
use super::{Snag, SourceFile, decode};

/// How many rows from the top are searched for the header.
const HEADER_WITHIN: usize = 20;

/// One row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// 1-based line on which it starts; in a workbook its row.
    pub line: u32,
    /// Its cells, trimmed.
    pub cells: Vec<String>,
}

/// A file as header and rows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// File name.
    pub file: String,
    /// The sheet it stands on, when the file is a workbook.
    pub sheet: Option<String>,
    /// Header cells as written, and its line. No cells: no header was found.
    pub header: Row,
    /// The rows below it; blank rows left out. Each has as many cells as the header.
    pub rows: Vec<Row>,
    /// What could not be read.
    pub snags: Vec<Snag>,
}

impl Table {
    /// Reads a table. `known` says whether a cell is a column name: the header is the first row
    /// that holds two of them (or one, when no row holds two).
    ///
    /// Of a workbook the sheet is read that bears the file's name (`orders`), else the one sheet that
    /// has such a header; more than one is a snag.
    pub fn read(file: &SourceFile, known: impl Fn(&str) -> bool) -> Table {
        if is_workbook(&file.name) {
            return of_workbook(file, &known);
        }
        let decoded = decode(&file.bytes);
        if let Some(snag) = too_large(&decoded.text) {
            return Table::none(vec![snag]).of(file, None);
        }
        let mut snags = decoded.snags;
        let found = likeliest(&decoded.text, &known);
        let mut rows = found.rows;
        if let Some(line) = found.unclosed {
            snags.push(Snag::stop(
                Some(line),
                "a quotation mark opens a cell in this row and is never closed: nothing behind it was read",
                "close it, or take it away",
            ));
            // The row swallowed the rest of the file: its cells would only give faults of their own.
            rows.truncate(rows.len().saturating_sub(1).max(found.at + 1));
        }
        Table::below((found.hits, found.at), rows, snags, &known, true).of(file, None)
    }

    /// Header and rows of the rows of one table; `at` is the header's place among them. `commas`: its cells were
    /// told apart by separators.
    fn below(
        (hits, at): (usize, usize),
        mut rows: Vec<Row>,
        mut snags: Vec<Snag>,
        known: &impl Fn(&str) -> bool,
        commas: bool,
    ) -> Table {
        if hits == 0 {
            if !snags.iter().any(|s| s.stops) {
                snags.push(no_header(&rows));
            }
            return Table::none(snags);
        }
        let mut rows: Vec<Row> = rows.drain(at..).collect();
        let mut header = rows.remove(0);
        while header.cells.last().is_some_and(String::is_empty) {
            header.cells.pop();
        }
        if let Some(other) = rows
            .iter()
            .position(|r| heads(r, known) && !repeats(&header, r))
        {
            snags.push(Snag::stop(
                Some(rows[other].line),
                "other headings stand here: nothing below them was read",
                "put one list in a file: bring the rows below under the first headings, or take them away",
            ));
            rows.truncate(other);
        }
        even_out(&mut rows, header.cells.len(), commas, &mut snags);
        rows.retain(|row| {
            let again = repeats(&header, row);
            if again {
                snags.push(Snag::stop(
                    Some(row.line),
                    "the headings stand here a second time",
                    "take this row away; the rows below it may stay",
                ));
            }
            !again
        });
        Table {
            header,
            rows,
            ..Table::none(snags)
        }
    }

    /// A table of which nothing can be read.
    fn none(snags: Vec<Snag>) -> Table {
        Table {
            file: String::new(),
            sheet: None,
            header: Row {
                line: 1,
                cells: Vec::new(),
            },
            rows: Vec::new(),
            snags,
        }
    }

    /// The same under its file's name; of a workbook's sheet, snags name their cells.
    fn of(mut self, file: &SourceFile, sheet: Option<String>) -> Table {
        self.file.clone_from(&file.name);
        if sheet.is_none() {
            self.snags.iter_mut().for_each(|s| s.cell = None);
        }
        self.sheet = sheet;
        self
    }
}

/// How many column names a row holds.
fn score(known: &impl Fn(&str) -> bool) -> impl Fn(&Row) -> usize {
    |r| r.cells.iter().filter(|c| known(c)).count()
}

/// The table of a workbook, from the sheet that is meant.
fn of_workbook(file: &SourceFile, known: &impl Fn(&str) -> bool) -> Table {
    let tabs = match tabs(&file.bytes) {
        Ok(tabs) => tabs,
        Err(snag) => return Table::none(vec![*snag]).of(file, None),
    };
    let stem = file.name.rsplit_once('.').map_or("", |(stem, _)| stem);
    let found: Vec<((usize, usize), Tab)> = tabs
        .into_iter()
        .map(|tab| (header_of(&tab.rows, &score(known)), tab))
        .collect();
    let most = found.iter().map(|(header, _)| header.0.min(2)).max();
    let named = |tab: &Tab| tab.name.eq_ignore_ascii_case(stem);
    let any_named = found.iter().any(|(_, tab)| named(tab));
    let mut meant = found.into_iter().filter(|(header, tab)| match any_named {
        true => named(tab),
        false => Some(header.0.min(2)) == most,
    });
    let Some((header, tab)) = meant.next() else {
        return Table::none(vec![no_header(&[])]).of(file, None);
    };
    match meant.next() {
        Some((_, other)) if header.0 > 0 => {
            let snag = two_sheets(&tab.name, &other.name, stem);
            Table::none(vec![snag]).of(file, None)
        }
        _ => {
            let first = tab.rows.get(header.1).map_or(0, |row| row.line);
            let hidden: Vec<u32> = tab.hidden.into_iter().filter(|row| *row > first).collect();
            let mut snags = tab.snags;
            snags.extend(hidden_rows(&hidden, tab.filtered));
            Table::below(header, tab.rows, snags, known, false).of(file, Some(tab.name))
        }
    }
}

fn two_sheets(one: &str, other: &str, stem: &str) -> Snag {
    Snag::stop(
        None,
        &format!("the sheets \"{one}\" and \"{other}\" both hold such a list"),
        &format!("name the one that is meant \"{stem}\", or hide the others"),
    )
}

/// The table as one separator would read it.
#[derive(Default)]
struct Candidate {
    hits: usize,
    at: usize,
    rows: Vec<Row>,
    unclosed: Option<u32>,
}

/// The reading whose header holds most column names; commas before semicolons before tabs.
fn likeliest(text: &str, known: &impl Fn(&str) -> bool) -> Candidate {
    let score = score(known);
    let mut best: Option<Candidate> = None;
    for delimiter in [b',', b';', b'\t'] {
        let text = straighten(text, char::from(delimiter));
        let rows = records(&text.text, delimiter);
        let (hits, at) = header_of(&rows, &score);
        if best.as_ref().is_none_or(|b| hits > b.hits) {
            let unclosed = text.unclosed.map(|byte| line_at(&text.text, byte));
            best = Some(Candidate {
                hits,
                at,
                rows,
                unclosed,
            });
        }
    }
    best.unwrap_or_default()
}

fn no_header(rows: &[Row]) -> Snag {
    match rows.first() {
        None => Snag::stop(
            None,
            "the file is empty",
            "give it a header row that names the columns, and one row per line of work",
        ),
        Some(row) => Snag {
            value: Some(row.cells.join(", ")),
            ..Snag::stop(
                Some(row.line),
                "no row names the columns",
                "put a header row above the first row (see `longpoint new`)",
            )
        },
    }
}

/// Best header: (known cells, index); the first row with two or more wins.
fn header_of(rows: &[Row], score: &impl Fn(&Row) -> usize) -> (usize, usize) {
    let mut best = (0, 0);
    for (i, row) in rows.iter().take(HEADER_WITHIN).enumerate() {
        let hits = score(row);
        if hits >= 2 {
            return (hits, i);
        }
        if hits > best.0 {
            best = (hits, i);
        }
    }
    best
}

/// A row of names of columns: two or more, and at least half of its cells.
fn heads(row: &Row, known: &impl Fn(&str) -> bool) -> bool {
    let filled = row.cells.iter().filter(|c| !c.is_empty()).count();
    let named = row.cells.iter().filter(|c| known(c)).count();
    named >= 2 && 2 * named >= filled
}

/// A row that is the header once more, as pasted lists have it.
fn repeats(header: &Row, row: &Row) -> bool {
    let mut pairs = header.cells.iter().zip(&row.cells);
    header.cells.len() >= 2 && pairs.all(|(h, r)| h.eq_ignore_ascii_case(r))
}

/// Every non-blank record with its line.
fn records(text: &str, delimiter: u8) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text.as_bytes());
    let mut rows = Vec::new();
    let (mut line, mut counted) = (1, 0);
    for record in reader.records() {
        // The text is valid UTF-8 and rows may differ in width: the reader has nothing to refuse.
        let Ok(record) = record else { continue };
        let start = record
            .position()
            .and_then(|p| usize::try_from(p.byte()).ok())
            .unwrap_or(counted);
        let start = first_after_blank_lines(text, start).max(counted);
        line += line_at(&text[counted..start], usize::MAX) - 1;
        counted = start;
        let cells: Vec<String> = record.iter().map(clean).collect();
        if cells.iter().any(|c| !c.is_empty()) {
            rows.push(Row { line, cells });
        }
    }
    rows
}

/// The reader's position may stand on line ends that it skips before a record.
fn first_after_blank_lines(text: &str, start: usize) -> usize {
    let rest = text.as_bytes().get(start..).unwrap_or_default();
    start.min(text.len()) + rest.iter().take_while(|&&b| b == b'\n').count()
}

/// Trims a cell and takes off a pair of curly quotes around it.
pub(super) fn clean(cell: &str) -> String {
    let space = |c: char| c.is_whitespace() || c == '\u{FEFF}';
    let cell = cell.trim_matches(space);
    let inner = cell
        .strip_prefix('“')
        .and_then(|c| c.strip_suffix('”'))
        .unwrap_or(cell);
    inner.trim_matches(space).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Table {
        let file = SourceFile {
            name: "t.csv".into(),
            bytes: text.as_bytes().to_vec(),
        };
        Table::read(&file, |c| ["mark", "count", "note"].contains(&c))
    }

    #[test]
    fn forgives_titles_blank_rows_and_every_separator() {
        for sep in [",", ";", "\t"] {
            let text = format!(
                "\u{FEFF}Our week\r\n\r\nmark{sep}count\r\n\r\n  A1 {sep} 2 \r\n{sep}\r\n\r\n“A2”{sep}1\r\n"
            );
            let t = read(&text);
            assert_eq!(t.header.line, 3, "{sep:?}");
            assert_eq!(t.snags, []);
            let rows: Vec<(u32, Vec<&str>)> = t
                .rows
                .iter()
                .map(|r| (r.line, r.cells.iter().map(String::as_str).collect()))
                .collect();
            assert_eq!(rows, [(5, vec!["A1", "2"]), (8, vec!["A2", "1"])]);
        }
    }

    #[test]
    fn counts_lines_past_quoted_line_breaks() {
        let t = read("mark,note\nA1,\"two\nlines\"\nA2,x\n");
        assert_eq!(t.rows[1].line, 4);
        assert_eq!(t.rows[0].cells[1], "two\nlines");
    }

    #[test]
    fn says_when_nothing_names_the_columns() {
        assert_eq!(read("").snags[0].what, "the file is empty");
        assert_eq!(read("x,y\n1,2\n").snags[0].line, Some(1));
        assert!(read("mark,count\nA1,1,stray\n").snags[0].stops);
        assert_eq!(read("mark,note\nA1,\"x\nA2,y\n").snags[0].line, Some(2));
        assert_eq!(read("mark,count\nA1,1,,\n").snags, []);
    }

    #[test]
    fn one_slip_gives_one_snag_and_no_rows_of_its_own() {
        let open = read("mark,note\nA1,x\nA2,\"y\nA3,z\n");
        assert_eq!((open.rows.len(), open.snags.len()), (1, 1));
        let twice = read("mark,note\nA1,x\nMark,note\nA3,z\n");
        assert_eq!((twice.rows.len(), twice.snags.len()), (2, 1));
        assert_eq!(twice.snags[0].line, Some(3));
        let other = read("mark,note\nA1,x\nmark,count,width\nA3,2,9\n");
        assert_eq!((other.rows.len(), other.snags.len()), (1, 1));
        assert_eq!(other.snags[0].line, Some(3));
        // A gate may be called what a column is.
        assert_eq!(read("mark,note\nnote,x\nA3,count\n").rows.len(), 2);
        assert_eq!(read("\"mark,note\nA1,x\n").rows, []);
        assert_eq!(read("\"").rows, []);
    }
}
