//! The judge's limits to the day, the mark and the tick: what stands just at a limit passes, one step further is
//! named. A limit that is loosened by a day or an inch cuts wrong pipe and is seen nowhere else.

use longpoint::check::certificate::verify;
use longpoint::check::{Rule, Violation, violations};
use longpoint::measure::Length;
use longpoint::nest::Problem;
use longpoint::order::{Supplier, Week};
use longpoint::plan::{JointSource, Plan};
use serde_json::json;

use crate::judge::{names, of_parts, planned, print};
use crate::tiny;
use crate::tiny_week::{landed, money, of, quote, week};
use jiff::civil::date;

/// Joints that come on the very day they are wanted serve the gate; a day later they do not, and plan and judge
/// agree on either side of that day.
#[test]
fn a_joint_serves_until_the_day_it_is_wanted_and_no_longer() {
    for shop_days in [0, 1, 3] {
        for late in [0, 1, 2] {
            let mut week = week();
            week.shop.buying.order_date = Some(date(2026, 2, 27));
            week.shop.buying.shop_days = shop_days;
            week.quotes.push(quote(tiny::HEAVY, 40, "120.00"));
            for quote in &mut week.quotes {
                let long = quote.nominal > tiny::feet(24, 0.0);
                quote.terms.lead_days = Some(if long { 8 } else { 1 });
            }
            // The 40s come on 2026-03-07.
            let mut due = date(2026, 3, 7);
            for _ in 0..shop_days {
                due = due.tomorrow().expect("a day");
            }
            for _ in 0..late {
                due = due.yesterday().expect("a day");
            }
            week.gates.iter_mut().for_each(|g| g.due = Some(due));
            let (take_off, plan) = planned(&week);
            let found = violations(&week, &take_off, &plan);
            assert!(found.is_empty(), "{shop_days} {late}: {}", print(&found));
            let long = |j: &longpoint::plan::PlannedJoint| j.length > tiny::feet(24, 0.0);
            let taken = plan.joints.iter().any(long);
            assert_eq!(
                taken,
                late == 0,
                "{shop_days} days in the shop, {late} late"
            );
            if !taken {
                continue;
            }
            // The same plan with the gates wanted a day sooner.
            for gate in &mut week.gates {
                gate.due = Some(due.yesterday().expect("a day"));
            }
            let found = violations(&week, &take_off, &plan);
            assert!(names(&found, Rule::JointLate), "{}", print(&found));
        }
    }
}

/// A long gate out of 21s: each of its horizontals in four pieces or more.
fn long_week() -> Week {
    let mut gate = tiny::gate("A1");
    gate.opening = tiny::feet(52, 0.0);
    gate.tail = tiny::feet(26, 0.0).geometric();
    gate.leaf = tiny::feet(79, 0.0).geometric();
    let mut week = tiny::week(vec![gate]);
    week.quotes = vec![
        quote(tiny::HEAVY, 24, "74.40"),
        quote(tiny::LIGHT, 21, "46.20"),
    ];
    week
}

/// What the judge says of a sound plan where a splice rule is put just there.
fn said(week: &Week, change: impl Fn(&mut Week)) -> Vec<Violation> {
    let (take_off, plan) = planned(week);
    let mut other = week.clone();
    change(&mut other);
    violations(&other, &take_off, &plan)
}

/// Whether a rule speaks of a splice or piece that stands too near or is too short, not of the setting itself.
fn speaks(found: &[Violation], rule: Rule, words: &str) -> bool {
    found
        .iter()
        .any(|v| v.rule == rule && v.detail.contains(words))
}

fn whole_ticks(x: f64) -> Length {
    Length::floor_mark(x, Length::from_ticks(1))
}

/// Least distance of a top splice from a bottom splice of one gate.
fn stagger(plan: &Plan) -> f64 {
    let mut least = f64::INFINITY;
    for a in &plan.spliced {
        let others = plan
            .spliced
            .iter()
            .filter(|b| b.copy == a.copy && b.part != a.part);
        for b in others {
            for (p, q) in a
                .splices
                .iter()
                .flat_map(|s| b.splices.iter().map(move |t| (s, t)))
            {
                if let (Some(x), Some(y)) = (p.x, q.x) {
                    least = least.min((x - y).abs());
                }
            }
        }
    }
    least
}

#[test]
fn splices_may_stand_just_the_stagger_apart_and_not_a_tick_less() {
    let mut week = week();
    week.gates.truncate(1);
    let (_, plan) = planned(&week);
    let apart = whole_ticks(stagger(&plan));
    let found = said(&week, |w| w.shop.splice.stagger = apart);
    assert!(
        !speaks(&found, Rule::SpliceStagger, "in apart"),
        "{}",
        print(&found)
    );
    let found = said(&week, |w| {
        w.shop.splice.stagger = apart + Length::from_ticks(1)
    });
    assert!(
        speaks(&found, Rule::SpliceStagger, "in apart"),
        "{}",
        print(&found)
    );
}

