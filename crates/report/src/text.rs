//! The report in plain text, 80 columns wide.

use crate::CAUTION;
use crate::table::Table;
use crate::text_making::{bill, cuts, packing};
use crate::text_marks::marked;
use crate::text_rider::{as_built, beside, fit, slopes, states};
use crate::text_roll::{ROLLING, family};
use crate::text_strength::strength;
use crate::text_trust::{accepted, assumptions, lineage, loads, values};
use crate::writer::{WIDTH, Writer};
use chairwright_diagnostics::{Severity, Sources, wrap};
use chairwright_driver::{Compilation, Stands, Step, margin_stands, placing_words, stands};
use chairwright_language::figures::{FIGURES, figure_spec};
use chairwright_quantity::{Display, Quantity};
use std::fmt::Write as _;

/// The whole report.
#[must_use]
pub fn report_text(c: &Compilation, sources: &Sources) -> String {
    let mut w = Writer { out: String::new() };
    heading(c, &mut w);
    demands(c, sources, &mut w);
    findings(c, &mut w);
    accepted(c, &mut w);
    figures(c, &mut w);
    slopes(c, &mut w);
    fit(c, &mut w);
    states(c, &mut w);
    as_built(c, &mut w);
    beside(c, &mut w);
    strength(c, &mut w);
    loads(c, &mut w);
    joints(c, &mut w);
    places(c, &mut w);
    cuts(c, &mut w);
    marked(c, &mut w);
    packing(c, &mut w);
    bill(c, &mut w);
    values(c, sources, &mut w);
    assumptions(c, &mut w);
    w.head("BEFORE ANYONE SITS IN IT");
    for line in CAUTION {
        w.para(line, "  ");
    }
    w.out
}

/// Name, revision, variant and state on one line.
pub(crate) fn name_line(c: &Compilation) -> String {
    let d = &c.design;
    let mut title = d.name.replace('_', " ").to_uppercase();
    if let Some(revision) = &d.revision {
        let _ = write!(title, ", revision {revision}");
    }
    if let Some(variant) = &d.variant {
        let _ = write!(title, ", variant {variant}");
    }
    if let Some(state) = &d.state {
        let _ = write!(title, ", state {state}");
    }
    title
}

fn heading(c: &Compilation, w: &mut Writer) {
    let d = &c.design;
    w.para(&name_line(c), "");
    if let Some(purpose) = &d.purpose {
        for paragraph in purpose.split("\n\n") {
            w.para(&paragraph.replace('\n', " "), "");
        }
    }
    if c.has_errors() {
        w.para("NOT TO BE BUILT AS IT STANDS: the findings below name what is wrong.", "");
    }
    if let Some(licence) = &d.licence {
        w.para(&format!("Licence {licence}"), "");
    }
    lineage(c, w);
    if !d.name.is_empty() && !d.unridden {
        crate::text_sheet::verdict(c, w);
    }
}

fn demands(c: &Compilation, sources: &Sources, w: &mut Writer) {
    if c.verdicts.is_empty() && c.checked.margins.is_empty() {
        return;
    }
    w.head("WHAT WAS ASKED FOR");
    let mut table = Table::new(&["", "demand", ">is", ""]);
    for v in &c.verdicts {
        let word = match stands(c, v) {
            Stands::Met => "met",
            Stands::Unmet if v.required => "NOT MET",
            Stands::Unmet => "not met",
            Stands::CannotTell => "cannot tell",
        };
        let demand = sources.slice(v.span).split_whitespace().collect::<Vec<_>>().join(" ");
        let figure = v.uses.first().map_or("", String::as_str);
        let value = v.comparison.as_ref().map_or(String::new(), |x| value(c.display(), figure, x.left_value));
        table.row(vec![word.to_owned(), demand, value, v.reason.clone().unwrap_or_default()]);
    }
    let angle = |si: f64| Quantity::from_si(si, chairwright_quantity::Dimension::ANGLE);
    for m in &c.checked.margins {
        let word = match margin_stands(c, m.figure, m.holds()) {
            Stands::Met => "met",
            Stands::Unmet => "NOT MET",
            Stands::CannotTell => "cannot tell",
        };
        let wanted = c.display().text(angle(m.slope + m.margin));
        let has = m.has.map_or(String::new(), |h| value(c.display(), m.figure, angle(h)));
        let why = format!("use profile: {} beyond the slope", c.display().text(angle(m.margin)));
        table.row(vec![word.to_owned(), format!("{} >= {wanted}", m.figure), has, why]);
    }
    w.table(&table);
}

