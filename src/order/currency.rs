//! Amounts in the shop's one currency: a sign or code beside a number must be the shop's.

use super::faults::Faults;
use super::sheet::Cells;
use super::shop_file::ShopFile;
use crate::measure::{FaultCode, Money, parse_money};

/// Signs and codes that mean one currency; `$` is read as the shop's own dollar.
const ALIKE: [&[&str]; 4] = [
    &["$", "us$", "usd"],
    &["€", "eur", "euro"],
    &["£", "gbp"],
    &["¥", "jpy"],
];

/// Reads an amount; another currency's sign beside it is a fault.
pub(super) fn read_amount(
    cells: &Cells<'_>,
    name: &str,
    shop: &ShopFile,
    faults: &mut Faults,
) -> Option<Money> {
    let amount = cells.read(name, faults, parse_money)?;
    let foreign = sign(cells.text(name)).filter(|s| !same(s, &shop.shop.money.currency));
    match foreign {
        None => Some(amount),
        Some(sign) => {
            say_foreign(cells, name, &sign, shop, faults);
            None
        }
    }
}

/// Judges the cell of a column `currency`.
pub(super) fn judge_currency(cells: &Cells<'_>, shop: &ShopFile, faults: &mut Faults) {
    let text = cells.text("currency");
    if !text.is_empty()
        && !cells.unworked("currency", faults)
        && !same(text, &shop.shop.money.currency)
    {
        say_foreign(cells, "currency", text, shop, faults);
    }
}

fn say_foreign(cells: &Cells<'_>, name: &str, sign: &str, shop: &ShopFile, faults: &mut Faults) {
    let own = shop.shop.money.currency.trim();
    faults.error(
        FaultCode::ValuesDisagree,
        &cells.spot(name),
        &format!("this is in {sign}, the shop's money is in {own}: currencies cannot be mixed"),
        &format!("write the amount in {own}, or correct money.currency in shop.toml"),
    );
}

/// What stands beside the digits of an amount; `None` when nothing does.
fn sign(text: &str) -> Option<String> {
    let beside = |c: char| c.is_alphabetic() || "$€£¥".contains(c);
    let sign: String = text.chars().filter(|c| beside(*c)).collect();
    (!sign.is_empty()).then_some(sign)
}

fn same(a: &str, b: &str) -> bool {
    let fold = |t: &str| t.trim().trim_end_matches('.').to_lowercase();
    let (a, b) = (fold(a), fold(b));
    a == b
        || ALIKE
            .iter()
            .any(|of| of.contains(&a.as_str()) && of.contains(&b.as_str()))
}

/// Whether a unit of the currency buys about what a dollar does: only then is anything known of prices.
pub(super) fn is_like_dollars(currency: &str) -> bool {
    let alike = ["$", "€", "£", "CAD", "C$", "AUD", "A$", "NZD", "NZ$", "CHF"];
    alike.iter().any(|like| same(currency, like))
}

#[cfg(test)]
mod tests {
    use super::{same, sign};

    #[test]
    fn signs_and_codes_of_one_currency_are_alike() {
        assert!(same("$", "USD") && same("EUR ", "€") && same("CHF", "chf"));
        assert!(!same("€", "$") && !same("CAD", "$"));
        assert_eq!(sign("1,204.50"), None);
        assert_eq!(sign("US$ 3.48").as_deref(), Some("US$"));
        assert_eq!(sign("5,90 €").as_deref(), Some("€"));
    }
}
