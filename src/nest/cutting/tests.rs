//! The search, its lists and its cuts against plain enumeration, on lots of a few pieces.

use std::rc::Rc;

use super::super::converge::Budget;
use super::super::made::Dice;
use super::super::problem::{Credit, Item, Pool, Stock};
use super::fill::Fill;
use super::lot::{Cuts, Kind, Lot};
use super::parity::lacking;
use super::program::Handed;
use super::tree::{End, Turn, search};

fn pool(usable: i64, kerf: i64, lengths: &[i64]) -> Pool {
    let item = |&length: &i64| Item {
        length,
        count: 1,
        class: 0,
    };
    Pool {
        name: "p".into(),
        mark: 1,
        kerf,
        credit: Credit::NONE,
        stocks: vec![Stock {
            name: "s".into(),
            usable,
            cost: 1,
            price: None,
            limit: None,
            serves: 1,
            length: usable,
        }],
        items: lengths.iter().map(item).collect(),
        groups: Vec::new(),
    }
}

/// Can the weights from the first on go into the rooms left?
fn fits(weights: &[i64], rooms: &mut [i64]) -> bool {
    let Some((first, rest)) = weights.split_first() else {
        return true;
    };
    for j in 0..rooms.len() {
        if rooms[j] < *first || rooms[..j].contains(&rooms[j]) {
            continue;
        }
        rooms[j] -= first;
        let found = fits(rest, rooms);
        rooms[j] += first;
        if found {
            return true;
        }
    }
    false
}

