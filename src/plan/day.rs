//! What each saw cuts in one day, by the minutes of its joints in their order.

use std::collections::BTreeMap;

use super::floor::joint_minutes;
use super::{Plan, PlannedJoint, Sitting};
use crate::order::Week;

/// One saw's work, and how far it gets in a day.
#[derive(Clone, Debug, PartialEq)]
pub struct SawDay {
    /// Saw or crew, 1...
    pub saw: u32,
    /// Minutes of all its joints.
    pub minutes: f64,
    /// Its joints that are cut within the day, in order.
    pub cut: Vec<u32>,
}

/// Every saw's day of so many hours.
pub fn saw_days(week: &Week, plan: &Plan, hours: f64) -> Vec<SawDay> {
    let joints: BTreeMap<u32, &PlannedJoint> = plan.joints.iter().map(|j| (j.number, j)).collect();
    let minutes = |number: &u32| joints.get(number).map_or(0.0, |j| joint_minutes(week, j));
    let day = |sitting: &Sitting| {
        let mut spent = 0.0;
        let within = |number: &&u32| {
            spent += minutes(number);
            // A sum of estimates that comes to just the day is within it.
            spent <= hours * 60.0 + 1e-6
        };
        SawDay {
            saw: sitting.saw,
            minutes: sitting.minutes,
            cut: sitting.joints.iter().take_while(within).copied().collect(),
        }
    };
    plan.sittings.iter().map(day).collect()
}
