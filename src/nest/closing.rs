//! Closing the gap of a small pool by search: list every pattern and every way of splicing that a cheaper
//! plan may hold, and solve the whole-number program over them exactly.
//!
//! Pieces of spliced lines count as rows not longer than they are, so the program never costs more than
//! the truth: when it holds nothing cheaper than the best plan, that plan is *proved by search*. A cheaper
//! solution either becomes a plan, or shows which lengths must be told apart; then again.

use std::collections::BTreeSet;

use super::answer::{Configuration, PoolAnswer, Status};
use super::assemble::{Choice, assemble};
use super::bound::money_step;
use super::converge::Budget;
use super::grid::Grid;
use super::leaves::{Place, Span, places};
use super::listing::{Listed, Tables, list_patterns};
use super::master::{Row, pieces_at_most};
use super::problem::Pool;
use super::realise::{Room, shortest, too_long};
use super::tie::is_taken;
use super::ways::{Spliced, list_ways};
use super::whole_numbers::{Column, Program, cheapest_whole};

/// Lengths of classes.
type Lengths = BTreeSet<(u8, i64)>;

/// How much a closing search may look at.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reach {
    /// Rows × columns, and nodes, of a program of all a better plan may hold.
    pub whole: (usize, u64),
    /// The same of a program of a part of it.
    pub part: (usize, u64),
    /// Programs.
    pub rounds: u32,
}

/// Tries to prove the answer by search or to better it, leaf by leaf of its proof, least bound first. True
/// when it is proved.
pub(super) fn close(
    pool: &Pool,
    answer: &mut PoolAnswer,
    spare: &[Configuration],
    reach: Reach,
    budget: &mut Budget<'_>,
) -> bool {
    if !is_told_apart(pool) {
        return false;
    }
    let mut open: Vec<(i128, usize, Place)> = places(pool, &answer.proof)
        .into_iter()
        .enumerate()
        .map(|(n, place)| {
            let grid = Grid::new(pool, &place, &[]);
            let mut work = 0;
            let base = Bases::new(
                pool,
                &grid,
                &place,
                &mut Tables::new(pool, &grid),
                &mut work,
            );
            budget.spend(work);
            (base.sum, n, place)
        })
        .collect();
    open.sort_by_key(|o| (o.0, o.1));
    let mut proved = true;
    for (base, _, place) in open {
        let scale = i128::from(place.leaf.dual_scale);
        if pool.groups.is_empty() && base > i128::from(answer.cost - money_step(pool)) * scale {
            continue;
        }
        proved &= close_leaf(pool, answer, (&place, spare), (reach, false), budget);
        if budget.over() {
            return false;
        }
    }
    proved && answer.status != Status::Short
}

/// The same for one leaf; `all`: only where everything cheaper can be listed at once.
pub(super) fn close_leaf(
    pool: &Pool,
    answer: &mut PoolAnswer,
    (place, spare): (&Place, &[Configuration]),
    (reach, all): (Reach, bool),
    budget: &mut Budget<'_>,
) -> bool {
    let mut extra = Lengths::new();
    let step = money_step(pool);
    // A part of the gap first: its few columns better the plan, and then the whole gap is smaller.
    let (mut share, mut too_many) = (if all { WHOLE } else { FIRST_SHARE }, false);
    for _ in 0..reach.rounds {
        if answer.status == Status::Short || budget.over() {
            return false;
        }
        let lengths: Vec<(u8, i64)> = extra.iter().copied().collect();
        let grid = Grid::new(pool, place, &lengths);
        let (cells, nodes) = if share == WHOLE {
            reach.whole
        } else {
            reach.part
        };
        let most = cells / grid.rows.len().max(1);
        let goal = place.under(pool, answer.cost);
        let Some(listed) = list(pool, (&grid, place), (goal, share), most, budget) else {
            if share == 1 || all {
                return false;
            }
            (share, too_many) = (share.min(FIRST_SHARE) / 2, true);
            continue;
        };
        let program = program(pool, (&grid, place), &listed);
        let found = cheapest_whole(&program, goal + step, step, nodes, budget);
        let whole = found.closed && share == WHOLE;
        if share == WHOLE && !found.closed && found.best.is_none() {
            return false;
        }
        let Some((money, counts)) = found.best else {
            if whole || too_many {
                return whole;
            }
            share = WHOLE;
            continue;
        };
        let (choice, [asked, finer]) = chosen(pool, &grid, &listed, &counts);
        let better = assemble(pool, &rows(&grid), &choice, spare);
        let better = better.filter(|b| is_taken(pool, b, answer));
        let bettered = better.as_ref().is_some_and(|b| b.cost < answer.cost);
        if let Some(better) = better {
            super::improve::replace(answer, better);
        }
        if whole && place.under(pool, answer.cost) < money {
            return true;
        }
        let before = extra.len();
        let other = complements(pool, &asked);
        extra.extend(other);
        extra.extend(asked);
        if extra.len() == before {
            extra.extend(finer);
        }
        if bettered {
            too_many = false;
        } else if extra.len() == before {
            if whole || too_many || !found.closed {
                return false;
            }
            share = WHOLE;
        }
    }
    false
}

