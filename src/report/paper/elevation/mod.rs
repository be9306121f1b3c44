//! The elevation: one gate to scale from its own geometry, copes visible, with the dimensions that a
//! layout table needs. The same drawing goes into the PDF and out as SVG.

mod brace;
mod labels;
mod members;
mod outline;
mod rows;
mod signs;
mod upright;
mod view;

use crate::gate::{Frame, Point};
use crate::measure::Length;
use crate::order::Week;
use crate::part::TakeOff;
use crate::plan::SplicedLine;
use crate::report::brace_words::brace_words;
use crate::report::draw::{Group, Item};
use crate::report::paper::Block;
use crate::splice::SpliceSet;
use brace::FromAbove;
use labels::Labels;
use rows::{Chain, Stop};
use view::View;

pub use members::{part, short};

/// What an elevation shows.
#[derive(Clone, Debug)]
pub struct Elevation<'a> {
    /// The week (pipes, shop).
    pub week: &'a Week,
    /// Its parts.
    pub take_off: &'a TakeOff,
    /// The gate.
    pub frame: &'a Frame,
    /// Windows, if its horizontals are spliced.
    pub windows: Option<&'a SpliceSet>,
    /// The splices of the copies drawn.
    pub lines: Vec<&'a SplicedLine>,
    /// Centre of gravity, ticks.
    pub gravity: Option<Point>,
}

/// Room kept left of the leaf for the latch post's dimensions, and right of it for the tail post's
/// mark, points; a brace's height stands there too.
const LEFT: f64 = 64.0;
const RIGHT: f64 = 30.0;
const BRACED: f64 = 22.0;
/// Highest the gate itself is drawn, points.
const TALLEST: f64 = 210.0;
/// Each squeeze leaves so much of the scale before.
const SQUEEZE: f64 = 0.94;

/// How much a drawing may give up for want of height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Give {
    /// Lowest the gate itself is squeezed to, points.
    pub lowest: f64,
    /// Draw the tape from the throat too (it is in the table of bay lines as well).
    pub throat: bool,
}

impl Give {
    /// Nothing: drawn as large as it looks best.
    pub const NOTHING: Give = Give {
        lowest: TALLEST,
        throat: true,
    };
}

