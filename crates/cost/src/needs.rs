//! Everything that must be bought, whatever it costs.

use crate::fold;
use chairwright_design::{Design, Origin, Shape};
use chairwright_frame::{Cut, Frame};
use chairwright_making::extent;
use indexmap::IndexMap;

/// What a need is for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Class {
    /// Cut from lengths, sheets or rolls.
    Stock,
    /// Closes a pipe joint.
    Fitting,
    /// Screws, bolts and the like.
    Fastener,
    /// Bought as it is.
    Part,
    /// Used up: cement, glue, paint.
    Supply,
}

/// One thing to buy.
#[derive(Clone, PartialEq, Debug)]
pub struct Need {
    /// Price key.
    pub key: String,
    /// What it is for.
    pub class: Class,
    /// Pieces of a length, in metres.
    pub lengths: Vec<(String, f64)>,
    /// Pieces of a sheet: length and width in metres.
    pub sheets: Vec<(String, f64, f64)>,
    /// Metres off a roll.
    pub metres: f64,
    /// So many.
    pub count: u32,
    /// Usual length and sheet on sale, where no price row says.
    pub usual: (Option<f64>, Option<(f64, f64)>),
    /// Place in the text.
    pub origin: Option<Origin>,
}

impl Need {
    /// Whether nothing is needed any more.
    pub(crate) fn is_met(&self) -> bool {
        self.lengths.is_empty() && self.sheets.is_empty() && self.metres <= 0.0 && self.count == 0
    }

    /// One of something that is used up, by its price key.
    #[must_use]
    pub fn supply(key: &str, origin: Origin) -> Need {
        Need { count: 1, ..Need::new(key, Class::Supply, Some(origin)) }
    }

    pub(crate) fn new(key: &str, class: Class, origin: Option<Origin>) -> Need {
        Need {
            key: key.to_owned(),
            class,
            lengths: Vec::new(),
            sheets: Vec::new(),
            metres: 0.0,
            count: 0,
            usual: (None, None),
            origin,
        }
    }
}

/// Collects what the frame and the design need, in a stable order.
#[must_use]
pub fn needs(design: &Design, frame: &Frame) -> Vec<Need> {
    let mut all: IndexMap<(Class, String), Need> = IndexMap::new();
    let mut slot = |key: &str, class: Class, origin: Option<Origin>, change: &mut dyn FnMut(&mut Need)| {
        let need = all.entry((class, fold(key))).or_insert_with(|| Need::new(key, class, origin));
        change(need);
    };
    for piece in &frame.pieces {
        let stock = &design.stocks[piece.stock];
        slot(&stock.name, Class::Stock, Some(stock.origin), &mut |need| {
            need.usual = (stock.sold_length, stock.sold_sheet);
            match &piece.cut {
                Cut::Length(length) => need.lengths.push((piece.name.clone(), *length)),
                Cut::Band(length) => need.metres += length,
                Cut::Sheet { outline } if matches!(stock.shape, Shape::Board { .. }) => {
                    need.lengths.push((piece.name.clone(), extent(outline).0));
                }
                Cut::Sheet { outline } => {
                    let (l, w) = extent(outline);
                    need.sheets.push((piece.name.clone(), l, w));
                }
            }
        });
    }
    for placed in &frame.fittings {
        let origin = Some(design.joints[placed.joint].origin);
        slot(&design.fittings[placed.fitting].name, Class::Fitting, origin, &mut |n| n.count += 1);
    }
    let closings = design.closings.iter().map(|c| (c.origin, &c.fasteners));
    let fastenings = design.fastenings.iter().map(|f| (f.origin, &f.fasteners));
    for (origin, list) in closings.chain(fastenings) {
        for (name, count) in list {
            slot(name, Class::Fastener, Some(origin), &mut |n| n.count += count);
        }
    }
    let wheels = design.wheels.iter().map(|w| (&w.part.name, w.origin));
    let casters = design.casters.iter().map(|c| (&c.part.name, c.origin));
    let items = design.items.iter().map(|i| (&i.part.name, i.origin));
    let cushions = design.supports.iter().filter_map(|s| s.cushion.as_ref().map(|c| (&c.0, s.origin)));
    for (name, origin) in wheels.chain(casters).chain(items).chain(cushions) {
        slot(name, Class::Part, Some(origin), &mut |n| n.count += 1);
    }
    for s in &design.supplies {
        slot(&s.name, Class::Supply, Some(s.origin), &mut |n| {
            if s.unit == "m" {
                n.metres += s.amount;
            } else {
                #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
                let count = s.amount as u32;
                n.count += count;
            }
        });
    }
    let mut list: Vec<Need> = all.into_values().collect();
    list.sort_by_key(|n| (n.class, fold(&n.key)));
    list
}
