//! `Paperwork`: for whom and under which numbers a gate or a part is made; nothing is planned by it, every sheet
//! and order that speaks of the work carries it.

use serde::Serialize;

use super::faults::Faults;
use super::mark::parse_note;
use super::sheet::Cells;

/// What a row says of its paperwork. Empty: the row does not say.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Paperwork {
    /// Who ordered it.
    pub customer: String,
    /// The shop's job number.
    pub job: String,
    /// The customer's purchase order.
    pub purchase_order: String,
    /// Where it goes.
    pub ship_to: String,
    /// Columns that the shop declared its own, in column order; only filled ones.
    pub extra: Vec<ExtraCell>,
}

/// A cell of a column that shop.toml declares under `extra_columns`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ExtraCell {
    /// The column as declared.
    pub name: String,
    /// The cell as written.
    pub text: String,
}

impl Paperwork {
    /// The row says nothing of it.
    pub fn none(&self) -> bool {
        *self == Paperwork::default()
    }

    /// What is filled, each under its name: `Job`, `4711`.
    pub fn pairs(&self) -> Vec<(&str, &str)> {
        let own = [
            ("Customer", &self.customer),
            ("Job", &self.job),
            ("Purchase order", &self.purchase_order),
            ("Ship to", &self.ship_to),
        ];
        let own = own.map(|(name, value)| (name, value.as_str()));
        let extra = self
            .extra
            .iter()
            .map(|e| (e.name.as_str(), e.text.as_str()));
        let all = own.into_iter().chain(extra);
        all.filter(|(_, value)| !value.is_empty()).collect()
    }

    /// What is filled, in one line: `Job: 4711; Ship to: yard 2`; empty when nothing is.
    pub fn line(&self) -> String {
        let words: Vec<String> = self
            .pairs()
            .iter()
            .map(|(name, value)| format!("{name}: {value}"))
            .collect();
        words.join("; ")
    }

    /// The value under a name of [`Paperwork::pairs`].
    pub fn of(&self, name: &str) -> Option<&str> {
        let pairs = self.pairs().into_iter();
        pairs
            .filter(|(n, _)| *n == name)
            .map(|(_, value)| value)
            .next()
    }
}

/// Reads the cells of a row.
pub(super) fn read_paperwork(cells: &Cells<'_>, faults: &mut Faults) -> Paperwork {
    let mut read = |name: &str| cells.read(name, faults, parse_note).unwrap_or_default();
    let (customer, job) = (read("customer"), read("job"));
    let (purchase_order, ship_to) = (read("purchase_order"), read("ship_to"));
    let extra = cells
        .extra_columns()
        .filter_map(|name| {
            let text = cells.read(&name, faults, parse_note)?;
            Some(ExtraCell { name, text })
        })
        .collect();
    Paperwork {
        customer,
        job,
        purchase_order,
        ship_to,
        extra,
    }
}
