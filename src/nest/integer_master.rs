//! The restricted integer master: the best whole numbers of the columns that the root and the dives left,
//! by good_lp's pure-Rust solver. A budget of nodes ends it, never a clock, so the answer is the same
//! everywhere.

use std::collections::BTreeSet;

use ::microlp::{SolveOptions, SolveOutcome};
use good_lp::solvers::microlp::{MicroLpProblem, microlp};
use good_lp::{Expression, ProblemVariables, SolverModel, Variable, constraint, variable};

use super::answer::{Configuration, PoolAnswer};
use super::assemble::{Choice, assemble};
use super::bound::money_step;
use super::converge::Budget;
use super::master::{Master, Sort, pieces_at_most};
use super::rules::configuration_cost;

/// Columns taken, the cheapest by reduced cost.
const COLUMNS: usize = 600;
/// Nodes of branch and bound.
const NODES: u64 = 200;
/// Pivots that a node is taken to need when its steps are foreseen.
const PIVOTS: u64 = 12;
/// Steps of a pivot besides one per row and column.
const PIVOT: u64 = 2_000;
/// More feet than any plan is credited.
const MOST_FEET: f64 = 1e9;
/// Of the steps left, one part in so many, and never more than so many.
const PART: (u64, u64) = (8, 25_000_000);

/// The cheapest answer found over the program's columns and those `met` elsewhere on its rows; `None` when
/// the steps do not reach or nothing whole was found.
pub(super) fn whole_master(
    master: &Master<'_>,
    met: &[Sort],
    known: Option<i64>,
    spare: &[Configuration],
    budget: &mut Budget<'_>,
) -> Option<PoolAnswer> {
    let columns = columns(master, met);
    let rows = master.rows.len() + master.groups.len() + master.pool.stocks.len();
    let pivot = (rows * columns.len()) as u64 + PIVOT;
    let pivots = (budget.left / PART.0).min(PART.1) / pivot;
    let nodes = NODES.min(pivots.saturating_sub(rows as u64) / PIVOTS);
    budget.cut |= nodes == 0 && budget.left / PART.0 < PART.1;
    if nodes == 0 || budget.over() {
        return None;
    }
    let mut options = SolveOptions::default();
    options.node_limit = Some(nodes);
    if let Some(known) = known.filter(|k| *k > 0) {
        // Every cost is a multiple of the step: less than one step cheaper is not cheaper.
        options.tolerances.prune_epsilon = money_step(master.pool) as f64 * 0.9 / known as f64;
    }
    let program = program(master, &columns, known)?;
    let outcome = program.as_inner().solve_with(options).ok()?;
    budget.spend(outcome.stats().lp_iterations * pivot);
    let SolveOutcome::Solution(solution) = outcome else {
        return None;
    };
    let mut choice = Choice::default();
    for (sort, (_, value)) in columns.into_iter().zip(solution.iter()) {
        let times = value.round().clamp(0.0, f64::from(u32::MAX)) as u32;
        match sort {
            Sort::Pattern(stock, cuts) if times > 0 => {
                choice.patterns.push((*stock, cuts.clone(), times));
            }
            Sort::Splicing(group, lines) if times > 0 => {
                choice.splicings.push((*group, lines.clone(), times));
            }
            _ => {}
        }
    }
    assemble(master.pool, &master.rows, &choice, spare)
}

/// What a column costs; `None` for slacks, and for columns on rows the program does not have.
fn money(master: &Master<'_>, sort: &Sort) -> Option<i64> {
    match sort {
        Sort::Aid => None,
        Sort::Pattern(stock, cuts) => cuts
            .iter()
            .all(|c| c.0 < master.rows.len())
            .then(|| master.pattern_cost(*stock, cuts)),
        Sort::Splicing(group, lines) => {
            let group = &master.pool.groups[*group];
            let mut pieces = lines.iter().flatten();
            let held = pieces.all(|&p| master.row_above(group.class, p).is_some());
            configuration_cost(group, master.pool.mark, lines)
                .ok()
                .filter(|_| held)
        }
    }
}

/// The cheapest columns by reduced cost, in the order met.
fn columns<'s>(master: &'s Master<'_>, met: &'s [Sort]) -> Vec<&'s Sort> {
    let mut seen: BTreeSet<&Sort> = BTreeSet::new();
    let mut all: Vec<(f64, usize, &Sort)> = Vec::new();
    for sort in master.sorts.iter().chain(met) {
        let Some(money) = money(master, sort).filter(|_| seen.insert(sort)) else {
            continue;
        };
        let reduced = match sort {
            Sort::Aid => continue,
            Sort::Pattern(stock, cuts) => master.pattern_reduced(*stock, cuts),
            Sort::Splicing(group, lines) => master.splicing_reduced(*group, lines, money),
        };
        all.push((reduced, all.len(), sort));
    }
    all.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    all.truncate(COLUMNS);
    all.sort_by_key(|a| a.1);
    all.into_iter().map(|a| a.2).collect()
}

/// The program's sums while its columns are added.
struct Sums {
    money: Expression,
    supply: Vec<Expression>,
    groups: Vec<Expression>,
    stocks: Vec<Expression>,
    credited: Expression,
}

