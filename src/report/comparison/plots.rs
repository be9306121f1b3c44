//! The comparison's plots: money stacked by part, waste by definition, the price premium swept.

use crate::compare::{Comparison, Figures as Made, Question, Row, Turn, joint_words};
use crate::measure::Money;
use crate::report::draw::{Page, Path, Pen, Text};
use crate::report::paper::Block;
use crate::report::table::clean;

use super::bars::{Fill, bar};
use super::figures;
use super::sheet::{parts, percents};
use super::turn_words::{percent, unit_word};

/// Page width and margin, room for a row's name and for its figures, points.
const WIDTH: f64 = 720.0;
const MARGIN: f64 = 24.0;
const NAMES: f64 = 170.0;
const FIGURES: f64 = 96.0;
/// Height of a row, points.
const ROW: f64 = 26.0;
/// Where the bars begin and how long the longest is, points.
const LEFT: f64 = MARGIN + NAMES;
const LONG: f64 = WIDTH - LEFT - MARGIN - FIGURES;

/// Every plot that has something to show, with its file's stem.
pub(super) fn plots(comparison: &Comparison) -> Vec<(String, Page)> {
    let made: Vec<(&Row, &Made)> = comparison
        .rows
        .iter()
        .filter_map(|r| Some((r, r.figures()?)))
        .collect();
    let mut out = Vec::new();
    if made.iter().any(|(_, m)| m.money.is_some()) {
        out.push(("money".to_owned(), money(comparison, &made)));
    }
    if !made.is_empty() {
        out.push(("waste".to_owned(), waste(comparison, &made)));
    }
    if comparison.sweep.points.len() > 1 {
        out.push(("premium".to_owned(), premium(comparison)));
    }
    out
}

/// A key: a small bar and its words, side by side.
fn key(block: &mut Block, y: f64, entries: &[(&str, Fill)]) {
    let mut x = MARGIN;
    for (words, fill) in entries {
        bar(block, (x, y - 8.0, 18.0, 9.0), *fill);
        let text = Text::new(x + 23.0, y, 9.0, *words);
        x += 23.0 + text.width() + 16.0;
        block.text(text);
    }
}

fn headed(comparison: &Comparison, title: &str) -> Block {
    let mut block = Block::new(0.0);
    let shop = clean(&comparison.week.shop.name);
    let title = format!("{title}: {shop}");
    block.text(
        Text::new(MARGIN, MARGIN + 12.0, 14.0, title)
            .bold()
            .fitted(WIDTH - 2.0 * MARGIN, 8.0),
    );
    block
}

fn page(block: Block, height: f64, title: &str) -> Page {
    Page {
        width: WIDTH,
        height,
        title: title.to_owned(),
        items: block.items,
    }
}

fn name(block: &mut Block, row: &Row, y: f64) {
    let text = Text::new(LEFT - 6.0, y, 10.0, clean(&row.name)).end();
    block.text(text.fitted(NAMES - 6.0, 6.0));
}

const FILLS: [Fill; 5] = [
    Fill::Plain,
    Fill::Crossed,
    Fill::Upright,
    Fill::Solid,
    Fill::Rising,
];

fn money(comparison: &Comparison, rows: &[(&Row, &Made)]) -> Page {
    let title = "Landed money by part";
    let mut block = headed(comparison, title);
    key(
        &mut block,
        MARGIN + 32.0,
        &[
            ("pipe", FILLS[0]),
            ("freight", FILLS[1]),
            ("tax, fees", FILLS[2]),
            ("splices", FILLS[3]),
            ("off the rack", FILLS[4]),
            ("drops kept, taken off", Fill::Falling),
        ],
    );
    let split = |m: &Made| parts(m).map(|cents| cents.map(whole));
    let gross = |m: &Made| split(m).map_or(0.0, |p| p[..5].iter().sum::<f64>());
    let most = rows.iter().map(|(_, m)| gross(m)).fold(1.0, f64::max);
    let scale = LONG / most;
    let mut y = MARGIN + 48.0;
    for (row, made) in rows {
        name(&mut block, row, y + 12.0);
        let Some(parts) = split(made) else {
            block.text(Text::new(LEFT, y + 12.0, 9.0, "no price"));
            y += ROW;
            continue;
        };
        let mut x = LEFT;
        for (part, fill) in parts[..5].iter().zip(FILLS) {
            bar(&mut block, (x, y, part * scale, 15.0), fill);
            x += part * scale;
        }
        let kept = -parts[5] * scale;
        bar(&mut block, (x - kept, y + 16.0, kept, 5.0), Fill::Falling);
        let total = made.total().map(Money::from_millicents);
        let words = figures(comparison).spoken_money(total);
        block.text(Text::new(LEFT + LONG + 6.0, y + 12.0, 10.0, words).bold());
        y += ROW;
    }
    base(&mut block, MARGIN + 44.0, y);
    page(block, y + MARGIN, title)
}

