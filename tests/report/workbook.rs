//! The workbooks read back by other means: numbers are numbers, printed forms stand beside them, widths
//! and print are set, heads are frozen, and nothing is a formula.

use std::io::{Cursor, Read};
use std::sync::OnceLock;

use crate::{made, tiny_week};
use calamine::{Data, DataType, Reader, Xlsx};
use longpoint::check::CheckedPlan;
use longpoint::compare::{How, Wishes, compare};
use longpoint::measure::{INCH, MM, Units};
use longpoint::nest::Limits;
use longpoint::order::WeekFiles;
use longpoint::report::paper::Paper;
use longpoint::report::{WORKBOOK, comparison, results};
use longpoint::text::SourceFile;

/// Text of a user's that a spreadsheet would run if it were let.
const HOSTILE: &str = "=HYPERLINK(\"x\",\"y\")";

/// Every demo week, and the small one with hostile text in it, made once.
fn plans() -> &'static [(&'static str, CheckedPlan)] {
    static PLANS: OnceLock<Vec<(&'static str, CheckedPlan)>> = OnceLock::new();
    PLANS.get_or_init(|| {
        let demos = ["demo_us", "demo_metric", "demo_small", "demo_buying"];
        let mut all: Vec<(&str, CheckedPlan)> = demos
            .iter()
            .map(|name| (*name, made::checked(&made::demo(name))))
            .collect();
        all.push(("hostile", made::checked(&hostile())));
        all
    })
}

/// The small week whose supplier, tags and marks begin like formulas.
fn hostile() -> WeekFiles {
    let file = |name: &str, text: String| {
        Some(SourceFile {
            name: name.to_owned(),
            bytes: text.into_bytes(),
        })
    };
    let quoted = format!("\"{}\"", HOSTILE.replace('"', "\"\""));
    let stock = format!("pipe,supplier,length,price,per\n2-3/8 SS40,{quoted},21 ft,3.48,foot\n");
    let parts = "mark,pipe,length,count\n@SUM(A1),2-3/8 SS40,9',2\n-2+3,2-3/8 SS40,8',1\n";
    WeekFiles {
        orders: None,
        rack: None,
        stock: file("stock.csv", stock),
        parts: file("parts.csv", parts.to_owned()),
        ..made::demo("demo_small")
    }
}

fn bytes(plan: &CheckedPlan) -> Vec<u8> {
    let files = results(plan, Paper::Letter).expect("results");
    let (_, bytes) = files
        .into_iter()
        .find(|(n, _)| n == WORKBOOK)
        .expect("a workbook");
    if let Some(folder) = std::env::var_os("LONGPOINT_PAPER_OUT") {
        std::fs::write(std::path::PathBuf::from(folder).join(WORKBOOK), &bytes).expect("written");
    }
    bytes
}

fn book(bytes: Vec<u8>) -> Xlsx<Cursor<Vec<u8>>> {
    Xlsx::new(Cursor::new(bytes)).expect("it opens")
}

/// The column of a head in a tab.
fn column(rows: &calamine::Range<Data>, head: &str) -> usize {
    let heads = rows.rows().next().expect("a head");
    let named = |d: &Data| d.get_string() == Some(head);
    heads
        .iter()
        .position(named)
        .unwrap_or_else(|| panic!("{head} in {heads:?}"))
}

#[test]
fn the_cut_plan_holds_every_piece_as_numbers_with_the_printed_form() {
    for (name, plan) in plans() {
        let mut book = book(bytes(plan));
        let rows = book.worksheet_range("Cut plan").expect("the tab");
        let units = plan.week().shop.units;
        let (unit, head) = match units {
            Units::Inch => (INCH, "saw length (in)"),
            Units::Metric => (MM, "saw length (mm)"),
        };
        let (mark, number) = (column(&rows, "mark"), column(&rows, head));
        let printed = column(&rows, "saw length");
        for piece in plan.plan().joints.iter().flat_map(|j| &j.pieces) {
            let saw = piece.saw.geometric() / unit;
            let words = piece.saw.print(units);
            let fits = |row: &[Data]| {
                let figure = matches!(row[number], Data::Float(v) if (v - saw).abs() < 1e-6);
                row[mark].to_string() == piece.mark && figure && row[printed].to_string() == words
            };
            let found = rows.rows().any(fits);
            assert!(found, "{name}: {} {saw} {words}", piece.mark);
        }
        for tab in ["Buy list", "Parts", "Remnants", "Gate costs", "Comparison"] {
            let rows = book.worksheet_range(tab).expect(tab);
            assert!(
                rows.height() > 1 || tab == "Remnants",
                "{name}: {tab} has rows"
            );
        }
    }
}

#[test]
fn the_buy_list_adds_up_to_the_plans_order_lines() {
    for (name, plan) in plans() {
        let mut book = book(bytes(plan));
        let rows = book.worksheet_range("Buy list").expect("the tab");
        let joints = column(&rows, "joints");
        let sum: f64 = rows
            .rows()
            .skip(1)
            .filter_map(|r| match r[joints] {
                Data::Float(v) => Some(v),
                _ => None,
            })
            .sum();
        let wanted: u32 = plan.plan().buy.iter().map(|b| b.joints).sum();
        let spares: u32 = plan.plan().spares.iter().map(|s| s.joints).sum();
        assert_eq!(sum, f64::from(wanted + spares), "{name}");
    }
}

/// The comparison tab: this plan first, the hand ways with their money as numbers.
#[test]
fn the_comparison_tab_holds_the_hand_ways() {
    for (name, plan) in plans() {
        let mut book = book(bytes(plan));
        let rows = book.worksheet_range("Comparison").expect("the tab");
        let money = column(&rows, "money (number)");
        let hands = &plan.plan().references;
        assert_eq!(
            rows.height(),
            hands.len() + 2,
            "{name}: head, plan, hand ways"
        );
        assert!(!hands.is_empty(), "{name}");
        let wanted = std::iter::once(plan.plan().total).chain(hands.iter().map(|r| r.money));
        for (row, wanted) in rows.rows().skip(1).zip(wanted) {
            let wanted = wanted.map(|m| m.cents().to_string().replace(',', ""));
            let held = match row[money] {
                Data::Float(v) => Some(format!("{v:.2}")),
                _ => None,
            };
            assert_eq!(held, wanted, "{name}: {row:?}");
        }
    }
}

/// The text of every tab's own file inside a workbook.
fn tabs(bytes: Vec<u8>) -> Vec<String> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).expect("a workbook is a zip");
    let names: Vec<String> = archive
        .file_names()
        .map(|n| n.expect("a name").into_owned())
        .collect();
    let tabs = names
        .iter()
        .filter(|n| n.starts_with("xl/worksheets/sheet"));
    tabs.map(|name| {
        let mut text = String::new();
        let mut file = archive.by_name(name.as_str()).expect("it is listed");
        file.read_to_string(&mut text).expect("XML");
        text
    })
    .collect()
}

