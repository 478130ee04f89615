//! What a builder takes to the workshop: marks along the pieces, cement and glue on the bill, and what the sheets say of themselves.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_diagnostics::Sources;
use chairwright_driver::{Compilation, Options, Project, Situation};
use chairwright_making::{Mark, Set, What, marks};
use chairwright_report::{View, bill_csv, cuts_csv, drawing, json, report_text, slopes_drawing};
use chairwright_tests::{Disk, Memory, root};
use serde_json::Value;

fn compiled(text: &str) -> Compilation {
    chairwright_driver::compile(&Memory::of(text), "main.chair", &Options::default()).1
}

fn example(folder: &str, file: &str, state: Option<&str>) -> Compilation {
    let world = Disk(root().join("examples").join(folder));
    let mut project = Project::load(&world, file);
    let situation = Situation { state: state.map(str::to_owned), ..Situation::default() };
    project.compile(&Options { situation, ..Options::default() })
}

/// A rail of 500 mm and a post of 400 mm that laps it 250 mm along the one and 200 mm along the other.
const LAPPED: &str = "use catalogue.lumber
joint a at up 300 mm
joint b at a, forward 500 mm
joint c at a, forward 250 mm, down 200 mm
joint d at c, up 400 mm
member rail = \"board 45 x 45\" from a to b
member post = \"board 45 x 45\" from c to d
joint tie on rail at 90 mm from a
joint meet at crossing(rail, post)
hole pin on rail at 400 mm from a diameter 8 mm toward left
use catalogue.fasteners
";

/// Marks in mm and words, by piece.
fn marked(c: &Compilation, piece: &str) -> Vec<(f64, String)> {
    let all = marks(&c.design, &c.frame, &[]);
    let of = all.iter().find(|m| m.names.iter().any(|n| n == piece)).unwrap_or_else(|| panic!("{all:?}"));
    let words = |what: &What| match what {
        What::Mouth(last) => format!("mouth {last}"),
        What::Hole(name) | What::Part(name) => name.clone(),
        What::Fastener(name, with) => format!("{name} of {with}"),
        What::Edge(name, ends) => format!("{name} {}", if *ends { "ends" } else { "begins" }),
        What::Joint(joint, meets) => {
            let meets: Vec<&str> = meets.iter().map(|m| c.design.members[*m].name.as_str()).collect();
            format!("{} {}", c.design.joints[*joint].name, meets.join(" ")).trim().to_owned()
        }
    };
    of.marks.iter().map(|m| ((m.at * 1e4).round() / 10.0, words(&m.what))).collect()
}

/// By hand: a joint nobody else is at, the lap at its middle, and a hole; ends without sockets have no mark.
#[test]
fn boards_are_marked_where_others_cross() {
    let c =
        compiled(&format!("{LAPPED}close meet with lap of post toward left using \"screw 5 x 60\" times 4\n"));
    let wanted = [(90.0, "tie"), (250.0, "meet post"), (400.0, "pin")].map(|(at, w)| (at, w.to_owned()));
    assert_eq!(marked(&c, "rail"), wanted);
    assert_eq!(marked(&c, "post"), [(200.0, "meet rail".to_owned())]);
}

/// By hand: a ledge from 100 to 300 mm along the rail's side, and a post that crosses it square, 45 mm broad, its middle at 430 mm.
#[test]
fn what_is_fastened_is_marked_at_its_edges() {
    let c = compiled(&format!(
        "{LAPPED}close meet with lap of post toward left using \"screw 5 x 60\" times 4
joint e at a, forward 100 mm, right 45 mm
joint f at a, forward 300 mm, right 45 mm
member ledge = \"board 45 x 45\" from e to f
joint g at a, forward 430 mm, right 45 mm, down 100 mm
joint h at g, up 200 mm
member stub = \"board 45 x 45\" from g to h
fasten ledge to rail using \"screw 5 x 60\" times 4
fasten rail to stub using \"screw 5 x 60\" times 2
"
    ));
    let found = marked(&c, "rail");
    for (at, words) in
        [(100.0, "ledge begins"), (300.0, "ledge ends"), (407.5, "stub begins"), (452.5, "stub ends")]
    {
        assert!(found.contains(&(at, words.to_owned())), "{at} {words}: {found:?}");
    }
    // the rail's own edges on the stub, and past both ends of the ledge
    assert_eq!(marked(&c, "stub"), [(77.5, "rail begins".to_owned()), (122.5, "rail ends".to_owned())]);
    assert!(marks(&c.design, &c.frame, &[]).iter().all(|m| m.names != ["ledge"]));
}

