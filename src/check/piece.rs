//! Every piece of one gate by the judge's own arithmetic: what it is, its pipe, its lengths.

use std::f64::consts::{FRAC_PI_2, PI};

use super::outline::Outline;
use super::seat::{Met, Seat, Seated, Tube};
use crate::order::{CutMethod, GateOrder, Lean, PipeId, Variant, Week};

/// What a piece is, as the marks tell them apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Top,
    Bottom,
    Post,
    Vertical,
    Diagonal,
    Stop,
    Riser,
    Sway,
    Standoff,
}

/// One piece, lengths in ticks before any rounding.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) kind: Kind,
    pub(super) pipe: PipeId,
    pub(super) axis: f64,
    pub(super) long: f64,
    pub(super) throat: f64,
    /// Top and under line of a diagonal.
    pub(super) lines: Option<(f64, f64)>,
    /// Ends, latch side or lower first; `None`: square.
    pub(super) ends: [Option<Seated>; 2],
}

/// The gate's pieces, or the kind whose end misses every pipe.
pub(super) fn pieces(
    week: &Week,
    order: &GateOrder,
    outline: &Outline,
) -> Result<Vec<Piece>, Kind> {
    let bench = Bench {
        week,
        order,
        outline,
    };
    let mut out = Vec::new();
    out.extend(bench.horizontals()?);
    out.extend(bench.posts()?);
    out.extend(bench.verticals()?);
    out.extend(bench.diagonals()?);
    out.extend(bench.risers()?);
    out.extend(bench.brace());
    Ok(out)
}

struct Bench<'a> {
    week: &'a Week,
    order: &'a GateOrder,
    outline: &'a Outline,
}

