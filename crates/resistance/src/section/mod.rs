//! Sections that a plain shape does not cover: with a drilled hole, of any outline, of several
//! materials glued into one. Axes y and z in the plane of the section, in m.

mod hole;
mod outline;
mod principal;

pub use hole::{Through, rectangle_with_hole, tube_with_hole};
pub use outline::{Piece, assembled, outline, rectangle};
pub use principal::{Principal, Properties, box_glue_line, shear_flow};
