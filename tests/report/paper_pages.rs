//! Every page of the drawn sets, measured: what every page carries, margins, words that run into each
//! other, sizes read at the saw, boxes for a gloved hand, a joint on one page.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::made;
use longpoint::check::CheckedPlan;
use longpoint::order::{SeenFrom, WeekFiles};
use longpoint::plan::PlannedJoint;
use longpoint::report::draw::{Flat, Run};
use longpoint::report::paper::{POINTS_PER_MM, Paper, pages};
use longpoint::text::SourceFile;

pub(crate) const PAPERS: [Paper; 2] = [Paper::Letter, Paper::A4];

pub(crate) fn flat(plan: &CheckedPlan, paper: Paper) -> Vec<Flat> {
    pages(plan, paper).iter().map(Flat::of).collect()
}

/// The sets that the tests look at, made once: every demo week, and a week of many short parts with long
/// marks in several scripts.
pub(crate) fn sets() -> &'static [(String, CheckedPlan)] {
    static SETS: OnceLock<Vec<(String, CheckedPlan)>> = OnceLock::new();
    SETS.get_or_init(|| {
        let demos = ["demo_us", "demo_metric", "demo_small", "demo_buying"];
        let mut all: Vec<(String, CheckedPlan)> = demos
            .iter()
            .map(|name| ((*name).to_owned(), made::checked(&made::demo(name))))
            .collect();
        all.push((String::from(SHORT), made::checked(&short_parts())));
        all
    })
}

/// The week of many short parts.
const SHORT: &str = "short parts";

/// The small week's shop with parts alone, many to a joint.
fn short_parts() -> WeekFiles {
    let file = |name: &str, text: &str| {
        Some(SourceFile {
            name: name.to_owned(),
            bytes: text.as_bytes().to_vec(),
        })
    };
    // Q has a finish of its own: all of it comes out of one joint, whatever the rest is nested with.
    let parts = "mark,pipe,finish,length,count\n\
        S1,1-7/8 SS40,,14\",32\n\
        S2,1-7/8 SS40,,1'-1 15/16\",30\n\
        Ворота-северные-распорки,1-7/8 SS40,,1'-4\",9\n\
        北京大门支撑,1-7/8 SS40,,3'-7 9/16\",4\n\
        P,2-3/8 SS40,,8 1/16\",56\n\
        Q,2-3/8 SS40,black,4 7/16\",95\n\
        LONGMARK-RAIL-A,2-3/8 SS40,,12'-10 11/16\",10\n";
    WeekFiles {
        orders: None,
        rack: None,
        stock: file(
            "stock.csv",
            "pipe,finish,supplier,length,price,per\n\
             1-7/8 SS40,,Harbor Pipe (invented),40 ft,2.78,foot\n\
             2-3/8 SS40,,Harbor Pipe (invented),40 ft,3.70,foot\n\
             2-3/8 SS40,black,Harbor Pipe (invented),40 ft,3.70,foot\n",
        ),
        parts: file("parts.csv", parts),
        ..made::demo("demo_small")
    }
}

/// Whether two runs' boxes share more than a hair.
fn clash(a: &Run, b: &Run) -> bool {
    const HAIR: f64 = 0.6;
    let (p, q) = (a.bounds(), b.bounds());
    let across = p.2.min(q.2) - p.0.max(q.0);
    let down = p.3.min(q.3) - p.1.max(q.1);
    across > HAIR && down > HAIR
}

#[test]
fn no_words_run_into_each_other_or_off_the_page() {
    let mut faults = Vec::new();
    for (name, plan) in sets() {
        for paper in PAPERS {
            for (i, page) in flat(plan, paper).iter().enumerate() {
                let place = format!("{name} {paper:?} page {} {}", i + 1, page.title);
                let runs: Vec<&Run> = page
                    .runs
                    .iter()
                    .filter(|r| !r.text.words.trim().is_empty())
                    .collect();
                for (k, a) in runs.iter().enumerate() {
                    for b in &runs[k + 1..] {
                        if clash(a, b) {
                            faults.push(format!("{place}: {} | {}", a.text.words, b.text.words));
                        }
                    }
                    let (left, top, right, bottom) = a.bounds();
                    // 11 mm at the sides, the clip's room above, the printer's below.
                    if left < 31.0
                        || right > page.size.0 - 31.0
                        || top < 46.0
                        || bottom > page.size.1 - 9.0
                    {
                        faults.push(format!("{place}: off the page: {}", a.text.words));
                    }
                }
            }
        }
    }
    assert!(
        faults.is_empty(),
        "{}\n{} faults",
        faults.join("\n"),
        faults.len()
    );
}

