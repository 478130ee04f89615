//! The plain data of one evaluated design: what the text asked for, in SI units, with typed ids.
//!
//! In comes what `language` evaluated; out it goes to `frame`, `checks`, `making` and `cost`.
//! This room knows no text, no unit names and no formula beyond the section of a bar. It exists so
//! that the language need not know the frame model, nor the frame model the language.
//!
//! Axes of the drawing: x forward, y to the rider's left, z up (as ISO 8855), angles in radians.

mod allowance;
mod body;
mod geometry;
mod heading;
mod id;
mod known;
mod part;
mod spelling;
mod stock;

pub use allowance::{Allowance, Grade, Values};
pub use body::{Body, Carried, Conditions, Deviation, FitRules, Rider, Segment, Surface};
pub use geometry::{
    BoxBeam, Closing, ClosingKind, Drive, Fastening, Joint, JointId, Lap, Made, Member, MemberId, MidJoint,
    Panel, Placing, Sleeve, Support, SupportKind,
};
pub use heading::{Heading, heading};
pub use id::{Arena, Id};
pub use known::{AsBuilt, Baseline, Basis, Carry, Hole, Known, Load, LoadLasts, OtherBuilt, Profile};
pub use part::{Caster, Item, ItemKind, PartSpec, Supply, Wheel};
pub use spelling::{SPELLINGS, spelling};
pub use stock::{
    Band, Bench, Fastener, FittingId, FittingShape, FittingSpec, Material, SectionProperties, Shape, SocketId,
    SocketSpec, Stock, StockId, TakeOut,
};

mod vector;
pub use vector::{Frame3, Vec3};

/// Where in the text something comes from: an index that only the driver can turn into a place.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct Origin(pub u32);

/// Catalogue names and price keys are compared without regard to case, to the number of blanks and to
/// the spelling of trade words.
#[must_use]
pub fn fold(name: &str) -> String {
    let mut out = String::with_capacity(name.len());
    for word in name.split_whitespace() {
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(spelling(&lower(word)));
    }
    out
}

/// A word in small letters, which most are already.
fn lower(word: &str) -> std::borrow::Cow<'_, str> {
    let small = |b: u8| b.is_ascii() && !b.is_ascii_uppercase();
    if word.bytes().all(small) { word.into() } else { word.to_lowercase().into() }
}

/// A name without the side that it begins with: `left.rail` is `rail`.
#[must_use]
pub fn unsided(name: &str) -> &str {
    name.strip_prefix("left.").or_else(|| name.strip_prefix("right.")).unwrap_or(name)
}

/// Whether two names fold to the same, without folding either.
#[must_use]
pub fn same_name(a: &str, b: &str) -> bool {
    let same = |a: &str, b: &str| a == b || spelling(&lower(a)) == spelling(&lower(b));
    let (mut a, mut b) = (a.split_whitespace(), b.split_whitespace());
    loop {
        match (a.next(), b.next()) {
            (None, None) => return true,
            (Some(a), Some(b)) if same(a, b) => {}
            _ => return false,
        }
    }
}

/// The rider's side.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Side {
    /// The rider's left, y positive.
    Left,
    /// The rider's right, y negative.
    Right,
}

impl Side {
    /// `left` or `right`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Side::Left => "left",
            Side::Right => "right",
        }
    }

    /// +1 for left, -1 for right: the sign of y.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Side::Left => 1.0,
            Side::Right => -1.0,
        }
    }
}

/// A parameter with the value it has in this variant.
#[derive(Clone, PartialEq, Debug)]
pub struct Param {
    /// Its name.
    pub name: String,
    /// The value as printed.
    pub value: String,
    /// The value in SI units (angles in radians), where it is a quantity.
    pub si: Option<f64>,
    /// The range as printed, if it has one.
    pub range: Option<String>,
    /// What it means, from its doc comment.
    pub doc: Option<String>,
    /// The stops it can be set to on the finished chair, if it can.
    pub stops: Option<String>,
    /// The unit of that value, in SI; empty for a bare number, `None` where it is no quantity.
    pub unit: Option<String>,
    /// What gave it its value.
    pub given: GivenBy,
    /// Whether a variant or the command line set it.
    pub changed: bool,
    /// How far it may be turned, where it is a plain quantity.
    pub dial: Option<Dial>,
}

/// What gave a parameter its value; the first of them that does wins.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum GivenBy {
    /// The command line.
    CommandLine,
    /// The state.
    State,
    /// A stop of an adjustment.
    Adjustment,
    /// The variant.
    Variant,
    /// A fork of a plan.
    Fork,
    /// Whoever fits an assembly.
    Assembly,
    /// The statement that declares it.
    Plan,
}

impl GivenBy {
    /// In words.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            GivenBy::CommandLine => "command line",
            GivenBy::State => "state",
            GivenBy::Adjustment => "adjustment",
            GivenBy::Variant => "variant",
            GivenBy::Fork => "fork",
            GivenBy::Assembly => "assembly",
            GivenBy::Plan => "plan",
        }
    }

    /// Whether it was asked for from outside of the plan.
    #[must_use]
    pub fn is_asked(self) -> bool {
        !matches!(self, GivenBy::Fork | GivenBy::Assembly | GivenBy::Plan)
    }
}

