//! Pools on each side of every limit.

use super::*;
use crate::measure::{Length, Money};
use crate::order::{Origin, RackPiece, Week};
use crate::splice::world::{CHORD, WEB, dec, inch, quote, take_off, week};

fn small() -> Week {
    week(&[("A1", 144.0, 72.0, 1, 5)])
}

fn chord(week: &Week) -> PoolSource {
    pools(week, &take_off(week)).expect("sound prices")[1].clone()
}

fn rack(length: f64, near_trim: bool, far_trim: bool) -> RackPiece {
    RackPiece {
        tag: "R1".to_owned(),
        pipe: CHORD,
        length: inch(length),
        count: 2,
        near_trim,
        far_trim,
        arrives: None,
        note: String::new(),
        origin: Origin {
            file: "rack.csv".to_owned(),
            line: 2,
        },
    }
}

#[test]
fn one_pool_per_pipe_in_pipe_order_with_usable_lengths() {
    let week = small();
    let all = pools(&week, &take_off(&week)).expect("sound prices");
    assert_eq!(all.iter().map(|p| p.pipe).collect::<Vec<_>>(), [WEB, CHORD]);
    let stock = &all[1].stocks[0];
    assert_eq!((stock.length, stock.usable), (inch(252.0), inch(251.5)));
    assert_eq!((stock.cost, stock.limit), (Money(dec(7_350, 2)), None));
    assert_eq!(longest_usable(&week, CHORD, None), Some(inch(251.5)));
}

#[test]
fn planning_length_cuts_and_nominal_length_prices() {
    let mut week = small();
    week.quotes[0].planning = inch(250.0);
    let pool = chord(&week);
    assert_eq!(pool.stocks[0].usable, inch(249.5));
    // Half of 73.50 / 21 ft nominal.
    assert_eq!(pool.credit_per_foot, Money(dec(175, 2)));
}

#[test]
fn hold_back_is_lost_and_trims_that_eat_a_joint_leave_it_out() {
    let mut week = small();
    week.shop.saw.hold_back = inch(6.0);
    assert_eq!(chord(&week).stocks[0].usable, inch(245.5));
    week.quotes.push(quote(CHORD, 0, Some(1), 9));
    week.quotes[2].nominal = inch(6.5);
    week.quotes[2].planning = inch(6.5);
    assert_eq!(chord(&week).stocks.len(), 1);
    week.quotes[0].available = Some(0);
    assert_eq!(chord(&week).stocks.len(), 0);
}

#[test]
fn rack_pieces_trim_only_the_ends_that_want_it_and_cost_their_credit() {
    let mut week = small();
    week.rack = vec![
        rack(100.0, false, true),
        rack(36.0, false, false),
        rack(35.0, false, false),
    ];
    let pool = chord(&week);
    let rows: Vec<(Length, Money, Option<u32>)> = pool.stocks[1..]
        .iter()
        .map(|s| (s.usable, s.cost, s.limit))
        .collect();
    assert_eq!(
        rows,
        [
            // 99.75 in: 8 whole feet at 1.75.
            (inch(99.75), Money(dec(1_400, 2)), Some(2)),
            (inch(36.0), Money(dec(525, 2)), Some(2)),
            // Under the keep length: free.
            (inch(35.0), Money::ZERO, Some(2)),
        ]
    );
}

#[test]
fn credit_starts_at_the_keep_length_and_counts_whole_feet() {
    let week = small();
    let pool = chord(&week);
    let of = |x: f64| credit(&week, &pool, inch(x)).millicents();
    assert_eq!(of(36.0 - 1.0 / 64.0), Some(0));
    assert_eq!(of(36.0), Some(525_000));
    assert_eq!(of(48.0 - 1.0 / 64.0), Some(525_000));
    assert_eq!(of(48.0), Some(700_000));
}

#[test]
fn credit_rate_takes_the_cheapest_foot_on_sale_down_to_a_millicent() {
    let mut week = small();
    week.quotes.push(quote(CHORD, 24, Some(7_001), 9));
    // 70.01 / 24 × 0.5 = 1.458541666…
    assert_eq!(chord(&week).credit_per_foot, Money(dec(145_854, 5)));
    week.quotes[2].available = Some(0);
    assert_eq!(chord(&week).credit_per_foot, Money(dec(175, 2)));
}

#[test]
fn a_joint_that_pays_as_a_drop_is_refused_by_name() {
    let mut week = small();
    // U = 251.5: 20 whole feet × 3.50 × rate. At rate 1 the 21 ft joint costs 73.50 > 70.00.
    week.shop.money.credit_rate = dec(1, 0);
    assert!(pools(&week, &take_off(&week)).is_ok());
    week.shop.money.credit_rate = dec(105, 2);
    let said = pools(&week, &take_off(&week)).expect_err("pays as a drop");
    // 20 × 3.675 = 73.50: not more than its credit. Both pipes alike.
    assert_eq!(said.len(), 2);
    assert!(said[1].mark.contains("2-3/8 SS40"), "{}", said[1].mark);
    assert!(said[1].reason.contains("73.50"), "{}", said[1].reason);
}

#[test]
fn a_missing_price_makes_the_pool_count_joints() {
    let mut week = small();
    week.quotes.push(quote(CHORD, 40, None, 9));
    week.rack = vec![rack(100.0, false, false)];
    let pool = chord(&week);
    assert!(!pool.priced);
    assert_eq!(pool.credit_per_foot, Money::ZERO);
    let costs: Vec<Option<i64>> = pool.stocks.iter().map(|s| s.cost.millicents()).collect();
    // Longest first: a joint each, then its feet; the rack is free.
    assert_eq!(
        costs,
        [
            Some(UNPRICED_JOINT + 40),
            Some(UNPRICED_JOINT + 21),
            Some(0)
        ]
    );
    assert!(pools(&week, &take_off(&week)).expect("sound")[0].priced);
}

#[test]
fn rows_in_any_order_make_the_same_pool() {
    let mut week = small();
    week.quotes.push(quote(CHORD, 40, Some(13_000), 9));
    week.quotes.push(quote(CHORD, 24, Some(8_300), 10));
    week.rack = vec![rack(100.0, false, true), rack(60.0, true, true)];
    let lengths = |w: &Week| chord(w).stocks.iter().map(|s| s.usable).collect::<Vec<_>>();
    let before = lengths(&week);
    week.quotes.reverse();
    week.rack.reverse();
    assert_eq!(lengths(&week), before);
}
