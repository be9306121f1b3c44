//! A charge as a function of one number w over an interval: its corners, and lines under it.

use super::super::charge::ChargeKind;

/// The corners of a charge on [lo, hi]: (w, money) ascending. At any slope b the least of f(w) − b·w is at
/// one of them. None when a range forbids the whole interval.
pub(super) fn corners(kind: &ChargeKind, lo: i64, hi: i64) -> Vec<(i64, i64)> {
    let mut at: Vec<(i64, i64)> = Vec::new();
    if lo <= 0 && hi >= 0 {
        at.push((0, 0));
    }
    let from = lo.max(1);
    let mut ends = |from: i64, to: i64, money: &dyn Fn(i64) -> i64| {
        if from <= to {
            at.extend([(from, money(from)), (to, money(to))]);
        }
    };
    match *kind {
        ChargeKind::Fixed {
            amount,
            free_over: None,
        } => ends(from, hi, &|_| amount),
        ChargeKind::Fixed {
            amount,
            free_over: Some(free),
        } => {
            ends(from, hi.min(free - 1), &|_| amount);
            ends(from.max(free), hi, &|_| 0);
        }
        ChargeKind::Minimum { least } => {
            ends(from, hi.min(least), &|w| least - w);
            ends(from.max(least), hi, &|_| 0);
        }
        ChargeKind::Range { least, most } => {
            let most = most.map_or(hi, |m| hi.min(i64::from(m)));
            ends(from.max(i64::from(least)), most, &|_| 0);
        }
        // Inside a lift the whole lift is at least as good as any part of it; whole lifts lie on a line.
        ChargeKind::Lift { lift, .. } if from <= hi => {
            let lift = i64::from(lift.max(1));
            let money = |w: i64| {
                let n = u64::try_from(w).unwrap_or(0);
                kind.of(n, 0)
                    .and_then(|m| i64::try_from(m).ok())
                    .unwrap_or(i64::MAX)
            };
            ends(from, hi, &money);
            let first = -(-from).div_euclid(lift) * lift;
            ends(first, hi / lift * lift, &money);
        }
        ChargeKind::Lift { .. } => {}
    }
    at.sort_unstable();
    at.dedup();
    at
}

/// Least of f(w)·grain − b·w, and the first and last corner within rounding of it.
pub(super) fn least(corners: &[(i64, i64)], grain: i64, slope: i64) -> Option<(i128, (i64, i64))> {
    let value = |&(w, f): &(i64, i64)| {
        i128::from(f) * i128::from(grain) - i128::from(slope) * i128::from(w)
    };
    let (at, best) = corners
        .iter()
        .map(|c| (c.0, value(c)))
        .min_by_key(|c| c.1)?;
    let near = |c: &&(i64, i64)| value(c) - best <= i128::from((c.0 - at).abs());
    let mut low = corners.iter().filter(near).map(|c| c.0);
    let first = low.next()?;
    Some((best, (first, low.next_back().unwrap_or(first))))
}

/// Slopes (times `grain`, rounded down) of the lower convex hull of the corners, ascending.
pub(super) fn slopes(corners: &[(i64, i64)], grain: i64) -> Vec<i64> {
    let mut hull: Vec<(i64, i64)> = Vec::new();
    for &(w, f) in corners {
        if hull.last().is_some_and(|l| l.0 == w) {
            continue;
        }
        while let [.., a, b] = hull.as_slice() {
            let left = i128::from(b.1 - a.1) * i128::from(w - b.0);
            let right = i128::from(f - b.1) * i128::from(b.0 - a.0);
            if left < right {
                break;
            }
            hull.pop();
        }
        hull.push((w, f));
    }
    let slope = |p: &[(i64, i64)]| {
        let rise = i128::from(p[1].1 - p[0].1) * i128::from(grain);
        i64::try_from(rise.div_euclid(i128::from(p[1].0 - p[0].0))).unwrap_or(0)
    };
    hull.windows(2).map(slope).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// At every slope the corners reach what all numbers of the interval reach.
    #[test]
    fn corners_hold_the_least_at_any_slope() {
        let kinds = [
            ChargeKind::Fixed {
                amount: 7,
                free_over: None,
            },
            ChargeKind::Fixed {
                amount: 7,
                free_over: Some(9),
            },
            ChargeKind::Minimum { least: 8 },
            ChargeKind::Range {
                least: 3,
                most: Some(11),
            },
            ChargeKind::Lift {
                lift: 4,
                fee: 5,
                part_fee: 2,
            },
        ];
        for kind in kinds {
            for lo in 0..14i64 {
                for hi in lo..14 {
                    let corners = corners(&kind, lo, hi);
                    for slope in -9..9i64 {
                        let all = (lo..=hi).filter_map(|w| {
                            let (n, m) = (u64::try_from(w).ok()?, i128::from(w));
                            Some(kind.of(n, m)? - i128::from(slope) * m)
                        });
                        let here = least(&corners, 1, slope).map(|l| l.0);
                        assert_eq!(here, all.min(), "{kind:?} {lo} {hi} {slope}");
                    }
                }
            }
        }
    }

    #[test]
    fn the_hull_is_under_the_corners() {
        let lift = ChargeKind::Lift {
            lift: 5,
            fee: 10,
            part_fee: 3,
        };
        assert_eq!(slopes(&corners(&lift, 0, 12), 1), [2, 6]);
        assert_eq!(
            slopes(&corners(&ChargeKind::Minimum { least: 10 }, 1, 30), 4),
            [-4, 0]
        );
    }
}
