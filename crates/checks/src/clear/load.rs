//! What a wheel carries against what it is rated for, and how its axle holds it.

use crate::assumed::Assumed;
use crate::clear::trouble::Trouble;
use crate::clear::wheels::axle_of;
use crate::figure::Figures;
use crate::sizes::ROCK;
use crate::weigh::Mass;
use chairwright_design::{Design, ItemKind, Origin, Vec3, Wheel};
use chairwright_frame::{Contact, Settled};
use chairwright_quantity::Dimension;

const L: Dimension = Dimension::LENGTH;
const M: Dimension = Dimension::MASS;
const STATICS: &str = "rigid body statics on level ground";
/// What a kerb or a stone makes of the load. Common practice, no source.
const SHOCK: f64 = 3.0;
/// Hub and receiver may miss the axle's usable length by its adjuster. Common practice, no source.
const ADJUSTER: f64 = 0.002;

/// Loads and ratings, the most that any way of loading the chair puts on a wheel; of a design without a rider nothing is known.
pub(crate) fn loads(
    design: &Design,
    settled: &Settled,
    loadings: &[(String, Mass)],
    figures: &mut Figures,
    troubles: &mut Vec<Trouble>,
) {
    let (Some(total), Some(full)) = (figures.si("mass.total"), loadings.last()) else { return };
    // what the built chair was found to weigh more than its plan
    let heavier = total - full.1.mass;
    for runner in runners(design) {
        let of_all =
            |m: &Mass| (axle_share(settled, runner.caster, m), side_share(settled, &runner, m.centre.y));
        let three = |m: &Mass| of_three(settled, &runner, m);
        let of = |m: &Mass| three(m).map_or_else(|| of_all(m), |share| (share, 1.0));
        let on_it = |m: &Mass| (m.mass + heavier) * of(m).0 * of(m).1;
        let Some((with, most)) = loadings.iter().max_by(|a, b| on_it(&a.1).total_cmp(&on_it(&b.1))) else {
            return;
        };
        let load = on_it(most);
        let those = if three(most).is_some() {
            "share on it of the three that carry"
        } else if runner.caster {
            "share on the casters"
        } else {
            "share on the rear wheels"
        };
        let inputs = [
            ("mass", most.mass + heavier, M),
            (those, of(most).0, Dimension::NUMBER),
            ("share of this side", of(most).1, Dimension::NUMBER),
        ];
        let with = if with.is_empty() { String::new() } else { format!(", with {with}") };
        let formula =
            format!("mass x {those} x share of this side, from the centre of mass between the wheels{with}");
        let kind = if runner.caster { "caster" } else { "wheel" };
        figures.put(format!("{kind}.load.{}", runner.name), (load, M), formula, STATICS, &inputs);
        let short = runner.rated.map(|r| r < load * SHOCK - 1e-9);
        if short == Some(true) || (short.is_none() && !design.name.is_empty()) {
            troubles.push(Trouble::Overloaded {
                wheel: runner.name.to_owned(),
                caster: runner.caster,
                origin: runner.origin,
                load,
                shock: SHOCK,
                rated: runner.rated,
            });
        }
    }
}

/// What runs on the ground and has a rating.
struct Runner<'a> {
    caster: bool,
    index: usize,
    name: &'a str,
    origin: Origin,
    rated: Option<f64>,
}

fn runners(design: &Design) -> impl Iterator<Item = Runner<'_>> {
    let wheels = design.wheels.iter().enumerate().map(|(index, w)| Runner {
        caster: false,
        index,
        name: &w.name,
        origin: w.origin,
        rated: w.rated,
    });
    wheels.chain(design.casters.iter().enumerate().map(|(index, c)| Runner {
        caster: true,
        index,
        name: &c.name,
        origin: c.origin,
        rated: c.rated,
    }))
}

fn mean(values: impl Iterator<Item = f64> + Clone) -> Option<f64> {
    #[allow(clippy::cast_precision_loss)]
    let n = values.clone().count() as f64;
    (n > 0.0).then(|| values.sum::<f64>() / n)
}

/// The share of a mass on the casters or on the rear wheels, by levers; all of it where there is only one of the two.
fn axle_share(settled: &Settled, caster: bool, mass: &Mass) -> f64 {
    let x = |caster: bool| settled.contacts.iter().filter(move |c| c.caster == caster).map(|c| c.at.x);
    match (mean(x(false)), mean(x(true))) {
        // one row ahead of the other, whichever; of wheels on both sides of the others each may come to carry all
        (Some(rear), Some(front)) if apart(settled) => {
            let rear_share = (front - mass.centre.x) / (front - rear);
            if caster { 1.0 - rear_share } else { rear_share }
        }
        _ => 1.0,
    }
}

