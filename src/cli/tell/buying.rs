//! Ordered, delivered, short, bent, refused, promised, cancelled, returned: words about lines of an order.

use super::find;
use super::understand::Context;
use super::wish::{Slip, Wish, count, day, length, money};
use crate::measure::{Length, Money};
use crate::yard::{
    Bent, Cancelled, Comes, Delivered, LineStand, Ordered, OrderedLine, Promised, SentBack, Short,
    Told,
};

pub(super) fn understand(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    match wish.what.as_str() {
        "ordered" => ordered(context, wish),
        "delivered" => delivered(context, wish),
        "short" => {
            wish.stray(&["line", "count", "by", "not-coming", "money"])?;
            let (line, known) = line(context, wish)?;
            let joints = how_many(wish, Some(known.may_come()))?;
            Ok(Told::Short(Short {
                line,
                joints,
                comes: comes(context, wish)?,
            }))
        }
        "bent" => bent(context, wish),
        "refused" => {
            wish.stray(&["line", "count", "by", "not-coming", "money"])?;
            let (line, _) = line(context, wish)?;
            Ok(Told::Refused(SentBack {
                line,
                joints: how_many(wish, None)?,
                comes: comes(context, wish)?,
            }))
        }
        "promised" => promised(context, wish),
        _ => {
            wish.stray(&["line", "count", "money"])?;
            let (line, _) = line(context, wish)?;
            let told = Cancelled {
                line,
                joints: how_many(wish, None)?,
                money: amount(context, wish)?,
            };
            Ok(if wish.what == "cancelled" {
                Told::Cancelled(told)
            } else {
                Told::Returned(told)
            })
        }
    }
}

fn bent(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["line", "count", "left"])?;
    let (line, known) = line(context, wish)?;
    let left = wish.left.as_deref().ok_or_else(|| {
        Slip::new(
            "left",
            "",
            "how much of a bent joint can be used?",
            "write --left LENGTH, 0 for nothing",
        )
    })?;
    let left = length("left", left, context.week.units)?;
    if left >= known.planning {
        return Err(Slip::new(
            "left",
            wish.left.as_deref().unwrap_or_default(),
            format!(
                "a joint of line {line} is {} long",
                known.planning.print_with_unit(context.week.units)
            ),
            "write what can still be used of it",
        ));
    }
    Ok(Told::Bent(Bent {
        line,
        joints: how_many(wish, None)?,
        left,
    }))
}

/// The line that is named; the only one there is needs no naming.
fn line<'a>(context: &Context<'a>, wish: &Wish) -> Result<(u32, &'a LineStand), Slip> {
    let mut lines = context.week.lines.iter();
    if let (None, Some((number, line)), None) = (&wish.line, lines.next(), lines.next()) {
        return Ok((*number, line));
    }
    find::line(context.week, wish.line.as_deref(), &wish.what)
}

fn amount(context: &Context<'_>, wish: &Wish) -> Result<Option<Money>, Slip> {
    let text = wish.money.as_deref();
    text.map(|text| money("money", text, &context.week.currency))
        .transpose()
}

fn comes(context: &Context<'_>, wish: &Wish) -> Result<Comes, Slip> {
    let by = wish.by.as_deref().map(|text| day("by", text)).transpose()?;
    match (wish.not_coming, by) {
        (true, Some(_)) => Err(Slip::new(
            "by",
            wish.by.as_deref().unwrap_or_default(),
            "it comes on a day, and it does not come",
            "write --by or --not-coming",
        )),
        (true, None) => Ok(Comes::Not(amount(context, wish)?)),
        (false, _) if wish.money.is_some() => Err(Slip::new(
            "money",
            wish.money.as_deref().unwrap_or_default(),
            "money comes back only for what does not come",
            "write --not-coming too, or take it away",
        )),
        (false, by) => Ok(Comes::Later(by)),
    }
}

/// How many: `14`, `--count 14`, or all there are; `14 of 20` where `of` says how many were awaited.
fn how_many(wish: &Wish, awaited: Option<u32>) -> Result<u32, Slip> {
    let words: Vec<&str> = wish.words.iter().map(String::as_str).collect();
    let given = wish.count.as_deref().map(|text| count("count", text));
    match (words.as_slice(), given) {
        ([], Some(given)) => given,
        ([one], None) => count("count", one),
        ([one, "joint" | "joints"], None) => count("count", one),
        ([one, "of", all], None) => {
            let (one, of) = (count("count", one)?, count("count", all)?);
            match awaited {
                Some(awaited) if awaited != of => Err(Slip::new(
                    "count",
                    &words.join(" "),
                    format!("{awaited} are awaited by what was told, not {of}"),
                    "check the line and the count",
                )),
                _ if one > of => Err(Slip::new(
                    "count",
                    &words.join(" "),
                    format!("{one} of {of} cannot be"),
                    "check the counts",
                )),
                _ => Ok(one),
            }
        }
        ([], None) => Err(Slip::new(
            "count",
            "",
            format!("how many are {}?", wish.what),
            format!("write the count: {} 6 --line N", wish.what),
        )),
        (_, Some(_)) => Err(Slip::new(
            "count",
            &words.join(" "),
            "the count is there twice",
            "take one away",
        )),
        _ => Err(Slip::new(
            "count",
            &words.join(" "),
            "this is no count",
            format!("write {} 14, or {} 14 of 20", wish.what, wish.what),
        )),
    }
}

