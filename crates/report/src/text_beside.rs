//! What stands beside the verdicts of strength: mends with prices, give and sag, life, lost joints.

use crate::table::Table;
use crate::writer::Writer;
use chairwright_driver::{
    Compilation, Strengthening, brings_words, change_words, cost_words, doubt_words, folded, mass_words,
    mend_words, percent, without_side,
};
use chairwright_strength::{
    Beneath, CaseKind, Down, How, Item, Life, Lost, Rest, Strength, Taken, Turned, Under, Verdict, doubted,
};

/// What brings failing parts back, with mass and price, and for which parts nothing was found or looked for.
pub(crate) fn mends(c: &Compilation, w: &mut Writer) {
    let s = &c.strength;
    let failing = || s.items.iter().filter(|i| i.verdict == Verdict::Fail);
    if failing().next().is_none() {
        return;
    }
    w.para("What brings failing parts back, tried in every load case:", "  ");
    let mut table = Table::new(&["part", ">then", ">mass", "do"]);
    let mut joints = false;
    for r in &c.reinforcements {
        joints |= matches!(r.how, How::Stock(_));
        table.row(vec![
            folded(r.parts.iter().map(String::as_str)).join(", "),
            percent(r.used),
            mass_words(r.mass),
            format!("{}: {}", mend_words(r, c.display()), cost_words(&r.cost)),
        ]);
    }
    for s in c.strengthened.iter().filter_map(|(_, found)| found.as_ref()) {
        table.row(proven(s));
    }
    if !table.is_empty() {
        w.table(&table);
        let more = if joints {
            " What the joints of another stock need, fittings and solvent cement, is not in mass and price."
        } else {
            ""
        };
        w.para(
            &format!("\"Then\" is the use of what is sound; beyond 100 % a test must still tell.{more}"),
            "  ",
        );
    }
    let changed = |name: &str| c.strengthened.iter().any(|(part, _)| without_side(part) == without_side(name));
    let tried = |name: &str| changed(name) || s.mends.iter().any(|m| m.name == name);
    let found = |name: &str| c.strengthened.iter().any(|(_, f)| f.as_ref().is_some_and(|f| f.is_for(name)));
    let offered = |name: &str| found(name) || c.reinforcements.iter().any(|r| r.is_for(name));
    let names =
        |keep: &dyn Fn(&str) -> bool| folded(failing().map(|i| i.name.as_str()).filter(|n| keep(n))).join(", ");
    let nothing = names(&|n| tried(n) && !offered(n));
    if !nothing.is_empty() {
        w.item(&format!(
            "Nothing that was tried is enough for: {nothing}. Tried were sleeves, other stocks, boxes, second boards, \
             webs, thicker sheets, more fasteners, glue and gusset plates, where they can be built there."
        ));
    }
    let open = names(&|n| !tried(n) && !offered(n));
    if !open.is_empty() {
        w.item(&format!(
            "Not looked for: {open}. Something is tried for the weakest parts alone, and only where the check \
             works out the plan as it stands in its files."
        ));
    }
    w.out.push('\n');
}

/// A proven change of the text: parts, use after it, mass, what to do and its price.
fn proven(s: &Strengthening) -> Vec<String> {
    let how = if s.was.is_empty() { "add" } else { "write" };
    vec![
        folded(s.parts.iter().map(String::as_str)).join(", "),
        percent(s.used.1),
        mass_words(s.mass),
        format!(
            "{}: {}{}; {how}: {}",
            change_words(&s.change),
            cost_words(&s.cost),
            brings_words(s),
            one_line(&s.is)
        ),
    ]
}

/// What clears the doubt about parts of which only a test tells, and for which of them nothing was found or looked for.
pub(crate) fn clears(c: &Compilation, w: &mut Writer) {
    if c.cleared.is_empty() {
        return;
    }
    let found: Vec<&Strengthening> = c.cleared.iter().filter_map(|(_, found)| found.as_ref()).collect();
    if !found.is_empty() {
        w.para(
            "What clears the doubt where only a test tells, each by itself; with it the part is sound in every load case:",
            "  ",
        );
        let mut table = Table::new(&["part", ">then", ">mass", "do"]);
        found.iter().for_each(|s| table.row(proven(s)));
        w.table(&table);
    }
    let nothing = c.cleared.iter().filter(|(_, found)| found.is_none()).map(|(name, _)| name.as_str());
    let nothing = folded(nothing).join(", ");
    let tried = |i: &Item| c.cleared.iter().any(|(name, _)| without_side(name) == without_side(&i.name));
    let rest = doubted(&c.strength.items, &c.strength.untold);
    let rest = folded(rest.into_iter().filter(|i| !tried(i)).map(|i| i.name.as_str())).join(", ");
    if !nothing.is_empty() {
        w.item(&format!(
            "A few changes were tried for these, and nothing found that clears the doubt: {nothing}. Test them."
        ));
    }
    if !rest.is_empty() {
        w.item(&format!("Only a test tells of these too, and nothing was looked for: {rest}."));
    }
    w.out.push('\n');
}

