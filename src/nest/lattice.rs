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

/// A run of positions of one slot: cuts from `from` to `to` on the mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stretch {
    /// Least cut.
    pub from: i64,
    /// Greatest cut.
    pub to: i64,
    /// Zone of the slot.
    pub zone: u32,
    /// Charge of the slot.
    pub charge: i64,
}

/// All positions of splice j of m as stretches, ascending, no cut twice: where slots touch the cheaper
/// holds.
pub(super) fn stretches(
    line: &Line,
    mark: i64,
    unit: i64,
    (m, j): (u32, u32),
    banned: &[Span],
) -> Vec<Stretch> {
    let total = pieces_sum(line, mark, m);
    let least = least_piece(line, mark);
    if total < least * (i64::from(m) + 1) {
        return Vec::new();
    }
    let shift = centre(line, mark, unit, m, j, 0);
    let up = |at: i64| ceil_div(ceil_div(at - shift, unit), mark) * mark;
    let down = |at: i64| (at - shift).div_euclid(unit).div_euclid(mark) * mark;
    let mut found: Vec<Stretch> = Vec::new();
    for slot in &line.slots {
        let mut from = up(unit * slot.lo).max(ceil_div(least, mark) * mark);
        let to = down(unit * slot.hi).min((total - least).div_euclid(mark) * mark);
        if let Some(last) = found.last_mut()
            && last.to == from
        {
            if slot.charge < last.charge {
                last.to -= mark;
            } else {
                from += mark;
            }
        }
        if found.last().is_some_and(|l| l.from > l.to) {
            found.pop();
        }
        if from <= to {
            found.push(Stretch {
                from,
                to,
                zone: slot.zone,
                charge: slot.charge,
            });
        }
    }
    for &(lo, hi) in banned {
        let (lo, hi) = (up(lo), down(hi));
        if lo <= hi {
            found = without(&found, lo, hi, mark);
        }
    }
    found
}

fn without(stretches: &[Stretch], lo: i64, hi: i64, mark: i64) -> Vec<Stretch> {
    let mut kept = Vec::with_capacity(stretches.len() + 1);
    for s in stretches {
        let below = Stretch {
            to: s.to.min(lo - mark),
            ..*s
        };
        let above = Stretch {
            from: s.from.max(hi + mark),
            ..*s
        };
        kept.extend([below, above].into_iter().filter(|s| s.from <= s.to));
    }
    kept
}

/// The positions of stretches one by one.
#[cfg(test)]
pub(super) fn positions(
    line: &Line,
    mark: i64,
    unit: i64,
    (m, j): (u32, u32),
    banned: &[Span],
) -> Vec<Position> {
    let mut found = Vec::new();
    for s in stretches(line, mark, unit, (m, j), banned) {
        let mut cut = s.from;
        while cut <= s.to {
            found.push(stand(line, mark, unit, (m, j), (cut, &s)));
            cut += mark;
        }
    }
    found
}

/// One position of a stretch.
pub(super) fn stand(
    line: &Line,
    mark: i64,
    unit: i64,
    (m, j): (u32, u32),
    (cut, stretch): (i64, &Stretch),
) -> Position {
    Position {
        cut,
        centre: centre(line, mark, unit, m, j, cut),
        zone: stretch.zone,
        charge: stretch.charge,
    }
}

fn ceil_div(a: i64, b: i64) -> i64 {
    -(-a).div_euclid(b)
}