fn delivered(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["line", "count", "length"])?;
    let (line, known) = line(context, wish)?;
    let all = wish.words.is_empty() && wish.count.is_none();
    let joints = if all {
        if known.may_come() == 0 {
            return Err(Slip::new(
                "line",
                &line.to_string(),
                format!("nothing of line {line} is still to come"),
                "check the line; write how many came",
            ));
        }
        known.may_come()
    } else {
        how_many(wish, Some(known.may_come()))?
    };
    let lengths = wish.lengths.iter();
    let lengths = lengths.map(|text| length("length", text, context.week.units));
    let lengths = lengths.collect::<Result<Vec<Length>, Slip>>()?;
    let lengths = match (lengths.as_slice(), usize::try_from(joints)) {
        // One length for all, or one for each.
        ([one], Ok(n)) => vec![*one; n],
        (several, Ok(n)) if several.is_empty() || several.len() == n => lengths,
        _ => {
            return Err(Slip::new(
                "length",
                wish.lengths.first().map_or("", String::as_str),
                format!("{} lengths for {joints} joints", wish.lengths.len()),
                "write --length once for all, or once for each",
            ));
        }
    };
    Ok(Told::Delivered(Delivered {
        line,
        joints,
        lengths,
    }))
}

/// A line, so many joints of it, and what it costs by the plan.
fn planned(number: u32, line: &LineStand, joints: u32) -> OrderedLine {
    let money = line.planned_money.map(|all| {
        let part = all.0 * rust_decimal::Decimal::from(joints)
            / rust_decimal::Decimal::from(line.wanted.max(1));
        Money(part).cents()
    });
    OrderedLine {
        line: number,
        joints,
        money,
    }
}

fn ordered(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["line", "count", "by", "money", "supplier"])?;
    let (supplier, mut lines) = if wish.line.is_some() {
        let (number, known) = find::line(context.week, wish.line.as_deref(), "ordered")?;
        let all = wish.words.is_empty() && wish.count.is_none();
        let joints = if all && known.to_order() > 0 {
            known.to_order()
        } else {
            how_many(wish, None)?
        };
        (known.supplier.clone(), vec![planned(number, known, joints)])
    } else {
        wish.no_words()?;
        let typed = wish.supplier.clone().unwrap_or_default();
        let lines = context.week.lines.iter();
        let lines = lines.filter(|(_, l)| l.supplier.eq_ignore_ascii_case(&typed));
        let lines: Vec<OrderedLine> = lines
            .filter(|(_, l)| l.to_order() > 0)
            .map(|(n, l)| planned(*n, l, l.to_order()))
            .collect();
        if lines.is_empty() {
            let names = context.week.lines.values().map(|l| l.supplier.as_str());
            return Err(Slip::new(
                "supplier",
                &typed,
                "nothing is to be ordered of this supplier",
                crate::order::suggestion(&typed, names),
            ));
        }
        (typed, lines)
    };
    // Money told is the order's: it stands in place of the lines' by the plan.
    let fees = amount(context, wish)?;
    if fees.is_some() {
        lines.iter_mut().for_each(|l| l.money = None);
    }
    Ok(Told::Ordered(Ordered {
        supplier,
        lines,
        fees,
        promised: wish.by.as_deref().map(|text| day("by", text)).transpose()?,
    }))
}

fn promised(context: &Context<'_>, wish: &Wish) -> Result<Told, Slip> {
    wish.stray(&["line", "by"])?;
    let by = match (&wish.by, wish.words.as_slice()) {
        (Some(by), []) | (None, [by]) => by,
        _ => {
            return Err(Slip::new(
                "by",
                &wish.words.join(" "),
                "which day is promised?",
                "write --by 2026-03-06",
            ));
        }
    };
    let day = day("by", by)?;
    let lines = if wish.line.is_some() {
        vec![find::line(context.week, wish.line.as_deref(), "promised")?.0]
    } else {
        let open = context.week.lines.iter().filter(|(_, l)| l.may_come() > 0);
        open.map(|(n, _)| *n).collect()
    };
    if lines.is_empty() {
        return Err(Slip::new(
            "line",
            "",
            "nothing is still to come",
            "check the week",
        ));
    }
    Ok(Told::Promised(Promised { lines, day }))
}
