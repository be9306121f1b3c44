//! Kit sheets: what the customer buys locally, how to cut and splice it, and what came in the crate.

use crate::gate::Frame;
use crate::order::GateOrder;
use crate::part::Part;
use crate::plan::{KitAdvice, KitOption};
use crate::report::draw::{Face, Text};
use crate::report::kit_sheet::measure_first;
use crate::report::kit_words::{STANDS, assumed, cautions, over_carrier, stands};
use crate::report::splice_name::splice_name;

use super::desk::Desk;
use super::elevation::short;
use super::splice::line;
use super::table::{TICK_CELL, Table, bold, figures, words};
use super::wrap::{bullet, paragraph};
use super::{Block, Piece, Section, cope};

/// One section per kit gate.
pub fn sheets(desk: &Desk) -> Vec<Section> {
    let section = |frame: &Frame| {
        let gate = desk
            .week
            .gates
            .get(frame.gate)
            .filter(|g| g.kit && g.count > 0)?;
        Some(sheet(desk, frame, gate))
    };
    desk.frames().filter_map(section).collect()
}

fn sheet(desk: &Desk, frame: &Frame, gate: &GateOrder) -> Section {
    let own = |p: &&Part| p.gate == Some(frame.gate);
    let parts: Vec<&Part> = desk.take_off.parts.iter().filter(own).collect();
    let mut pieces = vec![Piece::of(intro(desk, &parts))];
    let advice = desk.plan.kits.iter().find(|k| k.gate == frame.gate);
    if let Some(advice) = advice {
        pieces.push(options(desk, advice).piece());
        for option in advice.options.iter().filter(|o| o.refused.is_none()) {
            pieces.push(Piece::of(cuts(desk, option)));
        }
    }
    let list = checklist(desk, &parts);
    let mut head = Block::new(22.0);
    head.text(Text::new(0.0, 16.0, 14.0, "In the crate: check every part off").bold());
    head.below(0.0, list.head());
    pieces.push(Piece {
        head: Some(head),
        blocks: list.piece().blocks,
    });
    if let Some(words) = over_carrier(desk.job(), frame.gate) {
        pieces.push(Piece::of(paragraph(Face::Bold, 11.0, desk.room, &words)));
    }
    pieces.push(Piece::of(stands_block(desk, frame.gate)));
    pieces.push(Piece::of(cautions_block(desk, gate)));
    let kinds = end_kinds(desk, frame);
    if !kinds.is_empty() {
        let kinds: Vec<&cope::Kind> = kinds.iter().collect();
        pieces.push(cope::templates(desk, &kinds));
    }
    Section {
        title: String::from("Kit sheets"),
        header: format!("Kit, gate {} · for the customer", gate.mark),
        pieces,
    }
}

/// A block under its title.
fn titled(title: &str) -> Block {
    let mut block = Block::new(22.0);
    block.text(Text::new(0.0, 16.0, 14.0, title).bold());
    block
}

/// Check measure, lifting weight, centre of gravity, brace.
fn stands_block(desk: &Desk, gate: usize) -> Block {
    let mut block = titled(STANDS);
    for (label, value) in stands(desk.job(), gate) {
        let words = format!("{label}: {value}");
        block.below(1.0, paragraph(Face::Regular, 11.0, desk.room, &words));
    }
    block
}

fn cautions_block(desk: &Desk, gate: &GateOrder) -> Block {
    let mut block = titled("Cautions");
    for words in cautions(desk.week, gate) {
        block.below(1.0, bullet(Face::Regular, 10.0, desk.room, &words));
    }
    block
}

/// The coped ends of the horizontals that the customer cuts.
fn end_kinds(desk: &Desk, frame: &Frame) -> Vec<cope::Kind> {
    let kinds = desk.kinds.list.iter();
    kinds
        .map(|k| k.for_customer(desk.take_off, frame.gate))
        .filter(|k| !k.rows.is_empty())
        .collect()
}

fn intro(desk: &Desk, parts: &[&Part]) -> Block {
    let mut block = Block::new(0.0);
    for part in parts.iter().filter(|p| !p.ours) {
        let pipe = desk.week.pipe(part.pipe);
        let words = format!(
            "{}: {} of {} · outside diameter {}, wall {}, exactly · {} tip to tip, {} throat to throat",
            short(&part.mark),
            part.per_gate,
            pipe.name,
            desk.dimension(pipe.od),
            desk.dimension(pipe.wall),
            desk.length(part.saw),
            desk.length(part.throat),
        );
        block.below(1.0, paragraph(Face::Bold, 12.0, desk.room, &words));
    }
    let words = format!(
        "Buy these two horizontals near you. {} Ends are cut by the template at the end of this sheet.",
        assumed(desk.week),
    );
    block.below(4.0, paragraph(Face::Regular, 11.0, desk.room, &words));
    block
}

