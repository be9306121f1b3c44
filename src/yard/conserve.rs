//! Pipe is conserved, to the tick: the stand is asked by other means than those that made it.

use std::collections::BTreeMap;

use super::{Account, PieceState, Stand, WeekStand};
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
    balances(stand, &mut found);
    for (name, week) in &stand.weeks {
        joints_and_pieces(name, week, &mut found);
    }
    for (id, remnant) in &stand.rack {
        let kept: u64 = remnant.reserved.values().map(|n| u64::from(*n)).sum();
        if kept > u64::from(remnant.count) {
            let detail = format!("{kept} of {}", remnant.count);
            found.push(breach("no more is kept than lies", id.to_string(), detail));
        }
    }
    found
}

fn breach(law: &'static str, subject: String, detail: String) -> Breach {
    Breach {
        law,
        subject,
        detail,
    }
}

/// The accounts of every pipe: their sum, their signs, and what is there.
fn balances(stand: &Stand, found: &mut Vec<Breach>) {
    const LIES: &str = "what lies is what the account says";
    let there = inventory(stand);
    for (key, pipe) in &stand.pipes {
        let name = || pipe.name.clone();
        let sum = pipe.accounts.sum();
        if sum != Length::ZERO {
            let detail = format!("the sum is {} ticks", sum.ticks());
            found.push(breach("accounts sum to zero", name(), detail));
        }
        for account in Account::ALL {
            let balance = pipe.accounts.of(account);
            if balance < Length::ZERO && !account.may_be_below() {
                let detail = format!("{} is {} ticks", account.words(), balance.ticks());
                found.push(breach("no account below zero", name(), detail));
            }
        }
        let counted = there.get(key).copied().unwrap_or([Length::ZERO; 3]);
        let asked = [Account::OnSite, Account::AtSaw, Account::Pieces];
        for (account, counted) in asked.into_iter().zip(counted) {
            let balance = pipe.accounts.of(account);
            if balance != counted {
                let (words, is) = (account.words(), balance.ticks());
                let detail = format!("{words} is {is} ticks, and {} are there", counted.ticks());
                found.push(breach(LIES, name(), detail));
            }
        }
    }
    for key in there.keys().filter(|k| !stand.pipes.contains_key(*k)) {
        let detail = "pipe lies of which there is no account".to_owned();
        found.push(breach(LIES, key.to_string(), detail));
    }
}

fn joints_and_pieces(name: &str, week: &WeekStand, found: &mut Vec<Breach>) {
    for (number, joint) in &week.joints {
        if !joint.tally.adds_up() {
            let detail = format!("{:?}", joint.tally);
            found.push(breach(
                "a joint adds up",
                format!("joint {number} of {name}"),
                detail,
            ));
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
            found.push(breach(
                "a piece is made once",
                format!("{id} of {name}"),
                detail,
            ));
        }
    }
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
