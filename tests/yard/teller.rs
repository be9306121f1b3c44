//! What a shop might tell, by dice: likely and unlikely, true and not.

use jiff::civil::Date;
use longpoint::measure::{Length, Money};
use longpoint::order::PieceId;
use longpoint::order::RemnantId;
use longpoint::yard::{
    Accepted, Bent, Cancelled, Changed, ChangedRow, Comes, Coped, Counted, CountedPiece, Cut,
    Delivered, Entry, GateCopy, Lot, Measured, MeasuredWhat, Ordered, OrderedLine, Promised, Recut,
    Reserved, Scrapped, SentBack, Short, Spoiled, Stand, TagFrom, Tagged, Told, Undone, Welded,
    Withdrawn,
};

use crate::dice::Dice;

/// What one week's entries speak of.
pub struct Teller<'a> {
    pub dice: &'a mut Dice,
    pub stand: &'a Stand,
    pub week: String,
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

    pub fn told(&mut self, before: &[Entry]) -> Option<Told> {
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
