//! Which members of a gate are one part, and that part's mark.

use crate::gate::{Frame, Member, Role};
use crate::measure::INCH;

/// Members cut alike: the first of them stands for all.
pub(super) struct Group<'a> {
    /// Mark without the gate's: `HB`, `P2`, `D1`.
    pub letters: String,
    /// The members, in order of place.
    pub members: Vec<&'a Member>,
}

/// Groups in sheet order. Alike: same role, pipe and axis length to 1e-6 in (a first diagonal turned
/// end for end is the last one when the frame gave both one role).
pub(super) fn groups(frame: &Frame) -> Vec<Group<'_>> {
    let mut groups: Vec<Group> = Vec::new();
    for member in &frame.members {
        match groups.iter_mut().find(|g| alike(g.members[0], member)) {
            Some(group) => group.members.push(member),
            None => groups.push(Group {
                letters: String::new(),
                members: vec![member],
            }),
        }
    }
    let letters: Vec<String> = groups
        .iter()
        .map(|g| {
            let role = g.members[0].role;
            let kinds = groups.iter().filter(|o| o.members[0].role == role).count();
            mark(frame, g.members[0], kinds)
        })
        .collect();
    for (group, letters) in groups.iter_mut().zip(letters) {
        group.letters = letters;
    }
    groups
}

fn alike(a: &Member, b: &Member) -> bool {
    a.role == b.role && a.pipe == b.pipe && (a.axis - b.axis).abs() <= 1e-6 * INCH
}

/// Letters of a part: `P1` at the latch and `P2` at the tail when posts differ; `B3` the standoff of
/// bay line 3; on unequal bays `D3` the diagonal of bay 3 (and of every later bay alike).
fn mark(frame: &Frame, member: &Member, kinds: usize) -> String {
    let letters = member.role.letters();
    match member.role {
        Role::EndPost | Role::Stop if kinds > 1 => {
            let end = if member.place == 0 { 1 } else { 2 };
            format!("{letters}{end}")
        }
        Role::Standoff => format!("{letters}{}", member.place),
        role if role.is_diagonal() && unequal(frame) => format!("D{}", member.place),
        _ => letters.to_string(),
    }
}

fn unequal(frame: &Frame) -> bool {
    let width = |i: usize| frame.bays.get(i).map_or(0.0, |b| b.to - b.from);
    (0..frame.bays.len()).any(|i| (width(i) - width(0)).abs() > 1e-6 * INCH)
}
