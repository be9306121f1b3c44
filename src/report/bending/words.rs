//! The gate's windows and bending as text.

use super::notes::{STANDING, figures_of, peak};
use super::{Bending, name};
use crate::measure::Length;
use crate::report::figures::Figures;
use crate::report::peak_share;
use crate::report::print_text::print_text;
use crate::report::roller_words;
use crate::report::sheet::{Block, Heading, Sheet};
use crate::report::table::{Cell, Column, Kind, Table, clean};
use crate::splice::{ReachForm, SpliceLine, Window, WindowClass};
use crate::statics::{Envelope, Line, engineer};

/// Parts of a bay at which the text gives the stress: every second station.
const READ: [usize; 11] = [0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20];

/// The whole text.
pub fn text(view: &Bending<'_>) -> String {
    let mut blocks = vec![Block::Pairs(facts(view))];
    blocks.extend(engineer(view.week, view.frame).map(Block::Alert));
    for which in Line::BOTH {
        if let Some(line) = view.line(which) {
            blocks.push(line_block(view, which, line));
        }
    }
    blocks.push(Block::Points(vec![STANDING.to_owned()]));
    print_text(&Sheet {
        stem: String::new(),
        title: format!(
            "WHERE A SPLICE MAY STAND   gate {}",
            clean(&view.order.mark)
        ),
        heading: Heading {
            shop: clean(&view.week.shop.name),
            ..Heading::default()
        },
        blocks,
        records: None,
    })
}

fn facts(view: &Bending<'_>) -> Vec<(String, String)> {
    let figures = Figures::of(view.week);
    let rollers = &view.frame.rollers;
    let by = roller_words::supports(view.order);
    let mut pairs = vec![
        Block::pair("Rollers", roller_words::carried(view.week, view.order)),
        Block::pair(
            "Front roller from latch face",
            format!(
                "{} closed, {} open",
                figures.spoken_of(rollers.front_closed),
                figures.spoken_of(rollers.front_open)
            ),
        ),
        Block::pair(
            "Rear roller behind it",
            format!("{} {by}", figures.spoken_of(rollers.spacing)),
        ),
    ];
    pairs.extend(figures_of(view.week, view.frame));
    pairs.extend(view.plan.map(|checked| {
        let number = checked.plan().number.clone();
        Block::pair("Splices as in plan", number)
    }));
    pairs
}

fn line_block(view: &Bending<'_>, which: Line, line: &SpliceLine) -> Block {
    let part = &view.take_off.parts[line.part];
    let figures = Figures::of(view.week);
    let mut blocks = vec![
        Block::Pairs(vec![
            Block::pair("Whole", figures.spoken_of(part.long_exact)),
            Block::pair("Rule for roller bays", form(view.set.form)),
        ]),
        Block::Note(String::new()),
        Block::Note(
            "A splice's centre may stand, from the latch-end long point (% of peak: the highest \
             stress there, of the gate's peak):"
                .to_owned(),
        ),
        Block::Table(windows(view, which, line)),
    ];
    if let Some(found) = &view.set.bending {
        blocks.push(Block::Note(String::new()));
        blocks.push(Block::Note(format!(
            "Highest stress over the whole travel, percent of the gate's peak ({}), at tenths of \
             each bay from its bay line toward the latch end:",
            peak(view.week.shop.units, found)
        )));
        blocks.push(Block::Table(stations(view, which, found)));
    }
    let splices = view.splices_of(which);
    blocks.push(Block::Note(String::new()));
    if splices.is_empty() {
        blocks.push(Block::Note("Not spliced in this plan.".to_owned()));
    } else {
        blocks.push(Block::Table(stands(view, &splices)));
    }
    Block::Group {
        title: format!("{}   {}", clean(&part.mark), name(which)),
        aside: String::new(),
        blocks,
    }
}

fn form(form: ReachForm) -> &'static str {
    match form {
        ReachForm::EveryInteriorBay => "bending not computed: every interior bay counts",
        ReachForm::Envelope => "from the computed bending as the gate rolls",
    }
}

/// Highest stress over a window, share of the gate's peak.
pub(super) fn highest(
    view: &Bending<'_>,
    which: Line,
    line: &SpliceLine,
    window: &Window,
) -> Option<f64> {
    let found = view.set.bending.as_ref()?;
    let x = |p: Length| (line.x_long + p).geometric();
    Some(found.rel_over(which, x(window.lo), x(window.hi)))
}

fn windows(view: &Bending<'_>, which: Line, line: &SpliceLine) -> Table {
    let figures = Figures::of(view.week);
    let mark = view.week.shop.saw.mark;
    let row = |window: &Window| {
        let (lo, hi) = window.marks(mark);
        vec![
            Cell::count(window.bay),
            figures.exact(lo),
            figures.exact(hi),
            highest(view, which, line, window).map_or(Cell::Missing, peak_share::cell),
            Cell::text(kind(window)),
        ]
    };
    Table {
        columns: vec![
            Column::new("bay", Kind::Number),
            figures.column("FROM", "from"),
            figures.column("TO", "to"),
            Column::new(peak_share::HEAD, Kind::Number),
            Column::new("window is", Kind::Words),
        ],
        rows: line.windows.iter().map(row).collect(),
    }
}

fn kind(window: &Window) -> String {
    let bay = if window.roller_bay {
        "roller bay"
    } else {
        "plain bay"
    };
    let class = match window.class {
        WindowClass::Plain => "",
        WindowClass::Charged => ", charged",
        WindowClass::ByOrder => ", high stress by order",
    };
    let tolerated = if window.tolerated { ", tolerated" } else { "" };
    format!("{bay}{class}{tolerated}")
}

fn stations(view: &Bending<'_>, which: Line, found: &Envelope) -> Table {
    let mut columns = vec![Column::new("bay", Kind::Number)];
    let heads = [
        "0", ".1", ".2", ".3", ".4", ".5", ".6", ".7", ".8", ".9", "1",
    ];
    columns.extend(heads.iter().map(|head| Column::new(head, Kind::Number)));
    let row = |bay: usize| {
        let number = u32::try_from(bay).unwrap_or(u32::MAX);
        let at = |s: &usize| {
            let stress = found.station(which, bay, *s);
            stress.map_or(Cell::Missing, |p| Cell::number(100.0 * p / found.peak(), 0))
        };
        std::iter::once(Cell::count(number))
            .chain(READ.iter().map(at))
            .collect()
    };
    Table {
        columns,
        rows: (1..=view.frame.bays.len()).map(row).collect(),
    }
}

fn stands(view: &Bending<'_>, splices: &[(String, &crate::plan::Splice)]) -> Table {
    let figures = Figures::of(view.week);
    let row = |(name, splice): &(String, &crate::plan::Splice)| {
        vec![
            Cell::text(name),
            Cell::count(splice.bay),
            figures.geometric(splice.centre),
            figures.maybe(splice.x),
            figures.geometric(splice.from_latch_side),
            figures.geometric(splice.from_tail_side),
            splice.rel.map_or(Cell::Missing, peak_share::cell),
        ]
    };
    Table {
        columns: vec![
            Column::new("splice", Kind::Mark),
            Column::new("bay", Kind::Number),
            figures.column("SPLICE AT", "p"),
            figures.column("from latch face", "x"),
            figures.column("bay line before", "a"),
            figures.column("bay line after", "b"),
            Column::new(peak_share::HEAD, Kind::Number),
        ],
        rows: splices.iter().map(row).collect(),
    }
}
