//! For whom and under which numbers a gate is made: on every sheet and order that speaks of it.

use std::fs;

use crate::run::{json, longpoint, read, starter, text};

#[test]
fn paperwork_reaches_sheets_letter_and_document() {
    let week = starter("paperwork");
    let orders = week.join("orders.csv");
    let list = "mark,count,opening,height,hand,kit,customer,job,purchase order,ship to,Paint\n\
                A1,1,12',6',left,,Hill Farm (invented),4711,88-17,yard 2,RAL 6005\n\
                A2,1,12',6',right,yes,Mill Lane (invented),4712,,,\nA3,1,14',6',left,,,,,,\n";
    fs::write(&orders, list).unwrap();
    let shop = week.join("shop.toml");
    let settings = fs::read_to_string(&shop).unwrap();
    fs::write(&shop, format!("extra_columns = [\"paint\"]\n{settings}")).unwrap();
    fs::write(
        week.join("parts.csv"),
        "mark,pipe,length,count,job,paint,note\nP1,1-7/8 SS40,5',2,4713,black,cut first\n",
    )
    .unwrap();
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let results = week.join("results");
    let gates = read(&results, "gates.txt");
    for words in [
        "Hill Farm (invented)",
        "4711",
        "88-17",
        "yard 2",
        "RAL 6005",
        "Mill Lane (invented)",
    ] {
        assert!(gates.contains(words), "{words}:\n{gates}");
    }
    let parts = read(&results, "parts.txt");
    for words in [
        "Customer: Hill Farm (invented); Job: 4711",
        "RAL 6005",
        "4713",
    ] {
        assert!(
            parts.replace('\n', " ").contains(words),
            "{words}:\n{parts}"
        );
    }
    let records = read(&results, "parts.csv");
    let head = records.lines().next().unwrap_or_default();
    assert!(
        head.contains(",customer,job,purchase_order,ship_to,paint,"),
        "{head}"
    );
    let letter = read(&results, "order_supplier.txt");
    let letter = letter.split_whitespace().collect::<Vec<_>>().join(" ");
    let words = "For: job 4711, purchase order 88-17, Hill Farm (invented), ship to yard 2: A1";
    assert!(letter.contains(words), "{letter}");
    let kit = read(&results, "kit_A2.txt");
    assert!(kit.contains("Mill Lane (invented)"), "{kit}");
    let document = json(&read(&results, "plan.json"));
    let paperwork = &document["gates"][0]["paperwork"];
    assert_eq!(paperwork["purchase_order"], "88-17");
    assert_eq!(paperwork["extra"][0]["text"], "RAL 6005");
    assert!(document["gates"][2].get("paperwork").is_none());
}
