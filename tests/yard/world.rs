//! Plans as they are handed out, made by dice and by hand, and entries about them.

use jiff::Timestamp;
use longpoint::measure::{Length, Units};
use longpoint::order::PieceId;
use longpoint::order::PipeKey;
use longpoint::yard::{
    Desk, Entry, EntryId, FORM, IssuedGate, IssuedJoint, IssuedLine, IssuedPiece, IssuedPipe,
    IssuedPlan, IssuedRack, IssuedSource, IssuedSplices, Told, Verdict,
};

use crate::dice::Dice;

pub const KERF: Length = Length::from_ticks(889);
pub const QUARTER: Length = Length::from_ticks(2032);

/// An entry of `week`, told under this id.
pub fn entry(id: &str, week: &str, told: Told) -> Entry {
    Entry {
        form: FORM,
        id: EntryId(id.to_owned()),
        at: Timestamp::UNIX_EPOCH,
        who: "foreman".to_owned(),
        week: week.to_owned(),
        plan: None,
        revision: None,
        note: String::new(),
        told,
    }
}

pub fn inches(n: i64) -> Length {
    Length::INCH * n
}

pub fn piece(mark: &str, copy: u32, serial: u32, piece: Option<u32>) -> PieceId {
    PieceId {
        mark: mark.to_owned(),
        copy,
        serial,
        piece,
    }
}

/// Tells something that must be taken.
pub fn taken(desk: &mut Desk<'_, Vec<Entry>>, id: &str, told: Told) {
    let verdict = desk.tell(entry(id, "week-1", told), false);
    let verdict = verdict.expect("a list can be read");
    assert!(matches!(verdict, Verdict::Taken(_)), "{id}: {verdict:?}");
}

/// Lays pieces on a joint, kerf by kerf.
pub fn joint(
    number: u32,
    source: IssuedSource,
    length: Length,
    pieces: Vec<IssuedPiece>,
    keep: Option<&str>,
) -> IssuedJoint {
    let used: Length = pieces.iter().map(|p| p.saw + p.kerf).sum();
    IssuedJoint {
        number,
        pipe: 0,
        source,
        length,
        near: QUARTER,
        far: true,
        last_cut: KERF,
        floor: length - QUARTER - used,
        pieces,
        keep: keep.map(str::to_owned),
    }
}

pub fn cut(id: PieceId, mark: &str, gate: Option<usize>, saw: Length) -> IssuedPiece {
    IssuedPiece {
        id,
        mark: mark.to_owned(),
        gate,
        saw,
        kerf: KERF,
        copes: 2,
    }
}

/// A small plan: gate A1 (one copy) with a spliced bottom, gate B (two copies), three joints of line 1, one off R1.
pub fn small() -> IssuedPlan {
    let pipe = IssuedPipe {
        key: PipeKey("60.325 x 3.9116 mm, 30 ksi, galvanized".to_owned()),
        name: "2-3/8 SS40".to_owned(),
        credit: 174_000,
    };
    let gate = |mark: &str, count| IssuedGate {
        mark: mark.to_owned(),
        count,
        due: None,
    };
    IssuedPlan {
        plan: "1234-5678".to_owned(),
        revision: 0,
        units: Units::Inch,
        currency: "$".to_owned(),
        kerf: KERF,
        keep: inches(36),
        tolerance: Length::from_ticks(254),
        pipes: vec![pipe],
        gates: vec![gate("A1", 1), gate("B", 2)],
        joints: small_joints(),
        spliced: vec![IssuedSplices {
            line: piece("A1-HB", 1, 1, None),
            splices: 1,
        }],
        lines: vec![IssuedLine {
            number: 1,
            pipe: 0,
            supplier: "Harbor Pipe (invented)".to_owned(),
            nominal: inches(252),
            planning: inches(252),
            joints: 3,
            money: None,
            needed: None,
            spare: false,
        }],
        rack: vec![IssuedRack {
            tag: "R1".to_owned(),
            pipe: 0,
            length: inches(100),
            count: 1,
            near_trim: true,
            far_trim: true,
        }],
    }
}

