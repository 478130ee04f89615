//! Patterns of fitting, and whether members meet them under some rotation.

use chairwright_design::{FittingShape, Frame3, Vec3};

/// How far a pipe may point beside its port: one degree. Common practice, no source: a socket holds
/// a pipe to about half a degree, and two members share the error.
pub const ANGLE_TOLERANCE: f64 = std::f64::consts::PI / 180.0;

/// Directions of the ports; the first two of a tee, slip tee or cross are the run.
#[must_use]
pub fn port_directions(shape: FittingShape) -> Vec<Vec3> {
    let (x, y, z) = (Vec3::X, Vec3::Y, Vec3::Z);
    let half = std::f64::consts::FRAC_1_SQRT_2;
    match shape {
        FittingShape::Elbow90 => vec![x, y],
        // turning a run by 45 degrees leaves 135 degrees between the ports
        FittingShape::Elbow45 => vec![x, Vec3::new(-half, half, 0.0)],
        FittingShape::Tee | FittingShape::SlipTee => vec![x, -x, y],
        FittingShape::Cross => vec![x, -x, y, -y],
        FittingShape::Corner => vec![x, y, z],
        FittingShape::Coupling => vec![x, -x],
        FittingShape::Cap => vec![x],
        FittingShape::Bush => Vec::new(),
    }
}

/// Rays matched to ports: which ray each port takes, where the ports point then, and the worst
/// angle between a ray and its port.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Match {
    pub rays: Vec<usize>,
    pub turned: Vec<Vec3>,
    pub off: f64,
    pub worst: usize,
}

/// The best match of rays to ports over all rotations that align one pair of rays with its ports.
/// `allowed` says whether a ray may take a port. Of equally good ones the first is taken by where the rays point, so that the
/// order of the members in the text turns no fitting.
pub(crate) fn best_match(
    rays: &[Vec3],
    ports: &[Vec3],
    allowed: &dyn Fn(usize, usize) -> bool,
) -> Option<Match> {
    if rays.len() != ports.len() || rays.is_empty() || rays.len() > 6 {
        return None;
    }
    let mut place: Vec<usize> = (0..rays.len()).collect();
    place.sort_by_key(|ray| way(rays[*ray]));
    let sorted: Vec<Vec3> = place.iter().map(|ray| rays[*ray]).collect();
    let mut found = best_of(&sorted, ports, &|ray, port| allowed(place[ray], port))?;
    for ray in &mut found.rays {
        *ray = place[*ray];
    }
    Some(found)
}

/// Where a ray points, so that its mirror image comes at the same place but where both are at one joint.
fn way(ray: Vec3) -> [i64; 4] {
    // rounding decides nothing
    #[allow(clippy::cast_possible_truncation)]
    [ray.z, ray.x, ray.y.abs(), ray.y].map(|v| libm::round(v * 1e9) as i64)
}

fn best_of(rays: &[Vec3], ports: &[Vec3], allowed: &dyn Fn(usize, usize) -> bool) -> Option<Match> {
    let mut best: Option<Match> = None;
    for order in orders(rays.len()) {
        if !order.iter().enumerate().all(|(port, ray)| allowed(*ray, port)) {
            continue;
        }
        for found in rotations(rays, ports, &order) {
            if best.as_ref().is_none_or(|b| found.off < b.off - 1e-12) {
                best = Some(found);
            }
        }
    }
    best
}

fn rotations(rays: &[Vec3], ports: &[Vec3], order: &[usize]) -> Vec<Match> {
    let n = rays.len();
    let mut all = Vec::new();
    for i in 0..n {
        for j in 0..n {
            if i == j && n > 1 {
                continue;
            }
            if let Some(found) = rotation(rays, ports, order, i, j) {
                all.push(found);
            }
        }
    }
    all
}

/// Puts port `i` on its ray exactly and port `j` as near as the turn about it allows.
fn rotation(rays: &[Vec3], ports: &[Vec3], order: &[usize], i: usize, j: usize) -> Option<Match> {
    let (p, r) = (ports[i], rays[order[i]]);
    let (mut q, mut s) = (ports[j], rays[order[j]]);
    // in line or alone: any turn about the axis does
    if q.across(p).norm() < 1e-6 {
        q = p.any_across();
        s = r.any_across();
    } else if s.across(r).norm() < 1e-6 {
        s = r.any_across();
    }
    let (from, to) = (Frame3::from_two(p, q)?, Frame3::from_two(r, s)?);
    let turned: Vec<Vec3> = ports.iter().map(|v| to.turn(from.unturn(*v))).collect();
    let offs: Vec<f64> = turned.iter().zip(order).map(|(t, k)| t.angle_to(rays[*k])).collect();
    let worst = (0..offs.len()).max_by(|a, b| offs[*a].total_cmp(&offs[*b]))?;
    Some(Match { rays: order.to_vec(), turned, off: offs[worst], worst })
}

/// All orders of n things.
fn orders(n: usize) -> Vec<Vec<usize>> {
    if n == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for shorter in orders(n - 1) {
        for at in 0..n {
            let mut longer = shorter.clone();
            longer.insert(at, n - 1);
            all.push(longer);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turned_tee_is_found_and_a_bent_one_is_measured() {
        let r = Frame3::from_two(Vec3::new(1.0, 2.0, 0.5), Vec3::new(0.0, 1.0, 3.0)).unwrap();
        let rays = [r.turn(Vec3::Y), r.turn(-Vec3::X), r.turn(Vec3::X)];
        let any = |_: usize, _: usize| true;
        let found = best_match(&rays, &port_directions(FittingShape::Tee), &any).unwrap();
        assert!(found.off < 1e-9);
        let bent = [r.turn(Vec3::new(0.1, 1.0, 0.0)).unit().unwrap(), rays[1], rays[2]];
        let found = best_match(&bent, &port_directions(FittingShape::Tee), &any).unwrap();
        assert!((found.off - libm::atan(0.1)).abs() < 1e-9);
    }

    /// Half a degree beside an elbow's right angle either pipe may have its port in line: the same one in whatever order
    /// they are told, and the mirror image of it on the other side.
    #[test]
    fn the_order_of_the_rays_turns_no_fitting() {
        let ports = port_directions(FittingShape::Elbow90);
        let any = |_: usize, _: usize| true;
        let (s, c) = libm::sincos(0.5_f64.to_radians());
        let rays = [Vec3::new(s, c, 0.0), Vec3::X];
        let sum = |rays: &[Vec3]| {
            let found = best_match(rays, &ports, &any).unwrap();
            assert!((found.off - 0.5_f64.to_radians()).abs() < 1e-9);
            let off = |port: usize| found.turned[port].angle_to(rays[found.rays[port]]);
            assert!((0..2).all(|port| off(port) < found.off + 1e-9), "each port is told with its own ray");
            found.turned[0] + found.turned[1]
        };
        let one = sum(&rays);
        assert!((one - sum(&[rays[1], rays[0]])).norm() < 1e-12);
        assert!((one.mirrored() - sum(&rays.map(Vec3::mirrored))).norm() < 1e-12);
    }
}
