//! The proof of a problem with charges: a tree over what the charges count; in each leaf a line under every
//! charge, and the pools' own proofs at the costs those lines move (the form is told at `nest::Whole`).

use std::collections::BTreeMap;

use super::bound::{NoBound, step};
use super::curve::{Curve, Span};
use super::size;
use super::tree;
use crate::check::docket::Docket;
use crate::nest::{Branch, Charge, ChargeKind, Fork, Pool, Problem, Stock, StockOf, Whole};

/// Intervals at a node: each charge's number, each stock's joints.
#[derive(Clone, Debug)]
struct Place {
    spans: Vec<Span>,
    joints: BTreeMap<StockOf, Span>,
}

/// The least bound over the leaves, in the problem's money; `None` when no answer lies in any.
///
/// # Errors
/// The nodes are no tree, or a leaf gives no bound.
pub(super) fn least(problem: &Problem, whole: &Whole) -> Result<Option<i128>, NoBound> {
    let wrong = |what: String| Err(NoBound(what));
    if !(1..=1 << 20).contains(&whole.grain) {
        return wrong(format!("a grain of {}", whole.grain));
    }
    sound(problem, whole)?;
    let mut met = vec![false; whole.nodes.len()];
    let mut open = vec![(0usize, Some(start(problem)))];
    let mut least: Option<i128> = None;
    let mut known = BTreeMap::new();
    while let Some((at, place)) = open.pop() {
        let Some(node) = whole.nodes.get(at).filter(|_| !met[at]) else {
            return wrong(format!(
                "node {at} of the charges' tree is missing or met twice"
            ));
        };
        met[at] = true;
        let place = place.and_then(|p| tight(problem, p));
        match node {
            Fork::Charge {
                charge,
                most,
                under,
                over,
            } => {
                if *charge >= problem.charges.len() {
                    return wrong(format!("charge {charge} does not exist"));
                }
                let [few, many] = sides(place, *most, |p| p.spans.get_mut(*charge));
                open.extend([(*under, few), (*over, many)]);
            }
            Fork::Joints {
                of,
                most,
                under,
                over,
            } => {
                if !problem.charges.iter().any(|c| c.over.contains(of)) {
                    return wrong(format!("{of:?} is named by no charge"));
                }
                let [few, many] = sides(place, *most, |p| p.joints.get_mut(of));
                open.extend([(*under, few), (*over, many)]);
            }
            Fork::Leaf { slopes, proofs } => {
                if let Some(place) = place
                    && let Some(own) = leaf(problem, whole, &place, (slopes, proofs), &mut known)?
                {
                    least = Some(least.map_or(own, |l| l.min(own)));
                }
            }
            Fork::Nothing => {
                let held = place.is_some_and(|p| {
                    let mut curves = problem.charges.iter().zip(&p.spans);
                    curves.all(|(c, s)| Curve::new(&c.kind, *s).is_some())
                });
                if held {
                    return wrong(format!("node {at} is not empty"));
                }
            }
        }
    }
    if met.contains(&false) {
        return wrong("a node of the charges' tree belongs to no split".to_owned());
    }
    let step = whole_step(problem);
    Ok(least.map(|l| -(-l).div_euclid(i128::from(whole.grain) * step) * step))
}

/// The two sides of a split of one interval.
fn sides(
    place: Option<Place>,
    most: i64,
    span: impl Fn(&mut Place) -> Option<&mut Span>,
) -> [Option<Place>; 2] {
    let (mut few, mut many) = (place.clone(), place);
    if let Some(span) = few.as_mut().and_then(&span) {
        span.1 = span.1.min(i128::from(most));
    }
    if let Some(span) = many.as_mut().and_then(&span) {
        span.0 = span.0.max(i128::from(most) + 1);
    }
    [few, many]
}

/// Sizes of the duals in every proof.
fn sound(problem: &Problem, whole: &Whole) -> Result<(), NoBound> {
    for (leaf, proofs) in whole.nodes.iter().filter_map(|n| match n {
        Fork::Leaf { slopes, proofs } => Some((slopes, proofs)),
        _ => None,
    }) {
        let right = leaf.len() == problem.charges.len()
            && proofs.len() == problem.pools.len()
            && leaf.iter().all(|s| (-(1 << 44)..=1 << 44).contains(s))
            && proofs.iter().all(|p| *p < whole.proofs.len());
        if !right {
            return Err(NoBound("a leaf names what is not there".to_owned()));
        }
        for (pool, proof) in problem.pools.iter().zip(proofs) {
            let mut docket = Docket::default();
            for node in &whole.proofs[*proof] {
                if let Branch::Leaf(leaf) = node {
                    size::judge_leaf(pool, leaf, &mut docket);
                }
            }
            if let Some(found) = docket.into_violations().into_iter().next() {
                return Err(NoBound(found.detail));
            }
        }
    }
    Ok(())
}

