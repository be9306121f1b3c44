//! Orders as they are sent: narrow, complete, adding up to the cent in every form; doubtful prices marked in each.

use std::fs;
use std::path::{Path, PathBuf};

use calamine::{Data, DataType, Reader, Xlsx, open_workbook};
use serde_json::Value;

use crate::run::{files, json, longpoint, place, planned, planned_demos, read, text};

/// The demo of buying in a place of its own, one of its files changed.
fn buying(name: &str, file: &str, change: impl Fn(String) -> String) -> PathBuf {
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/demo_buying");
    let to = place(name).join("week");
    fs::create_dir(&to).expect("the place is new");
    for (of, bytes) in files(&from) {
        let mut words = String::from_utf8(bytes).expect("a list is text");
        if of == file {
            words = change(words);
        }
        fs::write(to.join(of), words).expect("the place can be written");
    }
    to
}

fn document(out: &Path) -> Value {
    json(&read(out, "plan.json"))
}

/// Money of a document's entry in cents.
fn cents(entry: &Value, name: &str) -> i64 {
    (entry[name].as_f64().unwrap_or(0.0) * 100.0).round() as i64
}

/// The amount at the end of a letter's row, in cents.
fn amount(letter: &str, row: &str) -> Option<i64> {
    let line = letter.lines().find(|l| l.starts_with(row))?;
    let digits: String = line.chars().filter(char::is_ascii_digit).collect();
    digits.parse().ok()
}

/// The letters of a results folder.
fn letters(out: &Path) -> Vec<(String, String)> {
    let orders = files(out)
        .into_iter()
        .filter(|(n, _)| n.starts_with("order_"));
    orders
        .map(|(n, b)| (n, String::from_utf8(b).expect("a letter is text")))
        .collect()
}

#[test]
fn a_letter_is_under_78_columns_and_its_total_is_its_lines() {
    let mut seen = 0;
    for (_, out) in planned_demos() {
        let plan = document(out);
        let rows = |kind: &str| plan[kind].as_array().cloned().unwrap_or_default();
        for (name, letter) in letters(out) {
            assert!(letter.lines().all(|l| l.chars().count() < 78), "{name}");
            assert!(letter.contains("no jointers, plain square ends"), "{name}");
            let to = letter.lines().next().and_then(|l| l.strip_prefix("To: "));
            let mine = |v: &&Value| Some(v["supplier"].as_str().unwrap_or("")) == to;
            let (buy, fees) = (rows("buy"), rows("fees"));
            let joints: i64 = buy.iter().filter(mine).map(|v| cents(v, "money")).sum();
            let tax: i64 = buy.iter().filter(mine).map(|v| cents(v, "tax")).sum();
            let fees: i64 = fees.iter().filter(mine).map(|v| cents(v, "money")).sum();
            if rows("spares").is_empty() {
                assert_eq!(amount(&letter, "Joints "), Some(joints), "{name}");
                assert_eq!(amount(&letter, "Tax ").unwrap_or(0), tax, "{name}");
                assert_eq!(
                    amount(&letter, "TOTAL"),
                    Some(joints + tax + fees),
                    "{name}"
                );
                seen += 1;
            }
        }
    }
    assert!(seen >= 3, "{seen}");
}

/// Tax is rounded once a line, and every form of the buy list holds the same cents.
#[test]
fn document_table_and_workbook_add_up_to_the_same_cents() {
    let out = planned("buying-forms", &buying("buying-sums", "", |w| w), &[]);
    let plan = document(&out);
    for line in plan["buy"].as_array().expect("lines") {
        let exact = line["each"].as_f64().expect("priced") * line["joints"].as_f64().expect("n");
        assert!((exact * 100.0 - cents(line, "money") as f64).abs() < 0.51 + exact * 1e-3);
        let taxed = (cents(line, "money") as f64 * 0.0825 - cents(line, "tax") as f64).abs();
        assert!(taxed < 0.51, "{line}");
    }
    let ledger = &plan["ledger"];
    let sum = |kind: &str, name: &str| -> i64 {
        let rows = plan[kind].as_array().expect("rows");
        rows.iter().map(|v| cents(v, name)).sum()
    };
    assert_eq!(cents(ledger, "pipe"), sum("buy", "money"));
    assert_eq!(cents(ledger, "tax"), sum("buy", "tax"));
    let fees = ["freight", "lifts", "minimum"].map(|k| cents(ledger, k));
    assert_eq!(fees.iter().sum::<i64>(), sum("fees", "money"));
    assert_eq!(cents(ledger, "total"), cents(&plan["totals"], "money"));
    assert_eq!(sum("gate_costs", "money"), cents(ledger, "total"));
    let landed = sum("buy", "money") + sum("buy", "tax") + sum("fees", "money");

    let table = read(&out, "buy_list.csv");
    let mut reader = csv::Reader::from_reader(table.trim_start_matches('\u{feff}').as_bytes());
    let heads = reader.headers().expect("heads").clone();
    let at = |name: &str| heads.iter().position(|h| h == name).expect("the column");
    let (money, tax) = (at("money"), at("tax"));
    let number = |cell: Option<&str>| cell.and_then(|c| c.parse::<f64>().ok()).unwrap_or(0.0);
    let total: f64 = reader
        .records()
        .map(|r| r.expect("a row"))
        .map(|r| number(r.get(money)) + number(r.get(tax)))
        .sum();
    assert_eq!((total * 100.0).round() as i64, landed);

    let mut book: Xlsx<_> = open_workbook(out.join("week.xlsx")).expect("a workbook");
    let tab = book.worksheet_range("Buy list").expect("the tab");
    let heads: Vec<String> = tab
        .rows()
        .next()
        .expect("heads")
        .iter()
        .map(Data::to_string)
        .collect();
    let at = |name: &str| heads.iter().position(|h| h.starts_with(name));
    let (money, tax) = (at("money ("), at("tax ("));
    let (money, tax) = (
        money.or(at("money")).expect("money"),
        tax.or(at("tax")).expect("tax"),
    );
    let figure = |d: &Data| match d {
        Data::Float(v) => *v,
        _ => 0.0,
    };
    let total: f64 = tab
        .rows()
        .skip(1)
        .map(|r| figure(&r[money]) + figure(&r[tax]))
        .sum();
    assert_eq!((total * 100.0).round() as i64, landed);
}

