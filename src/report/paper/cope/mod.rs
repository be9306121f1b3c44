//! The cope sheet: one template per kind of coped end, at full scale.

mod bars;
mod kinds;
mod template;
mod users;

use crate::cope::Method;
use crate::report::draw::{Face, Text};

use super::desk::Desk;
use super::gate::cutback;
use super::wrap::paragraph;
use super::{Block, Piece, Section};

pub use kinds::{Kind, Kinds};
pub use template::{fine_length, template};
pub use users::{scribe_table, users};

/// Every kind that the shop cuts.
pub fn shop_kinds<'a>(desk: &'a Desk) -> impl Iterator<Item = &'a Kind> {
    let kinds = desk.kinds.list.iter();
    kinds.filter(|k| !k.rows.is_empty())
}

/// Every kind that the shop cuts, with its template.
pub fn sheets(desk: &Desk) -> Section {
    let kinds: Vec<&Kind> = shop_kinds(desk).collect();
    Section {
        title: String::from("Cope sheets"),
        header: String::from("Cope templates, full scale"),
        pieces: vec![templates(desk, &kinds)],
    }
}

/// Kinds under the check bars, which every page repeats.
pub fn templates(desk: &Desk, kinds: &[&Kind]) -> Piece {
    Piece {
        head: Some(bars::bars()),
        blocks: kinds.iter().map(|k| block(desk, k)).collect(),
    }
}

/// Narrowest column that words stand in beside a template, points.
const BESIDE: f64 = 150.0;

/// One kind: what it meets, where it is used, its template; the words beside it where there is room.
fn block(desk: &Desk, kind: &Kind) -> Block {
    let drawn = template(desk, kind);
    let wide = template::width(desk, kind);
    let room = desk.room - wide - 14.0;
    let mut block = Block::new(0.0);
    if room >= BESIDE {
        let words = words(desk, kind, room);
        block.height = drawn.height.max(words.height);
        block.place(0.0, 0.0, drawn);
        block.place(wide + 14.0, 0.0, words);
    } else {
        block = words(desk, kind, desk.room);
        block.below(2.0, drawn);
    }
    block.height += 10.0;
    block
}

/// Code, pipe, what it meets and who has it, `room` points wide.
fn words(desk: &Desk, kind: &Kind, room: f64) -> Block {
    let mut block = Block::new(30.0);
    let code = Text::new(0.0, 24.0, 28.0, &kind.code).bold();
    let left = code.width() + 10.0;
    block.text(code);
    let pipe = paragraph(Face::Bold, 12.0, room - left, &desk.pipe(kind.pipe));
    block.height = pipe.height.max(30.0);
    block.place(left, 0.0, pipe);
    block.below(
        1.0,
        paragraph(Face::Regular, 10.0, room, &meets(desk, kind)),
    );
    block.below(3.0, scribe_table(desk, kind, room).block());
    block.below(
        3.0,
        paragraph(Face::Regular, 10.0, room, &users(desk, kind)),
    );
    block
}

/// What an end meets and how it is cut.
pub fn meets(desk: &Desk, kind: &Kind) -> String {
    let one = |m: &crate::gate::Meeting| {
        format!(
            "{} at {:.2}°",
            desk.week.pipe(m.pipe).name,
            m.phi.to_degrees()
        )
    };
    let list: Vec<String> = kind.cope.meets.iter().map(one).collect();
    let how = match kind.method {
        Method::TrueSaddle => "true saddle (outside profile)",
        Method::Radial => "radial cut (square to the axis)",
    };
    let feather = if kind.cope.cut.feather {
        " Feather edge at the long point."
    } else {
        ""
    };
    format!(
        "meets {} · {how} · cutback {} · wrap length {} with 0.1 mm paper.{feather}",
        list.join(" and "),
        cutback(desk, kind.cope.cut.cutback),
        fine_length(
            desk.units(),
            std::f64::consts::TAU * (desk.week.pipe(kind.pipe).radius() + 0.5 * template::PAPER)
        ),
    )
}