#[test]
fn a_piece_may_be_just_the_least_and_not_a_mark_shorter() {
    let week = long_week();
    let (_, plan) = planned(&week);
    let mark = week.shop.saw.mark;
    let pieces = plan.spliced.iter().flat_map(|l| &l.pieces);
    let shortest = *pieces.min().expect("pieces");
    let found = said(&week, |w| w.shop.splice.least_piece = shortest);
    assert!(
        !speaks(&found, Rule::SpliceLeastPiece, "a piece of"),
        "{}",
        print(&found)
    );
    let found = said(&week, |w| w.shop.splice.least_piece = shortest + mark);
    assert!(
        speaks(&found, Rule::SpliceLeastPiece, "a piece of"),
        "{}",
        print(&found)
    );
}

#[test]
fn a_root_gap_is_no_less_than_asked() {
    let week = long_week();
    let (_, plan) = planned(&week);
    let least = plan
        .spliced
        .iter()
        .map(|l| l.gap)
        .fold(f64::INFINITY, f64::min);
    let found = said(&week, |w| {
        w.shop.splice.root_gap = whole_ticks(least) + Length::MM
    });
    assert!(
        speaks(&found, Rule::SpliceGap, "together"),
        "{}",
        print(&found)
    );
}

/// Three splices must be over the distance apart: just at it they are too near.
#[test]
fn three_splices_just_at_the_distance_are_too_near() {
    let week = long_week();
    let (_, plan) = planned(&week);
    let lines = plan.spliced.iter().filter(|l| l.splices.len() > 2);
    let span = |l: &longpoint::plan::SplicedLine| {
        let threes = l.splices.windows(3);
        threes
            .map(|w| w[2].centre - w[0].centre)
            .fold(f64::INFINITY, f64::min)
    };
    let near = lines.map(span).fold(f64::INFINITY, f64::min);
    assert!(near.is_finite(), "a line of three splices");
    let whole = whole_ticks(near);
    let found = said(&week, |w| {
        w.shop.splice.three_within = whole - Length::from_ticks(1)
    });
    assert!(!names(&found, Rule::SpliceThreeNear), "{}", print(&found));
    let found = said(&week, |w| {
        w.shop.splice.three_within = whole + Length::from_ticks(1);
    });
    assert!(names(&found, Rule::SpliceThreeNear), "{}", print(&found));
    // Three splices lie whole 1/2m ticks: where the distance is whole, just there is too near.
    if (whole.geometric() - near).abs() < 1e-9 {
        let found = said(&week, |w| w.shop.splice.three_within = whole);
        assert!(names(&found, Rule::SpliceThreeNear), "{}", print(&found));
    }
}

/// Centre of splice `j` (1…) of a line in these pieces, times 2m.
fn centre(line: &longpoint::nest::Line, mark: i64, pieces: &[i64], j: usize) -> i64 {
    let m = i64::try_from(pieces.len()).expect("few") - 1;
    let metal = (line.length - m * line.gap).div_euclid(mark) * mark;
    let before: i64 = pieces[..j].iter().sum();
    let nth = i64::try_from(j).expect("few");
    2 * m * before + (2 * nth - 1) * (line.length - metal)
}

