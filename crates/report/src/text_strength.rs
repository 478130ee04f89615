//! Whether the chair holds: what gives first, load cases, what could not be judged. The JSON report has every row.

use crate::table::Table;
use crate::text_beside::{beside, clears, lives, lost, mends};
use crate::text_cases::cases;
use crate::writer::Writer;
use chairwright_driver::{
    BOTH, Compilation, beside_words, case_name, case_words, folded, mode_words, nobody_words, percent,
    refused_words, unchecked_words, unknown_words, verdict_words, without_side,
};
use chairwright_strength::{Absent, Item, Lasting, Open, Strength, Verdict};
use std::collections::{BTreeMap, BTreeSet};

/// Rows of the table of what gives first; the JSON report has all of them.
const ROWS: usize = 16;

pub(crate) fn strength(c: &Compilation, w: &mut Writer) {
    let s = &c.strength;
    if let Some(why) = nobody(s) {
        w.head("DOES IT HOLD");
        w.para(&format!("CANNOT TELL: nothing was judged, for {}.", nobody_words(why).0), "  ");
        return;
    }
    if !s.judged {
        return;
    }
    w.head("DOES IT HOLD");
    w.para(&verdict(c, s), "  ");
    w.para(&count(s), "  ");
    w.para("Computed with beams in space; not an ISO 7176 test.", "  ");
    w.out.push('\n');
    climate(s, w);
    if s.cases.is_empty() {
        w.para("No load case could be computed: the findings say what must be mended first.", "  ");
        return;
    }
    ranked(c, s, w);
    mends(c, w);
    clears(c, w);
    cases(c, s, w);
    beside(s, w);
    lives(s, w);
    lost(s, w);
    untold(c, s, w);
}

/// Why nobody sits on it, where that is so.
pub(crate) fn nobody(s: &Strength) -> Option<Absent> {
    s.open.iter().find_map(|o| match o {
        Open::Nobody(why) => Some(*why),
        _ => None,
    })
}

/// The first line: what gives first, in which case, by what margin.
fn verdict(c: &Compilation, s: &Strength) -> String {
    let first = s.items.first();
    let what = |i: &Item| {
        let both = if is_pair(&s.items, i) { BOTH } else { "" };
        let when = case_words(&c.design, &s.cases[i.case].kind);
        let name = if both.is_empty() { i.name.clone() } else { without_side(&i.name) };
        format!("{name}{both}, {when}, by {}", mode_words(i.mode))
    };
    let sideways = |o: &Open| matches!(o, Open::GivesSideways { .. }) && o.falls();
    match (s.verdict(), first) {
        (Verdict::Fail, Some(i)) if i.verdict == Verdict::Fail => {
            format!("NO. First to give: {}: used to {} of what surely breaks it.", what(i), percent(i.most.0))
        }
        (Verdict::Fail, _) if s.open.iter().any(sideways) => {
            "NO: the frame gives way sideways under its rider. See the findings.".to_owned()
        }
        (Verdict::Fail, _) if s.open.iter().any(Open::falls) => {
            "NO: a stem or an axle surely breaks. See the findings.".to_owned()
        }
        (Verdict::Fail, _) => {
            "NO: something is held by nothing, moves by itself or is refused. See the findings.".to_owned()
        }
        (_, None) => "CANNOT TELL: nothing could be judged. Test it.".to_owned(),
        (Verdict::CannotTell, Some(i)) if i.verdict == Verdict::CannotTell => format!(
            "CANNOT TELL, test it. First to give: {}: used to {} of what surely breaks it, and to {} of what is \
             sound.",
            what(i),
            percent(i.most.0),
            percent(i.most.1)
        ),
        (word, Some(i)) => {
            let start = if word == Verdict::Pass {
                "All that was judged holds."
            } else {
                "CANNOT TELL: what was judged holds, but not everything could be judged."
            };
            let left = ((1.0 - i.most.1) * 100.0 + 1e-9).floor();
            format!(
                "{start} First to give: {}: used to {} of what is sound, {left:.0} % are left.",
                what(i),
                percent(i.most.1)
            )
        }
    }
}

