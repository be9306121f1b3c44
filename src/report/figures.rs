//! Quantities → cells and words: each printed form made in one place.

use rust_decimal::Decimal;

use crate::measure::{Length, Money, Units};
use crate::order::Week;

use super::table::{Cell, Column, DASH, Kind};
use super::wrap::HARD_SPACE;

/// How this shop prints its figures.
#[derive(Clone, Copy)]
pub(super) struct Figures<'a> {
    units: Units,
    mark: Length,
    currency: &'a str,
}

impl<'a> Figures<'a> {
    /// By the shop's units, saw mark and currency.
    pub fn of(week: &'a Week) -> Figures<'a> {
        Figures {
            units: week.shop.units,
            mark: week.shop.saw.mark,
            currency: week.shop.money.currency.trim(),
        }
    }

    /// A column of lengths; its name in records ends in the unit.
    pub fn column(self, head: &str, name: &str) -> Column {
        let unit = match self.units {
            Units::Inch => "in",
            Units::Metric => "mm",
        };
        Column::named(head, &format!("{name}_{unit}"), Kind::Figure)
    }

    /// A column of money.
    pub fn money_column(self, head: &str, name: &str) -> Column {
        Column::named(head, name, Kind::Figure)
    }

    /// A column of weights; its name in records ends in the unit.
    pub fn weight_column(self, head: &str, name: &str) -> Column {
        Column::named(
            head,
            &format!("{name}_{}", self.weight_unit()),
            Kind::Number,
        )
    }

    /// The shop's units.
    pub fn units(self) -> Units {
        self.units
    }

    /// `lb` or `kg`.
    pub fn weight_unit(self) -> &'static str {
        match self.units {
            Units::Inch => "lb",
            Units::Metric => "kg",
        }
    }

    /// A length that is exact as it stands (on the saw mark, or as given).
    pub fn exact(self, length: Length) -> Cell {
        Cell::Figure {
            number: self.number(length),
            printed: self.words(length),
        }
    }

    /// A throat beside its saw length: where both ends are square it says nothing more, and a dash
    /// is printed; the number stands.
    pub fn throat(self, throat: Length, saw: Length) -> Cell {
        match self.exact(throat) {
            Cell::Figure { number, .. } if throat == saw => Cell::Figure {
                number,
                printed: DASH.to_owned(),
            },
            cell => cell,
        }
    }

    /// A length rounded once to the nearest saw mark, number and printed form alike.
    pub fn marked(self, length: Length) -> Cell {
        self.exact(length.to_nearest(self.mark))
    }

    /// What is left of a joint, as it prints everywhere: on the cut sheet, the tag and the page, in
    /// lists, in the next week's rack and in plan.json. Rounded down, so that no remnant is ever listed
    /// longer than it is. What is kept prints to 1/64 in or to every decimal of a millimetre, for the next
    /// week is to count what this one credits; scrap to the saw mark, for nobody measures it.
    pub fn left(self, length: Length, kept: bool) -> String {
        let down = self.left_length(length, kept);
        match self.units {
            Units::Inch => self.words(down),
            Units::Metric => self.number(down).to_string(),
        }
    }

    /// [`Figures::left`] as a cell, number and printed form alike.
    pub fn left_cell(self, length: Length, kept: bool) -> Cell {
        Cell::Figure {
            number: self.number(self.left_length(length, kept)),
            printed: self.left(length, kept),
        }
    }

    fn left_length(self, length: Length, kept: bool) -> Length {
        match (kept, self.units) {
            (false, Units::Inch) => length.down_to(self.mark.max(Length::SIXTY_FOURTH)),
            (false, Units::Metric) => length.down_to(self.mark),
            (true, Units::Inch) => length.down_to(Length::SIXTY_FOURTH),
            (true, Units::Metric) => length,
        }
    }

