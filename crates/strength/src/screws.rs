//! Screws and bolts in wood: what a fastening hands on against what its fasteners may bear.
//!
//! Sideways by the yield modes, along the screw by withdrawal ([`chairwright_resistance`]). Nobody says
//! where in the joint the fasteners sit: the plain side takes the force alone, evenly shared; the
//! cautious one adds the moment as a couple over half the larger face.

use crate::answer::{Mode, What};
use crate::bar::{Bar, Of};
use crate::case::Lasting;
use crate::form::Form;
use crate::judge::{Court, Use};
use crate::limit::allowance;
use chairwright_design::{Fastener, Shape, Vec3, fold};
use chairwright_resistance::dowel::{BOLT_YIELD, Bears, Dowel, nail_yield, single_shear, wood_bearing};
use chairwright_resistance::withdrawal::{Fastener as Pulled, reference};
use std::f64::consts::FRAC_PI_2;

/// Density over oven-dry specific gravity: 1000 kg/m³ and 12 % of water, as the catalogue's woods.
const DENSITY: f64 = 1120.0;
/// Root over shank of a wood screw. From memory, not checked.
const ROOT: f64 = 0.7;
/// Of a blow or a load again and again the design values are taken for the cautious side; the plain
/// side is twice that. Common practice, no source: tests lie at two to five times design values.
const SLACK: f64 = 2.0;

/// What one fastener bears for ten years, N: sideways, and along itself where that is known.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bearing {
    sideways: f64,
    along: Option<f64>,
    /// Into end grain nothing may pull.
    end_grain: bool,
}

/// Force and moment that a joint hands on, and the way of its fasteners, in ground axes.
pub(crate) struct Handing {
    pub force: Vec3,
    pub moment: Vec3,
    pub way: Vec3,
}

impl Court<'_> {
    /// The one kind of screw or bolt in a list, and how many.
    pub(crate) fn dowels(&self, list: &[(String, u32)]) -> Option<(&Fastener, u32)> {
        let find = |name: &str| self.design.fasteners.iter().find(|f| fold(&f.name) == fold(name));
        let through = list.iter().filter_map(|(n, c)| Some((find(n)?, *c)));
        let mut through = through.filter(|(f, _)| matches!(f.kind.as_str(), "screw" | "bolt"));
        through.next().filter(|_| through.next().is_none())
    }

    /// Specific gravity of a bar of wood; `None` of anything else.
    fn gravity(&self, bar: &Bar) -> Option<f64> {
        let material = &self.design.stocks[bar.stock].material;
        let wood =
            allowance(self.design, material).is_some_and(|a| matches!(a.family.as_str(), "wood" | "plywood"));
        wood.then_some(material.density / DENSITY)
    }

    /// What one fastener bears that goes from a side piece into a main piece, along a way.
    pub(crate) fn bearing(&self, side: &Bar, main: &Bar, f: &Fastener, way: Vec3) -> Option<Bearing> {
        let (gs, gm) = (self.gravity(side)?, self.gravity(main)?);
        let through = self.thickness(side, way);
        let left = f.length - through;
        let depth = left.min(self.thickness(main, way));
        // a fastener that only scratches the second piece holds nothing that can be told
        if depth < 0.005 {
            return None;
        }
        let end_grain = matches!(main.of, Of::Member(_)) && main.way().dot(way).abs() > 0.7;
        let screw = f.kind == "screw";
        let d = if screw { ROOT * f.diameter } else { f.diameter };
        let bending_yield = if screw { nail_yield(d).ok()? } else { BOLT_YIELD };
        let bears = |g: f64, length: f64| Some(Bears { strength: wood_bearing(g, d, FRAC_PI_2).ok()?, length });
        let dowel = Dowel { diameter: d, bending_yield };
        let yielding = single_shear(&dowel, &bears(gm, depth)?, &bears(gs, through)?, FRAC_PI_2).ok()?;
        let grain = if end_grain { 0.67 } else { 1.0 };
        // less than ten diameters in the main piece counts in proportion
        let bite = if screw { (depth / (10.0 * f.diameter)).min(1.0) } else { 1.0 };
        let along =
            screw.then(|| reference(Pulled::WoodScrew, gm, f.diameter).ok().map(|r| r * depth)).flatten();
        Some(Bearing { sideways: yielding.capacity.value * grain * bite, along, end_grain: end_grain && screw })
    }

    fn thickness(&self, bar: &Bar, way: Vec3) -> f64 {
        match (bar.form, bar.of) {
            (Form::Hollow { wall, .. }, _) => wall,
            (_, Of::Panel(_) | Of::Support(_)) => match self.design.stocks[bar.stock].shape {
                Shape::Sheet { thickness } => thickness,
                _ => 2.0 * bar.half_along(way),
            },
            _ if bar.way().dot(way).abs() > 0.7 => bar.length(),
            _ => 2.0 * bar.half_along(way),
        }
    }

    /// How far fasteners in wood are used.
    pub(crate) fn screwed(
        &self,
        (what, case, lasting): (What, usize, Lasting),
        (side, main): (&Bar, &Bar),
        (f, each): (&Fastener, f64),
        h: &Handing,
    ) -> Option<Use> {
        let b = self.bearing(side, main, f, h.way)?;
        let wet = if self.climate.wet { 0.7 } else { 1.0 };
        let (time, slack) = match lasting {
            Lasting::Sustained => (0.9, 1.0),
            Lasting::Short => (1.6, 1.0),
            Lasting::Impact => (1.6, SLACK),
            Lasting::Repeated => (1.0, SLACK),
        };
        let pull = h.force.dot(h.way).abs() / each;
        let aside = h.force.across(h.way).norm() / each;
        let size = |x: &Bar| x.form.half().0.max(x.form.half().1);
        let lever = size(side).max(size(main));
        let (twist, tilt) = (h.moment.dot(h.way).abs(), h.moment.across(h.way).norm());
        let couple = |m: f64| m / (each * lever);
        let bears = time * wet;
        let out = |force: f64| match b.along {
            Some(_) if b.end_grain => 0.0,
            Some(n) => force / (n * bears),
            None => 0.0,
        };
        let plain = aside / (b.sideways * bears) + out(pull);
        let mut cautious = (aside + couple(twist)) / (b.sideways * bears) + out(pull + couple(tilt));
        if b.end_grain {
            // refused by name already; nothing here makes it sound
            cautious = cautious.max(1.01);
        }
        Some(Use {
            what,
            case,
            mode: Mode::Screws,
            at: 0.0,
            used: (plain / slack, cautious),
            demand: aside + couple(twist),
            bears: b.sideways * bears,
        })
    }
}
