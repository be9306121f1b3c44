//! `Envelope`: the highest |N|/A + |M|/S on both horizontals over the whole travel.

use std::ops::RangeInclusive;

use serde::Serialize;

use super::bar::Inner;
use super::facing::Facing;
use super::travel::{PARTS, station, travel};
use super::{Lift, Line, Model, Rig, StaticsFault};
use crate::measure::INCH;

/// One gate's travel envelope. Stresses in psi, forces in lbf; places in ticks of gate x (from the
/// latch end post's outside face) wherever a method takes or gives one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Envelope {
    /// x of the bay lines, ticks.
    lines: Vec<f64>,
    /// Bottom, top: 21 stations a bay, bay after bay.
    stress: [Vec<f64>; 2],
    peak: f64,
    /// Places of the rollers that were computed.
    pub positions: usize,
    /// Rollers' lifts with the gate closed; x in inches from the latch end post's axis.
    pub closed: Vec<Lift>,
    /// Rollers' lifts with the gate open.
    pub open: Vec<Lift>,
    /// Rise of the bottom horizontal's latch end when closed, in, + up.
    pub nose_closed: f64,
    /// Rise of the bottom horizontal's tail end when open, in, + up.
    pub tail_open: f64,
    /// Weight as computed (pipe by centre lines, fabric, load factor, nose load), lbf.
    pub weight: f64,
    /// Its centre, in from the latch end post's axis.
    pub centre: f64,
}

/// The worst place of a horizontal.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Worst {
    /// psi.
    pub stress: f64,
    /// Bay 1..n.
    pub bay: usize,
    /// Fraction of the bay from its latch-side bay line.
    pub fraction: f64,
}

/// Rolls the gate through its travel.
pub fn envelope(model: &Model) -> Result<Envelope, StaticsFault> {
    model.judge()?;
    let facing = Facing::of(model);
    let rig = Rig::new(&facing.model)?;
    let mut sweep = Sweep::new(&rig);
    let places = travel(&facing.model);
    for front in &places {
        sweep.roll(*front);
    }
    let closed = rig.pose(facing.closed())?;
    let open = rig.pose(facing.open())?;
    let [latch_end, tail_end] = facing.ends();
    let peak = sweep
        .stress
        .iter()
        .flatten()
        .fold(0.0, |a: f64, b| a.max(*b));
    if !peak.is_finite() || peak <= 0.0 {
        return Err(StaticsFault::Mechanism);
    }
    let mut stress = sweep.stress;
    if facing.turned {
        stress.iter_mut().for_each(|line| line.reverse());
    }
    Ok(Envelope {
        lines: model
            .lines
            .iter()
            .map(|x| (x + model.origin) * INCH)
            .collect(),
        peak,
        positions: places.len(),
        nose_closed: closed.rise(Line::Bottom, latch_end),
        tail_open: open.rise(Line::Bottom, tail_end),
        closed: facing.lifts(closed.lifts()),
        open: facing.lifts(open.lifts()),
        weight: rig.weight(),
        centre: facing.back(rig.centre()),
        stress,
    })
}

/// A station on a bar: index among its horizontal's stations, and inches from the bar's start.
type Stop = (usize, f64);

struct Sweep<'a> {
    rig: &'a Rig,
    /// Stops of all bars, bottom's first.
    stops: Vec<(Line, usize, Vec<Stop>)>,
    starts: Vec<Inner>,
    stress: [Vec<f64>; 2],
    per_area: f64,
    per_modulus: f64,
    load: f64,
}