/// Steps of money in the dearest joint past which floats could take one plan for another.
const FINEST: i64 = 1_000_000;

/// Floats can tell a plan from the next cheaper one.
pub(super) fn is_told_apart(pool: &Pool) -> bool {
    let dearest = pool.stocks.iter().map(|s| s.cost).max().unwrap_or(0);
    dearest / FINEST <= money_step(pool)
}

/// When a piece is just too long for its place, the line's other piece is at least so long when it is not.
fn complements(pool: &Pool, asked: &Lengths) -> Lengths {
    let mut others = Lengths::new();
    for group in pool.groups.iter().filter(|g| g.count > 0) {
        for line in group.lines.iter().filter(|l| l.most_splices > 0) {
            let total = super::lattice::pieces_sum(line, pool.mark, 1);
            let least = super::lattice::least_piece(line, pool.mark);
            for &(class, length) in asked.iter().filter(|a| a.0 == group.class) {
                let other = total - (length - pool.mark);
                if other >= least && length > least {
                    others.insert((class, other));
                }
            }
        }
    }
    others
}

/// Parts of the gap listed first, and all of them.
const FIRST_SHARE: i64 = 64;
const WHOLE: i64 = 256;

/// Everything a better plan may hold.
struct Lists {
    patterns: Vec<Listed>,
    ways: Vec<Spliced>,
}

/// The parts of a leaf's bound in units of 1/scale money, splices aside.
struct Bases {
    /// Per stock what a joint's reduced cost is counted from; `i64::MAX` when none may be taken.
    stock: Vec<i64>,
    /// Items, joints and multipliers together.
    sum: i128,
}

impl Bases {
    fn new(
        pool: &Pool,
        grid: &Grid,
        place: &Place,
        tables: &mut Tables<'_>,
        work: &mut u64,
    ) -> Bases {
        let mut bases = Bases {
            stock: Vec::new(),
            sum: grid.items_worth()
                + cheapest_count(grid.shares.0, place.joints)
                + cheapest_count(grid.shares.1, place.splices),
        };
        let least = tables.least_reduced(pool, grid);
        *work += tables.work();
        for (reduced, span) in least.into_iter().zip(&place.stock) {
            bases.sum += cheapest_count(reduced, *span);
            bases.stock.push(match span {
                (_, 0) => i64::MAX,
                (0, _) => reduced.min(0),
                _ => reduced,
            });
        }
        bases
    }
}

/// The least of `each` × a number within the span.
fn cheapest_count(each: i64, (least, most): Span) -> i128 {
    i128::from(each) * i128::from(if each > 0 { least } else { most })
}

fn list(
    pool: &Pool,
    (grid, place): (&Grid, &Place),
    (goal, share): (i64, i64),
    most: usize,
    budget: &mut Budget<'_>,
) -> Option<Lists> {
    let mut work = 0;
    let mut tables = Tables::new(pool, grid);
    let bases = Bases::new(pool, grid, place, &mut tables, &mut work);
    let goal = i128::from(goal) * i128::from(grid.scale);
    let gap = |ways: &[i64]| {
        let groups: i128 = pool
            .groups
            .iter()
            .zip(ways)
            .map(|(g, q)| i128::from(*q) * i128::from(g.count))
            .sum();
        goal - bases.sum - groups
    };
    let over = |ways: &[i64]| {
        let part = gap(ways) * i128::from(share) / i128::from(WHOLE);
        i64::try_from(part).unwrap_or(i64::MAX / 4)
    };
    let ways = list_ways(pool, grid, &over, most, &mut work);
    let patterns = ways.as_ref().and_then(|(q, _)| {
        if gap(q) < 0 {
            // Nothing cheaper lies here.
            return Some(Vec::new());
        }
        list_patterns(
            (pool, grid, &tables),
            (&bases.stock, over(q)),
            most,
            &mut work,
        )
    });
    budget.spend(work);
    Some(Lists {
        patterns: patterns?,
        ways: ways?.1,
    })
}

