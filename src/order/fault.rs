//! What is wrong with an input, where, and how to mend it.

use serde::Serialize;

use crate::measure::FaultCode;

/// How bad a fault is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Nothing can be written.
    Error,
    /// Worth a second look; work goes on.
    Warning,
    /// Said for completeness.
    Note,
}

/// One fault of one place in the input: place + value + what is wrong + how to mend it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fault {
    /// How bad it is.
    pub severity: Severity,
    /// Its kind.
    pub code: FaultCode,
    /// File name as the user knows it (`orders.csv`).
    pub file: String,
    /// Sheet of a workbook; `None` in a text file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sheet: Option<String>,
    /// 1-based line in the file as an editor counts it, or row of the sheet; `None` when the whole
    /// file is meant.
    pub line: Option<u32>,
    /// Cell of the sheet (`C5`); `None` in a text file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cell: Option<String>,
    /// Column name (CSV) or key path (TOML, `saw.kerf`).
    pub column: Option<String>,
    /// The value as written.
    pub value: Option<String>,
    /// What is wrong, in the user's words.
    pub what: String,
    /// How to mend it.
    pub mend: String,
}

impl Fault {
    /// Where it stands: `orders.csv, line 4`, or `orders.xlsx, sheet Week 12, cell C5`.
    pub fn place(&self) -> String {
        let mut place = self.file.clone();
        if let Some(sheet) = &self.sheet {
            place += &format!(", sheet {sheet}");
        }
        match (&self.cell, self.line) {
            (Some(cell), _) => place += &format!(", cell {cell}"),
            (None, Some(line)) => place += &format!(", {}", line_words(&self.file, line)),
            (None, None) => {}
        }
        place
    }
}

/// `line 4` of a text file, `row 4` of a workbook.
pub(super) fn line_words(file: &str, line: u32) -> String {
    let word = if crate::text::is_workbook(file) {
        "row"
    } else {
        "line"
    };
    format!("{word} {line}")
}

/// Work that cannot be done as ordered: names the gate and part, the reason and the smallest
/// change that frees it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Impossible {
    /// Index into `Week::gates`, or `None` for an extra part.
    pub gate: Option<usize>,
    /// Index into `Week::extras` when an extra part is meant.
    pub extra: Option<usize>,
    /// The gate's or extra part's mark; empty where the reason is a sentence by itself, of the whole week.
    pub mark: String,
    /// The part concerned (`A1-HB`), when one is.
    pub part: Option<String>,
    /// The reason, naming the rule that bites and its numbers.
    pub reason: String,
    /// The smallest change that frees it.
    pub change: String,
}

impl Impossible {
    /// What a list says of one gate or plain part for one reason and with one cure, said once: the parts'
    /// marks ("A1-HT, A1-HB"; else its own) with the first of the entries, in the list's order.
    pub fn together(list: &[Impossible]) -> Vec<(String, &Impossible)> {
        let mut out: Vec<(String, &Impossible)> = Vec::new();
        for item in list {
            let part = item.part.as_deref().unwrap_or(&item.mark);
            let same = |(_, first): &&mut (String, &Impossible)| {
                (first.gate, first.extra) == (item.gate, item.extra)
                    && (&first.mark, &first.reason) == (&item.mark, &item.reason)
                    && first.change == item.change
            };
            match out.iter_mut().find(same) {
                Some((parts, _)) => {
                    parts.push_str(", ");
                    parts.push_str(part);
                }
                None => out.push((part.to_owned(), item)),
            }
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::Impossible;

    #[test]
    fn parts_of_a_gate_with_one_reason_are_said_together() {
        let of = |mark: &str, part: &str, reason: &str| Impossible {
            gate: Some(0),
            extra: None,
            mark: mark.to_owned(),
            part: Some(part.to_owned()),
            reason: reason.to_owned(),
            change: "more".to_owned(),
        };
        let list = [
            of("A1", "A1-HT", "late"),
            of("A1", "A1-D", "long"),
            of("A1", "A1-HB", "late"),
        ];
        let said = Impossible::together(&list);
        let parts: Vec<&str> = said.iter().map(|(parts, _)| parts.as_str()).collect();
        assert_eq!(parts, ["A1-HT, A1-HB", "A1-D"]);
    }
}
