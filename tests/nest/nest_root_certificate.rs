//! The bound that a root answer claims is the one its own duals give (DESIGN §9), by the judge.

use longpoint::check::certificate::verify;
use longpoint::nest::{Aim, Limits, NoWatch, Pool, Problem, solve};

fn holds(pool: &str) {
    let pool: Pool = serde_json::from_str(pool).expect("a pool");
    let problem = Problem {
        aim: Aim::Money,
        pools: vec![pool],
        charges: Vec::new(),
    };
    let answer = solve(&problem, &Limits::default(), &NoWatch).expect("a sound problem");
    let verified = verify(&problem, &answer.pools, None);
    assert!(verified.is_ok(), "{verified:#?}");
}

/// Two lengths on sale and one pair of spliced lines, every piece alone on its joint: once claimed
/// a bound that leaned on a row over all joints together, which no certificate carries.
#[test]
fn a_root_bound_leans_on_nothing_the_certificate_does_not_carry() {
    holds(include_str!("../nest_cases/two_stocks_one_pair.json"));
}

/// Four slots of two zones meet in one point, which is of the first zone: keeping out of the second zone
/// once kept out of that point too, and the bound passed the optimum.
#[test]
fn a_point_where_zones_meet_is_of_one_of_them() {
    holds(include_str!("../nest_cases/zones_meet.json"));
}
