//! From where the chair is seen, and the bounds of what is drawn.

use chairwright_design::Vec3;

/// From where the chair is seen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum View {
    /// From the rider's right, forward to the right.
    Side,
    /// From ahead.
    Front,
    /// From above, forward to the right.
    Top,
    /// Slantwise from ahead and above, on the rider's right; parallel lines stay parallel.
    Corner,
}

/// Where the eye is in the slanting view: forward, left, up.
const CORNER: Vec3 = Vec3 { x: 0.50, y: -0.74, z: 0.45 };

impl View {
    pub(crate) fn title(self) -> &'static str {
        match self {
            View::Side => "side view, from the rider's right",
            View::Front => "front view",
            View::Top => "top view, forward to the right",
            View::Corner => "from ahead and above, on the rider's right",
        }
    }

    /// Picture coordinates in mm (right, down) and the nearness to the eye.
    pub(crate) fn project(self, p: Vec3) -> ((f64, f64), f64) {
        let mm = |v: f64| v * 1e3;
        match self {
            View::Side => ((mm(p.x), -mm(p.z)), -mm(p.y)),
            View::Front => ((mm(p.y), -mm(p.z)), mm(p.x)),
            View::Top => ((mm(p.x), -mm(p.y)), mm(p.z)),
            View::Corner => {
                let eye = self.eye();
                let right = Vec3::Z.cross(eye).unit().unwrap_or(Vec3::X);
                let up = eye.cross(right);
                ((mm(p.dot(right)), -mm(p.dot(up))), mm(p.dot(eye)))
            }
        }
    }

    /// Towards the eye.
    pub(crate) fn eye(self) -> Vec3 {
        match self {
            View::Side => -Vec3::Y,
            View::Front => Vec3::X,
            View::Top => Vec3::Z,
            View::Corner => CORNER.unit().unwrap_or(Vec3::Z),
        }
    }
}

pub(crate) type Point = (f64, f64);

#[derive(Clone, Copy)]
pub(crate) struct Bounds {
    pub low: Point,
    pub high: Point,
}

impl Default for Bounds {
    fn default() -> Bounds {
        Bounds { low: (f64::INFINITY, f64::INFINITY), high: (f64::NEG_INFINITY, f64::NEG_INFINITY) }
    }
}

impl Bounds {
    pub(crate) fn take(&mut self, p: Point) {
        self.low = (self.low.0.min(p.0), self.low.1.min(p.1));
        self.high = (self.high.0.max(p.0), self.high.1.max(p.1));
    }
    pub(crate) fn is_empty(&self) -> bool {
        self.low.0 > self.high.0
    }
    pub(crate) fn width(&self) -> f64 {
        self.high.0 - self.low.0
    }
    pub(crate) fn height(&self) -> f64 {
        self.high.1 - self.low.1
    }
}

/// A text between tags.
pub(crate) fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
