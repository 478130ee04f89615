//! Reports: text, JSON, CSV, drawings and solids.
//!
//! In comes a [`chairwright_driver::Compilation`]; out go bytes. This room computes no physical
//! number: it arranges, rounds for reading and draws what the others worked out.

mod bar;
mod bent_sheet;
mod csv;
mod drawing;
mod drawing_bent;
mod gltf;
mod holes;
mod json;
mod json_beside;
mod json_loose;
mod json_marks;
mod json_rider;
mod json_sheet;
mod json_strength;
mod json_trust;
mod order;
mod paint;
mod patch;
mod scene;
mod slopes;
mod table;
mod text;
mod text_beside;
mod text_cases;
mod text_making;
mod text_marks;
mod text_rider;
mod text_roll;
mod text_sheet;
mod text_strength;
mod text_trust;
mod title;
mod view;
mod writer;

pub use csv::{bill_csv, cuts_csv};
pub use drawing::drawing;
pub use drawing_bent::bent_drawings;
pub use gltf::glb;
pub use json::{SCHEMA, json};
pub use json_sheet::sheet_json;
pub use slopes::slopes_drawing;
pub use table::Table;
pub use text::{family_text, figures_text, report_text, trail_text};
pub use text_sheet::sheet_page;
pub use view::View;

/// The caution that every report carries.
pub const CAUTION: &[&str] = &[
    "This is a computed plan, not a test and not a fitting. A wrong chair can hurt: let somebody \
     trained in seating check the fit, and load, tilt and brake-test the empty chair before \
     anyone sits in it.",
    "Strength, clearances, finger gaps, brakes and slopes are computed from the drawing, not tested; what is not checked of \
     strength stands under DOES IT HOLD. Not checked at all: wear, caster flutter, folding parts, behaviour in motion, \
     pressure on skin, posture over hours. Slopes are those of a rigid body and no ISO 7176-1 result. Local codes and \
     licensed practice decide.",
];
