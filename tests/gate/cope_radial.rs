//! Radial cuts against their definition: on each line of the pipe the largest setback through the wall, the long
//! point where that is least. The definition is searched through here, line by line and radius by radius.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use longpoint::cope::{Branch, Main, Method, end_cut, setback};

/// Largest setback through the wall on one line, by trying radii; `None` where the outside meets nothing.
fn through_the_wall(branch: &Branch, mains: &[Main], theta: f64) -> Option<f64> {
    const RADII: u32 = 400;
    let at = |rho: f64, main: &Main| {
        let tube = Branch {
            radius: rho,
            bore: rho / 2.0,
        };
        setback(&tube, &[*main], Method::TrueSaddle, theta)
    };
    mains.iter().find_map(|m| at(branch.radius, m))?;
    let step = (branch.radius - branch.bore) / f64::from(RADII);
    let radii = (0..=RADII).map(|i| branch.bore + step * f64::from(i));
    let all = radii.flat_map(|rho| mains.iter().filter_map(move |m| at(rho, m)));
    all.max_by(f64::total_cmp)
}

fn main(radius: f64, phi_deg: f64, beta: f64, offset: f64) -> Main {
    Main {
        radius,
        phi: phi_deg.to_radians(),
        beta,
        offset,
        station: 0.0,
    }
}

/// One main, oblique and off its axis; a corner of two; a corner whose second main is smaller than the branch, so
/// that some lines of the wall meet it and the outside does not.
fn ends() -> Vec<(Branch, Vec<Main>)> {
    let branch = Branch {
        radius: 1.0,
        bore: 0.7,
    };
    let mut out = Vec::new();
    for phi in [35.0, 50.0, 70.0, 110.0] {
        for offset in [-0.6, -0.2, 0.3, 0.55] {
            out.push((branch, vec![main(1.8, phi, 0.4, offset)]));
        }
        out.push((
            branch,
            vec![
                main(1.2, phi, 0.0, 0.0),
                main(1.6, 90.0 - phi / 2.0, PI, 0.0),
            ],
        ));
        out.push((
            branch,
            vec![main(1.3, phi, 0.0, 0.1), main(0.9, 60.0, PI, 0.0)],
        ));
        out.push((
            branch,
            vec![main(1.3, phi, 0.0, 0.0), main(0.8, 35.0, FRAC_PI_2, 0.2)],
        ));
    }
    out
}

#[test]
fn every_line_seats_on_the_largest_setback_through_its_wall() {
    let mut lines = 0;
    for (branch, mains) in ends() {
        for i in 0..180 {
            let theta = TAU * f64::from(i) / 180.0 + 0.001;
            let own = through_the_wall(&branch, &mains, theta);
            let said = setback(&branch, &mains, Method::Radial, theta);
            match (own, said) {
                (Some(own), Some(said)) => {
                    lines += 1;
                    // A radius between two that were tried may be a little larger, never smaller.
                    assert!(said >= own - 1e-9, "{mains:?} at {theta}: {said} < {own}");
                    assert!(said <= own + 0.02, "{mains:?} at {theta}: {said} > {own}");
                }
                (own, said) => assert_eq!(own, said, "{mains:?} at {theta}"),
            }
        }
    }
    assert!(lines > 3000, "{lines}");
}

#[test]
fn the_long_point_is_the_least_setback_all_round() {
    let mut cut = 0;
    for (branch, mains) in ends() {
        for method in [Method::Radial, Method::TrueSaddle] {
            let Ok(end) = end_cut(&branch, &mains, method) else {
                continue;
            };
            cut += 1;
            let lines = (0..20_000).map(|i| TAU * f64::from(i) / 20_000.0);
            let all: Vec<f64> = lines
                .filter_map(|t| setback(&branch, &mains, method, t))
                .collect();
            let least = all.iter().copied().fold(f64::INFINITY, f64::min);
            let most = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            // Lines 3e-4 apart: what lies between them differs by their slope times that at most.
            assert!(
                end.s_long <= least + 1e-9,
                "{method:?} {mains:?}: {} > {least}",
                end.s_long
            );
            assert!(
                end.s_long >= least - 1e-3,
                "{method:?} {mains:?}: {} < {least}",
                end.s_long
            );
            assert!(
                end.s_short >= most - 1e-9,
                "{method:?} {mains:?}: {} < {most}",
                end.s_short
            );
            let at = setback(&branch, &mains, method, end.theta_long).expect("on the pipe");
            assert!((at - end.s_long).abs() < 1e-6, "{method:?} {mains:?}");
            assert!((end.cutback - (end.s_short - end.s_long)).abs() < 1e-12);
        }
    }
    assert!(cut > 30, "{cut}");
}

/// A pipe of no size, or a clock that is no number, seats nowhere.
#[test]
fn what_is_no_pipe_has_no_setback() {
    let sound = Branch {
        radius: 1.0,
        bore: 0.7,
    };
    let mains = [main(1.8, 60.0, 0.0, 0.0)];
    for method in [Method::Radial, Method::TrueSaddle] {
        assert!(setback(&sound, &mains, method, 0.3).is_some());
        for theta in [f64::NAN, f64::INFINITY] {
            assert_eq!(setback(&sound, &mains, method, theta), None);
        }
        for branch in [
            Branch {
                radius: 0.0,
                bore: 0.0,
            },
            Branch {
                radius: 1.0,
                bore: 1.0,
            },
            Branch {
                radius: -1.0,
                bore: -2.0,
            },
        ] {
            assert_eq!(setback(&branch, &mains, method, 0.3), None);
            assert!(end_cut(&branch, &mains, method).is_err());
        }
    }
}