fn findings(c: &Compilation, w: &mut Writer) {
    let count = |s: Severity| c.problems.iter().filter(|p| p.severity == s).count();
    let counts = [
        (count(Severity::Error), "error", "errors"),
        (count(Severity::CannotTell), "cannot tell", "cannot tell"),
        (count(Severity::Warning), "warning", "warnings"),
        (count(Severity::Advice), "piece of advice", "pieces of advice"),
    ];
    let parts: Vec<String> = counts
        .iter()
        .filter(|c| c.0 > 0)
        .map(|(n, one, many)| format!("{n} {}", if *n == 1 { one } else { many }))
        .collect();
    w.head("FINDINGS");
    if parts.is_empty() {
        w.para("None.", "  ");
        return;
    }
    w.para(&format!("{}. In full: chairwright check {}", parts.join(", "), c.file), "  ");
    for p in &c.problems {
        w.item(&format!("{}: {} [{}]", p.severity.word(), p.headline, p.code.name));
    }
}

/// Figures that a builder looks for first, by group.
const MAIN: &[(&str, &[&str])] = &[
    ("Weight", &["mass.frame", "mass.chair", "mass.rider", "mass.carried", "mass.total"]),
    ("Size", &["width.overall", "length.overall", "height.overall", "clearance.ground"]),
    (
        "Seat",
        &[
            "seat.width",
            "seat.depth",
            "seat.height.front",
            "seat.height.rear",
            "seat.angle",
            "back.angle",
            "back.height",
            "footrest.clearance",
        ],
    ),
    (
        "Wheels",
        &[
            "wheelbase",
            "track",
            "track.front",
            "camber.left",
            "camber.right",
            "toe.left",
            "toe.right",
            "rock",
            "pitch",
        ],
    ),
    ("Balance", &["com.total.ahead", "com.total.height", "load.rear.share", "load.caster.share"]),
];

fn figures(c: &Compilation, w: &mut Writer) {
    if c.figures.0.is_empty() {
        return;
    }
    w.head("THE CHAIR");
    let mut table = Table::new(&["", "figure", ">value", "what it is"]);
    for (group, names) in MAIN.iter().chain(ROLLING) {
        let mut first = true;
        for name in names.iter().flat_map(|n| family(c, n)) {
            let Some(figure) = c.figures.0.get(name) else { continue };
            let doc = figure_spec(name).map_or("", |s| s.doc);
            let label = if first { (*group).to_owned() } else { String::new() };
            first = false;
            table.row(vec![label, name.to_owned(), value(c.display(), name, figure.value), doc.to_owned()]);
        }
    }
    w.table(&table);
}

/// A figure's value; slopes that tip, slide or ground are rounded down, never toward unsafe.
pub(crate) fn value(display: Display, name: &str, q: Quantity) -> String {
    let limit = ["tip.", "ramp.", "slide."].iter().any(|f| name.starts_with(f));
    if limit && q.dimension == chairwright_quantity::Dimension::ANGLE {
        let tenths = (q.si().to_degrees() * 10.0 + 1e-9).floor() / 10.0;
        return format!("{tenths:.1} deg");
    }
    display.text(q)
}

fn joints(c: &Compilation, w: &mut Writer) {
    if c.frame.joints.is_empty() {
        return;
    }
    w.head("JOINTS");
    let mut table = Table::new(&["joint", "members", "closed by"]);
    for j in &c.frame.joints {
        let members: Vec<String> = j.members.iter().map(|m| short(&c.design.members[*m].name)).collect();
        table.row(vec![
            c.design.joints[j.joint].name.clone(),
            shorten(&members.join(" + "), 34),
            j.closed_by.clone(),
        ]);
    }
    w.table(&table);
}

