//! Results against the sheet, and what holds the chair back.

use crate::make::SCALES;
use crate::sheet::{Limit, Outcome, Reading, TestSheet, Why};
use crate::tilt::DIRECTIONS;
use chairwright_design::{AsBuilt, Band, Design, OtherBuilt};

/// Rounding of sums and units that no instrument shows, in SI units.
const EPSILON: f64 = 1e-9;

/// Something that holds the chair back.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Reason {
    /// There is no ridden chair that stands: nothing could be tested by.
    NoSheet,
    /// A reading of the sheet: test counted from one, field, and what came of it.
    Reading(usize, &'static str, Outcome),
    /// A result of something that is not on the sheet: the plan does not have what was tested.
    NotOnSheet(String),
    /// Nobody says who measured.
    Nobody,
    /// Nobody says when.
    Undated,
    /// Another variant was built.
    OtherVariant {
        /// What was built; `None` for the base design.
        built: Option<String>,
        /// What is looked at.
        asked: Option<String>,
    },
    /// It was tested for another rider: for whom, or nobody says for whom.
    OtherRider(Option<String>),
    /// Parameters are set otherwise than the plan has them.
    OtherSettings,
    /// A state is looked at, and the results are of the chair as it is ridden.
    OtherState(String),
    /// It was tested for another place: for which, or nobody says for which.
    OtherPlace(Option<String>),
    /// The plan has no revision: nobody can tell whether it is still the one that was built.
    NoRevision,
    /// Another revision was built, or nobody says which.
    OtherRevision {
        /// What was built.
        built: Option<String>,
        /// What is looked at.
        asked: String,
    },
}

/// Writes the results into the sheet and judges each.
pub fn judge(sheet: &mut TestSheet, built: Option<&AsBuilt>) {
    for reading in sheet.tests.iter_mut().flat_map(|t| &mut t.readings) {
        reading.result = built.and_then(|b| b.values.get(reading.field)).copied();
        reading.passed = built.and_then(|b| b.passed.get(reading.field)).copied();
        reading.outcome = outcome(reading);
    }
    for field in contradicted(sheet) {
        let mut all = sheet.tests.iter_mut().flat_map(|t| &mut t.readings);
        if let Some(reading) = all.find(|r| r.field == field && r.outcome == Outcome::Passed) {
            reading.outcome = Outcome::OffSheet;
        }
    }
}

/// Readings that others make impossible: at its least stable stops no chair stands better than as it is used, which is one of its
/// stops, and four scales show together what chair and rider weigh.
fn contradicted(sheet: &TestSheet) -> Vec<&'static str> {
    let band = |field: &str| {
        let reading = sheet.reading(field)?;
        Some(widened(reading.result?, reading.tolerance))
    };
    let stops = DIRECTIONS.iter().filter(|(used, least, ..)| {
        band(used).zip(band(least)).is_some_and(|(used, least)| least.low > used.high + EPSILON)
    });
    let mut out: Vec<&'static str> = stops.map(|(_, least, ..)| *least).collect();
    let scales: Option<Vec<Band>> = SCALES.iter().map(|field| band(field)).collect();
    if let Some((scales, whole)) = scales.zip(band("system_mass")) {
        let sum = |end: fn(&Band) -> f64| scales.iter().map(end).sum::<f64>();
        if sum(|b| b.low) > whole.high + EPSILON || sum(|b| b.high) < whole.low - EPSILON {
            out.push("system_mass");
        }
    }
    out
}

fn outcome(r: &Reading) -> Outcome {
    if r.dimension.is_none() {
        return match r.passed {
            None => Outcome::Missing,
            Some(true) => Outcome::Passed,
            Some(false) => Outcome::Failed,
        };
    }
    let Some(result) = r.result else { return Outcome::Missing };
    if !(result.low.is_finite() && result.high.is_finite()) {
        return Outcome::CannotTell;
    }
    let band = widened(result, r.tolerance);
    let limit = r.limit.map(|l| within(band, l));
    let near = r.near.map(|(least, most)| inside(band, least, most));
    match (limit, near) {
        (Some(Outcome::Failed), _) if r.limit.is_some_and(|l| l.why == Why::Hard) => Outcome::TooGentle,
        (Some(Outcome::Failed), _) => Outcome::Failed,
        (_, Some(Outcome::Failed)) => Outcome::OffSheet,
        (Some(Outcome::CannotTell), _) | (_, Some(Outcome::CannotTell)) => Outcome::CannotTell,
        (Some(_), _) => Outcome::Passed,
        // a limit that nobody can say is not replaced by the neighbourhood of the plan where one is wanted
        (None, Some(_)) if r.lack.is_none() => Outcome::Passed,
        _ => Outcome::NoLimit,
    }
}

/// A result that states no tolerance of its own has that of the instrument.
fn widened(result: Band, tolerance: f64) -> Band {
    if result.high - result.low > EPSILON {
        return result;
    }
    Band { low: result.low - tolerance, high: result.high + tolerance }
}

fn within(band: Band, limit: Limit) -> Outcome {
    inside(band, limit.least.unwrap_or(f64::NEG_INFINITY), limit.most.unwrap_or(f64::INFINITY))
}

/// Wholly inside passes, wholly outside fails.
fn inside(band: Band, least: f64, most: f64) -> Outcome {
    if band.low >= least - EPSILON && band.high <= most + EPSILON {
        Outcome::Passed
    } else if band.high < least || band.low > most {
        Outcome::Failed
    } else {
        Outcome::CannotTell
    }
}

