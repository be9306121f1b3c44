//! `accepted`: a piece measured off, or an entry held as a question.

use super::super::{Accepted, EntryId, PieceState, Stand, Trouble};
use super::spoil::piece;
use super::{week, week_mut};

pub(super) fn accepted(stand: &mut Stand, name: &str, told: &Accepted) -> Result<(), Trouble> {
    match told {
        Accepted::Entry(id) => question(stand, id),
        Accepted::Piece(id) => {
            let known = piece(week(stand, name)?, name, id)?;
            if !matches!(known.state, PieceState::Made { doubt: true, .. }) {
                return Err(Trouble::question(
                    format!("{} was not asked about", known.mark),
                    "only a piece measured off by more than the tolerance is",
                ));
            }
            let piece = week_mut(stand, name)?.pieces.get_mut(id);
            if let Some(PieceState::Made { doubt, .. }) = piece.map(|p| &mut p.state) {
                *doubt = false;
            }
            Ok(())
        }
    }
}

/// What was held counts from here on, where what is told by now allows it.
fn question(stand: &mut Stand, id: &EntryId) -> Result<(), Trouble> {
    let at = stand.questions.iter().position(|q| q.entry.id == *id);
    let Some(at) = at else {
        return Err(Trouble::refusal(
            format!("no question is open under {id}"),
            "longpoint stand lists the questions",
        ));
    };
    let question = stand.questions.remove(at);
    let done = stand.apply(&question.entry);
    if done.is_err() {
        stand.questions.insert(at, question);
    }
    done
}
