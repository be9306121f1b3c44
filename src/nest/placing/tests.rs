//! Splices placed one by one against all configurations of small groups, tried one after another, and runs of
//! positions against the plain label program.

use super::super::chain::with_splices;
use super::super::couple::{Coupling, PRICING_WORK, couple};
use super::super::lattice::{centre_unit, pieces_sum};
use super::super::made::{Dice, slots};
use super::super::price::Price;
use super::super::rules::configuration_cost;
use super::*;

/// A line of up to three splices in windows or points of a few zones.
fn line(dice: &mut Dice, long: i64, mark: i64) -> Line {
    let (mut places, mut at) = (Vec::new(), dice.roll(6));
    for zone in 0..2 + dice.count(5) {
        let hi = at + dice.roll(6);
        places.push((at, hi, zone / 2, dice.roll(4)));
        at = hi + 1 + dice.roll(9);
    }
    let least = dice.count(2);
    Line {
        length: long,
        whole: long,
        gap: dice.roll(3),
        least_splices: least,
        most_splices: 3,
        least_piece: dice.roll(4) * mark,
        three_over: dice.roll(2) * dice.roll(12),
        slots: slots(&places),
    }
}

/// Every list of pieces of a line, none longer than `longest`.
fn all_pieces(line: &Line, mark: i64, longest: i64) -> Vec<Vec<i64>> {
    let mut out = Vec::new();
    for m in line.least_splices..=line.most_splices {
        if m == 0 {
            out.push(vec![line.whole]);
            continue;
        }
        let total = pieces_sum(line, mark, m);
        let mut open = vec![Vec::new()];
        for _ in 0..m {
            let mut next = Vec::new();
            for begun in &open {
                let left = total - begun.iter().sum::<i64>();
                for n in 1..left / mark {
                    let mut pieces: Vec<i64> = begun.clone();
                    pieces.push(n * mark);
                    next.push(pieces);
                }
            }
            open = next;
        }
        for mut pieces in open {
            pieces.push(total - pieces.iter().sum::<i64>());
            out.push(pieces);
        }
    }
    out.retain(|p| p.iter().all(|l| (1..=longest).contains(l)));
    out
}

#[test]
fn the_cheapest_of_all_that_are_legal() {
    let mut dice = Dice(11);
    let (mut found, mut none) = (0, 0);
    for _ in 0..400 {
        let mark = 1 + dice.roll(3);
        let long = 20 + dice.roll(10);
        let lines: Vec<Line> = (0..1 + dice.roll(2))
            .map(|_| line(&mut dice, long, mark))
            .collect();
        let two = lines.len() > 1;
        let group = Group {
            name: "g".into(),
            count: 1,
            class: 0,
            lines,
            apart: if two { dice.roll(7) } else { 0 },
            zones_exclusive: two && dice.roll(2) == 0,
            splice_cost: 2,
        };
        let mut jumps: Vec<(i64, i64)> = (0..dice.roll(5))
            .map(|_| (dice.roll(16), dice.roll(9)))
            .collect();
        jumps.sort_unstable();
        let longest = 8 + dice.roll(14);
        let price = Price::new(&jumps, longest);
        let worth = |lines: &[Vec<i64>]| -> Option<i64> {
            let money = configuration_cost(&group, mark, lines).ok()?;
            let pieces: Option<i64> = lines.iter().flatten().map(|p| price.of(*p)).sum();
            Some(money + pieces?)
        };
        let each: Vec<Vec<Vec<i64>>> = (group.lines.iter())
            .map(|l| all_pieces(l, mark, longest))
            .collect();
        let alone = |l: usize, p: &Vec<i64>| {
            let one = Group {
                lines: vec![group.lines[l].clone()],
                ..group.clone()
            };
            configuration_cost(&one, mark, std::slice::from_ref(p)).is_ok()
        };
        let legal: Vec<Vec<&Vec<i64>>> = (each.iter().enumerate())
            .map(|(l, all)| all.iter().filter(|p| alone(l, p)).collect())
            .collect();
        let least = match legal.as_slice() {
            [a] => a.iter().filter_map(|p| worth(&[(*p).clone()])).min(),
            [a, b] => (a.iter())
                .flat_map(|p| b.iter().map(move |q| [(*p).clone(), (*q).clone()]))
                .filter_map(|pair| worth(&pair))
                .min(),
            _ => None,
        };
        let means = Means {
            enough: i64::MAX,
            work: PRICING_WORK,
            stop: &|| false,
        };
        match couple(&group, mark, &price, (1, group.splice_cost), &means) {
            Coupling::Found(got) => {
                let judged = configuration_cost(&group, mark, &got.lines);
                let told = format!(
                    "{group:?} {price:?} mark {mark}: {:?}, {judged:?}",
                    got.lines
                );
                assert_eq!(Some(got.value), least, "{told}");
                assert_eq!(worth(&got.lines), least, "{told}");
                found += 1;
            }
            Coupling::Impossible { .. } => {
                assert_eq!(least, None, "{group:?} {price:?} mark {mark}");
                none += 1;
            }
            Coupling::Open { .. } => panic!("so small a group is gone through"),
        }
    }
    assert!(found > 100 && none > 50, "{found} found, {none} have none");
}

#[test]
fn runs_agree_with_the_plain_label_program() {
    let mut dice = Dice(4);
    let mut some = 0;
    for _ in 0..1_000 {
        let mark = 1 + dice.roll(3);
        let long = 40 + dice.roll(20);
        let mut own = line(&mut dice, long, mark);
        own.three_over = 0;
        let group = Group {
            name: "g".into(),
            count: 1,
            class: 0,
            lines: vec![own.clone()],
            apart: 0,
            zones_exclusive: false,
            splice_cost: 0,
        };
        let unit = centre_unit(&group);
        let mut jumps: Vec<(i64, i64)> = (0..dice.roll(7))
            .map(|_| (dice.roll(30), dice.roll(9)))
            .collect();
        jumps.sort_unstable();
        let price = Price::new(&jumps, 10 + dice.roll(25));
        for m in 1..=3 {
            let runs = ToGo::new(&own, (mark, unit), &price, (m, 3), &mut 0);
            let plain = with_splices(&own, (mark, unit), &price, (m, 3), &[]);
            assert_eq!(
                runs.least,
                plain.map(|c| c.value),
                "{own:?} {price:?} mark {mark}"
            );
            some += u32::from(runs.least.is_some());
        }
    }
    assert!(some > 300, "{some}");
}