/// Where the fasteners sit that the text places.
fn places(c: &Compilation, w: &mut Writer) {
    let mut table = Table::new(&["fasteners of", "number", "where on the face that both share"]);
    let mut any = false;
    for room in &c.strength.rooms {
        let Some(words) = placing_words(room, c.display()) else { continue };
        table.row(vec![room.name.clone(), room.count.to_string(), words]);
        any = true;
    }
    if any {
        w.head("WHERE THE FASTENERS SIT");
        w.table(&table);
    }
}

/// A member's name without its side, for narrow columns.
pub(crate) fn short(name: &str) -> String {
    chairwright_design::unsided(name).to_owned()
}

pub(crate) fn shorten(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    let kept: String = text.chars().take(width - 1).collect();
    format!("{kept}…")
}

/// All figures, a line each.
#[must_use]
pub fn figures_text(c: &Compilation) -> String {
    let mut table = Table::new(&["figure", ">value", "what it is"]);
    for (name, figure) in &c.figures.0 {
        let doc = figure_spec(name).map_or("", |s| s.doc);
        table.row(vec![name.clone(), value(c.display(), name, figure.value), doc.to_owned()]);
    }
    let mut out = table.lines(WIDTH).join("\n");
    out.push('\n');
    let missing: Vec<&str> =
        FIGURES.iter().map(|f| f.name).filter(|n| !n.ends_with('*') && !c.figures.0.contains_key(*n)).collect();
    if !missing.is_empty() {
        out.push_str("\nNot computed for this design:\n");
        for line in wrap(&missing.join(", "), WIDTH - 2) {
            let _ = writeln!(out, "  {line}");
        }
    }
    out
}

/// The figures whose names begin so, a line each by name; empty where there is none.
#[must_use]
pub fn family_text(c: &Compilation, beginning: &str) -> String {
    let of = c.figures.0.iter().filter(|(name, _)| name.starts_with(beginning));
    of.map(|(name, figure)| format!("{name} = {}\n", value(c.display(), name, figure.value))).collect()
}

/// One name with its derivation, back to the lines of the text and the catalogue.
#[must_use]
pub fn trail_text(c: &Compilation, sources: &Sources, step: &Step) -> String {
    let mut w = Writer { out: String::new() };
    let doc = figure_spec(&step.name).map_or("", |s| s.doc);
    w.para(&titled(c, step), "");
    w.para(doc, "  ");
    if let Some(formula) = &step.formula {
        w.para(&format!("formula: {formula}"), "  ");
    }
    if let Some(source) = &step.source {
        w.para(&format!("source:  {source}"), "  ");
    }
    said(sources, step, "  ", &mut w);
    if !step.from.is_empty() {
        w.para("from:", "  ");
        step.from.iter().for_each(|s| branch(c, sources, s, 2, &mut w));
    }
    w.out
}

fn titled(c: &Compilation, step: &Step) -> String {
    match step.value {
        Some(q) => format!("{} = {}", step.name, value(c.display(), &step.name, q)),
        None => step.name.clone(),
    }
}

/// The line of text that says it.
fn said(sources: &Sources, step: &Step, indent: &str, w: &mut Writer) {
    let Some((span, source)) = step.span.and_then(|s| Some((s, sources.get(s.source)?))) else { return };
    let (line, _) = source.position(span.start as usize);
    let text = sources.slice(span).split_whitespace().collect::<Vec<_>>().join(" ");
    w.para(&format!("{}:{line}: {}", source.name, shorten(&text, 300)), indent);
}

fn branch(c: &Compilation, sources: &Sources, step: &Step, depth: usize, w: &mut Writer) {
    let indent = "  ".repeat(depth);
    if step.again {
        w.para(&format!("{} (above)", step.name), &indent);
        return;
    }
    w.para(&titled(c, step), &indent);
    let inner = format!("{indent}    ");
    if let Some(formula) = &step.formula {
        w.para(formula, &inner);
    }
    said(sources, step, &inner, w);
    if let (Some(source), true) = (&step.source, step.formula.is_none()) {
        w.para(&format!("source: {source}"), &inner);
    }
    step.from.iter().for_each(|s| branch(c, sources, s, depth + 1, w));
}
