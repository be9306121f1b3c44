//! One entry applied to the stand: wholly, or not at all.
//!
//! Every rule first works out what changes, asking and refusing on the way, and only then changes
//! anything: a stand that met trouble is as it was.

mod answer;
mod buying;
mod cutting;
mod find_pipe;
mod gates;
mod issue;
mod lots;
mod rack;
mod reissue;
mod spoil;

use super::{Entry, Stand, Told, Trouble, WeekStand};
use crate::measure::Length;

/// Longest pipe that is believed: 1 km.
const LONGEST: Length = Length::from_mm(1_000_000);
/// Most joints or pieces that one entry may speak of.
const MOST: u32 = 10_000;

impl Stand {
    /// Takes one entry.
    ///
    /// # Errors
    /// Why it is not taken; the stand is then as it was.
    pub fn apply(&mut self, entry: &Entry) -> Result<(), Trouble> {
        let week = entry.week.as_str();
        match &entry.told {
            Told::Issued(plan) => issue::issued(self, week, plan),
            Told::Ordered(told) => buying::ordered(self, week, told),
            Told::Delivered(told) => buying::delivered(self, week, told),
            Told::Short(told) => buying::short(self, week, told),
            Told::Bent(told) => buying::bent(self, week, told),
            Told::Refused(told) => buying::sent_back(self, week, told),
            Told::Promised(told) => buying::promised(self, week, told),
            Told::Cancelled(told) => buying::cancelled(self, week, told),
            Told::Returned(told) => buying::returned(self, week, told),
            Told::Cut(told) => cutting::cut(self, week, told),
            Told::Spoiled(told) => spoil::spoiled(self, week, told),
            Told::Recut(told) => spoil::recut(self, week, told),
            Told::Tagged(told) => rack::tagged(self, week, told),
            Told::Measured(told) => rack::measured(self, week, told),
            Told::Counted(told) => rack::counted(self, told),
            Told::Scrapped(told) => lots::scrapped(self, week, told),
            Told::Reserved(told) => lots::reserved(self, week, told),
            Told::Freed(told) => lots::freed(self, week, told),
            Told::Welded(told) => gates::welded(self, week, told),
            Told::Done(told) => gates::done(self, week, told),
            Told::Shipped(told) => gates::shipped(self, week, told),
            Told::Changed(told) => gates::changed(self, week, told),
            Told::Withdrawn(told) => gates::withdrawn(self, week, told),
            Told::Coped(told) => gates::coped(self, week, told),
            Told::Closed {} => gates::closed(self, week),
            Told::Accepted(told) => answer::accepted(self, week, told),
            // Who folds leaves out what is named; the entry itself moves nothing.
            Told::Undone(_) => Ok(()),
        }
    }
}

/// The week, known because a plan of it was handed out.
fn week<'a>(stand: &'a Stand, name: &str) -> Result<&'a WeekStand, Trouble> {
    stand.weeks.get(name).ok_or_else(|| no_week(stand, name))
}

/// The same to be changed.
fn week_mut<'a>(stand: &'a mut Stand, name: &str) -> Result<&'a mut WeekStand, Trouble> {
    if !stand.weeks.contains_key(name) {
        return Err(no_week(stand, name));
    }
    // It is there: asked just above.
    stand
        .weeks
        .get_mut(name)
        .ok_or_else(|| Trouble::refusal(format!("{name} is no week here"), "name another"))
}

fn no_week(stand: &Stand, name: &str) -> Trouble {
    let known: Vec<&str> = stand.weeks.keys().map(String::as_str).collect();
    let mend = if known.is_empty() {
        "hand its plan out first: longpoint issue FOLDER".to_owned()
    } else {
        format!(
            "hand its plan out first (longpoint issue FOLDER); issued are {}",
            known.join(", ")
        )
    };
    Trouble::refusal(format!("no plan of {name} was handed out"), mend)
}

/// A length that pipe can have.
fn believed(length: Length, what: &str) -> Result<(), Trouble> {
    if length > Length::ZERO && length <= LONGEST {
        return Ok(());
    }
    Err(Trouble::refusal(
        format!("{what} has a length of {length}"),
        "write a length over 0 and up to 1 km",
    ))
}

/// A count that one entry may speak of.
fn counted(count: u32, what: &str) -> Result<(), Trouble> {
    if (1..=MOST).contains(&count) {
        return Ok(());
    }
    Err(Trouble::refusal(
        format!("{count} {what}"),
        format!("write a count from 1 to {MOST}"),
    ))
}
