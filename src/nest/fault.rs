//! What is wrong with a nest problem itself, by name. Work that cannot be done is not a fault: it is
//! an answer with status `Short`.

use std::fmt;

use super::admit::MOST;

/// A bad problem. `pool`, `place` name where; numbers are in the problem's own units.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NestFault {
    /// A number over the most allowed.
    TooLarge {
        /// Pool name.
        pool: String,
        /// Field, with the name it belongs to.
        place: String,
        /// The number.
        value: i64,
        /// The most allowed.
        most: i64,
    },
    /// A number below the least allowed.
    TooSmall {
        /// Pool name.
        pool: String,
        /// Field, with the name it belongs to.
        place: String,
        /// The number.
        value: i64,
        /// The least allowed.
        least: i64,
    },
    /// A joint costs less than it would be credited whole: money could fall under nothing.
    Pays {
        /// Pool name.
        pool: String,
        /// Stock name.
        stock: String,
        /// What the joint costs.
        cost: i64,
        /// The credit of its usable length.
        credit: i64,
    },
    /// Two things of one kind share what must be their own.
    Twice {
        /// Pool name.
        pool: String,
        /// What occurs twice.
        place: String,
    },
    /// Slots of a line overlap, run backwards, or a zone comes in two places.
    Slots {
        /// Pool name.
        pool: String,
        /// Group and line.
        place: String,
        /// Index of the slot.
        slot: usize,
        /// What is wrong with it.
        what: String,
    },
    /// A group with no line or more than two.
    Lines {
        /// Pool name.
        pool: String,
        /// Group.
        place: String,
    },
    /// A sum over the pool passes what exact arithmetic holds.
    Sum {
        /// Pool name.
        pool: String,
        /// Which sum.
        place: String,
    },
    /// A charge that makes no sense.
    Charge {
        /// Charge name.
        charge: String,
        /// What is wrong with it.
        what: String,
    },
    /// An aim other than money that cannot be weighed against this problem's money.
    Aim {
        /// Why not.
        what: String,
    },
    /// An answer does not fit its problem (only from [`crate::nest::cost`]).
    Answer {
        /// Pool name.
        pool: String,
        /// What is wrong with it.
        what: String,
    },
}

impl fmt::Display for NestFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NestFault::TooLarge {
                pool,
                place,
                value,
                most,
            } if *most == MOST => write!(f, "{pool}: {place} is {value}, past 2^40"),
            NestFault::TooLarge {
                pool,
                place,
                value,
                most,
            } => write!(
                f,
                "{pool}: {place} is {value}, over the most allowed, {most}"
            ),
            NestFault::TooSmall {
                pool,
                place,
                value,
                least,
            } => write!(f, "{pool}: {place} is {value}, under {least}"),
            NestFault::Pays {
                pool,
                stock,
                cost,
                credit,
            } => write!(
                f,
                "{pool}: {stock} costs {cost}, but left whole it would be credited {credit}: correct the cost, or \
                 lower the credit per foot"
            ),
            NestFault::Twice { pool, place } => write!(f, "{pool}: {place} occurs twice"),
            NestFault::Slots {
                pool,
                place,
                slot,
                what,
            } => write!(f, "{pool}: {place}: slot {} {what}", slot + 1),
            NestFault::Lines { pool, place } => {
                write!(f, "{pool}: {place} must have one line or two")
            }
            NestFault::Sum { pool, place } => write!(f, "{pool}: {place} is too large to add up"),
            NestFault::Charge { charge, what } => write!(f, "charge {charge}: {what}"),
            NestFault::Aim { what } => write!(f, "the aim cannot be weighed: {what}"),
            NestFault::Answer { pool, what } => write!(f, "{pool}: {what}"),
        }
    }
}

impl std::error::Error for NestFault {}
