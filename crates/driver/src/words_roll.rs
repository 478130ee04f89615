//! Problems of rolling in words.

use crate::words::Words;
use chairwright_checks::roll::{Climber, Place, Problem, Pusher, Sliding};
use chairwright_design::Origin;
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_quantity::{Dimension, Quantity};

impl Words<'_> {
    pub(crate) fn roll(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::OneHandTurns { origin, hand, said, forces } => {
                self.one_hand(*origin, *hand, *said, *forces)
            }
            Problem::TooSteep { .. } | Problem::LiftsCasters { .. } | Problem::Drifts { .. } => {
                self.pushing(problem)
            }
            Problem::HandOvertaxed { .. } => self.overtaxed(problem),
            Problem::NotJudged { origin, what } => {
                let said = Diagnostic::new(
                    "layout-unjudged",
                    "nobody can tell how a chair with its wheels like this rolls",
                );
                self.at_or(said, *origin, "these wheels stand otherwise than the formulas are for")
                    .note(format!("not worked out: {}", what.join(", ")))
                    .note("they are for fixed wheels on one axle behind and casters ahead of it; brakes were judged by what the slope pulls")
                    .help("try it with sand in the seat on the path itself, braked and rolling, a helper beside it, before anyone sits in it")
            }
            Problem::BrakeMisses { .. } => self.brake_misses(problem),
            Problem::BrakeUnknown { .. } | Problem::BrakesSlip { .. } | Problem::Slides { .. } => {
                self.parking(problem)
            }
            Problem::Grounds { .. } | Problem::Strikes { .. } => self.touching(problem),
            _ => self.meeting(problem),
        }
    }

    fn brake_misses(&self, problem: &Problem) -> Diagnostic {
        let Problem::BrakeMisses { origin, brake, wheel, gap, reach, stated, size } = problem else {
            return self.meeting(problem);
        };
        let sure = stated.is_some_and(|r| r < *gap);
        // fixed by one end and pressing with the other, no lock reaches further than from corner to corner
        let headline = if sure || (stated.is_none() && gap > size) {
            format!("`{brake}` does not reach the tyre of `{wheel}`")
        } else {
            format!("nobody can tell whether `{brake}` reaches the tyre of `{wheel}`")
        };
        let said = Diagnostic::new("brake-misses", headline);
        let said = if sure { said } else { said.severity(Severity::CannotTell) };
        let far = match stated {
            Some(r) if sure => format!("its reach is {}", self.length(*r)),
            Some(r) => format!(
                "its part says {}, and from corner to corner it is {}",
                self.length(*r),
                self.length(*size)
            ),
            None if gap > size => format!("from corner to corner it is {}", self.length(*size)),
            None => {
                format!("its corners lie {} from its middle, and its part names no reach", self.length(*reach))
            }
        };
        let nearer = format!("draw it {} nearer to the tyre", self.up(gap - reach));
        self.placed(said, *origin, format!("{} from the tyre, {far}", self.length(*gap)))
            .note("what does not press on a tyre holds nothing: it was not counted")
            .help(match stated {
                Some(r) if r > size => format!(
                    "no shoe lies further from the middle of its lock than the lock is long: measure both, correct the part's \
                     reach or its length, width and height, or {nearer}"
                ),
                _ => format!("{nearer}, or measure from its middle to its shoe and add reach = … to its part"),
            })
    }

    fn pushing(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::TooSteep { origin, slope, ground, need, can, up_to } => {
                let (least, most) = (self.newtons(need.0), self.newtons(need.1));
                let sure = need.0 > *can;
                let headline = if sure {
                    format!(
                        "the path takes a push of {least} and more, and the rider has {}",
                        self.newtons(*can)
                    )
                } else {
                    format!(
                        "nobody can tell whether a push of {} takes the rider over this ground",
                        self.newtons(*can)
                    )
                };
                let said = Diagnostic::new("too-steep-to-push", headline);
                let said = if sure { said } else { said.severity(Severity::CannotTell) };
                let steep = if *slope > 0.0 { format!("{} on ", self.angle(*slope)) } else { String::new() };
                self.at_or(said, *origin, format!("{steep}{ground}: {least} to {most}"))
                    .note("a rider whose strength gives out on a slope rolls back down it")
                    .help(match (sure, *up_to > 0.0) {
                        (false, _) => "pull the loaded chair over this ground with a spring scale".to_owned(),
                        (true, true) => format!(
                            "up to {} is within that push; beyond it a helper, a longer ramp or a lighter chair",
                            self.rounded_down(*up_to)
                        ),
                        (true, false) => "the ground alone takes more: wider tyres, other ground, or a helper".to_owned(),
                    })
            }
            Problem::LiftsCasters { origin, lift, by, slope } => {
                let (who, can) = match by {
                    Pusher::Rider(can) => ("the rider has more", can),
                    Pusher::Hands { can, both: true } => ("both hands may push more", can),
                    Pusher::Hands { can, both: false } => ("the hand may push more", can),
                    Pusher::Path(can) => ("the path itself takes as much", can),
                };
                let headline = format!("a push of {} lifts the casters, and {who}", self.newtons(*lift));
                let said = Diagnostic::new("tips-when-pushed", headline);
                let on = if *slope > 0.0 { format!(" on {}", self.angle(*slope)) } else { String::new() };
                self.at_or(said, *origin, format!("{} against {}{on}", self.newtons(*can), self.newtons(*lift)))
                    .note("a hard push then tips the chair backward; riders who balance on two wheels want this, others fall")
                    .help("fit anti-tips, move the rear wheels back, or leave it to a rider who is practised")
            }
            Problem::Drifts { .. } => self.drifts(problem),
            _ => self.meeting(problem),
        }
    }

    fn drifts(&self, problem: &Problem) -> Diagnostic {
        let Problem::Drifts { origin, slope, force, hand, alone } = problem else {
            return self.meeting(problem);
        };
        let headline = match alone {
            true => "on this cross slope one hand does not push the chair straight, on whichever side it is",
            false => "on this cross slope one hand has to hold back all the way",
        };
        let said = Diagnostic::new("drifts", headline);
        let force_of = |n: f64| self.newtons(n);
        let note = match alone {
            true => format!(
                "with the hand on the lower side the slope takes {} at the tyre, and pushing takes {}: what is more than that \
                 only speeds up the chair; on the upper side every push turns it further downhill",
                force_of(2.0 * force),
                force_of(2.0 * hand)
            ),
            false => format!(
                "going straight takes {} more at the lower wheel and {} less at the upper, where pushing takes {} of each hand",
                force_of(*force),
                force_of(*force),
                force_of(*hand)
            ),
        };
        self.at_or(said, *origin, format!("{} turns it downhill", self.angle(*slope)))
            .note(note)
            .help("move the rear wheels forward as far as the slopes that tip it allow, or find a flatter path")
    }

    fn overtaxed(&self, problem: &Problem) -> Diagnostic {
        let Problem::HandOvertaxed { origin, side, slope, ground, need, can, level, up_to, alone, named } =
            problem
        else {
            return self.meeting(problem);
        };
        let (hand, can_do) = (side.word(), self.newtons(*can));
        let range = |(least, most): (f64, f64)| format!("{} to {}", self.newtons(least), self.newtons(most));
        let sure = need.0 > *can && *named;
        let headline = if sure {
            format!(
                "the path asks {} and more of the {hand} hand, which may push {can_do}",
                self.newtons(need.0)
            )
        } else {
            format!("nobody can tell whether {can_do} of the {hand} hand are enough for this path")
        };
        let said = Diagnostic::new("hand-overtaxed", headline);
        let said = if sure { said } else { said.severity(Severity::CannotTell) };
        let steep = if *slope > 0.0 { format!("{} on ", self.angle(*slope)) } else { String::new() };
        let each = if *alone { "of it" } else { "of each hand" };
        let mut said = self.at_or(said, *origin, format!("{steep}{ground}: {} {each}", range(*need)));
        if !*named {
            said = said.note(
                "nobody says which hand pushes, so the weaker one was judged: add pushing_hand = left or right",
            );
        }
        if *slope > 0.0 {
            said = said.note(format!("where it is level: {} {each}", range(*level)));
        }
        if !alone {
            said = said.note(
                "straight ahead both hands push alike: a stronger one cannot take over, or the chair turns",
            );
        }
        said.note("this is a steady push; in strokes a hand pushes harder for less of the time").help(match *up_to {
            up if *slope > 0.0 && up > 0.0 => format!(
                "somebody who pushes the chair up here (helper = yes, or pushes = assistant), or wheels with a motor; up to {} \
                 the hand is enough",
                self.rounded_down(up)
            ),
            _ => "somebody who pushes the chair (helper = yes, or pushes = assistant), or wheels with a motor".to_owned(),
        })
    }

    fn parking(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::BrakeUnknown { origin, slope, need, brakes } => {
                let headline = "nobody can tell whether the brakes hold on this slope";
                let said = Diagnostic::new("brake-unknown", headline);
                let label = format!("{} pulls with {}", self.angle(*slope), self.newtons(*need));
                let mut said = self.at_or(said, *origin, label);
                if brakes.is_empty() {
                    return said
                        .note("no brake is drawn: the chair rolls off as soon as nobody holds it")
                        .help(
                            "add a brake on both sides, and say what it holds: holding_force = … in its part",
                        );
                }
                for (name, origin) in brakes {
                    said = self.related(said, *origin, format!("`{name}` does not say what it holds"));
                }
                said.note("brakes set for a hard tyre hold little when it is soft").help(
                    "lock one wheel, pull the loaded chair with a spring scale at the softest tyre it is used with, and add holding_force = … to the part",
                )
            }
            Problem::BrakesSlip { origin, slope, need, holds, count, both } => {
                let said = match both {
                    false => Diagnostic::new("brakes-slip", "the brakes do not hold on this slope"),
                    true => Diagnostic::new(
                        "brakes-slip",
                        "nobody can tell whether the brakes hold: only where slope and cross slope are met at once they do not",
                    )
                    .severity(Severity::CannotTell),
                };
                let label = format!("{} pulls with {}", self.angle(*slope), self.newtons(*need));
                let said = self.at_or(said, *origin, label);
                let said = if *holds > 0.0 {
                    said.note(format!(
                        "{count} of them hold {} together, at their softest tyre",
                        self.newtons(*holds)
                    ))
                } else {
                    said.note("only one side is braked: the chair swings round that wheel")
                };
                said.help(format!(
                    "each side has to hold {} at least: reset them, harder tyres, or other brakes",
                    self.newtons_up(need / 2.0)
                ))
            }
            Problem::Slides { origin, slope, at, downhill, ground, friction, doubt } => {
                let facing = if *downhill { "downhill" } else { "uphill" };
                let at = self.rounded_down(*at);
                let headline = match doubt {
                    Some(Sliding::WhenWet) => format!(
                        "nobody can tell whether it slides with locked wheels when it is wet, facing {facing}"
                    ),
                    Some(Sliding::GroundUnknown) => {
                        "nobody can tell whether it slides with locked wheels: the place names no ground"
                            .to_owned()
                    }
                    Some(Sliding::OnBoth(both)) => format!(
                        "nobody can tell whether slope and cross slope are met at one place: together they fall by {}, and facing {facing} it slides from {at} on",
                        self.angle(*both)
                    ),
                    None => format!("facing {facing} with its wheels locked it slides from {at} on"),
                };
                let said = Diagnostic::new("slides", headline);
                let said = match doubt {
                    Some(Sliding::WhenWet) => said
                        .severity(Severity::CannotTell)
                        .note(format!("dry it holds; with half of its friction it slides from {at} on")),
                    Some(Sliding::GroundUnknown) => {
                        return self
                            .at_or(said.severity(Severity::CannotTell), *origin, self.angle(*slope))
                            .note(format!("on {ground}, facing {facing}, it would slide from {at} on"))
                            .help("say what it is parked on, ground = … in the conditions, and whether water lies on it");
                    }
                    Some(Sliding::OnBoth(_)) => said.severity(Severity::CannotTell),
                    None => said,
                };
                self.at_or(said, *origin, format!("{} on {ground}", self.angle(*slope)))
                    .note(format!("only the rear wheels are braked, and friction is taken as {friction} of the load on them"))
                    .help(self.parked_otherwise(*slope, *downhill))
            }
            _ => self.meeting(problem),
        }
    }

    /// Where a chair that slides on its locked wheels may be parked: facing the other way only where it neither slides nor tips
    /// nor rolls off that way. How it stands across the slope, with its casters turning downhill, is not worked out.
    fn parked_otherwise(&self, slope: f64, downhill: bool) -> String {
        let si = |figure: &str| self.figures.si(figure);
        let (slides, tips, facing) = match downhill {
            true => ("slide.uphill", "tip.rear.locked", "uphill"),
            false => ("slide.downhill", "tip.forward.locked", "downhill"),
        };
        let wanted =
            self.design.profile.iter().flat_map(|p| &p.margins).find(|m| m.0 == tips).map_or(0.0, |m| m.1);
        let leaning = si(&format!("{tips}.leaning"));
        let stands = si(tips).is_some_and(|t| t >= slope + wanted) && leaning.is_none_or(|t| t > slope);
        let brakes = si("brake.holds").zip(si("brake.need")).is_some_and(|(holds, need)| holds >= need);
        let else_ = "move weight onto the rear wheels";
        if si(slides).is_some_and(|s| s > slope) && stands && brakes {
            // how far the rider leans may not be known
            let sits = if leaning.is_none() { " while the rider sits still" } else { "" };
            return format!(
                "park facing {facing}, where it neither slides nor tips on this slope{sits}; or {else_}, or park where it is flatter"
            );
        }
        let why = match () {
            () if si(slides).is_none_or(|s| s <= slope) => "it slides facing the other way, too",
            () if !stands => "facing the other way it may tip",
            () => "nobody knows that the brakes hold facing the other way",
        };
        format!(
            "do not park on this slope: {why}, and across it is not worked out; {else_}, or park where it is flatter"
        )
    }

    fn touching(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::Grounds { origin, slope, at, part, place, raise } => {
                let (word, why) = match place {
                    Place::Foot => (
                        "at the foot of this slope",
                        "a foot support that catches at the foot of a ramp pitches the rider out",
                    ),
                    Place::Crest => (
                        "at the top of this slope",
                        "the chair hangs on its frame with the wheels off the ground",
                    ),
                    Place::Behind => (
                        "behind, at the foot of this slope",
                        "what drags behind lifts the rear wheels off the ground",
                    ),
                };
                let level = *at <= 0.0;
                let word = if level { "already where it is level" } else { word };
                let touch = if part.ends_with("toes") { "touch" } else { "touches" };
                let said = Diagnostic::new("grounds", format!("{} {touch} the ground {word}", self.part(part)));
                let said = if *place == Place::Behind { said.severity(Severity::Warning) } else { said };
                let clears = if level { "no slope at all".to_owned() } else { self.rounded_down(*at) };
                let label = format!("{}, and it clears {clears}", self.angle(*slope));
                self.at_or(said, *origin, label).note(why).help(format!(
                    "raise it by {}, or bring it nearer to the wheels; the slope is taken to begin sharply",
                    self.up(*raise)
                ))
            }
            Problem::Strikes { .. } => self.strikes(problem),
            _ => self.meeting(problem),
        }
    }

    pub(crate) fn meeting(&self, problem: &Problem) -> Diagnostic {
        match problem {
            Problem::StepTooHigh { what, origin, height, radius, need, can, wheel } => {
                let step = if *what == "slot" { "come out of this slot" } else { "climb this step" };
                let (wheels, with) = match wheel {
                    Climber::Casters { .. } => ("casters", "casters"),
                    Climber::Rear => ("rear wheels", "wheels"),
                };
                let headline = match (need, can) {
                    (Some(_), None) => format!("nobody can tell whether the {wheels} {step} by a push"),
                    _ => format!("the {wheels} do not {step} by a push"),
                };
                let said = Diagnostic::new("sill-too-high", headline);
                let unsure = need.is_some() && can.is_none();
                let said = if unsure { said.severity(Severity::CannotTell) } else { said };
                let size = self.length(2.0 * radius);
                let said = self.at_or(
                    said,
                    *origin,
                    format!("{} to climb with {with} of {size}", self.length(*height)),
                );
                let said = match (need, can) {
                    (None, _) => said.note("a step as high as half the wheel stops it however hard one pushes"),
                    (Some(need), Some(can)) => said.note(format!(
                        "it takes {}, and the rider has {}",
                        self.newtons(*need),
                        self.newtons(*can)
                    )),
                    (Some(need), None) => said.note(format!(
                        "it takes {}, and nobody says how hard the rider pushes",
                        self.newtons(*need)
                    )),
                };
                said.help(self.over_the_step(*wheel, can.is_some()))
            }
            Problem::SlotCatches { origin, width, rear, wheel, along } => {
                let name = if *rear { "rear wheel" } else { "caster" };
                let how = if *along { "drops into this slot" } else { "falls into this slot whole" };
                let said = Diagnostic::new("slot-catches", format!("a {name} {how}"));
                let (label, help) = if *along {
                    (
                        format!("{} wide, the tyre {}", self.length(*width), self.length(*wheel)),
                        format!("tyres wider than {}, and never along the slot", self.length(*width)),
                    )
                } else {
                    (
                        format!("{} wide, the wheel {}", self.length(*width), self.length(*wheel)),
                        "larger casters, or a board over the slot".to_owned(),
                    )
                };
                self.at_or(said, *origin, label).note("a wheel that drops in stops the chair dead").help(help)
            }
            Problem::PitchesForward { what, origin, speed, from, slope, dead, helped } => {
                self.pitches(what, *origin, (*speed, *from), *slope, (*dead, *helped))
            }
            Problem::StepOnSlope { what, origin, height, need, pull, can } => {
                let headline =
                    format!("nobody can tell whether a push climbs this {what} where it stands on the slope");
                let said = Diagnostic::new("sill-too-high", headline).severity(Severity::CannotTell);
                self.at_or(said, *origin, format!("{} high", self.length(*height)))
                    .note(format!(
                        "it takes {} there, {} of it for the slope, and the rider has {}; on the level it is enough",
                        self.newtons(*need),
                        self.newtons(*pull),
                        self.newtons(*can)
                    ))
                    .help("if it stands at the end of the ramp: a wedge, a level landing before it, or a helper (helper = steps)")
            }
            Problem::TipsOnStep { .. } => self.on_the_step(problem),
            _ => Diagnostic::new("cannot-tell", "a problem of rolling"),
        }
    }

    fn over_the_step(&self, wheel: Climber, known: bool) -> String {
        let Climber::Casters { wants, backward } = wheel else {
            return "a wedge, a helper (helper = steps), or a run-up that the rider has practised".to_owned();
        };
        let back = if backward { ", or backward over it on the large wheels" } else { "" };
        // beyond this nobody sells a caster
        if wants > 0.15 {
            return format!("no caster climbs it: a ramp, a helper (helper = steps){back}");
        }
        let push = if known { "the push the rider has" } else { "a push as great as their load" };
        format!("casters of {} climb it with {push}; or a wedge, a helper{back}", self.up(2.0 * wants))
    }

    fn pitches(
        &self,
        what: &str,
        origin: Option<Origin>,
        ((speed, declared), from): ((f64, bool), f64),
        slope: f64,
        (dead, helped): (bool, bool),
    ) -> Diagnostic {
        let sure = declared && dead && !helped;
        let rate = format!("{:.1} m/s", (from * 10.0 + 1e-9).floor() / 10.0);
        let down = if slope > 0.0 { format!(" going down {}", self.angle(slope)) } else { String::new() };
        let any = from < 0.05;
        let headline = if sure && any {
            format!("at any speed this {what} throws chair and rider over forward{down}")
        } else if sure {
            format!("from {rate} on, this {what} throws chair and rider over forward{down}")
        } else {
            format!("nobody can tell whether this {what} throws the rider over forward{down}")
        };
        let said = Diagnostic::new("pitches-forward", headline);
        let said = if sure { said } else { said.severity(Severity::CannotTell) };
        let word = if declared { "declared" } else { "assumed, a brisk push" };
        let said = self.at_or(said, origin, format!("at {speed:.1} m/s, {word}"));
        let said = if dead && any {
            said.note("it stops the casters dead, and a dead stop at walking pace or less can lift the rider over them")
        } else if dead {
            said.note(format!(
                "it stops the casters dead, and a dead stop from {rate} can lift the rider over them"
            ))
        } else {
            said.note(format!(
                "the edge is lower than the casters' middles: whether they roll up it or stop at it hangs on the run and the push; \
                 stopped dead the chair goes over from {rate}"
            ))
        };
        let said = if helped {
            said.note("whoever walks behind stops no chair that the step has stopped already: the casters have to be lifted over it before")
        } else {
            said
        };
        let slower = if any { String::new() } else { format!(", or slower than {rate}") };
        said.help(format!("go over it backward{slower}; larger casters, or more weight on the rear wheels"))
    }

    fn on_the_step(&self, problem: &Problem) -> Diagnostic {
        let Problem::TipsOnStep { what, origin, figure, up, height, turn, has, slope, helped } = problem else {
            return self.meeting(problem);
        };
        let (where_at, way) = if *up {
            (format!("up on this {what}"), "backward")
        } else {
            (format!("off this {what}"), "forward")
        };
        let alone = has <= turn;
        let headline = if alone && !helped {
            format!("with its casters {where_at} the chair tips {way}")
        } else {
            format!("nobody can tell whether the chair tips {way} with its casters {where_at}")
        };
        let said = Diagnostic::new("tips-on-step", headline);
        let said = if alone && !helped { said } else { said.severity(Severity::CannotTell) };
        let label = format!("{} high: it turns the chair by {}", self.length(*height), self.angle(*turn));
        let said = self.at_or(said, *origin, label).note(format!(
            "`{figure}` is {}, the step and what slope there is beside it count alike",
            self.rounded_down(*has)
        ));
        let said = match (alone, *helped) {
            (true, true) => said.note("whoever takes it over this step has to hold all of it, up and down; rolled off it alone it goes over"),
            (true, false) => said,
            (false, _) => said.note(format!(
                "on the level it bears the step; where the step stands on the slope of {} it does not",
                self.angle(*slope)
            )),
        };
        said.help(if *up {
            "turn round and have it pulled up backward, a wedge or a ramp, or move the rear wheels back"
        } else {
            "go down backward with a helper below, a wedge or a ramp, or move the casters forward"
        })
    }

    /// A finding at its place, or without one where the text does not say it.
    pub(crate) fn at_or(
        &self,
        said: Diagnostic,
        origin: Option<Origin>,
        label: impl Into<String>,
    ) -> Diagnostic {
        match origin {
            Some(origin) => self.placed(said, origin, label),
            None => said.note(label),
        }
    }

    pub(crate) fn part(&self, name: &str) -> String {
        if name.starts_with("the ") { name.to_owned() } else { format!("`{name}`") }
    }

    pub(crate) fn newtons(&self, force: f64) -> String {
        self.display.text(Quantity::from_si(force, Dimension::FORCE))
    }

    /// A force that something must at least bear, rounded up to whole newtons.
    fn newtons_up(&self, force: f64) -> String {
        self.newtons((force - 1e-9).ceil())
    }

    /// A length that something must at least have, rounded up to whole millimetres.
    pub(crate) fn up(&self, metres: f64) -> String {
        self.length((metres * 1e3 - 1e-9).ceil() / 1e3)
    }
}
