//! Outlines of panels: whether an edge runs across another, and in which order the same corners make a sheet that can be sawn.

use chairwright_design::Vec3;

/// What counts as one place, m.
const SAME: f64 = 1e-5;
/// Corners whose orders are all tried: of more only the order around their middle.
const TRIED: usize = 7;

/// The first two edges that cross or touch, counted from one: each is named by the corner that it starts from.
pub(crate) fn crossed(corners: &[Vec3]) -> Option<(usize, usize)> {
    let n = corners.len();
    let edge = |i: usize| (corners[i], corners[(i + 1) % n]);
    let apart = |i: usize, j: usize| j > i + 1 && !(i == 0 && j == n - 1);
    let all = (0..n).flat_map(|i| (0..n).map(move |j| (i, j)));
    all.filter(|(i, j)| apart(*i, *j)).find(|(i, j)| meet(edge(*i), edge(*j))).map(|(i, j)| (i + 1, j + 1))
}

/// An order of the same corners, the first one first, in which no edge crosses another: around their middle, else the one of the
/// shortest way round.
pub(crate) fn order(corners: &[Vec3], normal: Vec3) -> Option<Vec<usize>> {
    let n = corners.len();
    #[allow(clippy::cast_precision_loss)]
    let middle = corners.iter().fold(Vec3::ZERO, |s, c| s + *c) * (1.0 / n.max(1) as f64);
    let first = (*corners.first()? - middle).unit()?;
    let turn = |k: &usize| {
        let v = corners[*k] - middle;
        let angle = libm::atan2(v.dot(normal.cross(first)), v.dot(first));
        if angle < -1e-9 { angle + 2.0 * std::f64::consts::PI } else { angle }
    };
    let mut around: Vec<usize> = (0..n).collect();
    around[1..].sort_by(|a, b| turn(a).total_cmp(&turn(b)));
    // the way round in which the second corner comes sooner
    let second = around.iter().position(|k| *k == 1).unwrap_or(0);
    if 2 * second > n {
        around[1..].reverse();
    }
    let plain = |order: &[usize]| crossed(&order.iter().map(|k| corners[*k]).collect::<Vec<_>>()).is_none();
    if plain(&around) {
        return Some(around);
    }
    if n > TRIED {
        return None;
    }
    let mut best: Option<(f64, Vec<usize>)> = None;
    each(&mut (0..n).collect::<Vec<_>>(), 1, &mut |order| {
        let way: f64 = (0..n).map(|k| (corners[order[(k + 1) % n]] - corners[order[k]]).norm()).sum();
        if best.as_ref().is_none_or(|b| way < b.0 - SAME) && plain(order) {
            best = Some((way, order.to_vec()));
        }
    });
    best.map(|b| b.1)
}

/// Every order of what stands from a place on.
fn each(order: &mut [usize], from: usize, see: &mut dyn FnMut(&[usize])) {
    if from + 1 >= order.len() {
        return see(order);
    }
    for k in from..order.len() {
        order.swap(from, k);
        each(order, from + 1, see);
        order.swap(from, k);
    }
}

/// Whether two edges of one plane come to one place: where both are straight, the nearest that they come is at a crossing or at an end.
fn meet(a: (Vec3, Vec3), b: (Vec3, Vec3)) -> bool {
    let near = |p: Vec3, (from, to): (Vec3, Vec3)| {
        let way = to - from;
        let along = if way.norm() > 0.0 { ((p - from).dot(way) / way.dot(way)).clamp(0.0, 1.0) } else { 0.0 };
        (p - from - way * along).norm() < SAME
    };
    if near(a.0, b) || near(a.1, b) || near(b.0, a) || near(b.1, a) {
        return true;
    }
    let normal = (a.1 - a.0).cross(b.1 - b.0);
    let side = |p: Vec3, (from, to): (Vec3, Vec3)| (to - from).cross(p - from).dot(normal);
    side(b.0, a) * side(b.1, a) < 0.0 && side(a.0, b) * side(a.1, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flat(places: &[(f64, f64)]) -> Vec<Vec3> {
        places.iter().map(|(x, y)| Vec3::new(*x, *y, 0.0)).collect()
    }

    /// A square is plain in its order and a bow in the other; six corners of which the last two are exchanged cross.
    #[test]
    fn bows_cross() {
        let square = flat(&[(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]);
        assert_eq!(crossed(&square), None);
        let bow = flat(&[(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)]);
        assert_eq!(crossed(&bow), Some((2, 4)));
        assert_eq!(order(&bow, Vec3::Z), Some(vec![0, 1, 3, 2]));
        let six = flat(&[(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0), (0.0, 2.0), (1.0, 2.0)]);
        assert!(crossed(&six).is_some());
        let found = order(&six, Vec3::Z).unwrap();
        assert_eq!(crossed(&found.iter().map(|k| six[*k]).collect::<Vec<_>>()), None);
    }

    /// A corner of an L that lies on another edge makes two sheets that hang together in a point.
    #[test]
    fn an_edge_that_touches_is_crossed() {
        let touched = flat(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (1.0, 0.0), (0.0, 2.0)]);
        assert_eq!(crossed(&touched), Some((1, 3)));
    }
}
