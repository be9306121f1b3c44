//! Drawings measured: bay lines and splices read back from the SVG, templates from the PDF.

use std::f64::consts::TAU;
use std::sync::OnceLock;

use crate::made;
use longpoint::check::CheckedPlan;
use longpoint::cope::setback;
use longpoint::gate::{End, branch_of, mains_of, method_of};
use longpoint::measure::{Length, MM};
use longpoint::part::CopeEnd;
use longpoint::report::paper::{Paper, elevations, set};

/// The number after `key` in a text.
fn number_after(text: &str, key: &str) -> f64 {
    let at = text.find(key).unwrap_or_else(|| panic!("{key} in {text}")) + key.len();
    let rest = &text[at..];
    let end = rest
        .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .unwrap_or(rest.len());
    rest[..end].parse().expect("a number")
}

/// Where paths of a class are drawn, millimetres from the latch end: by their first point and the
/// drawing's own scale, not by what the tag claims.
fn drawn(svg: &str, class: &str) -> Vec<f64> {
    let (x0, scale) = (
        number_after(svg, "data-x0=\""),
        number_after(svg, "data-mm-per-point=\""),
    );
    svg.split("<path ")
        .filter(|p| p.contains(&format!("class=\"{class}\"")))
        .map(|p| (number_after(p, "d=\"M") - x0) * scale)
        .collect()
}