/// What each local joint length asks for.
pub fn options(desk: &Desk, advice: &KitAdvice) -> Table {
    let row = |o: &KitOption| {
        let splices: usize = o.lines.iter().map(|l| l.splices.len()).sum();
        vec![
            desk.length(o.joint),
            match o.refused {
                Some(_) => String::from("–"),
                None => o.joints_per_gate.to_string(),
            },
            match o.refused {
                Some(_) => String::from("–"),
                None => splices.to_string(),
            },
            o.refused
                .clone()
                .unwrap_or_else(|| String::from("as cut below")),
        ]
    };
    Table {
        columns: vec![
            bold(figures("if joints come as", 1.2)),
            bold(figures("joints to buy per gate", 1.2)),
            figures("splices", 0.7),
            words("", 6.0),
        ],
        rows: advice.options.iter().map(row).collect(),
        size: 12.0,
        room: desk.room,
    }
}

/// One option's cuts.
pub fn cut_table(desk: &Desk, option: &KitOption) -> Table {
    let mut rows = Vec::new();
    for (i, joint) in option.cuts.iter().enumerate() {
        for piece in &joint.pieces {
            rows.push(vec![
                TICK_CELL.to_string(),
                (i + 1).to_string(),
                short(&piece.mark).to_string(),
                desk.length(piece.saw),
                desk.at_mark(piece.end),
                desk.left(joint.floor, false),
            ]);
        }
    }
    Table {
        columns: vec![
            words("", 0.3),
            figures("joint", 0.6),
            bold(words("piece", 1.2)),
            bold(figures("saw length", 1.4)),
            bold(figures("running mark", 1.4)),
            figures("left of the joint", 1.4),
        ],
        rows,
        size: 12.0,
        room: desk.room * 0.62,
    }
}

/// Where one option's splices stand.
pub fn splice_words(desk: &Desk, option: &KitOption) -> Vec<String> {
    let mut out = Vec::new();
    for made in &option.lines {
        for (i, splice) in made.splices.iter().enumerate() {
            let mark = desk
                .take_off
                .parts
                .get(made.part)
                .map_or("", |p| short(&p.mark));
            out.push(format!(
                "splice {}: centre {} from the latch end's outside face, {} and {} from the bay lines beside it; root gap {}; it may stand from {} from the long point ({})",
                splice_name(mark, i),
                splice.x.map_or_else(|| String::from("–"), |x| desk.geometry(x)),
                desk.geometry(splice.from_latch_side),
                desk.geometry(splice.from_tail_side),
                cope::fine_length(desk.units(), made.gap),
                line::window(desk, splice),
                line::why(splice),
            ));
        }
    }
    out
}

/// One option's cuts and splices.
fn cuts(desk: &Desk, option: &KitOption) -> Block {
    let mut block = Block::new(22.0);
    let title = format!(
        "From {} joints: {} per gate",
        desk.length(option.joint),
        option.joints_per_gate
    );
    block.text(Text::new(0.0, 16.0, 14.0, title).bold());
    block.below(0.0, cut_table(desk, option).block());
    if let Some(words) = measure_first(desk.week, option) {
        block.below(1.0, paragraph(Face::Bold, 11.0, desk.room, &words));
    }
    for words in splice_words(desk, option) {
        block.below(1.0, paragraph(Face::Regular, 11.0, desk.room, &words));
    }
    block
}

/// The parts in the crate.
pub fn checklist(desk: &Desk, parts: &[&Part]) -> Table {
    let limit = desk.shop().kit.carrier_limit;
    let row = |p: &&Part| {
        let count = f64::from(p.per_gate);
        let long = limit.is_some_and(|l| p.saw > l);
        vec![
            TICK_CELL.to_string(),
            short(&p.mark).to_string(),
            p.per_gate.to_string(),
            desk.pipe(p.pipe),
            desk.length(p.saw),
            desk.weight(p.weight),
            desk.weight(p.weight * count),
            if long {
                String::from("over the carrier's limit")
            } else {
                String::new()
            },
        ]
    };
    Table {
        columns: vec![
            words("", 0.35),
            bold(words("mark", 0.8)),
            bold(figures("pieces", 0.7)),
            words("pipe", 3.2),
            bold(figures("saw length", 1.5)),
            figures("each", 1.0),
            figures("all", 1.0),
            words("", 1.6),
        ],
        rows: parts.iter().filter(|p| p.ours).map(row).collect(),
        size: 12.0,
        room: desk.room,
    }
}
