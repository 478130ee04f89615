//! Figures of cutting and buying, beside those of the chair.

use crate::StrengthWanted;
use crate::words_loads::source_words;
use chairwright_checks::Figures;
use chairwright_cost::{Bill, Class};
use chairwright_design::Design;
use chairwright_frame::{Cut, Frame};
use chairwright_quantity::{Dimension, Quantity};
use chairwright_strength::{CaseKind, Item, KERB, Source, Unknown, Verdict};

const CUTS: &str = "plumbing and carpentry practice: centre to centre less the take-outs at both ends";
const COUNT: &str = "counted";
const BILL: &str = "the price book and the packing of pieces into sale units";

#[allow(clippy::cast_precision_loss)]
pub(crate) fn add(design: &Design, frame: &Frame, bill: &Bill, out: &mut Figures) {
    let number = |n: usize| (n as f64, Dimension::NUMBER);
    for piece in &frame.pieces {
        let (Cut::Length(length) | Cut::Band(length)) = piece.cut else { continue };
        let formula = format!("joint to joint less take-outs; ends: {}", piece.ends);
        out.put(format!("cut.{}", piece.name), (length, Dimension::LENGTH), formula, CUTS, &[]);
    }
    if !frame.pieces.is_empty() {
        out.put("count.pieces", number(frame.pieces.len()), "pieces in the cut list", COUNT, &[]);
        out.put(
            "count.fittings",
            number(frame.fittings.len()),
            "fittings and bushes in their places",
            COUNT,
            &[],
        );
    }
    let fasteners: u32 = design
        .closings
        .iter()
        .map(|c| &c.fasteners)
        .chain(design.fastenings.iter().map(|f| &f.fasteners))
        .flatten()
        .map(|(_, n)| n)
        .sum();
    out.put("count.fasteners", number(fasteners as usize), "fasteners in closings and fastenings", COUNT, &[]);
    let (mut bought, mut left) = (0.0, 0.0);
    for row in &bill.rows {
        if row.class == Class::Stock
            && let Some(buy) = row.buy
        {
            let name = format!("buy.{}", row.key.replace([' ', '/', '.'], "_"));
            out.put(name, number(buy as usize), "whole sale units that hold all pieces", BILL, &[]);
        }
        bought += row.bars.iter().map(|b| b.length).sum::<f64>();
        let used: f64 = row.bars.iter().flat_map(|b| &b.pieces).map(|p| p.1).sum();
        left += row.bars.iter().map(|b| b.length).sum::<f64>() - used;
    }
    if bought > 0.0 {
        out.put(
            "waste.share",
            (left / bought, Dimension::NUMBER),
            "(bought - used) / bought lengths",
            BILL,
            &[],
        );
    }
    money("cost.total", bill.total, "sum of all priced rows of the bill", out);
    let frame_classes = [Class::Stock, Class::Fitting, Class::Fastener, Class::Supply];
    money("cost.frame", bill.sum(&frame_classes), "stock, fittings, fasteners and supplies", out);
    money("cost.parts", bill.sum(&[Class::Part]), "bought parts", out);
    out.put("cost.unpriced", number(bill.unpriced.len()), "rows of the bill without a price", BILL, &[]);
}

const BEAMS: &str =
    "beams in space with the cases of the strength section; strength of materials; not an ISO 7176-8 test";

/// Whether a figure comes from the strength check.
pub(crate) fn is_strength(figure: &str) -> bool {
    const FAMILIES: [&str; 4] = ["strength.", "drop.", "give.", "sag."];
    const LASTING: [&str; 2] = ["toe.lasting.", "camber.lasting."];
    FAMILIES.iter().chain(&LASTING).any(|f| figure.starts_with(f))
        || ["seat.angle.change", "narrow.seat", "buckling.factor"].contains(&figure)
}

impl StrengthWanted {
    /// How much of strength a chair is tried with, so that all that is asked of it can be told; at least the verdicts where
    /// what is tried may bear on what holds.
    pub(crate) fn of(verdicts: &[chairwright_language::Verdict], heavy: bool) -> StrengthWanted {
        let mut uses = verdicts.iter().flat_map(|v| &v.uses);
        if heavy || uses.any(|f| is_strength(f)) { StrengthWanted::Verdicts } else { StrengthWanted::Nothing }
    }
}

