//! The value of each fact, out of the checked plan of one week.

use longpoint::check::{CheckedPlan, check};
use longpoint::measure::Length;
use longpoint::order::{GateOrder, print_faults, read_week};
use longpoint::part::{Part, take_off};
use longpoint::plan::{JointSource, PlanOptions, PlannedJoint, make};

use crate::made;

/// The demo with what it lacks: papers of an order, a brace, a carrier's limit, and a pipe that nobody sells, so
/// that gates are left out.
pub fn week_of_everything() -> CheckedPlan {
    let mut files = made::demo("demo_us");
    let orders = files.orders.as_mut().expect("orders");
    let text = String::from_utf8_lossy(&orders.bytes).into_owned();
    let lines = text.lines().enumerate().map(|(i, line)| match i {
        0 => line.to_owned(),
        1 => format!("{line},customer,purchase order"),
        2 => format!("{line},Tern Ferry (invented),PO-7731"),
        _ => format!("{line},,"),
    });
    orders.bytes = lines.collect::<Vec<_>>().join("\n").into_bytes();
    let mut week = read_week(&files).unwrap_or_else(|f| panic!("{}", print_faults(&f)));
    week.shop.kit.carrier_limit = Some(Length::FOOT * 6);
    week.quotes
        .retain(|q| !is_left_out(&week.pipes[q.pipe.0].name));
    let braced = week.gates.iter_mut().find(|g| g.mark == "A5");
    braced.expect("A5").sway = true;
    let (taken, impossible) = take_off(&week);
    assert!(impossible.is_empty(), "{impossible:?}");
    let options = PlanOptions {
        partial: true,
        date: Some(String::from("2026-03-02")),
        revision: 3,
        ..PlanOptions::default()
    };
    let plan = make(&week, &taken, &options).unwrap_or_else(|why| panic!("{why:?}"));
    check(week, taken, plan).unwrap_or_else(|v| panic!("{v:#?}"))
}

fn is_left_out(pipe: &str) -> bool {
    pipe.starts_with("2-7/8")
}

/// What a fact's value is, as print has it.
pub fn of(plan: &CheckedPlan, fact: &str) -> String {
    let it = World { plan };
    let found = it.of_gate(fact).or_else(|| it.of_part(fact));
    let found = found
        .or_else(|| it.of_joint(fact))
        .or_else(|| it.of_splice(fact));
    let found = found.or_else(|| it.of_money(fact));
    found.unwrap_or_else(|| panic!("no value for {fact}"))
}

fn quote_length(plan: &CheckedPlan, joint: &PlannedJoint) -> String {
    let JointSource::Bought(quote) = joint.source else {
        panic!("bought");
    };
    plan.week().quotes[quote]
        .nominal
        .print(plan.week().shop.units)
}

struct World<'a> {
    plan: &'a CheckedPlan,
}

impl<'a> World<'a> {
    /// Plan, gates, frames.
    fn of_gate(&self, fact: &str) -> Option<String> {
        let (gate, frame, made) = (self.gate("A4"), self.frame("A4"), self.plan.plan());
        let papers = &self.gate("A1").paperwork;
        Some(match fact {
            "plan number" => made.number.clone(),
            "revision" => made.revision.to_string(),
            "date" => made.date.clone()?,
            "opening" => self.exact(gate.opening),
            "height" => self.at(frame.height),
            "leaf" => self.at(frame.leaf),
            "tail" => self.at(gate.tail),
            "hand" => format!("{:?}", gate.hand).to_lowercase(),
            "seen from" => format!("{:?}", gate.seen_from?).to_lowercase(),
            "due" => gate.due?.to_string(),
            "note" => gate.note.clone(),
            "customer" => papers.customer.clone(),
            "purchase order" => papers.purchase_order.clone(),
            "bay line" => self.at(frame.bay_lines[2]),
            "lean" => format!("{:.2}", 90.0 - frame.bays[0].alpha.to_degrees()),
            "check measure" => self.at(frame.check_measure),
            "front roller, closed" => self.at(frame.rollers.front_closed),
            "front roller, open" => self.at(frame.rollers.front_open),
            "rear roller" => self.at(frame.rollers.spacing),
            "brace's length" => self.at(self.frame("A5").sway.as_ref()?.length),
            "gate complete after" => {
                let done = made.done.iter().find(|d| d.gate == self.index("A4"));
                done?.after_joint.to_string()
            }
            "left-out gate" => made
                .left_out
                .iter()
                .find(|i| i.gate.is_some())?
                .mark
                .clone(),
            "kit's local joint" => self.exact(made.kits.first()?.options.first()?.joint),
            "carrier's limit" => self.exact(self.plan.week().shop.kit.carrier_limit?),
            _ => return None,
        })
    }

