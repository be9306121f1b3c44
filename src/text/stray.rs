//! Rows and cells that stand beside a list: cells past its last column, rows that nobody sees. Each kind is told
//! once, with every line it is in.

use super::Snag;
use super::table::Row;
use super::workbook::cell_name;
use crate::measure::FaultCode;

/// Lines named before the rest are counted.
const NAMED: usize = 8;

/// `5`, `5 and 7 to 9`; after some the rest are counted.
pub(super) fn line_list(lines: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &line in lines {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == line => *last = line,
            _ => runs.push((line, line)),
        }
    }
    let mut words: Vec<String> = runs
        .iter()
        .take(NAMED)
        .map(|(from, to)| match to - from {
            0 => from.to_string(),
            1 => format!("{from}, {to}"),
            _ => format!("{from} to {to}"),
        })
        .collect();
    if runs.len() > NAMED {
        words.push(format!("{} more", runs.len() - NAMED));
    }
    let last = words.pop().unwrap_or_default();
    if words.is_empty() {
        return last;
    }
    format!("{} and {last}", words.join(", "))
}

/// Gives every row just as many cells as the header; filled cells past the header are one snag of a kind.
pub(super) fn even_out(rows: &mut [Row], width: usize, commas: bool, snags: &mut Vec<Snag>) {
    let (mut split, mut stray) = (Vec::new(), Vec::new());
    for row in rows.iter_mut() {
        let mut extra = row.cells.iter().enumerate().skip(width);
        if let Some((at, cell)) = extra.find(|(_, c)| !c.is_empty()) {
            // A comma inside a cell pushes all that follows to the right; a cell set apart was typed there.
            let pushed = commas
                && at == width
                && row
                    .cells
                    .get(width.wrapping_sub(1))
                    .is_some_and(|c| !c.is_empty());
            let list = if pushed { &mut split } else { &mut stray };
            list.push((row.line, at, cell.clone()));
        }
        row.cells.resize(width, String::new());
    }
    snags.extend(past(
        &split,
        "the row has more cells than the header has columns",
        "put cells that hold a comma in quotation marks, each closed (an inch mark in such a cell is written twice), \
         or name the column",
    ));
    snags.extend(past(
        &stray,
        "a cell stands to the right of the last named column",
        "name the column, or empty it; a heading that starts with # is left alone",
    ));
}

/// The first of such cells, and the other lines that have one.
fn past(found: &[(u32, usize, String)], what: &str, mend: &str) -> Option<Snag> {
    let ((line, at, cell), others) = found.split_first()?;
    let others: Vec<u32> = others.iter().map(|o| o.0).collect();
    let also = match others.as_slice() {
        [] => String::new(),
        [one] => format!(" (also in line {one})"),
        many => format!(" (also in lines {})", line_list(many)),
    };
    Some(Snag {
        code: FaultCode::CellAstray,
        value: Some(cell.clone()),
        cell: Some(cell_name(*at, *line)),
        ..Snag::stop(Some(*line), &format!("{what}{also}"), mend)
    })
}

/// Rows of a workbook that are hidden and read all the same.
pub(super) fn hidden_rows(rows: &[u32], filtered: bool) -> Option<Snag> {
    let first = rows.first()?;
    let by = if filtered { " by a filter" } else { "" };
    let what = match rows {
        [one] => format!("row {one} is hidden{by} and is read all the same"),
        many => format!(
            "rows {} are hidden{by} and are read all the same",
            line_list(many)
        ),
    };
    Some(Snag::remark(
        Some(*first),
        &what,
        "show them to see what is ordered; take them away if they are not meant",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_told_in_runs() {
        assert_eq!(line_list(&[5]), "5");
        assert_eq!(line_list(&[5, 6]), "5, 6");
        assert_eq!(line_list(&[5, 7, 8, 9]), "5 and 7 to 9");
        let many: Vec<u32> = (1..30).map(|n| n * 2).collect();
        assert!(line_list(&many).ends_with("16 and 21 more"));
    }
}
