//! Cement and glue that the design uses and no `supply` of it buys. How far a tin goes no page here knows, so they are listed
//! without a number and without a price.

use crate::fold;
use chairwright_design::{Allowance, Design, Shape, StockId};
use chairwright_frame::Frame;
use indexmap::IndexMap;

/// The usual names of what nobody names: cement for pipe, glue for the corners of a box.
const CEMENT: &str = "solvent cement";
const GLUE: &str = "wood glue";
/// Words by which a glue is known that may be for the corners of a box.
const GLUES: [&str; 6] = ["glue", "adhesive", "epoxy", "resorcinol", "pva", "polyurethane"];

/// Something that is used up, and by how much of the chair.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct UsedUp {
    /// Its name.
    pub key: String,
    /// Joints that it holds.
    pub joints: usize,
    /// Boxes whose corners it holds.
    pub boxes: usize,
}

impl UsedUp {
    /// What it is for.
    #[must_use]
    pub fn needed(&self) -> String {
        let count = |n: usize, one: &str, many: &str| match n {
            0 => None,
            1 => Some(format!("1 {one}")),
            n => Some(format!("{n} {many}")),
        };
        let all = [count(self.joints, "joint", "joints"), count(self.boxes, "box", "boxes")];
        all.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// Everything of that kind, in the order of the text; cement last.
#[must_use]
pub fn used_up(design: &Design, frame: &Frame) -> Vec<UsedUp> {
    let bought = |is: &dyn Fn(&str) -> bool| design.supplies.iter().any(|s| is(&fold(&s.name)));
    let mut all: IndexMap<String, UsedUp> = IndexMap::new();
    for glue in design.closings.iter().filter_map(|c| c.glue.as_ref()) {
        add(&mut all, glue, (1, 0));
    }
    let of = |stock: StockId| design.allowance_of(&design.stocks[stock].material);
    let boxes = design.boxes.iter().filter(|b| of(b.stock).is_some_and(Allowance::is_wood)).count();
    // what is named for joints, or bought, is taken for the corners too
    let named = all.keys().find(|k| is_glue(k)).cloned();
    match named {
        Some(glue) => add(&mut all, &glue, (0, boxes)),
        None if boxes > 0 && !bought(&is_glue) => add(&mut all, GLUE, (0, boxes)),
        None => {}
    }
    all.retain(|key, _| !bought(&|s| s == key));
    let cemented = cemented(design, frame);
    if cemented > 0 && !bought(&|s| s.contains("cement")) {
        add(&mut all, CEMENT, (cemented, 0));
    }
    all.into_values().collect()
}

fn add(all: &mut IndexMap<String, UsedUp>, key: &str, (joints, boxes): (usize, usize)) {
    let new = || UsedUp { key: key.to_owned(), joints: 0, boxes: 0 };
    let row = all.entry(fold(key)).or_insert_with(new);
    row.joints += joints;
    row.boxes += boxes;
}

fn is_glue(key: &str) -> bool {
    GLUES.iter().any(|g| key.contains(g))
}

/// Joints that a fitting closes on pipe of plastic.
fn cemented(design: &Design, frame: &Frame) -> usize {
    let plastic = |joint: &chairwright_frame::JointReport| {
        joint.members.iter().any(|m| {
            let stock = &design.stocks[design.members[*m].stock];
            matches!(stock.shape, Shape::Tube { .. })
                && design.allowance_of(&stock.material).is_some_and(|a| a.family == "plastic")
        })
    };
    let fitted = |joint: &chairwright_frame::JointReport| frame.fittings.iter().any(|f| f.joint == joint.joint);
    frame.joints.iter().filter(|j| fitted(j) && plastic(j)).count()
}
