//! Whether the chair holds, as rows of the JSON report: everything that was judged, with its load cases.
//! Uses are shares (1 is all), stresses Pa, forces N; `null` stands for what is beyond all bounds.

use crate::json_beside::{
    BentJson, LifeJson, LostJson, MendJson, RefusedJson, bent, life, lost, mends, refused,
};
use crate::json_loose::{LooseJson, MustNotJson, SwingJson, forbidden, incompatible, loose, swing};
use chairwright_design::Design;
use chairwright_driver::{
    Compilation, assumed_words, beside_words, case_name, case_words, doubt_words, mode_words, source_words,
    taken_words, unchecked_words, unknown_words,
};
use chairwright_strength::{
    Beneath, Case, CaseKind, End, Item, Lasting, Mode, Of, Strength, Swung, TieOf, Turned, Under, Unknown,
    Untold, What,
};
use serde::Serialize;

/// Everything about strength; `None` where there is nothing to judge.
#[derive(Serialize)]
pub(crate) struct StrengthJson {
    verdict: &'static str,
    /// Mass of the rider that loads are taken for.
    rider_mass: f64,
    climate: Option<ClimateJson>,
    cases: Vec<CaseJson>,
    items: Vec<ItemJson>,
    untold: Vec<UntoldJson>,
    refused: Vec<RefusedJson>,
    loose: Vec<LooseJson>,
    swings: Vec<SwingJson>,
    forbidden: Vec<MustNotJson>,
    incompatible: Vec<MustNotJson>,
    lost: Vec<LostJson>,
    mends: Vec<MendJson>,
    lives: Vec<LifeJson>,
    buckling: Option<f64>,
    buckling_lasting: Option<f64>,
    sag: Option<f64>,
    narrow: Option<f64>,
    give: f64,
    drop_factor: Option<f64>,
    softer: Option<f64>,
    softest: Option<SoftestJson>,
    turned: Vec<TurnedJson>,
    leaned: Vec<LeanedJson>,
    seat_turned: Option<f64>,
    seat_height: Option<f64>,
    under_seat: Option<UnderJson>,
    doubts: Vec<DoubtJson>,
    residual: f64,
    feet: Vec<FootJson>,
    assumptions: Vec<String>,
    unchecked: Vec<String>,
    bent: Vec<BentJson>,
}

#[derive(Serialize)]
struct ClimateJson {
    hot: f64,
    cold: Option<f64>,
    wet: bool,
}

/// The joint that moves the greatest use most when it alone gives way.
#[derive(Serialize)]
struct SoftestJson {
    name: String,
    change: f64,
}

/// A rear wheel after years under the seated rider.
#[derive(Serialize)]
struct TurnedJson {
    side: &'static str,
    toe: f64,
    toe_change: f64,
    camber: f64,
    camber_change: f64,
}

impl TurnedJson {
    fn new(t: &Turned) -> TurnedJson {
        TurnedJson {
            side: t.side.word(),
            toe: t.toe.0 + t.toe.1,
            toe_change: t.toe.1,
            camber: t.camber.0 + t.camber.1,
            camber_change: t.camber.1,
        }
    }
}

/// What lies under the seat first, that does not carry it.
#[derive(Serialize)]
struct UnderJson {
    what: &'static str,
    name: String,
    below: f64,
}

impl UnderJson {
    fn new(u: &Under) -> UnderJson {
        let what = match u.what {
            Beneath::Frame => "frame",
            Beneath::Wheel => "wheel",
            Beneath::Caster => "caster",
        };
        UnderJson { what, name: u.name.clone(), below: u.by }
    }
}

/// A caster's stem after years under the seated rider.
#[derive(Serialize)]
struct LeanedJson {
    caster: usize,
    lean: f64,
    drawn: f64,
    back: f64,
    outward: f64,
}

impl LeanedJson {
    fn new(l: &chairwright_strength::Leaned) -> LeanedJson {
        LeanedJson { caster: l.caster, lean: l.lean.1, drawn: l.lean.0, back: l.by.0, outward: l.by.1 }
    }
}

/// Something that holds in the main computation and is not called sound.
#[derive(Serialize)]
struct DoubtJson {
    name: String,
    why: String,
}

#[derive(Serialize)]
struct CaseJson {
    kind: &'static str,
    bare: bool,
    casters: &'static str,
    name: String,
    words: String,
    size: f64,
    size_unit: &'static str,
    lasting: &'static str,
    source: String,
    computed: bool,
    first: Option<FirstJson>,
}

/// What gives first in a case.
#[derive(Serialize)]
struct FirstJson {
    name: String,
    cautious: Option<f64>,
}

