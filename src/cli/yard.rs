//! `longpoint yard`: what was told, as a list and as lines; copies.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{BufReader, BufWriter, Write};
use std::path::{Path, PathBuf};

use crate::store::Store;
use crate::yard::{Desk, EntryId, History, undone_by};

use super::arguments_yard::YardCommand;
use super::failure::{Failure, code};
use super::run::say;
use super::shop_folder::{
    is_shop, shop_of, store_failure, unreadable, yard_to_read, yard_to_write,
};
use super::tell::said;
use super::voice::Voice;

/// Runs one of the yard's commands.
///
/// # Errors
/// There is no yard, a line is wrong, or the disk refuses.
pub(super) fn yard(command: &YardCommand, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    match command {
        YardCommand::Entries { shop } => entries(shop, voice),
        YardCommand::Export { shop, out } => export(shop, out.as_deref(), voice),
        YardCommand::Import { shop, file } => import(shop, file, voice),
        YardCommand::Copy { shop, file } => {
            let store = yard_to_read(&root(shop)?)?;
            store.copy_to(file).map_err(store_failure)?;
            say(voice, &format!("{}: a whole copy.\n", file.display()))?;
            Ok(code::DONE)
        }
    }
}

/// The shop's folder, where it or one of its weeks is named.
pub(super) fn root(folder: &Path) -> Result<PathBuf, Failure> {
    if is_shop(folder) && shop_of(folder).is_none() {
        return Ok(folder.to_owned());
    }
    if let Some(week) = shop_of(folder) {
        return Ok(week.shop);
    }
    Err(Failure::refused(format!(
        "{}: this is no shop folder (it has no shop.toml and no yard.db), and stands in none.",
        folder.display()
    )))
}

fn entries(folder: &Path, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    let shop = root(folder)?;
    let only = shop_of(folder).map(|w| w.name);
    let store = yard_to_read(&shop)?;
    let broken = unreadable(&shop);
    let desk: Desk<'_, Store> = store.desk().map_err(&broken)?;
    let undone = undone_by(&store.undoings().map_err(&broken)?);
    let stand = desk.stand();
    let mut text = String::new();
    let mut numbers: BTreeMap<EntryId, u64> = BTreeMap::new();
    store
        .each(&mut |number, entry| {
            if only.as_ref().is_some_and(|week| *week != entry.week) {
                return;
            }
            let state = if undone.contains(&entry.id) {
                "undone: "
            } else if stand.questions.iter().any(|q| q.number == number) {
                "a question: "
            } else {
                ""
            };
            numbers.insert(entry.id.clone(), number);
            let known = |id: &EntryId| numbers.get(id).copied();
            let words = said(stand, &entry.week, &entry.told, &known);
            let note = if entry.note.is_empty() {
                String::new()
            } else {
                format!(" ({})", entry.note)
            };
            text.push_str(&format!(
                "{number:>5}  {:<10}  {state}{words}{note}\n",
                entry.week
            ));
        })
        .map_err(&broken)?;
    say(voice, &text)?;
    Ok(code::DONE)
}

fn export(shop: &Path, out: Option<&Path>, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    let store = yard_to_read(&root(shop)?)?;
    let Some(path) = out else {
        let mut lines = Vec::new();
        store.export(&mut lines).map_err(store_failure)?;
        // Lines of JSON are text; the lossless reading costs nothing.
        say(voice, &String::from_utf8_lossy(&lines))?;
        return Ok(code::DONE);
    };
    let file = File::create_new(path).map_err(|e| Failure::disk(path, &e))?;
    let mut to = BufWriter::new(file);
    let count = store.export(&mut to).map_err(store_failure)?;
    let whole = to.flush().and_then(|()| to.get_ref().sync_all());
    whole.map_err(|e| Failure::disk(path, &e))?;
    let words = if count == 1 { "entry" } else { "entries" };
    say(voice, &format!("{}: {count} {words}.\n", path.display()))?;
    Ok(code::DONE)
}

fn import(shop: &Path, path: &Path, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    let shop = root(shop)?;
    let file = File::open(path).map_err(|e| Failure::disk(path, &e))?;
    let mut store = yard_to_write(&shop)?;
    let source = path.display().to_string();
    let done = store
        .import(&mut BufReader::new(file), &source)
        .map_err(|fault| Failure::refused(format!("{fault} Nothing was written.")))?;
    say(
        voice,
        &format!(
            "{source}: {} entries with {} issued plans.\n",
            done.entries, done.plans
        ),
    )?;
    Ok(code::DONE)
}
