//! `Variant`: one change of a week, by name. A variant changes a copy of the week and nothing else.

use rust_decimal::Decimal;

use super::offer::{joint_words, to_be_had};
use crate::measure::{Length, Money, Units};
use crate::order::{PipeId, Saw, SplicePolicy, TailRule, Week};
use crate::stock::credit_per_foot;

/// What is other than it stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// Only joints of these nominal lengths; a pipe sold in none of them keeps what is on sale.
    Lengths(Vec<Length>),
    /// Only this supplier; a pipe he does not sell keeps what is on sale.
    Supplier(String),
    /// Another splice policy.
    Splices(SplicePolicy),
    /// Another kerf, as entered; trims shorter than it grow to it.
    Kerf(Length),
    /// Another tail rule, for the gates whose tail was not ordered.
    Tail(TailRule),
    /// Another bay limit (a given bay count or given bay lines are judged by it).
    BayLimit(Length),
    /// Another keep length.
    KeepLength(Length),
    /// Remnants at another share of the least price: what the rack costs and a kept drop earns.
    Remnants(Decimal),
    /// The longer joint of every pipe sold in both at the shorter one's price per nominal foot, raised by
    /// this share in millionths.
    Premium {
        /// Whose price per foot is taken.
        short: Length,
        /// Whose price is set.
        long: Length,
        /// Millionths added; may be negative.
        millionths: i64,
    },
    /// Another cost of a splice.
    SpliceCost(Money),
}

/// A week's change under a name.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// Name of the row.
    pub name: String,
    /// What changes, in order; nothing: the week as it stands.
    pub changes: Vec<Change>,
}

impl Variant {
    /// A variant of one change.
    pub fn one(name: impl Into<String>, change: Change) -> Variant {
        Variant {
            name: name.into(),
            changes: vec![change],
        }
    }

    /// The lengths or the supplier of a variant that changes nothing else, in words.
    pub fn choice(&self, units: Units) -> Option<String> {
        match self.changes.as_slice() {
            [Change::Lengths(lengths)] => {
                let words: Vec<String> = lengths.iter().map(|l| joint_words(*l, units)).collect();
                Some(words.join(" + "))
            }
            [Change::Supplier(name)] => Some(name.clone()),
            _ => None,
        }
    }

    /// The week so changed, and what must be said of it (pipes that a change does not reach, gates that
    /// a rule does not serve).
    pub fn of(&self, week: &Week) -> (Week, Vec<String>) {
        let mut changed = week.clone();
        let mut said = Vec::new();
        for change in &self.changes {
            apply(&mut changed, change, &mut said);
        }
        (changed, said)
    }
}

fn apply(week: &mut Week, change: &Change, said: &mut Vec<String>) {
    match change {
        Change::Lengths(lengths) => {
            let units = week.shop.units;
            let words: Vec<String> = lengths.iter().map(|l| joint_words(*l, units)).collect();
            let what = format!("not sold in {}", words.join(" or "));
            only(week, |q| lengths.contains(&q.nominal), &what, said);
        }
        Change::Supplier(name) => {
            let what = format!("not sold by {name}");
            only(week, |q| q.supplier == *name, &what, said);
        }
        Change::Splices(policy) => week.shop.splice.policy = *policy,
        Change::Kerf(entered) => kerf(&mut week.shop.saw, *entered, week.shop.units),
        Change::Tail(rule) => tails(week, rule, said),
        Change::BayLimit(limit) => week.shop.gate.bay_limit = *limit,
        Change::KeepLength(keep) => week.shop.money.keep_length = *keep,
        Change::Remnants(rate) => week.shop.money.credit_rate = *rate,
        Change::Premium {
            short,
            long,
            millionths,
        } => premium(week, *short, *long, *millionths),
        Change::SpliceCost(cost) => week.shop.splice.cost = *cost,
    }
}

/// Keeps the quotes that `wanted` picks, pipe by pipe; a pipe left with none keeps all and is named. A kept
/// foot is credited as before, by all that is on sale: else fewer quotes could make a plan look cheaper.
fn only(
    week: &mut Week,
    wanted: impl Fn(&crate::order::Quote) -> bool,
    what: &str,
    said: &mut Vec<String>,
) {
    let picks = |pipe: PipeId| {
        let mut quotes = week.quotes.iter();
        quotes.any(|q| q.pipe == pipe && to_be_had(q) && wanted(q))
    };
    let reached: Vec<bool> = (0..week.pipes.len()).map(|i| picks(PipeId(i))).collect();
    let pipes = (0..week.pipes.len()).map(PipeId);
    let held = pipes.map(|pipe| (pipe, Money(credit_per_foot(week, pipe).0.normalize())));
    let held = held.filter(|(_, credit)| *credit > Money::ZERO);
    week.shop.money.held_credits = held.collect();
    for (i, pipe) in week.pipes.iter().enumerate() {
        let sold = week.quotes.iter().any(|q| q.pipe == PipeId(i));
        if sold && !reached[i] {
            said.push(format!("{} is {what}: as on sale", pipe.name));
        }
    }
    week.quotes.retain(|q| {
        let reached = reached.get(q.pipe.0).copied().unwrap_or(false);
        !reached || wanted(q)
    });
}

fn kerf(saw: &mut Saw, entered: Length, units: Units) {
    saw.kerf_entered = entered;
    saw.kerf = Saw::kerf_as_planned(entered, units);
    for trim in [&mut saw.near_trim, &mut saw.far_trim] {
        if *trim > Length::ZERO {
            *trim = (*trim).max(saw.kerf);
        }
    }
}

fn tails(week: &mut Week, rule: &TailRule, said: &mut Vec<String>) {
    week.shop.gate.tail = rule.clone();
    let mut kept = Vec::new();
    for gate in &mut week.gates {
        match rule.tail(gate.opening).filter(|_| gate.tail_by_rule) {
            Some(tail) => {
                let rest = gate.opening + gate.latch_overlap + gate.roller_overlap;
                gate.tail = tail;
                gate.leaf = rest.geometric() + tail;
            }
            None => kept.push(gate.mark.as_str()),
        }
    }
    if !kept.is_empty() {
        said.push(format!("{}: tail as ordered", kept.join(", ")));
    }
}

fn premium(week: &mut Week, short: Length, long: Length, millionths: i64) {
    let per_tick: Vec<Option<Decimal>> = (0..week.pipes.len())
        .map(|i| {
            let quotes = week.quotes.iter();
            let of_length = quotes.filter(|q| q.pipe == PipeId(i) && q.nominal == short);
            of_length
                .filter_map(|q| {
                    let ticks = Decimal::from(q.nominal.ticks());
                    q.price?.0.checked_div(ticks)
                })
                .min()
        })
        .collect();
    let share = Decimal::ONE + Decimal::new(millionths, 6);
    for quote in week.quotes.iter_mut().filter(|q| q.nominal == long) {
        let Some(per) = per_tick.get(quote.pipe.0).copied().flatten() else {
            continue;
        };
        let price = per
            .checked_mul(Decimal::from(long.ticks()))
            .and_then(|p| p.checked_mul(share));
        if let Some(price) = price {
            // To 1/1000 cent, as every price inside.
            quote.price = Some(Money(price.round_dp(5)));
        }
    }
}
