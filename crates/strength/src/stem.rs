//! Stems of casters: bent by the wheel that trails behind them, and by what stops it.

use crate::case::{Case, CaseKind};
use crate::remark::Open;
use crate::solve::Run;
use crate::strike::push;
use crate::structure::Structure;
use crate::walls::{PITCH, SAFETY};
use chairwright_design::{Caster, Design};
use chairwright_resistance::metal::{BoltClass, Stem, Thread, stem_bending};

/// What a cut thread makes of the stress under loads that come again: the most of the usual range, 2.2 to 2.8. Common practice,
/// no source.
const NOTCH: f64 = 2.8;

/// Moment that a stem of a diameter, m, surely bears, N·m: of the weakest class that is sold, threaded where it is bent, in the
/// coarsest thread. Nobody says what steel a caster is of: a stronger one bears more, and a test tells.
pub(crate) fn sound(diameter: f64) -> Option<f64> {
    let thread = Thread { diameter, pitch: PITCH * diameter };
    stem_bending(Stem::Threaded(thread), BoltClass::Iso46.proof(), NOTCH, SAFETY).ok().map(|c| c.value)
}

/// Moment, N·m, that a round stem of a diameter, m, surely does not bear, of the strongest steel that bolts are sold of and without
/// any thread: its whole section at the tensile strength, d³/6 (plastic hinge of a round bar).
pub(crate) fn hopeless(diameter: f64) -> f64 {
    BoltClass::Iso129.tensile() * diameter * diameter * diameter / 6.0
}

/// Moment at the seat of the stem, N·m: what the ground carries times the trail, and in a strike the push that stops the wheel
/// at its axle times the drop of the axle below the seat.
fn moment(caster: &Caster, carries: f64, push: f64) -> f64 {
    carries * caster.trail + push * caster.drop
}

/// The push on one caster that a case stops, N, by what it carries seated, N.
fn stops(case: &Case, name: &str, seated: f64) -> f64 {
    match case.kind.plain() {
        CaseKind::CasterStrike { caster, ratio, .. } if caster.as_deref().is_none_or(|c| c == name) => {
            push(*ratio, seated)
        }
        _ => 0.0,
    }
}

/// The case that bends the stem of a footing most, and its moment, N·m.
fn worst(
    (k, caster): (usize, &Caster),
    cases: &[Case],
    runs: &[Option<&Run>],
    seated: Option<&Run>,
) -> Option<(usize, f64)> {
    let at_rest = seated.map_or(0.0, |r| r.feet[k]);
    let each = cases.iter().zip(runs).enumerate().filter_map(|(i, (case, run))| {
        Some((i, moment(caster, run.as_ref()?.feet[k].max(0.0), stops(case, &caster.name, at_rest))))
    });
    crate::case::most(each)
}

/// Each stem that some case bends beyond what is sound, in the case that bends it most; and of each bought caster whose stem
/// nobody has measured how thick it must be.
pub(crate) fn bent(design: &Design, all: &Structure, cases: &[Case], runs: &[Option<&Run>]) -> Vec<Open> {
    let mut out = Vec::new();
    let mut unmeasured: Vec<(usize, usize, f64)> = Vec::new();
    let seated = cases.iter().position(|c| c.kind == CaseKind::Seated).and_then(|k| runs[k]);
    for (k, footing) in all.footings.iter().enumerate().filter(|(_, f)| f.caster) {
        let caster = &design.casters[footing.index];
        let Some((case, moment)) = worst((k, caster), cases, runs, seated) else { continue };
        let Some((diameter, sound)) = caster.stem_diameter.and_then(|d| Some((d, sound(d)?))) else {
            let same = |u: &&mut (usize, usize, f64)| design.casters[u.0].part.name == caster.part.name;
            match unmeasured.iter_mut().find(same) {
                Some(old) if old.2 >= moment => {}
                Some(old) => *old = (footing.index, case, moment),
                None => unmeasured.push((footing.index, case, moment)),
            }
            continue;
        };
        if moment > sound {
            let breaks = moment > hopeless(diameter);
            out.push(Open::Stem { caster: footing.index, case, moment, sound, diameter, breaks });
        }
    }
    out.extend(unmeasured.into_iter().map(|(caster, case, moment)| Open::StemSize {
        caster,
        case,
        moment,
        sound: thick(moment),
        breaks: thin(moment),
    }));
    out
}

/// Stems thicker than this, m, are of no caster. Common practice, no source.
const THICKEST: f64 = 0.05;

/// Diameter, m, from which a stem surely bears a moment, N·m; `None` where none that is sold does.
fn thick(moment: f64) -> Option<f64> {
    let bears = |d: f64| sound(d).is_some_and(|s| s >= moment);
    let (mut low, mut high) = (0.0, THICKEST);
    if !bears(high) {
        return None;
    }
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if bears(middle) { high = middle } else { low = middle }
    }
    Some(high)
}

/// Diameter, m, below which no steel bears a moment, N·m.
fn thin(moment: f64) -> f64 {
    libm::cbrt(6.0 * moment.max(0.0) / BoltClass::Iso129.tensile())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// M10 in the coarsest thread, pitch 2 mm: root 10 - 1.2269 · 2 = 7.546 mm, π/32 · 7.546³ = 42.19 mm³; 225 MPa over the
    /// safety factor and 2.8.
    #[test]
    fn a_threaded_stem_by_hand() {
        // class 12.9, 1 220 MPa on 10³/6 = 166.7 mm³
        assert!((thin(203.33) - 0.010).abs() < 1e-6, "{}", thin(203.33));
        assert!((hopeless(0.010) - 203.3).abs() < 0.1, "{}", hopeless(0.010));
        let by_hand = 42.19e-9 * 225e6 / SAFETY / NOTCH;
        assert!((sound(0.010).unwrap() / by_hand - 1.0).abs() < 2e-3, "{:?} {by_hand}", sound(0.010));
        assert!((thick(by_hand).unwrap() - 0.010).abs() < 1e-5, "{:?}", thick(by_hand));
        assert_eq!(thick(1e6), None);
    }
}
