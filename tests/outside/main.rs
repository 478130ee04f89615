//! Checks against the outside: one module per published source, named in it.
#![allow(missing_docs, clippy::unwrap_used, clippy::panic, clippy::type_complexity, clippy::disallowed_methods)]

mod body_segments;
mod chairs;
mod pipe_astm_d1785;
mod pipe_is_4985;
mod rolling;
mod sockets_astm_d2468;
mod statics_check_set;
mod steel_conduit;
mod units;
mod wheels_geometry;

use chairwright_driver::{Compilation, Options, compile};
use chairwright_tests::Memory;

/// Compiles a text and refuses errors in it.
fn clean(text: &str) -> Compilation {
    with(text, &[])
}

/// The same, with values from outside.
fn with(text: &str, settings: &[(&str, f64, &str)]) -> Compilation {
    let settings = settings.iter().map(|(n, v, u)| ((*n).to_owned(), format!("{v:.12} {u}"))).collect();
    let options = Options { settings, ..Options::default() };
    let (_, c) = compile(&Memory::of(text), "main.chair", &options);
    let errors: Vec<&String> = c
        .problems
        .iter()
        .filter(|p| p.severity == chairwright_diagnostics::Severity::Error)
        .map(|p| &p.headline)
        .collect();
    assert!(errors.is_empty(), "{errors:?}");
    c
}

fn figure(c: &Compilation, name: &str) -> f64 {
    c.figures.si(name).unwrap_or_else(|| panic!("no figure {name}"))
}

fn degrees(c: &Compilation, name: &str) -> f64 {
    figure(c, name).to_degrees()
}

/// Relative difference.
fn off(a: f64, b: f64) -> f64 {
    (a / b - 1.0).abs()
}

/// Finds the value of a setting at which a figure has the value wanted (secant method).
fn solve(
    text: &str,
    name: &str,
    unit: &str,
    start: (f64, f64),
    wanted: f64,
    read: &dyn Fn(&Compilation) -> f64,
) -> Compilation {
    let at = |x: f64| {
        let c = with(text, &[(name, x, unit)]);
        let y = read(&c) - wanted;
        (c, y)
    };
    let (mut a, mut b) = start;
    let (mut last, mut fa) = at(a);
    for _ in 0..40 {
        let (c, fb) = at(b);
        last = c;
        if fb.abs() < 1e-10 {
            return last;
        }
        let next = b - fb * (b - a) / (fb - fa);
        (a, fa, b) = (b, fb, next);
    }
    last
}
