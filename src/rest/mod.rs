//! Week + take-off + stand → what is still to do: a week of which some is made, and the stock that lies for it.
//!
//! ```text
//! pieces   pieces that are there: each counts for its own part, or for nothing of this week
//! lines    spliced lines of which a piece is there: they stay as they were handed out
//! stock    joints here and on order, begun joints, remnants: rows of the rack
//! carry_on the sheets at hand, followed to their end, as one answer that the plan may not be dearer than
//! sunk     money that is spent, whatever is planned from here on
//! ```
//!
//! The rest of a week is an ordinary week: `plan` plans it and `check` judges it like any other. Credits of kept
//! drops stay what they were when the week was first handed out, so that no price that moves since revalues what
//! lies.

mod carry_on;
mod credits;
mod lines;
mod pieces;
mod stock;
mod sunk;

pub use pieces::Unneeded;
pub use stock::Lot;
pub use sunk::Sunk;

use crate::measure::Money;
use crate::order::{Begun, Week};
use crate::part::TakeOff;
use crate::plan::TailJoint;
use crate::yard::{Stand, WeekStand};

/// What is left of a week.
#[derive(Clone, Debug)]
pub struct Rest {
    /// The week with what is made of it, and as its rack all that lies or is on order for it.
    pub week: Week,
    /// What each row of that rack is, in order.
    pub lots: Vec<Lot>,
    /// Finished pieces that no part of the week wants as it is now.
    pub unneeded: Vec<Unneeded>,
    /// Money spent; `None` where a price is missing.
    pub sunk: Option<Sunk>,
    /// The sheets at hand as an answer to the rest, or the first joint that stops them.
    pub carry_on: Result<Vec<TailJoint>, String>,
    /// What the reader should know, a sentence each.
    pub said: Vec<String>,
}

/// What is left of the week `name`, of which a plan was handed out.
///
/// Orders, stock on sale and settings are those of `week`, its rack is not looked at: what lies is the stand's to say.
pub fn rest(week: &Week, take_off: &TakeOff, stand: &Stand, name: &str) -> Option<Rest> {
    let known = stand.weeks.get(name)?;
    let mut rest = week.clone();
    let mut said = Vec::new();
    credits::freeze(&mut rest, known, &mut said);
    let lines = lines::begun(&rest, take_off, known);
    let (made, unneeded) = pieces::made(&rest, take_off, known, &lines);
    rest.begun = Begun { made, lines };
    let lots = stock::lay_out(&mut rest, stand, name);
    stock::less_on_sale(&mut rest, known);
    let carry_on = carry_on::carry_on(&rest, known, &lots);
    let sunk = sunk::sunk(&rest, (stand, name), &lots);
    Some(Rest {
        week: rest,
        lots,
        unneeded,
        sunk,
        carry_on,
        said,
    })
}

/// The pipe of a key, where the week knows it.
fn pipe_of(week: &Week, key: &crate::order::PipeKey) -> Option<crate::order::PipeId> {
    let at = week.pipes.iter().position(|p| p.key() == *key)?;
    Some(crate::order::PipeId(at))
}

/// Credit of a kept foot as the week was handed out.
fn frozen(known: &WeekStand, key: &crate::order::PipeKey) -> Option<Money> {
    known.credit.get(key).copied().map(Money::from_millicents)
}
