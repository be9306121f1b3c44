//! Undoing: the stand is what the other entries alone come to, and nothing hangs in the air.

use longpoint::yard::{Cut, Delivered, Desk, Entry, EntryId, Spoiled, Told, Undone, Verdict};

use crate::world::{entry, inches, piece, small, taken};

static NOTHING: Vec<Entry> = Vec::new();

fn undone(entry: &str, with: &[&str]) -> Told {
    Told::Undone(Undone {
        entry: EntryId(entry.to_owned()),
        with: with.iter().map(|id| EntryId((*id).to_owned())).collect(),
    })
}

fn desk() -> Desk<'static, Vec<Entry>> {
    let mut desk = Desk::open(&NOTHING).expect("nothing reads");
    taken(&mut desk, "issue", Told::Issued(Box::new(small())));
    let delivered = Told::Delivered(Delivered {
        line: 1,
        joints: 3,
        lengths: Vec::new(),
    });
    taken(&mut desk, "d", delivered);
    desk
}

fn cut(joint: u32) -> Told {
    Told::Cut(Cut {
        joint,
        to: None,
        lengths: Vec::new(),
        taken: None,
        floor: None,
    })
}

fn spoiled() -> Told {
    Told::Spoiled(Spoiled {
        piece: piece("A1-V", 1, 1, None),
        left: Some(inches(40)),
        tag: Some("T1".to_owned()),
    })
}

#[test]
fn an_entry_is_undone_with_all_that_hangs_on_it_or_not_at_all() {
    let mut desk = desk();
    taken(&mut desk, "c1", cut(1));
    let with_cut = desk.stand().clone();
    taken(&mut desk, "s", spoiled());
    taken(&mut desk, "c3", cut(3));
    let alone = desk.tell(entry("u", "week-1", undone("c1", &[])), true);
    let Ok(Verdict::Refused(why)) = alone else {
        panic!("{alone:?}");
    };
    assert!(
        why.what().ends_with(": 4"),
        "the spoiled piece is entry 4: {why:?}"
    );
    let u = Undone {
        entry: EntryId("c1".to_owned()),
        with: Vec::new(),
    };
    assert_eq!(desk.hanging(&u), Ok(vec![(4, EntryId("s".to_owned()))]));
    taken(&mut desk, "u", undone("c1", &["s"]));
    let week = &desk.stand().weeks["week-1"];
    assert!(week.joints[&1].waiting() && !week.joints[&3].waiting());
    // Undoing the undoing brings both back.
    taken(&mut desk, "u2", undone("u", &[]));
    assert!(!desk.stand().weeks["week-1"].joints[&1].waiting());
    taken(&mut desk, "u3", undone("c3", &[]));
    taken(&mut desk, "u4", undone("s", &[]));
    let mut now = desk.stand().clone();
    now.told = with_cut.told;
    assert_eq!(now, with_cut);
}

#[test]
fn nothing_is_undone_twice_or_by_a_name_that_is_not_there() {
    let mut desk = desk();
    taken(&mut desk, "c1", cut(1));
    taken(&mut desk, "u", undone("c1", &[]));
    for (id, told) in [
        ("u2", undone("c1", &[])),
        ("u3", undone("nobody", &[])),
        ("u4", undone("u4", &[])),
    ] {
        let verdict = desk.tell(entry(id, "week-1", told), true);
        assert!(matches!(verdict, Ok(Verdict::Refused(_))), "{verdict:?}");
    }
}

#[test]
fn an_issue_may_be_undone_while_nothing_hangs_on_it() {
    let mut desk = Desk::open(&NOTHING).expect("nothing reads");
    let empty = desk.stand().clone();
    taken(&mut desk, "issue", Told::Issued(Box::new(small())));
    taken(&mut desk, "u", undone("issue", &[]));
    assert_eq!(desk.stand().weeks, empty.weeks);
    let mut other = small();
    other.plan = "0000-0001".to_owned();
    other.joints[2].pieces.swap(0, 1);
    taken(&mut desk, "issue2", Told::Issued(Box::new(other)));
}
