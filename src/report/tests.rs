//! Sheets of the starter week, and of changed copies of it.

use crate::measure::{Length, Money};
use crate::nest::{Status, StopReason};
use crate::order::Impossible;
use crate::part::CopeEnd;
use crate::plan::{JointSource, KitAdvice};

use super::cope_kind::CopeKinds;
use super::joint_block::joint_block;
use super::piece_ends::piece_ends;
use super::print_text::print_text;
use super::sheet::{Heading, Sheet};
use super::summary::summary_of;
use super::world::{World, world};
use super::{buy_list, results_of};

fn joint_text(world: &World, index: usize) -> String {
    let job = world.job();
    let kinds = CopeKinds::of(job.take_off, &[]);
    print_text(&Sheet {
        stem: String::new(),
        title: String::new(),
        heading: Heading::default(),
        blocks: vec![joint_block(job, &kinds, &job.plan.joints[index])],
        records: None,
    })
}

/// A running mark is the exact value rounded once; rounding parts and summing would differ.
#[test]
fn running_marks_are_rounded_once_from_the_exact_value() {
    let world = world();
    let mark = world.week.shop.saw.mark;
    let mut moved = 0;
    for (i, joint) in world.plan.joints.iter().enumerate() {
        let text = joint_text(&world, i);
        for piece in &joint.pieces {
            let printed = piece.end.print_at(mark, world.week.shop.units);
            assert!(text.contains(&printed), "{printed} in {text}");
            moved += usize::from(piece.end.to_nearest(mark) != piece.end);
        }
    }
    assert!(moved > 0, "some running value lies off the saw mark");
}

#[test]
fn a_joint_says_what_to_do_with_what_is_left() {
    let mut world = world();
    let joint = &mut world.plan.joints[0];
    (joint.kept, joint.keep_tag) = (true, Some("K9".to_owned()));
    joint.floor = Length::FOOT * 4;
    assert!(joint_text(&world, 0).contains("[ ] KEEP: paint K9 on it, 4'-0\" lies on the floor."));
    let joint = &mut world.plan.joints[0];
    (joint.kept, joint.keep_tag) = (false, None);
    assert!(joint_text(&world, 0).contains("[ ] SCRAP: 4'-0\" lies on the floor."));
    world.plan.joints[0].floor = Length::ZERO;
    assert!(joint_text(&world, 0).contains("Nothing is left."));
}

#[test]
fn pieces_of_one_rack_row_are_pulled_on_one_line() {
    let mut world = world();
    world.week.rack[0].count = 2;
    for (joint, copy) in world.plan.joints.iter_mut().zip(0u32..2) {
        joint.source = JointSource::Rack(0, copy);
        joint.pipe = world.week.rack[0].pipe;
    }
    let kinds = CopeKinds::of(&world.take_off, &[]);
    let text = print_text(&super::cut_sheet::cut_sheet(world.job(), &kinds));
    let row = text.lines().find(|l| l.starts_with("[ ]  1-2"));
    let row = row.unwrap_or_else(|| panic!("{text}"));
    let cells: Vec<&str> = row.split_whitespace().collect();
    assert_eq!(cells[3..5], ["2", "rack"], "{row}");
}

#[test]
fn measure_first_states_the_least_length_that_does() {
    let mut world = world();
    let joint = &mut world.plan.joints[0];
    joint.measure_first = true;
    joint.length = Length::FOOT * 21;
    joint.leftover = Length::from_64ths(5);
    let text = joint_text(&world, 0);
    // 21 ft less 5/64 in is 20'-11 59/64": up to the mark, 20'-11 15/16".
    assert!(
        text.contains("!! MEASURE FIRST: must be 20'-11 15/16\" or longer"),
        "{text}"
    );
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("set it aside and take a longer one of the same pipe"));
}

