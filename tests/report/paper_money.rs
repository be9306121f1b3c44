//! The drawn buy list and the page say the same money as the buy list to send, to the cent.

use crate::made;
use longpoint::check::CheckedPlan;
use longpoint::order::WeekFiles;
use longpoint::report::draw::Flat;
use longpoint::report::page::page;
use longpoint::report::paper::{Paper, pages};
use longpoint::report::results;
use longpoint::text::SourceFile;

/// The small week from suppliers with freight, tax, a minimum and a price that has run out.
fn landed() -> WeekFiles {
    let file = |name: &str, text: &str| {
        Some(SourceFile {
            name: name.to_owned(),
            bytes: text.as_bytes().to_vec(),
        })
    };
    let orders = "mark,count,opening,height,due\nB1,1,12',6',2026-03-24\nB3,2,10',5',2026-03-29\n";
    let stock = "pipe,supplier,length,price,per,valid_until\n\
        1-7/8 SS40,Upland Steel (invented),21 ft,2.55,foot,2026-02-20\n\
        2-3/8 SS40,Harbor Pipe (invented),21 ft,3.48,foot,\n";
    let suppliers = "supplier,freight,minimum,tax\n\
        Harbor Pipe (invented),85.00,,8.25\nUpland Steel (invented),,2000,6\n";
    WeekFiles {
        orders: file("orders.csv", orders),
        stock: file("stock.csv", stock),
        suppliers: file("suppliers.csv", suppliers),
        rack: None,
        date: Some(jiff::civil::date(2026, 3, 2)),
        ..made::demo("demo_small")
    }
}

fn text_of(plan: &CheckedPlan, name: &str) -> String {
    let files = results(plan, Paper::Letter).expect("results");
    let (_, bytes) = files.iter().find(|(n, _)| n == name).expect("the sheet");
    String::from_utf8(bytes.clone()).expect("text")
}

/// Every amount with cents in a text: `85.00`, `1,204.50`.
fn amounts(text: &str) -> Vec<String> {
    let split = text.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','));
    let cents = |t: &&str| {
        let cents = t.rsplit_once('.').is_some_and(|(_, c)| c.len() == 2);
        cents && t.starts_with(|c: char| c.is_ascii_digit())
    };
    let trimmed = split.map(|t| t.trim_end_matches(['.', ',']));
    trimmed.filter(cents).map(str::to_owned).collect()
}

#[test]
fn drawn_sheet_and_page_carry_every_amount_of_the_list_to_send() {
    for week in ["demo_us", "demo_metric", "demo_small", "demo_buying"] {
        assert!(
            says_the_same(&made::checked(&made::demo(week))) > 10,
            "{week}"
        );
    }
}

#[test]
fn tax_freight_minimum_and_a_price_that_ran_out_are_on_both() {
    let plan = made::checked(&landed());
    let ledger = plan.plan().ledger.expect("priced");
    for (name, money) in [
        ("tax", ledger.tax),
        ("freight", ledger.freight),
        ("minimum", ledger.minimum),
    ] {
        assert!(
            money > longpoint::measure::Money::ZERO,
            "the week has {name}"
        );
    }
    assert!(says_the_same(&plan) > 30);
    let (sheet, html) = (drawn_sheet(&plan), on_the_page(&plan));
    for words in ["RAN OUT ON 2026-02-20", "freight of Harbor Pipe"] {
        let joined = sheet.replace('\n', " ");
        assert!(joined.contains(words), "{words} in {joined}");
        assert!(html.contains(words), "{words} on the page");
    }
}

/// The drawn buy list's words.
fn drawn_sheet(plan: &CheckedPlan) -> String {
    let drawn = pages(plan, Paper::Letter);
    let drawn = drawn.iter().map(Flat::of).filter(|f| f.title == "Buy list");
    drawn.map(|f| f.words()).collect::<Vec<_>>().join("\n")
}

/// The buy list's section of the page.
fn on_the_page(plan: &CheckedPlan) -> String {
    let html = page(plan);
    let (_, from) = html
        .split_once("<section id=\"buy\"")
        .expect("the buy list");
    let (html, _) = from.split_once("</section>").expect("its end");
    html.to_owned()
}

/// Every amount of the lists to send is on the drawn sheet and on the page; how many.
fn says_the_same(plan: &CheckedPlan) -> usize {
    let (sheet, html) = (drawn_sheet(plan), on_the_page(plan));
    let mut found = 0;
    for name in ["buy_list.txt", "gate_costs.txt"] {
        for amount in amounts(&text_of(plan, name)) {
            assert!(
                sheet.contains(&amount),
                "{amount} on the drawn sheet:\n{sheet}"
            );
            assert!(html.contains(&amount), "{amount} on the page");
            found += 1;
        }
    }
    found
}
