//! Values that safety and fit hang on, by where the text says that they are from.

use crate::problem::Problem;
use chairwright_design::{Basis, Design, Known};

/// Lengths that the seat is drawn to: of a guess, or of another chair, nothing tells that they are not the rider's.
const SIZES: [&str; 3] = ["hip_width", "thigh", "calf"];
/// What of the rider is no body, and may have a maker's sheet.
const WORN: [&str; 3] = ["prosthesis", "prosthesis_mass", "arm_prosthesis_mass"];

/// A measure of the rider, without its side.
fn measure(known: &Known) -> Option<&str> {
    let name = known.name.strip_prefix("rider.")?;
    Some(name.split('.').next().unwrap_or(name))
}

/// Values of a whole design of which nobody says where they are from, or which are said to be from where no body's are.
pub(crate) fn origins(design: &Design, problems: &mut Vec<Problem>) {
    if design.name.is_empty() {
        return;
    }
    let unsaid = design.known.iter().filter(|k| k.basis.is_none());
    let asked = |k: &&Known| measure(k).is_some_and(|m| m == "mass" || SIZES.contains(&m));
    told(unsaid.filter(asked).collect(), |names, origin| Problem::UnknownOrigin { names, origin }, problems);
    for load in design.loads.iter().filter(|l| l.basis.is_none()) {
        problems.push(Problem::UnknownOrigin { names: vec![load.name.clone()], origin: load.origin });
    }
    let sheet = design.known.iter().filter(|k| k.basis == Some(Basis::DataSheet));
    let body = sheet.filter(|k| measure(k).is_some_and(|m| !WORN.contains(&m)));
    told(body.collect(), |names, origin| Problem::BodyBySheet { names, origin }, problems);
}

/// All of one kind in one finding, at the first of them.
fn told(
    known: Vec<&Known>,
    problem: impl Fn(Vec<String>, chairwright_design::Origin) -> Problem,
    problems: &mut Vec<Problem>,
) {
    let Some(first) = known.first() else { return };
    problems.push(problem(known.iter().map(|k| k.name.clone()).collect(), first.origin));
}
