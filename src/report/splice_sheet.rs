//! Splice sheet: per spliced horizontal its pieces, where each splice stands and why it may.

use crate::gate::Role;
use crate::plan::{PieceCut, Splice, SplicedLine};
use crate::splice::{ReachForm, WindowClass, inward};

use super::cautions::splice_cautions;
use super::figures::Figures;
use super::job::{Job, role_name};
use super::sheet::{Block, Sheet};
use super::splice_name::{HOW_NAMED, splice_name};
use super::table::{Cell, Column, Kind, Table};

/// The splice sheet of the week.
pub(super) fn splice_sheet(job: Job<'_>) -> Sheet {
    let mut blocks = Vec::new();
    let brace = |l: &SplicedLine| job.take_off.parts[l.part].role == Some(Role::SwayBrace);
    if job.plan.spliced.is_empty() {
        blocks.push(Block::Note("No horizontal is spliced.".to_owned()));
    } else {
        let braced = job.plan.spliced.iter().any(brace);
        blocks.push(Block::Points(how_to_read(job, braced)));
        let lines = job.plan.spliced.iter();
        blocks.extend(lines.map(|line| line_block(job, line)));
        blocks.push(Block::Group {
            title: "CAUTIONS".to_owned(),
            aside: job.heading().strip(),
            blocks: vec![Block::Points(splice_cautions(job.week))],
        });
    }
    Sheet {
        stem: "splices".to_owned(),
        title: "SPLICES".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(records(job)),
    }
}

fn how_to_read(job: Job<'_>, braced: bool) -> Vec<String> {
    let figures = Figures::of(job.week);
    let root = gap(figures, job.week.shop.splice.root_gap.geometric());
    let mut points = vec![
        "Lay the pieces in order from the latch end, scribe lines in one line, square ends \
         together, the root gap as printed at each splice."
            .to_owned(),
        "FROM LATCH is from the outside face of the latch end post to the splice centre; from \
         the long point is along the horizontal itself."
            .to_owned(),
        format!(
            "ROOT GAP AS MADE: pieces are whole saw marks; what is then short of the whole length \
             goes into the gaps, in equal shares, so a gap is {root} or a little more."
        ),
        "Where a splice may stand is rounded inward to the saw mark.".to_owned(),
        HOW_NAMED.to_owned(),
    ];
    if braced {
        points.push(
            "A sway brace is an arc and does not start at the latch face: it has no FROM LATCH. \
             Its long point and its bay lines (its standoffs) are measured along the brace from \
             its own latch-end tip."
                .to_owned(),
        );
    }
    points
}

fn line_block(job: Job<'_>, line: &SplicedLine) -> Block {
    let part = &job.take_off.parts[line.part];
    let figures = Figures::of(job.week);
    Block::Group {
        title: format!("{}   {}", line_mark(job, line), role_name(part.role)),
        aside: job.heading().strip(),
        blocks: vec![
            Block::Pairs(
                vec![
                    Block::pair("Pipe", job.pipe(part.pipe)),
                    Block::pair(
                        "Whole",
                        format!(
                            "{} long point to long point",
                            figures.spoken_of(part.long_exact)
                        ),
                    ),
                    Block::pair("Root gap as made", gap(figures, line.gap)),
                    Block::pair("Rule for roller bays", form(line, part.role)),
                ]
                .into_iter()
                .chain(stressed(job, line))
                .collect(),
            ),
            Block::Note(String::new()),
            Block::Table(pieces(job, line)),
            Block::Note(String::new()),
            Block::Table(stands(job, line)),
            Block::Points(windows(job, &line_mark(job, line), &line.splices)),
        ]
        .into_iter()
        .chain(warnings(&line_mark(job, line), line))
        .collect(),
    }
}

