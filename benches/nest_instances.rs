//! Published cutting-stock instances through the nesting engine: per class how many are proved, the
//! median and the worst time, and any proof that contradicts the published bounds (there must be none).
//!
//! The instances (BPPLIB: Delorme, Iori, Martello 2018) are not part of this repository. Give their
//! folder as an argument or in `NEST_INSTANCES`; without it the bench says so and ends. `--full` takes
//! every instance, else a fixed sample of each class. `--work N` sets the budget in steps.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::Instant;

use longpoint::nest::{Aim, Credit, Item, Limits, NoWatch, Pool, Problem, Status, Stock, solve};

/// Instances taken from a class without `--full`.
const SAMPLE: usize = 20;

fn main() {
    let arguments: Vec<String> = std::env::args()
        .skip(1)
        .filter(|a| a != "--bench")
        .collect();
    let full = arguments.iter().any(|a| a == "--full");
    let after = |name: &str| {
        let at = arguments.iter().position(|a| a == name)?;
        arguments.get(at + 1).cloned()
    };
    let work = after("--work")
        .and_then(|w| w.parse().ok())
        .unwrap_or(2_000_000_000);
    let folder = arguments.iter().find(|a| Path::new(a).is_dir()).cloned();
    let Some(folder) = folder.or_else(|| std::env::var("NEST_INSTANCES").ok()) else {
        println!("nest_instances: no folder of instances given, nothing measured");
        return;
    };
    let published = published(&Path::new(&folder).join("optima.csv"));
    println!(
        "{:<14} {:>5} {:>7} {:>10} {:>10} {:>6}",
        "class", "of", "proved", "median s", "worst s", "false"
    );
    for class in folders(Path::new(&folder)) {
        let all = files(&class);
        let step = if full {
            1
        } else {
            all.len().div_ceil(SAMPLE).max(1)
        };
        let (mut times, mut proved, mut wrong) = (Vec::new(), 0, 0);
        for file in all.iter().step_by(step) {
            let Some(pool) = read(file) else { continue };
            let problem = Problem {
                aim: Aim::Money,
                pools: vec![pool],
                charges: Vec::new(),
            };
            let started = Instant::now();
            let limits = Limits { work, time: None };
            let Ok(answer) = solve(&problem, &limits, &NoWatch) else {
                continue;
            };
            times.push(started.elapsed().as_secs_f64());
            let pool = &answer.pools[0];
            let closed = matches!(pool.status, Status::Proved | Status::ProvedBySearch);
            proved += usize::from(closed);
            let name = file
                .file_name()
                .unwrap_or_default()
                .to_string_lossy()
                .to_string();
            if let Some(&(low, high)) = published.get(&name) {
                let bad = pool.bound > high || pool.cost < low || (closed && pool.cost > high);
                wrong += usize::from(bad);
            }
        }
        times.sort_by(f64::total_cmp);
        let median = times.get(times.len() / 2).copied().unwrap_or(0.0);
        let worst = times.last().copied().unwrap_or(0.0);
        let name = class
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .to_string();
        println!(
            "{name:<14} {:>5} {proved:>7} {median:>10.3} {worst:>10.3} {wrong:>6}",
            times.len()
        );
    }
}

fn sorted(folder: &Path, wanted: impl Fn(&Path) -> bool) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut found: Vec<PathBuf> = entries.map(|e| e.path()).filter(|p| wanted(p)).collect();
    found.sort();
    found
}

fn folders(folder: &Path) -> Vec<PathBuf> {
    sorted(folder, Path::is_dir)
}

fn files(folder: &Path) -> Vec<PathBuf> {
    sorted(folder, |p| p.extension().is_some_and(|e| e == "txt"))
}

/// Lower and upper bound by file name. A file without the columns gives none.
fn published(file: &Path) -> BTreeMap<String, (i64, i64)> {
    let text = std::fs::read_to_string(file).unwrap_or_default();
    let mut lines = text.lines();
    let head: Vec<&str> = lines.next().unwrap_or_default().split(',').collect();
    let column = |names: &[&str]| head.iter().position(|h| names.contains(&h.trim()));
    let (Some(name), Some(low), Some(high)) = (
        column(&["name", "instance", "file"]),
        column(&["lb", "LB"]),
        column(&["ub", "UB"]),
    ) else {
        return BTreeMap::new();
    };
    let row = |line: &str| {
        let cells: Vec<&str> = line.split(',').map(str::trim).collect();
        let number = |i: usize| cells.get(i)?.parse().ok();
        let name = cells.get(name)?.rsplit('/').next()?;
        let name = if name.ends_with(".txt") {
            name.to_string()
        } else {
            format!("{name}.txt")
        };
        Some((name, (number(low)?, number(high)?)))
    };
    lines.filter_map(row).collect()
}

/// Number of types, stock length, then length and demand of each.
fn read(file: &Path) -> Option<Pool> {
    let text = std::fs::read_to_string(file).ok()?;
    let mut numbers = text.split_whitespace().map(|n| n.parse::<i64>());
    let mut next = || numbers.next()?.ok();
    let (types, usable) = (next()?, next()?);
    let mut items: BTreeMap<i64, u32> = BTreeMap::new();
    for _ in 0..types {
        let (length, count) = (next()?, next()?);
        *items.entry(length).or_insert(0) += u32::try_from(count).ok()?;
    }
    Some(Pool {
        name: file.file_name()?.to_string_lossy().to_string(),
        mark: 1,
        kerf: 0,
        credit: Credit {
            keep: 0,
            foot: 1,
            per_foot: 0,
        },
        stocks: vec![Stock {
            name: "stock".into(),
            usable,
            cost: 1,
            price: None,
            limit: None,
            serves: u32::MAX,
            length: usable,
        }],
        items: items
            .into_iter()
            .map(|(length, count)| Item {
                length,
                count,
                class: 0,
            })
            .collect(),
        groups: Vec::new(),
    })
}