/// By hand: six bolts 72 mm apart about the middle of a bar of 430 mm between its joints: at 35, 107, 179, 251, 323 and 395 mm from the
/// first joint, and so far less on the piece as its socket's middle is from its end.
#[test]
fn bolts_that_the_text_places_are_marked() {
    let c = example("first_chair", "first.chair", None);
    let piece = c.frame.pieces.iter().find(|p| p.name == "foot_bar").unwrap();
    let from = piece.lies.unwrap().from;
    let through = c.strength.rooms.iter().flat_map(|r| &r.through);
    let set: Vec<Set> = through
        .map(|t| Set {
            member: t.member,
            along: t.along.clone(),
            fastener: t.fastener.clone(),
            with: t.with.clone(),
        })
        .collect();
    let all = marks(&c.design, &c.frame, &set);
    let of = all.iter().find(|m| m.names == ["foot_bar"]).unwrap();
    let bolts =
        |m: &&Mark| matches!(&m.what, What::Fastener(f, with) if f == "bolt M6 x 80" && with == "footrest");
    let found: Vec<f64> = of.marks.iter().filter(bolts).map(|m| m.at + from).collect();
    let wanted = [0.035, 0.107, 0.179, 0.251, 0.323, 0.395];
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-6), "{found:?}");
}

/// Pipes are marked as deep as the socket's page says, from both ends: of every pipe of the school chair, cut by tees, its own length
/// less the depth; and no centre of a fitting lies on a piece that it cuts.
#[test]
fn pipes_are_marked_at_the_mouths_of_their_fittings() {
    let c = example("highland_school", "highland_school.chair", None);
    let mut pipes = 0;
    for m in marks(&c.design, &c.frame, &[]).iter().filter(|m| c.design.stocks[m.stock].is_pipe()) {
        let piece = c.frame.pieces.iter().find(|p| p.name == m.names[0]).unwrap();
        let depths: Vec<f64> = m
            .marks
            .iter()
            .filter_map(|k| match k.what {
                What::Mouth(last) => Some(if last { m.length - k.at } else { k.at }),
                _ => None,
            })
            .collect();
        assert_eq!(
            depths.len(),
            piece.lies.unwrap().grip.iter().filter(|g| **g > 0.0).count(),
            "{}",
            piece.name
        );
        let pages: Vec<f64> = c.design.sockets.values().map(|s| s.depth).collect();
        assert!(
            depths.iter().all(|d| pages.iter().any(|p| (p - d).abs() < 1e-9)),
            "{}: {depths:?}",
            piece.name
        );
        pipes += 1;
    }
    assert!(pipes > 5);
}

