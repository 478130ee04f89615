//! The rider in the chair in plain text: slopes that tip it, fit and reach, states, and the built chair.

use crate::table::Table;
use crate::text::value;
use crate::writer::Writer;
use chairwright_driver::Compilation;
use chairwright_language::figures::figure_spec;
use chairwright_quantity::{Dimension, Quantity, day_after};

fn angle(c: &Compilation, si: f64) -> String {
    value(c.display(), "tip.", Quantity::from_si(si, Dimension::ANGLE))
}

/// The ten angles, and what makes them less.
pub(crate) fn slopes(c: &Compilation, w: &mut Writer) {
    if c.figures.si("tip.rear.locked").is_none() {
        return;
    }
    w.head("SLOPES THAT TIP IT");
    ten(c, w);
    let mut rows: Vec<(String, String)> = Vec::new();
    if let (Some(a), Some(toward)) = (c.figures.si("tip.any"), c.figures.si("direction.tip.any")) {
        rows.push((format!("in the worst direction, {}", way(toward)), angle(c, a)));
    }
    for (figure, f) in &c.figures.0 {
        if figure.ends_with(".leaning") {
            rows.push((figure.clone(), angle(c, f.value.si())));
        }
    }
    for carried in &c.design.carried {
        for base in ["tip.rear.locked", "tip.rear.free", "tip.forward.locked"] {
            if let (Some(with), Some(alone)) =
                (c.figures.si(&format!("{base}.with.{}", carried.name)), c.figures.si(&format!("{base}.alone")))
            {
                let words = format!("{base} with {} (without: {})", carried.name, angle(c, alone));
                rows.push((words, angle(c, with)));
            }
        }
    }
    for figure in ["antitip.touch", "antitip.tip"] {
        if let Some(si) = c.figures.si(figure) {
            let doc = figure_spec(figure).map_or("", |s| s.doc);
            rows.push((format!("{figure}: {doc}"), angle(c, si)));
        }
    }
    let mut table = Table::new(&["also", ">slope"]);
    rows.into_iter().for_each(|(words, slope)| table.row(vec![words, slope]));
    w.out.push('\n');
    w.table(&table);
    w.para(
        "Rigid body, computed; least: casters in their worst swivel. Not an ISO 7176-1 test: tip the built chair with \
         sand as its test sheet says, and write the angles into as_built.",
        "  ",
    );
}

fn ten(c: &Compilation, w: &mut Writer) {
    let mut table = Table::new(&["direction", ">least", ">most", "adjusted to"]);
    for s in &c.spreads {
        let mut words = Vec::new();
        if !s.least.1.is_empty() {
            words.push(format!("least: {}", s.least.1));
        }
        if !s.most.1.is_empty() {
            words.push(format!("most: {}", s.most.1));
        }
        table.row(vec![s.words.to_owned(), angle(c, s.least.0), angle(c, s.most.0), words.join("; ")]);
    }
    w.table(&table);
}

/// A direction in words.
fn way(toward: f64) -> String {
    let degrees = toward.to_degrees().round();
    match degrees {
        0.0 => "straight ahead".to_owned(),
        180.0 => "straight back".to_owned(),
        d if d > 180.0 => format!("{:.0} deg to the right of straight ahead", 360.0 - d),
        d => format!("{d:.0} deg to the left of straight ahead"),
    }
}

/// By when a growing rider is measured again, of the oldest measure whose day is known.
fn again(c: &Compilation) -> Option<String> {
    let (when, why) = c.figures.0.get("growth.remeasure").map(|f| (f.value.si(), &f.formula))?;
    let dates = c.design.known.iter().filter(|k| k.name.starts_with("rider."));
    let first = dates.filter_map(|k| k.dated.as_deref()).min()?;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let day = day_after(first, (when / 86_400.0).max(0.0) as u32)?;
    Some(format!("measure again by {day}: the oldest measure is of {first} ({why})"))
}

/// Figures of fit and reach, and rules that are departed from.
pub(crate) fn fit(c: &Compilation, w: &mut Writer) {
    let of_fit = |name: &str| {
        name.starts_with("fit.")
            || name.starts_with("reach.")
            || name.starts_with("footrest.drop")
            || name.starts_with("growth.")
    };
    let figures: Vec<_> = c.figures.0.iter().filter(|(n, _)| of_fit(n)).collect();
    if figures.is_empty() {
        return;
    }
    w.head("FIT AND REACH");
    if let Some(rules) = &c.design.fit_rules {
        w.para(&format!("Rules: \"{}\", entered {}; {}", rules.name, rules.dated, rules.source), "  ");
    }
    let mut table = Table::new(&["figure", ">value", "what it is"]);
    for (name, f) in figures {
        let doc = figure_spec(name).map_or("", |s| s.doc);
        table.row(vec![name.clone(), value(c.display(), name, f.value), doc.to_owned()]);
    }
    w.table(&table);
    if let Some(words) = again(c) {
        w.item(&words);
    }
    for d in &c.design.deviations {
        let dated = d.dated.as_deref().map_or(String::new(), |d| format!(", {d}"));
        w.item(&format!("departs from the rule for {}: {} ({}{dated})", d.figure, d.reason, d.by));
    }
    w.para(
        "Nothing here speaks of pressure on skin, shear or posture over hours: whoever fits the rider decides, and looks again.",
        "  ",
    );
}

