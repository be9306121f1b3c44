//! The simplex against a general-purpose solver.

use super::super::made::Dice;
use super::*;
use good_lp::{Expression, Solution, SolverModel, constraint, microlp, variable, variables};

#[test]
fn agrees_with_good_lp_on_random_covering_programs() {
    let mut dice = Dice(7);
    for _ in 0..60 {
        let rows = 3 + dice.below(12) as usize;
        let many = 5 + dice.below(40) as usize;
        let right: Vec<f64> = (0..rows).map(|_| dice.below(20) as f64).collect();
        let cap = dice.below(30) as f64;
        let mut lp = Simplex::default();
        for r in &right {
            lp.add_row(Sense::Ge, *r, 50.0);
        }
        lp.add_row(Sense::Le, cap, 500.0);
        let mut vars = variables!();
        let mut sums: Vec<Expression> = vec![0.into(); rows + 1];
        let mut aim: Expression = 0.into();
        for (r, sum) in sums.iter_mut().enumerate() {
            let unmet = vars.add(variable().min(0));
            aim += if r < rows { 50.0 } else { 500.0 } * unmet;
            *sum += if r < rows { 1.0 } else { -1.0 } * unmet;
        }
        for j in 0..many {
            let cost = 1.0 + dice.below(100) as f64 / 10.0;
            let mut entries: Vec<(u32, f64)> = Vec::new();
            for r in 0..rows {
                if dice.whether(3) {
                    entries.push((r as u32, (1 + dice.below(4)) as f64));
                }
            }
            if j % 2 == 0 {
                entries.push((rows as u32, 1.0));
            }
            let x = vars.add(variable().min(0));
            aim += cost * x;
            for &(r, a) in &entries {
                sums[r as usize] += a * x;
            }
            lp.add_column(cost, entries);
            if j % 7 == 0 {
                assert!(lp.solve(10_000, &mut |_| false));
            }
        }
        assert!(lp.solve(10_000, &mut |_| false));
        // Change a right side: dual steps.
        lp.set_right(0, right[0] + 3.0);
        assert!(lp.solve(10_000, &mut |_| false));
        let mut model = vars.minimise(aim.clone()).using(microlp);
        for (r, sum) in sums.into_iter().enumerate() {
            model = if r < rows {
                model.with(constraint!(
                    sum >= right[r] + if r == 0 { 3.0 } else { 0.0 }
                ))
            } else {
                model.with(constraint!(sum <= cap))
            };
        }
        let solution = model.solve().expect("always feasible");
        let other = solution.eval(&aim);
        let ours = lp.objective();
        assert!(
            (ours - other).abs() < 1e-6 * (1.0 + other.abs()),
            "{ours} against {other}"
        );
    }
}

/// A row added after the solve does what it would have done from the start.
#[test]
fn a_cut_is_a_row_like_any_other() {
    let mut dice = Dice(9);
    let mut dearer = 0;
    for _ in 0..80 {
        let rows = 3 + dice.below(10) as usize;
        let right: Vec<f64> = (0..rows).map(|_| dice.below(20) as f64).collect();
        let many = 10 + dice.below(30) as usize;
        let columns: Vec<_> = (0..many)
            .map(|_| {
                let cost = 1.0 + dice.below(100) as f64 / 10.0;
                let held = (0..rows).filter(|_| dice.whether(3));
                let entries: Vec<(u32, f64)> = held.map(|r| (r as u32, 1.0)).collect();
                (cost, entries, dice.below(3) as f64 - 1.0)
            })
            .collect();
        let most = dice.below(9) as f64 - 4.0;
        let objective = |early: bool| {
            let mut lp = Simplex::default();
            for r in &right {
                lp.add_row(Sense::Ge, *r, 50.0);
            }
            let row = early.then(|| lp.add_cut(most, 50.0, &[]));
            let mut cut = Vec::new();
            for (cost, entries, a) in &columns {
                let own = row.map(|r| (r as u32, *a)).filter(|e| e.1 != 0.0);
                let entries = entries.iter().copied().chain(own).collect();
                cut.push((lp.add_column(*cost, entries), *a));
            }
            assert!(lp.solve(10_000, &mut |_| false));
            let before = lp.objective();
            if !early {
                cut.retain(|c| c.1 != 0.0);
                lp.add_cut(most, 50.0, &cut);
                assert!(lp.solve(10_000, &mut |_| false) && lp.is_feasible());
            }
            (before, lp.objective())
        };
        let (with, (without, after)) = (objective(true).1, objective(false));
        assert!(
            (with - after).abs() < 1e-6 * (1.0 + with.abs()),
            "{with} {after}"
        );
        dearer += usize::from(after > without + 1e-6);
    }
    assert!(dearer > 20, "{dearer}");
}

/// Started from the basis of a solved program it has that program's answer at once, and from the basis of one with
/// other right sides it comes to the same as from nothing.
#[test]
fn a_basis_handed_over_leads_to_the_same_answer() {
    let mut dice = Dice(5);
    let mut moved = 0;
    for _ in 0..80 {
        let rows = 3 + dice.below(12) as usize;
        let mut sides = || -> Vec<f64> { (0..rows).map(|_| dice.below(9) as f64).collect() };
        let (right, other) = (sides(), sides());
        let columns: Vec<(f64, Vec<(u32, f64)>)> = (0..10 + rows * 2)
            .map(|_| {
                let cost = 1.0 + dice.below(100) as f64 / 10.0;
                let held = (0..rows).filter(|_| dice.whether(3));
                (cost, held.map(|r| (r as u32, 1.0)).collect())
            })
            .collect();
        let program = |right: &[f64]| {
            let mut lp = Simplex::default();
            for r in right {
                lp.add_row(Sense::Ge, *r, 50.0);
            }
            for (cost, entries) in &columns {
                lp.add_column(*cost, entries.clone());
            }
            lp
        };
        let mut solved = program(&right);
        assert!(solved.solve(10_000, &mut |_| false));
        let basis: Vec<usize> = solved.basics().map(|(column, _)| column).collect();
        let mut same = program(&right);
        same.start_from(&basis);
        assert!((same.objective() - solved.objective()).abs() < 1e-6);
        let (mut warm, mut cold) = (program(&other), program(&other));
        warm.start_from(&basis);
        assert!(warm.is_feasible());
        assert!(warm.solve(10_000, &mut |_| false) && cold.solve(10_000, &mut |_| false));
        assert!((warm.objective() - cold.objective()).abs() < 1e-6);
        moved += usize::from((cold.objective() - solved.objective()).abs() > 1e-6);
    }
    assert!(moved > 40, "{moved}");
}
