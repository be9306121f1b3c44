//! How late a splice may be cut for the splices behind it, of either line, to find room: a relaxation that asks
//! for least pieces and least distances alone. With j splices of this line and k of the other placed,
//!
//! t(j, k) = min(last place of splice j, max(t(j + 1, k) − least piece, t'(k + 1, j) − least distance)),
//!
//! the maximum over which line's splice stands next. So a group whose splices can never stand far enough apart is
//! told at once, where a search alone would go through every order of them.

use super::Search;
use super::label::Label;

/// Latest cuts of one choice of both lines' numbers of splices.
pub(super) struct Latest {
    /// `at[line][j − 1][k]`.
    at: [Vec<Vec<i64>>; 2],
}

impl Search<'_> {
    /// Of lines that bind each other.
    pub(super) fn latest_of(&self, ways: [usize; 2]) -> Latest {
        let many = [0, 1].map(|l: usize| self.lines[l].ways[ways[l]].splices);
        let mut latest = Latest {
            at: [0, 1].map(|l: usize| vec![vec![i64::MIN; size(many[1 - l]) + 1]; size(many[l])]),
        };
        // From the last splices to the first: fewest left first.
        for placed in (1..=many[0] + many[1]).rev() {
            for line in [0, 1] {
                let other = 1 - line;
                let least = placed.saturating_sub(many[other]).max(1);
                for j in least..=placed.min(many[line]) {
                    let k = placed - j;
                    let at = self.latest_at(&latest, ways, (line, j), k);
                    latest.at[line][size(j) - 1][size(k)] = at;
                }
            }
        }
        latest
    }

    fn latest_at(&self, latest: &Latest, ways: [usize; 2], (line, j): (usize, u32), k: u32) -> i64 {
        let [way, theirs] = [line, 1 - line].map(|l| &self.lines[l].ways[ways[l]]);
        let places = way.places[size(j) - 1].iter();
        let last = places.map(|p| p.to).max().unwrap_or(i64::MIN);
        let own = (j < way.splices)
            .then(|| latest.at[line][size(j)][size(k)].saturating_sub(way.least_piece));
        let other = (k < theirs.splices).then(|| {
            let behind = self.behind(ways, (1 - line, k + 1), j);
            latest.at[1 - line][size(k)][size(j)].saturating_sub(behind)
        });
        own.max(other).map_or(last, |next| next.min(last))
    }

    /// The latest cut of splice j of a line behind this label.
    pub(super) fn latest(&self, label: &Label, line: usize, j: u32) -> i64 {
        let Some(latest) = self.latest.get(&label.ways) else {
            return i64::MAX;
        };
        let theirs = self.way(1 - line, label).splices;
        let k = label.placed[1 - line].min(theirs);
        let at = latest.at[line].get(size(j) - 1);
        at.map_or(i64::MAX, |at| at[size(k)])
    }
}

/// A number of splices as an index: 16 of a line at most.
fn size(splices: u32) -> usize {
    splices as usize
}
