//! suppliers.csv → what each supplier charges and asks beyond the price of joints.
//!
//! A supplier may stand in several rows, one a step of freight; everything else is said once, in any
//! of them.

use rust_decimal::Decimal;

use super::currency::{judge_currency, read_amount};
use super::faults::{Faults, Spot};
use super::judge_size::{Bounds, judge_size};
use super::mark::{parse_name, parse_note};
use super::names::Names;
use super::nearest_word::near;
use super::odd_terms::{judge_free_over, judge_freight, judge_minimum};
use super::sheet::{Cells, Column, Sheet, alias, column};
use super::shop_file::{ShopFile, parse_days};
use super::usual;
use super::{FreightStep, Quote, Supplier};
use crate::measure::{FaultCode, Misread, Money, Unit, parse_number};
use crate::text::SourceFile;

const COLUMNS: [Column; 9] = [
    alias("supplier", &["vendor", "name"]),
    column("freight").number(),
    alias("up_to", &["longest_joint", "carries"]).number(),
    alias("free_over", &["free_freight_over"]).number(),
    alias("minimum", &["minimum_order"]).number(),
    alias("tax", &["tax_rate"]).number(),
    alias("lead_days", &["lead", "days"]),
    column("currency"),
    alias("note", &["notes"]),
];

/// A supplier and what its rows have said so far.
struct Draft {
    supplier: Supplier,
    lead_days: Option<u32>,
    tax: Option<Decimal>,
    steps: Vec<(FreightStep, Spot)>,
    name: Spot,
    /// Where the minimum and the free freight are said.
    minimum_at: Option<Spot>,
    free_at: Option<Spot>,
}

/// Reads suppliers.csv and puts its days to delivery into quotes that say none. `names` are those of stock.csv,
/// rows that cannot be read as quotes among them.
pub(super) fn read_suppliers(
    file: &SourceFile,
    shop: &ShopFile,
    quotes: &mut [Quote],
    names: &mut Names,
    faults: &mut Faults,
) -> Vec<Supplier> {
    let mut sheet = Sheet::open(file, &COLUMNS, faults);
    if !sheet.require(&["supplier"], faults) {
        return Vec::new();
    }
    let mut drafts: Vec<Draft> = Vec::new();
    for cells in sheet.rows() {
        read_row(&cells, shop, (quotes, names), &mut drafts, faults);
    }
    say_unlisted(&drafts, quotes, names, faults);
    drafts
        .into_iter()
        .map(|draft| settle(draft, quotes, shop, faults))
        .collect()
}

fn read_row(
    cells: &Cells<'_>,
    shop: &ShopFile,
    (quotes, names): (&[Quote], &mut Names),
    drafts: &mut Vec<Draft>,
    faults: &mut Faults,
) {
    cells.read("note", faults, parse_note);
    judge_currency(cells, shop, faults);
    let step = read_step(cells, shop, faults);
    let free_over = read_amount(cells, "free_over", shop, faults);
    let minimum = read_amount(cells, "minimum", shop, faults);
    let tax = cells.read("tax", faults, parse_tax);
    doubt_tax(cells, tax, faults);
    let lead_days = cells.read("lead_days", faults, parse_days);
    let spot = cells.spot("supplier");
    let Some(name) = cells.need("supplier", faults, parse_name) else {
        return;
    };
    let quoted = names.knows(&name);
    let name = names.settle(name, &spot, faults);
    let sold = quotes.iter().any(|q| q.supplier == name);
    if !sold && quoted {
        // His quote has a fault of its own, or another row of his terms was told: they are none.
        return;
    }
    if !sold {
        say_unsold(&name, &spot, quotes, faults);
        return;
    }
    let at = drafts.iter().position(|d| d.supplier.name == name);
    let at = at.unwrap_or_else(|| {
        drafts.push(Draft {
            supplier: Supplier {
                name,
                origin: Some(spot.origin()),
                ..Supplier::default()
            },
            lead_days: None,
            tax: None,
            steps: Vec::new(),
            name: spot,
            minimum_at: None,
            free_at: None,
        });
        drafts.len() - 1
    });
    let draft = &mut drafts[at];
    draft.steps.extend(step.map(|s| (s, cells.spot("freight"))));
    if minimum.is_some() && draft.minimum_at.is_none() {
        draft.minimum_at = Some(cells.spot("minimum"));
    }
    if free_over.is_some() && draft.free_at.is_none() {
        draft.free_at = Some(cells.spot("free_over"));
    }
    let mut once = Once { cells, faults };
    once.take(&mut draft.supplier.free_over, free_over, "free_over");
    once.take(&mut draft.supplier.minimum, minimum, "minimum");
    once.take(&mut draft.tax, tax, "tax");
    once.take(&mut draft.lead_days, lead_days, "lead_days");
}

