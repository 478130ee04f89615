//! What comes out, as plain data.

use crate::assumed::{Assumed, Unchecked};
use crate::bar::Of;
use crate::below::Under;
use crate::case::{Case, Lasting};
use crate::follow::Down;
use crate::limit::{Climate, Unknown};
use crate::placing::Misplaced;
use crate::remark::{Beside, Doubt, Open, Taken};
use crate::room::Room;
use crate::side::without_side;
use crate::structure::{Loose, TieOf};
use chairwright_design::{JointId, Origin, StockId, SupportKind, Vec3};
use chairwright_resistance::compatible::{Stuff, Wetness};

/// What can be said of one thing.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Verdict {
    /// It holds with its margin.
    Pass,
    /// It cannot be called sound, nor surely broken: test it.
    CannotTell,
    /// It does not hold.
    Fail,
}

/// What an item is about.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum What {
    /// A member, box, support or panel.
    Bar(Of),
    /// The socket of a member at a joint, or the joint as a whole.
    Joint(JointId),
    /// What the text fastens.
    Tie(TieOf),
}

/// What decides.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Mode {
    /// Bending and pull along the fibres.
    Bending,
    /// Shear and twist.
    Shear,
    /// Net section at a hole.
    Hole,
    /// A second tube over or in it.
    Sleeve,
    /// Shear of the cement in a socket.
    Cement,
    /// The pipe pressing on the socket as it is bent.
    SocketBending,
    /// A fastener pressing on the wall of its hole.
    Bearing,
    /// The head or nut of a bolt sinking into what it is pulled against.
    Head,
    /// Screws or bolts in wood, sideways and pulled.
    Screws,
    /// A glue line.
    Glue,
    /// The plates of a gusset, bent and cut.
    Plates,
    /// Giving way sideways under a push along it.
    Buckling,
}

/// Ways to give that hide one another only within a family.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Family {
    /// Stress in a section.
    Section,
    /// A cemented socket.
    Socket,
    /// Fasteners.
    Fasteners,
    /// Glue lines.
    Glue,
    /// Giving way sideways.
    Buckling,
}

impl Mode {
    /// What it belongs to.
    #[must_use]
    pub fn family(self) -> Family {
        match self {
            Mode::Bending | Mode::Shear | Mode::Hole | Mode::Sleeve | Mode::Plates => Family::Section,
            Mode::Cement | Mode::SocketBending => Family::Socket,
            Mode::Bearing | Mode::Head | Mode::Screws => Family::Fasteners,
            Mode::Glue => Family::Glue,
            Mode::Buckling => Family::Buckling,
        }
    }
}

/// One thing judged in the load case that is worst for it; it stands here again for each other kind of load or
/// family of modes that a test must tell or that fails, where its worst is not the same verdict.
#[derive(Clone, PartialEq, Debug)]
pub struct Item {
    /// What.
    pub what: What,
    /// Its name.
    pub name: String,
    /// Place in the text.
    pub origin: Origin,
    /// The load case, counted among [`Strength::cases`].
    pub case: usize,
    /// What decides.
    pub mode: Mode,
    /// Where along it, m from its first joint.
    pub at: f64,
    /// Its use: demand over what it may bear, on the plain and on the cautious side, in this load case and way.
    pub used: (f64, f64),
    /// The greatest uses of the thing on either side, in whatever load case and way, where this is its worst; else as `used`.
    pub most: (f64, f64),
    /// Demand there, Pa or N.
    pub demand: f64,
    /// What it may bear, on the cautious side, in the same unit.
    pub bears: f64,
    /// What came of it; a part of which something could not be judged never passes.
    pub verdict: Verdict,
}

impl Item {
    /// Whether its share of what is sound or of what breaks it leaves it open, and not something that is unknown.
    #[must_use]
    pub fn between(&self) -> bool {
        self.verdict == Verdict::CannotTell && !(self.used.0 <= 1.0 && self.used.1 <= 1.0)
    }
}

