//! Every splice as it is to be welded: pieces, gap, centres, windows, stagger (DESIGN §8).

use super::case::Case;
use super::docket::Docket;
use super::pane::{Pane, broken};
use super::rule::Rule;
use super::splice_set::{Line, Set};
use crate::measure::{INCH, Length};
use crate::order::Week;
use crate::plan::{Splice, SplicedLine};

/// 1e-5 in: printed figures against the judge's own.
const WITHIN: f64 = 1e-5 * INCH;

/// A line cut in pieces, times 2m to stay whole.
struct Laid {
    m: i64,
    /// Centre of every splice times 2m, ticks from the latch-end long point.
    centres: Vec<i64>,
    /// long − Σ pieces, ticks.
    slack: i64,
}

/// Judges all spliced lines against the judge's own sets.
pub(super) fn judge(case: &Case<'_>, sets: &[Set], docket: &mut Docket) {
    for spliced in &case.plan.spliced {
        let name = name(case, spliced);
        let found = sets
            .iter()
            .flat_map(|s| s.lines.iter().map(move |l| (s, l)))
            .find(|(_, l)| l.part == spliced.part);
        match found {
            Some((set, own)) => {
                docket.same(spliced.form, set.form, Rule::SpliceReachForm, &name);
                line(case, own, spliced, docket);
            }
            None => docket.say(
                Rule::SpliceNotNeeded,
                &name,
                "it fits a joint whole and no splice is asked for".to_owned(),
            ),
        }
    }
    for set in sets {
        if let [a, b] = set.lines.as_slice() {
            stagger(case, set, (a, b), &case.plan.spliced, docket);
        }
        needed(case, set, docket);
    }
}

fn name(case: &Case<'_>, spliced: &SplicedLine) -> String {
    let part = &case.take_off.parts[spliced.part];
    format!("{} copy {}", part.mark, spliced.copy)
}

/// A line that must be spliced is.
fn needed(case: &Case<'_>, set: &Set, docket: &mut Docket) {
    for line in set.lines.iter().filter(|l| l.least > 0) {
        let mark = &case.take_off.parts[line.part].mark;
        for copy in set.copies.iter().copied() {
            let made = case.plan.spliced.iter();
            let n = made
                .filter(|s| s.part == line.part && s.copy == copy)
                .count();
            docket.demand(n == 1, Rule::SpliceNeeded, mark, || {
                format!(
                    "copy {copy} needs {} splices and has {n} splice rows",
                    line.least
                )
            });
        }
    }
}

fn laid(own: &Line, spliced: &SplicedLine) -> Option<Laid> {
    let m = i64::try_from(spliced.pieces.len()).ok()? - 1;
    if !(1..=1000).contains(&m) {
        return None;
    }
    let metal: Length = spliced.pieces.iter().copied().sum();
    let slack = (own.long - metal).ticks();
    let mut before = 0;
    let mut centres = Vec::new();
    for (j, piece) in (1..=m).zip(&spliced.pieces) {
        before += piece.ticks();
        centres.push(2 * m * before + (2 * j - 1) * slack);
    }
    Some(Laid { m, centres, slack })
}

/// Judges one spliced line against the judge's own.
pub(super) fn line(case: &Case<'_>, own: &Line, spliced: &SplicedLine, docket: &mut Docket) {
    let name = name(case, spliced);
    let Some(laid) = laid(own, spliced) else {
        return;
    };
    pieces(case.week, own, spliced, &laid, &name, docket);
    let gap = ticks(laid.slack) / ticks(laid.m);
    docket.near(spliced.gap, gap, WITHIN, Rule::SpliceGap, &name);
    let mut bays = Vec::new();
    for (index, (splice, centre)) in spliced.splices.iter().zip(&laid.centres).enumerate() {
        let name = format!("{name} splice {}", index + 1);
        each(case.week, own, &laid, *centre, splice, &name, docket);
        docket.demand(
            !bays.contains(&splice.bay),
            Rule::SpliceOnePerBay,
            &name,
            || format!("bay {} holds another splice of this line", splice.bay),
        );
        bays.push(splice.bay);
    }
    let over = case.week.shop.splice.three_within.ticks() * 2 * laid.m;
    for three in laid.centres.windows(3) {
        docket.demand(
            three[2] - three[0] > over,
            Rule::SpliceThreeNear,
            &name,
            || {
                let apart = ticks(three[2] - three[0]) / ticks(2 * laid.m) / INCH;
                format!("first and third of three splices are {apart:.4} in apart")
            },
        );
    }
}

fn pieces(
    week: &Week,
    own: &Line,
    spliced: &SplicedLine,
    laid: &Laid,
    name: &str,
    docket: &mut Docket,
) {
    let (mark, rules) = (week.shop.saw.mark, &week.shop.splice);
    let count = u32::try_from(laid.m).unwrap_or(u32::MAX);
    docket.demand(
        (own.least..=own.most).contains(&count),
        Rule::SpliceCount,
        name,
        || format!("{count} splices; {} to {} are allowed", own.least, own.most),
    );
    for piece in &spliced.pieces {
        docket.demand(
            *piece == piece.down_to(mark),
            Rule::SplicePieceMark,
            name,
            || format!("a piece of {} ticks is off the saw mark", piece.ticks()),
        );
        docket.demand(
            *piece >= own.least_piece,
            Rule::SpliceLeastPiece,
            name,
            || format!("a piece of {piece}, least {}", own.least_piece),
        );
    }
    let metal: Length = spliced.pieces.iter().copied().sum();
    let wanted = (own.long - rules.root_gap * laid.m).down_to(mark);
    docket.same(metal, wanted, Rule::SplicePiecesSum, name);
    docket.demand(
        laid.slack >= rules.root_gap.ticks() * laid.m,
        Rule::SpliceGap,
        name,
        || {
            format!(
                "gaps of {} ticks together, {} each wanted",
                laid.slack,
                rules.root_gap.ticks()
            )
        },
    );
}

