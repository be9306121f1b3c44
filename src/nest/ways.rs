//! Every way of making a group's lines that a plan cheaper than the best known may hold, on a grid.
//!
//! Places of a splice whose pieces count as the same rows are one run. Two lines agree when some places of
//! their runs do: so nothing legal is lost and a program on these ways costs no more than the true one.

use std::collections::BTreeMap;

use super::grid::Grid;
use super::lattice::{Span, Stretch, centre, centre_unit, least_piece, pieces_sum, stretches};
use super::problem::{Group, Line, Pool};

/// A run of cuts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    /// Least sum of the pieces before the splice.
    pub from: i64,
    /// Greatest.
    pub to: i64,
    zone: u32,
    charge: i64,
}

/// One line made one way.
#[derive(Clone, Debug)]
struct Way {
    /// Rows its pieces count as.
    rows: Vec<usize>,
    /// How many splices (a piece under the shortest row counts as none of them).
    splices: i64,
    /// Money of splices and charges.
    money: i64,
    /// Money and worth of its pieces.
    value: i64,
    /// Where its splices may stand: zone and span of centres.
    stands: Vec<(u32, Span)>,
    /// Where its splices may be cut.
    cuts: Vec<Run>,
}

/// A group made one way.
#[derive(Clone, Debug)]
pub(super) struct Spliced {
    /// Index into the pool's groups.
    pub group: usize,
    /// Rows its pieces count as, ascending.
    pub rows: Vec<usize>,
    /// How many splices its lines have together.
    pub splices: i64,
    /// Money of splices and charges.
    pub money: i64,
    /// Where the splices of each line may be cut.
    pub lines: Vec<Vec<Run>>,
}

/// Ways of each group worth at most `over` more than the cheapest, and the cheapest's worth per group.
/// `None`: too many, or a line with more splices than are listed.
pub(super) fn list_ways(
    pool: &Pool,
    grid: &Grid,
    over: &dyn Fn(&[i64]) -> i64,
    most: usize,
    work: &mut u64,
) -> Option<(Vec<i64>, Vec<Spliced>)> {
    let mut made: Vec<(usize, Vec<Vec<Way>>)> = Vec::new();
    for (g, group) in pool.groups.iter().enumerate().filter(|(_, g)| g.count > 0) {
        let lines: Option<Vec<Vec<Way>>> = group
            .lines
            .iter()
            .map(|line| line_ways(group, line, pool.mark, grid, work))
            .collect();
        made.push((g, lines?));
    }
    let mut least = vec![0; pool.groups.len()];
    for (g, lines) in &made {
        let mut best = i64::MAX;
        each_pair(
            &pool.groups[*g],
            lines,
            &mut |value, _, _| {
                best = best.min(value);
                best
            },
            work,
        );
        if best == i64::MAX {
            return None;
        }
        least[*g] = best;
    }
    let over = over(&least);
    let mut all = Vec::new();
    for (g, lines) in &made {
        let mut kept: BTreeMap<(i64, Vec<usize>), Spliced> = BTreeMap::new();
        let limit = least[*g] + over;
        each_pair(
            &pool.groups[*g],
            lines,
            &mut |_, a, b| {
                let mut rows = a.rows.clone();
                let (mut money, mut splices) = (a.money, a.splices);
                if let Some(b) = b {
                    rows.extend(&b.rows);
                    money += b.money;
                    splices += b.splices;
                }
                rows.sort_unstable();
                let key = (splices, rows);
                let cheaper = kept.get(&key).is_none_or(|k| money < k.money);
                if cheaper && kept.len() <= most {
                    let mut lines = vec![a.cuts.clone()];
                    lines.extend(b.map(|b| b.cuts.clone()));
                    kept.insert(
                        key.clone(),
                        Spliced {
                            group: *g,
                            rows: key.1,
                            splices,
                            money,
                            lines,
                        },
                    );
                }
                limit
            },
            work,
        );
        if kept.len() > most {
            return None;
        }
        all.extend(kept.into_values());
    }
    Some((least, all))
}

/// Calls `take` with every agreeing pair of value at most what the last call gave back.
fn each_pair<'w>(
    group: &Group,
    lines: &'w [Vec<Way>],
    take: &mut dyn FnMut(i64, &'w Way, Option<&'w Way>) -> i64,
    work: &mut u64,
) {
    let apart = centre_unit(group) * group.apart;
    let mut limit = i64::MAX;
    for a in &lines[0] {
        let Some(others) = lines.get(1) else {
            if a.value <= limit {
                limit = take(a.value, a, None);
            }
            continue;
        };
        for b in others {
            *work += 4;
            if a.value + b.value > limit {
                break;
            }
            let clash = a.stands.iter().any(|x| {
                b.stands.iter().any(|y| {
                    let far = (x.1.1 - y.1.0).abs().max((y.1.1 - x.1.0).abs());
                    (group.zones_exclusive && x.0 == y.0) || far < apart
                })
            });
            if !clash {
                limit = take(a.value + b.value, a, Some(b));
            }
        }
    }
}

