//! Which variants a week is compared under.

use rust_decimal::Decimal;

use super::offer::{Offer, joint_words};
use super::table::Wishes;
use super::{Change, Variant};
use crate::measure::{Length, Units};
use crate::order::{SplicePolicy, TailRule, Week};

/// Name of the row that changes nothing.
pub const AS_IT_STANDS: &str = "as it stands";
/// Up to this many joint lengths every mix is a row; past it, pairs only.
const EVERY_MIX: usize = 4;

/// The variants of a week: as it stands, each joint length alone, every mix on sale, each supplier,
/// splice policies, then the shop's own rules changed one at a time. Mixes of lengths that come to the
/// same quotes as an earlier row are left out.
pub fn variants(week: &Week, offer: &Offer, wishes: &Wishes) -> Vec<Variant> {
    let mut out = vec![Variant {
        name: AS_IT_STANDS.to_owned(),
        changes: Vec::new(),
    }];
    out.extend(stock(week, offer, &wishes.lengths));
    out.extend(policies(week));
    out.extend(rules(week, wishes));
    out
}

/// Lengths and mixes, each set of quotes once, and suppliers; `wished` lengths have their row whatever is sold.
fn stock(week: &Week, offer: &Offer, wished: &[Length]) -> Vec<Variant> {
    let units = week.shop.units;
    let mut mixes = mixes(&offer.lengths);
    let unsold = wished.iter().filter(|l| !offer.lengths.contains(l));
    mixes.extend(unsold.map(|l| vec![*l]));
    mixes.sort_by_key(Vec::len);
    let lengths = mixes.into_iter().map(|lengths| {
        let words: Vec<String> = lengths.iter().map(|l| joint_words(*l, units)).collect();
        named(
            week,
            words.join(" + "),
            words.len(),
            Change::Lengths(lengths),
        )
    });
    let suppliers = offer.suppliers.iter().filter(|_| offer.suppliers.len() > 1);
    let suppliers = suppliers.map(|s| named(week, s.clone(), 1, Change::Supplier(s.clone())));
    let mut seen = vec![rows(week)];
    let fresh = |variant: &Variant| {
        let quotes = rows(&variant.of(week).0);
        let fresh = !seen.contains(&quotes);
        seen.push(quotes);
        let alone = |l: &Length| variant.changes == [Change::Lengths(vec![*l])];
        fresh || wished.iter().any(alone)
    };
    // A supplier has his row even where he alone sells some length: he is asked for by name.
    lengths.filter(fresh).chain(suppliers).collect()
}

/// A choice of quotes by what it leaves: `alone` where every pipe is sold so, `else as it stands` where some
/// pipe is not and is bought as it stands.
fn named(week: &Week, words: String, chosen: usize, change: Change) -> Variant {
    let reaches_all = Variant::one(&words, change.clone()).of(week).1.is_empty();
    let name = match (chosen, reaches_all) {
        (1, true) => format!("{words} alone"),
        (_, true) => words,
        (_, false) => format!("{words} (else as it stands)"),
    };
    Variant::one(name, change)
}

/// Where the quotes of a week stand: tells two sets of them apart.
fn rows(week: &Week) -> Vec<u32> {
    week.quotes.iter().map(|q| q.origin.line).collect()
}

/// Every non-empty set of lengths, shorter ones first; past a few lengths only ones and twos.
fn mixes(lengths: &[Length]) -> Vec<Vec<Length>> {
    if lengths.len() <= EVERY_MIX {
        let sets = 1u32..1 << lengths.len();
        return sets
            .map(|bits| {
                let chosen = lengths.iter().enumerate();
                let chosen = chosen.filter(|(i, _)| bits >> i & 1 == 1);
                chosen.map(|(_, l)| *l).collect()
            })
            .collect();
    }
    let mut out: Vec<Vec<Length>> = lengths.iter().map(|l| vec![*l]).collect();
    for (i, a) in lengths.iter().enumerate() {
        out.extend(lengths[i + 1..].iter().map(|b| vec![*a, *b]));
    }
    out
}

