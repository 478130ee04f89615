//! A few full renderings, for the layout of labels and tables. Read each as a tired builder would.

use chairwright_diagnostics::{render_full, render_lines};
use chairwright_driver::{Options, compile};
use chairwright_report::report_text;
use chairwright_tests::{Disk, Memory, root};

fn rendered(text: &str) -> String {
    let (sources, c) = compile(&Memory::of(text), "main.chair", &Options::default());
    render_full(&sources, &c.problems, false)
}

#[test]
fn wrong_unit_and_missing_side() {
    insta::assert_snapshot!(rendered(
        "both sides {\n    joint hip at outward 200 mn, up 460\n}\njoint middle at hip\nparam lean = 3 within 0 deg .. 9 deg\n"
    ));
}

#[test]
fn habits_from_other_trades() {
    insta::assert_snapshot!(rendered(
        "param a = 1-1/4 in\nparam b = 5'6\"\nparam c = 3,5 mm\nlicence “MIT”\n• param d = 8°\n"
    ));
}

#[test]
fn a_joint_that_no_fitting_closes() {
    insta::assert_snapshot!(rendered(
        "use catalogue.pipe_inch\nuse catalogue.fittings_inch\njoint hip at up 460 mm\njoint knee at hip, forward 400 mm, up 30 mm\njoint crown at hip, up 420 mm leaning back 8 deg\nmember seat_rail = \"pipe 1 1/4 in sch40\" from hip to knee\nmember back_post = \"pipe 1 1/4 in sch40\" from hip to crown\nclose knee with open\nclose crown with open\n"
    ));
}

#[test]
fn an_unmet_requirement_in_two_forms() {
    let world = Disk(root().join("examples/porch_and_clinic"));
    let (sources, c) = compile(&world, "porch_and_clinic.chair", &Options::default());
    let errors: Vec<_> = c.problems.iter().filter(|p| p.code.name == "requirement-unmet").cloned().collect();
    insta::assert_snapshot!(render_full(&sources, &errors, false) + &render_lines(&sources, &errors));
}

#[test]
fn the_report_of_the_first_chair() {
    let world = Disk(root().join("examples/first_chair"));
    let (sources, c) = compile(&world, "first.chair", &Options::default());
    let report = report_text(&c, &sources);
    let widest = report.lines().map(|l| l.chars().count()).max().unwrap_or(0);
    assert!(widest <= 80, "{widest} columns");
    insta::assert_snapshot!(report);
}
