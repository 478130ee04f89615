//! What wheels and casters carry in the load cases, against what their makers allow.

use crate::case::{Case, CaseKind, Lasting};
use crate::load::G;
use crate::remark::Open;
use crate::solve::Run;
use crate::structure::{Footing, Structure};
use chairwright_design::Design;

/// What one footing is rated for, kg.
fn rated(design: &Design, f: &Footing) -> Option<f64> {
    if f.caster { design.casters[f.index].rated } else { design.wheels[f.index].rated }
}

/// Each rated wheel whose rating a load case exceeds, in the case that puts most on it: cases without a blow, and drops, by which
/// every part of the frame is judged as well. A rating is held against the force as it is: nobody says what factor its maker
/// keeps in hand.
pub(crate) fn beyond(design: &Design, all: &Structure, cases: &[Case], runs: &[Option<&Run>]) -> Vec<Open> {
    let counts = |c: &Case| {
        c.lasting != Lasting::Impact || matches!(c.kind.plain(), CaseKind::Drop(_) | CaseKind::Landing(..))
    };
    let mut out = Vec::new();
    for (k, footing) in all.footings.iter().enumerate() {
        let Some(rated) = rated(design, footing) else { continue };
        let each = cases.iter().zip(runs).enumerate().filter(|(_, (c, _))| counts(c));
        let loads = each.filter_map(|(i, (_, run))| Some((i, run.as_ref()?.feet[k])));
        if let Some((case, load)) = crate::case::most(loads).filter(|(_, load)| *load > rated * G + 1e-6) {
            let (caster, index) = (footing.caster, footing.index);
            out.push(Open::Rated { caster, index, case, load, rated });
        }
    }
    out
}

/// Names of wheels or casters without a rating, and the most that any case puts on one of them, N.
pub(crate) fn unrated(
    design: &Design,
    all: &Structure,
    runs: &[Option<&Run>],
    caster: bool,
) -> (Vec<String>, f64) {
    let bare = |f: &Footing| f.caster == caster && rated(design, f).is_none();
    let names = all.footings.iter().filter(|f| bare(f)).map(|f| f.name.clone()).collect();
    let most = |r: &&Run| {
        let pairs = r.feet.iter().zip(&all.footings).filter(|(_, f)| bare(f));
        pairs.map(|(n, _)| *n).fold(0.0, f64::max)
    };
    (names, runs.iter().flatten().map(most).fold(0.0, f64::max))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::case;
    use crate::remark::Source;
    use chairwright_design::{Origin, PartSpec, Vec3, Wheel};

    fn wheel(rated: Option<f64>) -> Wheel {
        Wheel {
            name: "rear".into(),
            side: None,
            part: PartSpec::default(),
            radius: 0.3,
            tyre: 0.03,
            hub: 0.0,
            rim: None,
            rim_out: 0.0,
            rim_gap: 0.0,
            rim_tube: 0.0,
            rated,
            stiffness: None,
            bore: None,
            one_sided: None,
            axle_diameter: None,
            at: Vec3::ZERO,
            axle: Vec3::Y,
            camber: 0.0,
            origin: Origin(0),
        }
    }

    /// 60 kg bear 60 · 9.80665 = 588.4 N, 80 kg 784.5 N, 150 kg 1 471.0 N. Seated 250 N, bumps 750 N, a drop 1 400 N: it is beyond
    /// the first two and within the third. Without a drop the bumps are beyond 60 kg by 161.6 N, and within 80 kg.
    #[test]
    fn a_rating_is_held_against_the_cases() {
        let footing = Footing {
            name: "rear".into(),
            caster: false,
            index: 0,
            hub: 0,
            contact: 0,
            carrier: None,
            swung: None,
            overhang: None,
        };
        let all = Structure { footings: vec![footing], ..Structure::default() };
        let one = |kind, lasting| case(kind, lasting, 1.0, Source::Weight, Vec::new());
        let cases = [
            one(CaseKind::Seated, Lasting::Sustained),
            one(CaseKind::Bumps, Lasting::Repeated),
            one(CaseKind::Drop(0.05), Lasting::Impact),
        ];
        let runs = [250.0, 750.0, 1400.0].map(|n| Run { feet: vec![n], ..Run::default() });
        let runs: Vec<Option<&Run>> = runs.iter().map(Some).collect();
        let found = |rated: Option<f64>, cases: &[Case]| {
            let design = Design { wheels: vec![wheel(rated)], ..Design::default() };
            let open = beyond(&design, &all, cases, &runs);
            (open, unrated(&design, &all, &runs, false))
        };
        let at = |case, load, rated| vec![Open::Rated { caster: false, index: 0, case, load, rated }];
        assert_eq!(found(Some(60.0), &cases).0, at(2, 1400.0, 60.0));
        assert_eq!(found(Some(80.0), &cases).0, at(2, 1400.0, 80.0));
        assert_eq!(found(Some(150.0), &cases).0, Vec::new());
        assert_eq!(found(Some(60.0), &cases[..2]).0, at(1, 750.0, 60.0));
        assert_eq!(found(Some(80.0), &cases[..2]).0, Vec::new());
        assert_eq!(found(Some(80.0), &cases).1.0, Vec::<String>::new());
        assert_eq!(found(None, &cases), (Vec::new(), (vec!["rear".to_owned()], 1400.0)));
    }
}
