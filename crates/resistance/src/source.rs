//! Where a formula or figure comes from, and how far it can be trusted.

/// How a formula or figure is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Read in a public copy of the work that is cited.
    Published,
    /// Follows from statics and geometry: can be derived on paper.
    Mechanics,
    /// From memory of the work that is cited, not checked against it.
    Memory,
    /// Common practice without a source.
    Practice,
}

/// A citation with its standing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// How it is known.
    pub standing: Standing,
    /// The work, with table or equation where known.
    pub citation: &'static str,
}

impl Source {
    /// Read in a public copy.
    #[must_use]
    pub const fn published(citation: &'static str) -> Source {
        Source { standing: Standing::Published, citation }
    }

    /// Derivable on paper.
    #[must_use]
    pub const fn mechanics(citation: &'static str) -> Source {
        Source { standing: Standing::Mechanics, citation }
    }

    /// From memory, not checked.
    #[must_use]
    pub const fn memory(citation: &'static str) -> Source {
        Source { standing: Standing::Memory, citation }
    }

    /// Common practice, no source.
    #[must_use]
    pub const fn practice(citation: &'static str) -> Source {
        Source { standing: Standing::Practice, citation }
    }
}
