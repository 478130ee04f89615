//! Problems of holes in words.

use crate::words::Words;
use chairwright_design::Hole;
use chairwright_diagnostics::Diagnostic;
use chairwright_frame::Problem;

impl Words<'_> {
    pub(crate) fn hole(&self, problem: &Problem) -> Diagnostic {
        let holes = &self.design.holes;
        match *problem {
            Problem::HoleAlong { hole } => self
                .at_hole("hole-misses", &holes[hole], "runs along its piece", "a drill goes across")
                .help("choose another direction behind toward"),
            Problem::HoleTooWide { hole, room } => {
                let label = format!("{} across in {}", self.length(holes[hole].diameter), self.length(room));
                self.at_hole("hole-misses", &holes[hole], "is as wide as its piece", &label)
                    .note("nothing would be left beside it")
                    .help("drill a smaller hole, or take a thicker piece")
            }
            Problem::HoleMisses { hole } => {
                let member = &self.design.members[holes[hole].member];
                let label = format!("{} along {}", self.length(holes[hole].along), member.name);
                self.at_hole("hole-misses", &holes[hole], "meets no piece", &label)
                    .note("there is a fitting or nothing at all")
                    .help("the cut list says how long each piece is; move the hole onto one")
            }
            Problem::HoleInSocket { hole } => self
                .at_hole(
                    "hole-in-socket",
                    &holes[hole],
                    "goes through a socket",
                    "the pipe is inside the fitting here",
                )
                .note("it weakens the joint, and can only be drilled when the cement has set")
                .help("move it clear of the socket if you can"),
            Problem::HolesMeet { first, second } => {
                let said = self.at_hole(
                    "holes-meet",
                    &holes[second],
                    &format!("runs into `{}`", holes[first].name),
                    &format!(
                        "{} apart, middle to middle",
                        self.length((holes[first].along - holes[second].along).abs())
                    ),
                );
                self.related(said, holes[first].origin, "the other hole")
                    .help("move one of them along the piece")
            }
            _ => Diagnostic::new("hole-misses", "a hole"),
        }
    }

    fn at_hole(&self, code: &str, hole: &Hole, what: &str, label: &str) -> Diagnostic {
        self.placed(Diagnostic::new(code, format!("the hole `{}` {what}", hole.name)), hole.origin, label)
    }
}
