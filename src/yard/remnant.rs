//! `Remnant`: what lies on the rack under one tag.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::measure::Length;
use crate::order::PipeKey;

/// Pieces of one tag. A tag whose pieces are all gone stays known, with a count of 0.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Remnant {
    /// Pipe.
    pub pipe: PipeKey,
    /// Length of each.
    pub length: Length,
    /// How many lie.
    pub count: u32,
    /// The near end still wants its trim.
    pub near_trim: bool,
    /// The far end still wants its trim.
    pub far_trim: bool,
    /// Where it came from, in words: `joint 12`, `rack.csv`.
    pub from: String,
    /// Weeks that keep some of it, and how many.
    pub reserved: BTreeMap<String, u32>,
    /// What became of the last of them: `cut as joint 7`; empty while some lie.
    pub gone: String,
}

impl Remnant {
    /// One piece whose near end a saw cut; `far`: its far end wants a trim.
    pub(super) fn cut(pipe: PipeKey, length: Length, far: bool, from: String) -> Remnant {
        Remnant {
            pipe,
            length,
            count: 1,
            near_trim: false,
            far_trim: far,
            from,
            reserved: BTreeMap::new(),
            gone: String::new(),
        }
    }

    /// Pieces that no week keeps.
    pub fn free(&self) -> u32 {
        let kept: u32 = self.reserved.values().copied().fold(0, u32::saturating_add);
        self.count.saturating_sub(kept)
    }

    /// So many go, those that `week` keeps first.
    pub(super) fn take(&mut self, week: &str, count: u32, gone: &str) {
        self.count = self.count.saturating_sub(count);
        self.release(week, count);
        self.keep_no_more_than_lies();
        if self.count == 0 {
            self.gone = gone.to_owned();
        }
    }

    /// Weeks that wanted what is gone keep less, the last by name first.
    pub(super) fn keep_no_more_than_lies(&mut self) {
        let mut left = self.count;
        self.reserved.retain(|_, kept| {
            *kept = (*kept).min(left);
            left -= *kept;
            *kept > 0
        });
    }

    /// `week` keeps so many less.
    pub(super) fn release(&mut self, week: &str, count: u32) {
        if let Some(kept) = self.reserved.get_mut(week) {
            *kept = kept.saturating_sub(count);
            if *kept == 0 {
                self.reserved.remove(week);
            }
        }
    }
}