#[derive(Serialize)]
struct UseJson {
    plain: Option<f64>,
    cautious: Option<f64>,
}

#[derive(Serialize)]
struct ItemJson {
    name: String,
    what: &'static str,
    mode: &'static str,
    mode_words: &'static str,
    case: usize,
    at: f64,
    #[serde(rename = "use")]
    used: UseJson,
    demand: f64,
    bears: f64,
    unit: &'static str,
    verdict: &'static str,
}

#[derive(Serialize)]
struct UntoldJson {
    name: String,
    reason: &'static str,
    words: String,
    lasting: Vec<&'static str>,
}

#[derive(Serialize)]
struct FootJson {
    name: String,
    force: f64,
}

pub(crate) fn strength(c: &Compilation) -> Option<StrengthJson> {
    let (s, d) = (&c.strength, &c.design);
    s.judged.then(|| StrengthJson {
        verdict: verdict_token(s.verdict()),
        rider_mass: s.mass,
        climate: s.climate.map(|k| ClimateJson { hot: k.hot, cold: k.cold, wet: k.wet }),
        cases: (0..s.cases.len()).map(|k| case(d, s, k)).collect(),
        items: s.items.iter().map(item).collect(),
        untold: s.untold.iter().map(|u| untold(c, u)).collect(),
        refused: s.refused.iter().map(refused).collect(),
        loose: s.loose.iter().map(|l| loose(d, l)).collect(),
        swings: s.swings.iter().map(|w| swing(d, w)).collect(),
        forbidden: s.forbidden.iter().map(forbidden).collect(),
        incompatible: s.incompatible.iter().map(incompatible).collect(),
        lost: s.lost.iter().map(lost).collect(),
        mends: mends(c),
        lives: s.lives.iter().map(life).collect(),
        buckling: s.buckling.and_then(finite),
        buckling_lasting: s.buckling_lasting.and_then(finite),
        sag: s.sag,
        narrow: s.narrow,
        give: s.give,
        drop_factor: finite(s.drop),
        softer: s.softer,
        softest: s.softest.clone().map(|(name, change)| SoftestJson { name, change }),
        turned: s.turned.iter().map(TurnedJson::new).collect(),
        leaned: s.leaned.iter().map(LeanedJson::new).collect(),
        seat_turned: s.seat_turned,
        seat_height: s.seat_height,
        under_seat: s.under_seat.as_ref().map(UnderJson::new),
        doubts: s
            .doubts
            .iter()
            .map(|(name, why)| DoubtJson { name: name.clone(), why: doubt_words(why) })
            .collect(),
        residual: s.residual,
        feet: s.feet.iter().map(|(name, force)| FootJson { name: name.clone(), force: *force }).collect(),
        assumptions: s
            .assumed
            .iter()
            .map(assumed_words)
            .chain(s.taken.iter().map(|t| taken_words(d, t)))
            .collect(),
        unchecked: s
            .beside
            .iter()
            .map(|b| beside_words(d, b))
            .chain(s.left_out.iter().map(unchecked_words))
            .collect(),
        bent: s.bent.iter().map(bent).collect(),
    })
}

/// Numbers that JSON cannot hold are left out.
pub(crate) fn finite(x: f64) -> Option<f64> {
    Some(x).filter(|x| x.is_finite())
}

pub(crate) fn verdict_token(v: chairwright_strength::Verdict) -> &'static str {
    match v {
        chairwright_strength::Verdict::Pass => "pass",
        chairwright_strength::Verdict::CannotTell => "cannot tell",
        chairwright_strength::Verdict::Fail => "fail",
    }
}

fn case(d: &Design, s: &Strength, k: usize) -> CaseJson {
    let case: &Case = &s.cases[k];
    let first = s.worst_of_case.get(k).and_then(Option::as_ref);
    CaseJson {
        kind: kind(&case.kind),
        bare: matches!(case.kind, CaseKind::Bare(_)),
        casters: casters(&case.kind),
        name: case_name(d, &case.kind),
        words: case_words(d, &case.kind),
        size: case.size,
        size_unit: if crate::text_cases::is_force(&case.kind) { "N" } else { "1" },
        lasting: lasting(case.lasting),
        source: source_words(&case.source),
        computed: !s.refused.iter().any(|r| r.case == Some(k)),
        first: first.map(|(name, used)| FirstJson { name: name.clone(), cautious: finite(*used) }),
    }
}