/// A text to paste on one line.
fn one_line(text: &str) -> String {
    text.lines().collect::<Vec<_>>().join(" / ")
}

pub(crate) fn beside(s: &Strength, w: &mut Writer) {
    let give = format!("Under the rider chair and tyres give way by {:.1} mm", s.give * 1e3);
    let drop =
        s.cases.iter().find_map(|c| if let CaseKind::Drop(h) = c.kind { Some((h, c.size)) } else { None });
    let mut lines = vec![match drop {
        Some((height, size)) => {
            format!("{give}, so that a drop of {:.0} mm counts {size:.1} times the weight.", height * 1e3)
        }
        None => format!("{give}."),
    }];
    if let Some(sag) = s.sag {
        lines.push(format!("After years the seat sags by {:.1} mm between the ends of its rails.", sag * 1e3));
    }
    lines.extend(turned(s));
    lines.extend(leaned(s));
    if let Some(turn) = s.seat_turned {
        lines.push(format!("After years the seat has turned by {} deg, front up is positive.", signed(turn)));
    }
    if let Some(narrow) = s.narrow {
        lines.push(format!("After years the seat pulls its rails {:.1} mm closer together.", narrow * 1e3));
    }
    match s.buckling {
        Some(f) if f.is_finite() => {
            let years = s.buckling_lasting.filter(|y| y.is_finite());
            // never rounded up; of a few times, tenths count
            let times = |x: f64| {
                if x < 10.0 { format!("{:.1}", (x * 10.0).floor() / 10.0) } else { format!("{:.0}", x.floor()) }
            };
            let years = years.map_or(String::new(), |y| format!(", after years under {} times", times(y)));
            lines
                .push(format!("The frame gives way sideways under {} times the seated load{years}.", times(f)));
        }
        _ => {}
    }
    let turns = s.taken.iter().find_map(|t| if let Taken::RigidJoints(n) = t { Some(*n) } else { None });
    if let Some((change, turns)) = s.softer.zip(turns) {
        let words = match (change * 100.0).round() {
            0.0 => "hardly changes".to_owned(),
            c if c > 0.0 => format!("grows by {c:.0} % of itself"),
            c => format!("falls by {:.0} % of itself", -c),
        };
        lines.push(format!(
            "If every joint gives way as {turns:.0} diameters of its pipe more would, and sheets hold along their face by no more than is \
             sure, the greatest use of a member or box {words}; that is not in the uses above.{}",
            softest(s)
        ));
    }
    for (names, why) in doubts(s) {
        lines.push(format!("Not called sound: {}: {why}.", names.join(", ")));
    }
    lines.iter().for_each(|l| w.item(l));
    w.out.push('\n');
}

/// How the rear wheels stand after years; both on one line where they stand alike.
fn turned(s: &Strength) -> Vec<String> {
    let words =
        |t: &Turned| format!("{} deg more toe and {} deg more camber", signed(t.toe.1), signed(t.camber.1));
    match &s.turned[..] {
        [a, b] if words(a) == words(b) => {
            vec![format!("After years under its rider each rear wheel has {}.", words(a))]
        }
        all => {
            let one = |t: &Turned| {
                format!("After years under its rider the {} rear wheel has {}.", t.side.word(), words(t))
            };
            all.iter().map(one).collect()
        }
    }
}

/// How the stems of the casters stand after years; all on one line where they stand alike.
fn leaned(s: &Strength) -> Option<String> {
    let words = |l: &chairwright_strength::Leaned| {
        let (now, drawn) = (l.lean.1.to_degrees(), l.lean.0.to_degrees());
        let (back, out) = (signed(l.by.0), signed(l.by.1));
        format!(
            "{now:.1} deg from the vertical, {drawn:.1} deg as drawn: its top has moved by {back} deg to the rear and {out} deg outward"
        )
    };
    let mut all: Vec<String> = s.leaned.iter().map(words).collect();
    all.dedup();
    match &all[..] {
        [] => None,
        [one] => Some(format!("After years under its rider each caster's stem stands {one}.")),
        more => Some(format!("After years under its rider the casters' stems stand {}.", more.join("; "))),
    }
}

/// An angle in degrees with its sign, nothing without one.
fn signed(angle: f64) -> String {
    let text = format!("{:+.2}", angle.to_degrees());
    if text == "+0.00" || text == "-0.00" { "0.00".to_owned() } else { text }
}

