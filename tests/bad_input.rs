//! Everything a user can get wrong in a row or a setting: each fault names file, line, column,
//! value, what is wrong and how to mend it; all faults of all files come together.

use longpoint::order::{Fault, Severity, Week, WeekFiles, print_faults, read_week};
use longpoint::text::SourceFile;

const SHOP: &str = "\
name = \"Shop\"
units = \"inch\"
[[pipe]]
name = \"H\"
od = 2.375
wall = 0.154
[[pipe]]
name = \"V\"
od = 1.900
wall = 0.145
[gate]
horizontal = \"H\"
end_post = \"H\"
vertical = \"V\"
diagonal = \"V\"
[splice]
cost = 40
";
const ORDERS: &str = "mark,count,opening,height,hand\nA1,1,12',6',left\n";
const STOCK: &str = "pipe,length,price,per\nH,21 ft,3.48,foot\nV,21 ft,2.62,foot\n";

/// A sound little week, each file to be spoiled.
#[derive(Clone)]
struct Files {
    orders: Option<Vec<u8>>,
    shop: Option<Vec<u8>>,
    stock: Option<Vec<u8>>,
    rack: Option<Vec<u8>>,
    parts: Option<Vec<u8>>,
}

fn sound() -> Files {
    let some = |t: &str| Some(t.as_bytes().to_vec());
    Files {
        orders: some(ORDERS),
        shop: some(SHOP),
        stock: some(STOCK),
        rack: None,
        parts: None,
    }
}

fn read(files: &Files) -> Result<Week, Vec<Fault>> {
    let file = |name: &str, bytes: &Option<Vec<u8>>| {
        bytes.as_ref().map(|bytes| SourceFile {
            name: name.to_owned(),
            bytes: bytes.clone(),
        })
    };
    read_week(&WeekFiles {
        orders: file("orders.csv", &files.orders),
        shop: file("shop.toml", &files.shop),
        stock: file("stock.csv", &files.stock),
        rack: file("rack.csv", &files.rack),
        parts: file("parts.csv", &files.parts),
    })
}

/// Warnings and notes of a week that reads.
fn notices(files: &Files) -> Vec<Fault> {
    read(files)
        .unwrap_or_else(|f| panic!("{}", print_faults(&f)))
        .notices
}

/// The one error there is.
#[track_caller]
fn only_error(files: &Files) -> Fault {
    let faults = read(files).expect_err("refused");
    let errors: Vec<&Fault> = faults
        .iter()
        .filter(|f| f.severity == Severity::Error)
        .collect();
    assert_eq!(errors.len(), 1, "{}", print_faults(&faults));
    errors[0].clone()
}

/// Demands place, value, and words.
#[track_caller]
fn demand(fault: &Fault, place: (&str, u32, &str), value: &str, what: &str) {
    let (file, line, column) = place;
    assert_eq!(fault.file, file, "{fault:?}");
    assert_eq!(fault.line, Some(line), "{fault:?}");
    assert_eq!(fault.column.as_deref(), Some(column), "{fault:?}");
    assert_eq!(fault.value.as_deref().unwrap_or(""), value, "{fault:?}");
    assert!(fault.what.contains(what), "{fault:?} lacks {what:?}");
    assert!(fault.mend.len() > 5, "{fault:?}");
}

/// One order row with a header, in an otherwise sound week.
fn order(header: &str, row: &str) -> Files {
    Files {
        orders: Some(format!("{header}\n{row}\n").into_bytes()),
        ..sound()
    }
}

/// A line added to a section of the sound shop (the section is opened when it is not there).
fn shop_with(section: &str, line: &str) -> Files {
    let head = format!("[{section}]\n");
    let text = if SHOP.contains(&head) {
        SHOP.replace(&head, &format!("{head}{line}\n"))
    } else {
        format!("{SHOP}{head}{line}\n")
    };
    Files {
        shop: Some(text.into_bytes()),
        ..sound()
    }
}

