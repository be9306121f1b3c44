//! `Marks`: every mark of the week once, whatever its case and whichever file it stands in.

use std::collections::BTreeMap;

use super::faults::{Faults, Spot};

/// Marks met so far, by their lower-case form.
#[derive(Debug, Default)]
pub(super) struct Marks {
    seen: BTreeMap<String, Seen>,
    /// Their letters and digits alone, and the first mark of each.
    bare: BTreeMap<String, String>,
}

#[derive(Debug)]
struct Seen {
    mark: String,
    spot: Spot,
    /// Copies of a gate order; 0 for extra parts.
    copies: u32,
}

/// Marks of a gate's parts (DESIGN §5).
const PART_MARKS: [&str; 12] = [
    "ht", "hb", "p", "p1", "p2", "v", "d", "d1", "d2", "s", "r", "b",
];

impl Marks {
    /// Adds a mark; a second one like it is a fault.
    pub fn add(&mut self, mark: &str, copies: u32, spot: Spot, faults: &mut Faults) {
        let key = mark.to_lowercase();
        if let Some(first) = self.seen.get(&key) {
            let case = if first.mark == mark {
                ""
            } else {
                " (upper and lower case are one)"
            };
            let what = format!(
                "the mark is already used in {}{case}",
                first.spot.origin().words()
            );
            faults.error(&spot, &what, "give every gate and part a mark of its own");
            return;
        }
        let bare: String = key.chars().filter(|c| c.is_alphanumeric()).collect();
        match self.bare.get(&bare) {
            Some(other) => faults.warn(
                &spot,
                &format!("\"{mark}\" and \"{other}\" are easily taken for each other"),
                "tell marks of one week apart by letters or digits, not by signs alone",
            ),
            None => {
                self.bare.insert(bare, mark.to_owned());
            }
        }
        let mark = mark.to_owned();
        self.seen.insert(key, Seen { mark, spot, copies });
    }

    /// Says which marks would collide with the marks the program gives to copies and parts.
    pub fn check_made_marks(&self, faults: &mut Faults) {
        for (key, seen) in &self.seen {
            if let Some((gate, copy)) = key.rsplit_once('.')
                && let Some(other) = self.seen.get(gate)
                && copy.parse().is_ok_and(|n: u32| n >= 1 && n <= other.copies)
                && other.copies > 1
            {
                let what = format!(
                    "\"{}\" is also the name of a copy of gate \"{}\"",
                    seen.mark, other.mark
                );
                faults.error(&seen.spot, &what, "give it another mark");
            }
            if let Some((gate, part)) = key.rsplit_once('-')
                && let Some(other) = self.seen.get(gate)
                && other.copies > 0
                && is_part_mark(part)
            {
                let what = format!(
                    "\"{}\" is also the mark of a part of gate \"{}\"",
                    seen.mark, other.mark
                );
                faults.error(&seen.spot, &what, "give it another mark");
            }
        }
    }
}

fn is_part_mark(text: &str) -> bool {
    let standoff = text
        .strip_prefix("bs")
        .is_some_and(|n| n.parse::<u32>().is_ok());
    PART_MARKS.contains(&text) || standoff
}
