//! Joints as they are cut: running positions from the tape end, drops, floor pieces and tags.

use std::collections::BTreeMap;

use super::owner::{Owner, Want};
use super::problem::units;
use super::sequence::Placed;
use super::{JointSource, Kept, PieceCut, PlannedJoint};
use crate::measure::{Length, Money};
use crate::nest::{Credit, Cut};
use crate::order::Week;
use crate::part::TakeOff;
use crate::stock::{PoolSource, PoolStock, StockOrigin};

/// Lay every placed joint, numbered 1.. in order.
pub(crate) fn lay(
    week: &Week,
    take_off: &TakeOff,
    pools: &[PoolSource],
    owners: &[Owner],
    placed: &[Placed],
) -> Vec<PlannedJoint> {
    let mut from_rack: BTreeMap<usize, u32> = BTreeMap::new();
    let mut joints = Vec::with_capacity(placed.len());
    for (number, p) in (1u32..).zip(placed) {
        let source = &pools[p.pool];
        let stock = &source.stocks[p.stock];
        let source_of = match stock.origin {
            StockOrigin::Quote(quote) => JointSource::Bought(quote),
            StockOrigin::Rack(rack) => {
                let taken = from_rack.entry(rack).or_insert(0);
                *taken += 1;
                JointSource::Rack(rack, *taken - 1)
            }
        };
        let pieces = p
            .pieces
            .iter()
            .map(|(cut, want)| {
                let owner = owners.get(want.owner).copied();
                piece(week, take_off, owner, *cut, want)
            })
            .collect();
        joints.push(PlannedJoint {
            number,
            pipe: source.pipe,
            source: source_of,
            length: stock.length,
            near: stock.near,
            far: stock.far,
            hold: stock.hold,
            pieces,
            leftover: Length::ZERO,
            last_cut: Length::ZERO,
            drop: Length::ZERO,
            floor: Length::ZERO,
            kept: false,
            keep_tag: None,
            credit: Money::ZERO,
            measure_first: false,
        });
    }
    for joint in &mut joints {
        let pool = pools.iter().find(|p| p.pipe == joint.pipe);
        settle(week, joint, pool.map_or(Money::ZERO, |p| p.credit_per_foot));
    }
    joints
}

/// A piece with its mark; `start` and `end` are set when its joint is settled.
fn piece(week: &Week, take_off: &TakeOff, owner: Option<Owner>, cut: Cut, want: &Want) -> PieceCut {
    let copy = owner.map_or(0, |o| o.copy);
    let saw = match cut {
        Cut::Item(_) => whole(week, take_off, copy, want),
        Cut::Piece { length, .. } => Length::from_ticks(length),
    };
    PieceCut {
        part: want.part,
        copy,
        serial: want.serial,
        piece: want.piece,
        mark: mark(week, take_off, want.part, copy, want.piece),
        saw,
        start: Length::ZERO,
        end: Length::ZERO,
    }
}

/// Saw length of an item's piece: its part's, or what was handed out of a line that stays.
fn whole(week: &Week, take_off: &TakeOff, copy: u32, want: &Want) -> Length {
    let part = &take_off.parts[want.part];
    let place = usize::try_from(want.piece.unwrap_or(1)).unwrap_or(1) - 1;
    let stays = week.begun.line(&part.mark, copy);
    let length = stays.and_then(|line| line.pieces.get(place)).copied();
    length.unwrap_or(part.saw)
}

/// The mark painted on a piece: `A3-V`, `A3.2-V` when the order has several copies, `A3.1-HB/2` for
/// a piece of a spliced line; an extra part's own mark.
pub(crate) fn mark(
    week: &Week,
    take_off: &TakeOff,
    part: usize,
    copy: u32,
    piece: Option<u32>,
) -> String {
    let part = &take_off.parts[part];
    let mut out = match part.gate.and_then(|g| week.gates.get(g)) {
        Some(order) if order.count > 1 => {
            let suffix = part.mark.strip_prefix(&order.mark).unwrap_or(&part.mark);
            format!("{}.{copy}{suffix}", order.mark)
        }
        _ => part.mark.clone(),
    };
    if let Some(n) = piece {
        out.push_str(&format!("/{n}"));
    }
    out
}

/// Positions and everything that follows from the pieces' lengths. The identity
/// length = Σ saw + k(n − 1) + last cut + near + floor holds by construction.
pub(crate) fn settle(week: &Week, joint: &mut PlannedJoint, credit_per_foot: Money) {
    let saw = &week.shop.saw;
    let mut at = joint.near;
    for piece in &mut joint.pieces {
        piece.start = at;
        piece.end = at + piece.saw;
        at = piece.end + saw.kerf;
    }
    let end = joint.pieces.last().map_or(joint.near, |p| p.end);
    joint.leftover = joint.length - joint.far - joint.hold - end;
    let rest = joint.leftover + joint.far + joint.hold;
    joint.last_cut = rest.min(saw.kerf).max(Length::ZERO);
    joint.drop = (joint.leftover - saw.kerf).max(Length::ZERO);
    joint.floor = rest - joint.last_cut;
    joint.kept = joint.drop >= week.shop.money.keep_length;
    joint.credit = Money::from_millicents(credit_of(week, credit_per_foot, joint.drop));
    joint.measure_first = joint.leftover < saw.measure_first_under;
}

/// Credit of a drop in the optimisation's integers.
pub(crate) fn credit_of(week: &Week, per_foot: Money, drop: Length) -> i64 {
    Credit {
        keep: week.shop.money.keep_length.ticks(),
        foot: Length::FOOT.ticks(),
        per_foot: units(per_foot),
    }
    .of(drop.ticks())
}

/// Cost of taking one, in the optimisation's integers.
pub(crate) fn cost_of(stock: &PoolStock) -> i64 {
    units(stock.cost)
}

/// Tag the kept drops `K1`, `K2`… in joint order and list them; a tag that a rack piece carries
/// already (last week's drop) is passed over.
pub(crate) fn tag(week: &Week, joints: &mut [PlannedJoint]) -> Vec<Kept> {
    let painted = |tag: &str| week.rack.iter().any(|r| r.tag.eq_ignore_ascii_case(tag));
    let mut tags = (1u64..)
        .map(|n| format!("K{n}"))
        .filter(|tag| !painted(tag));
    let mut kept = Vec::new();
    for joint in joints {
        if !joint.kept {
            continue;
        }
        let Some(tag) = tags.next() else {
            break;
        };
        joint.keep_tag = Some(tag.clone());
        kept.push(Kept {
            tag,
            joint: joint.number,
            pipe: joint.pipe,
            drop: joint.drop,
            floor: joint.floor,
            credit: joint.credit,
        });
    }
    kept
}
