//! What the checks share.

/// Pounds-force in N, exact.
pub const LBF: f64 = 4.448_221_615_260_5;
/// Inches in m, exact.
pub const INCH: f64 = 0.0254;
/// Pounds per square inch in Pa.
pub const PSI: f64 = LBF / (INCH * INCH);
/// Megapascals in Pa.
pub const MPA: f64 = 1e6;

/// Within an absolute tolerance: half of the last printed digit.
#[track_caller]
pub fn near(got: f64, printed: f64, tolerance: f64) {
    assert!((got - printed).abs() <= tolerance, "{got} is not {printed} ± {tolerance}");
}

/// Degrees Celsius in K.
pub fn celsius(t: f64) -> f64 {
    t + 273.15
}

/// Degrees Fahrenheit in K.
pub fn fahrenheit(t: f64) -> f64 {
    (t + 459.67) / 1.8
}

/// A plain allowable of the caller's, in Pa or N, without assumptions.
pub fn allowed(value: f64) -> chairwright_resistance::Capacity {
    chairwright_resistance::metal::allowable(value, 1.0).unwrap()
}
