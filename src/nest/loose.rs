//! Groups with more ways of choosing slots than the verifiers of a bound go through.

use super::problem::{Group, Line};

/// Choices of one line, and of two lines together, that are gone through.
const MOST_CHOICES: (u128, u128) = (10_000, 25_000_000);

/// Whether a group's bound is what its lines cost apart, without what ties two lines together and without the
/// rule of three splices: a relaxation that anyone can verify however many splices there are.
pub(super) fn is_loose(group: &Group) -> bool {
    let each = group.lines.iter().map(choices);
    let both = each.clone().fold(1, u128::saturating_mul);
    both > MOST_CHOICES.1 || each.max().unwrap_or(0) > MOST_CHOICES.0
}

/// Ways of choosing m of a line's slots, summed over all m it may have.
fn choices(line: &Line) -> u128 {
    let slots = line.slots.len() as u128;
    let (mut all, mut of) = (0u128, 1u128);
    for m in 0..=u128::from(line.most_splices).min(slots) {
        // One way to choose none.
        of = of.saturating_mul(slots + 1 - m).checked_div(m).unwrap_or(1);
        if m >= u128::from(line.least_splices) {
            all = all.saturating_add(of);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::super::made::{group, line};
    use super::*;

    #[test]
    fn counts_choices_of_slots() {
        let places: Vec<(i64, i64, u32, i64)> =
            (0..40).map(|z| (10 * z, 10 * z + 5, z as u32, 0)).collect();
        let mut long = line(400, 1, &places);
        (long.least_splices, long.most_splices) = (0, 3);
        assert_eq!(choices(&long), 1 + 40 + 780 + 9_880);
        long.most_splices = 2;
        assert_eq!(choices(&long), 821);
        assert!(!is_loose(&group(vec![long.clone(), long.clone()], 1, 0)));
        (long.least_splices, long.most_splices) = (16, 16);
        assert!(is_loose(&group(vec![long], 1, 0)));
    }
}
