//! Tagged, measured, counted, scrapped, reserved, freed: words about what lies.

use super::find;
use super::understand::Context;
use super::wish::{Slip, Wish, count, length};
use crate::measure::{Length, Units};
use crate::order::RemnantId;
use crate::yard::{
    Counted, CountedPiece, Lot, Measured, MeasuredWhat, Reserved, Scrapped, TagFrom, Tagged, Told,
};

pub(super) fn understand(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    match wish.what.as_str() {
        "tagged" => tagged(context, wish),
        "measured" => measured(context, wish),
        "counted" => counted(context, wish),
        "scrapped" => {
            wish.stray(&["joint", "line", "count"])?;
            if let Some(joint) = &wish.joint {
                wish.no_words()?;
                return Ok(Told::Scrapped(Scrapped::Joint(count("joint", joint)?)));
            }
            Ok(Told::Scrapped(Scrapped::Lot(lot(context, wish)?)))
        }
        _ => {
            wish.stray(&["line", "count"])?;
            let lot = lot(context, wish)?;
            Ok(if wish.what == "reserved" {
                Told::Reserved(Reserved { lot })
            } else {
                Told::Freed(Reserved { lot })
            })
        }
    }
}

/// The first tag of this letter that nothing ever had in this week.
pub(super) fn fresh_tag(context: &Context<'_>, letter: &str) -> String {
    let known = |tag: &str| {
        context
            .stand
            .rack
            .keys()
            .any(|id| id.tag.eq_ignore_ascii_case(tag))
    };
    let mut tags = (1u64..).map(|n| format!("{letter}{n}"));
    // The numbers have no end, the rack has.
    tags.find(|tag| !known(tag)).unwrap_or_default()
}

/// The one length that was given.
pub(super) fn one_length(wish: &Wish, units: Units) -> Result<Option<Length>, Slip> {
    match wish.lengths.as_slice() {
        [] => Ok(None),
        [one] => length("length", one, units).map(Some),
        [_, more, ..] => Err(Slip::new(
            "length",
            more,
            "one length is wanted",
            "take the rest away",
        )),
    }
}

fn lot(context: &Context<'_>, wish: &Wish) -> Result<Lot, Slip> {
    let many = wish.count.as_deref();
    if wish.line.is_some() {
        let (line, _) = find::line(context.week, wish.line.as_deref(), &wish.what)?;
        let count = match (many, wish.words.as_slice()) {
            (Some(text), []) => count("count", text)?,
            (None, [text]) => count("count", text)?,
            _ => {
                return Err(Slip::new(
                    "count",
                    &wish.words.join(" "),
                    format!("how many joints of line {line} are {}?", wish.what),
                    format!("write {} 1 --line {line}", wish.what),
                ));
            }
        };
        return Ok(Lot::Whole { line, count });
    }
    let tag = find::remnant(context.stand, wish.word("a tag, or --line N,")?)?;
    let lie = context.stand.rack.get(&tag).map_or(1, |r| r.count);
    let count = many.map_or(Ok(lie.max(1)), |text| count("count", text))?;
    Ok(Lot::Remnant { tag, count })
}

fn tagged(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["joint", "was", "pipe", "length", "count"])?;
    let units = context.week.units;
    let tag = wish.word("the tag")?.trim().to_owned();
    let from = match (&wish.joint, &wish.was, &wish.pipe) {
        (Some(joint), None, None) => TagFrom::Joint {
            joint: count("joint", joint)?,
            length: one_length(wish, units)?,
        },
        (None, Some(was), None) => TagFrom::Remnant(find::remnant(context.stand, was)?),
        (None, None, Some(pipe)) => TagFrom::Found {
            pipe: find::pipe(context.stand, Some(pipe))?,
            length: one_length(wish, units)?.ok_or_else(|| {
                Slip::new(
                    "length",
                    "",
                    format!("how long is {tag}?"),
                    "write --length LENGTH",
                )
            })?,
            count: wish
                .count
                .as_deref()
                .map_or(Ok(1), |text| count("count", text))?,
        },
        _ => {
            return Err(Slip::new(
                "what",
                &tag,
                format!("what got the tag {tag}?"),
                "write --joint N (what is left of it), --was TAG, or --pipe PIPE --length LENGTH (found)",
            ));
        }
    };
    Ok(Told::Tagged(Tagged { tag, from }))
}

fn measured(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["joint", "length"])?;
    let units = context.week.units;
    let mut words = wish.words.clone();
    let what = match &wish.joint {
        Some(joint) => MeasuredWhat::Joint(count("joint", joint)?),
        None if words.is_empty() => {
            return Err(Slip::new(
                "what",
                "measured",
                "what was measured?",
                "write its tag and its length: measured K3 7ft-2in",
            ));
        }
        None => MeasuredWhat::Remnant(find::remnant(context.stand, &words.remove(0))?),
    };
    let length = match (one_length(wish, units)?, words.as_slice()) {
        (Some(length), []) => length,
        (None, words) if !words.is_empty() => length_of(words, units)?,
        _ => {
            return Err(Slip::new(
                "length",
                &words.join(" "),
                "how long is it?",
                "write one length",
            ));
        }
    };
    Ok(Told::Measured(Measured { what, length }))
}

/// A length typed as several words: `7' 2"`.
fn length_of(words: &[String], units: Units) -> Result<Length, Slip> {
    length("length", &words.join(" "), units)
}

fn counted(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["pipe"])?;
    let pipe = find::pipe(context.stand, wish.pipe.as_deref())?;
    let mut pieces = Vec::new();
    for word in &wish.words {
        let (name, measured) = match word.split_once('=') {
            Some((name, text)) => (name, Some(length("length", text, context.week.units)?)),
            None => (word.as_str(), None),
        };
        // `R12*2`: two under one tag.
        let (name, many) = match name.rsplit_once(['*', '×']) {
            Some((name, many)) => (name, Some(count("count", many)?)),
            None => (name, None),
        };
        let tag = match find::remnant(context.stand, name) {
            Ok(tag) => tag,
            Err(slip) if measured.is_none() => return Err(slip),
            Err(_) => RemnantId {
                week: context.name.to_owned(),
                tag: name.trim().to_owned(),
            },
        };
        let known = context.stand.rack.get(&tag).map_or(1, |r| r.count.max(1));
        pieces.push(CountedPiece {
            tag,
            count: many.unwrap_or(known),
            length: measured,
        });
    }
    Ok(Told::Counted(Counted { pipe, pieces }))
}
