//! A sound plan spoiled in one place at a time, each spoiling to be named by the judge.

use longpoint::check::{Rule, check, violations};
use longpoint::measure::Length;
use longpoint::order::Week;
use longpoint::part::TakeOff;
use longpoint::plan::Plan;

use crate::judge::{names, planned, print};

/// A change to a sound plan, its week or its take-off.
pub type Spoil = fn(&mut Plan, &mut Week, &mut TakeOff);

/// One saw mark.
pub const MARK: Length = Length::from_64ths(4);

/// Every spoiling of the list is named, over the sound plan of a week.
pub fn all_named(week: fn() -> Week, list: &[(Rule, Spoil)]) {
    let good = week();
    let (take_off, plan) = planned(&good);
    let found = violations(&good, &take_off, &plan);
    assert!(found.is_empty(), "{}", print(&found));
    let mut missed = String::new();
    for (number, (rule, spoil)) in list.iter().enumerate() {
        let (mut week, mut take_off, mut plan) = (good.clone(), take_off.clone(), plan.clone());
        spoil(&mut plan, &mut week, &mut take_off);
        let found = violations(&week, &take_off, &plan);
        if !names(&found, *rule) {
            missed += &format!("{number}: {rule} not named in:\n{}\n", print(&found));
        }
        assert!(check(week, take_off, plan).is_err(), "{rule}");
    }
    assert!(missed.is_empty(), "{missed}");
}
