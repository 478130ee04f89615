//! Convex bodies by their support points, at rest or turned about an axis.

use chairwright_design::Vec3;
use chairwright_frame::{Solid, ears};

/// Something convex that can say which of its points lies furthest in a direction.
pub(crate) trait Support {
    /// A point furthest in a direction that need not be a unit vector.
    fn furthest(&self, toward: Vec3) -> Vec3;
    /// A point inside.
    fn middle(&self) -> Vec3;
}

/// The forms that solids are made of.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Form {
    /// The smallest convex body around points.
    Points(Vec<Vec3>),
    /// A flat-ended cylinder; a disc when `half` is zero.
    Cylinder {
        /// Unit axis.
        axis: Vec3,
        /// Half its length.
        half: f64,
        /// Its radius.
        radius: f64,
    },
    /// A box by its three half edges.
    Brick([Vec3; 3]),
    /// The smallest convex body around others.
    Around(Vec<Convex>),
}

/// A form with a skin of even thickness around it.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Convex {
    pub form: Form,
    /// Thickness of the skin: the radius of a tyre's section around its disc.
    pub skin: f64,
    /// A point inside.
    pub middle: Vec3,
    /// No point is further from the middle than this.
    pub radius: f64,
}

impl Convex {
    pub(crate) fn points(points: Vec<Vec3>, skin: f64) -> Convex {
        #[allow(clippy::cast_precision_loss)]
        let share = 1.0 / points.len().max(1) as f64;
        let middle = points.iter().fold(Vec3::ZERO, |s, p| s + *p) * share;
        let radius = points.iter().map(|p| (*p - middle).norm()).fold(0.0, f64::max) + skin;
        Convex { form: Form::Points(points), skin, middle, radius }
    }

    pub(crate) fn cylinder(middle: Vec3, axis: Vec3, half: f64, radius: f64) -> Convex {
        Convex {
            form: Form::Cylinder { axis, half, radius },
            skin: 0.0,
            middle,
            radius: libm::hypot(half, radius),
        }
    }

    /// A disc with a round edge: a wheel with its spokes taken as closed.
    pub(crate) fn disc(middle: Vec3, axis: Vec3, radius: f64, section: f64) -> Convex {
        let radius = (radius - section).max(0.0);
        let form = Form::Cylinder { axis, half: 0.0, radius };
        Convex { form, skin: section, middle, radius: radius + section }
    }

    pub(crate) fn around(parts: Vec<Convex>) -> Convex {
        #[allow(clippy::cast_precision_loss)]
        let share = 1.0 / parts.len().max(1) as f64;
        let middle = parts.iter().fold(Vec3::ZERO, |s, p| s + p.middle) * share;
        let radius = parts.iter().map(|p| (p.middle - middle).norm() + p.radius).fold(0.0, f64::max);
        Convex { form: Form::Around(parts), skin: 0.0, middle, radius }
    }

    pub(crate) fn moved(&self, by: Vec3) -> Convex {
        let form = match &self.form {
            Form::Points(all) => Form::Points(all.iter().map(|p| *p + by).collect()),
            Form::Around(all) => Form::Around(all.iter().map(|p| p.moved(by)).collect()),
            other => other.clone(),
        };
        Convex { form, middle: self.middle + by, ..*self }
    }

    pub(crate) fn turned(&self, by: &Turn) -> Convex {
        let form = match &self.form {
            Form::Points(all) => Form::Points(all.iter().map(|p| by.place(*p)).collect()),
            Form::Around(all) => Form::Around(all.iter().map(|p| p.turned(by)).collect()),
            Form::Brick(edges) => Form::Brick(edges.map(|e| by.turn(e))),
            Form::Cylinder { axis, half, radius } => {
                Form::Cylinder { axis: by.turn(*axis), half: *half, radius: *radius }
            }
        };
        Convex { form, middle: by.place(self.middle), ..*self }
    }

    /// Apart, so that what consists of no parts, as most do, is not held up by what calls itself.
    #[inline(never)]
    fn of_parts(&self, parts: &[Convex], toward: Vec3) -> Vec3 {
        pick(parts.iter().map(|c| c.furthest(toward)), toward, self.middle)
    }
}

