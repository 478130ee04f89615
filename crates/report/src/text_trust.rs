//! What a result rests on: where the plan is from, what was accepted, which values are uncertain, what
//! was assumed.

use crate::table::Table;
use crate::text::value;
use crate::writer::Writer;
use chairwright_design::Known;
use chairwright_diagnostics::Sources;
use chairwright_driver::{Compilation, ESTIMATE, Effect, Influence, Off};
use std::fmt::Write as _;

/// The plans that this one is made from, and the use profile.
pub(crate) fn lineage(c: &Compilation, w: &mut Writer) {
    for (name, revision, licence) in &c.design.made_from {
        let mut line = format!("Made from {}", name.replace('_', " "));
        if let Some(revision) = revision {
            let _ = write!(line, ", revision {revision}");
        }
        let licence = licence.as_deref().unwrap_or("no licence");
        let _ = write!(line, " ({licence})");
        w.para(&line, "");
    }
    if let Some(p) = &c.design.profile {
        let line = format!(
            "Use profile \"{}\": {}. Reviewed by {}, {}; {}",
            p.name, p.for_whom, p.reviewed_by, p.dated, p.source
        );
        w.para(&line, "");
    } else if !c.design.unridden && c.figures.si("tip.rear.locked").is_some() {
        w.para(
            "No use profile is named: no margin beyond the slope of the path was judged. Name one: use catalogue.profiles, \
             profile \"first time\"",
            "",
        );
    }
}

/// Findings that the text accepts, and weights that it changes.
pub(crate) fn accepted(c: &Compilation, w: &mut Writer) {
    if c.accepted.is_empty() && c.reweighed.is_empty() {
        return;
    }
    w.head("WHAT THE DESIGN ACCEPTS");
    for a in &c.accepted {
        let p = &a.finding;
        w.item(&format!(
            "{}: {} [{}]. Accepted because: {}",
            p.severity.word(),
            p.headline,
            p.code.name,
            a.reason
        ));
    }
    for r in &c.reweighed {
        let why = r.reason.as_ref().map_or(String::new(), |w| format!(", because: {w}"));
        w.item(&format!(
            "{} counts as {} here, not as {}{why}",
            r.code.name,
            r.severity.word(),
            r.code.severity.word()
        ));
    }
}

/// Extra loads; the strength section judges them beside its own.
pub(crate) fn loads(c: &Compilation, w: &mut Writer) {
    if c.design.loads.is_empty() {
        return;
    }
    w.head("EXTRA LOADS");
    for l in &c.design.loads {
        let lasting = l.lasts.word();
        let from = l.basis.map_or("origin unknown", |b| b.word());
        w.item(&format!(
            "{}: {:.0} N at {}, {lasting} ({from})",
            l.name,
            l.force.norm(),
            c.design.joints[l.joint].name
        ));
    }
    if c.strength.cases.is_empty() {
        w.para("Listed only: without a rider in a chair that stands nothing judges them.", "  ");
    }
}

/// Uncertain values, the most influential first.
pub(crate) fn values(c: &Compilation, sources: &Sources, w: &mut Writer) {
    // what the builder chose is no measurement
    let measured = |k: &&Known| k.by_name && k.name.contains('.') && k.basis.is_none();
    let silent: Vec<&str> = c.design.known.iter().filter(measured).map(|k| k.name.as_str()).collect();
    if c.influences.is_empty() && silent.is_empty() {
        return;
    }
    w.head("VALUES THAT ARE NOT CERTAIN");
    for i in &c.influences {
        let own = c.design.known.iter().any(|k| k.name == i.known.name);
        let place = c.origins.get(i.known.origin.0 as usize).filter(|_| own);
        let written = place.map_or(i.known.written.as_str(), |s| sources.slice(*s));
        let tried = match (i.known.spread, i.off) {
            (Some(by), Off::Guessed) => format!(" by stature, {by:.0} {} either way tried", i.known.unit),
            (Some(_), _) => String::new(),
            (None, Off::Said) => format!(", {:.0} % tried", ESTIMATE * 100.0),
            (None, _) => format!(", no tolerance said, {} {} tried", i.shift, i.known.unit),
        };
        w.item(&format!("{} = {written} ({}{tried}): moves {}", i.known.name, from(&i.known), moves(c, i)));
    }
    if !silent.is_empty() {
        w.para(&format!("Nobody says where these are from: {}", silent.join(", ")), "  ");
    }
}

fn from(k: &Known) -> String {
    let basis = k.basis.map_or("not said", |b| b.word());
    [Some(basis.to_owned()), k.by.clone(), k.dated.clone()].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Everything that a value moves by more than a hundredth of its margin, the most first.
fn moves(c: &Compilation, i: &Influence) -> String {
    let one = |e: &Effect| {
        let change = c.display().text(e.change);
        match e.margin {
            Some(margin) => format!("{} by {change}, of {} left", e.figure, value(c.display(), "", margin)),
            None => format!("{} by {change}", e.figure),
        }
    };
    let told = i.effects.iter().enumerate().filter(|(k, e)| *k == 0 || e.weight >= 0.01);
    let all: Vec<String> = told.map(|(_, e)| one(e)).collect();
    let raises = i.raises.first().map(|r| format!("at {}: {}", r.at, r.headline));
    match (all.is_empty(), raises) {
        (true, None) => "nothing that is asked for".to_owned(),
        (false, None) => all.join("; "),
        (true, Some(raises)) => format!("nothing that is asked for; {raises}"),
        (false, Some(raises)) => format!("{}; {raises}", all.join("; ")),
    }
}

pub(crate) fn assumptions(c: &Compilation, w: &mut Writer) {
    w.head("WHAT WAS ASSUMED");
    if !c.design.params.is_empty() {
        let mut table = Table::new(&["param", ">value", "range", "meaning"]);
        for p in &c.design.params {
            let doc = p.doc.clone().unwrap_or_default().replace('\n', " ");
            let value = if p.changed { format!("{} *", p.value) } else { p.value.clone() };
            let range = match (&p.range, &p.stops) {
                (_, Some(stops)) => format!("adjustable: {stops}"),
                (range, None) => range.clone().unwrap_or_default(),
            };
            table.row(vec![p.name.clone(), value, range, doc]);
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
