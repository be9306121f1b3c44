//! The gates laid out: weeks of many orders, with splices set by hand in long leaves.

use std::fmt::Write;

use crate::gate::{Bay, Frame, Role};
use crate::measure::{INCH, Length, Money};
use crate::order::{Week, WeekFiles, print_faults, read_week};
use crate::part::TakeOff;
use crate::plan::{Plan, Splice, SplicedLine};
use crate::report::world::world;
use crate::splice::{ReachForm, SpliceLine, SpliceSet, Window, WindowClass};
use crate::text::SourceFile;

/// Gates to a week: small weeks, so that looking up a part stays cheap.
const WEEK: usize = 24;
const SHOP: &str = include_str!("../../../../../data/demo_us/shop.toml");
const METRIC_SHOP: &str = include_str!("../../../../../data/demo_metric/shop.toml");

const NOTES: [&str; 5] = [
    "",
    "Depot",
    "Substation; deliver to the north yard by the rear lane, call the gatehouse an hour before",
    "Übergrößenträgerdurchfahrtsbeschränkungstafelhalterung-und-Torantriebsfundamentplattenbewehrung",
    "Customer asks that the leaf be hung before noon on the day of delivery so that the yard is shut overnight; \
     the latch post is already set, the roller posts are not; the ground falls four inches from latch to tail, so \
     check the clearance at the tail before the fabric is cut. Black bands on the top horizontal at every bay \
     line; two coats. Send the wrap templates with the kit. The yard's operator was bought by others and is fitted \
     by them; leave the last bay open for it.",
];

const MARKS: [&str; 3] = ["A", "NORTH-YARD-", "Ворота-северные-участок"];

/// One gate order as the tests vary it.
struct Asked {
    opening: String,
    height: String,
    sway: bool,
    barbed: u32,
}

/// Every opening × height × brace × barbed top.
fn asked(openings: &[String], heights: &[String]) -> Vec<Asked> {
    let mut out = Vec::new();
    for opening in openings {
        for height in heights {
            for (sway, barbed) in [(false, 0), (true, 0), (false, 3), (true, 6)] {
                out.push(Asked {
                    opening: opening.clone(),
                    height: height.clone(),
                    sway,
                    barbed,
                });
            }
        }
    }
    out
}

/// orders.csv of some gates; what else an order may hold is dealt out by its place in the list.
fn orders(gates: &[Asked], first: usize) -> String {
    let mut csv = String::from(
        "mark,count,opening,height,hand,sway,barbed,automated,kit,carrier,excluded bays,due,note\n",
    );
    for (i, gate) in gates.iter().enumerate() {
        let n = first + i;
        let yes = |every: usize| if n % every == every - 1 { "yes" } else { "" };
        let stem = MARKS[if n % 6 == 5 {
            2
        } else {
            usize::from(n % 6 == 3)
        }];
        let room = 24 - n.to_string().len() - 3;
        let stem: String = stem.chars().take(room).collect();
        let count = [1, 1, 2, 1, 12][n % 5];
        let _ = writeln!(
            csv,
            "{stem}{n},{count},{},{},{},{},{},{},{},{},{},2026-03-06,\"{}\"",
            gate.opening,
            gate.height,
            ["left", "right"][n % 2],
            if gate.sway { "yes" } else { "" },
            gate.barbed,
            yes(7),
            yes(5),
            ["", "top", "both"][n % 3],
            ["", "2"][usize::from(n % 11 == 4)],
            NOTES[(n / 2) % NOTES.len()],
        );
    }
    csv
}

fn file(name: &str, text: String) -> Option<SourceFile> {
    Some(SourceFile {
        name: name.to_owned(),
        bytes: text.into_bytes(),
    })
}

fn read(shop: &str, orders: String) -> Week {
    let files = WeekFiles {
        orders: file("orders.csv", orders),
        shop: file("shop.toml", shop.to_owned()),
        stock: file("stock.csv", String::from("pipe,length,price,per\n")),
        ..WeekFiles::default()
    };
    read_week(&files).unwrap_or_else(|faults| panic!("{}", print_faults(&faults)))
}

/// A shop without yield strengths: no bending is computed for a caution, which would take minutes.
fn without_yield(shop: &str) -> String {
    let keep = |l: &&str| !l.starts_with("yield_strength");
    shop.lines().filter(keep).collect::<Vec<_>>().join("\n")
}

