//! A kill at every call that changes the disk: the next look finds the earlier sheets or the new ones, whole,
//! and the foreman's own files among them; the next run leaves nothing hidden behind.

use std::fs;
use std::path::Path;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use crate::world::*;

/// What stands in the results folder before, and what its file system can do.
#[derive(Clone, Copy)]
struct Case {
    name: &'static str,
    /// There are results, of revision 0.
    planned: bool,
    /// The foreman's own files are among them.
    own: bool,
    /// Two folders can be exchanged in one step.
    exchange: bool,
    /// A file can have a second name.
    links: bool,
}

const CASES: [Case; 6] = [
    case("fresh", false, false, true, true),
    case("replaced", true, false, true, true),
    case("own", true, true, true, true),
    case("two-steps", true, true, false, true),
    case("copies", true, true, true, false),
    case("neither", true, true, false, false),
];

const fn case(name: &'static str, planned: bool, own: bool, exchange: bool, links: bool) -> Case {
    Case {
        name,
        planned,
        own,
        exchange,
        links,
    }
}

impl Case {
    fn settings(self, more: &[(&'static str, String)]) -> Vec<(&'static str, String)> {
        let mut settings = more.to_vec();
        if !self.exchange {
            settings.push(("LONGPOINT_NO_EXCHANGE", "1".to_owned()));
        }
        if !self.links {
            settings.push(("LONGPOINT_NO_LINK", "1".to_owned()));
        }
        settings
    }

    fn killed_at(self, n: usize) -> Vec<(&'static str, String)> {
        self.settings(&[("LONGPOINT_KILL_AT", n.to_string())])
    }

    /// The place as it is before the run, with its results folder.
    fn lay_out(self, place: &Path) {
        let mut holds = if self.planned {
            sheets(0).clone()
        } else {
            Snapshot::new()
        };
        if self.own {
            holds.extend(own_files());
        }
        if self.planned {
            lay_out(&place.join("out"), &holds);
        }
    }

    /// What revision's sheets stand there, whole, with the foreman's files; `None`: no folder.
    fn look(self, place: &Path, after: &str) -> Option<u32> {
        let out = place.join("out");
        if !out.exists() {
            return None;
        }
        let mut found = snapshot(&out);
        if self.own {
            for (name, bytes) in own_files() {
                let kept = found.remove(&name);
                assert_eq!(
                    kept.as_ref(),
                    Some(&bytes),
                    "{}: {name} after {after}",
                    self.name
                );
            }
        }
        let which = (0..2).find(|revision| found == *sheets(*revision));
        assert!(
            which.is_some(),
            "{}: neither is whole after {after}: {:?}",
            self.name,
            found.keys()
        );
        which
    }

    /// Calls of a run that nothing ends.
    fn calls(self) -> usize {
        let place = place(&format!("{}-count", self.name));
        self.lay_out(&place);
        let count = place.join("count");
        let settings = [("LONGPOINT_COUNT", count.display().to_string())];
        let ran = plan(&place.join("out"), 1, &self.settings(&settings));
        assert!(ran.status.success(), "{}", messages(&ran));
        let text = fs::read_to_string(count).expect("the library counted");
        text.trim().parse().expect("a number")
    }

    /// Killed once, looked at, and the next run.
    fn once(self, n: usize) -> bool {
        let place = place(&format!("{}-{n}", self.name));
        self.lay_out(&place);
        let out = place.join("out");
        let dead = killed(&plan(&out, 1, &self.killed_at(n)));
        let after = format!("a kill at call {n}");
        let seen = self.look(&place, &after);
        if self.planned && self.exchange {
            assert!(seen.is_some(), "{}: no folder after {after}", self.name);
        }
        if n.is_multiple_of(3) {
            // A run that fails for its own reasons puts things right all the same, and says so.
            let missing = self.planned && seen.is_none();
            let said = messages(&fail(&out));
            let put = self.look(&place, "a run that failed");
            assert!(
                put.is_some() || !self.planned,
                "{}: {after}: {said}",
                self.name
            );
            assert!(
                !missing || said.contains("cut off"),
                "{}: {after}: {said}",
                self.name
            );
            assert_eq!(hidden(&place), [""; 0], "{}: {after}: {said}", self.name);
        }
        let next = plan(
            &out,
            1,
            &self.settings(&[("LONGPOINT_COUNT", "/dev/null".to_owned())]),
        );
        assert!(
            next.status.success(),
            "{}: {after}: {}",
            self.name,
            messages(&next)
        );
        assert_eq!(
            self.look(&place, "the next run"),
            Some(1),
            "{}: {after}",
            self.name
        );
        assert_eq!(hidden(&place), [""; 0], "{}: {after}", self.name);
        fs::remove_dir_all(place).expect("the place can go");
        dead
    }

    /// Run upon run killed in what the one before left.
    fn chain(self, seed: usize, kills: usize, calls: usize) -> usize {
        let place = place(&format!("{}-chain-{seed}", self.name));
        self.lay_out(&place);
        let out = place.join("out");
        let mut state = seed;
        let mut dead = 0;
        for step in 0..kills {
            // A linear congruential step (the multiplier and increment of Numerical Recipes).
            state = (state * 1_664_525 + 1_013_904_223) % (1 << 32);
            let n = 1 + (state >> 8) % (calls + calls / 4);
            let revision = u32::try_from(step % 2).expect("0 or 1");
            dead += usize::from(killed(&plan(&out, revision, &self.killed_at(n))));
            let seen = self.look(&place, &format!("chain {seed}, step {step}, call {n}"));
            assert!(
                seen.is_some() || !self.planned || !self.exchange,
                "{}: chain {seed}",
                self.name
            );
        }
        let last = plan(&out, 1, &[]);
        assert!(last.status.success(), "{}", messages(&last));
        assert_eq!(self.look(&place, "the last run"), Some(1));
        assert_eq!(hidden(&place), [""; 0], "{}: chain {seed}", self.name);
        fs::remove_dir_all(place).expect("the place can go");
        dead
    }
}

/// Steps of one chain.
const STEPS: usize = 28;
/// Chains of each case.
const CHAINS: usize = 10;

#[test]
fn two_thousand_kills_lose_nothing() {
    if preload().is_none() {
        return;
    }
    let mut work: Vec<Box<dyn FnOnce() -> usize + Send>> = Vec::new();
    let mut alone = 0;
    for case in CASES {
        let calls = case.calls();
        alone += calls;
        for n in 1..=calls {
            work.push(Box::new(move || usize::from(case.once(n))));
        }
        for seed in 0..CHAINS {
            work.push(Box::new(move || case.chain(seed, STEPS, calls)));
        }
    }
    let work = Mutex::new(work);
    let kills = AtomicUsize::new(0);
    let threads = thread::available_parallelism().map_or(2, |n| n.get());
    thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let next = work.lock().ok().and_then(|mut list| list.pop());
                    let Some(next) = next else { return };
                    kills.fetch_add(next(), Ordering::SeqCst);
                }
            });
        }
    });
    let kills = kills.into_inner();
    println!("{kills} kills, {alone} of them at each call once");
    assert!(alone > 500, "{alone} calls in all");
    assert!(kills >= 2000, "{kills} kills");
}