fn line_of(files: &Files, text: &str) -> u32 {
    let shop = String::from_utf8(files.shop.clone().unwrap_or_default()).expect("text");
    let at = shop
        .lines()
        .position(|l| l == text)
        .expect("the line is there");
    u32::try_from(at).expect("small") + 1
}

#[test]
fn the_sound_week_is_sound() {
    assert_eq!(notices(&sound()), []);
}

#[test]
fn sizes_of_an_order_are_judged() {
    const HEADER: &str = "mark,count,opening,height,overlap,tail,leaf";
    let cases = [
        ("A1,1,0,6',,,", "opening", "0", "over zero"),
        ("A1,1,-12',6',,,", "opening", "-12'", "over zero"),
        ("A1,1,NaN,6',,,", "opening", "NaN", "not a unit"),
        ("A1,1,inf,6',,,", "opening", "inf", "not a unit"),
        ("A1,1,9000',6',,,", "opening", "9000'", "too large"),
        ("A1,1,12,6',,,", "opening", "12", "too small"),
        ("A1,1,30,6',,,", "opening", "30", "no unit"),
        ("A1,1,5-8,6',,,", "opening", "5-8", "two ways"),
        ("A1,1,20.11,6',,,", "opening", "20.11", "20 ft 11 in"),
        ("A1,1,12' 3 mm,6',,,", "opening", "12' 3 mm", "mixed"),
        ("A1,1,twelve,6',,,", "opening", "twelve", "not a unit"),
        ("A1,1,,6',,,", "opening", "", "missing"),
        ("A1,1,12',6,,,", "height", "6", "too small"),
        ("A1,1,12',0',,,", "height", "0'", "over zero"),
        ("A1,1,12',90',,,", "height", "90'", "too large"),
        ("A1,1,12',6',-1',,", "overlap", "-1'", "over zero"),
        ("A1,1,12',6',,0,", "tail", "0", "over zero"),
        ("A1,1,12',6',,5,", "tail", "5", "no unit"),
        ("A1,1,12',6',,,12'", "leaf", "12'", "nothing for the tail"),
        ("A1,1,12',6',1',6',20'", "leaf", "20'", "which is 19'-0\""),
    ];
    for (row, column, value, what) in cases {
        let fault = only_error(&order(HEADER, row));
        demand(&fault, ("orders.csv", 2, column), value, what);
    }
}

#[test]
fn of_leaf_overlap_and_tail_any_two_fix_the_third() {
    const HEADER: &str = "mark,count,opening,height,overlap,tail,leaf";
    let cases = [
        ("A1,1,12',6',,,", 12.0, 72.0, 228.0),
        ("A1,1,12',6',,,19'", 12.0, 72.0, 228.0),
        ("A1,1,12',6',14\",,19'", 14.0, 70.0, 228.0),
        ("A1,1,12',6',,70\",19'", 14.0, 70.0, 228.0),
        ("A1,1,12',6',14\",70\",", 14.0, 70.0, 228.0),
        ("A1,1,12',6',14\",70\",19'", 14.0, 70.0, 228.0),
        ("A1,1,7',6',,,", 12.0, 48.0, 144.0),
    ];
    for (row, overlap, tail, leaf) in cases {
        let week = read(&order(HEADER, row)).expect(row);
        let g = &week.gates[0];
        assert_eq!(
            (g.latch_overlap + g.roller_overlap).inches(),
            overlap,
            "{row}"
        );
        assert_eq!(g.tail / 8128.0, tail, "{row}");
        assert_eq!(g.leaf / 8128.0, leaf, "{row}");
    }
}