fn policies(week: &Week) -> Vec<Variant> {
    [
        ("no splice", SplicePolicy::Never),
        ("splice only if needed", SplicePolicy::AsFewAsNeeded),
        ("splice wherever it pays", SplicePolicy::WhereverItPays),
    ]
    .into_iter()
    .filter(|(_, policy)| *policy != week.shop.splice.policy)
    .map(|(name, policy)| Variant::one(name, Change::Splices(policy)))
    .collect()
}

/// Kerf, tail, bay limit, keep length, remnants: as wished, else one telling other value each.
fn rules(week: &Week, wishes: &Wishes) -> Vec<Variant> {
    let shop = &week.shop;
    let units = shop.units;
    let said = |l: Length| short_words(l, units);
    let pick = |inch: Length, mm: Length| match units {
        Units::Inch => inch,
        Units::Metric => mm,
    };
    let kerf = wishes
        .kerf
        .unwrap_or(pick(Length::from_64ths(8), Length::from_mm(3)));
    let bay = wishes
        .bay_limit
        .unwrap_or(shop.gate.bay_limit - pick(Length::INCH * 6, Length::from_mm(150)));
    let keep = wishes.keep_length.unwrap_or(shop.money.keep_length * 2);
    let (tail_words, tail) = tail(week, wishes);
    let mut out = vec![
        Variant::one(format!("kerf {}", said(kerf)), Change::Kerf(kerf)),
        Variant::one(tail_words, Change::Tail(tail)),
        Variant::one(format!("bay limit {}", said(bay)), Change::BayLimit(bay)),
        Variant::one(
            format!("keep from {}", said(keep)),
            Change::KeepLength(keep),
        ),
    ];
    for percent in [0, 50, 100] {
        let rate = Decimal::new(percent, 2).normalize();
        if rate != shop.money.credit_rate {
            out.push(Variant::one(
                format!("remnants at {percent} %"),
                Change::Remnants(rate),
            ));
        }
    }
    out.retain(|v| v.changes.iter().all(|c| !stands(week, c)));
    out
}

/// A length in words, without feet where there are none: `1/8"`, `4'-6"`, `3 mm`.
fn short_words(length: Length, units: Units) -> String {
    let words = length.print(units);
    if units == Units::Metric {
        return format!("{words} mm");
    }
    let inches = words.strip_prefix("0'-").unwrap_or(&words);
    inches.strip_prefix("0 ").unwrap_or(inches).to_owned()
}

/// The tail rule to compare with: the wish, else 0.40 of the opening (seen as a floor in a
/// specification), or half of it where the shop has that already; the shop's least tail stays.
fn tail(week: &Week, wishes: &Wishes) -> (String, TailRule) {
    let (half, low) = (Decimal::new(50, 2), Decimal::new(40, 2));
    let (own, least) = match &week.shop.gate.tail {
        TailRule::Fraction { fraction, least } => (Some(*fraction), *least),
        TailRule::Steps(_) => (None, Length::ZERO),
    };
    let fraction = wishes
        .tail
        .unwrap_or(if own == Some(low) { half } else { low })
        .normalize();
    (
        format!("tail {} of the opening", fraction),
        TailRule::Fraction { fraction, least },
    )
}

/// Whether the week stands so already.
fn stands(week: &Week, change: &Change) -> bool {
    let shop = &week.shop;
    match change {
        Change::Kerf(entered) => *entered == shop.saw.kerf_entered,
        Change::Tail(rule) => *rule == shop.gate.tail,
        Change::BayLimit(limit) => *limit == shop.gate.bay_limit || *limit <= Length::ZERO,
        Change::KeepLength(keep) => *keep == shop.money.keep_length,
        _ => false,
    }
}