/// Every demo week with the paper its shop prints on, made once.
fn plans() -> &'static [(&'static str, CheckedPlan, Paper)] {
    static PLANS: OnceLock<Vec<(&'static str, CheckedPlan, Paper)>> = OnceLock::new();
    PLANS.get_or_init(|| {
        let demos = [
            ("demo_us", Paper::Letter),
            ("demo_metric", Paper::A4),
            ("demo_small", Paper::Letter),
            ("demo_buying", Paper::A4),
        ];
        let made = |(name, paper)| (name, made::checked(&made::demo(name)), paper);
        demos.into_iter().map(made).collect()
    })
}

#[test]
fn bay_lines_and_splices_stand_where_the_plan_has_them() {
    let (mut lines, mut splices) = (0, 0);
    for (_, plan, _) in plans() {
        let found = lines_and_splices(plan);
        assert!(found.0 > 0, "{found:?}");
        (lines, splices) = (lines + found.0, splices + found.1);
    }
    assert!(lines > 120 && splices >= 8, "{lines} {splices}");
}

/// Bay lines and splices of a week read back and found; how many of each.
fn lines_and_splices(plan: &CheckedPlan) -> (usize, usize) {
    let svgs = elevations(plan);
    let (mut lines, mut splices) = (0, 0);
    for frame in &plan.take_off().frames {
        let mark = &plan.week().gates[frame.gate].mark;
        let name = format!("gate_{mark}.svg");
        let (_, svg) = svgs.iter().find(|(n, _)| *n == name).expect("its drawing");
        // A coordinate is written to 1/1000 pt.
        let tolerance = 0.0011 * number_after(svg, "data-mm-per-point=\"");
        let read = drawn(svg, "bay-line");
        assert_eq!(read.len(), frame.bay_lines.len());
        for (x, line) in read.iter().zip(&frame.bay_lines) {
            assert!(
                (x - line / MM).abs() <= tolerance,
                "{mark}: {x} {}",
                line / MM
            );
            lines += 1;
        }
        let read = drawn(svg, "splice");
        let part_of = |l: &&longpoint::plan::SplicedLine| {
            let part = &plan.take_off().parts[l.part];
            let flat = part.role != Some(longpoint::gate::Role::SwayBrace);
            part.gate == Some(frame.gate) && flat
        };
        let made = plan.plan().spliced.iter().filter(part_of);
        let wanted: Vec<f64> = made
            .flat_map(|l| &l.splices)
            .filter_map(|s| s.x.map(|x| x / MM))
            .collect();
        assert_eq!(read.len(), wanted.len(), "{mark}");
        for x in wanted {
            assert!(
                read.iter().any(|r| (r - x).abs() <= tolerance),
                "{mark} {x}"
            );
            splices += 1;
        }
    }
    (lines, splices)
}

#[test]
fn the_sway_brace_is_drawn_behind_and_from_above() {
    let found: Vec<usize> = plans().iter().map(|(_, plan, _)| braces(plan)).collect();
    // The small weeks have none, and none is drawn.
    assert_eq!(found, [1, 1, 0, 0]);
}

/// Sway braces of a week read back and found where they stand.
fn braces(plan: &CheckedPlan) -> usize {
    let svgs = elevations(plan);
    let mut braces = 0;
    for frame in &plan.take_off().frames {
        let mark = &plan.week().gates[frame.gate].mark;
        let name = format!("gate_{mark}.svg");
        let (_, svg) = svgs.iter().find(|(n, _)| *n == name).expect("its drawing");
        let tolerance = 0.0011 * number_after(svg, "data-mm-per-point=\"");
        let near = |read: &[f64], wanted: f64| {
            let wanted = wanted / MM;
            read.iter().any(|x| (x - wanted).abs() <= tolerance)
        };
        let Some(sway) = &frame.sway else {
            assert!(drawn(svg, "sway-brace").is_empty(), "{mark}");
            continue;
        };
        braces += 1;
        assert!(
            near(&drawn(svg, "sway-brace"), frame.bay_lines[0]),
            "{mark}"
        );
        let above = drawn(svg, "standoff-above");
        assert_eq!(above.len(), sway.standoffs.len());
        for (line, length) in &sway.standoffs {
            assert!(near(&above, frame.bay_lines[*line]), "{mark} line {line}");
            let shop = &plan.week().shop;
            let words = Length::nearest_mark(*length, shop.saw.mark).print(shop.units);
            assert!(
                svg.contains(&format!(" {}<", words.replace('"', "&quot;"))),
                "{words}"
            );
        }
    }
    braces
}

/// The streams of our PDF, unpacked.
fn streams(pdf: &[u8]) -> Vec<String> {
    let find = |from: usize, what: &[u8]| {
        let hit = pdf[from..].windows(what.len()).position(|w| w == what);
        hit.map(|at| from + at)
    };
    let (mut out, mut at) = (Vec::new(), 0);
    while let Some(start) = find(at, b"stream\n") {
        let start = start + 7;
        let end = find(start, b"\nendstream").expect("a stream ends");
        if let Ok(bytes) = miniz_oxide::inflate::decompress_to_vec_zlib(&pdf[start..end]) {
            out.extend(String::from_utf8(bytes));
        }
        at = end + 10;
    }
    out
}

/// Long open runs of lines in a content stream: the template curves, points.
fn curves(stream: &str) -> Vec<Vec<(f64, f64)>> {
    let mut out: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut stack: Vec<f64> = Vec::new();
    for token in stream.split_ascii_whitespace() {
        match (token, token.parse::<f64>()) {
            (_, Ok(n)) => {
                stack.push(n);
                continue;
            }
            ("m", _) if stack.len() == 2 => out.push(vec![(stack[0], stack[1])]),
            ("l", _) if stack.len() == 2 => {
                if let Some(run) = out.last_mut() {
                    run.push((stack[0], stack[1]));
                }
            }
            _ => {}
        }
        stack.clear();
    }
    out.retain(|run| run.len() > 500);
    out
}

/// Height of a drawn curve at x, points, between its two neighbouring points.
fn height_at(run: &[(f64, f64)], x: f64) -> f64 {
    let after = run.partition_point(|p| p.0 < x).clamp(1, run.len() - 1);
    let (a, b) = (run[after - 1], run[after]);
    let t = if b.0 > a.0 {
        (x - a.0) / (b.0 - a.0)
    } else {
        0.0
    };
    a.1 + t.clamp(0.0, 1.0) * (b.1 - a.1)
}

/// Every coped end of the week has a template in the PDF within 0.2 mm of its curve all the way round
/// (turned half round where the sheet says so).
#[test]
fn every_coped_end_has_a_true_template() {
    for (name, plan, paper) in plans() {
        let pdf = set(plan, *paper);
        let runs: Vec<Vec<(f64, f64)>> = streams(&pdf).iter().flat_map(|s| curves(s)).collect();
        assert!(runs.len() > 5, "{name}: {} templates", runs.len());
        let (ends, worst) = templates(plan, &runs);
        assert!(ends >= 20, "{name}: {ends} ends");
        eprintln!("{name}: {ends} ends, worst {worst:.4} mm");
    }
}

/// Every coped end of a week against the drawn curves: how many, and the worst of their best fits.
fn templates(plan: &CheckedPlan, runs: &[Vec<(f64, f64)>]) -> (usize, f64) {
    const POINT: f64 = 25.4 / 72.0;
    const LINES: u32 = 1440;
    let (mut ends, mut worst) = (0, 0.0_f64);
    for part in &plan.take_off().parts {
        for end in &part.ends {
            let CopeEnd::Coped(cope) = end else { continue };
            let branch = branch_of(plan.week(), part.pipe);
            let met = End {
                meets: cope.meets.clone(),
                capped: false,
            };
            let mains = mains_of(plan.week(), &met);
            let how = method_of(part.cut);
            // 0.1 mm paper, as the sheet says.
            let girth = TAU * (branch.radius / MM + 0.05);
            let s = |theta: f64| setback(&branch, &mains, how, theta).expect("it is coped") / MM;
            let angles = (0..LINES).map(|i| TAU * f64::from(i) / f64::from(LINES));
            let heights: Vec<f64> = angles
                .clone()
                .map(|t| cope.cut.s_short / MM - s(t))
                .collect();
            let off = |run: &Vec<(f64, f64)>, turn: f64| {
                let left = run[0].0;
                let low = run.iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
                let wide = (run[run.len() - 1].0 - left) * POINT;
                let mut off = (wide - girth).abs();
                for (t, h) in angles.clone().zip(&heights) {
                    if off > 0.2 {
                        return off;
                    }
                    let x = left + ((t + turn) % TAU) / TAU * girth / POINT;
                    off = off.max(((height_at(run, x) - low) * POINT - h).abs());
                }
                off
            };
            let best = runs
                .iter()
                .flat_map(|r| [off(r, 0.0), off(r, TAU / 2.0)])
                .fold(f64::INFINITY, f64::min);
            assert!(best <= 0.2, "{}: {best} mm", part.mark);
            worst = worst.max(best);
            ends += 1;
        }
    }
    (ends, worst)
}
