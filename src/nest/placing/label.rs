//! Labels of the search: the splices placed so far, by the move that placed the last one.

use super::super::differences::Differences;

/// A move: the next splice of a line (or its end) into a place, the piece before it at most one step long.
#[derive(Clone, Copy, Debug)]
pub(super) struct Move {
    pub line: usize,
    pub place: usize,
    pub longest: i64,
}

/// A label taken: what was placed last, and what is known then.
pub(super) struct Label {
    pub from: usize,
    pub moved: Option<Move>,
    /// Which number of splices each line has: index into its ways.
    pub ways: [usize; 2],
    pub placed: [u32; 2],
    /// Slots of the last splices.
    pub place: [usize; 2],
    pub paid: i64,
    pub known: Differences,
}

/// A label not looked at yet.
pub(super) struct Next {
    pub from: usize,
    pub moved: Move,
    pub paid: i64,
}

/// Labels of one kind: slots, counts and the zones of either line that the other may still meet.
pub(super) type Met = ([usize; 2], [u32; 2], [usize; 2], [Vec<u32>; 2]);