impl Bench<'_> {
    fn radius(&self, pipe: PipeId) -> f64 {
        self.week.pipe(pipe).radius()
    }

    fn tube(&self, pipe: PipeId, cut: CutMethod) -> Tube {
        Tube {
            radius: self.radius(pipe),
            bore: self.week.pipe(pipe).bore_radius(),
            radial: cut == CutMethod::Radial,
        }
    }

    /// A right-angled saddle on one pipe.
    fn saddle(&self, tube: Tube, main: PipeId, kind: Kind) -> Result<Seated, Kind> {
        let met = Met {
            radius: self.radius(main),
            phi: FRAC_PI_2,
            beta: 0.0,
            station: 0.0,
        };
        Seated::of(tube, vec![met]).ok_or(kind)
    }

    fn horizontals(&self) -> Result<Vec<Piece>, Kind> {
        let pipes = &self.order.pipes;
        let tube = self.tube(pipes.horizontal, self.week.shop.gate.horizontal_cut);
        let outline = self.outline;
        [Kind::Top, Kind::Bottom]
            .into_iter()
            .map(|kind| match outline.variant {
                Variant::Through => Ok(square(kind, pipes.horizontal, outline.leaf)),
                Variant::PostsRunPast => {
                    let axis = outline.bay_lines[outline.bays()] - outline.bay_lines[0];
                    let ends = [
                        Some(self.saddle(tube, pipes.latch_post, kind)?),
                        Some(self.saddle(tube, pipes.tail_post, kind)?),
                    ];
                    Ok(coped(kind, pipes.horizontal, axis, ends))
                }
            })
            .collect()
    }

    fn posts(&self) -> Result<Vec<Piece>, Kind> {
        let (pipes, outline) = (&self.order.pipes, self.outline);
        let mut out = Vec::new();
        for pipe in [pipes.latch_post, pipes.tail_post] {
            if outline.variant == Variant::PostsRunPast {
                let length = outline.height + outline.rise + outline.drop;
                out.push(square(Kind::Post, pipe, length));
                continue;
            }
            let tube = self.tube(pipe, self.week.shop.gate.vertical_cut);
            let end = self.saddle(tube, pipes.horizontal, Kind::Post)?;
            let axis = outline.axis_height;
            out.push(coped(
                Kind::Post,
                pipe,
                axis,
                [Some(end.clone()), Some(end)],
            ));
            if outline.rise > 0.0 {
                out.push(self.stub(Kind::Stop, pipe)?);
            }
        }
        Ok(out)
    }

    /// A stop or riser: saddled on the top horizontal, square at its top.
    fn stub(&self, kind: Kind, pipe: PipeId) -> Result<Piece, Kind> {
        let horizontal = self.order.pipes.horizontal;
        let tube = self.tube(pipe, self.week.shop.gate.vertical_cut);
        let end = self.saddle(tube, horizontal, kind)?;
        let axis = self.radius(horizontal) + self.outline.rise;
        Ok(coped(kind, pipe, axis, [Some(end), None]))
    }

    fn verticals(&self) -> Result<Vec<Piece>, Kind> {
        let pipes = &self.order.pipes;
        let tube = self.tube(pipes.vertical, self.week.shop.gate.vertical_cut);
        if self.outline.bays() < 2 {
            return Ok(Vec::new());
        }
        let end = self.saddle(tube, pipes.horizontal, Kind::Vertical)?;
        let axis = self.outline.axis_height;
        let one = coped(
            Kind::Vertical,
            pipes.vertical,
            axis,
            [Some(end.clone()), Some(end)],
        );
        Ok(vec![one; self.outline.bays() - 1])
    }

    fn risers(&self) -> Result<Vec<Piece>, Kind> {
        let gate = &self.week.shop.gate;
        let none = self.order.barbed == 0 || !gate.barbed_risers || self.outline.rise <= 0.0;
        if none || self.outline.bays() < 2 {
            return Ok(Vec::new());
        }
        let one = self.stub(Kind::Riser, self.order.pipes.vertical)?;
        Ok(vec![one; self.outline.bays() - 1])
    }

    /// The sway brace and its standoffs, all square.
    fn brace(&self) -> Vec<Piece> {
        if !self.order.sway {
            return Vec::new();
        }
        let (pipe, lines) = (self.order.pipes.sway, &self.outline.bay_lines);
        let arc = Arc::of(self.week, self.outline);
        let ends = self.week.shop.sway.end_allowance.geometric();
        let away = self.radius(self.order.pipes.vertical) + self.radius(pipe);
        let standoffs = lines[1..lines.len() - 1]
            .iter()
            .map(|x| square(Kind::Standoff, pipe, arc.ordinate(x - lines[0]) - away));
        std::iter::once(square(Kind::Sway, pipe, arc.along(arc.chord) + 2.0 * ends))
            .chain(standoffs)
            .collect()
    }

    /// One per bay; bays of one shape between the same uprights are sampled once.
    fn diagonals(&self) -> Result<Vec<Piece>, Kind> {
        let mut out: Vec<Piece> = Vec::new();
        let mut shapes: Vec<(usize, u64, PipeId, PipeId)> = Vec::new();
        for bay in 1..=self.outline.bays() {
            let (from, to) = self.outline.bay(bay).unwrap_or((f64::NAN, f64::NAN));
            let (low, high) = (self.upright(bay - 1), self.upright(bay));
            let shape = ((to - from).to_bits(), low, high);
            let seen = shapes.iter().find(|s| (s.1, s.2, s.3) == shape);
            let piece = match seen.and_then(|s| out.get(s.0)) {
                Some(same) => same.clone(),
                None => self.diagonal(bay)?,
            };
            shapes.push((out.len(), shape.0, low, high));
            out.push(piece);
        }
        Ok(out)
    }

    /// Pipe of the upright on a bay line.
    fn upright(&self, line: usize) -> PipeId {
        let pipes = &self.order.pipes;
        if line == 0 {
            pipes.latch_post
        } else if line == self.outline.bays() {
            pipes.tail_post
        } else {
            pipes.vertical
        }
    }

    /// Foot and head of one diagonal: which upright each meets follows from the lean.
    fn diagonal(&self, bay: usize) -> Result<Piece, Kind> {
        let (pipes, outline) = (&self.order.pipes, self.outline);
        let (foot, head) = match outline.lean {
            Lean::HeadToTail => (self.upright(bay - 1), self.upright(bay)),
            Lean::HeadToLatch => (self.upright(bay), self.upright(bay - 1)),
        };
        let offset = self.week.shop.gate.landing_offset.geometric();
        let alpha = outline.alpha(bay, offset);
        let axis = outline.axis_height / alpha.sin();
        let tube = self.tube(pipes.diagonal, self.week.shop.gate.diagonal_cut);
        let end = |upright: PipeId, horizontal_side: f64, upright_side: f64| {
            let on_horizontal = Met {
                radius: self.radius(pipes.horizontal),
                phi: alpha,
                beta: horizontal_side,
                station: 0.0,
            };
            let on_upright = Met {
                radius: self.radius(upright),
                phi: FRAC_PI_2 - alpha,
                beta: upright_side,
                station: -offset / alpha.cos(),
            };
            Seated::of(tube, vec![on_horizontal, on_upright]).ok_or(Kind::Diagonal)
        };
        // The scribe line is the underside: it faces the bottom horizontal at the foot and the
        // upright at the head.
        let ends = [end(foot, 0.0, PI)?, end(head, PI, 0.0)?];
        let top = axis - ends[0].seat.at_pi - ends[1].seat.at_pi;
        let under = axis - ends[0].seat.at_zero - ends[1].seat.at_zero;
        let mut piece = coped(Kind::Diagonal, pipes.diagonal, axis, ends.map(Some));
        piece.lines = Some((top, under));
        Ok(piece)
    }
}