/// A line's number too near a saw length reads as its first digit.
#[test]
fn figures_at_the_saw_stand_clear_of_each_other() {
    let mut faults = Vec::new();
    for (name, plan) in sets() {
        for page in PAPERS.iter().flat_map(|p| flat(plan, *p)) {
            if page.title != "Cut sheets" {
                continue;
            }
            let large = |r: &&Run| r.text.size >= 14.0 && r.text.turn == 0.0;
            let runs: Vec<&Run> = page.runs.iter().filter(large).collect();
            for a in &runs {
                let counts =
                    |r: &Run| r.text.words.len() < 3 && r.text.words.parse::<u32>().is_ok();
                for b in &runs {
                    // Two numbers side by side are parts in the strip, a cut drawn between them.
                    let clear = match (counts(a), counts(b)) {
                        (true, true) => continue,
                        (true, false) => 10.0,
                        _ => 6.0,
                    };
                    let level = (a.text.y - b.text.y).abs() < 1.0;
                    let gap = b.bounds().0 - a.bounds().2;
                    if level && (-a.text.size..clear).contains(&gap) && b.bounds().0 > a.bounds().0
                    {
                        faults.push(format!("{name}: {} | {}", a.text.words, b.text.words));
                    }
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_page_says_its_plan_and_number_and_leaves_room_for_the_clip() {
    for (name, plan) in sets() {
        let line = format!(
            "plan {} · revision {}",
            plan.plan().number,
            plan.plan().revision
        );
        for paper in PAPERS {
            let all = flat(plan, paper);
            for (i, page) in all.iter().enumerate() {
                let count = format!("page {} of {}", i + 1, all.len());
                assert!(page.words().contains(&line), "{name} {count}");
                assert!(
                    page.runs.iter().any(|r| r.text.words == count),
                    "{name} {count}"
                );
                let points = page.paths.iter().flat_map(|(p, _)| p);
                for (x, y) in points {
                    let inside = *x >= 31.0 && *x <= page.size.0 - 31.0 && *y >= 46.0;
                    assert!(inside, "{name} {count} {}: ink at {x} {y}", page.title);
                }
            }
        }
    }
}

/// The pages of the cut sheets that hold a joint: by its number in the strip's head.
fn holding<'a>(cuts: &[&'a Flat], joint: &PlannedJoint) -> Vec<&'a Flat> {
    let number = joint.number.to_string();
    let head = |r: &Run| {
        let words = &r.text.words;
        // The strip's heads stand left, larger than the lines; folded joints share one.
        r.text.x < 34.0 + 46.0
            && r.text.size > 8.0
            && r.text.words.chars().all(|c| c.is_ascii_digit() || c == ' ')
            && words.split(' ').any(|w| w == number)
            && (words.contains(' ') || r.text.size > 20.0)
    };
    cuts.iter()
        .copied()
        .filter(|f| f.runs.iter().any(head))
        .collect()
}

#[test]
fn a_joint_stands_on_one_page_large_enough_to_read_with_a_box_for_every_piece() {
    for (name, plan) in sets() {
        let (mark, units) = (plan.week().shop.saw.mark, plan.week().shop.units);
        for paper in PAPERS {
            let all = flat(plan, paper);
            let cuts: Vec<&Flat> = all.iter().filter(|f| f.title == "Cut sheets").collect();
            for joint in &plan.plan().joints {
                let place = format!("{name} {paper:?} joint {}", joint.number);
                let on = holding(&cuts, joint);
                if joint.pieces.len() <= 50 {
                    assert_eq!(on.len(), 1, "{place} of {} pieces", joint.pieces.len());
                }
                let mut large: BTreeMap<String, usize> = BTreeMap::new();
                for run in on
                    .iter()
                    .flat_map(|f| &f.runs)
                    .filter(|r| r.text.size >= 14.0)
                {
                    *large.entry(run.text.words.clone()).or_default() += 1;
                }
                let words: Vec<&str> = large.keys().map(String::as_str).collect();
                let words = words.join("\n");
                for piece in &joint.pieces {
                    let running = piece.end.print_at(mark, units);
                    assert!(
                        large.contains_key(&running),
                        "{place}: {running} in\n{words}"
                    );
                    let saw = piece.saw.print(units);
                    assert!(
                        words.contains(&saw),
                        "{place}: saw length {saw} in\n{words}"
                    );
                    let start: String = piece.mark.chars().take(8).collect();
                    assert!(words.contains(&start), "{place}: {start} in\n{words}");
                }
            }
            let five = 5.0 * POINTS_PER_MM;
            let boxes = cuts.iter().flat_map(|f| f.boxes());
            let ticks = boxes
                .filter(|(_, _, side)| (five..20.0).contains(side))
                .count();
            let pieces: usize = plan.plan().joints.iter().map(|j| j.pieces.len()).sum();
            assert_eq!(
                ticks, pieces,
                "{name} {paper:?}: a box of 5 mm or more per piece"
            );
        }
    }
}

#[test]
fn a_joint_that_no_page_holds_says_so_and_repeats_its_strip() {
    let (_, plan) = sets().iter().find(|(n, _)| n == SHORT).expect("the set");
    let most = plan.plan().joints.iter().max_by_key(|j| j.pieces.len());
    let most = most.expect("joints");
    assert!(most.pieces.len() > 70, "{} pieces", most.pieces.len());
    let all = flat(plan, Paper::Letter);
    let cuts: Vec<&Flat> = all.iter().filter(|f| f.title == "Cut sheets").collect();
    let on = holding(&cuts, most);
    assert!(on.len() > 1, "its strip on every page");
    for (i, page) in on.iter().enumerate() {
        let part = format!("part {} of {}", i + 1, on.len());
        assert!(page.words().contains(&part), "{part}");
        let goes_on = page.words().contains("continues on the next page");
        assert_eq!(goes_on, i + 1 < on.len(), "{part}");
    }
}

#[test]
fn work_is_split_over_the_saws_by_minutes() {
    let mut files = made::demo("demo_small");
    let shop = files.shop.as_mut().expect("the shop");
    shop.bytes.extend(b"\n[saw]\nsaws = 2\n");
    let plan = made::checked(&files);
    let sittings = &plan.plan().sittings;
    assert_eq!(sittings.len(), 2);
    let (a, b) = (sittings[0].minutes, sittings[1].minutes);
    // Each joint goes to the saw with least work so far: they end less than a joint's work apart.
    assert!(a > 0.0 && b > 0.0 && (a - b).abs() <= 30.0, "{a} {b}");
    let all = flat(&plan, Paper::Letter);
    for sitting in sittings {
        let head = format!(
            "Cut sheet, saw {} of 2 · {} joints, about {:.0} min",
            sitting.saw,
            sitting.joints.len(),
            sitting.minutes
        );
        let mine: Vec<&Flat> = all
            .iter()
            .filter(|f| f.holding(&head).next().is_some())
            .collect();
        for joint in &plan.plan().joints {
            let here = !holding(&mine, joint).is_empty();
            let wanted = sitting.joints.contains(&joint.number);
            assert_eq!(
                here, wanted,
                "joint {} at saw {}",
                joint.number, sitting.saw
            );
        }
    }
}

#[test]
fn a_gate_is_two_pages_with_approval_hand_weight_and_balance() {
    for (name, plan) in sets() {
        for paper in PAPERS {
            let all = flat(plan, paper);
            for frame in &plan.take_off().frames {
                let mark = &plan.week().gates[frame.gate].mark;
                let head = format!("Gate {mark} · make ");
                let mine: Vec<&Flat> = all
                    .iter()
                    .filter(|f| f.runs.iter().any(|r| r.text.words.starts_with(&head)))
                    .collect();
                let ways = mine
                    .iter()
                    .filter(|f| f.words().contains("Customer's approval"))
                    .count();
                assert!(ways > 0, "{name} {mark}");
                assert_eq!(mine.len(), 2 * ways, "{name} {paper:?} {mark}");
                let words = mine[0].words().replace('\n', " ");
                let seen = match plan.week().gates[frame.gate].seen_from {
                    Some(SeenFrom::Street) => "seen from the street",
                    Some(SeenFrom::Yard) => "seen from the yard",
                    None => "side not said in the order: ask",
                };
                for wanted in [
                    "centre of gravity",
                    seen,
                    "weight ",
                    "check measure",
                    "signature",
                ] {
                    assert!(words.contains(wanted), "{name} {mark}: {wanted} in {words}");
                }
            }
        }
    }
}

#[test]
fn every_page_of_templates_has_both_check_bars_at_full_scale() {
    let mut pages_seen = 0;
    for (name, plan) in sets() {
        for paper in PAPERS {
            let all = flat(plan, paper);
            let templates = all
                .iter()
                .filter(|f| f.holding("Measure both bars").next().is_some());
            for page in templates {
                for (words, long) in [("100 mm", 100.0 * POINTS_PER_MM), ("4 in", 288.0)] {
                    let bar = page.paths.iter().any(|(p, _)| {
                        p.len() == 6 && p[0].1 == p[1].1 && (p[1].0 - p[0].0 - long).abs() < 1e-6
                    });
                    assert!(bar, "{name} {paper:?} {words}");
                }
                pages_seen += 1;
            }
            assert!(!all.iter().any(|f| {
                f.title == "Cope sheets" && f.holding("Measure both bars").next().is_none()
            }));
        }
    }
    assert!(pages_seen > 50, "{pages_seen}");
}
