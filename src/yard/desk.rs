//! `Desk`: where things are told: what was told before, the stand it comes to, and a verdict on what comes next.

use std::collections::BTreeSet;

use super::{Entry, EntryId, Question, Stand, Told, Trouble, Undone};

/// What was told before, in the yard's order; number 1 is the first.
pub trait History {
    /// Hands every entry over, in order.
    ///
    /// # Errors
    /// It cannot be read.
    fn each(&self, take: &mut dyn FnMut(u64, Entry)) -> Result<(), String>;

    /// The entry of that id.
    ///
    /// # Errors
    /// It cannot be read.
    fn find(&self, id: &EntryId) -> Result<Option<(u64, Entry)>, String>;

    /// Entries that undo others, in order.
    ///
    /// # Errors
    /// They cannot be read.
    fn undoings(&self) -> Result<Vec<(EntryId, Undone)>, String>;

    /// How many there are.
    ///
    /// # Errors
    /// They cannot be counted.
    fn told(&self) -> Result<u64, String>;
}

impl History for Vec<Entry> {
    fn each(&self, take: &mut dyn FnMut(u64, Entry)) -> Result<(), String> {
        (1u64..).zip(self).for_each(|(n, e)| take(n, e.clone()));
        Ok(())
    }

    fn find(&self, id: &EntryId) -> Result<Option<(u64, Entry)>, String> {
        let found = (1u64..).zip(self).find(|(_, e)| e.id == *id);
        Ok(found.map(|(n, e)| (n, e.clone())))
    }

    fn undoings(&self) -> Result<Vec<(EntryId, Undone)>, String> {
        Ok(self.iter().filter_map(undoing).collect())
    }

    fn told(&self) -> Result<u64, String> {
        Ok(u64::try_from(self.len()).unwrap_or(u64::MAX))
    }
}

fn undoing(entry: &Entry) -> Option<(EntryId, Undone)> {
    match &entry.told {
        Told::Undone(undone) => Some((entry.id.clone(), undone.clone())),
        _ => None,
    }
}

/// What counts no more: named by an undoing that is itself not undone.
pub fn undone_by(undoings: &[(EntryId, Undone)]) -> BTreeSet<EntryId> {
    let mut out = BTreeSet::new();
    for (id, undone) in undoings.iter().rev() {
        if !out.contains(id) {
            out.insert(undone.entry.clone());
            out.extend(undone.with.iter().cloned());
        }
    }
    out
}

/// What becomes of an entry.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// It counts, under this number.
    Taken(u64),
    /// It is kept as a question, under this number, and counts nowhere.
    Held(u64, Trouble),
    /// It was told before, under this number; nothing changed.
    Again(u64),
    /// It would be a question, and whoever tells wants none kept; nothing changed.
    Asked(Trouble),
    /// It is not taken; nothing changed.
    Refused(Trouble),
}

/// Where things are told.
pub struct Desk<'h, H: History> {
    history: &'h H,
    /// Told here, after the history.
    fresh: Vec<Entry>,
    before: u64,
    stand: Stand,
}