/// Ways of one line by rising value; `None` when it may take more than two splices.
fn line_ways(
    group: &Group,
    line: &Line,
    mark: i64,
    grid: &Grid,
    work: &mut u64,
) -> Option<Vec<Way>> {
    let mut ways = Vec::new();
    let unit = centre_unit(group);
    let class = group.class;
    for m in line.least_splices..=line.most_splices {
        let total = pieces_sum(line, mark, m.max(1));
        match m {
            0 => {
                if let Some(value) = grid.worth(class, line.whole) {
                    ways.push(Way {
                        rows: grid.below(class, line.whole).into_iter().collect(),
                        splices: 0,
                        money: 0,
                        value,
                        stands: Vec::new(),
                        cuts: Vec::new(),
                    });
                }
            }
            1 => one_splice(group, line, (mark, unit, total), grid, &mut ways),
            2 => two_splices(group, line, (mark, unit, total), grid, &mut ways),
            _ => return None,
        }
    }
    *work += ways.len() as u64 * 50;
    ways.sort_by(|a, b| a.value.cmp(&b.value).then(a.rows.cmp(&b.rows)));
    Some(ways)
}

/// Cuts of a stretch parted where the piece before the cut counts as another row.
fn runs(stretch: &Stretch, class: u8, mark: i64, grid: &Grid) -> Vec<Run> {
    let mut runs = Vec::new();
    let mut from = stretch.from;
    while from <= stretch.to {
        let end = match grid.next_over(class, from) {
            Some(over) => (over - 1).div_euclid(mark) * mark,
            None => stretch.to,
        };
        let to = end.min(stretch.to);
        runs.push(Run {
            from,
            to,
            zone: stretch.zone,
            charge: stretch.charge,
        });
        from = to + mark;
    }
    runs
}

/// The same with the piece after the cut.
fn last_runs(stretch: &Stretch, class: u8, (mark, total): (i64, i64), grid: &Grid) -> Vec<Run> {
    let turned = Stretch {
        from: total - stretch.to,
        to: total - stretch.from,
        ..*stretch
    };
    let turn = |r: Run| Run {
        from: total - r.to,
        to: total - r.from,
        ..r
    };
    runs(&turned, class, mark, grid)
        .into_iter()
        .map(turn)
        .collect()
}

fn one_splice(
    group: &Group,
    line: &Line,
    (mark, unit, total): (i64, i64, i64),
    grid: &Grid,
    ways: &mut Vec<Way>,
) {
    let class = group.class;
    for stretch in stretches(line, mark, unit, (1, 1), &[]) {
        for first in runs(&stretch, class, mark, grid) {
            let part = Stretch {
                from: first.from,
                to: first.to,
                ..stretch
            };
            for run in last_runs(&part, class, (mark, total), grid) {
                let pieces = [run.from, total - run.to];
                let at = |cut| centre(line, mark, unit, 1, 1, cut);
                let stands = vec![(run.zone, (at(run.from), at(run.to)))];
                let money = run.charge + group.splice_cost;
                ways.extend(way(grid, class, &pieces, money, stands, vec![run]));
            }
        }
    }
}

fn two_splices(
    group: &Group,
    line: &Line,
    (mark, unit, total): (i64, i64, i64),
    grid: &Grid,
    ways: &mut Vec<Way>,
) {
    let class = group.class;
    let least = -(-least_piece(line, mark)).div_euclid(mark) * mark;
    let seconds: Vec<Run> = stretches(line, mark, unit, (2, 2), &[])
        .iter()
        .flat_map(|s| last_runs(s, class, (mark, total), grid))
        .collect();
    for stretch in stretches(line, mark, unit, (2, 1), &[]) {
        for a in runs(&stretch, class, mark, grid) {
            for b in seconds.iter().filter(|b| b.zone != a.zone) {
                if b.to - a.from < least {
                    continue;
                }
                let x2 = b.from.max(a.from + least);
                let x1 = a.to.min(x2 - least);
                let pieces = [a.from, x2 - x1, total - b.to];
                let at = |j, cut| centre(line, mark, unit, 2, j, cut);
                let stands = vec![
                    (a.zone, (at(1, a.from), at(1, a.to))),
                    (b.zone, (at(2, b.from), at(2, b.to))),
                ];
                let money = a.charge + b.charge + 2 * group.splice_cost;
                ways.extend(way(grid, class, &pieces, money, stands, vec![a, *b]));
            }
        }
    }
}

/// A way from the least its pieces can be; `None` when a piece fits no stock.
fn way(
    grid: &Grid,
    class: u8,
    pieces: &[i64],
    money: i64,
    stands: Vec<(u32, Span)>,
    cuts: Vec<Run>,
) -> Option<Way> {
    let worth: Option<i64> = pieces.iter().map(|&p| grid.worth(class, p)).sum();
    let mut rows: Vec<usize> = pieces
        .iter()
        .filter_map(|&p| grid.below(class, p))
        .collect();
    rows.sort_unstable();
    Some(Way {
        rows,
        splices: pieces.len() as i64 - 1,
        money,
        value: money * grid.scale + worth? - (pieces.len() as i64 - 1) * grid.shares.1,
        stands,
        cuts,
    })
}
