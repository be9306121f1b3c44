//! Faults → the report for the terminal.

use std::collections::BTreeMap;
use std::fmt::Write;

use super::{Fault, Severity};
use crate::text::shown;

/// Most faults of one file that are told: whoever mends these may see the rest after.
const MOST: usize = 50;

/// One block per fault (place, value, what is wrong, how to mend it) and a closing count.
///
/// Of a file with very many faults the first fifty are told, errors before warnings, with a count of the rest.
pub fn print_faults(faults: &[Fault]) -> String {
    let mut out = String::new();
    let told = told(faults);
    for (f, told) in faults.iter().zip(&told) {
        if *told {
            // Writing to a String cannot fail.
            let _ = writeln!(out, "{}", block(f));
        }
    }
    for (file, rest) in left_out(faults, &told) {
        let at = if file.is_empty() {
            String::new()
        } else {
            format!("{}: ", tail(file))
        };
        let _ = writeln!(
            out,
            "{at}{rest} more like these are not shown; mend these first.\n"
        );
    }
    let count = |s: Severity| faults.iter().filter(|f| f.severity == s).count();
    // A gate that cannot be made is found later: that there is no error is not said before.
    let errors = count(Severity::Error);
    let errors = (errors > 0).then(|| counted(errors, "error"));
    let rest = [(Severity::Warning, "warning"), (Severity::Note, "note")];
    let rest = rest.map(|(severity, word)| counted(count(severity), word));
    let there: Vec<String> = errors.into_iter().chain(rest).collect();
    let _ = writeln!(out, "{}.", there.join(", "));
    out
}

/// Which of the faults are told.
fn told(faults: &[Fault]) -> Vec<bool> {
    let mut told = vec![false; faults.len()];
    let mut of_file: BTreeMap<&str, usize> = BTreeMap::new();
    for severity in [Severity::Error, Severity::Warning, Severity::Note] {
        let mut at = faults.iter().zip(&mut told);
        let own = at.by_ref().filter(|(f, _)| f.severity == severity);
        for (f, told) in own {
            let count = of_file.entry(&f.file).or_default();
            *told = *count < MOST;
            *count += 1;
        }
    }
    told
}

/// Files of whose faults some are not told, with their number.
fn left_out<'a>(faults: &'a [Fault], told: &[bool]) -> BTreeMap<&'a str, usize> {
    let mut rest = BTreeMap::new();
    for (f, _) in faults.iter().zip(told).filter(|(_, told)| !**told) {
        *rest.entry(f.file.as_str()).or_default() += 1;
    }
    rest
}

fn counted(n: usize, word: &str) -> String {
    format!("{n} {word}{}", if n == 1 { "" } else { "s" })
}

fn block(f: &Fault) -> String {
    let place = f.place();
    let mut place = tail(&f.file) + &short(place.strip_prefix(f.file.as_str()).unwrap_or(&place));
    if let Some(column) = &f.column {
        place += &format!(", {}", short(column));
    }
    let word = match f.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Note => "note",
    };
    let value = match &f.value {
        Some(value) => format!("  value: {}\n", short(value)),
        None => String::new(),
    };
    // What concerns no single row has no place.
    let at = if place.is_empty() { "" } else { ": " };
    format!(
        "{place}{at}{word}: {}\n{value}  mend:  {}\n",
        shown(&f.what),
        shown(&f.mend)
    )
}

/// Longest value shown.
const LONGEST: usize = 60;

/// Foreign text made safe to show, long values cut.
fn short(text: &str) -> String {
    let cut: String = text.chars().take(LONGEST).collect();
    let more = if cut.len() < text.len() { "…" } else { "" };
    shown(&cut) + more
}

/// A file's name made safe to show; of a long path its end, which tells it from others.
fn tail(text: &str) -> String {
    let over = text.chars().count().saturating_sub(LONGEST);
    let cut: String = text.chars().skip(over).collect();
    let more = if over > 0 { "…" } else { "" };
    more.to_owned() + &shown(&cut)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(file: &str, severity: Severity, line: u32) -> Fault {
        Fault {
            severity,
            code: crate::measure::FaultCode::ValueUnreadable,
            file: file.to_owned(),
            sheet: None,
            line: Some(line),
            cell: None,
            column: None,
            value: Some("a\nb".to_owned()),
            what: format!("wrong \u{1b} {line}"),
            mend: "mend\nit".to_owned(),
        }
    }

    /// Common practice, no source: the first screens of a list are what anybody reads.
    #[test]
    fn of_very_many_faults_the_first_are_told_errors_before_warnings() {
        let mut list: Vec<Fault> = (1..=80)
            .map(|n| fault("orders.csv", Severity::Warning, n))
            .collect();
        list.push(fault("orders.csv", Severity::Error, 81));
        list.extend((1..=50).map(|n| fault("stock.csv", Severity::Error, n)));
        let said = print_faults(&list);
        assert_eq!(said.matches("orders.csv, line").count(), MOST);
        assert!(said.contains("orders.csv, line 81: error"), "{said}");
        assert!(
            said.contains("orders.csv, line 49:") && !said.contains("orders.csv, line 50:"),
            "{said}"
        );
        assert!(
            said.contains("orders.csv: 31 more like these are not shown"),
            "{said}"
        );
        assert_eq!(said.matches("stock.csv, line").count(), MOST);
        assert!(!said.contains("stock.csv: "), "{said}");
        assert!(
            said.ends_with("51 errors, 80 warnings, 0 notes.\n"),
            "{said}"
        );
    }

    #[test]
    fn foreign_text_stands_on_one_line_and_steers_nothing() {
        let said = print_faults(&[fault("a\nb.csv", Severity::Error, 1)]);
        assert!(
            said.contains("a\\u{a}b.csv, line 1: error: wrong \\u{1b} 1\n"),
            "{said}"
        );
        assert!(
            said.contains("value: a\\u{a}b\n  mend:  mend\\u{a}it\n"),
            "{said}"
        );
    }
}
