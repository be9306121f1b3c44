//! Whether a text can be a list at all: no list has rows of thousands of cells, or millions of cells.

use super::Snag;

/// Most cells in a row: as many as a spreadsheet has columns.
const WIDEST: usize = 16_384;
/// Most cells in all: ten times a list of 20,000 rows and ten columns.
const MOST: usize = 2_000_000;

/// Why a text is no list; each of its cells would take some fifty times its room in the file.
pub(super) fn too_large(text: &str) -> Option<Snag> {
    let mut all = 0;
    for (line, number) in text.as_bytes().split(|b| *b == b'\n').zip(1..) {
        let cells = b",;\t"
            .iter()
            .map(|separator| line.iter().filter(|b| *b == separator).count());
        let cells = cells.max().unwrap_or(0) + 1;
        all += cells;
        if cells > WIDEST {
            return Some(Snag::stop(
                Some(number),
                &format!("this row has {cells} cells: that is no list of a week's work"),
                "give the list itself, a row for each line of work",
            ));
        }
    }
    (all > MOST).then(|| {
        Snag::stop(
            None,
            &format!("the file has {all} cells: that is no list of a week's work"),
            "give the list itself, a row for each line of work",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_pass_and_floods_of_separators_do_not() {
        assert_eq!(too_large("mark,count\nA1,2\n"), None);
        assert_eq!(
            too_large(&"LP1,2-3/8,,\"9'-0\"\"\",2,note\n".repeat(100_000)),
            None
        );
        let wide = format!("mark\n{}\n", ",".repeat(WIDEST));
        let wide = too_large(&wide).expect("too wide");
        assert_eq!((wide.line, wide.stops), (Some(2), true));
        assert!(wide.what.contains("16385 cells"), "{}", wide.what);
        let many = too_large(&";;;;\n".repeat(MOST / 5 + 1)).expect("too many");
        assert_eq!((many.line, many.stops), (None, true));
    }
}
