//! A table: a head that repeats on every page and one block per row.

use super::wrap::wrap;
use super::{Block, Piece};
use crate::report::draw::{Anchor, Face, Text};
use crate::report::table::{Cell, Column as SheetColumn, Kind, Table as SheetTable};
use crate::report::wrap::soften;

/// One column.
#[derive(Clone, Debug)]
pub struct Column {
    /// Title.
    pub title: String,
    /// Share of the table's width.
    pub share: f64,
    /// Where its words stand.
    pub anchor: Anchor,
    /// Printed bold.
    pub bold: bool,
}

/// A column of words, left.
pub fn words(title: &str, share: f64) -> Column {
    Column {
        title: title.to_owned(),
        share,
        anchor: Anchor::Start,
        bold: false,
    }
}

/// A column of figures, right.
pub fn figures(title: &str, share: f64) -> Column {
    Column {
        anchor: Anchor::End,
        ..words(title, share)
    }
}

/// The same column in bold.
pub fn bold(column: Column) -> Column {
    Column {
        bold: true,
        ..column
    }
}

/// A table of text, `size` points, `room` points wide.
#[derive(Clone, Debug)]
pub struct Table {
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows of as many cells; a cell `☐` is drawn as a tick box.
    pub rows: Vec<Vec<String>>,
    /// Text size, points.
    pub size: f64,
    /// Width, points.
    pub room: f64,
}

/// A cell that is a tick box.
pub const TICK_CELL: &str = "☐";
/// Space between columns, points.
const GUTTER: f64 = 8.0;

impl Table {
    /// A sheet's table as it prints there: figures right, words left, its columns in these shares.
    pub(in crate::report) fn of(sheet: &SheetTable, shares: &[f64], size: f64, room: f64) -> Table {
        let column = |(c, share): (&SheetColumn, &f64)| match c.kind {
            Kind::Words | Kind::Mark => words(&c.head, *share),
            Kind::Number | Kind::Figure => figures(&c.head, *share),
        };
        let printed = |row: &Vec<Cell>| row.iter().map(|c| soften(c.printed())).collect();
        Table {
            columns: sheet.columns.iter().zip(shares).map(column).collect(),
            rows: sheet.rows.iter().map(printed).collect(),
            size,
            room,
        }
    }

    /// Left edge and width of each column.
    fn places(&self) -> Vec<(f64, f64)> {
        let total: f64 = self.columns.iter().map(|c| c.share).sum();
        let mut x = 0.0;
        let place = |c: &Column| {
            let w = self.room * c.share / total.max(1e-9);
            let at = (x, (w - GUTTER).max(1.0));
            x += w;
            at
        };
        self.columns.iter().map(place).collect()
    }

    /// The head's block.
    pub fn head(&self) -> Block {
        let size = (self.size * 0.8).max(8.0);
        let cells: Vec<(String, bool)> = self
            .columns
            .iter()
            .map(|c| (c.title.clone(), false))
            .collect();
        let mut block = self.cells(&cells, size, 2.0);
        block.line(0.0, block.height, self.room, block.height, 1.2);
        block.height += 2.0;
        block
    }

    /// One row's block, ruled below.
    fn row(&self, row: &[String]) -> Block {
        let cells: Vec<(String, bool)> = row
            .iter()
            .zip(&self.columns)
            .map(|(w, c)| (w.clone(), c.bold))
            .collect();
        let mut block = self.cells(&cells, self.size, 2.0);
        block.line(0.0, block.height, self.room, block.height, 0.4);
        block
    }

    fn cells(&self, cells: &[(String, bool)], size: f64, pad: f64) -> Block {
        let mut block = Block::new(size * 1.25 + 2.0 * pad);
        for (((words, bold), (x, w)), column) in cells.iter().zip(self.places()).zip(&self.columns)
        {
            if words == TICK_CELL {
                block.tick(x, pad);
                block.height = block.height.max(super::TICK + 2.0 * pad);
                continue;
            }
            let face = if *bold { Face::Bold } else { Face::Regular };
            for (i, line) in wrap(face, size, w, words).into_iter().enumerate() {
                let down = size * 1.2 * f64::from(u32::try_from(i).unwrap_or(u32::MAX));
                let at = match column.anchor {
                    Anchor::Start => x,
                    Anchor::Middle => x + w / 2.0,
                    Anchor::End => x + w,
                };
                let mut text = Text::new(at, pad + size + down, size, line);
                (text.face, text.anchor) = (face, column.anchor);
                block.text(text);
                block.height = block.height.max(2.0 * pad + size * 1.25 + down);
            }
        }
        block
    }

    /// The table as a piece of a section: its head repeats where it breaks.
    pub fn piece(&self) -> Piece {
        Piece {
            head: Some(self.head()),
            blocks: self.rows.iter().map(|r| self.row(r)).collect(),
        }
    }

    /// The whole table as one block that does not break.
    pub fn block(&self) -> Block {
        let mut all = self.head();
        for row in &self.rows {
            all.below(0.0, self.row(row));
        }
        all
    }
}
