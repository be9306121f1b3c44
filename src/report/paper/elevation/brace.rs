//! The sway brace: dashed behind the gate in the elevation, and from above with its standoffs.

use crate::gate::{Frame, Member, Role, Sway};
use crate::order::Week;
use crate::part::TakeOff;
use crate::report::draw::{Face, Path, Pen, Tag, Text};
use crate::report::paper::Block;
use crate::report::paper::wrap::paragraph;

use super::labels::{levels, within};
use super::members::mark;
use super::view::{View, placed};

/// Depth the brace's rise is drawn with from above, points.
const DEEP: f64 = 20.0;
/// Chords the arc is drawn with.
const CHORDS: u32 = 48;

/// The brace behind the gate: its two edges, dashed, and a dashed ring at each standoff.
pub fn behind(block: &mut Block, view: &View, week: &Week, take_off: &TakeOff, frame: &Frame) {
    for member in &frame.members {
        let radius = week.pipe(member.pipe).radius() * view.scale;
        let (x0, y) = view.at(member.start);
        let (x1, _) = view.at(member.end);
        let name = mark(take_off, frame, member);
        let path = match member.role {
            Role::SwayBrace => Path::line(x0, y - radius, x1, y - radius).and(Path::line(
                x0,
                y + radius,
                x1,
                y + radius,
            )),
            Role::Standoff => Path::circle(x0, y, radius),
            _ => continue,
        };
        let class = match member.role {
            Role::SwayBrace => "sway-brace",
            _ => "standoff",
        };
        let middle = (member.start.x + member.end.x) / 2.0;
        let tag = placed(class, middle, &name);
        block.shape(path, Some(Pen::dashed(0.5, 3.0)), None, Some(tag));
    }
}

/// How far the brace's axis stands off the verticals' axes at x, ticks.
fn ordinate(sway: &Sway, first: f64, x: f64) -> f64 {
    let x = x - first - sway.chord / 2.0;
    let inside = ((sway.radius - x) * (sway.radius + x)).max(0.0);
    inside.sqrt() - (sway.radius - sway.rise)
}

/// What the brace from above is drawn from.
pub struct FromAbove<'a> {
    /// Where things fall; only across.
    pub view: View,
    /// The parts.
    pub take_off: &'a TakeOff,
    /// The gate.
    pub frame: &'a Frame,
    /// The brace in words.
    pub words: String,
    /// Width of the room, points.
    pub room: f64,
}

impl FromAbove<'_> {
    /// The brace from above, its depth drawn larger than its length: verticals, arc, standoffs with
    /// their marks and lengths.
    pub fn block(&self, sway: &Sway, print: impl Fn(f64) -> String) -> Block {
        let (view, lines) = (&self.view, &self.frame.bay_lines);
        let ends = (lines.first().copied(), lines.last().copied());
        let (Some(first), Some(last)) = ends else {
            return Block::new(0.0);
        };
        let times = DEEP / (sway.rise * view.scale).max(1e-9);
        let depth = match times.round() {
            1.0 => String::new(),
            n => format!(", depth drawn {n:.0} times"),
        };
        let title = format!("Sway brace from above{depth}. {}", self.words);
        let mut block = paragraph(Face::Regular, 8.5, self.room, &title);
        let texts = self.standoffs(&print);
        let high = texts.iter().map(|t| -t.bounds().1).fold(0.0, f64::max);
        let base = block.height + high + 6.0 + DEEP;
        let at = |x: f64| {
            let deep = ordinate(sway, first, x) * view.scale * times;
            (view.x(x), base - deep)
        };
        block.line(view.x(first), base, view.x(last), base, 0.5);
        let points = (0..=CHORDS).map(|i| {
            let share = f64::from(i) / f64::from(CHORDS);
            at(first + share * (last - first))
        });
        let arc = Path::polyline(&points.collect::<Vec<_>>());
        block.stroke(arc, Pen::solid(1.6));
        for member in self.members() {
            let (x, top) = at(member.start.x);
            let tag = Tag {
                class: String::from("standoff-above"),
                data: vec![("length", print(member.axis))],
            };
            let path = Path::line(x, base, x, top);
            block.shape(path, Some(Pen::solid(2.2)), None, Some(tag));
        }
        for text in texts {
            let y = base - DEEP - 5.0 + text.y;
            block.text(Text { y, ..text });
        }
        let ends = [first, last].map(|x| Text::new(view.x(x), base + 10.0, 9.0, print(x)).middle());
        let ends = ends.map(|t| within(t, self.room).bold());
        for text in ends {
            block.text(text);
        }
        block.height = base + 14.0;
        block
    }

    fn members(&self) -> impl Iterator<Item = &Member> {
        let all = self.frame.members.iter();
        all.filter(|m| m.role == Role::Standoff)
    }

    /// Every standoff's mark and length over its bay line, side by side or upright; heights counted
    /// from the row's baseline.
    fn standoffs(&self, print: impl Fn(f64) -> String) -> Vec<Text> {
        let text = |m: &Member| {
            let words = format!("{} {}", mark(self.take_off, self.frame, m), print(m.axis));
            Text::new(self.view.x(m.start.x), 0.0, 8.0, words)
        };
        let level: Vec<Text> = self.members().map(|m| text(m).middle()).collect();
        let spans: Vec<(f64, f64)> = level.iter().map(|t| (t.bounds().0, t.bounds().2)).collect();
        match levels(&spans).iter().max() {
            Some(0) => level,
            _ => self
                .members()
                .map(|m| {
                    let text = text(m).turned(90.0);
                    Text {
                        x: text.x + 3.0,
                        ..text
                    }
                })
                .collect(),
        }
    }
}
