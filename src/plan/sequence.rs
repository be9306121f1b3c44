//! The order in which joints are cut: gates finish in due order, with few open at once.
//!
//! Joints are permuted, their contents never. Equal pieces are interchangeable: whichever is cut
//! first goes to the gate due first. So the next joint is the one that gives the first unfinished
//! gate most of what it lacks; among equals the one whose other pieces are wanted soonest.

use super::owner::{Want, Wants};
use crate::nest::{Cut, PoolAnswer};

/// A joint in its place in the sequence, with whom its pieces go to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Placed {
    pub pool: usize,
    /// Index into the pool's stocks.
    pub stock: usize,
    /// Pieces in the pattern's order (longest first), each with who wanted it.
    pub pieces: Vec<(Cut, Want)>,
}

/// Equal joints still to be placed.
struct Pile {
    pool: usize,
    stock: usize,
    cuts: Vec<Cut>,
    /// Cut → how many, each cut once.
    counts: Vec<(Cut, usize)>,
    times: u32,
}

/// Order every joint of every pool; `wants` is used up. Pieces nobody wants (never in a sound
/// answer) are left out.
pub(crate) fn sequence(answers: &[PoolAnswer], wants: &mut Wants) -> Vec<Placed> {
    let mut piles = piles(answers);
    let mut out = Vec::new();
    while let Some(best) = next(&piles, wants) {
        let pile = &mut piles[best];
        pile.times -= 1;
        let mut pieces = Vec::with_capacity(pile.cuts.len());
        for cut in &pile.cuts {
            let queue = wants.get_mut(&(pile.pool, *cut));
            if let Some(want) = queue.and_then(std::collections::VecDeque::pop_front) {
                pieces.push((*cut, want));
            }
        }
        out.push(Placed {
            pool: pile.pool,
            stock: pile.stock,
            pieces,
        });
    }
    out
}

fn piles(answers: &[PoolAnswer]) -> Vec<Pile> {
    let mut out = Vec::new();
    for (pool, answer) in answers.iter().enumerate() {
        for pattern in answer.patterns.iter().filter(|p| !p.cuts.is_empty()) {
            let mut counts: Vec<(Cut, usize)> = Vec::new();
            for cut in &pattern.cuts {
                match counts.iter_mut().find(|(c, _)| c == cut) {
                    Some((_, n)) => *n += 1,
                    None => counts.push((*cut, 1)),
                }
            }
            out.push(Pile {
                pool,
                stock: pattern.stock,
                cuts: pattern.cuts.clone(),
                counts,
                times: pattern.times,
            });
        }
    }
    out
}

/// The pile to take the next joint from.
fn next(piles: &[Pile], wants: &Wants) -> Option<usize> {
    let first = wants
        .values()
        .filter_map(|q| q.front())
        .map(|w| w.owner)
        .min()
        .unwrap_or(0);
    let score = |pile: &Pile| {
        let (mut now, mut farthest, mut sum) = (0usize, 0usize, 0usize);
        for (cut, n) in &pile.counts {
            let Some(queue) = wants.get(&(pile.pool, *cut)) else {
                continue;
            };
            for want in queue.iter().take(*n) {
                now += usize::from(want.owner == first);
                farthest = farthest.max(want.owner);
                sum += want.owner - first;
            }
        }
        (usize::MAX - now, farthest, sum)
    };
    piles
        .iter()
        .enumerate()
        .filter(|(_, p)| p.times > 0)
        .min_by_key(|(i, p)| (score(p), *i))
        .map(|(i, _)| i)
}
