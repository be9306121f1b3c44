//! Gate sheets: one block per gate order, bay lines, lean, check measure, weight, marks, cautions.

use crate::gate::{Frame, Role};
use crate::order::{Bays, GateOrder, Impossible, Lean, Variant};

use super::bending::figures_of;
use super::brace_words::brace_words;
use super::cautions::gate_cautions;
use super::counted::counted;
use super::figures::{Figures, degrees};
use super::gate_lines::{gate_records, line_table};
use super::hand_words::hand_words;
use super::job::Job;
use super::left_out::gate_out;
use super::roller_words;
use super::sheet::{Block, Sheet};
use super::table::{Cell, Column, Kind, Table};

/// The gate sheets of the week.
pub(super) fn gate_sheet(job: Job<'_>) -> Sheet {
    let left_out = &job.plan.left_out;
    let frames = job.take_off.frames.iter();
    let planned = frames.filter(|f| !gate_out(left_out, f.gate));
    let mut blocks: Vec<Block> = Impossible::together(left_out)
        .iter()
        .map(|(parts, item)| out_block(job, parts, item))
        .collect();
    blocks.extend(planned.map(|frame| gate_block(job, frame)));
    Sheet {
        stem: "gates".to_owned(),
        title: "GATES".to_owned(),
        heading: job.heading(),
        blocks,
        records: Some(gate_records(job)),
    }
}

/// What is left out: why, and what frees it.
fn out_block(job: Job<'_>, parts: &str, item: &Impossible) -> Block {
    let part = match &item.part {
        Some(_) => format!("{}: ", super::table::clean(parts)),
        None => String::new(),
    };
    Block::Group {
        title: format!("LEFT OUT: {}", super::table::clean(&item.mark)),
        aside: job.heading().strip(),
        blocks: vec![
            Block::Alert(format!("{part}{}", super::table::clean(&item.reason))),
            Block::Note(format!(
                "To make it possible: {}",
                super::table::clean(&item.change)
            )),
        ],
    }
}

fn gate_block(job: Job<'_>, frame: &Frame) -> Block {
    let gate = &job.week.gates[frame.gate];
    let mut blocks = vec![
        Block::Pairs(facts(job, gate, frame)),
        Block::Note(String::new()),
        Block::Table(line_table(job, frame)),
        Block::Note(String::new()),
        Block::Table(marks(job, frame.gate)),
        Block::Note(String::new()),
        Block::Pairs(super::gate_weight::weight_pairs(job, frame.gate)),
    ];
    for notice in job
        .week
        .notices
        .iter()
        .filter(|n| n.file == gate.origin.file && n.line == Some(gate.origin.line))
    {
        blocks.push(Block::Alert(format!("{} {}", notice.what, notice.mend)));
    }
    blocks.push(Block::Note(String::new()));
    blocks.push(Block::Pairs(figures_of(job.week, frame)));
    blocks.push(Block::Points(gate_cautions(job.week, gate)));
    Block::Group {
        title: title(gate),
        aside: job.heading().strip(),
        blocks,
    }
}

fn title(gate: &GateOrder) -> String {
    match gate.count {
        0 => format!("GATE {}   none this week", gate.mark),
        1 => format!("GATE {}", gate.mark),
        n => format!(
            "GATE {}   {n} alike: {m}.1 to {m}.{n}",
            gate.mark,
            m = gate.mark
        ),
    }
}

