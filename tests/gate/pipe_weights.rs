//! Bare weight per foot against published tables.

use crate::tiny;
use longpoint::measure::Units;

/// Schedule 40 and 80: ASME B36.10M / ASTM F1083. Group IC (ASTM F1043): weights seen, walls from
/// memory. The tables' ±0.02 lb/ft covers both constants in use, 10.68 and 10.69.
const TABLE: [(&str, &str, f64); 22] = [
    ("1.315", "0.133", 1.68),
    ("1.660", "0.140", 2.27),
    ("1.900", "0.145", 2.72),
    ("2.375", "0.154", 3.66),
    ("2.875", "0.203", 5.80),
    ("3.500", "0.216", 7.58),
    ("4.000", "0.226", 9.12),
    ("4.500", "0.237", 10.80),
    ("6.625", "0.280", 18.99),
    ("1.660", "0.191", 3.00),
    ("1.900", "0.200", 3.63),
    ("2.375", "0.218", 5.03),
    ("2.875", "0.276", 7.67),
    ("3.500", "0.300", 10.26),
    ("4.000", "0.318", 12.52),
    ("4.500", "0.337", 15.00),
    ("6.625", "0.432", 28.60),
    ("1.660", "0.111", 1.84),
    ("1.900", "0.120", 2.28),
    ("2.375", "0.130", 3.12),
    ("2.875", "0.160", 4.64),
    ("4.000", "0.160", 6.57),
];

#[test]
fn weights_per_foot() {
    for (od, wall, want) in TABLE {
        let got = tiny::pipe("p", od, wall).weight_per_unit(Units::Inch);
        assert!(
            (got - want).abs() <= 0.02,
            "{od} x {wall}: {got} for {want}"
        );
    }
}

/// Group IC masses in kg/m (ASTM F1043 = AASHTO M181 Grade 2), seen in a public road
/// specification; printed there to one decimal. Walls from memory.
#[test]
fn weights_per_metre() {
    for (od, wall, want) in [
        ("42.16", "2.82", 2.7),
        ("48.26", "3.05", 3.4),
        ("60.33", "3.30", 4.6),
        ("73.03", "4.06", 6.9),
        ("101.60", "4.06", 9.8),
    ] {
        let got = tiny::pipe_mm("p", od, wall).weight_per_unit(Units::Metric);
        assert!(
            (got - want).abs() <= 0.06,
            "{od} x {wall}: {got} for {want}"
        );
    }
}
