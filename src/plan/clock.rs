//! How long all searches of one plan may take together. Each search is given the whole of the limits; this watch
//! stops every one of them when the time of the plan is over.

use std::time::{Duration, Instant};

use crate::nest::{Limits, Pool, PoolAnswer, Watch};

/// So much longer than the limit the first plan is sought: without any plan the limit would help nobody.
const GRACE: Duration = Duration::from_millis(300);

/// A watch that also asks to stop when the plan's time is over.
pub(super) struct Clock<'w> {
    watch: &'w dyn Watch,
    end: Option<Instant>,
    /// The searches are asked for the first plan alone, of which nobody is told.
    first: bool,
}

impl<'w> Clock<'w> {
    /// Time is counted from now on; two clocks: of the first plan, and of the search for better ones.
    pub fn pair(limits: &Limits, watch: &'w dyn Watch) -> [Clock<'w>; 2] {
        let started = Instant::now();
        let after = |more: Duration| {
            let time = limits.time.map(|limit| limit.saturating_add(more))?;
            // A limit past all time is none.
            started.checked_add(time)
        };
        let clock = |end, first| Clock { watch, end, first };
        [
            clock(after(GRACE), true),
            clock(after(Duration::ZERO), false),
        ]
    }
}

impl Watch for Clock<'_> {
    fn stop_requested(&self) -> bool {
        self.watch.stop_requested() || self.end.is_some_and(|end| Instant::now() >= end)
    }

    fn progress(&self, pool: &str, bound: i64, best: Option<i64>, steps: u64) {
        if !self.first {
            self.watch.progress(pool, bound, best, steps);
        }
    }

    fn known(&self, pool: &Pool, limits: &Limits) -> Option<PoolAnswer> {
        (!self.first).then(|| self.watch.known(pool, limits))?
    }

    fn learn(&self, pool: &Pool, limits: &Limits, answer: &PoolAnswer) {
        if !self.first {
            self.watch.learn(pool, limits, answer);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::nest::NoWatch;

    struct Stopped;

    impl Watch for Stopped {
        fn stop_requested(&self) -> bool {
            true
        }
    }

    #[test]
    fn time_or_a_request_ends_both_and_no_limit_neither() {
        let within = |time| Limits {
            time,
            ..Limits::default()
        };
        let stops = |time: Option<Duration>, watch: &dyn Watch| {
            Clock::pair(&within(time), watch).map(|c| c.stop_requested())
        };
        assert_eq!(stops(None, &NoWatch), [false, false]);
        assert_eq!(stops(Some(Duration::MAX), &NoWatch), [false, false]);
        assert_eq!(stops(None, &Stopped), [true, true]);
        // The first plan has a little longer.
        assert_eq!(stops(Some(Duration::ZERO), &NoWatch), [false, true]);
    }
}
