//! The report in plain text, 80 columns wide.

use crate::CAUTION;
use crate::table::Table;
use chairwright_cost::Class;
use chairwright_diagnostics::{Severity, Sources, wrap};
use chairwright_driver::Compilation;
use chairwright_frame::Cut;
use chairwright_language::figures::{FIGURES, figure_spec};
use chairwright_quantity::{Display, Quantity, grouped};
use std::fmt::Write as _;

const WIDTH: usize = 80;

struct Writer {
    out: String,
}

impl Writer {
    fn head(&mut self, text: &str) {
        let _ = write!(self.out, "\n{}\n{}\n", text, "─".repeat(WIDTH));
    }

    fn para(&mut self, text: &str, indent: &str) {
        for line in wrap(text, WIDTH - indent.chars().count()) {
            let _ = writeln!(self.out, "{indent}{line}");
        }
    }

    fn item(&mut self, text: &str) {
        for (i, line) in wrap(text, WIDTH - 4).iter().enumerate() {
            let _ = writeln!(self.out, "  {} {line}", if i == 0 { "·" } else { " " });
        }
    }

    fn table(&mut self, table: &Table) {
        for line in table.lines(WIDTH) {
            let _ = writeln!(self.out, "{line}");
        }
    }
}

/// The whole report.
#[must_use]
pub fn report_text(c: &Compilation, sources: &Sources) -> String {
    let mut w = Writer { out: String::new() };
    heading(c, &mut w);
    demands(c, sources, &mut w);
    findings(c, &mut w);
    figures(c, &mut w);
    joints(c, &mut w);
    cuts(c, &mut w);
    packing(c, &mut w);
    bill(c, &mut w);
    assumptions(c, &mut w);
    w.head("BEFORE ANYONE SITS IN IT");
    for line in CAUTION {
        w.para(line, "  ");
    }
    w.out
}

fn heading(c: &Compilation, w: &mut Writer) {
    let d = &c.design;
    let mut title = d.name.replace('_', " ").to_uppercase();
    if let Some(revision) = &d.revision {
        let _ = write!(title, ", revision {revision}");
    }
    if let Some(variant) = &d.variant {
        let _ = write!(title, ", variant {variant}");
    }
    let _ = writeln!(w.out, "{title}");
    if let Some(purpose) = &d.purpose {
        w.para(&purpose.replace('\n', " "), "");
    }
    if c.has_errors() {
        w.para("NOT TO BE BUILT AS IT STANDS: the findings below name what is wrong.", "");
    }
    if let Some(licence) = &d.licence {
        let _ = writeln!(w.out, "Licence {licence}");
    }
}

