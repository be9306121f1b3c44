//! Text → length: every plain form is taken, what two people would read differently is refused.

use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};

use super::lexeme::{Lexeme, UnitWord, lexemes};
use super::{Dimension, Length, Misread, Unit};

/// Why a text is no length; see [`Misread`].
pub type LengthFault = Misread;

/// A length as read.
#[derive(Clone, Debug, PartialEq)]
pub struct ParsedLength {
    /// Rounded to the nearest tick, half a tick up.
    pub length: Length,
    /// The exact value; feet are given in inches, cm and m in mm.
    pub exact: Dimension,
    /// No unit was written: the default's was taken.
    pub bare: bool,
    /// Read, but worth a second look.
    pub warning: Option<String>,
}

impl ParsedLength {
    /// Rounded down to a tick: planning and rack lengths.
    pub fn down(&self) -> Length {
        ticks(self.exact, RoundingStrategy::ToNegativeInfinity).unwrap_or(self.length)
    }

    /// Rounded up to a tick: kerf, trims, gaps.
    pub fn up(&self) -> Length {
        ticks(self.exact, RoundingStrategy::ToPositiveInfinity).unwrap_or(self.length)
    }
}

/// Exact ticks by a rounding; `None` past [`Length::MAX`].
fn ticks(exact: Dimension, rounding: RoundingStrategy) -> Option<Length> {
    let per = match exact.unit {
        Unit::Inch => Length::INCH.ticks(),
        Unit::Mm => Length::MM.ticks(),
    };
    let whole = exact.value.checked_mul(Decimal::from(per))?;
    let whole = whole.round_dp_with_strategy(0, rounding).to_i64()?;
    (whole.abs() <= Length::MAX.ticks()).then(|| Length::from_ticks(whole))
}

/// One number with the fraction and the unit behind it.
struct Amount {
    value: Decimal,
    shown: String,
    /// Written with a decimal point.
    decimal: bool,
    /// A dash stood before it.
    dashed: bool,
    unit: Option<UnitWord>,
}

/// Reads a length. `default` is the unit of a bare number; without one a bare number is refused.
/// A leading minus is read as such; whoever asked judges the sign.
///
/// Taken: `10'-6 1/2"`, `10' 6-1/2"`, `10ft 6.5in`, `126 1/2 in`, `10.542'`, `3213 mm`, `3.213 m`,
/// typographic primes, ½ ¼ ⅛. Refused, offering the readings: `5-8`, `20.11`, `3,213 m`, `61/2"`.
pub fn parse_length(text: &str, default: Option<Unit>) -> Result<ParsedLength, LengthFault> {
    let (negative, amounts) = amounts(&lexemes(text)?)?;
    let (exact, warning) = match amounts.as_slice() {
        [] => {
            return Err(LengthFault::new(
                "there is no number",
                "write a length, such as 10'-6 1/2\" or 3213 mm",
            ));
        }
        [one] => single(one, default)?,
        [one, other] if metric_pair(one, other, default) => {
            return Err(LengthFault::two_readings(
                &format!(
                    "{} and {} stand in a row: two numbers, or one?",
                    one.shown, other.shown
                ),
                "write one number of millimetres, such as 3213 or 3 213, or metres, such as 3.213 m",
            ));
        }
        [feet, inches] => pair(feet, inches)?,
        _ => {
            return Err(LengthFault::new(
                "there are too many numbers for one length",
                "write feet and inches, such as 10'-6 1/2\"",
            ));
        }
    };
    let value = if negative { -exact.value } else { exact.value };
    let exact = Dimension {
        value,
        unit: exact.unit,
    };
    let length = nearest(exact).ok_or_else(|| {
        LengthFault::beyond(
            "the number is past all sense for a length",
            "write a length under 3,400 km",
        )
    })?;
    Ok(ParsedLength {
        length,
        exact,
        bare: amounts.iter().all(|a| a.unit.is_none()),
        warning,
    })
}

