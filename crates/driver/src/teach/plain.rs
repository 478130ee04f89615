//! Sizes that stand as plain numbers in the builder's own text, taken as parameters that nobody named: tried only where no parameter
//! mends a finding, since a name says what its drawer meant to change, and a number does not.

use super::Slope;
use super::target::Target;
use crate::{Options, Project};
use chairwright_design::Dial;
use chairwright_diagnostics::{Source, Span};
use chairwright_language::{Nudge, PlainSize, plain_sizes};

/// Sizes that are looked at.
const SIZES: usize = 24;
/// Of those, how many that move most are tried for one demand.
pub(super) const TRIED: usize = 4;
/// Demands, and findings, that they are tried for.
pub(super) const FAILING: usize = 4;
/// How far one may be turned, as a share of itself, and at least, in its own unit. Common practice, no source: further than this it is
/// another chair.
const REACH: (f64, f64) = (0.5, 20.0);
/// The least that it may become, in its own unit: turned about it would lie on the other side.
const LEAST: f64 = 1.0;

/// A plain size and how it is written.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Plain {
    /// Every place where it stands.
    pub places: Vec<Span>,
    /// The direction before it with a blank behind, or nothing.
    pub way: String,
    /// As written.
    pub written: String,
    /// Where: `line 14`.
    pub line: String,
}

impl Plain {
    /// The same size, so many times as large.
    pub(super) fn turned(&self, times: f64) -> impl Iterator<Item = Nudge> {
        let (up, share) = (times > 1.0, (times - 1.0).abs());
        self.places.iter().map(move |at| Nudge { at: *at, up, share })
    }
}

impl Project {
    /// The plain sizes of the builder's own text and what each does to each target.
    pub(super) fn plain_slopes(&mut self, options: &Options, goals: &[Target]) -> Vec<Slope> {
        let mut out: Vec<Slope> = Vec::new();
        for (source, entries) in self.own_texts() {
            for slope in plain_sizes(entries).into_iter().filter_map(|s| self.plain_slope(source, s)) {
                if out.len() < SIZES && !out.iter().any(|s| s.name == slope.name) {
                    out.push(slope);
                }
            }
        }
        self.measured(options, out, goals)
    }

    fn plain_slope(&self, source: &Source, size: PlainSize) -> Option<Slope> {
        let first = size.places.first()?;
        let written = source.slice(*first).to_owned();
        let way = size.way.map(|w| format!("{w} ")).unwrap_or_default();
        let mut line = format!("line {}", source.position(first.start as usize).0);
        if source.name != self.path {
            line += &format!(" of {}", source.name);
        }
        line += match size.places.len() {
            1 => "",
            2 => " (both times)",
            _ => " (each time)",
        };
        let by = (size.now.abs() * REACH.0).max(REACH.1);
        let range = ((size.now - by).max(LEAST), size.now + by);
        let dial = Dial { unit: size.unit.to_owned(), now: size.now, range: Some(range), stops: Vec::new() };
        let name = format!("{way}{written} in {line}");
        let plain = Plain { places: size.places, way, written, line };
        (size.now >= LEAST).then_some(Slope { name, dial, by_target: Vec::new(), plain: Some(plain) })
    }
}
