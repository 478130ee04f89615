//! The test sheet and the verdict on the built chair as JSON.

use chairwright_driver::{Compilation, NO_TEST, sheet_text};
use chairwright_proving::Outcome;
use serde::Serialize;

/// The verdict.
#[derive(Serialize)]
pub(crate) struct ReleaseJson {
    verdict: &'static str,
    tested: bool,
    reasons: Vec<String>,
    note: &'static str,
}

/// The sheet.
#[derive(Serialize)]
pub(crate) struct SheetJson {
    heaviest_rider: f64,
    total: f64,
    sand_rider: Vec<BagJson>,
    before: Vec<String>,
    tests: Vec<TestJson>,
    not_proven: Vec<String>,
}

#[derive(Serialize)]
struct BagJson {
    place: &'static str,
    mass: f64,
    ahead: f64,
    height: f64,
}

#[derive(Serialize)]
struct TestJson {
    number: usize,
    title: &'static str,
    steps: Vec<String>,
    look_at: Vec<WeakJson>,
    readings: Vec<ReadingJson>,
}

#[derive(Serialize)]
struct WeakJson {
    name: String,
    used: Option<f64>,
    verdict: Option<&'static str>,
}

#[derive(Serialize)]
struct ReadingJson {
    field: &'static str,
    what: &'static str,
    unit: Option<String>,
    expected: Option<f64>,
    expected_most: Option<f64>,
    adjusted: String,
    expected_text: String,
    least: Option<f64>,
    greatest: Option<f64>,
    tolerance: f64,
    passes_text: String,
    why: String,
    result: Option<[f64; 2]>,
    passed: Option<bool>,
    outcome: &'static str,
}

pub(crate) fn release(c: &Compilation) -> ReleaseJson {
    let r = c.release();
    ReleaseJson { verdict: r.word(), tested: r.tested, reasons: r.reasons, note: NO_TEST }
}

pub(crate) fn sheet(c: &Compilation) -> Option<SheetJson> {
    if !c.sheet.whole {
        return None;
    }
    let words = sheet_text(c);
    let tests = c.sheet.tests.iter().zip(words.tests).enumerate().map(|(i, (test, text))| TestJson {
        number: i + 1,
        title: text.title,
        steps: text.steps,
        look_at: test
            .weakest
            .iter()
            .map(|w| WeakJson {
                name: w.name.clone(),
                used: Some(w.used).filter(|u| u.is_finite()),
                verdict: w.verdict.map(chairwright_driver::verdict_words),
            })
            .collect(),
        readings: test.readings.iter().zip(text.readings).map(|(r, t)| reading(r, t)).collect(),
    });
    let bag = |(b, t): (&chairwright_proving::Bag, chairwright_driver::BagText)| BagJson {
        place: t.place,
        mass: b.mass,
        ahead: b.ahead,
        height: b.height,
    };
    Some(SheetJson {
        heaviest_rider: c.sheet.rider,
        total: c.sheet.total,
        sand_rider: c.sheet.bags.iter().zip(words.bags).map(bag).collect(),
        before: words.first,
        tests: tests.collect(),
        not_proven: words.unproven,
    })
}

fn reading(r: &chairwright_proving::Reading, t: chairwright_driver::ReadingText) -> ReadingJson {
    let (least, greatest) = r.range();
    ReadingJson {
        field: r.field,
        what: t.what,
        unit: r.dimension.map(|d| d.to_string()),
        expected: r.expected,
        expected_most: r.most,
        adjusted: r.adjusted.clone(),
        expected_text: t.expected,
        least,
        greatest,
        tolerance: r.tolerance,
        passes_text: t.passes,
        why: t.why,
        result: r.result.map(|b| [b.low, b.high]),
        passed: r.passed,
        outcome: match r.outcome {
            Outcome::Missing => "missing",
            Outcome::Passed => "passed",
            Outcome::Failed => "failed",
            Outcome::OffSheet => "off the plan",
            Outcome::TooGentle => "too gently tested",
            Outcome::CannotTell => "cannot tell",
            Outcome::NoLimit => "no limit",
        },
    }
}

#[derive(Serialize)]
struct Page {
    design: String,
    revision: Option<String>,
    variant: Option<String>,
    release: ReleaseJson,
    test_sheet: Option<SheetJson>,
}

/// The sheet by itself.
///
/// # Errors
/// Only when a value cannot be written as JSON, which no compilation makes.
pub fn sheet_json(c: &Compilation) -> Result<String, serde_json::Error> {
    let d = &c.design;
    let (design, revision, variant) = (d.name.clone(), d.revision.clone(), d.variant.clone());
    let page = Page { design, revision, variant, release: release(c), test_sheet: sheet(c) };
    Ok(serde_json::to_string_pretty(&page)? + "\n")
}