/// What only a test tells of, and nothing unknown: once each, both sides as one, the most used first. Of these a reinforcement
/// may clear the doubt.
#[must_use]
pub fn doubted<'a>(items: &'a [Item], untold: &[Untold]) -> Vec<&'a Item> {
    let mut out: Vec<&Item> = Vec::new();
    let part = |i: &Item| without_side(&i.name);
    let open: Vec<String> = untold.iter().map(|u| without_side(&u.name)).collect();
    let fails: Vec<String> = items.iter().filter(|i| i.verdict == Verdict::Fail).map(part).collect();
    for item in items.iter().filter(|i| i.between()) {
        let name = part(item);
        if !open.contains(&name) && !fails.contains(&name) && !out.iter().any(|o| part(o) == name) {
            out.push(item);
        }
    }
    out
}

/// Something that could not be judged.
#[derive(Clone, PartialEq, Debug)]
pub struct Untold {
    /// Its name.
    pub name: String,
    /// Place in the text.
    pub origin: Origin,
    /// Why not.
    pub why: Unknown,
    /// The kinds of load that it could not be judged in.
    pub kinds: Vec<Lasting>,
}

/// A load path that is refused whatever the numbers say.
#[derive(Clone, PartialEq, Debug)]
pub enum Forbidden {
    /// Screws into end grain hold a joint together.
    EndGrain {
        /// Place in the text.
        origin: Origin,
        /// The board that the screws go into.
        member: String,
    },
    /// A load path that must never carry, found from what goes through it.
    Never {
        /// Place in the text.
        origin: Origin,
        /// The joint or fastening.
        name: String,
        /// Which.
        never: chairwright_resistance::Never,
    },
    /// A joint that was closed by bending the frame.
    Sprung {
        /// Place in the text.
        origin: Origin,
        /// The joint.
        name: String,
        /// How far the end was bent aside, m.
        travel: f64,
        /// The member that was bent, the force that it took, N, and the stress that stays in it, Pa; `None` where its
        /// stiffness is not known.
        bent: Option<(String, f64, f64)>,
    },
    /// Foam-core or other cellular pipe in the frame.
    Cellular {
        /// Place in the text.
        origin: Origin,
        /// The stock.
        stock: String,
        /// What says so.
        by: Foam,
    },
}

/// What says that a pipe has a core of foam.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Foam {
    /// The material that its stock names.
    Material,
    /// Its name or the standard on its print line.
    Print,
    /// The note beside it.
    Note,
    /// Its density, kg/m³.
    Light(f64),
}

/// Things that must not touch.
#[derive(Clone, PartialEq, Debug)]
pub enum Incompatible {
    /// Something that cracks rigid PVC.
    OnPlastic {
        /// Place in the text.
        origin: Origin,
        /// What does.
        what: String,
        /// What is in it.
        stuff: Stuff,
        /// The pipe or sheet of rigid PVC.
        plastic: String,
    },
    /// A glue that its climate undoes.
    Glue {
        /// Place in the text.
        origin: Origin,
        /// The glue as written.
        glue: String,
    },
    /// Two metals where water joins them; the one that is lost first.
    Metals {
        /// Place in the text.
        origin: Origin,
        /// One.
        one: String,
        /// The other.
        other: String,
        /// How wet it is there.
        wet: Wetness,
    },
    /// Poisoned wood where the rider's body rests on it.
    Poisoned {
        /// Place in the text of the support.
        origin: Origin,
        /// What it is cut from.
        stock: String,
        /// What of the body it carries.
        part: SupportKind,
    },
    /// Something that ties the rider to a chair that goes into water.
    BeltInWater {
        /// Place in the text.
        origin: Origin,
        /// Its name.
        belt: String,
        /// Which water.
        wet: Wetness,
    },
}

/// One way in which the frame moves by itself.
#[derive(Clone, PartialEq, Debug)]
pub struct Swing {
    /// Names of what moves.
    pub parts: Vec<String>,
    /// Place in the text of the first.
    pub origin: Option<Origin>,
    /// The named joint nearest to the line that it turns about, if it turns.
    pub about: Option<JointId>,
    /// The unit direction of that line on the ground.
    pub axis: Option<Vec3>,
}

/// What a joint's failure does to the chair.
#[derive(Clone, PartialEq, Debug)]
pub struct Lost {
    /// Which tie.
    pub tie: TieOf,
    /// Its name.
    pub name: String,
    /// Whether seat or wheels then move freely: the chair comes down at once.
    pub falls: bool,
    /// The worst use that anything else then has under the seated rider, as a load that stays: plain, beyond one of
    /// which it surely breaks, and cautious, up to one of which it is sound. Of what is left without what moves freely.
    pub used: (f64, f64),
    /// What is used so.
    pub worst: Option<String>,
    /// Names of what nobody can judge of the rest.
    pub unjudged: Vec<String>,
    /// Names of what moves freely or surely breaks after it, one after the other.
    pub lets_go: Vec<String>,
    /// How the seat fares in the end, as far as it was judged.
    pub seat: Down,
    /// The most by which any place of the seat then lies lower than before, after years, m, where it stays up.
    pub sinks: Option<f64>,
}

