//! The strength check on whole chairs: moments that can be worked out by hand, the scenarios' numbers,
//! and what no order of statements may change.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_driver::World;
use chairwright_driver::{Compilation, Options, StrengthWanted, compile};
use chairwright_strength::{CaseKind, Item, Mode, Of, Verdict, What, without_side};
use chairwright_tests::{Disk, EXAMPLES, Memory, chair_of_boxes, example, root};

/// A chair of plywood boxes on an axle that is given, its housings 0.18 m beside the middle, the wheels
/// `arm` further out.
fn chair(mass: u32, celsius: u32, arm: f64, axle: &str) -> Compilation {
    let text = chair_text(mass, celsius, arm, axle);
    compile(&Memory::of(&text), "main.chair", &Options::default()).1
}

fn chair_text(mass: u32, celsius: u32, arm: f64, axle: &str) -> String {
    let wheel = 0.18 + arm;
    format!(
        "use catalogue.panels
use catalogue.fasteners
use catalogue.pipe_inch
use catalogue.metal
part \"w\" {{ kind = wheel, mass = 2 kg, diameter = 600 mm, loaded_radius = 300 mm, width = 30 mm, source = \"bench\" }}
part \"c\" {{ kind = caster, mass = 1 kg, diameter = 150 mm, width = 30 mm, trail = 40 mm, drop = 115 mm, source = \"bench\" }}
rider {{ mass = {mass} kg, stature = 1.7 m }}
conditions {{ temperature = {celsius} degC }}
stock ply = \"plywood 18 mm\"
both sides {{
    wheel rear = \"w\" at outward {wheel} m, up 300 mm
    caster front = \"c\" at outward 180 mm, forward 420 mm, up 190 mm
    box side = ply from outward 180 mm, back 60 mm, up 380 mm to outward 180 mm, forward 440 mm, up 380 mm outside 80 mm by 100 mm
    fasten side to axle_beam using \"bolt M8 x 140\" times 4
    fasten side to nose using \"bolt M8 x 140\" times 4
    fasten seat to side using \"bolt M6 x 80\" times 4
}}
{axle}
box nose = ply from left 200 mm, forward 420 mm, up 260 mm to right 200 mm, forward 420 mm, up 260 mm outside 80 mm by 140 mm
seat = ply from up 448 mm to forward 420 mm, up 448 mm width 420 mm
"
    )
}

/// An axle of a stock, held at 0.18 m on either side, with more statements behind it.
fn tube(stock: &str, more: &str) -> String {
    format!(
        "joint left_end at left 200 mm, up 300 mm
joint right_end at right 200 mm, up 300 mm
member axle_beam = \"{stock}\" from left_end to right_end
close left_end with open
close right_end with open
{more}"
    )
}

fn item<'c>(c: &'c Compilation, name: &str) -> &'c Item {
    let found = c.strength.items.iter().find(|i| i.name == name);
    found.unwrap_or_else(|| panic!("no {name}: {:?} {:?}", c.strength.loose, c.strength.swings))
}

/// Stress over bumps: three times wheel load times arm over the section modulus. The axle between the
/// housings is bent by the same moment all along, whatever the rest of the chair does.
fn bumps(c: &Compilation, arm: f64, modulus: f64) -> f64 {
    let load = c.strength.feet.iter().find(|f| f.0 == "left.rear").unwrap().1;
    3.0 * load * arm / modulus
}

/// How much more a rear wheel carries with the casters ahead of their stems than with trailing ones: they stand 420 + 40 instead of
/// 420 - 40 mm ahead of the axle, and carry 380/460 of what they did; the rear wheels carry the rest.
fn casters_ahead(c: &Compilation) -> f64 {
    let load = |name: &str| c.strength.feet.iter().find(|f| f.0 == name).unwrap().1;
    1.0 + load("left.front") * (1.0 - 380.0 / 460.0) / load("left.rear")
}

/// Trade paper 1.13: 84 kg in all, two thirds on the rear wheels, 65 mm from wheel to housing: 17.9 N m, three times
/// that 54 N m, 14 MPa in 1 1/4 in Schedule 40 (Z 3 844 mm³); "no margin before counting the drilled
/// hole". Here the hole is counted: bolts M8 hold the housings, in 9 mm holes through top and bottom, which leave
/// 81 044 − 2·9·3.556·19.3² = 57 190 mm⁴, Z 2 713 mm³. The wheel load is the computed one, so the stress is compared
/// with that; 2 % for the shear that von Mises adds and the pull of the rider's friction.
#[test]
fn a_bare_pipe_is_no_axle() {
    let arm = 0.065;
    let c = chair(72, 23, arm, &tube("pipe 1 1/4 in sch40", ""));
    let axle = item(&c, "axle_beam");
    // lives are told of the worst bumps, with the casters ahead
    let by_hand = bumps(&c, arm, 2.713e-6) * casters_ahead(&c);
    let life = c.strength.lives.iter().find(|l| l.name == "axle_beam").unwrap();
    assert!((life.stress / by_hand - 1.0).abs() < 0.02, "{} {by_hand}", life.stress);
    assert!(by_hand > 9e6, "{by_hand}");
    assert_ne!(axle.verdict, Verdict::Pass, "{:?}", axle.used);
    let drilled =
        tube("pipe 1 1/4 in sch40", "hole pin on axle_beam at 20 mm from left_end diameter 8.4 mm toward up");
    let c = chair(84, 23, 0.085, &drilled);
    let axle = item(&c, "axle_beam");
    assert_eq!(axle.verdict, Verdict::Fail, "{:?} {:?}", axle.used, axle.mode);
}

