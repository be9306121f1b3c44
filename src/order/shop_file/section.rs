//! `Section`: one table of shop.toml, read key by key; every key not asked for is a fault.

use rust_decimal::Decimal;

use crate::measure::{self, FaultCode, Length, Misread, ParsedLength, Unit, Units};
use crate::order::faults::{Faults, Spot};
use crate::order::mark::parse_name;
use crate::order::nearest_word::{fold, suggestion};
use crate::order::spelling::judge_seen;
use crate::order::usual;
use crate::text::{Entry, Item, Value};

/// Which sizes a setting may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Range {
    /// Over zero.
    Over,
    /// Zero or more.
    From,
    /// Any sign.
    Any,
}

/// The named rounding of a setting's ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rounding {
    /// To the nearest tick.
    Nearest,
    /// Up: kerf, trims, gaps.
    Up,
}

/// Settings past this are typing slips.
const ABSURD: Length = Length::from_mm(300_000);

/// One table and what was asked of it.
pub(super) struct Section<'a> {
    file: &'a str,
    path: &'a str,
    line: Option<u32>,
    entries: &'a [Entry],
    asked: Vec<&'static str>,
    units: Option<Units>,
}

impl<'a> Section<'a> {
    /// A table at `path` (empty for the top level).
    pub fn new(
        file: &'a str,
        path: &'a str,
        line: Option<u32>,
        entries: &'a [Entry],
        units: Option<Units>,
    ) -> Section<'a> {
        Section {
            file,
            path,
            line,
            entries,
            asked: Vec::new(),
            units,
        }
    }

    pub fn units(&self) -> Units {
        self.units.unwrap_or(Units::Inch)
    }

    /// The figure for the shop's units.
    pub fn pick<T>(&self, inch: T, metric: T) -> T {
        match self.units() {
            Units::Inch => inch,
            Units::Metric => metric,
        }
    }

    pub fn key_path(&self, key: &str) -> String {
        if self.path.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.path)
        }
    }

    /// The entry of a key, and that it was asked for.
    pub fn entry(&mut self, key: &'static str) -> Option<&'a Entry> {
        self.asked.push(key);
        let entry = self.entries.iter().find(|e| e.key == key)?;
        (entry.value != Value::Unread).then_some(entry)
    }

    /// The key is there, readable or not.
    pub fn has(&self, key: &str) -> bool {
        self.entries.iter().any(|e| e.key == key)
    }

    /// Where a key stands, or the table when it is not there.
    pub fn spot(&self, key: &str) -> Spot {
        let entry = self.entries.iter().find(|e| e.key == key);
        Spot {
            line: entry.map(|e| e.line).or(self.line),
            column: Some(self.key_path(key)),
            value: entry.map(|e| e.value.shown()),
            ..Spot::file(self.file)
        }
    }

    /// Reads a string or number as text with `parse`.
    pub fn read<T>(
        &mut self,
        key: &'static str,
        faults: &mut Faults,
        parse: impl FnOnce(&str) -> Result<T, Misread>,
    ) -> Option<T> {
        let entry = self.entry(key)?;
        let text = match &entry.value {
            Value::Text(t) | Value::Number(t) | Value::Date(t) => t.clone(),
            Value::Bool(b) => b.to_string(),
            Value::List(_) | Value::Table(_) | Value::Unread => {
                faults.error(
                    FaultCode::ValueUnreadable,
                    &self.spot(key),
                    "one value is wanted here, not a list or table",
                    &format!("write {key} = value"),
                );
                return None;
            }
        };
        faults.take(&self.spot(key), parse(&text))
    }

    pub fn text(&mut self, key: &'static str, faults: &mut Faults) -> Option<String> {
        self.read(key, faults, |t| match t.trim() {
            t if t.chars().count() > 200 => Err(Misread::beyond(
                "it is longer than 200 characters",
                "write it shorter",
            )),
            t => judge_seen(t).map(|()| t.to_owned()),
        })
    }

    pub fn length(&mut self, key: &'static str, faults: &mut Faults) -> Option<ParsedLength> {
        let default = self.units.map(Unit::of);
        let parsed = self.read(key, faults, |t| measure::parse_length(t, default))?;
        if let Some(warning) = &parsed.warning {
            faults.warn(
                FaultCode::ValueUnusual,
                &self.spot(key),
                warning,
                "write it out if that is not meant",
            );
        }
        Some(parsed)
    }

    /// A length within `range`, or `None` when it is not given (or faulty).
    pub fn maybe_size(
        &mut self,
        key: &'static str,
        range: Range,
        rounding: Rounding,
        faults: &mut Faults,
    ) -> Option<Length> {
        let parsed = self.length(key, faults)?;
        let size = match rounding {
            Rounding::Nearest => parsed.length,
            Rounding::Up => parsed.up(),
        };
        let wrong = match range {
            Range::Over if size <= Length::ZERO => "it must be over zero",
            Range::From if size < Length::ZERO => "it must not be below zero",
            _ if size > ABSURD || size < -ABSURD => "it is outside the allowed range for a gate",
            _ => {
                self.ask_size(&self.spot(key), size, faults);
                return Some(size);
            }
        };
        faults.error(
            FaultCode::ValueOutOfRange,
            &self.spot(key),
            wrong,
            "write a size that can be meant",
        );
        None
    }

    /// Asks about a size that is not usual for its setting.
    fn ask_size(&self, spot: &Spot, size: Length, faults: &mut Faults) {
        let units = self.units();
        let usual = spot.column.as_deref().and_then(usual::setting_size);
        if let Some(odd) = usual.and_then(|usual| usual.odd(size, units)) {
            let printed = size.print_with_unit(units);
            faults.ask(spot, &format!("it reads as {printed}: {odd}"), usual::MEND);
        }
    }

    /// A length with its default (inch shop, metric shop), rounded to the nearest tick.
    pub fn size(
        &mut self,
        key: &'static str,
        default: (Length, Length),
        range: Range,
        faults: &mut Faults,
    ) -> Length {
        self.sized(key, default, (range, Rounding::Nearest), faults)
    }

    /// As [`Section::size`], rounded up to a tick.
    pub fn size_up(
        &mut self,
        key: &'static str,
        default: (Length, Length),
        range: Range,
        faults: &mut Faults,
    ) -> Length {
        self.sized(key, default, (range, Rounding::Up), faults)
    }

    fn sized(
        &mut self,
        key: &'static str,
        (inch, metric): (Length, Length),
        (range, rounding): (Range, Rounding),
        faults: &mut Faults,
    ) -> Length {
        let default = self.pick(inch, metric);
        self.maybe_size(key, range, rounding, faults)
            .unwrap_or(default)
    }

    /// A number from `least` to `most`.
    pub fn number(
        &mut self,
        key: &'static str,
        (least, most): (Decimal, Decimal),
        faults: &mut Faults,
    ) -> Option<Decimal> {
        let number = self.read(key, faults, measure::parse_number)?;
        if number < least || number > most {
            faults.error(
                FaultCode::ValueOutOfRange,
                &self.spot(key),
                &format!("it must lie from {least} to {most}"),
                "write a number in that range (50 % is 0.5)",
            );
            return None;
        }
        if let Some(odd) = usual::odd_number(&self.key_path(key), number, self.units()) {
            faults.ask(
                &self.spot(key),
                &format!("it reads as {}: {odd}", number.normalize()),
                usual::MEND,
            );
        }
        Some(number)
    }

    pub fn yes(&mut self, key: &'static str, default: bool, faults: &mut Faults) -> bool {
        self.read(key, faults, measure::parse_yes)
            .unwrap_or(default)
    }

    /// One of a few words.
    pub fn word<T: Clone>(
        &mut self,
        key: &'static str,
        words: &[(&str, T)],
        faults: &mut Faults,
    ) -> Option<T> {
        self.read(key, faults, |text| {
            let wanted = fold(text);
            let found = words.iter().find(|(w, _)| fold(w) == wanted);
            found.map(|(_, value)| value.clone()).ok_or_else(|| {
                Misread::new(
                    &format!("\"{text}\" is none of the words for {key}"),
                    &suggestion(text, words.iter().map(|(w, _)| *w)),
                )
            })
        })
    }

    /// A list of sizes over zero.
    pub fn sizes(&mut self, key: &'static str, faults: &mut Faults) -> Option<Vec<Length>> {
        let entry = self.entry(key)?;
        let Value::List(items) = &entry.value else {
            faults.error(
                FaultCode::ValueUnreadable,
                &self.spot(key),
                "a list is wanted here",
                &format!("write {key} = [\"20 ft\", \"21 ft\"]"),
            );
            return None;
        };
        let mut out = Vec::new();
        for item in items {
            let spot = Spot::at(
                self.file,
                item.line,
                &self.key_path(key),
                &item.value.shown(),
            );
            out.push(self.item_size(&item.value, &spot, faults)?);
        }
        Some(out)
    }

    /// A list of short texts; none when it is not given.
    pub fn words(&mut self, key: &'static str, faults: &mut Faults) -> Vec<String> {
        let Some(entry) = self.entry(key) else {
            return Vec::new();
        };
        let path = self.key_path(key);
        let Value::List(items) = &entry.value else {
            faults.error(
                FaultCode::ValueUnreadable,
                &self.spot(key),
                "a list is wanted here",
                &format!("write {key} = [\"paint\", \"gate code\"]"),
            );
            return Vec::new();
        };
        let read = |item: &Item| {
            let spot = Spot::at(self.file, item.line, &path, &item.value.shown());
            let text = match &item.value {
                Value::Text(text) => parse_name(text),
                _ => Err(Misread::new(
                    "a text is wanted here",
                    "write it in quotation marks",
                )),
            };
            faults.take(&spot, text)
        };
        items.iter().filter_map(read).collect()
    }

    /// One size inside a list.
    pub fn item_size(&self, value: &Value, spot: &Spot, faults: &mut Faults) -> Option<Length> {
        let default = self.units.map(Unit::of);
        let parsed = faults.take(spot, measure::parse_length(&value.shown(), default))?;
        if parsed.length <= Length::ZERO || parsed.length > ABSURD {
            faults.error(
                FaultCode::ValueOutOfRange,
                spot,
                "it must be over zero and under 300 m",
                "write a size that can be meant",
            );
            return None;
        }
        self.ask_size(spot, parsed.length, faults);
        Some(parsed.length)
    }

    /// Every key nobody asked for is a fault.
    pub fn done(self, faults: &mut Faults) {
        for e in self.entries {
            if !self.asked.iter().any(|k| *k == e.key) {
                faults.error(
                    FaultCode::HeadingUnknown,
                    &Spot::at(self.file, e.line, &self.key_path(&e.key), &e.value.shown()),
                    &format!(
                        "\"{}\" is not a setting{}",
                        e.key,
                        if self.path.is_empty() {
                            String::new()
                        } else {
                            format!(" of [{}]", self.path)
                        }
                    ),
                    &suggestion(&e.key, self.asked.iter().copied()),
                );
            }
        }
    }
}
