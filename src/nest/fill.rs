//! Long lists cut joint by joint: the longest piece left, and with it the pieces that fill its joint best
//! (minimal slack with a seed: J. N. D. Gupta, J. C. Ho 1999; K. Fleszar, K. S. Hindi 2002).
//!
//! Where very many pieces are left some of them nearly always fill a joint to the last mark; so this goes on
//! only while there are many, and what is left then is a small problem for the whole engine.

use super::best_fit::{Joint, Need};
use super::lattice::gcd;
use super::problem::Pool;

/// Sets of pieces tried for a joint.
const TRIES: u32 = 2_000;

/// Joints filled while more than `leave` pieces are wanted; what they hold is taken off `needs`, which come
/// back longest first.
pub(super) fn fill_joints(
    pool: &Pool,
    needs: &mut [Need],
    leave: u64,
    stop: &dyn Fn() -> bool,
) -> Vec<Joint> {
    needs.sort_by_key(|n| (std::cmp::Reverse(n.length), n.cut));
    // Sets of equally many pieces differ by whole steps: less than a step left over, and none fills better.
    let apart = needs.windows(2).map(|n| n[0].length - n[1].length);
    let step = apart.fold(0, gcd).max(1);
    let mut left: Vec<Option<u32>> = pool.stocks.iter().map(|s| s.limit).collect();
    let mut wanted: u64 = needs.iter().map(|n| n.count).sum();
    let mut joints = Vec::new();
    while wanted > leave && !stop() {
        let Some(seed) = needs.iter().position(|n| n.count > 0) else {
            break;
        };
        let Some(stock) = cheapest(pool, &needs[seed], &left) else {
            break;
        };
        let mut joint = Joint::new(pool, stock);
        let room = joint.left - needs[seed].length - pool.kerf;
        let mut search = Search::new(pool, needs, (stock, seed));
        search.go(room, step - 1);
        for n in std::iter::once(seed).chain(search.best) {
            needs[n].count -= 1;
            wanted -= 1;
            joint.put(needs[n].length + pool.kerf, needs[n].class, needs[n].cut);
        }
        if let Some(left) = &mut left[stock] {
            *left -= 1;
        }
        joints.push(joint);
    }
    joints
}

/// The stock that is cheapest by length of those that hold a piece.
fn cheapest(pool: &Pool, need: &Need, left: &[Option<u32>]) -> Option<usize> {
    let holds = |s: &usize| {
        let stock = &pool.stocks[*s];
        left[*s] != Some(0) && stock.usable >= need.length && stock.serves >> need.class & 1 == 1
    };
    (0..pool.stocks.len()).filter(holds).min_by(|&a, &b| {
        let (a, b) = (&pool.stocks[a], &pool.stocks[b]);
        let left = i128::from(a.cost) * i128::from(b.usable + pool.kerf);
        left.cmp(&(i128::from(b.cost) * i128::from(a.usable + pool.kerf)))
    })
}

/// Depth first over the pieces by falling length, until nothing is left over that could be filled, or the
/// tries are up.
struct Search {
    /// Pieces that may be used, longest first: index into the needs, weight, how many.
    pieces: Vec<(usize, i64, u64)>,
    /// The best filling: indices into the needs.
    best: Vec<usize>,
    tries: u32,
}

impl Search {
    fn new(pool: &Pool, needs: &[Need], (stock, seed): (usize, usize)) -> Search {
        let serves = pool.stocks[stock].serves;
        let free = needs.iter().enumerate().map(|(n, need)| {
            let count = need.count - u64::from(n == seed);
            (n, need.length + pool.kerf, count)
        });
        let pieces = free.filter(|p| p.2 > 0 && serves >> needs[p.0].class & 1 == 1);
        Search {
            pieces: pieces.collect(),
            best: Vec::new(),
            tries: 0,
        }
    }

    /// Fills this room until no more than `enough` is left.
    fn go(&mut self, room: i64, enough: i64) {
        let Some(shortest) = self.pieces.last().map(|p| p.1) else {
            return;
        };
        let mut least = room;
        let mut frames = vec![(0, room)];
        let mut path: Vec<usize> = Vec::new();
        while let Some((next, room)) = frames.last_mut() {
            let room = *room;
            let fits = |room: i64| self.pieces.partition_point(|p| p.1 > room);
            let at = (*next).max(fits(room));
            if at >= self.pieces.len() {
                frames.pop();
                if let Some(last) = path.pop() {
                    self.pieces[last].2 += 1;
                }
                continue;
            }
            let left = room - self.pieces[at].1;
            // Where nothing more fits beside a piece, the next shorter one only leaves more.
            *next = if left < shortest {
                (at + 1).max(fits(room - shortest))
            } else {
                at + 1
            };
            if self.pieces[at].2 == 0 {
                continue;
            }
            self.pieces[at].2 -= 1;
            path.push(at);
            frames.push((at, left));
            self.tries += 1;
            if left < least {
                least = left;
                self.best = path.iter().map(|&p| self.pieces[p].0).collect();
            }
            if self.tries >= TRIES || least <= enough {
                return;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::answer::Cut;
    use super::super::problem::{Credit, Stock};
    use super::*;

    fn need(n: usize, length: i64, count: u64) -> Need {
        Need {
            cut: Cut::Item(n),
            length,
            class: 0,
            count,
        }
    }

    /// Longest first puts 50 beside 60 and is left with 9; 40 + 19 fill the joint.
    #[test]
    fn the_longest_piece_and_what_fills_its_joint() {
        let stock = |name: &str, cost, limit| Stock {
            name: name.into(),
            usable: 119,
            cost,
            price: None,
            limit,
            serves: 1,
            length: 119,
        };
        let pool = Pool {
            name: "p".into(),
            mark: 1,
            kerf: 0,
            credit: Credit::NONE,
            stocks: vec![stock("dear", 10, None), stock("cheap", 9, Some(1))],
            items: Vec::new(),
            groups: Vec::new(),
        };
        let mut needs = [
            need(0, 50, 1),
            need(1, 60, 2),
            need(2, 40, 1),
            need(3, 19, 1),
        ];
        let joints = fill_joints(&pool, &mut needs, 1, &|| false);
        let told: Vec<_> = joints.iter().map(|j| (j.stock, j.left, &j.cuts)).collect();
        let item = Cut::Item;
        assert_eq!(
            told,
            [
                (1, 0, &vec![item(1), item(2), item(3)]),
                (0, 9, &vec![item(1), item(0)])
            ]
        );
        assert!(needs.iter().all(|n| n.count == 0));
    }
}
