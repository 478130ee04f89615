//! What a pipe's marks say of its wall.

use super::stress::Wall;

/// Words of standards that are for pipe with a core of foam or a built-up wall: ASTM F891 and F1760 (coextruded pipe with
/// a cellular core), EN 1453 and EN 13476 (structured walls for drains). From memory of their titles, not checked.
const CELLULAR: [&str; 4] = ["f891", "f1760", "en1453", "en13476"];

/// Words by which shops name such pipe. Common practice, no source.
const NAMES: [&str; 7] =
    ["foam core", "foamcore", "foam-core", "foamed core", "core of foam", "cellular", "cell core"];

/// Rigid PVC is heavier than this, kg/m³, when its wall is solid: specific gravity 1.33 to 1.46, from memory of property
/// sheets, less a tenth for a thin wall.
pub const LIGHTEST: f64 = 1200.0;

/// What the print line and the name of a pipe say of its wall; `density` in kg/m³, where it was weighed.
#[must_use]
pub fn wall(standard: Option<&str>, name: &str, density: Option<f64>) -> Wall {
    let bare = |s: &str| s.to_lowercase().replace([' ', '-'], "");
    let marked = standard.map(bare);
    let cellular = marked.as_ref().is_some_and(|m| CELLULAR.iter().any(|c| m.contains(c)));
    let name = name.to_lowercase();
    // whoever says so in words where the standard stands says it as well as in a name
    let worded = standard.map(str::to_lowercase);
    let cellular = cellular || worded.is_some_and(|w| NAMES.iter().any(|n| w.contains(n)));
    if cellular || NAMES.iter().any(|n| name.contains(n)) || density.is_some_and(|d| d < LIGHTEST) {
        return Wall::Cellular;
    }
    if marked.is_some_and(|m| !m.is_empty()) { Wall::Solid } else { Wall::Unknown }
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
}