/// The certificate's own rules of a group, at their limits: the stagger, and three splices within a distance.
#[test]
fn a_certificates_configurations_keep_their_distances_to_the_tick() {
    for week in [week(), long_week()] {
        let work = planned(&week).1.nest;
        let named = |problem: &Problem| match verify(problem, &work.answers, None) {
            Ok(_) => false,
            Err(found) => names(&found, Rule::CertificateConfiguration),
        };
        assert!(!named(&work.problem));
        let mut tried = 0;
        for (p, answer) in work.answers.iter().enumerate() {
            let pool = &work.problem.pools[p];
            for made in &answer.configurations {
                let group = &pool.groups[made.group];
                let splices = |line: usize| {
                    let m = made.lines[line].len() - 1;
                    let at = |j| centre(&group.lines[line], pool.mark, &made.lines[line], j);
                    (
                        (1..=m).map(at).collect::<Vec<i64>>(),
                        i64::try_from(m).expect("few"),
                    )
                };
                if let [_, _] = made.lines.as_slice() {
                    let ((a, ma), (b, mb)) = (splices(0), splices(1));
                    if ma > 0 && mb > 0 {
                        let all = a
                            .iter()
                            .flat_map(|x| b.iter().map(move |y| (x * mb - y * ma).abs()));
                        let apart = all.min().expect("splices").div_euclid(2 * ma * mb);
                        for (by, refused) in [(0, false), (1, true), (254, true)] {
                            let mut problem = work.problem.clone();
                            problem.pools[p].groups[made.group].apart = apart + by;
                            assert_eq!(named(&problem), refused, "{by} ticks over {apart}");
                            tried += 1;
                        }
                    }
                }
                for line in 0..made.lines.len() {
                    let (at, m) = splices(line);
                    let Some(near) = at.windows(3).map(|w| w[2] - w[0]).min() else {
                        continue;
                    };
                    let over = near.div_euclid(2 * m);
                    let just = near.rem_euclid(2 * m) == 0;
                    for (by, refused) in [(-1, false), (0, just), (1, true)] {
                        let mut problem = work.problem.clone();
                        problem.pools[p].groups[made.group].lines[line].three_over = over + by;
                        assert_eq!(named(&problem), refused, "{by} ticks over {over}");
                        tried += 1;
                    }
                }
            }
        }
        assert!(tried > 0);
    }
}

/// Two pieces of 49 with the kerf of 2 between them fill a joint of 100: a proof that needs a joint for each is
/// none. A drop of just the keep length is paid for, and a joint as long as a freight step takes that step.
#[test]
fn a_joint_that_is_filled_to_the_tick_is_counted() {
    let problem = json!({"pools": [{"name": "pipe", "mark": 1, "kerf": 2,
        "credit": {"keep": 0, "foot": 1, "per_foot": 0},
        "stocks": [{"name": "pipe", "usable": 100, "cost": 100, "length": 100}],
        "items": [{"length": 49, "count": 2}], "groups": []}]});
    let problem: Problem = serde_json::from_value(problem).expect("a problem");
    let answer = |times: u32, cuts: serde_json::Value, cost: i64, dual: i64| {
        let leaf = json!({"leaf": {"item_duals": [dual], "dual_scale": 1, "length_duals": []}});
        let answer = json!({"patterns": [{"stock": 0, "times": times, "cuts": cuts}],
            "configurations": [], "cost": cost, "bound": cost, "proof": [leaf],
            "status": "proved", "stop": "closed", "short": [], "short_groups": []});
        serde_json::from_value(answer).expect("an answer")
    };
    let item = json!({"item": 0});
    let sound = answer(1, json!([item, item]), 100, 50);
    verify(&problem, &[sound], None).expect("one joint holds both");
    let two = answer(2, json!([item]), 200, 100);
    let found = verify(&problem, &[two], None).expect_err("two joints are one too many");
    assert!(names(&found, Rule::CertificateBound), "{}", print(&found));
}

/// The same pieces with a drop of just the keep length behind them, which is paid.
#[test]
fn a_drop_of_just_the_keep_length_is_paid_in_a_proof() {
    let problem = json!({"pools": [{"name": "pipe", "mark": 1, "kerf": 2,
        "credit": {"keep": 30, "foot": 10, "per_foot": 5},
        "stocks": [{"name": "pipe", "usable": 100, "cost": 100, "length": 100}],
        "items": [{"length": 68, "count": 1}], "groups": []}]});
    let problem: Problem = serde_json::from_value(problem).expect("a problem");
    // 100 less 68 and a kerf leaves 30: 15 are paid back.
    for (cost, dual, sound) in [(85, 85, true), (100, 100, false)] {
        let leaf = json!({"leaf": {"item_duals": [dual], "dual_scale": 1, "length_duals": []}});
        let answer = json!({"patterns": [{"stock": 0, "times": 1, "cuts": [{"item": 0}]}],
            "configurations": [], "cost": cost, "bound": cost, "proof": [leaf],
            "status": "proved", "stop": "closed", "short": [], "short_groups": []});
        let answer = serde_json::from_value(answer).expect("an answer");
        assert_eq!(verify(&problem, &[answer], None).is_ok(), sound, "{cost}");
    }
}

