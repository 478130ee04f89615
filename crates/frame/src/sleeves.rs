//! Sleeves: what is cut for them, and those that are not to be had: two in one place, or over a fitting.

use crate::boards::{Part, bar, parts};
use crate::bodies::{Body, Group};
use crate::closing::Ends;
use crate::problem::Problem;
use crate::wood::axes;
use crate::{Cut, Frame, Piece};
use chairwright_design::{Design, Member, MemberId, Shape, Sleeve, Stock, Vec3};

/// Sleeves whose ends come this near to each other do not meet, m: a rounding of the text.
const ROUND: f64 = 1e-5;

/// The stretch of a member, so long and in pieces that are free of their sockets, that a sleeve over it covers, m from its start: it begins
/// and ends where the sockets at its ends let go, since a text cannot say but that it reaches to the joint.
#[must_use]
pub fn covers(sleeve: &Sleeve, length: f64, free: &[[f64; 2]]) -> [f64; 2] {
    let (low, high) = (sleeve.start.min(sleeve.end), sleeve.start.max(sleeve.end));
    let first = free.first().filter(|_| low <= ROUND).map_or(low, |f| low.max(f[0]));
    let last = free.last().filter(|_| high >= length - ROUND).map_or(high, |f| high.min(f[1]));
    [first, last]
}

/// Whether one round stock goes into another, and not over it.
#[must_use]
pub fn goes_into(host: &Stock, sleeve: &Stock) -> bool {
    gaps(host, sleeve).is_some_and(|(into, over)| into >= over)
}

pub(crate) fn sleeves(design: &Design, (id, member): (MemberId, &Member), ends: &Ends, frame: &mut Frame) {
    if member.sleeves.is_empty() {
        return;
    }
    let length = (design.joints[member.end].at - design.joints[member.start].at).norm();
    let free: Vec<[f64; 2]> = parts(length, ends, id).iter().map(out_of_sockets).collect();
    let own = &design.stocks[member.stock];
    let mut set: Vec<Set<'_>> = Vec::new();
    for (index, sleeve) in member.sleeves.iter().enumerate() {
        let stock = &design.stocks[sleeve.stock];
        let gap = gaps(own, stock).map(|(into, over)| into.max(over));
        if let Some(gap) = gap.filter(|g| *g < 0.0) {
            let origin = sleeve.origin;
            frame.problems.push(Problem::SleeveFit { origin, member: id, stock: sleeve.stock, gap });
            continue;
        }
        let inside = goes_into(own, stock);
        let whole = [sleeve.start.min(sleeve.end), sleeve.start.max(sleeve.end)];
        let lies = if inside { whole } else { covers(sleeve, length, &free) };
        let one = Set { sleeve, inside, lies };
        let over = over_fitting(design, (id, member), &one, (length, &free), frame);
        frame.problems.extend(over);
        frame.problems.extend(set.iter().find_map(|other| meets(design, id, other, &one)));
        cut(design, (id, member), (&one, index), ends, frame);
        set.push(one);
    }
}

/// A sleeve in its place.
struct Set<'a> {
    sleeve: &'a Sleeve,
    inside: bool,
    lies: [f64; 2],
}

fn out_of_sockets(part: &Part) -> [f64; 2] {
    [part.from + part.grip[0], part.to - part.grip[1]]
}

/// A sleeve over a member that meets a fitting before it ends.
fn over_fitting(
    design: &Design,
    (id, member): (MemberId, &Member),
    one: &Set<'_>,
    (length, free): (f64, &[[f64; 2]]),
    frame: &Frame,
) -> Option<Problem> {
    let [from, to] = one.lies;
    let at_start = one.sleeve.start.min(one.sleeve.end) <= ROUND;
    let stretch = if at_start { free.first() } else { free.last() };
    let stretch = stretch.copied().filter(|_| !one.inside)?;
    // a fitting that slips over the pipe without cutting it stands in the way as well
    let slipped = member.middle.iter().filter_map(|k| Some((k.along, reach(design, k.joint, frame)?)));
    let [first, last] = slipped.fold(stretch, |[a, b], (along, reach)| match at_start {
        true => [a, b.min(along - reach)],
        false => [a.max(along + reach), b],
    });
    let over = (to - last).max(first - from);
    let most = if at_start { last } else { length - first };
    (over > ROUND || to - from <= ROUND).then(|| Problem::SleeveOverFitting {
        origin: one.sleeve.origin,
        member: id,
        stock: one.sleeve.stock,
        over: over.max(0.0),
        most: if last - first > ROUND { most } else { 0.0 },
    })
}