/// Packs lots by some way and compares with enumeration.
fn compare(way: impl Fn(Lot, &mut Budget<'_>) -> End) {
    let mut dice = Dice(3);
    let mut next = |n| dice.roll(n);
    let never = || false;
    let (mut packed, mut empty) = (0, 0);
    for _ in 0..400 {
        let (usable, kerf) = (24 + next(60), next(3));
        let lengths: Vec<i64> = (0..4 + next(8)).map(|_| 4 + next(20)).collect();
        let pool = pool(usable, kerf, &lengths);
        let mut weights: Vec<i64> = lengths.iter().map(|l| l + kerf).collect();
        weights.sort_unstable_by(|a, b| b.cmp(a));
        let room = usable + kerf;
        let least = (weights.iter().sum::<i64>() + room - 1) / room;
        for bins in least..=least + 1 {
            let mut budget = Budget::new(1_000_000_000, &never);
            let truth = fits(&weights, &mut vec![room; bins as usize]);
            match way(Lot::new(&pool, bins), &mut budget) {
                End::Packed(joints) => {
                    assert!(truth && joints.len() as i64 <= bins, "{lengths:?} {bins}");
                    let mut seen: Vec<u32> = joints.concat();
                    seen.sort_unstable();
                    assert!(seen.iter().copied().eq(0..lengths.len() as u32));
                    for joint in joints {
                        let taken: i64 = joint.iter().map(|i| lengths[*i as usize] + kerf).sum();
                        assert!(taken <= room);
                    }
                    packed += 1;
                }
                End::None => {
                    assert!(!truth, "{lengths:?} do fit {bins} of {usable}");
                    empty += 1;
                }
                End::Unknown => panic!("steps were enough: {lengths:?} {bins} of {usable}"),
            }
        }
    }
    assert!(packed > 400 && empty > 30, "{packed} {empty}");
}

#[test]
fn packs_where_enumeration_does_and_nowhere_else() {
    compare(|lot, budget| search(lot, Handed::default(), budget));
}

/// The turn that lists by itself, from the first node on.
#[test]
fn lists_pack_where_enumeration_does_and_nowhere_else() {
    compare(|lot, budget| {
        Turn::new(true, u64::MAX, lot, Rc::default()).run(&mut Vec::new(), budget)
    });
}

/// Every pattern of a lot from the kind at hand on.
fn patterns(lot: &Lot, kind: usize, room: i64, cuts: &mut Cuts, all: &mut Vec<Cuts>) {
    let Some(k) = lot.kinds.get(kind) else {
        all.push(cuts.clone());
        return;
    };
    for n in 0..=k.count() {
        if k.weight * i64::from(n) > room {
            break;
        }
        if n > 0 {
            cuts.push((kind as u32, n));
        }
        patterns(lot, kind + 1, room - k.weight * i64::from(n), cuts, all);
        if n > 0 {
            cuts.pop();
        }
    }
}

#[test]
fn a_list_holds_every_pattern_worth_enough() {
    let mut dice = Dice(5);
    let mut next = |n| dice.roll(n);
    let mut listed = 0;
    for _ in 0..300 {
        let lengths: Vec<i64> = (0..4 + next(6)).map(|_| 4 + next(20)).collect();
        let pool = pool(30 + next(40), 0, &lengths);
        let lot = Lot::new(&pool, lengths.len() as i64);
        let values: Vec<i64> = lot.kinds.iter().map(|_| next(100)).collect();
        let need = 1 + next(250);
        let worth = |c: &Cuts| -> i64 {
            c.iter()
                .map(|c| values[c.0 as usize] * i64::from(c.1))
                .sum()
        };
        let mut all = Vec::new();
        patterns(&lot, 0, lot.room, &mut Vec::new(), &mut all);
        all.retain(|c| worth(c) >= need);
        all.sort_unstable();
        let mut fill = Fill::any(&lot, &values, Vec::new());
        let mut found = fill.every(need, all.len()).expect("few enough");
        found.sort_unstable();
        assert_eq!(found, all, "{lengths:?} {values:?} {need}");
        if let Some(fewer) = all.len().checked_sub(1).filter(|n| *n > 0) {
            assert_eq!(fill.every(need, fewer), None);
        }
        listed += all.len();
    }
    assert!(listed > 500, "{listed}");
}

/// A packing that is there keeps every cut, whatever broken answer it was made from.
#[test]
fn packings_keep_cuts_by_parity() {
    let mut dice = Dice(7);
    let mut next = |n| dice.roll(n);
    let mut made = 0;
    for _ in 0..300 {
        // Joints filled by chance, and the lot of just their pieces.
        let joints: Vec<Vec<i64>> = (0..2 + next(5))
            .map(|_| (0..1 + next(4)).map(|_| 4 + next(8)).collect())
            .collect();
        let pool = pool(48, 0, &joints.concat());
        let lot = Lot::new(&pool, joints.len() as i64);
        let length = |kind: &Kind| pool.items[kind.units[0][0] as usize].length;
        let held = |joint: &Vec<i64>| -> Cuts {
            let count = |kind: &Kind| joint.iter().filter(|l| **l == length(kind)).count() as u32;
            let kinds = (0u32..).zip(lot.kinds.iter().map(count));
            kinds.filter(|c| c.1 > 0).collect()
        };
        let packing: Vec<Cuts> = joints.iter().map(held).collect();
        let mut all = Vec::new();
        patterns(&lot, 0, lot.room, &mut Vec::new(), &mut all);
        let broken: Vec<(Cuts, f64)> = (0..6)
            .map(|_| {
                (
                    all[next(all.len() as u64) as usize].clone(),
                    next(10) as f64 / 10.0,
                )
            })
            .filter(|b| !b.0.is_empty())
            .collect();
        for cut in lacking(&lot, &broken, 20) {
            let odd: f64 = broken
                .iter()
                .filter(|b| cut.is_odd(&b.0))
                .map(|b| b.1)
                .sum();
            assert!(cut.holds(&lot) && odd < 1.0, "{cut:?}");
            assert!(packing.iter().any(|c| cut.is_odd(c)), "{cut:?} {joints:?}");
            made += 1;
        }
    }
    assert!(made > 300, "{made}");
}
