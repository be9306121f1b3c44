//! A wrap template at full scale: cut along the curve, wrap round the pipe, scribe.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::Kind;
use crate::cope::{Ordinate, Template, wrap_template};
use crate::gate::branch_of;
use crate::measure::{INCH, Length, MM, Units};
use crate::report::draw::{Ink, Path, Pen, Tag, Text};
use crate::report::paper::desk::Desk;
use crate::report::paper::{Block, POINTS_PER_MM};

/// Thickness of office paper (80 g/m²), ticks: 0.1 mm, common practice, no source.
pub const PAPER: f64 = 0.1 * MM;
/// Points in a tick at full scale.
pub const FULL_SCALE: f64 = POINTS_PER_MM / MM;
/// Chords of the drawn curve per turn (half a degree each); the sharp tip is added exactly.
const STEPS: u32 = 720;
/// Paper left below the throat line to tape on, points.
const SKIRT: f64 = 63.0;
/// Room above the long point for its name, points.
const OVER: f64 = 16.0;
/// Size of the figures under the ordinates, points.
const VALUE: f64 = 7.5;
/// A numbered line every 15°.
const NUMBERED: u32 = 24;

/// The curve to draw and its numbered ordinates; `None` where the end cannot be coped (never after
/// the check).
fn curves(desk: &Desk, kind: &Kind) -> Option<(Template, Template)> {
    let pipe = branch_of(desk.week, kind.pipe);
    let make = |steps| wrap_template(&pipe, &kind.mains, kind.method, PAPER, 0.0, steps).ok();
    let mut fine = make(STEPS)?;
    let radius = pipe.radius + 0.5 * PAPER;
    let tip = |theta: f64| Ordinate {
        theta,
        x: radius * theta,
        height: fine.cut.cutback,
    };
    let (a, b) = (tip(fine.cut.theta_long), tip(TAU - fine.cut.theta_long));
    let symmetric = kind.mains.iter().all(|m| m.offset == 0.0);
    fine.ordinates.push(a);
    if symmetric {
        fine.ordinates.push(b);
    }
    fine.ordinates.sort_by(|p, q| p.theta.total_cmp(&q.theta));
    Some((fine, make(NUMBERED)?))
}

/// A short length without feet: `1 13/64"`, or tenths of a millimetre.
pub fn fine_length(units: Units, ticks: f64) -> String {
    match units {
        Units::Metric => format!("{:.1}", ticks / MM),
        Units::Inch => {
            let words = Length::nearest_mark(ticks, Length::SIXTY_FOURTH).print(units);
            match words.strip_prefix("0'-") {
                Some(inches) if ticks < 12.0 * INCH => inches.trim_start_matches("0 ").to_string(),
                _ => words,
            }
        }
    }
}

/// Its width on paper, points: the girth, or the whole room where it takes more than one panel.
pub fn width(desk: &Desk, kind: &Kind) -> f64 {
    let radius = desk.week.pipe(kind.pipe).radius() + 0.5 * PAPER;
    (TAU * radius * FULL_SCALE).min(desk.room)
}

/// The template, in as many panels as the paper's width asks for.
pub fn template(desk: &Desk, kind: &Kind) -> Block {
    let mut block = Block::new(0.0);
    let Some((fine, numbered)) = curves(desk, kind) else {
        block.height = 14.0;
        block.text(Text::new(0.0, 11.0, 11.0, "this end cannot be drawn"));
        return block;
    };
    let girth = fine.girth * FULL_SCALE;
    let panels = (girth / desk.room).ceil().max(1.0);
    let wide = fine.girth / panels;
    let mut from = 0.0;
    let mut number = 0.0;
    while number < panels {
        let span = Span {
            from,
            to: from + wide,
            number,
            panels,
        };
        block.below(
            if number > 0.0 { 6.0 } else { 0.0 },
            panel(desk, kind, &fine, &numbered, &span),
        );
        from += wide;
        number += 1.0;
    }
    block
}

/// The stretch of the girth that one panel shows, ticks.
struct Span {
    from: f64,
    to: f64,
    number: f64,
    panels: f64,
}

impl Span {
    fn holds(&self, x: f64) -> bool {
        x >= self.from - 1.0 && x <= self.to + 1.0
    }

    fn at(&self, x: f64) -> f64 {
        (x - self.from) * FULL_SCALE
    }
}

fn panel(desk: &Desk, kind: &Kind, fine: &Template, numbered: &Template, span: &Span) -> Block {
    let base = OVER + fine.cut.cutback * FULL_SCALE;
    let mut block = Block::new(base + SKIRT);
    let wide = span.at(span.to);
    let inside: Vec<&Ordinate> = fine.ordinates.iter().filter(|o| span.holds(o.x)).collect();
    let points: Vec<(f64, f64)> = inside
        .iter()
        .map(|o| (span.at(o.x), base - o.height * FULL_SCALE))
        .collect();
    let tag = Tag {
        class: String::from("template"),
        data: vec![
            ("code", kind.code.clone()),
            ("panel", format!("{:.0}", span.number + 1.0)),
        ],
    };
    block.line(0.0, base, wide, base, 0.5);
    for o in numbered.ordinates.iter().filter(|o| span.holds(o.x)) {
        ordinate(&mut block, desk, o, span, base);
    }
    let (mut left, mut right) = (base, base);
    if let (Some(a), Some(b)) = (points.first(), points.last()) {
        (left, right) = (a.1, b.1);
    }
    block.line(0.0, left, 0.0, base + SKIRT, 0.8);
    block.line(wide, right, wide, base + SKIRT, 0.8);
    block.line(0.0, base + SKIRT, wide, base + SKIRT, 0.8);
    block.shape(
        Path::polyline(&points),
        Some(Pen::solid(0.8)),
        None,
        Some(tag),
    );
    names(&mut block, kind, fine, span, base);
    if span.panels > 1.0 {
        let words = format!(
            "{} panel {:.0} of {:.0}: join edge to edge",
            kind.code,
            span.number + 1.0,
            span.panels
        );
        block.text(Text::new(wide / 2.0, base + SKIRT - 3.0, 8.0, words).middle());
    }
    block
}

