//! A sound little week to spoil, and what is demanded of a fault.

use longpoint::order::{Fault, Severity, Week, WeekFiles, print_faults, read_week};
use longpoint::text::SourceFile;

pub const SHOP: &str = include_str!("little_shop.toml");
pub const ORDERS: &str = "mark,count,opening,height,hand\nA1,1,12',6',left\n";
const STOCK: &str = "pipe,length,price,per\nH,21 ft,3.48,foot\nV,21 ft,2.62,foot\n";

/// A sound little week, each file to be spoiled.
#[derive(Clone)]
pub struct Files {
    pub orders: Option<Vec<u8>>,
    pub shop: Option<Vec<u8>>,
    pub stock: Option<Vec<u8>>,
    pub rack: Option<Vec<u8>>,
    pub parts: Option<Vec<u8>>,
    pub suppliers: Option<Vec<u8>>,
}

pub fn sound() -> Files {
    let some = |t: &str| Some(t.as_bytes().to_vec());
    Files {
        orders: some(ORDERS),
        shop: some(SHOP),
        stock: some(STOCK),
        rack: None,
        parts: None,
        suppliers: None,
    }
}

pub fn read(files: &Files) -> Result<Week, Vec<Fault>> {
    read_on(files, None)
}

/// As [`read`], with the date given on the command line.
pub fn read_on(files: &Files, date: Option<jiff::civil::Date>) -> Result<Week, Vec<Fault>> {
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
        suppliers: file("suppliers.csv", &files.suppliers),
        date,
    })
}

/// Warnings and notes of a week that reads.
pub fn notices(files: &Files) -> Vec<Fault> {
    read(files)
        .unwrap_or_else(|f| panic!("{}", print_faults(&f)))
        .notices
}

/// The one error there is.
#[track_caller]
pub fn only_error(files: &Files) -> Fault {
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
pub fn demand(fault: &Fault, place: (&str, u32, &str), value: &str, what: &str) {
    let (file, line, column) = place;
    assert_eq!(fault.file, file, "{fault:?}");
    assert_eq!(fault.line, Some(line), "{fault:?}");
    assert_eq!(fault.column.as_deref(), Some(column), "{fault:?}");
    assert_eq!(fault.value.as_deref().unwrap_or(""), value, "{fault:?}");
    assert!(fault.what.contains(what), "{fault:?} lacks {what:?}");
    assert!(fault.mend.len() > 5, "{fault:?}");
}

/// One order row with a header, in an otherwise sound week.
pub fn order(header: &str, row: &str) -> Files {
    Files {
        orders: Some(format!("{header}\n{row}\n").into_bytes()),
        ..sound()
    }
}

/// A line added to a section of the sound shop (the section is opened when it is not there).
pub fn shop_with(section: &str, line: &str) -> Files {
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

pub fn line_of(files: &Files, text: &str) -> u32 {
    let shop = String::from_utf8(files.shop.clone().unwrap_or_default()).expect("text");
    let at = shop
        .lines()
        .position(|l| l == text)
        .expect("the line is there");
    u32::try_from(at).expect("small") + 1
}
