//! Gates of openings far past the usual, in joints of 21 ft: wherever the windows allow a plan, one is found, and the
//! judge passes it.

use crate::demo;
use longpoint::check::violations;
use longpoint::measure::Length;
use longpoint::nest::Limits;
use longpoint::order::{Week, WeekFiles, print_faults, read_week};
use longpoint::part::take_off;
use longpoint::plan::{PlanOptions, make};
use longpoint::text::SourceFile;

/// The US demo's shop with one gate of this opening, 6 ft high, and 21 ft joints alone.
fn week(feet: i64) -> Week {
    let orders = format!("mark,count,opening,height,hand\nA1,1,{feet}',6',left\n");
    let files = WeekFiles {
        orders: Some(SourceFile {
            name: "orders.csv".to_owned(),
            bytes: orders.into_bytes(),
        }),
        rack: None,
        parts: None,
        ..demo::files("demo_us")
    };
    let mut week = read_week(&files).unwrap_or_else(|faults| panic!("{}", print_faults(&faults)));
    week.quotes.retain(|q| q.nominal == Length::FOOT * 21);
    week
}

/// Plans an opening within so many steps; money, the widest gap in percent, and splices on one line.
fn planned(feet: i64, work: u64) -> String {
    let week = week(feet);
    let (taken, impossible) = take_off(&week);
    assert_eq!(impossible, [], "{feet} ft");
    let limits = Limits { work, time: None };
    let options = PlanOptions {
        limits,
        ..PlanOptions::default()
    };
    let started = std::time::Instant::now();
    let plan = make(&week, &taken, &options).unwrap_or_else(|all| panic!("{feet} ft: {all:#?}"));
    let found = violations(&week, &taken, &plan);
    assert!(found.is_empty(), "{feet} ft: {found:#?}");
    let splices: usize = plan.spliced.iter().map(|l| l.splices.len()).sum();
    // A horizontal of this opening and half of it again is longer than so many joints.
    assert!(
        splices >= 2 * usize::try_from(feet * 3 / 2 / 21).expect("few"),
        "{feet} ft"
    );
    let gap = |p: &longpoint::plan::PipeOutcome| (p.cost - p.bound) as f64 / p.cost.max(1) as f64;
    let widest = plan.pipes.iter().map(gap).fold(0.0, f64::max);
    let total = plan.total.map_or("-".to_owned(), |t| t.to_string());
    let seconds = started.elapsed().as_secs_f64();
    format!(
        "{feet} ft: {total}, {splices} splices, gap {:.2} %, {seconds:.2} s",
        100.0 * widest
    )
}

#[test]
fn openings_of_60_to_200_ft_are_planned() {
    for feet in (60..=200).step_by(20) {
        println!("{}", planned(feet, 300_000));
    }
}

/// Every foot with the default work: minutes where the engine is not optimised.
/// `cargo test --release --test plan openings -- --ignored --nocapture` prints the table of the bench log.
#[test]
#[ignore = "minutes unoptimised"]
fn openings_of_60_to_200_ft_are_planned_by_the_foot() {
    for feet in 60..=200 {
        println!("{}", planned(feet, Limits::default().work));
    }
}
