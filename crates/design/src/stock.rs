//! What the shop sells by length or sheet, and the fittings for it.

use crate::{Id, Origin};
use std::f64::consts::PI;

/// Id of a stock.
pub type StockId = Id<Stock>;
/// Id of a socket table.
pub type SocketId = Id<SocketSpec>;
/// Id of a fitting.
pub type FittingId = Id<FittingSpec>;

/// A value between two bounds, in SI units.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Band {
    /// Least.
    pub low: f64,
    /// Greatest.
    pub high: f64,
}

impl Band {
    /// A single value.
    #[must_use]
    pub fn point(value: f64) -> Band {
        Band { low: value, high: value }
    }

    /// The middle.
    #[must_use]
    pub fn mid(self) -> f64 {
        (self.low + self.high) / 2.0
    }
}

/// What something is made of.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Material {
    /// Its name.
    pub name: String,
    /// Density in kg/m³.
    pub density: f64,
    /// Mean strength as published, in Pa.
    pub strength: Option<f64>,
    /// Modulus of elasticity in Pa.
    pub modulus: Option<f64>,
    /// Mean shear strength as published, in Pa.
    pub shear_strength: Option<f64>,
    /// Poisson's ratio.
    pub poisson: Option<f64>,
    /// Hottest it may be used, in K.
    pub service_temperature: Option<f64>,
    /// What it may be asked to bear, by the name of that entry.
    pub allowance: Option<String>,
    /// The grade that is stamped on it, by the name of the allowance with its design values.
    pub grade: Option<String>,
    /// What was found on a bench of the very boards that are used.
    pub bench: Option<Bench>,
    /// Where the figures come from.
    pub source: String,
}

/// A board on two supports with a weight at its middle.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Bench {
    /// Between the supports, m.
    pub span: f64,
    /// Across the load, m.
    pub width: f64,
    /// Along the load, m.
    pub height: f64,
    /// A weight that was added, N, and how much more it bent the board at its middle, m.
    pub bent: Option<(f64, f64)>,
    /// A weight that it bore for ten minutes without a sound and without staying bent, N.
    pub proof: Option<f64>,
}

/// The cross-section of a stock, in metres.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Shape {
    /// A round tube: pressure pipe when `is_pipe`, else a metal tube.
    Tube {
        /// Outside diameter.
        outer: Band,
        /// Wall.
        wall: Band,
        /// Whether it is pressure pipe that goes into sockets.
        is_pipe: bool,
    },
    /// A round bar.
    Rod {
        /// Diameter.
        diameter: f64,
    },
    /// A rectangular bar of wood.
    Board {
        /// The smaller side.
        thickness: f64,
        /// The greater side.
        width: f64,
    },
    /// A sheet.
    Sheet {
        /// Thickness.
        thickness: f64,
    },
    /// A woven band or cloth.
    Webbing {
        /// Width.
        width: f64,
        /// Thickness.
        thickness: f64,
    },
}

/// Area and second moments of a section.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SectionProperties {
    /// Area in m².
    pub area: f64,
    /// Second moment about the axis of the greater side, in m⁴.
    pub second_moment: f64,
    /// Section modulus about the same axis, in m³.
    pub modulus: f64,
}

/// Something sold by length or sheet.
#[derive(Clone, PartialEq, Debug)]
pub struct Stock {
    /// Catalogue name, which is also its key in price books.
    pub name: String,
    /// Cross-section.
    pub shape: Shape,
    /// What it is made of.
    pub material: Material,
    /// Nominal size, by which fittings know a pipe.
    pub size: Option<String>,
    /// The standard on its print line, as written.
    pub standard: Option<String>,
    /// What else its maker or seller says of it, as written.
    pub note: Option<String>,
    /// Published mass per length in kg/m.
    pub linear_mass: Option<f64>,
    /// Published mass per area in kg/m².
    pub areal_mass: Option<f64>,
    /// Usual length on sale, in metres.
    pub sold_length: Option<f64>,
    /// Usual sheet on sale: length and width in metres.
    pub sold_sheet: Option<(f64, f64)>,
    /// Where the figures come from.
    pub source: String,
    /// Place in the text.
    pub origin: Origin,
}

impl Stock {
    /// Mass per length in kg/m: as published, else density times the area at mean sizes.
    #[must_use]
    pub fn mass_per_length(&self) -> f64 {
        self.linear_mass.unwrap_or_else(|| self.material.density * self.shape.mean_area())
    }

    /// Mass per area in kg/m² of a sheet or cloth.
    #[must_use]
    pub fn mass_per_area(&self) -> f64 {
        let thickness = match self.shape {
            Shape::Sheet { thickness } | Shape::Webbing { thickness, .. } => thickness,
            _ => 0.0,
        };
        self.areal_mass.unwrap_or(self.material.density * thickness)
    }

    /// Whether it is pressure pipe.
    #[must_use]
    pub fn is_pipe(&self) -> bool {
        matches!(self.shape, Shape::Tube { is_pipe: true, .. })
    }
}

impl Shape {
    /// Area at mean sizes in m².
    #[must_use]
    pub fn mean_area(&self) -> f64 {
        match *self {
            Shape::Tube { outer, wall, .. } => PI * wall.mid() * (outer.mid() - wall.mid()),
            Shape::Rod { diameter } => PI * diameter * diameter / 4.0,
            Shape::Board { thickness, width } | Shape::Webbing { thickness, width } => thickness * width,
            Shape::Sheet { thickness } => thickness,
        }
    }

