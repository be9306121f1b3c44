//! What is usual: a value outside it is asked about by name, with the usual range, and used as it stands.
//!
//! Each range has its reason beside it. Most of them are `common practice, no source`: wide enough that a shop
//! which means what it writes is seldom asked, narrow enough that a slipped point, a missing unit or a value in
//! the wrong column is.

use rust_decimal::Decimal;

use crate::measure::{Length, Units};

/// How to mend what is not usual.
pub(super) const MEND: &str = "correct it, or leave it as it is if it is meant";

/// From and to, both usual; for a shop of inches and for a metric one.
#[derive(Clone, Copy, Debug)]
pub(super) struct UsualSize {
    inch: (Length, Length),
    metric: (Length, Length),
}

impl UsualSize {
    /// What is odd in a size: the usual range, in the shop's units; `None` when it is usual.
    pub fn odd(self, size: Length, units: Units) -> Option<String> {
        let (least, most) = match units {
            Units::Inch => self.inch,
            Units::Metric => self.metric,
        };
        if (least..=most).contains(&size) {
            return None;
        }
        let [least, most] = [least, most].map(|l| l.print_with_unit(units));
        Some(format!("usual is {least} to {most}"))
    }
}

const fn sizes(inch: (Length, Length), metric: (i64, i64)) -> UsualSize {
    UsualSize {
        inch,
        metric: (Length::from_mm(metric.0), Length::from_mm(metric.1)),
    }
}

const fn feet(n: i64) -> Length {
    Length::from_64ths(n * 768)
}

const fn inches(n: i64) -> Length {
    Length::from_64ths(n * 64)
}

const fn parts64(n: i64) -> Length {
    Length::from_64ths(n)
}

const NONE: Length = Length::ZERO;

/// Openings: a single cantilever leaf spans up to about 60 ft; wider ones are made as two leaves. Common
/// practice, no source.
pub(super) const OPENING: UsualSize = sizes((feet(4), feet(60)), (1_200, 18_300));
/// Leaves: an opening of that kind with its tail. Common practice, no source.
pub(super) const LEAF: UsualSize = sizes((feet(6), feet(95)), (1_800, 29_000));
/// Heights: chain link comes up to 12 ft wide. Common practice, no source.
pub(super) const HEIGHT: UsualSize = sizes((feet(3), feet(12)), (900, 3_700));
/// Tails and distances between roller supports. Common practice, no source.
pub(super) const TAIL: UsualSize = sizes((feet(2), feet(40)), (600, 12_200));
/// Overlaps of both supports together, and leads. Common practice, no source.
pub(super) const OVERLAP: UsualSize = sizes((NONE, feet(4)), (0, 1_200));
/// Joints: single random lengths run from about 16 ft, double random up to 45 ft (API 5L, from memory); cut
/// lengths of fence pipe begin at 10 ft (common practice, no source).
pub(super) const JOINT: UsualSize = sizes((feet(10), feet(45)), (3_000, 13_800));
/// Plain parts: none is longer than the longest joint. Common practice, no source.
pub(super) const PART: UsualSize = sizes((inches(1), feet(45)), (25, 13_800));
/// Outside diameters: from the lightest fence rail to the heaviest gate post (ASTM F1043, from memory).
pub(super) const OD: UsualSize = sizes((parts64(48), parts64(8 * 64 + 40)), (19, 220));
/// Walls: thinner pipe cannot be welded on the floor, thicker is no fence pipe. Common practice, no source.
pub(super) const WALL: UsualSize = sizes((parts64(3), parts64(40)), (1, 16));

