//! Where values are from, in words.

use crate::words::Words;
use crate::words_loads::first_few;
use chairwright_design::Origin;
use chairwright_diagnostics::Diagnostic;

impl Words<'_> {
    pub(crate) fn unknown_origin(&self, names: &[String], origin: Origin) -> Diagnostic {
        let are = if names.len() == 1 { "is" } else { "are" };
        let said =
            Diagnostic::new("unknown-origin", format!("nobody says where {} {are} from", first_few(names)));
        let sizes = names.iter().any(|n| n.starts_with("rider.") && n != "rider.mass");
        let others = names.iter().any(|n| !n.starts_with("rider.") || n == "rider.mass");
        let said = self.placed(said, origin, "measured, or guessed?");
        let said = if others {
            said.note("the slopes that tip the chair, and its strength, hang on it")
        } else {
            said
        };
        let said = if sizes {
            said.note("the seat is drawn to the body: measured from the rider, or from another chair?")
        } else {
            said
        };
        said.help(if names.iter().all(|n| n.starts_with("rider.")) {
            "add origin measured by \"…\" dated \"…\"; of a guess write origin estimate"
        } else {
            "add origin measured by \"…\" dated \"…\", or another of data_sheet, standard, rule, estimate"
        })
    }

    pub(crate) fn body_by_sheet(&self, names: &[String], origin: Origin) -> Diagnostic {
        let come = if names.len() == 1 { "comes" } else { "come" };
        let said = Diagnostic::new(
            "not-of-the-rider",
            format!("{} {come} from a data sheet: no body has one", first_few(names)),
        );
        self.placed(said, origin, "of the rider, or of another chair?")
            .note("a chair built to the size of another chair has its rider lean, slide, and miss the rims")
            .help(
                "measure the rider, and write origin measured by \"…\" dated \"…\"; of a guess write estimate",
            )
    }
}
