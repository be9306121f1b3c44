//! Ten years of a shop: how long a yard of a million entries takes to open, and in how much memory.
//!
//! `cargo bench --bench yard [WEEKS] [ENTRIES A WEEK]`; 500 and 2,000 unless given. The weeks are made by dice.

#[path = "../tests/world/dice.rs"]
mod dice;
#[path = "../tests/world/dice_of_lengths.rs"]
mod dice_of_lengths;
#[allow(dead_code, reason = "made for tests, which use more of it")]
#[path = "../tests/yard/world.rs"]
mod world;

use std::time::Instant;

use longpoint::order::RemnantId;
use longpoint::store::Store;
use longpoint::yard::{
    Coped, Cut, Delivered, Entry, GateCopy, IssuedSource, Measured, MeasuredWhat, Told, breaches,
};

use dice::Dice;
use world::{entry, inches, random};

fn main() {
    let numbers = std::env::args()
        .skip(1)
        .filter_map(|a| a.parse::<u64>().ok());
    let numbers: Vec<u64> = numbers.collect();
    let weeks = numbers.first().copied().unwrap_or(500);
    let each = numbers.get(1).copied().unwrap_or(2_000);
    let shop = std::env::temp_dir().join("longpoint-bench-yard");
    let _ = std::fs::remove_dir_all(&shop);
    std::fs::create_dir_all(&shop).expect("a folder");
    let mut store = Store::to_write(&shop, "bench").expect("opens");
    let mut dice = Dice(1);
    for week in 0..weeks {
        let entries = one_week(&mut dice, week, each);
        store.append(&entries, None).expect("written");
    }
    drop(store);
    for round in ["folded", "by the kept stand"] {
        let started = Instant::now();
        let store = Store::to_read(&shop).expect("opens").expect("is there");
        let desk = store.desk().expect("folds");
        println!(
            "{} entries, {} weeks, {} questions, {round}: {:.2} s, peak {} MB so far",
            desk.stand().told,
            desk.stand().weeks.len(),
            desk.stand().questions.len(),
            started.elapsed().as_secs_f64(),
            peak()
        );
        assert!(breaches(desk.stand()).is_empty());
        let stand = desk.stand().clone();
        drop(store);
        let mut store = Store::to_write(&shop, "bench").expect("opens");
        let started = Instant::now();
        store.keep(&stand).expect("kept");
        println!("kept in {:.2} s", started.elapsed().as_secs_f64());
    }
    let _ = std::fs::remove_dir_all(&shop);
}

/// A week as it goes: issued, delivered, cut, coped, done; the rest of its entries are measurings of a remnant.
fn one_week(dice: &mut Dice, number: u64, each: u64) -> Vec<Entry> {
    let name = format!("week-{number}");
    let mut plan = random(dice, number);
    // A shop never paints one tag twice while it lies.
    let own = |tag: &mut String| tag.insert_str(0, &format!("w{number}-"));
    plan.rack.iter_mut().for_each(|r| own(&mut r.tag));
    for joint in &mut plan.joints {
        if let IssuedSource::Rack(tag) = &mut joint.source {
            own(tag);
        }
    }
    let mut told: Vec<Told> = Vec::new();
    for line in plan.lines.iter().filter(|l| l.joints > 0) {
        told.push(Told::Delivered(Delivered {
            line: line.number,
            joints: line.joints,
            lengths: Vec::new(),
        }));
    }
    for joint in &plan.joints {
        told.push(Told::Cut(Cut {
            joint: joint.number,
            to: None,
            lengths: Vec::new(),
            taken: None,
            floor: None,
        }));
    }
    for piece in plan.joints.iter().flat_map(|j| &j.pieces) {
        told.push(Told::Coped(Coped {
            piece: piece.id.clone(),
        }));
    }
    for gate in &plan.gates {
        for copy in 1..=gate.count {
            told.push(Told::Done(GateCopy {
                mark: gate.mark.clone(),
                copy,
            }));
        }
    }
    let kept = plan.joints.iter().find_map(|j| j.keep.clone());
    let mut all = vec![Told::Issued(Box::new(plan))];
    all.extend(told);
    while let Some(tag) = &kept
        && u64::try_from(all.len()).is_ok_and(|n| n < each)
    {
        let id = RemnantId {
            week: name.clone(),
            tag: tag.clone(),
        };
        all.push(Told::Measured(Measured {
            what: MeasuredWhat::Remnant(id),
            length: inches(40 + dice.roll(40)),
        }));
    }
    let ids = (0..).map(|n| format!("{name}-{n}"));
    ids.zip(all)
        .map(|(id, told)| entry(&id, &name, told))
        .collect()
}

/// Peak of memory in use, where the system tells it.
fn peak() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|l| l.split_whitespace().next()?.parse::<u64>().ok());
    kilobytes.unwrap_or(0) / 1024
}