/// Head frozen and repeated, every column's width set, landscape, as wide as one page; no formula.
fn is_set_up(name: &str, bytes: &[u8]) {
    let mut names = String::new();
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes.to_vec())).expect("a zip");
    let mut file = archive.by_name("xl/workbook.xml").expect("the book");
    file.read_to_string(&mut names).expect("XML");
    let tabs = tabs(bytes.to_vec());
    assert!(!tabs.is_empty());
    assert_eq!(
        names.matches("_xlnm.Print_Titles").count(),
        tabs.len(),
        "{name}"
    );
    for tab in tabs {
        for words in [
            "ySplit=\"1\"",
            "state=\"frozen\"",
            "orientation=\"landscape\"",
            "fitToHeight=\"0\"",
            "<oddHeader>",
            "<oddFooter>",
        ] {
            assert!(tab.contains(words), "{name}: {words} in {tab}");
        }
        let heads = tab.split("</row>").next().expect("a head row");
        let heads = heads.matches("<c r=").count();
        let widths = tab.split("<cols>").nth(1).expect("widths");
        let widths = widths.split("</cols>").next().expect("their end");
        let spans = widths.split("<col ").skip(1).map(|c| {
            let edge = |key: &str| -> usize {
                let from = c.split(key).nth(1).expect("an edge");
                from.split('"')
                    .next()
                    .expect("a number")
                    .parse()
                    .expect("a number")
            };
            assert!(c.contains("customWidth=\"1\""), "{name}: {c}");
            edge("max=\"") + 1 - edge("min=\"")
        });
        assert_eq!(
            spans.sum::<usize>(),
            heads,
            "{name}: a width for every column"
        );
        assert!(
            !tab.contains("<f>") && !tab.contains("<f "),
            "{name}: a formula"
        );
    }
}

