//! What the rack alone completes: the first choice in due order, held against every choice there is.

use crate::dice::Dice;
use crate::{tiny, tiny_week};
use longpoint::measure::Length;
use longpoint::nest::NoWatch;
use longpoint::order::{ExtraPart, RackPiece, SplicePolicy, Week};
use longpoint::plan::{Unit, in_due_order};

fn extra(mark: &str, length: Length, count: u32) -> ExtraPart {
    ExtraPart {
        mark: mark.into(),
        pipe: tiny::LIGHT,
        length,
        count,
        paperwork: Default::default(),
        note: String::new(),
        origin: tiny_week::origin(2),
    }
}

fn piece(tag: &str, pipe: longpoint::order::PipeId, length: Length, count: u32) -> RackPiece {
    RackPiece {
        tag: tag.into(),
        pipe,
        length,
        count,
        near_trim: false,
        far_trim: true,
        arrives: None,
        note: String::new(),
        origin: tiny_week::origin(3),
    }
}

/// Whether pieces fit rooms (a kerf added to both), every way tried.
fn fits(pieces: &[i64], rooms: &mut [i64]) -> bool {
    let Some((first, rest)) = pieces.split_first() else {
        return true;
    };
    (0..rooms.len()).any(|r| {
        if rooms[r] < *first {
            return false;
        }
        rooms[r] -= first;
        let found = fits(rest, rooms);
        rooms[r] += first;
        found
    })
}

/// Rows of extra parts built, by the best of all choices: the first in the order of lists.
fn best(week: &Week) -> Vec<bool> {
    let saw = &week.shop.saw;
    let rooms: Vec<i64> = week
        .rack
        .iter()
        .flat_map(|r| {
            let room = (r.length - saw.far_trim + saw.kerf).ticks();
            std::iter::repeat_n(room, r.count as usize)
        })
        .collect();
    let n = week.extras.len();
    let choices = (0u32..1 << n).rev();
    let built = |bits: u32| -> Vec<bool> { (0..n).map(|i| bits >> (n - 1 - i) & 1 == 1).collect() };
    let possible = |chosen: &[bool]| {
        let mut pieces: Vec<i64> = week
            .extras
            .iter()
            .zip(chosen)
            .filter(|(_, c)| **c)
            .flat_map(|(e, _)| {
                let piece = (e.length + saw.kerf).ticks();
                std::iter::repeat_n(piece, e.count as usize)
            })
            .collect();
        pieces.sort_unstable_by(|a, b| b.cmp(a));
        fits(&pieces, &mut rooms.clone())
    };
    choices
        .map(built)
        .find(|c| possible(c))
        .expect("nothing at all can always be built")
}

#[test]
fn the_first_choice_in_due_order_is_found_against_every_choice() {
    let mut dice = Dice(7);
    let mut open = 0;
    for round in 0..60 {
        let mut week = tiny::week(Vec::new());
        week.extras = (0..4)
            .map(|i| {
                let count = 1 + u32::from(dice.below(3) == 0);
                extra(&format!("X{i}"), dice.inches(18, 60), count)
            })
            .collect();
        week.rack = (0..3)
            .map(|i| piece(&format!("R{i}"), tiny::LIGHT, dice.inches(40, 110), 1))
            .collect();
        let found = in_due_order(&week, Unit::Copies, &NoWatch);
        let built: Vec<bool> = found.week.extras.iter().map(|e| e.count > 0).collect();
        assert_eq!(built, best(&week), "round {round}");
        assert!(found.passed_over.iter().all(|p| p.proved), "round {round}");
        open += usize::from(!found.passed_over.is_empty());
    }
    assert!(open > 20, "only {open} racks were short");
}

#[test]
fn copies_are_completed_one_by_one_and_the_rest_is_named() {
    let mut twins = tiny::gate("A2");
    twins.count = 2;
    twins.due = Some(jiff::civil::date(2026, 3, 2));
    let mut late = tiny::gate("A1");
    late.due = Some(jiff::civil::date(2026, 3, 9));
    let mut week = tiny::week(vec![late, twins]);
    week.shop.splice.policy = SplicePolicy::Never;
    // Two horizontals of 225 5/8 in and two posts of 76 1/2 in out of each; webs in plenty.
    week.rack = vec![
        piece("H", tiny::HEAVY, tiny::feet(21, 0.0), 2),
        piece("P", tiny::HEAVY, tiny::feet(14, 0.0), 1),
        piece("W", tiny::LIGHT, tiny::feet(40, 0.0), 10),
    ];
    let found = in_due_order(&week, Unit::Copies, &NoWatch);
    let counts: Vec<u32> = found.week.gates.iter().map(|g| g.count).collect();
    assert_eq!(counts, [0, 1], "the twin due first, once");
    let passed: Vec<(&str, u32, bool)> = found
        .passed_over
        .iter()
        .map(|p| (p.why.mark.as_str(), p.copies, p.proved))
        .collect();
    assert_eq!(passed, [("A2", 1, true), ("A1", 1, true)]);
    let rows = in_due_order(&week, Unit::Rows, &NoWatch);
    let counts: Vec<u32> = rows.week.gates.iter().map(|g| g.count).collect();
    assert_eq!(
        counts,
        [1, 0],
        "by rows the twins together are too much, the next gate is not"
    );
}

/// A long list on a short rack: halves that fit are taken at once, and what asks for as much as something
/// passed over is passed over with it.
#[test]
fn thousands_of_parts_on_a_short_rack_are_gone_through() {
    let mut week = tiny::week(Vec::new());
    let length = |i: u32| tiny::inches(f64::from(24 + i % 7));
    week.extras = (0..1_200)
        .map(|i| extra(&format!("X{i:04}"), length(i), 1))
        .collect();
    week.rack = vec![piece("R", tiny::LIGHT, tiny::feet(21, 0.0), 20)];
    let found = in_due_order(&week, Unit::Copies, &NoWatch);
    let built: Vec<u32> = found.week.extras.iter().map(|e| e.count).collect();
    let first_out = built
        .iter()
        .position(|c| *c == 0)
        .expect("the rack is short");
    assert!(first_out > 150, "{first_out}");
    let count = built.iter().sum::<u32>() as usize;
    assert_eq!(count + found.passed_over.len(), 1_200);
}