/// Whether all casters stand ahead of all fixed wheels, or all behind them.
fn apart(settled: &Settled) -> bool {
    let x = |caster: bool| settled.contacts.iter().filter(move |c| c.caster == caster).map(|c| c.at.x);
    let ends =
        |caster: bool| (x(caster).fold(f64::INFINITY, f64::min), x(caster).fold(f64::NEG_INFINITY, f64::max));
    let (fixed, swivel) = (ends(false), ends(true));
    fixed.1 < swivel.0 - 1e-6 || swivel.1 < fixed.0 - 1e-6
}

/// The share of one wheel on a chair that rocks by more than its tyres take up, from the places of the three that carry; the
/// lifted one has nothing. `None` where the chair does not rock, or where the weight lies outside of those three.
fn of_three(settled: &Settled, runner: &Runner<'_>, mass: &Mass) -> Option<f64> {
    // three wheels in all carry by their places, whatever they are; casters ahead of one axle are shared out by levers
    let casters = settled.contacts.iter().any(|c| c.caster);
    let few = settled.contacts.len() == 3 && !(casters && apart(settled));
    if settled.rock <= ROCK && !few {
        return None;
    }
    let own = |c: &&Contact| c.caster == runner.caster && c.index == runner.index;
    let carry: Vec<&Contact> = settled.contacts.iter().filter(|c| c.gap <= 1e-6).collect();
    let [a, b, c] = carry[..] else { return None };
    // the area of the triangle that the weight makes with the two others, over that of all three
    let area = |p: Vec3, q: Vec3, r: Vec3| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    let whole = area(a.at, b.at, c.at);
    let w = mass.centre;
    let shares = [area(w, b.at, c.at), area(a.at, w, c.at), area(a.at, b.at, w)].map(|part| part / whole);
    if whole.abs() < 1e-9 || shares.iter().any(|s| *s < 0.0) {
        return None;
    }
    Some(carry.iter().zip(shares).find(|(c, _)| own(c)).map_or(0.0, |(_, share)| share))
}

/// The share of its axle's load on one side's wheels, by levers between the sides. One wheel may come to carry all of its
/// side, and a wheel in the middle all of everything.
fn side_share(settled: &Settled, runner: &Runner<'_>, left: f64) -> f64 {
    let those = || settled.contacts.iter().filter(|c| c.caster == runner.caster);
    let Some(own) = those().find(|c| c.index == runner.index).map(|c| c.at.y) else { return 1.0 };
    let of = |sign: f64| mean(those().map(|c| c.at.y).filter(move |y| y * sign > 1e-6));
    match (of(own.signum()), of(-own.signum())) {
        (Some(here), Some(there)) if own.abs() > 1e-6 => ((left - there) / (here - there)).clamp(0.0, 1.0),
        _ => 1.0,
    }
}

/// An axle goes into a bore that is so much smaller as both are measured, and is loose in one that is more than so much wider, m.
/// Common practice, no source.
const PLAY: (f64, f64) = (0.000_05, 0.000_5);

/// What nobody says about the wheels and axles of a whole chair, so that it was not looked at.
pub(crate) fn unsaid(design: &Design, assumptions: &mut Vec<Assumed>) {
    if design.name.is_empty() {
        return;
    }
    if matches!(design.conditions.words.get("water").map(String::as_str), Some("fresh" | "salt")) {
        assumptions.push(Assumed::Afloat);
    }
    if design.wheels.iter().any(|w| w.one_sided.is_none()) {
        assumptions.push(Assumed::SidesUnsaid);
    }
    let told = |w: &Wheel| {
        axle(design, w).is_none_or(|(.., thick)| {
            let mut holes = holes(design, w).peekable();
            holes.peek().is_none() || (thick.is_some() && holes.all(|(_, bore)| bore.is_some()))
        })
    };
    if !design.wheels.iter().all(told) {
        assumptions.push(Assumed::BoresUnmeasured);
    }
}

/// Axles: held from one side, and as long as hub and receiver.
pub(crate) fn axles(design: &Design, figures: &mut Figures, troubles: &mut Vec<Trouble>) {
    for wheel in &design.wheels {
        if wheel.one_sided == Some(false) {
            troubles.push(Trouble::OneSided { wheel: wheel.name.clone(), origin: wheel.origin });
        }
        length(design, wheel, figures, troubles);
        bores(design, wheel, troubles);
    }
}

