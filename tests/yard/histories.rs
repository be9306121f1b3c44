//! Random histories: whatever is told, in whatever order, pipe is conserved, and what is not taken changes nothing.

use jiff::civil::Date;
use longpoint::measure::{Length, Money};
use longpoint::order::RemnantId;
use longpoint::plan::PieceId;
use longpoint::yard::{
    Accepted, Bent, Cancelled, Changed, ChangedRow, Comes, Coped, Counted, CountedPiece, Cut,
    Delivered, Desk, Entry, EntryId, GateCopy, Lot, Measured, MeasuredWhat, Ordered, OrderedLine,
    Promised, Recut, Reserved, Scrapped, SentBack, Short, Spoiled, Stand, TagFrom, Tagged, Told,
    Undone, Verdict, Welded, Withdrawn, breaches,
};

use crate::dice::Dice;
use crate::world::{entry, random};

/// Entries kept in all, and tellings in one history.
const ENTRIES: usize = 100_000;
const EACH: usize = 300;

/// What one week's entries speak of.
struct Teller<'a> {
    dice: &'a mut Dice,
    stand: &'a Stand,
    week: String,
}

impl Teller<'_> {
    fn length(&mut self, most: u64) -> Length {
        let least = u64::from(!self.dice.whether(20));
        self.dice.sixteenths(least, most)
    }

    fn some<T: Clone>(&mut self, of: Vec<T>) -> Option<T> {
        let n = u64::try_from(of.len()).expect("small");
        (n > 0).then(|| of[usize::try_from(self.dice.below(n)).expect("small")].clone())
    }

    fn line(&mut self) -> u32 {
        let all = self.stand.weeks.get(&self.week);
        let all = all.map_or(1, |w| u64::try_from(w.lines.len()).expect("small").max(1));
        let over = u64::from(self.dice.whether(20));
        1 + self.dice.count(all + over)
    }

    fn joint(&mut self) -> u32 {
        let week = self.stand.weeks.get(&self.week);
        let waiting = week
            .into_iter()
            .flat_map(|w| &w.joints)
            .filter(|(_, j)| !j.over);
        let waiting: Vec<u32> = waiting.map(|(n, _)| *n).collect();
        if !self.dice.whether(4)
            && let Some(joint) = self.some(waiting)
        {
            return joint;
        }
        let all = self.stand.weeks.get(&self.week);
        let all = all.map_or(1, |w| u32::try_from(w.joints.len()).expect("small"));
        self.dice.count(u64::from(all) + 1) + u32::from(!self.dice.whether(20))
    }

    fn piece(&mut self) -> Option<PieceId> {
        let week = self.stand.weeks.get(&self.week)?;
        let made = self.dice.whether(2);
        let pieces = week.pieces.iter().filter(|(_, p)| !made || p.made());
        self.some(pieces.map(|(id, _)| id.clone()).collect())
    }

    fn tag(&mut self) -> Option<RemnantId> {
        let lie = !self.dice.whether(5);
        let tags = self.stand.rack.iter().filter(|(_, r)| !lie || r.count > 0);
        self.some(tags.map(|(id, _)| id.clone()).collect())
    }

    fn gate(&mut self) -> Option<GateCopy> {
        let week = self.stand.weeks.get(&self.week)?;
        let mark = self.some(week.gates.keys().cloned().collect())?;
        let copies = u64::try_from(week.gates[&mark].copies.len()).expect("small");
        let over = u64::from(self.dice.whether(20));
        let copy = 1 + self.dice.count(copies + over);
        Some(GateCopy { mark, copy })
    }

    fn comes(&mut self) -> Comes {
        match self.dice.below(3) {
            0 => Comes::Later(None),
            1 => Comes::Later(Some(Date::constant(2026, 3, 9))),
            _ => Comes::Not(Some(Money::from_millicents(self.dice.roll(10_000_000)))),
        }
    }

    fn lot(&mut self) -> Option<Lot> {
        let count = 1 + self.dice.count(2);
        if self.dice.whether(2) {
            let line = self.line();
            return Some(Lot::Whole { line, count });
        }
        Some(Lot::Remnant {
            tag: self.tag()?,
            count,
        })
    }

    fn buying(&mut self) -> Told {
        let (line, joints) = (self.line(), 1 + self.dice.count(5));
        match self.dice.below(9) {
            0 => Told::Ordered(Ordered {
                supplier: "Harbor Pipe (invented)".to_owned(),
                lines: vec![OrderedLine {
                    line,
                    joints,
                    money: Some(Money::from_millicents(self.dice.roll(1_000_000))),
                }],
                fees: None,
                promised: Some(Date::constant(2026, 3, 6)),
            }),
            1..=3 => {
                let measured = self.dice.whether(3);
                let lengths = (0..joints).map(|_| self.dice.sixteenths(600, 730));
                let lengths: Vec<Length> = lengths.collect();
                Told::Delivered(Delivered {
                    line,
                    joints,
                    lengths: if measured { lengths } else { Vec::new() },
                })
            }
            4 => Told::Short(Short {
                line,
                joints: 1,
                comes: self.comes(),
            }),
            5 => Told::Bent(Bent {
                line,
                joints: 1,
                left: self.length(740),
            }),
            6 => Told::Refused(SentBack {
                line,
                joints: 1,
                comes: self.comes(),
            }),
            7 => Told::Promised(Promised {
                lines: vec![line],
                day: Date::constant(2026, 3, 10),
            }),
            _ => {
                let told = Cancelled {
                    line,
                    joints: 1,
                    money: Some(Money::from_millicents(5_000_000)),
                };
                if self.dice.whether(2) {
                    Told::Cancelled(told)
                } else {
                    Told::Returned(told)
                }
            }
        }
    }

    fn cutting(&mut self) -> Told {
        let joint = self.joint();
        let to = self.dice.whether(3).then(|| 1 + self.dice.count(4));
        let measured = self.dice.whether(6);
        let lengths = (1..=to.unwrap_or(1)).map(|n| (n, self.dice.sixteenths(20, 71)));
        let lengths: Vec<(u32, Length)> = lengths.collect();
        let taken = self.dice.whether(8).then(|| self.dice.sixteenths(700, 730));
        let floor = self.dice.whether(8).then(|| self.length(90));
        Told::Cut(Cut {
            joint,
            to,
            lengths: if measured { lengths } else { Vec::new() },
            taken,
            floor: floor.filter(|_| to.is_none()),
        })
    }

    fn piece_told(&mut self) -> Option<Told> {
        let piece = self.piece()?;
        let left = self.dice.whether(2).then(|| self.length(75));
        Some(match self.dice.below(5) {
            0 => Told::Spoiled(Spoiled {
                piece,
                tag: left.and_then(|_| self.dice.whether(2).then(|| self.fresh_tag())),
                left,
            }),
            1 => Told::Recut(Recut {
                piece,
                tag: self.fresh_tag(),
                length: left,
            }),
            2 => Told::Coped(Coped { piece }),
            3 => Told::Accepted(Accepted::Piece(piece)),
            _ => Told::Welded(Welded {
                line: PieceId {
                    piece: None,
                    ..piece
                },
                splice: self.dice.whether(2).then_some(1),
            }),
        })
    }

    fn fresh_tag(&mut self) -> String {
        format!("T{}", self.dice.below(1000))
    }

    fn rack(&mut self) -> Option<Told> {
        Some(match self.dice.below(9) {
            0 => Told::Tagged(Tagged {
                tag: self.fresh_tag(),
                from: TagFrom::Remnant(self.tag()?),
            }),
            1 => Told::Tagged(Tagged {
                tag: self.fresh_tag(),
                from: TagFrom::Joint {
                    joint: self.joint(),
                    length: self.dice.whether(2).then(|| self.length(100)),
                },
            }),
            2 => Told::Tagged(Tagged {
                tag: self.fresh_tag(),
                from: TagFrom::Found {
                    pipe: self.some(self.stand.pipes.keys().cloned().collect())?,
                    length: self.length(200),
                    count: 1 + self.dice.count(3),
                },
            }),
            3 => Told::Measured(Measured {
                what: MeasuredWhat::Remnant(self.tag()?),
                length: self.length(300),
            }),
            4 => Told::Measured(Measured {
                what: MeasuredWhat::Joint(self.joint()),
                length: self.length(300),
            }),
            5 => self.count()?,
            6 => Told::Scrapped(if self.dice.whether(3) {
                Scrapped::Joint(self.joint())
            } else {
                Scrapped::Lot(self.lot()?)
            }),
            7 => Told::Reserved(Reserved { lot: self.lot()? }),
            _ => Told::Freed(Reserved { lot: self.lot()? }),
        })
    }

    fn count(&mut self) -> Option<Told> {
        let pipe = self.some(self.stand.pipes.keys().cloned().collect())?;
        let mine = self.stand.rack.iter().filter(|(_, r)| r.pipe == pipe);
        let ids: Vec<RemnantId> = mine.map(|(id, _)| id.clone()).collect();
        let mut pieces = Vec::new();
        for tag in ids {
            if self.dice.whether(6) {
                continue;
            }
            pieces.push(CountedPiece {
                tag,
                count: 1 + self.dice.count(2),
                length: self.dice.whether(4).then(|| self.length(150)),
            });
        }
        Some(Told::Counted(Counted { pipe, pieces }))
    }

    fn gates(&mut self) -> Option<Told> {
        Some(match self.dice.below(7) {
            0..=2 => Told::Done(self.gate()?),
            3 => Told::Shipped(self.gate()?),
            4 => Told::Changed(Changed {
                rows: vec![ChangedRow {
                    mark: self.gate()?.mark,
                    before: Some("12 ft".to_owned()),
                    after: Some("13 ft".to_owned()),
                }],
            }),
            5 => {
                let gate = self.gate()?;
                let copy = self.dice.whether(2).then_some(gate.copy);
                Told::Withdrawn(Withdrawn::Gate {
                    mark: gate.mark,
                    copy,
                })
            }
            _ if self.dice.whether(4) => Told::Closed {},
            _ => Told::Withdrawn(Withdrawn::Plan),
        })
    }

    fn told(&mut self, before: &[Entry]) -> Option<Told> {
        match self.dice.below(20) {
            0..=4 => Some(self.buying()),
            5..=10 => Some(self.cutting()),
            11..=13 => self.piece_told(),
            14..=16 => self.rack(),
            17..=18 => self.gates(),
            _ => {
                let open = self.stand.questions.iter().map(|q| q.entry.id.clone());
                if let Some(id) = self.some(open.collect())
                    && self.dice.whether(2)
                {
                    return Some(Told::Accepted(Accepted::Entry(id)));
                }
                let one = self.some(before.iter().map(|e| e.id.clone()).collect())?;
                Some(Told::Undone(Undone {
                    entry: one,
                    with: Vec::new(),
                }))
            }
        }
    }
}

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
