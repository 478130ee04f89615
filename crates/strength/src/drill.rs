//! Holes that fastenings and closings drill, in members, boxes, panels and the strips of seat, back and footrest, and axles and stems:
//! whatever a bolt, rivet or screw goes through loses its section there.

use crate::assumed::Assumed;
use crate::axle::fastened;
use crate::bar::{Bar, Of, Pierced, SAME_WAY};
use crate::form::Drilled;
use crate::limit::{allowance, wooden};
use crate::structure::{Port, Spot, Structure, Tie, TieOf};
use crate::ties::fixing;
use chairwright_design::{Design, Vec3};
use chairwright_frame::Settled;
use std::collections::BTreeMap;

/// A bolt's hole over the bolt, m: the medium series of ISO 273 (M8 9.0, M10 11), from memory, not checked.
pub(crate) const WIDER: f64 = 0.001;

/// What goes through a hole that the text drills stands in it, or as little beside it as is drawn inexactly, m.
const HAIR: f64 = 0.002;

/// Cosine of the angle between a bar and an axle up to which the axle goes into the bar's end.
const ALONG: f64 = 0.97;

/// The way of a fastener through an arm of a panel, in the arm's own axes: across the sheet.
const THROUGH_ARM: Option<[f64; 2]> = Some([1.0, 0.0]);

/// Least distance of bolts in plywood, from middle to middle, in diameters: EN 1995-1-1 as in [`chairwright_resistance::keep`].
const APART: f64 = 4.0;

/// Drills every member, box and panel; what the text itself drills at the same place stays as it says.
pub(crate) fn drill(design: &Design, settled: &Settled, all: &mut Structure) -> Vec<Assumed> {
    let mut found: Vec<(usize, Pierced)> = Vec::new();
    let mut bored: Vec<(String, f64)> = Vec::new();
    let mut bolted = false;
    for tie in &all.ties {
        for (k, spot) in tie.spots.iter().enumerate() {
            let Spot::Port(port) = *spot else { continue };
            let bar = &all.bars[port.bar];
            // a strip is of the sheet that the fasteners hold: they are those of the bar under it
            let strip = matches!(bar.of, Of::Support(_));
            let under =
                || tie.spots.iter().filter_map(Spot::bar).find(|o| !matches!(all.bars[*o].of, Of::Support(_)));
            let held =
                if strip { under().map_or("", |o| all.bars[o].name.as_str()) } else { bar.name.as_str() };
            let lists = fasteners(design, tie, held);
            let single = lists.iter().map(|l| fixing(design, l)).sum::<u32>() <= 1;
            let holes = lists.into_iter().filter_map(|l| widest(design, bar, l));
            let others = tie.spots.iter().enumerate().filter(|(i, _)| *i != k);
            let toward = others.map(|(_, s)| all.place(*s)).next();
            let way = || match bar.of {
                Of::Panel(_) => THROUGH_ARM,
                _ => toward.and_then(|p| across(bar, port, p)),
            };
            let bolts = holes.reduce(f64::max).map(|d| Drilled::hole(way(), d));
            let bore = bore(design, settled, tie.of, (bar, port));
            for (drilled, bolt) in bolts.map(|d| (d, true)).into_iter().chain(bore.map(|d| (d, false))) {
                let through = drilled.diameter - if bolt { WIDER } else { 0.0 };
                // one hole of the text is not those of several bolts, which stand beside each other
                let own =
                    (single || !bolt) && bar.holes.iter().any(|h| takes(h, port.at, (drilled.way, through)));
                let twice =
                    found.iter().any(|(b, h)| *b == port.bar && h.at == port.at && h.drilled == drilled);
                if own || twice {
                    continue;
                }
                let of = bolt.then_some(tie.of);
                found.push((port.bar, Pierced { said: false, of, ..Pierced::said(port.at, drilled) }));
                let through = (bar.name.clone(), drilled.diameter);
                bolted |= bolt;
                if !bolt && !bored.contains(&through) {
                    bored.push(through);
                }
            }
        }
    }
    found.extend(under_arms(design, all));
    for (bar, hole) in found {
        all.bars[bar].holes.push(hole);
    }
    let bored = (!bored.is_empty()).then_some(Assumed::Bored(bored));
    bolted.then_some(Assumed::BoltHoles(WIDER)).into_iter().chain(bored).collect()
}

