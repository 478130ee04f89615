//! Repeatable numbers.

/// A sequence by a 64-bit linear congruence (Knuth's multiplier).
pub struct Random(pub u64);

impl Random {
    /// Between 0 and 1.
    pub fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Between two bounds.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }
}