/// The line that bars stand on.
fn base(block: &mut Block, from: f64, to: f64) {
    block.line(LEFT, from, LEFT, to, 1.2);
}

/// Cents as a number to draw with.
fn whole(cents: i64) -> f64 {
    cents as f64
}

fn waste(comparison: &Comparison, rows: &[(&Row, &Made)]) -> Page {
    let title = "Waste by definition, % of pipe taken";
    let mut block = headed(comparison, title);
    let fills = [Fill::Plain, Fill::Solid, Fill::Rising];
    key(
        &mut block,
        MARGIN + 32.0,
        &[
            ("all-in = (taken - in gates) / taken", fills[0]),
            ("lost = (kerf + trim + scrap drops) / taken", fills[1]),
            ("kept = drops kept / taken", fills[2]),
        ],
    );
    let shares = |m: &Made| percents(&m.waste).unwrap_or([0.0; 3]);
    let most = rows.iter().flat_map(|(_, m)| shares(m)).fold(0.1, f64::max);
    let mut y = MARGIN + 48.0;
    for (row, made) in rows {
        name(&mut block, row, y + 15.0);
        for (share, fill) in shares(made).into_iter().zip(fills) {
            let long = share * LONG / most;
            bar(&mut block, (LEFT, y, long, 6.0), fill);
            let words = format!("{share:.2}");
            block.text(Text::new(LEFT + long + 4.0, y + 6.0, 7.5, words));
            y += 8.0;
        }
        y += 7.0;
    }
    base(&mut block, MARGIN + 44.0, y);
    page(block, y + MARGIN, title)
}

/// Room of the sweep's curves, points.
const TALL: f64 = 260.0;

fn premium(comparison: &Comparison) -> Page {
    let units = comparison.week.shop.units;
    let pair = comparison.offer.pair.unwrap_or_default();
    let (short, long) = (joint_words(pair.0, units), joint_words(pair.1, units));
    let title = format!("{short} against {long}: the price premium swept");
    let mut block = headed(comparison, &title);
    let names = comparison.break_evens.first().map(|b| b.names.clone());
    let names = names.unwrap_or_default();
    let points = &comparison.sweep.points;
    let (left, right, top) = (MARGIN + 76.0, WIDTH - MARGIN - 20.0, MARGIN + 64.0);
    let low =
        |f: fn(i64, i64) -> i64, start| points.iter().fold(start, |a, (_, s, l)| f(f(a, *s), *l));
    let (least, most) = (low(i64::min, i64::MAX), low(i64::max, i64::MIN));
    let span = whole((most - least).max(1));
    let (from, to) = match (points.first(), points.last()) {
        (Some(a), Some(b)) => (a.0, b.0),
        _ => (0, 1),
    };
    let at_x = |x: i64| left + (right - left) * whole(x - from) / whole((to - from).max(1));
    let at_y = |m: i64| top + TALL * (1.0 - whole(m - least) / span);
    axes(
        comparison,
        &mut block,
        (least, most),
        (from, to),
        (&at_x, &at_y),
    );
    let curve = |pick: fn(&(i64, i64, i64)) -> i64| {
        let points: Vec<(f64, f64)> = points.iter().map(|p| (at_x(p.0), at_y(pick(p)))).collect();
        Path::polyline(&points)
    };
    block.stroke(curve(|p| p.1), Pen::solid(1.8));
    block.stroke(curve(|p| p.2), Pen::dashed(1.8, 6.0));
    block.line(MARGIN, MARGIN + 29.0, MARGIN + 24.0, MARGIN + 29.0, 1.8);
    block.text(Text::new(MARGIN + 30.0, MARGIN + 32.0, 9.0, names.0));
    block.stroke(
        Path::line(MARGIN + 120.0, MARGIN + 29.0, MARGIN + 144.0, MARGIN + 29.0),
        Pen::dashed(1.8, 6.0),
    );
    block.text(Text::new(MARGIN + 150.0, MARGIN + 32.0, 9.0, names.1));
    let asked = comparison.break_evens.iter();
    for turn in asked.filter(|b| b.question == Question::Premium) {
        if let Some((least, most)) = turn.today {
            let marks = [at_x(least), at_x(most)];
            for x in marks {
                let line = Path::line(x, top + TALL - 14.0, x, top + TALL);
                block.stroke(line, Pen::solid(1.2));
            }
            block.clear_text(today(
                (least, most),
                marks,
                (left, right),
                top + TALL - 18.0,
            ));
        }
        if let Turn::At { value, money, .. } = turn.turn {
            block.stroke(
                Path::line(at_x(value), top, at_x(value), top + TALL),
                Pen::dashed(0.7, 2.0),
            );
            block.stroke(Path::circle(at_x(value), at_y(money), 4.0), Pen::solid(1.2));
            let words = format!("turns at {}", percent(value));
            block.clear_text(
                Text::new(at_x(value), top - 6.0, 10.0, words)
                    .bold()
                    .middle(),
            );
        }
    }
    let y = top + TALL + 34.0;
    let unit = unit_word(comparison.week.shop.units);
    let words = format!(
        "Price of a {unit} of {long} joint over a {unit} of {short} joint, the same on every pipe sold in both"
    );
    block.text(Text::new((left + right) / 2.0, y, 9.0, words).middle());
    page(block, y + MARGIN, &title)
}

