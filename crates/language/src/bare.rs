//! A bare number where a quantity is wanted: what it may have been meant to be. Which unit it was measured in only the text
//! can say, so none is ever put in unasked; a slope told as a rise over a run is the one that can be worked out.

use chairwright_quantity::Dimension;

/// Fields that tell how steep the ground is, which builders tell as a rise over a run as often as in degrees.
const SLOPES: [&str; 2] = ["slope", "cross_slope"];

/// Whether a field tells how steep the ground is.
pub(crate) fn is_slope(field: &str) -> bool {
    SLOPES.contains(&field)
}

/// A rise over a run in degrees, rounded up, so that no ramp is ever called flatter.
pub(crate) fn degrees(rise: f64) -> f64 {
    (libm::atan(rise).to_degrees() * 100.0 - 1e-9).ceil() / 100.0
}

/// What to write for a bare number, by what is wanted and the field it stands in; `None` where the unit is no matter of course.
pub(crate) fn meant(written: &str, value: f64, wanted: Dimension, field: &str) -> Option<String> {
    let either = |units: &[&str], why: &str| {
        let all: Vec<String> = units.iter().map(|u| format!("{written} {u}")).collect();
        let (last, rest) = all.split_last()?;
        Some(format!("write {} or {last}, whichever {why}", rest.join(", ")))
    };
    match wanted {
        Dimension::LENGTH => either(&["mm", "cm", "in"], "it was measured in"),
        Dimension::MASS => either(&["kg", "lb"], "the scale said"),
        Dimension::FORCE => either(&["N", "lbf"], "the spring balance said"),
        Dimension::PRESSURE => either(&["MPa", "psi"], "the sheet says"),
        Dimension::READING => either(&["degC", "degF"], "the thermometer said"),
        Dimension::SPEED => either(&["m/s", "km/h"], "is meant"),
        Dimension::TIME => match field {
            "age" | "after" => either(&["years", "months", "weeks"], "is meant"),
            _ => either(&["h", "min"], "is meant"),
        },
        Dimension::ANGLE if is_slope(field) && value.abs() < 1.0 => Some(format!(
            "as a rise of {written} over a run of 1 it is {} deg, rounded up; if it was read in degrees, write {written} deg",
            degrees(value)
        )),
        Dimension::ANGLE if is_slope(field) => Some(format!(
            "write {written} deg if it was read in degrees; {written} % is {} deg, rounded up",
            degrees(value / 100.0)
        )),
        Dimension::ANGLE => either(&["deg", "rad"], "is meant"),
        _ => None,
    }
}

/// Words that builders write for one of a list, and which of it they mean.
const EVERYDAY: [(&str, &[&str]); 14] = [
    ("none", &["absent", "no", "off"]),
    ("no", &["none", "absent", "off"]),
    ("yes", &["worn", "full"]),
    ("normal", &["full", "hands_free"]),
    ("good", &["full", "hands_free"]),
    ("some", &["reduced"]),
    ("little", &["reduced"]),
    ("partial", &["reduced"]),
    ("transfemoral", &["above_knee"]),
    ("transtibial", &["below_knee"]),
    ("transradial", &["below_elbow"]),
    ("transhumeral", &["above_elbow"]),
    ("helper", &["assistant"]),
    ("hands", &["both_hands"]),
];

/// The words that fit, the one most likely meant first.
pub(crate) fn nearest_first(text: &str, words: &[&'static str]) -> Vec<&'static str> {
    let usual = EVERYDAY.iter().find(|(w, _)| *w == text).map_or(&[] as &[&str], |(_, meant)| *meant);
    let hinted = |w: &str| usual.iter().position(|m| *m == w).unwrap_or(usize::MAX);
    let mut all = words.to_vec();
    all.sort_by_key(|w| (hinted(w), crate::suggest::distance(text, w)));
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rise_over_a_run_is_rounded_up() {
        // atan(1/12) = 4.7636 deg, atan(1/8) = 7.1250 deg (tables of the tangent); 45 deg stays 45 deg
        assert!((degrees(1.0 / 12.0) - 4.77).abs() < 1e-12);
        assert!((degrees(1.0 / 8.0) - 7.13).abs() < 1e-12);
        assert!((degrees(1.0) - 45.0).abs() < 1e-12);
    }

    #[test]
    fn an_everyday_word_leads_to_the_one_of_the_list() {
        assert_eq!(nearest_first("none", &["full", "reduced", "absent"])[0], "absent");
        assert_eq!(nearest_first("yes", &["none", "off", "worn"])[0], "worn");
    }
}
