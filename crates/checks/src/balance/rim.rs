//! What a chair goes over: the outermost edges of its lower hull of contacts, each with the ground of the three wheels that it
//! stands on then.

use super::edge::Point;
use chairwright_design::{Caster, Vec3, Wheel};
use chairwright_frame::{Settled, caster_centre, lowest};
use std::f64::consts::FRAC_PI_2;

/// Times that contacts and ground are worked out in turn: each leaves the square of what the one before left.
const TURNS: usize = 4;

/// A wheel that stands somewhere, in the settled pose.
#[derive(Clone, Copy, Debug)]
pub(super) struct Roll {
    pub(super) centre: Vec3,
    pub(super) axle: Vec3,
    pub(super) radius: f64,
    pub(super) section: f64,
}

impl Roll {
    pub(super) fn fixed(wheel: &Wheel, settled: &Settled) -> Roll {
        let (centre, axle) = (settled.pose.place(wheel.at), settled.pose.turn(wheel.axle));
        Roll { centre, axle, radius: wheel.radius, section: (wheel.tyre / 2.0).min(wheel.radius * 0.9) }
    }

    /// Its lowest point towards a ground.
    pub(super) fn low(&self, n: Vec3) -> Vec3 {
        lowest(self.centre, self.axle, self.radius, self.section, n)
    }
}

/// A caster as it swivels, in the settled pose.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spin {
    pub(super) pivot: Vec3,
    pub(super) back: Vec3,
    pub(super) side: Vec3,
    pub(super) trail: f64,
    pub(super) radius: f64,
    pub(super) section: f64,
}

impl Spin {
    pub(super) fn new(caster: &Caster, settled: &Settled) -> Spin {
        let foot = caster.at - caster.stem * caster.drop;
        // the direction is told by a trail of its own, so that a wheel without trail has one as well
        let probe = Caster { trail: 1.0, ..caster.clone() };
        let way = |swivel: f64| settled.pose.turn(caster_centre(&probe, swivel) - foot);
        Spin {
            pivot: settled.pose.place(foot),
            back: way(0.0),
            side: way(FRAC_PI_2),
            trail: caster.trail,
            radius: caster.radius,
            section: (caster.width / 2.0).min(caster.radius * 0.9),
        }
    }

    /// The wheel at a swivel.
    pub(super) fn at(&self, swivel: f64) -> Roll {
        let (s, c) = libm::sincos(swivel);
        Roll {
            centre: self.pivot + (self.back * c + self.side * s) * self.trail,
            axle: self.side * c - self.back * s,
            radius: self.radius,
            section: self.section,
        }
    }
}

/// An edge of the outline, in the settled pose.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    at: Vec3,
    /// Square to it and along the ground, outward, of unit length.
    out: Vec3,
    /// Upward normal of the ground, of unit length.
    pub(super) up: Vec3,
    /// How much of a step ahead and of one to the left on the ground goes over it.
    way: Point,
    /// The three contacts that the chair stands on, those of the edge first.
    of: [usize; 3],
}

impl Edge {
    /// How far a point's foot is within the edge.
    pub(super) fn room(&self, point: Vec3) -> f64 {
        (self.at - point).dot(self.out)
    }

    /// The two contacts that it lies between, rear wheels first.
    pub(super) fn between(&self) -> [usize; 2] {
        [self.of[0], self.of[1]]
    }

    /// How high a point is above the ground.
    pub(super) fn height(&self, point: Vec3) -> f64 {
        (point - self.at).dot(self.up)
    }

    /// How much of a direction on the ground, ahead and to the left, goes over the edge.
    pub(super) fn toward(&self, (ahead, left): Point) -> f64 {
        ahead * self.way.0 + left * self.way.1
    }
}

/// Square to an edge along the ground, away from a third contact, of unit length.
fn outward(at: Vec3, to: Vec3, third: Vec3, up: Vec3) -> Option<Vec3> {
    let out = (to - at).cross(up).unit()?;
    Some(if (third - at).dot(out) > 0.0 { -out } else { out })
}

