//! Characteristic values of solid wood (EN 338) made values to judge by, with the rules they belong to: EN 1995-1-1
//! (Eurocode 5). Its table of `k_mod` as quoted in a program for timber; the rest from memory, not checked.

/// How long a load stands, all of it added up, as Eurocode 5 sorts it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stands {
    /// More than ten years.
    Permanent,
    /// Six months to ten years.
    Long,
    /// A week to six months.
    Medium,
    /// Less than a week.
    Short,
    /// Blows and gusts.
    Instantaneous,
}

/// Safety on the material, solid wood: EN 1995-1-1, table 2.3.
pub const MATERIAL: f64 = 1.3;
/// Safety on a load that comes and goes: EN 1990. A chair's loads are taken as they are, so it stands here.
pub const LOAD: f64 = 1.5;
/// What cracks leave of a width in shear, solid wood: EN 1995-1-1, 6.1.7.
pub const CRACKS: f64 = 0.67;

/// Modification factor of solid wood: EN 1995-1-1, table 3.1. In the dry and under a roof (service classes 1 and 2) it is
/// one and the same; `wet` is service class 3.
#[must_use]
pub const fn k_mod(stands: Stands, wet: bool) -> f64 {
    match (stands, wet) {
        (Stands::Permanent, false) => 0.60,
        (Stands::Permanent, true) => 0.50,
        (Stands::Long, false) => 0.70,
        (Stands::Long, true) => 0.55,
        (Stands::Medium, false) => 0.80,
        (Stands::Medium, true) => 0.65,
        (Stands::Short, false) => 0.90,
        (Stands::Short, true) => 0.70,
        (Stands::Instantaneous, false) => 1.10,
        (Stands::Instantaneous, true) => 0.90,
    }
}

/// What years under load leave of the stiffness of solid wood, water included: 1 over 1 + k_def, 0.8 under a roof and 2.0 in the wet;
/// EN 1995-1-1, table 3.2.
#[must_use]
pub const fn creep(wet: bool) -> f64 {
    if wet { 1.0 / 3.0 } else { 1.0 / 1.8 }
}

/// Stress that may be borne, Pa: `k_mod f / (1.3 x 1.5)`.
#[must_use]
pub fn borne(characteristic: f64, stands: Stands, wet: bool) -> f64 {
    characteristic * k_mod(stands, wet) / (MATERIAL * LOAD)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The column of service class 3 is never above the dry one, and neither falls from longer to shorter.
    #[test]
    fn water_and_time_only_take() {
        use Stands::{Instantaneous, Long, Medium, Permanent, Short};
        let all = [Permanent, Long, Medium, Short, Instantaneous];
        for pair in all.windows(2) {
            assert!(
                k_mod(pair[0], false) < k_mod(pair[1], false) && k_mod(pair[0], true) < k_mod(pair[1], true)
            );
        }
        assert!(all.iter().all(|s| k_mod(*s, true) < k_mod(*s, false)) && creep(true) < creep(false));
    }

    /// C24 in bending, medium term: 24 x 0.8 / 1.3 = 14.77 MPa, the design strength of many worked examples; over 1.5 for the
    /// load 9.846 MPa.
    #[test]
    fn a_worked_beam() {
        let borne = borne(24e6, Stands::Medium, false);
        assert!((borne * LOAD / 1e6 - 14.769).abs() < 1e-3 && (borne / 1e6 - 9.846).abs() < 1e-3);
    }
}
