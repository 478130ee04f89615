//! The chair beside one that the rider likes and that somebody measured by tape.

use crate::Checked;
use crate::problem::Problem;
use chairwright_design::{Band, Design};

/// What a tape, a kitchen scale or a phone's level tells apart on somebody else's chair: m, kg, radians. Common practice,
/// no source; used where the reading gives no tolerance of its own.
const READS: (f64, f64, f64) = (0.003, 0.3, 0.5 * std::f64::consts::PI / 180.0);

/// Field of the baseline and the figure that it is laid beside.
const BESIDE: [(&str, &str); 16] = [
    ("seat_width", "seat.width"),
    ("seat_depth", "seat.depth"),
    ("seat_front", "seat.height.front"),
    ("seat_rear", "seat.height.rear"),
    ("back_height", "back.height"),
    ("back_angle", "back.angle"),
    ("axle_ahead", "axle.ahead"),
    ("footrest_clearance", "footrest.clearance"),
    ("wheelbase", "wheelbase"),
    ("width", "width.overall"),
    ("length", "length.overall"),
    ("mass", "mass.chair"),
    ("rear_locked", "tip.rear.locked"),
    ("rear_free", "tip.rear.free"),
    ("forward", "tip.forward.locked"),
    ("side", "tip.side"),
];

/// One figure of the chair beside the liked one's.
#[derive(Clone, PartialEq, Debug)]
pub struct Beside {
    /// The figure.
    pub figure: &'static str,
    /// Least and greatest reading of the liked chair, SI units.
    pub there: (f64, f64),
    /// Here, SI units; `None` when it could not be computed.
    pub here: Option<f64>,
    /// Here less there beyond what the reading leaves open; zero when they cannot be told apart.
    pub by: f64,
}

/// Lays the chair beside the liked one.
pub(crate) fn baseline(design: &Design, out: &mut Checked) {
    if let Some(baseline) = &design.baseline {
        let row = |(key, figure): &(&str, &'static str)| {
            let band = *baseline.values.get(*key)?;
            Some(beside(figure, band, out))
        };
        out.beside = BESIDE.iter().filter_map(row).collect();
    }
    if let Some(seat) = design.rider.get("liked_seat_height") {
        let known = design.known.iter().find(|k| k.name == "rider.liked_seat_height");
        let spread = known.and_then(|k| k.spread).unwrap_or(0.0);
        let row = beside("transfer.seat", Band { low: seat - spread, high: seat + spread }, out);
        out.beside.push(row);
    }
    judge(design, out);
}

fn beside(figure: &'static str, band: Band, out: &Checked) -> Beside {
    let slack = if band.high > band.low { 0.0 } else { reads(figure) };
    let here = out.figures.si(figure);
    let by = here.map_or(0.0, |h| {
        if h > band.high + slack {
            h - band.high
        } else if h < band.low - slack {
            h - band.low
        } else {
            0.0
        }
    });
    Beside { figure, there: (band.low, band.high), here, by }
}

fn reads(figure: &str) -> f64 {
    match figure {
        "mass.chair" => READS.1,
        f if f.starts_with("tip.") || f == "back.angle" => READS.2,
        _ => READS.0,
    }
}

/// One remark on all that differs, and a warning where it tips sooner than what the rider is used to.
fn judge(design: &Design, out: &mut Checked) {
    let origin = match &design.baseline {
        Some(b) => Some(b.origin),
        None => design.known.iter().find(|k| k.name == "rider.liked_seat_height").map(|k| k.origin),
    };
    let chair = design.baseline.as_ref().map_or(String::new(), |b| b.chair.clone());
    let (tips, rest): (Vec<Beside>, Vec<Beside>) =
        out.beside.iter().filter(|b| b.by.abs() > 0.0).cloned().partition(|b| b.figure.starts_with("tip."));
    let sooner: Vec<Beside> = tips.into_iter().filter(|b| b.by < 0.0).collect();
    if !sooner.is_empty() {
        out.problems.push(Problem::TipsBeforeBaseline { chair: chair.clone(), sooner, origin });
    }
    if !rest.is_empty() {
        out.problems.push(Problem::UnlikeBaseline { chair, differs: rest, origin });
    }
}