/// The gate's peak, which a splice's stress is a share of.
fn stressed(job: Job<'_>, line: &SplicedLine) -> Option<(String, String)> {
    let set = job.plan.splice_sets.iter();
    let set = set
        .filter(|s| s.bending.is_some())
        .find(|s| s.lines.iter().any(|l| l.part == line.part))?;
    let found = set.bending.as_ref()?;
    Some(Block::pair(
        "Peak stress",
        super::bending::peak(job.week.shop.units, found),
    ))
}

/// A root gap is finer than the saw mark: thousandths of an inch or tenths of a millimetre.
pub(super) fn gap(figures: Figures<'_>, ticks: f64) -> String {
    match figures.units() {
        crate::measure::Units::Inch => format!(
            "{} in",
            Cell::number(ticks / crate::measure::INCH, 3).printed()
        ),
        crate::measure::Units::Metric => {
            format!(
                "{} mm",
                Cell::number(ticks / crate::measure::MM, 1).printed()
            )
        }
    }
}

/// The mark of a spliced horizontal of one copy, as its pieces print it.
pub(super) fn line_mark(job: Job<'_>, line: &SplicedLine) -> String {
    match line_pieces(job, line).first() {
        Some((_, piece)) => piece
            .mark
            .rsplit_once('/')
            .map_or(piece.mark.as_str(), |(mark, _)| mark)
            .to_owned(),
        None => job.take_off.parts[line.part].mark.clone(),
    }
}

/// The pieces of a line from the latch end, each with its joint's number.
fn line_pieces<'a>(job: Job<'a>, line: &SplicedLine) -> Vec<(u32, &'a PieceCut)> {
    let mut found: Vec<(u32, &PieceCut)> = Vec::new();
    for joint in &job.plan.joints {
        for piece in &joint.pieces {
            let same =
                (piece.part, piece.copy, piece.serial) == (line.part, line.copy, line.serial);
            if same && piece.piece.is_some() {
                found.push((joint.number, piece));
            }
        }
    }
    found.sort_by_key(|(_, piece)| piece.piece);
    found
}

fn pieces(job: Job<'_>, line: &SplicedLine) -> Table {
    let figures = Figures::of(job.week);
    let rows = line_pieces(job, line).into_iter().map(|(joint, piece)| {
        vec![
            Cell::text("[ ]"),
            Cell::text(&piece.mark),
            figures.exact(piece.saw),
            Cell::count(joint),
        ]
    });
    Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("piece", Kind::Mark),
            figures.column("SAW LENGTH", "saw_length"),
            Column::new("from joint", Kind::Number),
        ],
        rows: rows.collect(),
    }
}

fn stands(job: Job<'_>, line: &SplicedLine) -> Table {
    let figures = Figures::of(job.week);
    let mark = line_mark(job, line);
    let rows = line.splices.iter().enumerate().map(|(i, s)| {
        vec![
            Cell::text(splice_name(&mark, i)),
            Cell::count(s.bay),
            figures.maybe(s.x),
            figures.geometric(s.centre),
            figures.geometric(s.from_latch_side),
            figures.geometric(s.from_tail_side),
        ]
    });
    Table {
        columns: vec![
            Column::new("splice", Kind::Mark),
            Column::new("bay", Kind::Number),
            figures.column("FROM LATCH", "x"),
            figures.column("from long point", "p"),
            figures.column("bay line before", "a"),
            figures.column("bay line after", "b"),
        ],
        rows: rows.collect(),
    }
}

/// Windows, as [`inward`] rounds them, of the splices of the line of this mark.
pub(super) fn windows(job: Job<'_>, mark: &str, splices: &[Splice]) -> Vec<String> {
    let figures = Figures::of(job.week);
    let lines = splices.iter().enumerate().map(|(i, s)| {
        let (lo, hi) = inward(s.window, job.mark());
        format!(
            "Splice {} may stand from {} to {}, from the long point; {}.",
            splice_name(mark, i),
            figures.spoken(lo),
            figures.spoken(hi),
            bay_rule(s)
        )
    });
    lines.collect()
}

