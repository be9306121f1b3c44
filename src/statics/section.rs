//! `Section`: the round tube of one pipe, in inches.

/// Area, second moment and section modulus of a round tube. Inches; source: the annulus formulas
/// of any mechanics text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Outside diameter, in.
    pub od: f64,
    /// Wall, in; over 0 and at most half the OD.
    pub wall: f64,
}

impl Section {
    /// Inside diameter, in.
    fn bore(self) -> f64 {
        self.od - 2.0 * self.wall
    }

    /// A, in².
    pub fn area(self) -> f64 {
        std::f64::consts::PI / 4.0 * (self.od * self.od - self.bore() * self.bore())
    }

    /// I, in⁴.
    pub fn inertia(self) -> f64 {
        std::f64::consts::PI / 64.0 * (self.od.powi(4) - self.bore().powi(4))
    }

    /// S = 2I/OD, in³.
    pub fn modulus(self) -> f64 {
        2.0 * self.inertia() / self.od
    }

    /// Whether the tube has metal in it and is no thicker than a solid bar.
    pub fn is_sound(self) -> bool {
        self.od.is_finite() && self.wall > 0.0 && 2.0 * self.wall <= self.od
    }
}