/// Cement and glue that no line buys are listed without a price, and the total is one from below; a line that buys one takes it off.
#[test]
fn glue_that_nobody_buys_is_on_the_bill() {
    let glued = format!(
        "{LAPPED}close meet with lap of post toward left using \"screw 5 x 60\" times 4 glued \"wood glue D4\"\n"
    );
    let used = |c: &Compilation| -> Vec<(String, usize, usize)> {
        c.bill.used_up.iter().map(|u| (u.key.clone(), u.joints, u.boxes)).collect()
    };
    let c = compiled(&glued);
    assert_eq!(used(&c), [("wood glue D4".to_owned(), 1, 0)]);
    assert!(c.bill.is_least());
    let row = bill_csv(&c).lines().find(|l| l.starts_with("wood glue D4")).unwrap().to_owned();
    assert!(row.starts_with("wood glue D4,1 joint,,as needed,,,"), "{row}");
    let report: Value = serde_json::from_str(&json(&c, &Sources::default()).unwrap()).unwrap();
    let last = report["bill"].as_array().unwrap().last().unwrap().clone();
    assert_eq!((&last["key"], &last["price"]), (&Value::from("wood glue D4"), &Value::Null));
    let bought = compiled(&format!("{glued}supply \"Wood Glue D4\" times 1\n"));
    assert_eq!(used(&bought), []);
    // the first chair has 14 joints of pipe and one box of plywood, and buys cement and glue for them
    let first = example("first_chair", "first.chair", None);
    assert_eq!((used(&first), first.frame.joints.len()), (vec![], 14));
    let alone = |but: &str| used(&first_chair(|text| text.replace(but, "")));
    assert_eq!(alone(SUPPLIES[0]), [("solvent cement".to_owned(), 14, 0)]);
    assert_eq!(alone(SUPPLIES[1]), [("wood glue".to_owned(), 0, 1)]);
}

/// What the first chair buys of cement and glue.
const SUPPLIES: [&str; 2] = ["supply \"solvent cement\" times 1\n", "supply \"wood glue D3\" times 1\n"];

/// The first chair with another text.
fn first_chair(change: impl Fn(String) -> String) -> Compilation {
    let folder = root().join("examples/first_chair");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    let text = read("first.chair");
    assert!(SUPPLIES.iter().all(|s| text.contains(s)));
    let world = Memory::of(&change(text))
        .with("parts.chair", &read("parts.chair"))
        .with("prices.csv", &read("prices.csv"));
    chairwright_driver::compile(&world, "main.chair", &Options::default()).1
}

/// What a demand asks of the cost cannot be told met as long as something is not in the total.
#[test]
fn a_total_without_its_glue_meets_no_limit() {
    let limit = |supplies: [&str; 2]| {
        let c = first_chair(|text| {
            let text = text.replace(SUPPLIES[0], supplies[0]).replace(SUPPLIES[1], supplies[1]);
            format!("{text}\nrequire cost.total <= 400 USD\n")
        });
        c.problems.iter().filter(|p| p.headline == "the cost is only known from below").count()
    };
    assert_eq!(limit(SUPPLIES), 0);
    assert_eq!(limit(["", ""]), 1);
    // that they are bought without a price leaves it open as well
    assert_eq!(limit([SUPPLIES[0], "supply \"wood glue\" times 1\n"]), 1);
}

/// Every sheet of a chair with an error says so, and every sheet says of which state it is.
#[test]
fn every_sheet_says_what_it_is_of() {
    const MARK: &str = "NOT TO BE BUILT AS IT STANDS";
    let door = example("porch_and_clinic", "porch_and_clinic.chair", None);
    let first = example("first_chair", "first.chair", None);
    assert!(door.has_errors() && !first.has_errors());
    let sheets = |c: &Compilation| {
        let mut all: Vec<String> = [View::Side, View::Front, View::Top].map(|v| drawing(c, v)).into();
        all.extend(slopes_drawing(c));
        all.extend(chairwright_report::bent_drawings(c).into_iter().map(|(_, svg)| svg));
        all.extend([cuts_csv(c), bill_csv(c), report_text(c, &Sources::default())]);
        all
    };
    assert_eq!(sheets(&door).len(), 9);
    assert!(sheets(&door).iter().all(|s| s.contains(MARK)));
    assert!(sheets(&first).iter().all(|s| !s.contains(MARK)));
    let boot = example("highland_school", "cousin.chair", Some("boot"));
    assert!(sheets(&boot).iter().all(|s| s.to_lowercase().contains("state boot")));
    // without its wheels it stands on no ground, and nobody sits in it
    let (packed, ridden) = (drawing(&boot, View::Side), drawing(&first, View::Side));
    for (word, class) in [("rider", "class=\"rider"), ("ground", "class=\"ground")] {
        assert!(ridden.contains(class) && !packed.contains(class), "{word}");
    }
    assert!(
        packed.contains("it does not stand on its wheels")
            && !ridden.contains("it does not stand on its wheels")
    );
}