/// The joint to measure.
fn softest(s: &Strength) -> String {
    let Some((name, by)) = &s.softest else { return String::new() };
    format!(
        " Of the joints that then turn most, {name} moves it most, by {:.0} % when it alone gives way: measure how far it turns under a known moment and \
         write it, as `stiffness 800 Nm/rad` behind `close {name}`.",
        by.abs() * 100.0
    )
}

/// Reasons to doubt what holds, each with the names that it is about, both sides as one.
fn doubts(s: &Strength) -> Vec<(Vec<String>, String)> {
    let mut out: Vec<(Vec<&str>, String)> = Vec::new();
    for (name, doubt) in &s.doubts {
        let why = doubt_words(doubt);
        match out.iter_mut().find(|(_, w)| *w == why) {
            Some((names, _)) => names.push(name),
            None => out.push((vec![name], why)),
        }
    }
    out.into_iter().map(|(names, why)| (folded(names), why)).collect()
}

/// Lives as a table; both sides on one row where they are the same.
pub(crate) fn lives(s: &Strength, w: &mut Writer) {
    if s.lives.is_empty() {
        return;
    }
    w.para("How often plain pipe bears this stress by a published fit; a band, and no proof:", "  ");
    let mut table = Table::new(&["part", ">stress over bumps", ">at least, times", ">at most, times"]);
    let cells = |l: &Life| [format!("{:.1} MPa", l.stress / 1e6), count(l.cycles.0), count(l.cycles.1)];
    for (k, l) in s.lives.iter().enumerate() {
        let same = |o: &Life| without_side(&o.name) == without_side(&l.name) && cells(o) == cells(l);
        if s.lives[..k].iter().any(&same) {
            continue;
        }
        let names = folded(s.lives.iter().filter(|o| same(o)).map(|o| o.name.as_str())).join(", ");
        let [stress, least, most] = cells(l);
        table.row(vec![names, stress, least, most]);
    }
    w.table(&table);
    w.out.push('\n');
}

/// Cycles to two figures, rounded down.
fn count(n: f64) -> String {
    if n >= 1e7 {
        return "more than 10 000 000".to_owned();
    }
    let mut step = 1.0;
    while n / step >= 100.0 {
        step *= 10.0;
    }
    let whole = format!("{:.0}", (n / step).floor() * step);
    let mut out = String::new();
    for (k, digit) in whole.chars().enumerate() {
        if k > 0 && (whole.len() - k) % 3 == 0 {
            out.push(' ');
        }
        out.push(digit);
    }
    out
}

/// What the failure of one joint or fastening does, the worst on top.
pub(crate) fn lost(s: &Strength, w: &mut Writer) {
    if s.lost.is_empty() {
        return;
    }
    w.para(
        "If one joint or fastening lets go and the rider goes on sitting in the chair, what is left carries more, here \
         for years; with the part of it that is used most:",
        "  ",
    );
    let shared = shared(s);
    let mut groups: Vec<(f64, String, Vec<&str>)> = Vec::new();
    for l in &s.lost {
        let words = then(l, &shared);
        let rank = rank(l);
        match groups.iter_mut().find(|g| g.1 == words) {
            Some(g) => {
                g.0 = g.0.max(rank);
                g.2.push(&l.name);
            }
            None => groups.push((rank, words, vec![&l.name])),
        }
    }
    groups.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut table = Table::new(&["then", "if one of these lets go"]);
    for (_, words, names) in groups {
        table.row(vec![words, folded(names).join(", ")]);
    }
    w.table(&table);
    if !shared.is_empty() {
        let names = folded(shared.iter().copied()).join(", ");
        w.item(&format!(
            "Whichever lets go, what could not be judged stays in the rest, so that none is called sound: {names}."
        ));
    }
    let stops = match s.seat_height {
        Some(height) if s.lost.iter().any(|l| matches!(l.comes(), Down::Seat | Down::Wheel)) => {
            stops(height, s.under_seat.as_ref())
        }
        _ => String::new(),
    };
    w.item(&format!(
        "The load stays on what is left: where that holds, the seat stays up and sinks by what is told; what breaks or moves \
         freely goes as well, one after the other. What comes down, comes down suddenly, as far as was computed.{stops} The \
         jerk of letting go, softer joints and giving way sideways are not counted."
    ));
    w.out.push('\n');
}

/// How deep a seat can come down, never less than drawn.
fn stops(height: f64, under: Option<&Under>) -> String {
    let up = |m: f64| (m * 1e3 - 1e-9).ceil();
    let ground = format!("the seat stands {:.0} mm above the ground", up(height));
    match under {
        Some(under) => {
            let what = match under.what {
                Beneath::Frame => "",
                Beneath::Wheel => "wheel ",
                Beneath::Caster => "caster ",
            };
            format!(
                " Nothing was reckoned on to stop it: {ground}, and of frame and wheels {what}{} lies under it first, {:.0} mm lower, if it \
                 does not come down as well; brakes and what else is bought were not looked for.",
                without_side(&under.name),
                up(under.by)
            )
        }
        None => format!(
            " Nothing was reckoned on to stop it, and of frame, wheels and casters nothing lies under it: {ground}."
        ),
    }
}

