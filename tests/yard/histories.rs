//! Random histories: whatever is told, in whatever order, pipe is conserved, and what is not taken changes nothing.

use longpoint::yard::{Desk, Entry, EntryId, Stand, Told, Verdict, breaches};

use crate::dice::Dice;
use crate::teller::Teller;
use crate::world::{entry, random};

/// Entries kept in all, and tellings in one history.
const ENTRIES: usize = 100_000;
const EACH: usize = 300;

/// How often each verdict was given.
#[derive(Debug, Default)]
struct Verdicts {
    taken: usize,
    held: usize,
    asked: usize,
    refused: usize,
    again: usize,
    undone: usize,
}

/// Common practice, no source: what double entry must hold, held after each telling of histories that keep 100,000 entries.
#[test]
fn whatever_is_told_pipe_is_conserved() {
    let mut dice = Dice(20_261_130);
    let mut verdicts = Verdicts::default();
    let nothing: Vec<Entry> = Vec::new();
    let mut history = 0;
    while verdicts.stored() < ENTRIES {
        history += 1;
        let mut desk = Desk::open(&nothing).expect("nothing reads");
        for week in ["week-1", "week-2"] {
            let plan = random(&mut dice, history);
            let told = entry(&format!("issue-{week}"), week, Told::Issued(Box::new(plan)));
            let verdict = desk.tell(told, true).expect("readable");
            assert!(
                matches!(verdict, Verdict::Taken(_) | Verdict::Refused(_)),
                "{verdict:?}"
            );
        }
        for n in 0..EACH {
            one(&mut dice, &mut desk, n, &mut verdicts);
        }
        whole(&desk);
    }
    assert!(
        verdicts.taken > ENTRIES / 3 && verdicts.undone > 500 && verdicts.again > 100,
        "{verdicts:?}"
    );
    assert!(
        verdicts.asked > 1000 && verdicts.refused > 1000,
        "{verdicts:?}"
    );
}

impl Verdicts {
    /// Entries that the yards kept.
    fn stored(&self) -> usize {
        self.taken + self.held + self.undone
    }
}

fn one(dice: &mut Dice, desk: &mut Desk<'_, Vec<Entry>>, n: usize, verdicts: &mut Verdicts) {
    let week = if dice.whether(3) { "week-2" } else { "week-1" };
    let before = desk.stand().clone();
    let mut teller = Teller {
        dice,
        stand: &before,
        week: week.to_owned(),
    };
    let Some(told) = teller.told(desk.fresh()) else {
        return;
    };
    let mut next = entry(&format!("e{n}"), week, told);
    if let (Told::Undone(undone), true) = (&mut next.told, dice.whether(2)) {
        // Half of the time all that hangs on it is named, as it must be.
        let hanging = desk.hanging(undone).expect("readable");
        undone.with = hanging.into_iter().map(|(_, id)| id).collect();
    }
    let hold = dice.whether(2);
    let verdict = desk.tell(next.clone(), hold).expect("readable");
    match verdict {
        Verdict::Taken(_) if matches!(next.told, Told::Undone(_)) => verdicts.undone += 1,
        Verdict::Taken(_) => verdicts.taken += 1,
        Verdict::Held(..) => {
            verdicts.held += 1;
            let mut after = desk.stand().clone();
            assert_eq!(after.questions.pop().expect("held").entry, next);
            after.told = before.told;
            assert_eq!(after, before, "a question counts nowhere");
        }
        Verdict::Asked(_) | Verdict::Refused(_) => {
            if matches!(verdict, Verdict::Asked(_)) {
                verdicts.asked += 1;
            } else {
                verdicts.refused += 1;
            }
            assert_eq!(*desk.stand(), before, "{verdict:?} of {next:?}");
        }
        Verdict::Again(_) => panic!("{next:?} was not told before"),
    }
    let found = breaches(desk.stand());
    assert!(found.is_empty(), "after {next:?}: {found:#?}");
    if dice.whether(50)
        && desk
            .find(&EntryId(format!("e{n}")))
            .expect("readable")
            .is_some()
    {
        let again = desk.tell(next, true).expect("readable");
        assert!(matches!(again, Verdict::Again(_)), "{again:?}");
        verdicts.again += 1;
    }
}

/// The same entries, written as lines and read back, come to the same stand.
fn whole(desk: &Desk<'_, Vec<Entry>>) {
    let lines = desk.fresh().iter().map(|e| e.to_line().expect("JSON"));
    let read = lines.map(|l| Entry::from_line(&l).expect("reads back"));
    let read: Vec<Entry> = read.collect();
    assert_eq!(read, desk.fresh());
    let again = Desk::open(&read).expect("readable");
    assert_eq!(again.stand(), desk.stand());
    let json = serde_json::to_string(desk.stand()).expect("JSON");
    let back: Stand = serde_json::from_str(&json).expect("reads back");
    assert_eq!(back, *desk.stand());
}
