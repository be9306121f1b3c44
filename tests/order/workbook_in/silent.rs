//! What a workbook must not pass silently: hidden rows and sheets, formulas saved without a value, cells that
//! call themselves by a place no sheet has. The forms are those that spreadsheets and writing libraries are known to
//! save (from memory; ECMA-376 part 1, section 18 for the elements).

use longpoint::order::{Fault, Severity};
use rust_xlsxwriter::{Formula, Workbook, Worksheet};

use super::corrupt::{packed, parts};
use super::world::Typed::{Number, Text};
use super::world::{Typed, book, errors, fill, week, with};

const HEAD: &[Typed] = &[
    Text("mark"),
    Text("count"),
    Text("opening"),
    Text("height"),
    Text("hand"),
    Text("note"),
];

fn gate(mark: &'static str) -> [Typed; 6] {
    [
        Text(mark),
        Number(1.0),
        Text("12'"),
        Text("6'"),
        Text("left"),
        Text("plain"),
    ]
}

/// The workbook with one text of its first sheet put in place of another.
fn respelled(bytes: &[u8], from: &str, to: &str) -> Vec<u8> {
    let mut parts = parts(bytes);
    let sheet = parts
        .iter_mut()
        .find(|(name, _)| name.ends_with("sheet1.xml"));
    let (_, text) = sheet.expect("a sheet");
    let old = String::from_utf8(text.clone()).expect("XML is text");
    assert!(old.contains(from), "{from} in {old}");
    *text = old.replace(from, to).into_bytes();
    packed(&parts)
}

fn sound() -> Vec<u8> {
    book(&[("orders", &[HEAD, &gate("A1"), &gate("A2"), &gate("A3")])])
}

fn made(sheet: impl FnOnce(&mut Worksheet)) -> Vec<u8> {
    let mut book = Workbook::new();
    let own = book.add_worksheet();
    own.set_name("orders").expect("a name");
    fill(
        own,
        &[HEAD, &gate("A1"), &gate("A2"), &gate("A3"), &gate("A4")],
    );
    sheet(own);
    book.save_to_buffer().expect("saved")
}

fn warnings(bytes: Vec<u8>) -> Vec<Fault> {
    let mut said = week(&with("orders.xlsx", bytes)).notices;
    said.retain(|f| f.severity == Severity::Warning);
    said
}

#[test]
fn rows_that_a_filter_hides_are_said_and_read() {
    let bytes = made(|sheet| {
        for row in [2, 3] {
            sheet.set_row_hidden(row).expect("hidden");
        }
    });
    assert_eq!(week(&with("orders.xlsx", bytes.clone())).gates.len(), 4);
    let said = warnings(bytes);
    assert_eq!(said.len(), 1, "{said:?}");
    assert_eq!(said[0].line, Some(3));
    assert!(
        said[0].what.contains("rows 3, 4 are hidden and"),
        "{said:?}"
    );
    let filtered = made(|sheet| {
        sheet.autofilter(0, 0, 4, 5).expect("a filter");
        sheet.set_row_hidden(4).expect("hidden");
    });
    let said = warnings(filtered);
    assert!(
        said[0].what.contains("row 5 is hidden by a filter"),
        "{said:?}"
    );
    assert!(said[0].mend.contains("show them"), "{said:?}");
}

#[test]
fn nothing_is_said_of_rows_that_are_seen() {
    assert_eq!(warnings(sound()), []);
}

#[test]
fn a_workbook_of_hidden_sheets_is_called_that() {
    let mut hidden = parts(&sound());
    let (_, text) = hidden
        .iter_mut()
        .find(|(name, _)| name.ends_with("workbook.xml"))
        .expect("the book");
    let old = String::from_utf8(text.clone()).expect("text");
    *text = old
        .replace("<sheet ", "<sheet state=\"hidden\" ")
        .into_bytes();
    let faults = errors(&with("orders.xlsx", packed(&hidden)));
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(
        faults[0]
            .what
            .contains("every sheet of the workbook is hidden: orders"),
        "{faults:?}"
    );
    assert!(faults[0].mend.contains("show the sheet"), "{faults:?}");
}

