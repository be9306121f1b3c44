//! Sharing a whole number out in proportion, nothing lost: the method of largest remainders (Hamilton's).

/// `total` shared by `weights`: each share is its exact quota down to a whole number, and what is
/// left goes one by one to the largest remainders (of equals, to the first). The shares add up to
/// `total` exactly; negative weights count as 0; with no weight at all everything goes to the first.
/// A share of nobody is no share: without any weights the answer is empty.
pub fn share_out(total: i64, weights: &[i64]) -> Vec<i64> {
    let weights: Vec<i128> = weights.iter().map(|w| i128::from((*w).max(0))).collect();
    let sum: i128 = weights.iter().sum();
    let quota = |i: usize| match sum {
        0 => (if i == 0 { i128::from(total) } else { 0 }, 0),
        _ => {
            let exact = i128::from(total) * weights[i];
            (exact.div_euclid(sum), exact.rem_euclid(sum))
        }
    };
    level(total, (0..weights.len()).map(quota).collect())
}

/// Amounts of 1/1000 cent as whole cents that add up to the cents of their sum (half away from zero): each
/// goes down to a cent, and the missing cents go to the largest remainders.
pub fn cents_that_add(millicents: &[i64]) -> Vec<i64> {
    let sum: i128 = millicents.iter().map(|m| i128::from(*m)).sum();
    let cents = if sum < 0 {
        -((-sum + 500) / 1000)
    } else {
        (sum + 500) / 1000
    };
    cents_that_come_to(i64::try_from(cents).unwrap_or(i64::MAX), millicents)
}

/// As [`cents_that_add`], where the sum's cents are given: rounded elsewhere, line by line, they may differ
/// from the sum by some cents, which go over all alike and then to the largest remainders.
pub fn cents_that_come_to(cents: i64, millicents: &[i64]) -> Vec<i64> {
    let split = |m: &i64| {
        (
            i128::from(m.div_euclid(1000)),
            i128::from(m.rem_euclid(1000)),
        )
    };
    level(cents, millicents.iter().map(split).collect())
}

/// Whole parts with remainders → whole parts that add up to `total`.
fn level(total: i64, parts: Vec<(i128, i128)>) -> Vec<i64> {
    let mut shares: Vec<i128> = parts.iter().map(|(whole, _)| *whole).collect();
    let mut left = i128::from(total) - shares.iter().sum::<i128>();
    if let Ok(n @ 1..) = i128::try_from(parts.len()) {
        let each = left.div_euclid(n);
        shares.iter_mut().for_each(|s| *s += each);
        left -= each * n;
    }
    let mut order: Vec<usize> = (0..parts.len()).collect();
    order.sort_by_key(|i| (std::cmp::Reverse(parts[*i].1), *i));
    for i in order {
        if left <= 0 {
            break;
        }
        shares[i] += 1;
        left -= 1;
    }
    let within = |s: i128| i64::try_from(s).unwrap_or(i64::MAX);
    shares.into_iter().map(within).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_largest_remainders_get_what_is_left() {
        // Quotas 3.33, 3.33, 3.33: the odd one to the first.
        assert_eq!(share_out(10, &[1, 1, 1]), [4, 3, 3]);
        // Quotas 1.5, 0.75, 0.75: down 1, 0, 0; the two left to the .75s.
        assert_eq!(share_out(3, &[2, 1, 1]), [1, 1, 1]);
        assert_eq!(share_out(-10, &[1, 1, 1]), [-3, -3, -4]);
        assert_eq!(share_out(7, &[0, 0]), [7, 0]);
        assert_eq!(share_out(7, &[]), Vec::<i64>::new());
    }

    #[test]
    fn cents_add_up_to_the_cents_of_the_sum() {
        assert_eq!(cents_that_add(&[333, 333, 334]), [0, 0, 1]);
        assert_eq!(cents_that_add(&[1_500, -500]), [2, -1]);
        assert_eq!(cents_that_add(&[-500]), [-1]);
    }

    #[test]
    fn cents_come_to_what_was_rounded_elsewhere() {
        // 1.498 and 2.497 come to 4.00 by themselves; the lines they are of came to 3.99, and to 4.02.
        let exact = [149_800, 249_700];
        assert_eq!(cents_that_come_to(399, &exact), [150, 249]);
        assert_eq!(cents_that_come_to(402, &exact), [151, 251]);
        assert_eq!(cents_that_come_to(397, &exact), [149, 248]);
        assert_eq!(cents_that_come_to(5, &[]), Vec::<i64>::new());
    }

    proptest! {
        #[test]
        fn nothing_is_lost_and_nobody_is_a_unit_off(
            total in -1_000_000_000_000i64..1_000_000_000_000,
            weights in prop::collection::vec(0i64..1_000_000_000, 1..20),
        ) {
            let shares = share_out(total, &weights);
            prop_assert_eq!(shares.iter().sum::<i64>(), total);
            let sum: i128 = weights.iter().map(|w| i128::from(*w)).sum();
            if sum > 0 {
                for (share, weight) in shares.iter().zip(&weights) {
                    let off = i128::from(*share) * sum - i128::from(total) * i128::from(*weight);
                    prop_assert!(off.abs() < sum);
                }
            }
        }

        #[test]
        fn cents_add(parts in prop::collection::vec(-1_000_000_000i64..1_000_000_000, 1..12)) {
            let cents = cents_that_add(&parts);
            let sum: i64 = parts.iter().sum();
            prop_assert!((cents.iter().sum::<i64>() * 1000 - sum).abs() <= 500);
            for (c, m) in cents.iter().zip(&parts) {
                prop_assert!((c * 1000 - m).abs() <= 1000);
            }
        }
    }
}