/// The freight of the totals is one of several steps: the letter says which hold.
#[test]
fn a_letter_says_the_steps_of_its_freight() {
    let week = buying("freight-steps", "shop.toml", |shop| shop);
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let out = week.join("results");
    let said = |name: &str| {
        let letter = read(&out, name);
        letter.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let steps = "Freight by your terms: joints up to 24'-0\" $45.00, longer ones $85.00; the first \
                 step is free from $1,500.00 of joints.";
    let harbor = said("order_Harbor_Pipe_invented.txt");
    assert!(harbor.replace('\u{a0}', " ").contains(steps), "{harbor}");
    let upland = said("order_Upland_Steel_invented.txt").replace('\u{a0}', " ");
    assert!(
        upland.ends_with("Freight by your terms: $20.00."),
        "{upland}"
    );
    // The shop's own list says the same.
    let list = said("buy_list.txt").replace('\u{a0}', " ");
    assert!(list.contains(&steps.replace("your", "their")), "{list}");
}

/// Freight that nobody quoted is in no total, and the letter says so.
#[test]
fn a_letter_says_that_no_freight_is_quoted() {
    let week = buying("freight-none", "suppliers.csv", |s| {
        s.replace("(invented),20,", "(invented),,")
    });
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    for (name, whose) in [
        ("order_Upland_Steel_invented.txt", "your"),
        ("buy_list.txt", "their"),
    ] {
        let words = read(&week.join("results"), name);
        let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
        let said = format!("Freight by {whose} terms: none is quoted, none is in this total.");
        assert!(words.contains(&said), "{words}");
    }
}

/// Freight that the order's amount makes free is a line of the letter, and its total stays the lines'.
#[test]
fn a_letter_says_that_its_freight_is_free() {
    let week = buying("freight-free", "suppliers.csv", |s| {
        s.replace(",1500,", ",100,")
    });
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let letter = read(&week.join("results"), "order_Harbor_Pipe_invented.txt");
    assert_eq!(
        amount(&letter, "Freight, free by amount "),
        Some(0),
        "{letter}"
    );
    let lines = ["Joints ", "Tax "].map(|row| amount(&letter, row).unwrap_or(0));
    assert_eq!(
        amount(&letter, "TOTAL "),
        Some(lines.iter().sum()),
        "{letter}"
    );
    let said = letter.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("of joints: this order reaches it."), "{said}");
    for sheet in ["buy_list.txt", "week.html"] {
        let list = read(&week.join("results"), sheet);
        for words in [
            "Freight, free by amount",
            "of joints: this order reaches it.",
        ] {
            let said = list.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(said.contains(words), "{sheet}: {words}");
        }
    }
}

#[test]
fn a_price_that_ran_out_is_marked_wherever_it_is_used() {
    let week = buying("buying-old", "stock.csv", |w| {
        w.replace("2026-03-31", "2026-02-27")
    });
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(
        ran.err.contains("the price ran out before the order date"),
        "{}",
        ran.err
    );
    let out = week.join("results");
    assert!(read(&out, "buy_list.txt").contains("THE PRICE RAN OUT ON 2026-02-27"));
    assert!(read(&out, "buy_list.csv").contains(",2026-02-27,"));
    assert!(read(&out, "order_Harbor_Pipe_invented.txt").contains("ran out on 2026-02-27"));
    assert!(!read(&out, "order_Upland_Steel_invented.txt").contains("ran out on"));
    assert!(read(&out, "week.html").contains("2026-02-27"));
    let plan = document(&out);
    let old = |v: &Value| {
        v["supplier"]
            .as_str()
            .is_some_and(|s| s.starts_with("Harbor"))
    };
    for line in plan["buy"].as_array().expect("lines") {
        assert_eq!(line["expired"].as_bool(), Some(old(line)), "{line}");
    }
    let mut book: Xlsx<_> = open_workbook(out.join("week.xlsx")).expect("a workbook");
    let tab = book.worksheet_range("Buy list").expect("the tab");
    let marked = |row: &[Data]| row.iter().any(|d| d.get_string() == Some("2026-02-27"));
    assert!(tab.rows().any(marked));
}

