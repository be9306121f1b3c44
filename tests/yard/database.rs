//! yard.db: append-only, one writer, copies, export and import.

use std::fs;
use std::io::Cursor;
use std::path::{Path, PathBuf};

use longpoint::store::{DATABASE, PlanFile, Store, StoreFault};
use longpoint::yard::{Delivered, Desk, Entry, History, Told};
use rusqlite::Connection;

use crate::dice::Dice;
use crate::world::{entry, random, small};

/// An empty shop folder whose name is nobody else's.
pub fn shop(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("yard-{name}"));
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).expect("the temporary folder can be written");
    path
}

fn write(shop: &Path) -> Store {
    Store::to_write(shop, "test, process 1").expect("the yard opens")
}

fn issue(week: &str) -> Entry {
    entry(
        &format!("issue-{week}"),
        week,
        Told::Issued(Box::new(small())),
    )
}

fn delivered(id: &str, joints: u32) -> Entry {
    let told = Told::Delivered(Delivered {
        line: 1,
        joints,
        lengths: Vec::new(),
    });
    entry(id, "week-1", told)
}

fn files() -> Vec<PlanFile> {
    vec![
        PlanFile {
            name: "orders.csv".to_owned(),
            bytes: "mark,count\nA1,1 ½\n".as_bytes().to_vec(),
        },
        PlanFile {
            name: "stock.xlsx".to_owned(),
            bytes: vec![0x50, 0x4b, 0xff, 0x00],
        },
    ]
}

fn filled(name: &str) -> (PathBuf, Store) {
    let shop = shop(name);
    let mut store = write(&shop);
    store
        .append(&[issue("week-1")], Some(("{\"a\": \"½\"}\n", &files())))
        .expect("written");
    store
        .append(&[delivered("d1", 1), delivered("d2", 1)], None)
        .expect("written");
    (shop, store)
}

#[test]
fn what_is_written_is_read_back_and_marked_as_ours() {
    let (shop, store) = filled("read-back");
    assert_eq!(store.told(), Ok(3));
    let plan = store.plan(&issue("week-1").id).expect("readable");
    let plan = plan.expect("it was issued with its document");
    assert_eq!(plan.document, "{\"a\": \"½\"}\n");
    assert_eq!(plan.files, files());
    drop(store);
    let raw = Connection::open(shop.join(DATABASE)).expect("a database");
    let ask = |what: &str| -> i64 {
        raw.query_row(&format!("PRAGMA {what}"), [], |r| r.get(0))
            .expect("a number")
    };
    assert_eq!(ask("application_id"), 0x4c50_5944);
    assert_eq!(ask("user_version"), 1);
    let journal: String = raw
        .query_row("PRAGMA journal_mode", [], |r| r.get(0))
        .expect("a word");
    assert_eq!(journal, "delete", "WAL breaks on network folders");
}

/// Whoever opens the file by other means still cannot change or delete what was told.
#[test]
fn nothing_told_is_changed_or_deleted_by_any_statement() {
    let (shop, store) = filled("append-only");
    drop(store);
    let raw = Connection::open(shop.join(DATABASE)).expect("a database");
    raw.execute_batch("PRAGMA recursive_triggers = ON")
        .expect("set");
    for statement in [
        "UPDATE entries SET line = '{}'",
        "DELETE FROM entries",
        "INSERT OR REPLACE INTO entries SELECT number, id, undoing, '{}', hash FROM entries",
        "INSERT INTO entries VALUES (9, 'later', 0, '{}', 0)",
        "UPDATE plans SET document = x'00'",
        "DELETE FROM plans",
        "INSERT OR REPLACE INTO plans SELECT entry, x'00' FROM plans",
        "UPDATE files SET bytes = x'00'",
        "DELETE FROM files",
    ] {
        assert!(raw.execute(statement, []).is_err(), "{statement}");
    }
}