/// A value that can be changed, in the unit that the language writes it in.
#[derive(Clone, PartialEq, Debug)]
pub struct Dial {
    /// The unit: `mm`, `deg`, `kg`; empty for a bare number.
    pub unit: String,
    /// Its value now.
    pub now: f64,
    /// Least and greatest, where the text gives a range.
    pub range: Option<(f64, f64)>,
    /// The stops of an adjustable dimension; empty for any value.
    pub stops: Vec<f64>,
}

/// One evaluated design.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Design {
    /// The design's name.
    pub name: String,
    /// What it is for, from its doc comment.
    pub purpose: Option<String>,
    /// Revision as written.
    pub revision: Option<String>,
    /// Licence expression.
    pub licence: Option<String>,
    /// The variant; `None` for the base design.
    pub variant: Option<String>,
    /// The state; `None` as it is ridden.
    pub state: Option<String>,
    /// Whether nobody sits in it as it is: a state took its wheels away.
    pub unridden: bool,
    /// Whether the text has a state that takes wheels away: it is then carried in that state.
    pub packs: bool,
    /// Plans that it is made from, nearest first: name, revision, licence.
    pub made_from: Vec<(String, Option<String>, Option<String>)>,
    /// Whether reports print inches and pounds.
    pub inches: bool,
    /// The denominator that inches are printed to; 0 for decimals.
    pub fraction: u32,
    /// The use profile.
    pub profile: Option<Profile>,
    /// Values with where they come from.
    pub known: Vec<Known>,
    /// The parameters.
    pub params: Vec<Param>,
    /// What was assumed because the text did not say it.
    pub assumptions: Vec<String>,
    /// The rider.
    pub rider: Rider,
    /// The table of body segments.
    pub body: Body,
    /// What was measured on the built chair.
    pub as_built: Option<AsBuilt>,
    /// A chair that the rider likes.
    pub baseline: Option<Baseline>,
    /// What rides along.
    pub carried: Vec<Carried>,
    /// The set of fit rules that the design keeps to.
    pub fit_rules: Option<FitRules>,
    /// Rules that it departs from on purpose.
    pub deviations: Vec<Deviation>,
    /// Kinds of ground that are known.
    pub surfaces: Vec<Surface>,
    /// What materials, joints and tyres may be asked to bear.
    pub allowances: Vec<Allowance>,
    /// Where the chair is used.
    pub conditions: Conditions,
    /// Pipe, boards and sheets in use.
    pub stocks: Arena<Stock>,
    /// Socket tables in reach.
    pub sockets: Arena<SocketSpec>,
    /// Fittings in reach.
    pub fittings: Arena<FittingSpec>,
    /// Fasteners in use.
    pub fasteners: Vec<Fastener>,
    /// Stocks on the pages in use that could stand in for those that are used.
    pub shelf: Arena<Stock>,
    /// Joints.
    pub joints: Arena<Joint>,
    /// Members.
    pub members: Arena<Member>,
    /// Panels.
    pub panels: Vec<Panel>,
    /// Closed boxes.
    pub boxes: Vec<BoxBeam>,
    /// How joints are closed, where the text says so.
    pub closings: Vec<Closing>,
    /// Holes and slots.
    pub holes: Vec<Hole>,
    /// Extra load cases.
    pub loads: Vec<Load>,
    /// What is fastened to what.
    pub fastenings: Vec<Fastening>,
    /// Seat, back and foot support.
    pub supports: Vec<Support>,
    /// Rear wheels (and any other wheel that does not swivel).
    pub wheels: Vec<Wheel>,
    /// Casters.
    pub casters: Vec<Caster>,
    /// Other bought parts with a place.
    pub items: Vec<Item>,
    /// Things to buy that have no place, such as cement.
    pub supplies: Vec<Supply>,
}

impl Design {
    /// Whether there is no chair in it: a page of parts or of values that designs use.
    #[must_use]
    pub fn is_page(&self) -> bool {
        self.joints.is_empty()
            && self.members.is_empty()
            && self.panels.is_empty()
            && self.boxes.is_empty()
            && self.items.is_empty()
            && self.supports.is_empty()
            && self.wheels.is_empty()
            && self.casters.is_empty()
    }

    /// A fastener in use, by name.
    #[must_use]
    pub fn fastener(&self, name: &str) -> Option<&Fastener> {
        self.fasteners.iter().find(|f| same_name(&f.name, name))
    }

    /// What a material or a bond is asked to bear, by name; one of a page of the builder's own comes before a shipped one.
    #[must_use]
    pub fn allowance(&self, name: &str) -> Option<&Allowance> {
        self.allowances.iter().find(|a| same_name(&a.name, name))
    }

    /// The allowance that a material names: that of its grade, where it has one.
    #[must_use]
    pub fn allowance_of(&self, material: &Material) -> Option<&Allowance> {
        self.allowance(material.grade.as_deref().or(material.allowance.as_deref())?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two names are the same exactly where they fold to the same.
    #[test]
    fn same_names_fold_alike() {
        let names =
            ["Tee 1 in", "tee  1 IN", "tee 1", "tee 1 in x", "castor 125", "Caster 125", "", " ", "Ærø", "ærø"];
        for a in names {
            for b in names {
                assert_eq!(same_name(a, b), fold(a) == fold(b), "{a:?} {b:?}");
            }
        }
    }
}