/// Nearest tick, half a tick up.
fn nearest(exact: Dimension) -> Option<Length> {
    let down = ticks(exact, RoundingStrategy::ToNegativeInfinity)?;
    let per = match exact.unit {
        Unit::Inch => Length::INCH.ticks(),
        Unit::Mm => Length::MM.ticks(),
    };
    let rest = exact.value.checked_mul(Decimal::from(per))? - Decimal::from(down.ticks());
    let up = rest >= Decimal::new(5, 1);
    Some(down + Length::from_ticks(i64::from(up)))
}

/// Groups lexemes into amounts.
fn amounts(lexemes: &[Lexeme]) -> Result<(bool, Vec<Amount>), LengthFault> {
    let mut rest = lexemes;
    let negative = matches!(rest.first(), Some(Lexeme::Dash));
    if negative {
        rest = &rest[1..];
    }
    let mut out = Vec::new();
    let mut dashed = false;
    while let Some((first, tail)) = rest.split_first() {
        rest = tail;
        let mut amount = match first {
            Lexeme::Dash if !dashed && !out.is_empty() => {
                dashed = true;
                continue;
            }
            Lexeme::Number(value, raw) => Amount {
                value: *value,
                shown: raw.clone(),
                decimal: raw.contains(['.', ',']),
                dashed,
                unit: None,
            },
            Lexeme::Fraction(value) => Amount {
                value: *value,
                shown: value.to_string(),
                decimal: false,
                dashed,
                unit: None,
            },
            Lexeme::Dash | Lexeme::Unit(_) => {
                return Err(LengthFault::new(
                    "a dash or unit stands without a number",
                    "write a number before each unit, such as 10'-6 1/2\"",
                ));
            }
        };
        dashed = false;
        if matches!(first, Lexeme::Number(..)) && !amount.decimal {
            rest = take_fraction(rest, &mut amount);
        }
        if let Some((Lexeme::Unit(unit), tail)) = rest.split_first() {
            amount.unit = Some(*unit);
            rest = tail;
        }
        out.push(amount);
    }
    if dashed {
        return Err(LengthFault::new(
            "a dash stands at the end",
            "take it away, or write the inches behind it",
        ));
    }
    Ok((negative, out))
}

/// `6 1/2` and `6-1/2`: the fraction behind a whole number.
fn take_fraction<'a>(rest: &'a [Lexeme], amount: &mut Amount) -> &'a [Lexeme] {
    match rest {
        [Lexeme::Fraction(f), tail @ ..] | [Lexeme::Dash, Lexeme::Fraction(f), tail @ ..] => {
            amount.value += f;
            amount.shown = format!("{} {}", amount.shown, written(*f));
            tail
        }
        _ => rest,
    }
}

/// A fraction of a ruler as it is written: `1/2`; any other as a decimal.
fn written(fraction: Decimal) -> String {
    let whole = |under: &i64| {
        let over = fraction * Decimal::from(*under);
        (over.fract() == Decimal::ZERO).then(|| format!("{}/{under}", over.normalize()))
    };
    let found = [2, 4, 8, 16, 32, 64].iter().find_map(whole);
    found.unwrap_or_else(|| fraction.to_string())
}

fn in_unit(value: Decimal, unit: UnitWord) -> Dimension {
    match unit {
        UnitWord::Foot => Dimension::inch(value * Decimal::from(12)),
        UnitWord::Inch => Dimension::inch(value),
        UnitWord::Mm => Dimension::mm(value),
        UnitWord::Cm => Dimension::mm(value * Decimal::from(10)),
        UnitWord::Metre => Dimension::mm(value * Decimal::from(1000)),
    }
}

