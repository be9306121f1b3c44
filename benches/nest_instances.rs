//! Published cutting-stock instances through the nesting engine: per class how many are solved (proved, either
//! way), median and worst seconds, and any claim that contradicts the published bounds (there must be none).
//!
//! The instances (BPPLIB: Delorme, Iori, Martello, *Optimization Letters* 12, 2018) are not part of this
//! repository. Give their folder as an argument or in `NEST_INSTANCES`; without it the bench says so and ends.
//! Further arguments name classes (`cargo bench --bench nest_instances -- FOLDER Hard28 AI`); `--full` takes
//! every instance, else a seeded sample of the big classes; `--sample N` draws N of each instead, `--seconds N`
//! replaces each class's own limit, and `--each` prints a line an instance.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use longpoint::nest::{Aim, Credit, Item, Limits, NoWatch, Pool, Problem, Status, Stock, solve};

/// Seconds an instance may take, and how many are drawn without `--full`, by the start of the class's name.
/// Classes of several sizes are drawn once a size.
const CLASSES: [(&str, u64, usize); 7] = [
    ("ANI 2", 600, 4),
    ("ANI", 600, 0),
    ("AI", 60, 10),
    ("GI", 60, 20),
    ("Hard28", 60, usize::MAX),
    ("Random", 10, 300),
    ("", 10, usize::MAX),
];

/// Published lower and upper bound by file name.
type Published = BTreeMap<String, (i64, i64)>;

/// What a class came to.
#[derive(Default)]
struct Row {
    times: Vec<f64>,
    solved: usize,
    /// Claims that contradict the published bounds.
    wrong: usize,
}

fn main() {
    let arguments: Vec<String> = std::env::args()
        .skip(1)
        .filter(|a| a != "--bench")
        .collect();
    let full = arguments.iter().any(|a| a == "--full");
    let each = arguments.iter().any(|a| a == "--each");
    let number = |option: &str| {
        let at = arguments.iter().position(|a| a == option)?;
        arguments.get(at + 1)?.parse::<u64>().ok()
    };
    let (asked, few) = (number("--seconds"), number("--sample"));
    let folder = arguments.iter().find(|a| Path::new(a).is_dir()).cloned();
    let Some(folder) = folder.or_else(|| std::env::var("NEST_INSTANCES").ok()) else {
        println!("nest_instances: no folder of instances given, nothing measured");
        return;
    };
    let (folder, chosen) = (Path::new(&folder), |class: &str| {
        let mut names = arguments.iter().filter(|a| {
            !a.starts_with("--") && !Path::new(a).is_dir() && a.parse::<u64>().is_err()
        });
        let any = names.clone().next().is_none();
        any || names.any(|n| class.starts_with(n.as_str()))
    });
    let published = published(&folder.join("optima.csv"));
    println!(
        "{:<14} {:>5} {:>5} {:>7} {:>10} {:>10} {:>6}",
        "class", "limit", "of", "solved", "median s", "worst s", "false"
    );
    for (class, files) in classes(folder).into_iter().filter(|(c, _)| chosen(c)) {
        let Some((_, seconds, most)) = CLASSES.iter().find(|(start, ..)| class.starts_with(start))
        else {
            continue;
        };
        let seconds = asked.unwrap_or(*seconds);
        let most = few.map_or(*most, |n| usize::try_from(n).unwrap_or(*most));
        let drawn = sample(files, if full { usize::MAX } else { most });
        if drawn.is_empty() {
            continue;
        }
        let mut row = Row::default();
        for file in &drawn {
            row.run(file, seconds, &published, each);
        }
        row.times.sort_by(f64::total_cmp);
        let of = row.times.len();
        println!(
            "{class:<14} {seconds:>5} {of:>5} {:>7} {:>10.3} {:>10.3} {:>6}",
            row.solved,
            row.times.get(of / 2).copied().unwrap_or(0.0),
            row.times.last().copied().unwrap_or(0.0),
            row.wrong
        );
    }
}

impl Row {
    fn run(&mut self, file: &Path, seconds: u64, published: &Published, each: bool) {
        let Some(pool) = read(file) else { return };
        let problem = Problem {
            aim: Aim::Money,
            pools: vec![pool],
            charges: Vec::new(),
        };
        // The clock decides, not the steps.
        let limits = Limits {
            work: u64::MAX / 4,
            time: Some(Duration::from_secs(seconds)),
        };
        let started = Instant::now();
        let Ok(answer) = solve(&problem, &limits, &NoWatch) else {
            return;
        };
        let took = started.elapsed().as_secs_f64();
        self.times.push(took);
        let pool = &answer.pools[0];
        let closed = matches!(pool.status, Status::Proved | Status::ProvedBySearch);
        self.solved += usize::from(closed);
        if let Some(&(low, high)) = published.get(&name(file)) {
            let bad = pool.bound > high || pool.cost < low || (closed && pool.cost > high);
            self.wrong += usize::from(bad);
        }
        if each {
            println!(
                "  {:<24} {:>6} of bound {:>6}, {:?}, {took:.3} s; published {:?}",
                name(file),
                pool.cost,
                pool.bound,
                pool.status,
                published.get(&name(file))
            );
        }
    }
}

fn sorted(folder: &Path, wanted: impl Fn(&Path) -> bool) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut found: Vec<PathBuf> = entries.map(|e| e.path()).filter(|p| wanted(p)).collect();
    found.sort();
    found
}

/// The classes, those with instances of several sizes once a size: (name, files).
fn classes(folder: &Path) -> Vec<(String, Vec<PathBuf>)> {
    let mut found: Vec<(String, Vec<PathBuf>)> = Vec::new();
    for class in sorted(folder, Path::is_dir) {
        let name = name(&class);
        let mut sizes: BTreeMap<u32, Vec<PathBuf>> = BTreeMap::new();
        for file in sorted(&class, |p| p.extension().is_some_and(|e| e == "txt")) {
            let size = self::name(&file)
                .split('_')
                .next()
                .and_then(|n| n.parse().ok());
            sizes.entry(size.unwrap_or(0)).or_default().push(file);
        }
        found.extend(sizes.into_iter().map(|(size, files)| match size {
            0 => (name.clone(), files),
            size => (format!("{name} {size}"), files),
        }));
    }
    found
}

fn name(path: &Path) -> String {
    path.file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned()
}

/// `most` of the files, drawn by the mixing of splitmix64 (Steele, Lea, Flood 2014) from one fixed seed.
fn sample(files: Vec<PathBuf>, most: usize) -> Vec<PathBuf> {
    let mut drawn: Vec<(u64, PathBuf)> = (1u64..)
        .zip(files)
        .map(|(n, file)| {
            let z = n.wrapping_mul(0x9E37_79B9_7F4A_7C15);
            let z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
            (z ^ (z >> 27), file)
        })
        .collect();
    drawn.sort();
    drawn.into_iter().take(most).map(|(_, file)| file).collect()
}

/// Lower and upper bound by file name. A file without the columns gives none.
fn published(file: &Path) -> Published {
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
        credit: Credit::NONE,
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
