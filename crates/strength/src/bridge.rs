//! How wide a gap the fasteners of the text can bridge between a sheet and a bar.

use crate::bar::Bar;
use crate::form::Form;
use chairwright_design::{Design, Vec3, fold};

/// Faces no further apart than this touch, whatever holds them, m: how true things are drawn and cut. Common practice,
/// no source.
pub(crate) const TOUCH: f64 = 0.002;
/// What a screw must at least bite into the second piece, m. Common practice, no source.
const BITE: f64 = 0.005;

/// Where a fastener goes in the second piece.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) enum Into<'a> {
    /// From the side, along this way.
    Side(&'a Bar, Vec3),
    /// Into its end.
    End,
}

/// The widest gap, m, that the longest screw or bolt of a list bridges behind a sheet of a thickness: a bolt goes
/// through all of the bar, or through one wall of a box; a screw bites.
pub(crate) fn bridge(design: &Design, list: &[(String, u32)], thickness: f64, into: Into<'_>) -> f64 {
    let known = |name: &str| design.fasteners.iter().find(|f| fold(&f.name) == fold(name));
    let through = list.iter().filter(|(_, n)| *n > 0).filter_map(|(name, _)| known(name));
    let spare = through.filter_map(|f| {
        let depth = match (f.kind.as_str(), into) {
            ("screw", _) | ("bolt", Into::End) => BITE,
            ("bolt" | "rivet", Into::Side(bar, way)) => match bar.form {
                Form::Hollow { wall, .. } => wall,
                _ => 2.0 * bar.half_along(way),
            },
            _ => return None,
        };
        Some(f.length - thickness - depth)
    });
    spare.fold(TOUCH, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hand::bar;
    use chairwright_design::Fastener;

    fn shop() -> Design {
        let of = |name: &str, kind: &str, length: f64| Fastener {
            name: name.into(),
            kind: kind.into(),
            diameter: 5e-3,
            length,
            mass: 0.01,
        };
        let fasteners = vec![of("bolt", "bolt", 0.060), of("screw", "screw", 0.040), of("nut", "nut", 0.006)];
        Design { fasteners, ..Design::default() }
    }

    /// A bolt of 60 mm through a board of 12 mm and a pipe of 33.4 mm has 14.6 mm to spare; a screw of 40 mm that bites
    /// 5 mm has 23 mm; one too short, or none, holds only what touches.
    #[test]
    fn a_gap_is_bridged_by_what_a_fastener_has_to_spare() {
        let design = shop();
        let pipe = bar(Vec3::ZERO, Vec3::X, Vec3::Z, Form::Tube { outer: 33.4e-3, wall: 3.4e-3 });
        let side = Into::Side(&pipe, Vec3::Z);
        let gap = |name: &str, thickness, into| bridge(&design, &[(name.to_owned(), 2)], thickness, into);
        assert!((gap("bolt", 0.012, side) - 0.0146).abs() < 1e-9);
        assert!((gap("screw", 0.012, side) - 0.023).abs() < 1e-9);
        assert!((gap("bolt", 0.012, Into::End) - 0.043).abs() < 1e-9);
        assert!((gap("bolt", 0.030, side) - TOUCH).abs() < 1e-12, "60 mm do not reach");
        assert!((gap("nut", 0.012, side) - TOUCH).abs() < 1e-12);
        let beam = bar(Vec3::ZERO, Vec3::X, Vec3::Z, Form::Hollow { level: 0.08, upright: 0.1, wall: 0.018 });
        assert!((gap("bolt", 0.012, Into::Side(&beam, Vec3::Z)) - 0.030).abs() < 1e-9);
    }
}
