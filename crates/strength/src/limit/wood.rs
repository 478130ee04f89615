//! What a board may bear along its grain: by the grade on its stamp, by a proof on a bench, or by its species alone.
//!
//! A design value (NDS) lies 2.1 below the lower 5 % bound of the grade, of which 1.6 is for ten years under load. A
//! species alone says nothing of knots: what even the lowest grade bears surely holds, what not even the best grade
//! may bear surely does not, and between them nobody can tell; nor does it bear more, to be sure, than the lowest strength class. A strength class (EN 338) is the lower 5 % bound itself, and is judged with
//! the time, water and safety of its own code. A stamp promises, and takes nothing: what the best of the
//! species may bear a stamped board may bear too.

use super::{Climate, allowance};
use crate::case::Lasting;
use chairwright_design::{Allowance, Bench, Design, Grade, Material, Values};
use chairwright_resistance::Refusal;
use chairwright_resistance::wood::eurocode::{self, Stands, borne};
use chairwright_resistance::wood::{
    Board, Centre, Duration, Service, Warmth, modulus_by_deflection, proof_stress,
};

/// Pull and push along the grain over bending, where an entry says nothing of them: as in the shipped page, from
/// memory, not checked.
pub(crate) const ALONG: (f64, f64) = (0.5, 0.45);
/// What splits and checks leave in shear, in every grade; ASTM D245, from memory, not checked.
const SPLITS: f64 = 0.5;
/// Safety of a design value on the lower bound of its grade once the time under load is taken out: 2.1 over 1.6; ASTM
/// D245, from memory, not checked.
const INSIDE: f64 = 1.3;
/// Share of the mean modulus of a grade, or of a species, that its lower 5 % bound has: EN 338, 0.67 for softwood, from memory,
/// not checked. What bends further than that is not of the grade: rotten, cracked, wet through, or another wood.
const SOUND: f64 = 0.67;
/// Share of a proof load that is used afterwards. Common practice, no source.
const PROOF: f64 = 2.0;

/// Stresses that may be borne, Pa, on the cautious side, and how much more the plain side bears.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Along {
    pub bending: f64,
    pub pull: f64,
    pub push: f64,
    pub shear: Option<f64>,
    pub slack: f64,
    /// The same of shear.
    pub shear_slack: f64,
}

/// By the values of a grade, of which heat, water and the kind of load leave a share.
pub(crate) fn graded(grade: &Grade, (left, wet): (f64, bool), lasting: Lasting) -> Along {
    match grade.values {
        Values::Design => designed(grade, left, lasting),
        Values::Characteristic => characterised(grade, (left, wet), lasting),
    }
}

/// By characteristic values. All short loads of years add up to hours, so that they are short-term and not instantaneous;
/// the rider is a permanent load; what is left of repeated loads is left of blows. What nineteen of twenty boards bear in a blow
/// is the plain side of blows.
fn characterised(grade: &Grade, (left, wet): (f64, bool), lasting: Lasting) -> Along {
    let stands = match lasting {
        Lasting::Sustained => Stands::Permanent,
        Lasting::Short => Stands::Short,
        Lasting::Impact | Lasting::Repeated => Stands::Instantaneous,
    };
    let of = |f: f64| borne(f, stands, wet) * left;
    let slack = if lasting == Lasting::Impact { eurocode::MATERIAL * eurocode::LOAD } else { 1.0 };
    Along {
        bending: of(grade.bending),
        pull: of(grade.pull),
        push: of(grade.push),
        shear: Some(of(grade.shear * eurocode::CRACKS)),
        slack,
        shear_slack: slack,
    }
}

fn designed(grade: &Grade, left: f64, lasting: Lasting) -> Along {
    let minutes = Duration::TenMinutes.factor() * left;
    let slack = if lasting == Lasting::Impact { INSIDE } else { 1.0 };
    Along {
        bending: grade.bending * minutes,
        pull: grade.pull * minutes,
        push: grade.push * minutes,
        shear: Some(grade.shear * minutes),
        slack,
        shear_slack: slack,
    }
}

impl Along {
    /// The same, of a board that may bear what its species does: a stamped board is no worse than one that nobody looked at.
    /// One figure widens all of it, the greatest.
    pub fn may_bear(self, species: Option<Along>) -> Along {
        let Some(s) = species else { return self };
        let over = |theirs: f64, mine: f64| theirs * s.slack / mine;
        let shear = s.shear.zip(self.shear).map_or(0.0, |(theirs, mine)| theirs * s.shear_slack / mine);
        let most = over(s.bending, self.bending).max(shear);
        Along { slack: self.slack.max(most), shear_slack: self.shear_slack.max(most), ..self }
    }