/// Scenario S3: 2 in pipe as the axle beam of a heavy rider in a garage of 45 degC, 75 mm of arm: 11.7 MPa where about
/// 7 MPa are borne 200 000 times (15 MPa x 0.47). A steel tube holds but for its bolt holes, and a closed box of plywood but for the glue in its
/// corners, which must prove themselves.
#[test]
fn a_heavy_rider_needs_a_box_or_a_tube_of_steel() {
    let arm = 0.075;
    let c = chair(148, 45, arm, &tube("pipe 2 in sch40", ""));
    let axle = item(&c, "axle_beam");
    assert_eq!(*c.strength.cases[axle.case].kind.plain(), CaseKind::Bumps);
    let by_hand = bumps(&c, arm, 9.187e-6) * casters_ahead(&c);
    assert!((axle.demand / by_hand - 1.0).abs() < 0.02, "{} {by_hand}", axle.demand);
    assert!(by_hand > 9e6, "{by_hand}");
    assert_eq!(axle.verdict, Verdict::Fail, "{:?}", axle.used);
    // 15.0 MPa x 0.47 at 45 degC (113 degF in the published derating); the page is at most 4 % of the strength lower
    let end = axle.demand / axle.used.0 / 15.0e6;
    assert!(end <= 0.47 && end > 0.45, "{end}");
    let steel = chair(148, 45, arm, &tube("steel tube emt 1 1/2 in", ""));
    // what the bolts drill is a notch that turns over and over: that alone is left to a test, as is the glue
    let open = |c: &Compilation| -> Vec<(Mode, Verdict)> {
        let mine = c.strength.items.iter().filter(|i| i.name == "axle_beam" && i.verdict != Verdict::Pass);
        mine.map(|i| (i.mode, i.verdict)).collect()
    };
    assert!(open(&steel).iter().all(|o| *o == (Mode::Hole, Verdict::CannotTell)), "{:?}", open(&steel));
    let closed =
        "box axle_beam = ply from left 200 mm, up 300 mm to right 200 mm, up 300 mm outside 120 mm by 90 mm";
    let closed = chair(148, 45, arm, closed);
    assert!(item(&closed, "axle_beam").used.0 < 1.0);
    assert!(open(&closed).iter().all(|o| *o == (Mode::Glue, Verdict::CannotTell)), "{:?}", open(&closed));
}

/// The same statements in another order: the same uses in the same cases.
#[test]
fn the_order_of_statements_changes_nothing() {
    for (folder, file) in [("first_chair", "first.chair"), ("highland_school", "highland_school.chair")] {
        let folder = root().join("examples").join(folder);
        let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
        let text = read(file);
        let world = |main: String| {
            let mut memory = Memory::of(&main);
            for name in ["parts.chair", "prices.csv"] {
                memory.0.insert(name.to_owned(), read(name));
            }
            memory
        };
        let other = turned_round(&text);
        assert_ne!(other, text);
        let a = compile(&world(text), "main.chair", &Options::default()).1;
        let b = compile(&world(other), "main.chair", &Options::default()).1;
        let (mut x, mut y) = (a.strength.items.clone(), b.strength.items.clone());
        assert!(x.len() > 20 && x.len() == y.len(), "{} {}", x.len(), y.len());
        let order = |p: &Item, q: &Item| (&p.name, p.mode, p.case).cmp(&(&q.name, q.mode, q.case));
        x.sort_by(order);
        y.sort_by(order);
        for (p, q) in x.iter().zip(&y) {
            assert_eq!((&p.name, p.verdict), (&q.name, q.verdict));
            assert!(
                (p.used.1 - q.used.1).abs() < 1e-6 * p.used.1.max(1.0),
                "{}: {:?} {:?}",
                p.name,
                p.used,
                q.used
            );
        }
        let first = |c: &Compilation| without_side(&c.strength.items[0].name);
        assert_eq!(first(&a), first(&b), "what gives first");
    }
}

