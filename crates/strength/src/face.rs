//! The face that two pieces share: how far each of them reaches from its middle.

use crate::bar::{Bar, Of};
use crate::structure::Structure;
use chairwright_design::Vec3;

/// How a piece lies on the face: from the middle of it, in the directions of the face.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Lie {
    /// Along its fibres or axis; of one that is met end on, along the face.
    pub long: [f64; 2],
    /// Whether its fibres run on the face at all.
    pub grain: bool,
    /// How far it reaches on its nearer side, along `long` and across it, m; infinite where nobody knows.
    pub reach: [f64; 2],
}

impl Lie {
    /// Its own two directions.
    pub fn axes(&self) -> [[f64; 2]; 2] {
        [self.long, [-self.long[1], self.long[0]]]
    }

    /// Whether it runs along one of the directions of the face.
    pub fn straight(&self) -> bool {
        self.long[0].abs() < ASKEW || self.long[1].abs() < ASKEW
    }

    /// Whether its fibres run along a direction of the face.
    pub fn lengthwise(&self, axis: usize) -> bool {
        self.grain && self.long[axis].abs() > 0.7
    }
}

/// What two pieces share.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Face {
    /// Its middle.
    pub at: Vec3,
    /// Its sizes along and across, through the middle, m.
    pub size: [f64; 2],
    /// How each piece lies on it.
    pub lies: [Lie; 2],
}

/// An end so near to the joint stops there, m.
pub(crate) const AT_JOINT: f64 = 1e-3;
/// Sine of an angle below which a piece runs along a direction of the face: a degree and a half.
pub(crate) const ASKEW: f64 = 0.025;

/// From where to where something is along a direction, seen from a place, m.
type Span = (f64, f64);

/// A bar on a face of which the other bar's is known: whether it ends there and runs on over the whole of that.
struct On<'a> {
    all: &'a Structure,
    bar: &'a Bar,
    /// What it runs on over where it ends at the joint, as it is cut.
    over: Option<&'a Bar>,
}

impl On<'_> {
    fn span(&self, at: Vec3, e: Vec3) -> Span {
        let (low, high) = span(self.all, self.bar, at, e);
        let past = self.over.map_or(0.0, |o| o.half_along(e));
        let on = |end: f64| if end.abs() < AT_JOINT { past } else { 0.0 };
        (low - on(low), high + on(high))
    }

    /// Its own directions on the face, as shares of the face's: exactly these where it runs along one of them.
    fn long(&self, axes: [Vec3; 2]) -> ([f64; 2], bool) {
        let way = self.bar.way();
        let on = axes.map(|e| way.dot(e));
        let size = libm::hypot(on[0], on[1]);
        // met end on
        if size < 0.7 {
            return ([1.0, 0.0], false);
        }
        let [u, v] = on.map(|x| x / size);
        let sheet = matches!(self.bar.of, Of::Panel(_) | Of::Support(_));
        match (u.abs() < ASKEW, v.abs() < ASKEW) {
            (true, _) => ([0.0, 1.0], true),
            (_, true) => ([1.0, 0.0], true),
            // a sheet is looked at along the face
            _ if sheet && u.abs() > v.abs() => ([1.0, 0.0], true),
            _ if sheet => ([0.0, 1.0], true),
            _ => ([u, v], true),
        }
    }

    /// Where the axis of a round bar is that lies across a direction of the face: what goes through it goes through there.
    fn axis(&self, at: Vec3, axes: [Vec3; 2], axis: usize) -> Option<f64> {
        let (long, grain) = self.long(axes);
        let across = self.bar.form.is_round() && grain && long[axis].abs() < 0.7;
        across.then(|| {
            (self.bar.at(self.bar.nearest(at).0) - at).dot(axes[axis]) * f64::from(long[axis].abs() < ASKEW)
        })
    }

    fn lie(&self, at: Vec3, axes: [Vec3; 2]) -> Lie {
        let (long, grain) = self.long(axes);
        let mut lie = Lie { long, grain, reach: [0.0; 2] };
        let own = lie.axes();
        for (reach, e) in lie.reach.iter_mut().zip(own) {
            let (low, high) = self.span(at, axes[0] * e[0] + axes[1] * e[1]);
            *reach = high.min(-low).max(0.0);
        }
        lie
    }

    /// From where to where it is along a direction of the face; one that runs askew, between its own edges and ends.
    fn along(&self, at: Vec3, axes: [Vec3; 2], axis: usize) -> Span {
        let (long, _) = self.long(axes);
        let lie = Lie { long, grain: true, reach: [0.0; 2] };
        if lie.straight() {
            return self.span(at, axes[axis]);
        }
        let mut out = (f64::NEG_INFINITY, f64::INFINITY);
        for e in lie.axes() {
            let (low, high) = self.span(at, axes[0] * e[0] + axes[1] * e[1]);
            let (a, b) = (low / e[axis], high / e[axis]);
            out = (out.0.max(a.min(b)), out.1.min(a.max(b)));
        }
        out
    }
}