#[test]
fn the_second_writer_is_told_who_the_first_is() {
    let (shop, store) = filled("two-writers");
    let second = Store::to_write(&shop, "other, process 2");
    let Err(StoreFault::Busy(who)) = second else {
        panic!("{second:?}");
    };
    assert!(who.contains("test, process 1"), "{who}");
    let reader = Store::to_read(&shop).expect("readers need no lock");
    assert_eq!(reader.expect("it is there").told(), Ok(3));
    drop(store);
    assert!(Store::to_write(&shop, "other, process 2").is_ok());
}

#[test]
fn what_is_written_is_all_or_nothing() {
    let (_shop, mut store) = filled("all-or-nothing");
    let twice = store.append(&[delivered("d3", 1), delivered("d1", 1)], None);
    assert!(twice.is_err(), "d1 was told before");
    assert_eq!(store.told(), Ok(3));
}

#[test]
fn a_reader_writes_nothing() {
    let (shop, store) = filled("reader");
    drop(store);
    let before = fs::read(shop.join(DATABASE)).expect("it is there");
    let mut reader = Store::to_read(&shop).expect("opens").expect("is there");
    assert!(reader.append(&[delivered("d9", 1)], None).is_err());
    drop(reader);
    assert_eq!(fs::read(shop.join(DATABASE)).expect("it is there"), before);
    assert!(
        Store::to_read(&self::shop("nothing-here"))
            .expect("no fault")
            .is_none()
    );
}

#[test]
fn newer_damaged_and_strange_files_are_left_alone_and_said() {
    let (shop, store) = filled("newer");
    drop(store);
    let raw = Connection::open(shop.join(DATABASE)).expect("a database");
    raw.execute_batch("PRAGMA user_version = 2").expect("set");
    drop(raw);
    let mut newer = write(&shop);
    assert!(
        newer
            .only_read()
            .is_some_and(|why| why.contains("newer longpoint"))
    );
    assert!(newer.append(&[delivered("d9", 1)], None).is_err());
    assert_eq!(newer.told(), Ok(3), "it can still be read");
    drop(newer);

    let strange = self::shop("strange");
    fs::write(strange.join(DATABASE), "my own notes, and many of them").expect("written");
    let fault = Store::to_write(&strange, "me");
    assert!(matches!(fault, Err(StoreFault::Unfit(..))), "{fault:?}");
    let other = self::shop("other-database");
    let raw = Connection::open(other.join(DATABASE)).expect("made");
    raw.execute_batch("CREATE TABLE mine (x)").expect("made");
    drop(raw);
    let fault = Store::to_write(&other, "me");
    assert!(matches!(fault, Err(StoreFault::Unfit(..))), "{fault:?}");

    // A page overwritten, and the last writer's name still there: it did not end in order.
    let (shop, store) = filled("damaged");
    drop(store);
    let path = shop.join(DATABASE);
    let mut bytes = fs::read(&path).expect("it is there");
    for byte in &mut bytes[4096..4196] {
        *byte = 0x5a;
    }
    fs::write(&path, bytes).expect("written");
    fs::write(shop.join("yard.holder"), "gone, process 3").expect("written");
    let damaged = write(&shop);
    assert!(
        damaged
            .only_read()
            .is_some_and(|why| why.contains("damaged"))
    );
}

#[test]
fn a_copy_is_whole_and_never_overwrites() {
    let (shop, store) = filled("copied");
    let target = shop.join("copy.db");
    store.copy_to(&target).expect("copied");
    assert!(store.copy_to(&target).is_err());
    let other = self::shop("copied-to");
    fs::rename(&target, other.join(DATABASE)).expect("moved");
    assert_eq!(write(&other).told(), Ok(3));
}

fn exported(store: &Store) -> Vec<u8> {
    let mut out = Vec::new();
    store.export(&mut out).expect("written to memory");
    out
}

