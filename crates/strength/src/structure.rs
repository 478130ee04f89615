//! The chair as a structure: bars, and what ties them to each other, to the wheels and to the seat.
//!
//! Everything here follows from the drawing. Nothing is tied that the text does not join, fasten or
//! lay on something; what was taken for carried without a word of the text is listed as assumed.

use crate::assumed::{Assumed, Unchecked};
use crate::bar::{Bar, bars};
use crate::remark::{Beside, Open, Taken};
use crate::seat::Seat;
use crate::slip::Slip;
use chairwright_design::{Design, JointId, Vec3};
use chairwright_frame::{Frame, Settled};

/// A place on a bar, m from its first joint.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Port {
    pub bar: usize,
    pub at: f64,
}

/// A place on a bar, or a point of its own.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Spot {
    Port(Port),
    Point(usize),
}

impl Spot {
    /// The bar that it is on.
    pub fn bar(&self) -> Option<usize> {
        match self {
            Spot::Port(p) => Some(p.bar),
            Spot::Point(_) => None,
        }
    }
}

/// What a tie is in the design.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum TieOf {
    /// A closed joint.
    Joint(JointId),
    /// A fastening, counted among the design's.
    Fastening(usize),
    /// A sheet that lies on the frame: the support's place, and its tie.
    Bearing(usize),
    /// Where a wheel's axle is held, counted among the design's wheels.
    Wheel(usize),
    /// Where a caster's stem is seated, counted among the design's casters.
    Caster(usize),
    /// Inside a sheet: never comes apart.
    Sheet,
    /// Inside a bought part: never comes apart here.
    Part,
}

/// How a tie holds.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Hold {
    /// In every direction.
    Rigid,
    /// In every direction, by fasteners or glue: what goes through is read, so it keeps places of its own.
    Fastened,
    /// Free to turn about this axis.
    Hinge(Vec3),
    /// Free to turn; carried along this direction, and along the face only by its fasteners: what they resist with
    /// at this place, or `None` where it only lies there.
    Bearing { normal: Vec3, grip: Option<Slip> },
    /// Held by the fasteners of a panel, which slip along its face; where they stand in several places along a bar, none of
    /// these keeps it from turning on the face.
    Slips { normal: Vec3, slip: Slip, turns: bool },
}

/// Places that are held together.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Tie {
    pub of: TieOf,
    pub spots: Vec<Spot>,
    pub hold: Hold,
}

/// A wheel or caster on the ground.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Footing {
    pub name: String,
    pub caster: bool,
    /// Index among the design's wheels or casters.
    pub index: usize,
    /// Point of the hub of a wheel, or of a caster's axle.
    pub hub: usize,
    /// Point on the ground.
    pub contact: usize,
    /// What carries it.
    pub carrier: Option<String>,
    /// Hub and contact of a caster that is turned, in the order of [`crate::case::Swung::ALL`].
    pub swung: Option<[(Vec3, Vec3); 2]>,
    /// From the middle of a wheel inward to what holds its axle, m, where that can be told.
    pub overhang: Option<f64>,
}

/// A seat, back or foot support as it carries.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Deck {
    /// Index among the design's supports.
    pub support: usize,
    /// Middle of the rear or lower edge, middle of the front or upper edge, on the ground.
    pub ends: (Vec3, Vec3),
    /// Across, to the left.
    pub side: Vec3,
    /// Towards the rider.
    pub normal: Vec3,
    pub width: f64,
    /// How far it hangs through in its middle where it is a sling, m.
    pub sag: f64,
    pub carries: Carries,
}

/// How a deck hands its load on.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Carries {
    /// A sheet, as a grid of strips: those across it, rear to front; and what it lies on.
    Sheet { across: Vec<usize>, on: Vec<usize> },
    /// Bands, rear to front: left and right place of each.
    Bands(Vec<(Port, Port)>),
    /// Nothing was found that carries it.
    Nothing,
}

/// What the frame cannot hold, found without solving it.
#[derive(Clone, PartialEq, Debug)]
pub enum Loose {
    /// A member that nothing holds.
    Member(String),
    /// A joint that nothing closes.
    OpenJoint(JointId),
    /// A closing without any fastener or glue.
    Unfastened(JointId),
    /// A wheel or caster that nothing carries.
    Wheel(String),
    /// A support that nothing carries.
    Support(usize),
    /// A support that lies on one line and is not fastened: it tips.
    Tips {
        /// Which support.
        support: usize,
        /// What it lies on.
        on: String,
    },
    /// A panel that nothing holds, counted among the design's.
    Panel(usize),
    /// Bands of a sling without a rail at one edge or at both.
    Bands {
        /// Index among the design's supports.
        support: usize,
        /// How many have none.
        missing: usize,
        /// Of how many.
        of: usize,
    },
    /// A fastening whose parts do not come near each other.
    Apart {
        /// Index among the design's fastenings.
        fastening: usize,
        /// The gap, in m.
        gap: f64,
    },
}

/// The whole.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Structure {
    pub bars: Vec<Bar>,
    pub points: Vec<Vec3>,
    pub ties: Vec<Tie>,
    pub footings: Vec<Footing>,
    /// Outlines of the panels: index among the design's, and corners on the middle plane.
    pub outlines: Vec<(usize, Vec<Vec3>)>,
    pub decks: Vec<Deck>,
    /// Pipes that run on through a fitting without a stop: the joint, and where on the pipe.
    pub slips: Vec<(JointId, Port)>,
    /// What is known of joints beside the drawing.
    pub seats: Vec<Seat>,
    /// Bought handles and anti-tip devices: which of the design's items, where it is, and the bar that it hangs on.
    pub handles: Vec<(usize, usize, Port)>,
    pub loose: Vec<Loose>,
    pub taken: Vec<Taken>,
    pub beside: Vec<Beside>,
    pub open: Vec<Open>,
    pub assumed: Vec<Assumed>,
    pub left_out: Vec<Unchecked>,
}

