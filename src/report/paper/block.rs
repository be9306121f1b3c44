//! `Block`: drawing that stays together on one page, with the pencils that fill it.

use crate::report::draw::{Anchor, Group, Ink, Item, Path, Pen, Shape, Tag, Text};

/// Side of a tick box, points (5.6 mm: a gloved hand with a marker finds it).
pub const TICK: f64 = 16.0;

/// Drawing of a given height over the room's whole width; (0, 0) is its top-left corner.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Block {
    /// Height it takes, points.
    pub height: f64,
    /// Drawn back to front.
    pub items: Vec<Item>,
}

impl Block {
    /// An empty block of a height.
    pub fn new(height: f64) -> Block {
        Block {
            height,
            items: Vec::new(),
        }
    }

    /// Adds a text run.
    pub fn text(&mut self, text: Text) {
        self.items.push(Item::Text(text));
    }

    /// Strokes a path.
    pub fn stroke(&mut self, path: Path, pen: Pen) {
        self.shape(path, Some(pen), None, None);
    }

    /// Fills a path.
    pub fn fill(&mut self, path: Path, ink: Ink) {
        self.shape(path, None, Some(ink), None);
    }

    /// Adds a shape of any kind.
    pub fn shape(&mut self, path: Path, pen: Option<Pen>, fill: Option<Ink>, tag: Option<Tag>) {
        self.items.push(Item::Shape(Shape {
            path,
            pen,
            fill,
            tag,
        }));
    }

    /// A straight line of a width.
    pub fn line(&mut self, x0: f64, y0: f64, x1: f64, y1: f64, width: f64) {
        self.stroke(Path::line(x0, y0, x1, y1), Pen::solid(width));
    }

    /// A frame of a line width.
    pub fn frame(&mut self, x: f64, y: f64, w: f64, h: f64, width: f64) {
        self.stroke(Path::rect(x, y, w, h), Pen::solid(width));
    }

    /// An empty tick box by its top-left corner.
    pub fn tick(&mut self, x: f64, y: f64) {
        self.frame(x, y, TICK, TICK, 1.2);
    }

    /// A text run with the drawing behind it wiped out.
    pub fn clear_text(&mut self, text: Text) {
        let w = text.width() + 3.0;
        let left = match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => w / 2.0,
            Anchor::End => w,
        };
        let (x, y) = (text.x - left - 0.5, text.y - 0.85 * text.size);
        self.fill(Path::rect(x, y, w, 1.1 * text.size), Ink::White);
        self.text(text);
    }

    /// A word in white on a black bar, from a left end; gives back the bar's width.
    pub fn flag(&mut self, x: f64, baseline: f64, size: f64, words: &str) -> f64 {
        let text = Text::new(x + 0.35 * size, baseline, size, words)
            .bold()
            .white();
        let w = text.width() + 0.7 * size;
        self.fill(
            Path::rect(x, baseline - 0.95 * size, w, 1.25 * size),
            Ink::Black,
        );
        self.text(text);
        w
    }

    /// Puts another block's drawing into this one, moved.
    pub fn place(&mut self, dx: f64, dy: f64, other: Block) {
        self.items.push(Item::Group(Group {
            dx,
            dy,
            items: other.items,
            ..Group::default()
        }));
    }

    /// Puts another block below this one's drawing, with a gap.
    pub fn below(&mut self, gap: f64, other: Block) {
        let dy = self.height + gap;
        self.height = dy + other.height;
        self.place(0.0, dy, other);
    }
}
