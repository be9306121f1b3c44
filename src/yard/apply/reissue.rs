//! A later revision of a week: numbers keep their content for all time.

use std::collections::BTreeMap;

use super::super::{IssuedPlan, JointStand, Trouble, WeekStand};

/// Whether the plan may follow those handed out of its week.
///
/// # Errors
/// It is handed out already; one of its numbers means something else on older sheets; or it cuts a
/// piece again that is there.
pub(super) fn allowed(
    week: &WeekStand,
    name: &str,
    plan: &IssuedPlan,
    joints: &BTreeMap<u32, JointStand>,
) -> Result<(), Trouble> {
    let same = |p: &&super::super::WeekPlan| p.plan == plan.plan && p.revision == plan.revision;
    if week.current().filter(same).is_some() {
        return Err(Trouble::refusal(
            format!(
                "plan {} revision {} of {name} is handed out already",
                plan.plan, plan.revision
            ),
            "its sheets may be printed again as often as wanted",
        ));
    }
    let last = week.joints.keys().next_back().copied().unwrap_or(0);
    for (number, joint) in joints {
        match week.joints.get(number) {
            Some(known) if known.same_content(joint) => {}
            Some(_) => return Err(other_content(week, name, &format!("joint {number}"))),
            None if *number <= last => {
                return Err(other_content(week, name, &format!("joint {number}")));
            }
            None => {}
        }
        let fresh = !week.joints.contains_key(number);
        let made = joint.pieces.iter().find_map(|p| {
            let known = week.pieces.get(&p.id)?;
            (fresh && known.made()).then_some(known)
        });
        if let Some(made) = made {
            return Err(Trouble::refusal(
                format!(
                    "{} is made already, and joint {number} cuts it again",
                    made.mark
                ),
                "plan what is left of the week",
            ));
        }
    }
    let last = week.lines.keys().next_back().copied().unwrap_or(0);
    for line in &plan.lines {
        let pipe = &plan.pipes[line.pipe].key;
        match week.lines.get(&line.number) {
            Some(known)
                if known.pipe == *pipe
                    && known.nominal == line.nominal
                    && known.supplier == line.supplier => {}
            None if line.number > last => {}
            _ => return Err(other_content(week, name, &format!("line {}", line.number))),
        }
    }
    Ok(())
}

fn other_content(week: &WeekStand, name: &str, what: &str) -> Trouble {
    let followed = week.current().or(week.plans.last());
    let plan = followed.map_or("an earlier plan", |p| p.plan.as_str());
    Trouble::refusal(
        format!("{what} of {name} means something else on the sheets of plan {plan}"),
        "a number on paper is never used again for another thing: where nothing was cut or bought by that plan, undo \
         its issue and collect its sheets; else go on by them",
    )
}

/// What the new plan leaves out is not wanted any more; joints that are not begun are void.
pub(super) fn supersede(
    week: &mut WeekStand,
    plan: &IssuedPlan,
    joints: &BTreeMap<u32, JointStand>,
) {
    week.plans.iter_mut().for_each(|p| p.superseded = true);
    for (number, joint) in &mut week.joints {
        if !joints.contains_key(number) && !joint.over {
            joint.void = true;
        }
    }
    for piece in week.pieces.values_mut() {
        if !piece.made() {
            piece.wanted = false;
        }
    }
    for (number, line) in &mut week.lines {
        if !plan.lines.iter().any(|l| l.number == *number) {
            line.wanted = line.wanted.min(line.ordered);
        }
    }
}
