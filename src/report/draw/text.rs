//! `Text`: one run of one size on one baseline.

use super::{Face, Ink, width};

/// Which point of the run its position names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
    End,
}

/// A text run.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Position of the anchor on the baseline, points.
    pub x: f64,
    /// Baseline, points.
    pub y: f64,
    /// Size (em), points.
    pub size: f64,
    /// Face.
    pub face: Face,
    /// Anchor.
    pub anchor: Anchor,
    /// Turned about its position, degrees counter-clockwise (90 reads upward).
    pub turn: f64,
    /// Ink.
    pub ink: Ink,
    /// The words; line breaks are drawn as spaces.
    pub words: String,
}

impl Text {
    /// Black regular text from a left end.
    pub fn new(x: f64, y: f64, size: f64, words: impl Into<String>) -> Text {
        Text {
            x,
            y,
            size,
            face: Face::Regular,
            anchor: Anchor::Start,
            turn: 0.0,
            ink: Ink::Black,
            words: words.into(),
        }
    }

    /// The same in the bold face.
    pub fn bold(mut self) -> Text {
        self.face = Face::Bold;
        self
    }

    /// The same held at its middle.
    pub fn middle(mut self) -> Text {
        self.anchor = Anchor::Middle;
        self
    }

    /// The same held at its right end.
    pub fn end(mut self) -> Text {
        self.anchor = Anchor::End;
        self
    }

    /// The same turned, degrees counter-clockwise.
    pub fn turned(mut self, degrees: f64) -> Text {
        self.turn = degrees;
        self
    }

    /// The same in white.
    pub fn white(mut self) -> Text {
        self.ink = Ink::White;
        self
    }

    /// (left, top, right, bottom), points; a turned run by its turned box. Capitals and figures stand
    /// 0.73 of the size over the baseline and hang 0.22 under it.
    pub fn bounds(&self) -> (f64, f64, f64, f64) {
        let w = self.width();
        let left = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -w / 2.0,
            Anchor::End => -w,
        };
        let (up, down) = (-0.73 * self.size, 0.22 * self.size);
        let (sin, cos) = self.turn.to_radians().sin_cos();
        let corner = |x: f64, y: f64| (self.x + x * cos + y * sin, self.y - x * sin + y * cos);
        let corners = [
            corner(left, up),
            corner(left + w, up),
            corner(left, down),
            corner(left + w, down),
        ];
        let least = |f: fn(&(f64, f64)) -> f64| corners.iter().map(f).fold(f64::INFINITY, f64::min);
        let most =
            |f: fn(&(f64, f64)) -> f64| corners.iter().map(f).fold(f64::NEG_INFINITY, f64::max);
        (least(|c| c.0), least(|c| c.1), most(|c| c.0), most(|c| c.1))
    }

    /// Its width, points.
    pub fn width(&self) -> f64 {
        width(self.face, self.size, &self.words)
    }

    /// The same, made smaller until it is at most `most` points wide, but never under `least` points
    /// of size (then it runs over: the caller leaves room).
    pub fn fitted(mut self, most: f64, least: f64) -> Text {
        let w = self.width();
        if w > most && w > 0.0 {
            self.size = (self.size * most / w).max(least.min(self.size));
        }
        self
    }
}
