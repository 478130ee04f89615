//! Ends of limbs that do not go with what is said to be missing, in words.

use crate::words::Words;
use chairwright_checks::{Limb, LimbDoubt, Problem};
use chairwright_diagnostics::Diagnostic;

/// What a limb is called, where its level is said, and how its length is measured.
fn called(limb: Limb) -> (&'static str, &'static str, &'static str, &'static str) {
    match limb {
        Limb::Leg => (
            "leg",
            "missing_leg",
            "residual_limb goes from the back of the pelvis to the end of the limb, knee straight",
            "measure it again with a board behind the pelvis",
        ),
        Limb::Arm => (
            "arm",
            "missing_arm",
            "residual_arm goes from the top of the shoulder to the end of the limb, elbow straight",
            "measure it again with the arm hanging",
        ),
    }
}

impl Words<'_> {
    pub(crate) fn limb(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::LimbLength { limb, side, given, range, origin } => {
                let (name, level, way, again) = called(*limb);
                let headline = format!("the {} {name} does not end where {level} says", side.word());
                let (least, most) = (self.length(range.0), self.length(range.1));
                let between =
                    if least == most { format!("at {least}") } else { format!("between {least} and {most}") };
                let said = Diagnostic::new("limb-end", headline)
                    .note(format!("{way}: for a limb that ends there it is {between} for this rider"))
                    .help(format!("{again}, or say at which level the limb ends"));
                match origin {
                    Some(origin) => self.placed(said, *origin, self.length(*given)),
                    None => said,
                }
            }
            Problem::LimbDoubt { limb, side, given, doubt, origin } => {
                let (name, level, ..) = called(*limb);
                let dot = side.map_or(String::new(), |s| format!(".{}", s.word()));
                let whose = side.map_or(format!("any {name}"), |s| format!("the {} {name}", s.word()));
                let (headline, label, help) = match doubt {
                    LimbDoubt::Whole => (
                        format!("`{given}` is given, and nobody says that {whose} ends early"),
                        "the end of a limb that is whole".to_owned(),
                        format!("say where it ends, {level}{dot} = …, or leave {given} out"),
                    ),
                    LimbDoubt::NothingLeft => (
                        format!("`{given}` is the length of a limb of which {level} leaves nothing"),
                        "both cannot be true".to_owned(),
                        format!("leave {given} out, or say at which level the limb ends: {level}{dot} = …"),
                    ),
                };
                self.at_or(Diagnostic::new("limb-end", headline), *origin, label)
                    .note("what a limb weighs, and where, hangs on which of the two is true: the body was not weighed")
                    .help(help)
            }
            _ => self.chair(problem),
        }
    }
}
