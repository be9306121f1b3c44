//! The cheapest configuration of a group at given worths of pieces: q_g of DESIGN §9, exactly, over
//! every position on the saw mark.
//!
//! For each choice of slots the positions are whole numbers tied by differences. The worth of a piece
//! never falls with its length, so the least lengths of the closed system bound the worth from below;
//! where its least solution is worth more, the search splits a piece's length at the next rise. The
//! ways of two lines are joined cheapest first.

use super::alone;
use super::chain::{Chain, apart};
use super::tie::Ties;
use super::worth::Worth;
use crate::nest::{Group, Line};

/// Steps after which a group is given up as too large to verify.
const MOST_STEPS: u64 = 40_000_000;

/// The search gave up: the group has too many ways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct TooLarge;

/// One way of choosing the slots of one line (`None`: not spliced), with the least cost it can have.
struct Way<'a> {
    chain: Option<(Chain<'a>, Vec<usize>)>,
    /// Splices, charges.
    fixed: i128,
    /// Least of fixed + worth of pieces, the line by itself.
    least: i128,
}

/// A piece between two splices: variables of its ends; `None`: the line's end.
struct Span {
    from: usize,
    to: Option<usize>,
    metal: i64,
    mark: i64,
}

impl Span {
    fn least(&self, ties: &Ties) -> i64 {
        match self.to {
            Some(to) => ties.least(to, self.from),
            None => self.metal - ties.greatest(self.from, 0),
        }
    }

    /// Length in the least solution of a closed system.
    fn laid(&self, ties: &Ties) -> i64 {
        let start = ties.least(self.from, 0);
        self.to.map_or(self.metal, |to| ties.least(to, 0)) - start
    }

    fn keep_at_least(&self, ties: &mut Ties, marks: i64) {
        match self.to {
            Some(to) => ties.at_least(to, self.from, marks),
            None => ties.at_most(self.from, 0, self.metal - marks),
        }
    }

    fn keep_at_most(&self, ties: &mut Ties, marks: i64) {
        match self.to {
            Some(to) => ties.at_most(to, self.from, marks),
            None => ties.at_least(self.from, 0, self.metal - marks),
        }
    }
}

struct Search<'a> {
    worth: &'a Worth,
    /// Charges count this much, worths once.
    scale: i128,
    /// What a splice costs, charges aside.
    splice: i128,
    steps: u64,
}

/// A number not over splices + charges × scale + worth of pieces of any configuration of `group`; `None` when it
/// has none. Pieces longer than `longest` come out of no joint. It is the least there is, but in a group with
/// too many ways of choosing slots what its lines cost apart.
pub(super) fn cheapest(
    group: &Group,
    mark: i64,
    longest: i64,
    worth: &Worth,
    (scale, splice): (i128, i128),
) -> Option<i128> {
    let apart = || {
        let lines = group.lines.iter();
        lines
            .map(|line| alone::least(line, mark, longest, worth, (scale, splice)))
            .sum()
    };
    if alone::is_loose(group) {
        return apart();
    }
    exact(group, mark, longest, worth, (scale, splice)).unwrap_or_else(|TooLarge| apart())
}

/// The least of it, every way of choosing slots gone through.
fn exact(
    group: &Group,
    mark: i64,
    longest: i64,
    worth: &Worth,
    (scale, splice): (i128, i128),
) -> Result<Option<i128>, TooLarge> {
    let mut search = Search {
        worth,
        scale,
        splice,
        steps: MOST_STEPS,
    };
    let mut ways = Vec::new();
    for line in &group.lines {
        ways.push(search.ways(line, mark, longest));
    }
    let found = match ways.as_slice() {
        [one] => one.first().map(|w| w.least),
        [a, b] => search.join(group, a, b),
        _ => None,
    };
    if search.steps == 0 {
        Err(TooLarge)
    } else {
        Ok(found)
    }
}