/// The shops: as the demos have them, and one that builds the through variant.
pub(super) fn weeks() -> Vec<Week> {
    let inches = |list: &[u32]| list.iter().map(|n| format!("{n}'")).collect::<Vec<_>>();
    let mm = |list: &[u32]| list.iter().map(u32::to_string).collect::<Vec<_>>();
    let us = without_yield(SHOP).replace("rise = \"12 in\"", "rise = \"30 in\"");
    let through = us.replace("[gate]\n", "[gate]\nvariant = \"through\"\n");
    let metric = without_yield(METRIC_SHOP).replace("rise = 260", "rise = 760");
    let openings = [6, 9, 12, 15, 18, 21, 24, 28, 31, 34, 37, 40, 43, 45];
    let lists = [
        (
            us,
            asked(&inches(&openings), &inches(&[3, 4, 5, 6, 8, 10, 12])),
        ),
        (
            through,
            asked(&inches(&[8, 16, 28, 45]), &inches(&[4, 6, 12])),
        ),
        (
            metric,
            asked(
                &mm(&[1900, 3600, 6000, 8500, 10_500, 13_700]),
                &mm(&[1000, 1800, 2400, 3650]),
            ),
        ),
    ];
    let mut out = Vec::new();
    for (shop, gates) in &lists {
        for (i, some) in gates.chunks(WEEK).enumerate() {
            out.push(read(shop, orders(some, i * WEEK)));
        }
    }
    out
}

/// Windows near both ends of every interior bay, as a roller bay has them: to be drawn, not to be welded.
fn windows(frame: &Frame) -> Vec<Window> {
    let bays = frame.bays.iter().enumerate().skip(1);
    let interior = bays.take(frame.bays.len().saturating_sub(2));
    let both = |(i, bay): (usize, &Bay)| {
        let window = move |lo: f64, hi: f64| Window {
            lo: Length::nearest_tick(lo),
            hi: Length::nearest_tick(hi),
            bay: u32::try_from(i + 1).expect("few bays"),
            roller_bay: true,
            tolerated: false,
            class: WindowClass::Plain,
            charge: Money::ZERO,
        };
        [
            window(bay.from + 5.0 * INCH, bay.from + 9.0 * INCH),
            window(bay.to - 9.0 * INCH, bay.to - 5.0 * INCH),
        ]
    };
    interior.flat_map(both).collect()
}

/// Both horizontals of a gate with those windows.
fn windowed(take_off: &TakeOff, frame: &Frame, count: u32) -> SpliceSet {
    let roles = [Role::BottomHorizontal, Role::TopHorizontal];
    let find = |role: &Role| {
        let mut parts = take_off.parts.iter();
        parts.position(|p| p.gate == Some(frame.gate) && p.role == Some(*role))
    };
    let line = |part: usize| SpliceLine {
        part,
        horizontal: None,
        long: take_off.parts[part].saw,
        whole: take_off.parts[part].saw,
        x_long: Length::ZERO,
        least: 1,
        most: 4,
        least_piece: Length::FOOT,
        windows: windows(frame),
    };
    SpliceSet {
        gate: frame.gate,
        copies: (1..=count).collect(),
        lines: roles.iter().filter_map(find).map(line).collect(),
        apart: Length::FOOT,
        bays_exclusive: false,
        form: ReachForm::EveryInteriorBay,
        bending: None,
    }
}

/// A splice in the middle of every fourth window, the top one's in others than the bottom one's; the
/// second of several copies is made another way.
fn spliced(set: &SpliceSet, copy: u32) -> Vec<SplicedLine> {
    let lines = set.lines.iter().enumerate().map(|(i, line)| {
        let first = 2 * i + usize::from(copy == 2);
        let at = line.windows.iter().skip(first).step_by(4);
        let splices = at.map(|w| {
            let centre = (w.lo.geometric() + w.hi.geometric()) / 2.0;
            Splice {
                centre,
                x: Some(centre),
                bay: w.bay,
                from_latch_side: 0.0,
                from_tail_side: 0.0,
                window: (w.lo, w.hi),
                roller_bay: w.roller_bay,
                tolerated: w.tolerated,
                class: w.class,
                rel: None,
            }
        });
        SplicedLine {
            part: line.part,
            copy,
            serial: 1,
            pieces: vec![Length::FOOT; first + 2],
            stays: false,
            gap: 0.0,
            splices: splices.collect(),
            form: set.form,
        }
    });
    lines.collect()
}

/// A plan that holds nothing but splices.
pub(super) fn plan(week: &Week, take_off: &TakeOff) -> Plan {
    let mut plan = world().plan;
    plan.joints.clear();
    plan.done.clear();
    plan.kits.clear();
    let long = |f: &&Frame| {
        let order = &week.gates[f.gate];
        order.opening > Length::FOOT * 12 && !order.kit && f.gate % 3 < 2
    };
    let frames = take_off.frames.iter().filter(long);
    let set = |f: &Frame| windowed(take_off, f, week.gates[f.gate].count);
    plan.splice_sets = frames.map(set).collect();
    let lines = |set: &SpliceSet| {
        let copies = set.copies.iter().copied();
        copies.flat_map(|c| spliced(set, c)).collect::<Vec<_>>()
    };
    plan.spliced = plan.splice_sets.iter().flat_map(lines).collect();
    plan
}
