//! Cut sheets: joint by joint in pull order, one section per saw; and the same pieces by length for
//! a stop block.

pub mod blade;
mod block;
mod columns;
mod fold;
mod folded;
mod foot;
mod head;
mod lines;
mod order;
mod single;
mod stop;
mod strip;

use std::collections::BTreeSet;

use crate::measure::Length;
use crate::plan::PlannedJoint;
use crate::report::blade::blade_rule;
use crate::report::counted::counted;
use crate::report::draw::Face;

use super::desk::Desk;
use super::flow::GAP;
use super::wrap::paragraph;
use super::{Block, Piece, Section};

pub use foot::near_trim;
pub use lines::{beyond_tape, throat_words};
pub use order::{pull_order, table as pull_table};
pub use stop::{by_length, lengths};
pub use strip::strip;

/// One section per saw.
pub fn sheets(desk: &Desk) -> Vec<Section> {
    let longest = desk
        .plan
        .joints
        .iter()
        .map(|j| j.length)
        .max()
        .unwrap_or(Length::FOOT);
    let sittings = &desk.plan.sittings;
    let section = |s: &crate::plan::Sitting| {
        let own: BTreeSet<_> = s.joints.iter().copied().collect();
        let all = desk.plan.joints.iter();
        let joints: Vec<&PlannedJoint> = all.filter(|j| own.contains(&j.number)).collect();
        let words = how_to_read(desk);
        let runs = fold::fold(&joints, |joint, n| folded::holds(desk, joint, n));
        let mut pieces = Vec::new();
        for (i, run) in runs.iter().enumerate() {
            let mut drawn = block::blocks(desk, run, longest, desk.high);
            if i == 0 {
                // Set closer, the first joint may stand below the words.
                let beside = desk.high - words.height - 2.0 * GAP;
                let closer = block::blocks(desk, run, longest, beside);
                if closer.len() == drawn.len() {
                    drawn = closer;
                }
            }
            pieces.extend(drawn.into_iter().map(Piece::of));
        }
        pieces.insert(0, Piece::of(words));
        let many = sittings.len() > 1;
        let saw = if many {
            format!("Cut sheet, saw {} of {}", s.saw, sittings.len())
        } else {
            String::from("Cut sheet")
        };
        Section {
            title: String::from("Cut sheets"),
            header: format!(
                "{saw} · {}, about {:.0} min",
                counted(joints.len(), "joint", "joints"),
                s.minutes
            ),
            pieces,
        }
    };
    sittings.iter().map(section).collect()
}

/// How to read the sheet, beside the picture of the blade.
fn how_to_read(desk: &Desk) -> Block {
    let picture = blade::picture(desk);
    let room = desk.room - blade::WIDE - 14.0;
    let mut block = paragraph(Face::Regular, 9.0, room, &rule(desk));
    block.height = block.height.max(picture.height);
    block.place(desk.room - blade::WIDE, 0.0, picture);
    block
}

/// How to read the sheet, in words.
pub fn rule(desk: &Desk) -> String {
    let kerf = desk.short(desk.shop().saw.kerf);
    let blade = blade_rule(blade::trimmed(desk));
    let keep = desk.length(desk.shop().money.keep_length);
    let tape = match desk.shop().saw.tape {
        Some(t) => format!(" A mark in black is beyond the {} tape.", desk.length(t)),
        None => String::new(),
    };
    let unit = match desk.units() {
        crate::measure::Units::Metric => " All lengths in mm.",
        crate::measure::Units::Inch => "",
    };
    format!(
        "Hook the tape on the raw near end (left) and lay out every running mark before the first cut. {blade} Kerf {kerf}. Saw length is tip to tip; c4 = cope 4 of the cope sheets, sq = square, splice = square for the weld. KEEP from {keep} after a clean cut of its raw end; on the floor it still has that end.{tape}{unit}"
    )
}
