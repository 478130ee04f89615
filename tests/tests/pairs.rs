//! Two or three parameters together, where no one alone mends a finding: what is offered is applied and compiled.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_driver::{Compilation, Options, Project, compile};
use chairwright_tests::{Memory, PARTS};

/// A seat whose depth and width are turned. By hand: a depth of 439.5 mm is asked, 420 mm is there; at most 30.5 mm more than the
/// width, 400 mm. In whole millimetres the depth goes to 440 and alone is 40 more; the width has to go to 410 with it.
fn seat(ranges: (&str, &str)) -> String {
    format!(
        "{PARTS}
param deep = 420 mm within {}
param wide = 400 mm within {}
seat = \"ply\" from up 480 mm to up 480 mm, forward deep width wide
require seat.depth >= 439.5 mm else \"long thighs\"
require seat.depth - seat.width <= 30.5 mm else \"a tray that fits\"
",
        ranges.0, ranges.1
    )
}

/// A chair whose rear wheels have to come forward for more weight on them, and which then tips backward too soon unless the
/// seat goes down.
const CHAIR: &str = r#"
rider { origin = measured, mass = 68 kg, stature = 1.70 m, hip_width = 380 mm }
param axle = 0 mm within 0 mm .. 150 mm
param high = 520 mm within 400 mm .. 560 mm
both sides {
    wheel rear = "w" at outward 260 mm, up 300 mm, forward axle
    caster front = "c" at outward 200 mm, forward 480 mm, up 165 mm
}
seat = "ply" from up high to up high, forward 430 mm width 400 mm
"#;

fn studied(text: &str, settings: &[(String, String)]) -> Compilation {
    let world = Memory::of(text);
    let mut project = Project::load(&world, "main.chair");
    let options = Options { settings: settings.to_vec(), ..Options::default() };
    let mut c = project.compile(&options);
    project.study(&options, &mut c);
    c
}

fn plain(text: &str, settings: &[(String, String)]) -> Compilation {
    let options = Options { settings: settings.to_vec(), ..Options::default() };
    compile(&Memory::of(text), "main.chair", &options).1
}

/// The settings that a help offers: `name` = value, once for each parameter.
fn offered(help: &str) -> Vec<(String, String)> {
    let mut out = Vec::new();
    let mut rest = help;
    while let Some((_, after)) = rest.split_once('`') {
        let Some((name, after)) = after.split_once("` = ") else { break };
        let value = after.split([' ']).take(2).collect::<Vec<_>>().join(" ");
        out.push((name.to_owned(), value));
        rest = after;
    }
    out
}

fn unmet(c: &Compilation) -> Vec<String> {
    let unmet = c.problems.iter().filter(|p| p.code.name == "requirement-unmet");
    unmet.map(|p| p.headline.clone()).collect()
}

fn help(c: &Compilation) -> String {
    let unmet = c.problems.iter().find(|p| p.code.name == "requirement-unmet").unwrap();
    unmet.help.clone().unwrap()
}

#[test]
fn a_deeper_seat_takes_the_width_along() {
    let text = seat(("380 mm .. 480 mm", "380 mm .. 440 mm"));
    let said = help(&studied(&text, &[]));
    let pair = offered(&said);
    let wanted = [("deep", "440 mm"), ("wide", "410 mm")].map(|(n, v)| (n.to_owned(), v.to_owned()));
    assert_eq!(pair, wanted, "{said}");
    assert!(said.contains("together would do it, where no parameter alone does"), "{said}");
    assert!(said.contains("everything that is required is met"), "{said}");
    assert!(unmet(&plain(&text, &pair)).is_empty());
    // each by itself leaves one of both demands unmet
    for one in &pair {
        assert_eq!(unmet(&plain(&text, std::slice::from_ref(one))).len(), 1, "{one:?}");
    }
}

#[test]
fn where_the_second_cannot_go_far_enough_none_is_offered() {
    let text = seat(("380 mm .. 480 mm", "380 mm .. 409 mm"));
    let said = help(&studied(&text, &[]));
    assert!(said.contains("no parameter alone") && said.contains("no two or three together"), "{said}");
    assert!(!said.contains("would do it"), "{said}");
}

