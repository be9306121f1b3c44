//! Many in one: ranges of joints, lists of marks → one wish each.

use super::wish::{Slip, Wish};
use crate::measure::parse_count;
use crate::yard::WeekStand;

/// Most joints of one range: more is a slip of the key.
const MOST: u32 = 5_000;

/// One wish for every thing that is told.
pub(super) fn split(week: &WeekStand, wish: &Wish) -> Result<Vec<Wish>, Slip> {
    let each = |words: Vec<String>| -> Vec<Wish> {
        let one = |word| Wish {
            words: vec![word],
            ..wish.clone()
        };
        words.into_iter().map(one).collect()
    };
    match wish.what.as_str() {
        "cut" => {
            let joints = joints(&wish.words)?;
            Ok(each(joints.iter().map(u32::to_string).collect()))
        }
        "spoiled" | "coped" | "recut" | "accepted" | "welded" | "done" | "shipped" | "changed"
        | "reserved" | "freed" => {
            if wish.words.is_empty() && wish.line.is_none() {
                return Err(Slip::new(
                    "what",
                    &wish.what,
                    format!("what is {}?", wish.what),
                    format!("write it behind: {} …", wish.what),
                ));
            }
            if wish.line.is_some() {
                return Ok(vec![wish.clone()]);
            }
            Ok(each(list(&wish.words)))
        }
        "withdrawn" | "scrapped" if wish.words.len() > 1 && wish.line.is_none() => {
            Ok(each(list(&wish.words)))
        }
        "ordered" if wish.line.is_none() && wish.supplier.is_none() => {
            wish.no_words()?;
            by_supplier(week, wish)
        }
        _ => Ok(vec![wish.clone()]),
    }
}

/// Words without the commas between them.
fn list(words: &[String]) -> Vec<String> {
    let bare = words.iter().flat_map(|w| w.split(','));
    let bare = bare.map(str::trim).filter(|w| !w.is_empty());
    bare.map(str::to_owned).collect()
}

/// `1-15 28`, `1-15, 28`, `1 - 15`.
fn joints(words: &[String]) -> Result<Vec<u32>, Slip> {
    let text = words.join(" ").replace(['–', '—'], "-");
    let text = text
        .replace(" - ", "-")
        .replace("- ", "-")
        .replace(" -", "-");
    let text = text.replace(" to ", "-");
    let mut out = Vec::new();
    for word in list(&[text.replace(' ', ",")]) {
        let wrong = |what: &str| {
            Slip::new(
                "joint",
                &word,
                what,
                "write the numbers on the cut sheet, such as 1-15 28",
            )
        };
        let number = |text: &str| {
            let plain = text.chars().all(|c| c.is_ascii_digit()) && !text.is_empty();
            let read = parse_count(text).ok().filter(|n| plain && *n > 0);
            read.ok_or_else(|| wrong("this is no joint number"))
        };
        match word.split_once('-') {
            None => out.push(number(&word)?),
            Some((from, to)) => {
                let (from, to) = (number(from)?, number(to)?);
                if from > to {
                    return Err(wrong("the range runs backwards"));
                }
                if to - from >= MOST {
                    return Err(wrong("so many joints no week has"));
                }
                out.extend(from..=to);
            }
        }
    }
    if let Some((at, twice)) = out
        .iter()
        .enumerate()
        .find(|(at, n)| out[..*at].contains(n))
    {
        let _ = at;
        return Err(Slip::new(
            "joint",
            &words.join(" "),
            format!("joint {twice} is named twice"),
            "write every joint once",
        ));
    }
    if out.is_empty() {
        return Err(Slip::new(
            "joint",
            "",
            "which joints were cut?",
            "write their numbers, such as 1-15 28",
        ));
    }
    Ok(out)
}

/// One order a supplier, of all that is not ordered yet.
fn by_supplier(week: &WeekStand, wish: &Wish) -> Result<Vec<Wish>, Slip> {
    let mut names: Vec<&str> = Vec::new();
    for line in week.lines.values().filter(|l| l.to_order() > 0) {
        if !names.contains(&line.supplier.as_str()) {
            names.push(&line.supplier);
        }
    }
    if names.is_empty() {
        return Err(Slip::new(
            "what",
            "ordered",
            "all that the plan buys is ordered already",
            "write --line N and how many where more was ordered",
        ));
    }
    if names.len() > 1 && wish.money.is_some() {
        return Err(Slip::new(
            "money",
            wish.money.as_deref().unwrap_or_default(),
            "which supplier's money is it?",
            format!("tell one order at a time: --supplier {}", names.join(" | ")),
        ));
    }
    let one = |name: &&str| Wish {
        supplier: Some((*name).to_owned()),
        ..wish.clone()
    };
    Ok(names.iter().map(one).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Vec<u32>, Slip> {
        let words: Vec<String> = text.split_whitespace().map(str::to_owned).collect();
        joints(&words)
    }

    #[test]
    fn ranges_are_taken_however_they_are_typed() {
        for text in [
            "1-3 28",
            "1-3,28",
            "1 - 3, 28",
            "1–3 28",
            "1 to 3 28",
            "1,2,3,28",
        ] {
            assert_eq!(read(text), Ok(vec![1, 2, 3, 28]), "{text}");
        }
    }

    #[test]
    fn what_is_no_range_is_refused() {
        for text in [
            "", "3-1", "A", "1-", "-3", "1-3 2", "1.5", "1-99999", "0", "5-8-9", "1e3",
        ] {
            assert!(read(text).is_err(), "{text}");
        }
    }
}