impl Support for Convex {
    fn furthest(&self, toward: Vec3) -> Vec3 {
        let bare = match &self.form {
            Form::Cylinder { axis, half, radius } => {
                let along = axis.dot(toward);
                let out = toward - *axis * along;
                let end = if along < 0.0 { -*half } else { *half };
                let n = out.norm();
                let rim = if n > 1e-12 { out * (radius / n) } else { Vec3::ZERO };
                self.middle + *axis * end + rim
            }
            Form::Brick(edges) => {
                edges.iter().fold(self.middle, |at, e| if e.dot(toward) < 0.0 { at - *e } else { at + *e })
            }
            Form::Points(all) => pick(all.iter().copied(), toward, self.middle),
            Form::Around(all) => return self.of_parts(all, toward),
        };
        if self.skin == 0.0 {
            return bare;
        }
        let n = toward.norm();
        if n > 1e-15 { bare + toward * (self.skin / n) } else { bare }
    }

    fn middle(&self) -> Vec3 {
        self.middle
    }
}

fn pick(all: impl Iterator<Item = Vec3>, toward: Vec3, fallback: Vec3) -> Vec3 {
    let mut best = (f64::NEG_INFINITY, fallback);
    for p in all {
        let d = p.dot(toward);
        if d > best.0 {
            best = (d, p);
        }
    }
    best.1
}

/// A line that something turns about.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Axis {
    pub through: Vec3,
    /// Unit vector.
    pub along: Vec3,
}

impl Axis {
    /// The point of the axis that is nearest to another point.
    pub(crate) fn foot(&self, p: Vec3) -> Vec3 {
        self.through + self.along * (p - self.through).dot(self.along)
    }
}

/// A turn about an axis by an angle.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Turn {
    axis: Axis,
    sin: f64,
    cos: f64,
}

impl Turn {
    pub(crate) fn new(axis: Axis, angle: f64) -> Turn {
        let (sin, cos) = libm::sincos(angle);
        Turn { axis, sin, cos }
    }

    fn turn(&self, v: Vec3) -> Vec3 {
        let k = self.axis.along;
        let along = k * k.dot(v);
        along + (v - along) * self.cos + k.cross(v) * self.sin
    }

    pub(crate) fn place(&self, p: Vec3) -> Vec3 {
        self.axis.through + self.turn(p - self.axis.through)
    }
}

/// The smallest convex body around two others.
#[derive(Clone, Copy)]
pub(crate) struct Both<'a>(pub &'a Convex, pub &'a Convex);

impl Support for Both<'_> {
    fn furthest(&self, toward: Vec3) -> Vec3 {
        let (a, b) = (self.0.furthest(toward), self.1.furthest(toward));
        if a.dot(toward) >= b.dot(toward) { a } else { b }
    }
    fn middle(&self) -> Vec3 {
        self.0.middle.mix(self.1.middle, 0.5)
    }
}

/// The convex bodies that a solid consists of. A tube counts as a bar, a wheel as a closed disc; an
/// outline with a hollow corner is cut into triangles.
pub(crate) fn convex(solid: &Solid) -> Vec<Convex> {
    match solid {
        Solid::Bar { from, to, outer, .. } => {
            let axis = (*to - *from).unit().unwrap_or(Vec3::X);
            vec![Convex::cylinder(from.mix(*to, 0.5), axis, (*to - *from).norm() / 2.0, *outer)]
        }
        Solid::Brick { axes, half } => {
            let form = Form::Brick([axes.x * half.x, axes.y * half.y, axes.z * half.z]);
            vec![Convex { form, skin: 0.0, middle: axes.origin, radius: half.norm() }]
        }
        Solid::Prism { outline, along } => prism(outline, *along),
        Solid::Ring { centre, axle, radius, section, .. } => {
            vec![Convex::disc(*centre, *axle, *radius, *section)]
        }
    }
}

fn prism(outline: &[Vec3], along: Vec3) -> Vec<Convex> {
    let thick = |flat: &mut dyn Iterator<Item = Vec3>| {
        let points: Vec<Vec3> = flat.flat_map(|p| [p, p + along]).collect();
        Convex::points(points, 0.0)
    };
    if outline.len() < 4 || is_convex(outline, along) {
        return vec![thick(&mut outline.iter().copied())];
    }
    let triangles = ears(outline, along);
    triangles.iter().map(|t| thick(&mut t.iter().map(|i| outline[*i as usize]))).collect()
}

/// Whether an outline turns the same way at every corner.
fn is_convex(outline: &[Vec3], normal: Vec3) -> bool {
    let n = outline.len();
    let turn = |i: usize| {
        let (a, b, c) = (outline[i], outline[(i + 1) % n], outline[(i + 2) % n]);
        (b - a).cross(c - b).dot(normal)
    };
    (0..n).all(|i| turn(i) >= -1e-12) || (0..n).all(|i| turn(i) <= 1e-12)
}
