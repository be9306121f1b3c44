//! Refuses charges whose numbers or sets cannot be trusted; see [`super::super::admit`].

use super::super::admit::{MOST, MOST_MONEY, MOST_PIECES};
use super::super::charge::{Charge, ChargeKind};
use super::super::fault::NestFault;
use super::super::problem::{Problem, Stock};
use super::reach::most_joints;

/// Checks every charge of a problem whose pools are admitted.
pub(in crate::nest) fn admit_charges(problem: &Problem) -> Result<(), NestFault> {
    for (c, charge) in problem.charges.iter().enumerate() {
        let twice = problem.charges[..c].iter().any(|o| o.name == charge.name);
        if twice {
            return Err(fault(charge, "occurs twice"));
        }
        admit_set(problem, charge)?;
        admit_kind(charge)?;
        admit_stocks(problem, charge)?;
    }
    admit_sums(problem)
}

fn fault(charge: &Charge, what: impl Into<String>) -> NestFault {
    NestFault::Charge {
        charge: charge.name.clone(),
        what: what.into(),
    }
}

/// The set is not empty, ascending, and of stocks that exist.
fn admit_set(problem: &Problem, charge: &Charge) -> Result<(), NestFault> {
    if charge.over.is_empty() {
        return Err(fault(charge, "is over no stock"));
    }
    for at in &charge.over {
        let pool = problem.pools.get(at.pool);
        if pool.is_none_or(|p| at.stock >= p.stocks.len()) {
            let what = format!(
                "names stock {} of pool {}: there is none",
                at.stock, at.pool
            );
            return Err(fault(charge, what));
        }
    }
    if charge.over.windows(2).any(|w| w[0] >= w[1]) {
        return Err(fault(charge, "names its stocks out of order or twice"));
    }
    Ok(())
}

fn admit_kind(charge: &Charge) -> Result<(), NestFault> {
    let within = |what: &str, value: i64, least: i64, most: i64| {
        if (least..=most).contains(&value) {
            Ok(())
        } else {
            let what = format!("has {what} of {value}; {least} to {most} is allowed");
            Err(fault(charge, what))
        }
    };
    let pieces = i64::try_from(MOST_PIECES).unwrap_or(MOST);
    match charge.kind {
        ChargeKind::Fixed { amount, free_over } => {
            within("an amount", amount, 0, MOST)?;
            within("a free amount", free_over.unwrap_or(1), 1, MOST)
        }
        ChargeKind::Lift {
            lift,
            fee,
            part_fee,
        } => {
            within("a lift", i64::from(lift), 1, pieces)?;
            within("a fee", fee, 0, MOST)?;
            within("a part-lift fee", part_fee, 0, MOST)
        }
        ChargeKind::Minimum { least } => within("a minimum", least, 0, MOST),
        ChargeKind::Range { least, most } => {
            within("a least count", i64::from(least), 0, pieces)?;
            within(
                "a most count",
                i64::from(most.unwrap_or(least)),
                i64::from(least),
                MOST,
            )
        }
    }
}

/// Where prices are summed each stock has one.
fn admit_stocks(problem: &Problem, charge: &Charge) -> Result<(), NestFault> {
    for at in &charge.over {
        let pool = &problem.pools[at.pool];
        let stock: &Stock = &pool.stocks[at.stock];
        let name = format!("{} of {}", stock.name, pool.name);
        if charge.kind.counts_prices() && stock.price() < 1 {
            return Err(fault(charge, format!("sums prices, and {name} has none")));
        }
    }
    Ok(())
}

/// Joints, prices and charges of the whole problem stay within exact arithmetic.
fn admit_sums(problem: &Problem) -> Result<(), NestFault> {
    let most = most_joints(problem);
    let mut all = 0i128;
    for charge in &problem.charges {
        let (mut n, mut m) = (0i128, 0i128);
        for at in &charge.over {
            let joints = i128::from(most[at.pool][at.stock]);
            let stock = &problem.pools[at.pool].stocks[at.stock];
            n += joints;
            m += joints * i128::from(stock.price().max(stock.cost));
        }
        all += m + match charge.kind {
            ChargeKind::Fixed { amount, .. } => i128::from(amount),
            ChargeKind::Lift { fee, part_fee, .. } => n * i128::from(fee) + i128::from(part_fee),
            ChargeKind::Minimum { least } => i128::from(least),
            ChargeKind::Range { .. } => 0,
        };
        if n > i128::from(MOST_PIECES) || all > MOST_MONEY {
            return Err(fault(charge, "is over joints or money too large to add up"));
        }
    }
    Ok(())
}