/// Holes of a panel that its arms run over on their way to others: those near its middle, where no arm ends, and those that lie on the
/// way. Each fastener of such a place has one, side by side across the arm as near as wood allows, as far as they have room on it.
fn under_arms(design: &Design, all: &Structure) -> Vec<(usize, Pierced)> {
    let mut out = Vec::new();
    let mut arms: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (k, b) in all.bars.iter().enumerate() {
        if let Of::Panel(panel) = b.of {
            arms.entry(panel).or_default().push(k);
        }
    }
    let mut places: BTreeMap<TieOf, u32> = BTreeMap::new();
    all.ties.iter().filter(|_| !arms.is_empty()).for_each(|t| *places.entry(t.of).or_default() += 1);
    for tie in all.ties.iter().filter(|_| !arms.is_empty()) {
        let TieOf::Fastening(k) = tie.of else { continue };
        let Some(f) = design.fastenings.get(k) else { continue };
        let panel = design.panels.iter().position(|p| p.name == f.what || p.name == f.to);
        let Some(arms) = panel.and_then(|p| arms.get(&p)) else { continue };
        let each = fixing(design, &f.fasteners).div_ceil(places.get(&tie.of).copied().unwrap_or(1));
        let Some(at) = tie.spots.first().map(|s| all.place(*s)) else { continue };
        let own = |bar: usize| tie.spots.iter().any(|s| s.bar() == Some(bar));
        for bar in arms.iter().copied().filter(|k| !own(*k)) {
            let Some(diameter) = widest(design, &all.bars[bar], &f.fasteners) else { continue };
            out.extend(over(&all.bars[bar], at, (diameter, each)).map(|hole| (bar, hole)));
        }
    }
    out
}

/// The hole of so many fasteners at a place of a panel in an arm that runs over it.
fn over(arm: &Bar, at: Vec3, (diameter, count): (f64, u32)) -> Option<Pierced> {
    let along = (at - arm.ends.0).dot(arm.way());
    let (_, half) = arm.form.half();
    let off = (at - arm.ends.0).dot(arm.up).abs();
    let reached = along > -diameter / 2.0 && along < arm.length() && off < half + diameter / 2.0;
    let apart = APART * diameter;
    // what lies on the border is as near to it as it may be, and no more of them are across the arm than have room there
    let off = off.min((half - diameter).max(0.0));
    let room = 2.0 * (half - diameter - off);
    let fit = (1..count).take_while(|n| f64::from(*n) * apart <= room).count();
    let beside = u32::try_from(fit).unwrap_or(0) + 1;
    let drilled = Drilled { beside: (beside, apart), off, ..Drilled::hole(THROUGH_ARM, diameter) };
    let along = along.clamp(0.0, arm.length());
    reached.then(|| Pierced { said: false, ..Pierced::said(along, drilled) })
}

/// Whether a hole that the text drills is the one through which a bolt, an axle or a stem goes: over its place, its way, and wide enough.
fn takes(said: &Pierced, at: f64, (way, through): (Option<[f64; 2]>, f64)) -> bool {
    let same_way = match (said.drilled.way, way) {
        (Some(a), Some(b)) => (a[0] * b[0] + a[1] * b[1]).abs() > SAME_WAY,
        _ => true,
    };
    let wide = said.drilled.diameter + 1e-4 >= through;
    same_way && wide && (said.at - at).abs() < said.reach() + HAIR
}

