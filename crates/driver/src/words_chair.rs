//! Problems of the chair at rest in words.

use crate::words::Words;
use chairwright_checks::{Margin, Mismatch, Problem};
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_frame::SettleError;
use chairwright_quantity::{Dimension, Quantity};

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
            Problem::GrowthUnsaid { small, origin } => {
                let headline = if *small {
                    "nobody says how old this rider is, who may be a child and grow"
                } else {
                    "nobody can tell whether this rider still grows: no age is said"
                };
                let said = Diagnostic::new("missing-measure", headline);
                let said = if *small { said } else { said.severity(Severity::CannotTell) };
                self.at_or(said, *origin, "until then every length may be more")
                    .note("every measure was taken as it is today: fit, slopes that tip it and loads are those of today")
                    .help("add it to the rider block: age = … years, or what the rider grew in the last year: grown = … mm")
            }
            Problem::NoHand { sides, short, origin } => {
                let words: Vec<&str> = sides.iter().map(|s| s.word()).collect();
                let rims = if words.len() == 1 { "rim is" } else { "rims are" };
                let headline = format!("nobody can tell how the {} push {rims} pushed", words.join(" and "));
                let said = Diagnostic::new("no-hand", headline);
                let said = match origin {
                    Some(origin) => self.placed(said, *origin, "the arm there lacks its hand"),
                    None => said,
                };
                let short: Vec<String> = short.iter().map(|(side, by)| {
                    format!("the {} arm ends {} short of the top of its rim even when straight: nothing fitted to the rim brings it there", side.word(), self.length(*by))
                }).collect();
                let mut note =
                    "reach to the rim, its arc and the elbow's angle there were not worked out".to_owned();
                for also in short {
                    note = format!("{also}; {note}");
                }
                said.note(note)
                    .help("try it on a chair: a rim with knobs or a coating, or cuffs; or say pushes = one_hand, feet or assistant")
            }
            Problem::LeverFar { brake, origin, hand, alone, away, arm, lean } => {
                self.lever_far((brake, *origin, *hand, *alone), *away, *arm, *lean)
            }
            Problem::BeyondReach { sides, origin } => {
                let words: Vec<&str> = sides.iter().map(|s| s.word()).collect();
                let rims = if words.len() == 1 { "rim" } else { "rims" };
                let said = Diagnostic::new(
                    "rim-beyond-reach",
                    format!("no hand gets to the top of the {} push {rims}", words.join(" and ")),
                );
                let said = self.at_or(said, *origin, "with the trunk upright and the arm straight, or folded");
                said.note("who cannot hold the rim cannot push, and cannot stop either")
                    .help(self.nearer(sides))
            }
            Problem::FarBehind { arm, origin } => self.far_behind(arm, *origin),
            Problem::LimbLength { .. } | Problem::LimbDoubt { .. } => self.limb(problem),
            Problem::UnknownOrigin { names, origin } => self.unknown_origin(names, *origin),
            Problem::BodyBySheet { names, origin } => self.body_by_sheet(names, *origin),
            Problem::OddMeasure { name, origin, usual: (low, high), value } => {
                let kind = if name == "mass" { Dimension::MASS } else { Dimension::LENGTH };
                let text = |si: f64| self.display.text(Quantity::from_si(si, kind));
                let said = Diagnostic::new("odd-measure", format!("hardly any rider has this `{name}`"));
                self.placed(said, *origin, text(*value))
                    .note(format!("nearly everybody lies between {} and {}", text(*low), text(*high)))
                    .help("look at the tape again, and at the unit: was it cm, mm or in?")
            }
            Problem::FarOff { name, origin, away, most } => {
                let text = |si: f64| self.display.text(Quantity::from_si(si, Dimension::LENGTH));
                let said = Diagnostic::new("odd-measure", format!("`{name}` is far from chair and rider"));
                self.placed(said, *origin, format!("{} from the nearest of their parts", text(*away)))
                    .note(format!(
                        "what hangs on a chair or sits on a lap has its middle within {}",
                        text(*most)
                    ))
                    .help("look at its place again, and at the unit: was it cm, mm or in?")
            }
            Problem::JointBent { joint, side, has, range, moves, origin } => {
                self.joint_bent((*joint, *side), *has, (*range, *moves), *origin)
            }
            Problem::FitRule(broken) => self.fit_rule(broken),
            Problem::UnderBones { width, bones, between, origin } => {
                self.under_bones((*width, *bones), between.as_ref(), *origin)
            }
            Problem::Pressed { pressed, origin } => self.pressed(pressed, *origin),
            Problem::IdleDeviation { ruled, figure, origin } => self.idle_deviation(*ruled, figure, *origin),
            Problem::Skin { flag, origin } => self.skin(*flag, *origin),
            Problem::TipsLeaning { figure, measure, lean, has, slope, origin } => {
                self.tips_leaning((figure, measure), (*lean, *has, *slope), *origin)
            }
            Problem::TipsTurned { figure, has, slope, margin, origin } => {
                self.tips_turned(figure, (*has, *slope, *margin), *origin)
            }
            Problem::SlopeUnsaid { figure, has, ramp, origin } => {
                self.slope_unsaid((figure, *has), *ramp, *origin)
            }
            Problem::Undeclared { lacks, origin } => self.undeclared(lacks, *origin),
            Problem::TipsOnBoth { has, slope, origin } => self.tips_on_both(*has, *slope, *origin),
            Problem::AntiTip { fault, name, origin } => self.anti_tip(fault, name, *origin),
            Problem::BuiltImpossible { locked, free, origin } => self.built_impossible(*locked, *free, *origin),
            Problem::BuiltUnsure { locked, free, least, most, origin } => {
                self.built_unsure((locked, free), (*least, *most), *origin)
            }
            Problem::BuiltTwoPlaces { tilt, scales, origin } => self.built_two_places(*tilt, *scales, *origin),
            Problem::ProfileSilent { lacks, profile, origin } => self.profile_silent(lacks, profile, *origin),
            Problem::NoSeat { origin } => self.no_seat(*origin),
            Problem::Unnamed { origin, withheld } => self.unnamed(*origin, *withheld),
            Problem::BuiltDiffers { ahead, up, open, held, origin } => {
                self.built_differs((*ahead, *up, *open), *held, *origin)
            }
            Problem::Unseated { how, origin } => self.unseated(how, *origin),
            Problem::Mismatched { odd, origin } => self.mismatched(odd, *origin),
            Problem::OddCamber { wheel, origin, camber } => {
                let way = if *camber < 0.0 { "outward" } else { "inward" };
                let headline = format!("the top of `{wheel}` leans {way}");
                self.placed(Diagnostic::new("odd-camber", headline), *origin, format!("by {}", self.angle(camber.abs())))
                    .note(if *camber < 0.0 {
                        "the track is less than the width, the tyre rolls on its inner edge, and the push rim leans away from the hand"
                    } else {
                        "no chair for every day leans its wheels so far: bearings and spokes are not made for it"
                    })
                    .help("camber is positive where the tops lean inward; look at its sign, and at the axle's ends")
            }
            Problem::ShortTrail { caster, origin, trail } => {
                let said = if *trail > 0.0 {
                    Diagnostic::new("short-trail", format!("`{caster}` hardly trails behind its stem"))
                        .severity(Severity::Warning)
                } else {
                    Diagnostic::new("short-trail", format!("`{caster}` does not trail behind its stem"))
                };
                let label = format!("{} of trail on the ground", self.length(*trail));
                self.placed(said, *origin, label)
                    .note("what pulls a caster straight is its trail: without it the caster stays as it stands, turns round by itself and flutters")
                    .help("measure from the stem's axis to the wheel's middle again; turn the stem upright on the ground, or take a fork with more offset")
            }
            Problem::EmptyTips { with, origin, toward, device, has, slope, planned } => {
                self.empty_tips(with, (*origin, *toward, *device), (*has, *slope), *planned)
            }
            Problem::Posture { held, origin } => self.posture(held, *origin),
            Problem::Toes { wheel, origin, toe, gap, drag, camber, measured } => {
                let way = if *toe > 0.0 { "out" } else { "in" };
                let said = Diagnostic::new("wheel-toes", format!("`{wheel}` toes {way}"));
                let drags = match drag {
                    Some(drag) => format!("it drags {drag:.2} times as much, at every push"),
                    None => "it drags more than was ever measured".to_owned(),
                };
                let said = self.placed(said, *origin, format!("by {}", self.angle(toe.abs()))).note(format!(
                    "{drags}; between front and back of this wheel at axle height it makes {}",
                    self.length(*gap)
                ));
                match camber {
                    _ if *measured => said.help("shim or bore the receivers anew: one straight tube through both sides holds them in line"),
                    Some(camber) => said.help(format!("the frame stands tilted and turns {} of camber into toe: level it, or give the wheel less camber", self.angle(camber.abs()))),
                    None => said.help("draw the axle square to the way of travel"),
                }
            }
            Problem::TipsBeforeBaseline { chair, sooner, origin } => {
                self.tips_before_baseline(chair, sooner, *origin)
            }
            Problem::UnlikeBaseline { chair, differs, origin } => self.unlike_baseline(chair, differs, *origin),
            Problem::ThinMargin { margin, profile, origin } => self.thin_margin(margin, profile, *origin),
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
            Problem::Roll(problem) => self.roll(problem),
            Problem::Room(problem) => self.room(problem),
            Problem::Clearance(trouble) => self.clear(trouble),
            Problem::BelowFloor { body, depth } => {
                let origin = self.owner(body);
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

    fn empty_tips(
        &self,
        with: &str,
        (origin, toward, device): (Option<chairwright_design::Origin>, f64, bool),
        (has, slope): (f64, f64),
        planned: Option<f64>,
    ) -> Diagnostic {
        let way = Way::of(toward);
        if let Some(planned) = planned {
            return self.empty_unsure((origin, way, device), (has, slope), planned);
        }
        let level = has <= 0.0;
        let where_to = if level { "where it is level" } else { "on the slope of its path" };
        let with = if with.is_empty() { String::new() } else { format!(", with {with}") };
        let over = if device { ", over its anti-tips," } else { "" };
        let headline = format!("with nobody in it{with}, the chair goes over {}{over} {where_to}", way.words());
        let said = Diagnostic::new("tips-empty", headline);
        let said = if level { said } else { said.severity(Severity::Warning) };
        let label = format!("tips at {}, the path has {}", self.rounded_down(has), self.angle(slope));
        self.at_or(said, origin, label)
            .note("it goes as the rider gets out, who may still hold on to it, or before the rider is in")
            .help(if device {
                "take off what hangs behind before a transfer, hang it further ahead, or set the devices further back"
            } else {
                way.help()
            })
    }

    /// Only what a tipping test found, laid on the chair alone, tips it.
    fn empty_unsure(
        &self,
        (origin, way, device): (Option<chairwright_design::Origin>, Way, bool),
        (has, slope): (f64, f64),
        planned: f64,
    ) -> Diagnostic {
        let headline = "whether the built chair stands with nobody in it cannot be told";
        let said = Diagnostic::new("tips-empty", headline).severity(Severity::CannotTell);
        let label = format!(
            "planned to tip at {}, perhaps at {}, the path has {}",
            self.rounded_down(planned),
            self.rounded_down(has),
            self.angle(slope)
        );
        self.at_or(said, origin, label)
            .note("the built chair tips elsewhere than planned with sand in it: the chair may be the one that differs, or the sand")
            .help(format!(
                "set the chair, empty and with all that hangs on it, on that slope{}, hands ready {}",
                if device { ", down on its anti-tips" } else { "" },
                way.hands()
            ))
    }

    fn mismatched(&self, odd: &Mismatch, origin: Option<chairwright_design::Origin>) -> Diagnostic {
        let (headline, label, note) = match odd {
            Mismatch::Mass { index, usual, child } => (
                "hardly any rider of this stature has this `mass`".to_owned(),
                format!("{index:.1} kg/m2"),
                format!(
                    "mass over stature squared lies between {} and {} for nearly every {} (from memory, not checked)",
                    usual.0,
                    usual.1,
                    if *child { "child" } else { "grown-up" }
                ),
            ),
            Mismatch::Share { measure, share, usual } => (
                format!("hardly any rider of this stature has this `{measure}`"),
                format!("{share:.2} of stature"),
                format!(
                    "nearly everybody's lies between {:.2} and {:.2} of stature (from memory, not checked)",
                    usual.0, usual.1
                ),
            ),
            Mismatch::Order { upper, lower } => (
                format!("`{}` is not above `{}`", upper.0, lower.0),
                format!("{} and {}", self.length(upper.1), self.length(lower.1)),
                "both are measured up from the seat, and no body has them the other way round".to_owned(),
            ),
            Mismatch::Head { head, seat, shoulder } => (
                "`head_height` is not above the shoulders".to_owned(),
                match seat {
                    Some(seat) => format!(
                        "{} from the floor, {} above the seat of `liked_seat_height`, and the shoulders {} above theirs",
                        self.length(*head),
                        self.length(head - seat),
                        self.length(*shoulder)
                    ),
                    None => format!(
                        "{} from the floor, and the shoulders {} above the seat",
                        self.length(*head),
                        self.length(*shoulder)
                    ),
                },
                "it goes from the floor to the crown, and shoulders are measured up from the seat; was the head, too?"
                    .to_owned(),
            ),
            Mismatch::Bones { bones, hips } => (
                "`trochanter_width` is more than `hip_width`".to_owned(),
                format!("{} and {}", self.length(*bones), self.length(*hips)),
                "the bones lie inside of the hips".to_owned(),
            ),
        };
        self.at_or(Diagnostic::new("odd-measure", headline), origin, label)
            .note(note)
            .help("look at the tape and the unit again, and whether all measures are of one rider")
    }

    /// How far the seat has to go up or down over the axle for the elbow to have 120 degrees on these sides.
    fn nearer(&self, sides: &[chairwright_design::Side]) -> String {
        let raise = self.reach.iter().filter(|r| sides.contains(&r.side)).filter_map(|r| r.raise);
        let far = raise.map(|r| if r.1 < 0.0 { r.1 } else { r.0 });
        match far.max_by(|a, b| a.abs().total_cmp(&b.abs())) {
            Some(by) if by < 0.0 => format!(
                "lower the seat by {} over the axle, or larger wheels; measure the arm again",
                self.up(-by)
            ),
            Some(by) => format!("raise the seat by {} over the axle; measure the arm again", self.up(by)),
            None => {
                "bring the wheels nearer to the shoulders, fore and aft and in width; measure the arm again"
                    .to_owned()
            }
        }
    }

    fn thin_margin(&self, m: &Margin, profile: &str, origin: chairwright_design::Origin) -> Diagnostic {
        let wanted = self.angle(m.slope + m.margin);
        let sum = format!("{} of slope and {} of margin", self.angle(m.slope), self.angle(m.margin));
        let said = match m.has {
            Some(has) => Diagnostic::new(
                "tips-too-soon",
                format!("`{}` is {}, and {wanted} is wanted", m.figure, self.rounded_down(has)),
            ),
            None => {
                Diagnostic::new("cannot-tell", format!("nobody can tell whether `{}` is {wanted}", m.figure))
            }
        };
        let said =
            self.placed(said, origin, sum).note(format!("the use profile \"{profile}\" wants this margin"));
        let Some(has) = m.has else { return said.help(self.what_is_missing()) };
        let said = match self.rides(m.figure, has, m.slope + m.margin) {
            Some(note) => said.note(note),
            None => said,
        };
        said.help("move the rear wheels, the casters or the seat, and look at all slopes again; a lighter profile is chosen by whoever knows the rider")
    }

    /// What rides along and takes this figure down to what it is, and what it is without any of it.
    fn rides(&self, figure: &str, has: f64, wanted: f64) -> Option<String> {
        let alone = self.figures.si(&format!("{figure}.alone")).filter(|alone| *alone > has + 1e-9)?;
        let stem = format!("{figure}.with.");
        let each =
            self.figures.0.iter().filter_map(|(name, f)| Some((name.strip_prefix(&stem)?, f.value.si())));
        let worst = each.filter(|(_, of)| *of < alone - 1e-9).min_by(|a, b| a.1.total_cmp(&b.1));
        let what = worst.map_or("what rides along".to_owned(), |(name, _)| format!("`{name}`"));
        let enough = if alone >= wanted {
            ", which is enough: leave it off, or carry less, lower and further forward"
        } else {
            ""
        };
        let without = self.rounded_down(alone);
        Some(format!("that is with {what}: without anything that rides along it is {without}{enough}"))
    }

    /// The statement that a body comes from: its name, or its name with a part behind a dot.
    pub(crate) fn owner(&self, body: &str) -> Option<chairwright_design::Origin> {
        let d = self.design;
        let is =
            |name: &str| body.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
        let members = d.members.values().map(|m| (m.name.as_str(), m.origin));
        let joints = d.joints.values().map(|j| (j.name.as_str(), j.origin));
        let sheets = d.panels.iter().map(|p| (p.name.as_str(), p.origin));
        let boxes = d.boxes.iter().map(|b| (b.name.as_str(), b.origin));
        let supports = d.supports.iter().map(|s| (s.name.as_str(), s.origin));
        let items = d.items.iter().map(|i| (i.name.as_str(), i.origin));
        let carried = d.carried.iter().map(|c| (c.name.as_str(), c.origin));
        let mut all =
            members.chain(sheets).chain(boxes).chain(supports).chain(items).chain(joints).chain(carried);
        all.find(|(name, _)| is(name)).map(|(_, origin)| origin)
    }

    fn cannot_stand(&self, error: SettleError) -> Diagnostic {
        let wheel = self.design.wheels.first().map(|w| w.origin);
        let wheel = wheel.or_else(|| self.design.casters.first().map(|c| c.origin));
        let (code, headline, label, help) = match error {
            SettleError::TooFewWheels { fixed, casters } if fixed + casters > 2 => (
                "cannot-stand",
                "a chair with fewer than two fixed wheels is not worked out".to_owned(),
                format!("{fixed} that do not swivel, {casters} casters: balance and strength were not judged"),
                "it may well stand; what is worked out here needs two wheels that do not swivel, one on each side, and casters",
            ),
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

/// Which way an empty chair goes over.
#[derive(Clone, Copy)]
enum Way {
    Ahead,
    Back,
    Left,
    Right,
}

impl Way {
    /// By the way down, from straight ahead over the left, in radians.
    fn of(toward: f64) -> Way {
        let (aside, ahead) = libm::sincos(toward);
        match () {
            () if ahead.abs() < aside.abs() && aside > 0.0 => Way::Left,
            () if ahead.abs() < aside.abs() => Way::Right,
            () if ahead > 0.0 => Way::Ahead,
            () => Way::Back,
        }
    }

    fn words(self) -> &'static str {
        match self {
            Way::Ahead => "forward",
            Way::Back => "backward",
            Way::Left => "to its left",
            Way::Right => "to its right",
        }
    }

    fn hands(self) -> &'static str {
        match self {
            Way::Ahead => "ahead of it",
            Way::Back => "behind it",
            Way::Left | Way::Right => "beside it",
        }
    }

    fn help(self) -> &'static str {
        match self {
            Way::Ahead => {
                "take off what hangs ahead before a transfer, hang it further back, or move the foremost wheels forward"
            }
            Way::Back => {
                "take off what hangs behind before a transfer, hang it further ahead, or move the rear wheels back"
            }
            Way::Left | Way::Right => {
                "take off what hangs aside before a transfer, hang it in the middle, or widen the track"
            }
        }
    }
}