/// Today's premium in words, or the least and the greatest over the pipes: over its marks, inside the frame.
fn today((least, most): (i64, i64), marks: [f64; 2], (left, right): (f64, f64), y: f64) -> Text {
    let words = if least == most {
        format!("today {}", percent(least))
    } else {
        format!("today from {} to {}", percent(least), percent(most))
    };
    let half = Text::new(0.0, y, 8.5, words.as_str()).width() / 2.0 + 4.0;
    let middle = (marks[0] + marks[1]) / 2.0;
    let x = middle.min(right - half).max(left + half);
    Text::new(x, y, 8.5, words).middle()
}

/// Frame, money at the left, premiums below.
fn axes(
    comparison: &Comparison,
    block: &mut Block,
    (least, most): (i64, i64),
    (from, to): (i64, i64),
    (at_x, at_y): (&dyn Fn(i64) -> f64, &dyn Fn(i64) -> f64),
) {
    let (left, right) = (at_x(from), at_x(to));
    block.frame(left, at_y(most), right - left, TALL, 0.8);
    for i in 0..=4 {
        let m = least + (most - least) / 4 * i;
        block.line(left, at_y(m), right, at_y(m), 0.25);
        let words = figures(comparison).spoken_money(Some(Money::from_millicents(m)));
        block.text(Text::new(left - 5.0, at_y(m) + 3.0, 8.5, words).end());
    }
    for i in 0..=6 {
        let x = from + (to - from) / 6 * i;
        let foot = at_y(least);
        block.line(at_x(x), foot, at_x(x), foot + 4.0, 0.8);
        block.text(Text::new(at_x(x), foot + 15.0, 8.5, percent(x)).middle());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn todays_words_stay_inside_the_frame() {
        for (marks, expected) in [
            ([100.0, 130.0], "left"),
            ([690.0, 700.0], "right"),
            ([400.0, 420.0], "middle"),
        ] {
            let text = today((-26_700, -11_400), marks, (100.0, 700.0), 0.0);
            assert_eq!(text.words, "today from -2.67 % to -1.14 %");
            let (from, to) = (text.x - text.width() / 2.0, text.x + text.width() / 2.0);
            assert!(from > 100.0 && to < 700.0, "{expected}: {from} to {to}");
        }
        assert_eq!(
            today((0, 0), [300.0; 2], (100.0, 700.0), 0.0).words,
            "today +0.00 %"
        );
    }
}