#[test]
fn a_missing_price_is_no_money_and_is_said() {
    let week = buying("buying-none", "stock.csv", |w| {
        w.replace("21 ft,3.48,foot", "21 ft,,")
            .replace("40 ft,3.42,foot", "40 ft,,")
            .replace("21 ft,65.90,joint", "21 ft,,")
    });
    let ran = longpoint(&["plan", text(&week)]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.err.contains("has no price"), "{}", ran.err);
    let out = week.join("results");
    let list = read(&out, "buy_list.txt");
    assert!(
        list.contains("price not given") && list.contains("A price is missing"),
        "{list}"
    );
    assert!(
        letters(&out)
            .iter()
            .any(|(_, l)| l.contains("price: please quote"))
    );
    let plan = document(&out);
    assert!(plan["ledger"].is_null() && plan["totals"]["money"].is_null());
    for line in plan["buy"].as_array().expect("lines") {
        assert_eq!(line["money"].is_null(), line["each"].is_null(), "{line}");
    }
    assert!(read(&out, "gate_costs.txt").contains("A price is missing"));
}

/// Every `C joints of … E a joint = M` of a text: count, price of one and money as printed.
fn multiplied(text: &str, equals: &str) -> Vec<(f64, f64, f64)> {
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let number = |words: &str| -> f64 {
        let digits = words.trim_start_matches('$').replace(',', "");
        let figures = |c: char| c.is_ascii_digit() || c == '.';
        let end = digits.find(|c| !figures(c)).unwrap_or(digits.len());
        digits[..end]
            .trim_end_matches('.')
            .parse()
            .expect("a number")
    };
    let each = format!(" a joint{equals}");
    let ends: Vec<usize> = flat.match_indices(&each).map(|(at, _)| at).collect();
    let row = |at: usize| {
        let (before, after) = flat.split_at(at);
        let (_, each) = before.rsplit_once(' ').expect("a price before it");
        let (head, _) = before.rsplit_once(" of ").expect("a length before it");
        let (head, _) = head.rsplit_once(" joint").expect("joints before it");
        let (_, count) = head.rsplit_once(' ').expect("a count before it");
        let (_, money) = after.split_once(equals).expect("money after it");
        (number(count), number(each), number(money))
    };
    ends.into_iter().map(row).collect()
}

/// Prices by the metre, the hundredweight and the tonne do not come to whole cents a joint.
#[test]
fn a_reader_who_multiplies_the_price_of_a_joint_gets_the_printed_money() {
    let week = buying("buying-multiply", "stock.csv", |w| {
        w.replace("21 ft,2.62,foot", "21 ft,8.597,metre")
            .replace("21 ft,3.48,foot", "21 ft,11.413,metre")
            .replace("21 ft,65.90,joint", "21 ft,1887,tonne")
            .replace("88.50,cwt", "87.91,cwt")
    });
    let out = planned("buying-multiplied", &week, &[]);
    let same = |(count, each, money): (f64, f64, f64)| {
        // Nine significant decimals are far inside what f64 holds; half a cent rounds away from zero.
        let cents = ((count * each * 100.0) + 1e-7).round();
        assert_eq!(cents, (money * 100.0).round(), "{count} x {each} = {money}");
        (each * 100.0 - (each * 100.0).round()).abs() > 1e-7
    };
    let mut rows = multiplied(&read(&out, "buy_list.txt"), " = $");
    assert!(rows.len() >= 3, "{rows:?}");
    for (_, letter) in letters(&out) {
        let of = multiplied(&letter, ": $");
        assert!(!of.is_empty(), "{letter}");
        rows.extend(of);
    }
    for line in document(&out)["buy"].as_array().expect("lines") {
        let figure = |name: &str| line[name].as_f64().expect("a figure");
        rows.push((figure("joints"), figure("each"), figure("money")));
    }
    let table = read(&out, "buy_list.csv");
    let mut reader = csv::Reader::from_reader(table.trim_start_matches('\u{feff}').as_bytes());
    let heads = reader.headers().expect("heads").clone();
    for row in reader.records().map(|r| r.expect("a row")) {
        let figure = |name: &str| {
            let at = heads.iter().position(|h| h == name).expect("the column");
            row[at].parse::<f64>()
        };
        if let (Ok(count), Ok(each)) = (figure("joints"), figure("price_each")) {
            rows.push((count, each, figure("money").expect("money")));
        }
    }
    let finer = rows.into_iter().map(same).filter(|fine| *fine).count();
    assert!(finer >= 4, "some prices need more than cents: {finer}");
}