#[test]
fn the_rest_of_an_order_row_is_judged() {
    let head = "mark,count,opening,height,hand,bays,bay lines,horizontal,due,barbed,kit,excluded bays,roller spacing";
    let cases = [
        ("A1,1.5,12',6',,,,,,,,,", "count", "1.5", "whole number"),
        ("A1,-1,12',6',,,,,,,,,", "count", "-1", "below zero"),
        ("A1,x,12',6',,,,,,,,,", "count", "x", "not a number"),
        ("A1,,12',6',,,,,,,,,", "count", "", "empty"),
        (
            "A1,999999999,12',6',,,,,,,,,",
            "count",
            "999999999",
            "past all sense",
        ),
        (",1,12',6',,,,,,,,,", "mark", "", "empty"),
        ("A1,1,12',6',up,,,,,,,,", "hand", "up", "no hand"),
        ("A1,1,12',6',,0,,,,,,,", "bays", "0", "from 1 to 200"),
        ("A1,1,12',6',,2.5,,,,,,,", "bays", "2.5", "whole number"),
        (
            "A1,1,12',6',,,9' | 4',,,,,,",
            "bay lines",
            "9' | 4'",
            "rise",
        ),
        (
            "A1,1,12',6',,,4' | 90',,,,,,",
            "bay lines",
            "4' | 90'",
            "inside the leaf",
        ),
        ("A1,1,12',6',,4,4',,,,,,", "bay lines", "4'", "both"),
        ("A1,1,12',6',,,,HH,,,,,", "horizontal", "HH", "not declared"),
        (
            "A1,1,12',6',,,,,3/4/2026,,,,",
            "due",
            "3/4/2026",
            "month first or day first",
        ),
        (
            "A1,1,12',6',,,,,2026-02-30,,,,",
            "due",
            "2026-02-30",
            "not a day",
        ),
        ("A1,1,12',6',,,,,soon,,,,", "due", "soon", "not a date"),
        ("A1,1,12',6',,,,,,99,,,", "barbed", "99", "barbed"),
        (
            "A1,1,12',6',,,,,,,maybe,,",
            "kit",
            "maybe",
            "neither yes nor no",
        ),
        (
            "A1,1,12',6',,,,,,,,0,",
            "excluded bays",
            "0",
            "no list of bays",
        ),
        (
            "A1,1,12',6',,,,,,,,,7'",
            "roller spacing",
            "7'",
            "past the tail end",
        ),
    ];
    for (row, column, value, what) in cases {
        let fault = only_error(&order(head, row));
        demand(&fault, ("orders.csv", 2, column), value, what);
    }
    let fault = only_error(&order(head, "A1,1,12',6',,,,Q9,,,,,"));
    assert!(fault.mend.contains("known here: H, V"), "{fault:?}");
}

#[test]
fn marks_are_unique_visible_and_short() {
    let head = "mark,count,opening,height";
    let dup = only_error(&order(head, "A1,1,12',6'\na1,1,12',6'"));
    demand(
        &dup,
        ("orders.csv", 3, "mark"),
        "a1",
        "already used in orders.csv line 2",
    );
    let copy = only_error(&order(head, "A1,2,12',6'\nA1.2,1,12',6'"));
    demand(&copy, ("orders.csv", 3, "mark"), "A1.2", "a copy of gate");
    let mut files = sound();
    files.parts = Some(b"mark,pipe,length,count\nA1-HT,H,5',1\n".to_vec());
    demand(
        &only_error(&files),
        ("parts.csv", 2, "mark"),
        "A1-HT",
        "a part of gate",
    );
    let long = "A".repeat(500);
    let fault = only_error(&order(head, &format!("{long},1,12',6'")));
    assert!(fault.what.contains("longer than"), "{fault:?}");
    assert!(
        print_faults(&[fault]).len() < 400,
        "long values are cut in print"
    );
    let fault = only_error(&order(head, "A\u{7}1,1,12',6'"));
    assert!(fault.what.contains("U+0007"), "{fault:?}");
    assert!(print_faults(&[fault]).contains("\\u{7}"));
    for mark in ["ворота", "門3", "Čtyři", "بوابة"] {
        let week = read(&order(head, &format!("{mark},1,12',6'"))).expect(mark);
        assert_eq!(week.gates[0].mark, mark);
    }
}

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
    let text = "\u{FEFF}Week 9;;;\r\n\r\nMark; Count ;Opening;Height;Note\r\n;;;;\r\n“A1”;2;12’-0”;6′;“twins; yard”\r\n";
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
    old.orders = Some(b"mark,count,opening,height\nTor \xC4,1,12',6'\n".to_vec());
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

