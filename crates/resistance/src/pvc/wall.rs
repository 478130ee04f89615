//! What a pipe's marks say of its wall.

use super::stress::Wall;
use crate::wording::says;

/// Standards for pipe with a core of foam, with several layers or with a built-up wall: ASTM F891, F1760, F1488 (PVC) and F628 (ABS)
/// with a cellular core or composite wall; F794, F949 and F1803 of profiles; EN 1453, EN 13476 and ISO 21138 for drains. From memory of
/// their titles, not checked.
const CELLULAR: [&str; 10] = [
    "*f 891",
    "*f 1760",
    "*f 1488",
    "*f 628",
    "*f 794",
    "*f 949",
    "*f 1803",
    "*en 1453",
    "*en 13476",
    "*iso 21138",
];

/// Standards for pipe of one solid wall: for pressure ASTM D1785, D2241, F441, F442, D2846, AWWA C900, CSA B137, EN, ISO and EN ISO 1452,
/// ISO 4422, BS 3505 and 3506, DIN 8062, IS 4985, AS/NZS 1477, JIS K 6741 and 6742, SANS 966, GB/T 10002, MS 628, TIS 17; for drains with
/// a solid wall ASTM D2665, D2949, D3034, F679, BS 4514, EN 1329, EN 1401, IS 13592, GB/T 5836. From memory of their titles, not
/// checked. Standards that allow either wall (AS/NZS 1260 of drains, from memory) are not among them.
const SOLID: [&str; 34] = [
    "*d 1785",
    "*d 2241",
    "*f 441",
    "*f 442",
    "*d 2846",
    "*c 900",
    "*b 137",
    "*en 1452",
    "*iso 1452",
    "*iso 4422",
    "*bs 3505",
    "*bs 3506",
    "*din 8062",
    "*is 4985",
    "*as 1477",
    "*nzs 1477",
    "*k 6741",
    "*k 6742",
    "*sans 966",
    "*sabs 966",
    "*gb 10002",
    "*t 10002",
    "*ms 628",
    "*tis 17",
    "*d 2665",
    "*d 2949",
    "*d 3034",
    "*f 679",
    "*bs 4514",
    "*en 1329",
    "*en 1401",
    "*is 13592",
    "*gb 5836",
    "*t 5836",
];

/// Words by which shops and print lines name pipe that is not solid. Common practice, no source.
const NAMES: [&str; 26] = [
    "foam core",
    "foamcore",
    "foamed",
    "core of foam",
    "foam inside",
    "foam middle",
    "foam layer",
    "cellular",
    "cell core",
    "coex*",
    "co ex*",
    "sandwich",
    "multilayer*",
    "multi layer*",
    "two layer*",
    "three layer*",
    "2 layer*",
    "3 layer*",
    "several layers",
    "middle layer",
    "expanded core",
    "expanded middle",
    "expanded pvc",
    "structured wall",
    "corrugated",
    "hollow wall",
];

/// Words beside a standard that make it one of sizes or of hearsay. Common practice, no source.
const HEARSAY: [&str; 12] = [
    "similar",
    "like",
    "unlike",
    "size",
    "sizes",
    "sized",
    "dimensions",
    "dimension",
    "unknown",
    "maybe",
    "probably",
    "perhaps",
];

/// Rigid PVC is heavier than this, kg/m³, when its wall is solid: specific gravity 1.33 to 1.46, from memory of property
/// sheets, less a tenth for a thin wall.
pub const LIGHTEST: f64 = 1200.0;

/// What the print line and the name of a pipe say of its wall; `density` in kg/m³, where it was weighed. Only the number of a standard
/// for pipe with a solid wall says that it is solid: "schedule 40" names sizes.
#[must_use]
pub fn wall(standard: Option<&str>, name: &str, density: Option<f64>) -> Wall {
    let built_up = |text: &str| says(text, &NAMES) || says(text, &CELLULAR);
    if built_up(name) || standard.is_some_and(built_up) || density.is_some_and(|d| d < LIGHTEST) {
        return Wall::Cellular;
    }
    let solid = standard.is_some_and(|s| says(s, &SOLID) && !says(s, &HEARSAY) && !s.contains('?'));
    if solid { Wall::Solid } else { Wall::Unknown }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_tell_the_wall() {
        assert_eq!(wall(Some("ASTM D1785"), "pipe 1 in sch40", Some(1400.0)), Wall::Solid);
        assert_eq!(wall(Some("ASTM F 891"), "pipe 1 1/4 in sch40", Some(1400.0)), Wall::Cellular);
        assert_eq!(wall(Some("EN 1453-1"), "drain 40", None), Wall::Cellular);
        assert_eq!(wall(None, "Sch 40 1 1/4 foam core", None), Wall::Cellular);
        assert_eq!(wall(Some("coex foam core ASTM D1785"), "pipe", None), Wall::Cellular);
        assert_eq!(wall(Some("ASTM D2665"), "pipe", Some(900.0)), Wall::Cellular);
        assert_eq!(wall(None, "Sch 40 1 1/4 in", None), Wall::Unknown);
    }

    #[test]
    fn only_the_number_of_a_solid_wall_says_that_it_is_solid() {
        for s in [
            "ASTM D1785 / D2665",
            "IS 4985:2000",
            "BS EN ISO 1452-2",
            "BS 3505",
            "AS/NZS 1477",
            "ASTM D1785 (not F891)",
            "GB/T 10002.1",
        ] {
            assert_eq!(wall(Some(s), "pipe", None), Wall::Solid, "{s}");
        }
        for s in [
            "Sch 40",
            "Schedule 40",
            "unknown",
            "none",
            "Schedule 40 PVC-DWV",
            "PVC-DWV SDR",
            "NSF-DWV",
            "AS/NZS 1260",
            "ASTM",
            "1785",
            "sizes of ASTM D1785",
            "not ASTM D1785",
            "ASTM D1785?",
            "",
        ] {
            assert_eq!(wall(Some(s), "pipe", None), Wall::Unknown, "{s}");
        }
        for s in ["ASTM F628", "ASTM F1488", "astm f-891", "ASTM D1785 / F891", "foamed core, schedule 40"] {
            assert_eq!(wall(Some(s), "pipe", None), Wall::Cellular, "{s}");
        }
    }

    #[test]
    fn notes_tell_of_layers_and_deny_them() {
        for note in [
            "coex, foamed middle layer",
            "coextruded sandwich pipe",
            "multilayer",
            "three layers, the middle one expanded",
            "drain, waste and vent, co-extruded, cellular",
        ] {
            assert_eq!(wall(None, note, None), Wall::Cellular, "{note}");
        }
        for note in [
            "non-cellular",
            "solid wall, not foamed core",
            "solid wall; never take the cellular core pipe beside it",
        ] {
            assert_eq!(wall(None, note, None), Wall::Unknown, "{note}");
        }
    }
}
