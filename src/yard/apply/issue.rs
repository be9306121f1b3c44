//! `issued`: a plan handed out: its joints, lines, pieces, gates, and the rack it counts on.

use std::collections::BTreeMap;

use super::super::{
    Account, CopyStand, GateStand, IssuedJoint, IssuedLine, IssuedPlan, IssuedRack, IssuedSource,
    JointPiece, JointStand, LineStand, PieceStand, PieceState, Remnant, Source, Stand, Tally,
    Trouble, WeekPlan, WeekStand,
};
use super::{believed, reissue};
use crate::measure::{Length, Money};
use crate::order::{PipeKey, RemnantId};

/// A rack row may differ by so much from what the yard knows: rack lists are written to 1/64 in, down.
const LIST_ROUNDING: Length = Length::SIXTY_FOURTH;

/// Tag on paper → remnant, and whether it is new to the yard.
type Links = BTreeMap<String, (RemnantId, bool)>;

pub(super) fn issued(stand: &mut Stand, name: &str, plan: &IssuedPlan) -> Result<(), Trouble> {
    plan.holds_together().map_err(|why| {
        Trouble::refusal(
            format!("the plan {} cannot be handed out: {why}", plan.plan),
            "plan the week again",
        )
    })?;
    for joint in &plan.joints {
        believed(joint.length, &format!("joint {}", joint.number))?;
    }
    for line in &plan.lines {
        super::counted(line.joints.max(1), "joints of a line")?;
        believed(line.planning, &format!("line {}", line.number))?;
    }
    let links = link_rack(stand, name, plan)?;
    let joints: BTreeMap<u32, JointStand> = plan
        .joints
        .iter()
        .map(|j| (j.number, joint(plan, j, &links)))
        .collect();
    let again = stand.weeks.contains_key(name);
    if let Some(week) = stand.weeks.get(name) {
        reissue::allowed(week, name, plan, &joints)?;
    }
    // From here on nothing is refused.
    for pipe in &plan.pipes {
        let known = stand.pipes.entry(pipe.key.clone());
        known.or_default().name = pipe.name.clone();
    }
    bring_in(stand, name, plan, &links);
    if !again {
        stand.weeks.insert(name.to_owned(), new_week(plan));
    }
    if let Some(week) = stand.weeks.get_mut(name) {
        reissue::supersede(week, plan, &joints);
        hand_out(week, plan, joints);
    }
    Ok(())
}

/// Finds each row of the plan's rack in the yard.
fn link_rack(stand: &Stand, name: &str, plan: &IssuedPlan) -> Result<Links, Trouble> {
    let mut links = Links::new();
    for row in plan.rack.iter().filter(|r| r.count > 0) {
        believed(row.length, &format!("the remnant {}", row.tag))?;
        super::counted(row.count, "pieces of one tag")?;
        let key = &plan.pipes[row.pipe].key;
        let link = link(stand, name, row, key)?;
        let wanted = plan.joints.iter();
        let wanted = wanted.filter(|j| j.source == IssuedSource::Rack(row.tag.clone()));
        let wanted = wanted.filter(|j| !already(stand, name, j.number)).count();
        if let (Some(known), false) = (stand.rack.get(&link.0), link.1) {
            let mine = known.reserved.get(name).copied().unwrap_or(0);
            let free = usize::try_from(known.free() + mine).unwrap_or(0);
            if wanted > free {
                let keepers: Vec<&str> = known.reserved.keys().map(String::as_str).collect();
                return Err(Trouble::refusal(
                    format!(
                        "the plan cuts {wanted} of {}, and {free} are free; the rest is kept for {}",
                        row.tag,
                        keepers.join(", ")
                    ),
                    "take the row out of rack.csv and plan again, or tell `freed`",
                ));
            }
        }
        links.insert(row.tag.clone(), link);
    }
    Ok(links)
}

/// A joint of that number was cut already, by an earlier revision's sheet.
fn already(stand: &Stand, name: &str, number: u32) -> bool {
    let joint = stand.weeks.get(name).and_then(|w| w.joints.get(&number));
    joint.is_some_and(|j| j.cut > 0 || j.over)
}