fn ordinate(block: &mut Block, desk: &Desk, o: &Ordinate, span: &Span, base: f64) {
    let x = span.at(o.x);
    block.line(x, base, x, base - o.height * FULL_SCALE, 0.3);
    if o.theta > TAU - 1e-9 {
        // The scribe line again: its figure stands at 0°.
        return;
    }
    // Figures stand under the middle of their line; at an edge, inside it.
    let words = fine_length(desk.units(), o.height);
    let half = 0.36 * VALUE;
    let room = span.at(span.to);
    let value = (x + half).clamp(2.0 * half + 3.5, (room - 3.0).max(2.0 * half + 3.5));
    block.text(Text::new(value, base + 31.0, VALUE, words).turned(90.0));
    let angle = format!("{:.0}°", o.theta.to_degrees());
    let angle = Text::new(x, base + 39.0, 6.0, angle).middle();
    let half = angle.width() / 2.0;
    let at = x.clamp(half + 2.0, (room - half - 2.0).max(half + 2.0));
    block.text(Text { x: at, ..angle });
}

/// Clock angles at which a symmetric end has its mark, both of them.
fn both(kind: &Kind, theta: f64) -> Vec<f64> {
    let mirrored = (TAU - theta).rem_euclid(TAU);
    let once = kind.mains.iter().any(|m| m.offset != 0.0) || (mirrored - theta).abs() < 1e-9;
    if once {
        vec![theta]
    } else {
        vec![theta, mirrored]
    }
}

/// Where a template touches the throat line: a lone right-angled saddle does so on both sides.
fn throats(kind: &Kind, theta: f64) -> Vec<f64> {
    let mut all = both(kind, theta);
    if let [one] = kind.mains[..]
        && one.offset == 0.0
        && (one.phi - FRAC_PI_2).abs() < 1e-9
    {
        all.push((theta + PI).rem_euclid(TAU));
    }
    all
}

/// Marks of the long point, the throat and the scribe line.
fn names(block: &mut Block, kind: &Kind, fine: &Template, span: &Span, base: f64) {
    let radius = fine.girth / TAU;
    let tip = base - fine.cut.cutback * FULL_SCALE;
    for theta in both(kind, fine.cut.theta_long) {
        if span.holds(radius * theta) {
            let at = span.at(radius * theta);
            let text = Text::new(at, tip - 4.0, 8.0, "long point").bold().middle();
            let half = text.width() / 2.0;
            let x = at.max(half).min(span.at(span.to) - half);
            block.text(Text { x, ..text });
        }
    }
    for theta in throats(kind, fine.cut.theta_short) {
        for x in [radius * theta, radius * (theta + TAU)] {
            if span.holds(x) {
                throat(block, span.at(x), span.at(span.to), base);
            }
        }
    }
    scribe_lines(block, kind, fine.girth, span, base);
}

/// The lines of a template that may lie on a part's scribe line, each with the ends it is for: its
/// edges, and its middle where some end takes it half round.
fn scribe_lines(block: &mut Block, kind: &Kind, girth: f64, span: &Span, base: f64) {
    let ends = |degrees: u32| {
        let rows = kind.rows.iter().filter(|r| r.scribe.degrees() == degrees);
        let mut names: Vec<&str> = rows.map(|r| r.end).collect();
        names.dedup();
        names.join(", ")
    };
    let (edge, middle) = (ends(0), ends(180));
    let words = match middle.is_empty() {
        true => String::from("scribe line"),
        false => format!("scribe line of 0°: {edge}"),
    };
    let y = base + SKIRT - 13.0;
    for (x, left) in [(0.0, true), (girth, false)] {
        if span.holds(x) {
            let at = span.at(x);
            block.line(at, base, at, base + SKIRT, 2.0);
            let words = if left { &words } else { "scribe line" };
            let text = Text::new(at, y, 8.0, words).bold();
            block.text(match left {
                true => Text {
                    x: at + 4.0,
                    ..text
                },
                false => Text {
                    x: at - 4.0,
                    ..text
                }
                .end(),
            });
        }
    }
    if !middle.is_empty() && span.holds(girth / 2.0) {
        let at = span.at(girth / 2.0);
        block.stroke(
            Path::line(at, base, at, base + SKIRT),
            Pen::dashed(2.0, 4.0),
        );
        let text = Text::new(
            at + 4.0,
            y + 9.0,
            8.0,
            format!("scribe line of 180°: {middle}"),
        );
        let text = text.bold();
        // The middle of a girth of two panels is an edge of both.
        let over = text.x + text.width() > span.at(span.to);
        block.text(match over {
            true => Text {
                x: at - 4.0,
                ..text
            }
            .end(),
            false => text,
        });
    }
}

/// A throat's arrowhead on the throat line.
fn throat(block: &mut Block, at: f64, right: f64, base: f64) {
    let head = [(at, base), (at - 3.0, base - 6.0), (at + 3.0, base - 6.0)];
    block.fill(Path::polygon(&head), Ink::Black);
    let edge = right - at < 34.0;
    // Under the line: over it the curve leaves.
    let x = at + if edge { -4.0 } else { 4.0 };
    let text = Text::new(x, base + 9.0, 8.0, "throat").bold();
    block.text(if edge { text.end() } else { text });
}