/// The whole-number program: covers, groups, joints of each stock and of all, splices.
fn program(pool: &Pool, (grid, place): (&Grid, &Place), lists: &Lists) -> Program {
    let many = pieces_at_most(pool) as f64 * 2.0 + 10.0;
    let mut program = Program::default();
    for row in &grid.rows {
        program.rows.push((f64::from(row.want), many));
    }
    let groups = program.rows.len();
    for group in &pool.groups {
        let count = f64::from(group.count);
        program.rows.push((count, count));
    }
    let stocks = program.rows.len();
    let span = |(least, most): Span| (least as f64, (most as f64).min(many));
    for stock in &place.stock {
        program.rows.push(span(*stock));
    }
    let joints = program.rows.len();
    program.rows.push(span(place.joints));
    let splices = program.rows.len();
    program.rows.push(span(place.splices));
    let feet = program.rows.len();
    program.rows.push((0.0, feet_at_most(pool, many)));
    program.whole_rows = (stocks..=feet).collect();
    for (stock, cuts) in &lists.patterns {
        let weight = cuts
            .iter()
            .map(|&(r, n)| (grid.rows[r].length + pool.kerf) * i64::from(n))
            .sum();
        let mut entries: Vec<(u32, f64)> = cuts
            .iter()
            .map(|&(r, n)| (r as u32, f64::from(n)))
            .collect();
        entries.extend([((stocks + stock) as u32, 1.0), (joints as u32, 1.0)]);
        let cost = pool.stocks[*stock].cost;
        let money = super::best_fit::net(pool, *stock, weight).unwrap_or(cost);
        if money < cost {
            // With the counts of stocks whole, whole feet make the money step by a foot's credit.
            let credited = (cost - money) / pool.credit.per_foot;
            entries.push((feet as u32, credited as f64));
        }
        program.columns.push(Column {
            money,
            most: (place.stock[*stock].1 as f64).min(many),
            entries,
            whole: true,
        });
    }
    for way in &lists.ways {
        let group = &pool.groups[way.group];
        let mut entries: Vec<(u32, f64)> = way.rows.iter().map(|&r| (r as u32, -1.0)).collect();
        entries.push(((groups + way.group) as u32, 1.0));
        entries.push((splices as u32, way.splices as f64));
        program.columns.push(Column {
            money: way.money,
            most: f64::from(group.count),
            entries,
            whole: true,
        });
    }
    for list in grid.linked.values() {
        for pair in list.windows(2) {
            program.columns.push(Column {
                money: 0,
                most: many,
                entries: vec![(pair[1] as u32, -1.0), (pair[0] as u32, 1.0)],
                whole: false,
            });
        }
    }
    program
}

/// Feet that may be credited at most.
fn feet_at_most(pool: &Pool, joints: f64) -> f64 {
    let longest = pool.stocks.iter().map(|s| s.usable).max().unwrap_or(0);
    joints * (longest / pool.credit.foot.max(1) + 1) as f64
}

fn rows(grid: &Grid) -> Vec<Row> {
    grid.rows
        .iter()
        .map(|r| Row {
            class: r.class,
            length: r.length,
            item: None,
            lp: 0,
        })
        .collect()
}

/// What a solution chose; the lengths that tell it from what its joints cannot hold, and the lengths of
/// pieces that found no room.
fn chosen(pool: &Pool, grid: &Grid, lists: &Lists, counts: &[u32]) -> (Choice, [Lengths; 2]) {
    let mut choice = Choice::default();
    let (mut asked, mut finer) = (Lengths::new(), Lengths::new());
    let mut room = Room::default();
    for ((stock, cuts), &times) in lists.patterns.iter().zip(counts) {
        if times > 0 {
            choice.patterns.push((*stock, cuts.clone(), times));
            room.add(pool, grid, (*stock, cuts), times);
            asked.extend(too_long(pool, grid, *stock, cuts));
        }
    }
    for (way, &times) in lists.ways.iter().zip(&counts[lists.patterns.len()..]) {
        for _ in 0..times {
            match room.make(pool, grid, way) {
                Some(lines) => choice.splicings.push((way.group, lines, 1)),
                None => finer.extend(shortest(pool, way)),
            }
        }
    }
    (choice, [asked, finer])
}
