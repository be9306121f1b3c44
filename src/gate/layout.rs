//! Bay lines: the least equal bays within both limits, or the ordered ones judged by them.

use super::limits::BayLimits;
use super::trouble::{Over, Trouble};
use crate::order::{Bays, GateOrder, Week};

/// Where the bay lines may stand.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    /// Latch post's axis.
    pub first: f64,
    /// Tail post's axis.
    pub last: f64,
    /// The limits of each bay.
    pub limits: BayLimits,
}

impl Span {
    /// The span of a gate.
    pub fn of(week: &Week, order: &GateOrder) -> Span {
        let horizontal = week.pipe(order.pipes.horizontal).diameter();
        Span {
            first: week.pipe(order.pipes.latch_post).radius(),
            last: order.leaf - week.pipe(order.pipes.tail_post).radius(),
            limits: BayLimits {
                limit: week.shop.gate.bay_limit.geometric(),
                axis_height: order.height.geometric() - horizontal,
            },
        }
    }

    /// Post axis to post axis.
    pub fn width(self) -> f64 {
        self.last - self.first
    }

    /// Bay lines of the least number of equal bays within both limits.
    fn least(self) -> Result<Vec<f64>, Vec<Trouble>> {
        let count = self.limits.least_bays(self.width()).ok_or_else(|| {
            vec![Trouble::TooManyBays {
                bound: self.limits.limit.min(self.limits.axis_height),
            }]
        })?;
        Ok(self.equal(count))
    }

    /// Bay lines of `count` equal bays, posts' axes included.
    pub fn equal(self, count: u32) -> Vec<f64> {
        let bay = self.width() / f64::from(count.max(1));
        (0..count)
            .map(|i| self.first + f64::from(i) * bay)
            .chain([self.last])
            .collect()
    }
}

/// The bay lines of an order, judged by both limits; every bay that breaks one is named.
pub(super) fn bay_lines(week: &Week, order: &GateOrder) -> Result<Vec<f64>, Vec<Trouble>> {
    let span = Span::of(week, order);
    let lines = match &order.bays {
        Bays::Least => span.least()?,
        Bays::Count(count) => {
            if *count == 0 || *count > BayLimits::MOST_BAYS {
                return Err(vec![Trouble::BayCount { count: *count }]);
            }
            span.equal(*count)
        }
        Bays::Fixed(given) => {
            let mut anchors = vec![span.first];
            anchors.extend(given.iter().map(|l| l.geometric()));
            anchors.push(span.last);
            ascending(&anchors)?;
            let mut lines = vec![span.first];
            for ends in anchors.windows(2) {
                let part = Span {
                    first: ends[0],
                    last: ends[1],
                    ..span
                };
                lines.extend(part.least()?.into_iter().skip(1));
            }
            lines
        }
        Bays::Lines(given) => {
            let mut lines = vec![span.first];
            lines.extend(given.iter().map(|l| l.geometric()));
            lines.push(span.last);
            ascending(&lines)?;
            lines
        }
    };
    judge(
        week,
        span,
        &lines,
        matches!(order.bays, Bays::Lines(_) | Bays::Fixed(_)),
    )?;
    Ok(lines)
}

/// Every given line between its neighbours.
fn ascending(lines: &[f64]) -> Result<(), Vec<Trouble>> {
    let wrong: Vec<Trouble> = lines
        .windows(2)
        .enumerate()
        .filter(|(_, w)| w[0] >= w[1])
        .map(|(i, w)| {
            // The last window breaks on its given line, not on the tail post.
            let at = if i + 2 == lines.len() { w[0] } else { w[1] };
            Trouble::LineOutOfOrder {
                line: (i + 1).min(lines.len().saturating_sub(2)),
                at,
            }
        })
        .collect();
    if wrong.is_empty() { Ok(()) } else { Err(wrong) }
}

/// Both limits and the landing offset, bay by bay (equal bays are judged once).
fn judge(week: &Week, span: Span, lines: &[f64], each: bool) -> Result<(), Vec<Trouble>> {
    let offset = week.shop.gate.landing_offset.geometric();
    let mut wrong = Vec::new();
    for (i, w) in lines.windows(2).enumerate() {
        let (bay, width) = (i + 1, w[1] - w[0]);
        let over = if !super::strictly_under(width, span.limits.limit) {
            Some(Over::Limit)
        } else if !super::strictly_under(width, span.limits.axis_height) {
            Some(Over::Slope)
        } else {
            None
        };
        if let Some(over) = over {
            wrong.push(Trouble::BayOver { bay, width, over });
        }
        if !super::strictly_under(2.0 * offset, width) {
            wrong.push(Trouble::OffsetOver { bay, width });
        }
        if !each {
            break;
        }
    }
    if wrong.is_empty() { Ok(()) } else { Err(wrong) }
}
