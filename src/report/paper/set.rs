//! The set of a week: every sheet in the order the floor asks for them.

use crate::check::CheckedPlan;
use crate::report::draw::Page;
use crate::report::{pdf, svg};

use super::desk::Desk;
use super::elevation::Give;
use super::{
    Furniture, Laid, Paper, Section, bind, buy, cope, cover, cut, gate, kit, labels, splice, tags,
};

/// Every section after the cover.
fn sections(desk: &Desk) -> Vec<Section> {
    let mut all = cut::sheets(desk);
    all.push(cut::pull_order(desk));
    all.push(cut::by_length(desk));
    all.extend(splice::sheets(desk));
    all.extend(gate::sheets(desk));
    all.push(cope::sheets(desk));
    all.push(buy::sheet(desk));
    all.extend(kit::sheets(desk));
    all.extend(tags::sheet(desk));
    all.push(labels::sheet(desk));
    all.retain(|s| s.pieces.iter().any(|p| !p.blocks.is_empty()));
    all
}

/// Titles and first pages, when the cover takes `cover` pages.
fn contents(sections: &[Laid], cover: usize) -> Vec<(String, usize)> {
    let mut page = cover + 1;
    let mut out: Vec<(String, usize)> = Vec::new();
    for section in sections {
        if out.last().is_none_or(|(t, _)| *t != section.title) {
            out.push((section.title.clone(), page));
        }
        page += section.pages();
    }
    out
}

/// The pages of a week's set.
pub fn pages(checked: &CheckedPlan, paper: Paper) -> Vec<Page> {
    let desk = Desk::of(checked, paper.room_width(), paper.room_height());
    let lay = |s: Section| Laid::of(s, paper);
    let sections: Vec<Laid> = sections(&desk).into_iter().map(lay).collect();
    // The cover's length does not hang on the page numbers it lists: they take one line each.
    let draft = lay(cover::sheet(&desk, &contents(&sections, 1)));
    let cover = cover::sheet(&desk, &contents(&sections, draft.pages()));
    let mut all = vec![lay(cover)];
    all.extend(sections);
    let furniture = Furniture {
        plan: desk.plan_line(),
        shop: desk.shop().name.clone(),
        left_out: desk.left_out(),
    };
    bind(all, paper, &furniture)
}

/// A week's set as one PDF.
pub fn set(checked: &CheckedPlan, paper: Paper) -> Vec<u8> {
    let plan = checked.plan();
    let title = format!("Plan {} revision {}", plan.number, plan.revision);
    pdf::file(&pages(checked, paper), &title)
}

/// Every gate's elevation as (file name, SVG): one per order and way of splicing.
pub fn elevations(checked: &CheckedPlan) -> Vec<(String, String)> {
    let room = Paper::Letter.room_width();
    let desk = Desk::of(checked, room, Paper::Letter.room_height());
    let mut out = Vec::new();
    for frame in desk.frames() {
        let mark = desk
            .week
            .gates
            .get(frame.gate)
            .map_or("", |g| g.mark.as_str());
        let groups = gate::copies(&desk, frame);
        for (copies, made) in &groups {
            let elevation = gate::elevation(&desk, frame, made);
            let mut block = elevation.block(room, f64::INFINITY, Give::NOTHING);
            if let Some(brace) = elevation.brace(room) {
                block.below(6.0, brace);
            }
            let copy = copies.first().copied().unwrap_or(1);
            let name = if groups.len() > 1 {
                format!("{mark}.{copy}")
            } else {
                mark.to_string()
            };
            let page = Page {
                width: room,
                height: block.height,
                title: format!("gate {name}"),
                items: block.items,
            };
            let stem = file_stem(&name);
            // Many disks hold names apart by their letters alone, not by upper and lower case.
            let taken = |out: &[(String, String)], n: &str| {
                let n = n.to_lowercase();
                out.iter().any(|(f, _)| f.to_lowercase() == n)
            };
            let mut file = format!("gate_{stem}.svg");
            let mut next = 2;
            while taken(&out, &file) {
                file = format!("gate_{stem}_{next}.svg");
                next += 1;
            }
            out.push((file, svg::file(&page)));
        }
    }
    out
}

/// A mark as part of a file name: letters, digits, dot, dash; the rest an underscore.
fn file_stem(mark: &str) -> String {
    let keep = |c: char| {
        if c.is_alphanumeric() || c == '.' || c == '-' {
            c
        } else {
            '_'
        }
    };
    mark.chars().map(keep).collect()
}