/// What each state changes, and what it costs.
pub(crate) fn states(c: &Compilation, w: &mut Writer) {
    if c.steps.is_empty() {
        return;
    }
    w.head("STATES");
    let mut table = Table::new(&["state", "what changes", ">cost"]);
    for s in &c.steps {
        let mut words = Vec::new();
        if let Some(after) = s.after {
            words.push(format!("rider {} later", c.display().text(Quantity::from_si(after, Dimension::TIME))));
        }
        words.extend(s.set.iter().map(|(name, from, to)| format!("{name} {from} -> {to}")));
        if !s.pieces.is_empty() {
            words.push(format!("made anew: {}", s.pieces.join(", ")));
        }
        if !s.without.is_empty() {
            words.push(format!("not needed: {}", s.without.join(", ")));
        }
        if s.errors > 0 {
            words.push(format!("{} to mend, see check", s.errors));
        }
        let least = if s.unpriced.is_empty() { "" } else { "at least " };
        let cost = s.cost.map_or("no prices".to_owned(), |q| format!("{least}{}", c.display().text(q)));
        let cost = if s.pieces.is_empty() && s.cost.is_none() { "nothing".to_owned() } else { cost };
        table.row(vec![s.state.clone(), words.join("; "), cost]);
    }
    w.table(&table);
    w.para("Cost: what is made anew, bought by itself in whole sale units.", "  ");
}

/// The chair beside one that the rider likes.
pub(crate) fn beside(c: &Compilation, w: &mut Writer) {
    if c.checked.beside.is_empty() {
        return;
    }
    w.head("BESIDE THE CHAIR THAT THE RIDER LIKES");
    if let Some(b) = &c.design.baseline {
        let by = b.by.as_deref().unwrap_or("nobody named");
        let dated = b.dated.as_deref().unwrap_or("no date");
        let chair = if b.chair.is_empty() { String::new() } else { format!("{}. ", b.chair) };
        w.para(&format!("{chair}Measured by {by}, {dated}."), "  ");
    }
    let mut table = Table::new(&["figure", ">there", ">here", ">difference"]);
    for b in &c.checked.beside {
        let dimension = figure_spec(b.figure).and_then(|s| s.dimension).unwrap_or(Dimension::LENGTH);
        let text = |si: f64| value(c.display(), b.figure, Quantity::from_si(si, dimension));
        let there = if b.there.1 - b.there.0 > 1e-9 {
            format!("{} .. {}", text(b.there.0), text(b.there.1))
        } else {
            text(b.there.0)
        };
        let by = match b.here {
            None => "cannot tell".to_owned(),
            Some(_) if b.by.abs() > 0.0 => {
                let sign = if b.by > 0.0 { "+" } else { "-" };
                format!("{sign}{}", c.display().text(Quantity::from_si(b.by.abs(), dimension)))
            }
            Some(_) => "none that shows".to_owned(),
        };
        table.row(vec![b.figure.to_owned(), there, b.here.map_or(String::new(), text), by]);
    }
    w.table(&table);
}

/// Plan and built chair side by side, and whether it may be handed over.
pub(crate) fn as_built(c: &Compilation, w: &mut Writer) {
    let Some(built) = &c.design.as_built else { return };
    w.head("AS BUILT");
    let by = built.by.as_deref().unwrap_or("nobody named");
    let dated = built.dated.as_deref().unwrap_or("no date");
    let what = match (built.other, &built.carry) {
        (Some(_), None) => "These are readings of another chair: nothing here goes by them.",
        (_, Some(_)) => {
            "It was tested in another setting. Here it is taken to differ from its plan by as much: tip it in this one too."
        }
        (None, None) => "Measured values take the place of the plan's above.",
    };
    w.para(&format!("Measured by {by}, {dated}. {what}"), "  ");
    let mut table = Table::new(&["figure", ">plan", ">built"]);
    for x in &c.checked.compared {
        let Some(figure) = c.figures.0.get(x.figure) else { continue };
        let text = |si: f64| value(c.display(), x.figure, Quantity::from_si(si, figure.value.dimension));
        let built = if x.built.1 - x.built.0 > 1e-9 {
            format!("{} .. {}", text(x.built.0), text(x.built.1))
        } else {
            text(x.built.0)
        };
        table.row(vec![x.figure.to_owned(), x.plan.map_or(String::new(), text), built]);
    }
    w.table(&table);
    let line = if c.release().released() {
        "Released: every test of the test sheet is written down as passed."
    } else {
        "Held: what holds it stands at the head of this report, each test on the test sheet."
    };
    w.para(line, "  ");
}
