//! The command: understood, shown, written.

use crate::measure::FaultCode;
use std::io::{BufRead, IsTerminal};
use std::path::Path;

use jiff::Timestamp;

use super::file::wishes;
use super::said::{many, said};
use super::split::split;
use super::understand::{Context, kind, understand};
use super::wish::{Slip, Wish};
use crate::cli::arguments_yard::TellArguments;
use crate::cli::failure::{Failure, code};
use crate::cli::order_rows::{OrderRows, entry_named};
use crate::cli::run::say;
use crate::cli::shop_folder::{
    ShopWeek, need_shop, now, store_failure, unreadable, yard_to_read, yard_to_write,
};
use crate::cli::voice::Voice;
use crate::order::{Fault, Severity};
use crate::store::Store;
use crate::yard::{Desk, Entry, EntryId, FORM, Told, Undone, Verdict};

/// Tells what happened in a week.
///
/// # Errors
/// Something is not understood or cannot be true (each named, nothing written), or the disk refuses.
pub(in crate::cli) fn tell_week(
    arguments: &TellArguments,
    voice: &mut Voice<'_>,
) -> Result<u8, Failure> {
    let week = need_shop(&arguments.folder)?;
    let asked = match &arguments.file {
        Some(path) => wishes(path, arguments.who.as_deref())?,
        None => vec![Wish::of(arguments).map_err(|slip| refused(&[(None, slip)]))?],
    };
    // A yard is made by handing a plan out, not by telling.
    drop(yard_to_read(&week.shop)?);
    let desk = Telling {
        arguments,
        week: &week,
        at: now(),
        asked,
    };
    if arguments.file.is_some() && !arguments.yes {
        let before = desk.understood(&yard_to_read(&week.shop)?)?;
        say(voice, &before.words())?;
        if before.fresh.is_empty() {
            return Ok(code::DONE);
        }
        if !agreed(before.fresh.len(), voice)? {
            voice.message("Nothing was written.");
            return Ok(code::INPUT);
        }
        let mut store = yard_to_write(&week.shop)?;
        let after = desk.understood(&store)?;
        if after.words() != before.words() {
            say(voice, &after.words())?;
            return Err(Failure::refused(
                "Somebody told something meanwhile, and the list now means the above. Nothing was written; tell it again.",
            ));
        }
        return desk.write(&mut store, after, voice, false);
    }
    let mut store = yard_to_write(&week.shop)?;
    let understood = desk.understood(&store)?;
    desk.write(&mut store, understood, voice, true)
}

/// One telling.
struct Telling<'a> {
    arguments: &'a TellArguments,
    week: &'a ShopWeek,
    at: Timestamp,
    asked: Vec<Wish>,
}

/// What it comes to.
struct Understood {
    fresh: Vec<Entry>,
    lines: Vec<String>,
    stand: crate::yard::Stand,
}

impl Understood {
    fn words(&self) -> String {
        self.lines.iter().map(|l| format!("{l}\n")).collect()
    }
}

