//! The starter week that `longpoint new` writes: small, commented, and it runs as it is.

/// File name → text.
pub fn starter_week() -> Vec<(&'static str, String)> {
    [
        ("orders.csv", include_str!("starter/orders.csv")),
        ("shop.toml", include_str!("starter/shop.toml")),
        ("stock.csv", include_str!("starter/stock.csv")),
        ("rack.csv", include_str!("starter/rack.csv")),
        ("parts.csv", include_str!("starter/parts.csv")),
    ]
    .map(|(name, text)| (name, text.to_owned()))
    .to_vec()
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;
    use serde_json::Value;

    use super::starter_week;
    use crate::measure::Units;
    use crate::order::{Shop, Week, WeekFiles, print_faults, read_week};
    use crate::text::SourceFile;

    fn read(change: impl Fn(&str) -> String) -> Week {
        let file = |name: &str| {
            let (_, text) = starter_week().into_iter().find(|(n, _)| *n == name)?;
            let text = if name == "shop.toml" {
                change(&text)
            } else {
                text
            };
            Some(SourceFile {
                name: name.to_owned(),
                bytes: text.into_bytes(),
            })
        };
        let files = WeekFiles {
            orders: file("orders.csv"),
            shop: file("shop.toml"),
            stock: file("stock.csv"),
            rack: file("rack.csv"),
            parts: file("parts.csv"),
            ..WeekFiles::default()
        };
        read_week(&files).unwrap_or_else(|f| panic!("{}", print_faults(&f)))
    }

    /// The shop as data: spares aside (their comment is an example), 0.50 the same as 0.5.
    fn data(mut shop: Shop) -> Value {
        shop.money.spares.clear();
        let mut value = serde_json::to_value(shop).expect("a shop is data");
        settle(&mut value);
        value
    }

    fn settle(value: &mut Value) {
        match value {
            Value::String(s) => {
                if let Ok(number) = s.parse::<Decimal>() {
                    *s = number.normalize().to_string();
                }
            }
            Value::Object(fields) => fields.values_mut().for_each(settle),
            _ => {}
        }
    }

    #[test]
    fn reads_without_a_word() {
        let week = read(str::to_owned);
        assert_eq!(week.gates.len(), 3);
        assert!(week.notices.is_empty(), "{}", print_faults(&week.notices));
        assert_eq!(week.shop.units, Units::Inch);
    }

    /// Every figure of splices, bending and rollers says how far to trust it.
    #[test]
    fn figures_of_splices_and_bending_say_their_standing() {
        let files = starter_week();
        let shop = files.iter().find(|(name, _)| *name == "shop.toml");
        let text = &shop.expect("the starter has a shop").1;
        let mut section = String::new();
        let mut seen = 0;
        for line in text.lines() {
            if line.starts_with('[') {
                section = line.to_owned();
            }
            let Some((key, rest)) = line.trim_start_matches("# ").split_once(" = ") else {
                continue;
            };
            let rollers = ["carrier", "roller_spacing", "lead", "yield_strength"];
            let splices = section.starts_with("[splice]") || section.starts_with("[fabric]");
            let first = key == "yield_strength" && seen > 0;
            if !splices && (!rollers.contains(&key) || first) {
                continue;
            }
            seen += 1;
            let words = rest.split_once('#').map_or("", |(_, words)| words.trim());
            let standings = ["published", "computed", "practice", "shop"];
            assert!(standings.iter().any(|s| words.starts_with(s)), "{line}");
        }
        assert!(seen > 30, "{seen} settings");
    }

    /// What stands in place of a rule, not at its default.
    const OTHERWISE: [&str; 2] = ["tail_steps", "lead"];

    /// Takes the "# " off every commented setting: the file must still read, and mean the same.
    #[test]
    fn every_commented_setting_is_a_setting_at_its_default() {
        let open = |text: &str| {
            let line = |l: &str| match l.strip_prefix("# ") {
                Some(rest) => match rest.split_once(" = ") {
                    Some((key, _)) if !OTHERWISE.contains(&key) => rest.to_owned(),
                    _ => l.to_owned(),
                },
                None => l.to_owned(),
            };
            text.lines().map(line).collect::<Vec<_>>().join("\n")
        };
        let commented = read(str::to_owned);
        let opened = read(open);
        assert!(!opened.shop.money.spares.is_empty(), "comments were opened");
        assert_eq!(data(opened.shop), data(commented.shop));
    }
}