#[test]
fn marks_past_the_tape_carry_a_star_and_marks_within_it_none() {
    let mut world = world();
    let last = world.plan.joints[0]
        .pieces
        .last()
        .expect("joint 1 is cut")
        .end;
    let mark = world.week.shop.saw.mark;
    world.week.shop.saw.tape = Some(last.to_nearest(mark));
    assert!(!joint_text(&world, 0).contains('*'));
    world.week.shop.saw.tape = Some(last.to_nearest(mark) - mark);
    let text = joint_text(&world, 0);
    assert_eq!(text.matches('*').count(), 2, "{text}");
}

#[test]
fn a_piece_between_a_cope_and_a_splice_loses_one_cutback() {
    let world = world();
    let job = world.job();
    let kinds = CopeKinds::of(job.take_off, &[]);
    let line = job.plan.spliced.first().expect("the starter week splices");
    let part = &job.take_off.parts[line.part];
    let CopeEnd::Coped(cope) = &part.ends[0] else {
        panic!("horizontals are coped in the starter week");
    };
    let pieces = job.plan.joints.iter().flat_map(|j| &j.pieces);
    let first = pieces
        .clone()
        .find(|p| (p.part, p.copy, p.piece) == (line.part, line.copy, Some(1)))
        .expect("a spliced line has a first piece");
    let ends = piece_ends(job, &kinds, first);
    assert!(ends.words[0].starts_with("cope "), "{ends:?}");
    assert_eq!(ends.words[1], "square");
    let exact = first.saw.geometric() - cope.cut.cutback;
    assert_eq!(ends.throat, Length::nearest_mark(exact, job.mark()));
    let whole = pieces
        .clone()
        .find(|p| p.piece.is_none())
        .expect("most pieces are whole parts");
    let throat = job.take_off.parts[whole.part].throat;
    assert_eq!(piece_ends(job, &kinds, whole).throat, throat);
}

#[test]
fn every_profile_has_one_number_and_every_coped_end_a_profile() {
    let world = world();
    let kinds = CopeKinds::of(&world.take_off, &[]);
    let mut coped = 0;
    for (p, part) in world.take_off.parts.iter().enumerate() {
        for (e, end) in part.ends.iter().enumerate() {
            match end {
                CopeEnd::Square { .. } => assert!(kinds.at(p, e).is_none()),
                CopeEnd::Coped(cope) => {
                    let kind = kinds.at(p, e).expect("a coped end has a kind");
                    assert!(
                        (kind.cutback - cope.cut.cutback).abs() < 1e-3,
                        "{}",
                        part.mark
                    );
                    coped += 1;
                }
            }
        }
    }
    let uses: usize = kinds.kinds.iter().map(|k| k.uses.len()).sum();
    assert_eq!(uses, coped);
    let numbers: Vec<usize> = kinds.kinds.iter().map(|k| k.number).collect();
    assert_eq!(numbers, (1..=numbers.len()).collect::<Vec<_>>());
}

#[test]
fn a_missing_price_prints_a_dash_and_says_so() {
    let mut world = world();
    let quote = world.plan.buy[0].quote;
    world.week.quotes[quote].price = None;
    world.week.quotes[quote].quoted = None;
    world.plan.buy[0].money = None;
    world.plan.total = None;
    world.plan.ledger = None;
    world.plan.pipes[0].priced = false;
    let text = print_text(&buy_list::buy_list(world.job()));
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("price not given"), "{text}");
    assert!(text.contains("planned by joints, not by money"), "{text}");
    assert!(text.contains("Money of all orders –"), "{text}");
    assert!(!text.contains("HOW THE PLAN'S MONEY ADDS UP"));
    // Fourteen joints at 1,000,021 units each: the bound is rounded up to whole joints.
    for stock in &mut world.plan.pools[0].stocks {
        stock.cost = Money::from_millicents(1_000_021);
    }
    let pipe = &mut world.plan.pipes[0];
    (pipe.status, pipe.bought) = (Status::Within, 14);
    pipe.bound = 12 * 1_000_021 + 1;
    let summary = summary_of(world.job(), "x");
    assert!(
        summary.contains("14 joints bought, fewest possible is 13"),
        "{summary}"
    );
    world.plan.pipes[0].bound = 13 * 1_000_021 + 1;
    let summary = summary_of(world.job(), "x");
    assert!(
        summary.contains("fewest joints bought, proved"),
        "{summary}"
    );
    for pipe in &mut world.plan.pipes {
        pipe.priced = false;
    }
    assert!(!summary_of(world.job(), "x").contains("% of pipe money"));
}

