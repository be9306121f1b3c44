//! Spliced lines are the answer's, and each splice stands where its pieces put it: in its bay, in its window.

use std::collections::BTreeMap;

use super::form::{Class, Splice, Spliced};
use super::papers::{Papers, wide, within};
use crate::check::Rule;
use crate::check::docket::Docket;
use crate::nest::Line;

/// Ticks: printed figures are rounded to a millionth of an inch or 1/10,000 mm.
const WITHIN: f64 = 0.1;

/// Judges every spliced line.
pub(super) fn judge(papers: &Papers<'_>, docket: &mut Docket) {
    as_answered(papers, docket);
    for line in &papers.plan.spliced {
        let part = &papers.plan.parts[line.part];
        let mark = papers.part_mark(part, line.copy);
        docket.same(line.mark.as_str(), &mark, Rule::FileSpliced, &line.mark);
        let windows = candidates(papers, line);
        let mut said = Vec::new();
        let holds = windows.iter().any(|own| {
            let mut found = Docket::default();
            placed(papers, line, own.length, Some(own), &mut found);
            let clean = found.is_clean();
            said = found.into_violations();
            clean
        });
        if !holds {
            docket.extend(said);
        }
        docket.demand(!windows.is_empty(), Rule::FileSpliced, &mark, || {
            "no line of the problem is made of these pieces".to_owned()
        });
    }
}

/// Lines of the problem that the answer makes of these pieces, for a gate of this mark.
fn candidates<'a>(papers: &Papers<'a>, line: &Spliced) -> Vec<&'a Line> {
    let part = &papers.plan.parts[line.part];
    let pieces: Vec<i64> = line.pieces.iter().map(|p| p.ticks).collect();
    let gate = part.gate.map(|g| papers.plan.gates[g].mark.as_str());
    let Some((pool, answer)) = papers.pool(part.pipe) else {
        return Vec::new();
    };
    let mut out = Vec::new();
    for made in &answer.configurations {
        let Some(group) = pool.groups.get(made.group) else {
            continue;
        };
        let alike = group.lines.iter().zip(&made.lines);
        let mine = alike.filter(|(_, own)| **own == pieces && Some(group.name.as_str()) == gate);
        out.extend(mine.map(|(line, _)| line));
    }
    // Gates that are alike share a group under the first one's name.
    if out.is_empty() {
        for made in &answer.configurations {
            if let Some(group) = pool.groups.get(made.group) {
                let alike = group.lines.iter().zip(&made.lines);
                out.extend(
                    alike
                        .filter(|(_, own)| **own == pieces)
                        .map(|(line, _)| line),
                );
            }
        }
    }
    out
}

/// As many lines of each pipe in the same pieces as the answer has.
fn as_answered(papers: &Papers<'_>, docket: &mut Docket) {
    let mut lines: BTreeMap<(usize, Vec<i64>), i64> = BTreeMap::new();
    for line in &papers.plan.spliced {
        let pieces = line.pieces.iter().map(|p| p.ticks).collect();
        let pipe = papers.plan.parts[line.part].pipe;
        *lines.entry((pipe, pieces)).or_default() += 1;
    }
    for (outcome, answer) in papers.plan.outcomes.iter().zip(papers.answers) {
        for made in &answer.configurations {
            for pieces in made.lines.iter().filter(|p| p.len() > 1) {
                *lines.entry((outcome.pipe, pieces.clone())).or_default() -= i64::from(made.times);
            }
        }
    }
    for ((pipe, pieces), n) in lines.into_iter().filter(|(_, n)| *n != 0) {
        let what = format!("{n} more lines of pipe {pipe} in {pieces:?} than in the answer");
        docket.say(Rule::FileSpliced, "spliced", what);
    }
}

