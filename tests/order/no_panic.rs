//! No reader panics, whatever it is given; what is printed is read back.

use proptest::prelude::*;

use longpoint::measure::{
    Length, Unit, Units, parse_date, parse_length, parse_money, parse_number,
};
use longpoint::order::{WeekFiles, print_faults, read_week, starter_week};
use longpoint::text::SourceFile;

fn file(name: &str, bytes: Vec<u8>) -> Option<SourceFile> {
    Some(SourceFile {
        name: name.to_owned(),
        bytes,
    })
}

fn starter(name: &str) -> Option<SourceFile> {
    let (name, text) = starter_week().into_iter().find(|(n, _)| *n == name)?;
    file(name, text.into_bytes())
}

fn read(files: &WeekFiles) {
    let faults = match read_week(files) {
        Ok(week) => week.notices,
        Err(faults) => faults,
    };
    for f in &faults {
        assert!(!f.what.is_empty() && !f.mend.is_empty(), "{f:?}");
    }
    assert!(print_faults(&faults).ends_with(".\n"));
}

/// The starter week with one file's bytes replaced.
fn read_with(which: usize, bytes: Vec<u8>) {
    let mut files = WeekFiles {
        orders: starter("orders.csv"),
        shop: starter("shop.toml"),
        stock: starter("stock.csv"),
        rack: starter("rack.csv"),
        parts: starter("parts.csv"),
        ..WeekFiles::default()
    };
    match which {
        0 => files.orders = file("orders.csv", bytes),
        1 => files.shop = file("shop.toml", bytes),
        2 => files.stock = file("stock.csv", bytes),
        3 => files.rack = file("rack.csv", bytes),
        _ => files.parts = file("parts.csv", bytes),
    }
    read(&files);
}

/// A text of the starter with one stretch replaced by `junk`.
fn spoil(which: usize, at: usize, len: usize, junk: &[u8]) -> Vec<u8> {
    let names = [
        "orders.csv",
        "shop.toml",
        "stock.csv",
        "rack.csv",
        "parts.csv",
    ];
    let mut bytes = starter(names[which]).expect("a starter file").bytes;
    let from = at % (bytes.len() + 1);
    let to = (from + len).min(bytes.len());
    bytes.splice(from..to, junk.iter().copied());
    bytes
}

/// Cells that come near to being right.
fn cell() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,30}",
        "-?[0-9.,]{1,12}( ?(ft|in|mm|m|'|\"))?",
        "[0-9]{1,3}'[- ]?[0-9]{1,2}( [0-9]/[0-9]{1,2})?\"?",
        "[0-9½¼/ '\"′″-]{0,10}",
        "\\PC{0,12}",
        Just(String::new()),
        Just("H".to_owned()),
        Just("2-3/8 SS40".to_owned()),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_in_any_file(which in 0usize..5, bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        read_with(which, bytes);
    }

    #[test]
    fn any_text_in_any_file(which in 0usize..5, text in "(?s).{0,300}") {
        read_with(which, text.into_bytes());
    }

    #[test]
    fn the_starter_spoiled_anywhere(which in 0usize..5, at in any::<usize>(), len in 0usize..40, junk in prop::collection::vec(any::<u8>(), 0..20)) {
        read_with(which, spoil(which, at, len, &junk));
    }

    #[test]
    fn rows_that_are_nearly_right(cells in prop::collection::vec(cell(), 30)) {
        let quoted: Vec<String> = cells.iter().map(|c| format!("\"{}\"", c.replace('"', "\"\""))).collect();
        let head = "mark,count,opening,height,hand,overlap,tail,leaf,bays,bay_lines,horizontal,end_post,tail_post,vertical,diagonal,sway_pipe,finish,due,barbed,sway,automated,kit,excluded_bays,roller_spacing,lead,carrier,fabric_weight,load_factor,high_stress,note";
        read_with(0, format!("{head}\n{}\n", quoted.join(",")).into_bytes());
        let head = "pipe,finish,supplier,length,planning,price,per,available,note";
        read_with(2, format!("{head}\n{}\n", quoted[..9].join(",")).into_bytes());
        read_with(3, format!("pipe,length,count,near_trim\n{}\n", quoted[..4].join(",")).into_bytes());
    }

    #[test]
    fn settings_that_are_nearly_right(value in cell(), at in 0usize..200) {
        let text = starter_week()[1].1.clone();
        let lines: Vec<&str> = text.lines().collect();
        let keys: Vec<usize> = (0..lines.len()).filter(|&i| lines[i].contains(" = ")).collect();
        let spoiled = keys[at % keys.len()];
        let mut out = String::new();
        for (i, line) in lines.iter().enumerate() {
            let key = line.trim_start_matches("# ").split(" = ").next().unwrap_or("");
            if i == spoiled {
                out += &format!("{key} = '''{}'''\n", value.replace('\'', "’"));
            } else {
                out += &format!("{line}\n");
            }
        }
        read_with(1, out.into_bytes());
    }

    #[test]
    fn any_text_as_a_value(text in "\\PC{0,40}") {
        for unit in [None, Some(Unit::Inch), Some(Unit::Mm)] {
            if let Ok(p) = parse_length(&text, unit) {
                prop_assert!(p.down() <= p.length && p.length <= p.up());
            }
        }
        let _ = (parse_date(&text), parse_money(&text), parse_number(&text));
    }

    #[test]
    fn printed_lengths_are_read_back(n in 0i64..(1 << 31), mm in 0i64..(1 << 31)) {
        let inch = Length::from_64ths(n);
        let read = parse_length(&inch.print(Units::Inch), None);
        prop_assert_eq!(read.map(|p| (p.length, p.warning)), Ok((inch, None)));
        let metric = Length::from_mm(mm);
        let read = parse_length(&metric.print(Units::Metric), Some(Unit::Mm));
        prop_assert_eq!(read.map(|p| p.length), Ok(metric));
    }
}

#[test]
fn deep_nesting_is_no_trouble() {
    for text in [
        "[".repeat(100_000),
        "{a=".repeat(50_000),
        "a.".repeat(50_000),
        "[[a]]\n".repeat(2_000),
    ] {
        read_with(1, format!("x = {text}").into_bytes());
        read_with(1, text.into_bytes());
    }
}