/// What the suppliers' headings come to is what the totals call the money of all orders.
#[test]
fn spares_are_in_the_headings_and_in_the_total_and_said_so() {
    let mut world = world();
    let quote = world.plan.buy[0].quote;
    let money = world.week.quotes[quote].price.map(Money::cents);
    world.plan.spares = vec![crate::plan::Spare {
        quote,
        joints: 1,
        money,
        tax: Some(Money::ZERO),
    }];
    let text = print_text(&buy_list::buy_list(world.job()));
    let last = |line: &str| -> rust_decimal::Decimal {
        let word = line.split_whitespace().find(|w| w.starts_with('$'));
        let digits = word.expect("money").replace(['$', ','], "");
        digits.parse().expect("a number")
    };
    let of = |label: &str| {
        let line = text.lines().find(|l| l.starts_with(label));
        last(line.unwrap_or_else(|| panic!("{label} in {text}")))
    };
    let heads = text.lines().filter(|l| l.contains("spares in it $"));
    let heads: rust_decimal::Decimal = heads.map(last).sum();
    assert_eq!(heads, of("Money of all orders"), "{text}");
    let spare = money.expect("the starter's stock is priced").0;
    assert_eq!(of("Money without spares") + spare, heads);
    assert_eq!(of("Spares on top  "), spare);
}

#[test]
fn money_adds_up_line_by_line() {
    let world = world();
    let text = print_text(&buy_list::buy_list(world.job()));
    let splices: usize = world.plan.spliced.iter().map(|l| l.splices.len()).sum();
    let count = i64::try_from(splices).expect("a few splices");
    let splice = world.week.shop.splice.cost.0 * rust_decimal::Decimal::from(count);
    // No envelope in the starter's plan charges a class here or the line would be larger.
    let charged = world.plan.spliced.iter().flat_map(|l| &l.splices);
    let charged = charged.filter(|s| s.class != crate::splice::WindowClass::Plain);
    if charged.count() == 0 {
        let line = format!("${}", Money(splice));
        assert!(text.contains(&line), "{line} in {text}");
    }
}

#[test]
fn status_is_said_with_its_gap_and_what_was_left_out_with_its_cure() {
    let mut world = world();
    world.plan.pipes[0].status = Status::Within;
    world.plan.pipes[0].stop = StopReason::Interrupted;
    world.plan.pipes[0].cost = 1_000_000;
    world.plan.pipes[0].bound = 900_000;
    world.plan.pipes[0].pipe_money = 2_000_000;
    world.plan.left_out = vec![Impossible {
        gate: None,
        extra: None,
        mark: "Z1".to_owned(),
        part: Some("Z1-V".to_owned()),
        reason: "longer than every joint.".to_owned(),
        change: "a longer joint".to_owned(),
    }];
    let text = summary_of(world.job(), "x");
    assert!(
        text.contains("within $1.00 (5.00 %), stopped early"),
        "{text}"
    );
    assert!(
        text.contains("LEFT OUT Z1-V: longer than every joint."),
        "{text}"
    );
    assert!(
        text.contains("To make it possible: a longer joint"),
        "{text}"
    );
    world
        .plan
        .pipes
        .iter_mut()
        .for_each(|p| p.status = Status::Proved);
    let text = summary_of(world.job(), "x");
    assert!(
        text.contains("proved") && !text.contains("within"),
        "{text}"
    );
    assert!(!text.to_lowercase().contains("optimal"));
}