/// The face of two bars about a place on it, by its two directions. Of each bar `ends` says whether it runs on over the
/// whole of the other where it ends at the joint.
pub(crate) fn face(all: &Structure, bars: [&Bar; 2], at: Vec3, axes: [Vec3; 2], ends: [bool; 2]) -> Face {
    let on = [0, 1].map(|k| On { all, bar: bars[k], over: ends[k].then_some(bars[1 - k]) });
    let mut at = at;
    let mut size = [0.0; 2];
    for axis in 0..2 {
        let [a, b] = [0, 1].map(|k| on[k].along(at, axes, axis));
        let (low, high) = (a.0.max(b.0), a.1.min(b.1));
        size[axis] = (high - low).max(0.0);
        if let Some(middle) = on.iter().find_map(|o| o.axis(at, axes, axis)) {
            at += axes[axis] * middle;
        } else if low.is_finite() && high.is_finite() && high > low {
            at += axes[axis] * low.midpoint(high);
        }
    }
    Face { at, size, lies: [0, 1].map(|k| on[k].lie(at, axes)) }
}

fn span(all: &Structure, bar: &Bar, at: Vec3, e: Vec3) -> Span {
    let everywhere = (f64::NEG_INFINITY, f64::INFINITY);
    match bar.of {
        Of::Panel(k) => {
            let outline = all.outlines.iter().find(|(of, _)| *of == k).map(|(_, corners)| corners);
            outline.and_then(|corners| within(corners, at, e)).unwrap_or(everywhere)
        }
        Of::Support(k) => {
            let deck = all.decks.iter().find(|d| d.support == k);
            let corners = deck.map(|d| {
                let side = d.side * (d.width / 2.0);
                [d.ends.0 + side, d.ends.1 + side, d.ends.1 - side, d.ends.0 - side]
            });
            corners.and_then(|c| within(&c, at, e)).unwrap_or(everywhere)
        }
        Of::Member(_) | Of::Box(_) if bar.way().dot(e).abs() > 0.7 => {
            let (p, q) = ((bar.ends.0 - at).dot(e), (bar.ends.1 - at).dot(e));
            (p.min(q), p.max(q))
        }
        Of::Member(_) | Of::Box(_) => {
            let middle = (bar.at(bar.nearest(at).0) - at).dot(e);
            (middle - bar.half_along(e), middle + bar.half_along(e))
        }
    }
}

