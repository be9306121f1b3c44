//! The cope sheet: one template per kind of coped end, at full scale.

mod bars;
mod kinds;
mod template;

use crate::cope::Method;
use crate::gate::Role;
use crate::part::Part;
use crate::report::cope_sheet::end_name;
use crate::report::counted::counted;
use crate::report::draw::{Face, Text};

use super::desk::Desk;
use super::gate::cutback;
use super::wrap::paragraph;
use super::{Block, Piece, Section};

pub use kinds::{Kind, Kinds, Use};
pub use template::{fine_length, template};

/// Every kind of the week.
pub fn sheets(desk: &Desk) -> Section {
    let kinds: Vec<&Kind> = desk.kinds.list.iter().collect();
    Section {
        title: String::from("Cope sheets"),
        header: String::from("Cope templates, full scale"),
        pieces: vec![templates(desk, &kinds, None)],
    }
}

/// Kinds under the check bars, which every page repeats (of one gate only, where one is named).
pub fn templates(desk: &Desk, kinds: &[&Kind], gate: Option<usize>) -> Piece {
    Piece {
        head: Some(bars::bars()),
        blocks: kinds.iter().map(|k| block(desk, k, gate)).collect(),
    }
}

/// Narrowest column that words stand in beside a template, points.
const BESIDE: f64 = 150.0;

/// One kind: what it meets, where it is used, its template; the words beside it where there is room.
fn block(desk: &Desk, kind: &Kind, gate: Option<usize>) -> Block {
    let drawn = template(desk, kind);
    let wide = template::width(desk, kind);
    let room = desk.room - wide - 14.0;
    let mut block = Block::new(0.0);
    if room >= BESIDE {
        let words = words(desk, kind, gate, room);
        block.height = drawn.height.max(words.height);
        block.place(0.0, 0.0, drawn);
        block.place(wide + 14.0, 0.0, words);
    } else {
        block = words(desk, kind, gate, desk.room);
        block.below(2.0, drawn);
    }
    block.height += 10.0;
    block
}

/// Code, pipe, what it meets and who has it, `room` points wide.
fn words(desk: &Desk, kind: &Kind, gate: Option<usize>, room: f64) -> Block {
    let mut block = Block::new(30.0);
    let code = Text::new(0.0, 24.0, 28.0, &kind.code).bold();
    let left = code.width() + 10.0;
    block.text(code);
    let pipe = paragraph(Face::Bold, 12.0, room - left, &desk.pipe(kind.pipe));
    block.height = pipe.height.max(30.0);
    block.place(left, 0.0, pipe);
    for words in [meets(desk, kind), users(desk, kind, gate)] {
        block.below(1.0, paragraph(Face::Regular, 10.0, room, &words));
    }
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

fn scribe(role: Option<Role>) -> &'static str {
    match role {
        Some(Role::TopHorizontal | Role::BottomHorizontal | Role::SwayBrace) => "up",
        Some(Role::FirstDiagonal | Role::Diagonal | Role::LastDiagonal) => "underside",
        _ => "toward the tail",
    }
}

/// Which ends of which parts it serves, and how it is clocked.
pub fn users(desk: &Desk, kind: &Kind, gate: Option<usize>) -> String {
    let mut words: Vec<String> = Vec::new();
    let mut roles: Vec<&str> = Vec::new();
    let mut ends: u32 = 0;
    for pair in kind.uses.chunk_by(|a, b| a.part == b.part) {
        let Some(part) = pair.first().and_then(|u| desk.take_off.parts.get(u.part)) else {
            continue;
        };
        if gate.is_some() && part.gate != gate {
            continue;
        }
        let lines = lines(desk, part);
        words.push(format!("{} {}{lines}", part.mark, which_ends(part, pair)));
        if !roles.contains(&scribe(part.role)) {
            roles.push(scribe(part.role));
        }
        let per = u32::try_from(pair.len()).unwrap_or(u32::MAX);
        ends = ends.saturating_add(part.count.saturating_mul(per));
    }
    format!(
        "{}: {}. The scribe line ({}) is one line for both ends of a part. Heights are from the throat line toward the tip.",
        counted(ends, "end", "ends"),
        words.join("; "),
        roles.join(" or "),
    )
}

/// A diagonal's check lengths, tip to tip along its top and its underside: ` (top line …, under line …)`.
fn lines(desk: &Desk, part: &Part) -> String {
    match (part.top_line, part.under_line) {
        (Some(top), Some(under)) => format!(
            " (top line {}, under line {})",
            desk.geometry(top),
            desk.geometry(under)
        ),
        _ => String::new(),
    }
}

/// `both ends`, or each end with how its template is clocked.
fn which_ends(part: &Part, uses: &[Use]) -> String {
    let turned = |u: &Use| if u.turned { ", half a turn round" } else { "" };
    let same = uses.iter().all(|u| u.turned == uses[0].turned);
    match uses {
        [u, _] if same => format!("both ends{}", turned(u)),
        _ => {
            let one = |u: &Use| format!("{}{}", end_name(part.role, u.end), turned(u));
            uses.iter().map(one).collect::<Vec<_>>().join(" and ")
        }
    }
}
