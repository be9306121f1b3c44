//! Gate sheets of many gates, measured on the drawing itself: no two texts overlap, nothing leaves the
//! room of its page, and nothing that the sheet must say is lost. No search: the gates' parts are enough,
//! with splices set by hand in the windows of every long leaf.

mod weeks;

use std::fmt::Write;
use std::path::PathBuf;

use rayon::prelude::*;

use crate::gate::Role;
use crate::order::Week;
use crate::part::take_off;
use crate::plan::Plan;
use crate::report::draw::{Flat, Item, Page, Run};
use crate::report::hand_words::{opens, seen};
use crate::report::job::Job;
use crate::report::paper::desk::Desk;
use crate::report::paper::elevation::short;
use crate::report::paper::size::{CLIP_ROOM, FOOT, HEADER, SIDE};
use crate::report::paper::{Furniture, Laid, Paper, bind};
use crate::report::png;
use weeks::{plan, weeks};

/// Gates laid out at least.
const LEAST: usize = 500;
/// Hair two boxes may share, points.
const HAIR: f64 = 0.6;

/// (left, top, right, bottom), points.
type Bounds = (f64, f64, f64, f64);

/// Whether two boxes share more than a hair.
fn clash(p: &Bounds, q: &Bounds) -> bool {
    let across = p.2.min(q.2) - p.0.max(q.0);
    let down = p.3.min(q.3) - p.1.max(q.1);
    across > HAIR && down > HAIR
}

/// Texts of one page that run into each other, furniture and sheet together.
fn clashes(flat: &Flat) -> Vec<String> {
    let seen = |r: &&Run| !r.text.words.trim().is_empty();
    let boxed = |r| (Run::bounds(r), &r.text.words);
    let runs: Vec<(Bounds, &String)> = flat.runs.iter().filter(seen).map(boxed).collect();
    let mut out = Vec::new();
    for (i, (a, words)) in runs.iter().enumerate() {
        let met = runs[i + 1..].iter().filter(|(b, _)| clash(a, b));
        out.extend(met.map(|(_, other)| format!("{words} | {other}")));
    }
    out
}

/// What of a page's sheet leaves the room between header and footer.
fn outside(items: &[Item], (width, height): (f64, f64)) -> Vec<String> {
    let flat = Flat::of_items(items);
    let (left, right) = (SIDE - HAIR, width - SIDE + HAIR);
    let (top, bottom) = (CLIP_ROOM + HEADER - 8.0, height - FOOT + HAIR);
    let mut out = Vec::new();
    for run in &flat.runs {
        let b = run.bounds();
        if b.0 < left || b.1 < top || b.2 > right || b.3 > bottom {
            out.push(format!("outside the room: {} at {b:.0?}", run.text.words));
        }
    }
    let points = flat.paths.iter().flat_map(|(p, _)| p);
    let out_of = |&&(x, y): &&(f64, f64)| x < left || x > right || y < top || y > bottom;
    if let Some((x, y)) = points.clone().find(out_of) {
        out.push(format!("ink outside the room at {x:.0} {y:.0}"));
    }
    out
}

/// What every gate sheet must say, as far as it is missing: all of it on the first page, the note's
/// words anywhere.
fn missing(pages: &[Flat], desk: &Desk, gate: usize) -> Vec<String> {
    let order = &desk.week.gates[gate];
    let Some(first) = pages.first() else {
        return vec![String::from("no page")];
    };
    let plain = |flat: &Flat| flat.words().replace('\n', " ");
    let mut out = Vec::new();
    let mut want = |words: &str, text: &str| {
        if !text.contains(words) {
            out.push(format!("not said: {words}"));
        }
    };
    for words in [
        "Customer's approval",
        "signature",
        "check measure",
        "weight ",
        "latch end",
    ] {
        want(words, &plain(first));
    }
    want(opens(order.hand), &plain(first));
    want(seen(order), &plain(first));
    // A word too long for a line is broken: letters alone are compared.
    let letters = |s: &str| s.chars().filter(|c| !c.is_whitespace()).collect::<String>();
    let all: String = pages.iter().map(|p| letters(&p.words())).collect();
    want(&letters(&order.note), &all);
    let parts = desk.take_off.parts.iter();
    for part in parts.filter(|p| p.gate == Some(gate) && p.role != Some(Role::Standoff)) {
        let mark = short(&part.mark);
        let drawn = first.runs.iter().any(|r| r.text.words == mark);
        let braced = part.role == Some(Role::SwayBrace);
        if !drawn && !braced {
            out.push(format!("mark not drawn: {mark}"));
        }
    }
    out
}