fn facts(job: Job<'_>, gate: &GateOrder, frame: &Frame) -> Vec<(String, String)> {
    let figures = Figures::of(job.week);
    let mut pairs = vec![
        Block::pair("Opening", figures.spoken(gate.opening)),
        Block::pair(
            "Height",
            format!("{} outside to outside", figures.spoken_of(frame.height)),
        ),
        Block::pair(
            "Leaf",
            format!(
                "{} outside to outside of the end posts",
                figures.spoken_of(frame.leaf)
            ),
        ),
        Block::pair("Overlap and tail", overlap_and_tail(figures, gate)),
        Block::pair(
            "Hand",
            format!(
                "{}; parts and splices are the same for both hands",
                hand_words(gate)
            ),
        ),
        Block::pair("Bays", bays(figures, gate, frame)),
        Block::pair("Diagonals", lean(frame)),
        Block::pair("Built", variant(frame.variant)),
        Block::pair("End posts run past", post_ends(figures, frame)),
        Block::pair("Check measure", check_measure(figures, frame)),
        Block::pair("Rollers", roller_words::stand(job.week, frame)),
        Block::pair("Complete", complete(job, frame.gate)),
    ];
    if let Some(due) = gate.due {
        pairs.push(Block::pair("Due", due.to_string()));
    }
    if let Some(words) = brace_words(job.week, frame) {
        pairs.push(Block::pair("Sway brace", words));
        pairs.push(Block::pair("Standoffs", standoffs(job, frame)));
    }
    if gate.barbed > 0 {
        pairs.push(Block::pair(
            "Barbed top",
            counted(gate.barbed, "strand", "strands"),
        ));
    }
    if gate.kit {
        pairs.push(Block::pair(
            "Kit",
            "horizontals bought by the customer: see kit sheet",
        ));
    }
    if let Some(words) = no_splice_in(gate) {
        pairs.push(Block::pair("Splices", words));
    }
    if gate.high_stress {
        let over = job.week.shop.splice.refuse_over;
        pairs.push(Block::pair(
            "Splices",
            format!("the order permits them over {over} of the peak stress"),
        ));
    }
    if !gate.brackets.is_empty() {
        let at: Vec<String> = gate.brackets.iter().map(|l| figures.spoken(*l)).collect();
        let words = format!("{} from the latch face", at.join(", "));
        pairs.push(Block::pair("Brackets", words));
    }
    for (name, value) in gate.paperwork.pairs() {
        pairs.push(Block::pair(name, super::table::clean(value)));
    }
    if !gate.note.is_empty() {
        pairs.push(Block::pair("Note", super::table::clean(&gate.note)));
    }
    pairs
}

/// The bays that the order keeps free of splices: `none in bays 3 and 4, by the order`.
pub(super) fn no_splice_in(gate: &GateOrder) -> Option<String> {
    let bays: Vec<String> = gate.excluded_bays.iter().map(u32::to_string).collect();
    let (last, others) = bays.split_last()?;
    Some(match others {
        [] => format!("none in bay {last}, by the order"),
        _ => format!(
            "none in bays {} and {last}, by the order",
            others.join(", ")
        ),
    })
}

/// Which bay lines each kind of standoff takes: `A7-BS1 at 1 and 8; A7-BS2 at 2 and 7`.
fn standoffs(job: Job<'_>, frame: &Frame) -> String {
    let same = |a: f64, b: f64| (a - b).abs() <= 1e-6 * crate::measure::INCH;
    let members = |axis: f64| {
        let all = frame.members.iter().filter(|m| m.role == Role::Standoff);
        let lines = all.filter(move |m| same(m.axis, axis));
        lines.map(|m| m.place.to_string()).collect::<Vec<String>>()
    };
    let parts = job.parts_of(frame.gate);
    let words: Vec<String> = parts
        .filter(|(_, p)| p.role == Some(Role::Standoff))
        .map(|(_, p)| {
            let lines = members(p.axis);
            let s = if lines.len() == 1 { "" } else { "s" };
            format!("{} at bay line{s} {}", p.mark, lines.join(" and "))
        })
        .collect();
    words.join("; ")
}

fn overlap_and_tail(figures: Figures<'_>, gate: &GateOrder) -> String {
    format!(
        "{} past the latch support, {} behind the front roller support, tail {}",
        figures.spoken(gate.latch_overlap),
        figures.spoken(gate.roller_overlap),
        figures.spoken_of(gate.tail)
    )
}

