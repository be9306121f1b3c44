//! Quotation marks around cells: curly pairs become straight ones, one never closed is found.

/// What [`straighten`] found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Straightened {
    /// The text; as many lines as before.
    pub text: String,
    /// Byte (in `text`) of a quotation mark that opens a cell and is never closed.
    pub unclosed: Option<usize>,
}

/// Turns `“cell”` into `"cell"`. A lone ” (an inch mark) stays.
pub(super) fn straighten(text: &str, delimiter: char) -> Straightened {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    let mut unclosed = None;
    while !rest.is_empty() {
        let cell = rest.trim_start_matches([' ', '\u{FEFF}']);
        if cell.starts_with('"') && cell.len() == rest.len() {
            let end = quoted_end(rest);
            if end.is_none() {
                unclosed = Some(out.len());
            }
            let end = end.unwrap_or(rest.len());
            out.push_str(&rest[..end]);
            rest = &rest[end..];
        } else if let Some(inner) = curly_cell(cell, delimiter) {
            out.push('"');
            out.push_str(&inner.replace('"', "\"\""));
            out.push('"');
            rest = &cell['“'.len_utf8() + inner.len() + '”'.len_utf8()..];
        }
        let stop = rest.find([delimiter, '\n']).map_or(rest.len(), |at| at + 1);
        out.push_str(&rest[..stop]);
        rest = &rest[stop..];
    }
    Straightened {
        text: out,
        unclosed,
    }
}

/// End of a cell that starts with `"`: just past its closing mark (doubled marks stand for one).
fn quoted_end(cell: &str) -> Option<usize> {
    let mut at = 1;
    loop {
        at += cell[at..].find('"')? + 1;
        if !cell[at..].starts_with('"') {
            return Some(at);
        }
        at += 1;
    }
}

/// What stands between `“` and the `”` that ends the cell, on one line.
fn curly_cell(cell: &str, delimiter: char) -> Option<&str> {
    let inner = cell.strip_prefix('“')?;
    let line = &inner[..inner.find('\n').unwrap_or(inner.len())];
    let ends = |at: usize| {
        let after = line[at + '”'.len_utf8()..].trim_start_matches(' ');
        after.is_empty() || after.starts_with(delimiter)
    };
    let close = line
        .match_indices('”')
        .map(|(at, _)| at)
        .find(|&at| ends(at))?;
    Some(&line[..close])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn straightens_pairs_and_leaves_inch_marks() {
        let s = straighten("a, “b, 6\"c” ,13’-6”\n\"x “y”, z\",d", ',');
        assert_eq!(s.text, "a,\"b, 6\"\"c\" ,13’-6”\n\"x “y”, z\",d");
        assert_eq!(s.unclosed, None);
        assert_eq!(straighten("“never", ',').text, "“never");
    }

    #[test]
    fn finds_the_mark_that_is_never_closed() {
        assert_eq!(straighten("a,\"b\nc,d", ',').unclosed, Some(2));
        assert_eq!(straighten("a,\"b\"\"\",c", ',').unclosed, None);
        assert_eq!(straighten("12'-6\",c", ',').unclosed, None);
        assert_eq!(straighten("\"", ',').unclosed, Some(0));
    }
}