fn bay_rule(splice: &Splice) -> String {
    let bay = if splice.roller_bay {
        "roller bay"
    } else {
        "plain bay"
    };
    match splice.rel {
        Some(rel) => format!("{bay}, {}", super::peak_share::words(rel)),
        None => bay.to_owned(),
    }
}

fn form(line: &SplicedLine, role: Option<Role>) -> &'static str {
    match line.form {
        _ if role == Some(Role::SwayBrace) => "a sway brace carries no roller",
        ReachForm::EveryInteriorBay => {
            "bending not computed: every interior bay of a carrying horizontal counts"
        }
        ReachForm::Envelope => "from the computed bending as the gate rolls",
    }
}

pub(super) fn warnings(mark: &str, line: &SplicedLine) -> Vec<Block> {
    let mut out = Vec::new();
    for (i, splice) in line.splices.iter().enumerate() {
        let name = splice_name(mark, i);
        if splice.tolerated {
            out.push(Block::Alert(format!(
                "Splice {name} stands beyond the plain reach from its vertical: allowed by the \
                 shop's setting only."
            )));
        }
        if splice.class != WindowClass::Plain {
            out.push(Block::Alert(format!(
                "Splice {name}: {}.",
                class(splice.class)
            )));
        }
    }
    out
}

fn class(class: WindowClass) -> &'static str {
    match class {
        WindowClass::Plain => "plain",
        WindowClass::Charged => "charged for its stress",
        WindowClass::ByOrder => "high stress, by order only",
    }
}

fn records(job: Job<'_>) -> Table {
    let figures = Figures::of(job.week);
    let mut rows = Vec::new();
    for line in &job.plan.spliced {
        let pieces = line_pieces(job, line);
        let mark = line_mark(job, line);
        for (i, splice) in line.splices.iter().enumerate() {
            let (lo, hi) = inward(splice.window, job.mark());
            let side = |k: usize| {
                let piece = pieces.get(k);
                [
                    piece.map_or(Cell::Missing, |(_, p)| Cell::text(&p.mark)),
                    piece.map_or(Cell::Missing, |(_, p)| figures.exact(p.saw)),
                ]
            };
            let mut row = vec![
                Cell::text(&mark),
                Cell::text(splice_name(&mark, i)),
                Cell::count(splice.bay),
                figures.maybe(splice.x),
                figures.geometric(splice.centre),
                figures.geometric(splice.from_latch_side),
                figures.geometric(splice.from_tail_side),
                figures.exact(lo),
                figures.exact(hi),
                super::cut_records::yes_no(splice.roller_bay),
                super::cut_records::yes_no(splice.tolerated),
                Cell::text(class(splice.class)),
                splice.rel.map_or(Cell::Missing, super::peak_share::cell),
                figures.geometric(line.gap),
            ];
            row.extend(side(i));
            row.extend(side(i + 1));
            rows.push(row);
        }
    }
    Table {
        columns: record_columns(figures),
        rows,
    }
}

fn record_columns(figures: Figures<'_>) -> Vec<Column> {
    vec![
        Column::new("mark", Kind::Mark),
        Column::new("splice", Kind::Mark),
        Column::new("bay", Kind::Number),
        figures.column("from latch face", "from_latch_face"),
        figures.column("from long point", "from_long_point"),
        figures.column("from bay line before", "from_bay_line_before"),
        figures.column("to bay line after", "to_bay_line_after"),
        figures.column("window from", "window_from"),
        figures.column("window to", "window_to"),
        Column::new("roller bay", Kind::Mark),
        Column::new("tolerated", Kind::Mark),
        Column::new("class", Kind::Words),
        Column::named(super::peak_share::HEAD, "percent_of_peak", Kind::Number),
        figures.column("root gap", "root_gap"),
        Column::new("piece before", Kind::Mark),
        figures.column("piece before", "piece_before_saw_length"),
        Column::new("piece after", Kind::Mark),
        figures.column("piece after", "piece_after_saw_length"),
    ]
}