#[test]
fn settings_are_judged() {
    let cases = [
        ("saw", "kerf = -0.1", "-0.1", "below zero"),
        ("saw", "kerf = \"1 1/8 in\"", "1 1/8 in", "over an inch"),
        ("saw", "kerf = nan", "nan", "not a unit"),
        ("saw", "far_trim = 0.05", "0.05", "between 0 and the kerf"),
        ("saw", "mark = 0", "0", "over zero"),
        ("saw", "saws = 1.5", "1.5", "whole number"),
        ("saw", "kref = 0.1", "0.1", "not a setting of [saw]"),
        ("gate", "bay_limit = 0", "0", "over zero"),
        ("gate", "tail_fraction = -1", "-1", "must lie from"),
        ("gate", "lean = \"left\"", "left", "none of the words"),
        (
            "gate",
            "diagonal_cut = \"saddle\"",
            "saddle",
            "none of the words",
        ),
        (
            "gate",
            "height_means = \"grade\"",
            "grade",
            "clearance is not given",
        ),
        (
            "gate",
            "height_means = \"fabric\"",
            "fabric",
            "difference is not given",
        ),
        ("gate", "barbed_risers = true", "true", "roller on top"),
        ("gate", "clearance = \"5-8\"", "5-8", "two ways"),
        ("gate", "stop_rise = [4]", "[4]", "one value"),
        ("money", "credit_rate = 2", "2", "must lie from"),
        ("money", "keep_length = -3", "-3", "over zero"),
        ("splice", "root_gap = -1", "-1", "below zero"),
        ("splice", "class_charge = 0.005", "0.005", "whole cents"),
        (
            "kit",
            "local_joints = \"21 ft\"",
            "21 ft",
            "a list is wanted",
        ),
        ("sway", "pipe = \"Q\"", "Q", "not declared"),
    ];
    for (section, line, value, what) in cases {
        let files = shop_with(section, line);
        let key = format!("{section}.{}", line.split(' ').next().unwrap_or(""));
        let fault = only_error(&files);
        demand(
            &fault,
            ("shop.toml", line_of(&files, line), &key),
            value,
            what,
        );
    }
    let typo = only_error(&shop_with("saw", "kref = 0.1"));
    assert!(typo.mend.contains("did you mean \"kerf\"?"), "{typo:?}");
    let no_cost = Files {
        shop: Some(SHOP.replace("cost = 40\n", "").into_bytes()),
        ..sound()
    };
    assert!(only_error(&no_cost).what.contains("money per splice"));
    let no_units = Files {
        shop: Some(SHOP.replace("units = \"inch\"\n", "").into_bytes()),
        ..sound()
    };
    assert_eq!(only_error(&no_units).column.as_deref(), Some("units"));
    let broken = only_error(&shop_with("saw", "kerf = 10'-6\""));
    assert_eq!(
        broken.line,
        Some(line_of(
            &shop_with("saw", "kerf = 10'-6\""),
            "kerf = 10'-6\""
        ))
    );
}

#[test]
fn pipes_are_judged() {
    let pipe = |text: &str| Files {
        shop: Some(format!("{SHOP}[[pipe]]\n{text}\n").into_bytes()),
        ..sound()
    };
    let line = SHOP.lines().count() as u32 + 2;
    let two_walls = only_error(&pipe("name = \"h\"\nod = 2.375\nwall = 0.130"));
    demand(
        &two_walls,
        ("shop.toml", line, "pipe.name"),
        "h",
        "two walls",
    );
    let thick = only_error(&pipe("name = \"X\"\nod = 2\nwall = 1"));
    demand(
        &thick,
        ("shop.toml", line + 2, "pipe.wall"),
        "1",
        "half the OD",
    );
    let same = only_error(&pipe("name = \"X\"\nod = \"2.375 in\"\nwall = 0.154"));
    demand(
        &same,
        ("shop.toml", line, "pipe.name"),
        "X",
        "the same pipe as \"H\"",
    );
    let none = only_error(&pipe("name = \"X\"\nod = 2.375"));
    assert!(none.what.contains("no wall"), "{none:?}");
    let zero = only_error(&pipe("name = \"X\"\nod = 0\nwall = 0.1"));
    demand(&zero, ("shop.toml", line + 1, "pipe.od"), "0", "over zero");
    let named = notices(&pipe("name = \"X\"\nod = 2.000\nwall = 0.145"));
    demand(
        &named[0],
        ("shop.toml", line + 1, "pipe.od"),
        "2.000",
        "trade name",
    );
    let faulty_name_is_known = only_error(&Files {
        shop: Some(SHOP.replace("wall = 0.154", "wall = 2").into_bytes()),
        ..sound()
    });
    assert!(faulty_name_is_known.what.contains("half the OD"));
}

