//! What the strength check found, in a builder's words.

use crate::sides::folded;
use crate::words::Words;
use crate::words_reasons::reason_words;
use chairwright_design::{Design, Origin};
use chairwright_diagnostics::Diagnostic;
use chairwright_quantity::Display;
use chairwright_strength::{
    CaseKind, End, Foam, Forbidden, Incompatible, Loose, Mode, Never, Refused, Stuff, Swing, Swung, Unknown,
    Verdict, Wetness,
};

/// A load case in words that end a sentence: "when the rider sits".
#[must_use]
pub fn case_words(design: &Design, kind: &CaseKind) -> String {
    let mm = |m: f64| format!("{:.0} mm", m * 1e3);
    match kind {
        CaseKind::Seated => "while the rider sits, for years".to_owned(),
        CaseKind::Bumps => "over ordinary bumps, again and again".to_owned(),
        CaseKind::LeaningBack => "when the rider throws the trunk against the back".to_owned(),
        CaseKind::OneWheelOff(w) => format!("with {w} over a hole"),
        CaseKind::Diagonal(a, b) => format!("on {a} and {b} alone"),
        CaseKind::CasterStrike { caster: Some(c), edge, .. } => {
            format!("when {c} runs into an edge of {}", mm(*edge))
        }
        CaseKind::CasterStrike { caster: None, edge, .. } => {
            format!("when the casters run into an edge of {}", mm(*edge))
        }
        CaseKind::Drop(h) => format!("in a drop of {}", mm(*h)),
        CaseKind::Landing(End::Front, h) => {
            format!("when it rolls forward off a kerb of {} onto its front wheels", mm(*h))
        }
        CaseKind::Landing(End::Rear, h) => {
            format!("when it rolls backward off a kerb of {} onto its rear wheels", mm(*h))
        }
        CaseKind::Transfer(side) => format!("when the rider moves over the {side} front corner of the seat"),
        CaseKind::Arm(bar) => format!("when the rider pushes up from {bar}"),
        CaseKind::ArmEnd(bar, end) => format!("when the rider pushes up from the {end} end of {bar}"),
        CaseKind::Standing => "when somebody stands on the foot support".to_owned(),
        CaseKind::Lift(part) => format!("when the chair is lifted by {part} with the rider in it"),
        CaseKind::Pushing => "when a helper pushes".to_owned(),
        CaseKind::TippedBack => "when the chair has gone over backward onto its anti-tip devices".to_owned(),
        CaseKind::Declared(k) => format!("under the load {}", design.loads[*k].name),
        CaseKind::Swung(way, kind) => {
            format!("{}, casters turned {}", case_words(design, kind), way_word(*way))
        }
        CaseKind::Bare(kind) => format!("{}, {}", case_words(design, kind), bare(design)),
    }
}

/// A load case in few words, for tables.
#[must_use]
pub fn case_name(design: &Design, kind: &CaseKind) -> String {
    match kind {
        CaseKind::Seated => "seated".to_owned(),
        CaseKind::Bumps => "bumps".to_owned(),
        CaseKind::LeaningBack => "thrown against the back".to_owned(),
        CaseKind::OneWheelOff(w) => format!("{w} over a hole"),
        CaseKind::Diagonal(a, b) => format!("crosswise on {a} and {b}"),
        CaseKind::CasterStrike { caster: Some(c), edge, .. } => format!("{c} at a {:.0} mm edge", edge * 1e3),
        CaseKind::CasterStrike { caster: None, edge, .. } => format!("casters at a {:.0} mm edge", edge * 1e3),
        CaseKind::Drop(h) => format!("drop of {:.0} mm", h * 1e3),
        CaseKind::Landing(End::Front, h) => format!("forward off a kerb of {:.0} mm", h * 1e3),
        CaseKind::Landing(End::Rear, h) => format!("backward off a kerb of {:.0} mm", h * 1e3),
        CaseKind::Transfer(side) => format!("transfer over {side} front corner"),
        CaseKind::Arm(bar) => format!("push up from {bar}"),
        CaseKind::ArmEnd(bar, end) => format!("push up from the {end} end of {bar}"),
        CaseKind::Standing => "standing on the foot support".to_owned(),
        CaseKind::Lift(part) => format!("lifted by {part}"),
        CaseKind::Pushing => "pushed by a helper".to_owned(),
        CaseKind::TippedBack => "back on the anti-tip devices".to_owned(),
        CaseKind::Declared(k) => format!("load {}", design.loads[*k].name),
        CaseKind::Swung(way, kind) => format!("{}, casters {}", case_name(design, kind), way_word(*way)),
        CaseKind::Bare(kind) => format!("{}, {}", case_name(design, kind), bare(design)),
    }
}