/// Joints, members and fastenings of a design the other way round.
fn turned_round(text: &str) -> String {
    let lines: Vec<&str> = text.lines().collect();
    let movable = |l: &str| {
        let word = l.trim_start().split(' ').next().unwrap_or("");
        matches!(word, "joint" | "member" | "fasten" | "wheel" | "caster") && !l.trim_end().ends_with(',')
    };
    // a line that is carried on below stays with what carries it
    let whole = |i: usize| movable(lines[i]) && lines.get(i + 1).is_none_or(|n| !n.starts_with("        "));
    let indent = |l: &str| l.len() - l.trim_start().len();
    let mut out: Vec<String> = lines.iter().map(|l| (*l).to_owned()).collect();
    for depth in [0, 4] {
        let places: Vec<usize> = (0..lines.len()).filter(|i| whole(*i) && indent(lines[*i]) == depth).collect();
        for (to, from) in places.iter().zip(places.iter().rev()) {
            lines[*from].clone_into(&mut out[*to]);
        }
    }
    out.join("\n")
}

/// Posts on one bolt each swing about it; the finding names the post and the joint it swings about.
#[test]
fn posts_on_one_bolt_swing_and_are_named() {
    let more =
        "box axle_beam = ply from left 200 mm, up 300 mm to right 200 mm, up 300 mm outside 120 mm by 90 mm
use catalogue.lumber
both sides {
    joint hip at outward 235 mm, up 380 mm
    joint crown at hip, up 400 mm
    member post = \"lumber 2x2\" from hip to crown
    fasten post to side using \"bolt M8 x 140\" times 1
}";
    let c = chair(20, 20, 0.08, more);
    let said: Vec<&str> =
        c.problems.iter().filter(|p| p.code.name == "mechanism").map(|p| p.headline.as_str()).collect();
    assert!(!said.is_empty(), "{:?}", c.problems.iter().map(|p| &p.headline).collect::<Vec<_>>());
    let named =
        |side: &str| said.iter().any(|s| s.contains(&format!("`{side}.post` can swing about `{side}.hip`")));
    let both = said.iter().any(|s| s.contains("`post` can swing about `hip`, on both sides"));
    assert!(both || (named("left") && named("right")), "{said:?}");
    assert!(c.strength.cases.is_empty(), "no number is told of a chair that moves by itself");
}

/// Light-wall inch pipe of class D has 68 % of the section modulus: what Schedule 40 bears for a moment at 40 degC, it
/// does not (trade paper 1.22). 45 N m: 11.7 and 17.2 MPa, where 49.6 x 0.57 / 2 = 14.1 MPa are borne.
#[test]
fn light_wall_pipe_gives_where_schedule_40_holds() {
    use chairwright_strength::{Forces, Form};
    let stress = |outer: f64, wall: f64| {
        let f = Forces { bend: [45.0, 0.0], ..Forces::default() };
        Form::Tube { outer, wall }.stress(&f).bending / 1e6
    };
    let limit = 49.6 * 0.57 / 2.0;
    let (sch40, class_d) = (stress(42.16e-3, 3.556e-3), stress(42.25e-3, 2.2e-3));
    assert!((sch40 - 11.71).abs() < 0.02 && sch40 < limit, "{sch40}");
    assert!((sch40 / class_d - 0.68).abs() < 0.01 && class_d > limit, "{class_d}");
}

/// The same in a chair, whose pipe is exchanged for one that fits all its sockets. What bends the foot posts is no matter of stiffness:
/// their stress grows by 1/0.68, over the 14.1 MPa above. The low rails lose their steel tube besides, which has play in the wider
/// bore. Of Schedule 40 no member surely breaks. How weak the pipe is, is told.
#[test]
fn a_chair_of_light_pipe_breaks_where_one_of_schedule_40_does_not() {
    let world = Disk(root().join("examples/lane_ramp"));
    let of = |settings: &[(&str, &str)]| {
        let settings = settings.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect();
        let options = Options { settings, strength: StrengthWanted::Verdicts, ..Options::default() };
        compile(&world, "of_light_pipe.chair", &options).1
    };
    let broken = |c: &Compilation| {
        let pipe = |i: &&Item| i.verdict == Verdict::Fail && matches!(i.what, What::Bar(Of::Member(_)));
        c.strength.items.iter().filter(pipe).map(|i| without_side(&i.name)).collect::<Vec<String>>()
    };
    let weaker = |c: &Compilation| c.problems.iter().any(|p| p.code.name == "weaker-pipe");
    let (light, heavy) = (of(&[]), of(&[("rail", "\"pipe 1 1/4 in sch40\"")]));
    for name in ["foot_post", "low_rail"] {
        assert!(broken(&light).contains(&name.to_owned()), "{name}: {:?}", broken(&light));
    }
    assert!(weaker(&light) && broken(&heavy).is_empty() && !weaker(&heavy), "{:?}", broken(&heavy));
    let limit = 49.6e6 * 0.57 / 2.0;
    let (more, less) = (item(&light, "left.foot_post").demand, item(&heavy, "left.foot_post").demand);
    assert!((less / more - 0.68).abs() < 0.01 && less < limit && more > limit, "{less} {more}");
}

