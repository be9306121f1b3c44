//! A week's folder → its files as found, and the week read from them.

use crate::measure::FaultCode;
use std::fs;
use std::path::{Path, PathBuf};

use crate::order::{Fault, Severity, Week, WeekFiles, print_faults, read_week};
use crate::text::{SourceFile, shown};

use jiff::civil::Date;

use super::failure::Failure;
use super::shop_folder::{SHARED, shop_of};
use super::stray_files::stray_files;
use super::voice::Voice;

/// No list of a week is larger; more is some other file under that name.
const LARGEST: u64 = 64 * 1024 * 1024;
/// No shop's settings are.
const LARGEST_SHOP: u64 = 1024 * 1024;

/// Reads the week of a folder, ordered on `date` where one is given; its warnings and notes are still to be
/// told.
///
/// # Errors
/// The folder or a file cannot be read, or the input has faults: all of them are in the message.
pub(super) fn read_folder(folder: &Path, date: Option<Date>) -> Result<Week, Failure> {
    let (mut files, faults) = find_files(folder)?;
    files.date = date;
    let mut week = read_files(&files, faults)?;
    week.notices.extend(which_files(folder));
    Ok(week)
}

/// Reads several weeks, each on its own order date (`date` is for those that have none). Every fault and notice
/// names its folder, and all faults of all folders come together.
///
/// # Errors
/// As [`read_folder`]; a week is given twice.
pub(super) fn read_folders(folders: &[&PathBuf], date: Option<Date>) -> Result<Vec<Week>, Failure> {
    if let [one] = folders {
        return Ok(vec![read_folder(one, date)?]);
    }
    let mut found: Vec<WeekFiles> = Vec::new();
    let mut weeks = Vec::new();
    let mut failed = Failure::faulty(Vec::new(), "");
    for (at, folder) in folders.iter().enumerate() {
        let read = find_files(folder).and_then(|(files, faults)| {
            let same = |other: &WeekFiles| *other == files && files != WeekFiles::default();
            if let Some(first) = found.iter().position(same) {
                return Err(Failure::refused(twice(folders[first], folder)));
            }
            found.resize_with(at, WeekFiles::default);
            found.push(files.clone());
            let own = read_files(&files, faults.clone())?;
            if own.shop.buying.order_date.is_some() || date.is_none() {
                return Ok(own);
            }
            read_files(&WeekFiles { date, ..files }, faults)
        });
        match read {
            Ok(mut week) => {
                week.notices.extend(which_files(folder));
                week.notices.iter_mut().for_each(|f| name_folder(f, folder));
                weeks.push(week);
            }
            Err(mut failure) => {
                failure
                    .faults
                    .iter_mut()
                    .for_each(|f| name_folder(f, folder));
                failed.faults.append(&mut failure.faults);
                failed.message += &failure.message;
                failed.code = failed.code.max(failure.code);
            }
        }
    }
    if weeks.len() == folders.len() {
        return Ok(weeks);
    }
    Err(failed)
}

fn twice(first: &Path, second: &Path) -> String {
    let [first, second] = [first, second].map(|p| shown(&p.display().to_string()));
    if first == second {
        return format!("--weeks: {first} is given twice; a week counts once.\n");
    }
    format!("--weeks: {first} and {second} are the same week; a week counts once.\n")
}

fn name_folder(fault: &mut Fault, folder: &Path) {
    let path = folder.join(&fault.file);
    fault.file = path.display().to_string();
}

/// The week of files as found, `faults` what was found of them already.
fn read_files(files: &WeekFiles, mut faults: Vec<Fault>) -> Result<Week, Failure> {
    let wrong = faults.iter().any(|f| f.severity == Severity::Error);
    match read_week(files) {
        Ok(mut week) if !wrong => {
            faults.append(&mut week.notices);
            week.notices = faults;
            return Ok(week);
        }
        Ok(_) => {}
        Err(more) => faults.extend(more),
    }
    Err(Failure::faulty(faults, ""))
}

/// Warnings and notes on stderr, with their count; nothing where there are none.
pub(super) fn tell(notices: &[Fault], voice: &mut Voice<'_>) {
    if !notices.is_empty() {
        voice.message(&print_faults(notices));
    }
}

