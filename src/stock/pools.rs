//! Stock of each pipe: quotes and rack pieces, each with its own U, what taking one costs, and what
//! a kept drop is credited.

use rust_decimal::{Decimal, RoundingStrategy};

use super::landed::{landed_price, tax_rate};
use super::usable::{on_sale, usable_of_new};
use super::{DeliveryDays, PoolSource, PoolStock, StockOrigin};
use crate::measure::{Length, Money};
use crate::order::{Impossible, PipeId, Quote, RackPiece, Saw, Week};
use crate::part::TakeOff;

/// In an unpriced pool a joint costs this many units plus its planning length in whole feet (up):
/// fewest joints first, then least pipe. Rack pieces are free there and drops earn nothing.
pub const UNPRICED_JOINT: i64 = 1_000_000;
/// In an unpriced pool a splice costs this many units: never worth a joint.
pub const UNPRICED_SPLICE: i64 = 1_000;

/// U of a rack piece: only ends that still want a trim lose one; may be ≤ 0.
pub fn usable_of_piece(saw: &Saw, piece: &RackPiece) -> Length {
    let (near, far) = trims(saw, piece);
    piece.length - near - far - saw.hold_back
}

fn trims(saw: &Saw, piece: &RackPiece) -> (Length, Length) {
    let only = |wanted: bool, trim: Length| if wanted { trim } else { Length::ZERO };
    (
        only(piece.near_trim, saw.near_trim),
        only(piece.far_trim, saw.far_trim),
    )
}

/// The stock side of every pipe that the week's own parts need, in pipe order.
///
/// # Errors
/// Every joint on sale that would pay more as a drop than it costs, by name.
pub fn pools(week: &Week, take_off: &TakeOff) -> Result<Vec<PoolSource>, Vec<Impossible>> {
    let mut pipes: Vec<PipeId> = take_off
        .parts
        .iter()
        .filter(|p| p.ours && p.count > 0)
        .map(|p| p.pipe)
        .collect();
    pipes.sort_unstable();
    pipes.dedup();
    pools_of(week, &pipes)
}

/// As [`pools`], for these pipes.
///
/// # Errors
/// As [`pools`].
pub fn pools_of(week: &Week, pipes: &[PipeId]) -> Result<Vec<PoolSource>, Vec<Impossible>> {
    let mut faults = Vec::new();
    let mut out = Vec::new();
    for pipe in pipes {
        let pool = pool(week, *pipe);
        faults.extend(
            pool.stocks
                .iter()
                .filter_map(|s| pays_as_a_drop(week, &pool, s)),
        );
        out.push(pool);
    }
    if faults.is_empty() {
        Ok(out)
    } else {
        Err(faults)
    }
}

fn pool(week: &Week, pipe: PipeId) -> PoolSource {
    let saw = &week.shop.saw;
    // Without a single quote no money is known, not of what the rack is worth either.
    let quoted = !week.quotes.is_empty();
    let priced = quoted && on_sale(week, pipe).all(|(_, q)| millicents(week, q).is_some());
    let mut source = PoolSource {
        pipe,
        stocks: Vec::new(),
        days: DeliveryDays::of(week, pipe),
        credit_per_foot: if priced {
            credit_per_foot(week, pipe)
        } else {
            Money::ZERO
        },
        priced,
    };
    for (index, quote) in on_sale(week, pipe) {
        let priced_cost = millicents(week, quote).filter(|_| priced);
        let taxed = priced && tax_rate(week, quote) > Decimal::ZERO;
        let feet = whole_feet(quote.planning + Length::FOOT - Length::from_ticks(1));
        source.stocks.push(PoolStock {
            origin: StockOrigin::Quote(index),
            length: quote.planning,
            near: saw.near_trim,
            far: saw.far_trim,
            hold: saw.hold_back,
            usable: usable_of_new(saw, quote.planning),
            cost: Money::from_millicents(priced_cost.unwrap_or(UNPRICED_JOINT + feet)),
            price: quote.price.filter(|_| taxed),
            serves: source.days.serves(week.arrives(quote)),
            limit: most_at_this_price(week, quote),
        });
    }
    for (index, piece) in week.rack.iter().enumerate() {
        let usable = usable_of_piece(saw, piece);
        if piece.pipe != pipe || piece.count == 0 || usable <= Length::ZERO {
            continue;
        }
        let (near, far) = trims(saw, piece);
        source.stocks.push(PoolStock {
            origin: StockOrigin::Rack(index),
            length: piece.length,
            near,
            far,
            hold: saw.hold_back,
            usable,
            cost: credit(week, &source, usable),
            price: None,
            serves: source.days.serves(piece.arrives),
            limit: Some(piece.count),
        });
    }
    sort(week, &mut source.stocks);
    source
}

