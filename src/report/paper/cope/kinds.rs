//! Kinds of coped end, numbered as on every other sheet, with how each user's template is clocked.

use crate::cope::{Main, Method};
use crate::gate::{Meeting, method_of};
use crate::order::{Impossible, PipeId, Week};
use crate::part::{Cope, CopeEnd, TakeOff};
use crate::report::cope_kind::{CopeKind, CopeKinds};
use crate::report::cope_scribe::{ScribeRow, scribe_rows};

/// One end that a kind serves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Use {
    /// Index into `TakeOff::parts`.
    pub part: usize,
    /// 0 start, 1 end.
    pub end: usize,
}

/// One kind of coped end.
#[derive(Clone, Debug)]
pub struct Kind {
    /// Code printed at the saw and on the template (`c1`: cope 1).
    pub code: String,
    /// Pipe that is cut.
    pub pipe: PipeId,
    /// Every way the template is laid on in the shop, with who takes it so; empty where only customers cut it.
    pub(in crate::report) rows: Vec<ScribeRow>,
    /// The kind as the text sheets hold it.
    pub(in crate::report) text: CopeKind,
    /// How.
    pub method: Method,
    /// The pipes it meets, on the first user's scribe line.
    pub mains: Vec<Main>,
    /// The first user's cope.
    pub cope: Cope,
    /// Every end it serves.
    pub uses: Vec<Use>,
}

/// Every kind of the week, by number.
#[derive(Clone, Debug, Default)]
pub struct Kinds {
    /// Kinds.
    pub list: Vec<Kind>,
}

/// A pipe met, as `cope` takes it.
fn main(week: &Week, m: &Meeting) -> Main {
    Main {
        radius: week.pipe(m.pipe).radius(),
        phi: m.phi,
        beta: m.beta,
        offset: m.offset,
        station: m.station,
    }
}

/// The cope of one end of a part.
fn cope_at(take_off: &TakeOff, part: usize, end: usize) -> Option<&Cope> {
    match take_off.parts.get(part)?.ends.get(end)? {
        CopeEnd::Coped(cope) => Some(cope),
        CopeEnd::Square { .. } => None,
    }
}

impl Kind {
    /// The same for the customer who cuts a gate's parts himself: laid on as those ask.
    pub fn for_customer(&self, take_off: &TakeOff, gate: usize) -> Kind {
        Kind {
            rows: scribe_rows(take_off, &self.text, Some(gate)),
            ..self.clone()
        }
    }
}

impl Kinds {
    /// The week's kinds.
    pub fn of(week: &Week, take_off: &TakeOff, left_out: &[Impossible]) -> Kinds {
        let kinds = CopeKinds::of(take_off, left_out).kinds;
        Kinds {
            list: kinds
                .iter()
                .filter_map(|k| kind(week, take_off, k))
                .collect(),
        }
    }

    /// The code of a part's end; `None` for a square one.
    pub fn code(&self, part: usize, end: usize) -> Option<&str> {
        let has = |k: &&Kind| k.uses.iter().any(|u| u.part == part && u.end == end);
        self.list.iter().find(has).map(|k| k.code.as_str())
    }
}

fn kind(week: &Week, take_off: &TakeOff, kind: &CopeKind) -> Option<Kind> {
    let (part, end) = *kind.uses.first()?;
    let cope = cope_at(take_off, part, end)?.clone();
    let uses = kind.uses.iter().map(|&(part, end)| Use { part, end });
    Some(Kind {
        code: format!("c{}", kind.number),
        pipe: kind.branch,
        rows: scribe_rows(take_off, kind, None),
        text: kind.clone(),
        method: method_of(kind.cut),
        mains: cope.meets.iter().map(|m| main(week, m)).collect(),
        uses: uses.collect(),
        cope: cope.clone(),
    })
}
