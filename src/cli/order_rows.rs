//! Rows of orders.csv at the issue and now; entries by their numbers.

use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::path::Path;

use crate::order::order_rows;
use crate::store::Store;
use crate::text::SourceFile;
use crate::yard::{EntryId, History, Told};

use super::shop_folder::ShopWeek;
use super::week_folder::find_files;

/// Rows of a week, read when they are first asked for.
pub(super) struct OrderRows<'a> {
    store: &'a Store,
    week: &'a ShopWeek,
    folder: &'a Path,
    read: OnceCell<[BTreeMap<String, String>; 2]>,
}

impl<'a> OrderRows<'a> {
    /// The rows of the week's last issue, and of its folder; nothing where they cannot be read.
    pub fn of(store: &'a Store, week: &'a ShopWeek, folder: &'a Path) -> OrderRows<'a> {
        OrderRows {
            store,
            week,
            folder,
            read: OnceCell::new(),
        }
    }

    /// A gate's row before and now.
    pub fn of_mark(&self, mark: &str) -> (Option<String>, Option<String>) {
        let [before, after] = self.read.get_or_init(|| [self.before(), self.now()]);
        let find = |rows: &BTreeMap<String, String>| {
            let mut rows = rows.iter();
            let found = rows.find(|(m, _)| m.eq_ignore_ascii_case(mark));
            found.map(|(_, row)| row.clone())
        };
        (find(before), find(after))
    }

    fn before(&self) -> BTreeMap<String, String> {
        let mut issued = None;
        let read = self.store.each(&mut |_, entry| {
            if entry.week == self.week.name && matches!(entry.told, Told::Issued(_)) {
                issued = Some(entry.id);
            }
        });
        let plan = issued.filter(|_| read.is_ok());
        let plan = plan.and_then(|id| self.store.plan(&id).ok().flatten());
        let file = plan.and_then(|p| {
            let mut files = p.files.into_iter();
            files.find(|f| f.name.starts_with("orders."))
        });
        let file = file.map(|f| SourceFile {
            name: f.name,
            bytes: f.bytes,
        });
        file.map(|f| order_rows(&f)).unwrap_or_default()
    }

    fn now(&self) -> BTreeMap<String, String> {
        let found = find_files(self.folder).ok();
        let orders = found.and_then(|(files, _)| files.orders);
        orders.map(|f| order_rows(&f)).unwrap_or_default()
    }
}

/// The entry of a number, or of an id.
pub(super) fn entry_named(store: &Store, word: &str) -> Option<EntryId> {
    let word = word.trim();
    let by_number = word.parse::<u64>().ok();
    if let Some(id) = by_number.and_then(|n| store.numbered(n).ok().flatten()) {
        return Some(id);
    }
    let id = EntryId(word.to_owned());
    store.find(&id).ok().flatten().map(|_| id)
}