/// Standing on the ground: what the wheels carry is the weight of chair and rider without the wheels.
#[test]
fn the_ground_carries_the_weight() {
    let closed =
        "box axle_beam = ply from left 200 mm, up 300 mm to right 200 mm, up 300 mm outside 120 mm by 90 mm";
    let c = chair(70, 20, 0.08, closed);
    let on_wheels: f64 = c.strength.feet.iter().map(|f| f.1).sum();
    let total = c.figures.si("mass.total").unwrap() - 2.0 * 2.0 - 2.0 * 1.0;
    assert!((on_wheels / (total * 9.80665) - 1.0).abs() < 1e-6, "{on_wheels} {total}");
    // rigid links are a thousand times stiffer than any bar: that many digits are lost
    assert!(c.strength.residual < 1e-7, "{}", c.strength.residual);
}

/// The chairs that are shown as ones to build have nothing that surely fails.
#[test]
fn what_is_shown_to_build_does_not_surely_fail() {
    let built = ["first.chair", "highland_school.chair", "porch_and_clinic.chair", "birch_cabin.chair"];
    for (folder, file) in EXAMPLES.iter().filter(|(_, file)| built.contains(file)) {
        let c = example(folder, file);
        let fails: Vec<&str> =
            c.strength.items.iter().filter(|i| i.verdict == Verdict::Fail).map(|i| i.name.as_str()).collect();
        assert!(c.strength.items.len() > 20 && fails.is_empty(), "{file}: {fails:?}");
    }
}

/// Members of pressure pipe in the examples, worked out anew: what their stress says against 49.6 MPa, the share
/// of the kind of load (27.6 of 49.6 MPa for years, all of it for a short time and in a blow, 15.0 of 49.6 MPa 200 000
/// times), the factor of safety of 2 on what is slow, and the published derating of pressure pipe at the declared
/// temperature. Whoever is beyond it fails and whoever is not does not; 4 % either way are left to the page's
/// few points.
#[test]
fn members_of_pipe_fail_where_the_published_figures_say_so() {
    use chairwright_resistance::pvc::{US_73F, factor};
    use chairwright_strength::Lasting;
    let mut seen = [0, 0];
    for (folder, file) in EXAMPLES {
        let c = example(folder, file);
        let hot = c.strength.climate.unwrap().hot;
        let heat = factor(&US_73F, hot).unwrap().value;
        for item in c.strength.items.iter().filter(|i| i.mode == Mode::Bending) {
            let Some(m) = c.design.members.values().find(|m| m.name == item.name) else { continue };
            if !c.design.stocks[m.stock].is_pipe() || !m.sleeves.is_empty() {
                continue;
            }
            let end = match c.strength.cases[item.case].lasting {
                Lasting::Sustained => 27.6e6 / 2.0,
                Lasting::Short => 49.6e6 / 2.0,
                Lasting::Impact => 49.6e6,
                Lasting::Repeated => 15.0e6,
            } * heat;
            if (item.demand / end - 1.0).abs() > 0.04 {
                let fails = item.demand > end;
                assert_eq!(item.verdict == Verdict::Fail, fails, "{file}: {} {end} {item:?}", item.name);
                seen[usize::from(fails)] += 1;
            }
        }
    }
    assert!(seen[0] >= 5 && seen[1] >= 5, "{seen:?}");
}

/// Every member, box, panel and support of every example is judged, or told not to be and why, or found loose; and
/// what is told never passes. Of the parts that are left to the net below the judges, there are the backs
/// of webbing, and no others.
#[test]
fn nothing_of_the_examples_is_left_out() {
    use chairwright_strength::{Loose, Unknown};
    let mut net: Vec<String> = Vec::new();
    for (folder, file) in EXAMPLES {
        let c = example(folder, file);
        let (d, s) = (&c.design, &c.strength);
        assert!(!s.cases.is_empty() || !s.loose.is_empty(), "{file}: nothing computed, nothing found");
        let names = d.members.values().map(|m| &m.name).chain(d.boxes.iter().map(|b| &b.name));
        let names = names.chain(d.panels.iter().map(|p| &p.name)).chain(d.supports.iter().map(|p| &p.name));
        for name in names.filter(|_| !s.cases.is_empty()) {
            let loose = s.loose.iter().any(|l| match l {
                Loose::Member(n) => n == name,
                Loose::Panel(k) => d.panels[*k].name == *name,
                Loose::Support(k) | Loose::Tips { support: k, .. } | Loose::Bands { support: k, .. } => {
                    d.supports[*k].name == *name
                }
                _ => false,
            });
            let told = s.untold.iter().any(|u| u.name == *name);
            let item: Vec<&Item> = s.items.iter().filter(|i| i.name == *name).collect();
            assert!(loose || told || !item.is_empty(), "{file}: nobody says anything about {name}");
            assert!(!told || item.iter().all(|i| i.verdict != Verdict::Pass), "{file}: {name} passes untold");
        }
        let mut left = s.untold.iter().filter(|u| matches!(u.why, Unknown::Nobody | Unknown::Cloth(_)));
        net.extend(left.by_ref().map(|u| format!("{file}: {}", u.name)));
    }
    assert!(net.iter().all(|n| n.ends_with(": back")), "{net:?}");
    assert!(net.len() > 5, "{net:?}");
}