impl Elevation<'_> {
    /// The drawing, as wide as the room; drawn smaller where it would be higher than `high`, as far as
    /// it may be.
    pub fn block(&self, room: f64, high: f64, give: Give) -> Block {
        let tall = self.tall();
        let mut scale = self.scale(room);
        loop {
            let drawn = self.drawn(room, scale, give.throat);
            let next = scale * SQUEEZE;
            if drawn.height <= high || tall * next < give.lowest {
                return drawn;
            }
            scale = next;
        }
    }

    /// Tip to tip of the posts, ticks.
    fn tall(&self) -> f64 {
        (self.frame.height + self.frame.rise + self.frame.drop).max(1.0)
    }

    fn right(&self) -> f64 {
        RIGHT
            + if self.frame.sway.is_some() {
                BRACED
            } else {
                0.0
            }
    }

    /// Points to a tick where nothing forbids: the leaf across the room, not too tall.
    fn scale(&self, room: f64) -> f64 {
        let across = (room - LEFT - self.right()) / self.frame.leaf.max(1.0);
        across.min(TALLEST / self.tall())
    }

    /// Where the leaf stands across the room.
    fn view(&self, room: f64, scale: f64, base: f64) -> View {
        let free = room - LEFT - self.right() - self.frame.leaf * scale;
        View {
            scale,
            left: LEFT + free / 2.0,
            base,
        }
    }

    fn drawn(&self, room: f64, scale: f64, throat: bool) -> Block {
        let frame = self.frame;
        let radius = (frame.height - frame.axis_height) / 2.0;
        let bays = self.bays(&self.view(room, scale, 0.0), room);
        let row = bays.above + 4.0;
        let base = row + 26.0 + (frame.axis_height + radius + frame.rise) * scale;
        let view = self.view(room, scale, base);
        let mut block = Block::new(0.0);
        bays.draw(&mut block, row);
        let foot = base + (radius + frame.drop) * scale;
        signs::bay_lines(&mut block, &view, frame, row - 6.0, foot + 30.0);
        signs::rollers(&mut block, &view, self.week, frame);
        self.gate(&mut block, &view);
        upright::latch_post(&mut block, &view, frame, |x| self.short(x));
        upright::brace(&mut block, &view, frame, |x| self.print(x));
        let mut y = foot + 38.0;
        y += signs::roller_names(&mut block, &view, frame, room, y);
        if let Some(set) = self.windows {
            y += signs::legend_rows(&mut block, &view, set, room, y);
        }
        if let Some(overall) = self.overall(&view, room) {
            y += overall.above - 4.0;
            overall.draw(&mut block, y);
        }
        y += 10.0;
        y += self.tapes(&mut block, &view, room, y, throat);
        block.height = y;
        Block {
            height: block.height,
            items: vec![Item::Group(Group {
                tag: Some(view.tag()),
                items: block.items,
                ..Group::default()
            })],
        }
    }

    /// The pipes with their marks, windows, splices, the centre of gravity.
    fn gate(&self, block: &mut Block, view: &View) {
        let (take_off, frame) = (self.take_off, self.frame);
        let mut labels = Labels::default();
        brace::behind(block, view, self.week, take_off, frame);
        members::outlines(block, view, self.week, take_off, frame);
        if let Some(set) = self.windows {
            signs::windows(block, &mut labels, view, take_off, frame, set);
        }
        signs::splices(block, &mut labels, view, take_off, frame, &self.lines);
        if let Some(g) = self.gravity {
            signs::centre_of_gravity(block, &mut labels, view, g);
        }
        members::marks(block, &mut labels, view, take_off, frame);
    }

    /// The sway brace from above, as wide as the room; `None` for a gate without one.
    pub fn brace(&self, room: f64) -> Option<Block> {
        let drawing = FromAbove {
            view: self.view(room, self.scale(room), 0.0),
            take_off: self.take_off,
            frame: self.frame,
            words: brace_words(self.week, self.frame)?,
            room,
        };
        Some(drawing.block(self.frame.sway.as_ref()?, |x| self.print(x)))
    }

    /// A node enlarged: what lies within `half` ticks of a point, in a square of `side` points.
    pub fn detail(&self, at: Point, half: f64, side: f64) -> Block {
        let scale = side / (2.0 * half.max(1.0));
        let view = View {
            scale,
            left: side / 2.0 - at.x * scale,
            base: side / 2.0 + at.y * scale,
        };
        let mut drawn = Block::new(side);
        members::outlines(&mut drawn, &view, self.week, self.take_off, self.frame);
        let mut block = Block::new(side);
        block.items.push(Item::Group(Group {
            clip: Some((0.0, 0.0, side, side)),
            items: drawn.items,
            ..Group::default()
        }));
        block.frame(0.0, 0.0, side, side, 0.5);
        block
    }

    fn print(&self, x: f64) -> String {
        let shop = &self.week.shop;
        Length::nearest_mark(x, shop.saw.mark).print(shop.units)
    }

    /// Without its feet where it has none.
    fn short(&self, x: f64) -> String {
        let words = self.print(x);
        match words.strip_prefix("0'-") {
            Some(inches) => inches.strip_prefix("0 ").unwrap_or(inches).to_owned(),
            None => words,
        }
    }

    /// x of the horizontals' throat at the latch end: the end post's width.
    fn throat(&self) -> f64 {
        crate::report::paper::gate::throat(self.frame)
    }

    fn bays(&self, view: &View, room: f64) -> Chain {
        let stops: Vec<f64> = self.frame.bay_lines.iter().map(|x| view.x(*x)).collect();
        let figure = |(i, b): (usize, &crate::gate::Bay)| {
            let space = self.print(b.to - b.from);
            (format!("bay {}: {space}", i + 1), space)
        };
        let figures: Vec<(String, String)> =
            self.frame.bays.iter().enumerate().map(figure).collect();
        Chain::of(stops, &figures, room)
    }

    /// Overlap, opening, overlap and tail.
    fn overall(&self, view: &View, room: f64) -> Option<Chain> {
        let gate = self.week.gates.get(self.frame.gate)?;
        let parts = [
            ("overlap", gate.latch_overlap.geometric()),
            ("opening", gate.opening.geometric()),
            ("overlap", gate.roller_overlap.geometric()),
            ("tail", gate.tail),
        ];
        let mut x = 0.0;
        let mut stops = vec![view.x(0.0)];
        let mut figures = Vec::new();
        for (name, length) in parts {
            x += length;
            stops.push(view.x(x));
            let words = format!("{name} {}", self.print(length));
            figures.push((words.clone(), words));
        }
        Some(Chain::of(stops, &figures, room))
    }

    /// The rows of running marks, read the same way and in the same size; gives back their height.
    fn tapes(&self, block: &mut Block, view: &View, room: f64, top: f64, throat: bool) -> f64 {
        let tapes = [
            ("bay lines from the latch end's outside face", 0.0),
            ("bay lines from the horizontal's throat", self.throat()),
        ];
        let tapes = tapes.into_iter().take(if throat { 2 } else { 1 });
        let tapes: Vec<(&str, Vec<Stop>)> = tapes
            .map(|(title, from)| (title, self.stops(view, from)))
            .collect();
        let set = rows::set(room, tapes.iter().map(|(_, stops)| stops.as_slice()));
        let mut y = top;
        for (title, stops) in &tapes {
            y += rows::running(block, y, title, stops, set) + 4.0;
        }
        y - 4.0 - top
    }

    /// The marks of a running row whose tape hooks at `from`.
    fn stops(&self, view: &View, from: f64) -> Vec<Stop> {
        let lines = self.frame.bay_lines.iter().enumerate();
        let stop = |(i, x): (usize, &f64)| Stop {
            at: view.x(*x),
            words: self.print(x - from),
            tag: Some(view::placed("running", *x, &i.to_string())),
        };
        let mut stops: Vec<Stop> = lines.map(stop).collect();
        if from > 0.0 {
            // The tape hooks the throat, and reads no post: they stand at the horizontal's ends.
            stops.pop();
            let hook = Stop {
                at: view.x(from),
                words: String::from("hook"),
                tag: None,
            };
            if let Some(post) = stops.first_mut() {
                *post = hook;
            }
        }
        stops
    }
}