impl<'h, H: History> Desk<'h, H> {
    /// The desk of a history.
    ///
    /// # Errors
    /// The history cannot be read.
    pub fn open(history: &'h H) -> Result<Desk<'h, H>, String> {
        let mut desk = Desk::at(history, Stand::default())?;
        desk.stand = desk.fold(None, false)?.stand;
        Ok(desk)
    }

    /// The same where the stand is known already.
    ///
    /// # Errors
    /// The history cannot be counted.
    pub fn at(history: &'h H, stand: Stand) -> Result<Desk<'h, H>, String> {
        Ok(Desk {
            before: history.told()?,
            history,
            fresh: Vec::new(),
            stand,
        })
    }

    /// Where everything is.
    pub fn stand(&self) -> &Stand {
        &self.stand
    }

    /// What was told here.
    pub fn fresh(&self) -> &[Entry] {
        &self.fresh
    }

    /// Tells one thing. With `hold` a question is kept, without it is asked and nothing changes.
    ///
    /// # Errors
    /// The history cannot be read.
    pub fn tell(&mut self, entry: Entry, hold: bool) -> Result<Verdict, String> {
        if let Some((number, known)) = self.find(&entry.id)? {
            let again = known.says_the_same(&entry);
            return Ok(if again {
                Verdict::Again(number)
            } else {
                Verdict::Refused(Trouble::refusal(
                    format!("{} was told before, and said something else", entry.id),
                    "give it an id of its own",
                ))
            });
        }
        let number = self.next();
        if let Told::Undone(undone) = &entry.told {
            let checked = self.may_undo(&entry, undone)?;
            if let Err(trouble) = checked {
                return Ok(Verdict::Refused(trouble));
            }
            self.fresh.push(entry);
            self.stand = self.fold(None, false)?.stand;
            return Ok(Verdict::Taken(number));
        }
        match self.stand.apply(&entry) {
            Ok(()) => {
                self.stand.told = number;
                self.fresh.push(entry);
                Ok(Verdict::Taken(number))
            }
            Err(trouble @ Trouble::Question { .. }) if hold => {
                self.stand.told = number;
                self.stand
                    .questions
                    .push(question(number, &entry, &trouble));
                self.fresh.push(entry);
                Ok(Verdict::Held(number, trouble))
            }
            Err(trouble @ Trouble::Question { .. }) => Ok(Verdict::Asked(trouble)),
            Err(trouble) => Ok(Verdict::Refused(trouble)),
        }
    }

    /// Entries that hang on those named: without them they would not be taken as they were.
    ///
    /// # Errors
    /// The history cannot be read.
    pub fn hanging(&self, undone: &Undone) -> Result<Vec<(u64, EntryId)>, String> {
        let before = self.fold(None, true)?.taken;
        let mut all = undone.clone();
        let mut found: Vec<(u64, EntryId)> = Vec::new();
        loop {
            let after = self.fold(Some(&all), true)?;
            let gone = &after.undone;
            let lost = before.difference(&after.taken);
            let more: Vec<(u64, EntryId)> = lost
                .filter(|(_, id)| !gone.contains(id) && !all.with.contains(id))
                .cloned()
                .collect();
            if more.is_empty() {
                found.sort();
                return Ok(found);
            }
            all.with.extend(more.iter().map(|(_, id)| id.clone()));
            found.extend(more);
        }
    }

    fn next(&self) -> u64 {
        self.before + u64::try_from(self.fresh.len()).unwrap_or(u64::MAX) + 1
    }

    /// The entry of that id, told here or before.
    ///
    /// # Errors
    /// The history cannot be read.
    pub fn find(&self, id: &EntryId) -> Result<Option<(u64, Entry)>, String> {
        let here = (self.before + 1..).zip(&self.fresh);
        let here = here
            .filter(|(_, e)| e.id == *id)
            .map(|(n, e)| (n, e.clone()));
        match here.into_iter().next() {
            Some(found) => Ok(Some(found)),
            None => self.history.find(id),
        }
    }

    fn undoings(&self) -> Result<Vec<(EntryId, Undone)>, String> {
        let mut all = self.history.undoings()?;
        all.extend(self.fresh.iter().filter_map(undoing));
        Ok(all)
    }

    fn may_undo(&self, entry: &Entry, undone: &Undone) -> Result<Result<(), Trouble>, String> {
        let gone = undone_by(&self.undoings()?);
        for id in std::iter::once(&undone.entry).chain(&undone.with) {
            if *id == entry.id || self.find(id)?.is_none() {
                return Ok(Err(Trouble::refusal(
                    format!("nothing was told under {id}"),
                    "longpoint yard entries lists what was told",
                )));
            }
            if gone.contains(id) {
                return Ok(Err(Trouble::refusal(
                    format!("{id} is undone already"),
                    "nothing more is needed",
                )));
            }
        }
        let hanging = self.hanging(undone)?;
        if hanging.is_empty() {
            return Ok(Ok(()));
        }
        let names: Vec<String> = hanging.iter().map(|(n, _)| n.to_string()).collect();
        Ok(Err(Trouble::refusal(
            format!(
                "later entries hang on it, and would not stand without it: {}",
                names.join(", ")
            ),
            "name them too",
        )))
    }

    /// Everything told, without what is undone; `also`: as if that were told last. `taken`: list what counts.
    fn fold(&self, also: Option<&Undone>, taken: bool) -> Result<Folded, String> {
        let mut undoings = self.undoings()?;
        if let Some(also) = also {
            undoings.push((EntryId(String::new()), also.clone()));
        }
        let mut folded = Folded {
            stand: Stand::default(),
            taken: BTreeSet::new(),
            undone: undone_by(&undoings),
            listing: taken,
        };
        self.history
            .each(&mut |number, entry| folded.take(number, entry))?;
        for (number, entry) in (self.before + 1..).zip(&self.fresh) {
            folded.take(number, entry.clone());
        }
        Ok(folded)
    }
}

/// A stand being made.
struct Folded {
    stand: Stand,
    taken: BTreeSet<(u64, EntryId)>,
    undone: BTreeSet<EntryId>,
    listing: bool,
}

impl Folded {
    fn take(&mut self, number: u64, entry: Entry) {
        self.stand.told = number;
        if self.undone.contains(&entry.id) {
            return;
        }
        match self.stand.apply(&entry) {
            Ok(()) if self.listing => {
                self.taken.insert((number, entry.id));
            }
            Ok(()) => {}
            Err(trouble) => {
                let question = question(number, &entry, &trouble);
                self.stand.questions.push(question);
            }
        }
    }
}

fn question(number: u64, entry: &Entry, trouble: &Trouble) -> Question {
    Question {
        number,
        entry: entry.clone(),
        what: trouble.what().to_owned(),
        mend: trouble.mend().to_owned(),
    }
}