/// A reinforcement that is offered is one: written into the text, the member is used as was foretold, in the case
/// that was worst for it.
#[test]
fn an_offered_reinforcement_does_what_it_says() {
    use chairwright_strength::How;
    let arm = 0.075;
    let before = chair(148, 45, arm, &tube("pipe 2 in sch40", ""));
    let mend = before.strength.mends.iter().find(|m| m.name == "axle_beam").unwrap();
    let name = |id| before.design.shelf[id].name.clone();
    let text = match mend.how {
        How::Stock(id) => tube(&name(id), ""),
        How::Sleeve(id, from, to) => {
            assert!(from < 1e-9, "a sleeve from {from} m needs another text");
            tube(
                "pipe 2 in sch40",
                &format!("sleeve axle_beam = \"{}\" over {to} m from left_end shimmed \"epoxy\"", name(id)),
            )
        }
        How::Nothing => panic!("nothing found"),
    };
    let after = chair(148, 45, arm, &text);
    // the case that was worst is the bumps: 49.6 MPa x 0.302, 0.465 of it at 45 degC, over a notch of 1.5
    assert_eq!(*before.strength.cases[item(&before, "axle_beam").case].kind.plain(), CaseKind::Bumps);
    let stress = after.strength.lives.iter().find(|l| l.name == "axle_beam").unwrap().stress;
    let used = stress / (49.6e6 * 0.302 * 0.465 / 1.5);
    assert!((used / mend.used - 1.0).abs() < 0.02, "{used} {mend:?} {text}");
    assert_ne!(item(&after, "axle_beam").verdict, Verdict::Fail);
}

/// PVC that carries where nobody says how warm it gets is told, and no longer once it is said.
#[test]
fn a_warmth_that_nobody_says_is_told() {
    let text = format!("design trial\n{}", chair_text(50, 23, 0.075, &tube("pipe 1 1/4 in sch40", "")));
    let told = |text: &str| {
        let c = compile(&Memory::of(text), "main.chair", &Options::default()).1;
        c.problems.iter().any(|p| p.headline.starts_with("nobody says how warm it gets where"))
    };
    assert!(!told(&text));
    assert!(told(&text.replace("conditions { temperature = 23 degC }", "")));
    assert!(!told(&text.replace("temperature = 23 degC", "parked_temperature = 40 degC")));
}

/// A pipe of 1 in in the axle's pipe has up to 1.91 mm of play. Said to be shimmed it leaves the axle 81 044/(81 044 + 36 355) =
/// 0.6903 of the bending by its moment of area; unsaid, the axle is no sounder than without it. The bumps bend the axle
/// by wheel load times arm whatever its stiffness; the sleeve's own weight, 0.2 kg, rides along.
#[test]
fn a_sleeve_is_worth_what_fills_its_play() {
    let inner = "sleeve axle_beam = \"pipe 1 in sch40\" over 400 mm from left_end";
    let of = |more: &str| {
        let c = chair(50, 23, 0.075, &tube("pipe 1 1/4 in sch40", more));
        let stress = c.strength.lives.iter().find(|l| l.name == "axle_beam").unwrap().stress;
        (stress, item(&c, "axle_beam").clone())
    };
    let (bare, loose, tight) = (of(""), of(inner), of(&format!("{inner} shimmed \"epoxy\"")));
    assert!((loose.0 / bare.0 - 1.0).abs() < 0.02, "{bare:?} {loose:?}");
    let kept = tight.1.used.0 / bare.1.used.0;
    assert!((kept / 0.6903 - 1.0).abs() < 0.02, "{bare:?} {tight:?}");
    // the wheel's couple comes in 20 mm from the end of both, where the pipe has not handed over for sure
    assert!((tight.1.used.1 / bare.1.used.1 - 1.0).abs() < 0.02, "{bare:?} {tight:?}");
    assert!(bare.1.used.1 > 1.0 && loose.1.used.1 >= bare.1.used.1, "{bare:?} {loose:?}");
    assert_ne!(loose.1.verdict, Verdict::Pass);
}

