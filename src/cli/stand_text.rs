//! The stand in words and tables.

use crate::measure::{Length, Money, Units};
use crate::report::{plain_table, with_currency, wrapped};
use crate::yard::{Account, GateCopy, PieceStand, Stand, WeekStand};

use super::tell::said;

/// Marks named where a gate lacks some.
const NAMED: usize = 3;

/// One week, or every week that is open; then the rack and the balances.
pub(super) fn stand_text(stand: &Stand, only: Option<&str>) -> String {
    let mut out: Vec<String> = Vec::new();
    let weeks = stand.weeks.iter();
    let weeks = weeks.filter(|(name, week)| match only {
        Some(only) => only == name.as_str(),
        None => !week.closed,
    });
    let mut units = Units::Inch;
    for (name, week) in weeks {
        units = week.units;
        head(&mut out, name, week);
        gates(&mut out, week);
        lines(&mut out, stand, week);
    }
    rack(&mut out, stand, units, only);
    balances(&mut out, stand, units);
    questions(&mut out, stand);
    let mut text = out.join("\n");
    text.push('\n');
    text
}

fn head(out: &mut Vec<String>, name: &str, week: &WeekStand) {
    let plan = match week.current() {
        Some(plan) => format!("plan {} revision {}", plan.plan, plan.revision),
        None => "no plan is followed".to_owned(),
    };
    let paid = week.paid;
    let money = if paid == Money::ZERO {
        String::new()
    } else {
        let back = match week.back {
            none if none == Money::ZERO => String::new(),
            back => format!(
                ", {} back",
                with_currency(&week.currency, &back.to_string())
            ),
        };
        format!(
            "; {} ordered{back}",
            with_currency(&week.currency, &paid.to_string())
        )
    };
    let closed = if week.closed { "; closed" } else { "" };
    out.push(format!("{name}: {plan}{money}{closed}"));
    if !week.replan.is_empty() {
        let all: Vec<&str> = week.replan.iter().map(String::as_str).collect();
        let more = all.len().saturating_sub(NAMED);
        let more = if more > 0 {
            format!("; {more} more")
        } else {
            String::new()
        };
        let named = all[..all.len().min(NAMED)].join("; ");
        out.extend(wrapped(&format!("A new plan is needed: {named}{more}"), 80));
    }
    out.push(String::new());
}

fn gates(out: &mut Vec<String>, week: &WeekStand) {
    let columns = [
        ("gate", false),
        ("due", false),
        ("pieces", true),
        ("cut", true),
        ("coped", true),
        ("welds", true),
        ("lacks", false),
    ];
    let mut rows = Vec::new();
    for (mark, gate) in &week.gates {
        for copy in (1u32..).take(gate.copies.len()) {
            let one = GateCopy {
                mark: mark.clone(),
                copy,
            };
            let name = if gate.copies.len() > 1 {
                format!("{mark}.{copy}")
            } else {
                mark.clone()
            };
            let due = gate.due.map(|d| d.to_string()).unwrap_or_default();
            rows.push(gate_row(week, &one, (name, due)));
        }
    }
    let extras: Vec<&PieceStand> = week.extras().map(|(_, p)| p).filter(|p| p.wanted).collect();
    if !extras.is_empty() {
        rows.push(row("parts".to_owned(), String::new(), &extras, (0, 0), ""));
    }
    out.extend(plain_table(&columns, rows));
    out.push(String::new());
}

fn gate_row(week: &WeekStand, one: &GateCopy, (name, due): (String, String)) -> Vec<String> {
    let pieces: Vec<&PieceStand> = week
        .of_copy(one)
        .map(|(_, p)| p)
        .filter(|p| p.wanted)
        .collect();
    let mine = week.splices.iter().filter(|(line, _)| {
        let first = crate::order::PieceId {
            piece: Some(1),
            ..(*line).clone()
        };
        week.copy_of(&first).as_ref() == Some(one)
    });
    let splices: Vec<bool> = mine.flat_map(|(_, s)| s.iter().copied()).collect();
    let welded = splices.iter().filter(|w| **w).count();
    let at = usize::try_from(one.copy).unwrap_or(1).saturating_sub(1);
    let gate = week.gates.get(&one.mark);
    let state = gate.and_then(|g| g.copies.get(at));
    let word = match state {
        Some(s) if s.withdrawn => "withdrawn",
        Some(s) if s.shipped => "shipped",
        Some(s) if s.done => "done",
        _ if gate.is_some_and(|g| g.changed) => "order changed",
        _ => "",
    };
    row(name, due, &pieces, (welded, splices.len()), word)
}

