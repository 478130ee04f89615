//! Problems of fit in words.

use crate::words::Words;
use chairwright_checks::{Between, Broken, Held, JointName, Pressed, SkinFlag, Unseated};
use chairwright_design::{Origin, Side};
use chairwright_diagnostics::{Diagnostic, Severity};

/// What a tape in whole millimetres cannot tell, in metres: half of its division.
const READ: f64 = 0.000_5;

impl Words<'_> {
    /// Puts a problem at its place, where it has one.
    pub(crate) fn perhaps(
        &self,
        said: Diagnostic,
        origin: Option<Origin>,
        label: impl Into<String>,
    ) -> Diagnostic {
        match origin {
            Some(origin) => self.placed(said, origin, label),
            None => said,
        }
    }

    pub(crate) fn joint_bent(
        &self,
        (joint, side): (JointName, Option<Side>),
        has: f64,
        (range, moves): ((f64, f64), Option<(f64, f64)>),
        origin: Option<Origin>,
    ) -> Diagnostic {
        let (name, key) = match joint {
            JointName::Hip => ("hip", "hip_flexion"),
            JointName::Knee => ("knee", "knee_flexion"),
            JointName::Ankle => ("ankle", "ankle"),
        };
        let side = side.map_or(String::new(), |s| format!("{} ", s.word()));
        let said =
            Diagnostic::new("joint-bent", format!("the chair bends the {side}{name} to {}", self.angle(has)));
        let short = if has > range.1 { has - range.1 } else { range.0 - has };
        let limits = format!("`{key}` is {} .. {}", self.angle(range.0), self.angle(range.1));
        self.perhaps(said, origin, format!("{} beyond what the rider can", self.angle(short)))
            .note(format!("{limits}; a joint held beyond its range hurts, or lifts the body off its support, and so it is weighed here"))
            .help(self.straighten(joint, (short, has > range.1), moves))
    }

    /// What of the chair would have to move, and how far, for a joint to be within its range.
    fn straighten(&self, joint: JointName, (by, too_bent): (f64, bool), moves: Option<(f64, f64)>) -> String {
        let by = self.angle(by);
        match joint {
            JointName::Hip if too_bent => {
                format!("open the angle between seat and back by {by}, or level the seat")
            }
            JointName::Hip => format!("close the angle between seat and back by {by}"),
            JointName::Knee => {
                let Some((ahead, up)) = moves else {
                    return "move the foot support forward or back under the foot".to_owned();
                };
                let word = |v: f64, more: &'static str, less: &'static str| if v < 0.0 { less } else { more };
                format!(
                    "move the foot support {} {} and {} {}, where that shank ends",
                    self.length(ahead.abs()),
                    word(ahead, "forward", "back"),
                    self.length(up.abs()),
                    word(up, "up", "down")
                )
            }
            JointName::Ankle => {
                format!("tilt the foot support by {by}, toes {}", if too_bent { "down" } else { "up" })
            }
        }
    }

    pub(crate) fn fit_rule(&self, b: &Broken) -> Diagnostic {
        let angle = b.figure == "reach.elbow";
        let text = |v: f64| if angle { self.angle(v) } else { self.length(v) };
        let wanted = match (b.range.0.is_finite(), b.range.1.is_finite()) {
            (true, true) if (b.range.1 - b.range.0).abs() < 1e-9 => text(b.range.0),
            (true, true) => format!("{} .. {}", text(b.range.0), text(b.range.1)),
            (true, false) => format!("at least {}", text(b.range.0)),
            _ => format!("at most {}", text(b.range.1)),
        };
        let said = Diagnostic::new(
            "breaks-fit-rule",
            format!("`{}` is {}, the rule wants {wanted}", b.figure, text(b.has)),
        );
        let (word, by) =
            if b.has > b.range.1 { ("too much", b.has - b.range.1) } else { ("too little", b.range.0 - b.has) };
        let against: Vec<String> =
            b.against.iter().map(|m| format!("`{}` is {}", m.measure, self.length(m.value))).collect();
        let mut note = format!("rule of \"{}\"; {}", b.set, harm(b));
        if !against.is_empty() {
            note = format!("{}; {note}", against.join(", "));
        }
        let said = self.placed(said, b.origin, format!("{} {word}", text(by))).note(note);
        let said = if !angle && by <= READ + 1e-9 {
            said.severity(Severity::Warning)
                .note("that is less than a tape in whole millimetres reads: whoever measures cannot tell it from kept")
        } else {
            said
        };
        said.help(self.fit_repair(b, by))
    }

    fn fit_repair(&self, b: &Broken, by: f64) -> String {
        let more = b.has < b.range.0;
        let or =
            format!("or give the reason: deviation {} because \"…\" by \"therapist\" dated \"…\"", b.figure);
        let mend = match b.figure {
            "seat.width" => {
                format!("make the seat {} {}", self.length(by), if more { "wider" } else { "narrower" })
            }
            "seat.depth" => {
                format!("make the seat {} {}", self.length(by), if more { "deeper" } else { "shorter" })
            }
            "footrest.clearance" => format!("raise the foot support by {}", self.length(by)),
            "fit.arm.above.elbow" => {
                format!("{} the arm support by {}", if more { "raise" } else { "lower" }, self.length(by))
            }
            "fit.arms.between" => format!("move the arm supports {} apart", self.length(by)),
            "fit.hips.between" => b
                .between
                .as_ref()
                .map_or_else(|| "move it outward".to_owned(), |between| self.outward(between, by)),
            "fit.side.top" => format!("lower it by {}", self.length(by)),
            "footrest.drop" if self.design.rider.word("pushes") == Some("feet") => {
                format!(
                    "{} the seat by {}: feet that push stand flat on the floor",
                    if more { "raise" } else { "lower" },
                    self.length(by)
                )
            }
            "footrest.drop" => {
                format!("{} the foot support by {}", if more { "lower" } else { "raise" }, self.length(by))
            }
            "back.height" => format!(
                "{} the upper edge of the back support by {}",
                if more { "raise" } else { "lower" },
                self.length(by)
            ),
            _ => self.reach_repair(more),
        };
        format!("{mend}, {or}")
    }

    /// What brings the elbow into its band.
    fn reach_repair(&self, bent: bool) -> String {
        let raise = self.reach.iter().filter_map(|r| r.raise);
        let both = raise.reduce(|a, b| (a.0.max(b.0), a.1.min(b.1)));
        match both {
            Some((least, most)) if least <= most && bent => format!(
                "raise the seat over the axle by {} to {} (and look at the slopes again), or use push rims smaller across by \
                 twice that",
                self.length(least),
                self.length(most)
            ),
            Some((least, most)) if least <= most => format!(
                "lower the seat over the axle by {} to {}, or use push rims larger across by twice that",
                self.length(-most),
                self.length(-least)
            ),
            _ => "bring the wheels nearer to the shoulders: axle, seat or rim".to_owned(),
        }
    }

    pub(crate) fn under_bones(
        &self,
        (width, bones): (f64, f64),
        between: Option<&Between>,
        origin: Origin,
    ) -> Diagnostic {
        if let Some(between) = between {
            let headline = format!(
                "{} {} nearer than the rider's bones are wide",
                parts(between),
                if between.parts.len() == 1 { "stands" } else { "stand" }
            );
            let label = format!("{} clear for bones of {}", self.length(width), self.length(bones));
            return self
                .placed(Diagnostic::new("under-bones", headline), origin, label)
                .note("tissue may give way, the points of the hips do not: they press on the frame and open")
                .help(self.outward(between, bones - width));
        }
        let said = Diagnostic::new("under-bones", "the seat is narrower than the rider's bones");
        self.placed(said, origin, format!("{} for bones of {}", self.length(width), self.length(bones)))
            .note("tissue may give way, the points of the hips do not: they press on the frame and open")
            .help(format!("make the seat at least {} wider", self.length(bones - width)))
    }

    /// Moves what stands beside the hips out by so much in all.
    fn outward(&self, between: &Between, by: f64) -> String {
        let each = if between.parts.len() == 2 { " each" } else { "" };
        let share = if between.parts.len() == 2 { by / 2.0 } else { by };
        format!("move {} {} outward{each}", parts(between), self.up(share))
    }

    pub(crate) fn pressed(&self, pressed: &Pressed, origin: Origin) -> Diagnostic {
        match pressed {
            Pressed::Chest { back, chest } => {
                let said =
                    Diagnostic::new("body-pressed", "the back support is narrower than the rider's chest");
                self.placed(
                    said,
                    origin,
                    format!("{} for a chest of {}", self.length(*back), self.length(*chest)),
                )
                .note("its posts press on the ribs and stand where the arms swing back")
                .help(format!("make it {} wider, or measure the chest again", self.up(chest - back)))
            }
            Pressed::Knees { part, clear, knees } => {
                let said = Diagnostic::new("body-pressed", format!("`{part}` stands where the knees are"));
                self.placed(
                    said,
                    origin,
                    format!("{} clear for knees of {}", self.length(*clear), self.length(*knees)),
                )
                .note("knees pressed from the side get sores, and turn the hips")
                .help(format!("move it {} outward, or below the cushion", self.up((knees - clear) / 2.0)))
            }
            Pressed::Thighs { part, clear, thigh } => {
                let said = Diagnostic::new("body-pressed", format!("`{part}` is drawn into the thighs"));
                self.placed(
                    said,
                    origin,
                    format!("{} above the cushion, for thighs of {}", self.length(*clear), self.length(*thigh)),
                )
                .note("what lies hard on the thighs presses on skin and vessels for as long as it is on")
                .help(format!("raise it {} or more, or measure thigh_thickness again", self.up(thigh - clear)))
            }
            Pressed::Grip { wheel, tube, grip } => {
                let said = Diagnostic::new(
                    "rim-too-thick",
                    format!("the hand does not close round the push rim of `{wheel}`"),
                );
                self.placed(said, origin, format!("a tube of {} for a grip of {}", self.length(*tube), self.length(*grip)))
                    .note("it can push with the palm, and cannot hold the chair back on a slope")
                    .help("take push rims of a thinner tube, or wrap them so that the palm holds, and try the brakes on the ramp")
            }
        }
    }

    pub(crate) fn idle_deviation(&self, ruled: bool, figure: &str, origin: Origin) -> Diagnostic {
        if !ruled {
            let headline = format!("this design names no rules of fit, and none about `{figure}` is judged");
            let said = Diagnostic::new("idle-deviation", headline);
            return self
                .placed(said, origin, "a deviation from nothing")
                .note("whoever reads the reason takes the rest of the fit for judged")
                .help("name the rules, such as fit_rules \"WHO package\" with use catalogue.fit_rules, or take the line out");
        }
        let said = Diagnostic::new("idle-deviation", format!("the rule for `{figure}` is kept"));
        self.placed(said, origin, "no deviation")
            .note("a reason that excuses nothing today hides a broken rule tomorrow")
            .help("take the line out")
    }

    pub(crate) fn unnamed(&self, origin: Option<Origin>, withheld: usize) -> Diagnostic {
        let held = match withheld {
            1 => "1 finding about the whole chair is not told".to_owned(),
            n => format!("{n} findings about the whole chair are not told"),
        };
        let headline = format!("this file has no `design` line, and {held}");
        self.at_or(Diagnostic::new("unnamed-design", headline), origin, "a rider of its own, and a frame")
            .note("without that line it is looked at as a part of a chair: how it leans, rolls and finds room is worked out and not judged")
            .help("name the chair in a line of its own, design my_chair, and check again")
    }

    pub(crate) fn posture(&self, held: &Held, origin: Option<Origin>) -> Diagnostic {
        let label = match held {
            Held::Pelvis(tilt) => {
                let way = if *tilt > 0.0 { "back" } else { "forward" };
                format!("the pelvis is kept tilted {way} by {}", self.angle(tilt.abs()))
            }
            Held::Spine(word) => word.clone(),
        };
        let said = Diagnostic::new("posture-not-drawn", "nobody can tell how the back fits this posture");
        self.perhaps(said, origin, label)
            .note("here the rider sits with an upright pelvis and a straight back: the weight lies elsewhere, and so do shoulders and arms")
            .help("whoever fits the rider shapes back and side supports; tip the built chair with the rider in it and write the angles into as_built")
    }

    pub(crate) fn unseated(&self, how: &Unseated, origin: Option<Origin>) -> Diagnostic {
        let (headline, label, help) = match how {
            Unseated::BackOff { ahead } if *ahead < 0.0 => (
                "the back support stands behind the seat: the rider sits against it, or on the edge",
                format!("{} behind the rear edge of the seat", self.length(-ahead)),
                "bring seat and back support together; the rider was put against the back support".to_owned(),
            ),
            Unseated::BackOff { ahead } => (
                "the back support stands ahead of the seat's rear edge: the seat goes on behind the rider",
                format!("{} ahead of the rear edge of the seat", self.length(*ahead)),
                "let the seat begin at the back support; the rider was put against it".to_owned(),
            ),
            Unseated::Deep { depth, thigh } => (
                "nobody can tell how the rider sits: the seat is deeper than the thigh is long",
                format!("{} for a thigh of {}", self.length(*depth), self.length(*thigh)),
                format!("make it at least {} shorter: the knees do not bend over its edge", self.up(depth - thigh)),
            ),
            Unseated::Narrow { width, hips, between: Some(between) } => (
                "nobody can tell how the rider sits: the hips do not go between what stands beside them",
                format!("{} for hips of {}", self.length(*width), self.length(*hips)),
                format!("{}, or measure again", self.outward(between, hips - width)),
            ),
            Unseated::Narrow { width, hips, between: None } => (
                "nobody can tell how the rider sits: the hips do not go into this seat",
                format!("{} for hips of {}", self.length(*width), self.length(*hips)),
                format!("make it at least {} wider, or measure again", self.up(hips - width)),
            ),
            Unseated::Foot { side, beyond } if *beyond > 0.0 => (
                "nobody can tell how the rider sits: a foot does not get to its support",
                format!("the {} ankle ends {} short of its place on it", side.word(), self.length(*beyond)),
                "bring the foot support nearer to the knee; a rider slides forward to get there".to_owned(),
            ),
            Unseated::Foot { side, beyond } => (
                "nobody can tell how the rider sits: there is no room for a shank above the foot support",
                format!("the {} shank is {} too long for it", side.word(), self.length(-beyond)),
                "lower the foot support or move it forward; the thigh lifts off the seat and the weight goes back".to_owned(),
            ),
            Unseated::Beside { side, aside } => (
                "nobody can tell where a foot stands: its support is far to its side",
                format!("{} beside the {} hip", self.length(*aside), side.word()),
                "draw the foot support below both feet, one board for both".to_owned(),
            ),
            Unseated::OnFloor { side, below } => (
                "nobody can tell where the feet are: nothing carries them, and they hang lower than the floor",
                format!("the {} sole ends {} below it", side.word(), self.length(*below)),
                "draw a foot support: feet that drag are pulled under the chair, and the rider after them".to_owned(),
            ),
            Unseated::Falls { angle } => (
                "nobody can tell whether the rider stays on this seat: it falls to the front",
                format!("by {}", self.angle(*angle)),
                "raise its front edge to level or above; whoever fits the rider may want it for standing up, with a belt".to_owned(),
            ),
            Unseated::Folded { angle } => (
                "no hip folds so far: seat and back support are too near to each other",
                format!("{} between them", self.angle(*angle)),
                "open the angle of seat and back to 60 deg at least, mostly 90 to 100; a seat that is tilted takes its back support along"
                    .to_owned(),
            ),
            Unseated::Steering { off: Some(off) } => (
                "nobody can tell whether the foot that steers gets to the floor",
                format!("the hollow of the knee is {} higher than the lower leg is long", self.length(*off)),
                format!("lower the seat by {}", self.up(*off)),
            ),
            Unseated::Steering { off: None } => (
                "nobody can tell what steers: there is no foot that could",
                "steers = foot".to_owned(),
                "say what keeps the chair straight, or who pushes it".to_owned(),
            ),
            Unseated::FeetPush { off: Some(off) } => (
                "nobody can tell whether the feet that push get to the floor",
                format!("the hollow of the knee is {} higher than the lower leg is long", self.length(*off)),
                format!("lower the seat by {}; feet that push stand flat on the floor", self.up(*off)),
            ),
            Unseated::FeetPush { off: None } => (
                "nobody can tell what pushes: there is no foot that could",
                "pushes = feet".to_owned(),
                "say who or what pushes".to_owned(),
            ),
            Unseated::NoRims => (
                "nobody can tell what both hands push at: no wheel has a push rim",
                "pushes = both_hands".to_owned(),
                "give the wheels' part rim_diameter and rim_standoff, or say who pushes".to_owned(),
            ),
        };
        self.perhaps(Diagnostic::new("cannot-sit", headline), origin, label)
            .note("body and arms were worked out as the drawing asks, and every slope that tips the chair with them")
            .help(help)
    }

    pub(crate) fn skin(&self, flag: SkinFlag, origin: Origin) -> Diagnostic {
        let (headline, label, help) = match flag {
            SkinFlag::AtRisk { numb, sore } => (
                "skin that is at risk sits here",
                match (numb, sore) {
                    (true, true) => "it does not feel pressure as others do, and had a sore before",
                    (true, false) => "it does not feel pressure as others do",
                    _ => "there was a sore before",
                },
                "let somebody trained in seating choose cushion, seat angle and how often the weight is shifted",
            ),
            SkinFlag::NoCushion => (
                "no cushion under skin that is at risk",
                "nothing between the rider and this",
                "give the seat a pressure cushion that whoever treats the rider chose: cushion \"…\"",
            ),
            SkinFlag::Sling => (
                "a sling seat under skin that is at risk",
                "it sags, and the hips slide forward in it",
                "use a solid seat under the cushion, or tension straps",
            ),
            SkinFlag::Hot => (
                "parts of the chair get hot enough to burn skin that does not feel it",
                "everything the legs can touch",
                "cover rails and foot support with cloth, park in the shade, and feel the frame before a transfer",
            ),
        };
        let said = self.placed(Diagnostic::new("skin-flag", headline), origin, label);
        // a cushion may be all that can be done here
        let at_risk = matches!(flag, SkinFlag::AtRisk { .. });
        let said = if at_risk { said.severity(Severity::Advice) } else { said };
        said.note("pressure and shear are not computed here; look at the skin every day").help(help)
    }

    pub(crate) fn profile_silent(&self, lacks: &[(&str, &str)], profile: &str, origin: Origin) -> Diagnostic {
        let fields: Vec<&str> = lacks.iter().map(|l| l.0).collect();
        let figures: Vec<String> = lacks.iter().map(|l| format!("`{}`", l.1)).collect();
        let headline = format!("nobody can tell whether {} is enough", figures.join(", "));
        let said = Diagnostic::new("profile-silent", headline);
        self.placed(said, origin, format!("\"{profile}\" has no margin for it"))
            .note("a direction that the use profile has no margin for is not judged by it")
            .help(format!("have whoever reviews the profile add {} = … deg", fields.join(" = … deg, ")))
    }

    pub(crate) fn no_seat(&self, origin: Option<Origin>) -> Diagnostic {
        let said =
            Diagnostic::new("no-seat", "nobody can tell how this chair stands with its rider: it has no seat");
        self.at_or(said, origin, "sits nowhere")
            .note("no slope that tips it, no load on wheels and parts, and nothing of the fit was worked out with the rider")
            .help("draw the seat: seat = ply from … to … width …, or take the rider out of the plan")
    }
}

