//! A shop folder: shop.toml, stock.csv, suppliers.csv and yard.db once, and week folders under it.

use std::fs;
use std::path::{Path, PathBuf};

use jiff::Timestamp;

use crate::store::{DATABASE, Store, StoreFault};

use super::failure::Failure;

/// Files of a shop that serve every week of it, by what stands before the ending.
pub(super) const SHARED: [&str; 3] = ["shop", "stock", "suppliers"];

/// A week and the shop it belongs to.
#[derive(Debug)]
pub(super) struct ShopWeek {
    /// The shop's folder.
    pub shop: PathBuf,
    /// The week's name: its folder's.
    pub name: String,
}

/// The shop that a week's folder stands in: the folder above, where it has a shop.toml or a yard.
pub(super) fn shop_of(week: &Path) -> Option<ShopWeek> {
    let week = fs::canonicalize(week).ok()?;
    let shop = week.parent()?;
    let name = week.file_name()?.to_str()?.to_owned();
    is_shop(shop).then(|| ShopWeek {
        shop: shop.to_owned(),
        name,
    })
}

/// A folder that weeks may stand in: it has a yard, or a shop's standards and no orders of its own (those make it a week
/// that stands alone).
pub(super) fn is_shop(folder: &Path) -> bool {
    let has = |name: &str| folder.join(name).is_file();
    let work = ["orders.csv", "orders.xlsx", "parts.csv", "parts.xlsx"];
    has(DATABASE) || (has("shop.toml") && !work.into_iter().any(has))
}

/// The shop and the week, or why there is no yard for it.
pub(super) fn need_shop(week: &Path) -> Result<ShopWeek, Failure> {
    if !week.is_dir() {
        return Err(Failure::refused(format!(
            "{}: no such folder; give the folder of a week.",
            week.display()
        )));
    }
    shop_of(week).ok_or_else(|| {
        Failure::refused(format!(
            "{}: stands in no shop folder, so nothing can be remembered of it. `longpoint new SHOP` makes \
             a shop folder; then move this week's folder into it, and shop.toml, stock.csv and \
             suppliers.csv up into the shop folder where they serve every week.",
            week.display()
        ))
    })
}

/// Who writes, for whoever must wait: host, process, since.
fn me() -> String {
    let host = ["HOSTNAME", "COMPUTERNAME"]
        .into_iter()
        .find_map(|name| std::env::var(name).ok())
        .or_else(|| fs::read_to_string("/etc/hostname").ok());
    let host = host.as_deref().map_or("", str::trim);
    let host = if host.is_empty() { "this host" } else { host };
    format!("process {} on {host} since {}", std::process::id(), now())
}

/// Now, to the second.
pub(super) fn now() -> Timestamp {
    let now = Timestamp::now();
    Timestamp::from_second(now.as_second()).unwrap_or(now)
}

/// The yard of a shop, to be written; made where there is none.
pub(super) fn yard_to_write(shop: &Path) -> Result<Store, Failure> {
    let store = Store::to_write(shop, &me()).map_err(store_failure)?;
    match store.only_read() {
        Some(why) => Err(Failure::refused(format!("{why}. Nothing was written."))),
        None => Ok(store),
    }
}

/// The yard of a shop, to be read.
pub(super) fn yard_to_read(shop: &Path) -> Result<Store, Failure> {
    Store::to_read(shop).map_err(store_failure)?.ok_or_else(|| {
        Failure::refused(format!(
            "{}: nothing was told here yet. Plan a week and hand its plan out: longpoint issue FOLDER.",
            shop.display()
        ))
    })
}

/// What stands in the way, and whose fault it is.
pub(super) fn store_failure(fault: StoreFault) -> Failure {
    match fault {
        StoreFault::Refused(..) => Failure::internal(fault.to_string()),
        _ => Failure::refused(fault.to_string()),
    }
}

/// A yard that cannot be read.
pub(super) fn unreadable(shop: &Path) -> impl Fn(String) -> Failure {
    let path = shop.join(DATABASE);
    move |why| Failure::internal(format!("{}: {why}.", path.display()))
}
