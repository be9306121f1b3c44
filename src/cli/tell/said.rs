//! What was told, in the shop's words: what is shown before it is written, and in the list of entries.

use super::find::line_mark;
use crate::measure::{Length, Units};
use crate::order::PieceId;
use crate::yard::{
    Accepted, Comes, Cut, EntryId, Lot, MeasuredWhat, Scrapped, Stand, TagFrom, Told, WeekStand,
    Withdrawn,
};

/// The number of an entry, by its id.
pub(in crate::cli) type Numbers<'a> = &'a dyn Fn(&EntryId) -> Option<u64>;

/// One line of words. `stand` is what it came to, where it is known.
pub(in crate::cli) fn said(stand: &Stand, name: &str, told: &Told, number: Numbers<'_>) -> String {
    let week = stand.weeks.get(name);
    let words = Words { stand, week };
    let entry = |id: &EntryId| number(id).map_or_else(|| id.to_string(), |n| format!("entry {n}"));
    match told {
        Told::Issued(plan) => format!(
            "plan {} revision {} handed out: {}",
            plan.plan,
            plan.revision,
            many(plan.joints.len(), "joint")
        ),
        Told::Cut(t) => words.cut(t),
        Told::Spoiled(t) => {
            let left = match (t.left, &t.tag) {
                (Some(left), Some(tag)) => format!("{} is left, tag {tag}", words.length(left)),
                (Some(left), None) => format!("{} is left", words.length(left)),
                (None, _) => "nothing is left".to_owned(),
            };
            format!(
                "{} spoiled, {left}; it must be made again",
                words.mark(&t.piece)
            )
        }
        Told::Welded(t) => match t.splice {
            Some(n) => format!("splice {n} of {} welded", words.line(&t.line)),
            None => format!("{} welded", words.line(&t.line)),
        },
        Told::Done(t) => format!("{} done", words.gate(&t.mark, t.copy)),
        Told::Shipped(t) => format!("{} shipped", words.gate(&t.mark, t.copy)),
        Told::Changed(t) => {
            let marks: Vec<&str> = t.rows.iter().map(|r| r.mark.as_str()).collect();
            format!("the order of {} changed", marks.join(", "))
        }
        Told::Withdrawn(Withdrawn::Plan) => "the plan withdrawn".to_owned(),
        Told::Withdrawn(Withdrawn::Gate { mark, copy }) => match copy {
            Some(copy) => format!("{} withdrawn", words.gate(mark, *copy)),
            None => format!("{mark} withdrawn"),
        },
        Told::Coped(t) => format!("{} coped", words.mark(&t.piece)),
        Told::Accepted(Accepted::Piece(id)) => format!("{} accepted as it is", words.mark(id)),
        Told::Accepted(Accepted::Entry(id)) => format!("{} is true", entry(id)),
        Told::Recut(t) => format!("{} is stock again, tag {}", words.mark(&t.piece), t.tag),
        Told::Closed {} => format!("{name} closed"),
        Told::Undone(t) => {
            let ids = std::iter::once(&t.entry).chain(&t.with).map(entry);
            format!("undone: {}", ids.collect::<Vec<_>>().join(", "))
        }
        other => words
            .of_line(other)
            .or_else(|| words.of_rack(name, other))
            .unwrap_or_default(),
    }
}

/// `1 joint`, `3 joints`.
pub(in crate::cli) fn many(n: usize, what: &str) -> String {
    format!("{n} {what}{}", if n == 1 { "" } else { "s" })
}

fn comes(comes: &Comes) -> String {
    match comes {
        Comes::Later(Some(day)) => format!(", to come by {day}"),
        Comes::Later(None) => ", to come later".to_owned(),
        Comes::Not(_) => ", and will not come".to_owned(),
    }
}

fn lot_words(lot: &Lot) -> String {
    match lot {
        Lot::Remnant { tag, count: 1 } => tag.tag.clone(),
        Lot::Remnant { tag, count } => format!("{count} of {}", tag.tag),
        Lot::Whole { line, count } => format!("{count} whole of line {line}"),
    }
}

struct Words<'a> {
    stand: &'a Stand,
    week: Option<&'a WeekStand>,
}