/// What goes wrong with a rider for whom a rule of fit is broken.
fn harm(b: &Broken) -> &'static str {
    match b.figure {
        "seat.width" => {
            "too narrow presses on the hips, too wide lets the rider lean and puts the rims out of reach"
        }
        "seat.depth" => {
            "too deep presses into the hollow of the knee and makes the rider slide forward, too short leaves the thighs \
             without support"
        }
        "footrest.clearance" => {
            "a foot support that meets the ground stops the chair and pitches the rider out"
        }
        "footrest.drop" => "too high puts all weight on the sitting bones, too low lets the thighs hang",
        "back.height" => {
            "a back that is too high stops the shoulder blades when pushing, one that is too low holds nothing"
        }
        "fit.arm.above.elbow" => "too high lifts the shoulders all day, too low makes the rider lean",
        "fit.side.top" => "a part under the arm presses on the nerve in the armpit",
        "fit.hips.between" => "what stands beside the hips nearer than the seat is wide presses on them",
        "fit.arms.between" => "arm supports press on the hips or the thighs",
        _ if b.out_of_reach => "an arm does not reach the top of its rim at all",
        _ => "arms bent too far cannot push, arms nearly straight wear the shoulders",
    }
}

/// What stands beside the hips, by name.
fn parts(between: &Between) -> String {
    between.parts.iter().map(|p| format!("`{p}`")).collect::<Vec<_>>().join(" and ")
}
