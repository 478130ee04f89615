//! Bought parts.

use crate::{Origin, Side, Vec3};

/// What a bought part is, whatever its kind.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct PartSpec {
    /// Catalogue name and price key.
    pub name: String,
    /// Mass in kg.
    pub mass: f64,
    /// Where the figures come from.
    pub source: String,
}

/// A wheel that does not swivel.
#[derive(Clone, PartialEq, Debug)]
pub struct Wheel {
    /// Its name, such as `left.rear`.
    pub name: String,
    /// The side it belongs to.
    pub side: Option<Side>,
    /// The part.
    pub part: PartSpec,
    /// Outside radius with the rider in the chair, in metres.
    pub radius: f64,
    /// Width of the tyre.
    pub tyre: f64,
    /// Between the hub's faces.
    pub hub: f64,
    /// Diameter of the push rim over all, if there is one.
    pub rim: Option<f64>,
    /// From the middle of the wheel to the outside of the push rim.
    pub rim_out: f64,
    /// From the side of the tyre to the push rim.
    pub rim_gap: f64,
    /// Across the tube of the push rim.
    pub rim_tube: f64,
    /// Load that the wheel is rated for in kg, of one wheel; `None` where it is not known or not said of what.
    pub rated: Option<f64>,
    /// Stiffness of its tyre under the rider, N/m, where somebody measured it.
    pub stiffness: Option<f64>,
    /// Across the hole through its bearings, in metres, where somebody says.
    pub bore: Option<f64>,
    /// Diameter of the axle that it turns on, in metres, where somebody says.
    pub axle_diameter: Option<f64>,
    /// Whether the wheel may be held from one side only; `None` where nobody says.
    pub one_sided: Option<bool>,
    /// Centre of the wheel in the drawing.
    pub at: Vec3,
    /// Unit axle, pointing away from the chair's middle.
    pub axle: Vec3,
    /// Camber as asked for: top of the wheel leaning inward is positive.
    pub camber: f64,
    /// Place in the text.
    pub origin: Origin,
}

/// A swivelling wheel.
#[derive(Clone, PartialEq, Debug)]
pub struct Caster {
    /// Its name, such as `left.front`.
    pub name: String,
    /// The side it belongs to.
    pub side: Option<Side>,
    /// The part.
    pub part: PartSpec,
    /// Outside radius with the rider in the chair, in metres; half the diameter where nobody measured it.
    pub radius: f64,
    /// Half the diameter: what swings, and no less beside the tyre than the load leaves below it.
    pub tread: f64,
    /// Wheel width.
    pub width: f64,
    /// From the stem's axis back to the axle.
    pub trail: f64,
    /// From the seat of the stem down to the axle.
    pub drop: f64,
    /// Outside width of the fork; the wheel's and 16 mm where nobody says.
    pub fork_width: f64,
    /// Angular play of the stem in its bearings in radians, where it was measured.
    pub play: Option<f64>,
    /// Diameter of its stem, where it was measured.
    pub stem_diameter: Option<f64>,
    /// The load that one caster is rated for, kg, where its maker says.
    pub rated: Option<f64>,
    /// Stiffness of its tyre under the rider, N/m, where somebody measured it.
    pub stiffness: Option<f64>,
    /// Where the stem's axis meets the face it is seated on.
    pub at: Vec3,
    /// Unit stem axis, upward.
    pub stem: Vec3,
    /// Place in the text.
    pub origin: Origin,
}

/// Kinds of other bought parts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ItemKind {
    /// A wheel lock.
    Brake,
    /// An axle that wheels are put on by.
    Axle,
    /// What an axle is put into.
    Receiver,
    /// A wheel or foot that keeps the chair from going over backward.
    AntiTip,
    /// What a helper takes hold of.
    Handle,
    /// A bag or a tray: it may be taken off, or be empty.
    Bag,
    /// What holds the rider in the chair.
    Belt,
    /// Anything else.
    Other,
}

/// A bought part with a place.
#[derive(Clone, PartialEq, Debug)]
pub struct Item {
    /// Its name.
    pub name: String,
    /// Which kind.
    pub kind: ItemKind,
    /// The side it belongs to, if it has a mirror image.
    pub side: Option<Side>,
    /// The part.
    pub part: PartSpec,
    /// Its centre of mass.
    pub at: Vec3,
    /// Outside size along x, y and z.
    pub size: Vec3,
    /// Of an axle its diameter, of a receiver the hole that the axle goes into, in metres, where somebody says.
    pub bore: Option<f64>,
    /// How far a wheel lock reaches from its middle, in metres, where somebody says.
    pub reach: Option<f64>,
    /// Force in N along the ground that one wheel lock holds, at the softest tyre it is used with.
    pub holds: Option<f64>,
    /// Place in the text.
    pub origin: Origin,
}

/// Something to buy that has no place in the drawing.
#[derive(Clone, PartialEq, Debug)]
pub struct Supply {
    /// Price key.
    pub name: String,
    /// How many sale units' worth: a count, metres or square metres, by `unit`.
    pub amount: f64,
    /// `each`, `m` or `m2`.
    pub unit: String,
    /// Place in the text.
    pub origin: Origin,
}