/// How casters are turned that do not trail.
fn way_word(way: Swung) -> &'static str {
    match way {
        Swung::Ahead => "ahead",
        Swung::Outward => "outward",
    }
}

/// Without what rides along, by name.
fn bare(design: &Design) -> String {
    let rides = design.carried.iter().map(|c| c.name.as_str());
    let names: Vec<&str> = rides.chain(chairwright_strength::bags(design)).collect();
    format!("without {}", names.join(" and "))
}

/// A verdict in words.
#[must_use]
pub fn verdict_words(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Pass => "holds",
        Verdict::CannotTell => "cannot tell",
        Verdict::Fail => "FAILS",
    }
}

/// What decides, in words.
#[must_use]
pub fn mode_words(mode: Mode) -> &'static str {
    match mode {
        Mode::Bending => "bending, pull or push",
        Mode::Shear => "shear and twist",
        Mode::Hole => "what the hole leaves",
        Mode::Sleeve => "its sleeve",
        Mode::Cement => "cement in the socket",
        Mode::SocketBending => "pipe pressing in its socket",
        Mode::Bearing => "bolts pressing on their holes",
        Mode::Head => "what is under the bolts' heads and nuts",
        Mode::Screws => "screws or bolts in wood",
        Mode::Glue => "glue line",
        Mode::Plates => "plates of the gusset",
        Mode::Buckling => "giving way sideways",
    }
}

/// Why something could not be judged, in words.
#[must_use]
pub fn unknown_words(why: &Unknown, display: Display) -> String {
    match why {
        Unknown::Strength(m) => format!("the catalogue has no strength of {m}"),
        Unknown::Allowance(m) => format!("nothing says what share of the strength of {m} may be used"),
        Unknown::Kind(m, l) => format!("nothing is known of {m} under a load that is {}", l.word()),
        Unknown::Bench(m) => format!("the bench test of {m} makes no test"),
        Unknown::Softer(m) => {
            format!(
                "the bench test bent {m} further than the weakest board of its grade or species bends: take another board"
            )
        }
        Unknown::Shear(m) => format!("nothing says what {m} bears in shear"),
        Unknown::Stiffness(m) => {
            format!("nothing says how stiff {m} is, so that its share of the load is a guess")
        }
        Unknown::Wet(m) => format!("nothing says what water leaves of the strength of {m} at this temperature"),
        Unknown::Cold(m) => format!("{m} is brittle in the cold, and nothing says how cold it gets"),
        Unknown::Hole => "a hole is nearly as wide as what it goes through".to_owned(),
        Unknown::Slot => "a slot longer than it is wide there opens it against twist, and leaves it softer than it is reckoned: no \
            published rule tells what it then bears"
            .to_owned(),
        Unknown::Row => "holes of one row with less than two diameters between them act as a slot, longer than it is wide there: what is between \
            them bends like the rungs of a ladder, and no published rule tells what it then bears"
            .to_owned(),
        Unknown::Edgewise => {
            "on edge, and over twice as deep as it is thick, it may turn over sideways before it breaks"
                .to_owned()
        }
        Unknown::Corners(m) => format!("what holds the corners of a box of {m} is not known"),
        Unknown::Cloth(stock) => format!("nothing here knows what \"{stock}\" bears, nor its seams and ends"),
        Unknown::Nobody => "no check here judges a part like this".to_owned(),
        Unknown::TooHot(m) => format!("{m} is hotter here than anything that is known of it"),
        Unknown::Brittle(m) => format!("{m} is brittle in this cold: a blow may shatter it"),
        Unknown::Joint(what) if what.is_empty() => "nothing is said of what holds it".to_owned(),
        Unknown::Joint(what) => format!("what {what} can bear here is not known"),
        Unknown::Held { by, why } if by.is_empty() => {
            format!("this joint cannot be judged: {}", reason_words(why, display))
        }
        Unknown::Held { by, why } => {
            format!("what {by} can bear here is not known: {}", reason_words(why, display))
        }
    }
}

