//! What quotes and suppliers' terms can get wrong, and what a right one means.

use super::world::{Files, demand, notices, only_error, read, shop_with, sound};
use longpoint::measure::{Length, Money};
use longpoint::order::{Fault, Severity, Week};

/// stock.csv of these rows, all columns there.
fn stock(rows: &str) -> Files {
    let head = "pipe,supplier,length,price,per,currency,from,available,lift,lift fee,part lift fee,\
                lead days,valid until,taxable";
    Files {
        stock: Some(format!("{head}\n{rows}\n").into_bytes()),
        ..sound()
    }
}

/// Two plain quotes of `Ada` and `Bob`, and suppliers.csv of these rows.
fn suppliers(rows: &str) -> Files {
    let head = "supplier,freight,up to,free over,minimum,tax,lead days,currency";
    Files {
        suppliers: Some(format!("{head}\n{rows}\n").into_bytes()),
        ..stock(
            "H,Ada,21 ft,3.48,foot,,,,,,,,,\nH,Ada,40 ft,3.40,foot,,,,,,,,,\nV,Bob,21 ft,2.62,foot,,,,,,,9,,",
        )
    }
}

fn week(files: &Files) -> Week {
    read(files).unwrap_or_else(|f| panic!("{}", longpoint::order::print_faults(&f)))
}

fn money(text: &str) -> Money {
    Money(text.parse().expect("decimal"))
}

#[test]
fn quotes_are_judged() {
    let cases = [
        ("H,Ada,21 ft,€3.48,foot,,,,,,,,,", "price", "€3.48", "mixed"),
        (
            "H,Ada,21 ft,3.48,foot,EUR,,,,,,,,",
            "currency",
            "EUR",
            "mixed",
        ),
        (
            "H,Ada,21 ft,62,ton,,,,,,,,,",
            "per",
            "ton",
            "2000 lb or as 1000 kg",
        ),
        (
            "H,Ada,21 ft,62,stone,,,,,,,,,",
            "per",
            "stone",
            "not what a price is for",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,-5,,,,,,,",
            "from",
            "-5",
            "below zero",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,,,0,12,,,,",
            "lift",
            "0",
            "no joints",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,,,,12,,,,",
            "lift fee",
            "12",
            "not how many",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,,,7,,-2,,,",
            "part lift fee",
            "-2",
            "below zero",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,,,,,,900,,",
            "lead days",
            "900",
            "over a year",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,,,,,,soon,,",
            "lead days",
            "soon",
            "not a number",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,,,,,,,soon,",
            "valid until",
            "soon",
            "not a date",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,,,,,,,3/4/2026,",
            "valid until",
            "3/4/2026",
            "month first",
        ),
        (
            "H,Ada,21 ft,3.48,foot,,,,,,,,,maybe",
            "taxable",
            "maybe",
            "neither yes nor no",
        ),
    ];
    for (row, column, value, what) in cases {
        let fault = only_error(&stock(row));
        demand(&fault, ("stock.csv", 2, column), value, what);
    }
}

/// `1.450` alone is 1.45; among decimal commas it may be 1450, and is asked about.
#[test]
fn thousands_are_read_where_they_can_be_read_one_way() {
    let of = |price: &str, per: &str, other: &str| Files {
        stock: Some(
            format!("pipe;length;price;per\nH;21 ft;{price};{per}\nV;21 ft;{other};foot\n")
                .into_bytes(),
        ),
        ..sound()
    };
    let quoted = |files: &Files| week(files).quotes[0].quoted_words();
    for text in ["1.450,00", "1 450,00", "1450", "€ 1.450,00"] {
        let files = of(text, "tonne", "2,62");
        let files = Files {
            shop: shop_with("money", "currency = \"EUR\"").shop,
            ..files
        };
        let quoted = quoted(&files);
        let amount = quoted.trim_end_matches(" / tonne").parse();
        assert_eq!(amount, Ok(money("1450").0), "{text}");
    }
    assert_eq!(quoted(&of("1.450", "foot", "2.62")), "1.450 / foot");
    let fault = only_error(&of("1.450", "foot", "2,62"));
    demand(&fault, ("stock.csv", 2, "price"), "1.450", "two ways");
    assert_eq!(fault.mend, "write 1450 or 1,45");
}