fn demands(c: &Compilation, sources: &Sources, w: &mut Writer) {
    if c.verdicts.is_empty() {
        return;
    }
    w.head("WHAT WAS ASKED FOR");
    let mut table = Table::new(&["", "demand", ">is", ""]);
    for v in &c.verdicts {
        let word = match v.holds {
            _ if chairwright_driver::is_open(v, &c.bill) => "cannot tell",
            Some(true) => "met",
            Some(false) if v.required => "NOT MET",
            Some(false) => "not met",
            None => "cannot tell",
        };
        let demand = sources.slice(v.span).split_whitespace().collect::<Vec<_>>().join(" ");
        let figure = v.uses.first().map_or("", String::as_str);
        let value = v.comparison.as_ref().map_or(String::new(), |x| value(c.display(), figure, x.left_value));
        table.row(vec![word.to_owned(), demand, value, v.reason.clone().unwrap_or_default()]);
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
    w.para(&format!("{}. In full: chairwright check FILE", parts.join(", ")), "  ");
    for p in &c.problems {
        w.item(&format!("{}: {} [{}]", p.severity.word(), p.headline, p.code.name));
    }
}

/// Figures that a builder looks for first, by group.
const MAIN: &[(&str, &[&str])] = &[
    ("Weight", &["mass.frame", "mass.chair", "mass.rider", "mass.total"]),
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
    (
        "Slopes that tip it",
        &[
            "tip.rear.locked",
            "tip.rear.free",
            "tip.forward.locked",
            "tip.forward.free",
            "tip.left",
            "tip.right",
        ],
    ),
];

fn figures(c: &Compilation, w: &mut Writer) {
    if c.figures.0.is_empty() {
        return;
    }
    w.head("THE CHAIR");
    let mut table = Table::new(&["", "figure", ">value", "what it is"]);
    for (group, names) in MAIN {
        let mut first = true;
        for name in *names {
            let Some(figure) = c.figures.0.get(*name) else { continue };
            let doc = figure_spec(name).map_or("", |s| s.doc);
            let label = if first { (*group).to_owned() } else { String::new() };
            first = false;
            table.row(vec![label, (*name).to_owned(), value(c.display(), name, figure.value), doc.to_owned()]);
        }
    }
    w.table(&table);
}

/// A figure's value; slopes that tip are rounded down, never toward unsafe.
pub(crate) fn value(display: Display, name: &str, q: Quantity) -> String {
    if name.starts_with("tip.") && q.dimension == chairwright_quantity::Dimension::ANGLE {
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

/// A member's name without its side, for narrow columns.
fn short(name: &str) -> String {
    name.strip_prefix("left.").or_else(|| name.strip_prefix("right.")).unwrap_or(name).to_owned()
}

fn shorten(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    let kept: String = text.chars().take(width - 1).collect();
    format!("{kept}…")
}

fn cuts(c: &Compilation, w: &mut Writer) {
    if c.cuts.is_empty() {
        return;
    }
    w.head("CUT LIST");
    let mut stock = None;
    let mut table = Table::new(&[">count", ">cut", "pieces and their ends"]);
    for row in &c.cuts {
        if stock != Some(row.stock) {
            flush(&mut table, stock, c, w);
            stock = Some(row.stock);
        }
        let mut names = row.names.join(", ");
        if !row.ends.is_empty() {
            let _ = write!(names, " ({})", row.ends);
        }
        if row.handed {
            names.push_str(" — left and right are mirror images");
        }
        table.row(vec![row.names.len().to_string(), cut(c.display(), &row.cut), names]);
    }
    flush(&mut table, stock, c, w);
}

fn flush(table: &mut Table, stock: Option<chairwright_design::StockId>, c: &Compilation, w: &mut Writer) {
    if let Some(stock) = stock
        && !table.is_empty()
    {
        let _ = writeln!(w.out, "\n  {}", c.design.stocks[stock].name);
        w.table(table);
        *table = Table::new(&[">count", ">cut", "pieces and their ends"]);
    }
}

fn cut(display: Display, cut: &Cut) -> String {
    let length = |m: f64| {
        if display == Display::Inch {
            return chairwright_quantity::fraction_inch(m, 16).0;
        }
        format!("{:.1} mm", m * 1e3)
    };
    match cut {
        Cut::Length(l) | Cut::Band(l) => length(*l),
        Cut::Sheet { outline } => {
            let (l, s) = chairwright_making::extent(outline);
            let shape = if outline.len() == 4 { "" } else { " outline" };
            format!("{} x {}{shape}", length(l), length(s))
        }
    }
}

fn packing(c: &Compilation, w: &mut Writer) {
    if c.bill.rows.iter().all(|r| r.bars.is_empty() && r.sheets.is_empty()) {
        return;
    }
    w.head("HOW TO CUT IT FROM WHAT IS SOLD");
    for row in &c.bill.rows {
        for (i, bar) in row.bars.iter().enumerate() {
            let pieces: Vec<String> = bar.pieces.iter().map(|(n, l)| format!("{n} {:.1}", l * 1e3)).collect();
            w.item(&format!(
                "{}, no. {} ({:.0} mm): {}; offcut {:.0} mm",
                row.key,
                i + 1,
                bar.length * 1e3,
                pieces.join(", "),
                (bar.offcut * 1e3).floor()
            ));
        }
        for (i, sheet) in row.sheets.iter().enumerate() {
            let pieces: Vec<String> = sheet
                .pieces
                .iter()
                .map(|p| format!("{} {:.0} x {:.0}", p.name, p.size.0 * 1e3, p.size.1 * 1e3))
                .collect();
            w.item(&format!(
                "{}, sheet {} ({:.0} x {:.0} mm): {}",
                row.key,
                i + 1,
                sheet.size.0 * 1e3,
                sheet.size.1 * 1e3,
                pieces.join(", ")
            ));
        }
    }
    w.para("Saw cut of 3 mm between pieces. Lengths in mm.", "  ");
}

fn bill(c: &Compilation, w: &mut Writer) {
    if c.bill.rows.is_empty() {
        return;
    }
    w.head("WHAT TO BUY");
    let money = |q: Option<Quantity>| q.map_or("?".to_owned(), |q| grouped(q.si(), 2));
    let mut table = Table::new(&[">buy", "sale unit", ">each", ">total", "what for"]);
    for row in &c.bill.rows {
        let buy = row.buy.map_or("?".to_owned(), |b| b.to_string());
        let what = format!("{} ({})", row.key, row.needed);
        table.row(vec![buy, shorten(&row.unit, 22), money(row.price), money(row.total), what]);
    }
    w.table(&table);
    let unit = |q: &Quantity| q.dimension.money.map_or(String::new(), |(m, _)| m.code());
    match &c.bill.total {
        Some(total) => {
            let least = if c.bill.unpriced.is_empty() { "" } else { "at least " };
            w.para(&format!("Total: {least}{} {}", grouped(total.si(), 2), unit(total)), "  ");
        }
        None => w.para("Total: cannot tell, there is no price at all.", "  "),
    }
    if !c.bill.unpriced.is_empty() {
        w.para(&format!("Without a price: {}", c.bill.unpriced.join(", ")), "  ");
    }
    let parts = c.bill.sum(&[Class::Part]);
    if let (Some(parts), Some(_)) = (parts, c.bill.total) {
        w.para(&format!("of that bought parts {} {}", grouped(parts.si(), 2), unit(&parts)), "  ");
    }
}

fn assumptions(c: &Compilation, w: &mut Writer) {
    w.head("WHAT WAS ASSUMED");
    if !c.design.params.is_empty() {
        let mut table = Table::new(&["param", ">value", "range", "meaning"]);
        for p in &c.design.params {
            let doc = p.doc.clone().unwrap_or_default().replace('\n', " ");
            let value = if p.changed { format!("{} *", p.value) } else { p.value.clone() };
            table.row(vec![p.name.clone(), value, p.range.clone().unwrap_or_default(), doc]);
        }
        w.table(&table);
        if c.design.params.iter().any(|p| p.changed) {
            w.para("* set by the variant or the command line", "  ");
        }
        w.out.push('\n');
    }
    for line in &c.assumptions {
        w.item(line);
    }
    if !c.design.rider.measures.is_empty() {
        w.item("body segments: one published table (Biomechanics and Motor Control of Human Movement, 2005), lengths as fractions of stature");
    }
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

/// One figure with its derivation.
#[must_use]
pub fn figure_text(c: &Compilation, name: &str) -> Option<String> {
    let figure = c.figures.0.get(name)?;
    let mut w = Writer { out: String::new() };
    let doc = figure_spec(name).map_or("", |s| s.doc);
    let _ = writeln!(w.out, "{name} = {}", value(c.display(), name, figure.value));
    w.para(doc, "  ");
    w.para(&format!("formula: {}", figure.formula), "  ");
    w.para(&format!("source:  {}", figure.source), "  ");
    if !figure.inputs.is_empty() {
        w.para("from:", "  ");
        for input in &figure.inputs {
            w.para(&format!("{} = {}", input.name, c.display().text(input.value)), "    ");
        }
    }
    Some(w.out)
}