fn edge_with(at: Vec3, out: Vec3, up: Vec3, of: [usize; 3]) -> Edge {
    // a part in 1 - up.x² / 2 of what the chair's own axes on this ground give: made whole by its length
    let length = libm::sqrt((1.0 - up.x * up.x).max(1e-9));
    // forward = (X - up (X.up)) / length, left = up x forward; out has no part along up
    let way = (out.x / length, up.cross(Vec3::X).dot(out) / length);
    Edge { at, out, up, way, of }
}

fn edge(at: Vec3, to: Vec3, third: Vec3, up: Vec3, of: [usize; 3]) -> Option<Edge> {
    Some(edge_with(at, outward(at, to, third, up)?, up, of))
}

/// The upward normal of the ground on three points.
fn ground(a: Vec3, b: Vec3, c: Vec3) -> Option<Vec3> {
    let n = (b - a).cross(c - a);
    let size = n.norm();
    if size < 1e-6 {
        return None;
    }
    let n = n * (1.0 / size);
    let n = if n.z < 0.0 { -n } else { n };
    (n.z > 0.2).then_some(n)
}

/// Heights that differ by less are one, in metres.
const SAME: f64 = 1e-9;
/// Of more contacts than two wheels and four casters it is first looked whether they all stand on one ground.
const FEW: usize = 6;

/// The edges that a chair on these contacts can go over.
pub(super) fn rim(lows: &[Vec3], out: &mut Vec<Edge>) {
    match one_ground(lows) {
        Some(up) => outline(lows, up, out),
        None => hull(lows, out),
    }
}

/// The edges of the lower hull: every three contacts that all others are above, and of their sides the outermost.
fn hull(lows: &[Vec3], out: &mut Vec<Edge>) {
    let n = lows.len();
    for i in 0..n {
        for j in i + 1..n {
            for k in j + 1..n {
                let Some(up) = ground(lows[i], lows[j], lows[k]) else { continue };
                if any_but([i, j, k], lows, |p| (p - lows[i]).dot(up) < -SAME) {
                    continue;
                }
                for of in [[i, j, k], [j, k, i], [k, i, j]] {
                    let [at, to, third] = of.map(|l| lows[l]);
                    let Some(way) = outward(at, to, third, up) else { continue };
                    // most sides are an edge, or lie between two grounds: those are not worked out further
                    if any_but(of, lows, |p| (at - p).dot(way) < -SAME) {
                        continue;
                    }
                    let own = || edge_with(at, way, up, of);
                    out.push(if (at - third).dot(way) >= THIN { own() } else { steady(lows, own()) });
                }
            }
        }
    }
}

/// Whether any contact but three of them is so.
fn any_but([i, j, k]: [usize; 3], lows: &[Vec3], is: impl Fn(Vec3) -> bool) -> bool {
    lows.iter().enumerate().any(|(l, p)| l != i && l != j && l != k && is(*p))
}

/// The upward normal of the ground that many contacts all stand on, if they do.
fn one_ground(lows: &[Vec3]) -> Option<Vec3> {
    if lows.len() <= FEW {
        return None;
    }
    let wide = |p: &Vec3| (lows[1] - lows[0]).cross(*p - lows[0]).norm();
    let third = lows.iter().max_by(|p, q| wide(p).total_cmp(&wide(q)))?;
    let up = ground(lows[0], lows[1], *third)?;
    lows.iter().all(|p| (*p - lows[0]).dot(up).abs() <= SAME).then_some(up)
}

/// The edges of contacts on one ground: each pair once, with the contact furthest from it, and not with every third one.
fn outline(lows: &[Vec3], up: Vec3, out: &mut Vec<Edge>) {
    for i in 0..lows.len() {
        for j in i + 1..lows.len() {
            let Some(along) = (lows[j] - lows[i]).cross(up).unit() else { continue };
            let aside = |k: usize| (lows[k] - lows[i]).dot(along);
            let (mut least, mut most) = ((0.0, i), (0.0, i));
            for k in 0..lows.len() {
                let by = aside(k);
                least = if by < least.0 { (by, k) } else { least };
                most = if by > most.0 { (by, k) } else { most };
                if least.0 < -SAME && most.0 > SAME {
                    break;
                }
            }
            let (room, third) = if most.0 > -least.0 { most } else { (-least.0, least.1) };
            if room > SAME && (least.0 >= -SAME || most.0 <= SAME) {
                out.extend(edge(lows[i], lows[j], lows[third], up, [i, j, third]));
            }
        }
    }
}

