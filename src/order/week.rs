//! `Week`: everything the user gave, judged; and the pipes it speaks of, by key.

use std::cmp::Ordering;

use rust_decimal::Decimal;
use serde::Serialize;

use super::{Begun, ExtraPart, Fault, GateOrder, Quote, RackPiece, Shop, Supplier};
use crate::measure::{Dimension, Units};

/// Index into [`Week::pipes`]. Two pipes with one index share joints; two that differ never do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(transparent)]
pub struct PipeId(pub usize);

/// Where a row came from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Origin {
    /// File name as the user knows it.
    pub file: String,
    /// 1-based line as an editor counts it; in a workbook its row.
    pub line: u32,
}

impl Origin {
    /// `orders.csv line 4`, `orders.xlsx row 4`.
    pub fn words(&self) -> String {
        format!("{} {}", self.file, self.line_words())
    }

    /// `line 4`, `row 4`.
    pub fn line_words(&self) -> String {
        super::fault::line_words(&self.file, self.line)
    }
}

/// One kind of pipe. Keyed by OD + wall + grade + finish; shown with its trade name.
#[derive(Clone, Debug, Serialize)]
pub struct Pipe {
    /// The shop's trade name for it (`2-3/8 SS40`); a finish that an order overrode is appended by
    /// [`Pipe::title`], never here.
    pub name: String,
    /// Outside diameter, exact.
    pub od: Dimension,
    /// Wall, exact; always under half the OD.
    pub wall: Dimension,
    /// Standard it is bought to (`ASTM F1083`); printed on order lines. May be empty.
    pub standard: String,
    /// Grade; part of the key. May be empty.
    pub grade: String,
    /// Finish (`galvanized`, `black`); part of the key. May be empty.
    pub finish: String,
    /// Yield strength in psi (Inch) or MPa (Metric) as given or from the pipe catalogue; for the
    /// "ask an engineer" notice only.
    pub yield_strength: Option<Decimal>,
}

impl Pipe {
    /// Outer radius in ticks.
    pub fn radius(&self) -> f64 {
        self.od.geometric() / 2.0
    }

    /// Inner radius in ticks.
    pub fn bore_radius(&self) -> f64 {
        self.radius() - self.wall.geometric()
    }

    /// Outside diameter in ticks.
    pub fn diameter(&self) -> f64 {
        self.od.geometric()
    }

    /// Bare weight per foot in lb (Inch: `10.69 (OD − t) t`, in) or per metre in kg
    /// (Metric: `0.02466 (OD − t) t`, mm). Source: ASTM F1083 / ASME B36.10M formula.
    pub fn weight_per_unit(&self, units: Units) -> f64 {
        match units {
            Units::Inch => 10.69 * (self.od.inches() - self.wall.inches()) * self.wall.inches(),
            Units::Metric => {
                0.02466
                    * (self.od.millimetres() - self.wall.millimetres())
                    * self.wall.millimetres()
            }
        }
    }

    /// Bare weight in lb or kg of a length in ticks.
    pub fn weight(&self, units: Units, ticks: f64) -> f64 {
        let per = self.weight_per_unit(units);
        match units {
            Units::Inch => per * ticks / crate::measure::INCH / 12.0,
            Units::Metric => per * ticks / crate::measure::MM / 1000.0,
        }
    }

    /// Whether two pipes are one key.
    pub fn same_key(&self, o: &Pipe) -> bool {
        self.od == o.od && self.wall == o.wall && self.grade == o.grade && self.finish == o.finish
    }

    /// Trade name with true OD, wall and finish: `2-3/8 SS40 (2.375 x 0.154, galvanized)`.
    pub fn title(&self) -> String {
        let finish = if self.finish.is_empty() {
            String::new()
        } else {
            format!(", {}", self.finish)
        };
        format!("{} ({} x {}{finish})", self.name, self.od, self.wall)
    }

    /// A fixed order of pipes for sheets: by OD, wall, grade, finish, then name.
    pub fn sheet_order(&self, o: &Pipe) -> Ordering {
        (
            self.od.exact_mm(),
            self.wall.exact_mm(),
            &self.grade,
            &self.finish,
            &self.name,
        )
            .cmp(&(
                o.od.exact_mm(),
                o.wall.exact_mm(),
                &o.grade,
                &o.finish,
                &o.name,
            ))
    }
}

/// Everything the user gave, judged.
#[derive(Clone, Debug, Serialize)]
pub struct Week {
    /// The shop's standards and settings.
    pub shop: Shop,
    /// Every pipe key the shop lists or an order's finish makes, in [`Pipe::sheet_order`].
    pub pipes: Vec<Pipe>,
    /// Gate orders in file order (rows with a count of 0 are kept, and do nothing).
    pub gates: Vec<GateOrder>,
    /// Plain parts riding along, in file order.
    pub extras: Vec<ExtraPart>,
    /// Joints on sale, in file order.
    pub quotes: Vec<Quote>,
    /// Suppliers' terms, in file order; names unique.
    pub suppliers: Vec<Supplier>,
    /// Measured joints and remnants, in file order.
    pub rack: Vec<RackPiece>,
    /// What of it is made already.
    #[serde(skip_serializing_if = "Begun::none")]
    pub begun: Begun,
    /// Warnings and notes found while reading (never errors).
    pub notices: Vec<Fault>,
}

impl Week {
    /// The pipe of an id.
    pub fn pipe(&self, id: PipeId) -> &Pipe {
        &self.pipes[id.0]
    }
}
