//! The demo weeks in data/ read clean, and hold what the issue asks of them.

use std::path::Path;

use longpoint::order::{Week, WeekFiles, print_faults, read_week};
use longpoint::text::SourceFile;

fn week(folder: &str) -> Week {
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
    let files = WeekFiles {
        orders: file("orders.csv"),
        shop: file("shop.toml"),
        stock: file("stock.csv"),
        rack: file("rack.csv"),
        parts: file("parts.csv"),
    };
    read_week(&files).unwrap_or_else(|faults| panic!("{}", print_faults(&faults)))
}

#[test]
fn the_us_week_reads_clean() {
    let week = week("demo_us");
    assert!(week.notices.is_empty(), "{}", print_faults(&week.notices));
    assert!((8..=10).contains(&week.gates.len()));
    let feet = |t: f64| t / (12.0 * 8128.0);
    assert!(week.gates.iter().any(|g| feet(g.leaf) < 21.0));
    assert!(week.gates.iter().any(|g| feet(g.leaf) > 40.0));
    assert_eq!(week.gates.iter().filter(|g| g.kit).count(), 1);
    assert_eq!(week.gates.iter().filter(|g| g.barbed > 0).count(), 1);
    let first = &week.gates[0];
    assert_eq!(first.leaf, 228.0 * 8128.0, "the worked gate of DESIGN §5");
    assert_eq!(week.pipe(first.pipes.horizontal).name, "2-3/8 SS40");
}
