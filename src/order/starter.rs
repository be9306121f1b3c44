//! The starter week that `longpoint new` writes.

/// File name → text of a small week that runs as it is.
pub fn starter_week() -> Vec<(&'static str, String)> {
    let text = |t: &str| t.to_owned();
    vec![
        (
            "orders.csv",
            text(include_str!("../../data/demo_us/orders.csv")),
        ),
        (
            "shop.toml",
            text(include_str!("../../data/demo_us/shop.toml")),
        ),
        (
            "stock.csv",
            text(include_str!("../../data/demo_us/stock.csv")),
        ),
    ]
}