/// How far the body of a fitting at a joint reaches from its middle, m.
fn reach(design: &Design, joint: chairwright_design::JointId, frame: &Frame) -> Option<f64> {
    let f = &design.fittings[frame.fittings.iter().find(|f| f.joint == joint && !f.bush)?.fitting];
    Some(f.take_out + design.sockets[f.socket].depth)
}

/// Two sleeves both in the bore, or both over the member, of which neither goes into the other.
fn meets(design: &Design, member: MemberId, first: &Set<'_>, second: &Set<'_>) -> Option<Problem> {
    let from = first.lies[0].max(second.lies[0]);
    let to = first.lies[1].min(second.lies[1]);
    if first.inside != second.inside || to - from <= ROUND {
        return None;
    }
    let (a, b) = (&design.stocks[first.sleeve.stock], &design.stocks[second.sleeve.stock]);
    let nested = gaps(a, b).is_some_and(|(into, over)| into.max(over) >= 0.0);
    (!nested).then_some(Problem::SleevesMeet {
        origin: second.sleeve.origin,
        other: first.sleeve.origin,
        member,
        stock: second.sleeve.stock,
        inside: second.inside,
        over: to - from,
    })
}

fn cut(
    design: &Design,
    (id, member): (MemberId, &Member),
    (one, index): (&Set<'_>, usize),
    ends: &Ends,
    frame: &mut Frame,
) {
    let (sleeve, [from, to]) = (one.sleeve, one.lies);
    if to <= from {
        return;
    }
    let stock = &design.stocks[sleeve.stock];
    let axes = axes(design, member);
    let shift = ends.shift[id.index()].unwrap_or(Vec3::ZERO);
    let at = |along: f64| axes.origin + axes.x * along + shift;
    let length = to - from;
    let name = format!("{}.sleeve_{}", member.name, index + 1);
    frame.bodies.push(Body {
        name: name.clone(),
        group: Group::Frame,
        mass: stock.mass_per_length() * length,
        centre: at(f64::midpoint(from, to)),
        solids: vec![bar(stock, &axes, at(from), at(to))],
        swivels: None,
    });
    frame.pieces.push(Piece {
        of: format!("{}.sleeve", member.name),
        name,
        side: member.side,
        stock: sleeve.stock,
        cut: Cut::Length(length),
        ends: match &sleeve.shim {
            Some(shim) => {
                format!(
                    "sleeve, both ends square; {shim} around both ends and the middle until nothing rattles"
                )
            }
            None => "sleeve, both ends square".to_owned(),
        },
        lies: None,
        holes: Vec::new(),
        origin: sleeve.origin,
    });
}

/// Worst-case gaps on the diameter of a second round section in the first, and over it: thickest wall and outside of each against the
/// other.
fn gaps(a: &Stock, b: &Stock) -> Option<(f64, f64)> {
    let round = |s: &Stock| match s.shape {
        Shape::Tube { outer, wall, .. } => Some((outer.high, outer.low - 2.0 * wall.high)),
        Shape::Rod { diameter } => Some((diameter, 0.0)),
        _ => None,
    };
    let ((out_a, bore_a), (out_b, bore_b)) = (round(a)?, round(b)?);
    Some((bore_a - out_b, bore_b - out_a))
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_design::{Id, Origin};

    /// A post of 463 mm between two elbows whose sockets hold it to 35 mm from each joint's middle, and cut at 245 mm by a tee from 210 to 280
    /// mm: a sleeve over it for 245 mm from its start covers 35 to 245 mm, which the tee then refuses.
    #[test]
    fn a_sleeve_over_a_post_begins_where_the_socket_ends() {
        let sleeve = |start, end| Sleeve { stock: Id::new(0), start, end, shim: None, origin: Origin(0) };
        let free = [[0.035, 0.210], [0.280, 0.428]];
        assert_eq!(covers(&sleeve(0.0, 0.245), 0.463, &free), [0.035, 0.245]);
        assert_eq!(covers(&sleeve(0.0, 0.463), 0.463, &free), [0.035, 0.428]);
        assert_eq!(covers(&sleeve(0.313, 0.463), 0.463, &free), [0.313, 0.428]);
    }
}