/// No plan is cheaper by more than the gap in print, and a pipe's gap is one figure in text and on paper.
#[test]
fn a_gap_is_rounded_up_and_one_figure_on_every_sheet() {
    let mut world = world();
    let pipe = &mut world.plan.pipes[0];
    (pipe.status, pipe.pipe_money) = (Status::Within, 100_000_000);
    (pipe.cost, pipe.bound) = (2_000_000, 2_000_000 - 1_084_001);
    for (status, words) in [
        (Status::Within, "within $10.85 (1.08 %)"),
        (Status::ProvedBySearch, "certified within $10.85 (1.08 %)"),
    ] {
        world.plan.pipes[0].status = status;
        let text = super::summary::status(world.job(), &world.plan.pipes[0]);
        assert!(text.contains(words), "{text}");
        let paper = super::paper::verdict::verdict(world.job(), &world.plan.pipes[0]);
        assert!(paper.contains(words), "{paper}");
    }
}

/// Rows that each round up do not print more than the total beside them.
#[test]
fn the_pipes_money_adds_up_to_the_total_in_print() {
    let mut world = world();
    let Some(ledger) = &mut world.plan.ledger else {
        panic!("the starter's stock is priced");
    };
    assert!(world.plan.pipes.len() > 1);
    let mut exact = 0;
    for pipe in &mut world.plan.pipes {
        pipe.cost = pipe.cost.div_euclid(1000) * 1000 + 600;
        exact += pipe.cost;
    }
    // The sum's cents, as the lines of the ledger would have them.
    ledger.kept = ledger.kept + ledger.total() - Money::from_millicents(exact).cents();
    let total = ledger.total();
    world.plan.total = Some(total);
    let summary = summary_of(world.job(), "x");
    let mut rows = summary.lines().skip_while(|l| !l.starts_with("---"));
    let rows = rows.by_ref().skip(1).take_while(|l| !l.is_empty());
    let money = |line: &str| -> rust_decimal::Decimal {
        let word = line
            .split_whitespace()
            .find(|w| w.contains('.') && !w.contains('/'));
        let digits = word.expect("money").replace(',', "");
        digits.parse().expect("a number")
    };
    let sum: rust_decimal::Decimal = rows.take(world.plan.pipes.len()).map(money).sum();
    assert_eq!(sum, total.0, "{summary}");
}

/// A gap as large as the money says nothing, and a word that no row uses is not explained.
#[test]
fn the_legend_holds_the_words_above_it_and_no_others() {
    let mut world = world();
    for pipe in &mut world.plan.pipes {
        (pipe.status, pipe.stop) = (Status::Proved, StopReason::WorkBudget);
    }
    let text = summary_of(world.job(), "x");
    assert!(
        !text.contains("work budget") && !text.contains("within"),
        "{text}"
    );
    let pipe = &mut world.plan.pipes[0];
    (pipe.status, pipe.bound, pipe.pipe_money) = (Status::Within, 0, pipe.cost - 1);
    let text = summary_of(world.job(), "x");
    assert!(text.contains("no useful bound yet, work budget"), "{text}");
    assert!(
        text.contains("work budget: the search did its set amount"),
        "{text}"
    );
    assert!(
        !text.contains("within: ") && !text.contains("all tried"),
        "{text}"
    );
}

#[test]
fn kit_files_have_safe_and_different_names() {
    let mut world = world();
    let kit = KitAdvice {
        gate: 0,
        options: Vec::new(),
    };
    world.week.gates[kit.gate].mark = "../a:b".to_owned();
    world.plan.kits = vec![kit.clone(), kit];
    let files = results_of(
        world.job(),
        super::written(world.job()).expect("figures are finite"),
        Vec::new(),
    )
    .expect("figures are finite");
    let names: Vec<&str> = files.iter().map(|(n, _)| n.as_str()).collect();
    assert!(names.contains(&"kit____a_b.txt"), "{names:?}");
    assert!(names.contains(&"kit____a_b_2.txt"), "{names:?}");
    assert_eq!(names.last(), Some(&"plan.json"));
}
