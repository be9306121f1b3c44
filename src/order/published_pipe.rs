//! Published pipe sizes, to catch a slip of the pen in a declared OD or wall. Warnings only: a shop
//! may buy what no table lists.
//!
//! Sources: OD and Schedule 40 / 80 walls ASME B36.10M, ASTM F1083; Group IC walls ASTM F1043
//! (most of them from memory).

use rust_decimal::Decimal;

use crate::measure::Dimension;

/// One OD in thousandths of an inch, the trade names it goes by, and its published walls.
struct Size {
    od: i64,
    names: &'static str,
    walls: &'static [i64],
}

const fn size(od: i64, names: &'static str, walls: &'static [i64]) -> Size {
    Size { od, names, walls }
}

const SIZES: [Size; 9] = [
    size(1315, "fence 1-3/8, NPS 1", &[133]),
    size(1660, "fence 1-5/8, NPS 1-1/4", &[140, 191, 111]),
    size(
        1900,
        "fence 1-7/8 or \"2 inch\", NPS 1-1/2",
        &[145, 200, 120],
    ),
    size(
        2375,
        "fence 2-3/8 or \"2-1/2 inch\", NPS 2",
        &[154, 218, 130],
    ),
    size(
        2875,
        "fence 2-7/8 or \"3 inch\", NPS 2-1/2",
        &[203, 276, 160],
    ),
    size(3500, "fence 3-1/2, NPS 3", &[216, 300, 160]),
    size(4000, "fence 4, NPS 3-1/2", &[226, 318, 160]),
    size(4500, "NPS 4", &[237, 337]),
    size(6625, "fence 6-5/8, NPS 6", &[280, 432]),
];

/// Names that are written in place of a true OD, in thousandths, and the ODs they may mean.
const NAMES_AS_OD: [(i64, &str); 8] = [
    (1375, "1.315"),
    (1500, "1.900 (NPS 1-1/2)"),
    (1625, "1.660"),
    (1250, "1.660 (NPS 1-1/4)"),
    (2000, "1.900 (fence 2 inch) or 2.375 (NPS 2)"),
    (2500, "2.375 (fence 2-1/2) or 2.875 (NPS 2-1/2)"),
    (3000, "2.875 (fence 3) or 3.500 (NPS 3)"),
    (1875, "1.900"),
];

/// Thousandths of an inch.
fn thou(d: Dimension) -> Decimal {
    d.exact_mm() / Decimal::new(254, 4)
}

/// 0.1 mm: metric sizes are rounded that far from the inch table.
fn same(a: Decimal, b: i64) -> bool {
    (a - Decimal::from(b)).abs() <= Decimal::from(4)
}

/// What looks like a slip in an OD; `None` when it is published or plainly of its own.
pub(super) fn od_slip(od: Dimension) -> Option<String> {
    let od = thou(od);
    if SIZES.iter().any(|s| same(od, s.od)) {
        return None;
    }
    if let Some((_, meant)) = NAMES_AS_OD.iter().find(|(n, _)| Decimal::from(*n) == od) {
        return Some(format!(
            "this is a trade name, not a true OD; meant may be {meant}"
        ));
    }
    let near = SIZES
        .iter()
        .find(|s| (od - Decimal::from(s.od)).abs() <= Decimal::from(30))?;
    Some(format!(
        "the published OD near it is {} ({})",
        Dimension::inch(Decimal::new(near.od, 3)),
        near.names
    ))
}

/// What looks like a slip in a wall of a published OD.
pub(super) fn wall_slip(od: Dimension, wall: Dimension) -> Option<String> {
    let size = SIZES.iter().find(|s| same(thou(od), s.od))?;
    let wall = thou(wall);
    if size.walls.iter().any(|w| same(wall, *w)) {
        return None;
    }
    // A digit slipped (factor ten), or the wall of a neighbour in the table.
    let tenfold = size
        .walls
        .iter()
        .find(|w| same(wall * Decimal::TEN, **w) || same(wall / Decimal::TEN, **w));
    let neighbour = SIZES
        .iter()
        .any(|s| s.walls.iter().any(|w| Decimal::from(*w) == wall));
    if tenfold.is_none() && !neighbour {
        return None;
    }
    let walls: Vec<String> = size
        .walls
        .iter()
        .map(|w| Decimal::new(*w, 3).to_string())
        .collect();
    Some(format!(
        "published walls of this OD are {} in",
        walls.join(", ")
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inch(n: i64) -> Dimension {
        Dimension::inch(Decimal::new(n, 3))
    }

    #[test]
    fn published_sizes_and_their_metric_roundings_pass() {
        for s in &SIZES {
            assert_eq!(od_slip(inch(s.od)), None);
            for w in s.walls {
                assert_eq!(wall_slip(inch(s.od), inch(*w)), None);
            }
        }
        let mm = |n| Dimension::mm(Decimal::new(n, 2));
        assert_eq!(od_slip(mm(6030)), None);
        assert_eq!(wall_slip(mm(6030), mm(391)), None);
        assert_eq!(od_slip(inch(5563)), None, "a size of its own");
        assert_eq!(wall_slip(inch(2375), inch(95)), None, "a wall of its own");
    }

    #[test]
    fn names_and_slips_are_seen() {
        assert!(od_slip(inch(2000)).is_some_and(|t| t.contains("1.900")));
        assert!(od_slip(inch(2380)).is_some());
        assert!(wall_slip(inch(2375), inch(145)).is_some_and(|t| t.contains("0.154")));
        assert!(wall_slip(inch(2375), inch(1540)).is_some());
    }
}
