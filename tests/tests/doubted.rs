//! What is uncertain is tried in every chair that a design may be, and every report says the same of it.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_diagnostics::Diagnostic;
use chairwright_driver::{Options, Project, compile, compile_all, repair};
use chairwright_report::{json, report_text};
use chairwright_tests::Memory;
use serde_json::Value;

/// A chair 2 x `hub` + 35 mm wide.
fn chair(above: &str, hub: &str) -> Memory {
    Memory::of(&format!(
        "use catalogue.panels\n\
         part \"w\" {{ kind = wheel, mass = 2 kg, diameter = 600 mm, width = 35 mm, source = \"tape\" }}\n\
         part \"c\" {{ kind = caster, mass = 1 kg, diameter = 150 mm, width = 30 mm, trail = 40 mm, drop = 90 mm, source = \"tape\" }}\n\
         rider {{ mass = 68 kg origin measured by \"nurse\", stature = 1.70 m }}\n\
         {above}\n\
         both sides {{\n    joint hub at outward {hub}, up 300 mm\n    wheel rear = \"w\" at hub\n    \
         caster front = \"c\" at outward 200 mm, forward 380 mm, up 165 mm\n}}\n\
         seat = \"plywood 12 mm\" from up 480 mm to up 480 mm, forward 430 mm width 400 mm\n"
    ))
}

fn all_of(world: &Memory, code: &str) -> Vec<Diagnostic> {
    let (_, all) = compile_all(world, "main.chair");
    all.into_iter().flat_map(|c| c.problems).filter(|p| p.code.name == code).collect()
}

/// As drawn 535 mm wide, 545 mm in two states and 555 mm in a third, where 540 mm are asked for: what is the same in two is told once,
/// with the other's name.
#[test]
fn a_finding_names_every_state_that_has_it() {
    let above = "param gap = 250 mm within 240 mm .. 280 mm\nstate day { gap = 255 mm }\nstate night { gap = 255 mm }\n\
                 state wide { gap = 260 mm }\nrequire width.overall <= 540 mm";
    let found = all_of(&chair(above, "gap"), "requirement-unmet");
    let same = |p: &Diagnostic| p.notes.iter().filter(|n| n.starts_with("the same in ")).cloned().collect();
    let told: Vec<(Option<&str>, Vec<String>)> =
        found.iter().map(|p| (p.situation.as_deref(), same(p))).collect();
    let night = vec!["the same in state night".to_owned()];
    assert_eq!(told, [(Some("state day"), night), (Some("state wide"), vec![])]);
}

/// As drawn 2 x 250 + 35 = 535 mm, at most 543; in the state 555 mm, and 563 at the upper end.
#[test]
fn a_tolerance_is_tried_in_a_state() {
    let above = "param gap = 250 mm within 240 mm .. 280 mm\nstate wide { gap = 260 mm }\nrequire width.overall <= 560 mm";
    let found = all_of(&chair(above, "gap ± 4 mm"), "hangs-on-a-measure");
    let told: Vec<_> = found.iter().map(|p| p.situation.clone()).collect();
    assert_eq!(told, [Some("state wide".to_owned())]);
    let above = above.replace("560", "564");
    assert!(all_of(&chair(&above, "gap ± 4 mm"), "hangs-on-a-measure").is_empty());
}

/// The same at the last stop of a slot: 2 x 260 + 35 = 555 mm, and 563 at the upper end; at 255 mm it is 545 and 553.
#[test]
fn a_tolerance_is_tried_at_a_stop() {
    let above = "adjust gap = 250 mm within 240 mm .. 260 mm every 5 mm\nrequire width.overall <= 560 mm";
    let found = all_of(&chair(above, "gap ± 4 mm"), "hangs-on-a-measure");
    let told: Vec<_> = found.iter().map(|p| p.situation.clone()).collect();
    assert_eq!(told, [Some("gap at stop 5 (260 mm)".to_owned())]);
}

/// As drawn 2 x 260 + 35 = 555 mm; each of three dimensions can add 20 mm, all three 60: 615 mm. 11 x 11 x 11 stops are too
/// many to try all.
#[test]
fn stops_that_together_break_a_demand_are_tried_together() {
    let adjust = |name: &str, now: u32| {
        format!("adjust {name} = {now} mm within {} mm .. {} mm every 2 mm\n", now - 10, now + 10)
    };
    let above = format!("{}{}{}", adjust("a", 100), adjust("b", 100), adjust("d", 60));
    let found =
        all_of(&chair(&format!("{above}require width.overall <= 600 mm"), "a + b + d"), "requirement-unmet");
    assert!(found.iter().any(|p| p.headline.contains("615.0 mm against 600.0 mm")), "{found:?}");
    let found =
        all_of(&chair(&format!("{above}require width.overall <= 616 mm"), "a + b + d"), "requirement-unmet");
    assert!(found.is_empty(), "{found:?}");
}

/// 555 mm in the middle, 563 at the upper end: nobody can tell, and text and JSON say so alike.
#[test]
fn both_reports_say_that_nobody_can_tell() {
    for demand in ["width.overall <= 560 mm", "width.overall <= 560 mm and mass.chair <= 90 kg"] {
        let world = chair(&format!("require {demand}"), "260 mm ± 4 mm");
        let mut project = Project::load(&world, "main.chair");
        let options = Options::default();
        let mut c = project.compile(&options);
        project.study(&options, &mut c);
        let read: Value = serde_json::from_str(&json(&c, &project.sources).unwrap()).unwrap();
        assert_eq!(read["demands"][0]["verdict"], "cannot tell", "{demand}");
        let text = report_text(&c, &project.sources);
        let line = text.lines().find(|l| l.contains("width.overall <= 560 mm")).unwrap();
        assert!(line.trim_start().starts_with("cannot tell"), "{line}");
    }
}

