//! Telling on stderr, where that is a terminal, how a long search goes.

use std::io::IsTerminal;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use crate::measure::Money;
use crate::nest::Watch;
use crate::text::shown;

use super::stop::Stop;

/// Says how it goes, and passes a request to stop on.
pub(super) struct Teller {
    stop: Stop,
    started: Instant,
    last: Mutex<Last>,
    loud: bool,
    amount: fn(i64) -> String,
}

/// When something was last said, and plans made so far.
#[derive(Default)]
struct Last {
    said: Option<Instant>,
    plans: u32,
}

/// Least time between two lines of progress.
const PAUSE: Duration = Duration::from_millis(300);

impl Teller {
    /// Of a problem file, in its own units of cost; silent where stderr is no terminal.
    pub fn new(stop: Stop) -> Teller {
        Teller {
            stop,
            started: Instant::now(),
            last: Mutex::new(Last::default()),
            loud: std::io::stderr().is_terminal(),
            amount: |cost| cost.to_string(),
        }
    }

    /// Of a week, in money.
    pub fn of_money(stop: Stop) -> Teller {
        Teller {
            amount: |cost| Money::from_millicents(cost).to_string(),
            ..Teller::new(stop)
        }
    }

    /// One plan of several is made: says how many are, and which the last was.
    pub fn made(&self, name: &str) {
        let Ok(mut last) = self.last.lock() else {
            return;
        };
        last.plans += 1;
        let plans = last.plans;
        self.say(&mut last, || {
            format!(
                "{plans} {} made: {name}",
                if plans == 1 { "plan" } else { "plans" }
            )
        });
    }

    fn say(&self, last: &mut Last, words: impl FnOnce() -> String) {
        if !self.loud || last.said.is_some_and(|l| l.elapsed() < PAUSE) {
            return;
        }
        last.said = Some(Instant::now());
        eprintln!(
            "{:7.1} s  {}",
            self.started.elapsed().as_secs_f64(),
            shown(&words())
        );
    }
}

impl Watch for Teller {
    fn stop_requested(&self) -> bool {
        self.stop.stop_requested()
    }

    fn progress(&self, pool: &str, bound: i64, best: Option<i64>, _steps: u64) {
        let Ok(mut last) = self.last.lock() else {
            return;
        };
        self.say(&mut last, || {
            let amount = self.amount;
            let best = best.map_or_else(
                || "none yet".to_owned(),
                |b| format!("{}, gap {}", amount(b), amount(b.saturating_sub(bound))),
            );
            format!("{pool}: bound {}, best {best}", amount(bound))
        });
    }
}
