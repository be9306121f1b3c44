//! A gate's trouble in the foreman's words: the rule that bites, its numbers, what would free it.

use super::layout::Span;
use super::remedy::{least_count, least_height, least_leaf};
use super::trouble::{Over, Trouble};
use crate::measure::Length;
use crate::order::{Bays, GateOrder, Impossible, PipeId, Week};

/// The trouble as an [`Impossible`] of its gate.
pub(super) fn impossible(week: &Week, gate: usize, order: &GateOrder, t: &Trouble) -> Impossible {
    let telling = Telling { week, gate, order };
    Impossible {
        gate: Some(gate),
        extra: None,
        mark: order.mark.clone(),
        part: telling.part(t),
        reason: telling.reason(t),
        change: telling.change(t),
    }
}

struct Telling<'a> {
    week: &'a Week,
    gate: usize,
    order: &'a GateOrder,
}

impl Telling<'_> {
    fn show(&self, ticks: f64) -> String {
        // Past the longest length that may enter there is nothing to tell apart.
        let most = Length::MAX.geometric();
        Length::nearest_tick(ticks.clamp(-most, most)).print(self.week.shop.units)
    }

    fn od(&self, pipe: PipeId) -> String {
        format!("{} OD", self.week.pipe(pipe).od)
    }

    /// Full mark of the part concerned.
    fn part(&self, t: &Trouble) -> Option<String> {
        let letters = match t {
            Trouble::PostUnderHorizontal => "HB",
            Trouble::PostOverHorizontal => "P",
            Trouble::BranchOverMain { branch: role, .. }
            | Trouble::Throat { role, .. }
            | Trouble::Misses { role, .. } => role.letters(),
            Trouble::RisersUnderRoller => "R",
            Trouble::SwayRise { .. } => "B",
            Trouble::Standoff { line, .. } => return Some(format!("{}-BS{line}", self.order.mark)),
            _ => return None,
        };
        Some(format!("{}-{letters}", self.order.mark))
    }

    fn reason(&self, t: &Trouble) -> String {
        let p = &self.order.pipes;
        let horizontal = self.od(p.horizontal);
        match t {
            Trouble::PostUnderHorizontal => format!(
                "end post {} is under the horizontal's {horizontal}: some lines of the horizontal's end would touch nothing",
                self.od(self.smaller_post())
            ),
            Trouble::PostOverHorizontal => format!(
                "end post {} is over the horizontal's {horizontal}: in the through variant the end posts stand between the horizontals",
                self.od(self.larger_post())
            ),
            Trouble::BranchOverMain { branch, main } => format!(
                "{} {} is larger than the {} {horizontal} it meets",
                branch.noun(),
                self.od(match branch {
                    super::Role::Diagonal => p.diagonal,
                    _ => p.vertical,
                }),
                main.noun()
            ),
            Trouble::RisersUnderRoller => {
                "risers on verticals would meet the roller that runs on top of the top horizontal"
                    .to_string()
            }
            Trouble::LeafShort { span } => format!(
                "leaf {} leaves {} between the end posts' axes",
                self.show(self.order.leaf),
                self.show(*span)
            ),
            Trouble::HeightSmall { axis_height } => format!(
                "height {} leaves {} between the horizontals' axes",
                self.show(self.order.height.geometric()),
                self.show(*axis_height)
            ),
            _ => self.reason_of_bays(t),
        }
    }

    fn reason_of_bays(&self, t: &Trouble) -> String {
        let span = Span::of(self.week, self.order);
        match t {
            Trouble::TooManyBays { bound } => format!(
                "no sensible number of bays stays under {} over {}",
                self.show(*bound),
                self.show(span.width())
            ),
            Trouble::BayCount { count } => format!("{count} bays cannot be laid out"),
            Trouble::NoSuchBay { bay, bays } => {
                format!("bay {bay} is excluded for splices, and the gate has {bays} bays")
            }
            Trouble::LineOutOfOrder { line, at } => format!(
                "bay line {line} at {} is not between its neighbours (end posts' axes at {} and {})",
                self.show(*at),
                self.show(span.first),
                self.show(span.last)
            ),
            Trouble::BayOver { bay, width, over } => {
                let (limit, why) = match over {
                    Over::Limit => (span.limits.limit, "the bay limit"),
                    Over::Slope => (
                        span.limits.axis_height,
                        "the distance between the horizontals' axes (diagonal within 45 degrees)",
                    ),
                };
                format!(
                    "bay {bay} of {} is not under {} of {}; equal counts as over",
                    self.show(*width),
                    why,
                    self.show(limit)
                )
            }
            Trouble::OffsetOver { bay, width } => format!(
                "twice the landing offset {} is not under bay {bay} of {}",
                self.show(self.week.shop.gate.landing_offset.geometric()),
                self.show(*width)
            ),
            _ => self.reason_of_parts(t),
        }
    }

    fn reason_of_parts(&self, t: &Trouble) -> String {
        match t {
            Trouble::Throat {
                role,
                place,
                throat,
            } => format!(
                "{} at {place}: no pipe is left between its two copes (throat {})",
                role.noun(),
                self.show(*throat)
            ),
            Trouble::Misses { role, place } => format!(
                "{} at {place}: a surface line of its end touches none of the pipes it meets",
                role.noun()
            ),
            Trouble::SwayRise { rise, chord } => format!(
                "sway brace rise {} must be over 0 and under half its chord {}",
                self.show(*rise),
                self.show(*chord)
            ),
            Trouble::Standoff { line, length } => format!(
                "the standoff at bay line {line} would be {} long",
                self.show(*length)
            ),
            _ => String::new(),
        }
    }

    fn change(&self, t: &Trouble) -> String {
        let p = &self.order.pipes;
        match t {
            Trouble::PostUnderHorizontal => format!(
                "end posts of at least {}, or the through variant (horizontals run the whole leaf, end posts between them)",
                self.od(p.horizontal)
            ),
            Trouble::PostOverHorizontal => format!(
                "end posts of at most {}, or the default variant (end posts run past, horizontals coped onto them)",
                self.od(p.horizontal)
            ),
            Trouble::BranchOverMain { branch, .. } => format!(
                "a {} of at most {}, or larger horizontals",
                branch.noun(),
                self.od(p.horizontal)
            ),
            Trouble::RisersUnderRoller => {
                "turn the risers off, or say in the shop file that no roller runs on top"
                    .to_string()
            }
            Trouble::LeafShort { .. } => self.leaf_that_works(),
            Trouble::HeightSmall { .. } | Trouble::TooManyBays { .. } => self.height_that_works(),
            Trouble::BayCount { .. } | Trouble::LineOutOfOrder { .. } | Trouble::BayOver { .. } => {
                self.count_that_works()
            }
            Trouble::NoSuchBay { bays, .. } => {
                format!("numbers from 1 to {bays} in excluded_bays, bays apart: 2, 3")
            }
            Trouble::OffsetOver { width, .. } => {
                format!("a landing offset under {}", self.show(0.5 * width))
            }
            Trouble::Throat { role, .. } if role.is_diagonal() && !self.least_bays() => {
                self.count_that_works()
            }
            Trouble::Throat {
                role: super::Role::TopHorizontal | super::Role::BottomHorizontal,
                ..
            } => self.leaf_that_works(),
            Trouble::Throat { .. } => self.height_that_works(),
            Trouble::Misses { .. } => {
                "a smaller pipe for it, or larger pipes for what it meets".to_string()
            }
            Trouble::SwayRise { .. } => "a rise over 0 and under half the leaf".to_string(),
            Trouble::Standoff { .. } => {
                "a larger rise of the sway brace, or a smaller brace pipe".to_string()
            }
        }
    }

    fn least_bays(&self) -> bool {
        self.order.bays == Bays::Least
    }

    fn count_that_works(&self) -> String {
        match least_count(self.week, self.gate, self.order) {
            Some(n) => format!("{n} equal bays is the least count that works"),
            None => self.height_that_works(),
        }
    }

    fn height_that_works(&self) -> String {
        match least_height(self.week, self.gate, self.order) {
            Some(h) => format!("a height of at least {}", h.print(self.week.shop.units)),
            None => "another height, bay count or pipe: no single change of height frees it".into(),
        }
    }

    fn leaf_that_works(&self) -> String {
        match least_leaf(self.week, self.gate, self.order) {
            Some(l) => format!("a leaf of at least {}", l.print(self.week.shop.units)),
            None => "a longer leaf".into(),
        }
    }

    fn smaller_post(&self) -> PipeId {
        let p = &self.order.pipes;
        let od = |id| self.week.pipe(id).od.exact_mm();
        if od(p.tail_post) < od(p.latch_post) {
            p.tail_post
        } else {
            p.latch_post
        }
    }

    fn larger_post(&self) -> PipeId {
        let p = &self.order.pipes;
        if self.smaller_post() == p.latch_post {
            p.tail_post
        } else {
            p.latch_post
        }
    }
}