#[test]
fn stock_rack_and_parts_are_judged() {
    let stock = |row: &str| Files {
        stock: Some(format!("pipe,length,planning,price,per,available\n{row}\n").into_bytes()),
        ..sound()
    };
    let cases = [
        ("H,21,,3,foot,", "length", "21", "no unit"),
        ("H,6,,3,foot,", "length", "6", "too small"),
        ("H,-21 ft,,3,foot,", "length", "-21 ft", "over zero"),
        ("H,,,3,foot,", "length", "", "no length"),
        (
            "H,21 ft,22 ft,3,foot,",
            "planning",
            "22 ft",
            "over the length",
        ),
        ("H,21 ft,,3,,", "per", "", "empty"),
        ("H,21 ft,,3,yard,", "per", "yard", "not what a price is for"),
        ("H,21 ft,,-3,foot,", "price", "-3", "below zero"),
        ("H,21 ft,,0,foot,", "price", "0", "not a price"),
        ("H,21 ft,,abc,foot,", "price", "abc", "not a number"),
        ("H,21 ft,,3,foot,1.5", "available", "1.5", "whole number"),
        ("Q,21 ft,,3,foot,", "pipe", "Q", "not declared"),
        (",21 ft,,3,foot,", "pipe", "", "empty"),
    ];
    for (row, column, value, what) in cases {
        demand(
            &only_error(&stock(row)),
            ("stock.csv", 2, column),
            value,
            what,
        );
    }
    let eaten = Files {
        shop: shop_with("saw", "hold_back = \"21 ft\"").shop,
        ..stock("H,21 ft,,3,foot,")
    };
    demand(
        &only_error(&eaten),
        ("stock.csv", 2, "length"),
        "21 ft",
        "eat the whole joint",
    );
    let note = &notices(&stock("H,21 ft,,,,"))[0];
    assert_eq!(note.severity, Severity::Note);
    demand(note, ("stock.csv", 2, "price"), "", "planned by joints");

    let rack = |row: &str| Files {
        rack: Some(format!("tag,pipe,length,count\n{row}\n").into_bytes()),
        ..sound()
    };
    demand(
        &only_error(&rack("R1,H,1/2 in,1")),
        ("rack.csv", 2, "length"),
        "1/2 in",
        "trims",
    );
    demand(
        &only_error(&rack("R1,H,9',1\nr1,H,8',1")),
        ("rack.csv", 3, "tag"),
        "r1",
        "already used",
    );
    demand(
        &notices(&rack("R1,H,21,1"))[0],
        ("rack.csv", 2, "length"),
        "21",
        "without a unit",
    );

    let parts = |row: &str| Files {
        parts: Some(format!("mark,pipe,length,count\n{row}\n").into_bytes()),
        ..sound()
    };
    demand(
        &only_error(&parts("P1,H,0,1")),
        ("parts.csv", 2, "length"),
        "0",
        "over zero",
    );
    demand(
        &only_error(&parts("P1,H,5',1/2")),
        ("parts.csv", 2, "count"),
        "1/2",
        "not a number",
    );
    demand(
        &only_error(&parts("a1,H,5',1")),
        ("parts.csv", 2, "mark"),
        "a1",
        "already used in orders.csv",
    );
}

