//! Single and compound ends against reference values computed by independent programs, two ways
//! each (tests/reference/cope/README.md). Tolerance 1e-5 in; 1e-4 where r = R or a line just touches.

use longpoint::cope::{Branch, EndCut, Main, Method, end_cut, setback};
use serde_json::Value;

fn load(name: &str) -> Value {
    let path = format!("{}/tests/reference/cope/{name}", env!("CARGO_MANIFEST_DIR"));
    serde_json::from_str(&std::fs::read_to_string(path).expect("reference file")).expect("JSON")
}

fn num(v: &Value, key: &str) -> f64 {
    v[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{key} is a number"))
}

fn nums(v: &Value, key: &str) -> Vec<f64> {
    v[key]
        .as_array()
        .unwrap_or_else(|| panic!("{key} is a list"))
        .iter()
        .map(|n| n.as_f64().expect("number"))
        .collect()
}

fn branch(v: &Value) -> Branch {
    let radius = num(v, "branch_od") / 2.0;
    Branch {
        radius,
        bore: radius - num(v, "wall"),
    }
}

fn tolerance(b: &Branch, mains: &[Main]) -> f64 {
    let touching = mains
        .iter()
        .any(|m| (b.radius + m.offset.abs() - m.radius).abs() < 1e-6);
    if touching { 1e-4 } else { 1e-5 }
}

/// Extremes by value; the line named must lie on the curve at that value (flat crests and symmetric
/// pairs have more than one).
fn check_cut(id: &str, b: &Branch, mains: &[Main], method: Method, want: &Value) {
    let cut: EndCut = end_cut(b, mains, method).unwrap_or_else(|f| panic!("{id}: {f:?}"));
    let tol = tolerance(b, mains);
    for (what, got, want) in [
        ("s_long", cut.s_long, num(want, "s_long")),
        ("s_short", cut.s_short, num(want, "s_short")),
        ("cutback", cut.cutback, num(want, "depth")),
        (
            "curve at theta_long",
            setback(b, mains, method, cut.theta_long).expect("on the curve"),
            num(want, "s_long"),
        ),
        (
            "curve at theta_short",
            setback(b, mains, method, cut.theta_short).expect("on the curve"),
            num(want, "s_short"),
        ),
    ] {
        assert!(
            (got - want).abs() <= tol,
            "{id} {method:?} {what}: {got} for {want}"
        );
    }
}

fn check_curve(id: &str, b: &Branch, mains: &[Main], method: Method, theta: &[f64], want: &[f64]) {
    let tol = tolerance(b, mains);
    assert_eq!(theta.len(), want.len());
    for (deg, s) in theta.iter().zip(want) {
        let got = setback(b, mains, method, deg.to_radians()).unwrap_or(f64::NAN);
        assert!(
            (got - s).abs() <= tol,
            "{id} {method:?} at {deg}: {got} for {s}"
        );
    }
}

#[test]
fn every_single_end_agrees() {
    let file = load("ends_reference.json");
    let ends = file["ends"].as_array().expect("list");
    assert_eq!(ends.len(), 40);
    for end in ends {
        let id = end["id"].as_str().expect("id");
        let b = branch(end);
        let mains = [Main {
            radius: num(end, "main_od") / 2.0,
            phi: num(end, "phi_deg").to_radians(),
            beta: 0.0,
            offset: num(end, "offset"),
            station: 0.0,
        }];
        let theta = nums(end, "theta_deg");
        check_curve(
            id,
            &b,
            &mains,
            Method::TrueSaddle,
            &theta,
            &nums(end, "s_od"),
        );
        check_curve(id, &b, &mains, Method::Radial, &theta, &nums(end, "s_seat"));
        check_cut(id, &b, &mains, Method::TrueSaddle, &end["extremes"]["od"]);
        check_cut(id, &b, &mains, Method::Radial, &end["extremes"]["seat"]);
    }
}

#[test]
fn every_compound_profile_agrees() {
    let file = load("profiles_reference.json");
    let profiles = file["profiles"].as_array().expect("list");
    assert_eq!(profiles.len(), 14);
    for p in profiles {
        let id = p["id"].as_str().expect("id");
        let b = branch(p);
        let mains: Vec<Main> = p["mains"]
            .as_array()
            .expect("list")
            .iter()
            .map(|m| Main {
                radius: num(m, "od") / 2.0,
                phi: num(m, "phi_deg").to_radians(),
                beta: num(m, "beta_deg").to_radians(),
                offset: num(m, "offset"),
                station: num(m, "z"),
            })
            .collect();
        let theta = nums(p, "theta_deg");
        check_curve(id, &b, &mains, Method::TrueSaddle, &theta, &nums(p, "s_od"));
        check_curve(id, &b, &mains, Method::Radial, &theta, &nums(p, "s_seat"));
        check_cut(id, &b, &mains, Method::TrueSaddle, &p["extremes"]["od"]);
        check_cut(id, &b, &mains, Method::Radial, &p["extremes"]["seat"]);
    }
}