/// As a library writes it that cannot calculate: the formula, and no value.
#[test]
fn a_formula_without_its_value_is_a_fault_in_every_column() {
    for (column, heading) in [(1, "count"), (2, "opening"), (5, "note")] {
        let bytes = made(|sheet| {
            let formula = Formula::new("=1+1").set_result("2");
            sheet.write_formula(2, column, formula).expect("written");
        });
        let cell = ["A3", "B3", "C3", "D3", "E3", "F3"][usize::from(column)];
        let saved = format!("<c r=\"{cell}\"><f>1+1</f><v>2</v></c>");
        for unsaved in ["<f>1+1</f><v></v>", "<f>1+1</f><v/>", "<f>1+1</f>"] {
            let unsaved = format!("<c r=\"{cell}\">{unsaved}</c>");
            let faults = errors(&with("orders.xlsx", respelled(&bytes, &saved, &unsaved)));
            assert_eq!(faults.len(), 1, "{heading}: {faults:?}");
            let fault = &faults[0];
            assert_eq!(fault.cell.as_deref(), Some(cell), "{fault:?}");
            assert_eq!(fault.column.as_deref(), Some(heading), "{fault:?}");
            assert_eq!(fault.value.as_deref(), Some("=1+1"), "{fault:?}");
            assert!(fault.what.contains("saved without its value"), "{fault:?}");
            assert!(fault.mend.contains("save it again"), "{fault:?}");
        }
    }
}

/// A formula that comes to no text says so: its cell is empty.
#[test]
fn a_formula_that_comes_to_nothing_is_an_empty_cell() {
    let bytes = made(|sheet| {
        let formula = Formula::new("=T(1)").set_result("2");
        sheet.write_formula(2, 5, formula).expect("written");
    });
    let saved = "<c r=\"F3\"><f>T(1)</f><v>2</v></c>";
    let empty = "<c r=\"F3\" t=\"str\"><f>T(1)</f><v></v></c>";
    let bytes = respelled(&bytes, saved, empty);
    assert_eq!(week(&with("orders.xlsx", bytes)).gates[1].note, "");
}

/// Read by arithmetic that wraps, such a cell would stand somewhere else.
#[test]
fn a_cell_beyond_every_sheet_is_called_that() {
    for (from, to, named) in [
        ("r=\"C3\"", "r=\"C4294967299\"", "cell C4294967299"),
        ("r=\"C3\"", "r=\"XFE3\"", "cell XFE3"),
        ("r=\"C3\"", "r=\"MWLQKWV3\"", "cell MWLQKWV3"),
        ("<row r=\"3\"", "<row r=\"4294967298\"", "row 4294967298"),
    ] {
        let faults = errors(&with("orders.xlsx", respelled(&sound(), from, to)));
        assert_eq!(faults.len(), 1, "{faults:?}");
        let what = &faults[0].what;
        assert!(
            what.contains(named) && what.contains("lies where no sheet"),
            "{what}"
        );
    }
}

/// A text by its number, where there are fewer texts.
#[test]
fn a_text_that_is_not_there_is_damage() {
    let bytes = respelled(
        &sound(),
        "<c r=\"A3\" t=\"s\"><v>",
        "<c r=\"A3\" t=\"s\"><v>9",
    );
    let faults = errors(&with("orders.xlsx", bytes));
    assert!(!faults.is_empty());
}

#[test]
fn a_rate_shown_in_percent_is_read_as_it_is_seen() {
    let file = |name: &str, bytes: Vec<u8>| {
        let name = name.to_owned();
        Some(longpoint::text::SourceFile { name, bytes })
    };
    let rows: &[&[Typed]] = &[
        &[Text("supplier"), Text("tax")],
        &[Text("Ada"), Typed::Shown(0.0825, "0.00%")],
    ];
    let stock = "pipe,supplier,length,price,per\n1-7/8 SS40,Ada,21 ft,2.62,foot\n2-3/8 SS40,Ada,21 ft,3.48,foot\n";
    let files = longpoint::order::WeekFiles {
        stock: file("stock.csv", stock.as_bytes().to_vec()),
        suppliers: file("suppliers.xlsx", book(&[("suppliers", rows)])),
        ..with("orders.xlsx", sound())
    };
    let tax = week(&files).supplier("Ada").map(|s| s.tax.to_string());
    assert_eq!(tax.as_deref(), Some("0.0825"));
}
