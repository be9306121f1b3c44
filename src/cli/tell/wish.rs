//! `Wish`: one thing as it was typed, not yet understood.

use crate::cli::arguments_yard::TellArguments;
use crate::measure::parse_money;
use crate::measure::{Length, Misread, Money, Unit, Units, parse_count, parse_date, parse_length};
use jiff::civil::Date;

/// Why it is not understood: where it stands, what is wrong, how to mend it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Slip {
    /// Column of a list, or option.
    pub column: String,
    /// The value as typed.
    pub value: Option<String>,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub mend: String,
}

impl Slip {
    pub fn new(
        column: &str,
        value: &str,
        what: impl Into<String>,
        mend: impl Into<String>,
    ) -> Slip {
        Slip {
            column: column.to_owned(),
            value: (!value.is_empty()).then(|| value.to_owned()),
            what: what.into(),
            mend: mend.into(),
        }
    }

    pub fn misread(column: &str, value: &str, wrong: Misread) -> Slip {
        Slip::new(column, value, wrong.what, wrong.mend)
    }
}

/// One thing as typed.
#[derive(Clone, Debug, Default)]
pub(super) struct Wish {
    /// File and line it stands in.
    pub place: Option<(String, u32)>,
    pub what: String,
    pub words: Vec<String>,
    pub line: Option<String>,
    pub joint: Option<String>,
    pub to: Option<String>,
    pub actual: Vec<(String, String)>,
    pub left: Option<String>,
    pub lengths: Vec<String>,
    pub floor: Option<String>,
    pub taken: Option<String>,
    pub tag: Option<String>,
    pub was: Option<String>,
    pub pipe: Option<String>,
    pub count: Option<String>,
    pub by: Option<String>,
    pub not_coming: bool,
    pub money: Option<String>,
    pub supplier: Option<String>,
    pub plan: bool,
    pub note: String,
    pub who: Option<String>,
}

impl Wish {
    /// What a command line says.
    pub fn of(arguments: &TellArguments) -> Result<Wish, Slip> {
        let actual = arguments.actual.iter().map(|text| {
            let (piece, length) = text.split_once('=').ok_or_else(|| {
                Slip::new(
                    "--actual",
                    text,
                    "a piece and its length are wanted",
                    "write them with an equals sign between, such as 2=60in",
                )
            })?;
            Ok((piece.trim().to_owned(), length.trim().to_owned()))
        });
        Ok(Wish {
            place: None,
            what: arguments.what.clone().unwrap_or_default(),
            words: arguments.words.clone(),
            line: arguments.line.clone(),
            joint: arguments.joint.clone(),
            to: arguments.to.clone(),
            actual: actual.collect::<Result<_, Slip>>()?,
            left: arguments.left.clone(),
            lengths: arguments.length.clone(),
            floor: arguments.floor.clone(),
            taken: arguments.taken.clone(),
            tag: arguments.tag.clone(),
            was: arguments.was.clone(),
            pipe: arguments.pipe.clone(),
            count: arguments.count.clone(),
            by: arguments.by.clone(),
            not_coming: arguments.not_coming,
            money: arguments.money.clone(),
            supplier: arguments.supplier.clone(),
            plan: arguments.plan,
            note: arguments.note.clone(),
            who: arguments.who.clone(),
        })
    }

    /// The one word that is wanted.
    pub fn word(&self, wanted: &str) -> Result<&str, Slip> {
        match self.words.as_slice() {
            [one] => Ok(one),
            [] => Err(Slip::new(
                "what",
                &self.what,
                format!("{wanted} is missing"),
                format!("write it behind: {} …", self.what),
            )),
            [_, more @ ..] => Err(Slip::new(
                "what",
                &more.join(" "),
                format!("one word is wanted behind {}", self.what),
                "take the rest away",
            )),
        }
    }

    /// Nothing stands behind the word.
    pub fn no_words(&self) -> Result<(), Slip> {
        if self.words.is_empty() {
            return Ok(());
        }
        Err(Slip::new(
            "what",
            &self.words.join(" "),
            format!("nothing is wanted behind {}", self.what),
            "take it away",
        ))
    }

    /// What was given and has no meaning here.
    pub fn stray(&self, allowed: &[&str]) -> Result<(), Slip> {
        let one = |name: &'static str, value: &Option<String>| (name, value.clone());
        let flag = |name: &'static str, set: bool| (name, set.then(String::new));
        let given = [
            one("line", &self.line),
            one("joint", &self.joint),
            one("to", &self.to),
            (
                "actual",
                self.actual.first().map(|(p, l)| format!("{p}={l}")),
            ),
            one("left", &self.left),
            ("length", self.lengths.first().cloned()),
            one("floor", &self.floor),
            one("taken", &self.taken),
            one("tag", &self.tag),
            one("was", &self.was),
            one("pipe", &self.pipe),
            one("count", &self.count),
            one("by", &self.by),
            flag("not-coming", self.not_coming),
            one("money", &self.money),
            one("supplier", &self.supplier),
            flag("plan", self.plan),
        ];
        for (name, value) in given {
            let Some(value) = value else {
                continue;
            };
            if !allowed.contains(&name) {
                return Err(Slip::new(
                    name,
                    &value,
                    format!("{name} says nothing of {}", self.what),
                    if allowed.is_empty() {
                        "take it away".to_owned()
                    } else {
                        format!("take it away; what may be said: {}", allowed.join(", "))
                    },
                ));
            }
        }
        Ok(())
    }
}

/// A length; a bare number has the shop's unit.
pub(super) fn length(column: &str, text: &str, units: Units) -> Result<Length, Slip> {
    let read = parse_length(text, Some(Unit::of(units)));
    let read = read.map_err(|wrong| Slip::misread(column, text, wrong))?;
    if let Some(doubt) = read.warning {
        return Err(Slip::new(
            column,
            text,
            doubt,
            "write it in feet and inches, such as 7'-0 1/2\"",
        ));
    }
    if read.length < Length::ZERO {
        return Err(Slip::new(
            column,
            text,
            "a length below zero",
            "write what was measured",
        ));
    }
    Ok(read.length)
}

/// A count of 1 or more.
pub(super) fn count(column: &str, text: &str) -> Result<u32, Slip> {
    let read = parse_count(text).map_err(|wrong| Slip::misread(column, text, wrong))?;
    if read == 0 {
        return Err(Slip::new(
            column,
            text,
            "a count of 0 tells nothing",
            "write how many",
        ));
    }
    Ok(read)
}

pub(super) fn day(column: &str, text: &str) -> Result<Date, Slip> {
    parse_date(text.trim()).map_err(|wrong| Slip::misread(column, text, wrong))
}

pub(super) fn money(column: &str, text: &str, currency: &str) -> Result<Money, Slip> {
    let bare = text.trim().trim_start_matches(currency).trim();
    let read = parse_money(bare).map_err(|wrong| Slip::misread(column, text, wrong))?;
    if read < Money::ZERO {
        return Err(Slip::new(
            column,
            text,
            "money below zero",
            "write what was billed or came back",
        ));
    }
    Ok(read)
}