/// The hole of an axle or a stem that goes through a member or box: as wide as it is. `None` where it goes into the bar's end or past it,
/// where a plate is fastened there instead, and where nobody says how thick it is.
fn bore(design: &Design, settled: &Settled, of: TieOf, (bar, port): (&Bar, Port)) -> Option<Drilled> {
    let (diameter, at, way) = match of {
        TieOf::Wheel(k) => (design.wheels[k].axle_diameter?, design.wheels[k].at, design.wheels[k].axle),
        TieOf::Caster(k) if !fastened(design, &design.casters[k].name, &bar.name) => {
            (design.casters[k].stem_diameter?, design.casters[k].at, Vec3::Z)
        }
        _ => return None,
    };
    let (at, way) = (settled.pose.place(at), settled.pose.turn(way));
    if !matches!(bar.of, Of::Member(_) | Of::Box(_)) || bar.way().dot(way).abs() >= ALONG {
        return None;
    }
    let off = (at - bar.at(port.at)).across(way).across(bar.way());
    let past = off.unit().is_some_and(|e| off.norm() >= bar.half_along(e));
    let e = way.across(bar.way()).unit()?;
    let own = [e.dot(bar.up.cross(bar.way())), e.dot(bar.up)];
    (!past).then(|| Drilled::hole(Some(own), diameter))
}

/// What goes through a bar at a tie, by the bar's name.
fn fasteners<'d>(design: &'d Design, tie: &Tie, bar: &str) -> Vec<&'d [(String, u32)]> {
    let between = |name: &str| {
        let here = |a: &str, b: &str| a == name && b == bar;
        let mine = design.fastenings.iter().filter(|f| here(&f.what, &f.to) || here(&f.to, &f.what));
        mine.map(|f| f.fasteners.as_slice()).collect()
    };
    match tie.of {
        TieOf::Fastening(k) => design.fastenings.get(k).map(|f| f.fasteners.as_slice()).into_iter().collect(),
        TieOf::Joint(id) => {
            let mine = design.closings.iter().filter(|c| c.joint == id);
            mine.map(|c| c.fasteners.as_slice()).collect()
        }
        TieOf::Bearing(k) => between(&design.supports[k].name),
        TieOf::Wheel(k) => between(&design.wheels[k].name),
        TieOf::Caster(k) => between(&design.casters[k].name),
        TieOf::Sheet | TieOf::Part => Vec::new(),
    }
}

/// The widest hole that a list of fasteners makes in a bar. Screws only part the fibres of wood: their holes
/// are not counted there, as in wood design (from memory, not checked).
fn widest(design: &Design, bar: &Bar, list: &[(String, u32)]) -> Option<f64> {
    let wood = allowance(design, &design.stocks[bar.stock].material).is_some_and(wooden);
    let hole = |(name, count): &(String, u32)| {
        let f = design.fastener(name).filter(|_| *count > 0)?;
        match f.kind.as_str() {
            "bolt" | "rivet" => Some(f.diameter + WIDER),
            // in pipe the hole is as wide as what lines it; wood beside it has the bolt's own
            "sleeve" if !wood => Some(f.diameter),
            "screw" if !wood => Some(f.diameter),
            _ => None,
        }
    };
    list.iter().filter_map(hole).reduce(f64::max)
}

