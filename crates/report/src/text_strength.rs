//! Whether the chair holds: load cases, what gives first, what could not be judged.

use crate::table::Table;
use crate::text::shorten;
use crate::writer::Writer;
use chairwright_driver::{Compilation, case_name, mode_words, unchecked_words, unknown_words, verdict_words};
use chairwright_strength::{Case, CaseKind, Item, Strength, Verdict, without_side};

/// Rows of the table of what gives first; the JSON report and the figures have all of them.
const ROWS: usize = 16;

pub(crate) fn strength(c: &Compilation, w: &mut Writer) {
    let s = &c.strength;
    if !s.judged {
        return;
    }
    w.head("DOES IT HOLD");
    w.para(&format!("{} Computed with beams in space; not an ISO 7176 test.", sentence(s)), "  ");
    climate(s, w);
    if s.cases.is_empty() {
        w.para("No load case could be computed: the findings say what must be mended first.", "  ");
        return;
    }
    cases(c, s, w);
    ranked(c, s, w);
    beside(s, w);
    lost(s, w);
    untold(s, w);
}

fn sentence(s: &Strength) -> &'static str {
    match s.verdict() {
        Verdict::Pass => "Everything that was judged holds with its margin.",
        Verdict::CannotTell => "Nothing surely fails, but not everything can be told: test it.",
        Verdict::Fail => "NO: something fails, is refused or is held by nothing. See the findings.",
    }
}

fn climate(s: &Strength, w: &mut Writer) {
    let Some(climate) = s.climate else { return };
    let wet = if climate.wet { ", wet" } else { ", dry" };
    let line = format!(
        "For a rider of {:.0} kg (with the spread of the measure), at {:.0} degC{wet}. Under the rider the \
         wheels carry {}.",
        s.mass,
        climate.hot - 273.15,
        s.feet.iter().map(|(n, f)| format!("{n} {f:.0} N")).collect::<Vec<_>>().join(", ")
    );
    w.para(&line, "  ");
    w.out.push('\n');
}

fn cases(c: &Compilation, s: &Strength, w: &mut Writer) {
    w.para("Load cases; none can be taken out. A use of more than 100 % is too much.", "  ");
    let mut table = Table::new(&["case", "kind", ">size", ">use", "of"]);
    let mut sources: Vec<(&str, Vec<String>)> = Vec::new();
    for (k, case) in s.cases.iter().enumerate() {
        let worst = s.worst_of_case.get(k).and_then(Option::as_ref);
        let (used, part) = worst.map_or((String::new(), String::new()), |(n, u)| (percent(*u), n.clone()));
        let name = case_name(&c.design, &case.kind);
        match sources.iter_mut().find(|(s, _)| *s == case.source) {
            Some((_, names)) => names.push(size(case)),
            None => sources.push((case.source, vec![format!("{name}, {}", size(case))])),
        }
        table.row(vec![
            shorten(&name, 36),
            case.lasting.word().to_owned(),
            size(case),
            used,
            shorten(&part, 26),
        ]);
    }
    w.table(&table);
    w.para("Where the sizes are from:", "  ");
    for (source, names) in sources {
        w.item(&format!("{}: {source}", names[0]));
    }
    w.out.push('\n');
}

fn size(case: &Case) -> String {
    match case.kind {
        CaseKind::LeaningBack | CaseKind::Pushing | CaseKind::Arm(_) | CaseKind::Declared(_) => {
            format!("{:.0} N", case.size)
        }
        _ => format!("x {:.2}", case.size),
    }
}

fn ranked(c: &Compilation, s: &Strength, w: &mut Writer) {
    w.para(
        "What gives first. Use is demand over what may be borne: on the plain side, where it surely breaks \
         beyond 100 %, and on the cautious side, with safety and notches.",
        "  ",
    );
    let mut table = Table::new(&["", "part", ">plain", ">cautious", "in, and by what"]);
    let rows = paired(&s.items);
    for (item, name) in rows.iter().take(ROWS) {
        table.row(vec![
            verdict_words(item.verdict).to_owned(),
            shorten(name, 24),
            percent(item.used.0),
            percent(item.used.1),
            format!("{}: {}", case_name(&c.design, &s.cases[item.case].kind), mode_words(item.mode)),
        ]);
    }
    w.table(&table);
    if rows.len() > ROWS {
        let rest = rows.len() - ROWS;
        let most = rows[ROWS].0.used.1;
        w.para(
            &format!("And {rest} more, none used beyond {}. In full: figures strength.*", percent(most)),
            "  ",
        );
    }
    w.out.push('\n');
}

