//! The program itself: exit codes, forms, and outputs that are written whole or not at all.

#![allow(clippy::unwrap_used)]

use chairwright_tests::root;
use std::path::PathBuf;
use std::process::{Command, Output};

const PROGRAM: &str = env!("CARGO_BIN_EXE_chairwright");

fn run(arguments: &[&str]) -> Output {
    Command::new(PROGRAM).current_dir(root()).args(arguments).output().unwrap()
}

fn code(arguments: &[&str]) -> i32 {
    run(arguments).status.code().unwrap()
}

fn text(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn scratch(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("chairwright-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

const FIRST: &str = "examples/first_chair/first.chair";
const DOOR: &str = "examples/porch_and_clinic/porch_and_clinic.chair";

#[test]
fn exit_codes() {
    assert_eq!(code(&["check", FIRST]), 0);
    assert_eq!(code(&["check", DOOR]), 1);
    assert_eq!(code(&["check", "examples/first_chair", "examples/lane_ramp"]), 1);
    assert_eq!(code(&["check", "no/such.chair"]), 2);
    assert_eq!(code(&["report", FIRST]), 0);
    assert_eq!(code(&["report", FIRST, "--variant", "none"]), 2);
    assert_eq!(code(&["report", FIRST, "--set", "width=600 mm"]), 1);
    assert_eq!(code(&["report", FIRST, "--set", "width"]), 2);
    let page = "examples/first_chair/parts.chair";
    assert_eq!(code(&["check", page]), 0);
    assert!(text(&run(&["check", page])).contains("no chair in it"));
    assert_eq!(code(&["report", page]), 2);
    assert_eq!(code(&["prove", page]), 2);
    let school = "examples/highland_school/highland_school.chair";
    assert_eq!(code(&["report", school, "--variant", "cheap_casters"]), 0);
    assert_eq!(code(&["prove", FIRST]), 0);
    assert_eq!(code(&["prove", FIRST, "--built", "examples/first_chair/built.chair"]), 1);
    assert_eq!(code(&["prove", school, "--built", "examples/highland_school/built.chair"]), 0);
    assert_eq!(code(&["prove", FIRST, "--built", "no/such.chair"]), 2);
    assert_eq!(code(&["prove", FIRST, "--built", "examples/first_chair/parts.chair"]), 2);
    assert_eq!(code(&["figures", FIRST, "tip.rear.free"]), 0);
    assert_eq!(code(&["figures", FIRST, "tip.rear.fre"]), 2);
    assert_eq!(code(&["explain", "needs-angle"]), 0);
    assert_eq!(code(&["explain", "CW0304"]), 0);
    assert_eq!(code(&["explain", "nonsense"]), 2);
    assert_eq!(code(&["explain"]), 0);
    for word in ["member", "fitting", "take_out", "trail", "thigh.left", "castor"] {
        assert_eq!(code(&["explain", word]), 0, "{word}");
    }
    assert_eq!(code(&["format", "--check", "examples"]), 0);
    for topic in ["codes", "statements", "fields", "functions", "figures", "catalogue"] {
        assert_eq!(code(&["explain", topic]), 0, "{topic}");
    }
}

/// What is worked out beside a setting that cannot be read is of another chair: it is told, and nothing else.
#[test]
fn a_setting_that_cannot_be_taken_leaves_no_figures() {
    for (set, says) in [
        ("width=520", "a length is wanted here"),
        ("width=5 deg", "a length is wanted here"),
        ("widht=5 mm", "nothing is called `widht`"),
        ("width=400 +", "opens no statement"),
        ("conditions.slope=500 deg", "no `slope` is like this"),
    ] {
        for command in [vec!["figures", FIRST], vec!["figures", FIRST, "mass.chair"], vec!["report", FIRST]] {
            let out = run(&[command, vec!["--set", set]].concat());
            assert_eq!((out.status.code(), text(&out).as_str()), (Some(2), ""), "{set}");
            let told = String::from_utf8(out.stderr).unwrap();
            assert!(told.contains(says), "{told}");
            assert_eq!(told.matches("error:").count(), 1, "{told}");
        }
    }
    let out = run(&["figures", FIRST, "width.overall", "--set", "conditions.door=600 mm"]);
    assert_eq!(out.status.code(), Some(0));
    let told = String::from_utf8(out.stderr).unwrap();
    assert!(told.contains("errors: chairwright check tells them") && told.trim_end().len() <= 80, "{told}");
}

#[test]
fn figures_that_begin_alike_are_listed_by_name() {
    let all = text(&run(&["figures", FIRST, "*"]));
    let tip = text(&run(&["figures", FIRST, "tip.*"]));
    let names = |t: &str| t.lines().map(|l| l.split(" = ").next().unwrap().to_owned()).collect::<Vec<_>>();
    assert!(names(&tip).contains(&"tip.rear.free".to_owned()));
    assert!(names(&all).is_sorted() && names(&tip).iter().all(|n| n.starts_with("tip.")));
    let of_all: Vec<&str> = all.lines().filter(|l| l.starts_with("tip.")).collect();
    assert_eq!(of_all, tip.lines().collect::<Vec<_>>());
    assert!(text(&run(&["figures", FIRST, "strength.*"])).contains("strength.axle_box = "));
    assert_eq!(code(&["figures", FIRST, "stregth.*"]), 2);
}

#[test]
fn plain_output_has_no_colour_and_fits_80_columns() {
    for arguments in [
        vec!["check", "tests/broken"],
        vec!["report", FIRST],
        vec!["figures", FIRST],
        vec!["prove", FIRST],
        vec!["prove", FIRST, "--built", "examples/first_chair/built.chair"],
        vec!["explain"],
        vec!["explain", "codes"],
        vec!["explain", "fields"],
        vec!["explain", "statements"],
    ] {
        let out = text(&run(&arguments));
        assert!(!out.contains('\u{1b}'));
        if arguments[0] != "check" {
            for line in out.lines() {
                assert!(line.chars().count() <= 80, "{line}");
            }
        }
    }
}

#[test]
fn forms_of_findings() {
    let json: serde_json::Value =
        serde_json::from_str(&text(&run(&["check", "examples", "--form", "json"]))).unwrap();
    assert_eq!(json["designs"].as_array().unwrap().len(), chairwright_tests::EXAMPLES.len());
    let sarif: serde_json::Value =
        serde_json::from_str(&text(&run(&["check", DOOR, "--form", "sarif"]))).unwrap();
    assert_eq!(sarif["version"], "2.1.0");
    let results = sarif["runs"][0]["results"].as_array().unwrap();
    assert!(results.iter().any(|r| r["ruleId"] == "requirement-unmet" && r["level"] == "error"));
    let line = text(&run(&["check", DOOR, "--form", "line"]));
    assert!(line.contains("porch_and_clinic.chair:") && line.contains("error[requirement-unmet]"));
    let report: serde_json::Value =
        serde_json::from_str(&text(&run(&["report", FIRST, "--form", "json"]))).unwrap();
    assert_eq!(report["figures"]["width.overall"]["unit"], "m");
    for key in ["cuts", "bill", "members", "joints", "diagnostics"] {
        assert!(report[key].is_array(), "{key}");
    }
}

#[test]
fn build_writes_whole_and_refuses_foreign_folders() {
    let out = scratch("build");
    let folder = out.to_str().unwrap();
    assert_eq!(code(&["build", FIRST, "--out", folder]), 0);
    let wanted = [
        "bent_seated.svg",
        "bent_worst.svg",
        "bill.csv",
        "chair.glb",
        "cut_list.csv",
        "front.svg",
        "report.json",
        "report.txt",
        "side.svg",
        "slopes.svg",
        "test_sheet.txt",
        "top.svg",
    ];
    let found = |folder: &PathBuf| {
        let mut names: Vec<String> =
            std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    };
    assert_eq!(found(&out), wanted);
    let first = std::fs::read(out.join("chair.glb")).unwrap();
    assert_eq!(&first[..4], b"glTF");
    // again into the same folder: replaced, same bytes
    assert_eq!(code(&["build", FIRST, "--out", folder]), 0);
    assert_eq!(std::fs::read(out.join("chair.glb")).unwrap(), first);
    // a state that is not ridden writes fewer files, and nothing of the chair as ridden is left beside them
    let cousin = "examples/highland_school/cousin.chair";
    assert_eq!(code(&["build", cousin, "--out", folder]), 0);
    let ridden = found(&out);
    assert_eq!(code(&["build", cousin, "--state", "boot", "--out", folder]), 0);
    let packed = found(&out);
    assert!(packed.len() < ridden.len() && packed.iter().all(|name| ridden.contains(name)), "{packed:?}");
    for name in packed {
        let bytes = std::fs::read(out.join(&name)).unwrap();
        let says = String::from_utf8_lossy(&bytes).contains("boot");
        assert!(says, "{name} does not say that it is of the state boot");
    }
    assert_eq!(code(&["build", FIRST, "--out", folder]), 0);
    assert_eq!(found(&out), wanted);
    // a folder with something else in it is left alone
    std::fs::write(out.join("letter.txt"), "mine").unwrap();
    assert_eq!(code(&["build", FIRST, "--out", folder]), 2);
    assert_eq!(std::fs::read_to_string(out.join("letter.txt")).unwrap(), "mine");
    std::fs::remove_dir_all(&out).unwrap();
}

#[test]
fn glb_has_a_named_node_for_every_piece() {
    let out = scratch("nodes");
    let school = "examples/highland_school/highland_school.chair";
    assert_eq!(code(&["build", school, "--out", out.to_str().unwrap()]), 0);
    let bytes = std::fs::read(out.join("chair.glb")).unwrap();
    let length = u32::from_le_bytes(bytes[12..16].try_into().unwrap()) as usize;
    let document: serde_json::Value = serde_json::from_slice(&bytes[20..20 + length]).unwrap();
    let names: Vec<&str> =
        document["nodes"].as_array().unwrap().iter().map(|n| n["name"].as_str().unwrap()).collect();
    let report: serde_json::Value =
        serde_json::from_slice(&std::fs::read(out.join("report.json")).unwrap()).unwrap();
    for cut in report["cuts"].as_array().unwrap() {
        for piece in cut["pieces"].as_array().unwrap() {
            assert!(names.contains(&piece.as_str().unwrap()), "{piece}");
        }
    }
    std::fs::remove_dir_all(&out).unwrap();
}

#[cfg(unix)]
#[test]
fn a_link_out_of_the_folder_is_not_followed() {
    let folder = scratch("link");
    std::fs::create_dir_all(&folder).unwrap();
    std::os::unix::fs::symlink(root().join("examples/first_chair/parts.chair"), folder.join("parts.chair"))
        .unwrap();
    std::fs::write(folder.join("main.chair"), "use \"parts.chair\"\n").unwrap();
    let out = run(&["check", folder.join("main.chair").to_str().unwrap()]);
    assert_eq!(out.status.code(), Some(1));
    assert!(text(&out).contains("outside-project"));
    std::fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn one_thread_and_two_print_the_same_bytes() {
    let check = |threads: &str, form: &str, what: &[&str]| {
        let mut command = Command::new(PROGRAM);
        command.args(["check", "--form", form]).args(what);
        let out = command.current_dir(root()).env("RAYON_NUM_THREADS", threads).output().unwrap();
        assert!(out.stdout.len() > 1000);
        out.stdout
    };
    let same = |form: &str, what: &[&str]| assert_eq!(check("1", form, what), check("2", form, what), "{form}");
    same("full", &["examples/highland_school", "examples/lane_ramp"]);
    for form in ["line", "json", "sarif"] {
        same(form, &["tests/broken"]);
    }
}

#[test]
fn repairs_are_shown_then_written_and_then_there_are_none() {
    let folder = scratch("repair");
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("a.chair");
    std::fs::write(&file, "param gap = 3,5 mm\nlet both = 2 * gpa\n").unwrap();
    let name = file.to_str().unwrap();
    let shown = run(&["repair", "--show", name]);
    assert_eq!(shown.status.code(), Some(1));
    assert!(text(&shown).contains("`3,5 mm` becomes `3.5 mm` [decimal-comma]"));
    assert!(std::fs::read_to_string(&file).unwrap().contains("3,5"));
    assert_eq!(code(&["repair", name]), 0);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "param gap = 3.5 mm\nlet both = 2 * gap\n");
    assert_eq!(code(&["check", name]), 0);
    assert!(text(&run(&["repair", name])).contains("Nothing here"));
    std::fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn another_rider_and_another_place_take_the_place_of_the_plans_own() {
    let folder = scratch("rider");
    std::fs::create_dir_all(&folder).unwrap();
    let rider = folder.join("someone.chair");
    let measures =
        "rider { mass = 80 kg origin measured, stature = 1.80 m, hip_width = 380 mm, thigh = 480 mm }";
    std::fs::write(&rider, format!("{measures}\nparam width = 1 mm\n")).unwrap();
    let plan = "examples/first_chair/first.chair";
    let out = text(&run(&["figures", plan, "mass.rider", "--rider", rider.to_str().unwrap()]));
    assert!(out.starts_with("mass.rider = 80.00 kg"), "{out}");
    assert!(out.contains("someone.chair:1"), "{out}");
    let own = text(&run(&["figures", plan, "mass.rider"]));
    assert!(own.starts_with("mass.rider = 68.00 kg"), "{own}");
    // what it does not bring is told, and a bag comes along: by hand 80 + 9 kg more than chair and nobody
    let carried = format!("{measures}\ncarry bag = 9 kg at up 700 mm, back 200 mm\nparam width = 1 mm\n");
    let mass = |name: &str| -> f64 {
        let out = text(&run(&["figures", plan, name, "--rider", rider.to_str().unwrap()]));
        out.split_whitespace().nth(2).unwrap().parse().unwrap()
    };
    std::fs::write(&rider, carried).unwrap();
    let more = mass("mass.total") - mass("mass.chair");
    assert!((more - 89.0).abs() < 0.02, "{more}");
    // the plan's own bag of that name gives way to the rider's: 89 kg again, not 93
    let own = std::fs::read_to_string(root().join(plan)).unwrap();
    let folder_of = |name: &str| root().join("examples/first_chair").join(name);
    for beside in ["parts.chair", "prices.csv"] {
        std::fs::copy(folder_of(beside), folder.join(beside)).unwrap();
    }
    let bagged = folder.join("bagged.chair");
    std::fs::write(&bagged, format!("{own}\ncarry bag = 4 kg at up 700 mm, back 200 mm\n")).unwrap();
    let with = |name: &str| -> f64 {
        let out = run(&["figures", bagged.to_str().unwrap(), name, "--rider", rider.to_str().unwrap()]);
        text(&out).split_whitespace().nth(2).unwrap().parse().unwrap()
    };
    let more = with("mass.total") - with("mass.chair");
    assert!((more - 89.0).abs() < 0.02, "{more}");
    let told =
        text(&run(&["check", bagged.to_str().unwrap(), "--rider", rider.to_str().unwrap(), "--form", "line"]));
    assert!(!told.contains("taken-name"), "{told}");
    let told = text(&run(&["check", plan, "--rider", rider.to_str().unwrap(), "--form", "line"]));
    assert!(told.contains("this is not read from another rider's"), "{told}");
    // a reason goes with the rider it was given for, and a rider's text brings reasons
    let reason = "deviation seat.width because \"winter clothes\" by \"therapist\"";
    std::fs::write(&bagged, format!("{own}\n{reason}\n")).unwrap();
    std::fs::write(&rider, measures).unwrap();
    let check = || {
        text(&run(&["check", bagged.to_str().unwrap(), "--rider", rider.to_str().unwrap(), "--form", "line"]))
    };
    let told = check();
    assert!(told.contains("the reason for leaving the rule about seat.width is another rider's"), "{told}");
    std::fs::write(&rider, format!("{measures}\n{reason}\n")).unwrap();
    let told = check();
    assert!(!told.contains("this is not read from another rider's"), "{told}");
    // more than twice the rider that this pipe is for: check takes another rider as the other commands do
    std::fs::write(&rider, measures.replace("80 kg", "190 kg")).unwrap();
    assert_eq!(code(&["check", plan]), 0);
    assert_eq!(code(&["check", plan, "--rider", rider.to_str().unwrap()]), 1);
    std::fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn a_figure_explains_itself_back_to_the_lines_of_text_and_catalogue() {
    let out =
        text(&run(&["figures", "examples/highland_school/highland_school.chair", "cut.left.seat_rail.1"]));
    for wanted in [
        "formula:",
        "member seat_rail = rail from rear_seat to front_seat",
        "catalogue.pipe_inch:",
        "source: ASTM D1785",
        "param frame_depth = 255 mm",
        "tee 1 in",
    ] {
        let flat = out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(wanted), "no `{wanted}` in\n{out}");
    }
    assert!(out.lines().all(|l| l.chars().count() <= 80));
    assert!(
        text(&run(&["figures", "examples/first_chair/first.chair", "depth"])).contains("rider.thigh - 40 mm")
    );
}
