//! What of a whole chair with its rider is held against nothing, since the text declares nothing to hold it against.

use crate::Checked;
use crate::body::support;
use crate::problem::{Lack, Problem};
use chairwright_design::{Design, ItemKind, SupportKind};

/// Tells it, all in one: a chair of which nothing is asked is not one of which all is met.
pub(crate) fn undeclared(design: &Design, out: &mut Checked) {
    let seated = out.rider.is_some() && support(design, SupportKind::Seat).is_some();
    if design.name.is_empty() || design.wheels.is_empty() || !seated {
        return;
    }
    let lacks = lacks(design, out);
    if !lacks.is_empty() {
        out.problems.push(Problem::Undeclared { lacks, origin: design.rider.origin });
    }
}

fn lacks(design: &Design, out: &Checked) -> Vec<Lack> {
    let slope = ["slope", "cross_slope"].iter().any(|key| crate::roll::place(design, key).is_some());
    let told = out.problems.iter().any(|p| matches!(p, Problem::SlopeUnsaid { .. }));
    let braked = design.items.iter().any(|i| i.kind == ItemKind::Brake);
    // on a slope a missing brake is told of with what it would have to hold
    let level = crate::roll::steepest(design) <= 0.0;
    let all = [
        (design.fit_rules.is_none(), Lack::FitRules),
        (design.profile.is_none(), Lack::Profile),
        (!slope && !told, Lack::Slope),
        (!braked && level, Lack::Brake),
    ];
    all.into_iter().filter(|(lacks, _)| *lacks).map(|(_, what)| what).collect()
}
