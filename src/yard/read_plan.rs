//! plan.json → `IssuedPlan`: the yard's own reading of the document, of what it needs and no more.

use std::collections::BTreeMap;

use jiff::civil::Date;
use rust_decimal::Decimal;
use serde::Deserialize;
use serde_json::Number;

use super::issued::{
    IssuedGate, IssuedJoint, IssuedLine, IssuedPiece, IssuedPipe, IssuedPlan, IssuedRack,
    IssuedSource, IssuedSplices,
};
use crate::measure::{Length, Money, Units};
use crate::order::PieceId;
use crate::order::PipeKey;

#[derive(Deserialize)]
struct Document {
    format: String,
    version: u32,
    units: String,
    currency: String,
    kerf: Exact,
    plan: String,
    revision: u32,
    keep_length: Exact,
    piece_tolerance: Exact,
    pipes: Vec<Pipe>,
    gates: Vec<Gate>,
    parts: Vec<Part>,
    joints: Vec<Joint>,
    spliced: Vec<Line>,
    buy: Vec<Buy>,
    spares: Vec<Buy>,
    rack: Vec<Rack>,
    outcomes: Vec<Outcome>,
    nest: Nest,
}

#[derive(Deserialize)]
struct Exact {
    ticks: Length,
}

#[derive(Deserialize)]
struct Pipe {
    key: PipeKey,
    name: String,
}

#[derive(Deserialize)]
struct Gate {
    mark: String,
    count: u32,
    due: Option<Date>,
}

#[derive(Deserialize)]
struct Part {
    mark: String,
    gate: Option<usize>,
    ends: Vec<End>,
}

#[derive(Deserialize)]
struct End {
    cope: Option<u32>,
}

#[derive(Deserialize)]
struct Joint {
    number: u32,
    pipe: usize,
    quote: Option<usize>,
    rack_tag: Option<String>,
    length: Exact,
    near_trim: Exact,
    far_trim: Exact,
    pieces: Vec<Piece>,
    last_cut: Exact,
    floor: Exact,
    keep_tag: Option<String>,
}

#[derive(Deserialize)]
struct Piece {
    mark: String,
    part: usize,
    copy: u32,
    serial: u32,
    piece: Option<u32>,
    saw_length: Exact,
    start: Exact,
    end: Exact,
}

#[derive(Deserialize)]
struct Line {
    part: usize,
    copy: u32,
    serial: u32,
    splices: Vec<serde::de::IgnoredAny>,
}

#[derive(Deserialize)]
struct Buy {
    line: u32,
    quote: usize,
    pipe: usize,
    supplier: String,
    joint: Exact,
    planning: Exact,
    joints: u32,
    money: Option<Number>,
    tax: Option<Number>,
    #[serde(default)]
    needed: Option<Date>,
}

#[derive(Deserialize)]
struct Rack {
    tag: String,
    pipe: usize,
    length: Exact,
    count: u32,
    near_trim: bool,
    far_trim: bool,
}

#[derive(Deserialize)]
struct Outcome {
    pipe: usize,
}

#[derive(Deserialize)]
struct Nest {
    problem: Problem,
}

#[derive(Deserialize)]
struct Problem {
    pools: Vec<Pool>,
}

#[derive(Deserialize)]
struct Pool {
    credit: Credit,
}

#[derive(Deserialize)]
struct Credit {
    per_foot: i64,
}

/// Reads what the yard needs of a plan's document.
///
/// # Errors
/// What is wrong with it, in words: it is no plan, of an older longpoint, or does not hang together.
pub fn read_plan(json: &str) -> Result<IssuedPlan, String> {
    let document: Document =
        serde_json::from_str(json).map_err(|e| format!("it cannot be read as a plan: {e}"))?;
    if document.format != "longpoint plan" || document.version != 1 {
        return Err(format!(
            "it is {} version {}, and a longpoint plan of version 1 is wanted",
            document.format, document.version
        ));
    }
    let units = match document.units.as_str() {
        "in" => Units::Inch,
        "mm" => Units::Metric,
        other => return Err(format!("its units are {other}, and in or mm is wanted")),
    };
    let mut joints = Vec::with_capacity(document.joints.len());
    for joint in &document.joints {
        joints.push(read_joint(&document, joint)?);
    }
    let spliced = document.spliced.iter().map(|line| {
        let part = part(&document, line.part)?;
        Ok(IssuedSplices {
            line: PieceId {
                mark: part.mark.clone(),
                copy: line.copy,
                serial: line.serial,
                piece: None,
            },
            splices: u32::try_from(line.splices.len()).unwrap_or(u32::MAX),
        })
    });
    let spliced = spliced.collect::<Result<Vec<_>, String>>()?;
    let lines = document.buy.iter().map(|b| line(b, false));
    let spares = document.spares.iter().map(|b| line(b, true));
    let plan = IssuedPlan {
        units,
        joints,
        spliced,
        lines: lines.chain(spares).collect(),
        pipes: pipes(&document),
        rack: document.rack.iter().map(rack).collect(),
        gates: document.gates.iter().map(gate).collect(),
        plan: document.plan,
        revision: document.revision,
        currency: document.currency,
        kerf: document.kerf.ticks,
        keep: document.keep_length.ticks,
        tolerance: document.piece_tolerance.ticks,
    };
    plan.holds_together()?;
    Ok(plan)
}

fn part(document: &Document, part: usize) -> Result<&Part, String> {
    let found = document.parts.get(part);
    found.ok_or_else(|| format!("it names part {part}, which it does not hold"))
}

fn gate(gate: &Gate) -> IssuedGate {
    IssuedGate {
        mark: gate.mark.clone(),
        count: gate.count,
        due: gate.due,
    }
}