/// Leaves some pages for a person to look at, when `LONGPOINT_PAPER_OUT` names a folder.
fn keep(name: &str, page: &Page) {
    let folder = std::env::var_os("LONGPOINT_PAPER_OUT").map(PathBuf::from);
    if let (Some(folder), Some(bytes)) = (folder, png::file(page)) {
        let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '_' };
        let name: String = name.chars().map(plain).collect();
        std::fs::write(folder.join(format!("{name}.png")), bytes).expect("written");
    }
}

/// The faults of every gate of a week on a paper, and how many gates there were.
fn measured(week: &Week, paper: Paper) -> (usize, Vec<String>) {
    let (take_off, impossible) = take_off(week);
    // A few of the list cannot be built: a short standoff, mostly.
    let plan = Plan {
        left_out: impossible,
        ..plan(week, &take_off)
    };
    let job = Job {
        week,
        take_off: &take_off,
        plan: &plan,
    };
    let desk = Desk::laid(job, paper.room_width(), paper.room_height());
    let furniture = Furniture {
        plan: desk.plan_line(),
        shop: week.shop.name.clone(),
        left_out: String::new(),
    };
    let (mut faults, mut gates) = (Vec::new(), 0);
    for frame in desk.frames() {
        gates += 1;
        let order = &week.gates[frame.gate];
        let mut name = format!(
            "{paper:?} {} × {}",
            order.opening.print(week.shop.units),
            order.height.print(week.shop.units)
        );
        for (is, words) in [
            (order.sway, "brace"),
            (order.barbed > 0, "barbed"),
            (order.kit, "kit"),
        ] {
            if is {
                let _ = write!(name, " {words}");
            }
        }
        for section in super::sheets_of(&desk, frame) {
            let pages = bind(vec![Laid::of(section, paper)], paper, &furniture);
            let flats: Vec<Flat> = pages.iter().map(Flat::of).collect();
            for (i, (page, flat)) in pages.iter().zip(&flats).enumerate() {
                let sheet = page.items.iter().filter(|i| matches!(i, Item::Group(_)));
                let sheet: Vec<Item> = sheet.cloned().collect();
                let mut found = clashes(flat);
                found.extend(outside(&sheet, paper.size()));
                if i == 0 {
                    found.extend(missing(&flats, &desk, frame.gate));
                }
                if frame.gate % 9 == 4 {
                    keep(&format!("{name} {}", i + 1), page);
                }
                faults.extend(found.iter().map(|f| format!("{name} page {}: {f}", i + 1)));
            }
        }
    }
    (gates, faults)
}

#[test]
fn no_gate_sheet_overlaps_or_overflows() {
    let weeks = weeks();
    let work: Vec<(&Week, Paper)> = weeks
        .iter()
        .flat_map(|w| [(w, Paper::Letter), (w, Paper::A4)])
        .collect();
    let done: Vec<(usize, Vec<String>)> = work
        .par_iter()
        .map(|(week, paper)| measured(week, *paper))
        .collect();
    let gates: usize = done.iter().map(|(n, _)| n).sum::<usize>() / 2;
    assert!(gates >= LEAST, "{gates} gates");
    let faults: Vec<String> = done.into_iter().flat_map(|(_, f)| f).collect();
    if let Some(file) = std::env::var_os("LONGPOINT_LAYOUT_FAULTS") {
        std::fs::write(file, faults.join("\n")).expect("written");
    }
    let some = faults.iter().take(60).cloned().collect::<Vec<_>>();
    assert!(
        faults.is_empty(),
        "{}\n{} faults in {gates} gates",
        some.join("\n"),
        faults.len()
    );
}
