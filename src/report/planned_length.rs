//! A joint planned shorter than it is sold: both lengths in words, and what to do where it is in fact
//! longer. The same on every sheet.

use crate::measure::Length;
use crate::order::Week;
use crate::plan::{JointSource, PlannedJoint};

use super::figures::Figures;

/// What such a joint is sold as; `None` for a rack piece and where all of it is planned on.
pub(super) fn sold_as(week: &Week, joint: &PlannedJoint) -> Option<Length> {
    match joint.source {
        JointSource::Bought(quote) => {
            let nominal = week.quotes.get(quote)?.nominal;
            (nominal != joint.length).then_some(nominal)
        }
        JointSource::Rack(..) => None,
    }
}

/// `, planned as 39'-10"` after the length it is sold as; nothing where that is the same.
pub(super) fn planned_as(week: &Week, joint: &PlannedJoint) -> String {
    match sold_as(week, joint) {
        Some(_) => format!(", planned as {}", Figures::of(week).spoken(joint.length)),
        None => String::new(),
    }
}

/// The least that must lie on the floor for a drop planned as scrap to be kept after all: the keep length
/// and the raw end that is still on. Only where a joint of its full length would leave that much.
pub(super) fn keep_from(week: &Week, joint: &PlannedJoint) -> Option<Length> {
    let more = sold_as(week, joint)? - joint.length;
    let shop = &week.shop;
    let keep = shop.money.keep_length;
    let reaches = !joint.kept && joint.leftover + more - shop.saw.kerf >= keep;
    reaches.then(|| (keep + joint.far + joint.hold).up_to(shop.saw.mark))
}

/// The same as a line for the saw; nothing where it cannot be.
pub(super) fn keep_if_longer(week: &Week, joint: &PlannedJoint) -> Option<String> {
    let from = Figures::of(week).spoken(keep_from(week, joint)?);
    Some(format!(
        "If {from} or more lies here (the joint is longer than planned): keep, tag it ____ and measure it."
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::world::world;

    /// A bought joint of the starter week, planned 2 in shorter than it is sold, its drop scrap.
    fn planned_short(leftover: Length) -> (Week, PlannedJoint) {
        let mut world = world();
        let mut joint = world.plan.joints[0].clone();
        let JointSource::Bought(quote) = joint.source else {
            panic!("the first joint is bought");
        };
        let nominal = world.week.quotes[quote].nominal;
        world.week.quotes[quote].planning = nominal - Length::INCH * 2;
        joint.length = nominal - Length::INCH * 2;
        (joint.kept, joint.keep_tag) = (false, None);
        joint.leftover = leftover;
        (world.week, joint)
    }

    /// 36 in kept; 34.1 in left over less the kerf of 0.1 in is 34 in, and 36 on a full joint: just
    /// enough. One sixty-fourth less is not.
    #[test]
    fn a_drop_that_a_full_joint_would_keep_says_so() {
        let (week, _) = planned_short(Length::ZERO);
        let just = week.shop.money.keep_length + week.shop.saw.kerf - Length::INCH * 2;
        let (week, joint) = planned_short(just);
        let from = week.shop.money.keep_length + joint.far + joint.hold;
        assert_eq!(
            keep_from(&week, &joint),
            Some(from.up_to(week.shop.saw.mark))
        );
        let words = keep_if_longer(&week, &joint).expect("words");
        assert!(words.contains("or more lies here"), "{words}");
        let (week, joint) = planned_short(just - Length::SIXTY_FOURTH);
        assert_eq!(keep_from(&week, &joint), None);
        // A joint that is planned on whole leaves what it leaves.
        let (week, mut joint) = planned_short(just);
        joint.length = sold_as(&week, &joint).expect("planned shorter");
        assert_eq!(keep_from(&week, &joint), None);
        assert_eq!(planned_as(&week, &joint), "");
    }
}
