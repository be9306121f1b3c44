//! The lines of a joint of very many pieces: two or three columns of lines, what is common to all of a
//! part said once above them. Past three full columns it runs onto another page.

use super::lines::{
    CLEAR, HEADS, PLAIN, TIGHT, further, mark, running, throat_words, write_mark, write_on,
};
use crate::plan::{PieceCut, PlannedJoint};
use crate::report::draw::{Face, Text};
use crate::report::paper::desk::Desk;
use crate::report::paper::wrap::paragraph;
use crate::report::paper::{Block, TICK};

/// Space between columns, points.
const GUTTER: f64 = 16.0;
/// Right edge of a line's number and left edge of its mark, points.
const NUMBER: f64 = 42.0;
const MARK: f64 = NUMBER + CLEAR;
/// Room for a running mark with its flag, points.
const RUNNING: f64 = 114.0;
/// Room to write what was measured, where there are two columns, points.
const ACTUAL: f64 = 72.0;

/// A line: its number and its piece.
type Line<'a> = (usize, &'a PieceCut);

/// A way to set the lines: so many columns of a width, with room for marks and to write.
#[derive(Clone, Copy, Debug)]
struct Setting {
    columns: usize,
    wide: f64,
    mark: f64,
    actual: f64,
}

impl Setting {
    fn of(desk: &Desk, columns: usize) -> Setting {
        let n = f64::from(u32::try_from(columns).unwrap_or(1)).max(1.0);
        let wide = (desk.room - GUTTER * (n - 1.0)) / n;
        let actual = if columns > 2 { 0.0 } else { ACTUAL };
        Setting {
            columns,
            wide,
            mark: wide - MARK - RUNNING - actual,
            actual,
        }
    }

    /// Height of a line: as many lines as its mark takes.
    fn high(&self, piece: &PieceCut) -> f64 {
        TIGHT + further(&mark(&piece.mark, self.mark).1)
    }

    /// The lines in columns none of which is higher than `most`, filled from the left.
    fn fill<'a>(&self, lines: &[Line<'a>], most: f64) -> Vec<Vec<Line<'a>>> {
        let mut out: Vec<Vec<Line>> = Vec::new();
        let mut left = 0.0;
        for line in lines {
            let high = self.high(line.1);
            match out.last_mut() {
                Some(column) if high <= left => column.push(*line),
                _ => {
                    out.push(vec![*line]);
                    left = most;
                }
            }
            left -= high;
        }
        out
    }

    /// The lines in columns that end as level as they can; `None` where a page does not hold them.
    fn level<'a>(&self, lines: &[Line<'a>], air: f64) -> Option<Vec<Vec<Line<'a>>>> {
        let all: f64 = lines.iter().map(|l| self.high(l.1)).sum();
        let columns = f64::from(u32::try_from(self.columns).unwrap_or(1)).max(1.0);
        let mut most = (all / columns).min(air);
        loop {
            let filled = self.fill(lines, most);
            if filled.len() <= self.columns {
                return Some(filled);
            }
            if most >= air {
                return None;
            }
            most = (most + TIGHT).min(air);
        }
    }
}

/// The lines of a joint in sheets of at most `air` points: one where two or three columns hold them,
/// else as many as it takes.
pub fn columns(desk: &Desk, joint: &PlannedJoint, air: f64) -> Vec<Block> {
    let common = common(desk, joint);
    let air = air - common.height - HEADS;
    let lines: Vec<Line> = joint.pieces.iter().enumerate().collect();
    let settings = [2, 3].map(|n| Setting::of(desk, n));
    let sheet = |set: &Setting, columns: &[Vec<Line>]| {
        let mut block = common.clone();
        let mut all = Block::new(0.0);
        let mut x = 0.0;
        for column in columns {
            let drawn = self::column(desk, set, column);
            all.height = all.height.max(drawn.height);
            all.place(x, 0.0, drawn);
            x += set.wide + GUTTER;
        }
        block.below(0.0, all);
        block
    };
    for set in &settings {
        if let Some(columns) = set.level(&lines, air) {
            return vec![sheet(set, &columns)];
        }
    }
    let [_, set] = settings;
    let filled = set.fill(&lines, air);
    filled.chunks(set.columns).map(|c| sheet(&set, c)).collect()
}

/// Saw length, throat and ends of each part cut here.
fn common(desk: &Desk, joint: &PlannedJoint) -> Block {
    let mut seen: Vec<(usize, Option<u32>)> = Vec::new();
    let mut words: Vec<String> = Vec::new();
    for piece in &joint.pieces {
        if seen.contains(&(piece.part, piece.piece)) {
            continue;
        }
        seen.push((piece.part, piece.piece));
        let name = desk.take_off.parts.get(piece.part);
        let name = name.map_or(piece.mark.as_str(), |p| p.mark.as_str());
        let name = piece
            .piece
            .map_or(name.to_owned(), |n| format!("{name}/{n}"));
        let throat = match throat_words(desk, piece).as_str() {
            "–" => String::new(),
            throat => format!(", throat {throat}"),
        };
        let saw = desk.length(piece.saw);
        words.push(format!(
            "{name} saw length {saw}{throat}, {}",
            desk.ends(piece)
        ));
    }
    paragraph(Face::Regular, PLAIN, desk.room, &words.join(" · "))
}

fn column(desk: &Desk, set: &Setting, lines: &[Line]) -> Block {
    let right = set.wide - set.actual - 6.0;
    let actual = (set.actual > 0.0).then_some(set.wide - set.actual + 8.0);
    let mut block = Block::new(HEADS);
    block.text(Text::new(MARK, HEADS - 3.0, 9.0, "mark"));
    block.text(Text::new(right, HEADS - 3.0, 9.0, "running mark").end());
    if let Some(x) = actual {
        block.text(Text::new(x, HEADS - 3.0, 9.0, "actual"));
    }
    for (i, piece) in lines {
        let (top, y) = (block.height, block.height + 0.5 * TIGHT + 5.5);
        block.tick(0.0, top + (TIGHT - TICK) / 2.0);
        block.text(Text::new(NUMBER, y, PLAIN, (i + 1).to_string()).end());
        write_mark(&mut block, MARK, y, &mark(&piece.mark, set.mark));
        running(&mut block, desk, piece, right, y);
        if let Some(x) = actual {
            write_on(&mut block, x, set.wide - x, top + TIGHT - 2.5);
        }
        block.height += set.high(piece);
        block.line(0.0, block.height, right, block.height, 0.3);
    }
    block
}
