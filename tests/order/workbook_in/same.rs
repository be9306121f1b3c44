//! What a workbook gives: the rows that the same list as text gives.

use longpoint::order::{GateOrder, RackPiece, Week};

use super::world::Typed::{Day, Nothing, Number, Shown, Text, Yes};
use super::world::{book, week, with};

/// Rows without the place they came from.
fn gates(week: Week) -> Vec<String> {
    let bare = |mut g: GateOrder| {
        g.origin.file.clear();
        g.origin.line = 0;
        format!("{g:?}")
    };
    week.gates.into_iter().map(bare).collect()
}

fn rack(week: Week) -> Vec<String> {
    let bare = |mut r: RackPiece| {
        r.origin.file.clear();
        r.origin.line = 0;
        format!("{r:?}")
    };
    week.rack.into_iter().map(bare).collect()
}

#[test]
fn orders_read_as_their_text_does() {
    let text = "mark,count,opening,height,hand,due,kit,note\n\
        A1,2,12',6',left,2026-03-06,yes,north side\n\
        107,1,198.5,6',right,,,\n";
    let sheet = book(&[(
        "Week 12",
        &[
            &[Text("Orders of the week"), Nothing, Nothing],
            &[],
            &[
                Text("Mark"),
                Text("Count"),
                Text("Opening"),
                Text("Height"),
                Text("Hand"),
                Text("Due"),
                Text("Kit"),
                Text("Note"),
            ],
            &[],
            &[
                Text(" A1 "),
                Number(2.0),
                Text("12'"),
                Shown(6.0, "0\" ft\""),
                Text("left"),
                Day(2026, 3, 6),
                Yes(true),
                Text("north side"),
            ],
            &[
                Number(107.0),
                Number(1.0),
                Number(198.5),
                Text("6'"),
                Text("right"),
            ],
        ],
    )]);
    let read = week(&with("orders.xlsx", sheet));
    let places: Vec<String> = read.gates.iter().map(|g| g.origin.words()).collect();
    assert_eq!(places, ["orders.xlsx row 5", "orders.xlsx row 6"]);
    let wanted = week(&with("orders.csv", text.as_bytes().to_vec()));
    assert_eq!(gates(read), gates(wanted));
}

#[test]
fn the_rack_reads_as_its_text_does() {
    let text =
        "tag,pipe,length,count,near_trim\nR1,2-3/8 SS40,13'-2 1/4\",1,no\nR2,2-3/8 SS40,164,3,\n";
    let head: &[_] = &[
        Text("tag"),
        Text("pipe"),
        Text("length"),
        Text("count"),
        Text("near_trim"),
    ];
    let rows: &[&[_]] = &[
        head,
        &[
            Text("R1"),
            Text("2-3/8 SS40"),
            Text("13'-2 1/4\""),
            Number(1.0),
            Yes(false),
        ],
        &[Text("R2"), Text("2-3/8 SS40"), Number(164.0), Number(3.0)],
    ];
    let read = week(&with("rack.xlsx", book(&[("Rack", rows)])));
    let wanted = week(&with("rack.csv", text.as_bytes().to_vec()));
    assert_eq!(rack(read), rack(wanted));
}

#[test]
fn the_sheet_that_is_meant_is_read() {
    let head: &[_] = &[
        Text("mark"),
        Text("count"),
        Text("opening"),
        Text("height"),
        Text("hand"),
    ];
    let row = |mark: &'static str| {
        [
            Text(mark),
            Number(1.0),
            Text("12'"),
            Text("6'"),
            Text("left"),
        ]
    };
    let (old, new, note) = (row("OLD"), row("NEW"), [Text("call Ana about the posts")]);
    let old: &[&[_]] = &[head, &old];
    let new: &[&[_]] = &[head, &new];
    let note: &[&[_]] = &[&note];
    // The only sheet with such headings, then the sheet that bears the file's name.
    for sheets in [
        vec![("Notes", note), ("Week 12", new)],
        vec![("Week 11", old), ("Orders", new)],
    ] {
        let read = week(&with("orders.xlsx", book(&sheets)));
        assert_eq!(read.gates[0].mark, "NEW");
    }
}
