//! Things that are held together by two statements: each puts its fasteners in the middle of the face that both share, where the other's
//! are.

use crate::Frame;
use crate::problem::Problem;
use chairwright_design::{ClosingKind, Design, Fastening, Origin};

/// Two names in either order, how they are held, and where the text says it.
struct Held<'a> {
    pair: [&'a str; 2],
    fasteners: &'a [(String, u32)],
    origin: Origin,
}

pub(crate) fn fastened(design: &Design, frame: &mut Frame) {
    let mut seen: Vec<Held<'_>> = closings(design);
    for f in &design.fastenings {
        let pair = sorted(&f.what, &f.to);
        if let Some(first) = seen.iter().find(|h| h.pair == pair) {
            frame.problems.push(twice(f, first));
        } else {
            seen.push(Held { pair, fasteners: &f.fasteners, origin: f.origin });
        }
    }
}

fn twice(f: &Fastening, first: &Held<'_>) -> Problem {
    let names = |list: &[(String, u32)]| list.iter().map(|(n, _)| n.clone()).collect::<Vec<_>>();
    let count = |list: &[(String, u32)]| list.first().map(|(_, n)| *n);
    let alike = names(first.fasteners) == names(&f.fasteners);
    let together = count(first.fasteners).zip(count(&f.fasteners)).filter(|_| alike);
    Problem::FastenedTwice {
        origin: f.origin,
        first: first.origin,
        what: f.what.clone(),
        to: f.to.clone(),
        together: together.map(|(a, b)| a + b),
    }
}

fn sorted<'a>(a: &'a str, b: &'a str) -> [&'a str; 2] {
    if a <= b { [a, b] } else { [b, a] }
}

/// Members that a lap, butt or gusset holds together: their faces are those that a fastening of the two goes through.
fn closings(design: &Design) -> Vec<Held<'_>> {
    let mut out = Vec::new();
    for c in &design.closings {
        let member = match &c.kind {
            ClosingKind::Lap(lap) => lap.member,
            ClosingKind::Butt { member, .. } | ClosingKind::Gusset { member, .. } => *member,
            ClosingKind::Fitting(_) | ClosingKind::Free(_) => continue,
        };
        let here = |m: &chairwright_design::Member| {
            m.start == c.joint || m.end == c.joint || m.middle.iter().any(|k| k.joint == c.joint)
        };
        for (_, other) in design.members.iter().filter(|(id, m)| *id != member && here(m)) {
            let pair = sorted(&design.members[member].name, &other.name);
            out.push(Held { pair, fasteners: &c.fasteners, origin: c.origin });
        }
    }
    out
}