/// The root: joints up to their limits, or as many as an answer of least cost can take.
fn start(problem: &Problem) -> Place {
    let named = problem.charges.iter().flat_map(|c| &c.over);
    let joints = named.map(|at| (*at, (0, most(problem, *at)))).collect();
    Place {
        spans: vec![(0, i128::from(i64::MAX)); problem.charges.len()],
        joints,
    }
}

/// Most joints of a stock in some answer of least cost. Each cut joint holds a piece. With more uncut ones
/// than any minimum, free amount or range on it wants and a common multiple of its lifts besides, that
/// multiple could go: every lift charge falls, nothing else is missed.
pub(super) fn most(problem: &Problem, at: StockOf) -> i128 {
    let pool = &problem.pools[at.pool];
    let stock = &pool.stocks[at.stock];
    let price = i128::from(stock.price().max(1));
    let (mut wanted, mut lifts, mut uncut) = (0i128, 1i128, false);
    let (mut free, mut waived) = (0i128, 0i128);
    for charge in problem.charges.iter().filter(|c| c.over.contains(&at)) {
        uncut |= may_stay_uncut(&charge.kind);
        let here = match charge.kind {
            ChargeKind::Fixed { amount, free_over } => {
                if let Some(over) = free_over {
                    free = free.max(i128::from(over) / price + 1);
                    waived += i128::from(amount);
                }
                0
            }
            ChargeKind::Minimum { least } => i128::from(least) / price + 1,
            ChargeKind::Range { least, .. } => i128::from(least),
            ChargeKind::Lift { lift, .. } => {
                let (mut a, mut b) = (lifts, i128::from(lift.max(1)));
                while b != 0 {
                    (a, b) = (b, a % b);
                }
                lifts = (lifts / a)
                    .saturating_mul(i128::from(lift.max(1)))
                    .min(1 << 62);
                0
            }
        };
        wanted = wanted.max(here);
    }
    // Joints that stay uncut for free freight alone cost no more than the freight they save.
    let owned = i128::from(super::knapsack::credit(pool, stock.usable));
    let each = i128::from(stock.cost) - owned;
    let reached = wanted.max(free);
    let paying = if each > 0 {
        wanted + waived / each + 1
    } else {
        reached
    };
    let spare = if uncut {
        reached.min(paying) + lifts
    } else {
        0
    };
    let all = i128::from(super::bound::pieces_of(pool)) + spare;
    stock.limit.map_or(all, |l| all.min(i128::from(l)))
}

/// May joints of such a charge's set stay uncut?
pub(super) fn may_stay_uncut(kind: &ChargeKind) -> bool {
    match *kind {
        ChargeKind::Fixed { free_over, .. } => free_over.is_some(),
        ChargeKind::Lift { part_fee, .. } => part_fee != 0,
        ChargeKind::Minimum { least } => least != 0,
        ChargeKind::Range { least, .. } => least >= 2,
    }
}

/// What one joint adds to a charge's number.
fn adds(problem: &Problem, charge: &Charge, at: StockOf) -> i128 {
    if charge.kind.counts_prices() {
        i128::from(problem.pools[at.pool].stocks[at.stock].price())
    } else {
        1
    }
}

/// Charges bound joints, joints bound charges; `None`: nothing lies here.
fn tight(problem: &Problem, mut place: Place) -> Option<Place> {
    for (charge, span) in problem.charges.iter().zip(&mut place.spans) {
        if let ChargeKind::Range { least, most } = charge.kind {
            if let Some(most) = most {
                span.1 = span.1.min(i128::from(most));
            }
            if span.1 < i128::from(least) {
                span.1 = 0;
            }
        }
        for at in &charge.over {
            let one = adds(problem, charge, *at).max(1);
            let joints = place.joints.get_mut(at)?;
            joints.1 = joints.1.min(span.1.div_euclid(one));
        }
    }
    for (charge, span) in problem.charges.iter().zip(&mut place.spans) {
        let ends = charge.over.iter().map(|at| {
            let (one, joints) = (adds(problem, charge, *at), place.joints[at]);
            (one * joints.0, one * joints.1)
        });
        let (low, high) = ends.fold((0, 0), |sum, e| (sum.0 + e.0, sum.1 + e.1));
        *span = (span.0.max(low), span.1.min(high));
    }
    let mut all = place.joints.values().chain(&place.spans);
    all.all(|(lo, hi)| lo <= hi).then_some(place)
}

