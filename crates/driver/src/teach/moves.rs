//! What moves a figure most, in words.

use super::Slope;
use chairwright_diagnostics::Diagnostic;
use chairwright_quantity::{Dimension, Display, Quantity};

/// Parameters that are told of.
const TOLD: usize = 3;

/// What turning one parameter up does to one figure.
pub(super) struct Move<'m> {
    pub slope: &'m Slope,
    /// Place of the figure among the targets.
    pub target: usize,
    pub dimension: Dimension,
    /// The figure's name, where it has to be told.
    pub of: Option<&'m str>,
    /// Whether what is known is how the figure goes, or the room that a limit above leaves it, which goes the other way: 1 or -1.
    pub sign: f64,
}

impl Move<'_> {
    /// A step that a builder thinks in.
    fn step(&self) -> f64 {
        if self.slope.dial.unit == "mm" { 10.0 } else { 1.0 }
    }

    fn by(&self) -> f64 {
        self.sign * self.slope.by_target[self.target] * self.step()
    }

    /// Its words; `None` where nothing is left of it in print.
    fn words(&self, display: &Display) -> Option<String> {
        let by = display.text(Quantity::from_si(self.by(), self.dimension));
        if !by.contains(|c: char| ('1'..='9').contains(&c)) {
            return None;
        }
        let unit = format!("{} {}", self.step(), self.slope.dial.unit);
        let of = self.of.map(|f| format!(" of {f}")).unwrap_or_default();
        let plus = if self.by() > 0.0 { "+" } else { "" };
        Some(format!("`{}` ({plus}{by} for {} more){of}", self.slope.name, unit.trim()))
    }
}

/// The moves in words, the greatest first as they are printed; those of figures of another dimension cannot be compared and follow
/// in the order in which they came.
fn told(mut moves: Vec<Move<'_>>, display: &Display) -> Vec<String> {
    let mut kinds: Vec<Dimension> = Vec::new();
    for m in &moves {
        if !kinds.contains(&m.dimension) {
            kinds.push(m.dimension);
        }
    }
    let kind = |m: &Move<'_>| kinds.iter().position(|d| *d == m.dimension);
    moves.sort_by(|a, b| kind(a).cmp(&kind(b)).then(b.by().abs().total_cmp(&a.by().abs())));
    moves.iter().filter_map(|m| m.words(display)).take(TOLD).collect()
}

/// Says what moves it most; a finding of both sides is told once.
pub(super) fn note(finding: &mut Diagnostic, moves: Vec<Move<'_>>, display: &Display) {
    let words = told(moves, display);
    if !words.is_empty() && !finding.notes.iter().any(|n| n.starts_with("what moves it most")) {
        finding.notes.push(format!("what moves it most: {}", words.join(", ")));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chairwright_design::Dial;

    fn slope(name: &str, unit: &str, by: f64) -> Slope {
        let dial = Dial { now: 1.0, unit: unit.to_owned(), range: None, stops: Vec::new() };
        Slope { name: name.to_owned(), dial, by_target: vec![by], plain: None }
    }

    fn words(slopes: &[Slope], dimension: Dimension) -> Vec<String> {
        let of = |slope| Move { slope, target: 0, dimension, of: None, sign: 1.0 };
        told(slopes.iter().map(of).collect(), &Display::new(false, 16))
    }

    /// By hand, per metre: 10 mm of `a` are 1 mm, of `b` 20 mm down, of `c` 0.04 mm, which prints as nothing; 1 deg of `d` is 5 mm.
    #[test]
    fn the_greatest_comes_first_and_nothing_is_left_out() {
        let slopes = [
            slope("a", "mm", 0.1e-3),
            slope("b", "mm", -2e-3),
            slope("c", "mm", 4e-6),
            slope("d", "deg", 5e-3),
        ];
        let said = words(&slopes, Dimension::LENGTH);
        assert_eq!(
            said,
            ["`b` (-20.0 mm for 10 mm more)", "`d` (+5.0 mm for 1 deg more)", "`a` (+1.0 mm for 10 mm more)"]
        );
    }

    #[test]
    fn three_are_told() {
        let slopes: Vec<Slope> = (1..6).map(|k| slope(&format!("p{k}"), "mm", f64::from(k) * 1e-3)).collect();
        let said = words(&slopes, Dimension::LENGTH);
        assert_eq!(said.len(), 3);
        assert!(said[0].starts_with("`p5`") && said[2].starts_with("`p3`"), "{said:?}");
    }
}
