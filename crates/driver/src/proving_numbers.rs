//! Quantities of the test sheet as a builder reads them off, rounded toward the safe side.

use chairwright_quantity::{Dimension, Display, Quantity};

/// Quantities in the units of the design; what must not be less is rounded up, what must not be more down.
pub(crate) struct Numbers(pub Display);

impl Numbers {
    /// Without noughts behind the point that nobody reads off a tape.
    pub(crate) fn text(&self, si: f64, d: Dimension) -> String {
        let p = self.0.pieces(Quantity::from_si(si, d));
        let number = match p.number.contains('.') {
            true => p.number.trim_end_matches('0').trim_end_matches('.'),
            false => p.number.as_str(),
        };
        format!("{number} {}", p.unit)
    }

    /// The finest step that a quantity is printed in, SI.
    fn step(&self, d: Dimension) -> f64 {
        let inch = self.0.is_inch();
        match (d, self.0) {
            (Dimension::LENGTH, Display::Fraction(n)) => 0.0254 / f64::from(n.max(1)),
            (Dimension::LENGTH, _) if inch => 0.000_254,
            (Dimension::LENGTH, _) => 1e-4,
            (Dimension::ANGLE, _) => 0.1_f64.to_radians(),
            (Dimension::MASS, _) if inch => 0.045_359_237,
            (Dimension::MASS, _) => 0.1,
            (Dimension::FORCE, _) if inch => 0.444_822_161_526_05,
            (Dimension::SPEED, _) => 0.1,
            _ => 1.0,
        }
    }

    /// A least value that is never printed as less.
    pub(crate) fn up(&self, si: f64, d: Dimension) -> String {
        let step = self.step(d);
        self.text((si / step - 1e-6).ceil() * step, d)
    }

    /// A greatest value that is never printed as more.
    pub(crate) fn down(&self, si: f64, d: Dimension) -> String {
        let step = self.step(d);
        self.text((si / step + 1e-6).floor() * step, d)
    }

    pub(crate) fn length(&self, si: f64) -> String {
        self.text(si, Dimension::LENGTH)
    }

    pub(crate) fn length_up(&self, si: f64) -> String {
        self.up(si, Dimension::LENGTH)
    }

    pub(crate) fn mass(&self, si: f64) -> String {
        self.text(si, Dimension::MASS)
    }

    pub(crate) fn mass_up(&self, si: f64) -> String {
        self.up(si, Dimension::MASS)
    }

    pub(crate) fn angle_up(&self, si: f64) -> String {
        self.up(si, Dimension::ANGLE)
    }

    pub(crate) fn force(&self, si: f64) -> String {
        self.up(si, Dimension::FORCE)
    }

    pub(crate) fn speed(&self, si: f64) -> String {
        self.text(si, Dimension::SPEED)
    }
}
