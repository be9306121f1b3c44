//! What whole files can get wrong, and what they are forgiven.

use super::world::{Files, ORDERS, SHOP, demand, notices, only_error, order, read, sound};

#[test]
fn columns_are_known_or_asked_about() {
    let fault = only_error(&order("mark,count,openning,opening,height", "A1,1,,12',6'"));
    demand(&fault, ("orders.csv", 1, "openning"), "", "not a column");
    assert!(
        fault.mend.contains("did you mean \"opening\"?"),
        "{fault:?}"
    );
    let fault = only_error(&order("mark,count,qty,opening,height", "A1,1,1,12',6'"));
    demand(&fault, ("orders.csv", 1, "qty"), "", "twice");
    let fault = only_error(&order("mark,count,opening", "A1,1,12'"));
    demand(&fault, ("orders.csv", 1, "height"), "", "missing");
    let fault = only_error(&order("mark,count,opening,height,", "A1,1,12',6',stray"));
    assert_eq!(
        (fault.line, fault.value.as_deref()),
        (Some(2), Some("stray"))
    );
    let fault = only_error(&order("A1,1,12',6'", "A2,1,12',6'"));
    assert!(fault.what.contains("no row names the columns"), "{fault:?}");
    let week = read(&order(
        "HEIGHT,#ours,Mark, COUNT ,Clear-Opening",
        "6',x,A1,1,12'",
    ));
    assert_eq!(week.expect("read").gates[0].opening.inches(), 144.0);
    let week = read(&order("mark,count,opening (ft),height (in)", "A1,1,12,72"));
    assert_eq!(week.expect("read").gates[0].opening.inches(), 144.0);
}

#[test]
fn spreadsheet_files_work_as_they_come() {
    let text = "\u{FEFF}Week 9;;;\r\n\r\nMark; Count ;Opening;Height;Note;Hand\r\n;;;;;\r\n“A1”;2;12’-0”;6′;“twins; yard”;LH\r\n";
    let week = read(&Files {
        orders: Some(text.as_bytes().to_vec()),
        ..sound()
    })
    .expect("read");
    let g = &week.gates[0];
    assert_eq!(
        (g.count, g.opening.inches(), g.height.inches()),
        (2, 144.0, 72.0)
    );
    assert_eq!((g.note.as_str(), g.origin.line), ("twins; yard", 5));
    let wide: Vec<u8> = [0xFF, 0xFE]
        .into_iter()
        .chain(ORDERS.encode_utf16().flat_map(u16::to_le_bytes))
        .collect();
    let files = Files {
        orders: Some(wide),
        ..sound()
    };
    assert_eq!(notices(&files), []);
    let mut old = sound();
    old.orders = Some(b"mark,count,opening,height,hand\nTor \xC4,1,12',6',l\n".to_vec());
    assert_eq!(notices(&old)[0].line, Some(2));
    assert_eq!(read(&old).expect("read").gates[0].mark, "Tor Ä");
}

#[test]
fn whole_files_are_judged() {
    let empty = |f: fn(&mut Files)| {
        let mut files = sound();
        f(&mut files);
        read(&files).expect_err("refused")
    };
    let faults = empty(|f| f.orders = Some(Vec::new()));
    assert_eq!(
        (faults[0].file.as_str(), faults[0].what.as_str()),
        ("orders.csv", "the file is empty")
    );
    assert!(
        empty(|f| f.shop = None)
            .iter()
            .any(|f| f.file == "shop.toml" && f.what.contains("missing"))
    );
    assert!(
        empty(|f| f.stock = None)
            .iter()
            .any(|f| f.file == "stock.csv" && f.what.contains("missing"))
    );
    assert!(
        empty(|f| f.orders = None)[0]
            .what
            .contains("neither orders.csv nor parts.csv")
    );
    assert!(
        empty(|f| f.shop = Some(Vec::new()))
            .iter()
            .any(|f| f.what.contains("no pipe is declared"))
    );
    assert!(
        empty(|f| f.orders = Some(b"PK\x03\x04".to_vec()))[0]
            .mend
            .contains("CSV")
    );
    assert!(
        empty(|f| f.stock = Some(b"pipe,length\nH,\"21 ft\n".to_vec()))[0]
            .what
            .contains("never closed")
    );
    let mut parts_alone = sound();
    parts_alone.orders = None;
    parts_alone.parts = Some(b"mark,pipe,length,count\nP1,H,5',3\n".to_vec());
    parts_alone.shop = Some(SHOP.replace("[splice]\ncost = 40\n", "").into_bytes());
    assert_eq!(notices(&parts_alone), []);
}
