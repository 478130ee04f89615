//! The test sheet as a page to print and write on, 80 columns wide.

use crate::table::Table;
use crate::text::name_line;
use crate::writer::{WIDTH, Writer};
use chairwright_diagnostics::wrap;
use chairwright_driver::{
    Compilation, NO_TEST, ReadingText, Release, SheetText, TestText, nobody_words, sheet_text,
};
use std::fmt::Write as _;

/// Columns of the place to write into.
const LINE: usize = 16;
/// Column at which what passes begins.
const MIDDLE: usize = 36;

/// The sheet.
#[must_use]
pub fn sheet_page(c: &Compilation) -> String {
    let mut w = Writer { out: String::new() };
    w.para(&format!("TEST SHEET: {}", name_line(c)), "");
    w.para(
        "Worked out from the plan. This is no ISO 7176 test: the loads are those of a workshop and the limits the \
         project's own.",
        "",
    );
    if c.has_errors() {
        w.para(
            "NOT TO BE TESTED AS IT STANDS: mend what chairwright check names, and print this sheet again.",
            "",
        );
    }
    verdict(c, &mut w);
    if !c.sheet.whole {
        let lacks = crate::text_strength::nobody(&c.strength).map_or_else(
            || "the plan needs a rider, and a chair that stands with its wheels on.".to_owned(),
            |why| {
                let (why, help) = nobody_words(why);
                format!("{why}. To mend it, {help}.")
            },
        );
        w.para(&format!("\nThere is nothing to test by: {lacks}"), "");
        return w.out;
    }
    let sheet = sheet_text(c);
    w.out.push('\n');
    w.para(&format!("For a rider of {} at most; chair and rider together {}.", sheet.rider, sheet.total), "");
    first(c, &sheet, &mut w);
    for (i, test) in sheet.tests.iter().enumerate() {
        one(i + 1, test, &mut w);
    }
    last(c, &sheet, &mut w);
    w.out
}

/// The verdict on the built chair, at the head of a page.
pub(crate) fn verdict(c: &Compilation, w: &mut Writer) {
    let release = c.release();
    w.out.push('\n');
    let line = match (release.released(), release.tested) {
        (true, _) => "BUILT CHAIR: RELEASE. Nothing that was tested or computed holds it back.",
        (false, true) => "BUILT CHAIR: HOLD. Nobody sits in it.",
        (false, false) => "BUILT CHAIR: HOLD. Nothing was tested yet: nobody sits in it.",
    };
    w.para(line, "");
    if release.tested {
        held(&release, w);
    }
    w.para(NO_TEST, "");
}

fn held(release: &Release, w: &mut Writer) {
    for reason in &release.reasons {
        w.item(reason);
    }
}

fn first(c: &Compilation, sheet: &SheetText, w: &mut Writer) {
    w.head("BEFORE THE FIRST TEST");
    for line in &sheet.first {
        w.item(line);
    }
    if sheet.bags.is_empty() {
        return;
    }
    w.out.push('\n');
    w.para("The sand rider: three loads whose middles lie where the rider's parts have theirs.", "  ");
    let mut table = Table::new(&["where", ">sand", ">ahead of the seat's rear", ">above the floor"]);
    for b in &sheet.bags {
        table.row(vec![b.place.to_owned(), b.mass.clone(), b.ahead.clone(), b.height.clone()]);
    }
    w.table(&table);
    let d = &c.design;
    if !d.carried.is_empty() {
        let names: Vec<&str> = d.carried.iter().map(|x| x.name.as_str()).collect();
        w.para(&format!("With it, in its place: {}.", names.join(", ")), "  ");
    }
}

fn one(number: usize, test: &TestText, w: &mut Writer) {
    w.head(&format!("{number}  {}", test.title.to_uppercase()));
    for step in &test.steps {
        w.item(step);
    }
    if !test.look.is_empty() {
        w.para(&format!("Look first at: {}", test.look.join("; ")), "    ");
    }
    let mut whys: Vec<(String, Vec<&str>)> = Vec::new();
    for r in &test.readings {
        reading(r, w);
        match whys.iter_mut().find(|(why, _)| *why == r.why) {
            _ if r.why.is_empty() => {}
            Some((_, fields)) => fields.push(r.field),
            None => whys.push((r.why.clone(), vec![r.field])),
        }
    }
    if !whys.is_empty() {
        w.out.push('\n');
    }
    for (why, fields) in whys {
        w.para(&format!("{}: {why}", fields.join(", ")), "    ");
    }
}

/// Field, what it is and where to write it; below it what is expected and what passes.
fn reading(r: &ReadingText, w: &mut Writer) {
    let write = if r.result.is_empty() {
        format!("[{}]", "_".repeat(LINE))
    } else {
        format!("[{}: {}]", r.result, r.outcome)
    };
    let left = format!("  {}  {}", r.field, r.what);
    let room = WIDTH.saturating_sub(left.chars().count());
    w.out.push('\n');
    if write.chars().count() < room {
        let _ = writeln!(w.out, "{left}{write:>room$}");
    } else {
        let _ = writeln!(w.out, "{left}");
        let _ = writeln!(w.out, "{write:>WIDTH$}");
    }
    if r.expected.is_empty() {
        return;
    }
    let open = r.expected.starts_with("cannot tell");
    let expected = format!("      {}{}", if open { "" } else { "expected " }, r.expected);
    let passes = format!("passes if {}", r.passes);
    let passes = if r.passes.starts_with("cannot tell") { r.passes.clone() } else { passes };
    if expected.chars().count() + 2 <= MIDDLE && MIDDLE + passes.chars().count() <= WIDTH {
        let _ = writeln!(w.out, "{expected:MIDDLE$}{passes}");
    } else {
        for line in wrap(expected.trim(), WIDTH - 6).iter().chain(&wrap(&passes, WIDTH - 6)) {
            let _ = writeln!(w.out, "      {line}");
        }
    }
}

fn last(c: &Compilation, sheet: &SheetText, w: &mut Writer) {
    w.head("WHAT THIS SHEET DOES NOT PROVE");
    for line in &sheet.unproven {
        w.item(line);
    }
    w.head("WHO STANDS FOR IT");
    let built = c.design.as_built.as_ref();
    let said = |text: Option<&String>| text.map_or("_".repeat(28), Clone::clone);
    let revision = c.design.revision.as_deref().unwrap_or("none");
    w.para(&format!("measured by (role)  {}", said(built.and_then(|b| b.by.as_ref()))), "  ");
    w.para(&format!("date                {}", said(built.and_then(|b| b.dated.as_ref()))), "  ");
    let of = said(built.and_then(|b| b.revision.as_ref()));
    w.para(&format!("revision built      {of}  (this sheet: {revision})"), "  ");
    w.out.push('\n');
    w.para(
        "Write each result under its name into a file with one as_built block, and have it judged: chairwright prove \
         FILE --built RESULTS. A reading is taken to be off by what its instrument is; where you know better, write it: \
         12.3 deg ± 0.2 deg.",
        "  ",
    );
}
