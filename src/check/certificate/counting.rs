//! Test of the cheapest configuration: small groups, all their configurations counted through.

use super::alone;
use super::configuration::cheapest;
use super::legal;
use super::possible::{possible, possible_within};
use super::worth::Worth;
use crate::nest::made::Dice;
use crate::nest::{Group, Line, Slot};

fn worth(rows: &[(i64, i64)]) -> Worth {
    let rows: Vec<(i64, u8, i64)> = rows.iter().map(|(l, d)| (*l, 0, *d)).collect();
    Worth::of_class(&rows, 0)
}

fn line(dice: &mut Dice, least: u32) -> Line {
    let mut slots = Vec::new();
    let mut at = 6 + dice.roll(4);
    for zone in 1..=4 {
        let hi = at + dice.roll(9);
        slots.push(Slot {
            lo: at,
            hi,
            zone,
            charge: dice.roll(3),
        });
        at = hi + 1 + dice.roll(6);
    }
    Line {
        length: at + 4 + dice.roll(8),
        whole: at + 4,
        gap: dice.roll(3),
        least_splices: least,
        most_splices: 2,
        least_piece: 1 + dice.roll(6),
        three_over: 4,
        slots,
    }
}

/// All pieces of a line, by counting through them.
fn all(line: &Line, mark: i64, longest: i64) -> Vec<Vec<i64>> {
    let mut out = Vec::new();
    if line.least_splices == 0 && line.whole <= longest {
        out.push(vec![line.whole]);
    }
    let fits = |p: i64| p <= longest && p > 0;
    for m in 1..=i64::from(line.most_splices) {
        let metal = (line.length - m * line.gap) / mark * mark;
        for a in (mark..metal).step_by(usize::try_from(mark).unwrap_or(1)) {
            if m == 1 && fits(a) && fits(metal - a) {
                out.push(vec![a, metal - a]);
            }
            for b in (mark..metal - a).step_by(usize::try_from(mark).unwrap_or(1)) {
                if m == 2 && fits(a) && fits(b) && fits(metal - a - b) {
                    out.push(vec![a, b, metal - a - b]);
                }
            }
        }
    }
    out
}

fn counted(group: &Group, mark: i64, longest: i64, worth: &Worth) -> Option<i128> {
    let first = all(&group.lines[0], mark, longest);
    let second = group.lines.get(1).map(|l| all(l, mark, longest));
    let mut best: Option<i128> = None;
    for a in &first {
        for b in second.as_ref().unwrap_or(&vec![Vec::new()]) {
            let mut lines = vec![a.clone()];
            if second.is_some() {
                lines.push(b.clone());
            }
            let pay: i128 = lines.iter().flatten().map(|p| worth.of(*p)).sum();
            if let Ok(money) = legal::price(group, mark, &lines) {
                best = Some(best.map_or(money + pay, |old| old.min(money + pay)));
            }
        }
    }
    best
}

#[test]
fn finds_what_counting_through_finds() {
    let mut dice = Dice(7);
    let (mut found, mut none) = (0, 0);
    for round in 0..120 {
        let two = round % 2 == 0;
        let least = dice.count(2);
        let mut lines = vec![line(&mut dice, least)];
        if two {
            lines.push(line(&mut dice, 1));
        }
        let group = Group {
            name: "g".into(),
            count: 1,
            class: 0,
            lines,
            apart: dice.roll(8),
            zones_exclusive: dice.roll(3) > 0,
            splice_cost: dice.roll(5),
        };
        let mark = 1 + dice.roll(2);
        let longest = 14 + dice.roll(40);
        let rows: Vec<(i64, i64)> = (0..6).map(|_| (dice.roll(40), dice.roll(4))).collect();
        let worth = worth(&rows);
        let own = cheapest(
            &group,
            mark,
            longest,
            &worth,
            (1, i128::from(group.splice_cost)),
        );
        let alone: Option<i128> = (group.lines.iter())
            .map(|l| alone::least(l, mark, longest, &worth, (1, i128::from(group.splice_cost))))
            .sum();
        let slow = counted(&group, mark, longest, &worth);
        assert_eq!(
            own, slow,
            "round {round}: {group:?} mark {mark} longest {longest} {rows:?}"
        );
        // Lines apart are never dearer than together, and a line by itself costs just what it costs.
        match (slow, two) {
            (_, false) => assert_eq!(alone, slow, "round {round}: {group:?} mark {mark}"),
            (Some(slow), true) => assert!(alone.is_some_and(|a| a <= slow), "{group:?}"),
            (None, true) => {}
        }
        assert_eq!(
            possible(&group, mark, longest),
            Ok(slow.is_some()),
            "round {round}: {group:?}"
        );
        found += i32::from(own.is_some());
        none += i32::from(own.is_none());
    }
    assert!(found > 40 && none > 4, "{found} found, {none} impossible");
}

/// A search that ends before it knows says so: it neither finds a way that it has not seen nor denies one.
#[test]
fn a_search_cut_short_never_says_what_it_does_not_know() {
    let mut dice = Dice(11);
    let (mut given_up, mut found) = (0, 0);
    for round in 0..60 {
        let lines = vec![line(&mut dice, 1), line(&mut dice, 1)];
        let group = Group {
            name: "g".into(),
            count: 1,
            class: 0,
            lines,
            apart: dice.roll(8),
            zones_exclusive: true,
            splice_cost: 0,
        };
        let longest = 14 + dice.roll(40);
        let truth = possible(&group, 1, longest).expect("small");
        for states in 0..6 {
            match possible_within(&group, 1, longest, states) {
                Ok(said) => assert_eq!(said, truth, "round {round}, {states} states"),
                Err(_) => given_up += 1,
            }
        }
        found += i32::from(truth);
    }
    assert!(
        given_up > 40 && found > 20,
        "{given_up} given up, {found} found"
    );
}