/// A supplier's name this near to another's is a slip of the pen; less near, two suppliers share a word.
const SLIP: f64 = 0.75;

/// A row that binds no quote: a slip where its name is all but a quoting supplier's, else a supplier whose quotes
/// are gone.
fn say_unsold(name: &str, spot: &Spot, quotes: &[Quote], faults: &mut Faults) {
    let mut known: Vec<&str> = quotes.iter().map(|q| q.supplier.as_str()).collect();
    known.retain(|n| !n.is_empty());
    known.sort_unstable();
    known.dedup();
    let what = "no row of stock.csv is of this supplier: its terms bind nothing";
    match near(name, known, SLIP) {
        Some(meant) => faults.error(
            FaultCode::NameUnknown, spot,
            what,
            &format!("did you mean \"{meant}\"? (or take the row away)"),
        ),
        None => faults.warn(
            FaultCode::NameUnknown, spot,
            what,
            "nothing, where nothing is bought of this supplier this week; else its rows of stock.csv, or its name as they have it",
        ),
    }
}

/// Suppliers of stock.csv that have no row here though a name near theirs has: their terms would be taken for
/// none. A supplier that is like no other may do without terms.
fn say_unlisted(drafts: &[Draft], quotes: &[Quote], names: &Names, faults: &mut Faults) {
    let listed = || drafts.iter().map(|d| d.supplier.name.as_str());
    let mut told: Vec<&str> = listed().collect();
    for quote in quotes {
        let name = quote.supplier.as_str();
        if name.is_empty() || told.contains(&name) {
            continue;
        }
        told.push(name);
        let Some((meant, spot)) = near(name, listed(), SLIP).zip(names.spot(name)) else {
            continue;
        };
        faults.error(
            FaultCode::NameUnknown, spot,
            &format!("suppliers.csv has no row of this supplier, and its name is near \"{meant}\""),
            &format!(
                "write \"{meant}\" if he is meant; else give this supplier a row in suppliers.csv (his name alone will do)"
            ),
        );
    }
}

/// What a supplier says once, whichever row says it.
struct Once<'a> {
    cells: &'a Cells<'a>,
    faults: &'a mut Faults,
}

impl Once<'_> {
    fn take<T: PartialEq>(&mut self, kept: &mut Option<T>, said: Option<T>, column: &str) {
        if said.is_some() && kept.is_some() && said != *kept {
            self.faults.error(
                FaultCode::ValuesDisagree,
                &self.cells.spot(column),
                "another row of this supplier says otherwise",
                "say it in one of the supplier's rows and leave the others empty",
            );
        }
        if kept.is_none() {
            *kept = said;
        }
    }
}

fn read_step(cells: &Cells<'_>, shop: &ShopFile, faults: &mut Faults) -> Option<FreightStep> {
    let amount = read_amount(cells, "freight", shop, faults);
    let up_to = cells
        .length("up_to", shop.units.map(Unit::of), faults)
        .and_then(|parsed| {
            let units = shop.shop.units;
            judge_size(cells, "up_to", &parsed, Bounds::JOINT, units, faults)
        });
    if cells.text("freight").is_empty() && !cells.text("up_to").is_empty() {
        faults.error(
            FaultCode::ValueMissing,
            &cells.spot("freight"),
            "a longest joint is given and no freight",
            "write what a shipment of joints up to that length costs",
        );
    }
    if up_to.is_none() && !cells.text("up_to").is_empty() {
        return None;
    }
    Some(FreightStep {
        up_to,
        amount: amount?,
    })
}

/// No sales tax is under half a percent (common practice, no source): less is a fraction, unless a percent sign
/// says otherwise.
const LEAST_TAX: Decimal = Decimal::from_parts(5, 0, 0, false, 1);
/// The highest general rate anywhere is 27 % (Hungary's value added tax, from memory).
const MOST_TAX: Decimal = Decimal::from_parts(27, 0, 0, false, 0);

