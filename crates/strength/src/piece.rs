//! What a fastener meets in a piece: how thick it is, and how its fibres lie.

use crate::bar::{Bar, Of};
use crate::form::Form;
use crate::judge::Court;
use crate::ties::thick;
use chairwright_design::{Shape, StockId, Vec3};

/// Density over oven-dry specific gravity: 1000 kg/m³ and 12 % of water, as the catalogue's woods.
const DENSITY: f64 = 1120.0;

/// How the fibres of a piece lie to a fastener that goes into it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Grain {
    Side,
    End,
    /// Between the plies of a sheet.
    Edge,
}

/// What a fastener meets in a piece; lengths in m.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Body {
    /// Wood or plywood: specific gravity, and how thick along the fastener.
    Wood { gravity: f64, thick: f64, grain: Grain },
    /// A tube across its axis, and how far the fastener is from its nearer end.
    Tube { outer: f64, wall: f64, end: f64 },
    /// A sheet or the wall of a box that is no wood.
    Sheet { thick: f64 },
    /// A round bar that is no wood.
    Rod { diameter: f64 },
    /// Met end on: no rule knows it.
    Other,
}

impl Body {
    /// How long a fastener must be to pass it, m.
    pub fn thick(&self) -> f64 {
        match *self {
            Body::Wood { thick, .. } | Body::Sheet { thick } => thick,
            Body::Tube { outer, .. } => outer,
            Body::Rod { diameter } => diameter,
            Body::Other => 0.0,
        }
    }
}

/// One of the two things.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Piece {
    pub name: String,
    pub stock: StockId,
    pub body: Body,
    /// Along its fibres or axis.
    pub long: Vec3,
    /// Of the wall of a box how far it spans from corner to corner, and how thick it is, m.
    pub wall: Option<[f64; 2]>,
}

impl<'a> Court<'a> {
    /// The family of a stock's material.
    pub(crate) fn family(&self, stock: StockId) -> &'a str {
        self.families[stock.index()]
    }

    pub(crate) fn wooden(&self, stock: StockId) -> Option<f64> {
        let wood = matches!(self.family(stock), "wood" | "plywood");
        wood.then_some(self.design.stocks[stock].material.density / DENSITY)
    }

    /// What a fastener meets that goes into a bar along a way.
    pub(crate) fn piece(&self, bar: &Bar, at: f64, way: Vec3) -> Piece {
        let lengthwise = bar.way().dot(way).abs() > 0.7;
        let sheet = match self.design.stocks[bar.stock].shape {
            Shape::Sheet { thickness } => Some(thickness),
            _ => None,
        };
        // a box that is closed has a plate at its end
        let closed = matches!(bar.of, Of::Box(k) if self.design.boxes[k].ends);
        let lengthwise = lengthwise && !closed;
        let ends = |x: f64| x.min(bar.length() - x).max(0.0);
        let body = match (self.wooden(bar.stock), bar.form, bar.of) {
            (Some(gravity), form, of) => {
                let plate = matches!(of, Of::Panel(_) | Of::Support(_));
                let thick = if plate { sheet.unwrap_or(thick(bar, way)) } else { thick(bar, way) };
                Body::Wood { gravity, thick, grain: self.grain(bar, form, way, lengthwise) }
            }
            (None, Form::Tube { outer, wall }, _) if !lengthwise => Body::Tube { outer, wall, end: ends(at) },
            (None, Form::Rod { diameter }, _) if !lengthwise => Body::Rod { diameter },
            (None, Form::Hollow { wall, .. }, _) if !lengthwise => Body::Sheet { thick: wall },
            (None, Form::Flat { level, .. }, Of::Panel(_) | Of::Support(_)) => {
                Body::Sheet { thick: sheet.unwrap_or(level) }
            }
            (None, Form::Flat { .. }, _) if !lengthwise => Body::Sheet { thick: thick(bar, way) },
            _ => Body::Other,
        };
        let wall = match bar.form {
            Form::Hollow { level, upright, wall } if !lengthwise => {
                let upright_wall = bar.up.dot(way).abs() < 0.7;
                Some([if upright_wall { upright } else { level } - 2.0 * wall, wall])
            }
            _ => None,
        };
        Piece { name: bar.name.clone(), stock: bar.stock, body, long: bar.way(), wall }
    }

    fn grain(&self, bar: &Bar, form: Form, way: Vec3, lengthwise: bool) -> Grain {
        let ply = self.family(bar.stock) == "plywood";
        match (form, bar.of) {
            // a panel's arm has its thickness along its own y, a strip of a support along its own z
            (Form::Flat { .. }, Of::Panel(_)) if bar.up.dot(way).abs() > 0.7 || lengthwise => Grain::Edge,
            (Form::Flat { .. }, Of::Support(_)) if bar.up.dot(way).abs() < 0.7 => Grain::Edge,
            (Form::Flat { .. }, Of::Panel(_) | Of::Support(_)) => Grain::Side,
            (Form::Flat { .. } | Form::Hollow { .. }, _) if ply && lengthwise => Grain::Edge,
            (Form::Flat { level, upright }, _) if ply => {
                let thin = if level < upright { bar.up.cross(bar.way()) } else { bar.up };
                if thin.dot(way).abs() > 0.7 { Grain::Side } else { Grain::Edge }
            }
            _ if lengthwise => Grain::End,
            _ => Grain::Side,
        }
    }
}
