//! Where the front roller stands: every place that puts a roller on a station, and both ends.

use super::Model;

/// Parts a bay is cut into for the envelope; one more station than that.
pub const PARTS: usize = 20;

/// x of station s (0..=[`PARTS`]) of bay i (0-based), in.
pub(super) fn station(model: &Model, bay: usize, s: usize) -> f64 {
    let (from, to) = (model.lines[bay], model.lines[bay + 1]);
    if s == PARTS {
        return to;
    }
    from + (to - from) * (s as f64 / PARTS as f64)
}

/// Places of the front roller, ascending, open first. Rounded to 1e-7 in so that two stations
/// that coincide but for float noise are one place.
pub fn travel(model: &Model) -> Vec<f64> {
    let (open, closed) = (model.front_open, model.front_closed);
    let rounded = |x: f64| (x * 1e7).round() / 1e7;
    let mut places = vec![open, closed];
    for bay in 0..model.bays() {
        for s in 0..=PARTS {
            let x = station(model, bay, s);
            let fronts = [rounded(x), rounded(x - model.spacing)];
            places.extend(fronts.into_iter().filter(|x| (open..=closed).contains(x)));
        }
    }
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| rounded(*a) == rounded(*b));
    places
}
