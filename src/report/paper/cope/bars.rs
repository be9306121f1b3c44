//! The check bars: 100 mm and 4 in, to be measured on the print before a template is used.

use crate::report::draw::{Path, Pen, Tag, Text};
use crate::report::paper::{Block, POINTS_PER_MM};

/// Both bars one over the other.
pub fn bars() -> Block {
    let mut block = Block::new(30.0);
    let bars = [
        (100.0 * POINTS_PER_MM, "100 mm", 8.0),
        (288.0, "4 in", 22.0),
    ];
    for (long, name, y) in bars {
        let path = Path::line(0.0, y, long, y)
            .and(Path::line(0.0, y - 5.0, 0.0, y + 5.0))
            .and(Path::line(long, y - 5.0, long, y + 5.0));
        let tag = Tag {
            class: String::from("check-bar"),
            data: vec![("long", name.to_string())],
        };
        block.shape(path, Some(Pen::solid(0.8)), None, Some(tag));
        block.text(Text::new(long + 5.0, y + 3.5, 10.0, name).bold());
    }
    block.text(Text::new(
        14.0,
        18.0,
        7.5,
        "measure both before use: print at 100 %, no fitting to the page",
    ));
    block
}