/// A third contact nearer to an edge than this says nothing of how the ground lies, in metres. Common practice, no source: a
/// tyre's width.
const THIN: f64 = 0.03;

/// Three contacts hardly out of one line, casters abreast, say nothing of how the ground lies: the contact furthest from the edge
/// says it in the third one's place, where there is one that does.
fn steady(lows: &[Vec3], e: Edge) -> Edge {
    let [a, b, _] = e.of;
    let far = (0..lows.len()).max_by(|p, q| e.room(lows[*p]).total_cmp(&e.room(lows[*q])));
    let further = far.and_then(|far| {
        let up = ground(lows[a], lows[b], lows[far])?;
        edge(lows[a], lows[b], lows[far], up, [a, b, far])
    });
    further.unwrap_or(e)
}

/// An edge once more, with contacts where the wheels touch the ground of the three.
pub(super) fn again(rolls: &[Roll], edge_before: &Edge) -> Edge {
    let of = edge_before.of;
    let mut up = edge_before.up;
    let lows = |up: Vec3| of.map(|i| rolls[i].low(up));
    let mut at = lows(up);
    for _ in 0..TURNS {
        let [a, b, c] = at;
        let Some(next) = ground(a, b, c) else { return *edge_before };
        // another turn would change nothing
        if next == up {
            break;
        }
        up = next;
        at = lows(up);
    }
    let [a, b, c] = at;
    edge(a, b, c, up, of).unwrap_or(*edge_before)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two wheels and nine casters on a ground that falls a little, some of them abreast: each side of the outline is found as
    /// among all threes, and nothing else.
    #[test]
    fn many_contacts_on_one_ground_have_the_outline_of_their_hull() {
        let on = |x: f64, y: f64| Vec3::new(x, y, 0.02 * x - 0.01 * y);
        let mut lows = vec![on(0.0, 0.26), on(0.0, -0.26)];
        lows.extend((0..6).map(|k| on(0.4, f64::from(k) * 0.08 - 0.2)));
        lows.extend((0..3).map(|k| on(0.1 + 0.05 * f64::from(k), 0.1)));
        assert!(one_ground(&lows).is_some());
        let (mut few, mut all) = (Vec::new(), Vec::new());
        rim(&lows, &mut few);
        hull(&lows, &mut all);
        let com = Vec3::new(0.15, 0.03, 0.6);
        let same = |a: &Edge, b: &Edge| {
            a.between() == b.between()
                && (a.out - b.out).norm() < 1e-9
                && (a.up - b.up).norm() < 1e-9
                && (a.room(com) - b.room(com)).abs() < 1e-9
        };
        let turned = |e: &Edge| Edge { of: [e.of[1], e.of[0], e.of[2]], ..*e };
        let has = |list: &[Edge], e: &Edge| list.iter().any(|x| same(x, e) || same(&turned(x), e));
        assert!(few.iter().all(|e| has(&all, e)), "{few:?}");
        assert!(all.iter().all(|e| has(&few, e)), "{all:?}");
        // the rear, both sides and fifteen pairs abreast
        assert_eq!(few.len(), 18);
    }

    #[test]
    fn one_contact_in_the_air_makes_it_a_hull() {
        let mut lows: Vec<Vec3> =
            (0..8).map(|k| Vec3::new(0.1 * f64::from(k % 4), f64::from(k / 4), 0.0)).collect();
        assert!(one_ground(&lows).is_some());
        lows[5].z = 1e-6;
        assert!(one_ground(&lows).is_none());
    }
}