/// atan(1/12) = 4.7636 deg; what is no ratio may have been degrees, percent, years or months, and stays as it is.
#[test]
fn a_repair_invents_no_unit() {
    for text in [
        "conditions { slope = 0.083 }\n",
        "conditions { slope = 8 }\n",
        "rider { mass = 21 kg, age = 7 }\n",
        "rider { mass = 21 kg, after = 24 }\n",
        "require tip.side >= 10\n",
    ] {
        let made = repair(&Memory::of(text), "main.chair").made;
        assert!(made.is_empty(), "{text}: {made:?}");
    }
    let made = repair(&Memory::of("conditions { slope = 1/12 }\n"), "main.chair").made;
    assert_eq!(made.iter().map(|r| r.is.as_str()).collect::<Vec<_>>(), ["4.77 deg"]);
}

/// A tolerance given on the command line counts like one in the text: 555 mm, and 563 at the upper end.
#[test]
fn a_tolerance_of_the_command_line_is_tried() {
    let world = chair("param gap = 250 mm\nrequire width.overall <= 560 mm", "gap");
    let settings = vec![("gap".to_owned(), "260 mm ± 4 mm".to_owned())];
    let (_, c) = compile(&world, "main.chair", &Options { settings, ..Options::default() });
    assert!(c.problems.iter().any(|p| p.code.name == "hangs-on-a-measure"), "{:?}", c.problems);
}

/// How a frame gives way sideways is worked out for whoever demands it, in the check as in the report: the first chair bears
/// many times its rider. And a demand on what only strength knows hangs on no measure that does not move it.
#[test]
fn demands_on_strength_are_judged_alike_in_check_and_report() {
    let folder = chairwright_tests::root().join("examples/first_chair");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    let text = read("first.chair") + "\nrequire buckling.factor >= 3\nrequire seat.angle.change <= 5 deg\n";
    let mut world = Memory::of(&text);
    for name in ["parts.chair", "prices.csv"] {
        world.0.insert(name.to_owned(), read(name));
    }
    let asked = |c: &chairwright_driver::Compilation, figure: &str| {
        let v = c.verdicts.iter().find(|v| v.uses.iter().any(|f| f == figure)).unwrap();
        let doubts = c.problems.iter().filter(|p| p.code.name == "hangs-on-a-measure");
        (v.holds, doubts.filter(|p| p.headline.contains(figure)).count())
    };
    let one = compile(&world, "main.chair", &Options::default()).1;
    let (_, all) = compile_all(&world, "main.chair");
    for figure in ["buckling.factor", "seat.angle.change"] {
        assert_eq!(asked(&one, figure), (Some(true), 0), "{figure}");
        assert_eq!(asked(&all[0], figure), (Some(true), 0), "{figure}");
    }
}

/// 15 % of 125 mm of hip joint by stature, 18.7 mm, move the chair's middle by some 16.7 mm of 710: 1.3 degrees, where 1.0 is left. Once it is
/// measured the demand is met in both reports, and so is one that the whole spread leaves alone.
#[test]
fn both_reports_doubt_what_rests_on_a_guess() {
    let stands = |rider: &str, least: &str| {
        let demand = format!("require tip.rear.locked >= {least}");
        let mut world = chair(&demand, "260 mm");
        let text = world.0.get_mut("main.chair").unwrap();
        *text = text.replace("stature = 1.70 m", rider);
        let mut project = Project::load(&world, "main.chair");
        let mut c = project.compile(&Options::default());
        project.study(&Options::default(), &mut c);
        let read: Value = serde_json::from_str(&json(&c, &project.sources).unwrap()).unwrap();
        let text = report_text(&c, &project.sources);
        let line = text.lines().find(|l| l.contains("tip.rear.locked >=")).unwrap().trim_start().to_owned();
        let json = read["demands"][0]["verdict"].as_str().unwrap().to_owned();
        assert!(line.starts_with(if json == "pass" { "met" } else { &json }), "{line} {json}");
        json
    };
    assert_eq!(stands("stature = 1.70 m", "13 deg"), "cannot tell");
    assert_eq!(stands("stature = 1.70 m, hip_ahead = 125 mm", "13 deg"), "pass");
    assert_eq!(stands("stature = 1.70 m", "12 deg"), "pass");
}

/// Between the walls of a corridor half a turn takes `turn.width`; nobody says that it has to be made there.
#[test]
fn a_corridor_too_narrow_to_turn_in_is_told() {
    let told = |wide: &str| {
        let world = chair(&format!("conditions {{ corridor = {wide} }}"), "260 mm");
        let c = compile(&world, "main.chair", &Options::default()).1;
        let least = c.figures.si("turn.width").unwrap();
        (least, c.assumptions.iter().any(|a| a.contains("turning_space")))
    };
    let (least, narrow) = told("700 mm");
    assert!(narrow && least > 0.7, "{least}");
    assert_eq!(told("2 m"), (least, false));
}