/// Everything that holds the built chair back, apart from findings of the compile; empty releases it. Without results
/// everything on the sheet is missing.
#[must_use]
pub fn reasons(sheet: &TestSheet, design: &Design) -> Vec<Reason> {
    if !sheet.whole || sheet.tests.is_empty() {
        return vec![Reason::NoSheet];
    }
    let mut out = design.as_built.as_ref().map(|b| of_the_chair(b, design)).unwrap_or_default();
    // a result that nobody asked for is neither dropped nor passed
    let built = design.as_built.iter();
    let written = built.flat_map(|b| b.values.keys().chain(b.passed.keys()));
    let stray = written.filter(|k| sheet.reading(k).is_none());
    out.extend(stray.map(|k| Reason::NotOnSheet(k.clone())));
    for (i, test) in sheet.tests.iter().enumerate() {
        let open = test.readings.iter().filter(|r| r.outcome != Outcome::Passed);
        out.extend(open.map(|r| Reason::Reading(i + 1, r.field, r.outcome)));
    }
    out
}

/// Words that name no one who measured.
const NOBODY: [&str; 8] = ["nobody", "no one", "none", "unknown", "n/a", "-", "?", "tbd"];

/// Whether the results are of this chair, and somebody stands for them.
fn of_the_chair(built: &AsBuilt, design: &Design) -> Vec<Reason> {
    let mut out = Vec::new();
    let said = |text: &Option<String>| text.as_ref().is_some_and(|t| !t.trim().is_empty());
    let nobody = built.by.as_ref().is_some_and(|by| NOBODY.contains(&by.trim().to_lowercase().as_str()));
    if !said(&built.by) || nobody {
        out.push(Reason::Nobody);
    }
    if !said(&built.dated) {
        out.push(Reason::Undated);
    }
    if built.variant != design.variant {
        out.push(Reason::OtherVariant { built: built.variant.clone(), asked: design.variant.clone() });
    }
    match built.other {
        Some(OtherBuilt::Rider) => out.push(Reason::OtherRider(built.rider.clone())),
        Some(OtherBuilt::Settings) => out.push(Reason::OtherSettings),
        _ => {}
    }
    if let Some(state) = &design.state {
        out.push(Reason::OtherState(state.clone()));
    }
    if built.other_place {
        out.push(Reason::OtherPlace(built.place.clone()));
    }
    if design.revision.is_none() {
        out.push(Reason::NoRevision);
    }
    if let Some(asked) = design.revision.clone().filter(|r| built.revision.as_ref() != Some(r)) {
        out.push(Reason::OtherRevision { built: built.revision.clone(), asked });
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::Lack;
    use chairwright_quantity::Dimension;

    fn reading(limit: Option<(Option<f64>, Option<f64>)>, near: Option<(f64, f64)>, result: Band) -> Outcome {
        let limit = limit.map(|(least, most)| Limit { least, most, why: Why::Demand });
        let base = crate::make::reading("x", Dimension::LENGTH, 0.5);
        outcome(&Reading { limit, near, result: Some(result), ..base })
    }

    /// A reading of 10 by an instrument that is off by 0.5 lies between 9.5 and 10.5.
    #[test]
    fn the_tolerance_counts_against_the_chair() {
        let least = |l: f64| reading(Some((Some(l), None)), None, Band::point(10.0));
        assert_eq!(least(9.5), Outcome::Passed);
        assert_eq!(least(9.6), Outcome::CannotTell);
        assert_eq!(least(10.4), Outcome::CannotTell);
        assert_eq!(least(10.6), Outcome::Failed);
        let most = |m: f64| reading(Some((None, Some(m))), None, Band::point(10.0));
        assert_eq!(most(10.5), Outcome::Passed);
        assert_eq!(most(10.4), Outcome::CannotTell);
        assert_eq!(most(9.4), Outcome::Failed);
        // a tolerance of its own takes the place of the instrument's
        let own = Band { low: 9.9, high: 10.1 };
        assert_eq!(reading(Some((Some(9.9), None)), None, own), Outcome::Passed);
    }

    #[test]
    fn off_the_plan_is_told_from_failed() {
        let near = Some((8.0, 9.0));
        assert_eq!(reading(None, near, Band::point(8.5)), Outcome::Passed);
        assert_eq!(reading(None, near, Band::point(9.2)), Outcome::CannotTell);
        assert_eq!(reading(None, near, Band::point(10.0)), Outcome::OffSheet);
        assert_eq!(reading(Some((Some(20.0), None)), near, Band::point(10.0)), Outcome::Failed);
        assert_eq!(reading(Some((Some(2.0), None)), near, Band::point(10.0)), Outcome::OffSheet);
    }

    #[test]
    fn nothing_that_is_no_number_and_nothing_without_a_limit_passes() {
        for (low, high) in
            [(f64::NAN, f64::NAN), (0.0, f64::INFINITY), (f64::NEG_INFINITY, 0.0), (f64::NAN, 1.0)]
        {
            let got = reading(Some((Some(-9.0), None)), None, Band { low, high });
            assert_ne!(got, Outcome::Passed, "{low} {high}");
        }
        assert_eq!(reading(None, None, Band::point(1.0)), Outcome::NoLimit);
        let base = crate::make::reading("x", Dimension::LENGTH, 0.5);
        let open =
            Reading { lack: Some(Lack::Slope), near: Some((0.0, 9.0)), result: Some(Band::point(4.0)), ..base };
        assert_eq!(outcome(&open), Outcome::NoLimit);
    }

    #[test]
    fn an_empty_sheet_holds() {
        assert_eq!(reasons(&TestSheet::default(), &Design::default()), vec![Reason::NoSheet]);
        let whole = TestSheet { whole: true, ..TestSheet::default() };
        assert_eq!(reasons(&whole, &Design::default()), vec![Reason::NoSheet]);
    }
}