/// What the rest of the chair does when one joint or fastening has let go.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Rest {
    /// All of it was judged, and is sound.
    Sound,
    /// Beyond what is sound and not surely breaking, or not all of it could be judged.
    CannotTell,
    /// Something of it surely breaks.
    Breaks,
    /// Seat or wheels move freely: the chair comes down at once.
    Falls,
}

/// A seat that sinks by more than this, m, has left the small shifts that everything is computed with. Common practice, no source.
const SMALL: f64 = 0.050;

impl Lost {
    /// What the rest does.
    #[must_use]
    pub fn rest(&self) -> Rest {
        match crate::judge::verdict(self.used) {
            _ if self.falls => Rest::Falls,
            Verdict::Fail => Rest::Breaks,
            Verdict::Pass if self.unjudged.is_empty() && !self.sinks_far() => Rest::Sound,
            Verdict::Pass | Verdict::CannotTell => Rest::CannotTell,
        }
    }

    /// Whether the seat sinks by more than can be computed.
    #[must_use]
    pub fn sinks_far(&self) -> bool {
        self.sinks.is_some_and(|by| by.is_nan() || by > SMALL)
    }

    /// How the seat fares: it surely stays up only on what was wholly judged.
    #[must_use]
    pub fn comes(&self) -> Down {
        let open = !self.unjudged.is_empty() || self.sinks_far() || self.rest() == Rest::CannotTell;
        if self.seat == Down::Stays && open { Down::Untold } else { self.seat }
    }
}

/// The smallest change that was found to bring an item back.
#[derive(Clone, PartialEq, Debug)]
pub struct Mend {
    /// Name of the item.
    pub name: String,
    /// What to do.
    pub how: How,
    /// Its use after the change, cautious side.
    pub used: f64,
}

/// A reinforcement; stocks are those of the design's shelf.
#[derive(Clone, PartialEq, Debug)]
pub enum How {
    /// A sleeve of this stock, from and to along the member, m, its play filled.
    Sleeve(StockId, f64, f64),
    /// The member of this stock instead.
    Stock(StockId),
    /// Nothing that was tried is enough.
    Nothing,
}

/// Expected life of one member under bumps, as a band.
#[derive(Clone, PartialEq, Debug)]
pub struct Life {
    /// The member.
    pub name: String,
    /// Peak stress at three times the weight, Pa.
    pub stress: f64,
    /// Cycles with the notch factor and without.
    pub cycles: (f64, f64),
}

/// How one load case bends the chair: for drawing.
#[derive(Clone, PartialEq, Debug)]
pub struct Bent {
    /// Place among [`Strength::cases`].
    pub case: usize,
    /// Its bars.
    pub bars: Vec<BentBar>,
}

/// One bent bar.
#[derive(Clone, PartialEq, Debug)]
pub struct BentBar {
    /// What it is.
    pub of: Of,
    /// Its name.
    pub name: String,
    /// Places along it, in order.
    pub stations: Vec<Station>,
}

/// One place along a bent bar.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Station {
    /// From its first joint, m.
    pub at: f64,
    /// Where it is without a load, on the ground, m.
    pub place: Vec3,
    /// How far it shifts, m.
    pub shift: Vec3,
    /// Use of the bar here on the cautious side; `None` inside a socket, or where nothing is known of its material.
    pub used: Option<f64>,
}

/// Something that could not be computed.
#[derive(Clone, PartialEq, Debug)]
pub struct Refused {
    /// The load case, counted among [`Strength::cases`]; `None` for the chair as a whole.
    pub case: Option<usize>,
    /// Names of what moves freely; empty where it is nothing that has a name.
    pub moves: Vec<String>,
    /// The solver's own words, where it gave any.
    pub words: String,
}

