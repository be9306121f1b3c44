//! The search against plain enumeration, on lots of a few pieces.

use super::super::converge::Budget;
use super::super::problem::{Credit, Item, Pool, Stock};
use super::lot::Lot;
use super::tree::{End, search};

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

#[test]
fn packs_where_enumeration_does_and_nowhere_else() {
    let mut state = 3u64;
    let mut next = |n: u64| {
        state = state
            .wrapping_mul(6364136223846793005)
            .wrapping_add(1442695040888963407);
        i64::try_from((state >> 33) % n).expect("small")
    };
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
            let mut budget = Budget {
                left: 1_000_000_000,
                stop: &never,
            };
            let truth = fits(&weights, &mut vec![room; bins as usize]);
            match search(Lot::new(&pool, bins), Vec::new(), &mut budget) {
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
