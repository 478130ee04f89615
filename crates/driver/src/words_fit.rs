//! Problems of fit and of the rider's balance in words.

use crate::words::Words;
use chairwright_checks::{AntiTipFault, Broken, Held, JointName, Pressed, SkinFlag, Unseated};
use chairwright_design::{Origin, Side};
use chairwright_diagnostics::{Diagnostic, Severity};

/// What a tape in whole millimetres cannot tell, in metres: half of its division.
const READ: f64 = 0.000_5;

impl Words<'_> {
    /// Puts a problem at its place, where it has one.
    fn perhaps(&self, said: Diagnostic, origin: Option<Origin>, label: impl Into<String>) -> Diagnostic {
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

    pub(crate) fn under_bones(&self, width: f64, bones: f64, origin: Origin) -> Diagnostic {
        let said = Diagnostic::new("under-bones", "the seat is narrower than the rider's bones");
        self.placed(said, origin, format!("{} for bones of {}", self.length(width), self.length(bones)))
            .note("tissue may give way, the points of the hips do not: they press on the frame and open")
            .help(format!("make the seat at least {} wider", self.length(bones - width)))
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
            Unseated::Narrow { width, hips } => (
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
        self.placed(Diagnostic::new("skin-flag", headline), origin, label)
            .note("pressure and shear are not computed here; look at the skin every day")
            .help(help)
    }

    pub(crate) fn tips_leaning(
        &self,
        (figure, measure): (&str, &str),
        (lean, has, slope): (f64, f64, f64),
        origin: Option<Origin>,
    ) -> Diagnostic {
        let said = Diagnostic::new(
            "tips-when-leaning",
            format!("`{figure}` is {}, and the path has {}", self.rounded_down(has), self.angle(slope)),
        );
        self.perhaps(said, origin, format!("{measure} = {}", self.angle(lean)))
            .note("reaching out of the chair moves the weight of the trunk past the wheels: many falls happen so")
            .help("move the wheels or casters that way, or lower the seat; if the rider leans less, measure and say so")
    }

    pub(crate) fn tips_turned(
        &self,
        figure: &str,
        (has, slope, margin): (f64, f64, f64),
        origin: Option<Origin>,
    ) -> Diagnostic {
        let leaning = figure.ends_with(".leaning");
        let words = match figure {
            "tip.any.leaning" => "leaning any way",
            _ if leaning => "leaning to the side",
            _ => "standing to any side",
        };
        let has_words =
            format!("`{figure}` is {}, and the slope {}", self.rounded_down(has), self.angle(slope));
        let said = if has <= slope && !leaning {
            Diagnostic::new(
                "tips-when-turned",
                format!("turned on the slope of its path the chair tips: {has_words}"),
            )
        } else {
            Diagnostic::new(
                "cannot-tell",
                format!(
                    "nobody can tell whether the chair may turn on the slope of its path, {words}: {has_words}"
                ),
            )
        };
        let label = if margin > 0.0 {
            format!(
                "{} of slope, and the profile wants {} more at least",
                self.angle(slope),
                self.angle(margin)
            )
        } else {
            format!("{} of slope", self.angle(slope))
        };
        let said = self.perhaps(said, origin, label).note(
            "whoever turns on a ramp, or on its landing, stands across and slanted to it on the way; nothing says that it never happens",
        );
        if leaning {
            said.help("widen the track or lower the seat; else teach to sit upright while turning there, and try it with helpers")
        } else {
            let steadier =
                if figure == "tip.side" { "widen the track or lower the seat" } else { self.steadier() };
            said.help(format!("{steadier}; else turn on level ground only, and try it with helpers"))
        }
    }

    pub(crate) fn tips_on_both(&self, has: f64, slope: f64, origin: Option<Origin>) -> Diagnostic {
        let headline = format!(
            "nobody can tell whether the slope and the cross slope are met at one place: together they fall by {}, and `tip.any` is {}",
            self.angle(slope),
            self.rounded_down(has)
        );
        self.perhaps(Diagnostic::new("cannot-tell", headline), origin, "here, or across")
            .note("a path that climbs and falls to its side is steeper than either, slanted to both; each alone the chair bears")
            .help(format!("{}; where the two are never met at once, accept it and say why", self.steadier()))
    }

    /// What makes a chair steadier the way in which it tips first.
    fn steadier(&self) -> &'static str {
        // from straight ahead; within 30 degrees of straight ahead or back the track has no part in it
        let toward = self.figures.si("direction.tip.any").map_or(90.0, |t| t.to_degrees().rem_euclid(360.0));
        match toward {
            t if (150.0..=210.0).contains(&t) => {
                "it tips straight back first, where a wider track does nothing: move the rear wheels back, or lower the seat"
            }
            t if !(30.0..=330.0).contains(&t) => {
                "it tips straight ahead first, where a wider track does nothing: move the casters forward, or lower the seat"
            }
            _ => "widen the track, move the casters or lower the seat",
        }
    }

    pub(crate) fn anti_tip(&self, fault: &AntiTipFault, name: &str, origin: Origin) -> Diagnostic {
        match fault {
            AntiTipFault::Missing { profile, place } => {
                let said = Diagnostic::new(
                    "no-anti-tip",
                    format!("the use profile \"{profile}\" wants an anti-tip device"),
                );
                let where_to = match place {
                    Some((back, up)) => format!(
                        "put one on each side: a part of kind anti_tip on a wheel of {}, its middle {} behind the rear axle and {} \
                         above the ground",
                        self.length(0.05),
                        self.length(*back),
                        self.length(*up)
                    ),
                    None => "no fixed place both clears slope and kerb of the path and touches before the chair is past its \
                             balance: use a pair that folds up, with a state without it for the kerb alone and a helper behind, or make the chair steadier"
                        .to_owned(),
                };
                self.placed(said, origin, "and the chair has none")
                    .note("until wheelies are learnt it is the only thing behind the rider's head")
                    .help(where_to)
            }
            AntiTipFault::OneSided { off } => {
                let said = Diagnostic::new(
                    "idle-anti-tip",
                    format!("`{name}` stands on one side, and nothing on the other"),
                );
                self.placed(said, origin, format!("{} off the middle", self.length(*off)))
                    .note("over one device at the side the chair goes on turning, about the line to the other wheel")
                    .help("put one on both sides, or a single one in the middle")
            }
            AntiTipFault::StopsAtKerb { turn, kerb, height } => {
                let said = Diagnostic::new(
                    "anti-tip-catches",
                    format!(
                        "`{name}` is on the ground before the casters are over a kerb of {}",
                        self.length(*height)
                    ),
                );
                let label = format!("touches at {}, the kerb takes {}", self.angle(*turn), self.angle(*kerb));
                self.placed(said, origin, label)
                    .note("neither rider nor helper gets the casters up; who pulls harder lifts the rear wheels")
                    .help("use a device that folds up, with a state without it and a helper behind, or raise it if the chair still tips later than that")
            }
            AntiTipFault::NotBehind => {
                let said =
                    Diagnostic::new("idle-anti-tip", format!("`{name}` does not stand behind the rear axle"));
                self.placed(said, origin, "here it stops nothing").help("move it back behind the rear axle")
            }
            AntiTipFault::NeverTouches => {
                let said = Diagnostic::new("idle-anti-tip", format!("`{name}` never reaches the ground"));
                self.placed(said, origin, "too high or too near the axle").help("move it back and down")
            }
            AntiTipFault::TooLate { turn, free, slope } => {
                let headline = if turn < free {
                    format!("`{name}` touches hardly before the chair has tipped")
                } else {
                    format!("the chair has tipped before `{name}` touches")
                };
                let said = Diagnostic::new("idle-anti-tip", headline);
                let label = format!(
                    "on the ground after {}, tipped at {}",
                    self.angle(*turn),
                    self.rounded_down(*free)
                );
                self.placed(said, origin, label)
                    .note(format!(
                        "nose up on a slope of {}, in the worst loading and with the rider leaning back; it must touch 2 deg before",
                        self.angle(*slope)
                    ))
                    .help("move it down, or back, until it touches well before")
            }
            AntiTipFault::TooNear { has, slope, margin } => {
                let said =
                    Diagnostic::new("idle-anti-tip", format!("`{name}` does not hold the chair on its path"));
                let mut label =
                    format!("bears {}, the path has {}", self.rounded_down(*has), self.angle(*slope));
                if *margin > 0.0 {
                    label.push_str(&format!(" and the profile wants {} more", self.angle(*margin)));
                }
                self.placed(said, origin, label).help("move it back, or down so that it touches sooner")
            }
            AntiTipFault::Catches { clearance, approach, slope } => {
                let said = Diagnostic::new(
                    "anti-tip-catches",
                    format!("`{name}` is on the ground at the foot of a slope of {}", self.angle(*slope)),
                );
                let label =
                    format!("{} off the ground, it clears {}", self.length(*clearance), self.angle(*approach));
                self.placed(said, origin, label)
                    .note("it lifts the rear wheels as the chair comes onto the ramp, and the brakes with them")
                    .help("raise it, or bring it nearer to the axle; it must still touch before the chair tips")
            }
        }
    }

    pub(crate) fn built_impossible(&self, locked: f64, free: f64, origin: Origin) -> Diagnostic {
        let said = Diagnostic::new("angles-disagree", "these two tipping angles are not of one chair");
        self.placed(said, origin, format!("{} locked, {} free", self.angle(locked), self.angle(free)))
            .note("with the wheels free a chair tips later than with them locked: it turns about the axle")
            .help("tip it again, the same rider in the same place, a helper behind the chair each time")
    }

    pub(crate) fn built_unsure(
        &self,
        (locked, free): (&chairwright_design::Band, &chairwright_design::Band),
        (least, most): (f64, f64),
        origin: Origin,
    ) -> Diagnostic {
        let said = Diagnostic::new(
            "angles-disagree",
            "these two tipping angles do not say how high the chair balances",
        );
        let open = if most.is_finite() {
            format!("from {} to {}", self.length(least), self.length(most))
        } else {
            format!("{} or any height above", self.length(least))
        };
        self.placed(said, origin, format!("{} locked, {} free", self.angle(locked.mid()), self.angle(free.mid())))
            .note(format!("with their tolerances they leave the centre of mass {open}: the height of the plan is kept"))
            .help("read both angles again to a tenth of a degree, three times each; nobody's lies above 1.5 m, or is known from angles that leave more than 200 mm open")
    }

    pub(crate) fn built_two_places(&self, tilt: f64, scales: f64, origin: Origin) -> Diagnostic {
        let said = Diagnostic::new("angles-disagree", "the tipping test and the scales are not of one chair");
        let label = format!(
            "{} ahead of the axle by the tilt, {} by the scales",
            self.length(tilt),
            self.length(scales)
        );
        self.placed(said, origin, label)
            .note("the slopes that tip it are worked out from the tipping test")
            .help("weigh it again with all wheels level and the same rider in the same place, and tip it again")
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

    pub(crate) fn built_differs(
        &self,
        (ahead, up, open): (f64, f64, f64),
        held: bool,
        origin: Origin,
    ) -> Diagnostic {
        let headline = if held {
            "these readings are of another chair than the plan, or misread"
        } else {
            "the built chair balances elsewhere than the plan says"
        };
        let said = Diagnostic::new("built-differs", headline);
        let said = if held { said.severity(Severity::Error) } else { said };
        let x =
            format!("{} further {}", self.length(ahead.abs()), if ahead > 0.0 { "forward" } else { "back" });
        let z = format!("{} {}", self.length(up.abs()), if up > 0.0 { "higher" } else { "lower" });
        let open = if open.is_finite() && open > 0.0 {
            format!("; the angles leave {} of height open", self.length(open))
        } else {
            String::new()
        };
        self.placed(said, origin, format!("{x}, {z}"))
            .note(if held {
                format!("nobody can tell which is right: each slope below is the lesser of the plan's and the test's{open}")
            } else {
                format!("the slopes below are worked out for the chair as it was tipped{open}")
            })
            .help("look for what differs: how the rider sits, the cushion, the mass of the parts")
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
        "fit.arms.between" => "arm supports press on the hips or the thighs",
        _ if b.out_of_reach => "an arm does not reach the top of its rim at all",
        _ => "arms bent too far cannot push, arms nearly straight wear the shoulders",
    }
}
