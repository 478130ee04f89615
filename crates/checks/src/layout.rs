//! Which wheels stand where: most formulas of rolling and of tipping backward are for fixed wheels on one axle behind, and
//! casters ahead of them.

use chairwright_design::{Design, ItemKind};
use chairwright_frame::Settled;

/// Fixed wheels whose contacts lie further apart fore and aft stand on two axles. Common practice, no source.
pub(crate) const ONE_AXLE: f64 = 0.1;

/// Readings of the built chair that say where its weight lies.
const PLACES: [&str; 6] =
    ["rear_locked", "rear_free", "load_rear_left", "load_rear_right", "load_front_left", "load_front_right"];

/// Whether the fixed wheels stand on one axle and all casters ahead of it; without casters there is nothing ahead.
pub(crate) fn usual(settled: &Settled) -> bool {
    let x = |caster: bool| settled.contacts.iter().filter(move |c| c.caster == caster).map(|c| c.at.x);
    let most = x(false).fold(f64::NEG_INFINITY, f64::max);
    let least = x(false).fold(f64::INFINITY, f64::min);
    most - least <= ONE_AXLE && x(true).count() > 0 && x(true).all(|c| c > most)
}

/// Least radius of the wheels about whose axles the chair goes over forward with its wheels free: of fixed wheels, casters or both,
/// whichever stand foremost. Zero where a single one does: the chair goes over a line from it to a wheel behind, and no wheel
/// rolls along under that.
pub(crate) fn front_radius(design: &Design, settled: &Settled) -> Option<f64> {
    let most = settled.contacts.iter().map(|c| c.at.x).fold(f64::NEG_INFINITY, f64::max);
    let foremost = |c: &&chairwright_frame::Contact| c.at.x >= most - ONE_AXLE;
    if settled.contacts.iter().filter(foremost).count() == 1 {
        return Some(0.0);
    }
    let leads = |caster: bool| settled.contacts.iter().filter(foremost).any(|c| c.caster == caster);
    let fixed = design.wheels.iter().filter(|_| leads(false)).map(|w| w.radius);
    fixed.chain(design.casters.iter().filter(|_| leads(true)).map(|c| c.radius)).reduce(f64::min)
}

/// What is not worked out for other layouts: a slope backward with free wheels, anti-tip devices, what the tipping test says of where
/// the weight lies, and what the place asks for.
pub(crate) fn left_out(design: &Design) -> Vec<&'static str> {
    let devices = design.items.iter().any(|i| i.kind == ItemKind::AntiTip);
    let wanted = design.profile.as_ref().is_some_and(|p| p.anti_tip);
    let read = crate::tested::readings(design).filter(|b| b.carry.is_none());
    let read = read.is_some_and(|b| PLACES.iter().any(|field| b.values.contains_key(*field)));
    let asked = |key: &str| design.conditions.quantities.get(key).is_some_and(|v| v.abs() > 0.0);
    let steps = ["sill", "kerb", "slot"].iter().any(|k| asked(k));
    let all = [
        ("tipping backward with free wheels", true),
        ("the anti-tip device that the use profile wants", wanted),
        ("what the anti-tip devices do", devices && !wanted),
        ("where the weight of the built chair lies by what was read of it", read),
        ("pushing", true),
        ("speed at which a dead stop throws the rider out", true),
        ("climbing steps", steps),
        ("drift on the cross slope", asked("cross_slope")),
        ("sliding with locked wheels", asked("slope")),
    ];
    all.into_iter().filter(|(_, of)| *of).map(|(what, _)| what).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_design::{Frame3, Vec3};
    use chairwright_frame::Contact;

    fn stand(wheels: &[(bool, f64)]) -> Settled {
        let at = |(caster, x): &(bool, f64)| Contact {
            caster: *caster,
            index: 0,
            at: Vec3::new(*x, 0.0, 0.0),
            gap: 0.0,
        };
        let contacts = wheels.iter().map(at).collect();
        Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts, rock: 0.0 }
    }

    /// Two behind and one or two ahead are usual; casters behind, on both ends, or four fixed wheels are not.
    #[test]
    fn only_one_layout_is_judged() {
        assert!(usual(&stand(&[(false, 0.0), (false, 0.0), (true, 0.4)])));
        assert!(!usual(&stand(&[(false, 0.0), (false, 0.0), (true, -0.4), (true, -0.4)])));
        assert!(!usual(&stand(&[(false, 0.0), (false, 0.0), (true, 0.4), (true, -0.3)])));
        assert!(!usual(&stand(&[(false, 0.0), (false, 0.0), (false, 0.4), (false, 0.4)])));
    }
}
