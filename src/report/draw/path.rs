//! `Path`: lines and cubic curves, points.

/// One step of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// Lift the pen and go to.
    Move(f64, f64),
    /// A straight line to.
    Line(f64, f64),
    /// A cubic curve by two control points to its end.
    Curve(f64, f64, f64, f64, f64, f64),
    /// Back to the last `Move`.
    Close,
}

/// A path.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    /// Its steps.
    pub segments: Vec<Segment>,
}

/// Control distance of a quarter circle of radius 1: 4/3·(√2 − 1).
const QUARTER: f64 = 0.552_284_749_830_793_4;

impl Path {
    /// A straight line.
    pub fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Path {
        Path::polyline(&[(x0, y0), (x1, y1)])
    }

    /// An open run of straight lines.
    pub fn polyline(points: &[(f64, f64)]) -> Path {
        let segments = points.iter().enumerate().map(|(i, &(x, y))| match i {
            0 => Segment::Move(x, y),
            _ => Segment::Line(x, y),
        });
        Path {
            segments: segments.collect(),
        }
    }

    /// A closed polygon.
    pub fn polygon(points: &[(f64, f64)]) -> Path {
        let mut path = Path::polyline(points);
        path.segments.push(Segment::Close);
        path
    }

    /// A rectangle by its top-left corner.
    pub fn rect(x: f64, y: f64, w: f64, h: f64) -> Path {
        Path::polygon(&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)])
    }

    /// A circle (four cubic quarters; off a true circle by under 0.03 % of the radius).
    pub fn circle(cx: f64, cy: f64, r: f64) -> Path {
        let k = r * QUARTER;
        let q = |ax, ay, bx, by, x, y| {
            Segment::Curve(cx + ax, cy + ay, cx + bx, cy + by, cx + x, cy + y)
        };
        Path {
            segments: vec![
                Segment::Move(cx + r, cy),
                q(r, k, k, r, 0.0, r),
                q(-k, r, -r, k, -r, 0.0),
                q(-r, -k, -k, -r, 0.0, -r),
                q(k, -r, r, -k, r, 0.0),
                Segment::Close,
            ],
        }
    }

    /// Adds another path's steps.
    pub fn and(mut self, other: Path) -> Path {
        self.segments.extend(other.segments);
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rectangle_closes_and_a_circle_touches_its_four_points() {
        assert_eq!(Path::rect(1.0, 2.0, 3.0, 4.0).segments.len(), 5);
        let ends: Vec<(f64, f64)> = Path::circle(10.0, 20.0, 5.0)
            .segments
            .iter()
            .filter_map(|s| match *s {
                Segment::Curve(.., x, y) => Some((x, y)),
                _ => None,
            })
            .collect();
        assert_eq!(
            ends,
            [(10.0, 25.0), (5.0, 20.0), (10.0, 15.0), (15.0, 20.0)]
        );
    }
}