/// `8.25` and `8.25 %` are both 0.0825.
fn parse_tax(text: &str) -> Result<Decimal, Misread> {
    let bare = text.trim().trim_end_matches('%').trim_end();
    let rate = parse_number(bare)?;
    if rate < Decimal::ZERO || rate > Decimal::ONE_HUNDRED || rate.normalize().scale() > 6 {
        return Err(Misread::beyond(
            &format!("{text} is not a rate of tax"),
            "write percent, 0 to 100, such as 8.25",
        ));
    }
    let said = text.contains('%');
    if !said && rate > Decimal::ZERO && rate < LEAST_TAX {
        let percent = (rate * Decimal::ONE_HUNDRED).normalize();
        return Err(Misread::two_readings(
            &format!("tax is in percent: {text} reads as {text} %, and {percent} % may be meant"),
            &format!("write {percent}, or {text} % with its sign"),
        ));
    }
    Ok((rate / Decimal::ONE_HUNDRED).normalize())
}

/// A tax over every rate there is.
fn doubt_tax(cells: &Cells<'_>, tax: Option<Decimal>, faults: &mut Faults) {
    if tax.is_some_and(|t| t * Decimal::ONE_HUNDRED > MOST_TAX) {
        let what = format!(
            "a tax of {}: usual is up to {MOST_TAX} %",
            cells.text("tax")
        );
        faults.ask(&cells.spot("tax"), &what, usual::MEND);
    }
}

fn settle(
    mut draft: Draft,
    quotes: &mut [Quote],
    shop: &ShopFile,
    faults: &mut Faults,
) -> Supplier {
    draft
        .steps
        .sort_by_key(|(s, _)| (s.up_to.is_none(), s.up_to));
    for pair in draft.steps.windows(2) {
        let ((short, _), (long, spot)) = (&pair[0], &pair[1]);
        if short.up_to == long.up_to {
            faults.error(
                FaultCode::GivenTwice,
                spot,
                "two freights are given for the same longest joint",
                "write up_to in each row: the longest joint that freight carries",
            );
        } else if long.amount < short.amount {
            faults.error(
                FaultCode::ValuesDisagree,
                spot,
                &format!(
                    "freight falls from {} to {} as joints grow longer",
                    short.amount, long.amount
                ),
                "check up_to and freight of this supplier's rows",
            );
        }
    }
    if draft.supplier.free_over == Some(Money::ZERO) {
        faults.error(
            FaultCode::ValueOutOfRange,
            &draft.name,
            "freight free over 0 is no freight",
            "leave freight and free_over empty when none is billed",
        );
    }
    if draft.supplier.free_over.is_some() && draft.steps.is_empty() {
        faults.error(
            FaultCode::ValueMissing,
            &draft.name,
            "freight is free over an amount, and no freight is given",
            "write the freight of a shipment under that amount",
        );
    }
    judge_reach(&draft, quotes, shop, faults);
    judge_amounts(&draft, quotes, faults);
    let lead = draft.lead_days;
    let own = quotes
        .iter_mut()
        .filter(|q| q.supplier == draft.supplier.name);
    own.for_each(|q| q.terms.lead_days = q.terms.lead_days.or(lead));
    Supplier {
        freight: draft.steps.into_iter().map(|(s, _)| s).collect(),
        tax: draft.tax.unwrap_or_default(),
        ..draft.supplier
    }
}

/// What is billed beside joints, beside their price.
fn judge_amounts(draft: &Draft, quotes: &[Quote], faults: &mut Faults) {
    let own = || quotes.iter().filter(|q| q.supplier == draft.supplier.name);
    if let (Some(minimum), Some(spot)) = (draft.supplier.minimum, &draft.minimum_at) {
        judge_minimum(minimum, spot, own(), faults);
    }
    if let (Some(amount), Some(spot)) = (draft.supplier.free_over, &draft.free_at) {
        judge_free_over(amount, spot, own(), faults);
    }
    for (step, spot) in &draft.steps {
        judge_freight(step.amount, spot, own(), faults);
    }
}

/// Every joint of the supplier has a freight when any has.
fn judge_reach(draft: &Draft, quotes: &[Quote], shop: &ShopFile, faults: &mut Faults) {
    let Some((last, spot)) = draft.steps.last() else {
        return;
    };
    let Some(up_to) = last.up_to else { return };
    let own = quotes.iter().filter(|q| q.supplier == draft.supplier.name);
    let longest = own.map(|q| q.nominal).max();
    if let Some(longest) = longest.filter(|l| *l > up_to) {
        let units = shop.shop.units;
        faults.error(
            FaultCode::ValuesDisagree,
            spot,
            &format!(
                "freight is given for joints up to {}, and {} joints are on sale",
                up_to.print(units),
                longest.print(units)
            ),
            "add a row with the freight of the longer joints (up_to empty: any length)",
        );
    }
}