/// How many of everything; sides counted one by one.
fn count(s: &Strength) -> String {
    // a part that stands there more than once counts by its worst
    let mut worst: BTreeMap<&str, Verdict> = BTreeMap::new();
    for i in &s.items {
        let old = worst.entry(&i.name).or_insert(i.verdict);
        *old = i.verdict.max(*old);
    }
    let of = |v: Verdict| worst.values().filter(|x| **x == v).count();
    let told: BTreeSet<&str> = s.untold.iter().map(|u| u.name.as_str()).collect();
    let rows = [
        (of(Verdict::Fail), "fail", "fails"),
        (of(Verdict::CannotTell), "need a test", "needs a test"),
        (of(Verdict::Pass), "hold", "holds"),
        (told.len(), "could not be judged under some load", "could not be judged under some load"),
        (s.refused.len(), "load cases could not be computed", "load case could not be computed"),
        (s.loose.len() + s.swings.len(), "are held by nothing or move", "is held by nothing or moves"),
        (s.forbidden.len(), "load paths are refused", "load path is refused"),
        (s.incompatible.len(), "pairs must not touch", "pair must not touch"),
    ];
    let words: Vec<String> = rows
        .iter()
        .filter(|r| r.0 > 0)
        .map(|(n, many, one)| format!("{n} {}", if *n == 1 { one } else { many }))
        .collect();
    format!("Parts and joints, each side counted: {}.", words.join(", "))
}

fn climate(s: &Strength, w: &mut Writer) {
    let Some(climate) = s.climate else { return };
    let wet = if climate.wet { ", wet" } else { ", dry" };
    let feet: Vec<String> = s.feet.iter().map(|(n, f)| format!("{n} {f:.0} N")).collect();
    let line = format!(
        "For a rider of {:.0} kg (with the spread of the measure), at {:.0} degC{wet}. Under the rider the \
         wheels carry {}.",
        s.mass,
        climate.hot - 273.15,
        feet.join(", ")
    );
    w.para(&line, "  ");
    w.out.push('\n');
}

fn ranked(c: &Compilation, s: &Strength, w: &mut Writer) {
    w.para(
        "What gives first, the weakest on top. Beyond 100 % under \"breaks\" it surely breaks, or, under a load that stays \
         or is put on slowly, bears more than its material's own rule lets it, safety counted; up to 100 % under \
         \"sound\" it holds, notches counted and safety too, which over bumps lies in counting them three times the \
         rider; between the two only a test tells. Each is the greatest of all loads; the last column says where that \
         of \"sound\" is, or of \"breaks\" where it fails.",
        "  ",
    );
    let mut table = Table::new(&["", "part", ">breaks", ">sound", "in, and by what"]);
    let rows = paired(&s.items);
    for (item, name, used) in rows.iter().take(ROWS) {
        table.row(vec![
            verdict_words(item.verdict).to_owned(),
            name.clone(),
            percent(used.0),
            percent(used.1),
            format!("{}: {}", case_name(&c.design, &s.cases[item.case].kind), mode_words(item.mode)),
        ]);
    }
    w.table(&table);
    if rows.len() > ROWS {
        let most = rows[ROWS..].iter().map(|r| r.2.1).fold(0.0, f64::max);
        let words = format!("And {} more, none beyond {} of what is sound.", rows.len() - ROWS, percent(most));
        w.para(&format!("{words} In full: figures FILE 'strength.*'"), "  ");
    }
    w.out.push('\n');
}

/// Whether two items are the two sides of one thing and say the same: verdict, case, mode, and uses within 1 %.
fn are_twins(a: &Item, b: &Item) -> bool {
    let near = |x: f64, y: f64| x == y || (x / y - 1.0).abs() < 0.01;
    a.name != b.name
        && without_side(&a.name) == without_side(&b.name)
        && (a.verdict, a.mode) == (b.verdict, b.mode)
        && near(a.used.0, b.used.0)
        && near(a.used.1, b.used.1)
}

