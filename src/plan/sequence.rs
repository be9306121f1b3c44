//! The order in which joints are cut: gates finish in due order, with few open at once.
//!
//! Joints are permuted, their contents never. Equal pieces are interchangeable: whichever is cut
//! first goes to the gate due first. So the next joint is the one that gives the first unfinished
//! gate most of what it lacks; among equals the one whose other pieces are wanted soonest.

use std::collections::BTreeMap;

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
    let holding = holding(&piles);
    let mut out = Vec::new();
    while let Some(best) = next(&piles, &holding, wants) {
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

/// Which piles hold each cut.
type Holding = BTreeMap<(usize, Cut), Vec<usize>>;

fn holding(piles: &[Pile]) -> Holding {
    let mut out = Holding::new();
    for (at, pile) in piles.iter().enumerate() {
        for (cut, _) in &pile.counts {
            out.entry((pile.pool, *cut)).or_default().push(at);
        }
    }
    out
}

/// The pile to take the next joint from: among those that hold something the first unfinished gate wants next,
/// as no other gives it anything, and among all only where there is none.
fn next(piles: &[Pile], holding: &Holding, wants: &Wants) -> Option<usize> {
    let fronts = || {
        wants
            .iter()
            .filter_map(|(cut, q)| Some((cut, q.front()?.owner)))
    };
    let first = fronts().map(|(_, owner)| owner).min().unwrap_or(0);
    let of_first = fronts().filter(|(_, owner)| *owner == first);
    let giving = of_first.flat_map(|(cut, _)| holding.get(cut).into_iter().flatten().copied());
    best_of(piles, giving, (first, wants))
        .or_else(|| best_of(piles, 0..piles.len(), (first, wants)))
}

/// The best of these piles that has joints left.
fn best_of(
    piles: &[Pile],
    among: impl Iterator<Item = usize>,
    (first, wants): (usize, &Wants),
) -> Option<usize> {
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
    among
        .filter(|i| piles[*i].times > 0)
        .min_by_key(|i| (score(&piles[*i]), *i))
}
