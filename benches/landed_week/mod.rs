//! A week bought from three invented suppliers, with everything that they charge beyond joints.

use longpoint::order::{Week, WeekFiles, read_week};

use crate::made_week::own;

/// `stock.csv` of three suppliers who sell every pipe of the demo shop in three lengths, at prices a few
/// percent apart; the first bands its 21s, the second has a price break on them. All of it is invented.
fn quotes() -> String {
    let mut text = String::from("pipe,supplier,length,price,per,from,lift,part lift fee\n");
    let pipes = [
        ("1-7/8 SS40", 255),
        ("2-3/8 SS40", 342),
        ("2-3/8 IC", 294),
        ("2-7/8 SS40", 550),
    ];
    for (n, (pipe, cents)) in (0..).zip(pipes) {
        for (s, supplier) in ["Ada", "Bob", "Cid"].into_iter().enumerate() {
            for (l, feet) in [21, 24, 40].into_iter().enumerate() {
                // Steps of 1 to 4 cents a foot, so that nobody is the cheapest everywhere.
                let price = cents + (5 * n + 3 * s as u32 + 2 * l as u32) % 5;
                let lift = if s == 0 && feet == 21 { "7,5" } else { "," };
                let row = |price: u32, from: &str, lift: &str| {
                    let (whole, part) = (price / 100, price % 100);
                    format!("{pipe},{supplier},{feet} ft,{whole}.{part:02},foot,{from},{lift}\n")
                };
                text.push_str(&row(price, "", lift));
                if s == 1 && feet == 21 {
                    text.push_str(&row(price - 6, "12", ","));
                }
            }
        }
    }
    text
}

/// `suppliers.csv` of the three: freight by the longest joint, free over an amount, a least order, tax.
const SUPPLIERS: &str = "\
supplier,freight,up to,free over,minimum,tax
Ada,65,24 ft,6000,,8.25
Ada,140,,,,
Bob,90,,,400,8.25
Cid,55,24 ft,,,8.25
Cid,120,,,,
";

/// The week bought from three suppliers with three lengths of every pipe each.
pub fn landed(files: WeekFiles) -> Week {
    let files = WeekFiles {
        stock: own("stock.csv", quotes()),
        suppliers: own("suppliers.csv", SUPPLIERS.to_owned()),
        ..files
    };
    read_week(&files).expect("a made week has no faults")
}