/// One mark of decimals in a file: a lone comma among points may be a slip of more than the key.
#[test]
fn a_decimal_comma_among_points_is_asked_about() {
    let stock = |price: &str| Files {
        stock: Some(
            format!("pipe,length,price,per\nV,21 ft,2.62,foot\nH,21 ft,\"{price}\",foot\n")
                .into_bytes(),
        ),
        ..sound()
    };
    for price in ["1,28", "$1,28"] {
        let fault = only_error(&stock(price));
        demand(&fault, ("stock.csv", 3, "price"), price, "decimal comma");
        assert!(fault.what.contains("2.62 in line 2"), "{}", fault.what);
        assert_eq!(fault.mend, "write 1.28");
    }
    let fault = only_error(&stock("1,280"));
    demand(&fault, ("stock.csv", 3, "price"), "1,280", "two ways");
    let suppliers = |row: &str| Files {
        suppliers: Some(format!("supplier,freight,minimum,tax\nAda,{row}\n").into_bytes()),
        ..stock("1.28")
    };
    for (row, column, value) in [
        ("65.50,\"250,75\",", "minimum", "250,75"),
        ("65.50,,\"8,25\"", "tax", "8,25"),
        ("\"65,50\",250.75,", "freight", "65,50"),
    ] {
        let fault = only_error(&suppliers(row));
        demand(&fault, ("suppliers.csv", 2, column), value, "decimal comma");
    }
}

#[test]
fn breaks_are_judged_among_themselves() {
    let pair = |second: &str| {
        only_error(&stock(&format!(
            "H,Ada,21 ft,3.48,foot,,,30,7,,,,,\n{second}"
        )))
    };
    let dearer = pair("H,Ada,21 ft,3.50,foot,,20,,,,,,,");
    demand(
        &dearer,
        ("stock.csv", 3, "price"),
        "3.50",
        "more than the 73.08 of line 2",
    );
    let fewer = pair("H,Ada,21 ft,3.40,foot,,20,25,,,,,,");
    demand(&fewer, ("stock.csv", 3, "from"), "20", "another available");
    let banded = pair("H,Ada,21 ft,3.40,foot,,20,,19,,,,,");
    demand(&banded, ("stock.csv", 3, "from"), "20", "another lift");
    let twice = only_error(&stock(
        "H,Ada,21 ft,3.48,foot,,,,,,,,,\nH,Ada,21 ft,3.40,foot,,20,,,,,,,\nH,Ada,21 ft,3.30,foot,,20,,,,,,,",
    ));
    demand(
        &twice,
        ("stock.csv", 4, "from"),
        "20",
        "line 3 has another price",
    );
    let said = notices(&stock(
        "H,Ada,21 ft,3.48,foot,,,,,,,,,\nH,Ada,21 ft,3.40,foot,,,,,,,,,",
    ));
    assert_eq!(said[0].severity, Severity::Warning);
    demand(
        &said[0],
        ("stock.csv", 3, "length"),
        "21 ft",
        "the same joint",
    );
}

#[test]
fn a_break_takes_over_what_its_row_leaves_empty() {
    let week = week(&stock(
        "H,Ada,21 ft,3.40,foot,,20,,,,,,,\nH,Ada,21 ft,3.48,foot,,,30,7,12,5,3,2026-03-31,no",
    ));
    let (many, few) = (&week.quotes[0], &week.quotes[1]);
    assert_eq!((many.terms.from, few.terms.from), (20, 0));
    assert_eq!(many.available, Some(30));
    let lift = many.terms.lift.expect("banded");
    assert_eq!(
        (lift.joints, lift.fee, lift.part_fee),
        (7, money("12"), money("5"))
    );
    assert_eq!((many.terms.lead_days, many.terms.untaxed), (Some(3), true));
    assert_eq!(many.terms.valid_until, Some(jiff::civil::date(2026, 3, 31)));
}

#[test]
fn prices_by_weight_say_the_weight_they_took() {
    // Published (ASME B36.10M, ASTM F1083): 2.375 x 0.154 weighs 3.66 lb/ft.
    let quote = &week(&stock("H,Ada,21 ft,95,cwt,,,,,,,,,")).quotes[0];
    assert_eq!(quote.price, Some(money("73.017")));
    let quoted = quote.quoted.expect("priced");
    assert_eq!(quoted.to_string(), "95 / cwt");
    assert_eq!(quoted.per, longpoint::order::PriceBasis::Hundredweight);
    assert_eq!(quoted.weight, Some("3.66".parse().expect("decimal")));
}

