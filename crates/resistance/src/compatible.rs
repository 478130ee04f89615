//! What must not touch what, and where.

use crate::source::Source;

/// What may touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stuff {
    /// Rigid PVC.
    RigidPvc,
    /// Plasticised vinyl: upholstery, tape, grips.
    PlasticisedVinyl,
    /// Thread locker, which holds solvents or monomers.
    ThreadLocker,
    /// Oil-based paint.
    OilPaint,
    /// Water-based latex paint.
    WaterPaint,
    /// Woven nylon or polyester.
    Webbing,
    /// Zinc, or steel coated with it.
    Zinc,
    /// Aluminium.
    Aluminium,
    /// Bare carbon steel.
    Steel,
    /// Stainless steel of the 18-8 kind.
    Stainless,
    /// Brass.
    Brass,
    /// Copper.
    Copper,
}

/// How wet it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wetness {
    /// Indoors, dry.
    None,
    /// Outdoors in the rain.
    Rain,
    /// In fresh water.
    Fresh,
    /// In or by salt water, winter roads, sweat and urine.
    Salt,
}

/// A rule about two that touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// One.
    pub a: Stuff,
    /// The other.
    pub b: Stuff,
    /// What follows.
    pub verdict: Touch,
    /// Why.
    pub source: Source,
}

/// Whether two may touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Touch {
    /// They may.
    May,
    /// They must not: the first harms the second.
    MustNot {
        /// What does the harm.
        harms: Stuff,
        /// What is lost.
        loses: Stuff,
    },
    /// Nothing is known here: cannot tell.
    CannotTell,
}

/// Pairs with a plastic in them.
pub const PAIRS: [Pair; 5] = [
    Pair {
        a: Stuff::PlasticisedVinyl,
        b: Stuff::RigidPvc,
        verdict: Touch::MustNot { harms: Stuff::PlasticisedVinyl, loses: Stuff::RigidPvc },
        source: Source::published(
            "J Vinyl Technology: plasticiser migrates and causes environmental stress cracking of rigid PVC under stress",
        ),
    },
    Pair {
        a: Stuff::ThreadLocker,
        b: Stuff::RigidPvc,
        verdict: Touch::MustNot { harms: Stuff::ThreadLocker, loses: Stuff::RigidPvc },
        source: Source::memory("makers of anaerobic thread lockers warn of stress cracking in thermoplastics"),
    },
    Pair {
        a: Stuff::OilPaint,
        b: Stuff::RigidPvc,
        verdict: Touch::MustNot { harms: Stuff::OilPaint, loses: Stuff::RigidPvc },
        source: Source::published("Uni-Bell, exposure to sunlight: petroleum-based paint is not to be used"),
    },
    Pair {
        a: Stuff::WaterPaint,
        b: Stuff::RigidPvc,
        verdict: Touch::May,
        source: Source::published("Uni-Bell, exposure to sunlight: water-based latex paint protects"),
    },
    Pair {
        a: Stuff::Webbing,
        b: Stuff::RigidPvc,
        verdict: Touch::May,
        source: Source::practice("woven nylon and polyester hold no plasticiser"),
    },
];

/// Source of the galvanic rule.
pub const GALVANIC: Source = Source::memory(
    "anodic index in volts against gold; at most 0.15 V in salt, 0.25 V outdoors, 0.50 V indoors and dry",
);

impl Stuff {
    /// Anodic index, V; from memory of the tables that follow MIL-F-14072, not checked. `None` of what is no metal.
    #[must_use]
    pub const fn anodic_index(self) -> Option<f64> {
        match self {
            Stuff::Zinc => Some(1.25),
            Stuff::Aluminium => Some(0.90),
            Stuff::Steel => Some(0.85),
            Stuff::Stainless => Some(0.50),
            Stuff::Brass => Some(0.45),
            Stuff::Copper => Some(0.35),
            _ => None,
        }
    }
}

impl Wetness {
    /// Greatest difference of anodic indices that is let through, V.
    #[must_use]
    pub const fn most(self) -> f64 {
        match self {
            Wetness::None => 0.50,
            Wetness::Rain | Wetness::Fresh => 0.25,
            Wetness::Salt => 0.15,
        }
    }
}

/// Whether two may touch. Metals by their anodic indices, of which the higher loses; a small anode
/// beside a large cathode is worse than this tells. A metal with itself may; whatever has no rule is
/// [`Touch::CannotTell`].
#[must_use]
pub fn touching(a: Stuff, b: Stuff, wet: Wetness) -> Pair {
    let known = PAIRS.iter().find(|p| (p.a, p.b) == (a, b) || (p.a, p.b) == (b, a));
    if let Some(pair) = known {
        return *pair;
    }
    match (a.anodic_index(), b.anodic_index()) {
        (Some(x), Some(y)) => {
            let (harms, loses) = if x >= y { (b, a) } else { (a, b) };
            // Indices have two decimals: a difference equal to the limit is within it.
            let verdict =
                if (x - y).abs() <= wet.most() + 1e-9 { Touch::May } else { Touch::MustNot { harms, loses } };
            Pair { a, b, verdict, source: GALVANIC }
        }
        _ => {
            Pair { a, b, verdict: Touch::CannotTell, source: Source::practice("no rule is held for this pair") }
        }
    }
}
