//! What about strength cannot be told, in a builder's words.

use crate::words::Words;
use crate::words_loads::{first_few, joined, mm, nobody_words};
use crate::words_strength::{UNTREATED, case_words, water};
use chairwright_diagnostics::{Diagnostic, Severity};
use chairwright_strength::{Absent, Open, Strength, TieOf};

/// Standard gravity, m/s² (CGPM 1901).
const G: f64 = 9.806_65;

impl Words<'_> {
    /// What about the whole chair cannot be told.
    pub(crate) fn opened(&self, s: &Strength) -> Vec<Diagnostic> {
        // of wheels and a seat with nothing between the report alone says so: that is a sketch that has not come to its frame
        let sketch = |o: &&Open| matches!(o, Open::Nobody(Absent::Frame)) && self.design.panels.is_empty();
        s.open.iter().filter(|o| !sketch(o)).map(|o| self.opened_one(s, o)).collect()
    }

    fn opened_one(&self, s: &Strength, open: &Open) -> Diagnostic {
        let said = |headline: String| Diagnostic::new("strength-unknown", headline);
        let support = |k: usize| &self.design.supports[k];
        match open {
            Open::Edge { casters, edge, radius } => {
                let edge = self.length(*edge);
                let said = said(format!("what an edge of {edge} does to {} could not be computed", joined(casters)));
                let origin = self.design.known.iter().find(|k| k.name == "conditions.sill").map(|k| k.origin);
                let label = format!("no push lifts a caster of {} radius over it", self.length(*radius));
                let said = match origin {
                    Some(origin) => self.placed(said, origin, label),
                    None => said.note(label),
                };
                said.note("whoever rolls into it stops dead, and the frame takes all of the motion")
                    .help("never roll into it: go up backward or by a ramp; and look at stems and front joints after every knock")
            }
            Open::Nobody(absent) => {
                let (why, help) = nobody_words(*absent);
                said(format!("nothing was judged: {why}")).note("load cases are made from the rider on the seat").help(help)
            }
            Open::Drop => said("what a drop does could not be computed".to_owned())
                .note("the chair does not give way under its rider, so that a drop has no size")
                .help("drop the chair, loaded with sand, as its test sheet says"),
            Open::Flat(names, room) => said(format!("{} stands on its rim under the rider alone", joined(names)))
                .note(format!(
                    "its stiffness lets it in by more than {}, all the depth that it is taken to have: a tyre with air is as deep \
                     as wide, the rubber of a caster half as deep (common practice, no source)",
                    mm(*room)
                ))
                .note("what gives way in a drop or at an edge is then the chair alone")
                .help("look at the stiffness again: load the wheel with a known weight and measure how far it sinks"),
            Open::Rated { caster, index, case, load, rated } => {
                let (name, origin) = if *caster {
                    let c = &self.design.casters[*index];
                    (&c.name, c.origin)
                } else {
                    let w = &self.design.wheels[*index];
                    (&w.name, w.origin)
                };
                let kind = s.cases.get(*case).map(|c| &c.kind);
                let when = kind.map_or_else(String::new, |k| format!(" {}", case_words(self.design, k)));
                let headline = format!("nobody can tell whether `{name}` bears what it carries{when}");
                let said = Diagnostic::new("wheel-overloaded", headline).severity(Severity::CannotTell);
                let label = format!(
                    "{:.0} N on it, rated for {:.1} kg: {:.0} N",
                    load.ceil(),
                    rated,
                    (rated * G).floor()
                );
                self.placed(said, origin, label)
                    .note("nobody says what factor its maker keeps in hand")
                    .help("ask the maker whether the rating allows for it, take a stronger one, or test it with sandbags as the test sheet says")
            }
            Open::Stem { caster, case, moment, sound, diameter, breaks } => {
                let c = &self.design.casters[*caster];
                let kind = s.cases.get(*case).map(|c| &c.kind);
                let when = kind.map_or_else(String::new, |k| format!(" {}", case_words(self.design, k)));
                let said = if *breaks {
                    Diagnostic::new("overstressed", format!("the stem of `{}` breaks{when}", c.name))
                        .note("the strongest steel that bolts are of, class 12.9, does not bear it")
                } else {
                    said(format!("nobody can tell whether the stem of `{}` bears what bends it{when}", c.name))
                };
                let label = format!("a trail of {} bends it by {moment:.1} N m", self.length(c.trail));
                self.placed(said, c.origin, label)
                    .note(format!(
                        "{sound:.1} N m are sound for {} of the weakest steel that is sold, with a thread where it is bent; stems of casters \
                         break there after a season of kerbs",
                        self.length(*diameter)
                    ))
                    .help("ask the maker what steel the stem is of; take one whose thread ends inside its housing, or a thicker one; look for cracks every month")
            }
            Open::StemSize { caster, case, moment, sound: bears, breaks } => {
                let c = &self.design.casters[*caster];
                let kind = s.cases.get(*case).map(|c| &c.kind);
                let when = kind.map_or_else(String::new, |k| format!(" {}", case_words(self.design, k)));
                let most = format!("its stem is bent by {moment:.1} N m{when}");
                let known = match bears {
                    Some(d) => format!(
                        "one of {} or more bears that whatever its steel",
                        self.length((d * 1e3).ceil() / 1e3)
                    ),
                    None => "no stem that is sold surely bears that".to_owned(),
                };
                let said = said(format!("nobody says how thick the stem of \"{}\" is", c.part.name));
                self.placed(said, c.origin, most)
                    .note(format!("{known}; one thinner than {} breaks", self.length((breaks * 1e3).floor() / 1e3)))
                    .help("measure its thinnest place, at the root of the thread where it has one, and write stem_diameter = … in the part")
            }
            Open::Axle { wheel, case, lever, moment, sound, diameter, breaks } => {
                let w = &self.design.wheels[*wheel];
                let kind = s.cases.get(*case).map(|c| &c.kind);
                let when = kind.map_or_else(String::new, |k| format!(" {}", case_words(self.design, k)));
                let said = if *breaks {
                    Diagnostic::new("overstressed", format!("the axle of `{}` breaks{when}", w.name))
                        .note("the strongest steel that bolts are of, class 12.9, does not bear it")
                } else {
                    said(format!("nobody can tell whether the axle of `{}` bears what bends it{when}", w.name))
                };
                let label = format!(
                    "it stands out by {} to the middle of the wheel, and is bent by {moment:.1} N m",
                    self.length(*lever)
                );
                self.placed(said, w.origin, label)
                    .note(format!(
                        "{sound:.1} N m are sound for {} of the weakest steel that is sold, with a thread where it is bent; it is taken as \
                         held from one side",
                        self.length(*diameter)
                    ))
                    .help("move the wheel nearer to what holds its axle, or that outward; take a thicker axle, without a thread where it comes out, of a steel that its maker names; look for bent axles every month")
            }
            Open::AxleUntold { wheel, diameter, lever, most } => {
                let w = &self.design.wheels[*wheel];
                let said =
                    said(format!("nobody can tell whether the axle of `{}` bears what bends it", w.name));
                let (label, help) = match (diameter, lever) {
                    (false, Some(lever)) => (
                        format!(
                            "up to {:.0} N act {} outside of what holds it, and nobody says how thick it is",
                            most.ceil(),
                            self.length(*lever)
                        ),
                        "measure the axle where it comes out of what holds it, and write axle_diameter in the part of the wheel",
                    ),
                    (true, None) => (
                        format!("up to {:.0} N act on it, and it is not drawn how far it stands out", most.ceil()),
                        "draw what holds the axle inboard of the wheel: a box or a member that ends there or that the axle crosses",
                    ),
                    _ => (
                        format!("up to {:.0} N act on it", most.ceil()),
                        "measure the axle where it comes out of what holds it, write axle_diameter in the part of the wheel, and draw what holds it inboard of the wheel",
                    ),
                };
                self.placed(said, w.origin, label).help(help)
            }
            Open::Unheld { item, bar, air } => {
                let item = &self.design.items[*item];
                let said = said(format!("nobody says what holds `{}`", item.name));
                let said = self.placed(said, item.origin, format!("{} of air to `{bar}`", self.length(*air)));
                let fasten = format!("fasten {} to what it hangs on", item.name);
                if item.kind == chairwright_design::ItemKind::AntiTip {
                    return said
                        .note("it is looked at as if it were part of that; hanging on nothing it keeps nobody from going over")
                        .help(format!("{fasten}, and lean the chair back on it, loaded with sand, before anybody sits in it"));
                }
                said.note("the chair is lifted by it as if it were part of that; what holds it there is not judged")
                    .help(format!("{fasten}, and try it with the whole chair and one and a half times the rider"))
            }
            Open::Pressed(all) => {
                let d = self.design;
                let each = |(of, bar): &(TieOf, String)| match of {
                    TieOf::Caster(k) => (d.casters[*k].origin, format!("stem of {} in {bar}", d.casters[*k].name)),
                    TieOf::Wheel(k) => (d.wheels[*k].origin, format!("axle of {} in {bar}", d.wheels[*k].name)),
                    _ => (chairwright_design::Origin(0), bar.clone()),
                };
                let told: Vec<(chairwright_design::Origin, String)> = all.iter().map(each).collect();
                let names: Vec<&str> = told.iter().map(|t| t.1.as_str()).collect();
                let said = said("nobody can tell how hard axles and stems press into bare wood or plastic".to_owned());
                let said = match told.first() {
                    Some((origin, _)) => self.placed(said, *origin, "the text puts no bush or metal sleeve here"),
                    None => said,
                };
                said.note(format!("without a bush: {}", names.join(", ")))
                    .help("put a metal bush or sleeve through the hole, and fasten it there: fasten … to … using \"sleeve …\"; look for holes that have grown wider every month")
            }
            Open::Leaves { case, supports } => {
                let when = case.and_then(|k| s.cases.get(k)).map_or_else(
                    || "when the rider sits".to_owned(),
                    |c| case_words(self.design, &c.kind),
                );
                let names: Vec<String> = supports.iter().map(|k| support(*k).name.clone()).collect();
                let said = said(format!("{} comes off what it lies on {when}", joined(&names)));
                let said = match supports.first() {
                    Some(k) => self.placed(said, support(*k).origin, "lies there and is not fastened"),
                    None => said,
                };
                said.help("fasten it to what it lies on")
            }
            Open::Unmarked { origin, stock, said: marks } => {
                let said = said(match marks.as_deref().filter(|m| !m.trim().is_empty()) {
                    None => format!("nobody says what standard \"{stock}\" is made to"),
                    Some(marks) => format!("\"{marks}\" does not say that the wall of \"{stock}\" is solid"),
                });
                let said = self.placed(said, *origin, "it may have a core of foam, which looks the same from outside");
                said.note("\"schedule 40\" names the sizes alone; a pipe with a core of foam is a third less stiff and crushes at bolts")
                    .note("standards of pipe with a solid wall: ASTM D1785, EN ISO 1452, IS 4985, BS 3505 or AS/NZS 1477, among others")
                    .help("read the print line on the pipe and write its standard as standard = \"…\" of the stock; look at a cut end for foam")
            }
            Open::Salvaged { origin, stock, poisoned: true } => {
                let said = said(format!("nobody can tell whether poisoned wood does harm in the frame: \"{stock}\""));
                self.placed(said, *origin, "its entry tells what it was treated with")
                    .note("hands, clothes and rain carry off what is in it, and sawing it makes dust of it")
                    .help(UNTREATED)
            }
            Open::Salvaged { origin, stock, poisoned: false } => {
                let said = said(format!("nobody can tell what was done to \"{stock}\""));
                self.placed(said, *origin, "second-hand or treated wood, and no stamp that says by heat alone")
                    .note("a pallet stamped MB was gassed with methyl bromide; one without a stamp may be anything, and may have carried anything")
                    .help("look for the stamp and write it: standard = \"ISPM 15 HT\" or KD; without one use it for nothing that is touched")
            }
            Open::Rusts { origin, names } => {
                let said = said("nobody can tell how long bare steel lasts in salt water".to_owned());
                self.placed(said, *origin, format!("of steel, or not told of what: {}", first_few(names)))
                    .note("salt eats plain and zinc-plated steel in months, first inside of holes and tubes where nobody looks")
                    .help("take stainless steel (A4, 316) and say so in its name, rinse with fresh water after each use, and look at it every week")
            }
            Open::Paint { origin, paint, plastic } => {
                let said = said(format!("nobody says what \"{paint}\" is thinned with"));
                self.placed(said, *origin, format!("\"{plastic}\" is loaded, and may be painted with it"))
                    .note("the solvents of oil paint, lacquers and spray cans go into rigid PVC and leave it brittle")
                    .help("paint plastic with water-based paint alone, and say so in its name: \"water-based paint\"")
            }
            Open::Stuff { origin, what, plastic } => {
                let said = said(format!("nobody says whether there is vinyl or a solvent in \"{what}\""));
                self.placed(said, *origin, format!("it lies on \"{plastic}\", which is loaded"))
                    .note("soft vinyl, thread locker and some paints crack loaded rigid PVC, often months later")
                    .help("name what it is of, as in \"nylon tape\"; take woven nylon or polyester, canvas, or what its maker calls free of vinyl")
            }
            Open::UnnamedMetal { origin, fastener, held, wet } => {
                let said = said(format!("nobody says of what metal \"{fastener}\" is"));
                self.placed(said, *origin, format!("it goes through `{held}`, in {}", water(*wet)))
                    .note("of bare, galvanised and stainless steel at least one is eaten away there, or eats away what it goes through")
                    .help("name its metal, as in \"bolt M8 x 60 stainless\"; or part them with plastic bushes and washers")
            }
            Open::GlueClass { origin, glue } => {
                let said = said(format!("nobody says what \"{glue}\" holds, nor in what climate"));
                self.placed(said, *origin, "its name says no class (D1 to D4, PVA, epoxy, resorcinol)")
                    .note("a glue that softens in the sun or lets go in the wet holds nothing when it is wanted")
                    .help("name its class; for a chair that gets wet D4 at least, better epoxy or resorcinol")
            }
            Open::CornerGlue { origin, name, rest } => {
                let more = match rest {
                    0 => String::new(),
                    n => format!(" and {n} more"),
                };
                let said = said(format!("nobody says what glue holds the corners of `{name}`{more}"));
                self.placed(said, *origin, "a box is as strong as the glue in its corners, and here it gets wet")
                    .note("white glue (D1, D2) lets go in the wet; it was judged with one that stands it")
                    .help("name the glue that is bought: supply \"wood glue D4\"; D4 at least, better epoxy or resorcinol")
            }
            Open::Unloaded(k) => {
                let s = support(*k);
                let said = said(format!("no load was put on `{}`", s.name));
                self.placed(said, s.origin, format!("a second {}: the rider is put on the first alone", s.kind.word()))
                    .help("load it in the finished chair as its test sheet says, or leave it out")
            }
            Open::OneHold(k) => {
                let p = &self.design.panels[*k];
                let said = said(format!("`{}` is held at one place only", p.name));
                self.placed(said, p.origin, "it turns about it, and was left out")
                    .help("fasten it to a second bar")
            }
            Open::Softer => said("what softer joints do to the chair could not be computed".to_owned())
                .help("load the chair step by step as its test sheet says, with nobody in it"),
            Open::Sideways => said("whether the frame gives way sideways could not be computed".to_owned())
                .help("load the chair step by step as its test sheet says, and watch from the front whether it leans"),
            Open::GivesSideways { factor, wanted, lasting } => {
                let when = if *lasting { "after years under its rider" } else { "under its rider" };
                let code = if open.falls() { "overstressed" } else { "strength-unknown" };
                Diagnostic::new(code, format!("a part of the chair gives way sideways {when}"))
                    .note(format!(
                        "under {factor:.1} times the seated load, where {wanted:.1} times is wanted: three times the \
                         worst load (EN 1993-1-1, 5.2.2, from memory)"
                    ))
                    .help("brace it across: a bar or a panel from corner to corner, stouter posts, or shorter ones")
            }
            Open::Toes(t) => {
                let w = &self.design.wheels[t.wheel];
                let deg = |a: f64| format!("{:.2} deg", a.to_degrees().abs());
                let after = t.toe.0 + t.toe.1;
                let way = if after > 0.0 { "out" } else { "in" };
                let headline = format!("`{}` toes {way} after years under its rider", w.name);
                let label = format!("by {}, without the load {}", deg(after), deg(t.toe.0));
                self.placed(Diagnostic::new("wheel-toes", headline), w.origin, label)
                    .note(format!(
                        "what holds its axle bends and turns with the years, and its camber changes by {} as well",
                        deg(t.camber.1)
                    ))
                    .help("carry both wheels by one straight tube, or make what holds the axle stouter or shorter; gauge toe with the rider in the chair, and again after a year")
            }
            Open::Leans(l) => {
                let c = &self.design.casters[l.caster];
                let headline = format!("the stem of `{}` leans after years under its rider", c.name);
                let label =
                    format!("{:.1} deg from the vertical, without the load {:.1} deg", l.lean.1.to_degrees(), l.lean.0.to_degrees());
                self.placed(Diagnostic::new("stem-leans", headline), c.origin, label)
                    .note("what holds it turns with the years: the frame rises as the caster swivels, and the chair steers itself")
                    .help("hold the stem in a stouter or shorter bar, or between two; look at it against a square every year")
            }
            Open::WarmthUnsaid { of, at } => {
                let headline = format!("nobody says how warm it gets where {} is used or stands", joined(of));
                let (place, label) = (self.design.rider.origin, "this rider's chair");
                let said = said(headline);
                let said = match place {
                    Some(origin) => self.placed(said, origin, label.to_owned()),
                    None => said,
                };
                said.note(format!(
                    "it was judged at {:.0} degC; at 45 degC PVC bears less than half of that, and in the sun it gets warmer",
                    at - 273.15
                ))
                .help("write the hottest that it gets, in the sun or in a shed: temperature = … or parked_temperature = … in the conditions")
            }
            Open::PointsOut { name, origin, by, length, out } => {
                let headline = format!("the points of {by} come out behind at `{name}`");
                let label = format!("{} longer than what they go into", self.up(*out));
                self.placed(Diagnostic::new("points-out", headline), *origin, label)
                    .note("a point cuts skin that feels nothing, and tears cushion and clothes")
                    .help(format!("no longer than {}; or turn them round, bevel and cover what comes out", self.length(length - out)))
            }
            Open::PointsMeet { name, origin, by, length, most } => {
                let headline = format!("{by} from both plates meet inside at `{name}`");
                let label = format!("{} long, and from {} on the points touch", self.length(*length), self.length(*most));
                self.placed(Diagnostic::new("points-meet", headline), *origin, label)
                    .note("the text puts those of both plates in the same places: the second cannot be driven in, or splits the wood")
                    .help(format!(
                        "shorter than {}; or shift those of one plate between those of the other where the joint is built, and write \
                         accept \"points-meet\" about {name} because \"shifted\"",
                        self.length(*most)
                    ))
            }
            Open::Above { support: k, bar, gap } => {
                let s = support(*k);
                let headline = format!("nobody can tell whether the {} lies on `{bar}`", s.name);
                let label = format!("{} of air between them as drawn", self.length(*gap));
                self.placed(said(headline), s.origin, label)
                    .note("it is taken to lie there, since it is not carried without")
                    .help("draw its upper face one thickness above what it lies on, or say what fastens it there")
            }
            Open::Sags { support: k, sag, most } => {
                let s = support(*k);
                let headline = format!("the {} sags by {} after years", s.name, self.length(*sag));
                self.placed(said(headline), s.origin, format!("a sling would hang through by {}", self.length(*most)))
                    .note("posture and knees change with it, and the rails are then bent in a way that is not computed")
                    .help("thicker sheet, a bar across below the middle, or stouter rails")
            }
            Open::Narrows { support: k, by, ease } => {
                let s = support(*k);
                let headline =
                    format!("the {} pulls its rails {} closer together after years", s.name, self.length(*by));
                let label = match ease {
                    Some(ease) => format!("the seat is {} wider than the hips", self.length(*ease)),
                    None => "how wide the hips are is not known".to_owned(),
                };
                self.placed(said(headline), s.origin, label)
                    .note("a sling pulls sideways at what it hangs on, W x width / (8 x sag), day and night, and most in the heat; it then hangs deeper and the hips have less room")
                    .help("a bar across from rail to rail at the height of the seat, stouter or shorter rails, a sling that may hang through further (sagging), or a sheet instead")
            }
        }
    }
}
