//! What a result rests on, as rows of the JSON report.

use chairwright_checks::Margin;
use chairwright_design::{Design, Known, Profile};
use chairwright_diagnostics::{DiagnosticRow, Sources, json_rows};
use chairwright_driver::{Compilation, Effect, Influence, margin_stands};
use serde::Serialize;

/// A plan that this one is made from.
#[derive(Serialize)]
pub(crate) struct AncestorJson {
    design: String,
    revision: Option<String>,
    licence: Option<String>,
}

/// The use profile.
#[derive(Serialize)]
pub(crate) struct ProfileJson {
    name: String,
    for_whom: String,
    reviewed_by: String,
    dated: String,
    source: String,
    margins: Vec<MarginJson>,
}

/// One margin of the use profile; slopes in radians.
#[derive(Serialize)]
struct MarginJson {
    figure: &'static str,
    value: Option<f64>,
    wanted: f64,
    verdict: &'static str,
}

/// An extra load case.
#[derive(Serialize)]
pub(crate) struct LoadJson {
    name: String,
    joint: String,
    force: [f64; 3],
    lasting: &'static str,
    origin: Option<&'static str>,
}

/// A value that the text gives.
#[derive(Serialize)]
pub(crate) struct ValueJson {
    name: String,
    value: f64,
    unit: String,
    tolerance: Option<f64>,
    origin: Option<&'static str>,
    by: Option<String>,
    dated: Option<String>,
    /// How much of the tightest margin its tolerance can use up; 1 uses it up.
    influence: Option<f64>,
    moves: Option<String>,
    /// All that it moves, the most of its margin first.
    effects: Vec<EffectJson>,
}

/// What a value moves, in SI units.
#[derive(Serialize)]
pub(crate) struct EffectJson {
    figure: String,
    change: f64,
    /// The room to what is asked, if something is.
    margin: Option<f64>,
}

fn effect(e: &Effect) -> EffectJson {
    EffectJson { figure: e.figure.clone(), change: e.change.si(), margin: e.margin.map(|m| m.si()) }
}

/// A finding that the text accepts.
#[derive(Serialize)]
pub(crate) struct AcceptedJson {
    finding: DiagnosticRow,
    reason: String,
}

/// A code that the text weighs otherwise.
#[derive(Serialize)]
pub(crate) struct WeightJson {
    code: &'static str,
    severity: &'static str,
    registered: &'static str,
    reason: Option<String>,
}

pub(crate) fn ancestors(d: &Design) -> Vec<AncestorJson> {
    let row = |(design, revision, licence): &(String, Option<String>, Option<String>)| AncestorJson {
        design: design.clone(),
        revision: revision.clone(),
        licence: licence.clone(),
    };
    d.made_from.iter().map(row).collect()
}

pub(crate) fn profile(c: &Compilation, p: &Profile) -> ProfileJson {
    let margin = |m: &Margin| MarginJson {
        figure: m.figure,
        value: m.has,
        wanted: m.slope + m.margin,
        verdict: crate::json::stands_token(margin_stands(c, m.figure, m.holds())),
    };
    ProfileJson {
        name: p.name.clone(),
        for_whom: p.for_whom.clone(),
        reviewed_by: p.reviewed_by.clone(),
        dated: p.dated.clone(),
        source: p.source.clone(),
        margins: c.checked.margins.iter().map(margin).collect(),
    }
}

pub(crate) fn loads(d: &Design) -> Vec<LoadJson> {
    d.loads
        .iter()
        .map(|l| LoadJson {
            name: l.name.clone(),
            joint: d.joints[l.joint].name.clone(),
            force: [l.force.x, l.force.y, l.force.z],
            lasting: l.lasts.word(),
            origin: l.basis.map(|b| b.word()),
        })
        .collect()
}

pub(crate) fn values(c: &Compilation) -> Vec<ValueJson> {
    c.design.known.iter().map(|k| value(c, k)).collect()
}

fn value(c: &Compilation, k: &Known) -> ValueJson {
    let influence = c.influences.iter().find(|i| i.known.name == k.name);
    ValueJson {
        name: k.name.clone(),
        value: k.nominal,
        unit: k.unit.clone(),
        tolerance: k.spread,
        origin: k.basis.map(|b| b.word()),
        by: k.by.clone(),
        dated: k.dated.clone(),
        influence: influence.map(|i| i.weight),
        moves: influence.and_then(Influence::effect).map(|e| e.figure.clone()),
        effects: influence.map_or(Vec::new(), |i| i.effects.iter().map(effect).collect()),
    }
}

pub(crate) fn accepted(c: &Compilation, sources: &Sources) -> Vec<AcceptedJson> {
    let rows = c.accepted.iter().map(|a| {
        let finding = json_rows(sources, std::slice::from_ref(&a.finding)).pop()?;
        Some(AcceptedJson { finding, reason: a.reason.clone() })
    });
    rows.flatten().collect()
}

pub(crate) fn weights(c: &Compilation) -> Vec<WeightJson> {
    c.reweighed
        .iter()
        .map(|w| WeightJson {
            code: w.code.name,
            severity: w.severity.token(),
            registered: w.code.severity.token(),
            reason: w.reason.clone(),
        })
        .collect()
}
