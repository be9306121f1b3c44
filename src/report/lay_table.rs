//! Table → lines: natural widths when they fit, else the words wrap first and the marks next.

use super::table::{Cell, Column, Kind, Table};
use super::wrap::{HARD_SPACE, fill, fill_left, soften, width, wrap};

/// Between two columns where there is room, and where there is not.
const GAPS: [usize; 2] = [2, 1];
/// A wrapped column of words is not made narrower than this while others can give.
const LEAST_WORDS: usize = 8;

/// The table as lines no wider than `room`: head, a rule, one or more lines a row.
pub(super) fn lay_table(table: &Table, room: usize) -> Vec<String> {
    let (widths, gap) = widths(table, room);
    let heads: Vec<String> = table.columns.iter().map(|c| c.head.clone()).collect();
    let mut lines = lay_row(table, &heads, &widths, gap);
    let rule: Vec<String> = widths.iter().map(|w| "-".repeat(*w)).collect();
    lines.push(rule.join(&" ".repeat(gap)));
    for row in &table.rows {
        let cells = row.iter().zip(&table.columns);
        let cells: Vec<String> = cells.map(|(c, k)| unbroken(c.printed(), k.kind)).collect();
        lines.extend(lay_row(table, &cells, &widths, gap));
    }
    lines.iter().map(|l| soften(l.trim_end())).collect()
}

/// Widest line on a terminal.
const SCREEN: usize = 80;

/// Columns of words (`true`: figures, set right) and their rows as lines of a terminal.
pub(crate) fn plain_table(columns: &[(&str, bool)], rows: Vec<Vec<String>>) -> Vec<String> {
    let columns = columns.iter().enumerate().map(|(at, (head, right))| {
        let kind = match (right, at) {
            (true, _) => Kind::Figure,
            (false, 0) => Kind::Mark,
            (false, _) => Kind::Words,
        };
        Column::new(head, kind)
    });
    let cells = |row: Vec<String>| row.into_iter().map(Cell::text).collect();
    let table = Table {
        columns: columns.collect(),
        rows: rows.into_iter().map(cells).collect(),
    };
    lay_table(&table, SCREEN)
}

/// A figure or a mark breaks at its spaces only when there is no other way.
fn unbroken(text: &str, kind: Kind) -> String {
    match kind {
        Kind::Words => text.to_owned(),
        Kind::Mark | Kind::Number | Kind::Figure => text.replace(' ', HARD_SPACE),
    }
}

fn lay_row(table: &Table, cells: &[String], widths: &[usize], gap: usize) -> Vec<String> {
    let wrapped: Vec<Vec<String>> = cells
        .iter()
        .zip(widths)
        .map(|(c, w)| wrap(c, (*w).max(1)))
        .collect();
    let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
    let mut lines = Vec::new();
    for i in 0..height {
        let mut line = String::new();
        for (k, (lines_of, w)) in wrapped.iter().zip(widths).enumerate() {
            let part = lines_of.get(i).map_or("", String::as_str);
            if k > 0 {
                line.push_str(&" ".repeat(gap));
            }
            let right = matches!(table.columns[k].kind, Kind::Number | Kind::Figure);
            line.push_str(&if right {
                fill_left(part, *w)
            } else {
                fill(part, *w)
            });
        }
        lines.push(line);
    }
    lines
}

/// Column widths, and the gap between them, so that a line is at most `room` wide: words give way
/// first but none is broken, then the gap, then marks; words break, and figures, only when nothing
/// else is left. Room to spare goes to the heads.
fn widths(table: &Table, room: usize) -> (Vec<usize>, usize) {
    let columns = table.columns.len();
    let natural: Vec<usize> = (0..columns).map(|k| natural(table, k)).collect();
    let whole: Vec<usize> = (0..columns).map(|k| longest_word(table, k)).collect();
    let least = |_: usize| LEAST_WORDS;
    let unbroken = |k: usize| LEAST_WORDS.max(whole[k]);
    let [wide, narrow] = GAPS;
    for gap in [wide, narrow] {
        let room = room.saturating_sub(gap * columns.saturating_sub(1));
        let mut widths = natural.clone();
        let mut give = |kind: Option<Kind>, least: &dyn Fn(usize) -> usize| {
            let of = |k: &usize| kind.is_none_or(|kind| table.columns[*k].kind == kind);
            shrink(&mut widths, room, of, least)
        };
        let fits = give(Some(Kind::Words), &unbroken)
            || gap == narrow
                && (give(Some(Kind::Mark), &least)
                    || give(Some(Kind::Words), &least)
                    || give(None, &|_| 1));
        if fits {
            level_heads(table, &mut widths, room);
            return (widths, gap);
        }
    }
    (vec![1; columns], narrow)
}