    /// Section at the least wall and mean outside, for strength.
    ///
    /// Formulas: ring π/64·(D⁴−d⁴), disc π/64·D⁴, rectangle b·h³/12 about the axis that the greater
    /// side stands on (strength of materials, any handbook).
    #[must_use]
    pub fn section(&self) -> SectionProperties {
        match *self {
            Shape::Tube { outer, wall, .. } => {
                let (d, i) = (outer.mid(), outer.mid() - 2.0 * wall.low);
                let second = PI / 64.0 * (d.powi(4) - i.powi(4));
                SectionProperties {
                    area: PI / 4.0 * (d * d - i * i),
                    second_moment: second,
                    modulus: second / (d / 2.0),
                }
            }
            Shape::Rod { diameter: d } => SectionProperties {
                area: PI / 4.0 * d * d,
                second_moment: PI / 64.0 * d.powi(4),
                modulus: PI / 32.0 * d.powi(3),
            },
            Shape::Board { thickness, width } | Shape::Webbing { thickness, width } => SectionProperties {
                area: thickness * width,
                second_moment: thickness * width.powi(3) / 12.0,
                modulus: thickness * width * width / 6.0,
            },
            Shape::Sheet { thickness: t } => {
                SectionProperties { area: t, second_moment: t.powi(3) / 12.0, modulus: t * t / 6.0 }
            }
        }
    }

    /// Half the extent across two directions: (along the level side, along the upright side).
    #[must_use]
    pub fn half_sizes(&self) -> (f64, f64) {
        match *self {
            Shape::Tube { outer, .. } => (outer.mid() / 2.0, outer.mid() / 2.0),
            Shape::Rod { diameter } => (diameter / 2.0, diameter / 2.0),
            Shape::Board { thickness, width } | Shape::Webbing { thickness, width } => {
                (thickness / 2.0, width / 2.0)
            }
            Shape::Sheet { thickness } => (thickness / 2.0, thickness / 2.0),
        }
    }

    /// Whether the section is round.
    #[must_use]
    pub fn is_round(&self) -> bool {
        matches!(self, Shape::Tube { .. } | Shape::Rod { .. })
    }
}

/// A table row for one size of socket, in metres.
#[derive(Clone, PartialEq, Debug)]
pub struct SocketSpec {
    /// Its name.
    pub name: String,
    /// Diameter at the mouth.
    pub entrance: Band,
    /// Diameter at the stop.
    pub bottom: Band,
    /// Depth to the stop.
    pub depth: f64,
    /// The pipe it is made for.
    pub made_for: String,
    /// Section modulus of that pipe in m³, if the pipe is in reach.
    pub made_for_modulus: Option<f64>,
    /// Where the figures come from.
    pub source: String,
}

/// The patterns of fitting.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FittingShape {
    /// Two ports at a right angle.
    Elbow90,
    /// Two ports that turn a run by 45°.
    Elbow45,
    /// Two ports in line, one square to them.
    Tee,
    /// A tee whose run has no stop: the pipe goes through.
    SlipTee,
    /// Two runs that cross.
    Cross,
    /// Three ports at right angles to each other.
    Corner,
    /// Two ports in line.
    Coupling,
    /// One port.
    Cap,
    /// A reducer that enters a larger socket.
    Bush,
}

impl FittingShape {
    /// What a plumber calls it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            FittingShape::Elbow90 => "90 degree elbow",
            FittingShape::Elbow45 => "45 degree elbow",
            FittingShape::Tee => "tee",
            FittingShape::SlipTee => "slip tee",
            FittingShape::Cross => "cross",
            FittingShape::Corner => "corner",
            FittingShape::Coupling => "coupling",
            FittingShape::Cap => "cap",
            FittingShape::Bush => "bush",
        }
    }
}

/// What a take-out figure is worth.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum TakeOut {
    /// Measured on the fitting that will be used.
    Measured,
    /// A published minimum.
    Minimum,
    /// From memory.
    Memory,
}

/// One fitting.
#[derive(Clone, PartialEq, Debug)]
pub struct FittingSpec {
    /// Catalogue name and price key.
    pub name: String,
    /// Pattern.
    pub shape: FittingShape,
    /// The socket of its ports (for a bush: the smaller one).
    pub socket: SocketId,
    /// For a bush: the socket it goes into.
    pub host: Option<SocketId>,
    /// Centre to stop, in metres.
    pub take_out: f64,
    /// What that figure is worth.
    pub take_out_is: TakeOut,
    /// Outside diameter of the hub.
    pub hub: f64,
    /// Mass in kg.
    pub mass: f64,
    /// Whether one of its ends is a thread: a notch where it is bent.
    pub threaded: bool,
    /// Stiffness of one pipe's end in it against turning, N·m/rad, where it was measured or published.
    pub stiffness: Option<f64>,
    /// Where the figures come from.
    pub source: String,
}

/// A screw, bolt, nut, washer, sleeve in a hole, or rivet.
#[derive(Clone, PartialEq, Debug)]
pub struct Fastener {
    /// Catalogue name and price key.
    pub name: String,
    /// `screw`, `bolt` and so on; `sleeve` for a piece of metal tube in a bolt's hole.
    pub kind: String,
    /// Diameter in metres.
    pub diameter: f64,
    /// Length under the head in metres.
    pub length: f64,
    /// Outside diameter of a washer in metres, where its page says it.
    pub outer: Option<f64>,
    /// Mass of one in kg.
    pub mass: f64,
    /// Diameter in the root of a screw's thread, in metres, where its page says it.
    pub root: Option<f64>,
    /// Across the head of a screw or nail, in metres, where its page says it.
    pub head: Option<f64>,
}