/// Everything about strength.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Strength {
    /// Whether there was something to judge: a rider in a chair that stands.
    pub judged: bool,
    /// What the checks were made for.
    pub climate: Option<Climate>,
    /// Mass of the rider that loads are taken for, kg.
    pub mass: f64,
    /// The load cases.
    pub cases: Vec<Case>,
    /// What about the whole chair cannot be told.
    pub open: Vec<Open>,
    /// What holds in the main computation and is not called sound: name, and why.
    pub doubts: Vec<(String, Doubt)>,
    /// What structure and loads took for granted.
    pub taken: Vec<Taken>,
    /// What structure and loads left out.
    pub beside: Vec<Beside>,
    /// The most used thing of each case, with its use on the cautious side.
    pub worst_of_case: Vec<Option<(String, f64)>>,
    /// The greatest cautious use of each thing by name, whatever the load case and the way it would give.
    pub most: Vec<(String, f64)>,
    /// Everything judged, the weakest first.
    pub items: Vec<Item>,
    /// What could not be judged.
    pub untold: Vec<Untold>,
    /// What nothing holds, seen in the drawing.
    pub loose: Vec<Loose>,
    /// Ways in which the frame moves by itself.
    pub swings: Vec<Swing>,
    /// What could not be computed.
    pub refused: Vec<Refused>,
    /// Refused load paths.
    pub forbidden: Vec<Forbidden>,
    /// Things that must not touch.
    pub incompatible: Vec<Incompatible>,
    /// The faces that fasteners go through.
    pub rooms: Vec<Room>,
    /// Fasteners that sit badly.
    pub misplaced: Vec<Misplaced>,
    /// How far the rider's weight sinks, m.
    pub give: f64,
    /// Upward on each wheel under the seated rider: name, N.
    pub feet: Vec<(String, f64)>,
    /// Peak over static load in the drop.
    pub drop: f64,
    /// Largest force out of balance at any node over the largest of all, in any case.
    pub residual: f64,
    /// Factor on the seated load at which the frame gives way sideways.
    pub buckling: Option<f64>,
    /// The same after years under load.
    pub buckling_lasting: Option<f64>,
    /// Lasting sag of the seat against its rails' ends, m.
    pub sag: Option<f64>,
    /// How much nearer to each other a sling seat has then pulled its rails, m; `None` for a sheet.
    pub narrow: Option<f64>,
    /// Greatest change of any use when every joint gives way a little.
    pub softer: Option<f64>,
    /// The joint, both sides as one, whose giving way alone moves that use most, and by what share of itself: the one to
    /// measure. `None` where none of them matters.
    pub softest: Option<(String, f64)>,
    /// How the rear wheels stand after years under the seated rider.
    pub turned: Vec<crate::turned::Turned>,
    /// How the stems of the casters stand then.
    pub leaned: Vec<crate::turned::Leaned>,
    /// By what the seat has then turned, rad, front up is positive.
    pub seat_turned: Option<f64>,
    /// What each joint's failure does.
    pub lost: Vec<Lost>,
    /// How high the lowest edge of the seat stands over the ground, m.
    pub seat_height: Option<f64>,
    /// The first part of frame, wheels and casters under the seat that does not carry it.
    pub under_seat: Option<Under>,
    /// Whether the chair is its own image in the middle plane, so that of twins only one was let go.
    pub mirrored: bool,
    /// Reinforcements of what fails.
    pub mends: Vec<Mend>,
    /// Reinforcements that clear the doubt about what only a test tells, where they were asked for ([`crate::Depth::Clearing`]).
    pub clears: Vec<Mend>,
    /// Life of the weakest members of plastic.
    pub lives: Vec<Life>,
    /// Shapes for drawing.
    pub bent: Vec<Bent>,
    /// What was assumed.
    pub assumed: Vec<Assumed>,
    /// What was not judged.
    pub left_out: Vec<Unchecked>,
}

impl Strength {
    /// The worst verdict of all; nothing judged cannot be told.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        let falls = self.open.iter().any(Open::falls);
        let broken = falls || !self.swings.is_empty() || !self.forbidden.is_empty() || !self.loose.is_empty();
        let items = self.items.iter().map(|i| i.verdict).max();
        let open =
            !self.untold.is_empty() || !self.refused.is_empty() || !self.open.is_empty() || items.is_none();
        let rest = if broken {
            Verdict::Fail
        } else if open {
            Verdict::CannotTell
        } else {
            Verdict::Pass
        };
        items.unwrap_or(Verdict::CannotTell).max(rest)
    }
}
