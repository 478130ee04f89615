//! What nothing holds, what moves by itself and what must not be, as rows of the JSON report.

use chairwright_design::{Design, Vec3};
use chairwright_strength::{Forbidden, Incompatible, Loose, Never, Stuff, Swing};
use serde::Serialize;

/// Something that nothing holds.
#[derive(Serialize)]
pub(crate) struct LooseJson {
    kind: &'static str,
    name: String,
    /// What it lies on or should reach.
    other: Option<String>,
    gap: Option<f64>,
}

pub(crate) fn loose(d: &Design, l: &Loose) -> LooseJson {
    let row = |kind, name: &str| LooseJson { kind, name: name.to_owned(), other: None, gap: None };
    match l {
        Loose::Member(name) => row("member", name),
        Loose::OpenJoint(j) => row("open joint", &d.joints[*j].name),
        Loose::Unfastened(j) => row("unfastened joint", &d.joints[*j].name),
        Loose::Wheel(name) => row("wheel", name),
        Loose::Support(k) => row("support", &d.supports[*k].name),
        Loose::Panel(k) => row("panel", &d.panels[*k].name),
        Loose::Bands { support, .. } => row("bands", &d.supports[*support].name),
        Loose::Tips { support, on } => {
            LooseJson { other: Some(on.clone()), ..row("tips", &d.supports[*support].name) }
        }
        Loose::Apart { fastening, gap } => {
            let f = &d.fastenings[*fastening];
            LooseJson { other: Some(f.to.clone()), gap: Some(*gap), ..row("apart", &f.what) }
        }
    }
}

/// One way in which the frame moves by itself.
#[derive(Serialize)]
pub(crate) struct SwingJson {
    parts: Vec<String>,
    about: Option<String>,
    axis: Option<[f64; 3]>,
}

pub(crate) fn swing(d: &Design, w: &Swing) -> SwingJson {
    let point = |v: Vec3| [v.x, v.y, v.z];
    SwingJson {
        parts: w.parts.clone(),
        about: w.about.map(|j| d.joints[j].name.clone()),
        axis: w.axis.map(point),
    }
}

/// A refused load path, or things that must not touch.
#[derive(Serialize)]
pub(crate) struct MustNotJson {
    kind: &'static str,
    names: Vec<String>,
}

pub(crate) fn forbidden(f: &Forbidden) -> MustNotJson {
    match f {
        Forbidden::EndGrain { member, .. } => MustNotJson { kind: "end grain", names: vec![member.clone()] },
        Forbidden::Never { name, never, .. } => {
            MustNotJson { kind: never_token(*never), names: vec![name.clone()] }
        }
        Forbidden::Sprung { name, .. } => MustNotJson { kind: "sprung shut", names: vec![name.clone()] },
        Forbidden::Cellular { stock, .. } => MustNotJson { kind: "cellular", names: vec![stock.clone()] },
    }
}

fn never_token(never: Never) -> &'static str {
    match never {
        Never::EndGrainWithdrawal => "end grain withdrawal",
        Never::PanelEdgeWithdrawal => "panel edge withdrawal",
        Never::UnsleevedBoltSustained => "unsleeved bolt sustained",
        Never::ThreadedAdapterBending => "threaded adapter bending",
        Never::CellularCorePipe => "cellular core pipe",
        Never::OneSidedConeAxle => "one sided cone axle",
        Never::EndGrainButtGlue => "end grain butt glue",
        Never::PvaSustainedTension => "pva sustained tension",
        Never::GlueBelowClimate => "glue below climate",
        Never::SlipFittingByCementAlone => "slip fitting by cement alone",
        Never::LooseSocket => "loose socket",
        Never::ImpactFactorOnConnection => "impact factor on connection",
        Never::SprungShut => "sprung shut",
        Never::HalfInserted => "half inserted",
    }
}

pub(crate) fn incompatible(i: &Incompatible) -> MustNotJson {
    match i {
        Incompatible::OnPlastic { what, stuff, .. } => {
            MustNotJson { kind: on_plastic(*stuff), names: vec![what.clone()] }
        }
        Incompatible::Glue { glue, .. } => MustNotJson { kind: "glue", names: vec![glue.clone()] },
        Incompatible::Metals { one, other, .. } => {
            MustNotJson { kind: "metals", names: vec![one.clone(), other.clone()] }
        }
        Incompatible::Poisoned { stock, part, .. } => {
            MustNotJson { kind: "poisoned wood", names: vec![stock.clone(), part.word().to_owned()] }
        }
        Incompatible::BeltInWater { belt, .. } => {
            MustNotJson { kind: "belt in water", names: vec![belt.clone()] }
        }
    }
}

fn on_plastic(stuff: Stuff) -> &'static str {
    match stuff {
        Stuff::PlasticisedVinyl => "vinyl on pvc",
        Stuff::ThreadLocker => "thread locker on pvc",
        _ => "paint on pvc",
    }
}