/// Whole ticks as geometry's number.
fn ticks(n: i64) -> f64 {
    Length::from_ticks(n).geometric()
}

fn each(
    week: &Week,
    own: &Line,
    laid: &Laid,
    centre: i64,
    splice: &Splice,
    name: &str,
    docket: &mut Docket,
) {
    let twice = 2 * laid.m;
    let p = ticks(centre) / ticks(twice);
    let x = own.lane.long_at + p;
    docket.near(splice.centre, p, WITHIN, Rule::SpliceCentre, name);
    from_latch_face(own, splice, x, name, docket);
    let inside =
        |lo: Length, hi: Length| lo.ticks() * twice <= centre && centre <= hi.ticks() * twice;
    let rules = broken(week, &own.lane, x);
    let holding = own.panes.iter().filter(|p| inside(p.lo, p.hi));
    // Where panes touch the cheaper holds.
    let Some(pane) = holding.min_by_key(|p| (p.class, p.tolerated)) else {
        if rules.is_empty() {
            let detail = format!("p = {:.4} in lies in no window", p / INCH);
            docket.say(Rule::SpliceWindow, name, detail);
        }
        for (rule, detail) in rules {
            docket.say(rule, name, detail);
        }
        return;
    };
    stress(own, splice, x, name, docket);
    let (lo, hi) = splice.window;
    let fits = pane.lo <= lo && hi <= pane.hi && inside(lo, hi);
    docket.demand(fits, Rule::SpliceWindow, name, || {
        format!(
            "the sheet's window {lo} to {hi}, the judge's {} to {}, centre {:.4} in",
            pane.lo,
            pane.hi,
            p / INCH
        )
    });
    sheet(own, pane, splice, x, name, docket);
}

/// A horizontal's splice is measured from the latch face; a sway brace is an arc and has no such figure.
fn from_latch_face(own: &Line, splice: &Splice, x: f64, name: &str, docket: &mut Docket) {
    match splice.x {
        Some(found) if !own.arc => docket.near(found, x, WITHIN, Rule::SpliceX, name),
        found => docket.demand(found.is_none() && own.arc, Rule::SpliceX, name, || {
            format!("from the latch face {found:?}, on an arc: {}", own.arc)
        }),
    }
}

/// What the splice sheet says of a splice at station x beside its place: bay, class, distances to the
/// bay lines.
fn sheet(own: &Line, pane: &Pane, splice: &Splice, x: f64, name: &str, docket: &mut Docket) {
    docket.same(splice.bay, pane.bay, Rule::SpliceBay, name);
    docket.same(
        splice.roller_bay,
        pane.roller_bay,
        Rule::SpliceRollerBay,
        name,
    );
    docket.same(
        splice.tolerated,
        pane.tolerated,
        Rule::SpliceTolerated,
        name,
    );
    docket.same(splice.class, pane.class, Rule::SpliceClass, name);
    if let Some((from, to)) = own.lane.bay(pane.bay) {
        docket.near(
            splice.from_latch_side,
            x - from,
            WITHIN,
            Rule::SpliceBayLines,
            name,
        );
        docket.near(
            splice.from_tail_side,
            to - x,
            WITHIN,
            Rule::SpliceBayLines,
            name,
        );
    }
}

/// The stress printed at a splice is the judge's own; at a station of the envelope either side's.
fn stress(own: &Line, splice: &Splice, x: f64, name: &str, docket: &mut Docket) {
    const BESIDE: f64 = 0.01;
    let Some(rel) = splice.rel else {
        docket.same(None, own.lane.rel(x), Rule::SpliceStress, name);
        return;
    };
    let near = [x - BESIDE, x, x + BESIDE]
        .into_iter()
        .filter_map(|x| own.lane.rel(x));
    let agrees = near.into_iter().any(|found| (found - rel).abs() <= 1e-9);
    docket.demand(agrees, Rule::SpliceStress, name, || {
        format!("the plan says {rel}, the judge finds {:?}", own.lane.rel(x))
    });
}

/// Top and bottom of one gate, measured from one x: `apart` at least, no shared bay.
pub(super) fn stagger(
    case: &Case<'_>,
    set: &Set,
    (a, b): (&Line, &Line),
    spliced: &[SplicedLine],
    docket: &mut Docket,
) {
    let apart = case.week.shop.splice.stagger.geometric();
    for first in spliced.iter().filter(|s| s.part == a.part) {
        let second = spliced
            .iter()
            .find(|s| s.part == b.part && s.copy == first.copy);
        let Some(second) = second else {
            continue;
        };
        let (Some(x), Some(y)) = (laid(a, first), laid(b, second)) else {
            continue;
        };
        let name = name(case, first);
        let at = |own: &Line, l: &Laid, c: i64| own.lane.long_at + ticks(c) / ticks(2 * l.m);
        for p in &x.centres {
            for q in &y.centres {
                let between = (at(a, &x, *p) - at(b, &y, *q)).abs();
                // Centres are whole 1/2m ticks; far finer than a millionth of a tick never matters.
                docket.demand(between >= apart - 1e-6, Rule::SpliceStagger, &name, || {
                    format!("top and bottom splices are {:.4} in apart", between / INCH)
                });
            }
        }
        let shared = first
            .splices
            .iter()
            .find(|s| second.splices.iter().any(|t| t.bay == s.bay));
        if let Some(splice) = shared.filter(|_| set.exclusive) {
            let detail = format!("top and bottom both splice in bay {}", splice.bay);
            docket.say(Rule::SpliceSharedBay, &name, detail);
        }
    }
}