/// Where a line through a place is inside an outline, on either side of it; `None` where the place lies outside. A line
/// along an edge of the outline counts as inside only where it is.
fn within(corners: &[Vec3], at: Vec3, e: Vec3) -> Option<Span> {
    let normal = (0..corners.len()).fold(Vec3::ZERO, |sum, k| {
        sum + (corners[k] - corners[0]).cross(corners[(k + 1) % corners.len()] - corners[0])
    });
    let across = normal.unit()?.cross(e).unit()?;
    let flat = |p: Vec3| ((p - at).dot(e), (p - at).dot(across));
    let mut hits: Vec<f64> = Vec::new();
    for k in 0..corners.len() {
        let (a, b) = (flat(corners[k]), flat(corners[(k + 1) % corners.len()]));
        if (a.1 > 0.0) != (b.1 > 0.0) {
            hits.push(a.0 + (b.0 - a.0) * a.1 / (a.1 - b.1));
        }
    }
    let before = hits.iter().copied().filter(|x| *x <= 0.0);
    let after = hits.iter().copied().filter(|x| *x > 0.0);
    // an odd number of crossings on either side: inside
    let inside = before.clone().count() % 2 == 1 && after.clone().count() % 2 == 1;
    inside.then(|| (before.fold(f64::NEG_INFINITY, f64::max), after.fold(f64::INFINITY, f64::min)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::bar;

    /// A face of 45 mm boards that cross in the middle of each other, the first along x, in a plane square to z.
    fn crossed(degrees: f64) -> Face {
        let way = Vec3::new(libm::cos(degrees.to_radians()), libm::sin(degrees.to_radians()), 0.0);
        let form = Form::Flat { level: 0.045, upright: 0.045 };
        let bars =
            [bar(Vec3::X * -0.2, Vec3::X * 0.3, Vec3::Z, form), bar(way * -0.2, way * 0.2, Vec3::Z, form)];
        face(&Structure::default(), [&bars[0], &bars[1]], Vec3::ZERO, [Vec3::X, Vec3::Y], [false; 2])
    }

    /// Square to each other they share 45 mm by 45 mm, and reach 200 and 22.5 mm. At 60 degrees the second's edges cut the first's
    /// middle line 22.5/sin 60° = 25.98 mm on either side, 51.96 mm; across it its own half of 22.5 mm counts, as the second would
    /// reach 22.5/cos 60° = 45 mm there. Two and a half degrees askew are askew.
    #[test]
    fn boards_that_cross_askew() {
        let square = crossed(90.0);
        assert!((square.size[0] - 0.045).abs() < 1e-12 && (square.size[1] - 0.045).abs() < 1e-12, "{square:?}");
        assert!(
            (square.lies[0].reach[0] - 0.2).abs() < 1e-12 && (square.lies[1].reach[1] - 0.0225).abs() < 1e-12
        );
        assert!(square.lies[1].straight() && square.lies[1].lengthwise(1));
        let askew = crossed(60.0);
        assert!((askew.size[0] - 0.051_96).abs() < 1e-5 && (askew.size[1] - 0.045).abs() < 1e-9, "{askew:?}");
        assert!((askew.lies[1].reach[0] - 0.2).abs() < 1e-9 && (askew.lies[1].reach[1] - 0.0225).abs() < 1e-9);
        assert!(!askew.lies[1].straight() && askew.at.norm() < 1e-9);
        assert!(!crossed(2.5).lies[1].straight() && crossed(1.0).lies[1].straight());
    }

    /// A pipe's bolts go through its axis: a sheet that ends 5 mm past it leaves a face whose middle is there all the same.
    #[test]
    fn the_middle_of_a_pipe_is_its_axis() {
        let pipe = bar(Vec3::X * -0.2, Vec3::X * 0.2, Vec3::Z, Form::Tube { outer: 0.033, wall: 0.003 });
        let board = bar(Vec3::Y * -0.3, Vec3::Y * 0.005, Vec3::Z, Form::Flat { level: 0.06, upright: 0.012 });
        let f = face(&Structure::default(), [&pipe, &board], Vec3::ZERO, [Vec3::X, Vec3::Y], [false; 2]);
        assert!(f.at.norm() < 1e-12, "{f:?}");
        assert!((f.lies[1].reach[0] - 0.005).abs() < 1e-12, "{f:?}");
    }

    /// An outline like an L: 0.4 m by 0.3 m without its upper right quarter. A level line 0.1 m up runs 0.4 m, one 0.2 m up
    /// only 0.2 m.
    #[test]
    fn a_line_inside_of_an_outline() {
        let p = |x: f64, z: f64| Vec3::new(x, 0.0, z);
        let l = [p(0.0, 0.0), p(0.4, 0.0), p(0.4, 0.15), p(0.2, 0.15), p(0.2, 0.3), p(0.0, 0.3)];
        let at = |x, z| within(&l, p(x, z), Vec3::X);
        let near = |got: Option<Span>, want: Span| {
            let got = got.unwrap();
            assert!((got.0 - want.0).abs() < 1e-12 && (got.1 - want.1).abs() < 1e-12, "{got:?}");
        };
        near(at(0.1, 0.1), (-0.1, 0.3));
        near(at(0.1, 0.2), (-0.1, 0.1));
        assert_eq!(at(0.3, 0.2), None);
    }
}
