//! Problems of the chair at rest in words.

use crate::words::Words;
use chairwright_checks::Problem;
use chairwright_diagnostics::Diagnostic;
use chairwright_frame::SettleError;

impl Words<'_> {
    pub(crate) fn chair(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::MissingMeasure { measure, wanted_by, origin } => {
                let said = Diagnostic::new("missing-measure", format!("the rider's {measure} is missing"))
                    .note(format!("it is needed for {wanted_by}"))
                    .help(format!("measure it and add it to the rider block: {measure} = …"));
                match origin {
                    Some(origin) => self.placed(said, *origin, format!("no {measure} here")),
                    None => said,
                }
            }
            Problem::CannotStand(error) => self.cannot_stand(*error),
            Problem::Rocks { wheel, origin, gap } => {
                let said = Diagnostic::new("rocks", format!("`{wheel}` does not touch the ground"));
                self.placed(said, *origin, format!("{} of gap under it", self.length(*gap)))
                    .note("the chair stands on three wheels and rocks onto the fourth; 3 mm is what tyres take up")
                    .help("bring the wheels of both sides to the same height")
            }
            Problem::StemLeans { caster, origin, angle, rise } => {
                let said = Diagnostic::new("stem-leans", format!("the stem of `{caster}` is not upright"));
                self.placed(said, *origin, format!("{} from the vertical on the ground", self.angle(*angle)))
                    .note(format!(
                        "the frame rises and falls by {} as it swivels, and the chair steers itself downhill",
                        self.length(*rise)
                    ))
                    .help("turn the stem back with `raked`, or change the heights of the wheels until the frame stands level")
            }
            Problem::BelowFloor { body, depth } => {
                let origin = self.design.members.values().find(|m| body.starts_with(&m.name)).map(|m| m.origin);
                let origin =
                    origin.or_else(|| self.design.supports.iter().find(|s| s.name == *body).map(|s| s.origin));
                let said = Diagnostic::new(
                    "below-floor",
                    format!("`{body}` lies {} below the floor", self.length(*depth)),
                );
                let said = match origin {
                    Some(origin) => self.placed(said, origin, "this part"),
                    None => said,
                };
                said.help("raise it, or use larger wheels")
            }
        }
    }

    fn cannot_stand(&self, error: SettleError) -> Diagnostic {
        let wheel = self.design.wheels.first().map(|w| w.origin);
        let wheel = wheel.or_else(|| self.design.casters.first().map(|c| c.origin));
        let (code, headline, label, help) = match error {
            SettleError::TooFewWheels { fixed, casters } => (
                "cannot-stand",
                "the chair has too few wheels to stand on".to_owned(),
                format!("{fixed} that do not swivel, {casters} casters"),
                "two wheels and at least one caster are needed; put them into both sides",
            ),
            SettleError::InLine => (
                "cannot-stand",
                "the wheels stand in one line".to_owned(),
                "nothing holds the chair up sideways".to_owned(),
                "move the casters ahead of the rear wheels",
            ),
            SettleError::FallsOver => (
                "falls-over",
                "the chair does not stand by itself".to_owned(),
                "the centre of mass lies outside the wheels".to_owned(),
                "move the rear wheels back or the casters forward, or move the rider forward",
            ),
        };
        let said = Diagnostic::new(code, headline).help(help);
        match wheel {
            Some(origin) => self.placed(said, origin, label),
            None => said,
        }
    }
}
