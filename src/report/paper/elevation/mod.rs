//! The elevation: one gate to scale from its own geometry, copes visible, with the dimensions that a
//! layout table needs. The same drawing goes into the PDF and out as SVG.

mod brace;
mod members;
mod outline;
mod rows;
mod signs;
mod view;

use crate::gate::{Frame, Point};
use crate::measure::Length;
use crate::order::Week;
use crate::part::TakeOff;
use crate::plan::SplicedLine;
use crate::report::draw::{Group, Item, Text};
use crate::report::paper::Block;
use crate::report::window_bar::legend;
use crate::splice::SpliceSet;
use rows::Stop;
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

/// Room kept left and right of the leaf for post marks, points.
const SIDES: f64 = 26.0;
/// Highest the gate itself is drawn, and lowest it is squeezed to, points.
const TALLEST: f64 = 210.0;
const LOWEST: f64 = 60.0;

impl Elevation<'_> {
    /// The drawing, as wide as the room; drawn smaller where it would be higher than `high`.
    pub fn block(&self, room: f64, high: f64) -> Block {
        let frame = self.frame;
        let tall = (frame.height + frame.rise + frame.drop).max(1.0);
        let scale = ((room - 2.0 * SIDES) / frame.leaf.max(1.0)).min(TALLEST / tall);
        let first = self.drawn(room, scale);
        if first.height <= high {
            return first;
        }
        let squeezed = (tall * scale - (first.height - high)).max(LOWEST);
        self.drawn(room, squeezed / tall)
    }

    fn drawn(&self, room: f64, scale: f64) -> Block {
        let frame = self.frame;
        let left = (room - frame.leaf * scale) / 2.0;
        let radius = (frame.height - frame.axis_height) / 2.0;
        let top = 44.0;
        let base = top + (frame.axis_height + radius + frame.rise) * scale;
        let view = View { scale, left, base };
        let mut block = Block::new(0.0);
        self.bays(&mut block, &view, 18.0);
        let foot = base + (radius + frame.drop) * scale;
        signs::bay_lines(&mut block, &view, frame, 12.0, foot + 30.0);
        signs::rollers(&mut block, &view, self.week, frame);
        brace::behind(&mut block, &view, self.week, self.take_off, frame);
        members::members(&mut block, &view, self.week, self.take_off, frame);
        if let Some(set) = self.windows {
            signs::windows(&mut block, &view, self.take_off, frame, set);
        }
        signs::splices(&mut block, &view, self.take_off, frame, &self.lines);
        if let Some(g) = self.gravity {
            signs::centre_of_gravity(&mut block, &view, g.x, g.y);
        }
        let mut y = foot + 42.0;
        signs::roller_names(&mut block, &view, frame, y - 4.0);
        if let Some(set) = self.windows {
            y += 11.0;
            let words = legend(set.lines.iter().flat_map(|l| &l.windows));
            block.text(Text::new(view.x(0.0) - 2.0, y - 4.0, 8.0, words));
        }
        y += 18.0;
        self.overall(&mut block, &view, y);
        y += 10.0;
        y += self.tapes(&mut block, &view, room, y);
        let print = |x: f64| self.print(x);
        y += brace::from_above(&mut block, &view, y + 4.0, self.take_off, frame, print);
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

    /// x of the horizontals' throat at the latch end: the end post's width.
    fn throat(&self) -> f64 {
        crate::report::paper::gate::throat(self.frame)
    }

    fn bays(&self, block: &mut Block, view: &View, y: f64) {
        let stops: Vec<f64> = self.frame.bay_lines.iter().map(|x| view.x(*x)).collect();
        let figure = |(i, b): (usize, &crate::gate::Bay)| {
            let space = self.print(b.to - b.from);
            (format!("bay {}: {space}", i + 1), space)
        };
        let figures: Vec<(String, String)> =
            self.frame.bays.iter().enumerate().map(figure).collect();
        rows::chain(block, y, &stops, &figures);
    }

    /// Overlap, opening, overlap and tail.
    fn overall(&self, block: &mut Block, view: &View, y: f64) {
        let Some(gate) = self.week.gates.get(self.frame.gate) else {
            return;
        };
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
        rows::chain(block, y, &stops, &figures);
    }

    /// Both rows of running marks, read the same way and in the same size; gives back their height.
    fn tapes(&self, block: &mut Block, view: &View, room: f64, top: f64) -> f64 {
        let tapes = [
            ("bay lines from the latch end's outside face", 0.0),
            ("bay lines from the horizontal's throat", self.throat()),
        ];
        let tapes = tapes.map(|(title, from)| (title, self.stops(view, from)));
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
