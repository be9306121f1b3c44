//! `Comparison`: all rows of a week beside a named reference.

use rust_decimal::Decimal;

use super::stages::in_turn;
use super::turns::{Sweep, turns};
use super::{BreakEven, Change, How, Offer, Row, Shelf, Variant, variants};
use crate::check::CheckedPlan;
use crate::measure::Length;
use crate::order::Week;
use crate::part::take_off;

/// What the user wants the rules compared with; `None`: a telling value is chosen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wishes {
    /// Kerf as entered.
    pub kerf: Option<Length>,
    /// Tail as a fraction of the opening.
    pub tail: Option<Decimal>,
    /// Bay limit.
    pub bay_limit: Option<Length>,
    /// Keep length.
    pub keep_length: Option<Length>,
    /// The two joint lengths between which the ranking may turn; `None`: the shortest and the longest sold.
    pub pair: Option<(Length, Length)>,
    /// Name of the reference row; `None`: the week as it stands, or the first row with money where it has none.
    pub reference: Option<String>,
    /// Joint lengths that have a row of their own even where no pipe is sold so, or all are: what several weeks are
    /// to be added up by.
    pub lengths: Vec<Length>,
    /// Rows alone: no break-even figures are solved.
    pub rows_only: bool,
}

/// A week's rows.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// The week as it stands.
    pub week: Week,
    /// What is on sale for it.
    pub offer: Offer,
    /// Rows in the order of the variants.
    pub rows: Vec<Row>,
    /// Index of the reference row.
    pub reference: usize,
    /// Where the ranking of the offer's pair of lengths turns; empty without a pair.
    pub break_evens: Vec<BreakEven>,
    /// The price premium swept about its turn.
    pub sweep: Sweep,
}

impl Comparison {
    /// The row the others are measured against.
    pub fn reference(&self) -> &Row {
        &self.rows[self.reference]
    }
}

/// A wish that the week cannot grant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoSuch {
    /// The reference is no row: the names of all rows.
    Row(Vec<String>),
    /// The pair is not on sale: the lengths that are.
    Lengths(Vec<Length>),
}

/// Compares a week.
///
/// # Errors
/// The wished reference is no row, or the wished pair is no two lengths on sale.
pub fn compare(week: &Week, wishes: &Wishes, how: How<'_>) -> Result<Comparison, NoSuch> {
    let (taken, _) = take_off(week);
    let offer = Offer::of(week, &taken, wishes.pair).map_err(NoSuch::Lengths)?;
    let variants = variants(week, &offer, wishes);
    let reference = match &wishes.reference {
        None => 0,
        Some(name) => variants
            .iter()
            .position(|v| v.name.eq_ignore_ascii_case(name.trim()))
            .ok_or_else(|| NoSuch::Row(variants.iter().map(|v| v.name.clone()).collect()))?,
    };
    let shelf = Shelf::new(how.watch);
    let how = How {
        watch: &shelf,
        ..how
    };
    let (rows, plans): (Vec<Row>, Vec<Option<CheckedPlan>>) =
        in_turn(week, &variants, how).into_iter().unzip();
    // Several weeks are told against one row of one name; a week alone against one that has money.
    let unasked = wishes.reference.is_none() && !wishes.rows_only;
    let priced = rows.iter().position(|r| r.total().is_some());
    let reference = match priced {
        Some(first) if unasked && rows[reference].total().is_none() => first,
        _ => reference,
    };
    let (break_evens, sweep) = match offer.pair.filter(|_| !wishes.rows_only) {
        Some(pair) => {
            let row = |length| {
                let alone = |v: &Variant| v.changes == [Change::Lengths(vec![length])];
                let at = variants.iter().position(alone)?;
                Some((variants[at].name.as_str(), plans[at].as_ref()?))
            };
            match (row(pair.0), row(pair.1)) {
                (Some(short), Some(long)) => {
                    let rows = ((short.0, long.0), (short.1, long.1));
                    turns(week, pair, rows, how)
                }
                _ => Default::default(),
            }
        }
        None => Default::default(),
    };
    Ok(Comparison {
        week: week.clone(),
        offer,
        rows,
        reference,
        break_evens,
        sweep,
    })
}
