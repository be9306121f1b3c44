//! Money that is spent, whatever is planned from here on.

use super::Lot;
use crate::measure::{Length, Money};
use crate::order::{PipeId, RackPiece, Week};
use crate::stock::usable_of_piece;
use crate::yard::{IssuedRack, Stand};

use super::pipe_of;

/// Sunk = paid + the rack as it lay at the first issue − all that lies or is on order for the week; pipe counts at its
/// credit. The splices of lines that stay as they were handed out come on top: the rest's plan lists them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sunk {
    /// Money of orders as told, less money back.
    pub paid: Money,
    /// Credit of the rack as the first plan found it.
    pub rack_then: Money,
    /// Credit of what lies or is on order for the week.
    pub lies: Money,
}

impl Sunk {
    /// All of it.
    pub fn total(&self) -> Money {
        self.paid + self.rack_then - self.lies
    }
}

/// What is sunk of a week; `None` where a pipe that it used has no credit known.
pub(super) fn sunk(rest: &Week, (stand, name): (&Stand, &str), lots: &[Lot]) -> Option<Sunk> {
    let known = stand.weeks.get(name)?;
    let mut rack_then = Money::ZERO;
    for (key, row) in &known.rack_then {
        if let Some(pipe) = pipe_of(rest, key) {
            let each = credit(
                rest,
                pipe,
                usable_of_piece(&rest.shop.saw, &piece(pipe, row)),
            )?;
            rack_then = rack_then + Money(each.0 * rust_decimal::Decimal::from(row.count));
        }
    }
    let mut lies = Money::ZERO;
    for (lot, row) in lots.iter().zip(&rest.rack) {
        let ours = match lot {
            Lot::Remnant(id) => {
                id.week == name || known.rack_then.iter().any(|(_, r)| r.tag == id.tag)
            }
            Lot::Begun(_) | Lot::Here(_) | Lot::OnOrder(_) => true,
        };
        if ours {
            let each = credit(rest, row.pipe, usable_of_piece(&rest.shop.saw, row))?;
            lies = lies + Money(each.0 * rust_decimal::Decimal::from(row.count));
        }
    }
    Some(Sunk {
        paid: known.paid - known.back,
        rack_then,
        lies,
    })
}

fn piece(pipe: PipeId, row: &IssuedRack) -> RackPiece {
    RackPiece {
        tag: row.tag.clone(),
        pipe,
        length: row.length,
        count: row.count,
        near_trim: row.near_trim,
        far_trim: row.far_trim,
        arrives: None,
        note: String::new(),
        origin: crate::order::Origin {
            file: String::new(),
            line: 0,
        },
    }
}

/// What so much pipe counts, by the whole foot.
fn credit(week: &Week, pipe: PipeId, usable: Length) -> Option<Money> {
    let rate = week.shop.money.held_credit(pipe)?;
    if usable < week.shop.money.keep_length || usable <= Length::ZERO {
        return Some(Money::ZERO);
    }
    let feet = usable.ticks().div_euclid(Length::FOOT.ticks());
    Some(Money(rate.0 * rust_decimal::Decimal::from(feet)))
}