#[test]
fn a_count_of_zero_is_kept_and_noted() {
    let files = order("mark,count,opening,height", "A1,0,12',6'\nA2,1,12',6'");
    let week = read(&files).expect("read");
    assert_eq!((week.gates.len(), week.gates[0].count), (2, 0));
    demand(
        &week.notices[0],
        ("orders.csv", 2, "count"),
        "0",
        "does nothing",
    );
}

#[test]
fn warnings_do_not_fire_at_equality() {
    let head = "mark,count,opening,height,tail,sway";
    let said = |row: &str| notices(&order(head, row)).len();
    assert_eq!(said("A1,1,25',6',,"), 0);
    assert_eq!(said("A1,1,25.01',6',,"), 1);
    assert_eq!(said("A1,1,25.01',6',,yes"), 0);
    assert_eq!(said("A1,1,30',6',,yes"), 0);
    assert_eq!(said("A1,1,30.01',6',,yes"), 1);
    assert_eq!(said("A1,1,20',6',8',"), 0, "a tail of just 40 %");
    assert_eq!(said("A1,1,20',6',7.99',"), 1);
}

#[test]
fn all_faults_of_all_files_come_together_in_order() {
    let files = Files {
        orders: Some(
            b"mark,count,opening,height,colour\nA1,x,5-8,6',red\nA2,1,12',6',\na2,1,12',0,\n"
                .to_vec(),
        ),
        shop: Some(
            SHOP.replace("[splice]", "[saw]\nkerf = 2\nkref = 1\n[splice]")
                .into_bytes(),
        ),
        stock: Some(b"pipe,length,price,per\nQ,21 ft,3,foot\n".to_vec()),
        rack: Some(b"pipe,length\nH,\n".to_vec()),
        parts: Some(b"mark,pipe,length,count\nP,H,-1,1\n".to_vec()),
    };
    let faults = read(&files).expect_err("refused");
    let places: Vec<(&str, u32)> = faults
        .iter()
        .map(|f| (f.file.as_str(), f.line.unwrap_or(0)))
        .collect();
    assert_eq!(
        places,
        [
            ("shop.toml", 17),
            ("shop.toml", 18),
            ("orders.csv", 1),
            ("orders.csv", 2),
            ("orders.csv", 2),
            ("orders.csv", 4),
            ("orders.csv", 4),
            ("parts.csv", 2),
            ("stock.csv", 2),
            ("rack.csv", 2),
        ],
        "{}",
        print_faults(&faults)
    );
    let report = print_faults(&faults);
    assert!(
        report.ends_with("10 errors, 0 warnings, 0 notes.\n"),
        "{report}"
    );
    assert!(
        report.contains("orders.csv, line 2, opening: error: "),
        "{report}"
    );
}

#[test]
fn a_week_of_ten_thousand_rows_is_read() {
    let mut parts = String::from("mark,pipe,length,count\n");
    for n in 0..10_000 {
        parts += &format!("P{n},H,{}',1\n", 1 + n % 19);
    }
    let files = Files {
        parts: Some(parts.into_bytes()),
        ..sound()
    };
    assert_eq!(read(&files).expect("read").extras.len(), 10_000);
}

#[test]
fn finishes_make_pipes_of_their_own_in_sheet_order() {
    let files = order(
        "mark,count,opening,height,finish",
        "A1,1,12',6',\nA2,1,12',6',Black\nA3,1,12',6',black",
    );
    let week = read(&files).expect("read");
    assert_eq!(week.pipes.len(), 4);
    assert!(week.pipes.is_sorted_by(|a, b| a.sheet_order(b).is_lt()));
    let finish = |g: usize| &week.pipe(week.gates[g].pipes.horizontal).finish;
    assert_eq!((finish(0).as_str(), finish(1).as_str()), ("", "black"));
    assert_eq!(week.gates[1].pipes, week.gates[2].pipes);
    assert_eq!(week.pipe(week.quotes[0].pipe).name, "H");
    assert_eq!(week.pipe(week.shop.gate.vertical).name, "V");
}