fn row(
    name: String,
    due: String,
    pieces: &[&PieceStand],
    (welded, splices): (usize, usize),
    word: &str,
) -> Vec<String> {
    let count = |that: fn(&PieceStand) -> bool| pieces.iter().filter(|p| that(p)).count();
    let to_cope = pieces.iter().filter(|p| p.copes > 0).count();
    let coped = pieces.iter().filter(|p| p.copes > 0 && p.coped()).count();
    let of = |n: usize, all: usize| {
        if all == 0 {
            String::new()
        } else {
            format!("{n}/{all}")
        }
    };
    vec![
        name,
        due,
        pieces.len().to_string(),
        count(PieceStand::counts).to_string(),
        of(coped, to_cope),
        of(welded, splices),
        lacks(pieces, word),
    ]
}

/// What is missing: a few marks, what must be made again first; pieces that are asked about.
fn lacks(pieces: &[&PieceStand], word: &str) -> String {
    if !word.is_empty() && word != "order changed" {
        return word.to_owned();
    }
    let mut missing: Vec<&&PieceStand> = pieces.iter().filter(|p| !p.counts()).collect();
    missing.sort_by_key(|p| (p.spoiled == 0, !p.made()));
    let mut named: Vec<String> = Vec::new();
    if !word.is_empty() {
        named.push(word.to_owned());
    }
    let started = missing.len() < pieces.len();
    let marked = missing
        .iter()
        .filter(|p| p.spoiled > 0 || p.made() || started);
    let mut marks: Vec<(String, usize)> = Vec::new();
    for piece in marked {
        let why = if piece.made() {
            " (measured off)"
        } else if piece.spoiled > 0 {
            " (again)"
        } else {
            ""
        };
        let mark = format!("{}{why}", piece.mark);
        match marks.iter_mut().find(|(m, _)| *m == mark) {
            Some((_, n)) => *n += 1,
            None => marks.push((mark, 1)),
        }
    }
    let all = marks.len();
    named.extend(marks.into_iter().take(NAMED).map(|(mark, n)| match n {
        1 => mark,
        n => format!("{n} x {mark}"),
    }));
    if all > NAMED {
        named.push("…".to_owned());
    }
    if named.is_empty() && !pieces.is_empty() {
        return if missing.is_empty() { "nothing" } else { "all" }.to_owned();
    }
    named.join(", ")
}