fn rack(row: &Rack) -> IssuedRack {
    IssuedRack {
        tag: row.tag.clone(),
        pipe: row.pipe,
        length: row.length.ticks,
        count: row.count,
        near_trim: row.near_trim,
        far_trim: row.far_trim,
    }
}

fn line(buy: &Buy, spare: bool) -> IssuedLine {
    // Written by us in cents; what is no such number counts as not known.
    let cents = |n: &Number| Decimal::from_str_exact(&n.to_string()).ok();
    let money = buy.money.as_ref().and_then(cents);
    let tax = buy.tax.as_ref().and_then(cents).unwrap_or_default();
    let money = money.and_then(|m| m.checked_add(tax)).map(Money);
    IssuedLine {
        number: buy.line,
        pipe: buy.pipe,
        supplier: buy.supplier.clone(),
        nominal: buy.joint.ticks,
        planning: buy.planning.ticks,
        joints: buy.joints,
        money: money.map(Money::cents),
        needed: buy.needed,
        spare,
    }
}

/// Every pipe with its credit; pools stand in the order of the outcomes.
fn pipes(document: &Document) -> Vec<IssuedPipe> {
    let pools = document.outcomes.iter().zip(&document.nest.problem.pools);
    let credits: BTreeMap<usize, i64> = pools.map(|(o, p)| (o.pipe, p.credit.per_foot)).collect();
    let pipes = document.pipes.iter().enumerate();
    let pipes = pipes.map(|(at, pipe)| IssuedPipe {
        key: pipe.key.clone(),
        name: pipe.name.clone(),
        credit: credits.get(&at).copied().unwrap_or_default(),
    });
    pipes.collect()
}

fn read_joint(document: &Document, joint: &Joint) -> Result<IssuedJoint, String> {
    let source = match (joint.quote, &joint.rack_tag) {
        (Some(quote), _) => {
            let line = document.buy.iter().find(|b| b.quote == quote);
            let line = line
                .ok_or_else(|| format!("joint {} is bought, and no line buys it", joint.number))?;
            IssuedSource::Line(line.line)
        }
        (None, Some(tag)) => IssuedSource::Rack(tag.clone()),
        (None, None) => return Err(format!("joint {} comes from nowhere", joint.number)),
    };
    let mut pieces = Vec::with_capacity(joint.pieces.len());
    for (at, piece) in joint.pieces.iter().enumerate() {
        let part = part(document, piece.part)?;
        let kerf = match joint.pieces.get(at + 1) {
            Some(next) => next.start.ticks - piece.end.ticks,
            None => joint.last_cut.ticks,
        };
        let copes = part.ends.iter().filter(|e| e.cope.is_some()).count();
        pieces.push(IssuedPiece {
            id: PieceId {
                mark: part.mark.clone(),
                copy: piece.copy,
                serial: piece.serial,
                piece: piece.piece,
            },
            mark: piece.mark.clone(),
            gate: part.gate,
            saw: piece.saw_length.ticks,
            kerf,
            copes: u32::try_from(copes).unwrap_or(2),
        });
    }
    Ok(IssuedJoint {
        number: joint.number,
        pipe: joint.pipe,
        source,
        length: joint.length.ticks,
        near: joint.near_trim.ticks,
        far: joint.far_trim.ticks > Length::ZERO,
        pieces,
        last_cut: joint.last_cut.ticks,
        floor: joint.floor.ticks,
        keep: joint.keep_tag.clone(),
    })
}

impl IssuedPlan {
    /// Every index has its place, every joint adds up, and no number or name stands twice.
    ///
    /// # Errors
    /// The first that does not.
    pub fn holds_together(&self) -> Result<(), String> {
        let pipe = |at: usize, what: &str| match self.pipes.get(at) {
            Some(_) => Ok(()),
            None => Err(format!("{what} is of a pipe that the plan does not hold")),
        };
        let mut numbers = std::collections::BTreeSet::new();
        let mut ids = std::collections::BTreeSet::new();
        for joint in &self.joints {
            let name = format!("joint {}", joint.number);
            pipe(joint.pipe, &name)?;
            if !numbers.insert(joint.number) {
                return Err(format!("{name} stands twice in it"));
            }
            let pieces: Length = joint.pieces.iter().map(|p| p.saw + p.kerf).sum();
            let parts = joint.pieces.iter().flat_map(|p| [p.saw, p.kerf]);
            let whole = [joint.length, joint.near, joint.floor].into_iter();
            if parts
                .chain(whole)
                .any(|l| l < Length::ZERO || l > Length::MAX)
                || joint.pieces.is_empty()
                || joint.length != joint.near + pieces + joint.floor
            {
                return Err(format!("{name} does not add up"));
            }
            for piece in &joint.pieces {
                if piece.gate.is_some_and(|g| g >= self.gates.len()) {
                    return Err(format!("{} is of a gate that is not there", piece.mark));
                }
                if !ids.insert(piece.id.clone()) {
                    return Err(format!("{} stands twice in it", piece.id));
                }
            }
            let known = match &joint.source {
                IssuedSource::Line(n) => self.lines.iter().any(|l| l.number == *n),
                IssuedSource::Rack(tag) => self.rack.iter().any(|r| r.tag == *tag),
            };
            if !known {
                return Err(format!("{name} comes from what the plan does not name"));
            }
        }
        for line in &self.lines {
            pipe(line.pipe, &format!("line {}", line.number))?;
            if line.planning <= Length::ZERO || line.planning > Length::MAX {
                return Err(format!("line {} has no length", line.number));
            }
        }
        for row in &self.rack {
            pipe(row.pipe, &format!("remnant {}", row.tag))?;
            if row.length <= Length::ZERO || row.length > Length::MAX {
                return Err(format!("remnant {} has no length", row.tag));
            }
        }
        Ok(())
    }
}