    /// The same, on the cautious side no more than another in any stress, and on the plain side as much as before: of a board without a
    /// stamp nobody knows that it is better than the lowest class, nor that it is not.
    pub fn no_more_than(self, other: &Along) -> Along {
        let shear = self.shear.map(|s| other.shear.map_or(s, |o| s.min(o)));
        let (bending, pull, push) =
            (self.bending.min(other.bending), self.pull.min(other.pull), self.push.min(other.push));
        // one figure widens what is along the fibres, the greatest
        let lost = (self.bending / bending).max(self.pull / pull).max(self.push / push);
        let sheared = self.shear.zip(shear).map_or(1.0, |(before, now)| before / now);
        Along { bending, pull, push, shear, slack: self.slack * lost, shear_slack: self.shear_slack * sheared }
    }
}

/// By a published strength, of which scatter, heat, water and the kind of load leave a share. A load that lasts or is
/// short is judged with the safety in it; a blow surely breaks beyond the plain strength; repeated loads carry their
/// safety in the factor of the bumps, but not what knots take.
pub(crate) fn by_strength(
    (m, a): (&Material, &Allowance),
    strength: f64,
    (left, safety): (f64, f64),
    lasting: Lasting,
    wooden: bool,
) -> Along {
    let (low, high) = (a.low_grade.unwrap_or(1.0), a.high_grade.unwrap_or(1.0));
    let safety = if lasting == Lasting::Repeated { 1.0 } else { safety };
    let plain = match lasting {
        Lasting::Sustained | Lasting::Short => high / safety,
        Lasting::Impact | Lasting::Repeated => 1.0,
    };
    let bending = strength * left * low / safety;
    let splits = a.low_grade.map_or(1.0, |_| SPLITS);
    let shear = m.shear_strength.or(a.shear.map(|s| s * strength));
    let (pull, push) = along(a, wooden);
    let slack = plain.max(low / safety) / (low / safety);
    Along {
        bending,
        pull: bending * pull,
        push: bending * push,
        shear: shear.map(|s| s * left * splits / safety),
        slack,
        shear_slack: slack,
    }
}

fn along(a: &Allowance, wooden: bool) -> (f64, f64) {
    match wooden {
        true => (a.pull.unwrap_or(ALONG.0), a.push.unwrap_or(ALONG.1)),
        false => (1.0, 1.0),
    }
}

/// What a proof on the bench adds: this board, loaded this way round, bears half of it. It never takes from what is
/// known otherwise, and says nothing of what breaks the board, nor of shear. A bench whose figures make no test adds nothing
/// ([`no_test`] says so).
pub(crate) fn proven(
    known: Along,
    m: &Material,
    a: &Allowance,
    climate: &Climate,
    (lasting, share): (Lasting, f64),
) -> Along {
    let Some((bench, force)) = m.bench.and_then(|b| Some((b, b.proof?))) else { return known };
    let Ok(warmth) = Warmth::of(climate.hot) else { return known };
    if no_test(m) {
        return known;
    }
    let duration = if lasting == Lasting::Sustained { Duration::Permanent } else { Duration::TenMinutes };
    let service = Service { duration, wet: climate.wet, warmth };
    let repeated = if lasting == Lasting::Repeated { share } else { 1.0 };
    let Ok(proof) = proof_stress(&board(&bench), force, service, PROOF) else { return known };
    let stress = proof.value * repeated;
    let (pull, push) = along(a, true);
    let bending = known.bending.max(stress);
    Along {
        bending,
        pull: known.pull.max(stress * pull),
        push: known.push.max(stress * push),
        shear: known.shear,
        slack: (known.bending * known.slack / bending).max(1.0),
        shear_slack: known.shear_slack,
    }
}

/// Whether a bench test of a board has figures that make no test.
pub(crate) fn no_test(m: &Material) -> bool {
    let Some(bench) = &m.bench else { return false };
    let service = Service { duration: Duration::TenMinutes, wet: false, warmth: Warmth::Usual };
    let proof = bench.proof.map(|force| proof_stress(&board(bench), force, service, PROOF));
    matches!(bent(bench), Some(Err(_))) || matches!(proof, Some(Err(_)))
}

/// Whether a bench found a board softer than the lower bound of what it is said to be. A species alone reaches down to its
/// lowest grade.
pub(crate) fn softer_than_said(m: &Material, a: &Allowance) -> bool {
    let Some(Ok(found)) = m.bench.as_ref().and_then(bent) else { return false };
    let said = match &a.grade {
        Some(grade) => Some(grade.modulus),
        None => m.modulus.map(|e| e * a.low_grade.unwrap_or(1.0)),
    };
    said.is_some_and(|e| found < SOUND * e)
}

/// Young's modulus that is reckoned with: as bent on the bench, else of the grade, else of the species, Pa.
pub(crate) fn modulus(design: &Design, m: &Material) -> Option<f64> {
    let bent = m.bench.as_ref().and_then(bent).and_then(Result::ok);
    bent.or_else(|| allowance(design, m)?.grade.map(|g| g.modulus)).or(m.modulus)
}

fn bent(bench: &Bench) -> Option<Result<f64, Refusal>> {
    let (force, deflection) = bench.bent?;
    Some(modulus_by_deflection(&board(bench), Centre { force, deflection }).map(|e| e.value))
}

fn board(b: &Bench) -> Board {
    Board { span: b.span, width: b.width, height: b.height }
}
