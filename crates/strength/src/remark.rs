//! What structure and loads took for granted, left out or could not tell: plain data, no sentences.

use crate::case::CaseKind;
use crate::structure::TieOf;
use crate::turned::{Leaned, Turned};
use chairwright_design::Origin;
use chairwright_resistance::compatible::Wetness;

/// Where the size of a load case is from.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Source {
    /// The rider's weight as it is.
    Weight,
    /// Everyday shocks, so many times the weight. Common practice, no source.
    Bumps(f64),
    /// A fall from this height, m, on what gives way by so much under the weight, m:
    /// [`chairwright_resistance::shock::fall`].
    Fall(f64, f64),
    /// A fall from this height on tyres that are pressed flat on the way:
    /// [`chairwright_resistance::shock::bottoming`].
    Bottoms {
        /// m.
        height: f64,
        /// How far the tyres give way under the weight, m.
        tyres: f64,
        /// How far the chair without them does, m.
        chair: f64,
        /// Times the weight at which the first tyre is flat.
        reached: f64,
    },
    /// A fall of what some wheels carry at rest onto them alone.
    Lands {
        /// Share of the weight of chair and rider that they carry.
        share: f64,
        /// Peak over that.
        factor: f64,
        /// m.
        height: f64,
        /// How far chair and tyres give way under it, m.
        give: f64,
        /// Whether a tyre is pressed flat.
        flat: bool,
    },
    /// Shocks of the use profile, so many times the weight.
    ProfileBumps(f64),
    /// This share of the weight of head, arms and trunk, square to the back. Common practice, no source.
    Trunk(f64),
    /// Statics: the wheels that are left carry.
    FewerWheels,
    /// Statics: two wheels carry, and the rider leans at most this share of the seat's width aside.
    TwoWheels(f64),
    /// The push that climbs an edge, [`chairwright_resistance::shock::climb`], so many times over for coming at once; and what
    /// share of it is left where all casters strike together.
    Climb(f64, f64),
    /// The whole weight on a corner patch of the seat, of these shares of its depth and width. Common practice,
    /// no source.
    Corner(f64, f64),
    /// So many times the weight on two arms, this far outward, rad: the arm test of ISO 7176-8, from memory, not
    /// checked.
    Arm(f64, f64),
    /// The whole weight on the front edge of the foot support. Common practice, no source.
    Edge,
    /// All but this share of the weight on the anti-tip devices, as where the chair is about to go over them. Common practice,
    /// no source.
    TippedBack(f64),
    /// Held by hands and by the wheels at the other end, with a jerk of so many times. Common practice, no source.
    Lift(f64),
    /// Held by hands alone, two to a side, with a jerk of so many times. Common practice, no source.
    LiftWhole(f64),
    /// Up the declared slope with this share of rolling, at least so many N. Common practice, no source.
    Push(f64, f64),
    /// The design.
    Design,
    /// The design, so many times over for coming at once: 1 + √(1 + 2h/δ) with h = 0.
    Blow(f64),
}

