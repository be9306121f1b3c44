//! Copes against dense sampling, and against any numbers at all.

use std::f64::consts::{PI, TAU};

use longpoint::cope::{
    Branch, CopeFault, Main, Method, end_cut, same_profile, setback, wrap_template,
};
use proptest::prelude::*;

const LINES: u32 = 3600;

fn branch() -> impl Strategy<Value = Branch> {
    (0.4..2.0_f64, 0.02..0.35_f64).prop_map(|(radius, wall)| Branch {
        radius,
        bore: radius * (1.0 - wall),
    })
}

/// A main at least as large as the branch needs for every line to hit, offset within what is left.
fn big_main(radius: f64) -> impl Strategy<Value = Main> {
    (
        1.0..2.5_f64,
        0.3..2.8_f64,
        0.0..TAU,
        -1.0..1.0_f64,
        -1.0..1.0_f64,
    )
        .prop_map(move |(times, phi, beta, off, station)| Main {
            radius: radius * times,
            phi,
            beta,
            offset: off * radius * (times - 1.0),
            station,
        })
}

/// Any other main, smaller ones included: some lines may miss it.
fn any_main(radius: f64) -> impl Strategy<Value = Main> {
    (
        0.3..2.5_f64,
        0.3..2.8_f64,
        0.0..TAU,
        -1.5..1.5_f64,
        -1.0..1.0_f64,
    )
        .prop_map(move |(times, phi, beta, off, station)| Main {
            radius: radius * times,
            phi,
            beta,
            offset: off * radius,
            station,
        })
}

fn corner() -> impl Strategy<Value = (Branch, Vec<Main>)> {
    branch().prop_flat_map(|b| {
        let more = prop::collection::vec(any_main(b.radius), 0..3);
        (big_main(b.radius), more).prop_map(move |(first, mut rest)| {
            rest.insert(0, first);
            (b, rest)
        })
    })
}

fn method() -> impl Strategy<Value = Method> {
    prop_oneof![Just(Method::TrueSaddle), Just(Method::Radial)]
}