impl Words<'_> {
    /// Of lines of an order; `None` for other kinds.
    fn of_line(&self, told: &Told) -> Option<String> {
        Some(match told {
            Told::Ordered(t) => {
                let lines = t
                    .lines
                    .iter()
                    .map(|l| format!("{} of line {}", l.joints, l.line));
                let by = t.promised.map(|d| format!(", promised by {d}"));
                let supplier = if t.supplier.is_empty() {
                    "the supplier"
                } else {
                    &t.supplier
                };
                format!(
                    "ordered of {supplier}: {}{}",
                    lines.collect::<Vec<_>>().join(", "),
                    by.unwrap_or_default()
                )
            }
            Told::Delivered(t) => {
                let measured = if t.lengths.is_empty() {
                    ""
                } else {
                    ", measured"
                };
                format!("{} of line {} came{measured}", t.joints, t.line)
            }
            Told::Short(t) => format!(
                "{} of line {} did not come{}",
                t.joints,
                t.line,
                comes(&t.comes)
            ),
            Told::Bent(t) => format!(
                "{} of line {} came bent, {} of each can be used",
                t.joints,
                t.line,
                self.length(t.left)
            ),
            Told::Refused(t) => format!(
                "{} of line {} sent back{}",
                t.joints,
                t.line,
                comes(&t.comes)
            ),
            Told::Promised(t) => {
                let lines: Vec<String> = t.lines.iter().map(u32::to_string).collect();
                format!("line {} promised by {}", lines.join(", "), t.day)
            }
            Told::Cancelled(t) => format!("{} of line {} cancelled", t.joints, t.line),
            Told::Returned(t) => format!("{} of line {} returned", t.joints, t.line),
            _ => return None,
        })
    }

    /// Of what lies; `None` for other kinds.
    fn of_rack(&self, name: &str, told: &Told) -> Option<String> {
        Some(match told {
            Told::Tagged(t) => match &t.from {
                TagFrom::Remnant(old) => format!("{} is tagged {} now", old.tag, t.tag),
                TagFrom::Joint { joint, .. } => {
                    format!("what is left of joint {joint} is kept as {}", t.tag)
                }
                TagFrom::Found {
                    pipe,
                    length,
                    count,
                } => format!(
                    "found: {} of {} of {}, tag {}",
                    count,
                    self.length(*length),
                    self.pipe(pipe),
                    t.tag
                ),
            },
            Told::Measured(t) => match &t.what {
                MeasuredWhat::Remnant(id) => {
                    format!("{} measures {}", id.tag, self.length(t.length))
                }
                MeasuredWhat::Joint(n) => format!("{} is left of joint {n}", self.length(t.length)),
            },
            Told::Counted(t) => {
                let tags = t.pieces.iter().map(|p| match p.count {
                    1 => p.tag.tag.clone(),
                    n => format!("{} x {}", n, p.tag.tag),
                });
                let tags: Vec<String> = tags.collect();
                let lie = if tags.is_empty() {
                    "nothing".to_owned()
                } else {
                    tags.join(", ")
                };
                format!(
                    "counted: of {} there lie {lie}, and nothing else",
                    self.pipe(&t.pipe)
                )
            }
            Told::Scrapped(Scrapped::Lot(lot)) => format!("{} scrapped", lot_words(lot)),
            Told::Scrapped(Scrapped::Joint(n)) => format!("what is left of joint {n} scrapped"),
            Told::Reserved(t) => format!("{} kept for {name}", lot_words(&t.lot)),
            Told::Freed(t) => format!("{} free for any week", lot_words(&t.lot)),
            _ => return None,
        })
    }

    fn length(&self, length: Length) -> String {
        let units = self.week.map_or(Units::Inch, |w| w.units);
        length.print_with_unit(units)
    }

    fn mark(&self, id: &PieceId) -> String {
        let piece = self.week.and_then(|w| w.pieces.get(id));
        piece.map_or_else(|| id.to_string(), |p| p.mark.clone())
    }

    fn line(&self, id: &PieceId) -> String {
        self.week
            .map_or_else(|| id.to_string(), |w| line_mark(w, id))
    }

    fn gate(&self, mark: &str, copy: u32) -> String {
        let gate = self.week.and_then(|w| w.gates.get(mark));
        if gate.is_some_and(|g| g.copies.len() > 1) {
            format!("{mark}.{copy}")
        } else {
            mark.to_owned()
        }
    }

    fn pipe(&self, key: &crate::order::PipeKey) -> String {
        let pipe = self.stand.pipes.get(key);
        pipe.map_or_else(|| key.to_string(), |p| p.name.clone())
    }

    fn cut(&self, told: &Cut) -> String {
        let Some(joint) = self.week.and_then(|w| w.joints.get(&told.joint)) else {
            return format!("joint {} cut", told.joint);
        };
        let all = joint.pieces.len();
        let to = told.to.and_then(|n| usize::try_from(n).ok()).unwrap_or(all);
        let mut marks: Vec<(String, usize)> = Vec::new();
        for piece in joint.pieces.iter().take(to) {
            let mark = self.mark(&piece.id);
            match marks.last_mut() {
                Some((last, n)) if *last == mark => *n += 1,
                _ => marks.push((mark, 1)),
            }
        }
        let marks = marks.into_iter().map(|(mark, n)| match n {
            1 => mark,
            n => format!("{n} x {mark}"),
        });
        let marks = marks.collect::<Vec<_>>().join(", ");
        let measured = if told.lengths.is_empty() {
            ""
        } else {
            ", measured"
        };
        let up_to = if to < all {
            format!(" up to piece {to}")
        } else {
            String::new()
        };
        let kept = match (&joint.keep, to == all) {
            (Some(tag), true) => format!("; {tag} kept"),
            _ => String::new(),
        };
        format!("joint {} cut{up_to}: {marks}{measured}{kept}", told.joint)
    }
}