/// Figures of the strength check.
pub(crate) fn strength(s: &chairwright_strength::Strength, out: &mut Figures) {
    if s.cases.is_empty() {
        return;
    }
    let n = Dimension::NUMBER;
    let formula = "demand / what it may bear, in the worst load case, on the cautious side";
    // doubts cast on the items after the cases were judged stand in the items alone
    let doubted = |i: &Item| i.verdict != Verdict::Pass && i.used.1 <= 1.0;
    let items = s.items.iter().map(|i| (&i.name, i.used.1, doubted(i)));
    let uses = items.chain(s.most.iter().map(|(name, used)| (name, *used, used.is_nan())));
    let mut worst = 0.0_f64;
    let mut all_told = s.untold.is_empty() && s.refused.is_empty();
    for (what, used, doubted) in uses {
        let name = figure_of(what);
        if out.si(&name).is_none_or(|old| used > old) {
            out.put(&name, (used, n), formula, BEAMS, &[]);
        }
        if doubted || !s.refused.is_empty() || s.untold.iter().any(|u| u.name == *what) {
            out.partly(&name);
        }
        all_told &= !doubted;
        worst = worst.max(used);
    }
    out.put("strength.worst", (worst, n), "the greatest use of all members, joints and fastenings", BEAMS, &[]);
    if !all_told {
        out.partly("strength.worst");
    }
    let give = [("give", s.give, Dimension::LENGTH)];
    let height = s.cases.iter().find_map(|c| if let CaseKind::Drop(h) = c.kind { Some(h) } else { None });
    let flat = s.cases.iter().map(|c| &c.source).find(|f| matches!(f, Source::Bottoms { .. }));
    let formula = match flat {
        Some(source) => source_words(source),
        None => format!("1 + sqrt(1 + 2 x {:.0} mm / give)", height.unwrap_or(KERB) * 1e3),
    };
    if s.drop.is_finite() {
        out.put("drop.factor", (s.drop, n), formula, BEAMS, &give);
    }
    out.put("give.seat", (s.give, Dimension::LENGTH), "work of the rider's weight / weight", BEAMS, &[]);
    for t in &s.turned {
        let word = t.side.word();
        let put = |out: &mut Figures, what: &str, (was, by): (f64, f64)| {
            let formula = "as without the load and the turn of what holds the axle, seated, after years";
            let inputs = [("without the load", was, Dimension::ANGLE), ("turn", by, Dimension::ANGLE)];
            out.put(format!("{what}.lasting.{word}"), (was + by, Dimension::ANGLE), formula, BEAMS, &inputs);
        };
        put(out, "toe", t.toe);
        put(out, "camber", t.camber);
    }
    if let Some(turn) = s.seat_turned {
        let formula =
            "atan of what the front of the seat sinks less than its rear over what lies between, after years";
        out.put("seat.angle.change", (turn, Dimension::ANGLE), formula, BEAMS, &[]);
    }
    if let Some(narrow) = s.narrow {
        let formula = "left rail less right rail, sideways, where a sling has drawn them nearest, after years";
        out.put("narrow.seat", (narrow, Dimension::LENGTH), formula, BEAMS, &[]);
    }
    if let Some(sag) = s.sag {
        out.put(
            "sag.seat",
            (sag, Dimension::LENGTH),
            "deepest of the seat less the ends of its rails, after years",
            BEAMS,
            &[],
        );
    }
    if let Some(factor) = s.buckling.filter(|f| f.is_finite()) {
        out.put("buckling.factor", (factor, n), "(K + factor x Kg) u = 0 for the seated rider", BEAMS, &[]);
        if s.untold.iter().any(|u| limp(&u.why)) {
            out.partly("buckling.factor");
        }
    }
}

/// The name of the figure that tells how far something is used.
fn figure_of(what: &str) -> String {
    format!("strength.{}", what.replace(" to ", "_to_").replace(' ', "_"))
}

/// Whether what is not known of a part may leave it softer than it was taken to be.
fn limp(why: &Unknown) -> bool {
    use Unknown::{Allowance, Stiffness, Strength, TooHot, Wet};
    matches!(why, Strength(_) | Stiffness(_) | Wet(_) | Allowance(_) | TooHot(_))
}

fn money(name: &str, value: Option<Quantity>, formula: &str, out: &mut Figures) {
    let Some(value) = value else { return };
    let figure = chairwright_checks::Figure {
        value,
        formula: formula.to_owned(),
        source: BILL,
        inputs: Vec::new(),
        partial: false,
    };
    out.0.insert(name.to_owned(), figure);
}
