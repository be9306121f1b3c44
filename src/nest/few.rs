//! The cheapest splicing of one line by one splice or two, in closed form over runs of constant price.
//!
//! The first piece's value rises with x₁ and the last one's falls with the last cut; cut both into runs of
//! one slot and one price step. With one splice the best cut of a run is its greatest. With two, for a
//! run of x₁ and a run of x₂ the middle piece is least with x₁ greatest and x₂ least, so a pair of runs
//! has one value; runs are tried in order of value until no pair can be cheaper.

use super::chain::Chain;
use super::lattice::{Span, Stretch, least_piece, pieces_sum, stand, stretches};
use super::price::Price;
use super::problem::Line;

/// Cuts of one stretch whose end piece has one price.
#[derive(Clone, Copy)]
struct Run {
    from: i64,
    to: i64,
    value: i64,
    stretch: Stretch,
}

/// The cheapest chain with m = 1 or 2 splices; charges count `scale` times.
pub(super) fn few_splices(
    line: &Line,
    (mark, unit): (i64, i64),
    price: &Price,
    (m, scale): (u32, i64),
    banned: &[Span],
) -> Option<Chain> {
    let total = pieces_sum(line, mark, m);
    let at =
        |j: u32, (cut, stretch): (i64, &Stretch)| stand(line, mark, unit, (m, j), (cut, stretch));
    let first = runs(
        &stretches(line, mark, unit, (m, 1), banned),
        price,
        mark,
        scale,
    );
    if m == 1 {
        let (value, run) = first
            .iter()
            .filter_map(|run| Some((run.value + price.of(total - run.to)?, run)))
            .min_by_key(|(value, run)| (*value, run.to))?;
        let rest = price.step(total - run.to)?;
        let low = run.from.max(-(rest.hi - total).div_euclid(mark) * mark);
        let cut = middle(low, run.to, mark);
        return Some(Chain {
            value,
            pieces: vec![cut, total - cut],
            stands: vec![at(1, (cut, &run.stretch))],
        });
    }
    let second = mirrored(
        &stretches(line, mark, unit, (2, 2), banned),
        price,
        (mark, total),
        scale,
    );
    let least = -(-least_piece(line, mark)).div_euclid(mark) * mark;
    let (value, x1, a, x2, b) = pair(first, second, price, (least, mark))?;
    Some(Chain {
        value,
        pieces: vec![x1, x2 - x1, total - x2],
        stands: vec![at(1, (x1, &a)), at(2, (x2, &b))],
    })
}

/// Runs of equal value of the piece before the cut.
fn runs(stretches: &[Stretch], price: &Price, mark: i64, scale: i64) -> Vec<Run> {
    let mut found = Vec::new();
    for s in stretches {
        let start = price.steps.partition_point(|step| step.hi < s.from);
        for step in price.steps[start..]
            .iter()
            .take_while(|step| step.lo <= s.to)
        {
            let from = s.from.max(-(-step.lo).div_euclid(mark) * mark);
            let to = s.to.min(step.hi.div_euclid(mark) * mark);
            if from <= to {
                found.push(Run {
                    from,
                    to,
                    value: step.value + s.charge * scale,
                    stretch: *s,
                });
            }
        }
    }
    found
}

/// Runs of equal value of the piece after the cut.
fn mirrored(
    stretches: &[Stretch],
    price: &Price,
    (mark, total): (i64, i64),
    scale: i64,
) -> Vec<Run> {
    let turn = |s: &Stretch| Stretch {
        from: total - s.to,
        to: total - s.from,
        ..*s
    };
    let turned: Vec<Stretch> = stretches.iter().map(turn).collect();
    let mut found = runs(&turned, price, mark, scale);
    for run in &mut found {
        (run.from, run.to) = (total - run.to, total - run.from);
        run.stretch = turn(&run.stretch);
    }
    found
}

type Pair = (i64, i64, Stretch, i64, Stretch);

fn pair(
    mut first: Vec<Run>,
    mut second: Vec<Run>,
    price: &Price,
    (least, mark): (i64, i64),
) -> Option<Pair> {
    first.sort_by_key(|r| (r.value, r.from));
    second.sort_by_key(|r| (r.value, r.from));
    let floor = price.of(least)?;
    let mut best: Option<Pair> = None;
    let beaten = |value: i64, best: &Option<Pair>| best.as_ref().is_some_and(|b| value >= b.0);
    for a in &first {
        let cheapest = second.first()?.value + floor;
        if beaten(a.value + cheapest, &best) {
            break;
        }
        for b in &second {
            if beaten(a.value + b.value + floor, &best) {
                break;
            }
            if b.to - a.from < least || a.stretch.zone == b.stretch.zone {
                continue;
            }
            let x2 = b.from.max(a.from + least);
            let x1 = a.to.min(x2 - least);
            let Some(middle) = price.of(x2 - x1) else {
                continue;
            };
            let value = a.value + b.value + middle;
            if !beaten(value, &best) {
                let (x1, x2) = slide((x1, a), (x2, b), price, mark)?;
                best = Some((value, x1, a.stretch, x2, b.stretch));
            }
        }
    }
    best
}

/// Of cuts that cost the same, one far from both ends: the length it asks for halves what rounding to the
/// rows still hides (from the ends the rows would creep mark by mark).
fn middle(low: i64, high: i64, mark: i64) -> i64 {
    low + (high - low) / 2 / mark * mark
}

/// Moves the cuts outward, half as far as the middle piece keeps its price.
fn slide(
    (x1, a): (i64, &Run),
    (x2, b): (i64, &Run),
    price: &Price,
    mark: i64,
) -> Option<(i64, i64)> {
    let hi = price.step(x2 - x1)?.hi;
    let first = middle(a.from.max(x2 - hi / mark * mark).min(x1), x1, mark);
    let last = b.to.min(first + hi / mark * mark).max(x2);
    Some((first, middle(x2, last, mark)))
}

#[cfg(test)]
mod tests {
    use super::super::chain::with_splices;
    use super::super::made::Dice;
    use super::super::problem::Slot;
    use super::*;

    #[test]
    fn agrees_with_the_label_program() {
        let mut dice = Dice(5);
        let mut next = |n| dice.roll(n);
        let mut feasible = 0;
        for _ in 0..2000 {
            let mark = 1 + next(3);
            let length = 60 + next(200);
            let (mut slots, mut at) = (Vec::new(), next(20));
            for zone in 0..1 + next(6) as u32 {
                let hi = at + next(12);
                slots.push(Slot {
                    lo: at,
                    hi,
                    zone: zone / 2,
                    charge: next(5),
                });
                at = hi + next(20);
            }
            let line = Line {
                length,
                whole: length,
                gap: next(3),
                least_splices: 1,
                most_splices: 2,
                least_piece: next(30),
                three_over: 0,
                slots,
            };
            let mut jumps: Vec<(i64, i64)> = (0..next(8)).map(|_| (next(150), next(9))).collect();
            jumps.sort_unstable();
            let price = Price::new(&jumps, 30 + next(150));
            let banned: Vec<Span> = (0..next(3))
                .map(|_| (next(800), next(400)))
                .map(|(a, n)| (a, a + n))
                .collect();
            for m in 1..=2 {
                let quick = few_splices(&line, (mark, 4), &price, (m, 3), &banned);
                let plain = with_splices(&line, (mark, 4), &price, (m, 3), &banned);
                assert_eq!(
                    quick.as_ref().map(|c| c.value),
                    plain.map(|c| c.value),
                    "{line:?}"
                );
                feasible += usize::from(quick.is_some());
            }
        }
        assert!(feasible > 300, "{feasible}");
    }
}
