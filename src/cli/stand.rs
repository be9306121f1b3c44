//! `longpoint stand`: where everything is, on one screen.

use serde_json::json;

use crate::yard::{Stand, breaches};

use super::arguments_yard::StandArguments;
use super::failure::{Failure, code};
use super::run::say;
use super::shop_folder::{shop_of, unreadable, yard_to_read};
use super::stand_text::stand_text;
use super::voice::Voice;
use super::yard::root;

/// Prints where everything is.
///
/// # Errors
/// There is no yard, or pipe is not conserved in it.
pub(super) fn stand(arguments: &StandArguments, voice: &mut Voice<'_>) -> Result<u8, Failure> {
    let shop = root(&arguments.folder)?;
    let week = shop_of(&arguments.folder).map(|w| w.name);
    let store = yard_to_read(&shop)?;
    let desk = store.desk().map_err(unreadable(&shop))?;
    let stand = desk.stand();
    if let Some(week) = &week
        && !stand.weeks.contains_key(week)
    {
        return Err(Failure::refused(format!(
            "no plan of {week} was handed out yet: longpoint issue {}",
            arguments.folder.display()
        )));
    }
    let found = if arguments.check {
        breaches(stand)
    } else {
        Vec::new()
    };
    if arguments.json {
        say(voice, &document(stand)?)?;
    } else {
        say(voice, &stand_text(stand, week.as_deref()))?;
    }
    if !found.is_empty() {
        let lines = found
            .iter()
            .map(|b| format!("  {}: {}: {}\n", b.law, b.subject, b.detail));
        let broken = Failure::internal(format!(
            "Pipe is not accounted for. This is longpoint's fault, not yours: please report it with `longpoint yard \
             export`.\n{}",
            lines.collect::<String>()
        ));
        if arguments.json {
            // The stand is the one document on stdout; stderr says what is wrong with it.
            voice.message(&broken.text());
            return Ok(broken.code);
        }
        return Err(broken);
    }
    if arguments.check && !arguments.json {
        say(voice, &checked(stand))?;
    }
    Ok(code::DONE)
}

fn checked(stand: &Stand) -> String {
    let joints: usize = stand.weeks.values().map(|w| w.joints.len()).sum();
    format!(
        "Checked to the tick: {} entries, {} pipes, {joints} joints: all pipe is accounted for.\n",
        stand.told,
        stand.pipes.len()
    )
}

/// The stand as a document; `form` grows when a field gets another meaning.
fn document(stand: &Stand) -> Result<String, Failure> {
    let document = json!({ "format": "longpoint stand", "form": 1, "stand": stand });
    let text = serde_json::to_string_pretty(&document);
    text.map(|t| t + "\n")
        .map_err(|e| Failure::internal(e.to_string()))
}