fn is_pair(items: &[Item], item: &Item) -> bool {
    items.iter().any(|other| are_twins(item, other))
}

/// Items with both sides on one row where they say the same; the worse side's numbers stand there.
fn paired(items: &[Item]) -> Vec<(&Item, String, (f64, f64))> {
    let mut out: Vec<(&Item, String, (f64, f64))> = Vec::new();
    for item in items {
        match out.iter_mut().find(|(o, ..)| are_twins(o, item)) {
            Some((_, name, used)) => {
                *name = format!("{}, both", without_side(&item.name));
                *used = (used.0.max(item.most.0), used.1.max(item.most.1));
            }
            None => out.push((item, item.name.clone(), item.most)),
        }
    }
    out
}

fn untold(c: &Compilation, s: &Strength, w: &mut Writer) {
    let mut why: Vec<_> = s.untold.iter().map(|u| &u.why).collect();
    why.sort();
    why.dedup();
    let mut table = Table::new(&["not judged", "loads", "because"]);
    for reason in why {
        let all = || s.untold.iter().filter(|u| u.why == *reason);
        let mut kinds: Vec<Lasting> = all().flat_map(|u| u.kinds.iter().copied()).collect();
        kinds.sort();
        kinds.dedup();
        let kinds: Vec<&str> = kinds.iter().map(|k| k.word()).collect();
        let names = folded(all().map(|u| u.name.as_str())).join(", ");
        table.row(vec![names, kinds.join(", "), unknown_words(reason, c.display())]);
    }
    for r in &s.refused {
        let case = r
            .case
            .and_then(|k| s.cases.get(k))
            .map_or("the frame".to_owned(), |x| case_name(&c.design, &x.kind));
        table.row(vec![case, String::new(), refused_words(r)]);
    }
    if !table.is_empty() {
        w.table(&table);
        w.out.push('\n');
    }
    w.para("Not checked:", "  ");
    let left_out = s.beside.iter().map(|b| beside_words(&c.design, b));
    let more = s.left_out.iter().map(unchecked_words);
    left_out.chain(more).for_each(|line| w.item(&format!("{line}.")));
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_strength::{Mode, What};

    fn item(name: &str, used: (f64, f64), verdict: Verdict) -> Item {
        Item {
            what: What::Tie(chairwright_strength::TieOf::Fastening(0)),
            name: name.to_owned(),
            origin: chairwright_design::Origin(0),
            case: 0,
            mode: Mode::Bending,
            at: 0.0,
            used,
            most: used,
            demand: 0.0,
            bears: 0.0,
            verdict,
        }
    }

    /// The worse of the two sides stands on the common row, in each column.
    #[test]
    fn folding_shows_the_worse_side() {
        let items = [
            item("left.rail", (0.500, 1.300), Verdict::CannotTell),
            item("right.rail", (0.504, 1.295), Verdict::CannotTell),
        ];
        let rows = paired(&items);
        assert_eq!(rows.len(), 1);
        assert_eq!((rows[0].1.as_str(), rows[0].2), ("rail, both", (0.504, 1.300)));
    }

    /// Sides that differ by more than 1 %, or in what came of them, keep rows of their own.
    #[test]
    fn sides_that_differ_are_not_folded() {
        for other in [
            item("right.rail", (0.50, 1.27), Verdict::CannotTell),
            item("right.rail", (0.50, 1.30), Verdict::Fail),
        ] {
            let items = [item("left.rail", (0.50, 1.30), Verdict::CannotTell), other];
            assert_eq!(paired(&items).len(), 2);
        }
        let odd = [item("left.rail", (0.5, 1.3), Verdict::Pass), item("cleft.rail", (0.5, 1.3), Verdict::Pass)];
        assert_eq!(paired(&odd).len(), 2);
    }
}
