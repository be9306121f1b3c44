//! kill −9 in the middle of writing: nothing acknowledged is lost, nothing half is seen.

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use longpoint::store::{PlanFile, Store, StoreFault};
use longpoint::yard::{Delivered, Entry, History, Told};

use crate::database::shop;
use crate::dice::Dice;
use crate::world::{entry, small};

/// The shop that a child writes to, and its name.
const SHOP: &str = "LONGPOINT_TEST_YARD";
const NAME: &str = "LONGPOINT_TEST_WRITER";
/// Kills in all; entries of one transaction.
const KILLS: u32 = 1_000;
const TOGETHER: u64 = 3;

/// A plan issued with its document, and two deliveries for it: all or nothing.
fn together(name: &str, n: u64) -> (Vec<Entry>, String) {
    let week = format!("{name}-{n}");
    let delivered = |id: &str| {
        let told = Told::Delivered(Delivered {
            line: 1,
            joints: 1,
            lengths: Vec::new(),
        });
        entry(&format!("{week}-{id}"), &week, told)
    };
    let issue = entry(&week, &week, Told::Issued(Box::new(small())));
    let document = format!(
        "{{\"week\": \"{week}\", \"fill\": \"{}\"}}",
        "x".repeat(9_000)
    );
    (vec![issue, delivered("a"), delivered("b")], document)
}

/// Not a test of its own: what the tests below start as another process, and kill. It says what is
/// written, once it is.
#[test]
fn a_writer_until_it_is_killed() {
    let (Some(shop), Ok(name)) = (std::env::var_os(SHOP), std::env::var(NAME)) else {
        return;
    };
    let shop = PathBuf::from(shop);
    println!("ready");
    for n in 0u64.. {
        let mut store = match Store::to_write(&shop, &name) {
            Ok(store) => store,
            Err(StoreFault::Busy(_)) => continue,
            Err(fault) => panic!("{fault}"),
        };
        assert_eq!(store.only_read(), None);
        let (entries, document) = together(&name, n);
        let file = PlanFile {
            name: "orders.csv".to_owned(),
            bytes: document.clone().into_bytes(),
        };
        store
            .append(&entries, Some((&document, &[file])))
            .expect("written");
        println!("written {name}-{n}");
        std::io::stdout().flush().expect("the reader is there");
        drop(store);
    }
}

fn writer(shop: &Path, name: &str) -> Child {
    Command::new(std::env::current_exe().expect("a test is a program"))
        .args([
            "kills::a_writer_until_it_is_killed",
            "--exact",
            "--nocapture",
        ])
        .env(SHOP, shop)
        .env(NAME, name)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the test starts itself")
}

/// A writer that is about to begin.
fn ready(shop: &Path, name: &str) -> (Child, BufReader<ChildStdout>) {
    let mut child = writer(shop, name);
    let mut out = BufReader::new(child.stdout.take().expect("piped"));
    let mut line = String::new();
    while line != "ready\n" {
        line.clear();
        assert_ne!(out.read_line(&mut line).expect("it says so"), 0);
    }
    (child, out)
}

/// Kills it and hands back what it had acknowledged.
fn killed((mut child, out): (Child, BufReader<ChildStdout>)) -> Vec<String> {
    child.kill().expect("it runs until it is killed");
    let lines = out.lines().map_while(Result::ok);
    let words = lines.filter_map(|l| l.strip_prefix("written ").map(str::to_owned));
    let acknowledged = words.collect();
    child.wait().expect("killed");
    acknowledged
}

/// Everything acknowledged is there, whole, and the database is sound.
fn whole(shop: &Path, acknowledged: &[String]) -> u64 {
    let store = Store::to_write(shop, "judge").expect("the lock went with the process");
    assert_eq!(store.only_read(), None, "sound after a kill");
    let told = store.told().expect("readable");
    assert_eq!(told % TOGETHER, 0, "no transaction is half there");
    for week in acknowledged {
        let id = longpoint::yard::EntryId(week.clone());
        assert!(
            store.find(&id).expect("readable").is_some(),
            "{week} was acknowledged"
        );
        let plan = store
            .plan(&id)
            .expect("readable")
            .expect("with its document");
        assert!(plan.document.contains(week.as_str()) && plan.files.len() == 1);
    }
    told
}

#[test]
fn a_thousand_kills_lose_nothing_and_leave_nothing_half() {
    let mut dice = Dice(9);
    let mut in_vain = 0;
    let mut written = 0;
    let mut home = shop("killed-0");
    for kill in 0..KILLS {
        // A fresh yard now and then, so that its making is interrupted, too.
        if kill % 50 == 0 {
            home = shop(&format!("killed-{}", kill / 50));
        }
        let mut child = ready(&home, &format!("w{kill}"));
        // Half of the writers are killed about their first writing, half about a later one.
        let mut acknowledged = Vec::new();
        if dice.whether(2) {
            let mut line = String::new();
            child.1.read_line(&mut line).expect("it writes");
            acknowledged.extend(line.trim().strip_prefix("written ").map(str::to_owned));
        }
        sleep(Duration::from_micros(dice.below(30_000)));
        acknowledged.extend(killed(child));
        in_vain += u32::from(acknowledged.is_empty());
        written += acknowledged.len();
        if home.join("yard.db").exists() {
            whole(&home, &acknowledged);
        }
    }
    assert!(
        written > 300 && in_vain > 10,
        "{written} written, {in_vain} in vain"
    );
}

#[test]
fn two_writers_and_kills_lose_nothing_of_either() {
    let mut dice = Dice(11);
    let home = shop("two-killed");
    let mut all: Vec<String> = Vec::new();
    for round in 0..40 {
        let one = ready(&home, &format!("a{round}"));
        let other = ready(&home, &format!("b{round}"));
        sleep(Duration::from_micros(40_000 + dice.below(120_000)));
        all.extend(killed(one));
        sleep(Duration::from_micros(dice.below(120_000)));
        all.extend(killed(other));
        if home.join("yard.db").exists() {
            whole(&home, &all);
        }
    }
    let by = |letter: char| all.iter().filter(|w| w.starts_with(letter)).count();
    assert!(by('a') > 5 && by('b') > 5, "{} and {}", by('a'), by('b'));
}