#[test]
fn suppliers_are_judged() {
    let cases = [
        (",65,,,,,,", "supplier", "", "empty"),
        ("Adda,65,,,,,,", "supplier", "Adda", "no row of stock.csv"),
        ("Ada,-65,,,,,,", "freight", "-65", "below zero"),
        ("Ada,€65,,,,,,", "freight", "€65", "mixed"),
        ("Ada,65,,,,,,GBP", "currency", "GBP", "mixed"),
        ("Ada,,21 ft,,,,,", "freight", "", "no freight"),
        (
            "Ada,65,21 ft,,,,,",
            "freight",
            "65",
            "40'-0\" joints are on sale",
        ),
        ("Ada,65,,0,,,,", "supplier", "Ada", "free over 0"),
        ("Ada,,,500,,,,", "supplier", "Ada", "no freight is given"),
        ("Ada,,,,-1,,,", "minimum", "-1", "below zero"),
        ("Ada,,,,,108,,", "tax", "108", "not a rate"),
        ("Ada,,,,,,x,", "lead days", "x", "not a number"),
    ];
    for (row, column, value, what) in cases {
        let fault = only_error(&suppliers(row));
        demand(&fault, ("suppliers.csv", 2, column), value, what);
    }
    let near = only_error(&suppliers("Adda,65,,,,,,"));
    assert!(near.mend.contains("did you mean \"Ada\"?"), "{near:?}");
    // A supplier who quotes nothing this week binds nothing and stops nothing.
    let gone = notices(&suppliers("Ada,65,,,,,,\nBobby Steel,40,,,,,,"));
    let gone: Vec<&Fault> = gone.iter().filter(|f| f.file == "suppliers.csv").collect();
    assert_eq!(gone.len(), 1, "{gone:?}");
    assert_eq!(gone[0].severity, Severity::Warning);
    demand(
        gone[0],
        ("suppliers.csv", 3, "supplier"),
        "Bobby Steel",
        "bind nothing",
    );
    let falls = only_error(&suppliers("Ada,65,21 ft,,,,,\nAda,40,,,,,,"));
    demand(
        &falls,
        ("suppliers.csv", 3, "freight"),
        "40",
        "falls from 65.00",
    );
    let twice = only_error(&suppliers("Ada,65,,,,,,\nAda,90,,,,,,"));
    demand(
        &twice,
        ("suppliers.csv", 3, "freight"),
        "90",
        "same longest joint",
    );
    let minimum = only_error(&suppliers("Ada,65,21 ft,,250,,,\nAda,90,,,300,,,"));
    demand(
        &minimum,
        ("suppliers.csv", 3, "minimum"),
        "300",
        "says otherwise",
    );
}

/// A supplier whose one quote could not be read is not told to be taken away.
#[test]
fn a_bad_quote_gives_no_fault_of_its_suppliers_terms() {
    let files = Files {
        suppliers: Some(b"supplier,freight\nCleo,65\n".to_vec()),
        ..stock("H,Cleo,21 ft,3.48,yard,,,,,,,,,")
    };
    demand(
        &only_error(&files),
        ("stock.csv", 2, "per"),
        "yard",
        "not what",
    );
}

#[test]
fn a_supplier_is_read_from_all_his_rows() {
    let week = week(&suppliers(
        "Ada,90,,1500,,8.25 %,4,\nAda,65,21 ft,,250,,,USD\nBob,,,,,,5,",
    ));
    let ada = week.supplier("Ada").expect("Ada");
    let steps: Vec<_> = ada.freight.iter().map(|s| (s.up_to, s.amount)).collect();
    assert_eq!(
        steps,
        [(Some(Length::FOOT * 21), money("65")), (None, money("90"))]
    );
    assert_eq!(
        (ada.free_over, ada.minimum),
        (Some(money("1500")), Some(money("250")))
    );
    assert_eq!(ada.tax.to_string(), "0.0825");
    // His own days where the quote says none.
    let days: Vec<_> = week.quotes.iter().map(|q| q.terms.lead_days).collect();
    assert_eq!(days, [Some(4), Some(4), Some(9)]);
}

#[test]
fn the_order_date_judges_prices_and_days() {
    let row = "H,Ada,21 ft,3.48,foot,,,,,,,3,2026-03-31,";
    let idle = notices(&stock(row));
    assert_eq!(idle[0].severity, Severity::Note);
    demand(
        &idle[0],
        ("stock.csv", 2, "lead_days"),
        "3",
        "no order date",
    );
    let dated = |day: &str| Files {
        shop: shop_with("buying", &format!("order_date = {day}\nshop_days = 2")).shop,
        ..stock(row)
    };
    assert_eq!(notices(&dated("2026-03-31")), []);
    let late = notices(&dated("2026-04-01"));
    demand(
        &late[0],
        ("stock.csv", 2, "valid_until"),
        "2026-03-31",
        "ran out",
    );
    let week = week(&dated("2026-03-30"));
    assert_eq!(
        week.arrives(&week.quotes[0]),
        Some(jiff::civil::date(2026, 4, 2))
    );
    assert_eq!(week.wanted(0), None);
    let wrong = only_error(&Files {
        shop: shop_with("buying", "order_date = \"soon\"").shop,
        ..sound()
    });
    assert!(wrong.what.contains("not a date"), "{wrong:?}");
}
