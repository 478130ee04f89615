//! What stands near what: open gaps between parts, in slices where parts are long.

use crate::clear::convex::{Convex, Form, Support};
use crate::clear::depth::Gap;
use crate::clear::distance::{Apart, apart};
use crate::clear::fingers::TOUCH;
use chairwright_design::Vec3;

/// The gap between two parts as far as `enough` reaches; `None` where they overlap, however deep.
pub(super) fn open(p: &Convex, q: &Convex, enough: f64) -> Option<Gap> {
    match apart(p, q, enough) {
        Apart::By { least, on } => Some(Gap { size: least, on }),
        Apart::Overlap(_) => None,
    }
}

/// Corners of the box along the axes that a part stands in.
pub(super) fn bounds(part: &Convex) -> [Vec3; 2] {
    let to = |way: Vec3| part.furthest(way);
    let most = Vec3::new(to(Vec3::X).x, to(Vec3::Y).y, to(Vec3::Z).z);
    let least = Vec3::new(to(-Vec3::X).x, to(-Vec3::Y).y, to(-Vec3::Z).z);
    [least, most]
}

/// Whether a point lies inside some part.
pub(super) fn filled<'p>(parts: impl IntoIterator<Item = &'p Convex>, at: Vec3) -> bool {
    let dot = Convex::points(vec![at], TOUCH);
    let mut near = parts.into_iter().filter(|p| (p.middle - at).norm() <= p.radius + TOUCH);
    near.any(|p| open(p, &dot, TOUCH).is_none_or(|g| g.size <= 0.0))
}

/// A long part in slices, so that a gap is found where it is open and not only where a fitting fills it.
pub(super) fn slices(part: &Convex) -> Vec<Convex> {
    const COUNT: usize = 6;
    let at = |k: usize| {
        #[allow(clippy::cast_precision_loss)]
        let share = (k as f64 + 0.5) / COUNT as f64;
        share * 2.0 - 1.0
    };
    #[allow(clippy::cast_precision_loss)]
    let n = COUNT as f64;
    match &part.form {
        Form::Cylinder { axis, half, radius } if *half > *radius => (0..COUNT)
            .map(|k| Convex::cylinder(part.middle + *axis * (at(k) * half), *axis, half / n, *radius))
            .collect(),
        Form::Brick(edges) => {
            let long = (0..3).max_by(|a, b| edges[*a].norm().total_cmp(&edges[*b].norm())).unwrap_or(0);
            let mut short = *edges;
            short[long] = edges[long] * (1.0 / n);
            let brick = |k: usize| Convex {
                form: Form::Brick(short),
                middle: part.middle + edges[long] * at(k),
                ..part.clone()
            };
            (0..COUNT).map(brick).collect()
        }
        Form::Points(points) => grid(part, points),
        _ => vec![part.clone()],
    }
}

/// A plate in pieces: its outline shrunk towards each corner and towards the middle, as thick as it is. The
/// points of a plate come in pairs, one of each face.
fn grid(part: &Convex, points: &[Vec3]) -> Vec<Convex> {
    const SIZE: f64 = 0.35;
    let outline: Vec<&[Vec3]> = points.chunks(2).collect();
    let toward = |p: Vec3, thick: Vec3| {
        let piece = |pair: &&[Vec3]| {
            let q = p.mix(pair[0], SIZE);
            [q, q + thick]
        };
        Convex::points(outline.iter().flat_map(piece).collect(), part.skin)
    };
    let Some([first, second]) = points.get(..2).and_then(|p| <[Vec3; 2]>::try_from(p).ok()) else {
        return vec![part.clone()];
    };
    let thick = second - first;
    let middle = part.middle - thick * 0.5;
    outline.iter().map(|pair| toward(pair[0], thick)).chain([toward(middle, thick)]).collect()
}