/// Bounds of moved pools already verified: (pool, proof, joints and slopes of its stocks).
type Known = BTreeMap<(usize, usize, Vec<(i64, Option<u32>)>), Option<i128>>;

/// The bound of a leaf × grain.
fn leaf(
    problem: &Problem,
    whole: &Whole,
    place: &Place,
    (slopes, proofs): (&[i64], &[usize]),
    known: &mut Known,
) -> Result<Option<i128>, NoBound> {
    let grain = i128::from(whole.grain);
    let mut total = 0i128;
    for ((charge, span), slope) in problem.charges.iter().zip(&place.spans).zip(slopes) {
        let Some(curve) = Curve::new(&charge.kind, *span) else {
            return Ok(None);
        };
        total += curve.least(grain, i128::from(*slope));
    }
    for (p, proof) in proofs.iter().enumerate() {
        let (pool, constant) = moved(problem, p, place, slopes, whole.grain)?;
        let key = (
            p,
            *proof,
            pool.stocks.iter().map(|s| (s.cost, s.limit)).collect(),
        );
        let own = match known.get(&key) {
            Some(own) => *own,
            None => {
                let own = tree::least(&pool, &whole.proofs[*proof])?;
                known.insert(key, own);
                own
            }
        };
        let Some(own) = own else {
            return Ok(None);
        };
        total += constant + own;
    }
    Ok(Some(total))
}

/// The pool at moved costs, and the money × grain beside it.
fn moved(
    problem: &Problem,
    index: usize,
    place: &Place,
    slopes: &[i64],
    grain: i64,
) -> Result<(Pool, i128), NoBound> {
    let large = || NoBound("moved costs past all sizes".to_owned());
    let times = |n: i64| n.checked_mul(grain).ok_or_else(large);
    let mut pool = problem.pools[index].clone();
    let all = i128::from(super::bound::pieces_of(&pool));
    pool.credit.per_foot = times(pool.credit.per_foot)?;
    for group in &mut pool.groups {
        group.splice_cost = times(group.splice_cost)?;
        for slot in group.lines.iter_mut().flat_map(|l| &mut l.slots) {
            slot.charge = times(slot.charge)?;
        }
    }
    let (mut constant, mut stocks) = (0i128, Vec::new());
    for (s, mut stock) in std::mem::take(&mut pool.stocks).into_iter().enumerate() {
        let at = StockOf {
            pool: index,
            stock: s,
        };
        let Some((least, most)) = place.joints.get(&at).copied() else {
            stock.cost = times(stock.cost)?;
            stocks.push(stock);
            continue;
        };
        let mut cost = i128::from(stock.cost) * i128::from(grain);
        for (charge, slope) in problem.charges.iter().zip(slopes) {
            if charge.over.contains(&at) {
                cost += i128::from(*slope) * adds(problem, charge, at);
            }
        }
        let owned = i128::from(super::knapsack::credit(&pool, stock.usable));
        let anyway = if cost < owned { most } else { least };
        constant += (cost - owned) * anyway;
        let endless = stock.limit.is_none();
        let mut push = |money: i128, n: i128| -> Result<(), NoBound> {
            let limit = (!endless || n < all).then(|| u32::try_from(n).unwrap_or(u32::MAX));
            stocks.push(Stock {
                cost: i64::try_from(money).map_err(|_| large())?,
                limit,
                ..stock.clone()
            });
            Ok(())
        };
        if cost < owned || anyway > 0 {
            push(owned, anyway)?;
        }
        if cost >= owned {
            // Joints bought anyway are cut first: of the others no answer needs more than the pieces left.
            push(cost, (most - least).min((all - least).max(0)))?;
        }
    }
    pool.stocks = stocks;
    Ok((pool, constant))
}

/// What every cost of the whole is a multiple of.
pub(super) fn whole_step(problem: &Problem) -> i128 {
    let mut all: Vec<i128> = problem.pools.iter().map(step).collect();
    for charge in &problem.charges {
        match charge.kind {
            ChargeKind::Fixed { amount, .. } => all.push(amount.into()),
            ChargeKind::Lift { fee, part_fee, .. } => all.extend([fee, part_fee].map(i128::from)),
            ChargeKind::Minimum { least } => all.push(least.into()),
            ChargeKind::Range { .. } => {}
        }
        for at in &charge.over {
            let pool = &problem.pools[at.pool];
            let stock = &pool.stocks[at.stock];
            all.push(super::knapsack::credit(pool, stock.usable).into());
            if matches!(charge.kind, ChargeKind::Minimum { .. }) {
                all.push(stock.price().into());
            }
        }
    }
    let mut step = 0i128;
    for mut n in all {
        while n != 0 {
            (step, n) = (n, step % n);
        }
    }
    step.max(1)
}
