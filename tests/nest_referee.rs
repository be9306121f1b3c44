//! Random tiny jobs through the engine and through the plain referee.

mod referee;

use longpoint::check::certificate::verify;
use longpoint::nest::{Limits, NoWatch, Problem, Status, cost, solve};

use referee::{Dice, group_ways, outcomes, tiny};

/// (jobs, proved, equal to the optimum without proof, short).
fn compare(seed: u64, jobs: usize) -> (usize, usize, usize, usize) {
    let mut dice = Dice(seed);
    let (mut proved, mut equal, mut short, mut done) = (0, 0, 0, 0);
    while done < jobs {
        let pool = tiny(&mut dice);
        let pieces: u32 = pool.items.iter().map(|i| i.count).sum();
        let configurations: usize = pool
            .groups
            .iter()
            .map(|g| group_ways(g, pool.mark).len().pow(g.count))
            .sum();
        if pieces > 7 || configurations > 300 {
            continue;
        }
        done += 1;
        let problem = Problem {
            aim: Default::default(),
            pools: vec![pool.clone()],
            charges: Vec::new(),
        };
        let answer = solve(&problem, &Limits::default(), &NoWatch).expect("admitted");
        let answer = &answer.pools[0];
        match (outcomes(&pool).into_values().min(), answer.status) {
            (Some(best), Status::Short) => {
                panic!("job {done}: short, but {best} does it: {pool:?}")
            }
            (None, Status::Short) => short += 1,
            (None, _) => panic!("job {done}: cut what cannot be cut: {pool:?}"),
            (Some(best), status) => {
                let exact = cost(&pool, &answer.patterns, &answer.configurations);
                assert_eq!(exact, Ok(answer.cost));
                let verified = verify(&problem, std::slice::from_ref(answer), None);
                assert!(
                    verified.is_ok(),
                    "job {done}: {verified:?}: {pool:?} {answer:?}"
                );
                assert!(
                    answer.bound <= best,
                    "job {done}: bound {} over {best}: {pool:?}",
                    answer.bound
                );
                assert!(
                    best <= answer.cost,
                    "job {done}: under the optimum {best}: {pool:?}"
                );
                let closed = matches!(status, Status::Proved | Status::ProvedBySearch);
                proved += usize::from(closed);
                equal += usize::from(best == answer.cost && !closed);
                assert!(
                    !closed || best == answer.cost,
                    "job {done}: false proof: {pool:?}"
                );
            }
        }
    }
    println!("{jobs} jobs: {proved} proved, {equal} equal unproved, {short} short");
    (done, proved, equal, short)
}

#[test]
fn a_thousand_tiny_jobs() {
    let (jobs, proved, equal, short) = compare(20_260_601, 1000);
    // Not a claim about the engine's worth, only that the comparison is not empty.
    assert!(
        proved * 3 > jobs && short < jobs / 2,
        "{proved} {equal} {short}"
    );
}

/// Slow: run with `cargo test --release --test nest_referee -- --ignored`.
#[test]
#[ignore = "minutes"]
fn twenty_thousand_tiny_jobs() {
    let (_, proved, equal, short) = compare(7, 20_000);
    assert!(proved + equal + short > 19_000);
}