/// Least and largest setback over evenly spaced lines, and the steepest step between neighbours.
fn sampled(b: &Branch, mains: &[Main], method: Method) -> (f64, f64) {
    (0..LINES)
        .filter_map(|i| setback(b, mains, method, TAU * f64::from(i) / f64::from(LINES)))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), s| {
            (lo.min(s), hi.max(s))
        })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    /// The closed form is never inside the sampled extremes, and the sample comes close to it: a
    /// smooth extreme within a step squared, a sharp tip within the local slope of a step.
    #[test]
    fn closed_form_bounds_dense_sampling((b, mains) in corner(), method in method()) {
        let cut = end_cut(&b, &mains, method).expect("the first main is met by every line");
        let (lo, hi) = sampled(&b, &mains, method);
        prop_assert!(cut.s_long <= lo + 1e-9, "long {} sampled {lo}", cut.s_long);
        prop_assert!(cut.s_short >= hi - 1e-9, "throat {} sampled {hi}", cut.s_short);
        let step = TAU / f64::from(LINES);
        for (theta, value, extreme) in [
            (cut.theta_long, cut.s_long, lo),
            (cut.theta_short, cut.s_short, hi),
        ] {
            let near = [-step, step].map(|d| setback(&b, &mains, method, theta + d));
            let slack = near.iter().flatten().map(|s| (s - value).abs()).fold(1e-6, f64::max);
            prop_assert!((value - extreme).abs() <= 2.0 * slack, "{value} sampled {extreme} slack {slack}");
        }
        prop_assert!((cut.cutback - (cut.s_short - cut.s_long)).abs() < 1e-12);
    }

    /// Turning the clock turns the lines and changes nothing else; growing everything scales it.
    #[test]
    fn turning_and_scaling((b, mains) in corner(), method in method(), turn in 0.0..TAU, grow in 0.5..2000.0_f64) {
        let cut = end_cut(&b, &mains, method).expect("met");
        let turned: Vec<Main> = mains.iter().map(|m| Main { beta: m.beta + turn, ..*m }).collect();
        let other = end_cut(&b, &turned, method).expect("met");
        prop_assert!((cut.s_long - other.s_long).abs() < 1e-7);
        prop_assert!((cut.s_short - other.s_short).abs() < 1e-7);
        let big: Vec<Main> = mains.iter().map(|m| Main {
            radius: m.radius * grow, offset: m.offset * grow, station: m.station * grow, ..*m
        }).collect();
        let b2 = Branch { radius: b.radius * grow, bore: b.bore * grow };
        let other = end_cut(&b2, &big, method).expect("met");
        prop_assert!((cut.s_long * grow - other.s_long).abs() < 1e-7 * grow);
        prop_assert!((cut.s_short * grow - other.s_short).abs() < 1e-7 * grow);
    }

    /// A true saddle and a radial cut share the throat on one main; the radial long point is never
    /// the longer part.
    #[test]
    fn throats_agree_and_radial_is_shorter(b in branch(), times in 1.0..2.5_f64, phi in 0.3..2.8_f64) {
        let mains = [Main { radius: b.radius * times, phi, beta: 0.0, offset: 0.0, station: 0.0 }];
        let saddle = end_cut(&b, &mains, Method::TrueSaddle).expect("met");
        let radial = end_cut(&b, &mains, Method::Radial).expect("met");
        prop_assert!((saddle.s_short - radial.s_short).abs() < 1e-9);
        prop_assert!(radial.s_long >= saddle.s_long - 1e-9);
    }

    /// A single main with r + |e| > R is refused; one just large enough is not.
    #[test]
    fn refused_exactly_when_a_line_misses(b in branch(), phi in 0.3..2.8_f64, off in 0.0..0.5_f64, grow in -0.3..0.3_f64) {
        prop_assume!(grow.abs() > 1e-6);
        let offset = off * b.radius;
        let radius = (b.radius + offset) * (1.0 + grow);
        let mains = [Main { radius, phi, beta: 0.3, offset, station: 0.0 }];
        match end_cut(&b, &mains, Method::TrueSaddle) {
            Ok(_) => prop_assert!(grow > 0.0),
            Err(CopeFault::Misses { theta }) => {
                prop_assert!(grow < 0.0);
                prop_assert!(setback(&b, &mains, Method::TrueSaddle, theta).is_none());
            }
            Err(other) => prop_assert!(false, "{other:?}"),
        }
    }

    /// No numbers panic, and what comes back is finite.
    #[test]
    fn any_numbers_are_borne(
        n in prop::array::uniform8(prop_oneof![any::<f64>(), -10.0..10.0_f64, Just(0.0), Just(PI), Just(f64::NAN), Just(f64::INFINITY)]),
        m in prop::array::uniform5(prop_oneof![any::<f64>(), -10.0..10.0_f64, Just(0.0)]),
        method in method(),
        steps in 0..40_u32,
    ) {
        let b = Branch { radius: n[0], bore: n[1] };
        let mains = [
            Main { radius: n[2], phi: n[3], beta: n[4], offset: n[5], station: n[6] },
            Main { radius: m[0], phi: m[1], beta: m[2], offset: m[3], station: m[4] },
        ];
        if let Ok(cut) = end_cut(&b, &mains, method) {
            prop_assert!(cut.s_long.is_finite() && cut.s_short.is_finite());
            prop_assert!(cut.s_long <= cut.s_short);
        }
        let _ = setback(&b, &mains, method, n[7]);
        let _ = same_profile(&b, &mains[..1], &mains[1..], method, 1e-6);
        let _ = wrap_template(&b, &mains, method, n[7], 0.0, steps);
    }
}

