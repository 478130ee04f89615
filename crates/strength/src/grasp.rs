//! What a helper would take hold of: whatever looks like a handle is a load case.

use crate::load::deck;
use crate::structure::{Port, Structure};
use chairwright_design::{Design, SupportKind, Vec3};

/// Something that can be grasped, and where two hands would hold it.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Grasp {
    pub name: String,
    pub hands: Vec<Port>,
    /// Whether a helper also pushes the chair by it.
    pub pushed: bool,
}

pub(crate) fn grasps(design: &Design, all: &Structure) -> Vec<Grasp> {
    let behind = push_bar(design, all).or_else(|| back_tops(design, all));
    behind.into_iter().chain(front(design, all)).chain(footrest(design, all)).collect()
}

fn seat_middle(design: &Design, all: &Structure) -> Option<Vec3> {
    deck(design, all, SupportKind::Seat).map(|d| d.ends.0.mix(d.ends.1, 0.5))
}

/// The highest bar across, above and behind the middle of the seat.
fn push_bar(design: &Design, all: &Structure) -> Option<Grasp> {
    let seat = seat_middle(design, all)?;
    let across = all.frame_bars().filter(|(_, b)| {
        let m = b.at(b.length() / 2.0);
        b.way().y.abs() > 0.9 && m.z > seat.z + 0.2 && m.x < seat.x
    });
    let (bar, b) = across.max_by(|(_, a), (_, b)| a.ends.0.z.total_cmp(&b.ends.0.z))?;
    let hands = [0.2, 0.8].map(|s| Port { bar, at: b.length() * s }).to_vec();
    Some(Grasp { name: b.name.clone(), hands, pushed: true })
}

/// The highest end of a bar on each side, behind the middle of the seat.
fn back_tops(design: &Design, all: &Structure) -> Option<Grasp> {
    let seat = seat_middle(design, all)?;
    let top = |left: bool| {
        let mut best: Option<(f64, Port)> = None;
        for (bar, b) in all.frame_bars() {
            for (at, p) in [(0.0, b.ends.0), (b.length(), b.ends.1)] {
                let fits = (p.y > 0.0) == left && p.y.abs() > 0.05 && p.z > seat.z + 0.2 && p.x < seat.x;
                if fits && best.is_none_or(|(z, _)| p.z > z + 1e-6) {
                    best = Some((p.z, Port { bar, at }));
                }
            }
        }
        best.map(|b| b.1)
    };
    let hands = vec![top(true)?, top(false)?];
    Some(Grasp { name: "the tops of the back".to_owned(), hands, pushed: true })
}

/// The foremost end of a bar on each side, between foot support and seat.
fn front(design: &Design, all: &Structure) -> Option<Grasp> {
    let seat = seat_middle(design, all)?;
    let most = |left: bool| {
        let mut best: Option<(f64, Port)> = None;
        for (bar, b) in all.frame_bars() {
            for (at, p) in [(0.0, b.ends.0), (b.length(), b.ends.1)] {
                let fits = (p.y > 0.0) == left && p.y.abs() > 0.05 && p.z <= seat.z + 0.1 && p.x > seat.x;
                // of two as far forward, the higher is nearer to the hand
                let score = p.x + 0.01 * p.z;
                if fits && best.is_none_or(|(s, _)| score > s + 1e-6) {
                    best = Some((score, Port { bar, at }));
                }
            }
        }
        best.map(|b| b.1)
    };
    let hands = vec![most(true)?, most(false)?];
    Some(Grasp { name: "the front of the frame".to_owned(), hands, pushed: false })
}

/// The front edge of the foot support.
fn footrest(design: &Design, all: &Structure) -> Option<Grasp> {
    let d = deck(design, all, SupportKind::Footrest)?;
    let crate::structure::Carries::Sheet { across, .. } = &d.carries else { return None };
    let bar = *across.last()?;
    let length = all.bars[bar].length();
    let hands = [0.25, 0.75].map(|s| Port { bar, at: length * s }).to_vec();
    Some(Grasp { name: "the foot support".to_owned(), hands, pushed: false })
}