fn link(
    stand: &Stand,
    name: &str,
    row: &IssuedRack,
    key: &PipeKey,
) -> Result<(RemnantId, bool), Trouble> {
    let tagged = stand.rack.iter();
    let tagged = tagged.filter(|(id, r)| id.tag.eq_ignore_ascii_case(&row.tag) && r.pipe == *key);
    let known: Vec<(&RemnantId, &Remnant)> = tagged.collect();
    let lies = known.iter().filter(|(_, r)| r.count > 0);
    let near = |r: &Remnant| {
        let off = r.length - row.length;
        off <= LIST_ROUNDING && -off <= LIST_ROUNDING
    };
    if let Some((id, remnant)) = lies.clone().find(|(_, r)| near(r)) {
        if row.count > remnant.count {
            return Err(Trouble::refusal(
                format!(
                    "rack.csv has {} of {}, and {} lie by what was told",
                    row.count, row.tag, remnant.count
                ),
                "count the rack, then tell `counted`",
            ));
        }
        return Ok(((*id).clone(), false));
    }
    if let Some((_, remnant)) = lies.clone().next() {
        return Err(Trouble::refusal(
            format!(
                "rack.csv says {} is {}, and by what was told it is {}",
                row.tag, row.length, remnant.length
            ),
            "measure it, tell `measured`, and write that length",
        ));
    }
    // One that was cut by an earlier revision of this very week stays where the sheets put it.
    if let Some((id, gone)) = known.first() {
        let mine = gone.gone.ends_with(&format!(" of {name}"));
        if mine && gone.gone.starts_with("cut as joint") {
            return Ok(((*id).clone(), false));
        }
        return Err(Trouble::refusal(
            format!("rack.csv has {}, which is {}", row.tag, gone.gone),
            "take the row away, or give what lies there a tag of its own",
        ));
    }
    let id = RemnantId {
        week: name.to_owned(),
        tag: row.tag.clone(),
    };
    if stand.rack.contains_key(&id) {
        return Err(Trouble::refusal(
            format!("the tag {} is another pipe's in the yard", row.tag),
            "give it a tag of its own in rack.csv",
        ));
    }
    Ok((id, true))
}

/// New rack rows are found; what the plan cuts is kept for the week.
fn bring_in(stand: &mut Stand, name: &str, plan: &IssuedPlan, links: &Links) {
    for row in plan.rack.iter().filter(|r| r.count > 0) {
        let Some((id, new)) = links.get(&row.tag) else {
            continue;
        };
        let key = &plan.pipes[row.pipe].key;
        if *new {
            let all = row.length * i64::from(row.count);
            stand.shift(key, Account::Found, Account::OnSite, all);
            let remnant = Remnant {
                pipe: key.clone(),
                length: row.length,
                count: row.count,
                near_trim: row.near_trim,
                far_trim: row.far_trim,
                from: format!("rack list of {name}"),
                reserved: BTreeMap::new(),
                gone: String::new(),
            };
            stand.rack.insert(id.clone(), remnant);
        }
        let cuts = plan.joints.iter();
        let cuts = cuts.filter(|j| j.source == IssuedSource::Rack(row.tag.clone()));
        let cuts = cuts.filter(|j| !already(stand, name, j.number)).count();
        if let Some(remnant) = stand.rack.get_mut(id) {
            remnant.reserved.remove(name);
            if let Ok(cuts) = u32::try_from(cuts)
                && cuts > 0
            {
                remnant.reserved.insert(name.to_owned(), cuts);
            }
        }
    }
}

fn new_week(plan: &IssuedPlan) -> WeekStand {
    let rack = plan.rack.iter();
    let rack = rack.map(|r| (plan.pipes[r.pipe].key.clone(), r.clone()));
    WeekStand {
        plans: Vec::new(),
        units: plan.units,
        currency: plan.currency.clone(),
        keep: plan.keep,
        tolerance: plan.tolerance,
        credit: BTreeMap::new(),
        rack_then: rack.collect(),
        gates: BTreeMap::new(),
        pieces: BTreeMap::new(),
        joints: BTreeMap::new(),
        lines: BTreeMap::new(),
        splices: BTreeMap::new(),
        paid: Money::ZERO,
        back: Money::ZERO,
        replan: Default::default(),
        closed: false,
    }
}

