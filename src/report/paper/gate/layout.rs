//! The second page of a gate sheet: parts, bay lines, two nodes enlarged, fit-up, cautions. One page
//! as long as it can be read: first as it looks best, then closer set.

use super::{notes, tables, throat};
use crate::gate::{Frame, Point};
use crate::report::draw::{Face, Text};
use crate::report::paper::desk::Desk;
use crate::report::paper::elevation::Elevation;
use crate::report::paper::table::Table;
use crate::report::paper::wrap::{bullet, paragraph};
use crate::report::paper::{Block, Piece};

/// Sizes of the tables' figures, points: the first with which everything stands on one page.
const SIZES: [f64; 4] = [10.5, 10.0, 9.5, 9.0];
/// Space between columns of words, points.
const GUTTER: f64 = 18.0;
/// Title of the fit-up.
const FIT_UP: &str = "Fit-up (common practice)";
/// Side of a node enlarged, points.
const DETAIL: f64 = 118.0;

/// What the second page is put together from.
struct Sheet<'a> {
    desk: &'a Desk<'a>,
    frame: &'a Frame,
    drawing: &'a Elevation<'a>,
    fit_up: Vec<String>,
    cautions: Vec<String>,
    /// What the first page had no room for, in the order it stands here.
    moved: Vec<Block>,
}

/// What the second page has to say besides the gate's own tables.
#[derive(Default)]
pub struct Second {
    /// Cautions.
    pub cautions: Vec<String>,
    /// The sway brace from above, where the first page had no room for it.
    pub brace: Option<Block>,
    /// The order's note, where the first page had no room for it.
    pub note: Option<String>,
}

/// The second page; a gate with more lines than a page runs on, its tables' heads repeated.
pub fn second(desk: &Desk, frame: &Frame, drawing: &Elevation, more: Second) -> Vec<Piece> {
    let note = more.note.as_deref();
    let note = note.map(|n| paragraph(Face::Regular, 11.0, desk.room, n));
    let sheet = Sheet {
        desk,
        frame,
        drawing,
        fit_up: notes::fit_up(desk, frame, !drawing.lines.is_empty()),
        cautions: more.cautions,
        moved: note.into_iter().chain(more.brace).collect(),
    };
    let fits = |b: &Block| b.height <= desk.high;
    let open = SIZES.iter().map(|size| sheet.open(*size));
    let close = SIZES.iter().map(|size| sheet.close(*size));
    if let Some(page) = open.chain(close).find(fits) {
        return vec![Piece::of(page)];
    }
    let mut pieces: Vec<Piece> = sheet.moved.iter().cloned().map(Piece::of).collect();
    pieces.extend([
        sheet.parts(SIZES[0]).piece(),
        sheet.lines(SIZES[0]).piece(),
        Piece::of(sheet.words(&sheet.fit_up, FIT_UP, desk.room)),
        Piece::of(sheet.words(&sheet.cautions, "Cautions", desk.room)),
    ]);
    pieces
}

impl Sheet<'_> {
    /// Everything, the words side by side at the foot.
    fn open(&self, size: f64) -> Block {
        let mut block = self.top(size);
        block.below(8.0, self.bay_lines(size));
        let wide = (self.desk.room - GUTTER) / 2.0;
        let mut words = self.words(&self.fit_up, FIT_UP, wide);
        let right = self.words(&self.cautions, "Cautions", wide);
        words.height = words.height.max(right.height);
        words.place(wide + GUTTER, 0.0, right);
        block.below(8.0, words);
        block
    }

    /// For a long gate: as many cautions as there is room for beside the bay lines, in the place of the
    /// enlarged nodes; the rest and the fit-up in three columns at the foot.
    fn close(&self, size: f64) -> Block {
        let mut block = self.top(size);
        let wide = self.desk.room - self.lines_room() - GUTTER;
        let mut lines = self.lines(size).block();
        let beside = |n: &usize| {
            let first = self.cautions.get(..*n).unwrap_or_default();
            self.words(first, "Cautions", wide).height <= lines.height
        };
        let (first, rest) = self
            .cautions
            .split_at((0..=self.cautions.len()).rev().find(beside).unwrap_or(0));
        lines.place(
            self.desk.room - wide,
            0.0,
            self.words(first, "Cautions", wide),
        );
        block.below(8.0, lines);
        let (a, b) = self.fit_up.split_at(self.fit_up.len().div_ceil(2));
        let third = (self.desk.room - 2.0 * GUTTER) / 3.0;
        let mut foot = Block::new(0.0);
        let mut x = 0.0;
        for (items, title) in [(a, FIT_UP), (b, ""), (rest, "Cautions, the rest")] {
            if !items.is_empty() {
                let words = self.words(items, title, third);
                foot.height = foot.height.max(words.height);
                foot.place(x, 0.0, words);
            }
            x += third + GUTTER;
        }
        block.below(8.0, foot);
        block
    }

    /// What was moved here, then the parts.
    fn top(&self, size: f64) -> Block {
        let mut block = Block::new(0.0);
        for moved in &self.moved {
            block.below(0.0, moved.clone());
            block.height += 8.0;
        }
        block.below(0.0, self.parts(size).block());
        block
    }

    fn parts(&self, size: f64) -> Table {
        let table = tables::parts(self.desk, self.frame, self.desk.room);
        Table { size, ..table }
    }

    /// Width of the table of bay lines, points.
    fn lines_room(&self) -> f64 {
        self.desk.room - 2.0 * DETAIL - 28.0
    }

    fn lines(&self, size: f64) -> Table {
        let throat = throat(self.frame);
        let table = tables::bay_lines(self.desk, self.frame, throat, self.lines_room());
        Table { size, ..table }
    }

    /// Bay lines beside two nodes enlarged: the latch corner at the bottom, and the first vertical's
    /// foot.
    fn bay_lines(&self, size: f64) -> Block {
        let frame = self.frame;
        let mut block = self.lines(size).block();
        block.height = block.height.max(DETAIL + 14.0);
        let half = 5.0 * (frame.height - frame.axis_height);
        let mut x = self.lines_room() + 16.0;
        for (line, words) in [(0, "latch corner, bottom"), (1, "bay line 1, bottom")] {
            let at = Point {
                x: frame.bay_lines.get(line).copied().unwrap_or(0.0) + half * 0.35,
                y: half * 0.35,
            };
            block.place(x, 0.0, self.drawing.detail(at, half, DETAIL));
            block.text(Text::new(x, DETAIL + 10.0, 8.5, words));
            x += DETAIL + 12.0;
        }
        block
    }

    /// A list under its title.
    fn words(&self, items: &[String], title: &str, wide: f64) -> Block {
        let mut block = Block::new(16.0);
        block.text(Text::new(0.0, 12.0, 12.0, title).bold());
        for words in items {
            block.below(1.0, bullet(Face::Regular, 9.0, wide, words));
        }
        block
    }
}