/// What was taken for granted.
#[derive(Clone, PartialEq, Debug)]
pub enum Taken {
    /// Joints are rigid in the main computation; beside it every joint turns as so many diameters of its pipe more
    /// would.
    RigidJoints(f64),
    /// A tyre gives way by its load over this, N/m.
    Tyre {
        /// Of a caster, or of a rear wheel.
        caster: bool,
        /// N/m.
        stiffness: f64,
        /// Whether the catalogue says so; else it was taken here.
        known: bool,
    },
    /// A sling hangs through by this, m.
    SlingSag {
        /// Index among the design's supports.
        support: usize,
        /// m.
        sag: f64,
        /// Whether the text says so; else it was taken here.
        known: bool,
    },
    /// A panel is arms of sheet to where it is held.
    PanelArms,
    /// A caster's stem is held by this bar, as drawn, though its seat lies this far from the bar's face, m.
    Stem(String, String, f64),
    /// A load of the design acts on this bar, at the end of a rigid arm of so many m.
    Reach {
        /// Name of the load.
        load: String,
        /// Name of the bar.
        bar: String,
        /// Length of the arm, m.
        arm: f64,
    },
    /// Nothing fastens these parts to a bar: each hangs on the nearest; part and bar.
    Hangs(Vec<(String, String)>),
    /// Something that rides along loads the chair in every case.
    Rides {
        /// Its name.
        what: String,
        /// In kg.
        mass: f64,
        /// Name of the bar that it hangs on and length of the arm, m; `None` where it rides on the rider's lap.
        on: Option<(String, f64)>,
    },
    /// A support does not lie on a bar that is drawn so little away from it that it may be meant to.
    Misses {
        /// Index among the design's supports.
        support: usize,
        /// Name of the bar.
        bar: String,
        /// The gap, m.
        gap: f64,
    },
    /// These wheels lift off in a case, and the others carry.
    LiftOff(CaseKind, Vec<String>),
    /// The chair would tip in a case; these wheels are taken to be held to the ground.
    HeldDown(CaseKind, Vec<String>),
    /// Sheets are held along their face by fasteners that slip; once more with as little as is sure of them.
    Slip,
    /// What was measured or published of how stiff joints are, N·m/rad: names without their sides.
    Stiffness(Vec<(String, f64)>),
    /// These supports only lie on their bars: they press and never pull.
    OnlyLies(Vec<usize>),
}

/// What was not checked.
#[derive(Clone, PartialEq, Debug)]
pub enum Beside {
    /// The bodies of the fittings.
    FittingBodies,
    /// Wheels, axles, stems, forks, brakes and straps.
    BoughtParts,
    /// The fasteners of a support, which are pulled off by so many N at one place at most, and pushed along its face by
    /// so many N.
    SupportFasteners {
        /// Index among the design's supports.
        support: usize,
        /// Off the bar, N.
        pull: f64,
        /// Along the bar's face, N.
        along: f64,
    },
    /// The fasteners along the edges of a sling, of which each that holds the band that carries most is pulled with so many N.
    SlingFasteners {
        /// Index among the design's supports.
        support: usize,
        /// On one fastener, by the cloth and the weight in it, N.
        each: f64,
    },
    /// Conditions of the place that no load case goes by, as the text calls them.
    Unused(Vec<&'static str>),
    /// Whether a support that only lies there slides off: index among the design's supports.
    Slides(usize),
    /// How far wheels and stems turn as the frame gives way in all but the rider who sits for years: toe, camber, flutter.
    Toe,
    /// Wear, sun, chemicals, what a dropped chair does to a corner.
    Age,
    /// A fastening of two sheets to each other.
    Sheets(String, String),
}

/// What a chair lacks that a load could be put on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Absent {
    /// There is no `seat`: a sheet or a panel that nobody calls so carries nobody.
    Seat,
    /// There is a seat, and no rider of whom it is known what they weigh.
    Rider,
    /// There is neither a member nor a box: panels and supports alone are not worked out.
    Frame,
    /// There are no wheels at all.
    Wheels,
}

