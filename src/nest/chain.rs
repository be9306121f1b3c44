//! The cheapest splicing of one line under a price of pieces, and the plain way to find it that tests hold the
//! quicker ones (`few.rs`, `to_go.rs`) against: a label program over positions.
//!
//! g₀(0) = 0; g_j(x) = charge(x) + min over y of g_{j−1}(y) + f(x − y), f the step price. Because f
//! never falls, for each step the minimum may run over *all* y nearer than the step's longest piece
//! (a nearer y only pays less), so every step is one sliding-window minimum: O(positions × steps) per
//! splice. The three-splice rule is left out here (see `couple.rs`): the value is then a lower bound.

#[cfg(test)]
use std::collections::VecDeque;

use super::few::few_splices;
use super::lattice::{Position, Span};
#[cfg(test)]
use super::lattice::{least_piece, pieces_sum, positions};
use super::price::Price;
use super::problem::Line;

/// A splicing of one line with its value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Chain {
    /// Charges + splice costs + value of its pieces.
    pub value: i64,
    /// Pieces in order.
    pub pieces: Vec<i64>,
    /// Where its splices stand.
    pub stands: Vec<Position>,
}

/// One layer of labels: best value and best predecessor per position.
#[cfg(test)]
struct Layer {
    at: Vec<Position>,
    best: Vec<Option<(i64, usize)>>,
}

/// The cheapest chain over all allowed numbers of splices (at most two), positions in `banned` left out; charges
/// count `scale` times, each splice costs `splice` (in the price's scale). Ties: fewer splices, then the earlier
/// position at each step back from the end.
pub(super) fn cheapest(
    line: &Line,
    (mark, unit): (i64, i64),
    price: &Price,
    (scale, splice): (i64, i64),
    banned: &[Span],
) -> Option<Chain> {
    let mut best: Option<Chain> = None;
    for m in line.least_splices..=line.most_splices {
        let found = if m == 0 {
            price.of(line.whole).map(|value| Chain {
                value,
                pieces: vec![line.whole],
                stands: Vec::new(),
            })
        } else {
            few_splices(line, (mark, unit), price, (m, scale), banned).map(|mut chain| {
                chain.value += splice * i64::from(m);
                chain
            })
        };
        if let Some(chain) = found
            && best.as_ref().is_none_or(|b| chain.value < b.value)
        {
            best = Some(chain);
        }
    }
    best
}

/// Any number of splices m ≥ 1.
#[cfg(test)]
pub(super) fn with_splices(
    line: &Line,
    (mark, unit): (i64, i64),
    price: &Price,
    (m, scale): (u32, i64),
    banned: &[Span],
) -> Option<Chain> {
    let least = least_piece(line, mark);
    let end = |cut: i64| Position {
        cut,
        centre: 0,
        zone: 0,
        charge: 0,
    };
    let (total, longest) = (pieces_sum(line, mark, m), price.steps.last()?.hi);
    // Where splice j may stand for the pieces on either side of it to be neither too short nor too long:
    // no other place is on the way from end to end.
    let reach = |j: u32| {
        let (before, after) = (i64::from(j), i64::from(m + 1 - j));
        let from = (before * least).max(total.saturating_sub(longest.saturating_mul(after)));
        from..=longest.saturating_mul(before).min(total - after * least)
    };
    let mut layers = vec![Layer {
        at: vec![end(0)],
        best: vec![Some((0, 0))],
    }];
    for j in 1..=m + 1 {
        let at = if j <= m {
            let mut at = scaled(positions(line, mark, unit, (m, j), banned), scale);
            at.retain(|p| reach(j).contains(&p.cut));
            at
        } else {
            vec![end(total)]
        };
        if at.is_empty() {
            return None;
        }
        let zoned = 1 < j && j <= m;
        let before = layers.last().expect("the first layer is there");
        let best = step(before, &at, price, least, zoned);
        layers.push(Layer { at, best });
    }
    let value = layers.last()?.best[0]?.0;
    let (mut pieces, mut stands) = (Vec::new(), Vec::new());
    let mut here = 0usize;
    for j in (1..layers.len()).rev() {
        let (_, from) = layers[j].best[here]?;
        pieces.push(layers[j].at[here].cut - layers[j - 1].at[from].cut);
        if j > 1 {
            stands.push(layers[j - 1].at[from]);
        }
        here = from;
    }
    pieces.reverse();
    stands.reverse();
    Some(Chain {
        value,
        pieces,
        stands,
    })
}

/// Charges in the price's scale.
#[cfg(test)]
fn scaled(mut positions: Vec<Position>, scale: i64) -> Vec<Position> {
    for position in &mut positions {
        position.charge *= scale;
    }
    positions
}

/// Labels of the next layer: one sliding minimum per step of the price.
#[cfg(test)]
fn step(
    before: &Layer,
    at: &[Position],
    price: &Price,
    least: i64,
    zoned: bool,
) -> Vec<Option<(i64, usize)>> {
    let mut best: Vec<Option<(i64, usize)>> = vec![None; at.len()];
    let mut window: VecDeque<(i64, usize)> = VecDeque::new();
    for piece in price.steps.iter().filter(|s| s.hi >= least) {
        window.clear();
        let mut next = 0usize;
        for (x, label) in at.iter().zip(best.iter_mut()) {
            while let Some(y) = before.at.get(next) {
                if y.cut > x.cut - least || (zoned && y.zone == x.zone) {
                    break;
                }
                if let Some((value, _)) = before.best[next] {
                    while window.back().is_some_and(|b| b.0 > value) {
                        window.pop_back();
                    }
                    window.push_back((value, next));
                }
                next += 1;
            }
            while window
                .front()
                .is_some_and(|f| before.at[f.1].cut < x.cut - piece.hi)
            {
                window.pop_front();
            }
            if let Some(&(value, from)) = window.front() {
                let value = value + piece.value + x.charge;
                if label.is_none_or(|l| value < l.0) {
                    *label = Some((value, from));
                }
            }
        }
    }
    best
}
