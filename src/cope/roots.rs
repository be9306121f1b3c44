//! Real roots of a small polynomial on an interval, by its derivatives.

/// Points of `[lo, hi]` that hold every simple root of `Σ aᵢ xⁱ`, and the turning points too: the
/// polynomial is monotone between the roots of its derivative, so a change of sign there is one
/// root, found by bisection. Extra points (turning points, double roots) are returned as well.
pub(super) fn roots_in(a: &[f64], lo: f64, hi: f64) -> Vec<f64> {
    if a.len() < 2 || a.iter().any(|c| !c.is_finite()) {
        return Vec::new();
    }
    let slope: Vec<f64> = (1_u32..)
        .zip(&a[1..])
        .map(|(i, c)| f64::from(i) * c)
        .collect();
    let mut found = roots_in(&slope, lo, hi);
    found.sort_by(f64::total_cmp);
    let fences: Vec<f64> = [lo]
        .into_iter()
        .chain(found.iter().copied())
        .chain([hi])
        .collect();
    for pair in fences.windows(2) {
        if let [from, to] = *pair
            && let Some(root) = bisect(|x| value(a, x), from, to)
        {
            found.push(root);
        }
    }
    found
}

/// Horner's rule.
fn value(a: &[f64], x: f64) -> f64 {
    a.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// The root of `f` between two points of opposite sign, to the last bit; `None` if the signs agree.
pub(super) fn bisect(f: impl Fn(f64) -> f64, from: f64, to: f64) -> Option<f64> {
    let (mut a, mut b) = (from, to);
    let fa = f(a);
    if fa == 0.0 {
        return Some(a);
    }
    let fb = f(b);
    if fb == 0.0 {
        return Some(b);
    }
    if fa.signum() == fb.signum() {
        return None;
    }
    for _ in 0..200 {
        let mid = 0.5 * (a + b);
        if mid <= a || mid >= b {
            break;
        }
        if f(mid).signum() == fa.signum() {
            a = mid;
        } else {
            b = mid;
        }
    }
    Some(0.5 * (a + b))
}

#[cfg(test)]
mod tests {
    use super::roots_in;

    #[test]
    fn finds_every_simple_root_and_touches_the_double_one() {
        // (x − 0.5)(x + 0.25)(x − 0.125)² expanded by hand.
        let a = [
            -0.125 / 64.0,
            0.125 * 0.25 - 0.25 / 64.0,
            -0.125 + 0.25 * 0.25 + 1.0 / 64.0,
            -0.5,
            1.0,
        ];
        let roots = roots_in(&a, -1.0, 1.0);
        for want in [0.5, -0.25, 0.125] {
            assert!(
                roots.iter().any(|r| (r - want).abs() < 1e-6),
                "{want} in {roots:?}"
            );
        }
    }

    #[test]
    fn bears_any_numbers() {
        assert!(roots_in(&[f64::NAN, 1.0], -1.0, 1.0).is_empty());
        assert!(roots_in(&[], -1.0, 1.0).is_empty());
    }
}
