//! The cover: which plan this is, what it makes, what it takes, what is proved, what to watch.

use std::collections::BTreeSet;

use crate::measure::Length;
use crate::order::{GateOrder, Impossible, Severity, WideOpening};
use crate::plan::PipeOutcome;
use crate::report::counted::counted;
use crate::report::draw::{Face, Text, missing};
use crate::report::left_out::gate_out;
use crate::report::summary::whole_status;

use super::desk::Desk;
use super::table::{Table, bold, figures, words};
use super::verdict::verdict;
use super::wrap::{bullet, paragraph};
use super::{Block, Piece, Section};

/// The cover; `contents` are section titles with their first pages.
pub fn sheet(desk: &Desk, contents: &[(String, usize)]) -> Section {
    let mut pieces = vec![
        Piece::of(head(desk, contents)),
        gates(desk).piece(),
        pipes(desk).piece(),
    ];
    if let Some(whole) = &desk.plan.nest.whole {
        let words = whole_status(desk.job(), whole);
        pieces.push(Piece::of(paragraph(Face::Regular, 10.0, desk.room, &words)));
    }
    pieces.push(Piece::of(paragraph(
        Face::Regular,
        9.0,
        desk.room,
        &waste(desk),
    )));
    let watch = watch(desk);
    if !watch.is_empty() {
        let mut title = Block::new(18.0);
        title.text(Text::new(0.0, 14.0, 13.0, "Watch").bold());
        let blocks = watch
            .iter()
            .map(|w| bullet(Face::Regular, 10.0, desk.room, w))
            .collect();
        pieces.push(Piece {
            head: Some(title),
            blocks,
        });
    }
    Section {
        title: String::from("Cover"),
        header: String::from("Work for the week"),
        pieces,
    }
}

/// What the week makes, its money, its hours.
pub fn facts(desk: &Desk) -> [String; 3] {
    let plan = desk.plan;
    let gates = desk.week.gates.iter().enumerate();
    let gates = gates.filter(|(i, _)| !gate_out(&plan.left_out, *i));
    let gates: u64 = gates.map(|(_, g)| u64::from(g.count)).sum();
    let splices: usize = plan.spliced.iter().map(|l| l.splices.len()).sum();
    let pieces: usize = plan.joints.iter().map(|j| j.pieces.len()).sum();
    let joints = plan.joints.len();
    let m = plan.minutes;
    let minutes = m.joints + m.cuts + m.copes + m.splices;
    [
        [
            counted(gates, "gate", "gates"),
            counted(joints, "joint", "joints"),
            counted(pieces, "piece", "pieces"),
            counted(splices, "splice", "splices"),
        ]
        .join(" · "),
        match plan.total {
            Some(_) => format!(
                "{} landed, less credits, splices included",
                desk.money(plan.total)
            ),
            None => String::from("money not known: a price is missing"),
        },
        format!(
            "about {:.1} h at saw, cope and splice bench (estimate)",
            minutes / 60.0
        ),
    ]
}

fn head(desk: &Desk, contents: &[(String, usize)]) -> Block {
    let mut block = Block::new(0.0);
    let plan = desk.plan;
    block.text(
        Text::new(0.0, 30.0, 30.0, format!("Plan {}", plan.number))
            .bold()
            .fitted(desk.room * 0.62, 14.0),
    );
    let date = plan.date.as_deref().unwrap_or("no date given");
    block.text(Text::new(
        0.0,
        50.0,
        14.0,
        format!("revision {} · {date}", plan.revision),
    ));
    let [facts, money, hours] = facts(desk);
    block.text(Text::new(0.0, 70.0, 15.0, facts).bold());
    block.text(Text::new(0.0, 88.0, 14.0, money));
    block.text(Text::new(0.0, 104.0, 11.0, hours));
    let x = desk.room * 0.66;
    let mut y = 10.0;
    block.text(Text::new(x, y, 10.0, "In this set").bold());
    for (title, page) in contents {
        y += 11.0;
        block.text(Text::new(x, y, 9.0, title));
        block.text(Text::new(desk.room, y, 9.0, page.to_string()).end());
    }
    block.height = (y + 8.0).max(112.0);
    block
}

fn flags(desk: &Desk, g: &GateOrder) -> String {
    let mut list = Vec::new();
    if g.kit {
        list.push(String::from("kit"));
    }
    if g.barbed > 0 {
        list.push(format!("{} barbed", g.barbed));
    }
    if g.automated {
        list.push(String::from("automated"));
    }
    for asked in g.wide_opening(desk.shop()) {
        list.push(String::from(match asked {
            WideOpening::NoBrace => "no sway brace",
            WideOpening::Review => "ENGINEER'S REVIEW",
        }));
    }
    let known = [("job", &g.paperwork.job), ("for", &g.paperwork.customer)];
    let known = known.iter().filter(|(_, value)| !value.is_empty());
    list.extend(known.map(|(name, value)| format!("{name} {value}")));
    if !g.note.is_empty() {
        list.push(g.note.clone());
    }
    list.join(" · ")
}

