//! Files of a week's folder that look like one of its lists and are not read: another program's form, or a name
//! a letter off. Nothing of them must pass silently.

use crate::measure::FaultCode;
use std::path::PathBuf;

use crate::order::{Fault, Severity};

/// The lists of a week.
const LISTS: [&str; 5] = ["orders", "stock", "suppliers", "rack", "parts"];
/// Forms of lists that are read.
const READ: [&str; 2] = ["csv", "xlsx"];
/// Other forms in which lists are kept, and how to bring them over.
const OTHER: [(&str, &str); 9] = [
    ("ods", "open it in the spreadsheet and save it as"),
    ("fods", "open it in the spreadsheet and save it as"),
    ("xls", "open it in the spreadsheet and save it as"),
    ("xlsm", "open it in the spreadsheet and save it as"),
    ("xlsb", "open it in the spreadsheet and save it as"),
    ("numbers", "open it in the spreadsheet and export it as"),
    ("tsv", "tabs between cells are read: name it"),
    ("tab", "tabs between cells are read: name it"),
    ("txt", "plain text is read: name it"),
];
/// A name this near to a list's is a slip.
const SLIP: f64 = 0.75;

/// A fault for every such file: an error where the list it would be is not there, else a warning.
pub(super) fn stray_files(paths: &[PathBuf], has: impl Fn(&str) -> bool) -> Vec<Fault> {
    let files = paths.iter().filter(|p| p.is_file());
    let names = files.filter_map(|p| p.file_name()?.to_str());
    names.filter_map(|name| stray(name, &has)).collect()
}

fn stray(name: &str, has: &impl Fn(&str) -> bool) -> Option<Fault> {
    let lower = name.to_lowercase();
    let (stem, form) = lower.rsplit_once('.')?;
    if lower != "shop.toml" && (stem == "shop" || stem == "shop.toml") && form != "csv" {
        return Some(fault(
            name,
            "shop.toml",
            has("shop"),
            "name it shop.toml (some systems hide the end of a name)",
        ));
    }
    let read = READ.contains(&form);
    let how = OTHER
        .iter()
        .find(|(other, _)| *other == form)
        .map(|(_, how)| *how);
    if (!read && how.is_none()) || (read && LISTS.contains(&stem)) {
        return None;
    }
    let list = meant(stem)?;
    let mend = match how {
        Some(how) => format!("{how} {list}.csv"),
        None => format!("name it {list}.{form}, or move it out of the folder"),
    };
    Some(fault(name, &format!("{list}.csv"), has(list), &mend))
}

/// The list that a file's name means: `order`, `stock (1)`, `copy of rack`.
fn meant(stem: &str) -> Option<&'static str> {
    let letters: Vec<&str> = stem
        .split(|c: char| !c.is_alphabetic())
        .filter(|w| !w.is_empty() && !["copy", "of", "final", "new", "v"].contains(w))
        .collect();
    let letters = letters.concat();
    let near = |list: &&str| strsim::normalized_damerau_levenshtein(&letters, list);
    let best = LISTS.iter().max_by(|a, b| near(a).total_cmp(&near(b)))?;
    (near(best) >= SLIP).then_some(*best)
}

fn fault(name: &str, list: &str, there: bool, mend: &str) -> Fault {
    let what = match there {
        true => format!("this file is not read: {list} or its workbook is"),
        false => format!("this file is not read, and {list} is not there"),
    };
    let severity = match there {
        true => Severity::Warning,
        false => Severity::Error,
    };
    let mend = match there {
        true => "move it out of the folder".to_owned(),
        false => mend.to_owned(),
    };
    Fault {
        severity,
        code: FaultCode::FileNotRead,
        file: name.to_owned(),
        sheet: None,
        line: None,
        cell: None,
        column: None,
        value: None,
        what,
        mend,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_that_look_like_a_list_are_told() {
        let none = |_: &str| false;
        for (name, mend) in [
            ("orders.ods", "save it as orders.csv"),
            ("Orders.XLS", "save it as orders.csv"),
            ("rack.tsv", "name it rack.csv"),
            ("supplier.csv", "name it suppliers.csv"),
            ("stock (1).csv", "name it stock.csv"),
            ("Copy of parts.xlsx", "name it parts.xlsx"),
            ("shop.toml.txt", "name it shop.toml"),
            ("shop.txt", "name it shop.toml"),
        ] {
            let told = stray(name, &none).expect(name);
            assert!(told.mend.contains(mend), "{name}: {}", told.mend);
            assert_eq!(told.severity, Severity::Error, "{name}");
        }
        for name in [
            "orders.csv",
            "rack_next.csv",
            "readme.txt",
            "gate.pdf",
            "customers.csv",
            "shop.toml",
            "orders",
        ] {
            assert_eq!(stray(name, &none), None, "{name}");
        }
        let told = stray("orders old.csv", &|_| true);
        assert_eq!(told.map(|t| t.severity), None, "a name of its own");
        let told = stray("orders (2).csv", &|_| true).expect("told");
        assert_eq!(told.severity, Severity::Warning);
    }
}
