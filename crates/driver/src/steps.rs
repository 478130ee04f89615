//! What a state changes: parts to make or buy, and what they cost beyond the chair as it is first built.

use crate::{Compilation, Options, Project};
use chairwright_design::{Closing, Design};
use chairwright_frame::{Cut, Frame, Piece};
use chairwright_language::{Choice, Situation};
use chairwright_quantity::Quantity;

/// One state beside the chair as drawn.
#[derive(Clone, Debug)]
pub struct Step {
    /// The state.
    pub state: String,
    /// How much later it is for the rider, in seconds.
    pub after: Option<f64>,
    /// Parameters that it changes: name, from, to.
    pub set: Vec<(String, String, String)>,
    /// Pieces that are cut anew or otherwise, in words.
    pub pieces: Vec<String>,
    /// What is left out.
    pub without: Vec<String>,
    /// Price of what is made or bought anew, in whole sale units; `None` without prices.
    pub cost: Option<Quantity>,
    /// What of it has no price, cement and glue among it: the cost is at least so much.
    pub unpriced: Vec<String>,
    /// Whether something about it must be mended.
    pub errors: usize,
}

impl Project {
    /// Every state of the variant that is looked at, compared with the chair as drawn; and the rules of fit that some of
    /// them departs from.
    pub(crate) fn steps(&mut self, options: &Options, drawn: &Compilation) -> (Vec<Step>, Vec<String>) {
        if options.situation != Situation::default() {
            return (Vec::new(), Vec::new());
        }
        let states: Vec<Situation> = {
            let (program, _) =
                self.program(Choice { variant: options.variant.as_deref(), ..Choice::default() });
            program.situations().0.into_iter().filter(|s| s.state.is_some() && s.picks.is_empty()).collect()
        };
        let (mut steps, mut departed) = (Vec::new(), Vec::new());
        for situation in states {
            let Some(state) = situation.state.clone() else { continue };
            let there = self.quietly(&Options { situation, ..options.clone() });
            departed.extend(there.checked.deviated.iter().map(|b| b.figure.to_owned()));
            steps.push(self.step(state, drawn, &there));
        }
        (steps, departed)
    }
}

impl Project {
    fn step(&self, state: String, here: &Compilation, there: &Compilation) -> Step {
        let set = there
            .design
            .params
            .iter()
            .filter_map(|p| {
                let before = here.design.params.iter().find(|q| q.name == p.name)?;
                (before.value != p.value).then(|| (p.name.clone(), before.value.clone(), p.value.clone()))
            })
            .collect();
        let cut = |c: &Compilation| -> Vec<(String, String, Vec<i64>)> {
            let row = |p: &Piece| (p.name.clone(), c.design.stocks[p.stock].name.clone(), rounded(&p.cut));
            c.frame.pieces.iter().map(row).collect()
        };
        let (before, after) = (cut(here), cut(there));
        let pieces: Vec<String> = after.iter().filter(|p| !before.contains(p)).map(|p| p.0.clone()).collect();
        let without =
            before.iter().filter(|p| !after.iter().any(|q| q.0 == p.0)).map(|p| p.0.clone()).collect();
        let (design, frame) = anew(here, there, &pieces);
        let (mut bill, _) =
            chairwright_cost::bill(&chairwright_cost::needs(&design, &frame), self.book(), &self.shed);
        bill.unpriced.extend(used_up_anew(there, &pieces));
        let errors =
            there.problems.iter().filter(|p| p.severity == chairwright_diagnostics::Severity::Error).count();
        let after = there.design.rider.get("after");
        Step { state, after, set, pieces, without, cost: bill.total, unpriced: bill.unpriced, errors }
    }
}

/// Only what the state makes or buys anew.
fn anew(here: &Compilation, there: &Compilation, pieces: &[String]) -> (Design, Frame) {
    let (old, new) = (&here.design, &there.design);
    let design = Design {
        stocks: new.stocks.clone(),
        wheels: new
            .wheels
            .iter()
            .filter(|w| !old.wheels.iter().any(|o| o.part.name == w.part.name))
            .cloned()
            .collect(),
        casters: new
            .casters
            .iter()
            .filter(|w| !old.casters.iter().any(|o| o.part.name == w.part.name))
            .cloned()
            .collect(),
        items: new
            .items
            .iter()
            .filter(|w| !old.items.iter().any(|o| o.part.name == w.part.name))
            .cloned()
            .collect(),
        ..Design::default()
    };
    let kept = there.frame.pieces.iter().filter(|p| pieces.contains(&p.name)).cloned().collect();
    (design, Frame { pieces: kept, ..Frame::default() })
}

/// Cement and glue that hold what the state makes anew: what was bought for the chair as first built may be gone or have set by
/// then.
fn used_up_anew(there: &Compilation, pieces: &[String]) -> Vec<String> {
    let (design, frame) = (&there.design, &there.frame);
    let made = |of: &str| frame.pieces.iter().any(|p| p.of == of && pieces.contains(&p.name));
    let joints: Vec<_> = frame
        .joints
        .iter()
        .filter(|j| j.members.iter().any(|m| made(&design.members[*m].name)))
        .cloned()
        .collect();
    let closed = |c: &&Closing| joints.iter().any(|j| j.joint == c.joint);
    let closings = design.closings.iter().filter(closed).cloned().collect();
    let boxes = design.boxes.iter().filter(|b| made(&b.name)).cloned().collect();
    let design = Design { closings, boxes, supplies: Vec::new(), ..design.clone() };
    let frame = Frame { joints, fittings: frame.fittings.clone(), ..Frame::default() };
    chairwright_cost::used_up(&design, &frame).into_iter().map(|u| u.key).collect()
}

/// Sizes to a tenth of a millimetre, so that what only computes otherwise is no other piece.
fn rounded(cut: &Cut) -> Vec<i64> {
    #[allow(clippy::cast_possible_truncation)]
    let tenth = |v: f64| (v * 1e4).round() as i64;
    match cut {
        Cut::Length(l) | Cut::Band(l) => vec![tenth(*l)],
        Cut::Sheet { outline } => outline.iter().flat_map(|(x, y)| [tenth(*x), tenth(*y)]).collect(),
    }
}