/// A change of the text that is offered does what it says: pasted, the plan compiles, the part is used as was foretold
/// over all load cases, and nothing else begins to fail. The seat of 6 mm fails over bumps: 50 kg three times, 1.47 kN on a span
/// of 0.28 m, are 51 N m, 20 MPa in 0.42 m by 6 mm, where 42 x 0.3 x 0.75 = 9.5 MPa are borne at 45 degC. With 9 mm it fails as
/// well, so that nothing so thin may be offered.
#[test]
fn a_change_of_the_text_does_what_it_says() {
    use chairwright_driver::{Change, Project};
    let closed =
        "box axle_beam = ply from left 200 mm, up 300 mm to right 200 mm, up 300 mm outside 120 mm by 90 mm";
    let text = chair_text(50, 45, 0.075, closed).replace("seat = ply", "seat = \"plywood 6 mm\"");
    let world = Memory::of(&text);
    let mut project = Project::load(&world, "main.chair");
    let mut before = project.compile(&Options::default());
    assert_eq!(item(&before, "seat").verdict, Verdict::Fail);
    project.study(&Options::default(), &mut before);
    assert!(!before.strengthened.is_empty());
    let seat = before.strengthened.iter().find(|(part, _)| part == "seat").unwrap().1.as_ref().unwrap();
    let Change::Thicker(sheet) = &seat.change else { panic!("{:?}", seat.change) };
    let thin = text.replace("plywood 6 mm", "plywood 9 mm");
    let thin = compile(&Memory::of(&thin), "main.chair", &Options::default()).1;
    assert_eq!(item(&thin, "seat").verdict, Verdict::Fail);
    assert!(!sheet.contains(" 9 mm"), "{sheet}");
    for found in before.strengthened.iter().filter_map(|(_, f)| f.as_ref()) {
        let mut changed = text.clone();
        let mut edits = found.edits.clone();
        edits.sort_by_key(|e| std::cmp::Reverse(e.span.start));
        for e in &edits {
            changed.replace_range(e.span.range(), &e.replacement);
        }
        assert!(changed.contains(found.is.lines().next().unwrap()), "{}", found.is);
        let after = compile(&Memory::of(&changed), "main.chair", &Options::default()).1;
        let fails = |c: &Compilation| -> Vec<String> {
            let failing = c.strength.items.iter().filter(|i| i.verdict == Verdict::Fail);
            failing.map(|i| without_side(&i.name)).collect()
        };
        let part = without_side(&found.parts[0]);
        assert!(!fails(&after).contains(&part), "{found:?}");
        assert!(fails(&after).iter().all(|n| fails(&before).contains(n)), "{:?}", fails(&after));
        let mine = after.strength.items.iter().filter(|i| without_side(&i.name) == part);
        let worst = mine.map(|i| i.used.1).fold(0.0, f64::max);
        assert!((worst / found.used.1 - 1.0).abs() < 1e-9, "{worst} {found:?}");
        let mass = |c: &Compilation| c.figures.si("mass.chair").unwrap();
        assert!((mass(&after) - mass(&before) - found.mass).abs() < 1e-9);
    }
    let said: Vec<&str> = before.problems.iter().filter_map(|p| p.help.as_deref()).collect();
    let told = |h: &str| h.contains("write: seat = ") && h.contains("no price for");
    assert!(said.iter().any(|h| told(h)), "{said:#?}");
}

/// A load of the design stands beside the others: it is in the list, and bends what it pulls at.
#[test]
fn a_load_of_the_design_is_one_more_case() {
    let axle =
        "box axle_beam = ply from left 200 mm, up 300 mm to right 200 mm, up 300 mm outside 120 mm by 90 mm
use catalogue.lumber
joint foot at left 235 mm, up 380 mm
joint crown at foot, up 400 mm
member post = \"lumber 2x2\" from foot to crown
close crown with open
fasten post to left.side using \"bolt M8 x 140\" times 2";
    let plain = chair(20, 20, 0.08, axle);
    let loaded =
        chair(20, 20, 0.08, &format!("{axle}\nload bag at crown force 100 N toward back lasting short"));
    assert_eq!(loaded.strength.cases.len(), plain.strength.cases.len() + 1);
    let post = item(&loaded, "post");
    assert!(matches!(loaded.strength.cases[post.case].kind, CaseKind::Declared(0)));
    // 100 N, 0.4 m above the bolts: 40 N m on 38.1 mm square, Z = 38.1³/6 = 9 218 mm³; the holes of 9 mm for bolts M8
    // go across the bending and take (9/38.1)³ = 1.3 % of it: 4.40 MPa
    let by_hand = 40.0 / 9.218 / (1.0 - (9.0_f64 / 38.1).powi(3));
    assert!((post.demand / 1e6 - by_hand).abs() < 0.02, "{}", post.demand);
}

/// A load that hangs beside its bar turns it: 100 N upward 150 mm behind the head of a post of 38.1 mm square is 15 N m all
/// along it, 15/9.218 = 1.627 MPa, and 100 N of pull, 0.069 MPa; the holes of 9 mm for bolts M8 go across the bending and take
/// (9/38.1)³ of the one and 9/38.1 of the other: 1.649 + 0.090 MPa. That it hangs on the post is said.
#[test]
fn a_load_beside_its_bar_turns_it() {
    let axle =
        "box axle_beam = ply from left 200 mm, up 300 mm to right 200 mm, up 300 mm outside 120 mm by 90 mm
use catalogue.lumber
joint foot at left 235 mm, up 380 mm
joint crown at foot, up 400 mm
joint hook at crown, back 150 mm
member post = \"lumber 2x2\" from foot to crown
close crown with open
fasten post to left.side using \"bolt M8 x 140\" times 2
load bag at hook force 100 N toward up lasting short";
    let c = chair(20, 20, 0.08, axle);
    let post = item(&c, "post");
    assert!(matches!(c.strength.cases[post.case].kind, CaseKind::Declared(0)), "{:?}", post.case);
    let hole = 9.0_f64 / 38.1;
    let by_hand = 15.0 / 9.218 / (1.0 - hole.powi(3)) + 100.0 / (38.1 * 38.1) / (1.0 - hole);
    assert!((post.demand / 1e6 - by_hand).abs() < 0.005, "{}", post.demand);
    assert!(c.assumptions.iter().any(|a| a.contains("the load bag hangs on post by a rigid arm of 150 mm")));
}

