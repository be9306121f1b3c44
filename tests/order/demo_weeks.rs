//! The demo weeks in data/ read clean, and hold what the issue asks of them.

use crate::demo;
use longpoint::order::print_faults;

#[test]
fn the_us_week_reads_clean() {
    let week = demo::week("demo_us");
    assert!(week.notices.is_empty(), "{}", print_faults(&week.notices));
    assert!((8..=10).contains(&week.gates.len()));
    let feet = |t: f64| t / (12.0 * 8128.0);
    assert!(week.gates.iter().any(|g| feet(g.leaf) < 21.0));
    assert!(week.gates.iter().any(|g| feet(g.leaf) > 40.0));
    assert_eq!(week.gates.iter().filter(|g| g.kit).count(), 1);
    assert_eq!(week.gates.iter().filter(|g| g.barbed > 0).count(), 1);
    let first = &week.gates[0];
    assert_eq!(first.leaf, 228.0 * 8128.0, "the worked gate of DESIGN §5");
    assert_eq!(week.pipe(first.pipes.horizontal).name, "2-3/8 SS40");
}

/// Every demo gate can be made, and reads as a drafter would expect.
#[test]
fn the_us_week_is_taken_off() {
    use longpoint::part::{CopeEnd, gate_weight, take_off};
    let week = demo::week("demo_us");
    let (t, no) = take_off(&week);
    assert!(no.is_empty(), "{no:?}");
    assert_eq!(t.frames.len(), week.gates.len());
    let mut marks: Vec<String> = t.parts.iter().map(|p| p.mark.to_lowercase()).collect();
    marks.sort();
    marks.dedup();
    assert_eq!(marks.len(), t.parts.len(), "every mark once");
    for p in &t.parts {
        assert!(
            p.long_exact >= p.throat_exact && p.throat_exact > 0.0,
            "{}",
            p.mark
        );
        assert!(p.axis >= p.long_exact, "{}", p.mark);
        if p.ends.iter().all(|e| matches!(e, CopeEnd::Square { .. })) {
            assert_eq!(p.long_exact, p.throat_exact, "{}", p.mark);
        }
        if let (Some(top), Some(under)) = (p.top_line, p.under_line) {
            assert!(
                top >= p.throat_exact && under >= p.throat_exact,
                "{}",
                p.mark
            );
            assert!(top <= p.long_exact && under <= p.long_exact, "{}", p.mark);
        }
    }
    for gate in 0..week.gates.len() {
        let w = gate_weight(&week, &t, gate).expect("built");
        let leaf = week.gates[gate].leaf;
        assert!(w.total >= w.pipe && w.pipe > 0.0);
        assert!(w.centre_of_gravity.x > 0.4 * leaf && w.centre_of_gravity.x < 0.6 * leaf);
    }
}

#[test]
fn the_metric_week_reads_clean() {
    let week = demo::week("demo_metric");
    assert!(week.notices.is_empty(), "{}", print_faults(&week.notices));
    assert_eq!(week.gates.len(), 5);
    let mm = |t: f64| t / 320.0;
    assert_eq!(mm(week.gates[0].leaf), 4000.0 + 300.0 + 2000.0);
    assert_eq!(mm(week.gates[1].opening.geometric()), 5500.0);
    assert_eq!(week.shop.saw.kerf.ticks(), 800);
    let price = week.quotes[0].price.expect("priced");
    assert_eq!(price.to_string(), "35.40", "6 m at 5.90 per metre");
}
