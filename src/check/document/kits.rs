//! Advice for kits: both horizontals out of every local joint length, in running marks.

use std::collections::BTreeSet;

use super::form::{Kit, KitOption, Spliced};
use super::papers::Papers;
use super::splices::placed;
use crate::check::Rule;
use crate::check::docket::Docket;
use crate::measure::Length;

/// Trim and kerf that all local joints are cut with, as the first figures tell.
#[derive(Default)]
struct Local {
    trim: Option<i64>,
    kerf: Option<i64>,
}

/// Judges the advice of every kit.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    let plan = papers.plan;
    let gates = 0..plan.gates.len();
    let kit = |g: &usize| plan.gates[*g].kit && plan.gates[*g].count > 0;
    let wanted = gates.filter(|g| kit(g) && !papers.gate_left_out(*g));
    let given: Vec<usize> = plan.kits.iter().map(|k| k.gate).collect();
    docket.same(given, wanted.collect(), Rule::FileKits, "kits");
    let mut local = Local::default();
    for kit in &plan.kits {
        for option in &kit.options {
            let name = format!(
                "{} of {}",
                plan.gates[kit.gate].mark,
                Length::from_ticks(option.joint.ticks)
            );
            one(papers, kit, option, &name, docket);
            cuts(option, &mut local, &name, docket);
        }
    }
}

fn one(papers: &Papers<'_>, kit: &Kit, option: &KitOption, name: &str, docket: &mut Docket) {
    let counted = option.joints_per_gate == option.cuts.len();
    let empty = option.cuts.is_empty() && option.lines.is_empty();
    docket.demand(
        counted && empty == option.refused.is_some(),
        Rule::FileKits,
        name,
        || "joints are miscounted, or what is refused is cut".to_owned(),
    );
    for line in &option.lines {
        let part = &papers.plan.parts[line.part];
        let long = Length::nearest_tick(part.long_point.value * papers.unit());
        placed(papers, line, long.ticks(), None, docket);
    }
    if option.refused.is_none() {
        pieces(papers, kit, option, name, docket);
    }
}

/// Each piece of both horizontals once.
fn pieces(papers: &Papers<'_>, kit: &Kit, option: &KitOption, name: &str, docket: &mut Docket) {
    let mut wanted: BTreeSet<(usize, Option<u32>, String, i64)> = BTreeSet::new();
    let line_of = |part: usize| option.lines.iter().find(|l: &&Spliced| l.part == part);
    for (index, part) in papers.plan.parts.iter().enumerate() {
        if part.gate != Some(kit.gate) || part.ours {
            continue;
        }
        match line_of(index) {
            None => {
                wanted.insert((index, None, part.mark.clone(), part.saw_length.ticks));
            }
            Some(line) => {
                for (number, piece) in (1u32..).zip(&line.pieces) {
                    let mark = format!("{}/{number}", part.mark);
                    wanted.insert((index, Some(number), mark, piece.ticks));
                }
            }
        }
    }
    let all = option.cuts.iter().flat_map(|c| &c.pieces);
    let once = all
        .clone()
        .all(|p| wanted.remove(&(p.part, p.piece, p.mark.clone(), p.saw_length.ticks)));
    docket.demand(once && wanted.is_empty(), Rule::FileKits, name, || {
        "its joints hold other pieces than its horizontals".to_owned()
    });
}

fn cuts(option: &KitOption, local: &mut Local, name: &str, docket: &mut Docket) {
    let mut fits = true;
    for cut in &option.cuts {
        let mut end = None;
        for piece in &cut.pieces {
            let start = piece.start.ticks;
            fits &= match end {
                None => *local.trim.get_or_insert(start) == start,
                Some(end) => *local.kerf.get_or_insert(start - end) == start - end,
            };
            fits &= start >= end.unwrap_or(0) && piece.end.ticks == start + piece.saw_length.ticks;
            end = Some(piece.end.ticks);
        }
        let Some(end) = end else {
            fits = false;
            continue;
        };
        // What lies behind the last cut: one kerf of the rest, or all of it.
        let rest = option.joint.ticks - end;
        let kerf = rest - cut.floor.ticks;
        fits &= rest >= local.trim.unwrap_or(0) && kerf >= 0 && cut.floor.ticks >= 0;
        fits &= match cut.floor.ticks {
            0 => kerf <= local.kerf.unwrap_or(kerf),
            _ => *local.kerf.get_or_insert(kerf) == kerf,
        };
    }
    docket.demand(fits, Rule::FileKits, name, || {
        "running marks or floor pieces are not those of one trim and one kerf".to_owned()
    });
}