/// Station of a horizontal's latch-end long point; `None` when its end misses the post.
pub(super) fn horizontal_start(week: &Week, order: &GateOrder, outline: &Outline) -> Option<f64> {
    if outline.variant == Variant::Through {
        return Some(0.0);
    }
    let bench = Bench {
        week,
        order,
        outline,
    };
    let tube = bench.tube(order.pipes.horizontal, week.shop.gate.horizontal_cut);
    let end = bench
        .saddle(tube, order.pipes.latch_post, Kind::Bottom)
        .ok()?;
    Some(outline.bay_lines.first()? + end.seat.least)
}

/// A sway brace's arc through its two ends: chord c, rise f, ρ = (c² + 4f²)/(8f).
#[derive(Clone, Copy, Debug)]
pub(super) struct Arc {
    /// Chord.
    pub(super) chord: f64,
    rise: f64,
    radius: f64,
}

impl Arc {
    /// The arc over the end posts' axes.
    pub(super) fn of(week: &Week, outline: &Outline) -> Arc {
        let chord = outline.bay_lines[outline.bays()] - outline.bay_lines[0];
        let rise = week.shop.sway.rise.geometric();
        let radius = (chord * chord + 4.0 * rise * rise) / (8.0 * rise);
        Arc {
            chord,
            rise,
            radius,
        }
    }

    /// Arc length from its latch end to the point over `x` of the chord.
    pub(super) fn along(&self, x: f64) -> f64 {
        let half = self.chord / 2.0;
        let angle = |d: f64| (d / self.radius).clamp(-1.0, 1.0).asin();
        self.radius * (angle(x - half) + angle(half))
    }

    /// Distance of the arc from its chord over `x` of the chord.
    fn ordinate(&self, x: f64) -> f64 {
        let d = x - self.chord / 2.0;
        (self.radius * self.radius - d * d).max(0.0).sqrt() - self.radius + self.rise
    }
}

fn square(kind: Kind, pipe: PipeId, length: f64) -> Piece {
    coped(kind, pipe, length, [None, None])
}

fn coped(kind: Kind, pipe: PipeId, axis: f64, ends: [Option<Seated>; 2]) -> Piece {
    let total = |of: fn(&Seat) -> f64| {
        let taken = ends.iter().flatten().map(|e| of(&e.seat));
        axis - taken.sum::<f64>()
    };
    Piece {
        kind,
        pipe,
        axis,
        long: total(|s| s.least),
        throat: total(|s| s.largest),
        lines: None,
        ends,
    }
}
