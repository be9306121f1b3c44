//! What is on sale for the pipes a week needs: joint lengths and suppliers.

use crate::measure::{Length, Units};
use crate::order::{PipeId, Quote, Week};
use crate::part::TakeOff;

/// The market as one week sees it.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Pipes the week's own parts need, in pipe order.
    pub pipes: Vec<PipeId>,
    /// Nominal joint lengths on sale for them, ascending.
    pub lengths: Vec<Length>,
    /// Suppliers' names, sorted; a quote without one counts for nobody.
    pub suppliers: Vec<String>,
    /// The shortest and the longest length on sale, or the two asked for: what "21s or 40s" means this week.
    pub pair: Option<(Length, Length)>,
}

impl Offer {
    /// The offer to a week with this take-off; `asked` are the two lengths to be set against each other.
    ///
    /// # Errors
    /// The lengths on sale when one of those asked for is none of them.
    pub fn of(
        week: &Week,
        take_off: &TakeOff,
        asked: Option<(Length, Length)>,
    ) -> Result<Offer, Vec<Length>> {
        let parts = take_off.parts.iter().filter(|p| p.ours && p.count > 0);
        let pipes = sorted(parts.map(|p| p.pipe).collect());
        let wanted = |q: &&Quote| to_be_had(q) && pipes.contains(&q.pipe);
        let quotes: Vec<&Quote> = week.quotes.iter().filter(wanted).collect();
        let lengths = sorted(quotes.iter().map(|q| q.nominal).collect());
        let named = quotes.iter().filter(|q| !q.supplier.is_empty());
        let suppliers = sorted(named.map(|q| q.supplier.clone()).collect());
        let pair = match (asked, lengths.as_slice()) {
            (Some((a, b)), _) if a != b && lengths.contains(&a) && lengths.contains(&b) => {
                Some((a.min(b), a.max(b)))
            }
            (Some(_), _) => return Err(lengths),
            (None, [shortest, .., longest]) => Some((*shortest, *longest)),
            (None, _) => None,
        };
        Ok(Offer {
            pipes,
            lengths,
            suppliers,
            pair,
        })
    }
}

/// Whether a quote can be bought from at all.
pub(super) fn to_be_had(quote: &Quote) -> bool {
    quote.available != Some(0)
}

fn sorted<T: Ord>(mut list: Vec<T>) -> Vec<T> {
    list.sort();
    list.dedup();
    list
}

/// A joint length as people call it: `21 ft`, `6 m`, else as printed.
pub fn joint_words(length: Length, units: Units) -> String {
    let (unit, name) = match units {
        Units::Inch => (Length::FOOT, "ft"),
        Units::Metric => (Length::MM * 1000, "m"),
    };
    let (whole, rest) = (
        length.ticks().div_euclid(unit.ticks()),
        length.ticks().rem_euclid(unit.ticks()),
    );
    match (rest, units) {
        (0, _) => format!("{whole} {name}"),
        (_, Units::Inch) => length.print(units),
        (_, Units::Metric) => format!("{} mm", length.print(units)),
    }
}