/// A setting's usual sizes by its key.
struct SettingSize(&'static str, UsualSize);

/// Every size of shop.toml. Common practice, no source, where no other reason is given.
const SETTING_SIZES: &[SettingSize] = &[
    SettingSize("gate.clearance", sizes((NONE, inches(12)), (0, 300))),
    SettingSize(
        "gate.fabric_difference",
        sizes((Length::from_64ths(-12 * 64), inches(12)), (-300, 300)),
    ),
    SettingSize("gate.latch_overlap", sizes((NONE, feet(2)), (0, 600))),
    SettingSize("gate.roller_overlap", sizes((NONE, feet(2)), (0, 600))),
    SettingSize("gate.tail_least", sizes((feet(2), feet(12)), (600, 3_700))),
    SettingSize("gate.tail_steps", sizes((feet(2), feet(60)), (600, 18_300))),
    // Diagonals must stay under 45 degrees: a bay is never longer than a gate is high.
    SettingSize("gate.bay_limit", sizes((feet(2), feet(10)), (600, 3_000))),
    SettingSize("gate.landing_offset", sizes((NONE, inches(6)), (0, 150))),
    SettingSize("gate.stop_rise", sizes((NONE, inches(14)), (0, 360))),
    SettingSize("gate.post_drop", sizes((NONE, inches(6)), (0, 150))),
    // Strands stand about 4 in apart (RR-F-191/2E).
    SettingSize(
        "gate.barbed_pitch",
        sizes((inches(3), inches(8)), (75, 200)),
    ),
    SettingSize("gate.lead", sizes((NONE, feet(3)), (0, 900))),
    SettingSize(
        "sway.expected_over",
        sizes((feet(10), feet(60)), (3_000, 18_300)),
    ),
    SettingSize(
        "sway.review_over",
        sizes((feet(10), feet(60)), (3_000, 18_300)),
    ),
    SettingSize("sway.rise", sizes((inches(2), feet(3)), (50, 900))),
    SettingSize("sway.end_allowance", sizes((NONE, feet(1)), (0, 300))),
    SettingSize("kit.local_joints", JOINT),
    SettingSize("kit.trim", sizes((NONE, inches(2)), (0, 50))),
    SettingSize("kit.kerf", sizes((parts64(2), parts64(16)), (1, 6))),
    SettingSize(
        "kit.carrier_limit",
        sizes((feet(4), feet(60)), (1_200, 18_300)),
    ),
    // A band saw takes about 0.05 in, a cold saw 0.10 in, an abrasive wheel 1/8 in.
    SettingSize("saw.kerf", sizes((parts64(2), parts64(16)), (1, 6))),
    // A trim squares a raw end.
    SettingSize("saw.near_trim", sizes((NONE, inches(2)), (0, 50))),
    SettingSize("saw.far_trim", sizes((NONE, inches(2)), (0, 50))),
    // A chuck holds a foot or two.
    SettingSize("saw.hold_back", sizes((NONE, feet(3)), (0, 900))),
    // A tape is read to a 32nd; a piece an eighth off is another length.
    SettingSize("saw.piece_tolerance", sizes((NONE, parts64(16)), (0, 6))),
    SettingSize("saw.mark", sizes((parts64(1), parts64(8)), (1, 5))),
    SettingSize("saw.measure_first_under", sizes((NONE, inches(2)), (0, 50))),
    SettingSize("saw.tape", sizes((feet(10), feet(100)), (3_000, 30_000))),
    SettingSize("splice.root_gap", sizes((NONE, parts64(16)), (0, 6))),
    SettingSize("splice.leg", sizes((parts64(4), parts64(32)), (1, 13))),
    SettingSize("splice.clear_least", sizes((NONE, feet(1)), (0, 300))),
    SettingSize("splice.parked_clear", sizes((NONE, feet(4)), (0, 1_200))),
    SettingSize("splice.stagger", sizes((NONE, feet(10)), (0, 3_000))),
    SettingSize(
        "splice.least_piece",
        sizes((inches(6), feet(12)), (150, 3_700)),
    ),
    SettingSize("splice.three_within", sizes((NONE, feet(30)), (0, 9_100))),
    SettingSize("splice.brackets", sizes((NONE, feet(95)), (0, 29_000))),
    SettingSize(
        "splice.bracket_half_width",
        sizes((NONE, feet(1)), (0, 300)),
    ),
    // Under half a foot a remnant is scrap everywhere; over 12 ft none is ever kept.
    SettingSize(
        "money.keep_length",
        sizes((inches(6), feet(12)), (150, 3_700)),
    ),
];

/// The usual sizes of a setting.
pub(super) fn setting_size(key: &str) -> Option<UsualSize> {
    let found = SETTING_SIZES.iter().find(|s| s.0 == key);
    found.map(|s| s.1)
}

/// A setting's usual numbers by its key, in hundredths; for a shop of inches and for a metric one.
struct SettingNumber(&'static str, (i64, i64), (i64, i64));

/// Every number of shop.toml that could be slipped within what it may be at all. Common practice, no source,
/// where no other reason is given.
const SETTING_NUMBERS: &[SettingNumber] = &[
    // Half the opening is the rule; 0.40 is seen as a floor in specifications.
    SettingNumber("gate.tail_fraction", (30, 100), (30, 100)),
    SettingNumber("gate.tail_warning", (20, 60), (20, 60)),
    SettingNumber("gate.roller_spacing", (50, 100), (50, 100)),
    // Chain link weighs 0.3 to 1.5 lb/ft2; slats and boards up to 5.
    SettingNumber("fabric.weight_per_area", (0, 600), (0, 3_000)),
    SettingNumber("fabric.hardware", (0, 50_000), (0, 25_000)),
    // Zinc on pipe of these walls is 3 to 8 % of its weight.
    SettingNumber("fabric.zinc_percent", (0, 1_500), (0, 1_500)),
    SettingNumber("fabric.load_factor", (80, 300), (80, 300)),
    SettingNumber("fabric.engineer_over", (30, 90), (30, 90)),
    // 25,000 to 83,000 psi are the grades of fence pipe (ASTM F1043, from memory); 50 here is ksi.
    SettingNumber(
        "pipe.yield_strength",
        (2_000_000, 12_000_000),
        (15_000, 80_000),
    ),
    SettingNumber("minutes.day_hours", (400, 1_600), (400, 1_600)),
    SettingNumber("minutes.joint", (0, 3_000), (0, 3_000)),
    SettingNumber("minutes.cut", (0, 2_000), (0, 2_000)),
    SettingNumber("minutes.cope", (0, 6_000), (0, 6_000)),
    SettingNumber("minutes.splice", (0, 24_000), (0, 24_000)),
    SettingNumber("splice.clear_ods", (50, 400), (50, 400)),
    SettingNumber("splice.clear_least_ods", (0, 300), (0, 300)),
];

/// What is odd in a number of shop.toml: the usual range; `None` when it is usual or has none.
pub(super) fn odd_number(key: &str, number: Decimal, units: Units) -> Option<String> {
    let SettingNumber(_, inch, metric) = SETTING_NUMBERS.iter().find(|s| s.0 == key)?;
    let (least, most) = match units {
        Units::Inch => *inch,
        Units::Metric => *metric,
    };
    let [least, most] = [least, most].map(|n| Decimal::new(n, 2).normalize());
    let usual = (least..=most).contains(&number);
    (!usual).then(|| format!("usual is {least} to {most}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The rooms of shop.toml, as they are written.
    const SECTIONS: [(&str, &str); 6] = [
        ("gate", include_str!("shop_file/gate.rs")),
        ("loads", include_str!("shop_file/loads.rs")),
        ("saw", include_str!("shop_file/saw.rs")),
        ("splice", include_str!("shop_file/splice.rs")),
        ("money", include_str!("shop_file/money.rs")),
        ("pipes", include_str!("shop_file/pipes.rs")),
    ];

    /// The keys that a file asks for by one of these calls.
    fn asked<'a>(text: &'a str, calls: &[&str]) -> Vec<&'a str> {
        let mut out = Vec::new();
        for call in calls {
            for (at, _) in text.match_indices(call) {
                let rest = text[at + call.len()..].trim_start_matches(|c: char| {
                    c.is_whitespace() || c.is_alphabetic() || matches!(c, '(' | '&' | ',')
                });
                let key = rest.strip_prefix('"').and_then(|r| r.split('"').next());
                out.extend(key);
            }
        }
        out
    }

    #[test]
    fn every_size_of_a_section_has_a_usual_range() {
        let calls = [".size(", ".size_up(", ".maybe_size(", ".sizes("];
        let keys = || SETTING_SIZES.iter().map(|s| s.0);
        let mut found = 0;
        for (file, text) in SECTIONS {
            for key in asked(text, &calls) {
                found += 1;
                let known = keys().any(|k| k.split('.').nth(1) == Some(key));
                assert!(known, "{file}: {key} has no usual range");
            }
        }
        assert!(found >= 34, "only {found} sizes were found in the sources");
        // Pairs of shares are bounded where they are read; these numbers have no range of their own.
        let free = ["credit_rate"];
        for (file, text) in SECTIONS {
            for key in asked(text, &[".number("]) {
                let known = SETTING_NUMBERS
                    .iter()
                    .any(|s| s.0.split('.').nth(1) == Some(key));
                assert!(known || free.contains(&key), "{file}: {key}");
            }
        }
    }

    #[test]
    fn the_usual_range_is_said_in_the_shops_units() {
        let odd = |l, units| OPENING.odd(l, units);
        assert_eq!(odd(feet(60), Units::Inch), None);
        assert_eq!(
            odd(feet(61), Units::Inch).as_deref(),
            Some("usual is 4'-0\" to 60'-0\"")
        );
        assert_eq!(
            odd(feet(61), Units::Metric).as_deref(),
            Some("usual is 1200 mm to 18300 mm")
        );
        let ksi = odd_number("pipe.yield_strength", Decimal::from(50), Units::Inch);
        assert_eq!(ksi.as_deref(), Some("usual is 20000 to 120000"));
    }
}