/// Why something could not be computed, in words.
#[must_use]
pub fn refused_words(r: &Refused) -> String {
    match (&r.moves[..], r.words.as_str()) {
        ([], "") => "something that has no name can turn on its own".to_owned(),
        ([], words) => words.to_owned(),
        (names, _) => {
            let names = folded(names.iter().map(String::as_str));
            format!("nothing keeps {} from moving", names.join(", "))
        }
    }
}

/// A use in percent, rounded up: never toward unsafe.
#[must_use]
pub fn percent(used: f64) -> String {
    if used.is_nan() {
        "unknown".to_owned()
    } else if used > 99.99 {
        ">9999 %".to_owned()
    } else if used > 1.0 && used <= 1.01 {
        // just beyond is not a whole percent beyond
        format!("{:.1} %", (used * 1000.0 - 1e-9).ceil() / 10.0)
    } else {
        format!("{:.0} %", (used * 100.0 - 1e-9).ceil().max(0.0) + 0.0)
    }
}

impl Words<'_> {
    pub(crate) fn loose(&self, loose: &Loose) -> Option<Diagnostic> {
        let said = |headline: String| Diagnostic::new("mechanism", headline);
        let d = self.design;
        Some(match loose {
            Loose::Member(name) => {
                let origin = self.named(name)?;
                self.placed(
                    said(format!("nothing holds `{name}`")),
                    origin,
                    "not joined to the rest of the chair",
                )
                .help("close its joints, or fasten it to what it lies on")
            }
            Loose::OpenJoint(_) => return None,
            Loose::Unfastened(joint) => {
                let c = d.closings.iter().find(|c| c.joint == *joint)?;
                let label = match &c.glue {
                    Some(glue) => {
                        format!("nobody knows that \"{glue}\" holds anything here: it counts as nothing")
                    }
                    None => "no screw, bolt or glue".to_owned(),
                };
                self.placed(
                    said(format!("nothing fastens the joint `{}`", d.joints[*joint].name)),
                    c.origin,
                    label,
                )
                .help("say what holds it: using \"screw 5 x 60\" times 4, or glued \"…\"")
            }
            Loose::Wheel(name) => {
                let origin = self.named(name)?;
                self.placed(
                    said(format!("nothing carries `{name}`")),
                    origin,
                    "no member or box is near its axle or stem",
                )
                .help("bring a member or a box to it, or fasten it to one")
            }
            Loose::Support(k) => {
                let s = &d.supports[*k];
                self.placed(
                    said(format!("nothing carries the {}", s.name)),
                    s.origin,
                    "no member or box meets it",
                )
                .help("lower it onto its rails, or fasten it to what carries it")
            }
            Loose::Tips { support, on } => {
                let s = &d.supports[*support];
                self.placed(
                    said(format!("the {} tips about `{on}`", s.name)),
                    s.origin,
                    "lies on one line and is not fastened",
                )
                .help(format!("fasten it to `{on}`, and give its other edge something to lie on"))
            }
            Loose::Panel(k) => {
                let p = &d.panels[*k];
                self.placed(
                    said(format!("nothing holds `{}`", p.name)),
                    p.origin,
                    "no fastening of the text reaches a bar",
                )
                .help("fasten it to the bars it lies on, or leave it out")
            }
            Loose::Bands { support, missing, of } => {
                let s = &d.supports[*support];
                self.placed(
                    said(format!("{missing} of {of} bands of the {} have no rail", s.name)),
                    s.origin,
                    "no member or box runs beside its edge there",
                )
                .help("lengthen the rails or posts along it, or take fewer bands")
            }
            Loose::Apart { fastening, gap } => {
                let f = &d.fastenings[*fastening];
                let headline = format!("`{}` does not reach `{}`", f.what, f.to);
                self.placed(said(headline), f.origin, format!("{} between them", self.length(*gap)))
                    .help("bring them together, or put a packing piece between and draw it")
            }
        })
    }

    pub(crate) fn named(&self, name: &str) -> Option<Origin> {
        let d = self.design;
        let members = d.members.values().map(|m| (&m.name, m.origin));
        let boxes = d.boxes.iter().map(|b| (&b.name, b.origin));
        let wheels = d.wheels.iter().map(|w| (&w.name, w.origin));
        let casters = d.casters.iter().map(|c| (&c.name, c.origin));
        members.chain(boxes).chain(wheels).chain(casters).find(|(n, _)| *n == name).map(|(_, o)| o)
    }

    pub(crate) fn swing(&self, w: &Swing) -> Diagnostic {
        let shown: Vec<String> = w.parts.iter().take(4).map(|p| format!("`{p}`")).collect();
        let more = if w.parts.len() > 4 { " and more" } else { "" };
        let parts = format!("{}{more}", shown.join(", "));
        let headline = match w.about {
            Some(joint) => format!("{parts} can swing about `{}`", self.design.joints[joint].name),
            None => format!("{parts} can shift"),
        };
        let said = Diagnostic::new("mechanism", headline);
        let said = match w.origin {
            Some(origin) => self.placed(said, origin, "moves without anything resisting it"),
            None => said,
        };
        said.help("add a bar, a gusset or a second fastener that stops this movement")
    }

    pub(crate) fn forbidden(&self, f: &Forbidden) -> Diagnostic {
        match f {
            Forbidden::EndGrain { origin, member } => {
                let said = Diagnostic::new(
                    "forbidden-path",
                    format!("screws into the end grain of `{member}` hold this joint"),
                );
                self.placed(said, *origin, "along the fibres a thread holds little and lets go at once")
                    .note("screws must not be loaded in withdrawal from end grain (wood design rules)")
                    .help("lap the boards, put gussets on both faces, or screw into a cleat beside it")
            }
            Forbidden::Never { origin, name, never } => {
                let [headline, label, note, help] = never_words(*never);
                let said = Diagnostic::new("forbidden-path", headline.replace("{}", name));
                self.placed(said, *origin, label).note(note).help(help)
            }
            Forbidden::Sprung { origin, name, travel, bent } => {
                let headline = format!("`{name}` was closed by bending the frame {}", self.length(*travel));
                let said = Diagnostic::new("forbidden-path", headline);
                let label = match bent {
                    Some((member, force, stress)) => match self.breaks_at(member).filter(|at| stress >= at) {
                        Some(at) => format!(
                            "`{member}` breaks before it is bent so far: that would be {:.0} MPa, and it bears {:.0} MPa",
                            stress / 1e6,
                            at / 1e6
                        ),
                        None => format!(
                            "{:.0} N bend `{member}` aside, and {:.1} MPa stay in it",
                            force.ceil(),
                            stress / 1e6
                        ),
                    },
                    None => "nobody can tell what stays in it: its stiffness is not known".to_owned(),
                };
                self.placed(said, *origin, label)
                    .note("3EI x travel / length^3, held at its next joint; the stress stays for the life of the frame, beside fresh solvent, and adds to every load")
                    .help("cut the piece to its length, or close the loop with all of its last joints pushed on together, with a slide coupling without a stop, or with a bolted joint")
            }
            Forbidden::Cellular { origin, stock, by } => {
                let said = Diagnostic::new("forbidden-path", format!("`{stock}` has a core of foam"));
                let label = match by {
                    Foam::Material => "not for a frame".to_owned(),
                    Foam::Print => "its name or standard says so: not for a frame".to_owned(),
                    Foam::Note => "the note beside it says so: not for a frame".to_owned(),
                    Foam::Light(density) => {
                        format!("{density:.0} kg/m3 is too light for a solid wall: not for a frame")
                    }
                };
                self.placed(said, *origin, label)
                    .note(
                        "it has the sizes of pressure pipe and a third less stiffness, and it crushes at bolts",
                    )
                    .help("buy solid wall pressure pipe: read the print line")
            }
        }
    }

    /// The published strength of what a member is of, Pa.
    fn breaks_at(&self, member: &str) -> Option<f64> {
        let member = self.design.members.values().find(|m| m.name == member)?;
        self.design.stocks[member.stock].material.strength
    }

    pub(crate) fn incompatible(&self, i: &Incompatible) -> Diagnostic {
        let (origin, headline, label, help) = match i {
            Incompatible::OnPlastic { origin, what, stuff, plastic } => {
                let (label, help) = on_plastic(*stuff);
                (*origin, format!("\"{what}\" cracks \"{plastic}\""), label.to_owned(), help)
            }
            Incompatible::Glue { origin, glue } => (
                *origin,
                format!("\"{glue}\" does not stand the water here"),
                "this glue creeps or lets go when it is wet".to_owned(),
                "use D4 at least, better epoxy or resorcinol",
            ),
            Incompatible::Metals { origin, one, other, wet } => (
                *origin,
                format!("`{one}` is eaten away where `{other}` touches it in {}", water(*wet)),
                "two metals, and water that joins them".to_owned(),
                "part them with plastic bushes and washers, or use one metal",
            ),
            Incompatible::Poisoned { origin, stock, part } => (
                *origin,
                format!("\"{stock}\" is poisoned, and the rider rests on it"),
                format!("its entry tells so, and the {} is cut from it", part.word()),
                UNTREATED,
            ),
            Incompatible::BeltInWater { origin, belt, wet } => (
                *origin,
                format!("\"{belt}\" ties the rider to a chair that goes into {}", bathing(*wet)),
                "a chair that a wave rolls over drowns whoever is tied to it".to_owned(),
                "no belt in water: take it off before, and have two helpers hold the rider; write it for the states on land alone",
            ),
        };
        let said = Diagnostic::new("incompatible", headline);
        self.placed(said, origin, label).help(help)
    }
}

