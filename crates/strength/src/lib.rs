//! Does the chair hold: load cases, stresses, what gives first.
//!
//! In come the evaluated [`chairwright_design::Design`], its [`chairwright_frame::Frame`] and the chair
//! at rest with its rider ([`chairwright_checks::Checked`]); out goes [`Strength`], plain data: the
//! load cases, everything judged with the weakest first, what could not be judged and why, what moves
//! by itself, refused load paths, and shapes for drawing.
//!
//! The structure is made from the drawing alone ([`strength`]): bars where there are members and
//! boxes, strips where there are sheets, ties where the text joins, fastens or lays things on each
//! other. A bought part is rigid, a tyre a spring. Every figure of a material comes from a catalogue
//! page; every answer is `holds`, `fails` or `cannot tell`.
//!
//! Everything is judged on two sides. On the plain side a load is held against the likely strength of the thing in this climate and
//! for loads of this kind: a blow or bumps against the strength itself, a load that stays or is put on slowly against what the
//! strength's own rule lets it bear, its safety in it, since nobody builds beyond that. Beyond it the thing `fails`, which texts
//! call "surely breaks". On the cautious side safety, scatter, knots, notches, the worst placing of fasteners and the stiffest
//! joints stand against it: up to it the thing `holds`. What lies between, and what nothing is known of, nobody can tell. Of every
//! part the greatest share of either side is told, whatever the load. What is not known never takes anything from the plain side:
//! a glue without a class, a bench test that is none, a hole too wide to reckon with leave a thing what it is without them, or
//! worse.
//!
//! This room formats nothing: even why a joint is not judged is data (`reasons.rs`). It must not know texts and
//! prices. It is not an ISO 7176 test and no proof.

mod afloat;
mod answer;
mod assumed;
mod axle;
mod bar;
mod below;
mod bent;
mod bolts;
mod case;
mod cases;
mod column;
mod compatible;
mod contact;
mod coverage;
mod deck;
mod demand;
mod doubt;
mod drill;
mod driven;
mod edges;
mod edgewise;
mod extras;
mod face;
mod follow;
mod form;
mod gluing;
mod grain;
mod grasp;
mod gusset;
#[cfg(test)]
mod hand;
mod heard;
mod joints;
mod judge;
mod landing;
mod lean;
mod limit;
mod load;
mod lost;
mod matter;
mod mend;
mod metals;
mod mirror;
mod model;
mod piece;
mod placing;
mod plates;
mod points;
mod rated;
mod reasons;
mod remark;
mod rolling;
mod room;
mod salvage;
mod screws;
mod seam;
mod seat;
mod seek;
mod settle;
mod sheet;
#[cfg(test)]
mod shipped;
mod side;
mod sleeve;
mod sling;
mod slip;
mod slot;
mod sockets;
mod solve;
mod space;
mod spread;
mod stem;
mod strike;
mod structure;
mod ties;
mod told;
mod turned;
mod tyre;
mod untold;
mod walls;
mod warmth;
mod weight;
mod whole;

pub use answer::{
    Bent, BentBar, Family, Foam, Forbidden, How, Incompatible, Item, Life, Lost, Mend, Mode, Refused, Rest,
    Station, Strength, Swing, Untold, Verdict, What, doubted,
};
pub use assumed::{Assumed, IdleSleeve, Unchecked};
pub use bar::Of;
pub use below::{Beneath, Under};
pub use case::{Case, CaseKind, End, KERB, Lasting, Swung};
pub use chairwright_resistance::Never;
pub use chairwright_resistance::compatible::{Stuff, Wetness};
pub use follow::Down;
pub use form::{Drilled, Forces, Form, Stress};
pub use limit::{Climate, Unknown};
pub use placing::{Ill, Misplaced, Near};
pub use reasons::{Micron, Reason};
pub use remark::{Absent, Beside, Doubt, Open, Source, Taken};
pub use room::{Laid, Room, Through};
pub use settle::steps;
pub use side::without_side;
pub use structure::{Loose, TieOf};
pub use turned::{Leaned, Turned};
pub use weight::bags;
pub use whole::{Depth, strength, tie_name};