impl<'a> Search<'a> {
    /// Every way of one line, cheapest first.
    fn ways<'l>(&mut self, line: &'l Line, mark: i64, longest: i64) -> Vec<Way<'l>> {
        let mut out = Vec::new();
        for m in line.least_splices..=line.most_splices {
            if m == 0 {
                if line.whole <= longest {
                    out.push(Way {
                        chain: None,
                        fixed: self.worth.of(line.whole),
                        least: self.worth.of(line.whole),
                    });
                }
                continue;
            }
            let Some(chain) = Chain::new(line, m, mark, longest) else {
                continue;
            };
            for slots in chain.choices(&mut self.steps) {
                if self.steps == 0 {
                    return out;
                }
                let charges: i128 = slots
                    .iter()
                    .map(|s| i128::from(line.slots[*s].charge))
                    .sum();
                let fixed = charges * self.scale + self.splice * i128::from(m);
                let (mut ties, spans) = system(&[(&chain, &slots)]);
                let mut best = None;
                self.lower(&mut ties, &spans, &mut best);
                if let Some(worth) = best {
                    out.push(Way {
                        chain: Some((chain.clone(), slots)),
                        fixed,
                        least: fixed + worth,
                    });
                }
            }
        }
        out.sort_by_key(|w| w.least);
        out
    }

    /// The cheapest pair of ways that go together.
    fn join(&mut self, group: &Group, a: &[Way<'_>], b: &[Way<'_>]) -> Option<i128> {
        let mut best: Option<i128> = None;
        for first in a {
            for second in b {
                self.steps = self.steps.saturating_sub(1);
                let sum = first.least + second.least;
                if self.steps == 0 || best.is_some_and(|found| sum >= found) {
                    break;
                }
                self.pair(group, first, second, &mut best);
            }
        }
        best
    }

    fn pair(&mut self, group: &Group, a: &Way<'_>, b: &Way<'_>, best: &mut Option<i128>) {
        let (Some((ca, sa)), Some((cb, sb))) = (&a.chain, &b.chain) else {
            // A line that stays whole ties nothing.
            *best = Some(a.least + b.least);
            return;
        };
        let zone = |c: &Chain<'_>, s: usize| c.line.slots[s].zone;
        let shared = sa
            .iter()
            .any(|x| sb.iter().any(|y| zone(ca, *x) == zone(cb, *y)));
        if shared && group.zones_exclusive {
            return;
        }
        let (ties, spans) = system(&[(ca, sa), (cb, sb)]);
        let fixed = a.fixed + b.fixed;
        let mut worth = best.map(|found| found - fixed);
        let pairs = (1..=ca.m).flat_map(|i| (1..=cb.m).map(move |j| (i, j)));
        self.orders(
            group,
            (ca, cb),
            &pairs.collect::<Vec<_>>(),
            &ties,
            &spans,
            &mut worth,
        );
        *best = worth.map(|w| w + fixed);
    }

    /// Each splice of one line lies behind or before each of the other by `apart`: both orders are
    /// tried where the slots leave both open.
    fn orders(
        &mut self,
        group: &Group,
        (a, b): (&Chain<'_>, &Chain<'_>),
        pairs: &[(i64, i64)],
        ties: &Ties,
        spans: &[Span],
        best: &mut Option<i128>,
    ) {
        let Some(((i, j), rest)) = pairs.split_first() else {
            self.lower(&mut ties.clone(), spans, best);
            return;
        };
        let (x, y) = (
            variable(0, *i),
            variable(usize::try_from(a.m).unwrap_or(0), *j),
        );
        let behind = (y, x, apart(group, (b, *j), (a, *i)));
        let before = (x, y, apart(group, (a, *i), (b, *j)));
        for (later, earlier, by) in [behind, before] {
            let mut tried = ties.clone();
            tried.at_least(later, earlier, by);
            self.steps = self.steps.saturating_sub(1);
            if self.steps > 0 && tried.close() {
                self.orders(group, (a, b), rest, &tried, spans, best);
            }
        }
    }

    /// Lowers `best` to the least worth of pieces over the system's solutions, if there is a better.
    fn lower(&mut self, ties: &mut Ties, spans: &[Span], best: &mut Option<i128>) {
        self.steps = self.steps.saturating_sub(1);
        if self.steps == 0 || !ties.close() {
            return;
        }
        let of = |marks: i64, span: &Span| self.worth.of(marks * span.mark);
        let bound: i128 = spans.iter().map(|s| of(s.least(ties), s)).sum();
        if best.is_some_and(|found| bound >= found) {
            return;
        }
        let laid: i128 = spans.iter().map(|s| of(s.laid(ties), s)).sum();
        if best.is_none_or(|found| laid < found) {
            *best = Some(laid);
        }
        let worst = spans
            .iter()
            .max_by_key(|s| of(s.laid(ties), s) - of(s.least(ties), s));
        let Some(span) = worst.filter(|_| laid > bound) else {
            return;
        };
        let Some(rise) = self.worth.next_rise(span.least(ties) * span.mark) else {
            return;
        };
        let marks = -(-rise).div_euclid(span.mark);
        let mut under = ties.clone();
        span.keep_at_most(&mut under, marks - 1);
        self.lower(&mut under, spans, best);
        let mut over = ties.clone();
        span.keep_at_least(&mut over, marks);
        self.lower(&mut over, spans, best);
    }
}

/// Variable of splice j (from 1) of a line whose variables follow `before` others.
fn variable(before: usize, j: i64) -> usize {
    before + usize::try_from(j).unwrap_or(0)
}

/// The ties within each line, and its pieces.
fn system(lines: &[(&Chain<'_>, &Vec<usize>)]) -> (Ties, Vec<Span>) {
    let total = lines.iter().map(|(_, s)| s.len()).sum();
    let mut ties = Ties::new(total);
    let mut spans = Vec::new();
    let mut before = 0;
    for (chain, slots) in lines {
        for (j, slot) in (1..).zip(slots.iter()) {
            let me = variable(before, j);
            let (lo, hi) = chain.range(j, *slot);
            ties.at_least(me, 0, lo);
            ties.at_most(me, 0, hi);
            let from = if j == 1 { 0 } else { me - 1 };
            spans.push(Span {
                from,
                to: Some(me),
                metal: chain.metal,
                mark: chain.mark,
            });
            if j > 2 {
                ties.at_least(me, me - 2, chain.third());
            }
        }
        spans.push(Span {
            from: variable(before, chain.m),
            to: None,
            metal: chain.metal,
            mark: chain.mark,
        });
        for span in &spans[spans.len() - slots.len() - 1..] {
            span.keep_at_least(&mut ties, chain.least);
            span.keep_at_most(&mut ties, chain.longest);
        }
        before += slots.len();
    }
    (ties, spans)
}