impl Telling<'_> {
    /// Every wish understood and judged, in order; each by the stand that those before it left.
    fn understood(&self, store: &Store) -> Result<Understood, Failure> {
        let broken = unreadable(&self.week.shop);
        let mut desk = store.desk().map_err(&broken)?;
        let rows = OrderRows::of(store, self.week, Path::new(&self.arguments.folder));
        let mut slips: Vec<(Option<(String, u32)>, Slip)> = Vec::new();
        let mut lines = Vec::new();
        let mut number = 0;
        for wish in &self.asked {
            let each = self.each(&desk, wish);
            let each = match each {
                Ok(each) => each,
                Err(slip) => {
                    slips.push((wish.place.clone(), slip));
                    continue;
                }
            };
            for one in each {
                number += 1;
                match self
                    .one(store, &mut desk, &rows, (&one, number))
                    .map_err(&broken)?
                {
                    Ok(line) => lines.push(line),
                    Err(slip) => slips.push((one.place.clone(), slip)),
                }
            }
        }
        if !slips.is_empty() {
            return Err(refused(&slips));
        }
        Ok(Understood {
            fresh: desk.fresh().to_vec(),
            lines,
            stand: desk.stand().clone(),
        })
    }

    fn each(&self, desk: &Desk<'_, Store>, wish: &Wish) -> Result<Vec<Wish>, Slip> {
        let wish = Wish {
            what: kind(&wish.what)?.to_owned(),
            ..wish.clone()
        };
        match desk.stand().weeks.get(&self.week.name) {
            Some(week) => split(week, &wish),
            None => Err(self.not_issued()),
        }
    }

    fn not_issued(&self) -> Slip {
        Slip::new(
            "",
            "",
            format!("no plan of {} was handed out yet", self.week.name),
            format!("longpoint issue {}", self.arguments.folder.display()),
        )
    }

    fn one(
        &self,
        store: &Store,
        desk: &mut Desk<'_, Store>,
        rows: &OrderRows<'_>,
        (wish, number): (&Wish, usize),
    ) -> Result<Result<String, Slip>, String> {
        let stand = desk.stand();
        let Some(week) = stand.weeks.get(&self.week.name) else {
            return Ok(Err(self.not_issued()));
        };
        let context = Context {
            stand,
            name: &self.week.name,
            week,
            rows: &|mark| rows.of_mark(mark),
            entry: &|word| entry_named(store, word),
        };
        let told = match understand(&context, wish) {
            Ok(told) => told,
            Err(slip) => return Ok(Err(slip)),
        };
        let plan = week.current().or(week.plans.last());
        let entry = Entry {
            form: FORM,
            id: self.id(number),
            at: self.at,
            who: wish.who.clone().unwrap_or_else(who),
            week: self.week.name.clone(),
            plan: plan.map(|p| p.plan.clone()),
            revision: plan.map(|p| p.revision),
            note: wish.note.clone(),
            told,
        };
        let told = entry.told.clone();
        let verdict = desk.tell(entry, self.arguments.hold)?;
        self.answer(desk, wish, &told, verdict)
    }

    fn answer(
        &self,
        desk: &Desk<'_, Store>,
        wish: &Wish,
        told: &Told,
        verdict: Verdict,
    ) -> Result<Result<String, Slip>, String> {
        let numbers = |id: &EntryId| desk.find(id).ok().flatten().map(|(n, _)| n);
        let words = said(desk.stand(), &self.week.name, told, &numbers);
        let value = wish.words.join(" ");
        Ok(match verdict {
            Verdict::Taken(n) => Ok(format!("{n:>5}  {words}")),
            Verdict::Held(n, why) => Ok(format!(
                "{n:>5}  a question: {words}: {}; {}",
                why.what(),
                why.mend()
            )),
            Verdict::Again(n) => Ok(format!("{n:>5}  told before, nothing changed: {words}")),
            Verdict::Asked(why) => Err(Slip::new(
                &wish.what,
                &value,
                why.what(),
                format!("{}; --hold keeps it as a question", why.mend()),
            )),
            Verdict::Refused(why) => {
                let mend = match told {
                    Told::Undone(undone) => self.hanging(desk, undone)?,
                    _ => None,
                };
                let mend = mend.unwrap_or_else(|| why.mend().to_owned());
                Err(Slip::new(&wish.what, &value, why.what(), mend))
            }
        })
    }

    /// What to write so that all that hangs on it is named.
    fn hanging(&self, desk: &Desk<'_, Store>, undone: &Undone) -> Result<Option<String>, String> {
        let named = std::iter::once(&undone.entry).chain(&undone.with);
        let mut numbers = Vec::new();
        for id in named {
            match desk.find(id)? {
                Some((number, _)) => numbers.push(number),
                None => return Ok(None),
            }
        }
        let hanging = desk.hanging(undone)?;
        if hanging.is_empty() {
            return Ok(None);
        }
        numbers.extend(hanging.iter().map(|(n, _)| *n));
        let numbers: Vec<String> = numbers.iter().map(u64::to_string).collect();
        Ok(Some(format!("name them too: undone {}", numbers.join(" "))))
    }

    fn id(&self, number: usize) -> EntryId {
        let more = if number > 1 {
            format!("-{number}")
        } else {
            String::new()
        };
        EntryId(match &self.arguments.id {
            Some(id) => format!("{id}{more}"),
            None => format!("{}-{}{more}", moment(), std::process::id()),
        })
    }

    fn write(
        &self,
        store: &mut Store,
        understood: Understood,
        voice: &mut Voice<'_>,
        aloud: bool,
    ) -> Result<u8, Failure> {
        store
            .append(&understood.fresh, None)
            .map_err(store_failure)?;
        store.keep(&understood.stand).map_err(store_failure)?;
        if aloud {
            say(voice, &understood.words())?;
        }
        if understood.fresh.len() > 1 || !aloud {
            let words = format!("{} written.\n", many(understood.fresh.len(), "line"));
            say(voice, &words)?;
        }
        Ok(code::DONE)
    }
}

/// A moment that no other telling of this process has.
fn moment() -> String {
    use std::sync::OnceLock;
    static STARTED: OnceLock<String> = OnceLock::new();
    let started = || Timestamp::now().as_nanosecond().to_string();
    STARTED.get_or_init(started).clone()
}

/// Whoever is logged in.
fn who() -> String {
    let named = ["USER", "USERNAME"].into_iter();
    let named = named.filter_map(|name| std::env::var(name).ok());
    named.into_iter().next().unwrap_or_default()
}

fn agreed(lines: usize, voice: &mut Voice<'_>) -> Result<bool, Failure> {
    let question = format!("Write {}? [y/N] ", many(lines, "line"));
    let _ = write_bare(voice, &question);
    let mut answer = String::new();
    let input = std::io::stdin();
    let read = input.lock().read_line(&mut answer);
    if !input.is_terminal() {
        voice.message("");
    }
    read.map_err(|e| Failure::internal(format!("stdin: {e}.")))?;
    Ok(matches!(answer.trim().to_lowercase().as_str(), "y" | "yes"))
}

fn write_bare(voice: &mut Voice<'_>, text: &str) -> std::io::Result<()> {
    voice.err.write_all(text.as_bytes())?;
    voice.err.flush()
}

/// All slips at once, each at its place.
fn refused(slips: &[(Option<(String, u32)>, Slip)]) -> Failure {
    let faults = slips.iter().map(|(place, slip)| Fault {
        severity: Severity::Error,
        code: FaultCode::ValuesDisagree,
        file: place.as_ref().map_or("tell", |p| p.0.as_str()).to_owned(),
        sheet: None,
        line: place.as_ref().map(|p| p.1),
        cell: None,
        column: (!slip.column.is_empty()).then(|| slip.column.clone()),
        value: slip.value.clone(),
        what: slip.what.clone(),
        mend: slip.mend.clone(),
    });
    Failure::faulty(faults.collect(), "Nothing was written.\n")
}
