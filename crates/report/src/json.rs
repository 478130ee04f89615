//! The report as JSON, with a published schema. All values in SI units (angles in radians).

use crate::json_marks::{MarkedJson, marked};
use crate::json_rider::{
    AngleJson, BalanceJson, BesideJson, BuiltJson, FitJson, ParamJson, StateJson, angles, balance, beside,
    built, fit, params, states,
};
use crate::json_sheet::{ReleaseJson, SheetJson, release, sheet};
use crate::json_trust::{
    AcceptedJson, AncestorJson, LoadJson, ProfileJson, ValueJson, WeightJson, accepted, ancestors, loads,
    profile, values, weights,
};
use chairwright_cost::FromShed;
use chairwright_diagnostics::{DiagnosticRow, Sources, json_rows};
use chairwright_driver::Compilation;
use chairwright_frame::{Cut, Drilled, Frame};
use chairwright_making::extent;
use chairwright_quantity::Quantity;
use serde::Serialize;
use std::collections::BTreeMap;

/// The schema of the JSON report.
pub const SCHEMA: &str = include_str!("../schema/report.json");

#[derive(Serialize)]
struct InputRow {
    name: String,
    value: f64,
    unit: String,
}

#[derive(Serialize)]
struct FigureRow {
    value: f64,
    unit: String,
    text: String,
    formula: String,
    source: &'static str,
    inputs: Vec<InputRow>,
    partial: bool,
}

#[derive(Serialize)]
struct CutJson {
    pieces: Vec<String>,
    count: usize,
    stock: String,
    length: f64,
    width: Option<f64>,
    outline: Option<Vec<(f64, f64)>>,
    ends: String,
    mirrored: bool,
    holes: Vec<HoleJson>,
}

#[derive(Serialize)]
struct HoleJson {
    name: String,
    from_end: f64,
    diameter: f64,
    length: f64,
    toward: String,
}

#[derive(Serialize)]
struct BillJson {
    key: String,
    class: String,
    needed: String,
    buy: Option<u32>,
    sale_unit: String,
    price: Option<String>,
    total: Option<String>,
    currency: Option<String>,
    supplier: String,
    date: String,
    on_hand: OnHandJson,
}

#[derive(Serialize)]
struct OnHandJson {
    count: u32,
    metres: f64,
    pieces: Vec<String>,
}

#[derive(Serialize)]
struct TotalJson {
    total: Option<String>,
    currency: Option<String>,
    at_least: bool,
    unpriced: Vec<String>,
}

#[derive(Serialize)]
struct MemberJson {
    name: String,
    stock: String,
    from: String,
    to: String,
    length: f64,
    pieces: Vec<String>,
}

#[derive(Serialize)]
struct JointJson {
    name: String,
    at: [f64; 3],
    settled: Option<[f64; 3]>,
    members: Vec<String>,
    closed_by: Option<String>,
    chosen_by_design: Option<bool>,
}

#[derive(Serialize)]
struct DemandJson {
    demand: String,
    required: bool,
    verdict: &'static str,
    reason: Option<String>,
}

#[derive(Serialize)]
struct Report {
    format: &'static str,
    version: u32,
    design: String,
    revision: Option<String>,
    licence: Option<String>,
    variant: Option<String>,
    state: Option<String>,
    made_from: Vec<AncestorJson>,
    profile: Option<ProfileJson>,
    params: Vec<ParamJson>,
    balance: Option<BalanceJson>,
    tipping_angles: Vec<AngleJson>,
    fit: FitJson,
    states: Vec<StateJson>,
    as_built: Vec<BuiltJson>,
    beside: Vec<BesideJson>,
    release: ReleaseJson,
    test_sheet: Option<SheetJson>,
    figures: BTreeMap<String, FigureRow>,
    demands: Vec<DemandJson>,
    cuts: Vec<CutJson>,
    marks: Vec<MarkedJson>,
    bill: Vec<BillJson>,
    bill_total: TotalJson,
    strength: Option<crate::json_strength::StrengthJson>,
    members: Vec<MemberJson>,
    joints: Vec<JointJson>,
    loads: Vec<LoadJson>,
    values: Vec<ValueJson>,
    diagnostics: Vec<DiagnosticRow>,
    accepted: Vec<AcceptedJson>,
    weights: Vec<WeightJson>,
    assumptions: Vec<String>,
    cautions: Vec<&'static str>,
}

/// The report as JSON.
///
/// # Errors
/// Only when a value cannot be written as JSON, which no compilation makes.
pub fn json(c: &Compilation, sources: &Sources) -> Result<String, serde_json::Error> {
    let d = &c.design;
    let report = Report {
        format: "chairwright report",
        version: 1,
        design: d.name.clone(),
        revision: d.revision.clone(),
        licence: d.licence.clone(),
        variant: d.variant.clone(),
        state: d.state.clone(),
        made_from: ancestors(d),
        profile: d.profile.as_ref().map(|p| profile(c, p)),
        params: params(d),
        balance: balance(c),
        tipping_angles: angles(c),
        fit: fit(d),
        states: states(c),
        as_built: built(c),
        beside: beside(c),
        release: release(c),
        test_sheet: sheet(c),
        figures: figures(c),
        demands: demands(c, sources),
        cuts: cuts(c),
        marks: marked(c),
        bill: c.bill.rows.iter().map(bill_row).chain(c.bill.used_up.iter().map(used_row)).collect(),
        bill_total: TotalJson {
            total: c.bill.total.map(amount),
            currency: c.bill.total.and_then(currency),
            at_least: c.bill.is_least(),
            unpriced: c.bill.unpriced.clone(),
        },
        strength: crate::json_strength::strength(c),
        members: members(c),
        joints: joints(c),
        loads: loads(d),
        values: values(c),
        diagnostics: json_rows(sources, &c.problems),
        accepted: accepted(c, sources),
        weights: weights(c),
        assumptions: c.assumptions.clone(),
        cautions: crate::CAUTION.to_vec(),
    };
    let mut text = serde_json::to_string_pretty(&report)?;
    text.push('\n');
    Ok(text)
}

