//! Parts: every mark with its count, pipe, lengths, ends and weight, gate by gate.

use crate::order::{Impossible, Paperwork, Week};
use crate::part::{Part, TakeOff};

use super::cope_kind::CopeKinds;
use super::figures::Figures;
use super::job::role_name;
use super::left_out::{gate_out, part_out};
use super::piece_ends::{both, end_word};
use super::sheet::{Block, Heading, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// The parts of the week. With an empty plan in the heading it is a take-off: nothing nested yet.
pub(super) fn parts_sheet(
    week: &Week,
    take_off: &TakeOff,
    kinds: &CopeKinds,
    heading: Heading,
    left_out: &[Impossible],
) -> Sheet {
    let mut blocks = vec![Block::Note(
        "Saw length: long point to long point. Throat: along the axis between the copes; a dash where both ends are square. Top and \
         under line: check lengths on a diagonal's surface in the gate's plane. Count: pieces in \
         the week."
            .to_owned(),
    )];
    for (gate, order) in week.gates.iter().enumerate() {
        let mine: Vec<usize> = of_gate(take_off, Some(gate));
        if mine.is_empty() || gate_out(left_out, gate) {
            continue;
        }
        let gates = if order.count == 1 { "gate" } else { "gates" };
        blocks.push(Block::Group {
            title: format!("GATE {}   {} {gates}", order.mark, order.count),
            aside: heading.strip(),
            blocks: made_under(&order.paperwork)
                .into_iter()
                .chain([Block::Table(paper(week, take_off, kinds, &mine))])
                .chain(check_lines(Figures::of(week), take_off, &mine))
                .collect(),
        });
    }
    let mut extras = of_gate(take_off, None);
    extras.retain(|i| !part_out(left_out, &take_off.parts[*i]));
    if !extras.is_empty() {
        blocks.push(Block::Group {
            title: "PLAIN PARTS".to_owned(),
            aside: heading.strip(),
            blocks: vec![Block::Table(plain(week, take_off, &extras))],
        });
    }
    Sheet {
        stem: "parts".to_owned(),
        title: if heading.plan.is_empty() {
            "TAKE-OFF (no plan yet: nothing nested, nothing checked)".to_owned()
        } else {
            "PARTS".to_owned()
        },
        heading,
        blocks,
        records: Some(records(week, take_off, kinds, left_out)),
    }
}

fn of_gate(take_off: &TakeOff, gate: Option<usize>) -> Vec<usize> {
    let parts = take_off.parts.iter().enumerate();
    parts
        .filter(|(_, p)| p.gate == gate)
        .map(|(i, _)| i)
        .collect()
}

fn paper(week: &Week, take_off: &TakeOff, kinds: &CopeKinds, which: &[usize]) -> Table {
    let figures = Figures::of(week);
    let rows = which.iter().map(|i| {
        let part = &take_off.parts[*i];
        vec![
            Cell::text(mark(part)),
            Cell::count(part.count),
            Cell::text(&week.pipe(part.pipe).name),
            figures.exact(part.saw),
            figures.throat(part.throat, part.saw),
            Cell::text(ends(kinds, *i)),
            figures.weight(part.weight),
        ]
    });
    Table {
        columns: vec![
            Column::new("mark", Kind::Mark),
            Column::new("count", Kind::Number),
            Column::new("pipe", Kind::Words),
            figures.column("saw length", "saw_length"),
            figures.column("throat", "throat"),
            Column::new("ends", Kind::Words),
            figures.weight_column(&format!("{} each", figures.weight_unit()), "weight_each"),
        ],
        rows: rows.collect(),
    }
}

/// Check lengths of the diagonals among these parts, and what turns in the last bay.
fn check_lines(figures: Figures<'_>, take_off: &TakeOff, which: &[usize]) -> Vec<Block> {
    let parts = which.iter().map(|i| &take_off.parts[*i]);
    let lines = parts.filter_map(|part| {
        let (top, under) = (part.top_line?, part.under_line?);
        let swap = if part.swaps_in_last_bay {
            "; turned end for end in the last bay, where the two swap"
        } else {
            ""
        };
        Some(format!(
            "{}: top line {}, under line {}{swap}.",
            part.mark,
            figures.spoken_of(top),
            figures.spoken_of(under)
        ))
    });
    let points: Vec<String> = lines.collect();
    if points.is_empty() {
        Vec::new()
    } else {
        vec![Block::Points(points)]
    }
}

/// For whom and under which numbers a gate is made.
fn made_under(paperwork: &Paperwork) -> Option<Block> {
    (!paperwork.none()).then(|| Block::Note(format!("{}.", super::table::clean(&paperwork.line()))))
}

fn plain(week: &Week, take_off: &TakeOff, which: &[usize]) -> Table {
    let figures = Figures::of(week);
    let rows = which.iter().map(|i| {
        let part = &take_off.parts[*i];
        let extra = part.extra.map(|e| &week.extras[e]);
        let words = extra.map(|e| [e.paperwork.line(), e.note.clone()]);
        let mut words = words.map_or_else(Vec::new, Vec::from);
        words.retain(|w| !w.is_empty());
        let note = words.join("; ");
        vec![
            Cell::text(&part.mark),
            Cell::count(part.count),
            Cell::text(week.pipe(part.pipe).title()),
            figures.exact(part.saw),
            figures.weight(part.weight),
            Cell::text(note),
        ]
    });
    Table {
        columns: vec![
            Column::new("mark", Kind::Mark),
            Column::new("count", Kind::Number),
            Column::new("pipe", Kind::Words),
            figures.column("saw length", "saw_length"),
            figures.weight_column(figures.weight_unit(), "weight_each"),
            Column::new("note", Kind::Words),
        ],
        rows: rows.collect(),
    }
}

/// A part that the customer provides says so in its mark's cell.
fn mark(part: &Part) -> String {
    if part.ours {
        part.mark.clone()
    } else {
        format!("{} (kit)", part.mark)
    }
}

fn ends(kinds: &CopeKinds, part: usize) -> String {
    both(&end_word(kinds, part, 0), &end_word(kinds, part, 1))
}

fn records(week: &Week, take_off: &TakeOff, kinds: &CopeKinds, left_out: &[Impossible]) -> Table {
    let figures = Figures::of(week);
    let parts = take_off.parts.iter().enumerate();
    let parts = parts.filter(|(_, p)| !part_out(left_out, p));
    let names = paperwork_names(week);
    let rows = parts.map(|(i, part)| {
        let gate = part.gate.map(|g| &week.gates[g]);
        vec![
            Cell::text(&part.mark),
            gate.map_or(Cell::Missing, |g| Cell::text(&g.mark)),
            Cell::text(role_name(part.role)),
            Cell::text(week.pipe(part.pipe).title()),
            Cell::count(part.per_gate),
            Cell::count(part.count),
            figures.exact(part.saw),
            figures.geometric(part.long_exact),
            figures.throat(part.throat, part.saw),
            figures.maybe(part.top_line),
            figures.maybe(part.under_line),
            Cell::text(end_word(kinds, i, 0)),
            Cell::text(end_word(kinds, i, 1)),
            Cell::number(part.weight, 2),
            super::cut_records::yes_no(part.ours),
            Cell::text(origin(week, part)),
        ]
        .into_iter()
        .chain(names.iter().map(|name| {
            let value = paperwork(week, part).and_then(|p| p.of(name));
            value.map_or(Cell::Missing, Cell::text)
        }))
        .collect()
    });
    let filled = names.iter().map(|name| Column::new(name, Kind::Words));
    Table {
        columns: vec![
            Column::new("mark", Kind::Mark),
            Column::new("gate", Kind::Mark),
            Column::new("part", Kind::Words),
            Column::new("pipe", Kind::Words),
            Column::new("per gate", Kind::Number),
            Column::new("count", Kind::Number),
            figures.column("saw length", "saw_length"),
            figures.column("long point", "long_point_exact"),
            figures.column("throat", "throat"),
            figures.column("top line", "top_line"),
            figures.column("under line", "under_line"),
            Column::new("start end", Kind::Mark),
            Column::new("far end", Kind::Mark),
            figures.weight_column("weight", "weight_each"),
            Column::new("our pipe", Kind::Mark),
            Column::new("ordered in", Kind::Words),
        ]
        .into_iter()
        .chain(filled)
        .collect(),
        rows: rows.collect(),
    }
}

fn paperwork<'a>(week: &'a Week, part: &Part) -> Option<&'a Paperwork> {
    match (part.gate, part.extra) {
        (Some(gate), _) => Some(&week.gates[gate].paperwork),
        (None, Some(extra)) => Some(&week.extras[extra].paperwork),
        (None, None) => None,
    }
}

/// Every name that some row of the week fills, in the order they are first met.
fn paperwork_names(week: &Week) -> Vec<String> {
    let rows = week.gates.iter().map(|g| &g.paperwork);
    let rows = rows.chain(week.extras.iter().map(|e| &e.paperwork));
    let mut names: Vec<String> = Vec::new();
    for (name, _) in rows.flat_map(|p| p.pairs()) {
        if !names.iter().any(|n| n == name) {
            names.push(name.to_owned());
        }
    }
    names
}

/// `orders.csv line 4`.
fn origin(week: &Week, part: &Part) -> String {
    let origin = match (part.gate, part.extra) {
        (Some(gate), _) => &week.gates[gate].origin,
        (None, Some(extra)) => &week.extras[extra].origin,
        (None, None) => return String::new(),
    };
    origin.words()
}
