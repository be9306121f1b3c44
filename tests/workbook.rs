//! The workbook read back by another library: numbers are numbers, printed forms stand beside them,
//! and nothing is a formula.

mod made;

use std::io::Cursor;

use calamine::{Data, DataType, Reader, Xlsx};
use longpoint::check::CheckedPlan;
use longpoint::measure::INCH;
use longpoint::report::paper::Paper;
use longpoint::report::{WORKBOOK, results};

fn book(plan: &CheckedPlan) -> Xlsx<Cursor<Vec<u8>>> {
    let files = results(plan, Paper::Letter).expect("results");
    let (_, bytes) = files
        .into_iter()
        .find(|(n, _)| n == WORKBOOK)
        .expect("a workbook");
    if let Some(folder) = std::env::var_os("LONGPOINT_PAPER_OUT") {
        std::fs::write(std::path::PathBuf::from(folder).join(WORKBOOK), &bytes).expect("written");
    }
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
    let plan = made::checked(&made::demo("demo_us"));
    let mut book = book(&plan);
    let rows = book.worksheet_range("Cut plan").expect("the tab");
    let (mark, number, printed) = (
        column(&rows, "mark"),
        column(&rows, "saw length (in)"),
        column(&rows, "saw length"),
    );
    let pieces = plan.plan().joints.iter().flat_map(|j| &j.pieces);
    let mut found = 0;
    for piece in pieces {
        let saw = piece.saw.geometric() / INCH;
        let words = piece.saw.print(plan.week().shop.units);
        let fits = |row: &[Data]| {
            let figure = matches!(row[number], Data::Float(v) if (v - saw).abs() < 1e-6);
            row[mark].to_string() == piece.mark && figure && row[printed].to_string() == words
        };
        assert!(rows.rows().any(fits), "{} {saw} {words}", piece.mark);
        found += 1;
    }
    assert!(found > 100);
    for tab in [
        "Buy list",
        "Parts",
        "Remnants",
        "Gates",
        "Copes",
        "Splices",
        "Comparison",
    ] {
        let rows = book.worksheet_range(tab).expect(tab);
        assert!(rows.height() > 1, "{tab} has rows");
        let formulas = book.worksheet_formula(tab).expect(tab);
        assert!(formulas.cells().all(|(_, _, f)| f.is_empty()), "{tab}");
    }
}

#[test]
fn the_buy_list_adds_up_to_the_plans_order_lines() {
    let plan = made::checked(&made::demo("demo_us"));
    let mut book = book(&plan);
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
    assert_eq!(sum, f64::from(wanted + spares));
}