/// Export → import → the same lines, the same stand, and, once copied, the same file to the byte.
#[test]
fn the_lines_make_the_same_yard() {
    let mut dice = Dice(7);
    let (shop, mut store) = filled("exported");
    for n in 0..40 {
        let week = format!("week-{}", n + 2);
        let plan = random(&mut dice, n);
        let told = Told::Issued(Box::new(plan));
        let document = format!("{{\"n\":{n}}}");
        store
            .append(&[entry(&week, &week, told)], Some((&document, &files())))
            .expect("written");
    }
    let lines = exported(&store);
    let again = self::shop("imported");
    let mut imported = write(&again);
    let done = imported.import(&mut Cursor::new(&lines), "yard.jsonl");
    assert_eq!(done.map(|d| (d.entries, d.plans)), Ok((43, 41)));
    assert_eq!(exported(&imported), lines);
    let stand = |store: &Store| Desk::open(store).expect("folds").stand().clone();
    assert_eq!(stand(&imported), stand(&store));
    let copies = [shop.join("a.db"), again.join("b.db")];
    store.copy_to(&copies[0]).expect("copied");
    imported.copy_to(&copies[1]).expect("copied");
    let bytes = copies.map(|path| fs::read(path).expect("a copy"));
    assert!(bytes[0] == bytes[1], "the same database to the byte");
    let more = imported.import(&mut Cursor::new(&lines), "yard.jsonl");
    assert!(more.is_err(), "only into an empty yard");
}

#[test]
fn a_wrong_line_is_named_and_nothing_is_imported() {
    let (_shop, store) = filled("wrong-lines");
    let lines = String::from_utf8(exported(&store)).expect("JSON is text");
    let all: Vec<&str> = lines.lines().collect();
    let spoiled = [
        (all[1..].join("\n"), "line 1"),
        ([all[0], all[2]].join("\n") + "\n{}", "line 3"),
        (lines.replace("\"d2\"", "\"d1\""), "line 4"),
        (
            lines.replace("\"form\":1,\"id\":\"d2\"", "\"form\":9,\"id\":\"d2\""),
            "newer",
        ),
        (
            lines.replace("\"entry\":3", "\"entry\":4"),
            "entry 3 is wanted",
        ),
        (lines.replace("\"hex\":\"504b", "\"hex\":\"50zz"), "line 2"),
    ];
    for (text, said) in spoiled {
        let mut fresh = write(&self::shop("wrong-lines-in"));
        let fault = fresh.import(&mut Cursor::new(text), "yard.jsonl");
        let fault = fault.expect_err("refused").to_string();
        assert!(
            fault.contains(said) && fault.contains("yard.jsonl"),
            "{fault}"
        );
        assert_eq!(fresh.told(), Ok(0));
    }
}

#[test]
fn the_kept_stand_is_the_folded_one_and_dropped_when_it_is_not_of_now() {
    let shop = shop("kept-stand");
    let mut store = write(&shop);
    let mut plan = small();
    plan.lines[0].joints = 9_000;
    let issue = entry("issue", "week-1", Told::Issued(Box::new(plan)));
    store.append(&[issue], None).expect("written");
    let entries: Vec<Entry> = (0..2_500).map(|n| delivered(&format!("d{n}"), 1)).collect();
    store.append(&entries, None).expect("written");
    let folded = store.desk().expect("folds").stand().clone();
    store.keep(&folded).expect("kept");
    assert_eq!(*store.desk().expect("kept").stand(), folded);
    store
        .append(&[delivered("one more", 1)], None)
        .expect("written");
    let now = store.desk().expect("folds").stand().clone();
    assert_eq!(now.weeks["week-1"].lines[&1].came, 2_501);
    drop(store);
    let raw = Connection::open(shop.join(DATABASE)).expect("a database");
    let kept: i64 = raw
        .query_row("SELECT number FROM cache", [], |r| r.get(0))
        .expect("one");
    assert_eq!(kept, 2_501, "the cache is of then");
    raw.execute("UPDATE cache SET number = 2502, stand = x'00'", [])
        .expect("spoiled");
    drop(raw);
    assert_eq!(*write(&shop).desk().expect("folds").stand(), now);
}
