//! The slope that tips the chair by the way down, for several ways in which it may be used: worked out only for who asks.

use super::axles::Axles;
use super::lean;
use super::riding::{Scene, alone};
use super::swivel::{Contacts, Turning};
use super::{Loading, built, directions, moved, tip_angle};
use crate::Checked;
use crate::weigh::Mass;
use chairwright_design::{Design, Vec3};
use chairwright_frame::Frame;

/// One curve over the slope's direction.
#[derive(Clone, PartialEq, Debug)]
pub struct Curve {
    /// Its short name.
    pub name: &'static str,
    /// Slope in radians that tips the chair by the way down, every 5 degrees from straight ahead over the left; casters in their
    /// worst swivel.
    pub slopes: Vec<f64>,
}

/// Curves with the wheels locked and free, each the least of all that may ride along; locked with the rider alone, with all
/// that rides along (where something does), and with the rider leaning, the worst of ahead, back, left and right. Nothing
/// without a rider on wheels.
#[must_use]
pub fn curves(design: &Design, frame: &Frame, checked: &Checked) -> Vec<Curve> {
    let (Some(settled), Some(rider)) = (&checked.settled, &checked.rider) else { return Vec::new() };
    let segments: Vec<(f64, Vec3)> = rider.segments.iter().map(|s| (s.mass, s.centre)).collect();
    let axles = Axles::new(design, settled);
    let (bare, _) = alone(frame, settled, &segments);
    // what that finds wrong was told when the chair was checked
    let shifts =
        built::corrections(design, settled, bare.centre, axles.at(bare.centre.y), &mut Checked::default());
    let shifts = if shifts.is_empty() { vec![Vec3::ZERO] } else { shifts };
    let contacts = Contacts::new(design, settled);
    let tested = bare.mass;
    let (contacts, axles) = (&contacts, &axles);
    let worn = super::riding::worn(design, rider);
    let scene =
        Scene { design, frame, settled, contacts, axles, lap: true, worn: &worn, shifts: &shifts, tested };
    let directions = directions();
    let draw = |name: &'static str, loadings: &[&Loading], turning: Turning| {
        let loads: Vec<Mass> = loadings.iter().map(|l| l.total).collect();
        let stands = contacts.least(&loads, &directions, turning);
        Curve { name, slopes: stands.into_iter().map(|(t, h)| tip_angle(t, h)).collect() }
    };
    let all = moved(&scene.loadings(&rider.flesh()), &scene, true);
    let each: Vec<&Loading> = all.iter().collect();
    let (locked, free) = (Turning::default(), contacts.free());
    let mut out = vec![draw("locked", &each, locked), draw("free", &each, free)];
    let bare: Vec<&Loading> = each.iter().copied().filter(|l| l.with.is_empty()).collect();
    out.push(draw("rider alone", &bare, locked));
    if !design.carried.is_empty() {
        let most = each.last().map_or(String::new(), |l| l.with.clone());
        let full: Vec<&Loading> = each.iter().copied().filter(|l| l.with == most).collect();
        out.push(draw("with all that rides along", &full, locked));
    }
    let leaning = lean::every_way(&scene, rider);
    out.push(draw("leaning", &leaning.iter().collect::<Vec<_>>(), locked));
    out
}