/// The files of a week, and a fault for every list that is there both as text and as a workbook or in a form or
/// under a name that is not read; where it reads its own file and not the shop's, that is noted.
pub(super) fn find_files(folder: &Path) -> Result<(WeekFiles, Vec<Fault>), Failure> {
    if folder.is_file() {
        let parent = folder.parent().filter(|p| *p != Path::new(""));
        return Err(Failure::refused(format!(
            "{}: this is a file; give the folder it is in: {}",
            folder.display(),
            parent.unwrap_or(Path::new(".")).display()
        )));
    }
    if !folder.is_dir() {
        return Err(Failure::refused(format!(
            "{}: no such folder. `longpoint new {}` writes a week to start from.",
            folder.display(),
            folder.display()
        )));
    }
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).map_err(|e| Failure::disk(folder, &e))? {
        names.push(entry.map_err(|e| Failure::disk(folder, &e))?.path());
    }
    names.sort();
    let own = shared_names(&names);
    let shop = shop_of(folder).map(|w| w.shop);
    if let Some(shop) = &shop {
        names.extend(shared_files(shop, &own)?);
    }
    let mut twice = Vec::new();
    let mut list = |stem: &str| -> Result<Option<SourceFile>, Failure> {
        let text = source_file(folder, &names, &format!("{stem}.csv"))?;
        let workbook = source_file(folder, &names, &format!("{stem}.xlsx"))?;
        if let (Some(text), Some(workbook)) = (&text, &workbook) {
            twice.push(both(&text.name, &workbook.name));
        }
        Ok(text.or(workbook))
    };
    let files = WeekFiles {
        orders: list("orders")?,
        stock: list("stock")?,
        suppliers: list("suppliers")?,
        rack: list("rack")?,
        parts: list("parts")?,
        shop: source_file(folder, &names, "shop.toml")?,
        date: None,
    };
    let has = |list: &str| match list {
        "orders" => files.orders.is_some(),
        "stock" => files.stock.is_some(),
        "suppliers" => files.suppliers.is_some(),
        "rack" => files.rack.is_some(),
        "parts" => files.parts.is_some(),
        _ => files.shop.is_some(),
    };
    twice.extend(stray_files(&names, has));
    twice.extend(which_files(folder));
    Ok((files, twice))
}

/// Which of the shop's files stand in these paths, by stem.
fn shared_names(paths: &[PathBuf]) -> Vec<&'static str> {
    let names = paths
        .iter()
        .filter_map(|p| p.file_name().and_then(|n| n.to_str()));
    let names: Vec<String> = names.map(str::to_ascii_lowercase).collect();
    let there = |stem: &str| {
        let of = |ending: &str| names.contains(&format!("{stem}.{ending}"));
        ["toml", "csv", "xlsx"].into_iter().any(of)
    };
    SHARED.into_iter().filter(|stem| there(stem)).collect()
}

/// The shop's files that serve a week which has none of that name.
fn shared_files(shop: &Path, own: &[&str]) -> Result<Vec<PathBuf>, Failure> {
    let mut found = Vec::new();
    for entry in fs::read_dir(shop).map_err(|e| Failure::disk(shop, &e))? {
        found.push(entry.map_err(|e| Failure::disk(shop, &e))?.path());
    }
    found.sort();
    found.retain(|path| {
        let of = shared_names(std::slice::from_ref(path));
        of.first().is_some_and(|stem| !own.contains(stem))
    });
    Ok(found)
}

/// Which folder a week in a shop reads the shop's files from, where both have some.
fn which_files(folder: &Path) -> Option<Fault> {
    let shop = shop_of(folder)?.shop;
    let list = |folder: &Path| -> Vec<PathBuf> {
        let entries = fs::read_dir(folder).into_iter().flatten();
        entries.filter_map(|e| e.ok().map(|e| e.path())).collect()
    };
    let own = shared_names(&list(folder));
    let shops = shared_names(&list(&shop));
    let twice: Vec<&str> = own
        .into_iter()
        .filter(|stem| shops.contains(stem))
        .collect();
    let first = twice.first()?;
    Some(Fault {
        severity: Severity::Note,
        code: FaultCode::FileNotRead,
        file: (*first).to_owned(),
        sheet: None,
        line: None,
        cell: None,
        column: None,
        value: None,
        what: format!(
            "this week reads its own {}, not the shop's",
            twice.join(", ")
        ),
        mend: "take the week's file away to read the shop's".to_owned(),
    })
}

fn both(text: &str, workbook: &str) -> Fault {
    Fault {
        severity: Severity::Error,
        code: FaultCode::FileNotRead,
        file: text.to_owned(),
        sheet: None,
        line: None,
        cell: None,
        column: None,
        value: None,
        what: format!("both {text} and {workbook} are there: which one is meant?"),
        mend: "keep one of them in the folder".to_owned(),
    }
}

/// The file of that name without regard to case; `None` when there is none.
fn source_file(
    folder: &Path,
    paths: &[PathBuf],
    name: &str,
) -> Result<Option<SourceFile>, Failure> {
    let mut found = paths.iter().filter(|p| {
        let own = p.file_name().and_then(|n| n.to_str());
        own.is_some_and(|own| own.eq_ignore_ascii_case(name))
    });
    let Some(path) = found.next() else {
        return Ok(None);
    };
    if found.next().is_some() {
        return Err(Failure::refused(format!(
            "{}: holds {name} twice, in other letters; keep one of them.",
            folder.display()
        )));
    }
    let about = fs::metadata(path).map_err(|e| Failure::disk(path, &e))?;
    if !about.is_file() {
        return Err(Failure::refused(format!("{}: not a file.", path.display())));
    }
    let (largest, kind) = match name {
        "shop.toml" => (LARGEST_SHOP, "those are no shop's settings"),
        _ => (LARGEST, "that is no list of a week's work"),
    };
    if about.len() > largest {
        return Err(Failure::refused(format!(
            "{}: over {} MB; {kind}.",
            path.display(),
            largest >> 20
        )));
    }
    let bytes = fs::read(path).map_err(|e| Failure::disk(path, &e))?;
    Ok(Some(SourceFile {
        name: name.to_owned(),
        bytes,
    }))
}