    /// Parts, pipes, copes.
    fn of_part(&self, fact: &str) -> Option<String> {
        let part = self.part("A4-D1");
        let pipe = self.plan.week().pipe(self.part("A4-HB").pipe);
        Some(match fact {
            "saw length" => self.exact(part.saw),
            "long point" => self.at(part.long_exact),
            "throat" => self.exact(part.throat),
            "top line" => self.at(part.top_line?),
            "under line" => self.at(part.under_line?),
            "role" => "end post".into(),
            "pieces a gate" => part.per_gate.to_string(),
            "way of cutting" => "true saddle".into(),
            // Both ends of a horizontal are coped alike.
            "cutback" => self.at(self.cutback()),
            "cutback, fine" => format!("{:.3}", self.cutback() / Length::INCH.geometric()),
            "pipe's OD" => pipe.od.value.to_string(),
            "pipe's standard" => pipe.standard.clone(),
            "weight of a part" => format!("{:.1}", part.weight),
            _ => return None,
        })
    }

    /// Joints and what is left of them.
    fn of_joint(&self, fact: &str) -> Option<String> {
        let (made, joint) = (self.plan.plan(), self.short());
        let kept = made.kept.first()?;
        let week = self.plan.week();
        let fine = |l: Length| self.exact(l.down_to(Length::SIXTY_FOURTH));
        let mark = week.shop.saw.mark;
        Some(match fact {
            "sold length" => quote_length(self.plan, joint),
            "planned length" => self.exact(joint.length),
            "running mark" => joint.pieces[0].end.print_at(mark, week.shop.units),
            "near trim" => self.exact(joint.near),
            "piece's mark" => joint.pieces[0].mark.clone(),
            "kept drop's tag" => kept.tag.clone(),
            "kept drop's length" => fine(kept.floor),
            "credited length" => fine(kept.drop),
            "rack piece used" => {
                let mut joints = made.joints.iter();
                joints.find_map(|j| match j.source {
                    JointSource::Rack(row, _) => Some(week.rack[row].tag.clone()),
                    JointSource::Bought(_) => None,
                })?
            }
            "hours of the week" => {
                let m = &made.minutes;
                format!("{:.1} h", (m.joints + m.cuts + m.copes + m.splices) / 60.0)
            }
            _ => return None,
        })
    }

    fn of_splice(&self, fact: &str) -> Option<String> {
        let line = self.plan.plan().spliced.first()?;
        let splice = line.splices.first()?;
        let mark = self.plan.week().shop.saw.mark;
        Some(match fact {
            "splice's name" => format!("{}/1+2", self.plan.take_off().parts[line.part].mark),
            "splice from latch face" => self.at(splice.x?),
            "splice from long point" => self.at(splice.centre),
            "window's end" => self.exact(splice.window.1.down_to(mark)),
            "share of peak stress" => format!("{:.0}", 100.0 * splice.rel?),
            "spliced piece" => self.exact(line.pieces[0]),
            _ => return None,
        })
    }

    fn of_money(&self, fact: &str) -> Option<String> {
        let made = self.plan.plan();
        let bought = made.buy.first()?;
        let quote = &self.plan.week().quotes[bought.quote];
        let ledger = made.ledger.as_ref()?;
        let money = match fact {
            "joints to buy" => return Some(bought.joints.to_string()),
            "price as quoted" => return Some(quote.quoted_words()),
            "supplier" => return Some(quote.supplier.clone()),
            "money of an order line" => bought.money?,
            "total" => made.total?,
            "splices' money" => ledger.splices,
            "credit of what is kept" => ledger.kept,
            "gate's cost" => {
                let costs = made.gate_costs.iter();
                let own = costs.filter(|c| c.gate == Some(self.index("A4")));
                own.map(|c| c.total).sum()
            }
            "hand way's money" => made.references.first()?.money?,
            _ => return None,
        };
        Some(money.to_string())
    }

    fn exact(&self, length: Length) -> String {
        length.print(self.plan.week().shop.units)
    }

    /// Geometry to the saw mark.
    fn at(&self, ticks: f64) -> String {
        self.exact(Length::nearest_mark(ticks, self.plan.week().shop.saw.mark))
    }

    fn index(&self, mark: &str) -> usize {
        let gates = &self.plan.week().gates;
        gates.iter().position(|g| g.mark == mark).expect("a gate")
    }

    fn gate(&self, mark: &str) -> &'a GateOrder {
        &self.plan.week().gates[self.index(mark)]
    }

    fn frame(&self, mark: &str) -> &'a longpoint::gate::Frame {
        let frames = self.plan.take_off().frames.iter();
        frames
            .into_iter()
            .find(|f| f.gate == self.index(mark))
            .expect("a frame")
    }

    fn part(&self, mark: &str) -> &'a Part {
        let parts = &self.plan.take_off().parts;
        parts.iter().find(|p| p.mark == mark).expect("a part")
    }

    fn cutback(&self) -> f64 {
        let top = self.part("A4-HT");
        (top.long_exact - top.throat_exact) / 2.0
    }

    /// A joint planned shorter than it is sold.
    fn short(&self) -> &'a PlannedJoint {
        let joints = self.plan.plan().joints.iter();
        let units = self.plan.week().shop.units;
        joints
            .filter(|j| matches!(j.source, JointSource::Bought(_)))
            .find(|j| quote_length(self.plan, j) != j.length.print(units))
            .expect("the demo plans some short")
    }
}