impl Sums {
    fn add(&mut self, master: &Master<'_>, sort: &Sort, times: Variable) -> Option<()> {
        let pool = master.pool;
        let money = money(master, sort)?;
        match sort {
            Sort::Aid => {}
            Sort::Pattern(stock, cuts) => {
                for &(row, count) in cuts {
                    self.supply[row].add_mul(f64::from(count), times);
                }
                self.stocks[*stock].add_mul(1.0, times);
                let credit = pool.stocks[*stock].cost - money;
                let feet = credit / pool.credit.per_foot.max(1);
                self.credited.add_mul(feet as f64, times);
            }
            Sort::Splicing(group, lines) => {
                let class = pool.groups[*group].class;
                for &piece in lines.iter().flatten() {
                    self.supply[master.row_above(class, piece)?].add_mul(-1.0, times);
                }
                self.groups[*group].add_mul(1.0, times);
                self.money.add_mul(money as f64 / master.unit, times);
            }
        }
        Some(())
    }
}

/// The program over these columns: covers, groups, limits of stocks; a longer piece serves a shorter need.
/// Money hangs on the counts of joints and of credited feet, so branching settles those first. The best plan
/// known is one more column that does everything: whatever is not cheaper is cut off.
fn program(master: &Master<'_>, columns: &[&Sort], known: Option<i64>) -> Option<MicroLpProblem> {
    let pool = master.pool;
    let many = pieces_at_most(pool) as f64;
    let mut all = ProblemVariables::new();
    let none = |n: usize| vec![Expression::default(); n];
    let mut sums = Sums {
        money: Expression::default(),
        supply: none(master.rows.len()),
        groups: none(pool.groups.len()),
        stocks: none(pool.stocks.len()),
        credited: Expression::default(),
    };
    for sort in columns {
        let most = match sort {
            Sort::Splicing(group, _) => f64::from(pool.groups[*group].count),
            _ => many,
        };
        let times = all.add(variable().integer().min(0.0).max(most));
        sums.add(master, sort, times)?;
    }
    for pair in master.linked.values().flat_map(|list| list.windows(2)) {
        let moved = all.add(variable().min(0.0).max(many));
        sums.supply[pair[0]].add_mul(1.0, moved);
        sums.supply[pair[1]].add_mul(-1.0, moved);
    }
    let most = if known.is_some() { 1.0 } else { 0.0 };
    let plan = all.add(variable().integer().min(0.0).max(most));
    let money = known.unwrap_or(0) as f64 / master.unit;
    sums.money.add_mul(money, plan);
    let mut equal: Vec<(Expression, f64)> = Vec::new();
    for (stock, taken) in pool.stocks.iter().zip(sums.stocks) {
        let most = stock.limit.map_or(many, |l| f64::from(l).min(many));
        let number = all.add(variable().integer().min(0.0).max(most));
        sums.money.add_mul(stock.cost as f64 / master.unit, number);
        equal.push((taken - number, 0.0));
    }
    let feet = all.add(variable().integer().min(0.0).max(MOST_FEET));
    let credit = pool.credit.per_foot as f64 / master.unit;
    sums.money.add_mul(-credit, feet);
    equal.push((sums.credited - feet, 0.0));
    for (group, made) in pool.groups.iter().zip(sums.groups) {
        let count = f64::from(group.count);
        equal.push((made + plan * count, count));
    }
    let mut program = all.minimise(sums.money).using(microlp);
    for (row, pieces) in master.rows.iter().zip(sums.supply) {
        let wanted = master.lp.right(row.lp);
        program.add_constraint(constraint!(pieces + plan * wanted.max(0.0) >= wanted));
    }
    for (sum, right) in equal {
        program.add_constraint(constraint!(sum == right));
    }
    Some(program)
}

#[cfg(test)]
mod tests {
    use super::super::problem::{Credit, Item, Pool, Stock};
    use super::*;

    /// Three joints hold 6 + 4 twice and 5 + 5; any other pattern chosen takes a fourth.
    #[test]
    fn finds_the_whole_numbers_that_a_plan_of_one_more_joint_hides() {
        let item = |length| Item {
            length,
            count: 2,
            class: 0,
        };
        let pool = Pool {
            name: "p".into(),
            mark: 1,
            kerf: 0,
            credit: Credit::NONE,
            stocks: vec![Stock {
                name: "s".into(),
                usable: 10,
                cost: 10,
                price: None,
                limit: None,
                serves: 1,
                length: 10,
            }],
            items: vec![item(6), item(5), item(4)],
            groups: Vec::new(),
        };
        let mut master = Master::new(&pool);
        for cuts in [vec![(0, 1)], vec![(1, 1), (2, 1)], vec![(1, 2)]] {
            master.add_pattern(0, cuts);
        }
        let met = [Sort::Pattern(0, vec![(0, 1), (2, 1)])];
        let never = || false;
        let solve = || {
            let mut budget = Budget::new(400_000_000, &never);
            let found = whole_master(&master, &met, Some(40), &[], &mut budget);
            (found, budget.left)
        };
        let (found, left) = solve();
        assert_eq!(found.as_ref().map(|f| f.cost), Some(30));
        assert!(left < 400_000_000, "its pivots are counted");
        assert_eq!(solve(), (found, left), "the same answer every time");
    }
}
