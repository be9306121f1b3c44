//! A joint planned shorter than it is sold: every output says both lengths, and marks, kerf and floor add
//! up to the one that is planned on. Source: the identity that every joint is checked by.

use longpoint::plan::{JointSource, PlannedJoint};
use longpoint::report::draw::Flat;
use longpoint::report::paper::{Paper, pages};
use longpoint::report::results;

use crate::made;

/// Words with every run of space one space: sheets break their lines.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn both_lengths_are_said_and_the_printed_marks_add_up() {
    let plan = made::checked(&made::demo("demo_us"));
    let week = plan.week();
    let units = week.shop.units;
    let sold = |j: &PlannedJoint| match j.source {
        JointSource::Bought(q) => Some(week.quotes[q].nominal),
        JointSource::Rack(..) => None,
    };
    let joints = plan.plan().joints.iter();
    let short: Vec<&PlannedJoint> = joints
        .filter(|j| sold(j).is_some_and(|n| n != j.length))
        .collect();
    assert!(!short.is_empty(), "the demo plans some joints short");
    let files = results(&plan, Paper::Letter).expect("sheets");
    let read = |name: &str| {
        let (_, bytes) = files.iter().find(|(n, _)| n == name).expect(name);
        flowing(&String::from_utf8_lossy(bytes))
    };
    let all: Vec<Flat> = pages(&plan, Paper::Letter).iter().map(Flat::of).collect();
    let cuts = all.iter().filter(|f| f.title == "Cut sheets");
    let paper = flowing(&cuts.map(Flat::words).collect::<Vec<_>>().join(" "));
    for joint in &short {
        let nominal = sold(joint).expect("bought").print(units);
        let planned = joint.length.print(units);
        let said = format!("{nominal}, planned as {planned}");
        assert!(read("cut_sheet.txt").contains(&said), "{said}");
        assert!(paper.contains(&said), "{said}");
        let html = read("week.html")
            .replace("&quot;", "\"")
            .replace("&#34;", "\"");
        assert!(html.contains(&said), "{said}");
        let last = joint.pieces.last().expect("pieces");
        let sum = last.end + joint.last_cut + joint.floor;
        assert_eq!(sum, joint.length, "joint {}", joint.number);
    }
    let csv = read("cut_sheet.csv");
    assert!(csv.contains("nominal_length_in"), "{}", &csv[..400]);
    assert!(read("plan.json").contains("\"keep_if_floor_from\""));
}
