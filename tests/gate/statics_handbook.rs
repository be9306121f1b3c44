//! The frame solver against textbook beams and a truss.
//!
//! Sources, all from memory: AISC *Manual of Steel Construction*, "Beam diagrams and formulas"
//! (simple beam, cantilever, fixed ends with a load at any point, continuous beam of three equal
//! spans); the truss by the method of sections, as any statics text does it.

use longpoint::statics::{Bar, Node, Section, Structure};

const E: f64 = 29.0e6;
const PIPE: Section = Section {
    od: 2.375,
    wall: 0.154,
};
/// Load, lbf/in.
const Q: f64 = 0.75;

/// A straight beam with nodes at these x.
fn beam(at: &[f64], load: f64) -> Structure {
    let nodes = at.iter().map(|x| Node { x: *x, y: 0.0 }).collect();
    let bar = |i| Bar {
        from: i,
        to: i + 1,
        section: PIPE,
        load,
        pinned: false,
    };
    Structure::new(nodes, (0..at.len() - 1).map(bar).collect(), E)
}

/// Displacements under own load plus point loads (unknown, force).
fn solve(structure: &Structure, held: &[usize], points: &[(usize, f64)]) -> Vec<f64> {
    let mut load = structure.own_load();
    for (unknown, force) in points {
        load[*unknown] += force;
    }
    structure
        .solver(held)
        .expect("no mechanism")
        .solve(&mut load);
    load
}

fn near(ours: f64, book: f64) {
    assert!(
        (ours - book).abs() <= 1e-9 * book.abs().max(1e-3),
        "{ours} against {book}"
    );
}

#[test]
fn simple_beam_uniform_load() {
    let length = 120.0;
    let structure = beam(&[0.0, 60.0, 120.0], Q);
    let moved = solve(&structure, &[0, 1, 7], &[]);
    near(
        structure.inner(0, &moved, 60.0).moment,
        Q * length * length / 8.0,
    );
    near(structure.inner(0, &moved, 0.0).shear, Q * length / 2.0);
    near(
        moved[4],
        -5.0 * Q * length.powi(4) / (384.0 * E * PIPE.inertia()),
    );
}

#[test]
fn cantilever_uniform_load_and_end_load() {
    let length = 80.0;
    let structure = beam(&[0.0, length], Q);
    let moved = solve(&structure, &[0, 1, 2], &[(4, -50.0)]);
    near(
        structure.inner(0, &moved, 0.0).moment,
        -Q * length * length / 2.0 - 50.0 * length,
    );
    near(structure.inner(0, &moved, length).shear, 50.0);
    let flexural = E * PIPE.inertia();
    near(
        moved[4],
        -Q * length.powi(4) / (8.0 * flexural) - 50.0 * length.powi(3) / (3.0 * flexural),
    );
}

#[test]
fn three_equal_spans_uniform_load() {
    let span = 60.0;
    let structure = beam(&[0.0, span, 2.0 * span, 3.0 * span], Q);
    let moved = solve(&structure, &[0, 1, 4, 7, 10], &[]);
    let unit = Q * span * span;
    near(structure.inner(0, &moved, 0.4 * span).moment, 0.08 * unit);
    near(structure.inner(1, &moved, 0.5 * span).moment, 0.025 * unit);
    near(structure.inner(1, &moved, 0.0).moment, -0.10 * unit);
    near(structure.inner(2, &moved, 0.0).moment, -0.10 * unit);
    near(structure.inner(0, &moved, 0.0).shear, 0.4 * Q * span);
}

#[test]
fn fixed_ends_with_a_load_at_any_point() {
    let (a, b) = (25.0, 65.0);
    let length = a + b;
    let structure = beam(&[0.0, a, length], 0.0);
    let force = 400.0;
    let moved = solve(&structure, &[0, 1, 2, 6, 7, 8], &[(4, -force)]);
    near(
        structure.inner(0, &moved, 0.0).moment,
        -force * a * b * b / (length * length),
    );
    near(
        structure.inner(1, &moved, b).moment,
        -force * a * a * b / (length * length),
    );
    near(
        structure.inner(0, &moved, a).moment,
        2.0 * force * a * a * b * b / length.powi(3),
    );
    near(
        moved[4],
        -force * (a * b).powi(3) / (3.0 * E * PIPE.inertia() * length.powi(3)),
    );
}

/// Four panels of 50 in, 40 in deep, diagonals falling toward mid-span; 100 lbf on each inner
/// bottom node. A cut through panel 2 gives its three bars by one equation each.
#[test]
fn truss_by_sections() {
    let (panel, depth, force) = (50.0, 40.0, 100.0);
    let mut nodes = Vec::new();
    for i in 0..5 {
        let x = panel * f64::from(i);
        nodes.push(Node { x, y: 0.0 });
        nodes.push(Node { x, y: depth });
    }
    let mut bars = Vec::new();
    let mut bar = |from, to| {
        bars.push(Bar {
            from,
            to,
            section: PIPE,
            load: 0.0,
            pinned: true,
        });
        bars.len() - 1
    };
    let bottom: Vec<usize> = (0..4).map(|i| bar(2 * i, 2 * i + 2)).collect();
    let top: Vec<usize> = (0..4).map(|i| bar(2 * i + 1, 2 * i + 3)).collect();
    let uprights: Vec<usize> = (0..5).map(|i| bar(2 * i, 2 * i + 1)).collect();
    let slanted: Vec<usize> = [(1, 2), (3, 4), (4, 7), (6, 9)]
        .map(|(a, b)| bar(a, b))
        .to_vec();
    let structure = Structure::new(nodes, bars, E);
    let turns = (0..10).map(|node| 3 * node + 2);
    let held: Vec<usize> = [0, 1, 25].into_iter().chain(turns).collect();
    let moved = solve(
        &structure,
        &held,
        &[(7, -force), (13, -force), (19, -force)],
    );
    let axial = |bar: usize| structure.inner(bar, &moved, 0.0).axial;
    let reaction = 1.5 * force;
    near(axial(bottom[1]), reaction * panel / depth);
    near(axial(top[1]), -(2.0 * reaction - force) * panel / depth);
    near(axial(uprights[1]), -(reaction - force));
    near(
        axial(slanted[1]),
        (reaction - force) * panel.hypot(depth) / depth,
    );
}
