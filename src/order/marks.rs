//! `Marks`: every mark of the week once, whatever its case and whichever file it stands in.

use crate::measure::FaultCode;
use std::collections::BTreeMap;

use super::faults::{Faults, Spot};
use super::spelling::{folded, look};

/// Marks met so far, by what all spellings of a mark share.
#[derive(Debug, Default)]
pub(super) struct Marks {
    seen: BTreeMap<String, Seen>,
    /// How their letters and digits look, and the first mark of each look.
    looks: BTreeMap<String, String>,
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
        let key = folded(mark);
        if let Some(first) = self.seen.get(&key) {
            let case = if first.mark == mark {
                ""
            } else {
                " (upper and lower case and spaces make no other mark)"
            };
            let what = format!(
                "the mark is already used in {}{case}",
                first.spot.origin().words()
            );
            faults.error(
                FaultCode::GivenTwice,
                &spot,
                &what,
                "give every gate and part a mark of its own",
            );
            return;
        }
        let look: String = look(mark).chars().filter(|c| c.is_alphanumeric()).collect();
        match self.looks.get(&look) {
            Some(other) if !(signs_alone(mark, other) || mark.is_ascii() && other.is_ascii()) => {
                faults.error(
                    FaultCode::NamesAlike, &spot,
                    &format!("\"{mark}\" looks like \"{other}\", in other letters"),
                    "type it again by hand; tell marks apart by letters and digits that do not look alike",
                );
            }
            Some(other) => faults.warn(
                FaultCode::NamesAlike, &spot,
                &format!("\"{mark}\" and \"{other}\" are easily taken for each other"),
                "tell marks of one week apart by letters or digits that do not look alike (not O and 0, I and 1), not \
                 by signs alone",
            ),
            None => {
                self.looks.insert(look, mark.to_owned());
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
                faults.error(
                    FaultCode::GivenTwice,
                    &seen.spot,
                    &what,
                    "give it another mark",
                );
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
                faults.error(
                    FaultCode::GivenTwice,
                    &seen.spot,
                    &what,
                    "give it another mark",
                );
            }
        }
    }
}

/// Two marks of the same letters and digits.
fn signs_alone(a: &str, b: &str) -> bool {
    let bare = |text: &str| {
        folded(text)
            .chars()
            .filter(|c| c.is_alphanumeric())
            .collect::<String>()
    };
    bare(a) == bare(b)
}

fn is_part_mark(text: &str) -> bool {
    let standoff = text
        .strip_prefix("bs")
        .is_some_and(|n| n.parse::<u32>().is_ok());
    PART_MARKS.contains(&text) || standoff
}