/// The rider pushes up from each arm support: 1.5 x 50 kg x 9.80665 / (2 cos 15 deg) = 380.7 N on it, and the board bends under
/// it.
#[test]
fn the_rider_pushes_up_from_each_arm_support() {
    let arms = "box axle_beam = ply from left 200 mm, up 300 mm to right 200 mm, up 300 mm outside 120 mm by 90 mm
both sides {
    box post = ply from outward 180 mm, forward 150 mm, up 430 mm to outward 180 mm, forward 150 mm, up 640 mm outside 60 mm by 60 mm
    box rail = ply from outward 180 mm, forward 20 mm, up 620 mm to outward 180 mm, forward 300 mm, up 620 mm outside 60 mm by 60 mm
    fasten post to side using \"bolt M8 x 140\" times 2
    fasten post to rail using \"bolt M8 x 140\" times 2
    armrest pad = ply from outward 180 mm, forward 20 mm, up 668 mm to outward 180 mm, forward 300 mm, up 668 mm width 70 mm
    fasten pad to rail using \"bolt M6 x 80\" times 4
}";
    let c = chair(50, 20, 0.08, arms);
    for name in ["left.pad", "right.pad"] {
        let is = |k: &CaseKind| matches!(k, CaseKind::Arm(n) if n == name);
        let case = c.strength.cases.iter().find(|x| is(&x.kind)).unwrap_or_else(|| panic!("{name}"));
        assert!((case.size - 380.7).abs() < 0.1, "{}", case.size);
        assert!(c.strength.items.iter().any(|i| i.name == name), "{name}");
    }
    assert!(c.strength.loose.is_empty(), "{:?}", c.strength.loose);
    assert!(!c.problems.iter().any(|p| p.headline.contains("no load was put on")));
}

/// With one fastening of the axle box gone from the text, the seated rider's chair is what the redundancy says of it: the
/// other is the worst of the rest, to 1 % (what is gone takes its weight and its holes along).
#[test]
fn a_lost_fastening_is_one_that_the_text_never_had() {
    let folder = root().join("examples/first_chair");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    let text = read("first.chair");
    let of_both = text.lines().find(|l| l.contains("fasten axle_box to back_post")).unwrap();
    let right_alone = of_both.replace("back_post", "right.back_post");
    let fewer = text.replace(of_both, "").replacen(
        "\nfasten footrest",
        &format!("\n{}\nfasten footrest", right_alone.trim()),
        1,
    );
    let world = |text: &str| {
        let mut world = Memory::of(text);
        world.0.extend(["parts.chair", "prices.csv"].map(|n| (n.to_owned(), read(n))));
        compile(&world, "main.chair", &Options::default()).1
    };
    let (whole, without) = (world(&text), world(&fewer));
    let lost =
        whole.strength.lost.iter().find(|l| l.name.contains("axle_box") && l.name.contains("left.")).unwrap();
    let other = lost.worst.clone().unwrap();
    assert!(other.contains("axle_box") && other.contains("right."), "{lost:?}");
    let seated = without.strength.cases.iter().position(|c| c.kind == CaseKind::Seated).unwrap();
    let (really, used) = without.strength.worst_of_case[seated].clone().unwrap();
    assert_eq!(really, other);
    assert!((used / lost.used.1 - 1.0).abs() < 0.01, "{used} {lost:?}");
}