fn amount(q: Quantity) -> String {
    format!("{:.2}", q.si())
}

fn currency(q: Quantity) -> Option<String> {
    q.dimension.money.map(|(c, _)| c.code())
}

fn figures(c: &Compilation) -> BTreeMap<String, FigureRow> {
    let row = |q: Quantity| (q.si(), q.dimension.to_string());
    c.figures
        .0
        .iter()
        .map(|(name, f)| {
            let (value, unit) = row(f.value);
            let inputs = f
                .inputs
                .iter()
                .map(|i| {
                    let (value, unit) = row(i.value);
                    InputRow { name: i.name.clone(), value, unit }
                })
                .collect();
            let text = crate::text::value(c.display(), name, f.value);
            let (formula, source) = (f.formula.clone(), f.source);
            let figure = FigureRow { value, unit, text, formula, source, inputs, partial: f.partial };
            (name.clone(), figure)
        })
        .collect()
}

/// How something that is asked for stands.
pub(crate) fn stands_token(stands: chairwright_driver::Stands) -> &'static str {
    match stands {
        chairwright_driver::Stands::Met => "pass",
        chairwright_driver::Stands::Unmet => "fail",
        chairwright_driver::Stands::CannotTell => "cannot tell",
    }
}

fn demands(c: &Compilation, sources: &Sources) -> Vec<DemandJson> {
    c.verdicts
        .iter()
        .map(|v| DemandJson {
            demand: sources.slice(v.span).split_whitespace().collect::<Vec<_>>().join(" "),
            required: v.required,
            verdict: stands_token(chairwright_driver::stands(c, v)),
            reason: v.reason.clone(),
        })
        .collect()
}

fn cuts(c: &Compilation) -> Vec<CutJson> {
    c.cuts
        .iter()
        .map(|row| {
            let (length, width, outline) = match &row.cut {
                Cut::Length(l) | Cut::Band(l) => (*l, None, None),
                Cut::Sheet { outline } => {
                    let (l, w) = extent(outline);
                    (l, Some(w), Some(outline.clone()))
                }
            };
            CutJson {
                pieces: row.names.clone(),
                count: row.names.len(),
                stock: c.design.stocks[row.stock].name.clone(),
                length,
                width,
                outline,
                ends: row.ends.clone(),
                mirrored: row.handed,
                holes: row.holes.iter().map(hole).collect(),
            }
        })
        .collect()
}

fn bill_row(row: &chairwright_cost::BillRow) -> BillJson {
    BillJson {
        key: row.key.clone(),
        class: format!("{:?}", row.class).to_lowercase(),
        needed: row.needed.clone(),
        buy: row.buy,
        sale_unit: row.unit.clone(),
        price: row.price.map(amount),
        total: row.total.map(amount),
        currency: row.price.and_then(currency),
        supplier: row.supplier.clone(),
        date: row.date.clone(),
        on_hand: on_hand(&row.on_hand),
    }
}

fn used_row(used: &chairwright_cost::UsedUp) -> BillJson {
    BillJson {
        key: used.key.clone(),
        class: "supply".to_owned(),
        needed: used.needed(),
        buy: None,
        sale_unit: crate::text_making::AS_NEEDED.to_owned(),
        price: None,
        total: None,
        currency: None,
        supplier: String::new(),
        date: String::new(),
        on_hand: on_hand(&FromShed::default()),
    }
}

fn hole(h: &Drilled) -> HoleJson {
    HoleJson {
        name: h.name.clone(),
        from_end: h.from_end,
        diameter: h.diameter,
        length: h.long,
        toward: h.toward.clone(),
    }
}

fn on_hand(from: &FromShed) -> OnHandJson {
    let bars = from.bars.iter().flat_map(|b| &b.pieces).map(|p| p.0.clone());
    let sheets = from.sheets.iter().flat_map(|s| &s.pieces).map(|p| p.name.clone());
    OnHandJson { count: from.count, metres: from.metres, pieces: bars.chain(sheets).collect() }
}

fn pieces_of(frame: &Frame, member: &str) -> Vec<String> {
    frame.pieces.iter().filter(|p| p.of == member).map(|p| p.name.clone()).collect()
}

fn members(c: &Compilation) -> Vec<MemberJson> {
    let joints = &c.design.joints;
    c.design
        .members
        .values()
        .map(|m| MemberJson {
            name: m.name.clone(),
            stock: c.design.stocks[m.stock].name.clone(),
            from: joints[m.start].name.clone(),
            to: joints[m.end].name.clone(),
            length: (joints[m.end].at - joints[m.start].at).norm(),
            pieces: pieces_of(&c.frame, &m.name),
        })
        .collect()
}

fn joints(c: &Compilation) -> Vec<JointJson> {
    let as_array = |v: chairwright_design::Vec3| [v.x, v.y, v.z];
    c.design
        .joints
        .iter()
        .map(|(id, j)| {
            let report = c.frame.joints.iter().find(|r| r.joint == id);
            JointJson {
                name: j.name.clone(),
                at: as_array(j.at),
                settled: c.checked.settled.as_ref().map(|s| as_array(s.pose.place(j.at))),
                members: report
                    .map(|r| r.members.iter().map(|m| c.design.members[*m].name.clone()).collect())
                    .unwrap_or_default(),
                closed_by: report.map(|r| r.closed_by.clone()),
                chosen_by_design: report.map(|r| r.chosen_by_design),
            }
        })
        .collect()
}
