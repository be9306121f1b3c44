//! The accounts of one pipe: where every tick of it is.

use serde::{Deserialize, Serialize};

use crate::measure::Length;

/// Where pipe is, or went.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Account {
    /// Came from the mill (below zero by all that came).
    Mill,
    /// Lies in the yard: whole joints and the rack.
    OnSite,
    /// The rest of joints that are begun.
    AtSaw,
    /// In finished pieces.
    Pieces,
    /// In spoiled pieces.
    Spoiled,
    /// Eaten by the saw.
    Kerf,
    /// Trimmed off near ends.
    Trim,
    /// Thrown away.
    Scrap,
    /// Found or lost at a count of the rack (below zero by what was found).
    Found,
    /// Between what was computed and what was measured.
    Difference,
}

impl Account {
    /// All of them, in the order they print.
    pub const ALL: [Account; 10] = [
        Account::Mill,
        Account::OnSite,
        Account::AtSaw,
        Account::Pieces,
        Account::Spoiled,
        Account::Kerf,
        Account::Trim,
        Account::Scrap,
        Account::Found,
        Account::Difference,
    ];

    /// In the shop's words.
    pub fn words(self) -> &'static str {
        match self {
            Account::Mill => "from the mill",
            Account::OnSite => "on site",
            Account::AtSaw => "at the saw",
            Account::Pieces => "in pieces",
            Account::Spoiled => "spoiled",
            Account::Kerf => "kerf",
            Account::Trim => "trim",
            Account::Scrap => "scrap",
            Account::Found => "found",
            Account::Difference => "measuring difference",
        }
    }

    /// Whether it may stand below zero: where pipe comes from, and differences.
    pub fn may_be_below(self) -> bool {
        matches!(self, Account::Mill | Account::Found | Account::Difference)
    }

    fn place(self) -> usize {
        // The discriminants are 0..10 in the order of `ALL`; a test holds it.
        self as usize
    }
}

/// Balances of one pipe. They only change by moves from one account to another.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Accounts([Length; 10]);

impl Accounts {
    /// The balance.
    pub fn of(&self, account: Account) -> Length {
        self.0[account.place()]
    }

    /// Moves a length (a negative one the other way).
    pub(super) fn shift(&mut self, from: Account, to: Account, length: Length) {
        self.0[from.place()] -= length;
        self.0[to.place()] += length;
    }

    /// The sum of all, which is zero.
    pub fn sum(&self) -> Length {
        self.0.iter().copied().sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_move_leaves_the_sum_at_zero() {
        let mut accounts = Accounts::default();
        for (place, account) in Account::ALL.into_iter().enumerate() {
            assert_eq!(account.place(), place);
            accounts.shift(Account::Mill, account, Length::FOOT);
        }
        assert_eq!(accounts.of(Account::Kerf), Length::FOOT);
        assert_eq!(accounts.of(Account::Mill), -(Length::FOOT * 9));
        assert_eq!(accounts.sum(), Length::ZERO);
    }
}
