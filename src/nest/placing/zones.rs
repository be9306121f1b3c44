//! Zones that a splice of one line bars to the other line.

use super::super::differences::last;
use super::Search;
use super::label::Label;

impl Search<'_> {
    /// Zones in which a line is spliced, where they bar the other line.
    pub(super) fn zones(&self, label: &Label, line: usize) -> Vec<u32> {
        let mut zones = Vec::new();
        if !self.together || !self.group.zones_exclusive {
            return zones;
        }
        let mut here = label;
        while let Some(moved) = here.moved {
            let before = &self.labels[here.from];
            let splice = before.placed[line] < self.way(line, before).splices;
            if moved.line == line && splice {
                zones.push(self.target(before, moved).zone);
            }
            here = before;
        }
        zones
    }

    /// The same, only zones that the other line may still meet.
    pub(super) fn zones_ahead(&self, label: &Label, line: usize) -> Vec<u32> {
        let mut zones = self.zones(label, line);
        let Some(other) = self.lines.get(1 - line).filter(|_| !zones.is_empty()) else {
            return zones;
        };
        let front = (0..2)
            .map(|l| label.known.range(last(l)).0)
            .min()
            .unwrap_or(0);
        let ahead = |zone: &u32| {
            let mut slots = other.line.slots.iter();
            slots.any(|s| s.zone == *zone && s.hi >= front)
        };
        zones.retain(ahead);
        zones.sort_unstable();
        zones
    }
}
