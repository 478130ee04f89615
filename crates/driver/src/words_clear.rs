//! Clearances in words.

use crate::words::Words;
use chairwright_checks::{Doubt, Shift, Struck, Trouble, Way};
use chairwright_design::{Origin, Side};
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_quantity::{Dimension, Quantity};

/// `caster-hits` and `caster-hits-foot` as data.
struct Hit<'a> {
    caster: &'a str,
    origin: Origin,
    side: Option<Side>,
    what: &'a Struck,
    swivel: Option<f64>,
    gap: f64,
    limit: f64,
    numb: bool,
    shifts: [Option<Shift>; 2],
}

impl Words<'_> {
    /// A finding at one of two parts that meet, with the other beside it; without places where the text draws neither.
    pub(crate) fn at_both(&self, said: Diagnostic, (one, other): (&str, &str), label: String) -> Diagnostic {
        let said = match self.part_origin(one) {
            Some(origin) => self.placed(said, origin, label),
            None => said.note(label),
        };
        match self.part_origin(other) {
            Some(origin) => self.related(said, origin, "the other part"),
            None => said,
        }
    }

    pub(crate) fn clear(&self, trouble: &Trouble) -> Diagnostic {
        match trouble {
            Trouble::CasterHits {
                caster,
                origin,
                side,
                what,
                swivel,
                gap,
                limit,
                numb,
                caster_shift,
                feet_shift,
            } => self.caster_hits(&Hit {
                caster,
                origin: *origin,
                side: *side,
                what,
                swivel: *swivel,
                gap: *gap,
                limit: *limit,
                numb: *numb,
                shifts: [*caster_shift, *feet_shift],
            }),
            Trouble::TyreRubs { wheel, origin, body, drawn, flex, limit } => {
                self.tyre_rubs((wheel, *origin), body, *drawn, *flex, *limit)
            }
            Trouble::FingerGap { one, other, gap, band, moves } => {
                self.finger_gap(one, other, *gap, *band, *moves)
            }
            Trouble::FingerHole { hole, count, bolts, member, origin, across, slot, band } => {
                let what = if *slot { "slot" } else { "hole" };
                let said = Diagnostic::new(
                    "finger-gap",
                    format!("a child's finger gets stuck in the {what} `{hole}`"),
                );
                let row = if *count > 1 { format!(", the first of {count}") } else { String::new() };
                let label = format!("{} across and open{row}", self.length(*across));
                let said = self.placed(said, *origin, label);
                let (low, high) = (self.length(band.0), self.length(band.1));
                let note = format!("a small finger enters an opening of {low} to {high} and does not come out");
                let said = said.note(note);
                let said = match bolts {
                    0 => said,
                    n => said.note(format!(
                        "{n} of the holes of `{member}` may be filled by what is fastened to it, the others are not"
                    )),
                };
                said.help(format!("plug it, drill it {high} or wider, or narrower than {low}"))
            }
            Trouble::WheelStuck { wheel, origin, body, depth, path } => {
                let said =
                    Diagnostic::new("wheel-stuck", format!("`{wheel}` cannot be pulled off past `{body}`"));
                let said = self.placed(said, *origin, format!("{} in its way", self.length(*depth)));
                self.owned(said, body)
                    .note(format!(
                        "it must come out {} along its axle: the axle, and room for the hand",
                        self.length(*path)
                    ))
                    .help("move that part out of the way, or make it one that comes off first")
            }
            Trouble::WheelBlocked { wheel, origin, body, is_wheel, depth, out } => {
                self.wheel_blocked((wheel, *origin), (body, *is_wheel), (*depth, *out))
            }
            Trouble::StandOff { wheel, origin, gap, band } => self.stand_off(wheel, *origin, *gap, *band),
            Trouble::ThumbTrap { brake, origin, wheel, gap, free } => {
                self.thumb_trap((brake, *origin), wheel, *gap, *free)
            }
            Trouble::Overloaded { wheel, caster, origin, load, shock, rated } => {
                self.overloaded((wheel, *origin), *caster, (*load, *shock), *rated)
            }
            Trouble::OneSided { wheel, origin } => {
                let said = Diagnostic::new("one-sided-axle", format!("`{wheel}` is held from one side only"));
                self.placed(said, *origin, "its axle must be held at both ends")
                    .note("a cone axle of a bicycle bends when it is hung from one side, and its cone works loose")
                    .help("use a wheel with a through axle of 12 mm or more in cartridge bearings, or hold both ends in a fork")
            }
            Trouble::AxleLength { axle, origin, length, hub, receiver, lying } => {
                self.axle_length((axle, *origin), (*length, *hub), *receiver, *lying)
            }
            Trouble::AxleUnmeasured { axle, origin, wheel, length, hub, receiver } => {
                self.axle_unmeasured((axle, *origin), wheel, *length, (*hub, *receiver))
            }
            Trouble::AxleBore { axle, origin, diameter, into, bore } => {
                self.axle_bore((axle, *origin), *diameter, (into, *bore))
            }
            Trouble::CastersUntold { caster, origin, pairs, looked } => {
                let headline = format!("{pairs} more pairs of casters may swing onto each other");
                let said = Diagnostic::new("caster-hits", headline).severity(Severity::CannotTell);
                self.placed(said, *origin, format!("`{caster}` is one of them"))
                    .note(format!("of so many casters only the {looked} nearest pairs are looked at"))
                    .help("turn every caster of the built chair full round beside its neighbours, or set fewer of them")
            }
            Trouble::CoastTest { caster, origin, doubts, tried } => {
                self.coast_test(caster, *origin, doubts, *tried)
            }
        }
    }

    /// Adds the place of a part by its name.
    fn owned(&self, said: Diagnostic, body: &str) -> Diagnostic {
        match self.owner(body) {
            Some(origin) => self.related(said, origin, "this part"),
            None => said,
        }
    }

    fn caster_hits(&self, hit: &Hit<'_>) -> Diagnostic {
        let foot = matches!(hit.what, Struck::Foot(_));
        let code = if foot { "caster-hits-foot" } else { "caster-hits" };
        let other = match hit.what {
            Struck::Foot(side) if Some(*side) == hit.side || hit.side.is_none() => {
                "the rider's foot".to_owned()
            }
            Struck::Foot(_) => "the rider's other foot".to_owned(),
            Struck::Footrest(n) | Struck::Part(n) | Struck::Wheel(n) | Struck::Caster(n) => format!("`{n}`"),
        };
        if hit.swivel.is_none() && !foot && !matches!(hit.what, Struck::Caster(_)) {
            return self.crown(hit, &other);
        }
        let verb = if hit.gap < 0.0 { "swings onto" } else { "swings too near to" };
        let said = Diagnostic::new(code, format!("`{}` {verb} {other}", hit.caster));
        let said = if hit.gap < 0.0 { said } else { said.severity(Severity::Warning) };
        let size = if hit.gap < 0.0 {
            format!("{} inside it", self.length(-hit.gap))
        } else {
            format!("{} from it, {} wanted", self.length(hit.gap), self.length(hit.limit))
        };
        let said = self.placed(said, hit.origin, format!("{size}, {}", swivelled(hit.swivel, hit.side)));
        let said = match hit.what {
            Struck::Foot(_) => said,
            Struck::Footrest(n) | Struck::Part(n) => self.owned(said, n),
            Struck::Wheel(n) | Struck::Caster(n) => self.wheel_origin(said, n),
        };
        let why = match (foot, hit.numb) {
            (true, true) => "the foot feels little: it is crushed before anybody notices",
            (true, false) => "a heel that slips back is caught under the caster",
            _ if hit.limit == 0.0 => "it lies above the fork, and wheel or fork leg runs into it",
            _ => "the caster jams there, and the chair stops with a jerk or will not turn",
        };
        if foot && self.design.rider.get("hip_width").is_none() {
            return said
                .severity(Severity::CannotTell)
                .note("nobody measured hip_width: the foot is looked at everywhere that it may stand, and this is the worst place")
                .help(format!("measure the hips and add hip_width to the rider block; else {}", self.mending(hit, foot)));
        }
        said.note(why).help(self.mending(hit, foot))
    }

    /// The crown's size is taken from the fork's width, so that only a measurement tells.
    fn crown(&self, hit: &Hit<'_>, other: &str) -> Diagnostic {
        let headline = format!("nobody can tell whether the fork of `{}` turns clear of {other}", hit.caster);
        let said = Diagnostic::new("caster-hits", headline).severity(Severity::CannotTell);
        let said =
            self.placed(said, hit.origin, format!("its crown would be {} inside it", self.length(-hit.gap)));
        let said = match hit.what {
            Struck::Footrest(n) | Struck::Part(n) => self.owned(said, n),
            Struck::Wheel(n) | Struck::Caster(n) => self.wheel_origin(said, n),
            Struck::Foot(_) => said,
        };
        said.note("the crown, between stem and wheel, is taken as round and as wide as the fork").help(format!(
            "measure the crown and give fork_width, or put a spacer on the stem; else {}",
            self.mending(hit, false)
        ))
    }

    fn mending(&self, hit: &Hit<'_>, foot: bool) -> String {
        let [caster, feet] = hit.shifts;
        let both = matches!(hit.what, Struck::Caster(_));
        let thing = if both { "both casters" } else { "the caster" };
        let caster = caster.map(|s| format!("move {thing} {} {}", self.length(s.by), way(s.way)));
        let rest = if foot { "the feet" } else { "the foot support" };
        let feet = feet.map(|s| format!("{rest} {} {}", self.length(s.by), way(s.way)));
        let strap = if foot { "; a strap behind the heels keeps them there" } else { "" };
        match (caster, feet) {
            (Some(c), Some(f)) => format!("{c}, or {f}{strap}"),
            (Some(c), None) => format!("{c}{strap}"),
            (None, Some(f)) => format!("move {f}{strap}"),
            (None, None) => {
                "no shift of up to 80 mm mends it: take a smaller caster, or one with less trail".to_owned()
            }
        }
    }

    fn wheel_origin(&self, said: Diagnostic, name: &str) -> Diagnostic {
        let wheels = self.design.wheels.iter().map(|w| (&w.name, w.origin));
        let casters = self.design.casters.iter().map(|c| (&c.name, c.origin));
        match wheels.chain(casters).find(|(n, _)| *n == name) {
            Some((_, origin)) => self.related(said, origin, "this one"),
            None => said,
        }
    }

    fn tyre_rubs(
        &self,
        (wheel, origin): (&str, Origin),
        body: &str,
        drawn: f64,
        flex: f64,
        limit: f64,
    ) -> Diagnostic {
        let left = drawn - flex;
        let headline = if left < 0.0 {
            format!("the tyre of `{wheel}` rubs on `{body}`")
        } else {
            format!("the tyre of `{wheel}` runs close to `{body}`")
        };
        let said = Diagnostic::new("tyre-rubs", headline);
        let said = if left < 0.0 { said } else { said.severity(Severity::Warning) };
        let label = if drawn < 0.0 {
            format!("{} inside it as drawn", self.length(-drawn))
        } else {
            format!("{} between them as drawn", self.length(drawn))
        };
        let said = self.placed(said, origin, label);
        self.owned(said, body)
            .note(format!(
                "a rim that bends and half a degree of camber error take {}; {} should be left for fingers and mud",
                self.length(flex),
                self.length(limit)
            ))
            .help(format!("move the wheel {} outward, or the part inward", self.length(whole(limit - left))))
    }

    fn wheel_blocked(
        &self,
        (wheel, origin): (&str, Origin),
        (body, is_wheel): (&str, bool),
        (depth, out): (f64, f64),
    ) -> Diagnostic {
        let headline = if is_wheel {
            format!("`{wheel}` and `{body}` stand in each other")
        } else {
            format!("`{body}` stands inside `{wheel}`")
        };
        let said = Diagnostic::new("wheel-blocked", headline);
        let room = if is_wheel { "into it" } else { "into the room between its rim and the faces of its hub" };
        let said = self.placed(said, origin, format!("{} {room}", self.length(depth)));
        let said = if is_wheel { self.wheel_origin(said, body) } else { self.owned(said, body) };
        said.note("spokes and hub turn there: drawn so, the wheel does not turn")
            .help(format!("move one of them {} or more along the axle", self.length(whole(out))))
    }

    fn finger_gap(&self, one: &str, other: &str, gap: f64, band: (f64, f64), moves: bool) -> Diagnostic {
        let headline = if moves {
            format!("a child's finger is caught between `{one}` and `{other}`")
        } else {
            format!("a child's finger gets stuck between `{one}` and `{other}`")
        };
        let mut said = Diagnostic::new("finger-gap", headline);
        said.about.extend([one, other].into_iter().flat_map(|name| self.called(name)));
        let label = format!("{} between them", self.length(gap));
        let said = self.at_both(said, (one, other), label);
        let (low, high) = (self.length(band.0), self.length(band.1));
        let note = if moves {
            format!("one of them moves: a gap that closes through {high} to {low} shears or squeezes a finger")
        } else {
            format!("a small finger enters an opening of {low} to {high} and does not come out")
        };
        // what moves comes as near as the least gap from further away: closing it only makes it shear
        let close = if moves { String::new() } else { format!(", close it below {low}") };
        said.note(note).help(format!("open the gap to {high} or more{close}, or cover it"))
    }

    /// Where a wheel, a caster or anything else that has a shape is written.
    pub(crate) fn part_origin(&self, name: &str) -> Option<Origin> {
        let wheels = self.design.wheels.iter().map(|w| (&w.name, w.origin));
        let casters = self.design.casters.iter().map(|c| (&c.name, c.origin));
        wheels.chain(casters).find(|(n, _)| *n == name).map(|(_, o)| o).or_else(|| self.owner(name))
    }

    fn stand_off(&self, wheel: &str, origin: Origin, gap: f64, band: (f64, f64)) -> Diagnostic {
        let near = gap < band.0;
        let what = if near { "too near to" } else { "too far from" };
        let said = Diagnostic::new("thumb-room", format!("the push rim of `{wheel}` stands {what} its tyre"));
        let note = if near {
            "the fingers find no hold behind the rim, and rub on the tyre"
        } else {
            "the thumb gets in between, down to the spokes"
        };
        let band = format!("{} to {}", self.length(band.0), self.length(band.1));
        self.placed(said, origin, format!("{} between them, {band} wanted", self.length(gap)))
            .note(note)
            .help("change the spacers of the push rim, and measure rim_standoff again")
    }

    fn thumb_trap(&self, (brake, origin): (&str, Origin), wheel: &str, gap: f64, free: f64) -> Diagnostic {
        let headline = if gap < 0.0 {
            format!("`{brake}` stands in the push rim of `{wheel}`")
        } else {
            format!("a thumb is caught between `{brake}` and the push rim of `{wheel}`")
        };
        let said = Diagnostic::new("thumb-room", headline);
        let label = if gap < 0.0 {
            format!("{} inside the rim's ring", self.length(-gap))
        } else {
            format!("{} between them", self.length(gap))
        };
        let said = self.placed(said, origin, label).note(
            "at full push the thumb runs along the rim into the brake, the harder the nearer it stands; its lever may come \
             nearer still: move it by hand and look",
        );
        let said = self.wheel_origin(said, wheel);
        said.help(format!(
            "move the brake {} away from the rim, so that the thumb passes it",
            self.length(whole(free - gap))
        ))
    }

    fn overloaded(
        &self,
        (wheel, origin): (&str, Origin),
        caster: bool,
        (load, shock): (f64, f64),
        rated: Option<f64>,
    ) -> Diagnostic {
        let (kind, weak) =
            if caster { ("caster", "wheel, fork and stem") } else { ("wheel", "spokes and hub") };
        let mass = |kg: f64| self.display.text(Quantity::from_si(kg, Dimension::MASS));
        let knock = mass(load * shock);
        match rated {
            Some(rated) if rated < load => {
                let said =
                    Diagnostic::new("wheel-overloaded", format!("`{wheel}` carries more than it is rated for"));
                self.placed(said, origin, format!("{} on it, rated for {}", mass(load), mass(rated)))
                    .note(format!("{weak} fail under a load that never lets go"))
                    .help(format!(
                        "take a stronger {kind}; look whether its rating is for one {kind} or for the pair"
                    ))
            }
            Some(rated) => {
                let headline = format!("nobody can tell whether `{wheel}` bears its shocks");
                let said = Diagnostic::new("wheel-overloaded", headline).severity(Severity::CannotTell);
                let label =
                    format!("{} standing, about {knock} in a shock, rated for {}", mass(load), mass(rated));
                self.placed(said, origin, label)
                    .note(format!(
                        "a shock makes about {shock:.0} times the load of it (common practice, no source)"
                    ))
                    .help(format!(
                        "ask the maker whether the rating allows for shocks, or take a stronger {kind}"
                    ))
            }
            None => {
                let headline = format!("nobody says what load `{wheel}` is rated for");
                let said = Diagnostic::new("wheel-overloaded", headline).severity(Severity::CannotTell);
                self.placed(said, origin, format!("{} on it, about {knock} in a shock", mass(load)))
                    .note(format!("{weak} fail under too much load; a rating may be meant for one {kind} or for a pair"))
                    .help("ask the maker and add load_rating = …, rating_basis = each or pair to the part; else test it with sandbags")
            }
        }
    }

    fn coast_test(&self, caster: &str, origin: Origin, doubts: &[Doubt], tried: Option<f64>) -> Diagnostic {
        let said = Diagnostic::new("coast-test", format!("only a ride can tell whether `{caster}` flutters"));
        let known = |d: &&Doubt| {
            !matches!(d, Doubt::PlayUnknown | Doubt::SpeedUnknown | Doubt::MassUnknown | Doubt::Leans(_))
        };
        // a stem that leans so far that it matters by itself is warned of in its own finding
        let said = if doubts.iter().any(|d| known(&d)) { said.severity(Severity::Warning) } else { said };
        let words: Vec<String> = doubts.iter().map(|d| self.doubt(*d)).collect();
        let said = self.placed(said, origin, words.join("; "))
            .note("a caster that flutters brakes the chair and can throw the rider forward; no formula tells for one made by hand");
        match tried {
            // of a chair that passed nothing else is open
            Some(tried) if doubts == [Doubt::SpeedUnknown] => said.help(format!(
                "the built chair ran quietly at {tried:.1} m/s: say how fast it goes, conditions {{ speed = … }}, up to that"
            )),
            Some(tried) => said.help(format!(
                "the built chair ran quietly at {tried:.1} m/s and no faster: try it as fast as it is meant to go, first with a load \
                 and nobody in it, and note flutter_speed"
            )),
            None => said.help(
                "let the chair coast down a slope, first with a load and nobody in it, then as fast as it is meant to go, and write \
                 down what came of it: as_built { flutter_test = …, flutter_speed = … }",
            ),
        }
    }

    fn doubt(&self, doubt: Doubt) -> String {
        match doubt {
            Doubt::Ratio(r) => format!("trail is {r:.2} of the wheel's radius, 0.5 to 0.9 is usual"),
            Doubt::Heavy { mass, most } => {
                let kg = |si: f64| self.display.text(Quantity::from_si(si, Dimension::MASS));
                format!("wheel and fork weigh {}, up to {} is usual for their size", kg(mass), kg(most))
            }
            Doubt::MassUnknown => "nobody says what wheel and fork weigh".to_owned(),
            Doubt::Leans(l) => {
                format!("the stem leans {} with the rider in the seat, up to 1 degree is usual", self.angle(l))
            }
            Doubt::Play(p) => format!("the stem has {} of play", self.angle(p)),
            Doubt::PlayUnknown => "the stem's play was not measured".to_owned(),
            Doubt::Speed(v) => format!("the chair is meant for {v:.1} m/s"),
            Doubt::SpeedUnknown => "nobody says how fast the chair goes".to_owned(),
        }
    }
}

/// Up to whole millimetres; gaps are known within a tenth.
fn whole(metres: f64) -> f64 {
    (metres * 1e3 - 0.1).ceil() / 1e3
}

fn way(way: Way) -> &'static str {
    match way {
        Way::Forward => "forward",
        Way::Back => "back",
        Way::Outward => "outward",
        Way::Inward => "inward",
        Way::Up => "up",
    }
}

/// A swivel in words, alike for both sides.
fn swivelled(angle: Option<f64>, side: Option<Side>) -> String {
    let Some(angle) = angle else { return "at every swivel".to_owned() };
    let degrees = angle.to_degrees().round();
    let (plus, minus) = if side.is_some() { ("inward", "outward") } else { ("right", "left") };
    match degrees.abs() {
        d if d < 0.5 => "trailing".to_owned(),
        d if d > 179.5 => "turned right round to the front".to_owned(),
        d => format!("swivelled {d:.0} deg {}", if degrees > 0.0 { plus } else { minus }),
    }
}
