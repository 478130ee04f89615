//! Reads a list of questions as JSON on standard input, writes their answers as JSON on standard output.
//!
//! The outside check drives the library through this. A refusal is written in the place of the answer.

use std::io::Read;

use chairwright_resistance::dowel::{Bears, Dowel, Yielding, double_shear, hankinson, single_shear};
use chairwright_resistance::section::{
    Piece, Properties, Through, assembled, rectangle_with_hole, tube_with_hole,
};
use chairwright_resistance::spacing::{Shank, axis_distance};
use chairwright_resistance::{Refusal, Yield, group};
use serde::Deserialize;
use serde_json::{Value, json};

type Any<T> = Result<T, Box<dyn std::error::Error>>;

#[derive(Deserialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
enum Question {
    Outline { pieces: Vec<Part>, at: [f64; 2], load: [f64; 3] },
    Tube { outer: f64, wall: f64, hole: f64, angle: f64, both: bool },
    Board { width: f64, height: f64, hole: f64, at: f64 },
    Dowel { diameter: f64, bending: f64, main: [f64; 2], side: [f64; 2], angle: f64, planes: u32 },
    Hankinson { along: f64, across: f64, angle: f64 },
    Segments { a: [[f64; 3]; 2], b: [[f64; 3]; 2] },
    Group { places: Vec<[f64; 2]>, force: [f64; 2], at: [f64; 2], moment: f64 },
    Tilted { places: Vec<[f64; 2]>, pull: f64, moments: [f64; 2] },
}

#[derive(Deserialize)]
struct Part {
    corners: Vec<[f64; 2]>,
    weight: f64,
}

fn main() -> Any<()> {
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text)?;
    let asked: Vec<Question> = serde_json::from_str(&text)?;
    let said = |q: &Question| answer(q).unwrap_or_else(|e| json!({ "refused": format!("{e:?}") }));
    serde_json::to_writer(std::io::stdout().lock(), &asked.iter().map(said).collect::<Vec<Value>>())?;
    Ok(())
}

fn answer(q: &Question) -> Result<Value, Refusal> {
    Ok(match q {
        Question::Outline { pieces, at, load: [n, my, mz] } => {
            let pieces: Vec<Piece<'_>> =
                pieces.iter().map(|p| Piece { corners: &p.corners, weight: p.weight }).collect();
            let p = assembled(&pieces)?;
            let mut told = properties(&p);
            told["stress"] = json!(p.stress(*at, *n, *my, *mz));
            told
        }
        Question::Tube { outer, wall, hole, angle, both } => {
            let through = if *both { Through::Both } else { Through::One };
            properties(&tube_with_hole(*outer, *wall, *hole, *angle, through)?)
        }
        Question::Board { width, height, hole, at } => {
            properties(&rectangle_with_hole(*width, *height, *hole, *at)?)
        }
        Question::Dowel { diameter, bending, main, side, angle, planes } => {
            let dowel = Dowel { diameter: *diameter, bending_yield: *bending };
            let of = |m: &[f64; 2]| Bears { strength: m[0], length: m[1] };
            let call = if *planes == 2 { double_shear } else { single_shear };
            yielding(&call(&dowel, &of(main), &of(side), *angle)?)
        }
        Question::Hankinson { along, across, angle } => {
            json!({ "strength": hankinson(*along, *across, *angle) })
        }
        Question::Segments { a, b } => {
            let of = |s: &[[f64; 3]; 2]| Shank { from: s[0], to: s[1], diameter: 0.0 };
            json!({ "distance": axis_distance(&of(a), &of(b))? })
        }
        Question::Group { places, force, at, moment } => {
            let s = group::shared(places, *force, *at, *moment)?;
            json!({ "each": s.each, "greatest": s.greatest })
        }
        Question::Tilted { places, pull, moments: [my, mz] } => {
            json!({ "each": group::tilted(places, *pull, *my, *mz)?.each })
        }
    })
}

fn properties(p: &Properties) -> Value {
    let axes = p.principal();
    json!({
        "area": p.area, "centroid": p.centroid, "iy": p.iy, "iz": p.iz, "iyz": p.iyz,
        "major": axes.major, "minor": axes.minor, "angle": axes.angle,
    })
}

fn yielding(y: &Yielding) -> Value {
    let name = |m: Yield| match m {
        Yield::Im => "Im",
        Yield::Is => "Is",
        Yield::II => "II",
        Yield::IIIm => "IIIm",
        Yield::IIIs => "IIIs",
        Yield::IV => "IV",
    };
    let modes: serde_json::Map<String, Value> =
        y.modes.iter().map(|(m, z)| (name(*m).to_owned(), json!(z))).collect();
    json!({ "modes": modes, "capacity": y.capacity.value })
}