#[test]
fn worked_values_of_the_references() {
    // Stated beside the reference files; 1.900 × 0.145 on 2.375 unless said.
    let light = Branch {
        radius: 0.95,
        bore: 0.805,
    };
    let on = |radius: f64, degrees: f64| {
        [Main {
            radius,
            phi: degrees.to_radians(),
            beta: 0.0,
            offset: 0.0,
            station: 0.0,
        }]
    };
    let cut = end_cut(&light, &on(1.1875, 90.0), Method::TrueSaddle).expect("met");
    for (got, want) in [
        (cut.s_long, 0.7125),
        (cut.s_short, 1.1875),
        (cut.cutback, 0.475),
    ] {
        assert!((got - want).abs() < 1e-12, "{got} for {want}");
    }
    assert!(!cut.feather);
    let radial = end_cut(&light, &on(1.1875, 90.0), Method::Radial).expect("met");
    assert!((radial.s_long - 0.8730).abs() < 5e-5);
    let heavy = Branch {
        radius: 1.1875,
        bore: 1.0335,
    };
    let equal = end_cut(&heavy, &on(1.1875, 90.0), Method::TrueSaddle).expect("met");
    assert_eq!(equal.s_long, 0.0);
    assert!(equal.feather && (equal.theta_long - PI / 2.0).abs() < 1e-12);
    let seated = end_cut(&heavy, &on(1.1875, 90.0), Method::Radial).expect("met");
    assert!((seated.s_long - 0.5848).abs() < 5e-5 && !seated.feather);
    let at60 = |offset: f64| {
        let mut mains = on(1.1875, 45.0);
        mains[0].offset = offset;
        setback(&light, &mains, Method::TrueSaddle, 60_f64.to_radians()).expect("met")
    };
    assert!((at60(0.0) - 1.6860).abs() < 5e-5 && (at60(0.2) - 1.9049).abs() < 5e-5);
    let large = Branch {
        radius: 1.4375,
        bore: 1.2345,
    };
    let cut = end_cut(&large, &on(2.25, 60.0), Method::TrueSaddle).expect("met");
    assert!((cut.s_long - 1.7309).abs() < 5e-5 && (cut.s_short - 3.4280).abs() < 5e-5);
    assert!((cut.theta_long.to_degrees() - 134.0431).abs() < 5e-5);
}

#[test]
fn a_corner_at_45_degrees_has_two_sharp_tips() {
    let b = Branch {
        radius: 0.95,
        bore: 0.805,
    };
    let main = |radius: f64, beta: f64| Main {
        radius,
        phi: PI / 4.0,
        beta,
        offset: 0.0,
        station: 0.0,
    };
    let mains = [main(1.1875, 0.0), main(0.95, PI)];
    let cut = end_cut(&b, &mains, Method::TrueSaddle).expect("met");
    assert!((cut.s_long - 0.7828).abs() < 5e-5);
    assert!((cut.theta_long.to_degrees() - 109.957).abs() < 5e-4);
    let other = setback(&b, &mains, Method::TrueSaddle, TAU - cut.theta_long).expect("met");
    assert!(
        (other - cut.s_long).abs() < 1e-9,
        "the other tip is as long"
    );
    let throats = [mains[0], mains[1]].map(|m| {
        let s = setback(&b, &[m], Method::TrueSaddle, m.beta).expect("met");
        (s * 1e4).round() / 1e4
    });
    assert_eq!(throats, [2.6294, 2.2935]);
}

#[test]
fn the_template_starts_at_the_throat_and_closes() {
    let b = Branch {
        radius: 0.95,
        bore: 0.805,
    };
    let mains = [Main {
        radius: 1.1875,
        phi: 1.0,
        beta: 0.0,
        offset: 0.1,
        station: 0.0,
    }];
    let plain = wrap_template(&b, &mains, Method::TrueSaddle, 0.01, 0.0, 72).expect("met");
    assert_eq!(plain.ordinates.len(), 73);
    assert!((plain.girth - TAU * 0.955).abs() < 1e-12);
    let (first, last) = (plain.ordinates[0], plain.ordinates[72]);
    assert!((first.height - last.height).abs() < 1e-12);
    assert!((last.x - plain.girth).abs() < 1e-12);
    assert!(
        plain
            .ordinates
            .iter()
            .all(|o| o.height > -1e-12 && o.height <= plain.cut.cutback + 1e-12)
    );
    let opened = wrap_template(&b, &mains, Method::TrueSaddle, 0.01, 0.03, 72).expect("met");
    assert_eq!(opened.ordinates, plain.ordinates);
    assert!((opened.cut.s_long - plain.cut.s_long - 0.03).abs() < 1e-12);
    assert!((opened.cut.cutback - plain.cut.cutback).abs() < 1e-12);
}
