//! A charge on an interval of its number w, as straight pieces.

use crate::nest::ChargeKind;

/// A closed interval.
pub(super) type Span = (i128, i128);

/// A straight piece: from, to, money at `from`, money more per unit.
#[derive(Clone, Copy, Debug)]
struct Piece {
    from: i128,
    to: i128,
    money: i128,
    rise: i128,
}

/// The pieces of a charge on an interval; their ends hold the least of f(w) − b·w for any b.
#[derive(Clone, Debug)]
pub(super) struct Curve {
    pieces: Vec<Piece>,
}

impl Curve {
    /// `None` when the charge allows no number of the interval.
    pub(super) fn new(kind: &ChargeKind, (lo, hi): Span) -> Option<Curve> {
        let over = lo.max(1);
        let end = i128::MAX / 4;
        let flat = |from: i128, to: i128, money: i128| Piece {
            from,
            to,
            money,
            rise: 0,
        };
        let mut all = vec![flat(0, 0, 0)];
        match *kind {
            ChargeKind::Fixed { amount, free_over } => {
                let free = free_over.map_or(end, i128::from);
                all.extend([flat(1, free - 1, amount.into()), flat(free, end, 0)]);
            }
            ChargeKind::Minimum { least } => {
                let least = i128::from(least);
                let short = Piece {
                    from: 1,
                    to: least,
                    money: least - 1,
                    rise: -1,
                };
                all.extend([short, flat(least.max(1), end, 0)]);
            }
            ChargeKind::Range { least, most } => {
                let most = most.map_or(end, i128::from);
                all.push(flat(i128::from(least).max(1), most, 0));
            }
            ChargeKind::Lift {
                lift,
                fee,
                part_fee,
            } => {
                let (lift, fee) = (i128::from(lift.max(1)), i128::from(fee));
                // The first and last lift begun, and the whole lifts between, which lie on a line.
                for begun in [over, hi] {
                    let before = (begun - 1).div_euclid(lift);
                    let money = (before + 1) * fee + i128::from(part_fee);
                    all.push(flat(before * lift + 1, before * lift + lift - 1, money));
                }
                let first = -(-over).div_euclid(lift);
                let last = hi.div_euclid(lift);
                for whole in [first, last]
                    .into_iter()
                    .filter(|w| first <= *w && *w <= last)
                {
                    all.push(flat(whole * lift, whole * lift, whole * fee));
                }
            }
        }
        let cut = |p: Piece| {
            let (from, to) = (p.from.max(lo), p.to.min(hi));
            (from <= to).then_some(Piece {
                from,
                to,
                money: p.money + p.rise * (from - p.from),
                rise: p.rise,
            })
        };
        let pieces: Vec<Piece> = all.into_iter().filter_map(cut).collect();
        (!pieces.is_empty()).then_some(Curve { pieces })
    }

    /// Least of f(w)·grain − slope·w.
    pub(super) fn least(&self, grain: i128, slope: i128) -> i128 {
        let ends = self.pieces.iter().flat_map(|p| {
            let far = p.money + p.rise * (p.to - p.from);
            [p.money * grain - slope * p.from, far * grain - slope * p.to]
        });
        ends.min().unwrap_or(0)
    }
}

/// What a charge comes to at a number w; `None` where it is forbidden.
pub(super) fn paid(kind: &ChargeKind, w: i128) -> Option<i128> {
    Some(Curve::new(kind, (w, w))?.least(1, 0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ends_hold_the_least() {
        let kinds = [
            ChargeKind::Fixed {
                amount: 9,
                free_over: None,
            },
            ChargeKind::Fixed {
                amount: 4,
                free_over: Some(1),
            },
            ChargeKind::Fixed {
                amount: 6,
                free_over: Some(7),
            },
            ChargeKind::Minimum { least: 0 },
            ChargeKind::Minimum { least: 9 },
            ChargeKind::Range {
                least: 0,
                most: Some(5),
            },
            ChargeKind::Range {
                least: 4,
                most: None,
            },
            ChargeKind::Lift {
                lift: 3,
                fee: 4,
                part_fee: 5,
            },
            ChargeKind::Lift {
                lift: 1,
                fee: 4,
                part_fee: 5,
            },
        ];
        for kind in kinds {
            for (lo, hi) in (0..12i128).flat_map(|lo| (lo..12).map(move |hi| (lo, hi))) {
                let curve = Curve::new(&kind, (lo, hi));
                for slope in -8..8i128 {
                    let plain = (lo..=hi).filter_map(|w| {
                        let n = u64::try_from(w).ok()?;
                        Some(kind.of(n, w)? * 3 - slope * w)
                    });
                    let own = curve.as_ref().map(|c| c.least(3, slope));
                    assert_eq!(own, plain.min(), "{kind:?} {lo} {hi} {slope}");
                }
            }
        }
    }
}
