//! Bought parts in their places: wheels, casters, items and what is used up.

use crate::build::{Builder, side_sign};
use crate::evaluator::Env;
use crate::reader::Reader;
use crate::scope::{DeclKind, Placed, text_of};
use crate::value::{Outcome, Silent};
use chairwright_design::{Band, Caster, Item, ItemKind, PartSpec, Supply, Vec3, Wheel};
use chairwright_diagnostics::{Diagnostic, Span};
use chairwright_quantity::{Dimension, Quantity};
use chairwright_syntax::{Entry, Expr};

impl<'a> Builder<'_, 'a> {
    /// The bought part that a statement's value names.
    fn part(&self, value: &'a Expr, env: &Env) -> Outcome<(Reader<'_, 'a>, PartSpec)> {
        let names = self.evaluator.catalogue_name(value, DeclKind::Part, env)?;
        let stocked = names.iter().find(|(n, _)| self.evaluator.is_priced(n));
        let (name, span) = stocked.or_else(|| names.first()).ok_or(Silent)?;
        let entry = self.evaluator.find_entry("part", name, *span)?;
        let r = self.reader("part", entry)?;
        r.possible("part", &crate::bounds::WITHIN)?;
        let mass = r.si("mass").ok_or(Silent)?;
        let spec = PartSpec { name: r.name().to_owned(), mass, source: r.text("source").unwrap_or_default() };
        Ok((r, spec))
    }

    pub(crate) fn value(entry: &'a Entry) -> Outcome<&'a Expr> {
        entry.value.as_deref().and_then(<[Expr]>::first).ok_or(Silent)
    }

    fn kind_is(&self, r: &Reader<'_, 'a>, wanted: &str, span: Span) -> Outcome<()> {
        let kind = r.text("kind").unwrap_or_default();
        if kind == wanted {
            return Ok(());
        }
        self.say(
            Diagnostic::new("wrong-kind", format!("a {wanted} is wanted here"))
                .at(span, format!("\"{}\" is a {kind}", r.name()))
                .also(r.entry.head, "described here"),
        );
        Err(Silent)
    }

    /// Of a cushion that nobody measured under the rider every height above the seat is a guess.
    fn unloaded(&self, name: &str, place: Span, free: f64) {
        if self.evaluator.scope.rider.is_none() {
            return;
        }
        let free = self.display().text(Quantity::from_si(free, Dimension::LENGTH));
        let mut said = Diagnostic::new("cannot-tell", format!("nobody can tell how thick \"{name}\" is under its rider"))
            .at(place, format!("{free} without a rider, which was used"))
            .note("the rider sits lower than was worked out here: knees, elbows and the reach to the wheels, and how soon the chair tips, hang on it")
            .help("lay a board on the cushion with the rider on it and measure from the seat: loaded_thickness = … in its part");
        said.about.push(name.to_owned());
        self.say(said);
    }

    pub(crate) fn cushion(&self, entry: &'a Entry, env: &Env) -> Outcome<Option<(String, f64, f64)>> {
        let Some(clause) = Self::clause(entry, "cushion") else { return Ok(None) };
        let (r, spec) = self.part(&clause.values[0], env)?;
        self.kind_is(&r, "cushion", clause.values[0].span)?;
        let thickness = r.si("loaded_thickness").or_else(|| {
            let free = r.si("thickness")?;
            self.unloaded(&spec.name, clause.values[0].span, free);
            self.assume(format!(
                "cushion {}: no loaded thickness is given, its free thickness was used",
                spec.name
            ));
            Some(free)
        });
        let thickness = thickness.ok_or_else(|| {
            r.lacks("loaded_thickness", "every height above the seat is measured from the loaded cushion");
            Silent
        })?;
        Ok(Some((spec.name, spec.mass, thickness)))
    }

    pub(crate) fn wheel(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let value = Self::value(entry)?;
        let (r, part) = self.part(value, env)?;
        self.kind_is(&r, "wheel", value.span)?;
        let at = self.place(entry, "at", env)?;
        let camber = self.si(entry, "camber", env)?.unwrap_or(0.0);
        let toe = self.si(entry, "toe", env)?.unwrap_or(0.0);
        let radius = match r.si("loaded_radius") {
            Some(loaded) => loaded,
            None => {
                self.assume(format!(
                    "wheel {}: no loaded radius is given, half its diameter was used",
                    part.name
                ));
                r.band("diameter").map(|b| b.mid() / 2.0).ok_or_else(|| {
                    r.lacks("diameter", "the chair stands on it");
                    Silent
                })?
            }
        };
        r.positive("diameter", radius)?;
        let tyre = r.size("width", "the tyre's width sets the width of the chair")?;
        let hub = r.si("hub_width").unwrap_or(0.0);
        let rim = r.si("rim_diameter");
        let rim_gap = r.si("rim_standoff");
        if rim.is_some() && rim_gap.is_none() {
            // without it the chair would look narrower than it is
            r.lacks(
                "rim_standoff",
                "from the side of the tyre to the push rim: it sets the width of the chair",
            );
        }
        let rim = rim.filter(|_| rim_gap.is_some());
        let rim_gap = rim_gap.unwrap_or(0.0);
        let rated = rated(&r);
        let stiffness = stiffness(&r)?;
        let one_sided = r.text("one_sided").map(|w| w == "yes");
        let (bore, axle_diameter) = (r.si("bore"), r.si("axle_diameter"));
        let rim_tube = r.si("rim_tube").unwrap_or(PUSH_RIM);
        r.positive("rim_tube", rim_tube)?;
        let rim_out = rim.map_or(tyre / 2.0, |_| tyre / 2.0 + rim_gap + rim_tube);
        if rim.is_some() && r.si("rim_tube").is_none() {
            self.assume(format!(
                "push rim of {}: tube of {:.0} mm, outside its stand-off",
                part.name,
                PUSH_RIM * 1e3
            ));
        }
        // Without a side the wheel's own place decides which way is out.
        let mut sign = side_sign(self.side(placed));
        if sign == 0.0 {
            sign = if at.y < 0.0 { -1.0 } else { 1.0 };
        }
        // Camber leans the top inward, so the outboard axle points up; toe-out turns it back.
        let axle = Vec3::new(
            -libm::sin(toe) * libm::cos(camber),
            sign * libm::cos(toe) * libm::cos(camber),
            libm::sin(camber),
        );
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        self.design.wheels.push(Wheel {
            name,
            side: self.side(placed),
            part,
            radius,
            tyre,
            hub,
            rim,
            rim_out,
            rim_gap,
            rim_tube,
            rated,
            stiffness,
            bore,
            axle_diameter,
            one_sided,
            at,
            axle,
            camber,
            origin,
        });
        Ok(())
    }

    pub(crate) fn caster(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let value = Self::value(entry)?;
        let (r, part) = self.part(value, env)?;
        self.kind_is(&r, "caster", value.span)?;
        let at = self.place(entry, "at", env)?;
        let rake = self.si(entry, "raked", env)?.unwrap_or(0.0);
        let diameter = r.band("diameter").map(Band::mid).ok_or_else(|| {
            r.lacks("diameter", "the chair stands on it");
            Silent
        })?;
        r.positive("diameter", diameter)?;
        let radius = r.si("loaded_radius").unwrap_or(diameter / 2.0);
        r.positive("loaded_radius", radius)?;
        let (width, trail) = (
            r.size("width", "its sweep depends on it")?,
            r.si("trail").ok_or_else(|| {
                r.lacks("trail", "how far the wheel swings decides wheelbase and stability");
                Silent
            })?,
        );
        let drop = r.si("drop").ok_or_else(|| {
            r.lacks("drop", "from the face the stem is seated on down to the wheel's axle");
            Silent
        })?;
        let fork_width = r.si("fork_width").unwrap_or(width + FORK);
        let (play, stem_diameter) = (r.si("stem_play"), r.si("stem_diameter"));
        let (rated, stiffness) = (rated(&r), stiffness(&r)?);
        // Positive rake leans the top of the stem to the rear.
        let stem = Vec3::new(-libm::sin(rake), 0.0, libm::cos(rake));
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        self.design.casters.push(Caster {
            name,
            side: self.side(placed),
            part,
            radius,
            tread: diameter / 2.0,
            width,
            trail,
            drop,
            fork_width,
            play,
            stem_diameter,
            rated,
            stiffness,
            at,
            stem,
            origin,
        });
        Ok(())
    }

    pub(crate) fn item(&mut self, placed: &Placed<'a>, env: &Env) -> Outcome<()> {
        let entry = placed.entry;
        let name = self.full(placed)?.to_string();
        let (r, part) = self.part(Self::value(entry)?, env)?;
        let kind = match placed.spec.keyword {
            "brake" => ItemKind::Brake,
            "axle" => ItemKind::Axle,
            _ if r.text("kind").as_deref() == Some("anti_tip") => ItemKind::AntiTip,
            _ if r.text("kind").as_deref() == Some("receiver") => ItemKind::Receiver,
            _ if r.text("kind").as_deref() == Some("belt") => ItemKind::Belt,
            _ if r.text("kind").as_deref() == Some("handle") => ItemKind::Handle,
            _ if matches!(r.text("kind").as_deref(), Some("bag" | "tray")) => ItemKind::Bag,
            _ => ItemKind::Other,
        };
        let at = match kind {
            ItemKind::Bag => self.place_near(entry, &name, env)?,
            _ => self.place(entry, "at", env)?,
        };
        let (holds, reach) = (r.si("holding_force"), r.si("reach"));
        let bore = r.si(if kind == ItemKind::Axle { "axle_diameter" } else { "bore" });
        let size = match kind {
            ItemKind::Axle => {
                let d = r.si("axle_diameter").unwrap_or(0.012);
                let usable = r.si("axle_length").or_else(|| r.si("length")).ok_or_else(|| {
                    r.lacks(
                        "axle_length",
                        "usable between its head and its lock: an axle too short does not lock",
                    );
                    Silent
                })?;
                Vec3::new(d, usable, d)
            }
            ItemKind::Receiver => {
                let along = r.si("width").ok_or_else(|| {
                    r.lacks("width", "how long it is along its axle, across the chair: an axle too short for it does not lock");
                    Silent
                })?;
                Vec3::new(r.si("length").unwrap_or(0.06), along, r.si("height").unwrap_or(0.06))
            }
            ItemKind::AntiTip => {
                let d = r.si("diameter").unwrap_or(0.03);
                Vec3::new(d, r.si("width").unwrap_or(0.02), d)
            }
            _ => Vec3::new(
                r.si("length").unwrap_or(0.06),
                r.si("width").unwrap_or(0.03),
                r.si("height").unwrap_or(0.06),
            ),
        };
        let origin = self.origin(crate::scope::declared_name(entry).map_or(entry.head, |(_, s)| s));
        self.design.items.push(Item {
            name,
            kind,
            side: self.side(placed),
            part,
            at,
            size,
            bore,
            reach,
            holds,
            origin,
        });
        Ok(())
    }

    pub(crate) fn supply(&mut self, entry: &'a Entry, env: &Env) -> Outcome<()> {
        let name = text_of(entry.subject.as_ref()).ok_or(Silent)?.to_owned();
        let (amount, unit) = match self.si(entry, "over", env)? {
            Some(length) => (length, "m"),
            None => (f64::from(self.count(entry, env)?), "each"),
        };
        let origin = self.origin(entry.head);
        self.design.supplies.push(Supply { name, amount, unit: unit.to_owned(), origin });
        Ok(())
    }
}

/// The load that one of a part is rated for, kg; of a pair each carries half.
fn rated(part: &Reader<'_, '_>) -> Option<f64> {
    let (mass, basis) = part.si("load_rating").zip(part.text("rating_basis"))?;
    Some(if basis == "pair" { mass / 2.0 } else { mass })
}

/// Stiffness of a wheel's tyre, N/m, or of a socket that is turned, N·m/rad, more than nothing.
pub(crate) fn stiffness(part: &Reader<'_, '_>) -> Outcome<Option<f64>> {
    let known = part.si("stiffness");
    known.map(|k| part.positive("stiffness", k)).transpose()?;
    Ok(known)
}

/// Fork beyond the wheel's width where nobody says: two legs of 6 mm and a gap of 2 mm each. Common practice, no source.
const FORK: f64 = 0.016;
/// Diameter of push rim tube; from memory, not checked, listed as an assumption.
const PUSH_RIM: f64 = 0.020;
