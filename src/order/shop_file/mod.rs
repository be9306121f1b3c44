//! shop.toml → `Shop`: every setting with its default; every fault, named by key path.

mod buying;
mod gate;
mod loads;
mod money;
mod pipes;
mod saw;
mod section;
mod splice;

pub(super) use buying::parse_days;
use section::Section;

use super::faults::{Faults, Spot};
use super::pipe_book::PipeBook;
use super::{Finisher, PipeId, Shop};
use crate::measure::{DateOrder, FaultCode, Length, Units};
use crate::text::{Entry, Settings, SourceFile, Value};

/// Tables of shop.toml.
const TABLES: [&str; 9] = [
    "pipe", "gate", "fabric", "sway", "kit", "saw", "splice", "money", "buying",
];

/// A pipe the shop names as its standard.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Standard {
    /// The shop names one (its name or its declaration may be faulty).
    pub named: bool,
    pub id: Option<PipeId>,
}

/// The pipes the shop names as its standard.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct StandardPipes {
    pub horizontal: Standard,
    pub end_post: Standard,
    pub vertical: Standard,
    pub diagonal: Standard,
    pub sway: Option<PipeId>,
}

/// shop.toml as read.
pub(super) struct ShopFile {
    pub shop: Shop,
    /// `None`: the file does not say (a fault); bare numbers cannot be judged.
    pub units: Option<Units>,
    pub standards: StandardPipes,
    /// The money per splice was given.
    pub splice_cost_given: bool,
    /// Where it stands.
    pub splice_cost_at: Spot,
    /// Which of month and day dates of three numbers begin with.
    pub date_order: Option<DateOrder>,
    /// Columns of the shop's own in orders and parts, printed as they stand.
    pub extra_columns: Vec<String>,
}

/// What the sections share while they are read.
struct Context<'a> {
    file: &'a str,
    units: Option<Units>,
    date_order: Option<DateOrder>,
    root: &'a [Entry],
}

impl<'a> Context<'a> {
    /// The table of a name; an empty one when it is not there.
    fn section(&self, name: &'a str, faults: &mut Faults) -> Section<'a> {
        let entry = self.root.iter().find(|e| e.key == name);
        let entries = match entry.map(|e| &e.value) {
            Some(Value::Table(entries)) => entries.as_slice(),
            None | Some(Value::Unread) => &[],
            Some(other) => {
                let line = entry.map_or(1, |e| e.line);
                faults.error(
                    FaultCode::ValueUnreadable,
                    &Spot::at(self.file, line, name, &other.shown()),
                    &format!("{name} is a table of settings"),
                    &format!("write [{name}] on a line of its own and its settings below it"),
                );
                &[]
            }
        };
        Section::new(self.file, name, entry.map(|e| e.line), entries, self.units)
    }
}

const fn inches(n: i64) -> Length {
    Length::from_64ths(n * 64)
}

const fn feet(n: i64) -> Length {
    Length::from_64ths(n * 768)
}

const fn mm(n: i64) -> Length {
    Length::from_mm(n)
}

/// Reads the shop; faults go on the list and defaults stand in.
pub(super) fn read_shop(file: &SourceFile, book: &mut PipeBook, faults: &mut Faults) -> ShopFile {
    let settings = Settings::read(file);
    faults.snags(&file.name, None, &settings.snags);
    let mut top = Section::new(&file.name, "", None, &settings.root, None);
    let name = top.text("name", faults).unwrap_or_default();
    let units = read_units(&mut top, faults);
    let words = [
        ("bought coated", Finisher::PipeBoughtCoated),
        ("after welding", Finisher::AfterWelding),
    ];
    let finisher = top.word("galvanizing", &words, faults);
    let orders = [
        ("month first", DateOrder::MonthFirst),
        ("day first", DateOrder::DayFirst),
    ];
    let date_order = top.word("date_order", &orders, faults);
    let extra_columns = top.words("extra_columns", faults);
    let pipe = top.entry("pipe");
    for table in TABLES {
        top.entry(table);
    }
    top.entry("minutes");
    top.done(faults);
    pipes::read_pipes(&file.name, pipe, units, book, faults);
    let context = Context {
        file: &file.name,
        units,
        date_order,
        root: &settings.root,
    };
    let (gate, mut standards) = gate::read_gate(&context, book, faults);
    let (sway, sway_pipe) = loads::read_sway(&context, book, faults);
    standards.sway = sway_pipe;
    let (splice, splice_cost_given, splice_cost_at) = splice::read_splice(&context, faults);
    let shop = Shop {
        name,
        units: units.unwrap_or(Units::Inch),
        gate,
        fabric: loads::read_fabric(&context, faults),
        sway,
        kit: loads::read_kit(&context, faults),
        saw: saw::read_saw(&context, faults),
        splice,
        money: money::read_money(&context, book, faults),
        buying: buying::read_buying(&context, faults),
        minutes: money::read_minutes(&context, faults),
        finisher: finisher.unwrap_or(Finisher::PipeBoughtCoated),
    };
    ShopFile {
        shop,
        units,
        standards,
        splice_cost_given,
        splice_cost_at,
        date_order,
        extra_columns,
    }
}

fn read_units(top: &mut Section<'_>, faults: &mut Faults) -> Option<Units> {
    let words = [
        ("inch", Units::Inch),
        ("inches", Units::Inch),
        ("metric", Units::Metric),
        ("mm", Units::Metric),
    ];
    if !top.has("units") {
        faults.error(
            FaultCode::ValueMissing,
            &top.spot("units"),
            "the shop does not say its units",
            "write units = \"inch\" or units = \"metric\" near the top",
        );
    }
    top.word("units", &words, faults)
}

/// Reads a pipe by name from a setting.
fn pipe_setting(
    s: &mut Section<'_>,
    key: &'static str,
    book: &mut PipeBook,
    faults: &mut Faults,
) -> Standard {
    let name = s.text(key, faults);
    Standard {
        named: s.has(key),
        id: name.and_then(|name| book.find(&name, &s.spot(key))),
    }
}
