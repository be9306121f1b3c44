//! Splice sheets: each spliced horizontal with its pieces, its splices from three places, its prep.

mod drawing;
pub mod line;

use crate::report::draw::Face;

use super::desk::Desk;
use super::gate::copies;
use super::wrap::{bullet, paragraph};
use super::{Block, Piece, Section};

pub use drawing::drawing;

/// One section over every gate that has spliced horizontals.
pub fn sheets(desk: &Desk) -> Option<Section> {
    let mut pieces = Vec::new();
    for frame in desk.frames() {
        for (copies, made) in copies(desk, frame) {
            for spliced in made {
                let names: Vec<String> = copies
                    .iter()
                    .map(|c| desk.gate_copy(frame.gate, *c))
                    .collect();
                pieces.push(Piece::of(line::block(desk, frame, spliced, &names)));
            }
        }
    }
    if pieces.is_empty() {
        return None;
    }
    pieces.push(Piece::of(notes(desk)));
    Some(Section {
        title: String::from("Splice sheets"),
        header: String::from("Splice sheet"),
        pieces,
    })
}

fn notes(desk: &Desk) -> Block {
    let mut block = paragraph(Face::Bold, 12.0, desk.room, "Every splice");
    for words in NOTES {
        block.below(1.0, bullet(Face::Regular, 10.0, desk.room, words));
    }
    block
}

/// What holds for every splice.
pub const NOTES: [&str; 6] = [
    "Piece ends at a splice are square. Prep, backing and filler by the shop's written procedure; published for pipe butt welds: bevel 37-1/2° ± 2-1/2°, root face 1/16 ± 1/32 in, 1.6 ± 0.8 mm (ASME B16.25).",
    "Complete-penetration weld by a qualified welder to a written procedure; one-sided welds want a backing ring or sleeve, or a qualified open root.",
    "Carry the scribe line across the splice before tacking; roll the seam welds of the pieces apart.",
    "Dress the outside flush (within 1/32 in or 0.8 mm, full turn) wherever rollers run; do not undercut.",
    "Where there is zinc, remove it at least 2 in (50 mm) each side before welding; zinc fume: ventilate, respirator. Repair the coating afterwards.",
    "Support both pieces straight on the same bench; check the whole length with a string after the weld has cooled.",
];
