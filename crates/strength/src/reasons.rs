//! Why what holds a joint is not judged, as data: whoever words it knows the units of the design.

use chairwright_resistance::{Figure, Never, NotKnown, Outside, Refusal};

/// A length in whole micrometres, so that reasons can be told apart and sorted.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Micron(i64);

impl Micron {
    /// In metres.
    #[must_use]
    #[allow(clippy::cast_precision_loss)]
    pub fn metres(self) -> f64 {
        self.0 as f64 * 1e-6
    }
}

impl From<f64> for Micron {
    fn from(metres: f64) -> Micron {
        #[allow(clippy::cast_possible_truncation)]
        Micron(libm::round(metres * 1e6) as i64)
    }
}

/// Why something that holds a joint is not judged.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Reason {
    /// A load path that is refused.
    Never(Never),
    /// Glue that is pulled open or peeled.
    Peeled,
    /// A screw that ends within the first piece.
    EndsInFirst,
    /// A screw of which too little is in the second piece: so much, where so much is wanted.
    ShallowBite(Micron, Micron),
    /// Thinner than what was tested: this, and the thinnest.
    TooThin(Micron, Micron),
    /// Thicker than what was tested: this, and the thickest.
    TooThick(Micron, Micron),
    /// Wood of another density than was tested: this, the lowest and the highest, kg/m³.
    Density(u32, u32, u32),
    /// Too few fasteners for a moment.
    TooFew,
    /// A fastener at the very end of its pipe.
    PipeEnd,
    /// A figure outside of what a formula is known for.
    Outside,
    /// Another joint at the same place takes what goes through.
    Shared,
    /// A fastener that no page describes.
    NoPage(String),
    /// Rivets.
    Rivets,
    /// Dowels of wood.
    Dowels,
    /// Nails or screws driven aslant.
    Slanted,
    /// Wood that splits where no lead hole is drilled: how thick it is, and how thick it must be.
    Splits(Micron, Micron),
    /// Wood so dense that it splits without lead holes.
    SplitsDense,
    /// Screws and bolts side by side.
    Mixed,
    /// Neither fastener nor glue is named.
    Nothing,
    /// Screws in something that is no wood.
    ScrewsElsewhere,
    /// A sleeve shorter than its pipe is wide: its length, and the width.
    SleeveShort(Micron, Micron),
    /// A sleeve longer than all that its bolt goes through: its length, and that of the stack.
    SleeveLong(Micron, Micron),
    /// A sleeve no thicker outside than the bolt that has to go through it: its outside diameter, and the bolt's.
    SleeveNarrow(Micron, Micron),
    /// A nut that goes on none of the bolts.
    WrongNut(String),
    /// The text does not place them, and nowhere on the face is room for so many with the distances that they must keep.
    NoRoom {
        /// How many there are.
        has: u32,
        /// How many fit.
        fits: u32,
        /// The face.
        face: [Micron; 2],
        /// The thickest of which all fit.
        thinner: Option<Micron>,
        /// A face on which all fit.
        larger: Option<[Micron; 2]>,
    },
    /// Nobody knows how large the face is.
    NoFace,
    /// The text puts them where they cannot sit, which has a finding of its own.
    Misplaced,
    /// A load that nothing follows.
    Unfollowed,
    /// A joint that no rule knows.
    NoRule,
    /// On one bar only.
    OneBar,
    /// In the middle of a sheet only.
    MiddleOnly,
    /// Axes that cross.
    AxesCross,
    /// Air between the pieces.
    Air(Micron),
    /// Sheets edge to edge, or a bar in a sheet.
    EdgeToEdge,
    /// More than two members meet.
    Crowd,
    /// A member that is not in the frame.
    NotInFrame,
    /// Members in one line.
    InLine,
    /// A member that runs on past the joint where the text stops it at another.
    RunsPast(String),
    /// Gusset plates that are no sheet.
    PlatesNoSheet,
    /// A bolt that is too short: its length, and what is wanted.
    ShortBolt(Micron, Micron),
    /// One of the two is no wood.
    OneOfWood,
    /// Neither of the two is wood.
    NoneOfWood,
    /// A head on end grain or on an edge.
    HeadOnEnd,
    /// A bolt in the edge of a sheet.
    BoltInEdge,
    /// A bolt in end grain or in an edge.
    BoltInEnd,
    /// Bolts lengthwise into the end of a piece.
    Lengthwise,
    /// A glue whose name says no class.
    GlueClass,
    /// Glue on something that is no wood.
    GlueNoWood,
    /// A bar that no fitting is known to hold.
    NoPipe(String),
    /// A bar that ends in no socket.
    NoSocket(String),
    /// A bar whose load at its socket's edge could not be read.
    LipUnread(String),
    /// A bar whose load could not be read where it slips through.
    SlipUnread(String),
    /// A bolt through a slip fitting's wall.
    SlipBolt,
    /// It only lies in its hub.
    SlipLies,
    /// A bar that a thread holds.
    Thread(String),
    /// A bar that is so far in a socket of such a depth.
    NotHome(String, Micron, Micron),
}

impl From<&Refusal> for Reason {
    fn from(why: &Refusal) -> Reason {
        match why {
            Refusal::Never(never) => Reason::Never(*never),
            Refusal::NotKnown(NotKnown::TensionAcrossGlue) => Reason::Peeled,
            Refusal::Outside(out) => outside(out),
        }
    }
}

fn outside(out: &Outside) -> Reason {
    let (value, low, high) = (out.value, out.low, out.high);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let density = |gravity: f64| libm::round(gravity * 1e3).clamp(0.0, 1e6) as u32;
    match out.figure {
        Figure::Depth if value <= 0.0 => Reason::EndsInFirst,
        Figure::Depth if value < low => Reason::ShallowBite(value.into(), low.into()),
        Figure::Diameter if value < low && low > 1e-6 => Reason::TooThin(value.into(), low.into()),
        Figure::Diameter if value > high => Reason::TooThick(value.into(), high.into()),
        Figure::Gravity => Reason::Density(density(value), density(low), density(high)),
        Figure::SecondMoment | Figure::Count => Reason::TooFew,
        Figure::Length => Reason::PipeEnd,
        _ => Reason::Outside,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_resistance::connection::penetration_factor;

    /// Six diameters of a 5 mm screw are 30 mm.
    #[test]
    fn a_short_bite_is_told_with_its_lengths() {
        let why = penetration_factor(0.012, 0.005).unwrap_err();
        let Reason::ShallowBite(has, wants) = Reason::from(&why) else { panic!("{why:?}") };
        assert!((has.metres() - 0.012).abs() < 1e-9 && (wants.metres() - 0.030).abs() < 1e-6);
    }
}
