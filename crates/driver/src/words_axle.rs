//! Whether an axle suits its wheel and its receiver, in words.

use crate::words::Words;
use chairwright_design::Origin;
use chairwright_diagnostics::{Diagnostic, Severity};

const LOOSE: &str =
    "its locking balls stay inside the receiver, where they hold nothing: the wheel comes off in a turn";
const PULL: &str = "pull at each wheel before a ride";

impl Words<'_> {
    /// `sizes` are its usable length and its hub's; `lying` is another side of the receiver, that would add up.
    pub(crate) fn axle_length(
        &self,
        (axle, origin): (&str, Origin),
        (length, hub): (f64, f64),
        receiver: Option<f64>,
        lying: Option<f64>,
    ) -> Diagnostic {
        let Some(receiver) = receiver else {
            let headline = format!("`{axle}` does not come out of its hub");
            let sizes = format!("{} usable; hub {}", self.length(length), self.length(hub));
            let said = self.placed(Diagnostic::new("axle-length", headline), origin, sizes);
            return said
                .note("nothing is left to go into a receiver and lock there: the wheel comes off")
                .help(format!(
                    "take an axle as long as its hub and its receiver together, and draw the receiver; {PULL}"
                ));
        };
        let off = length - hub - receiver;
        let what = if off < 0.0 { "short" } else { "long" };
        let said = Diagnostic::new("axle-length", format!("`{axle}` is {} too {what}", self.length(off.abs())));
        let said = if off < 0.0 { said } else { said.severity(Severity::Warning) };
        let sum = format!(
            "{} usable; hub {} and receiver {}",
            self.length(length),
            self.length(hub),
            self.length(receiver)
        );
        let said = self.placed(said, origin, sum);
        if let Some(lying) = lying {
            // whoever lengthens the axle or puts spacers on it by a side that lies across it makes it worse
            return said
                .severity(Severity::Error)
                .note("along its axle, across the chair, a receiver is as long as its width")
                .help(format!(
                    "another side of it, {}, would add up: if that is its length, write it as its width; {PULL}",
                    self.length(lying)
                ));
        }
        if off < 0.0 {
            let shorter = self.length(-off);
            said.note(LOOSE).help(format!("take a longer axle, or shorten the receiver by {shorter}; {PULL}"))
        } else {
            let spacers = self.length(off);
            said.note("the wheel slides to and fro on it, and wears")
                .help(format!("put {spacers} of spacers on it, or set its adjusting nut"))
        }
    }

    /// Of an axle whose hub nobody measured, or whose receiver is not drawn.
    pub(crate) fn axle_unmeasured(
        &self,
        (axle, origin): (&str, Origin),
        wheel: &str,
        length: f64,
        (hub, receiver): (Option<f64>, Option<f64>),
    ) -> Diagnostic {
        let headline = format!("nobody can tell whether `{axle}` is long enough to lock");
        let said = Diagnostic::new("axle-length", headline).severity(Severity::CannotTell);
        let hub_words = hub.map_or("no hub_width".to_owned(), |h| format!("hub {}", self.length(h)));
        let receiver_words =
            receiver.map_or("no receiver on its line".to_owned(), |r| format!("receiver {}", self.length(r)));
        let label = format!("{} usable; {hub_words} and {receiver_words}", self.length(length));
        let said = self.placed(said, origin, label).note(LOOSE);
        let said = match hub {
            None => {
                said.help(format!("measure between the faces of its hub and add hub_width = … to \"{wheel}\""))
            }
            Some(_) => said,
        };
        match (receiver, hub) {
            (Some(_), _) => said,
            (None, Some(hub)) => said.help(format!(
                "draw what it locks in: a part of kind receiver, {} along the axle for this one (its width), as an item on its \
                 line; {PULL}",
                self.length(length - hub)
            )),
            (None, None) => said.help(format!(
                "draw what it locks in: a part of kind receiver, its width along the axle, as an item on its line; {PULL}"
            )),
        }
    }

    pub(crate) fn axle_bore(
        &self,
        (axle, origin): (&str, Origin),
        diameter: f64,
        (into, bore): (&str, f64),
    ) -> Diagnostic {
        let loose = diameter < bore;
        let headline = match loose {
            true => format!("`{axle}` is loose in `{into}`"),
            false => format!("`{axle}` does not go into `{into}`"),
        };
        let label = format!("{} thick, the hole is {} wide", self.length(diameter), self.length(bore));
        let said = self.placed(Diagnostic::new("axle-bore", headline), origin, label);
        let said = match self.part_origin(into) {
            Some(there) => self.related(said, there, "the hole is in this one"),
            None => said,
        };
        let why = match loose {
            true => {
                "the wheel leans and knocks on it; what locks a quick-release axle may slip through a hole too wide"
            }
            false => "a file or a drill makes it go in, and bearing and axle are spoilt",
        };
        said.note(why).help(
            "measure both with a calliper, half an inch is 12.7 mm and not 12; take an axle and bearings of one size",
        )
    }
}
