//! Everything a user can get wrong in a row or a setting: each fault names file, line, column,
//! value, what is wrong and how to mend it; all faults of all files come together.

mod counts;
mod files;
mod mistakes;
mod notices;
mod once;
mod orders;
mod quotes;
mod rows;
mod settings;
mod world;

use longpoint::order::print_faults;
use world::{Files, SHOP, order, read, sound};

#[test]
fn the_sound_week_is_sound() {
    assert_eq!(world::notices(&sound()), []);
}

#[test]
fn all_faults_of_all_files_come_together_in_order() {
    let files = Files {
        orders: Some(
            b"hand,mark,count,opening,height,colour\nl,A1,x,5-8,6',red\nl,A2,1,12',6',\nl,a2,1,12',0,\n"
                .to_vec(),
        ),
        shop: Some(
            SHOP.replace("[splice]", "[saw]\nkerf = 2\nkref = 1\n[splice]")
                .into_bytes(),
        ),
        stock: Some(b"pipe,length,price,per\nQ,21 ft,3,foot\n".to_vec()),
        rack: Some(b"pipe,length\nH,\n".to_vec()),
        parts: Some(b"mark,pipe,length,count\nP,H,-1,1\n".to_vec()),
        suppliers: Some(b"supplier,freight\nNobody,-5\n".to_vec()),
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
            ("suppliers.csv", 2),
            ("suppliers.csv", 2),
            ("rack.csv", 2),
        ],
        "{}",
        print_faults(&faults)
    );
    let report = print_faults(&faults);
    assert!(
        report.ends_with("11 errors, 1 warning, 0 notes.\n"),
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
