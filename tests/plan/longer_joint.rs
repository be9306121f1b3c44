//! What a part that no joint holds is told to ask for: a length that other pipe is sold in only where it is to be
//! had.

use crate::tiny;
use crate::tiny_week::{quote, week};
use longpoint::order::Week;
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};

/// What frees an extra part of 30 ft of the light pipe, which is sold in 21s.
fn change(week: &Week) -> String {
    let (take_off, left_out) = take_off(week);
    let options = PlanOptions {
        left_out,
        ..PlanOptions::default()
    };
    let said = make(week, &take_off, &options).expect_err("too long");
    let mine = said
        .iter()
        .find(|i| i.mark == "X1")
        .expect("the part is named");
    assert!(mine.gate.is_none() && mine.extra == Some(0), "{mine:?}");
    mine.change.clone()
}

#[test]
fn a_length_is_offered_where_other_pipe_is_to_be_had_in_it() {
    for (available, offered) in [(None, true), (Some(3), true), (Some(0), false)] {
        let mut week = week();
        week.extras[0].length = tiny::feet(30, 0.0);
        let mut long = quote(tiny::HEAVY, 40, "120.00");
        long.available = available;
        week.quotes.push(long);
        let said = change(&week);
        assert_eq!(
            said.contains("other pipe is sold in that length"),
            offered,
            "{said}"
        );
        // 30 ft and the trims of either end, whatever else is sold.
        let saw = &week.shop.saw;
        let needs = tiny::feet(30, 0.0) + saw.near_trim + saw.far_trim + saw.hold_back;
        assert!(said.contains(&needs.to_string()), "{needs}: {said}");
    }
    // A joint too short is no help.
    let mut week = week();
    week.extras[0].length = tiny::feet(30, 0.0);
    week.quotes.push(quote(tiny::HEAVY, 30, "90.00"));
    assert!(!change(&week).contains("other pipe"), "{}", change(&week));
}
