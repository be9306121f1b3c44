//! `longpoint issue`: a plan handed out: from then its joint numbers and tags are permanent.

use std::fs;
use std::path::Path;

use serde::Deserialize;

use crate::measure::{Length, Money, parse_date};
use crate::order::{PipeId, Week};
use crate::plan::{JointSource, PieceCut, PlannedJoint, plan_number};
use crate::report::DOCUMENT;
use crate::store::{PlanFile, Store};
use crate::yard::{Desk, Entry, EntryId, FORM, IssuedPlan, Told, Trouble, Verdict, read_plan};

use super::failure::{Failure, code};
use super::run::say;
use super::shop_folder::{need_shop, now, store_failure, unreadable, yard_to_write};
use super::voice::Voice;
use super::week_folder::{find_files, read_folder};

#[derive(Deserialize)]
struct Dated {
    date: Option<String>,
}

/// Hands out the plan in a week's results folder.
///
/// # Errors
/// There is no plan, it is not of the files as they are, a number on it means something else already, or the disk
/// refuses: nothing is written.
pub(super) fn issue(
    folder: &Path,
    results: Option<&Path>,
    voice: &mut Voice<'_>,
) -> Result<u8, Failure> {
    let week = need_shop(folder)?;
    let path = match results {
        Some(results) => results.join(DOCUMENT),
        None => folder.join("results").join(DOCUMENT),
    };
    let document = read_document(&path, folder)?;
    let unfit = |why: String| {
        Failure::refused(format!(
            "{}: {why}. Make the plan again: longpoint plan {}",
            path.display(),
            folder.display()
        ))
    };
    let plan = read_plan(&document).map_err(unfit)?;
    let files = of_these_files(folder, &document, &plan)?;
    let (number, revision) = (plan.plan.clone(), plan.revision);
    let joints = plan.joints.len();
    let entry = entry_of(&week.name, plan);
    let mut store = yard_to_write(&week.shop)?;
    let broken = unreadable(&week.shop);
    let mut desk = store.desk().map_err(&broken)?;
    let current = desk.stand().weeks.get(&week.name).and_then(|w| w.current());
    if current.is_some_and(|p| (&p.plan, p.revision) == (&number, revision)) {
        say(voice, &already(&week.name, &number, revision))?;
        return Ok(code::DONE);
    }
    let entry = Entry {
        id: fresh_id(&desk, &entry.id).map_err(&broken)?,
        ..entry
    };
    let verdict = desk.tell(entry, false).map_err(&broken)?;
    let (fresh, stand) = (desk.fresh().to_vec(), desk.stand().clone());
    drop(desk);
    match verdict {
        Verdict::Taken(at) => {
            store
                .append(&fresh, Some((&document, &files)))
                .map_err(store_failure)?;
            store.keep(&stand).map_err(store_failure)?;
            let lines = stand.weeks.get(&week.name).map_or(0, |w| w.lines.len());
            let words = handed_out(
                &week.name,
                (&number, revision),
                (joints, lines),
                (at, folder),
            );
            say(voice, &words)?;
            Ok(code::DONE)
        }
        Verdict::Refused(why) | Verdict::Asked(why) | Verdict::Held(_, why) => {
            Err(refused(&week.name, &why))
        }
        Verdict::Again(_) => Ok(code::DONE),
    }
}

fn entry_of(name: &str, plan: IssuedPlan) -> Entry {
    Entry {
        form: FORM,
        id: EntryId(format!("issue-{name}-{}-{}", plan.plan, plan.revision)),
        at: now(),
        who: String::new(),
        week: name.to_owned(),
        plan: Some(plan.plan.clone()),
        revision: Some(plan.revision),
        note: String::new(),
        told: Told::Issued(Box::new(plan)),
    }
}

/// Handed out, undone and handed out once more is a new telling.
fn fresh_id(desk: &Desk<'_, Store>, id: &EntryId) -> Result<EntryId, String> {
    let mut fresh = id.clone();
    let mut again = 1;
    while desk.find(&fresh)?.is_some() {
        again += 1;
        fresh = EntryId(format!("{id}-{again}"));
    }
    Ok(fresh)
}

fn read_document(path: &Path, folder: &Path) -> Result<String, Failure> {
    fs::read_to_string(path).map_err(|e| match e.kind() {
        std::io::ErrorKind::NotFound => Failure::refused(format!(
            "{}: there is no plan to hand out. Make one: longpoint plan {}",
            path.display(),
            folder.display()
        )),
        _ => Failure::disk(path, &e),
    })
}

fn already(name: &str, plan: &str, revision: u32) -> String {
    format!("Plan {plan} revision {revision} of {name} is handed out already.\n")
}

fn handed_out(
    name: &str,
    (plan, revision): (&str, u32),
    (joints, lines): (usize, usize),
    (entry, folder): (u64, &Path),
) -> String {
    format!(
        "Plan {plan} revision {revision} of {name} is handed out: {joints} joints, {lines} lines to order; entry \
         {entry}.\nIts joint numbers and tags stay. Tell what happens: longpoint tell {} ordered\n",
        folder.display()
    )
}

fn refused(name: &str, why: &Trouble) -> Failure {
    Failure::refused(format!(
        "The plan of {name} cannot be handed out: {}. To mend it: {}.",
        why.what(),
        why.mend()
    ))
}

/// The files that the plan was made from, as long as they say today what they said then: the plan's number is a
/// digest of them and of its joints.
fn of_these_files(
    folder: &Path,
    document: &str,
    plan: &IssuedPlan,
) -> Result<Vec<PlanFile>, Failure> {
    let dated: Dated = serde_json::from_str(document)
        .map_err(|e| Failure::refused(format!("{DOCUMENT}: {e}.")))?;
    let date = dated.date.as_deref().and_then(|d| parse_date(d).ok());
    let week = read_folder(folder, date)?;
    if number_of(&week, plan) != plan.plan {
        return Err(Failure::refused(format!(
            "{}: the files of the week changed since plan {} was made. Make the plan again: longpoint plan {}",
            folder.display(),
            plan.plan,
            folder.display()
        )));
    }
    let (found, _) = find_files(folder)?;
    let all = [
        found.orders,
        found.shop,
        found.stock,
        found.suppliers,
        found.rack,
        found.parts,
    ];
    let all = all.into_iter().flatten().map(|f| PlanFile {
        name: f.name,
        bytes: f.bytes,
    });
    Ok(all.collect())
}

/// The number that these files give a plan with these joints.
fn number_of(week: &Week, plan: &IssuedPlan) -> String {
    let joints = plan.joints.iter().map(|joint| {
        let mut at = joint.near;
        let pieces = joint.pieces.iter().map(|piece| {
            let start = at;
            at += piece.saw + piece.kerf;
            PieceCut {
                part: 0,
                copy: piece.id.copy,
                serial: piece.id.serial,
                piece: piece.id.piece,
                mark: piece.mark.clone(),
                saw: piece.saw,
                start,
                end: start + piece.saw,
            }
        });
        PlannedJoint {
            pieces: pieces.collect(),
            number: joint.number,
            pipe: PipeId(joint.pipe),
            source: JointSource::Bought(0),
            length: joint.length,
            near: joint.near,
            far: Length::ZERO,
            hold: Length::ZERO,
            leftover: Length::ZERO,
            last_cut: joint.last_cut,
            drop: Length::ZERO,
            floor: joint.floor,
            kept: joint.keep.is_some(),
            keep_tag: joint.keep.clone(),
            credit: Money::ZERO,
            measure_first: false,
        }
    });
    plan_number(week, &joints.collect::<Vec<_>>())
}
