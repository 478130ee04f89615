//! What hands and arms do and do not get to, in words.

use crate::words::Words;
use chairwright_checks::roll::OneHand;
use chairwright_checks::{Back, FarBehind};
use chairwright_design::{Origin, Side};
use chairwright_diagnostics::{Diagnostic, Severity};

impl Words<'_> {
    pub(crate) fn one_hand(
        &self,
        origin: Option<Origin>,
        hand: Option<Side>,
        said: bool,
        forces: Option<OneHand>,
    ) -> Diagnostic {
        let which = hand.map_or("one".to_owned(), |s| format!("the {}", s.word()));
        let headline = if said {
            format!("pushed by {which} hand alone at its rim, the chair goes in circles")
        } else {
            format!("nobody says how the rider pushes; by {which} hand alone the chair goes in circles")
        };
        let all = Diagnostic::new("one-hand-turns", headline);
        let all = if said { all } else { all.severity(Severity::CannotTell) };
        let label = if said { "one rim, beside the middle of the chair" } else { "one hand, and two rims" };
        let all = self.at_or(all, origin, label.to_owned());
        let note = match forces {
            Some(f) => format!(
                "the one hand pulls {} at its rim, twice what each of two would; that turns the chair by {:.1} Nm, and \
                 as far ahead as the casters it takes {} aside to keep it straight",
                self.newtons(f.pull),
                f.turn,
                self.newtons(f.steer)
            ),
            None => "the one hand pulls twice what each of two would; how much, nobody can tell until the place names \
                     its ground or slope"
                .to_owned(),
        };
        all.note(note).help(
            "a foot that reaches the ground (steers = foot), both rims on one side with an axle through to the far wheel \
             (steers = two_rims), a lever (steers = lever), or somebody who pushes (pushes = assistant); try it on a chair",
        )
    }

    pub(crate) fn far_behind(&self, arm: &FarBehind, origin: Option<Origin>) -> Diagnostic {
        let (side, never) = (arm.side.word(), arm.never());
        let headline = if never {
            format!("the {side} shoulder does not bring the hand to the top of its push rim")
        } else {
            format!("nobody can tell whether the {side} shoulder brings the hand to the top of its push rim")
        };
        let said = Diagnostic::new("arm-far-behind", headline);
        let said = if never { said.severity(Severity::Error) } else { said };
        let label = format!("the upper arm goes {} back behind the trunk there", self.angle(arm.goes.0));
        let said = self.at_or(said, origin, label);
        let goes = match arm.may {
            Back::Measured(most) => format!("this shoulder was measured to go {}", self.angle(most)),
            Back::Usual(most, true) => format!("old people's go {} on the average", self.angle(most)),
            Back::Usual(most, false) => format!("usual shoulders go {}", self.angle(most)),
        };
        said.note(format!("with the elbow out to the side it goes {} back; {goes}", self.angle(arm.goes.1)))
            .note("a push starts further back still: an arm at the end of its way pushes weakly and wears the shoulder")
            .help(self.less_far_behind(arm))
    }

    fn less_far_behind(&self, arm: &FarBehind) -> String {
        let ahead = arm.ahead.map(|by| {
            format!("set the rear axle {} further ahead, which lets the chair tip back sooner", self.length(by))
        });
        let raise = arm.raise.map(|by| format!("raise the seat by {} over the axle", self.length(by)));
        let ways: Vec<String> = ahead.into_iter().chain(raise).collect();
        let try_it = "try it from the seat, trunk against the back, and write down how far the arm goes: shoulder_extension";
        match (ways.is_empty(), arm.never()) {
            (true, _) => format!("bring the push rim nearer to the shoulder, fore and aft; {try_it}"),
            (false, true) => ways.join("; or "),
            (false, false) => format!("{}; or {try_it}", ways.join("; or ")),
        }
    }

    pub(crate) fn lever_far(
        &self,
        (brake, origin, hand, alone): (&str, Origin, Side, bool),
        (near, far): (f64, f64),
        arm: f64,
        lean: f64,
    ) -> Diagnostic {
        let hand = hand.word();
        let never = near > arm + lean;
        let headline = if never {
            format!("the {hand} hand does not get to `{brake}`")
        } else {
            format!("nobody can tell whether the {hand} hand gets to `{brake}`")
        };
        let said = Diagnostic::new("brake-out-of-reach", headline);
        let said = if never { said } else { said.severity(Severity::CannotTell) };
        let label = format!("{} to {} from the shoulder", self.length(near), self.length(far));
        let said = self.placed(said, origin, label).note(format!(
            "the straight arm is {} to the grip, and leaning brings the shoulder at most {} nearer; a chair that is \
             locked on one side swings round that wheel",
            self.length(arm),
            self.length(lean)
        ));
        let by = (((far - arm) * 1e3 - 0.1).ceil() / 1e3).max(0.001);
        let extension = format!("lengthen its lever by {} toward the {hand} hand", self.length(by));
        said.help(if never && alone {
            format!("{extension}, or join both locks under one lever on that side")
        } else if never {
            format!("{extension}, or set the lock nearer by as much")
        } else {
            format!("try it from the seat, trunk against the back; if it is too far, {extension}")
        })
    }
}
