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
pub(super) const TRIED: usize = 6;
/// Demands, and findings, that they are tried for.
pub(super) const FAILING: usize = 4;
/// How far one may be turned, as a share of itself, and at least, in its own unit. Common practice, no source: further than this it is
/// another chair.
const REACH: (f64, f64) = (0.5, 20.0);
/// The same at least of what is placed forward or back, up or down, mm: for a rider without legs an axle goes as far as from before
/// the back to behind it. Common practice, no source.
const PLACED: f64 = 100.0;
/// The least that a size may become, in its own unit.
const LEAST: f64 = 1.0;
/// Directions that may be turned about, with the other of each: what is outward of the middle on one side never goes over to the other.
const ABOUT: [[&str; 2]; 2] = [["forward", "back"], ["up", "down"]];

/// The direction the other way, of those that may be turned about.
fn other(way: &str) -> Option<&'static str> {
    ABOUT.iter().find_map(|[a, b]| match way {
        w if w == *a => Some(*b),
        w if w == *b => Some(*a),
        _ => None,
    })
}

/// A number as it stands in the text.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Written {
    /// Every place where it stands.
    places: Vec<Span>,
    /// The direction before it with a blank behind, or nothing.
    way: String,
    /// As written.
    pub written: String,
    /// Where: `line 14`.
    line: String,
    /// How much it is, in its unit.
    now: f64,
}

impl Written {
    /// With its direction.
    pub(super) fn text(&self) -> String {
        format!("{}{}", self.way, self.written)
    }

    /// Another value in its place, which may lie on the other side of where it is measured from.
    pub(super) fn set(&self, value: f64, unit: &str) -> String {
        let (way, value) = match other(self.way.trim_end()).filter(|_| value < 0.0) {
            Some(way) => (format!("{way} "), -value),
            None => (self.way.clone(), value),
        };
        format!("`{way}{} {unit}` in {}", super::plain(value), self.line)
    }

    fn turned(&self, to: f64) -> impl Iterator<Item = Nudge> {
        let times = to / self.now;
        let (up, share) = (times > 1.0, (times - 1.0).abs());
        self.places.iter().map(move |at| Nudge { at: *at, up, share })
    }
}

/// A plain size, and those of the brakes beside it where they go along with a wheel.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Plain {
    pub own: Written,
    pub along: Vec<Written>,
}

impl Plain {
    /// The text with another value.
    pub(super) fn turned(&self, to: f64) -> impl Iterator<Item = Nudge> {
        self.own.turned(to).chain(self.along.iter().flat_map(move |w| w.turned(self.goes(w, to))))
    }

    /// What becomes of one that goes along.
    pub(super) fn goes(&self, along: &Written, to: f64) -> f64 {
        let shift = to - self.own.now;
        along.now + if along.way == self.own.way { shift } else { -shift }
    }
}

impl Project {
    /// The plain sizes of the builder's own text and what each does to each target. A wheel is tried by itself and with the brakes
    /// that are placed in the same direction, which its tyre else leaves behind.
    pub(super) fn plain_slopes(&mut self, options: &Options, goals: &[Target]) -> Vec<Slope> {
        let mut out: Vec<Slope> = Vec::new();
        for (source, entries) in self.own_texts() {
            let sizes = plain_sizes(entries);
            let written = |s: &PlainSize| self.written(source, s);
            let brakes: Vec<Written> = sizes.iter().filter(|s| s.of == "brake").filter_map(written).collect();
            for size in sizes.iter().filter(|s| s.now >= LEAST) {
                let Some(own) = written(size) else { continue };
                if out.len() >= SIZES || out.iter().any(|s| s.plain.as_ref().is_some_and(|p| p.own == own)) {
                    continue;
                }
                let mut with: Vec<Vec<Written>> = vec![Vec::new()];
                if size.of == "wheel" {
                    let same = |b: &&Written| b.now >= LEAST && same_line(&b.way, &own.way);
                    with.push(brakes.iter().filter(same).cloned().collect());
                    with.dedup();
                }
                out.extend(with.into_iter().map(|along| slope(size, Plain { own: own.clone(), along })));
            }
        }
        self.measured(options, out, goals)
    }

    fn written(&self, source: &Source, size: &PlainSize) -> Option<Written> {
        let first = size.places.first()?;
        let written = source.slice(*first).to_owned();
        let way = size.way.as_ref().map(|w| format!("{w} ")).unwrap_or_default();
        let mut line = format!("line {}", source.position(first.start as usize).0);
        if source.name != self.path {
            line += &format!(" of {}", source.name);
        }
        line += match size.places.len() {
            1 => "",
            2 => " (both times)",
            _ => " (each time)",
        };
        Some(Written { places: size.places.clone(), way, written, line, now: size.now })
    }
}

/// Whether two directions are along one line.
fn same_line(a: &str, b: &str) -> bool {
    let (a, b) = (a.trim_end(), b.trim_end());
    other(a).is_some_and(|other| b == a || b == other)
}

fn slope(size: &PlainSize, plain: Plain) -> Slope {
    let both = size.way.as_deref().and_then(other).is_some();
    let by = (size.now * REACH.0).max(if both { PLACED } else { REACH.1 });
    let least = if both { f64::NEG_INFINITY } else { LEAST };
    let range = ((size.now - by).max(least), size.now + by);
    let dial = Dial { unit: size.unit.to_owned(), now: size.now, range: Some(range), stops: Vec::new() };
    let with = if plain.along.is_empty() { "" } else { ", its brake along" };
    let name = format!("{} in {}{with}", plain.own.text(), plain.own.line);
    Slope { name, dial, by_target: Vec::new(), plain: Some(plain) }
}