impl<'a> Sweep<'a> {
    fn new(rig: &'a Rig) -> Sweep<'a> {
        let model = rig.model();
        let mut stops = Vec::new();
        for line in Line::BOTH {
            let chain = &rig.skeleton.chains[line.index()];
            for (bar, bay) in chain.bays.iter().enumerate() {
                let on = chain.at[bar]..=chain.at[bar + 1];
                stops.push((line, bar, stops_on(model, *bay, on)));
            }
        }
        let stations = model.bays() * (PARTS + 1);
        Sweep {
            rig,
            stops,
            starts: rig.own_starts.clone(),
            stress: [vec![0.0; stations], vec![0.0; stations]],
            per_area: 1.0 / model.horizontal.area(),
            per_modulus: 1.0 / model.horizontal.modulus(),
            load: model.horizontal_load(),
        }
    }

    /// One place of the rollers.
    fn roll(&mut self, front: f64) {
        self.starts.copy_from_slice(&self.rig.own_starts);
        let lifts = self.rig.lifts(front);
        let spots: Vec<_> = lifts
            .iter()
            .map(|lift| self.rig.spot(lift.line, lift.x))
            .collect();
        for (lift, spot) in lifts.iter().zip(&spots) {
            self.rig.add_starts(&mut self.starts, *spot, lift.force);
        }
        for ((line, bar, stops), start) in self.stops.iter().zip(&self.starts) {
            let axial = start.axial.abs() * self.per_area;
            let highest = &mut self.stress[line.index()];
            let here = |spot: &&super::rig::Spot| spot.line == *line && spot.bar == *bar;
            let loaded = spots.iter().any(|spot| here(&spot));
            for (index, x) in stops {
                let mut moment = start.moment + x * (start.shear - self.load * x / 2.0);
                if loaded {
                    for (lift, spot) in lifts.iter().zip(&spots).filter(|(_, spot)| here(spot)) {
                        moment += lift.force * (x - spot.along).max(0.0);
                    }
                }
                let stress = axial + moment.abs() * self.per_modulus;
                highest[*index] = highest[*index].max(stress);
            }
        }
    }
}

/// Stations of a bay that lie on a piece of it. A station on the landing of a diagonal is on both pieces.
fn stops_on(model: &Model, bay: usize, on: RangeInclusive<f64>) -> Vec<Stop> {
    let stops = (0..=PARTS).map(|s| (bay * (PARTS + 1) + s, station(model, bay, s)));
    stops
        .filter(|(_, x)| on.contains(x))
        .map(|(index, x)| (index, x - on.start()))
        .collect()
}

impl Envelope {
    /// Number of bays.
    pub fn bays(&self) -> usize {
        self.lines.len() - 1
    }

    /// x of bay line i (0..=n), ticks; past the last one the last.
    pub fn line_at(&self, i: usize) -> f64 {
        self.lines[i.min(self.bays())]
    }

    /// The gate's peak over both horizontals, psi.
    pub fn peak(&self) -> f64 {
        self.peak
    }

    /// Stress at station s (0..=20) of a bay (1..=n), psi; `None` outside the gate.
    pub fn station(&self, line: Line, bay: usize, s: usize) -> Option<f64> {
        if s > PARTS {
            return None;
        }
        let at = bay.checked_sub(1)? * (PARTS + 1) + s;
        self.stress[line.index()].get(at).copied()
    }

    /// Highest stress in a bay (1..=n), psi; 0 outside the gate.
    pub fn bay_peak(&self, line: Line, bay: usize) -> f64 {
        let stations = (0..=PARTS).filter_map(|s| self.station(line, bay, s));
        stations.fold(0.0, f64::max)
    }

    /// The worst place of a horizontal; of equals the first from the latch end.
    pub fn worst(&self, line: Line) -> Worst {
        let mut worst = Worst {
            stress: 0.0,
            bay: 1,
            fraction: 0.0,
        };
        for (at, stress) in self.stress[line.index()].iter().enumerate() {
            if *stress > worst.stress {
                let fraction = (at % (PARTS + 1)) as f64 / PARTS as f64;
                worst = Worst {
                    stress: *stress,
                    bay: at / (PARTS + 1) + 1,
                    fraction,
                };
            }
        }
        worst
    }

    /// Stress at x ÷ gate peak: the higher of the two stations x lies between.
    pub fn rel(&self, line: Line, x: f64) -> f64 {
        self.rel_over(line, x, x)
    }

    /// Highest stress ÷ gate peak of any station on `from..=to`, and of both ends of every part that reaches
    /// into it (x, ticks): at a bay line only the side of the bay that is reached into. Outside the leaf the
    /// end station's.
    pub fn rel_over(&self, line: Line, from: f64, to: f64) -> f64 {
        let (first, last) = (self.place(from), self.place(to));
        let mut highest: f64 = 0.0;
        for bay in 0..self.bays() {
            for s in 0..=PARTS {
                let place = (bay * PARTS + s) as f64;
                let on = (first..=last).contains(&place);
                let after = s < PARTS && first < place + 1.0 && last > place;
                let before = s > 0 && first < place && last > place - 1.0;
                if on || after || before {
                    highest = highest.max(self.stress[line.index()][bay * (PARTS + 1) + s]);
                }
            }
        }
        highest / self.peak
    }

    /// x in stations counted over the whole leaf (a bay line is one), float noise at a station removed.
    fn place(&self, x: f64) -> f64 {
        let bay = self
            .lines
            .partition_point(|line| *line <= x)
            .clamp(1, self.bays())
            - 1;
        let (from, to) = (self.lines[bay], self.lines[bay + 1]);
        let place = bay as f64 * PARTS as f64 + PARTS as f64 * (x - from) / (to - from);
        let clamped = place.clamp(0.0, (self.bays() * PARTS) as f64);
        let whole = clamped.round();
        if (clamped - whole).abs() < 1e-9 * PARTS as f64 {
            whole
        } else {
            clamped
        }
    }
}