/// A chair that is its own image has one of two twins let go, and tells the same of the other. A bag of one gram on the left
/// breaks the image, so that both are let go, and changes nothing: the verdicts are those of the chair without it.
#[test]
fn twins_leave_the_same_behind() {
    for (folder, file) in [("highland_school", "highland_school.chair"), ("river_track", "river_track.chair")] {
        let world = Disk(root().join("examples").join(folder));
        let mirrored = compile(&world, file, &Options::default()).1.strength;
        let text = std::fs::read_to_string(root().join("examples").join(folder).join(file)).unwrap();
        let bag = "\ncarry pebble = 1 g at left 100 mm, up 400 mm origin estimate by \"rider\"\n";
        let mut aside = Memory::of(&(text + bag));
        for other in std::fs::read_dir(root().join("examples").join(folder)).unwrap().map(Result::unwrap) {
            if let Ok(text) = std::fs::read_to_string(other.path()) {
                aside.0.entry(other.file_name().into_string().unwrap()).or_insert(text);
            }
        }
        let each = compile(&aside, "main.chair", &Options::default()).1.strength;
        assert!(mirrored.mirrored && !each.mirrored, "{folder}");
        assert_eq!(mirrored.lost.len(), each.lost.len());
        assert!(mirrored.lost.iter().filter(|l| l.name.contains("right.")).count() > 5);
        for (a, b) in mirrored.lost.iter().zip(&each.lost) {
            assert_eq!((&a.name, a.falls, &a.worst, a.rest()), (&b.name, b.falls, &b.worst, b.rest()));
            let unjudged = |l: &[String]| l.iter().filter(|n| *n != "pebble").cloned().collect::<Vec<_>>();
            assert_eq!(unjudged(&a.unjudged), unjudged(&b.unjudged), "{}", a.name);
            let same = |x: f64, y: f64| x == y || (x - y).abs() < 2e-3 * x.abs();
            assert!(same(a.used.0, b.used.0) && same(a.used.1, b.used.1), "{a:?} {b:?}");
        }
    }
}

/// What the check cannot judge makes no demand met. The first chair is of PVC, whose published derating ends at 60 degC
/// and which a blow breaks in the cold: hotter, or with nothing said of the cold, its figures are those of what is left.
#[test]
fn what_nobody_can_judge_meets_no_demand() {
    let world = Disk(root().join("examples/first_chair"));
    let text = std::fs::read_to_string(root().join("examples/first_chair/first.chair")).unwrap();
    let asked = "\nrequire strength.left.seat_rail <= 1000\nrequire strength.worst <= 1000\nrequire buckling.factor >= 0.001\n";
    let told = |place: &str| {
        let text = text.replace("temperature = 30 degC, coldest = 14 degC", place) + asked;
        let mut memory = Memory::of(&text);
        for name in ["parts.chair", "prices.csv"] {
            memory = memory.with(name, &world.read(name).unwrap());
        }
        let c = compile(&memory, "main.chair", &Options::default()).1;
        let last = c.verdicts.len() - 3;
        c.verdicts[last..].iter().map(|v| v.holds).collect::<Vec<_>>()
    };
    assert_eq!(told("temperature = 30 degC, coldest = 14 degC")[0], Some(true));
    assert_eq!(told("temperature = 30 degC, coldest = 14 degC")[2], Some(true));
    assert_eq!(told("temperature = 75 degC, coldest = 14 degC"), [None; 3]);
    // stiffness does not end with the cold
    assert_eq!(told("temperature = 30 degC"), [None, None, Some(true)]);
}

/// A figure of strength is the greatest use in any load case, whatever surely breaks in another: taking bolts away never
/// makes it smaller.
#[test]
fn fewer_bolts_never_look_better() {
    let used = |bolts: u32| {
        let text = chair_of_boxes("", "", "").replace("times 8", &format!("times {bolts}"));
        let c = compile(&Memory::of(&text), "main.chair", &Options::default()).1;
        c.figures.si("strength.left.side_to_axle_box")
    };
    // one turns, and what it bears is not known
    assert_eq!(used(1), None);
    let all: Vec<f64> = [2, 3, 4, 6, 8].map(|n| used(n).unwrap()).to_vec();
    assert!(all.windows(2).all(|w| w[0] >= w[1] && w[1] > 0.0), "{all:?}");
}

/// How stiff a joint is and how far a pipe is in it are tried at both ends of their tolerance like any other value: by the
/// place in the text, with the unit and half the width that stand there.
#[test]
fn what_was_measured_of_a_joint_is_tried_at_both_ends() {
    let text = "use catalogue.pipe_inch
use catalogue.fittings_inch
joint top at left 100 mm, up 700 mm
joint foot at top, down 400 mm
joint far at top, right 200 mm
member leg = \"pipe 1 1/4 in sch40\" from foot to top
member rung = \"pipe 1 1/4 in sch40\" from top to far
close top with \"elbow 90 1 1/4 in\" inserted 20 mm ± 3 mm stiffness 800 Nm/rad ± 300 Nm/rad
";
    let c = compile(&Memory::of(text), "main.chair", &Options::default()).1;
    let mut known: Vec<(&str, &str, f64, f64)> = c
        .design
        .known
        .iter()
        .map(|k| (k.name.as_str(), k.unit.as_str(), k.nominal, k.spread.unwrap_or(0.0)))
        .collect();
    known.sort_by(|a, b| a.1.cmp(b.1));
    let near = |(name, unit, nominal, spread): (&str, &str, f64, f64), want: (&str, f64, f64)| {
        assert!((name, unit) == ("close top", want.0), "{name} {unit}");
        assert!((nominal - want.1).abs() < 1e-9 && (spread - want.2).abs() < 1e-9, "{nominal} {spread}");
    };
    let [stiff, deep] = known[..] else { panic!("{known:?}") };
    near(stiff, ("Nm/rad", 800.0, 300.0));
    near(deep, ("mm", 20.0, 3.0));
}
