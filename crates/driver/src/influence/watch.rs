//! What is watched of a design while values are shifted: each thing that is asked of a figure, with the room that is left.

use crate::Compilation;
use chairwright_design::Side;
use chairwright_language::{Comparison, Verdict};
use chairwright_quantity::{Dimension, Quantity};

/// Who asks for something of a figure.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum By {
    /// The demand at this place among the verdicts.
    Demand(usize),
    /// One comparison of a demand that joins several, which alone does not decide it.
    Part(usize, usize),
    /// The use profile.
    Profile,
    /// The slope of the place, of the brakes.
    Brakes,
    /// Nobody.
    Nobody,
    /// The fit or the place.
    Soft,
}

/// What a demand hangs on: figure, what is watched of it, and how far it is from the limit. Where something is asked, what is
/// watched is the room left and not the figure: a value may move the limit alone.
#[derive(Clone, Debug)]
pub(crate) struct Watch {
    pub figure: String,
    pub value: Quantity,
    pub margin: Option<f64>,
    pub by: By,
    /// Whether more of it is better (1) or less (-1).
    pub sign: f64,
}

impl Watch {
    pub(crate) fn soft(&self) -> bool {
        self.by == By::Soft
    }

    /// The demand that it belongs to.
    pub(crate) fn demand(&self) -> Option<usize> {
        match self.by {
            By::Demand(k) | By::Part(k, _) => Some(k),
            _ => None,
        }
    }

    /// The room that is left, below zero where it is not met; `None` where nobody asks for any.
    pub(crate) fn room(&self) -> Option<f64> {
        self.margin.map(|_| self.value.si() * self.sign)
    }

    /// What is watched in the same design with another value.
    pub(crate) fn again(&self, c: &Compilation, soft: &[Watch]) -> Option<f64> {
        let same = |k: usize| c.verdicts.get(k).filter(|v| v.uses.first() == Some(&self.figure));
        match self.by {
            By::Demand(k) => match &same(k)?.comparison {
                Some(x) => Some(left(x)),
                None => c.figures.si(&self.figure),
            },
            By::Part(k, part) => same(k)?.parts.get(part).map(left),
            By::Profile => {
                let m = c.checked.margins.iter().find(|m| m.figure == self.figure)?;
                m.has.map(|has| has - m.slope - m.margin)
            }
            By::Brakes => c.figures.si("brake.holds").zip(c.figures.si("brake.need")).map(|(h, n)| h - n),
            By::Nobody => c.figures.si(&self.figure),
            By::Soft => soft.iter().find(|x| x.figure == self.figure).map(|x| x.value.si()),
        }
    }
}

fn left(x: &Comparison) -> f64 {
    x.left_value.si() - x.right_value.si()
}

fn of_comparison(figure: &str, x: &Comparison, by: By) -> Watch {
    let value = Quantity::from_si(left(x), x.left_value.dimension);
    let sign = if x.wants_more { 1.0 } else { -1.0 };
    Watch { figure: figure.to_owned(), value, margin: Some(left(x).abs()), by, sign }
}

fn of_demand(c: &Compilation, k: usize, v: &Verdict) -> Vec<Watch> {
    let Some(figure) = v.uses.first() else { return Vec::new() };
    let Some(known) = c.figures.0.get(figure) else { return Vec::new() };
    if let Some(x) = &v.comparison {
        return vec![of_comparison(figure, x, By::Demand(k))];
    }
    if v.parts.is_empty() {
        let figure = figure.clone();
        return vec![Watch { figure, value: known.value, margin: None, by: By::Demand(k), sign: 1.0 }];
    }
    v.parts.iter().enumerate().map(|(part, x)| of_comparison(figure, x, By::Part(k, part))).collect()
}

/// What the text, the use profile and the brakes ask, and the slopes that tip.
pub(crate) fn watched(c: &Compilation) -> Vec<Watch> {
    let mut all: Vec<Watch> = c.verdicts.iter().enumerate().flat_map(|(k, v)| of_demand(c, k, v)).collect();
    // the use profile's margins are tighter than most demands
    for m in &c.checked.margins {
        let (Some(has), Some(f)) = (m.has, c.figures.0.get(m.figure)) else { continue };
        let left = has - m.slope - m.margin;
        let value = Quantity::from_si(left, f.value.dimension);
        let figure = m.figure.to_owned();
        all.push(Watch { figure, value, margin: Some(left.abs()), by: By::Profile, sign: 1.0 });
    }
    if let Some((holds, need)) = c.figures.si("brake.holds").zip(c.figures.si("brake.need")) {
        let (figure, left) = ("brake.holds".to_owned(), holds - need);
        let value = Quantity::from_si(left, Dimension::FORCE);
        all.push(Watch { figure, value, margin: Some(left.abs()), by: By::Brakes, sign: 1.0 });
    }
    for name in ["tip.rear.locked", "tip.rear.free", "tip.forward.locked", "tip.side"] {
        if !all.iter().any(|w| w.figure == name)
            && let Some(f) = c.figures.0.get(name)
        {
            let figure = name.to_owned();
            all.push(Watch { figure, value: f.value, margin: None, by: By::Nobody, sign: 1.0 });
        }
    }
    all
}

/// What casters keep clear of feet, and of feet that feel little.
const FEET: (f64, f64) = (0.010, 0.015);

/// Figures of room with the least that their findings want, in metres.
const ROOM: [(&str, f64); 7] = [
    ("door.room", 0.0),
    ("corridor.room", 0.0),
    ("corner.room", 0.0),
    ("table.room", 0.015),
    ("table.over", 0.0),
    ("head.room", 0.050),
    ("gap.caster.foot", FEET.0),
];

/// What fit and place ask for. The margin itself is the value: a measure may move the limit and not the figure.
pub(crate) fn soft(c: &Compilation) -> Vec<Watch> {
    let watch = |figure: &str, left: f64, dimension: Dimension| Watch {
        figure: figure.to_owned(),
        value: Quantity::from_si(left, dimension),
        margin: Some(left.abs()),
        by: By::Soft,
        sign: 1.0,
    };
    let rule = |m: &chairwright_checks::FitMargin| {
        Some(watch(&m.key, m.margin, c.figures.0.get(&m.key)?.value.dimension))
    };
    let word = |side| c.design.rider.sided_word("sensation_legs", side);
    let numb = [Side::Left, Side::Right].iter().any(|s| matches!(word(*s), Some("reduced" | "absent")));
    let room = |(name, least): &(&str, f64)| {
        let least = if *name == "gap.caster.foot" && numb { FEET.1 } else { *least };
        Some(watch(name, c.figures.si(name)? - least, Dimension::LENGTH))
    };
    c.checked.fit_margins.iter().filter_map(rule).chain(ROOM.iter().filter_map(room)).collect()
}
