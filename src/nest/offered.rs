//! An answer from elsewhere, offered: taken where it is one of this problem too and costs less.
//!
//! Nothing is believed: its cost is the plain verification's, the bound and its proof stay the search's own.

use super::answer::{Answer, Configuration, Pattern, PoolAnswer, Status};
use super::charges::uncut;
use super::cost::{cost, cost_with_charges, cost_with_uncut};
use super::problem::Problem;

/// What is cut and spliced of one pool.
pub type PoolOffer = (Vec<Pattern>, Vec<Configuration>);

/// Takes the offer (pools in the problem's order) where it is cheaper; true when it was. Without charges
/// each pool is taken or left by itself.
pub fn take_offer(problem: &Problem, answer: &mut Answer, offer: &[PoolOffer]) -> bool {
    if offer.len() != problem.pools.len() || answer.pools.len() != offer.len() {
        return false;
    }
    match answer.whole.is_some() {
        true => take_whole(problem, answer, offer),
        false => {
            let mut taken = false;
            for (p, offered) in offer.iter().enumerate() {
                taken |= take_pool(problem, p, &mut answer.pools[p], offered);
            }
            taken
        }
    }
}

fn take_pool(problem: &Problem, p: usize, own: &mut PoolAnswer, offer: &PoolOffer) -> bool {
    let Ok(offered) = cost(&problem.pools[p], &offer.0, &offer.1) else {
        return false;
    };
    let open = matches!(own.status, Status::Within);
    if !open || offered >= own.cost || offered < own.bound {
        return false;
    }
    *own = settled(own, offer, offered);
    true
}

fn take_whole(problem: &Problem, answer: &mut Answer, offer: &[PoolOffer]) -> bool {
    let own = answer.pools.iter().zip(offer);
    let pools: Vec<PoolAnswer> = own.map(|(own, o)| settled(own, o, own.cost)).collect();
    let (Ok((cost, charges)), Some(whole)) =
        (cost_with_charges(problem, &pools), answer.whole.as_mut())
    else {
        return false;
    };
    let open = matches!(whole.status, Status::Within);
    if !open || cost >= whole.cost || cost < whole.bound {
        return false;
    }
    let may = uncut(problem);
    let each: Result<Vec<PoolAnswer>, _> = pools
        .iter()
        .zip(offer)
        .enumerate()
        .map(|(p, (own, o))| {
            let money = cost_with_uncut(&problem.pools[p], &o.0, &o.1, &may[p]);
            money.map(|m| settled(own, o, m))
        })
        .collect();
    let Ok(each) = each else {
        return false;
    };
    answer.pools = each;
    (whole.cost, whole.charges) = (cost, charges);
    if whole.bound == cost {
        whole.status = Status::Proved;
    }
    true
}

/// The answer with what is offered in place of its own.
fn settled(own: &PoolAnswer, (patterns, configurations): &PoolOffer, cost: i64) -> PoolAnswer {
    PoolAnswer {
        patterns: patterns.clone(),
        configurations: configurations.clone(),
        cost,
        status: match own.bound >= cost {
            true => Status::Proved,
            false => Status::Within,
        },
        short: Vec::new(),
        short_groups: Vec::new(),
        ..own.clone()
    }
}