/// Freight at its edges: a joint as long as a step, prices of just the amount from which it is free, a drop of just
/// the keep length, a price from one joint on, which is no break.
#[test]
fn money_at_its_edges_passes() {
    let mut week = landed();
    // One 21 is 63.00; the step goes to just 21 ft.
    week.gates.truncate(1);
    week.gates[0] = tiny::gate("A1");
    week.extras.clear();
    week.rack.clear();
    week.shop.money.spares.clear();
    week.quotes = vec![
        of("Ada", quote(tiny::HEAVY, 21, "63.00")),
        of("Ada", quote(tiny::LIGHT, 21, "46.20")),
    ];
    week.quotes[0].terms.from = 1;
    week.suppliers.truncate(1);
    week.suppliers[0].free_over = None;
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let ledger = plan.ledger.expect("priced");
    // No joint is longer than 21 ft: the first step, 65.
    assert_eq!(ledger.freight, money("65"));
    // Prices before tax that come to just the amount: the first step is free.
    let mut free = week.clone();
    free.suppliers[0].free_over = Some(ledger.pipe);
    let (take_off, plan) = planned(&free);
    let found = violations(&free, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    assert_eq!(plan.ledger.expect("priced").freight, money("0"));
    let mut minimum = week.clone();
    minimum.suppliers = vec![Supplier {
        name: "Ada".into(),
        minimum: Some(ledger.pipe),
        ..Supplier::default()
    }];
    let (take_off, plan) = planned(&minimum);
    let found = violations(&minimum, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    assert_eq!(plan.ledger.expect("priced").minimum, money("0"));
}

/// A drop is kept from the keep length on: at just it, and a tick under it is scrap.
#[test]
fn a_drop_of_just_the_keep_length_is_kept() {
    let mut week = week();
    week.gates.truncate(2);
    let (_, plan) = planned(&week);
    let drops = plan.joints.iter().map(|j| j.drop);
    let drop = drops
        .filter(|d| *d > Length::INCH * 8)
        .min()
        .expect("a drop");
    for (keep, kept) in [(drop, true), (drop + Length::from_ticks(1), false)] {
        week.shop.money.keep_length = keep;
        let (take_off, plan) = planned(&week);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "{}", print(&found));
        for joint in &plan.joints {
            assert_eq!(joint.kept, joint.drop >= keep, "joint {}", joint.number);
            let just = joint.drop == drop;
            assert!(!just || joint.kept == kept);
        }
    }
}

/// Spares are bought at a price that their own count earns.
#[test]
fn spares_are_not_bought_at_a_break_they_do_not_reach() {
    let mut week = week();
    let mut many = quote(tiny::LIGHT, 21, "40.00");
    many.terms.from = 50;
    week.quotes.push(many);
    let (take_off, plan) = planned(&week);
    let found = violations(&week, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let spare = plan.spares.first().expect("a spare");
    assert_eq!(spare.money, Some(money("46.20")));
    // At the break its count does reach the spare would be at the dearer price: named.
    week.shop.money.spares = vec![(tiny::LIGHT, 50)];
    let found = violations(&week, &take_off, &plan);
    assert!(names(&found, Rule::SpareQuote), "{}", print(&found));
}

/// What is trimmed from a rack piece is what its row says, at either end.
#[test]
fn clean_ends_of_rack_pieces_are_not_trimmed() {
    for (near, far) in [(true, true), (true, false), (false, true), (false, false)] {
        let mut week = week();
        (week.rack[0].near_trim, week.rack[0].far_trim) = (near, far);
        week.shop.saw.far_trim = Length::INCH;
        let (take_off, plan) = planned(&week);
        let found = violations(&week, &take_off, &plan);
        assert!(found.is_empty(), "{near} {far}: {}", print(&found));
        let of_rack =
            |j: &&longpoint::plan::PlannedJoint| matches!(j.source, JointSource::Rack(..));
        for joint in plan.joints.iter().filter(of_rack) {
            assert_eq!(joint.near > Length::ZERO, near);
            assert_eq!(joint.far > Length::ZERO, far);
        }
    }
}

/// Bays of just the limit are over it, whatever noise their division leaves: plan and judge count alike.
#[test]
fn bays_of_just_the_limit_count_as_over() {
    for n in [3, 7, 9, 11, 13] {
        for limit in [41.1, 55.3, 60.7, 67.9] {
            let mut gate = tiny::gate("A1");
            let od = 2.375 * 8128.0;
            let limit_ticks = tiny::inches(limit);
            gate.leaf = limit_ticks.geometric() * f64::from(n) + od;
            gate.opening = whole_ticks(gate.leaf / 2.0);
            gate.tail = gate.leaf - gate.opening.geometric() - tiny::inches(12.0).geometric();
            let mut week = tiny::week(vec![gate]);
            week.shop.gate.bay_limit = limit_ticks;
            let (take_off, _) = longpoint::part::take_off(&week);
            let found = of_parts(&week, &take_off);
            assert!(found.is_empty(), "{n} of {limit}: {}", print(&found));
            let lines = &take_off.frames[0].bay_lines;
            assert_eq!(
                lines.len(),
                usize::try_from(n).expect("few") + 2,
                "{n} of {limit}"
            );
        }
    }
}
