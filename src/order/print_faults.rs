//! Faults → the report for the terminal.

use std::fmt::Write;

use super::{Fault, Severity};

/// One block per fault (place, value, what is wrong, how to mend it) and a closing count.
pub fn print_faults(faults: &[Fault]) -> String {
    let mut out = String::new();
    for f in faults {
        // Writing to a String cannot fail.
        let _ = writeln!(out, "{}", block(f));
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

fn counted(n: usize, word: &str) -> String {
    format!("{n} {word}{}", if n == 1 { "" } else { "s" })
}

fn block(f: &Fault) -> String {
    let mut place = shown(&f.place());
    if let Some(column) = &f.column {
        place += &format!(", {}", shown(column));
    }
    let word = match f.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Note => "note",
    };
    let value = match &f.value {
        Some(value) => format!("  value: {}\n", shown(value)),
        None => String::new(),
    };
    // What concerns no single row has no place.
    let at = if place.is_empty() { "" } else { ": " };
    format!(
        "{place}{at}{word}: {}\n{value}  mend:  {}\n",
        f.what, f.mend
    )
}

/// Longest value shown.
const LONGEST: usize = 60;

/// Control characters made visible, long values cut.
fn shown(text: &str) -> String {
    let mut out: String = text
        .chars()
        .take(LONGEST)
        .flat_map(|c| {
            let plain = !c.is_control() && !matches!(c, '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
            if plain { vec![c] } else { c.escape_unicode().collect() }
        })
        .collect();
    if text.chars().count() > LONGEST {
        out.push('…');
    }
    out
}
