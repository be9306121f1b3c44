//! Bays and brackets of one order: how many, where their lines stand, where brackets are welded.

use super::faults::Faults;
use super::gate_order::Bays;
use super::order_list::split_list;
use super::sheet::Cells;
use crate::measure::{FaultCode, Length, Misread, Unit, parse_count, parse_length};

/// The words that let the bay lines beside the given ones be spaced evenly.
const EVEN: [&str; 4] = ["even", "evenly", "rest even", "rest evenly"];

/// Number or lines of the bays; `None` when they cannot be.
pub(super) fn read_bays(
    cells: &Cells<'_>,
    unit: Option<Unit>,
    leaf: Option<f64>,
    faults: &mut Faults,
) -> Option<Bays> {
    let count = cells.read("bays", faults, |t| match parse_count(t)? {
        n @ 1..=200 => Ok(n),
        _ => Err(Misread::beyond(
            "a gate has from 1 to 200 bays",
            "write the number of bays, or leave it empty for the least",
        )),
    });
    let text = cells.text("bay_lines");
    if cells.unworked("bay_lines", faults) {
        return None;
    }
    if text.is_empty() {
        return Some(count.map_or(Bays::Least, Bays::Count));
    }
    let spot = cells.spot("bay_lines");
    if !cells.text("bays").is_empty() {
        faults.error(
            FaultCode::GivenTwice,
            &spot,
            "both bays and bay_lines are given",
            "leave one of them empty",
        );
        return None;
    }
    let even = |t: &&str| EVEN.contains(&t.to_lowercase().as_str());
    let parts = faults.take(&spot, split_list(text))?;
    let fixed = parts.iter().any(even);
    let lines = parts
        .into_iter()
        .filter(|t| !even(t))
        .map(|t| faults.take(&spot, parse_length(t, unit)))
        .collect::<Option<Vec<_>>>()?;
    let lines: Vec<Length> = lines.into_iter().map(|l| l.length).collect();
    let rising = lines.windows(2).all(|w| w[0] < w[1]);
    let inside = lines.first().is_some_and(|l| *l > Length::ZERO)
        && lines
            .last()
            .zip(leaf)
            .is_none_or(|(l, leaf)| l.geometric() < leaf);
    if !rising || !inside {
        faults.error(
            FaultCode::ValueOutOfRange,
            &spot,
            "the bay lines must rise from the latch face and stay inside the leaf",
            "write interior bay lines in order, parted by | or commas, such as 4'-8\" | 9'-4\"; or the fixed ones \
             and the word even, such as 8' | even",
        );
        return None;
    }
    Some(if fixed {
        Bays::Fixed(lines)
    } else {
        Bays::Lines(lines)
    })
}

/// Where brackets are welded on the horizontals; `None` when one cannot be.
pub(super) fn read_brackets(
    cells: &Cells<'_>,
    unit: Option<Unit>,
    leaf: Option<f64>,
    faults: &mut Faults,
) -> Option<Vec<Length>> {
    if cells.unworked("brackets", faults) {
        return None;
    }
    let spot = cells.spot("brackets");
    let parts = faults.take(&spot, split_list(cells.text("brackets")))?;
    let read = parts
        .into_iter()
        .map(|t| faults.take(&spot, parse_length(t, unit)))
        .collect::<Option<Vec<_>>>()?;
    let places: Vec<Length> = read.into_iter().map(|l| l.length).collect();
    let inside = |l: &Length| *l >= Length::ZERO && leaf.is_none_or(|leaf| l.geometric() <= leaf);
    if !places.iter().all(inside) {
        faults.error(
            FaultCode::ValueOutOfRange,
            &spot,
            "a bracket stands outside the leaf",
            "write where brackets are welded, from the latch face, parted by | or commas, such as 6' | 12'-6\"",
        );
        return None;
    }
    Some(places)
}