fn joint(plan: &IssuedPlan, joint: &IssuedJoint, links: &Links) -> JointStand {
    let pieces = joint.pieces.iter().map(|p| JointPiece {
        id: p.id.clone(),
        saw: p.saw,
        kerf: p.kerf,
    });
    JointStand {
        pipe: plan.pipes[joint.pipe].key.clone(),
        source: match &joint.source {
            IssuedSource::Line(line) => Source::Line(*line),
            // Every rack row that a joint names is linked; an empty id would lie nowhere.
            IssuedSource::Rack(tag) => Source::Remnant(links.get(tag).map_or_else(
                || RemnantId {
                    week: String::new(),
                    tag: tag.clone(),
                },
                |(id, _)| id.clone(),
            )),
        },
        length: joint.length,
        near: joint.near,
        far: joint.far,
        pieces: pieces.collect(),
        floor: joint.floor,
        keep: joint.keep.clone(),
        cut: 0,
        over: false,
        void: false,
        tally: Tally::default(),
    }
}

fn line(plan: &IssuedPlan, line: &IssuedLine) -> LineStand {
    LineStand {
        supplier: line.supplier.clone(),
        pipe: plan.pipes[line.pipe].key.clone(),
        nominal: line.nominal,
        planning: line.planning,
        wanted: line.joints,
        planned_money: line.money,
        spare: line.spare,
        ordered: 0,
        came: 0,
        dropped: 0,
        promised: None,
        needed: line.needed,
        lying: BTreeMap::new(),
        freed: 0,
    }
}

/// Writes what the plan says into its week.
fn hand_out(week: &mut WeekStand, plan: &IssuedPlan, joints: BTreeMap<u32, JointStand>) {
    week.plans.push(WeekPlan {
        plan: plan.plan.clone(),
        revision: plan.revision,
        superseded: false,
    });
    for pipe in &plan.pipes {
        let rate = week.credit.entry(pipe.key.clone());
        rate.or_insert(pipe.credit);
    }
    for gate in &plan.gates {
        let known = week.gates.entry(gate.mark.clone());
        let known = known.or_insert_with(|| GateStand {
            due: None,
            copies: Vec::new(),
            changed: false,
        });
        known.due = gate.due;
        known.changed = false;
        let copies = usize::try_from(gate.count).unwrap_or(0);
        if known.copies.len() < copies {
            known.copies.resize(copies, CopyStand::default());
        }
    }
    for row in &plan.lines {
        let fresh = line(plan, row);
        let known = week
            .lines
            .entry(row.number)
            .or_insert_with(|| fresh.clone());
        (known.wanted, known.needed) = (fresh.wanted, fresh.needed);
        known.planned_money = fresh.planned_money;
    }
    want_pieces(week, plan);
    for line in &plan.spliced {
        let splices = usize::try_from(line.splices).unwrap_or(0);
        let known = week.splices.entry(line.line.clone()).or_default();
        known.resize(splices, false);
    }
    for (number, joint) in joints {
        week.joints.entry(number).or_insert(joint).void = false;
    }
    week.replan.clear();
    week.closed = false;
}

/// Every piece on a joint is wanted.
fn want_pieces(week: &mut WeekStand, plan: &IssuedPlan) {
    for joint in &plan.joints {
        let pipe = &plan.pipes[joint.pipe].key;
        for issued in &joint.pieces {
            let gate = issued.gate.and_then(|g| plan.gates.get(g));
            let known = week.pieces.entry(issued.id.clone());
            let known = known.or_insert_with(|| PieceStand {
                mark: issued.mark.clone(),
                pipe: pipe.clone(),
                gate: gate.map(|g| g.mark.clone()),
                saw: issued.saw,
                copes: issued.copes,
                state: PieceState::Missing,
                spoiled: 0,
                wanted: true,
            });
            known.wanted = true;
            if !known.made() {
                known.saw = issued.saw;
                known.pipe = pipe.clone();
            }
        }
    }
}