/// The week's gates.
pub fn gates(desk: &Desk) -> Table {
    let row = |(i, g): (usize, &GateOrder)| {
        let done = desk.plan.done.iter().filter(|d| d.gate == i);
        let after: Vec<String> = done
            .map(|d| match (g.count, d.after_joint) {
                (_, 0) => String::from("nothing to cut"),
                (1, n) => n.to_string(),
                (_, n) => format!("{}: {n}", desk.gate_copy(i, d.copy)),
            })
            .collect();
        let frame = desk.take_off.frames.iter().find(|f| f.gate == i);
        vec![
            g.mark.clone(),
            g.count.to_string(),
            desk.length(g.opening),
            desk.length(g.height),
            frame.map_or(String::from("–"), |f| desk.geometry(f.leaf)),
            match g.hand {
                crate::order::Hand::Left => String::from("left"),
                crate::order::Hand::Right => String::from("right"),
            },
            g.due.map_or(String::from("–"), |d| d.to_string()),
            after.join(", "),
            if gate_out(&desk.plan.left_out, i) {
                String::from("LEFT OUT of this plan")
            } else {
                flags(desk, g)
            },
        ]
    };
    Table {
        columns: vec![
            bold(words("gate", 0.7)),
            figures("make", 0.5),
            figures("opening", 1.1),
            figures("height", 0.9),
            figures("leaf", 1.2),
            words("hand", 0.5),
            words("due", 1.0),
            words("complete after joint", 1.5),
            words("mind", 2.6),
        ],
        rows: desk.week.gates.iter().enumerate().map(row).collect(),
        size: 10.0,
        room: desk.room,
    }
}

/// The week's pipes and what is proved of each.
pub fn pipes(desk: &Desk) -> Table {
    let row = |p: &PipeOutcome| {
        vec![
            desk.pipe(p.pipe),
            p.bought.to_string(),
            p.from_rack.to_string(),
            desk.length(p.waste.in_parts),
            share(p.waste.all_in, p.waste.taken),
            share(p.waste.lost, p.waste.taken),
            verdict(desk.job(), p),
        ]
    };
    Table {
        columns: vec![
            bold(words("pipe", 2.6)),
            figures("buy", 0.5),
            figures("rack", 0.5),
            figures("in parts", 1.1),
            figures("all-in waste", 0.9),
            figures("lost for good", 0.9),
            words("money", 3.2),
        ],
        rows: desk.plan.pipes.iter().map(row).collect(),
        size: 10.0,
        room: desk.room,
    }
}

/// A share in percent; a dash where nothing was taken.
fn share(part: Length, of: Length) -> String {
    if of > Length::ZERO {
        format!("{:.1} %", 100.0 * part.geometric() / of.geometric())
    } else {
        String::from("–")
    }
}

/// Waste by its definitions, and the same week done by hand.
pub fn waste(desk: &Desk) -> String {
    let w = &desk.plan.waste;
    let mut words = format!(
        "All-in waste {}: taken less what is in parts, of taken. Lost for good {}: kerf, trims and scrap drops, of taken. Kept for the rack: {}.",
        share(w.all_in, w.taken),
        share(w.lost, w.taken),
        desk.length(w.kept),
    );
    for r in &desk.plan.references {
        let by_hand = match (&r.failed, r.money) {
            (Some(why), _) => format!(" By hand, {}: cannot be done ({why}).", r.name),
            (None, m) => format!(
                " By hand, {}: {}, {}, {}.",
                r.name,
                counted(r.joints, "joint", "joints"),
                desk.money(m),
                counted(r.splices, "splice", "splices")
            ),
        };
        words.push_str(&by_hand);
    }
    words
}

/// Notices, work left out, characters the fonts lack.
pub fn watch(desk: &Desk) -> Vec<String> {
    let mut out = Vec::new();
    for (part, i) in Impossible::together(&desk.plan.left_out) {
        out.push(format!(
            "LEFT OUT {part}: {} To make it possible: {}",
            i.reason, i.change
        ));
    }
    for n in &desk.week.notices {
        let kind = match n.severity {
            Severity::Note => "note",
            Severity::Warning | Severity::Error => "warning",
        };
        out.push(format!(
            "{kind}, {}: {}. To mend: {}",
            n.place(),
            n.what,
            n.mend
        ));
    }
    let lacking: BTreeSet<char> = names(desk).iter().flat_map(|n| missing(n)).collect();
    if !lacking.is_empty() {
        let list: Vec<String> = lacking
            .iter()
            .map(|c| format!("U+{:04X}", u32::from(*c)))
            .collect();
        out.push(format!(
            "characters that these sheets cannot print are drawn as boxes: {}",
            list.join(", ")
        ));
    }
    out
}

/// Every text of the user's that is printed somewhere.
fn names<'a>(desk: &Desk<'a>) -> Vec<&'a str> {
    let week = desk.week;
    let mut out = vec![week.shop.name.as_str(), week.shop.money.currency.as_str()];
    out.extend(desk.plan.date.as_deref());
    out.extend(
        week.gates
            .iter()
            .flat_map(|g| [g.mark.as_str(), g.note.as_str()]),
    );
    out.extend(week.extras.iter().map(|e| e.mark.as_str()));
    let paperwork = week.gates.iter().map(|g| &g.paperwork);
    let paperwork = paperwork.chain(week.extras.iter().map(|e| &e.paperwork));
    out.extend(
        paperwork
            .flat_map(|p| p.pairs())
            .flat_map(|(name, value)| [name, value]),
    );
    out.extend(
        week.pipes
            .iter()
            .flat_map(|p| [p.name.as_str(), p.standard.as_str(), p.finish.as_str()]),
    );
    out.extend(week.quotes.iter().map(|q| q.supplier.as_str()));
    out.extend(
        week.rack
            .iter()
            .flat_map(|r| [r.tag.as_str(), r.note.as_str()]),
    );
    out
}