/// How the casters stand.
fn casters(of: &CaseKind) -> &'static str {
    match of {
        CaseKind::Bare(inner) => casters(inner),
        CaseKind::Swung(Swung::Ahead, _) => "ahead",
        CaseKind::Swung(Swung::Outward, _) => "outward",
        _ => "trailing",
    }
}

fn kind(of: &CaseKind) -> &'static str {
    match of {
        CaseKind::Seated => "seated",
        CaseKind::Bumps => "bumps",
        CaseKind::LeaningBack => "leaning back",
        CaseKind::OneWheelOff(_) => "one wheel off",
        CaseKind::Diagonal(..) => "diagonal",
        CaseKind::CasterStrike { .. } => "caster strike",
        CaseKind::Drop(_) => "drop",
        CaseKind::Landing(End::Front, _) => "forward off a kerb",
        CaseKind::Landing(End::Rear, _) => "backward off a kerb",
        CaseKind::Transfer(_) => "transfer",
        CaseKind::Arm(_) | CaseKind::ArmEnd(..) => "arm",
        CaseKind::Standing => "standing",
        CaseKind::Lift(_) => "lift",
        CaseKind::Pushing => "pushing",
        CaseKind::Declared(_) => "declared",
        CaseKind::TippedBack => "tipped back",
        CaseKind::Bare(inner) | CaseKind::Swung(_, inner) => kind(inner),
    }
}

fn lasting(l: Lasting) -> &'static str {
    match l {
        Lasting::Sustained => "sustained",
        Lasting::Short => "short",
        Lasting::Impact => "impact",
        Lasting::Repeated => "repeated",
    }
}

fn item(i: &Item) -> ItemJson {
    ItemJson {
        name: i.name.clone(),
        what: what(i.what),
        mode: mode(i.mode),
        mode_words: mode_words(i.mode),
        case: i.case,
        at: i.at,
        used: UseJson { plain: finite(i.most.0), cautious: finite(i.most.1) },
        demand: i.demand,
        bears: i.bears,
        unit: if matches!(i.mode, Mode::Bearing | Mode::Head | Mode::Screws | Mode::Buckling) {
            "N"
        } else {
            "Pa"
        },
        verdict: verdict_token(i.verdict),
    }
}

fn what(w: What) -> &'static str {
    match w {
        What::Bar(of) => bar(of),
        What::Joint(_) | What::Tie(TieOf::Joint(_)) => "joint",
        What::Tie(TieOf::Fastening(_)) => "fastening",
        What::Tie(TieOf::Bearing(_)) => "support",
        What::Tie(TieOf::Wheel(_)) => "wheel",
        What::Tie(TieOf::Caster(_)) => "caster",
        What::Tie(TieOf::Sheet | TieOf::Part) => "part",
    }
}

pub(crate) fn bar(of: Of) -> &'static str {
    match of {
        Of::Member(_) => "member",
        Of::Box(_) => "box",
        Of::Support(_) => "support",
        Of::Panel(_) => "panel",
    }
}

fn mode(m: Mode) -> &'static str {
    match m {
        Mode::Bending => "bending",
        Mode::Shear => "shear",
        Mode::Hole => "hole",
        Mode::Sleeve => "sleeve",
        Mode::Cement => "cement",
        Mode::SocketBending => "socket bending",
        Mode::Bearing => "bearing",
        Mode::Head => "head",
        Mode::Screws => "screws",
        Mode::Glue => "glue",
        Mode::Plates => "plates",
        Mode::Buckling => "buckling",
    }
}

fn untold(c: &Compilation, u: &Untold) -> UntoldJson {
    UntoldJson {
        name: u.name.clone(),
        reason: match u.why {
            Unknown::Strength(_) => "no strength",
            Unknown::Allowance(_) => "no allowance",
            Unknown::Kind(..) => "kind of load",
            Unknown::TooHot(_) => "too hot",
            Unknown::Brittle(_) => "brittle",
            Unknown::Joint(_) | Unknown::Held { .. } => "joint",
            Unknown::Softer(_) => "softer than its grade",
            Unknown::Shear(_) => "no shear strength",
            Unknown::Stiffness(_) => "no stiffness",
            Unknown::Wet(_) => "wet",
            Unknown::Cold(_) => "unknown cold",
            Unknown::Bench(_) => "bench test",
            Unknown::Hole => "hole",
            Unknown::Slot | Unknown::Row => "slot",
            Unknown::Edgewise => "turns over on edge",
            Unknown::Corners(_) => "corners",
            Unknown::Cloth(_) => "cloth",
            Unknown::Nobody => "no check",
        },
        words: unknown_words(&u.why, c.display()),
        lasting: u.kinds.iter().map(|l| lasting(*l)).collect(),
    }
}
