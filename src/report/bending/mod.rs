//! `longpoint splice`: where a splice may stand on one gate and how its horizontals work as it rolls,
//! as text and as a drawing. The splices drawn come out of a checked plan, when there is one.

mod curve;
mod document;
mod drawing;
mod leaf;
mod notes;
mod words;

pub use document::document;
pub use drawing::drawing;
pub use words::text;

use crate::check::CheckedPlan;
use crate::gate::{Frame, Role};
use crate::measure::{INCH, MM, Units};
use crate::order::{GateOrder, Week};
use crate::part::TakeOff;
use crate::plan::SplicedLine;
use crate::report::job::Job;
use crate::report::splice_name::splice_name;
use crate::report::splice_sheet::line_mark;
use crate::splice::{SpliceLine, SpliceSet, places};
use crate::statics::Line;

pub(super) use notes::{figures_of, peak, roller, worst};

/// One gate, its windows and its splices.
#[derive(Clone, Debug)]
pub struct Bending<'a> {
    week: &'a Week,
    take_off: &'a TakeOff,
    order: &'a GateOrder,
    frame: &'a Frame,
    set: SpliceSet,
    splices: Vec<&'a SplicedLine>,
    /// The plan that the splices are from.
    plan: Option<&'a CheckedPlan>,
}

impl<'a> Bending<'a> {
    /// Of a gate (index into `Week::gates`) without a plan; `None` when it has no frame.
    pub fn of(week: &'a Week, take_off: &'a TakeOff, gate: usize) -> Option<Bending<'a>> {
        Some(Bending {
            week,
            take_off,
            order: week.gates.get(gate)?,
            frame: take_off.frames.iter().find(|f| f.gate == gate)?,
            set: places(week, take_off, gate)?,
            splices: Vec::new(),
            plan: None,
        })
    }

    /// The same with the splices of a checked plan.
    pub fn planned(checked: &'a CheckedPlan, gate: usize) -> Option<Bending<'a>> {
        let mut view = Bending::of(checked.week(), checked.take_off(), gate)?;
        let mine = |s: &&SplicedLine| checked.take_off().parts[s.part].gate == Some(gate);
        let horizontal = |s: &&SplicedLine| {
            let role = checked.take_off().parts[s.part].role;
            matches!(role, Some(Role::TopHorizontal | Role::BottomHorizontal))
        };
        let spliced = checked.plan().spliced.iter();
        view.plan = Some(checked);
        view.splices = spliced.filter(mine).filter(horizontal).collect();
        Some(view)
    }

    /// The line of the set that is this horizontal.
    fn line(&self, which: Line) -> Option<&SpliceLine> {
        self.set.lines.iter().find(|l| l.horizontal == Some(which))
    }

    /// Splices of a horizontal with their names, copies in order.
    fn splices_of(&self, which: Line) -> Vec<(String, &crate::plan::Splice)> {
        let part = self.line(which).map(|l| l.part);
        let lines = self.splices.iter().filter(|s| Some(s.part) == part);
        let named = lines.flat_map(|line| {
            let mark = self
                .plan
                .map_or(String::new(), |checked| line_mark(Job::of(checked), line));
            let splices = line.splices.iter().enumerate();
            splices.map(move |(i, splice)| (splice_name(&mark, i), splice))
        });
        named.collect()
    }

    /// Stress in the shop's unit, whole.
    fn stress(&self, psi: f64) -> String {
        stress(self.week.shop.units, psi)
    }
}

/// Stress in the shop's unit, whole, with its unit.
pub(super) fn stress(units: Units, psi: f64) -> String {
    match units {
        Units::Inch => format!("{psi:.0} psi"),
        Units::Metric => format!("{:.0} MPa", psi / crate::statics::PSI_PER_MPA),
    }
}

/// Newtons in one pound-force.
pub(super) const NEWTONS: f64 = 4.448_221_615;

/// Force in the shop's unit, whole, with its unit.
pub(super) fn force(units: Units, pounds: f64) -> String {
    match units {
        Units::Inch => format!("{pounds:.0} lbf"),
        Units::Metric => format!("{:.0} N", pounds * NEWTONS),
    }
}

/// A small movement given in inches, in the shop's unit.
pub(super) fn movement(units: Units, inches: f64) -> String {
    match units {
        Units::Inch => format!("{inches:.2} in"),
        Units::Metric => format!("{:.1} mm", inches * INCH / MM),
    }
}

/// A horizontal in words.
pub(super) fn name(which: Line) -> &'static str {
    match which {
        Line::Bottom => "bottom horizontal",
        Line::Top => "top horizontal",
    }
}
