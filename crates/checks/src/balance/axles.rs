//! The line through the rear axles, about which a chair with free wheels goes over backward.
//!
//! Wheels that stand a little ahead of each other have a slanted line: what counts is how far ahead of it the centre of mass
//! is straight up the slope, at its own place across the chair.

use chairwright_design::{Design, Vec3};
use chairwright_frame::Settled;

/// The middles of the fixed wheels in the settled pose, from right to left.
#[derive(Clone, Debug)]
pub(super) struct Axles(Vec<Vec3>);

impl Axles {
    pub(super) fn new(design: &Design, settled: &Settled) -> Axles {
        let mut all: Vec<Vec3> = design.wheels.iter().map(|w| settled.pose.place(w.at)).collect();
        all.sort_by(|a, b| a.y.total_cmp(&b.y));
        Axles(all)
    }

    /// Their middle.
    pub(super) fn middle(&self) -> Vec3 {
        #[allow(clippy::cast_precision_loss)]
        let n = self.0.len().max(1) as f64;
        self.0.iter().fold(Vec3::ZERO, |s, at| s + *at) * (1.0 / n)
    }

    /// The point of the line so far to the left. Of more than two wheels the rearmost line counts, and beyond the outermost
    /// of them that wheel.
    pub(super) fn at(&self, y: f64) -> Vec3 {
        let between = |a: Vec3, b: Vec3| a.mix(b, (y - a.y) / (b.y - a.y));
        match self.0.as_slice() {
            [] => Vec3::ZERO,
            // drawn straight on, so that a mass outside of the wheels has its own share
            [a, b] if b.y - a.y > 1e-6 => between(*a, *b),
            all => {
                let pairs =
                    all.iter().enumerate().flat_map(|(i, a)| all[i + 1..].iter().map(move |b| (*a, *b)));
                let spans = pairs.filter(|(a, b)| a.y <= y && y <= b.y && b.y - a.y > 1e-6);
                let nearest = || all.iter().copied().min_by(|a, b| (a.y - y).abs().total_cmp(&(b.y - y).abs()));
                let rear = spans.map(|(a, b)| between(a, b)).min_by(|a, b| a.x.total_cmp(&b.x));
                rear.or_else(nearest).unwrap_or(Vec3::ZERO)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: the left wheel 48 mm back at 260 mm, the right one 48 mm ahead: 26 mm to the right of the middle, a tenth of the
    /// way to the right wheel, the line is 4.8 mm ahead.
    #[test]
    fn a_slanted_line_counts_where_the_weight_is() {
        let axles = Axles(vec![Vec3::new(0.048, -0.26, 0.3), Vec3::new(-0.048, 0.26, 0.3)]);
        assert!((axles.at(-0.026) - Vec3::new(0.0048, -0.026, 0.3)).norm() < 1e-12, "{:?}", axles.at(-0.026));
        assert!(axles.middle().x.abs() < 1e-12);
        // a bag outside of the right wheel, half as far out again
        assert!((axles.at(-0.39).x - 0.072).abs() < 1e-12);
    }

    /// A third wheel in the middle and 60 mm further back: half way from it to the left one the line is 30 mm back.
    #[test]
    fn of_three_wheels_the_rearmost_line_counts() {
        let axles =
            Axles(vec![Vec3::new(0.0, -0.26, 0.3), Vec3::new(-0.06, 0.0, 0.3), Vec3::new(0.0, 0.26, 0.3)]);
        assert!((axles.at(0.13).x + 0.03).abs() < 1e-12, "{:?}", axles.at(0.13));
        assert!(axles.at(0.4).x.abs() < 1e-12);
    }
}
