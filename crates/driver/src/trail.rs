//! Where a figure comes from, step by step, back to the lines of the text and the catalogue.

use crate::{Compilation, Options, Project};
use chairwright_diagnostics::Span;
use chairwright_language::{Choice, Program};
use std::collections::BTreeSet;

/// Steps that one derivation shows, and how deep it goes.
const STEPS: usize = 160;
const DEPTH: usize = 9;

/// One step of a derivation.
#[derive(Clone, Debug)]
pub struct Step {
    /// What it is called.
    pub name: String,
    /// What it comes to, where that is known.
    pub value: Option<chairwright_quantity::Quantity>,
    /// The formula, for a figure.
    pub formula: Option<String>,
    /// Where the formula or the catalogue's figures are from.
    pub source: Option<String>,
    /// The line that says it.
    pub span: Option<Span>,
    /// Whether it is shown further up already.
    pub again: bool,
    /// What it was made from.
    pub from: Vec<Step>,
}

struct Tracer<'a> {
    program: Program<'a>,
    compilation: &'a Compilation,
    shown: BTreeSet<String>,
    left: usize,
}

impl Project {
    /// The derivation of a figure, a parameter, a joint or any other name of the design.
    pub fn trail(&mut self, options: &Options, c: &Compilation, name: &str) -> Option<Step> {
        let (settings, _) = self.settings(&options.settings);
        let choice = Choice {
            variant: options.variant.as_deref(),
            state: options.situation.state.as_deref(),
            picks: &options.situation.picks,
            settings: &settings,
            nudge: options.nudge,
            shelf: Some(chairwright_catalogue::shelf),
            ..Choice::default()
        };
        let (program, _) = self.program(choice);
        let known = c.figures.0.contains_key(name) || program.trace(name).is_some();
        let mut tracer = Tracer { program, compilation: c, shown: BTreeSet::new(), left: STEPS };
        known.then(|| tracer.step(name, 0))
    }
}

impl Tracer<'_> {
    fn step(&mut self, name: &str, depth: usize) -> Step {
        let figure = self.compilation.figures.0.get(name);
        let trace = self.program.trace(name);
        let again = !self.shown.insert(name.to_owned());
        self.left = self.left.saturating_sub(1);
        let mut step = Step {
            name: name.to_owned(),
            value: figure.map(|f| f.value),
            formula: figure.map(|f| f.formula.clone()),
            source: figure
                .map(|f| f.source.to_owned())
                .or_else(|| trace.as_ref().and_then(|t| t.source.clone())),
            span: trace.as_ref().map(|t| t.span),
            again,
            from: Vec::new(),
        };
        if again || depth >= DEPTH {
            return step;
        }
        for input in figure.iter().flat_map(|f| &f.inputs) {
            step.from.push(Step {
                name: input.name.clone(),
                value: Some(input.value),
                formula: None,
                source: None,
                span: None,
                again: false,
                from: Vec::new(),
            });
        }
        let mut next = if figure.is_some() { self.behind(name) } else { Vec::new() };
        next.extend(trace.into_iter().flat_map(|t| t.leans_on));
        for name in next {
            if self.left == 0 {
                break;
            }
            if self.program.trace(&name).is_some() || self.compilation.figures.0.contains_key(&name) {
                step.from.push(self.step(&name, depth + 1));
            }
        }
        step
    }

    /// What a figure is worked out from, by its family.
    fn behind(&self, figure: &str) -> Vec<String> {
        let d = &self.compilation.design;
        let names = |list: &[&str]| list.iter().map(|n| (*n).to_owned()).collect::<Vec<_>>();
        let wheels = || d.wheels.iter().map(|w| w.name.clone()).chain(d.casters.iter().map(|c| c.name.clone()));
        let supports = || d.supports.iter().map(|s| s.name.clone());
        let (family, rest) = figure.split_once('.').unwrap_or((figure, ""));
        match (family, rest) {
            ("length" | "cut", piece) => self.member_of(piece),
            ("stem", r) => r.strip_prefix("lean.").map(|n| vec![n.to_owned()]).unwrap_or_default(),
            ("caster", r) => r.strip_prefix("trail.").map(|n| vec![n.to_owned()]).unwrap_or_default(),
            ("tip", "side") => names(&["tip.left", "tip.right"]),
            ("tip" | "load", _) => {
                names(&["com.total.ahead", "com.total.height"]).into_iter().chain(wheels()).collect()
            }
            ("com", r) if r.starts_with("total") => {
                names(&["com.chair.ahead", "com.chair.height", "mass.chair", "mass.rider"])
                    .into_iter()
                    .chain(["rider.mass", "rider.stature", "rider.thigh"].map(str::to_owned))
                    .collect()
            }
            ("push" | "drift" | "climb" | "stop" | "slide", _) => {
                names(&["mass.total", "com.total.ahead", "com.total.height"])
                    .into_iter()
                    .chain(wheels())
                    .collect()
            }
            ("brake", "holds") => d.items.iter().map(|i| i.name.clone()).collect(),
            ("brake", _) => names(&["mass.total"]),
            ("door" | "corridor" | "corner", _) => names(&["width.overall", "length.occupied"]),
            ("turn", "radius") => names(&["tip.side"]),
            ("table" | "transfer", _) => supports().chain(wheels()).collect(),
            ("packed", "mass") => names(&["mass.chair", "mass.wheels.rear"]),
            ("packed", _) => Vec::new(),
            ("com", _) => names(&["mass.chair"]).into_iter().chain(wheels()).collect(),
            ("mass", "total") => names(&["mass.chair", "mass.rider"]),
            ("mass", "rider") => names(&["rider.mass"]),
            ("mass", "chair") => {
                let items = d.items.iter().map(|i| i.name.clone());
                names(&["mass.frame"]).into_iter().chain(wheels()).chain(items).collect()
            }
            ("mass", "frame") => d.stocks.values().map(|s| format!("\"{}\"", s.name)).collect(),
            ("seat" | "back" | "footrest", _) => supports().chain(wheels()).collect(),
            ("count" | "waste" | "buy" | "cost", _) => Vec::new(),
            _ => wheels().collect(),
        }
    }

    /// The member that a piece is cut from, with its stock and the fittings at its joints.
    fn member_of(&self, piece: &str) -> Vec<String> {
        let c = self.compilation;
        let of = c.frame.pieces.iter().find(|p| p.name == piece).map_or(piece, |p| p.of.as_str());
        let Some(member) = c.design.members.values().find(|m| m.name == of) else { return Vec::new() };
        let joints = [member.start, member.end];
        let middle = member.middle.iter().map(|m| m.joint);
        let mut out = vec![member.name.clone(), format!("\"{}\"", c.design.stocks[member.stock].name)];
        for placed in
            c.frame.fittings.iter().filter(|f| joints.into_iter().chain(middle.clone()).any(|j| j == f.joint))
        {
            let name = format!("\"{}\"", c.design.fittings[placed.fitting].name);
            if !out.contains(&name) {
                out.push(name);
            }
        }
        out
    }
}
