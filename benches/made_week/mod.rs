//! Seeded weeks of invented gates, written as the files a shop would keep and read by the real reader.
#![allow(dead_code)]

use longpoint::order::{Week, WeekFiles, read_week};
use longpoint::text::SourceFile;

/// splitmix64: one state word, one multiply-xor chain (Steele, Lea, Flood, *Fast splittable
/// pseudorandom number generators*, OOPSLA 2014). Enough for picking gate sizes.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % sides
    }
}

/// The demo shop's settings and stock, read from the repository so that benches and demo agree.
fn demo_file(name: &str) -> SourceFile {
    let path = format!("{}/data/demo_us/{name}", env!("CARGO_MANIFEST_DIR"));
    let bytes = std::fs::read(&path).expect("the demo week is part of the repository");
    SourceFile {
        name: name.to_string(),
        bytes,
    }
}

/// A file made here.
pub fn own(name: &str, text: String) -> Option<SourceFile> {
    Some(SourceFile {
        name: name.to_string(),
        bytes: text.into_bytes(),
    })
}

/// `orders.csv` of `gates` gates: openings 10–30 ft in half feet, heights 4–8 ft, now and then twins.
fn orders(gates: u32, seed: u64) -> String {
    let mut dice = Dice(seed);
    let mut text = String::from("mark,count,opening,height,hand,due\n");
    for n in 1..=gates {
        let half_feet = 20 + dice.roll(41);
        let height = [4, 5, 6, 6, 6, 7, 8][dice.roll(7) as usize];
        let count = if dice.roll(5) == 0 { 2 } else { 1 };
        let hand = ["left", "right"][dice.roll(2) as usize];
        let day = 1 + dice.roll(28);
        let inches = if half_feet.is_multiple_of(2) { 0 } else { 6 };
        text.push_str(&format!(
            "G{n},{count},{}ft {inches}in,{height}ft,{hand},2026-06-{day:02}\n",
            half_feet / 2
        ));
    }
    text
}

/// `rack.csv`: `pieces` single measured remnants of the two usual pipes.
fn rack(pieces: u32, seed: u64) -> String {
    let mut dice = Dice(seed ^ 0xACE5);
    let mut text = String::from("tag,pipe,length,count,near trim,far trim\n");
    for n in 1..=pieces {
        let pipe = ["1-7/8 SS40", "2-3/8 SS40"][dice.roll(2) as usize];
        text.push_str(&format!(
            "Z{n},{pipe},{}ft {}in,1,no,yes\n",
            4 + dice.roll(14),
            dice.roll(12)
        ));
    }
    text
}

/// A week of `gates` gate orders and `remnants` rack pieces; the same seed gives the same week.
pub fn week(gates: u32, remnants: u32, seed: u64) -> Week {
    read_week(&files(gates, remnants, seed)).expect("a made week has no faults")
}

/// A week of plain parts of one pipe and nothing else: 12 in to 211 7/8 in by eighths.
pub fn parts(pieces: u32, seed: u64) -> Week {
    let mut dice = Dice(seed);
    let mut text = String::from("mark,pipe,length,count\n");
    for n in 1..=pieces {
        let eighths = 96 + dice.roll(1600);
        let (whole, part) = (eighths / 8, eighths % 8 * 125);
        text.push_str(&format!("P{n},2-3/8 SS40,{whole}.{part:03} in,1\n"));
    }
    let files = WeekFiles {
        shop: Some(demo_file("shop.toml")),
        stock: Some(demo_file("stock.csv")),
        parts: own("parts.csv", text),
        ..WeekFiles::default()
    };
    read_week(&files).expect("a made list has no faults")
}

/// Its files.
pub fn files(gates: u32, remnants: u32, seed: u64) -> WeekFiles {
    WeekFiles {
        orders: own("orders.csv", orders(gates, seed)),
        shop: Some(demo_file("shop.toml")),
        stock: Some(demo_file("stock.csv")),
        rack: if remnants == 0 {
            None
        } else {
            own("rack.csv", rack(remnants, seed))
        },
        parts: None,
        ..WeekFiles::default()
    }
}
