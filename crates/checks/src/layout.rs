//! Which wheels stand where: most formulas of rolling and of tipping backward are for fixed wheels on one axle behind, and
//! casters ahead of them.

use chairwright_design::Design;
use chairwright_frame::Settled;

/// Fixed wheels whose contacts lie further apart fore and aft stand on two axles. Common practice, no source.
pub(crate) const ONE_AXLE: f64 = 0.1;

/// Whether the fixed wheels stand on one axle and all casters ahead of it; without casters there is nothing ahead.
pub(crate) fn usual(settled: &Settled) -> bool {
    let x = |caster: bool| settled.contacts.iter().filter(move |c| c.caster == caster).map(|c| c.at.x);
    let most = x(false).fold(f64::NEG_INFINITY, f64::max);
    let least = x(false).fold(f64::INFINITY, f64::min);
    most - least <= ONE_AXLE && x(true).count() > 0 && x(true).all(|c| c > most)
}

/// What is not worked out for other layouts: a slope backward with free wheels, anti-tip devices, and what the place asks for.
pub(crate) fn left_out(design: &Design) -> Vec<&'static str> {
    let asked = |key: &str| design.conditions.quantities.get(key).is_some_and(|v| v.abs() > 0.0);
    let steps = ["sill", "kerb", "slot"].iter().any(|k| asked(k));
    let all = [
        ("tipping backward with free wheels", true),
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