/// Items with both sides on one row where they say the same.
fn paired(items: &[Item]) -> Vec<(&Item, String)> {
    let mut out: Vec<(&Item, String)> = Vec::new();
    for item in items {
        let plain = without_side(&item.name);
        let twin = out.iter_mut().find(|(o, _)| {
            without_side(&o.name) == plain && o.name != item.name && (o.used.1 / item.used.1 - 1.0).abs() < 0.01
        });
        match twin {
            Some((_, name)) => *name = format!("{plain}, both"),
            None => out.push((item, item.name.clone())),
        }
    }
    out
}

fn beside(s: &Strength, w: &mut Writer) {
    let mut lines = vec![format!(
        "Under the rider chair and tyres give way by {:.1} mm, so that a drop of 50 mm counts {:.1} times the weight.",
        s.give * 1e3,
        s.drop
    )];
    if let Some(sag) = s.sag {
        lines.push(format!("After years the seat sags by {:.1} mm between the ends of its rails.", sag * 1e3));
    }
    match s.buckling {
        Some(f) if f.is_finite() => {
            lines.push(format!("The frame gives way sideways under {f:.0} times the seated load."));
        }
        _ => {}
    }
    if let Some(change) = s.softer {
        lines.push(format!(
            "If every joint turns as five diameters of its pipe more would, the greatest use of a member or box changes by {:+.0} %.",
            change * 100.0
        ));
    }
    for life in &s.lives {
        lines.push(format!(
            "{}: {:.1} MPa over bumps, by a fit for plain pipe {} to {} times. This is no proof.",
            life.name,
            life.stress / 1e6,
            count(life.cycles.0),
            count(life.cycles.1)
        ));
    }
    lines.iter().for_each(|l| w.item(l));
    w.out.push('\n');
}

fn count(n: f64) -> String {
    if n >= 1e7 {
        "more than 10 000 000".to_owned()
    } else if n >= 1e6 {
        format!("{:.0} 000 000", n / 1e6)
    } else if n >= 1e3 {
        format!("{:.0} 000", n / 1e3)
    } else {
        format!("{n:.0}")
    }
}

/// What the failure of one joint does.
fn lost(s: &Strength, w: &mut Writer) {
    if s.lost.is_empty() {
        return;
    }
    let falls: Vec<&str> = s.lost.iter().filter(|l| l.falls).map(|l| l.name.as_str()).collect();
    if falls.is_empty() {
        w.item("If any one joint or fastening lets go, the rest still carries the seated rider.");
    } else {
        w.item(&format!("The chair comes down at once if one of these lets go: {}.", falls.join(", ")));
    }
    let weak: Vec<String> = s
        .lost
        .iter()
        .filter(|l| !l.falls && l.used > 1.0)
        .map(|l| format!("{} (the rest is used to {})", l.name, percent(l.used)))
        .collect();
    if !weak.is_empty() {
        w.item(&format!("One after the other would follow if one of these lets go: {}.", weak.join(", ")));
    }
}

fn untold(s: &Strength, w: &mut Writer) {
    let mut why: Vec<_> = s.untold.iter().map(|u| &u.why).collect();
    why.sort();
    why.dedup();
    for reason in why {
        let all = s.untold.iter().filter(|u| u.why == *reason);
        let mut names: Vec<String> = all.map(|u| without_side(&u.name)).collect();
        names.dedup();
        names.sort();
        names.dedup();
        w.item(&format!("Cannot tell: {}. This is about {}.", unknown_words(reason), names.join(", ")));
    }
    for line in &s.unchecked {
        w.item(&format!("Not checked: {line}."));
    }
    for left in &s.left_out {
        w.item(&format!("Not checked: {}.", unchecked_words(left)));
    }
}

/// A use in percent, rounded up: never toward unsafe.
fn percent(used: f64) -> String {
    if used.is_finite() { format!("{:.0} %", (used * 100.0 - 1e-9).ceil()) } else { "-".to_owned() }
}
