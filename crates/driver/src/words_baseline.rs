//! The chair beside one that the rider likes, in words.

use crate::words::Words;
use chairwright_checks::Beside;
use chairwright_design::Origin;
use chairwright_diagnostics::Diagnostic;
use chairwright_quantity::{Dimension, Quantity};

impl Words<'_> {
    pub(crate) fn tips_before_baseline(
        &self,
        chair: &str,
        sooner: &[Beside],
        origin: Option<Origin>,
    ) -> Diagnostic {
        let said = Diagnostic::new("tips-before-baseline", format!("it tips sooner than {}", liked(chair)));
        let least = sooner.iter().map(|b| b.by).fold(0.0, f64::min);
        let label = format!("up to {} sooner", self.angle(-least));
        self.listed(said, sooner, (label, origin))
            .note("whoever is used to the other chair leans and climbs by habit, and this one goes over first")
            .help("bring the slope up to the other chair's; or have the rider try it, held by two helpers")
    }

    pub(crate) fn unlike_baseline(
        &self,
        chair: &str,
        differs: &[Beside],
        origin: Option<Origin>,
    ) -> Diagnostic {
        let said = Diagnostic::new("unlike-baseline", format!("it is not as {}", liked(chair)));
        let label = match differs {
            [_] => "1 figure differs".to_owned(),
            all => format!("{} figures differ", all.len()),
        };
        self.listed(said, differs, (label, origin))
            .help("neither chair is wrong: ask the rider which of these are wanted, and change the rest")
    }

    fn listed(
        &self,
        said: Diagnostic,
        rows: &[Beside],
        (label, origin): (String, Option<Origin>),
    ) -> Diagnostic {
        let said = match origin {
            Some(origin) => self.placed(said, origin, label),
            None => said,
        };
        rows.iter().fold(said, |said, b| said.note(self.beside(b)))
    }

    fn beside(&self, b: &Beside) -> String {
        let text = |si: f64| self.of_figure(b.figure, si);
        let there = if b.there.1 - b.there.0 > 1e-9 {
            format!("{} .. {}", text(b.there.0), text(b.there.1))
        } else {
            text(b.there.0)
        };
        let here = b.here.map_or(String::new(), text);
        format!("`{}` is {here}, there {there}: {} {}", b.figure, text(b.by.abs()), way(b.figure, b.by > 0.0))
    }

    fn of_figure(&self, figure: &str, si: f64) -> String {
        match figure {
            "mass.chair" => self.display.text(Quantity::from_si(si, Dimension::MASS)),
            f if f.starts_with("tip.") => self.rounded_down(si),
            "back.angle" => self.angle(si),
            _ => self.length(si),
        }
    }
}

fn liked(chair: &str) -> String {
    if chair.is_empty() { "the chair that the rider likes".to_owned() } else { format!("\"{chair}\"") }
}

/// Which way it differs.
fn way(figure: &str, more: bool) -> &'static str {
    let (high, low) = match figure {
        "seat.width" | "width.overall" => ("wider", "narrower"),
        "seat.depth" => ("deeper", "shorter"),
        "seat.height.front" | "seat.height.rear" | "transfer.seat" | "back.height" | "footrest.clearance" => {
            ("higher", "lower")
        }
        "back.angle" => ("more open", "less open"),
        "axle.ahead" => ("further forward", "further back"),
        "wheelbase" | "length.overall" => ("longer", "shorter"),
        "mass.chair" => ("heavier", "lighter"),
        _ => ("later", "sooner"),
    };
    if more { high } else { low }
}
