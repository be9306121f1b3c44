//! `Desk`: what every sheet asks of a checked plan: printed lengths, names, which splice is the last.

use crate::check::CheckedPlan;
use crate::gate::Frame;
use crate::measure::{Dimension, Length, Money, Unit, Units};
use crate::order::{PipeId, Shop, Week};
use crate::part::TakeOff;
use crate::plan::{JointSource, PieceCut, Plan, PlannedJoint, SplicedLine};

use super::cope::{Kinds, fine_length};
use crate::report::cope_kind::CopeKinds;
use crate::report::figures::Figures;
use crate::report::job::Job;
use crate::report::left_out::{gate_out, marks_out};
use crate::report::piece_ends::piece_ends;
use crate::report::planned_length::planned_as;
use crate::report::wrap::soften;

/// A checked plan laid out for drawing.
pub struct Desk<'a> {
    /// The week.
    pub week: &'a Week,
    /// Its parts.
    pub take_off: &'a TakeOff,
    /// The plan.
    pub plan: &'a Plan,
    /// Kinds of coped end.
    pub kinds: Kinds,
    /// The same kinds as the text sheets hold them.
    numbered: CopeKinds,
    job: Job<'a>,
    /// Width of the room on a page, points.
    pub room: f64,
    /// Height of the room on a page, points.
    pub high: f64,
}

impl<'a> Desk<'a> {
    /// Clears a desk for a plan and a page's room.
    pub fn of(checked: &'a CheckedPlan, room: f64, high: f64) -> Desk<'a> {
        Desk::laid(Job::of(checked), room, high)
    }

    /// The same for a job.
    pub(in crate::report) fn laid(job: Job<'a>, room: f64, high: f64) -> Desk<'a> {
        let left_out = &job.plan.left_out;
        Desk {
            week: job.week,
            take_off: job.take_off,
            plan: job.plan,
            kinds: Kinds::of(job.week, job.take_off, left_out),
            numbered: CopeKinds::of(job.take_off, left_out),
            job,
            room,
            high,
        }
    }

    /// Frames of the gates that are planned.
    pub fn frames(&self) -> impl Iterator<Item = &'a Frame> {
        let left_out = &self.plan.left_out;
        let frames = self.take_off.frames.iter();
        frames.filter(|f| !gate_out(left_out, f.gate))
    }

    /// The marks that `--partial` left out; empty when none.
    pub fn left_out(&self) -> String {
        marks_out(&self.plan.left_out)
    }

    /// The shop.
    pub fn shop(&self) -> &'a Shop {
        &self.week.shop
    }

    /// The shop's units.
    pub fn units(&self) -> Units {
        self.week.shop.units
    }

    /// A length as it is known.
    pub fn length(&self, l: Length) -> String {
        self.unit(l.print(self.units()))
    }

    /// A short length without its feet: `1/4"`.
    pub fn short(&self, l: Length) -> String {
        let words = fine_length(self.units(), l.geometric());
        match words.strip_suffix(".0") {
            Some(whole) => whole.to_owned(),
            None => words,
        }
    }

    /// A throat beside its saw length; a dash where both ends are square.
    pub fn throat_words(&self, throat: Length, saw: Length) -> String {
        let cell = Figures::of(self.week).throat(throat, saw);
        soften(cell.printed())
    }

    /// A length rounded to the saw mark: running marks.
    pub fn at_mark(&self, l: Length) -> String {
        self.unit(l.print_at(self.shop().saw.mark, self.units()))
    }

    /// What is left of a joint.
    pub fn left(&self, l: Length, kept: bool) -> String {
        self.unit(Figures::of(self.week).left(l, kept))
    }

    /// Geometry (ticks) rounded to the saw mark.
    pub fn geometry(&self, x: f64) -> String {
        self.at_mark(Length::nearest_mark(x, self.shop().saw.mark))
    }

    /// Metric figures stand bare on the floor's sheets; the header says millimetres.
    fn unit(&self, words: String) -> String {
        words
    }

    /// A pipe's OD or wall with its unit.
    pub fn dimension(&self, d: Dimension) -> String {
        match d.unit {
            Unit::Inch => format!("{d}\""),
            Unit::Mm => d.to_string(),
        }
    }

    /// Weight with its unit, one decimal.
    pub fn weight(&self, w: f64) -> String {
        match self.units() {
            Units::Inch => format!("{w:.1} lb"),
            Units::Metric => format!("{w:.1} kg"),
        }
    }