/// By hand: the depth goes to 440 mm and takes the width to 410 mm as before; the width may be half a millimetre more than the
/// back's height, 400 mm, which goes to 410 mm with it. No two of the three meet all.
#[test]
fn a_deeper_seat_takes_the_width_and_that_the_back_along() {
    let more = "param tall = 400 mm within 300 mm .. 450 mm
back = \"ply\" from up 500 mm to up 500 mm + tall width 300 mm
require seat.width - back.height <= 0.5 mm else \"the cover that is there\"
";
    let text = seat(("380 mm .. 480 mm", "380 mm .. 440 mm")) + more;
    let said = help(&studied(&text, &[]));
    let three = offered(&said);
    let wanted = [("deep", "440 mm"), ("wide", "410 mm"), ("tall", "410 mm")];
    let mut sorted = three.clone();
    sorted.sort();
    let mut wanted = wanted.map(|(n, v)| (n.to_owned(), v.to_owned())).to_vec();
    wanted.sort();
    assert_eq!(sorted, wanted, "{said}");
    assert!(said.contains("together would do it, where no fewer were found that do"), "{said}");
    assert!(unmet(&plain(&text, &three)).is_empty());
    for left_out in &three {
        let two: Vec<_> = three.iter().filter(|t| *t != left_out).cloned().collect();
        assert!(!unmet(&plain(&text, &two)).is_empty(), "{left_out:?}");
    }
}

/// A change that meets what is asked and bends the elbows otherwise says so, where no rule of fit holds them: the axle comes up to a
/// wheel's top by 40 mm. Where only the demand's own figure moves, nothing is said of fit.
#[test]
fn a_change_says_what_it_costs_in_fit() {
    let wheel = PARTS
        .replace("width = 35 mm, source", "width = 35 mm, rim_diameter = 540 mm, rim_standoff = 15 mm, source");
    let chair = CHAIR.replace(
        "hip_width = 380 mm",
        "hip_width = 380 mm, shoulder_height = 580 mm, upper_arm = 300 mm, forearm = 330 mm",
    );
    let text = format!("{wheel}{chair}");
    let high = plain(&text, &[]).figures.si("seat.height.front").unwrap();
    let elbow =
        |settings: &[(String, String)]| plain(&text, settings).figures.si("reach.elbow").unwrap().to_degrees();
    let text =
        format!("{text}require seat.height.front <= {:.1} mm else \"the table at home\"\n", high * 1e3 - 40.0);
    let said = help(&studied(&text, &[]));
    let set = offered(&said);
    assert_eq!(set.len(), 1, "{said}");
    let (before, after) = (elbow(&[]), elbow(&set));
    assert!((before - after).abs() > 3.0, "{before} {after}");
    let costs = format!("reach.elbow goes from {before:.1} deg to {after:.1} deg");
    assert!(
        said.contains("it changes fit that no rule judges here") && said.contains(&costs),
        "{said} {costs}"
    );
    let plainly =
        help(&studied(&seat(("380 mm .. 480 mm", "400 mm .. 440 mm")).replace("<= 30.5 mm", "<= 45 mm"), &[]));
    assert!(!plainly.contains("fit that no rule judges"), "{plainly}");
}

#[test]
fn one_alone_is_offered_where_it_does() {
    let text = seat(("380 mm .. 480 mm", "400 mm .. 440 mm")).replace("<= 30.5 mm", "<= 45 mm");
    assert_eq!(offered(&help(&studied(&text, &[]))), [("deep".to_owned(), "440 mm".to_owned())]);
}

/// The share on the rear wheels that is asked is had with the axle 15 mm further; the slope that tips the chair backward is asked as
/// it is now, less half a degree.
#[test]
fn an_axle_comes_forward_with_a_lower_seat() {
    let text = format!("{PARTS}{CHAIR}");
    let now = plain(&text, &[]);
    let figure = |c: &Compilation, name: &str| c.figures.si(name).unwrap();
    let further = plain(&text, &[("axle".to_owned(), "15 mm".to_owned())]);
    let (share, tip) =
        (figure(&further, "load.rear.share"), figure(&now, "tip.rear.locked").to_degrees() - 0.5);
    let text = format!(
        "{text}require load.rear.share >= {share:.4} else \"light pushing\"\nrequire tip.rear.locked >= {tip:.2} deg else \"the ramp\"\n"
    );
    let c = studied(&text, &[]);
    assert_eq!(unmet(&c).len(), 1, "{:?}", unmet(&c));
    let said = help(&c);
    let pair = offered(&said);
    let names: Vec<&str> = pair.iter().map(|p| p.0.as_str()).collect();
    assert_eq!(names, ["axle", "high"], "{said}");
    // both demands are met then; the casters meet the feet as they do now
    assert!(said.contains("no other demand breaks") && said.contains("(gap.caster.foot)"), "{said}");
    assert!(unmet(&plain(&text, &pair)).is_empty() && plain(&text, &pair).has_errors(), "{said}");
    for one in &pair {
        assert!(!unmet(&plain(&text, std::slice::from_ref(one))).is_empty(), "{one:?}");
    }
    // the same once more: no clock and no chance in it
    assert_eq!(said, help(&studied(&text, &[])));
}