/// What something does to rigid PVC, and what to take instead.
fn on_plastic(stuff: Stuff) -> (&'static str, &'static str) {
    match stuff {
        Stuff::ThreadLocker => (
            "what keeps it liquid cracks loaded plastic, often days later (from memory, not checked)",
            "use nuts with a nylon ring, or two nuts against each other",
        ),
        Stuff::OilPaint => (
            "the solvent of this paint goes into rigid PVC and leaves it brittle",
            "use water-based latex paint",
        ),
        _ => (
            "its plasticiser goes into loaded pipe",
            "use woven nylon or polyester, canvas, or tape without vinyl",
        ),
    }
}

/// What to take instead of poisoned wood.
pub(crate) const UNTREATED: &str =
    "take wood that was never treated, or only by heat: a pallet's stamp then says HT or KD, never MB";

/// What a chair goes into.
fn bathing(wet: Wetness) -> &'static str {
    if wet == Wetness::Salt { "salt water" } else { "water" }
}

pub(crate) fn water(wet: Wetness) -> &'static str {
    match wet {
        Wetness::None => "the dry",
        Wetness::Rain => "the rain",
        Wetness::Fresh => "water",
        Wetness::Salt => "salt water, sweat or urine",
    }
}

/// A refused load path: headline with the joint's name for `{}`, label, why, and what to do instead.
fn never_words(never: Never) -> [&'static str; 4] {
    match never {
        Never::UnsleevedBoltSustained => [
            "at `{}` bolts press on bare pipe under a load that stays",
            "no metal sleeve in the holes",
            "bare plastic walls creep under a bolt: the hole becomes a slot and the joint works loose (common practice)",
            "put a metal sleeve into each hole, as long as the pipe is wide, and name it beside the bolt (\"sleeve 12 x 34\", 42, 49 or 61); or let what is carried rest on the pipe, so that the bolts only keep it there",
        ],
        Never::SlipFittingByCementAlone => [
            "cement alone holds a pipe in a slip fitting at `{}`",
            "no stop, and no bolt through fitting and pipe",
            "a bore without a stop is a loose fit: the cement places the pipe and does not carry it (from memory, not checked)",
            "close it with a tee that cuts the pipe, or drill fitting and pipe for a bolt and test that joint",
        ],
        Never::EndGrainWithdrawal => [
            "screws would be pulled out of end grain at `{}`",
            "along the fibres a thread holds little and lets go at once",
            "screws must not be loaded in withdrawal from end grain (wood design rules)",
            "lap the boards, put gussets on both faces, or screw into a cleat beside it",
        ],
        Never::PanelEdgeWithdrawal => [
            "fasteners go into the edge of a sheet at `{}`",
            "between its plies",
            "a screw in the edge of a sheet splits its plies and pulls out (common practice)",
            "screw through the face of the sheet into a board, or put a cleat into the corner",
        ],
        Never::EndGrainButtGlue => [
            "glue on end grain holds the joint `{}`",
            "an end butted and glued",
            "a glued end-grain butt carries nothing that counts (from memory, not checked)",
            "lap the boards, or put gussets on both faces",
        ],
        Never::PvaSustainedTension => [
            "glue alone is pulled open for years at `{}`",
            "a pull that stays",
            "white glue creeps under a load that stays, until it lets go (from memory, not checked)",
            "put screws or bolts beside the glue, and turn the joint so that it is pressed together",
        ],
        Never::ThreadedAdapterBending => [
            "the thread at `{}` is bent",
            "a threaded fitting in bending",
            "a thread is a notch: threading halves what a pipe bears, and schedule 40 is not to be threaded at all (pressure-pipe tables)",
            "close it with a cemented fitting, and keep threads where nothing bends them",
        ],
        Never::HalfInserted => [
            "a pipe is less than half way in its socket at `{}`",
            "measured shorter than half of the socket's depth",
            "the tight part of a tapered socket is at its bottom: such a pipe holds by filled gaps alone (common practice)",
            "cut the joint out and make it again: push to the stop while the cement is wet, and mark the depth on the pipe before",
        ],
        _ => [
            "`{}` carries what it must never carry",
            "a load path that is refused",
            "refused whatever the numbers say",
            "find another way for this load",
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever could not be computed is said with the names of what moves, or with the solver's words.
    #[test]
    fn what_is_refused_is_named() {
        let said = |moves: &[&str], words: &str| {
            let moves = moves.iter().map(|m| (*m).to_owned()).collect();
            refused_words(&Refused { case: None, moves, words: words.to_owned() })
        };
        assert_eq!(
            said(&["left.rail", "right.rail", "bar"], ""),
            "nothing keeps rail (both sides), bar from moving"
        );
        assert_eq!(said(&[], "no digits left"), "no digits left");
        assert!(!said(&[], "").is_empty());
    }

    /// Uses are rounded up, and what has no bound is never told as a number.
    #[test]
    fn uses_are_never_rounded_toward_safe() {
        assert_eq!(percent(1.000_1), "100.1 %");
        assert_eq!(percent(1.02), "102 %");
        assert_eq!((percent(0.0), percent(1e-14)), ("0 %".to_owned(), "0 %".to_owned()));
        assert_eq!(percent(0.5), "50 %");
        assert_eq!((percent(f64::INFINITY), percent(1e9)), (">9999 %".to_owned(), ">9999 %".to_owned()));
        assert_eq!(percent(f64::NAN), "unknown");
    }
}
