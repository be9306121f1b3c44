//! Whether two ends of one pipe are cut alike, line by line.

use std::f64::consts::TAU;

use super::extremes::spans;
use super::{Branch, Main, Method, setback};

/// Lines compared besides every turning line of both ends. A difference a finer look could still
/// find is under r/2 · (π/1440)² ≈ 2e-6 r.
const LINES: u32 = 1440;

/// Whether the setback curves of two ends differ nowhere by more than `tolerance` (same unit as the
/// radii). Ends that miss on different lines differ.
pub fn same_profile(
    branch: &Branch,
    a: &[Main],
    b: &[Main],
    method: Method,
    tolerance: f64,
) -> bool {
    let turns = [a, b]
        .into_iter()
        .flat_map(|mains| spans(branch, mains, method))
        .map(|span| span[0]);
    let even = (0..LINES).map(|i| TAU * f64::from(i) / f64::from(LINES));
    // Crests first: where ends differ, they differ there, and the look is over.
    turns.chain(even).all(|theta| {
        match (
            setback(branch, a, method, theta),
            setback(branch, b, method, theta),
        ) {
            (Some(x), Some(y)) => (x - y).abs() <= tolerance,
            (None, None) => true,
            _ => false,
        }
    })
}