/// Most joints at a row's price: what is to be had, and fewer than the next break of the offer asks. Paying
/// the dearer row once the count earns the cheaper one would bring the prices up to where freight is free.
fn most_at_this_price(week: &Week, quote: &Quote) -> Option<u32> {
    let others = week.quotes.iter().filter(|q| q.same_joint(quote));
    let breaks = others.map(|q| q.terms.from);
    let next = breaks.filter(|from| *from > quote.terms.from.max(1)).min();
    let under = next.map(|from| from - 1);
    [quote.available, under].into_iter().flatten().min()
}

/// Price with tax in the optimisation's integers.
fn millicents(week: &Week, quote: &Quote) -> Option<i64> {
    landed_price(week, quote).and_then(Money::millicents)
}

/// A fixed order whatever the order of rows: quotes first, longest first, cheapest first.
fn sort(week: &Week, stocks: &mut [PoolStock]) {
    let name = |s: &PoolStock| match s.origin {
        StockOrigin::Quote(q) => {
            let q = &week.quotes[q];
            (0, q.supplier.clone(), q.nominal, q.quoted_words())
        }
        StockOrigin::Rack(r) => (1, week.rack[r].tag.clone(), Length::ZERO, String::new()),
    };
    stocks.sort_by_cached_key(|s| {
        let (kind, who, nominal, quoted) = name(s);
        let limit = std::cmp::Reverse(s.limit.unwrap_or(u32::MAX));
        (
            kind,
            std::cmp::Reverse(s.usable),
            s.cost,
            limit,
            who,
            nominal,
            quoted,
        )
    });
}

/// Whole feet of 304.8 mm in a length ≥ 0.
fn whole_feet(length: Length) -> i64 {
    length.ticks().div_euclid(Length::FOOT.ticks())
}

/// What a kept drop (or an uncut piece) of length x is credited: whole feet × rate if x is at least
/// the keep length, else nothing.
pub fn credit(week: &Week, pool: &PoolSource, x: Length) -> Money {
    if x < week.shop.money.keep_length || x < Length::ZERO {
        return Money::ZERO;
    }
    Money(pool.credit_per_foot.0 * Decimal::from(whole_feet(x)))
}

/// Rate × the least landed price per nominal foot on sale, down to 1/1000 cent, unless another credit is
/// held; zero when nothing is on sale.
pub fn credit_per_foot(week: &Week, pipe: PipeId) -> Money {
    if let Some(held) = week.shop.money.held_credit(pipe) {
        return held;
    }
    let foot = Decimal::from(Length::FOOT.ticks());
    let per_foot = |(_, q): (usize, &Quote)| {
        let nominal = Decimal::from(q.nominal.ticks());
        landed_price(week, q)?
            .0
            .checked_mul(foot)?
            .checked_div(nominal)
    };
    on_sale(week, pipe)
        .filter_map(per_foot)
        .min()
        .and_then(|least| least.checked_mul(week.shop.money.credit_rate))
        .map_or(Money::ZERO, |rate| {
            Money(
                rate.round_dp_with_strategy(5, RoundingStrategy::ToNegativeInfinity)
                    .max(Decimal::ZERO),
            )
        })
}

/// Refuse a joint on sale that costs no more than its uncut length would be credited.
fn pays_as_a_drop(week: &Week, pool: &PoolSource, stock: &PoolStock) -> Option<Impossible> {
    let StockOrigin::Quote(index) = stock.origin else {
        return None;
    };
    let quote = &week.quotes[index];
    let uncut = credit(week, pool, stock.usable);
    if !pool.priced || stock.cost > uncut {
        return None;
    }
    let units = week.shop.units;
    let pipe = week.pipe(pool.pipe).title();
    let (money, line) = (&week.shop.money, quote.origin.line);
    Some(Impossible {
        gate: None,
        extra: None,
        mark: format!("{} {pipe}", quote.nominal.print(units)),
        part: None,
        reason: format!(
            "{} line {line}: the {} joint costs {}{} but left whole it would be credited {}{}: \
             buying it for the rack would pay",
            quote.origin.file,
            quote.nominal.print(units),
            money.currency,
            stock.cost,
            money.currency,
            uncut,
        ),
        change: "correct the price, or lower the credit rate (money.credit_rate)".to_owned(),
    })
}