/// Takes from the widest of these columns until the line fits; whether it does.
fn shrink(
    widths: &mut [usize],
    room: usize,
    of: impl Fn(&usize) -> bool,
    least: impl Fn(usize) -> usize,
) -> bool {
    while widths.iter().sum::<usize>() > room {
        let widest = (0..widths.len())
            .filter(|k| of(k) && widths[*k] > least(*k))
            .max_by_key(|k| (widths[*k], std::cmp::Reverse(*k)));
        match widest {
            Some(k) => widths[k] -= 1,
            None => return false,
        }
    }
    true
}

/// Gives what room is left to the heads, a line less of the tallest each time, so that they stay level.
fn level_heads(table: &Table, widths: &mut [usize], room: usize) {
    let lines = |k: usize, width: usize| wrap(&table.columns[k].head, width).len();
    loop {
        let left = room.saturating_sub(widths.iter().sum());
        let tallest = (0..widths.len()).map(|k| lines(k, widths[k])).max();
        let Some(tallest) = tallest.filter(|t| *t > 1) else {
            return;
        };
        let less = |k: usize| (1..=left).find(|more| lines(k, widths[k] + more) < tallest);
        let next = (0..widths.len())
            .filter(|k| lines(*k, widths[*k]) == tallest)
            .filter_map(|k| Some((less(k)?, k)))
            .min();
        let Some((more, k)) = next else {
            return;
        };
        widths[k] += more;
    }
}

/// The widest cell, and of the head its widest word.
fn natural(table: &Table, k: usize) -> usize {
    let head = table.columns[k].head.split(' ').map(width).max();
    let cells = table.rows.iter().map(|row| width(row[k].printed())).max();
    head.max(cells).unwrap_or(0).max(1)
}

/// The longest word of a column, in its head and its cells.
fn longest_word(table: &Table, k: usize) -> usize {
    let cells = table.rows.iter().map(|row| row[k].printed());
    let words = cells.chain([table.columns[k].head.as_str()]);
    words
        .flat_map(|w| w.split(' '))
        .map(width)
        .max()
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::super::table::{Cell, Column};
    use super::*;

    #[test]
    fn figures_stand_right_and_heads_wrap() {
        let table = Table {
            columns: vec![
                Column::new("mark", Kind::Mark),
                Column::new("saw length", Kind::Figure),
            ],
            rows: vec![
                vec![Cell::text("A1-V"), Cell::count(7)],
                vec![Cell::text("B"), Cell::Missing],
            ],
        };
        assert_eq!(
            lay_table(&table, 80),
            [
                "mark  saw length",
                "----  ----------",
                "A1-V           7",
                "B              –"
            ]
        );
        assert_eq!(
            lay_table(&table, 13),
            [
                "mark     saw",
                "      length",
                "----  ------",
                "A1-V       7",
                "B          –"
            ]
        );
    }

    /// A word is broken only where even the narrow gap and the narrowest marks leave no room.
    #[test]
    fn no_word_is_broken_while_there_is_another_way() {
        let table = Table {
            columns: vec![
                Column::new("mark", Kind::Mark),
                Column::new("part", Kind::Words),
                Column::new("length", Kind::Figure),
            ],
            rows: vec![vec![
                Cell::text("A4-HB"),
                Cell::text("bottom horizontal"),
                Cell::text("30'-9 5/8\""),
            ]],
        };
        let lines = lay_table(&table, 29);
        assert_eq!(
            lines[2..],
            ["A4-HB  bottom      30'-9 5/8\"", "       horizontal"]
        );
        let lines = lay_table(&table, 27);
        assert_eq!(
            lines[2..],
            ["A4-HB bottom     30'-9 5/8\"", "      horizontal"]
        );
    }

    #[test]
    fn words_give_way_before_figures() {
        let table = Table {
            columns: vec![
                Column::new("note", Kind::Words),
                Column::new("n", Kind::Number),
            ],
            rows: vec![vec![Cell::text("a long remark"), Cell::count(123_456)]],
        };
        let lines = lay_table(&table, 17);
        assert_eq!(lines[2..], ["a long     123456", "remark"]);
    }
}
