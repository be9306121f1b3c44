//! The starter week planned once, for this room's tests to copy and change.

use std::sync::OnceLock;

use crate::nest::Limits;
use crate::order::{Week, WeekFiles, read_week, starter_week};
use crate::part::{TakeOff, take_off};
use crate::plan::{Plan, PlanOptions, make};
use crate::text::SourceFile;

use super::job::Job;

/// A week with its parts and plan, free to be changed.
#[derive(Clone)]
pub(super) struct World {
    pub week: Week,
    pub take_off: TakeOff,
    pub plan: Plan,
}

impl World {
    pub fn job(&self) -> Job<'_> {
        Job {
            week: &self.week,
            take_off: &self.take_off,
            plan: &self.plan,
        }
    }
}

/// The starter week's world.
pub(super) fn world() -> World {
    static WORLD: OnceLock<World> = OnceLock::new();
    WORLD.get_or_init(plan_starter).clone()
}

fn plan_starter() -> World {
    let files = starter_week();
    let file = |name: &str| {
        let found = files.iter().find(|(n, _)| *n == name);
        found.map(|(n, text)| SourceFile {
            name: (*n).to_owned(),
            bytes: text.clone().into_bytes(),
        })
    };
    let week = read_week(&WeekFiles {
        orders: file("orders.csv"),
        shop: file("shop.toml"),
        stock: file("stock.csv"),
        rack: file("rack.csv"),
        parts: file("parts.csv"),
        ..WeekFiles::default()
    })
    .expect("the starter week reads");
    let (take_off, left_out) = take_off(&week);
    let options = PlanOptions {
        date: Some("2026-03-02".to_owned()),
        revision: 2,
        limits: Limits {
            work: 1_000_000,
            time: None,
        },
        left_out,
        ..PlanOptions::default()
    };
    let plan = make(&week, &take_off, &options).expect("the starter week plans");
    World {
        week,
        take_off,
        plan,
    }
}
