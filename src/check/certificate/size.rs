//! First of all: numbers of a nest problem and its proof that exact arithmetic can hold, and
//! duals of the right number and sign.

use crate::check::Rule;
use crate::check::docket::Docket;
use crate::nest::{Leaf, Pool};

/// 2^40: the largest number anywhere.
const MOST: i64 = 1 << 40;
/// The largest dual: they are money times a denominator, and are added and multiplied as `i128`.
const MOST_DUAL: i64 = 1 << 60;
/// Most splices of a line and most slots the verifier follows.
const MOST_SPLICES: u32 = 64;

/// Judges sizes; the other rules may add and multiply freely after it.
pub(super) fn judge(pool: &Pool, docket: &mut Docket) {
    let name = pool.name.as_str();
    let mut within = |n: i64, least: i64, what: &str| {
        docket.demand(
            (least..=MOST).contains(&n),
            Rule::CertificateSize,
            name,
            || format!("{what} is {n}; {least} to 2^40 is allowed"),
        );
    };
    within(pool.mark, 1, "the mark");
    within(pool.kerf, 0, "the kerf");
    within(pool.credit.keep, 0, "the keep length");
    within(pool.credit.foot, 1, "the foot");
    within(pool.credit.per_foot, 0, "the credit");
    for stock in &pool.stocks {
        within(stock.usable, 0, "a usable length");
        within(stock.cost, 0, "a cost");
    }
    for item in &pool.items {
        within(item.length, 1, "an item");
    }
    for group in &pool.groups {
        within(group.apart, 0, "the distance of two lines");
        within(group.splice_cost, 0, "the money of a splice");
        for line in &group.lines {
            within(line.length, 1, "a line");
            within(line.whole, 1, "a whole line");
            within(line.gap, 0, "a gap");
            within(line.least_piece, 0, "a least piece");
            within(line.three_over, 0, "the distance of three splices");
            for slot in &line.slots {
                within(slot.lo, -MOST, "a slot");
                within(slot.hi, slot.lo.max(-MOST), "a slot");
                within(slot.charge, 0, "a charge");
            }
        }
    }
    shape(pool, docket);
}

/// Judges the size, number and sign of a leaf's duals.
pub(super) fn judge_leaf(pool: &Pool, leaf: &Leaf, docket: &mut Docket) {
    let name = pool.name.as_str();
    let rows = leaf.length_duals.iter();
    let sound = (1..=MOST).contains(&leaf.dual_scale)
        && rows
            .clone()
            .all(|(l, c, _)| (-MOST..=MOST).contains(l) && *c < 32);
    docket.demand(sound, Rule::CertificateSize, name, || {
        format!(
            "a denominator of {} or a length row past all sizes",
            leaf.dual_scale
        )
    });
    for dual in leaf.item_duals.iter().chain(rows.map(|(_, _, dual)| dual)) {
        docket.demand(
            (0..=MOST_DUAL).contains(dual),
            Rule::CertificateDuals,
            name,
            || format!("a dual is {dual}; 0 to 2^60 is allowed"),
        );
    }
    let signed = leaf.multipliers.iter();
    docket.demand(
        signed
            .map(|m| m.value)
            .all(|v| (-MOST_DUAL..=MOST_DUAL).contains(&v)),
        Rule::CertificateDuals,
        name,
        || "a multiplier past 2^60".to_owned(),
    );
    docket.demand(
        leaf.item_duals.len() == pool.items.len(),
        Rule::CertificateDuals,
        name,
        || {
            format!(
                "{} duals for {} items",
                leaf.item_duals.len(),
                pool.items.len()
            )
        },
    );
}

fn shape(pool: &Pool, docket: &mut Docket) {
    let name = pool.name.as_str();
    let classes = pool.items.iter().map(|i| i.class);
    let classes = classes.chain(pool.groups.iter().map(|g| g.class));
    for class in classes {
        docket.demand(class < 32, Rule::CertificateSize, name, || {
            format!("class {class} of 32")
        });
    }
    for group in &pool.groups {
        let lines = matches!(group.lines.len(), 1 | 2);
        let splices = group
            .lines
            .iter()
            .all(|l| l.most_splices <= MOST_SPLICES && l.least_splices <= l.most_splices);
        docket.demand(lines && splices, Rule::CertificateSize, &group.name, || {
            format!("{} lines, or too many splices", group.lines.len())
        });
    }
}