/// Gap, centres and places of one line, `long` ticks from long point to long point; windows where the
/// problem's line is known.
pub(super) fn placed(
    papers: &Papers<'_>,
    line: &Spliced,
    long: i64,
    own: Option<&Line>,
    docket: &mut Docket,
) {
    let m = i64::try_from(line.splices.len()).unwrap_or(i64::MAX);
    let many = line.splices.len() + 1 == line.pieces.len() && (1..=1000).contains(&m);
    docket.demand(many, Rule::FileSpliced, &line.mark, || {
        format!("{} pieces and {m} splices", line.pieces.len())
    });
    if !many {
        return;
    }
    let slack = long - line.pieces.iter().map(|p| p.ticks).sum::<i64>();
    let gap = wide(slack.into()) / wide(m.into());
    let said = line.gap.value * papers.unit();
    // Advice for a kit knows its line to the nearest tick of a printed figure.
    docket.near(said, gap, 1.0, Rule::FileSplice, &line.mark);
    let mut before = 0;
    for (j, (piece, splice)) in (1..).zip(line.pieces.iter().zip(&line.splices)) {
        before += piece.ticks;
        let twice = 2 * m * before + (2 * j - 1) * slack;
        let centre = wide(twice.into()) / wide((2 * m).into());
        let name = format!("{}/{j}+{}", line.mark, j + 1);
        docket.same(splice.name.as_str(), &name, Rule::FileSplice, &line.mark);
        let said = splice.from_long_point.value * papers.unit();
        docket.near(said, centre, 1.0, Rule::FileSplice, &name);
        let [lo, hi] = splice.window.map(|w| w.ticks);
        docket.demand(
            2 * m * lo <= twice && twice <= 2 * m * hi,
            Rule::FileSplice,
            &name,
            || format!("its centre {centre} is not in its window, {lo} to {hi}"),
        );
        if let Some(own) = own {
            window(splice, own, &name, docket);
        }
        bay(papers, line, splice, &name, docket);
    }
}

/// The window lies in a slot of the splice's bay that costs what the splice's class does.
fn window(splice: &Splice, own: &Line, name: &str, docket: &mut Docket) {
    let [lo, hi] = splice.window.map(|w| w.ticks);
    let charged = own.slots.iter().any(|s| s.charge > 0);
    let holds = own.slots.iter().any(|slot| {
        let fits = match splice.class {
            Class::Plain => slot.charge == 0,
            Class::Charged | Class::ByOrder => slot.charge > 0 || !charged,
        };
        slot.zone == splice.bay && slot.lo <= lo && hi <= slot.hi && fits
    });
    docket.demand(holds, Rule::FileSplice, name, || {
        format!(
            "{lo} to {hi} in bay {} is in no slot of its class",
            splice.bay
        )
    });
}

/// Distances to the bay lines of a horizontal, which is measured from the latch face.
fn bay(papers: &Papers<'_>, line: &Spliced, splice: &Splice, name: &str, docket: &mut Docket) {
    let part = &papers.plan.parts[line.part];
    let frame = part.gate.and_then(|g| papers.plan.gates[g].frame.as_ref());
    let arc = part.role == "sway brace";
    docket.same(
        splice.from_latch_face.is_none(),
        arc,
        Rule::FileSplice,
        name,
    );
    let (Some(x), Some(frame)) = (splice.from_latch_face, frame) else {
        return;
    };
    let at = usize::try_from(splice.bay).unwrap_or(usize::MAX);
    let lines = &frame.bay_lines;
    let between = at
        .checked_sub(1)
        .and_then(|i| Some((lines.get(i)?, lines.get(at)?)));
    let agrees = between.is_some_and(|(from, to)| {
        let unit = papers.unit();
        within(
            (x.value - from.value) * unit,
            splice.from_bay_line_before.value * unit,
            WITHIN,
        ) && within(
            (to.value - x.value) * unit,
            splice.to_bay_line_after.value * unit,
            WITHIN,
        )
    });
    docket.demand(agrees, Rule::FileSplice, name, || {
        format!(
            "{} from the latch face is not so far from the lines of bay {at}",
            x.value
        )
    });
}