/// The axle of a wheel, drawn by itself or bought with it: its name, its place and how thick it is, where somebody says.
fn axle<'d>(design: &'d Design, wheel: &'d Wheel) -> Option<(&'d str, Origin, Option<f64>)> {
    let own = wheel.axle_diameter.map(|d| (wheel.name.as_str(), wheel.origin, Some(d)));
    axle_of(design, wheel, ItemKind::Axle).map(|a| (a.name.as_str(), a.origin, a.bore)).or(own)
}

/// What an axle of a wheel goes through, with how wide the hole in it is. One that is bought with the wheel fits that.
fn holes<'d>(design: &'d Design, wheel: &'d Wheel) -> impl Iterator<Item = (&'d str, Option<f64>)> {
    let apart = axle_of(design, wheel, ItemKind::Axle).map(|_| (wheel.name.as_str(), wheel.bore));
    let receiver = axle_of(design, wheel, ItemKind::Receiver).map(|r| (r.name.as_str(), r.bore));
    apart.into_iter().chain(receiver)
}

fn bores(design: &Design, wheel: &Wheel, troubles: &mut Vec<Trouble>) {
    let Some((name, origin, Some(diameter))) = axle(design, wheel) else { return };
    let known = holes(design, wheel).filter_map(|(into, bore)| Some((into, bore?)));
    let ill = known.filter(|(_, bore)| diameter - bore > PLAY.0 || bore - diameter > PLAY.1 + 1e-9);
    troubles.extend(ill.map(|(into, bore)| Trouble::AxleBore {
        axle: name.to_owned(),
        origin,
        diameter,
        into: into.to_owned(),
        bore,
    }));
}

fn length(design: &Design, wheel: &Wheel, figures: &mut Figures, troubles: &mut Vec<Trouble>) {
    let Some(axle) = axle_of(design, wheel, ItemKind::Axle) else { return };
    let receiver = axle_of(design, wheel, ItemKind::Receiver);
    let hub = (wheel.hub > 0.0).then_some(wheel.hub);
    let usable = axle.size.y;
    if let Some(hub) = hub {
        let inputs = [("usable length", usable, L), ("hub", hub, L)];
        let formula = "usable length of the axle less the hub: what is left for receiver and spacers";
        let name = format!("axle.in.receiver.{}", axle.name);
        figures.put(name, (usable - hub, L), formula, "geometry", &inputs);
    }
    let axle_length = |hub: f64, receiver: Option<f64>, lying: Option<f64>| Trouble::AxleLength {
        axle: axle.name.clone(),
        origin: axle.origin,
        length: usable,
        hub,
        receiver,
        lying,
    };
    match (hub, receiver) {
        // one that does not come out of its hub goes into nothing
        (Some(hub), None) if usable <= hub + ADJUSTER + 1e-9 => troubles.push(axle_length(hub, None, None)),
        (Some(hub), Some(receiver)) => {
            let long = receiver.size.y;
            let adds_up = |long: f64| (usable - hub - long).abs() <= ADJUSTER + 1e-9;
            let lying = [receiver.size.x, receiver.size.z].into_iter().find(|other| adds_up(*other));
            if !adds_up(long) {
                troubles.push(axle_length(hub, Some(long), lying));
            }
        }
        _ if !design.name.is_empty() => troubles.push(Trouble::AxleUnmeasured {
            axle: axle.name.clone(),
            origin: axle.origin,
            wheel: wheel.part.name.clone(),
            length: usable,
            hub,
            receiver: receiver.map(|r| r.size.y),
        }),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_design::Frame3;

    /// Two fixed wheels on one axle and a third 400 mm ahead in the middle; the weight 100 mm ahead and 52 mm to the left. By hand: the
    /// third carries 100 / 400 = a quarter; of the other three quarters the left one half and 52 / 520 of all more: 0.375 + 0.1 =
    /// 0.475, the right one 0.275.
    #[test]
    fn three_fixed_wheels_share_by_their_places() {
        let contact =
            |index: usize, x: f64, y: f64| Contact { caster: false, index, at: Vec3::new(x, y, 0.0), gap: 0.0 };
        let contacts = vec![contact(0, 0.0, 0.26), contact(1, 0.0, -0.26), contact(2, 0.4, 0.0)];
        let settled = Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts, rock: 0.0 };
        let mass = Mass { mass: 80.0, centre: Vec3::new(0.1, 0.052, 0.6) };
        for (index, share) in [(0, 0.475), (1, 0.275), (2, 0.25)] {
            let (origin, rated) = (Origin(0), None);
            let runner = Runner { caster: false, index, name: "w", origin, rated };
            let got = of_three(&settled, &runner, &mass);
            assert!(got.is_some_and(|g| (g - share).abs() < 1e-9), "{index}: {got:?}");
        }
    }
}