fn single(one: &Amount, default: Option<Unit>) -> Result<(Dimension, Option<String>), LengthFault> {
    let n = &one.shown;
    let feet_point_inches = feet_point_inches(one);
    match (one.unit, default) {
        (None, None | Some(Unit::Inch)) if feet_point_inches.is_some() => {
            let (feet, inches) = feet_point_inches.unwrap_or_default();
            Err(LengthFault::two_readings(
                &format!("{n} can be read as {feet} ft {inches} in or as a decimal"),
                &format!("write {feet}'-{inches}\", {n}' or {n} in"),
            ))
        }
        (None, None) => Err(LengthFault::two_readings(
            &format!("{n} has no unit"),
            &format!("write {n} in, {n} ft or {n} mm"),
        )),
        (None, Some(Unit::Inch)) => Ok((in_unit(one.value, UnitWord::Inch), None)),
        (None, Some(Unit::Mm)) => Ok((in_unit(one.value, UnitWord::Mm), None)),
        (Some(unit), _) => {
            let exact = in_unit(one.value, unit);
            let warning = match (unit, feet_point_inches) {
                (UnitWord::Foot, Some((feet, inches))) => Some(format!(
                    "{n} ft was read as decimal feet; if {feet} ft {inches} in is meant write {feet}'-{inches}\""
                )),
                _ => None,
            };
            Ok((exact, warning))
        }
    }
}

/// `20.10` and `20.11` look like feet, a point, and inches; `0.10`, a wall or a kerf, does not.
fn feet_point_inches(one: &Amount) -> Option<(String, String)> {
    let (feet, inches) = one.shown.split_once(['.', ','])?;
    let looks = one.decimal && feet.chars().any(|c| c != '0') && (inches == "10" || inches == "11");
    looks.then(|| (feet.to_owned(), inches.to_owned()))
}

/// Two numbers of which nothing says that they are feet and inches, in a metric shop.
fn metric_pair(first: &Amount, second: &Amount, default: Option<Unit>) -> bool {
    default == Some(Unit::Mm)
        && first.unit.is_none()
        && !matches!(second.unit, Some(UnitWord::Foot | UnitWord::Inch))
}

/// How `5-8` reads in inches alone: a fraction where it can be one of a ruler's; and how that is written.
fn inches_meant(first: &Amount, second: &Amount) -> (String, String) {
    let (over, under) = (first.value.trunc().normalize(), &second.shown);
    let ruler = [2, 4, 8, 16, 32, 64].map(Decimal::from);
    if second.dashed && ruler.contains(&second.value) && first.value < second.value {
        let fraction = format!("{over}/{under}");
        return (
            format!("{fraction} in"),
            format!("{fraction}\" for the fraction"),
        );
    }
    (
        format!("{over} in and a part of an inch"),
        format!("the inches as one number, such as {over} 1/2\""),
    )
}

fn pair(first: &Amount, second: &Amount) -> Result<(Dimension, Option<String>), LengthFault> {
    let (a, b) = (&first.shown, &second.shown);
    match (first.unit, second.unit) {
        (Some(UnitWord::Foot), Some(UnitWord::Inch) | None) => {
            if first.value.fract() != Decimal::ZERO {
                return Err(LengthFault::new(
                    &format!("{a} ft has a fraction and inches stand beside it"),
                    "write whole feet and inches, or feet alone",
                ));
            }
            let value = first.value * Decimal::from(12) + second.value;
            let warning = (second.value >= Decimal::from(12)).then(|| {
                format!("{b} in the inches place was carried: read as {a} ft plus {b} in")
            });
            Ok((Dimension::inch(value), warning))
        }
        (Some(UnitWord::Metre), Some(low @ (UnitWord::Cm | UnitWord::Mm)))
            if first.value.fract() == Decimal::ZERO =>
        {
            let value = in_unit(first.value, UnitWord::Metre).value;
            Ok((
                Dimension::mm(value + in_unit(second.value, low).value),
                None,
            ))
        }
        (None, None | Some(UnitWord::Inch)) => {
            let dash = if second.dashed { "-" } else { " " };
            let (inches, mend) = inches_meant(first, second);
            Err(LengthFault::two_readings(
                &format!("{a}{dash}{b} can be read two ways: {a} ft {b} in, or {inches}"),
                &format!("write {a}'-{b}\" for feet and inches, or {mend}"),
            ))
        }
        _ => Err(LengthFault::new(
            "the units are mixed, or stand in no usual order",
            "write feet and inches (10'-6 1/2\") or one metric unit (3213 mm)",
        )),
    }
}

#[cfg(test)]
mod tests;
