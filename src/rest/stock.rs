//! What lies for a week, as rows of its rack.

use jiff::civil::Date;

use super::pipe_of;
use crate::measure::Length;
use crate::order::{Origin, PipeKey, RackPiece, RemnantId, Week};
use crate::yard::{Stand, WeekStand};

/// What a row of the rest's rack is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Lot {
    /// A remnant, by its tag in the yard.
    Remnant(RemnantId),
    /// What is left of a begun joint, by its number.
    Begun(u32),
    /// Whole joints of a line that lie here.
    Here(u32),
    /// Joints of a line that are on order.
    OnOrder(u32),
}

/// One row before it is written.
struct Row<'a> {
    lot: Lot,
    key: &'a PipeKey,
    length: Length,
    count: u32,
    trims: (bool, bool),
    arrives: Option<Date>,
}

/// Writes the rack anew: begun joints, remnants that are this week's or free, joints here, joints on order. Pipe that the
/// week does not know serves nothing of it.
pub(super) fn lay_out(week: &mut Week, stand: &Stand, name: &str) -> Vec<Lot> {
    let Some(known) = stand.weeks.get(name) else {
        return Vec::new();
    };
    let rows = begun(known)
        .chain(remnants(stand, name))
        .chain(here(known))
        .chain(on_order(known));
    let (mut lots, mut rack): (Vec<Lot>, Vec<RackPiece>) = (Vec::new(), Vec::new());
    for row in rows.filter(|r| r.count > 0) {
        let Some(pipe) = pipe_of(week, row.key) else {
            continue;
        };
        let tag = tag(week, stand, &row);
        rack.push(RackPiece {
            tag,
            pipe,
            length: row.length,
            count: row.count,
            near_trim: row.trims.0,
            far_trim: row.trims.1,
            arrives: row.arrives,
            note: String::new(),
            origin: Origin {
                file: "yard".to_owned(),
                line: u32::try_from(lots.len()).unwrap_or(u32::MAX),
            },
        });
        lots.push(row.lot);
    }
    week.rack = rack;
    lots
}

fn begun(known: &WeekStand) -> impl Iterator<Item = Row<'_>> {
    let begun = known.joints.iter().filter(|(_, j)| j.begun());
    begun.map(|(number, joint)| Row {
        lot: Lot::Begun(*number),
        key: &joint.pipe,
        length: joint.tally.rest,
        count: u32::from(joint.tally.rest > Length::ZERO),
        trims: (false, joint.far),
        arrives: None,
    })
}

fn remnants<'a>(stand: &'a Stand, name: &'a str) -> impl Iterator<Item = Row<'a>> {
    stand.rack.iter().map(move |(id, remnant)| {
        let mine = remnant.reserved.get(name).copied().unwrap_or(0);
        Row {
            lot: Lot::Remnant(id.clone()),
            key: &remnant.pipe,
            length: remnant.length,
            count: mine.saturating_add(remnant.free()).min(remnant.count),
            trims: (remnant.near_trim, remnant.far_trim),
            arrives: None,
        }
    })
}

fn here(known: &WeekStand) -> impl Iterator<Item = Row<'_>> {
    let lines = known.lines.iter().filter(|(_, l)| !l.spare);
    lines.flat_map(|(number, line)| {
        line.lying.iter().map(move |(length, count)| Row {
            lot: Lot::Here(*number),
            key: &line.pipe,
            length: *length,
            count: *count,
            trims: (true, true),
            arrives: None,
        })
    })
}

fn on_order(known: &WeekStand) -> impl Iterator<Item = Row<'_>> {
    let lines = known.lines.iter().filter(|(_, l)| !l.spare);
    lines.map(|(number, line)| Row {
        lot: Lot::OnOrder(*number),
        key: &line.pipe,
        length: line.planning,
        count: line.on_order(),
        trims: (true, true),
        arrives: line.promised,
    })
}

/// What stands on the sheets for a row. Two remnants of two weeks may carry one painted tag.
fn tag(week: &Week, stand: &Stand, row: &Row<'_>) -> String {
    let length = || row.length.print(week.shop.units);
    match &row.lot {
        Lot::Remnant(id) if stand.tagged(&id.tag).len() > 1 => id.to_string(),
        Lot::Remnant(id) => id.tag.clone(),
        Lot::Begun(number) => format!("joint {number}"),
        Lot::Here(number) => format!("line {number}, {}", length()),
        Lot::OnOrder(number) => format!("line {number} on order"),
    }
}

/// What was ordered of a joint on sale is to be had no more.
pub(super) fn less_on_sale(week: &mut Week, known: &WeekStand) {
    let keys: Vec<PipeKey> = week.pipes.iter().map(|p| p.key()).collect();
    for quote in &mut week.quotes {
        let Some(available) = quote.available.as_mut() else {
            continue;
        };
        let key = keys.get(quote.pipe.0);
        let mine = known.lines.values().filter(|l| {
            Some(&l.pipe) == key && l.nominal == quote.nominal && l.supplier == quote.supplier
        });
        let ordered: u32 = mine
            .map(|l| l.ordered.saturating_sub(l.dropped))
            .fold(0, u32::saturating_add);
        *available = available.saturating_sub(ordered);
    }
}