/// What about the whole chair cannot be told.
#[derive(Clone, PartialEq, Debug)]
pub enum Open {
    /// Nothing was judged, for nobody sits on it.
    Nobody(Absent),
    /// Casters that no push lifts over a declared edge: names, height of the edge and least radius, m.
    Edge {
        /// Names of the casters.
        casters: Vec<String>,
        /// Height of the edge, m.
        edge: f64,
        /// Least radius, m.
        radius: f64,
    },
    /// The drop could not be sized: the chair does not give way under its rider.
    Drop,
    /// Tyres that stand on their rims under the rider alone: names, and how far the first can be pressed in, m.
    Flat(Vec<String>, f64),
    /// A sheet that may be meant to lie on a bar, and is drawn a little above it.
    Above {
        /// Index among the design's supports.
        support: usize,
        /// Name of the bar.
        bar: String,
        /// The gap, m.
        gap: f64,
    },
    /// The stem of a caster that a case bends beyond what surely is sound.
    Stem {
        /// Index among the design's casters.
        caster: usize,
        /// Place among [`crate::Strength::cases`].
        case: usize,
        /// Moment at its seat, N·m.
        moment: f64,
        /// What is sound for the weakest steel, threaded there, N·m.
        sound: f64,
        /// Its diameter, m.
        diameter: f64,
        /// Whether it is more than any steel bears.
        breaks: bool,
    },
    /// A bought caster of which nobody says how thick its stem is.
    StemSize {
        /// Index among the design's casters: of this part the one that is bent most.
        caster: usize,
        /// Place among [`crate::Strength::cases`].
        case: usize,
        /// Moment at its seat, N·m.
        moment: f64,
        /// Diameter from which a stem of the weakest steel, threaded there, surely bears it, m; `None` where none does.
        sound: Option<f64>,
        /// Diameter below which no steel bears it, m.
        breaks: f64,
    },
    /// The axle of a wheel that a case bends beyond what surely is sound.
    Axle {
        /// Index among the design's wheels.
        wheel: usize,
        /// Place among [`crate::Strength::cases`].
        case: usize,
        /// From the middle of the wheel to what holds the axle, m.
        lever: f64,
        /// Moment there, N·m.
        moment: f64,
        /// What is sound for the weakest steel, threaded there, N·m.
        sound: f64,
        /// Its diameter, m.
        diameter: f64,
        /// Whether it is more than any steel bears.
        breaks: bool,
    },
    /// The axle of a wheel of which nobody says how thick it is, or how far it stands out of what holds it.
    AxleUntold {
        /// Index among the design's wheels.
        wheel: usize,
        /// Whether its diameter is known.
        diameter: bool,
        /// From the middle of the wheel to what holds the axle, m, where that is known.
        lever: Option<f64>,
        /// The most that any case puts on the wheel, N.
        most: f64,
    },
    /// A handle or an anti-tip device that the text fastens to nothing, and that touches nothing.
    Unheld {
        /// Index among the design's items.
        item: usize,
        /// The bar that it is taken to hang on.
        bar: String,
        /// From its face to the handle, m.
        air: f64,
    },
    /// Wheels and casters whose axle or stem presses into bare wood or plastic: which, and into what.
    Pressed(Vec<(TieOf, String)>),
    /// A wheel or caster that carries more than it is rated for.
    Rated {
        /// Whether it is a caster.
        caster: bool,
        /// Index among the design's wheels or casters.
        index: usize,
        /// The case that puts most on it, counted among [`crate::Strength::cases`].
        case: usize,
        /// Force on it, N.
        load: f64,
        /// What it is rated for, kg.
        rated: f64,
    },
    /// Supports that come off what they only lie on, in a case.
    Leaves {
        /// Place among [`crate::Strength::cases`]; `None` when the rider just sits.
        case: Option<usize>,
        /// Indices among the design's supports.
        supports: Vec<usize>,
    },
    /// Plastic pipe of which no standard says that its wall is solid: its wall may have a core of foam.
    Unmarked {
        /// Place in the text.
        origin: Origin,
        /// The pipe.
        stock: String,
        /// What stands where the standard should.
        said: Option<String>,
    },
    /// Wood of which nobody knows what was done to it, or that is poisoned and that the rider's body does not rest on.
    Salvaged {
        /// Place in the text.
        origin: Origin,
        /// What it is.
        stock: String,
        /// Whether it is known to be poisoned.
        poisoned: bool,
    },
    /// Bare steel, or what may be of it, in salt water.
    Rusts {
        /// Place in the text of the first.
        origin: Origin,
        /// What rusts.
        names: Vec<String>,
    },
    /// A paint of which no word tells what it is thinned with, on a chair with plastic in it.
    Paint {
        /// Place in the text.
        origin: Origin,
        /// The paint.
        paint: String,
        /// The pipe or sheet of rigid PVC.
        plastic: String,
    },
    /// Something on the plastic of a chair of which no word tells whether it harms it.
    Stuff {
        /// Place in the text.
        origin: Origin,
        /// What.
        what: String,
        /// The pipe or sheet of rigid PVC.
        plastic: String,
    },
    /// Fasteners of which no word tells the metal, in a metal that some of those that they may be of must not touch.
    UnnamedMetal {
        /// Place in the text.
        origin: Origin,
        /// The fastener.
        fastener: String,
        /// What it goes through.
        held: String,
        /// The water that joins them.
        wet: Wetness,
    },
    /// A glue of which no word tells what it holds.
    GlueClass {
        /// Place in the text.
        origin: Origin,
        /// As written.
        glue: String,
    },
    /// Boxes of wood in a wet place of which nobody says what glue holds their corners: the first, and how many more.
    CornerGlue {
        /// Place in the text.
        origin: Origin,
        /// Its name.
        name: String,
        /// How many more.
        rest: usize,
    },
    /// A second support of a kind: nothing is put on it.
    Unloaded(usize),
    /// A panel that is fastened at one place only: it was left out.
    OneHold(usize),
    /// What softer joints do could not be computed in every case.
    Softer,
    /// Whether the frame gives way sideways could not be computed.
    Sideways,
    /// A rear wheel that the load of years takes past the limit for toe.
    Toes(Turned),
    /// A caster whose stem the load of years takes past the limit for upright.
    Leans(Leaned),
    /// The frame gives way sideways too early to trust the rest.
    GivesSideways {
        /// Load factor at which it gives way.
        factor: f64,
        /// Load factor that is wanted.
        wanted: f64,
        /// After years under load, or at once.
        lasting: bool,
    },
    /// Nobody says how warm it gets where the chair is used, and plastic bears it: it was judged at this temperature, K.
    WarmthUnsaid {
        /// The materials.
        of: Vec<String>,
        /// K.
        at: f64,
    },
    /// Points of screws or nails that come out behind.
    PointsOut {
        /// The fastening or joint.
        name: String,
        /// Where it stands in the text.
        origin: Origin,
        /// What comes out.
        by: String,
        /// Its length, m.
        length: f64,
        /// How far, m.
        out: f64,
    },
    /// Screws or nails of a gusset's two plates that meet in the member between them.
    PointsMeet {
        /// The joint.
        name: String,
        /// Where it stands in the text.
        origin: Origin,
        /// What meets.
        by: String,
        /// Its length, m.
        length: f64,
        /// The length from which points touch, m.
        most: f64,
    },
    /// A seat that sags by this after years, m, where a sling is taken to hang through by no more than this, m.
    Sags {
        /// Index among the design's supports.
        support: usize,
        /// m.
        sag: f64,
        /// m.
        most: f64,
    },
    /// A sling seat pulls its rails together by this after years, m: more than the room that the hips have, or than a
    /// sling is taken to hang through.
    Narrows {
        /// Index among the design's supports.
        support: usize,
        /// m.
        by: f64,
        /// How much wider the seat is than the hips, m, where that is known.
        ease: Option<f64>,
    },
}

impl Open {
    /// Whether the chair falls, as far as can be told.
    #[must_use]
    pub fn falls(&self) -> bool {
        match self {
            Open::GivesSideways { factor, .. } => *factor < 1.0,
            Open::Stem { breaks, .. } | Open::Axle { breaks, .. } => *breaks,
            _ => false,
        }
    }
}

/// Why an item that holds in the main computation is not called sound.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Doubt {
    /// With joints that give way it is used to this.
    SofterJoints(f64),
    /// With bending raised for the frame's giving way sideways it is used to this.
    Sideways(f64),
    /// In the wet it is used to this, and nobody says that it stays dry; unknown where nothing can tell.
    Wet(f64),
}
