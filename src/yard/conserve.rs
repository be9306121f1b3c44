//! Pipe is conserved, to the tick: the stand is asked by other means than those that made it.

use std::collections::BTreeMap;

use super::{Account, PieceState, Stand};
use crate::measure::Length;
use crate::order::PipeKey;

/// A law that a stand breaks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Breach {
    /// The law, by name.
    pub law: &'static str,
    /// Of what.
    pub subject: String,
    /// How.
    pub detail: String,
}

/// Every law that the stand breaks; none where all is well.
///
/// - *accounts sum to zero*: per pipe, over all accounts.
/// - *no account below zero*: but the mill, found, and the measuring difference.
/// - *what lies is what the account says*: whole joints and the rack, the rest of begun joints, finished pieces, counted
///   one by one.
/// - *a joint adds up*: taken ± difference = pieces + kerf + trim + drops + scrap + rest.
/// - *a piece is made once*: of what a joint cut, no more is there than it cut.
/// - *no more is kept than lies*: of a remnant, by weeks.
pub fn breaches(stand: &Stand) -> Vec<Breach> {
    let mut found = Vec::new();
    let mut breach = |law, subject: String, detail: String| {
        found.push(Breach {
            law,
            subject,
            detail,
        });
    };
    let there = inventory(stand);
    for (key, pipe) in &stand.pipes {
        let sum = pipe.accounts.sum();
        if sum != Length::ZERO {
            let detail = format!("the sum is {} ticks", sum.ticks());
            breach("accounts sum to zero", pipe.name.clone(), detail);
        }
        for account in Account::ALL {
            let balance = pipe.accounts.of(account);
            if balance < Length::ZERO && !account.may_be_below() {
                let detail = format!("{} is {} ticks", account.words(), balance.ticks());
                breach("no account below zero", pipe.name.clone(), detail);
            }
        }
        let zero = [Length::ZERO; 3];
        let counted = there.get(key).copied().unwrap_or(zero);
        let asked = [Account::OnSite, Account::AtSaw, Account::Pieces];
        for (account, counted) in asked.into_iter().zip(counted) {
            let balance = pipe.accounts.of(account);
            if balance != counted {
                let detail = format!(
                    "{} is {} ticks, and {} are there",
                    account.words(),
                    balance.ticks(),
                    counted.ticks()
                );
                breach(
                    "what lies is what the account says",
                    pipe.name.clone(),
                    detail,
                );
            }
        }
    }
    for key in there.keys().filter(|k| !stand.pipes.contains_key(*k)) {
        let detail = "pipe lies of which there is no account".to_owned();
        breach(
            "what lies is what the account says",
            key.to_string(),
            detail,
        );
    }
    for (name, week) in &stand.weeks {
        for (number, joint) in &week.joints {
            if !joint.tally.adds_up() {
                let detail = format!("{:?}", joint.tally);
                breach(
                    "a joint adds up",
                    format!("joint {number} of {name}"),
                    detail,
                );
            }
        }
        for (id, piece) in &week.pieces {
            let PieceState::Made { joint, .. } = piece.state else {
                continue;
            };
            let from = week.joints.get(&joint);
            let off = from.map(|j| j.pieces.iter().take(j.cut).any(|p| p.id == *id));
            if off != Some(true) {
                let detail = format!("joint {joint} did not cut it");
                breach("a piece is made once", format!("{id} of {name}"), detail);
            }
        }
    }
    for (id, remnant) in &stand.rack {
        let kept: u64 = remnant.reserved.values().map(|n| u64::from(*n)).sum();
        if kept > u64::from(remnant.count) {
            let detail = format!("{kept} of {}", remnant.count);
            breach("no more is kept than lies", id.to_string(), detail);
        }
    }
    found
}

/// What is there of each pipe, counted one by one: on site, at the saw, in pieces.
fn inventory(stand: &Stand) -> BTreeMap<PipeKey, [Length; 3]> {
    let mut there: BTreeMap<PipeKey, [Length; 3]> = BTreeMap::new();
    let mut add = |pipe: &PipeKey, place: usize, length: Length| {
        if length != Length::ZERO {
            there.entry(pipe.clone()).or_default()[place] += length;
        }
    };
    for remnant in stand.rack.values() {
        let all = remnant.length * i64::from(remnant.count);
        add(&remnant.pipe, 0, all);
    }
    for week in stand.weeks.values() {
        for line in week.lines.values() {
            for (length, count) in &line.lying {
                add(&line.pipe, 0, *length * i64::from(*count));
            }
        }
        for joint in week.joints.values() {
            add(&joint.pipe, 1, joint.tally.rest);
        }
        for piece in week.pieces.values() {
            if let PieceState::Made { length, .. } = piece.state {
                add(&piece.pipe, 2, length);
            }
        }
    }
    there
}
