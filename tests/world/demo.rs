//! The weeks in data/ (invented), read as the program reads them.
#![allow(dead_code, reason = "a binary may use only some of it")]

use std::path::Path;

use longpoint::order::{Week, WeekFiles, print_faults, read_week};
use longpoint::text::SourceFile;

/// The files of a week in data/.
pub fn files(folder: &str) -> WeekFiles {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("data")
        .join(folder);
    let file = |name: &str| {
        let bytes = std::fs::read(root.join(name)).ok()?;
        Some(SourceFile {
            name: name.to_owned(),
            bytes,
        })
    };
    WeekFiles {
        orders: file("orders.csv"),
        shop: file("shop.toml"),
        stock: file("stock.csv"),
        suppliers: file("suppliers.csv"),
        rack: file("rack.csv"),
        parts: file("parts.csv"),
        date: None,
    }
}

/// A week in data/.
pub fn week(folder: &str) -> Week {
    read_week(&files(folder)).unwrap_or_else(|faults| panic!("{}", print_faults(&faults)))
}
