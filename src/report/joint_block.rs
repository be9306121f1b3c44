//! One joint on the cut sheet: what to take, what to cut, what is left.

use crate::measure::{Length, Units};
use crate::plan::PlannedJoint;

use super::blade::AT_TRIM;
use super::cope_kind::CopeKinds;
use super::cut_sheet::{supplier, what};
use super::figures::Figures;
use super::job::Job;
use super::piece_ends::piece_ends;
use super::planned_length::keep_if_longer;
use super::sheet::Block;
use super::table::{Cell, Column, Kind, Table};
use super::wrap::HARD_SPACE;

/// What to do with a joint that measures too short.
pub(super) const TOO_SHORT: &str = "If shorter, set it aside and take a longer one of the same \
     pipe; else ask the office for a new plan";

/// The block of one joint.
pub(super) fn joint_block(job: Job<'_>, kinds: &CopeKinds, joint: &PlannedJoint) -> Block {
    let figures = Figures::of(job.week);
    let mut blocks = vec![Block::Note(format!("Take: {}", take(job, joint)))];
    if joint.measure_first {
        let least = (joint.length - joint.leftover).up_to(job.mark());
        blocks.push(Block::Alert(format!(
            "MEASURE FIRST: must be {} or longer. {TOO_SHORT}.",
            figures.spoken(least)
        )));
    }
    if joint.pieces.is_empty() {
        blocks.push(Block::Note("Not cut: goes to the rack whole.".to_owned()));
    } else {
        blocks.push(Block::Note(String::new()));
        blocks.push(Block::Table(pieces(job, kinds, joint)));
        blocks.push(Block::Note(String::new()));
    }
    blocks.extend(over_tape_note(job, joint));
    blocks.extend(scribe_note(joint));
    blocks.push(Block::Note(left_over(figures, joint)));
    blocks.extend(keep_if_longer(job.week, joint).map(Block::Note));
    for gate in job.done_after(joint.number) {
        blocks.push(Block::Note(format!(
            "[ ] Gate {gate} complete after joint {}.",
            joint.number
        )));
    }
    Block::Group {
        title: format!(
            "JOINT {} of {}   {}",
            joint.number,
            job.plan.joints.len(),
            job.pipe(joint.pipe)
        ),
        aside: job.heading().strip(),
        blocks,
    }
}

fn take(job: Job<'_>, joint: &PlannedJoint) -> String {
    let mut words = what(job, joint);
    let supplier = super::table::clean(supplier(job, joint));
    if !supplier.is_empty() {
        words.push_str(&format!(", from {supplier}"));
    }
    if joint.near == Length::ZERO {
        words.push_str("; near end is clean, no trim");
    }
    words
}

fn pieces(job: Job<'_>, kinds: &CopeKinds, joint: &PlannedJoint) -> Table {
    let figures = Figures::of(job.week);
    let mut rows = Vec::new();
    if joint.near > Length::ZERO {
        rows.push(vec![
            Cell::text("[ ]"),
            Cell::text("near trim"),
            Cell::Missing,
            Cell::Missing,
            Cell::text(AT_TRIM.replace(' ', HARD_SPACE)),
            figures.marked(joint.near),
        ]);
    }
    for piece in &joint.pieces {
        let ends = piece_ends(job, kinds, piece);
        let mut running = figures.marked(piece.end);
        if let Cell::Figure { printed, .. } = &mut running
            && over_tape(job, piece.end)
        {
            printed.push('*');
        }
        rows.push(vec![
            Cell::text("[ ]"),
            Cell::text(&piece.mark),
            figures.exact(piece.saw),
            figures.throat(ends.throat, piece.saw),
            Cell::text(ends.joined()),
            running,
        ]);
    }
    Table {
        columns: vec![
            Column::new("cut", Kind::Mark),
            Column::new("mark", Kind::Mark),
            Column::new("SAW LENGTH", Kind::Figure),
            Column::new("throat", Kind::Figure),
            Column::new("ends", Kind::Words),
            Column::new("RUNNING MARK", Kind::Figure),
        ],
        rows,
    }
}

/// A running mark past the end of the shop's tape.
pub(super) fn over_tape(job: Job<'_>, running: Length) -> bool {
    let tape = job.week.shop.saw.tape;
    tape.is_some_and(|tape| running.to_nearest(job.mark()) > tape)
}

fn over_tape_note(job: Job<'_>, joint: &PlannedJoint) -> Option<Block> {
    let tape = job.week.shop.saw.tape?;
    let over = joint.pieces.iter().any(|p| over_tape(job, p.end));
    over.then(|| {
        let tape = Figures::of(job.week).spoken(tape);
        Block::Alert(format!("* is past the end of the {tape} tape."))
    })
}

fn scribe_note(joint: &PlannedJoint) -> Option<Block> {
    scribe_words(joint).map(Block::Note)
}

/// What to scribe on the pieces of spliced lines before they are cut off; `None` where there are none.
pub(super) fn scribe_words(joint: &PlannedJoint) -> Option<String> {
    let marks: Vec<&str> = joint
        .pieces
        .iter()
        .filter(|p| p.piece.is_some())
        .map(|p| p.mark.as_str())
        .collect();
    (!marks.is_empty()).then(|| {
        format!(
            "Scribe the top line along {} before it is cut off: splices are matched by it.",
            marks.join(", ")
        )
    })
}

fn left_over(figures: Figures<'_>, joint: &PlannedJoint) -> String {
    let floor = match figures.units() {
        Units::Inch => figures.left(joint.floor, joint.kept),
        Units::Metric => format!("{}{HARD_SPACE}mm", figures.left(joint.floor, joint.kept)),
    }
    .replace(' ', HARD_SPACE);
    match (&joint.keep_tag, joint.kept) {
        (Some(tag), _) => format!("[ ] KEEP: paint {tag} on it, {floor} lies on the floor."),
        (None, true) => format!("[ ] KEEP: {floor} lies on the floor."),
        (None, false) if joint.floor == Length::ZERO => "Nothing is left.".to_owned(),
        (None, false) => format!("[ ] SCRAP: {floor} lies on the floor."),
    }
}

/// A small length in words, finer than the saw mark: `7/64"` or `2.5 mm`.
pub(super) fn fine(figures: Figures<'_>, length: Length) -> String {
    match figures.units() {
        Units::Inch => figures
            .words(length)
            .strip_prefix("0'-0 ")
            .map_or_else(|| figures.words(length), str::to_owned),
        Units::Metric => format!("{} mm", figures.number(length)),
    }
}
