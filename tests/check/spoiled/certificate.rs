//! Sound certificates spoiled in one place at a time: both verifiers refuse each, the crate's by its name.

use longpoint::check::Rule;
use longpoint::check::certificate::verify;
use longpoint::nest::{
    Branch, Counted, Cut, Leaf, Multiplier, Pattern, PoolAnswer, Problem, Status,
};
use longpoint::plan::NestWork;
use serde_json::json;

use crate::judge::{demo, names, planned, print};
use crate::outside;

/// A change to a sound certificate.
pub type SpoilProof = fn(&mut Problem, &mut Vec<PoolAnswer>, usize);

/// Changes the duals of every leaf: one leaf alone need not be the one the bound leans on.
fn each_leaf(answer: &mut PoolAnswer, change: fn(&mut Leaf)) {
    for node in &mut answer.proof {
        if let Branch::Leaf(leaf) = node {
            change(leaf);
        }
    }
}

pub const BOUND: &[(Rule, SpoilProof)] = &[
    (Rule::CertificateBound, |_, a, s| {
        each_leaf(&mut a[s], |leaf| leaf.item_duals.fill(0));
    }),
    (Rule::CertificateBound, |_, a, s| {
        // Twice what the stocks bear.
        each_leaf(&mut a[s], |leaf| {
            leaf.item_duals.iter_mut().for_each(|dual| *dual *= 2);
        });
    }),
    (Rule::CertificateBound, |_, a, s| {
        each_leaf(&mut a[s], |leaf| leaf.length_duals.clear());
    }),
    (Rule::CertificateBound, |_, a, s| {
        each_leaf(&mut a[s], |leaf| leaf.dual_scale /= 2);
    }),
    (Rule::CertificateDuals, |_, a, s| {
        each_leaf(&mut a[s], |leaf| leaf.item_duals[0] = -1);
    }),
    (Rule::CertificateDuals, |_, a, s| {
        each_leaf(&mut a[s], |leaf| {
            leaf.item_duals.pop();
        });
    }),
    (Rule::CertificateBound, |_, a, s| {
        a[s].bound = a[s].cost;
        each_leaf(&mut a[s], |leaf| {
            leaf.item_duals[0] -= leaf.item_duals[0] / 3
        });
    }),
    (Rule::CertificateStatus, |_, a, s| {
        a[s].bound = a[s].cost + 1
    }),
    (Rule::CertificateTree, |_, a, s| a[s].proof.clear()),
    (Rule::CertificateTree, |_, a, s| {
        // A second tree beside the first.
        let first = a[s].proof[0].clone();
        a[s].proof.push(first);
    }),
    (Rule::CertificateTree, |_, a, s| {
        // One side of a split twice, the other never.
        let first = a[s].proof[0].clone();
        let split = Branch::Split {
            counted: Counted::Joints(vec![0]),
            most: 3,
            under: 1,
            over: 1,
        };
        a[s].proof = vec![split, first];
    }),
    (Rule::CertificateTree, |_, a, s| {
        each_leaf(&mut a[s], |leaf| {
            leaf.multipliers.push(Multiplier {
                counted: Counted::Joints(vec![0]),
                value: -1,
            });
        });
    }),
];

pub const REST: &[(Rule, SpoilProof)] = &[
    (Rule::CertificateCost, |_, a, s| a[s].cost -= 1),
    (Rule::CertificateCost, |p, _, s| {
        p.pools[s].stocks[0].cost += 1
    }),
    (Rule::CertificateStatus, |_, a, s| {
        a[s].status = Status::Proved;
        a[s].bound = a[s].cost - 1;
    }),
    (Rule::CertificateShort, |_, a, s| {
        a[s].status = Status::Short
    }),
    (Rule::CertificatePattern, |_, a, s| {
        a[s].patterns[0].stock = 99
    }),
    (Rule::CertificatePattern, |_, a, s| {
        a[s].patterns[0].cuts.clear()
    }),
    (Rule::CertificatePattern, |_, a, s| {
        let again = a[s].patterns[0].cuts.clone();
        for _ in 0..9 {
            a[s].patterns[0].cuts.extend(again.clone());
        }
    }),
    (Rule::CertificatePattern, |p, _, s| {
        for stock in &mut p.pools[s].stocks {
            stock.serves = 2;
        }
    }),
    (Rule::CertificatePattern, |_, a, s| {
        // A class that no stock can serve: there are 32.
        let cuts = a[s].patterns.iter_mut().flat_map(|p| &mut p.cuts);
        for cut in cuts {
            if let Cut::Piece { class, .. } = cut {
                *class = 32;
            }
        }
    }),
    (Rule::CertificatePieceCount, |_, a, s| {
        let pieces = |p: &&mut Pattern| {
            let piece = |c: &Cut| matches!(c, Cut::Piece { .. });
            p.cuts.iter().any(piece)
        };
        let pattern = a[s].patterns.iter_mut().find(pieces);
        pattern.expect("pieces are cut").times += 1;
    }),
    (Rule::CertificateItemCount, |p, _, s| {
        p.pools[s].items[0].count += 1
    }),
    (Rule::CertificateStockLimit, |p, a, s| {
        p.pools[s].stocks[a[s].patterns[0].stock].limit = Some(0);
    }),
    (Rule::CertificateConfiguration, |_, a, s| {
        let line = &mut a[s].configurations[0].lines[0];
        line[1] += line[0] - 508;
        line[0] = 508;
    }),
    (Rule::CertificateConfiguration, |_, a, s| {
        a[s].configurations[0].group = 99
    }),
    (Rule::CertificateGroupCount, |_, a, s| {
        a[s].configurations[0].times += 1
    }),
    (Rule::CertificateSize, |p, _, s| {
        p.pools[s].items[0].length = 1 << 41
    }),
    (Rule::CertificatePools, |_, a, _| {
        a.pop();
    }),
];

/// The certificate of the larger demo week, and the pool in which gates are spliced top and bottom.
fn certificate() -> (NestWork, usize) {
    let work = planned(&demo("demo_us")).1.nest;
    let pair = |p: &longpoint::nest::Pool| p.groups.iter().any(|g| g.lines.len() == 2);
    let found = work.problem.pools.iter().position(pair);
    (work, found.expect("the demo week splices horizontals"))
}

#[test]
fn spoiled_certificates_are_refused_by_both() {
    let (work, at) = certificate();
    for (number, (rule, spoil)) in BOUND.iter().chain(REST).enumerate() {
        let (mut problem, mut answers) = (work.problem.clone(), work.answers.clone());
        spoil(&mut problem, &mut answers, at);
        let found = verify(&problem, &answers, None).expect_err(rule.name());
        assert!(
            names(&found, *rule),
            "{number}: {rule} not named in:\n{}",
            print(&found)
        );
        let nest = json!({ "nest": { "problem": problem, "answers": answers } });
        if let Some((code, text)) = outside::verify(&nest, &format!("spoiled-{number}")) {
            assert_eq!(code, 1, "{number} ({rule}): {text}");
        }
    }
}