    /// A geometric length in ticks: the number as computed, the printed form to the saw mark.
    pub fn geometric(self, ticks: f64) -> Cell {
        let (unit, places) = match self.units {
            Units::Inch => (crate::measure::INCH, 4),
            Units::Metric => (crate::measure::MM, 2),
        };
        match super::table::decimal(ticks / unit, places) {
            Some(number) => Cell::Figure {
                number,
                printed: self.words_of(ticks),
            },
            None => Cell::Missing,
        }
    }

    /// [`Figures::geometric`] when there is one.
    pub fn maybe(self, ticks: Option<f64>) -> Cell {
        ticks.map_or(Cell::Missing, |t| self.geometric(t))
    }

    /// An angle given in radians, in degrees.
    pub fn angle(self, radians: f64) -> Cell {
        Cell::number(radians.to_degrees(), 2)
    }

    /// A weight, one decimal.
    pub fn weight(self, weight: f64) -> Cell {
        Cell::number(weight, 1)
    }

    /// Money in cents, the number without sign and commas.
    pub fn money(self, money: Option<Money>) -> Cell {
        match money {
            Some(m) => Cell::Figure {
                number: m.cents().0,
                printed: m.to_string(),
            },
            None => Cell::Missing,
        }
    }

    /// A price with as many decimals as it has, two or more, number and printed form alike.
    pub fn price(self, price: Option<Money>) -> Cell {
        match price {
            Some(price) => Cell::Figure {
                number: price.0,
                printed: price.every_decimal(),
            },
            None => Cell::Missing,
        }
    }

    /// The printed form of an exact length; metric with its unit.
    pub fn words(self, length: Length) -> String {
        length.print(self.units)
    }

    /// The printed form for sentences: never broken, with its unit where the bare number would not
    /// show it.
    pub fn spoken(self, length: Length) -> String {
        length.print_with_unit(self.units).replace(' ', HARD_SPACE)
    }

    /// A geometric length in words, to the saw mark, with its unit.
    pub fn spoken_of(self, ticks: f64) -> String {
        self.spoken(Length::nearest_mark(ticks, self.mark))
    }

    /// Money in words, `$1,204.50` or `EUR 1,204.50`; a dash when not known.
    pub fn spoken_money(self, money: Option<Money>) -> String {
        money.map_or_else(
            || DASH.to_owned(),
            |m| with_currency(self.currency, &m.to_string()),
        )
    }

    /// A price in words, every decimal it has, two or more: `$87.522`.
    pub fn spoken_price(self, price: Money) -> String {
        with_currency(self.currency, &price.every_decimal())
    }

    /// A weight in words.
    pub fn spoken_weight(self, weight: f64) -> String {
        let number = self.weight(weight);
        format!("{}{HARD_SPACE}{}", number.printed(), self.weight_unit())
    }

    fn words_of(self, ticks: f64) -> String {
        self.words(Length::nearest_mark(ticks, self.mark))
    }

    /// The number of a length in the shop's unit, inch or millimetre.
    pub fn number(self, length: Length) -> Decimal {
        let unit = match self.units {
            Units::Inch => Length::INCH,
            Units::Metric => Length::MM,
        };
        let exact = Decimal::from(length.ticks()) / Decimal::from(unit.ticks());
        exact.round_dp(6).normalize()
    }
}

/// An angle in words: `39.01°`, a whole one `90°`.
pub(super) fn degrees(radians: f64) -> String {
    let number = Cell::number(radians.to_degrees(), 2);
    let words = number.printed();
    format!("{}\u{b0}", words.strip_suffix(".00").unwrap_or(words))
}

/// A printed amount with its currency's sign, or its code and a space, before the digits.
pub(crate) fn with_currency(currency: &str, text: &str) -> String {
    let (sign, amount) = match text.strip_prefix('-') {
        Some(rest) => ("-", rest),
        None => ("", text),
    };
    let code = currency.chars().all(char::is_alphabetic);
    let space = if code && !currency.is_empty() {
        HARD_SPACE
    } else {
        ""
    };
    format!("{sign}{currency}{space}{amount}")
}