/// What could not be judged whichever lets go; nothing where one lets go and leaves all of the rest judged.
fn shared(s: &Strength) -> Vec<&str> {
    let mut rows = s.lost.iter().filter(|l| !l.falls);
    let first = rows.next().map_or(&[][..], |l| &l.unjudged[..]);
    let all: Vec<&Lost> = rows.collect();
    first.iter().filter(|n| all.iter().all(|l| l.unjudged.contains(n))).map(String::as_str).collect()
}

/// The worst on top: what comes down, what surely breaks, what cannot be told, what is sound.
fn rank(l: &Lost) -> f64 {
    let within = |used: f64| if used.is_nan() { 1e6 } else { used.min(1e6) };
    match l.rest() {
        Rest::Falls => f64::INFINITY,
        Rest::Breaks => 1e14 * l.used.0,
        Rest::CannotTell => 1e7 * (1.0 + within(l.used.1)),
        Rest::Sound => l.used.1,
    }
}

fn then(l: &Lost, shared: &[&str]) -> String {
    let own = l.unjudged.iter().map(String::as_str).filter(|n| !shared.contains(n));
    let own = folded(own).join(", ");
    let open = if own.is_empty() { String::new() } else { format!("; not judged: {own}") };
    let worst = l.worst.as_deref().map_or_else(
        || "the rest was not computed".to_owned(),
        |name| {
            format!(
                "{} at {} of what is sound, {} of what breaks it",
                without_side(name),
                percent(l.used.1),
                percent(l.used.0)
            )
        },
    );
    let goes = goes(l);
    match (l.rest(), l.comes()) {
        (Rest::Falls, Down::Wheel) => {
            format!("what holds a wheel comes loose at once ({goes}): the chair goes down there, or over")
        }
        (Rest::Falls, _) => "the seat comes down at once".to_owned(),
        (Rest::Breaks, Down::Seat) => format!("the rest breaks: {worst}; with {goes} the seat comes down"),
        (Rest::Breaks, Down::Wheel) => {
            format!("the rest breaks: {worst}; with {goes} a wheel lets go: the chair goes down there, or over")
        }
        (Rest::Breaks, Down::Stays) => {
            format!("the rest breaks: {worst}; {goes} alone, and the seat stays up{}", sinks(l, ""))
        }
        (Rest::Breaks, Down::Untold) => {
            format!("the rest breaks: {worst}; with {goes} whether the seat comes down cannot be told")
        }
        (Rest::Sound, _) => {
            let loose = loose(&goes, "the seat stays up");
            format!("{loose}the rest holds soundly: {worst}{}", sinks(l, ""))
        }
        (Rest::CannotTell, _) => {
            let loose = loose(&goes, "whether the seat stays up cannot be told");
            let though = if l.used.1 <= 1.0 { ", though what was judged is sound" } else { "" };
            let told = match (l.worst.is_some(), goes.is_empty()) {
                (true, false) => "the rest",
                _ => "cannot be told",
            };
            format!("{loose}{told}{though}: {worst}{open}{}", sinks(l, "if it holds, "))
        }
    }
}

/// So many of what follows a joint are named.
const NAMED: usize = 4;

/// What follows the joint, both sides as one.
fn goes(l: &Lost) -> String {
    let mut names: Vec<String> = Vec::new();
    for name in l.lets_go.iter().map(|n| without_side(n)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let more = names.len().saturating_sub(NAMED);
    names.truncate(NAMED);
    let names = names.join(", ");
    if more > 0 { format!("{names} and {more} more") } else { names }
}

fn loose(goes: &str, then: &str) -> String {
    if goes.is_empty() { String::new() } else { format!("comes loose at once: {goes}; {then}: ") }
}

/// By how much the seat sinks, never less than was found; what is more than shifts that can be computed is not told as a figure.
fn sinks(l: &Lost, when: &str) -> String {
    match l.sinks {
        Some(_) if l.sinks_far() => "; the seat sinks further than can be computed".to_owned(),
        Some(by) => format!("; {when}the seat sinks by {:.1} mm", (by * 1e4 - 1e-6).ceil() / 10.0),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Never more than was found: 99 999 is told as 99 000, 1 234 567 as 1 200 000.
    #[test]
    fn lives_are_rounded_down() {
        assert_eq!(count(99_999.0), "99 000");
        assert_eq!(count(1_234_567.0), "1 200 000");
        assert_eq!(count(336.0), "330");
        assert_eq!(count(7.9), "7");
        assert_eq!(count(2e7), "more than 10 000 000");
    }
}