fn bays(figures: Figures<'_>, gate: &GateOrder, frame: &Frame) -> String {
    let count = frame.bays.len();
    match (&gate.bays, frame.bays.first()) {
        (Bays::Fixed(fixed), _) => {
            let at: Vec<String> = fixed.iter().map(|l| figures.spoken(*l)).collect();
            format!(
                "{}, fixed at {} from the latch face, evenly between",
                counted(count, "bay", "bays"),
                at.join(" and ")
            )
        }
        (Bays::Lines(_), _) | (_, None) => {
            format!("{} on given bay lines", counted(count, "bay", "bays"))
        }
        (_, Some(bay)) => format!(
            "{} of {}",
            counted(count, "bay", "equal bays"),
            figures.spoken_of(bay.to - bay.from)
        ),
    }
}

fn lean(frame: &Frame) -> String {
    let way = match frame.lean {
        Lean::HeadToTail => "all lean one way: foot to the latch end, head to the tail",
        Lean::HeadToLatch => "all lean one way: foot to the tail, head to the latch end",
    };
    let mut angles: Vec<String> = Vec::new();
    for bay in &frame.bays {
        let angle = degrees(std::f64::consts::FRAC_PI_2 - bay.alpha);
        if !angles.contains(&angle) {
            angles.push(angle);
        }
    }
    format!("{way}; {} from the vertical", angles.join(", "))
}

fn variant(variant: Variant) -> &'static str {
    match variant {
        Variant::PostsRunPast => "end posts run past, horizontals coped onto them",
        Variant::Through => "horizontals run through, end posts stand between them",
    }
}

fn post_ends(figures: Figures<'_>, frame: &Frame) -> String {
    format!(
        "{} above the top horizontal's outside face, {} below the bottom one's; tip to tip {}",
        figures.spoken_of(frame.rise),
        figures.spoken_of(frame.drop),
        figures.spoken_of(frame.height + frame.rise + frame.drop)
    )
}

fn check_measure(figures: Figures<'_>, frame: &Frame) -> String {
    let where_to = match frame.variant {
        Variant::PostsRunPast => {
            "top outside end of one end post to bottom outside end of the other"
        }
        Variant::Through => "outside corners of the horizontals",
    };
    format!(
        "{}, {where_to}, both ways equal",
        figures.spoken_of(frame.check_measure)
    )
}

pub(super) fn complete(job: Job<'_>, gate: usize) -> String {
    let done = job.plan.done.iter().filter(|d| d.gate == gate);
    let words: Vec<String> = done
        .map(|d| {
            format!(
                "{} after joint {}",
                job.copy_mark(gate, d.copy),
                d.after_joint
            )
        })
        .collect();
    if words.is_empty() {
        super::table::DASH.to_owned()
    } else {
        words.join(", ")
    }
}

fn marks(job: Job<'_>, gate: usize) -> Table {
    let figures = Figures::of(job.week);
    let rows = job.parts_of(gate).map(|(_, part)| {
        let by = if part.ours { "" } else { " (customer's)" };
        vec![
            Cell::text("[ ]"),
            Cell::text(&part.mark),
            Cell::count(part.per_gate),
            Cell::text(format!("{}{by}", super::job::role_name(part.role))),
            Cell::text(&job.week.pipe(part.pipe).name),
            figures.exact(part.saw),
            figures.maybe(part.top_line),
            figures.maybe(part.under_line),
        ]
    });
    Table {
        columns: vec![
            Column::new("", Kind::Mark),
            Column::new("mark", Kind::Mark),
            Column::new("a gate", Kind::Number),
            Column::new("part", Kind::Words),
            Column::new("pipe", Kind::Words),
            figures.column("saw length", "saw_length"),
            figures.column("top line", "top_line"),
            figures.column("under line", "under_line"),
        ],
        rows: rows.collect(),
    }
}