/// The numbers between two texts.
fn number(text: &str, before: &str) -> f64 {
    let from = text.split(before).nth(1);
    let from = from.unwrap_or_else(|| panic!("{before} in {text}"));
    let to = from.split('"').next().expect("its end");
    to.parse().expect("a number")
}

/// Every tab prints at 6.5 point or more across its pages, and prints no number that its printed form says.
#[test]
fn every_tab_prints_large_enough_to_read() {
    for (name, plan) in plans() {
        let bytes = bytes(plan);
        let mut held = book(bytes.clone());
        let titles = held.sheet_names();
        let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).expect("a zip");
        let mut file = |name: &str| {
            let mut text = String::new();
            let mut file = archive.by_name(name).expect("it is listed");
            file.read_to_string(&mut text).expect("XML");
            text
        };
        let names = file("xl/workbook.xml");
        let areas: Vec<&str> = names.split("_xlnm.Print_Area").skip(1).collect();
        assert_eq!(areas.len(), titles.len(), "{name}: an area for every tab");
        for (i, title) in titles.iter().enumerate() {
            let tab = file(&format!("xl/worksheets/sheet{}.xml", i + 1));
            let area = areas
                .iter()
                .find(|a| a.contains(&format!("localSheetId=\"{i}\"")))
                .expect("its area");
            let last = area.split('$').nth(3).expect("a last column");
            let letters = last.bytes().take_while(u8::is_ascii_uppercase);
            let last = letters.fold(0, |n, b| n * 26 + usize::from(b - b'A') + 1);
            let rows = held.worksheet_range(title).expect("the tab");
            for head in rows.rows().next().expect("a head").iter().take(last) {
                let head = head.to_string();
                let twins = ["(in)", "(mm)", "(lb)", "(kg)", "(number)"];
                let twin = twins.iter().any(|t| head.ends_with(t));
                assert!(!twin, "{name} {title}: {head} is printed");
            }
            let across: f64 = tab
                .split("<col ")
                .skip(1)
                .map(|c| {
                    let (min, max) = (number(c, "min=\""), number(c, "max=\""));
                    let printed = (max.min(last as f64) - min + 1.0).max(0.0);
                    printed * (7.0 * number(c, "width=\"") + 5.0) / 96.0
                })
                .sum();
            let pages = match tab.contains("fitToWidth=\"") {
                true => number(&tab, "fitToWidth=\""),
                false => 1.0,
            };
            let room = if number(&tab, "paperSize=\"") == 9.0 {
                11.69
            } else {
                11.0
            } - 0.8;
            let points = 11.0 * (pages * room / across).min(1.0);
            assert!(
                points >= 6.5,
                "{name} {title}: {points:.1} pt, {across:.1} in"
            );
        }
    }
}

#[test]
fn every_tab_is_set_up_to_read_and_print_and_no_text_of_the_users_runs() {
    for (name, plan) in plans() {
        is_set_up(name, &bytes(plan));
    }
    let (_, plan) = plans().iter().find(|(n, _)| *n == "hostile").expect("it");
    let mut book = book(bytes(plan));
    let rows = book.worksheet_range("Buy list").expect("the tab");
    let supplier = column(&rows, "supplier");
    let held = rows
        .rows()
        .any(|r| r[supplier].get_string() == Some(HOSTILE));
    assert!(held, "the text is there, as text");
}

#[test]
fn the_workbook_of_a_comparison_is_set_up_alike() {
    let mut week = tiny_week::week();
    week.gates.truncate(1);
    week.shop.name = HOSTILE.to_owned();
    let how = How::unwatched(Limits {
        work: 2_000_000,
        time: None,
    });
    let found = compare(&week, &Wishes::default(), how).expect("rows");
    let files = comparison::results(&found, None).expect("files");
    let (_, bytes) = files
        .iter()
        .find(|(n, _)| n == "comparison.xlsx")
        .expect("its workbook");
    is_set_up("comparison", bytes);
    let mut book = book(bytes.clone());
    let rows = book.worksheet_range("Comparison").expect("the tab");
    assert_eq!(rows.height(), found.rows.len() + 1, "a row a variant");
    let money = column(&rows, "money (number)");
    let numbers = rows
        .rows()
        .skip(1)
        .filter(|r| matches!(r[money], Data::Float(_)));
    let made = found.rows.iter().filter(|r| r.figures().is_some());
    assert_eq!(numbers.count(), made.count());
}