fn small_joints() -> Vec<IssuedJoint> {
    let line = IssuedSource::Line(1);
    vec![
        joint(
            1,
            line.clone(),
            inches(252),
            vec![
                cut(
                    piece("A1-HB", 1, 1, Some(1)),
                    "A1-HB/1",
                    Some(0),
                    inches(150),
                ),
                cut(piece("A1-V", 1, 1, None), "A1-V", Some(0), inches(60)),
            ],
            Some("K1"),
        ),
        joint(
            2,
            line.clone(),
            inches(252),
            vec![
                cut(
                    piece("A1-HB", 1, 1, Some(2)),
                    "A1-HB/2",
                    Some(0),
                    inches(140),
                ),
                cut(piece("B-V", 1, 1, None), "B.1-V", Some(1), inches(50)),
                cut(piece("B-V", 1, 2, None), "B.1-V", Some(1), inches(50)),
            ],
            None,
        ),
        joint(
            3,
            line,
            inches(252),
            vec![
                cut(piece("B-V", 2, 1, None), "B.2-V", Some(1), inches(50)),
                cut(piece("B-V", 2, 2, None), "B.2-V", Some(1), inches(50)),
            ],
            Some("K2"),
        ),
        joint(
            4,
            IssuedSource::Rack("R1".to_owned()),
            inches(100),
            vec![cut(piece("LP", 0, 1, None), "LP", None, inches(90))],
            None,
        ),
    ]
}

/// A plan by dice: a few pipes, gates, joints off lines and off the rack, a spliced line now and then.
pub fn random(dice: &mut Dice, number: u64) -> IssuedPlan {
    let mut plan = small();
    plan.plan = format!("{:04}-{:04}", number / 10_000 % 10_000, number % 10_000);
    let pipes = 1 + dice.below(2);
    plan.pipes = (0..pipes)
        .map(|n| IssuedPipe {
            key: PipeKey(format!("{} mm", 40 + n)),
            name: format!("pipe {n}"),
            credit: 1000,
        })
        .collect();
    plan.gates.clear();
    (plan.joints, plan.lines, plan.rack, plan.spliced) = Default::default();
    let mut pieces: Vec<IssuedPiece> = Vec::new();
    for gate in 0..1 + usize::try_from(dice.below(3)).expect("small") {
        let (mark, count) = (format!("G{gate}"), 1 + dice.count(2));
        for copy in 1..=count {
            for serial in 1..=1 + dice.count(4) {
                let id = piece(&format!("{mark}-V"), copy, serial, None);
                let saw = dice.sixteenths(20, 70);
                pieces.push(cut(id, &format!("{mark}.{copy}-V"), Some(gate), saw));
            }
            if dice.whether(2) {
                let line = format!("{mark}-HB");
                for n in 1..=2 {
                    let id = piece(&line, copy, 1, Some(n));
                    let shown = format!("{mark}.{copy}-HB/{n}");
                    pieces.push(cut(id, &shown, Some(gate), dice.sixteenths(80, 150)));
                }
                plan.spliced.push(IssuedSplices {
                    line: piece(&line, copy, 1, None),
                    splices: 1,
                });
            }
        }
        plan.gates.push(IssuedGate {
            mark,
            count,
            due: None,
        });
    }
    while !pieces.is_empty() {
        lay(dice, &mut plan, &mut pieces);
    }
    plan
}

/// One more joint with some of the pieces.
fn lay(dice: &mut Dice, plan: &mut IssuedPlan, pieces: &mut Vec<IssuedPiece>) {
    let take = 1 + usize::try_from(dice.below(4)).expect("small");
    let mine: Vec<IssuedPiece> = pieces.drain(..take.min(pieces.len())).collect();
    let used: Length = mine.iter().map(|p| p.saw + p.kerf).sum();
    let pipe = usize::try_from(dice.below(2)).expect("small") % plan.pipes.len();
    let length = used + QUARTER + dice.sixteenths(1, 80);
    let number = u32::try_from(plan.joints.len()).expect("small") + 1;
    let source = if dice.whether(5) {
        let tag = format!("R{number}");
        plan.rack.push(IssuedRack {
            tag: tag.clone(),
            pipe,
            length,
            count: 1 + dice.count(2),
            near_trim: true,
            far_trim: true,
        });
        IssuedSource::Rack(tag)
    } else {
        let line = plan.lines.iter().position(|l| l.pipe == pipe);
        let line = line.unwrap_or_else(|| {
            plan.lines.push(IssuedLine {
                number: u32::try_from(plan.lines.len()).expect("small") + 1,
                pipe,
                supplier: "Harbor Pipe (invented)".to_owned(),
                nominal: inches(720),
                planning: inches(720),
                joints: 0,
                money: None,
                needed: None,
                spare: false,
            });
            plan.lines.len() - 1
        });
        plan.lines[line].joints += 1;
        IssuedSource::Line(plan.lines[line].number)
    };
    let length = match source {
        IssuedSource::Line(_) => inches(720),
        IssuedSource::Rack(_) => length,
    };
    let kept = length - QUARTER - used - KERF >= plan.keep;
    let keep = kept.then(|| format!("K{number}"));
    let mut made = joint(number, source, length, mine, keep.as_deref());
    made.pipe = pipe;
    plan.joints.push(made);
}
