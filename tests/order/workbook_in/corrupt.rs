//! No workbook makes the reader panic or eat the machine, however it was spoiled.

use std::io::{Cursor, Write};

use longpoint::order::{print_faults, read_week};
use proptest::prelude::*;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::world::Typed::{Day, Number, Text};
use super::world::{book, errors, with};

fn sound() -> Vec<u8> {
    book(&[(
        "Orders",
        &[
            &[
                Text("mark"),
                Text("count"),
                Text("opening"),
                Text("height"),
                Text("due"),
            ],
            &[
                Text("A1"),
                Number(1.0),
                Text("12'"),
                Text("6'"),
                Day(2026, 3, 6),
            ],
        ],
    )])
}

fn read(name: &str, bytes: Vec<u8>) {
    let faults = match read_week(&with(name, bytes)) {
        Ok(week) => week.notices,
        Err(faults) => faults,
    };
    assert!(print_faults(&faults).ends_with(".\n"));
}

/// The parts of a workbook, unpacked.
pub fn parts(bytes: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).expect("a zip");
    let names: Vec<String> = zip
        .file_names()
        .map(|n| n.expect("a name").into_owned())
        .collect();
    let part = |name: String| {
        let mut file = zip.by_name(&name).expect("a part");
        let mut bytes = Vec::new();
        std::io::copy(&mut file, &mut bytes).expect("unpacks");
        (name, bytes)
    };
    names.into_iter().map(part).collect()
}

pub fn packed(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let how = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    for (name, bytes) in parts {
        zip.start_file(name.as_str(), how).expect("a part");
        zip.write_all(bytes).expect("packs");
    }
    zip.finish().expect("packed").into_inner()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_behind_the_name(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        read("orders.xlsx", bytes.clone());
        read("rack.xlsx", [b"PK\x03\x04".to_vec(), bytes].concat());
    }

    #[test]
    fn the_zip_spoiled_anywhere(at in any::<usize>(), len in 0usize..40, junk in prop::collection::vec(any::<u8>(), 0..20)) {
        let mut bytes = sound();
        let from = at % (bytes.len() + 1);
        let to = (from + len).min(bytes.len());
        bytes.splice(from..to, junk);
        read("orders.xlsx", bytes);
    }

    #[test]
    fn any_part_spoiled_and_packed_again(which in any::<usize>(), at in any::<usize>(), len in 0usize..12, junk in "[<>\"'=/a-z0-9#:& -]{0,12}") {
        let mut parts = parts(&sound());
        let which = which % parts.len();
        let bytes = &mut parts[which].1;
        let from = at % (bytes.len() + 1);
        let to = (from + len).min(bytes.len());
        bytes.splice(from..to, junk.into_bytes());
        read("orders.xlsx", packed(&parts));
    }

    #[test]
    fn numbers_of_any_size_in_any_part(which in any::<usize>(), nth in any::<usize>(), digits in "[0-9]{1,24}") {
        let mut parts = parts(&sound());
        let which = which % parts.len();
        let text = String::from_utf8_lossy(&parts[which].1).into_owned();
        let starts: Vec<usize> = text
            .char_indices()
            .filter(|(i, c)| c.is_ascii_digit() && !text[..*i].ends_with(|c: char| c.is_ascii_digit()))
            .map(|(i, _)| i)
            .collect();
        if !starts.is_empty() {
            let from = starts[nth % starts.len()];
            let to = from + text[from..].find(|c: char| !c.is_ascii_digit()).unwrap_or(0);
            parts[which].1 = [&text[..from], &digits, &text[to..]].concat().into_bytes();
            read("orders.xlsx", packed(&parts));
        }
    }
}

#[test]
fn a_part_that_states_more_than_it_holds_or_unpacks_without_end_is_refused() {
    let mut stated = parts(&sound());
    let strings = stated
        .iter_mut()
        .find(|(name, _)| name.ends_with("sharedStrings.xml"))
        .expect("texts");
    let text = String::from_utf8_lossy(&strings.1).into_owned();
    let at = text.find("uniqueCount=\"").expect("a count") + "uniqueCount=\"".len();
    strings.1 = [&text[..at], "99999999999", &text[at..]]
        .concat()
        .into_bytes();
    let said = &errors(&with("orders.xlsx", packed(&stated)))[0];
    assert!(said.what.contains("states more"), "{said:?}");

    let mut endless = parts(&sound());
    endless.push(("xl/media/blank.bin".to_owned(), vec![0; 129 << 20]));
    let said = &errors(&with("orders.xlsx", packed(&endless)))[0];
    assert!(said.what.contains("128 MB"), "{said:?}");
}

#[test]
fn a_cell_at_the_far_corner_costs_nothing() {
    let mut far = parts(&sound());
    let (_, sheet) = far
        .iter_mut()
        .find(|(name, _)| name.ends_with("sheet1.xml"))
        .expect("the sheet");
    let text = String::from_utf8_lossy(sheet).into_owned();
    let corner = "<row r=\"1048576\"><c r=\"XFD1048576\"><v>1</v></c></row></sheetData>";
    *sheet = text.replace("</sheetData>", corner).into_bytes();
    let said = &errors(&with("orders.xlsx", packed(&far)))[0];
    assert_eq!(said.cell.as_deref(), Some("XFD1048576"), "{said:?}");
}