impl Structure {
    /// Works it out.
    pub fn new(design: &Design, frame: &Frame, settled: &Settled) -> Structure {
        let seats = crate::seat::seats(design, frame);
        let mut all = Structure { bars: bars(design, frame, settled), seats, ..Structure::default() };
        crate::ties::joints(design, frame, settled, &mut all);
        crate::ties::fastenings(design, settled, &mut all);
        crate::sheet::panels(design, settled, &mut all);
        crate::deck::decks(design, settled, &mut all);
        crate::rolling::wheels(design, settled, &mut all);
        crate::grasp::handles(design, settled, &mut all);
        all
    }

    pub fn place(&self, spot: Spot) -> Vec3 {
        match spot {
            Spot::Port(p) => self.bars[p.bar].at(p.at),
            Spot::Point(p) => self.points[p],
        }
    }

    pub fn point(&mut self, at: Vec3) -> usize {
        self.points.push(at);
        self.points.len() - 1
    }

    pub fn bar_named(&self, name: &str) -> Option<usize> {
        self.bars.iter().position(|b| b.name == name)
    }

    /// Bars that no chain of ties joins to the wheels, by index.
    pub fn adrift(&self) -> Vec<usize> {
        let n = self.bars.len();
        let place = |s: &Spot| match s {
            Spot::Port(p) => p.bar,
            Spot::Point(p) => n + p,
        };
        let mut group: Vec<usize> = (0..n + self.points.len()).collect();
        let root = |group: &[usize], mut k: usize| {
            while group[k] != k {
                k = group[k];
            }
            k
        };
        for tie in &self.ties {
            let first = root(&group, place(&tie.spots[0]));
            for spot in &tie.spots[1..] {
                let other = root(&group, place(spot));
                let first = root(&group, first);
                group[first.max(other)] = first.min(other);
            }
        }
        // the chair is the largest part that stands on a wheel
        let feet: Vec<usize> = self.footings.iter().map(|f| root(&group, n + f.contact)).collect();
        let size = |r: usize| (0..n).filter(|k| root(&group, *k) == r).count();
        let most = |r: &&usize| (size(**r), std::cmp::Reverse(**r));
        let Some(main) = feet.iter().max_by_key(most).copied() else { return Vec::new() };
        (0..n).filter(|k| root(&group, *k) != main).collect()
    }

    /// The structure without some bars, and without what hung on them.
    pub fn without(mut self, gone: &[usize]) -> Structure {
        let kept: Vec<usize> = (0..self.bars.len()).filter(|k| !gone.contains(k)).collect();
        let new = |old: usize| kept.iter().position(|k| *k == old);
        let port = |p: Port| new(p.bar).map(|bar| Port { bar, at: p.at });
        let spot = |s: Spot| match s {
            Spot::Port(p) => port(p).map(Spot::Port),
            point => Some(point),
        };
        for tie in &mut self.ties {
            tie.spots = tie.spots.iter().filter_map(|s| spot(*s)).collect();
        }
        self.ties.retain(|t| t.spots.len() > 1);
        // the point of a handle whose bar is gone stays, on any bar, and is held by nobody
        let lost = |h: &&(usize, usize, Port)| new(h.2.bar).is_none();
        for (_, point, _) in self.handles.iter().filter(lost) {
            let spots = vec![Spot::Port(Port { bar: 0, at: 0.0 }), Spot::Point(*point)];
            self.ties.push(Tie { of: TieOf::Part, spots, hold: Hold::Rigid });
        }
        self.handles = self.handles.iter().filter_map(|h| Some((h.0, h.1, port(h.2)?))).collect();
        self.slips = self.slips.iter().filter_map(|(j, p)| Some((*j, port(*p)?))).collect();
        for deck in &mut self.decks {
            deck.carries = match &deck.carries {
                Carries::Sheet { across, on } => {
                    let left: Vec<usize> = across.iter().filter_map(|b| new(*b)).collect();
                    let on = on.iter().filter_map(|b| new(*b)).collect();
                    if left.len() == across.len() {
                        Carries::Sheet { across: left, on }
                    } else {
                        Carries::Nothing
                    }
                }
                Carries::Bands(all) => {
                    let left: Vec<(Port, Port)> =
                        all.iter().filter_map(|(l, r)| Some((port(*l)?, port(*r)?))).collect();
                    if left.is_empty() { Carries::Nothing } else { Carries::Bands(left) }
                }
                Carries::Nothing => Carries::Nothing,
            };
        }
        let names: Vec<String> = gone.iter().map(|k| self.bars[*k].name.clone()).collect();
        for f in &mut self.footings {
            if f.carrier.as_ref().is_some_and(|c| names.contains(c)) {
                f.carrier = None;
            }
        }
        self.bars = kept.iter().map(|k| self.bars[*k].clone()).collect();
        self
    }

    /// Members and boxes: what a builder would call the frame.
    pub fn frame_bars(&self) -> impl Iterator<Item = (usize, &Bar)> {
        use crate::bar::Of;
        self.bars.iter().enumerate().filter(|(_, b)| matches!(b.of, Of::Member(_) | Of::Box(_)))
    }
}
