//! What the integers of a nest answer are printed as: plain, or as a plan's money.

use crate::measure::Money;
use crate::report::with_currency;
use crate::stock::{UNPRICED_JOINT, UNPRICED_SPLICE};

/// How costs and bounds are printed.
#[derive(Clone, Copy)]
pub(super) enum Coin<'a> {
    /// As they stand: units of the problem's own.
    Plain,
    /// 1/1000 cent each, to the last of them: a rounded bound would claim too much or too little.
    Currency(&'a str),
}

impl Coin<'_> {
    /// One cost or bound.
    pub fn print(self, n: i64) -> String {
        match self {
            Coin::Plain => n.to_string(),
            Coin::Currency(sign) => {
                let amount = Money::from_millicents(n).every_decimal();
                with_currency(sign.trim(), &amount).replace('\u{a0}', " ")
            }
        }
    }
}

/// What the plain numbers of pools without prices count; `whole`: one number adds them to money.
pub(super) fn unpriced_legend(whole: bool) -> String {
    let mut legend = format!(
        "no price: not money, but {UNPRICED_JOINT} a joint and 1 a foot of it, {UNPRICED_SPLICE} a splice\n"
    );
    if whole {
        legend.push_str("all pools: these and money in 1/1000 of a cent, added up\n");
    }
    legend
}
