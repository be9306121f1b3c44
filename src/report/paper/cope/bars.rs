//! The check bars: 100 mm and 4 in, to be measured on the print before a template is used.

use crate::report::draw::{Path, Pen, Tag, Text};
use crate::report::paper::{Block, POINTS_PER_MM};

/// Both bars, side by side.
pub fn bars() -> Block {
    let mut block = Block::new(32.0);
    let y = 10.0;
    for (left, long, name) in [
        (0.0, 100.0 * POINTS_PER_MM, "100 mm"),
        (350.0, 288.0, "4 in"),
    ] {
        let right = left + long;
        let path = Path::line(left, y, right, y)
            .and(Path::line(left, y - 5.0, left, y + 5.0))
            .and(Path::line(right, y - 5.0, right, y + 5.0));
        let tag = Tag {
            class: String::from("check-bar"),
            data: vec![("long", name.to_string())],
        };
        block.shape(path, Some(Pen::solid(0.8)), None, Some(tag));
        block.text(Text::new(right + 5.0, y + 3.5, 10.0, name).bold());
    }
    block.text(Text::new(
        0.0,
        24.0,
        9.0,
        "Measure both bars before use: print at 100 %, no fitting to the page.",
    ));
    block
}