/// Every drawing to a scale carries a bar that is drawn as long as it says, inside its picture, and the word that nothing is measured off it.
#[test]
fn drawings_carry_a_control_bar() {
    let bar = |svg: &str| {
        let all: Vec<&str> = svg.split("<g class=\"bar\">").skip(1).collect();
        let [bar] = all[..] else { panic!("{} bars", all.len()) };
        let words = bar.split("<title>").nth(1).unwrap().split('<').next().unwrap().to_owned();
        let solid = bar.split(" d=\"M").nth(2).unwrap();
        let from: f64 = solid.split(' ').next().unwrap().parse().unwrap();
        let to: f64 = solid.split('H').nth(1).unwrap().split('V').next().unwrap().parse().unwrap();
        let sheet = svg.split("viewBox=\"").nth(1).unwrap().split('"').next().unwrap();
        let sheet: Vec<f64> = sheet.split(' ').map(|n| n.parse().unwrap()).collect();
        assert!(from > sheet[0] && to < sheet[0] + sheet[2]);
        (words, to - from)
    };
    let first = example("first_chair", "first.chair", None);
    let mut drawings: Vec<String> = [View::Side, View::Front, View::Top].map(|v| drawing(&first, v)).into();
    drawings.extend(chairwright_report::bent_drawings(&first).into_iter().map(|(_, svg)| svg));
    assert_eq!(drawings.len(), 5);
    let inches = compiled(&format!("units inch to 1/16 in\n{LAPPED}"));
    let of_inches = drawing(&inches, View::Side);
    for (svg, words, long) in
        drawings.iter().map(|svg| (svg, "100 mm", 100.0)).chain([(&of_inches, "4 in", 101.6)])
    {
        let (said, drawn) = bar(svg);
        assert_eq!(said, format!("control bar, {words} of the chair"));
        assert!((drawn - long).abs() < 0.11, "{drawn} mm");
        assert!(svg.contains("Nothing is measured off this sheet"));
    }
}

/// A long name is broken, in the report and on the test sheet.
#[test]
fn long_names_fit_the_page() {
    let name = "a_chair_with_a_name_that_goes_on_and_on_and_on_until_nobody_reads_it_to_its_end_any_more";
    let c =
        compiled(&format!("design {name}\nrevision 12\nlicence \"{}\"\n{LAPPED}", "LicenseRef-x ".repeat(9)));
    let pages = [report_text(&c, &Sources::default()), chairwright_report::sheet_page(&c)];
    for line in pages.iter().flat_map(|p| p.lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

/// Wheels and casters stand on the ground line, also where a tyre is flatter under the rider.
#[test]
fn wheels_stand_on_the_ground_line() {
    let text = r#"
part "w" { kind = wheel, mass = 2 kg, diameter = 600 mm, loaded_radius = 292 mm, width = 35 mm, source = "tape" }
part "c" { kind = caster, mass = 1 kg, diameter = 200 mm, loaded_radius = 90 mm, width = 50 mm, trail = 40 mm, drop = 120 mm, source = "tape" }
both sides {
    wheel rear = "w" at outward 260 mm, up 292 mm
    caster front = "c" at outward 200 mm, forward 380 mm, up 210 mm
}
"#;
    let c = compiled(text);
    assert!(c.checked.settled.is_some());
    for view in [View::Side, View::Front] {
        let svg = drawing(&c, view);
        let wheels: Vec<&str> = svg.split("<path class=\"wheel\"").skip(1).collect();
        assert!(wheels.len() >= 4);
        let lowest = |path: &str| {
            let path = path.split(" d=\"").nth(1).unwrap().split('"').next().unwrap();
            let ends = path.split(['M', 'L', 'Z']).filter_map(|p| p.split_once(' '));
            ends.map(|(_, y)| y.parse::<f64>().unwrap()).fold(f64::NEG_INFINITY, f64::max)
        };
        let all = wheels.iter().map(|p| lowest(p)).fold(f64::NEG_INFINITY, f64::max);
        assert!(all.abs() < 0.06, "{all} mm below the ground line");
    }
}