/// Way across a bar toward what it is fastened to, in its own axes; `None` where that lies on its line.
fn across(bar: &Bar, port: Port, other: Vec3) -> Option<[f64; 2]> {
    let way = bar.way();
    let off = (other - bar.at(port.at)).across(way);
    let unit = off.unit().filter(|_| off.norm() > 1e-4)?;
    Some([unit.dot(bar.up.cross(way)), unit.dot(bar.up)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Form;
    use crate::hand::bar;
    use crate::shipped::{PARTS, design};
    use crate::structure::Hold;
    use chairwright_design::Frame3;

    const ROLLS: &str = "part \"w\" { kind = wheel, mass = 2 kg, diameter = 600 mm, loaded_radius = 300 mm, width = 30 mm, axle_diameter = 12 mm, source = \"bench\" }
part \"c\" { kind = caster, mass = 1 kg, diameter = 150 mm, width = 30 mm, trail = 40 mm, drop = 115 mm, stem_diameter = 16 mm, source = \"bench\" }
wheel rear = \"w\" at left 280 mm, up 300 mm
caster front = \"c\" at left 200 mm, forward 420 mm, up 190 mm
";

    /// A hole of 16 mm upright where a stem of 16 mm goes up is the stem's; one of 15 mm, one aside, and one 40 mm off are not.
    #[test]
    fn a_hole_is_a_stems_where_the_stem_goes_through() {
        let said = |diameter: f64, way: [f64; 2], at: f64| {
            takes(&Pierced::said(at, Drilled::hole(Some(way), diameter)), 0.4, (Some([0.0, 1.0]), 0.016))
        };
        assert!(said(0.016, [0.0, 1.0], 0.4) && said(0.016, [0.0, -1.0], 0.41));
        assert!(!said(0.015, [0.0, 1.0], 0.4));
        assert!(!said(0.016, [1.0, 0.0], 0.4));
        assert!(!said(0.016, [0.0, 1.0], 0.44));
    }

    /// Way and width of what one tie drills into one bar, mm.
    fn drilled(design: &Design, bar: Bar, of: TieOf, at: Vec3) -> Vec<([i32; 2], f64)> {
        let settled =
            Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts: Vec::new(), rock: 0.0 };
        let port = Port { bar: 0, at: bar.nearest(at).0 };
        let mut all = Structure { bars: vec![bar], ..Structure::default() };
        let spots = vec![Spot::Point(all.point(at)), Spot::Port(port)];
        all.ties.push(Tie { of, spots, hold: Hold::Rigid });
        drill(design, &settled, &mut all);
        #[allow(clippy::cast_possible_truncation)]
        let way = |h: &Pierced| h.drilled.way.unwrap().map(|x| x.abs().round() as i32);
        all.bars[0].holes.iter().map(|h| (way(h), h.drilled.diameter * 1e3)).collect()
    }

    /// An arm 100 mm wide and 200 mm long along x. Two M8 60 mm along it and 20 mm beside its middle: 9 mm holes, 36 mm
    /// apart, for which there is room: 2 (50 - 9 - 20) = 42 mm between the first and the last, and in the middle for three,
    /// 82 mm. 70 mm beside it, behind its end and beyond the other, there is none.
    #[test]
    fn an_arm_runs_over_holes() {
        let arm = Bar {
            of: Of::Panel(0),
            ..bar(Vec3::ZERO, Vec3::X * 0.2, Vec3::Y, Form::Flat { level: 0.018, upright: 0.1 })
        };
        let of = |x: f64, y: f64, count: u32| over(&arm, Vec3::new(x, y, 0.05), (0.009, count));
        let hole = of(0.06, 0.02, 2).unwrap();
        assert!((hole.at - 0.06).abs() < 1e-12 && hole.drilled.beside.0 == 2, "{hole:?}");
        assert!((hole.drilled.off - 0.02).abs() < 1e-12 && !hole.said);
        assert_eq!(of(0.06, 0.02, 5).unwrap().drilled.beside.0, 2);
        assert_eq!(of(0.06, 0.0, 5).unwrap().drilled.beside.0, 3);
        // what is left can be reckoned with: 18 mm by 100 mm less two of 9 mm
        let left = arm.form.stress_at(&pull(), Some(hole.drilled)).unwrap();
        assert!((left.axial * 18e-3 * 82e-3 - 1.0).abs() < 1e-9, "{left:?}");
        assert!(of(0.06, 0.07, 2).is_none() && of(-0.01, 0.0, 2).is_none() && of(0.201, 0.0, 2).is_none());
        assert!((of(-0.002, 0.0, 1).unwrap().at).abs() < 1e-12);
    }

    /// Two M8 through a web into a post at the end of one arm of it, 9 mm each across the sheet; another arm that runs on over the place has
    /// both too, one 60 mm further aside has none. Screws only part the fibres of plywood.
    #[test]
    fn arms_of_a_panel_are_drilled() {
        let of = |with: &str| {
            let design = design(&format!(
                "use catalogue.panels
use catalogue.lumber
use catalogue.fasteners
stock ply = \"plywood 18 mm\"
joint a at (0 mm, 0 mm, 0 mm)
joint b at (0 mm, 0 mm, 400 mm)
member post = \"lumber 2x4\" from a to b
panel web = ply corners (0 mm, 19 mm, 0 mm), (300 mm, 19 mm, 0 mm), (300 mm, 19 mm, 400 mm), (0 mm, 19 mm, 400 mm) toward left
fasten web to post using \"{with}\" times 2
"
            ));
            let form = Form::Flat { level: 0.018, upright: 0.08 };
            let arm = |from: Vec3, to: Vec3| Bar {
                name: "web".to_owned(),
                of: Of::Panel(0),
                stock: design.panels[0].stock,
                ..bar(from, to, Vec3::Z, form)
            };
            let at = |x: f64, z: f64| Vec3::new(x, 0.028, z);
            let post = Bar { name: "post".to_owned(), ..bar(Vec3::ZERO, Vec3::Z * 0.4, Vec3::X, form) };
            let arms = [(0.15, 0.2, 0.0, 0.2), (0.15, 0.2, -0.1, 0.2), (0.15, 0.26, -0.1, 0.26)];
            let arms = arms.map(|(x, z, to, up)| arm(at(x, z), at(to, up)));
            let mut all = Structure { bars: [post].into_iter().chain(arms).collect(), ..Structure::default() };
            let spots = vec![Spot::Port(Port { bar: 1, at: 0.15 }), Spot::Port(Port { bar: 0, at: 0.2 })];
            all.ties.push(Tie { of: TieOf::Fastening(0), spots, hold: Hold::Rigid });
            let settled =
                Settled { pose: Frame3::IDENTITY, pitch: 0.0, roll: 0.0, contacts: Vec::new(), rock: 0.0 };
            drill(&design, &settled, &mut all);
            let told =
                |h: &Pierced| ((h.at * 1e3).round(), (h.drilled.diameter * 1e3).round(), h.drilled.beside.0);
            all.bars[1..].iter().map(|b| b.holes.iter().map(told).collect::<Vec<_>>()).collect::<Vec<_>>()
        };
        assert_eq!(of("bolt M8 x 70"), [vec![(150.0, 9.0, 1)], vec![(150.0, 9.0, 2)], vec![]]);
        assert!(of("screw 5 x 50").iter().all(Vec::is_empty));
    }

    fn pull() -> crate::form::Forces {
        crate::form::Forces { pull: 1.0, ..crate::form::Forces::default() }
    }

    /// An axle of 12 mm through a post 40 mm inboard leaves a hole of 12 mm along it; past a post 30 mm beside it, and into the end of a bar
    /// in its line, none. A stem of 16 mm stands on the underside of a rail and goes up through it.
    #[test]
    fn axles_and_stems_are_holes() {
        let design = design(&format!("{PARTS}{ROLLS}"));
        let pipe = Form::Tube { outer: 42e-3, wall: 3.5e-3 };
        let hub = Vec3::new(0.0, 0.28, 0.3);
        let post = |x: f64| bar(Vec3::new(x, 0.24, 0.1), Vec3::new(x, 0.24, 0.6), Vec3::X, pipe);
        assert_eq!(drilled(&design, post(0.0), TieOf::Wheel(0), hub), [([1, 0], 12.0)]);
        assert_eq!(drilled(&design, post(0.03), TieOf::Wheel(0), hub), []);
        let across = bar(Vec3::new(0.0, 0.2, 0.3), Vec3::new(0.0, -0.2, 0.3), Vec3::Z, pipe);
        assert_eq!(drilled(&design, across, TieOf::Wheel(0), hub), []);
        let rail = bar(Vec3::new(0.0, 0.2, 0.211), Vec3::new(0.5, 0.2, 0.211), Vec3::Z, pipe);
        let seat = Vec3::new(0.42, 0.2, 0.19);
        assert_eq!(drilled(&design, rail, TieOf::Caster(0), seat), [([0, 1], 16.0)]);
    }
}