    /// Money with the shop's sign, or a dash where none is known.
    pub fn money(&self, m: Option<Money>) -> String {
        soften(&Figures::of(self.week).spoken_money(m))
    }

    /// What the text sheets are made from.
    pub(in crate::report) fn job(&self) -> Job<'a> {
        self.job
    }

    /// A pipe's title.
    pub fn pipe(&self, id: PipeId) -> String {
        self.week.pipe(id).title()
    }

    /// A gate copy's name: `A3`, or `A3.2` where the order has several.
    pub fn gate_copy(&self, gate: usize, copy: u32) -> String {
        match self.week.gates.get(gate) {
            Some(g) if g.count > 1 => format!("{}.{copy}", g.mark),
            Some(g) => g.mark.clone(),
            None => String::new(),
        }
    }

    /// Names of several copies, runs of neighbours in short: `A3.1 to A3.4, A3.7`.
    pub fn gate_copies(&self, gate: usize, copies: &[u32]) -> String {
        let runs = copies.chunk_by(|a, b| a + 1 == *b);
        let name = |run: &[u32]| match *run {
            [first, .., last] if last > first + 1 => format!(
                "{} to {}",
                self.gate_copy(gate, first),
                self.gate_copy(gate, last)
            ),
            _ => {
                let each = run.iter().map(|c| self.gate_copy(gate, *c));
                each.collect::<Vec<_>>().join(", ")
            }
        };
        runs.map(name).collect::<Vec<_>>().join(", ")
    }

    /// The gate copy a piece goes to; an extra part's own mark says all.
    pub fn gate_of(&self, piece: &PieceCut) -> String {
        let gate = self.take_off.parts.get(piece.part).and_then(|p| p.gate);
        gate.map_or(String::from("–"), |g| self.gate_copy(g, piece.copy))
    }

    /// Where a joint comes from, in the words of the yard.
    pub fn source(&self, joint: &PlannedJoint) -> String {
        let planned = soften(&planned_as(self.week, joint));
        match joint.source {
            JointSource::Bought(q) => match self.week.quotes.get(q) {
                Some(quote) if !quote.supplier.is_empty() => {
                    format!(
                        "bought {}{planned}, {}",
                        self.length(quote.nominal),
                        quote.supplier
                    )
                }
                Some(quote) => format!("bought {}{planned}", self.length(quote.nominal)),
                None => String::from("bought"),
            },
            JointSource::Rack(r, _) => match self.week.rack.get(r) {
                Some(piece) => format!("rack {}, {}", piece.tag, self.length(piece.length)),
                None => String::from("rack"),
            },
        }
    }

    /// The spliced line a piece belongs to, if it is one of several.
    pub fn line_of(&self, piece: &PieceCut) -> Option<&'a SplicedLine> {
        self.job.line_of(piece)
    }

    /// Whether a piece is the last of its spliced line (true for a whole part).
    pub fn is_last(&self, piece: &PieceCut) -> bool {
        match (piece.piece, self.line_of(piece)) {
            (Some(n), Some(line)) => usize::try_from(n).is_ok_and(|n| n >= line.pieces.len()),
            _ => true,
        }
    }

    /// Throat of a piece as it is cut, ends at a splice being square.
    pub fn throat(&self, piece: &PieceCut) -> Length {
        piece_ends(self.job, &self.numbered, piece).throat
    }

    /// Codes of a piece's two ends as cut: `c1 / sq`.
    pub fn ends(&self, piece: &PieceCut) -> String {
        let code = |end: usize| self.kinds.code(piece.part, end).unwrap_or("sq");
        let first = piece.piece.is_none_or(|n| n <= 1);
        let a = if first { code(0) } else { "splice" };
        let b = if self.is_last(piece) {
            code(1)
        } else {
            "splice"
        };
        format!("{a} / {b}")
    }

    /// `gates complete after this joint`, as names.
    pub fn done_after(&self, joint: u32) -> Vec<String> {
        let done = self.plan.done.iter().filter(|d| d.after_joint == joint);
        done.map(|d| self.gate_copy(d.gate, d.copy)).collect()
    }

    /// Plan number, revision and date as every page says them.
    pub fn plan_line(&self) -> String {
        let mut line = format!(
            "plan {} · revision {}",
            self.plan.number, self.plan.revision
        );
        if let Some(date) = &self.plan.date {
            line.push_str(" · ");
            line.push_str(date);
        }
        line
    }
}
