//! For tests: the figures that are shipped, read from the catalogue's own pages.

use crate::case::{Case, CaseKind, Lasting};
use crate::load::Push;
use crate::model::Setup;
use chairwright_design::{Design, Material};
use chairwright_driver::{Options, ReadError, World, compile};

struct One(String);

impl World for One {
    fn read(&self, path: &str) -> Result<String, ReadError> {
        if path == "main.chair" { Ok(self.0.clone()) } else { Err(ReadError::Missing) }
    }
}

/// A design with these lines, all catalogue pages beside it.
pub(crate) fn design(lines: &str) -> Design {
    compile(&One(lines.to_owned()), "main.chair", &Options::default()).1.design
}

/// A pipe, a tube of steel and a box of plywood, with a rider, so that the shelf is filled.
pub(crate) const PARTS: &str = "use catalogue.pipe_inch
use catalogue.metal
use catalogue.panels
rider { mass = 70 kg }
conditions { temperature = 23 degC, coldest = 14 degC }
stock ply = \"plywood 18 mm\"
joint a at left 200 mm, up 300 mm
joint b at right 200 mm, up 300 mm
joint c at b, up 300 mm
member rail = \"pipe 1 1/4 in sch40\" from a to b
member post = \"steel tube emt 1 1/2 in\" from b to c
box side = ply from left 200 mm, forward 420 mm, up 260 mm to right 200 mm, forward 420 mm, up 260 mm outside 120 mm by 90 mm
";

/// A material of [`PARTS`] by name.
pub(crate) fn material(name: &str) -> (Design, Material) {
    let design = design(PARTS);
    let found = design.stocks.values().find(|s| s.material.name == name).map(|s| s.material.clone());
    let found = found.unwrap_or_else(|| panic!("no stock of {name}"));
    (design, found)
}

/// A load for a short time.
pub(crate) fn short(pushes: Vec<Push>) -> Case {
    let setup = Setup::default();
    Case {
        kind: CaseKind::Pushing,
        lasting: Lasting::Short,
        size: 1.0,
        source: crate::remark::Source::Weight,
        pushes,
        setup,
    }
}
