//! Where the splices of a line may stand, as positions on the saw mark.
//!
//! With m splices the pieces sum to P(m) = ⌊length − m·gap⌋ on the mark and the gap as made is
//! G = (length − P)/m. The centre of splice j lies at S + (j − ½)G, S the pieces before it: as a whole
//! number in units of 1/(2m). Lines with different m meet in one group, so centres are carried in
//! units of 1/`unit`, `unit` = 2·lcm(1..most splices of the group).

use super::problem::{Group, Line};

/// One place where splice j of a line may stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Position {
    /// Sum of the pieces before it.
    pub cut: i64,
    /// Centre × unit.
    pub centre: i64,
    /// Zone of the slot it stands in.
    pub zone: u32,
    /// Charge of the slot it stands in.
    pub charge: i64,
}

/// Closed span of centres (× unit) where no splice may stand: from branching on conflicts.
pub(super) type Span = (i64, i64);

/// 2·lcm(1..=most splices) over the group's lines.
pub(super) fn centre_unit(group: &Group) -> i64 {
    let most = group
        .lines
        .iter()
        .map(|l| l.most_splices)
        .max()
        .unwrap_or(0);
    let mut lcm = 1i64;
    for k in 2..=i64::from(most) {
        lcm = lcm / gcd(lcm, k) * k;
    }
    2 * lcm
}

/// Greatest common divisor; gcd(0, b) = b.
pub(super) fn gcd(a: i64, b: i64) -> i64 {
    let (mut a, mut b) = (a.abs(), b.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// P(m): what the pieces of a line with m ≥ 1 splices sum to.
pub(super) fn pieces_sum(line: &Line, mark: i64, m: u32) -> i64 {
    (line.length - i64::from(m) * line.gap).div_euclid(mark) * mark
}

/// The centre × unit of splice j (1-based) of m, with `cut` of pieces before it.
pub(super) fn centre(line: &Line, mark: i64, unit: i64, m: u32, j: u32, cut: i64) -> i64 {
    let rest = line.length - pieces_sum(line, mark, m);
    let half = unit / (2 * i64::from(m));
    unit * cut + (2 * i64::from(j) - 1) * rest * half
}

/// Least piece of a spliced line, at least one mark.
pub(super) fn least_piece(line: &Line, mark: i64) -> i64 {
    line.least_piece.max(mark)
}

/// All positions of splice j of m, ascending, one per cut: where slots touch the cheaper holds.
pub(super) fn positions(
    line: &Line,
    mark: i64,
    unit: i64,
    (m, j): (u32, u32),
    banned: &[Span],
) -> Vec<Position> {
    let total = pieces_sum(line, mark, m);
    let least = least_piece(line, mark);
    if total < least * (i64::from(m) + 1) {
        return Vec::new();
    }
    let shift = centre(line, mark, unit, m, j, 0);
    let mut found: Vec<Position> = Vec::new();
    for slot in &line.slots {
        let from = ceil_div(unit * slot.lo - shift, unit).max(least);
        let to = (unit * slot.hi - shift).div_euclid(unit).min(total - least);
        let mut cut = ceil_div(from, mark) * mark;
        while cut <= to {
            let here = Position {
                cut,
                centre: unit * cut + shift,
                zone: slot.zone,
                charge: slot.charge,
            };
            cut += mark;
            if banned
                .iter()
                .any(|b| b.0 <= here.centre && here.centre <= b.1)
            {
                continue;
            }
            match found.last_mut() {
                Some(last) if last.cut == here.cut => {
                    if here.charge < last.charge {
                        *last = here;
                    }
                }
                _ => found.push(here),
            }
        }
    }
    found
}

fn ceil_div(a: i64, b: i64) -> i64 {
    -(-a).div_euclid(b)
}
