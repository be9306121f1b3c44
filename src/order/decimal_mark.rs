//! Decimal point or decimal comma: one of the two in a file, else some number is not what it says.

use crate::measure::{Misread, has_decimal_comma, has_decimal_point, reads_as_thousands};

/// How the numbers of a file mark their decimals: how many either way, and the first of each.
#[derive(Clone, Debug, Default)]
pub(super) struct DecimalMark {
    commas: Seen,
    points: Seen,
}

#[derive(Clone, Debug, Default)]
struct Seen {
    count: usize,
    first: Option<(u32, String)>,
}

impl Seen {
    fn add(&mut self, line: u32, number: &str) {
        self.count += 1;
        self.first.get_or_insert_with(|| (line, number.to_owned()));
    }
}

impl DecimalMark {
    /// From the cells, with their lines, of every column that holds numbers.
    pub fn of<'a>(cells: impl Iterator<Item = (u32, &'a str)>) -> DecimalMark {
        let mut mark = DecimalMark::default();
        for (line, cell) in cells {
            let number = bare(cell);
            if has_decimal_comma(number) {
                mark.commas.add(line, number);
            } else if has_decimal_point(number) {
                mark.points.add(line, number);
            }
        }
        mark
    }

    /// Why this number may not be what it says among the others of its file; `None` when it may. The mark
    /// that fewer numbers have is the odd one; of as many, the comma.
    pub fn doubt(&self, cell: &str) -> Option<Misread> {
        let number = bare(cell);
        let by_comma = self.commas.count > self.points.count;
        if by_comma && reads_as_thousands(number) {
            let comma = number.replace('.', ",");
            let short = comma.trim_end_matches('0').trim_end_matches(',');
            return Some(Misread::two_readings(
                "the point can be read two ways in a file of decimal commas",
                &format!("write {} or {short}", number.replace('.', "")),
            ));
        }
        let (odd, own, others, rule) = if by_comma {
            (has_decimal_point(number), "point", &self.commas, "comma")
        } else {
            (has_decimal_comma(number), "comma", &self.points, "point")
        };
        let (line, other) = others.first.as_ref().filter(|_| odd)?;
        Some(Misread::new(
            &format!(
                "it has a decimal {own}, the numbers of this file have a decimal {rule} ({other} in line {line})"
            ),
            &format!("write {}", exchanged(number)),
        ))
    }
}

/// Without a currency's sign or code and a percent sign. A length with its unit is no bare number: its
/// mark is its own.
fn bare(cell: &str) -> &str {
    let beside = |c: char| c.is_whitespace() || c.is_ascii_uppercase() || "$€£¥%".contains(c);
    cell.trim_matches(beside)
}

/// Points for commas and commas for points.
fn exchanged(number: &str) -> String {
    let other = |c| match c {
        '.' => ',',
        ',' => '.',
        c => c,
    };
    number.chars().map(other).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn doubt(others: &[&str], number: &str) -> Option<(String, String)> {
        let cells = others.iter().chain([&number]);
        let mark = DecimalMark::of(cells.map(|cell| (7, *cell)));
        mark.doubt(number).map(|m| (m.what, m.mend))
    }

    #[test]
    fn the_mark_that_fewer_have_is_asked_about() {
        let (what, mend) = doubt(&["3.48", "$ 2.62"], "1,28").expect("odd");
        assert!(what.contains("3.48 in line 7"), "{what}");
        assert_eq!(mend, "write 1.28");
        let mend = |others: &[&str], number| doubt(others, number).map(|d| d.1);
        assert_eq!(mend(&["3.48"], "$1,28").as_deref(), Some("write 1.28"));
        assert_eq!(mend(&["3,48", "2,62"], "1.5").as_deref(), Some("write 1,5"));
        assert_eq!(
            mend(&["3,48"], "1.450").as_deref(),
            Some("write 1450 or 1,45")
        );
        assert_eq!(
            mend(&["1,450.00"], "1.450,00 EUR").as_deref(),
            Some("write 1,450.00")
        );
    }

    #[test]
    fn numbers_alike_and_lengths_with_units_pass() {
        for (others, number) in [
            (&["3,48", "12"][..], "1,28"),
            (&["3.48", "1,200"], "1.28"),
            (&[], "1,28"),
            (&["21.5 ft", "3.48"], "6,4 m"),
            (&["3,48", "6.4 m"], "10'-6.5\""),
        ] {
            assert_eq!(doubt(others, number), None, "{others:?} {number}");
        }
    }
}
