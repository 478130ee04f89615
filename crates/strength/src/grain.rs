//! Wood along its grain: bending together with pull or push, each against its own value; and which way the grain of
//! a plate runs.

use crate::assumed::Assumed;
use crate::bar::Of;
use crate::case::Lasting;
use crate::form::Stress;
use crate::judge::Court;
use crate::limit::{Limits, allowance, wooden};
use crate::solve::Cut;
use crate::structure::Structure;
use chairwright_design::Design;
use chairwright_resistance::column::wood_column;
use chairwright_resistance::wood::{Stresses, bent_and_pressed, bent_and_pulled};

/// Plywood bears about half as much across its face grain as along it, as its entry says.
const ACROSS: f64 = 2.0;
/// Slenderness up to which the column formula for lumber is published (NDS).
const MOST_SLENDER: f64 = 50.0;
/// Any modulus, Pa: of a column only the critical stress counts.
const SCALE: f64 = 10e9;

impl Court<'_> {
    /// How far wood is used along its grain, on the plain and the cautious side: `ft/Ft + fb/Fb` in pull,
    /// `(fc/Fc')² + fb/(Fb (1 − fc/FcE))` in push, after NDS 3.9. Bending about both axes counts as about the one that
    /// gives way first.
    pub(crate) fn along_grain(&self, lasting: Lasting, cut: &Cut, l: &Limits, stress: &Stress) -> (f64, f64) {
        let area = self.matters[cut.bar].shape.area;
        let critical = self.gives_way(lasting, cut).map(|(plain, cautious)| (plain / area, cautious / area));
        let plain = together(stress, l, l.slack, critical.map(|c| c.0));
        (plain, together(stress, l, 1.0, critical.map(|c| c.1)))
    }

    /// Models that are rough say so in the width of their answer: the arms of a panel by a factor of two
    /// either way, and a plate of plywood whose grain nobody has told bears half across it.
    pub(crate) fn rough(&self, of: Of, fibrous: bool, (plain, cautious): (f64, f64)) -> (f64, f64) {
        match of {
            Of::Panel(_) => (plain / 2.0, cautious * 2.0),
            Of::Support(_) if fibrous => (plain, cautious * ACROSS),
            Of::Box(k) if fibrous => match self.design.boxes[k].lengthwise {
                Some(true) => (plain, cautious),
                Some(false) => (plain * ACROSS, cautious * ACROSS),
                None => (plain, cautious * ACROSS),
            },
            _ => (plain, cautious),
        }
    }
}

/// Shares used together; what is no number makes no verdict.
fn together(stress: &Stress, l: &Limits, slack: f64, critical: Option<f64>) -> f64 {
    let on = Stresses { axial: stress.axial.abs(), bending: [stress.bending, 0.0] };
    let bending = [l.fibre * slack; 2];
    let used = match (stress.axial < 0.0, critical) {
        (false, _) => bent_and_pulled(on, l.pull * slack, bending),
        // nothing tells between what it could give way: the shares simply add
        (true, None) => bent_and_pulled(on, l.push * slack, bending),
        (true, Some(critical)) => {
            bent_and_pressed(on, column(l.push * slack, critical), bending, [critical; 2])
        }
    };
    used.map_or(f64::NAN, |i| i.used)
}

/// Allowable push of a column that gives way at a critical stress, Pa: some modulus with the slenderness that makes
/// it do so (0.822 E / (le/d)²) goes into the formula for lumber; beyond where that is published, the critical stress.
fn column(crush: f64, critical: f64) -> f64 {
    let slenderness = (0.822 * SCALE / critical).sqrt();
    if slenderness > MOST_SLENDER {
        return crush.min(critical);
    }
    wood_column(crush, SCALE, slenderness).map_or(f64::NAN, |c| c.value)
}

/// Boxes of plywood whose grain nobody has told.
pub(crate) fn untold_grain(design: &Design, all: &Structure) -> Option<Assumed> {
    let mut names: Vec<String> = Vec::new();
    for b in &all.bars {
        let Of::Box(k) = b.of else { continue };
        let wood = allowance(design, &design.stocks[b.stock].material).is_some_and(wooden);
        let of = &design.boxes[k];
        if wood && of.lengthwise.is_none() && !names.contains(&of.name) {
            names.push(of.name.clone());
        }
    }
    (!names.is_empty()).then_some(Assumed::BoxGrain(names))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 2 MPa along the grain and 4 MPa of bending, of 5 in pull, 4.5 in push and 10 in bending, by hand. Pull: 2/5 + 4/10 =
    /// 0.8. Push where nothing gives way: 2/4.5 + 4/10 = 0.8444. Push of a column of 20 MPa critical: Cp with c = 0.8 and
    /// 20/4.5 = 4.444: 5.5556/(3.4028 + √(11.579 − 5.5556)) = 0.9485, Fc' = 4.268; (2/4.268)² + 0.4/(1 − 2/20) = 0.6640.
    /// At 2 MPa critical it gives way.
    #[test]
    fn bending_with_pull_and_push() {
        let l = Limits {
            fibre: 10e6,
            pull: 5e6,
            push: 4.5e6,
            shear: None,
            slack: 1.0,
            shear_slack: 1.0,
            notch: 1.0,
            everywhere: false,
        };
        let on = |axial: f64| Stress { axial, bending: 4e6, ..Stress::default() };
        assert!((together(&on(2e6), &l, 1.0, Some(20e6)) - 0.8).abs() < 1e-9);
        assert!((together(&on(-2e6), &l, 1.0, None) - 0.8444).abs() < 1e-4);
        assert!((together(&on(-2e6), &l, 1.0, Some(20e6)) - 0.6640).abs() < 2e-4);
        assert!((together(&on(-2e6), &l, 2.0, None) - 0.4222).abs() < 1e-4);
        assert!(together(&on(-2e6), &l, 1.0, Some(2e6)).is_infinite());
        assert!(together(&on(f64::NAN), &l, 1.0, Some(2e6)).is_nan());
    }
}