fn lines(out: &mut Vec<String>, stand: &Stand, week: &WeekStand) {
    let columns = [
        ("line", true),
        ("pipe", false),
        ("joint", true),
        ("to cut", true),
        ("lie", true),
        ("on order", true),
        ("by", false),
        ("short", true),
    ];
    let rows = week.lines.iter().map(|(number, line)| {
        let of_line = crate::yard::Source::Line(*number);
        let waiting = week.joints.values();
        let waiting = waiting
            .filter(|j| j.waiting() && j.source == of_line)
            .count();
        let waiting = u32::try_from(waiting).unwrap_or(u32::MAX);
        let there = line.lie().saturating_add(line.on_order());
        let by = match (line.on_order(), line.promised.or(line.needed)) {
            (0, _) | (_, None) => String::new(),
            (_, Some(day)) => day.to_string(),
        };
        vec![
            number.to_string(),
            pipe_name(stand, &line.pipe),
            line.nominal.print_with_unit(week.units),
            waiting.to_string(),
            line.lie().to_string(),
            line.on_order().to_string(),
            by,
            match waiting.saturating_sub(there) {
                0 => String::new(),
                short => short.to_string(),
            },
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    if !rows.is_empty() {
        out.extend(plain_table(&columns, rows));
        out.push(String::new());
    }
}

fn pipe_name(stand: &Stand, key: &crate::order::PipeKey) -> String {
    let pipe = stand.pipes.get(key);
    pipe.map_or_else(|| key.to_string(), |p| p.name.clone())
}

fn rack(out: &mut Vec<String>, stand: &Stand, units: Units, only: Option<&str>) {
    let columns = [
        ("rack", false),
        ("pipe", false),
        ("length", true),
        ("pieces", true),
        ("from", false),
        ("kept for", false),
    ];
    let lie = stand.rack.iter().filter(|(_, r)| r.count > 0);
    let rows = lie.map(|(id, r)| {
        let twice = stand.tagged(&id.tag).len() > 1;
        let kept = r.reserved.iter().map(|(week, n)| match (r.count, only) {
            (1, Some(only)) if week == only => "this week".to_owned(),
            (1, _) => week.clone(),
            _ => format!("{week} ({n})"),
        });
        vec![
            if twice {
                id.to_string()
            } else {
                id.tag.clone()
            },
            pipe_name(stand, &r.pipe),
            r.length.print_with_unit(units),
            r.count.to_string(),
            r.from.clone(),
            kept.collect::<Vec<_>>().join(", "),
        ]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    if rows.is_empty() {
        out.push("The rack is empty.".to_owned());
    } else {
        out.extend(plain_table(&columns, rows));
    }
    out.push(String::new());
}

/// Every account of every pipe, in feet or metres: a pipe a column.
fn balances(out: &mut Vec<String>, stand: &Stand, units: Units) {
    let unit = match units {
        Units::Inch => "ft",
        Units::Metric => "m",
    };
    let head = format!("pipe, {unit}");
    let names: Vec<&str> = stand.pipes.values().map(|p| p.name.as_str()).collect();
    let mut columns = vec![(head.as_str(), false)];
    columns.extend(names.iter().map(|n| (*n, true)));
    let rows = Account::ALL.into_iter().filter_map(|account| {
        let of = stand.pipes.values().map(|p| p.accounts.of(account));
        let of: Vec<Length> = of.collect();
        if of.iter().all(|l| *l == Length::ZERO) {
            return None;
        }
        // What came from the mill is shown as what came.
        let sign = if account == Account::Mill { -1 } else { 1 };
        let mut row = vec![account.words().to_owned()];
        row.extend(of.into_iter().map(|l| long(l * sign, units)));
        Some(row)
    });
    let rows: Vec<Vec<String>> = rows.collect();
    if !rows.is_empty() {
        out.extend(plain_table(&columns, rows));
    }
}

/// Feet or metres with one decimal.
fn long(length: Length, units: Units) -> String {
    let (unit, per) = match units {
        Units::Inch => (Length::FOOT, 10),
        Units::Metric => (Length::MM * 1000, 10),
    };
    let tenths = (length * per).to_nearest(unit).ticks() / unit.ticks();
    let sign = if tenths < 0 { "-" } else { "" };
    format!("{sign}{}.{}", tenths.abs() / 10, tenths.abs() % 10)
}

fn questions(out: &mut Vec<String>, stand: &Stand) {
    if stand.questions.is_empty() {
        return;
    }
    out.push(String::new());
    out.push("Questions (answer with `accepted N`, or `undone N`):".to_owned());
    for question in &stand.questions {
        let words = said(stand, &question.entry.week, &question.entry.told, &|_| None);
        let words = format!("{}: {words}: {}", question.entry.week, question.what);
        let number = std::iter::once(format!("{:>5}  ", question.number));
        let indents = number.chain(std::iter::repeat(" ".repeat(7)));
        let lines = wrapped(&words, 73).into_iter().zip(indents);
        out.extend(lines.map(|(line, indent)| indent + &line));
    }
}
