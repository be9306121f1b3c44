//! Every piece of every part is cut once, under its own mark, to its own length, from its own pipe.

use std::collections::BTreeMap;

use super::form::{Piece, Spliced};
use super::papers::{Papers, number};
use crate::check::Rule;
use crate::check::docket::Docket;

/// (part, copy, serial).
type Key = (usize, u32, u32);

/// Judges what the joints hold against the parts and the spliced lines.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let mut lines: BTreeMap<Key, &Spliced> = BTreeMap::new();
    for line in &plan.spliced {
        let key = (line.part, line.copy, line.serial);
        let once = lines.insert(key, line).is_none();
        docket.demand(once, Rule::FileSpliced, &line.mark, || {
            "it is spliced twice".to_owned()
        });
        docket.demand(exists(papers, key), Rule::FileSpliced, &line.mark, || {
            format!("no such line: {key:?}")
        });
    }
    let mut cut: BTreeMap<(Key, u32), u32> = BTreeMap::new();
    for joint in &plan.joints {
        for piece in &joint.pieces {
            let key = (piece.part, piece.copy, piece.serial);
            let line = lines.get(&key).copied();
            *cut.entry((key, piece.piece.unwrap_or(0))).or_default() += 1;
            each(papers, piece, line, docket);
            let pipe = plan.parts[piece.part].pipe;
            docket.same(pipe, joint.pipe, Rule::FilePiece, &piece.mark);
        }
    }
    let twice = cut.values().any(|n| *n != 1);
    docket.demand(!twice, Rule::FilePieces, "joints", || {
        "a piece is cut twice".to_owned()
    });
    // Each piece cut is one that is wanted and none is cut twice: as many as are wanted are all of them.
    let own = plan.parts.iter().filter(|p| p.ours && !p.left_out);
    let whole: i128 = own.map(|p| i128::from(p.count)).sum();
    let more = lines.values().map(|l| number(l.pieces.len()) - 1);
    let wanted = whole + more.sum::<i128>();
    docket.same(number(cut.len()), wanted, Rule::FilePieces, "joints");
}

fn exists(papers: &Papers<'_>, (part, copy, serial): Key) -> bool {
    let part = &papers.plan.parts[part];
    let (first, last) = papers.copies(part);
    part.ours
        && !part.left_out
        && (first..=last).contains(&copy)
        && (1..=part.per_gate).contains(&serial)
}

fn each(papers: &Papers<'_>, piece: &Piece, line: Option<&Spliced>, docket: &mut Docket) {
    let part = &papers.plan.parts[piece.part];
    let there = exists(papers, (piece.part, piece.copy, piece.serial));
    docket.demand(there, Rule::FilePieces, &piece.mark, || {
        format!(
            "no such piece: copy {}, number {}",
            piece.copy, piece.serial
        )
    });
    let mark = papers.part_mark(part, piece.copy);
    let (mark, length) = match (line, piece.piece) {
        (None, None) => {
            let throat = (piece.throat.ticks, part.throat.ticks);
            docket.same(throat.0, throat.1, Rule::FilePiece, &piece.mark);
            (mark, Some(part.saw_length.ticks))
        }
        (Some(line), Some(number)) => {
            let at = usize::try_from(number).unwrap_or(usize::MAX);
            let length = at.checked_sub(1).and_then(|i| line.pieces.get(i));
            (format!("{mark}/{number}"), length.map(|l| l.ticks))
        }
        _ => (mark, None),
    };
    docket.same(
        piece.mark.as_str(),
        mark.as_str(),
        Rule::FilePiece,
        &piece.mark,
    );
    docket.same(
        Some(piece.saw_length.ticks),
        length,
        Rule::FilePiece,
        &piece.mark,
    );
}
