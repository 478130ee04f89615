//! What would mend a finding, for preferences and for what the place asks: what is offered is applied and compiled again.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_diagnostics::Diagnostic;
use chairwright_driver::{Compilation, Options, compile, compile_all};
use chairwright_tests::{Memory, PARTS};

/// A chair of which seat and axle can be moved; the place is put in.
fn chair(place: &str, more: &str) -> String {
    format!(
        "design trial
{PARTS}
rider {{ origin = measured, mass = 68 kg, stature = 1.70 m, hip_width = 380 mm, thigh = 470 mm, thigh_thickness = 150 mm }}
conditions {{ speed = 1 m/s, {place} }}
param seat_up = 500 mm within 400 mm .. 550 mm
param axle = 0 mm within 0 mm .. 150 mm
both sides {{
    wheel rear = \"w\" at outward 260 mm, up 300 mm, forward axle
    caster front = \"c\" at outward 200 mm, forward 300 mm, up 165 mm
}}
seat = \"ply\" from up seat_up to up seat_up, forward 420 mm width 400 mm
{more}"
    )
}

/// A seat alone, of a depth that is turned.
fn seat(rider: &str, range: &str, more: &str) -> String {
    format!(
        "{PARTS}
rider {{ origin = measured, mass = 68 kg, stature = 1.70 m, {rider} }}
param deep = 420 mm within {range}
seat = \"ply\" from up 480 mm to up 480 mm, forward deep width 400 mm
{more}"
    )
}

fn checked(text: &str) -> Vec<Diagnostic> {
    let (_, all) = compile_all(&Memory::of(text), "main.chair");
    all.into_iter().flat_map(|c| c.problems).collect()
}

fn plain(text: &str, settings: &[(String, String)]) -> Compilation {
    let options = Options { settings: settings.to_vec(), ..Options::default() };
    compile(&Memory::of(text), "main.chair", &options).1
}

fn help(all: &[Diagnostic], code: &str) -> String {
    let found = all.iter().find(|p| p.code.name == code).unwrap_or_else(|| panic!("no {code}"));
    found.help.clone().unwrap()
}

/// The one setting that a help offers.
fn offered(help: &str) -> (String, String) {
    let (before, _) = help.split_once(" would do it").unwrap_or_else(|| panic!("{help}"));
    let (name, value) = before.rsplit_once("` = ").unwrap();
    (name.rsplit('`').next().unwrap().to_owned(), value.to_owned())
}

fn count(all: &[Diagnostic], code: &str) -> usize {
    all.iter().filter(|p| p.code.name == code).count()
}

/// What the place asks is a warning, told of the figure that fails, and gets the help that errors get: by compiling the changed chair the finding is gone, and a
/// step less than what is offered leaves it.
#[test]
fn what_the_place_asks_is_helped() {
    for (code, place, parameter, figure) in [
        ("under-table", "table = 640 mm", "seat_up", "table.room"),
        ("transfer-step", "bed = 420 mm, toilet = 500 mm", "seat_up", "transfer.bed"),
        ("transfer-step", "toilet = 430 mm, bed = 500 mm", "seat_up", "transfer.toilet"),
        ("too-long-to-turn", "turning_space = 1500 mm, corridor = 1200 mm", "axle", "turn.diameter"),
    ] {
        let text = chair(place, "");
        let all = checked(&text);
        assert_eq!(count(&all, code), 1, "{place}");
        let said = help(&all, code);
        let set = offered(&said);
        assert_eq!(set.0, parameter, "{said}");
        let mended = plain(&text, std::slice::from_ref(&set));
        assert_eq!(count(&mended.problems, code), 0, "{place}: {said}");
        let drawn = plain(&text, &[]);
        let errors = |c: &Compilation| {
            c.problems.iter().filter(|p| p.severity == chairwright_diagnostics::Severity::Error).count()
        };
        assert!(errors(&mended) <= errors(&drawn), "{place}: {said}");
        let note = all.iter().find(|p| p.code.name == code).unwrap().notes.join("; ");
        // of what the place asks alone, though another figure of the code is known as well
        let told = note.split("what moves it most: ").nth(1).unwrap();
        assert!(
            told.split(", ").all(|m| m.starts_with('`') && m.ends_with(&format!(" of {figure}"))),
            "{note}"
        );
    }
}

/// From too high to too low is no help: the bed is 100 mm below the seat, and within 50 mm of it from 550 mm down to 450 mm.
#[test]
fn a_seat_does_not_go_past_the_bed() {
    let set = offered(&help(&checked(&chair("bed = 400 mm", "")), "transfer-step"));
    let to: f64 = set.1.trim_end_matches(" mm").parse().unwrap();
    assert!((400.0..=450.0).contains(&to), "{to}");
}

/// A seat that may be no higher than 470 mm must not stand between 420 and 490 mm, where something passes it: the nearest value that
/// meets the one breaks the other, and the help lies past it. A step less breaks it still.
#[test]
fn help_lies_past_what_is_broken_on_the_way() {
    let passes = "require abs(seat_up - 455 mm) >= 35 mm else \"the tool rack\"\n";
    let text = chair("door = 900 mm", &format!("require seat_up <= 470 mm\n{passes}"));
    let set = offered(&help(&checked(&text), "requirement-unmet"));
    let to: f64 = set.1.trim_end_matches(" mm").parse().unwrap();
    assert!(set.0 == "seat_up" && (415.0..=420.0).contains(&to), "{set:?}");
    let unmet = |to: f64| {
        count(&plain(&text, &[("seat_up".to_owned(), format!("{to} mm"))]).problems, "requirement-unmet")
    };
    assert_eq!((unmet(to), unmet(421.0), unmet(470.0)), (0, 1, 1));
}

/// From 500 mm down to 440 mm the seat comes 60 mm and more below a bed of 500 mm, beyond what most riders cross: a warning, which
/// keeps no help for what is required away, and is named in it. 480 mm for another demand are within it.
#[test]
fn help_names_the_warnings_that_it_brings() {
    let lower = |to: u32| {
        let text = chair("bed = 500 mm", &format!("require seat.height.front <= {to} mm\n"));
        let said = help(&checked(&text), "requirement-unmet");
        (count(&plain(&text, &[offered(&said)]).problems, "transfer-step"), said)
    };
    let (there, said) = lower(440);
    assert!(
        there == 1 && said.contains("it brings what is not there now: the seat is 60.0 mm lower"),
        "{said}"
    );
    let (there, said) = lower(480);
    assert!(there == 0 && !said.contains("not there now"), "{said}");
}

/// The axle has to come forward by 30 mm. Locks 10 mm behind the tyre still reach it then, as far as their corners tell; of locks 40 mm
/// behind it nobody could tell any more, and so the axle is not offered.
#[test]
fn no_help_takes_the_tyre_from_the_brake() {
    let with = |behind: u32| {
        let lock = format!(
            "part \"lock\" {{ kind = brake, mass = 0.3 kg, holding_force = 80 N, source = \"scale\" }}
both sides {{ brake lock = \"lock\" at outward 260 mm, up 300 mm, back {} mm }}\n",
            300 + behind
        );
        let text =
            chair("door = 900 mm", &lock).replace("forward 300 mm, up 165 mm", "forward 450 mm, up 165 mm");
        let share = |axle: &str| {
            let c = plain(&text, &[("axle".to_owned(), axle.to_owned())]);
            c.figures.si("load.rear.share").unwrap()
        };
        let text = format!("{text}require load.rear.share >= {:.4}\n", share("30 mm"));
        let misses = |axle: &str| {
            count(&plain(&text, &[("axle".to_owned(), axle.to_owned())]).problems, "brake-misses") > 0
        };
        let said = help(&checked(&text), "requirement-unmet");
        let offered = said.starts_with("`axle` =").then(|| offered(&said).1);
        ((misses("0 mm"), misses("30 mm")), offered.map(|axle| misses(&axle)))
    };
    assert_eq!(with(10), ((false, false), Some(false)));
    assert_eq!(with(40), ((false, true), None));
}

/// Lifting the casters' seats by 22 mm would do it with less of its range, but the seat falls 4 degrees to the front then, on which nobody
/// can tell whether the rider stays: the axle is offered, which goes back with more of its own.
#[test]
fn no_help_tips_the_rider_off_the_seat() {
    let text = chair("door = 900 mm", "require tip.rear.locked >= 15.2 deg\n")
        .replace(
            "axle = 0 mm within 0 mm .. 150 mm",
            "axle = 0 mm within 0 mm .. 60 mm\nparam cup = 165 mm within 165 mm .. 250 mm",
        )
        .replace("forward axle", "back axle")
        .replace("forward 300 mm, up 165 mm", "forward 350 mm, up cup");
    let set = |name: &str, value: &str| plain(&text, &[(name.to_owned(), value.to_owned())]);
    let lifted = set("cup", "187 mm");
    assert_eq!((count(&lifted.problems, "requirement-unmet"), count(&lifted.problems, "cannot-sit")), (0, 1));
    let (name, value) = offered(&help(&checked(&text), "requirement-unmet"));
    assert_eq!(name, "axle");
    let moved = set(&name, &value);
    assert_eq!((count(&moved.problems, "requirement-unmet"), count(&moved.problems, "cannot-sit")), (0, 0));
}

/// Nothing is a parameter: an axle 20 mm ahead of the back has to go to its other side, and a lock 40 mm before the tyre, which reaches 56 mm, has
/// to go with it. What is offered is written into the text: it is met then, and the lock still reaches.
#[test]
fn a_plain_axle_goes_behind_the_back_with_its_brake() {
    let written = |wheel: &str, lock: &str, more: &str| {
        let lock = format!(
            "part \"lock\" {{ kind = brake, mass = 0.3 kg, holding_force = 80 N, source = \"scale\" }}
both sides {{ brake lock = \"lock\" at outward 260 mm, up 300 mm, {lock} }}\n{more}"
        );
        chair("door = 900 mm", &lock)
            .replace("param axle = 0 mm within 0 mm .. 150 mm\n", "")
            .replace("param seat_up = 500 mm within 400 mm .. 550 mm\n", "")
            .replace("seat_up", "500 mm")
            .replace("forward axle", wheel)
            .replace("forward 300 mm, up 165 mm", "forward 350 mm, up 165 mm")
    };
    let least = plain(&written("back 30 mm", "forward 310 mm", ""), &[]).figures.si("tip.rear.locked").unwrap();
    let more = format!(
        "require tip.rear.locked >= {:.3} deg\nrequire seat.height.front >= 499 mm\nrequire seat.height.rear >= 499 mm\n",
        least.to_degrees()
    );
    let said = help(&checked(&written("forward 20 mm", "forward 360 mm", &more)), "requirement-unmet");
    let quoted: Vec<&str> = said.split('`').skip(1).step_by(2).collect();
    let [wheel, lock] = quoted[..] else { panic!("{said}") };
    assert!(wheel.starts_with("back ") && lock.starts_with("forward "), "{said}");
    let mended = plain(&written(wheel, lock, &more), &[]);
    assert_eq!(
        (count(&mended.problems, "requirement-unmet"), count(&mended.problems, "brake-misses")),
        (0, 0),
        "{said}"
    );
    let without = plain(&written(wheel, "forward 360 mm", &more), &[]);
    assert_eq!(count(&without.problems, "brake-misses"), 1, "the lock would have stayed behind");
}

/// A preference is helped where nothing that is required breaks, and no other preference.
#[test]
fn a_preference_is_helped_beside_what_is_required() {
    let lower = "prefer seat.height.front <= 480 mm\n";
    let text = chair("slope = 2 deg", lower);
    let set = offered(&help(&checked(&text), "preference-unmet"));
    assert_eq!(set, ("seat_up".to_owned(), "480 mm".to_owned()));
    assert_eq!(count(&plain(&text, &[set]).problems, "preference-unmet"), 0);
    for other in ["require seat.height.front >= 490 mm\n", "prefer seat.height.front >= 490 mm\n"] {
        let said = help(&checked(&chair("slope = 2 deg", &format!("{lower}{other}"))), "preference-unmet");
        assert!(said.starts_with("no parameter alone meets it"), "{other}: {said}");
    }
}

/// What is required may cost a preference, and the help says which.
#[test]
fn a_requirement_says_which_preference_it_costs() {
    let asked = "require seat.height.front <= 460 mm\nprefer seat.height.front >= 470 mm\n";
    let said = help(&checked(&chair("slope = 2 deg", asked)), "requirement-unmet");
    assert_eq!(offered(&said).1, "460 mm", "{said}");
    assert!(said.contains("what is preferred and met now is not then: seat.height.front >= 470 mm"), "{said}");
}

/// By hand: a depth of 470 - 40 = 430 mm is asked, 435 mm where the thigh is 5 mm longer than it was measured; that takes the last
/// of the room, which is a finding, and so it is 436 mm.
#[test]
fn a_change_holds_at_the_ends_of_what_is_uncertain() {
    let asked = "require seat.depth >= rider.thigh - 40 mm else \"long thighs\"\n";
    let text = seat("thigh = 470 mm ± 5 mm", "380 mm .. 480 mm", asked);
    let said = help(&checked(&text), "requirement-unmet");
    assert_eq!(offered(&said), ("deep".to_owned(), "436 mm".to_owned()), "{said}");
    assert!(said.contains("would do it at either end of every tolerance (it is 420 mm)"), "{said}");
    assert!(said.contains("everything that is required is met then;"), "{said}");
    // it is no finding then, as it would be of 435 mm
    let at = |to: &str| checked(&text.replace("deep = 420 mm", &format!("deep = {to} mm")));
    assert_eq!(count(&at("436"), "hangs-on-a-measure"), 0);
    assert_eq!(count(&at("435"), "hangs-on-a-measure"), 1);
    // beyond its range only the middle is met, and the words say so
    let said = help(&checked(&seat("thigh = 470 mm ± 5 mm", "380 mm .. 432 mm", asked)), "requirement-unmet");
    assert_eq!(offered(&said), ("deep".to_owned(), "430 mm".to_owned()), "{said}");
    assert!(
        said.contains("would do it, tolerances and measures that nobody took aside (it is 420 mm)"),
        "{said}"
    );
}

/// By hand: 470 + 360 - 400 = 430 mm is asked; with the thigh 5 mm longer and the lower leg 4 mm shorter it is 439 mm,
/// and a millimetre more leaves room.
#[test]
fn a_change_holds_with_all_at_their_worst_ends_together() {
    let asked = "require seat.depth + rider.calf >= rider.thigh + 360 mm\n";
    let text = seat("thigh = 470 mm ± 5 mm, calf = 400 mm ± 4 mm", "380 mm .. 480 mm", asked);
    let said = help(&checked(&text), "requirement-unmet");
    assert_eq!(offered(&said), ("deep".to_owned(), "440 mm".to_owned()), "{said}");
    assert!(said.contains("at either end of every tolerance"), "{said}");
}

/// Where nobody measured the rider, a change goes so far that the demand is met at both ends of what stature says of each measure, and
/// nobody doubts it then; what did for the measured rider is doubted. Where the range ends before, the help names the measure.
#[test]
fn a_change_holds_where_a_guess_is_off() {
    const MEASURED: &str = ", hip_ahead = 124.6 mm, hip_above = 85 mm, shoulder_height = 574.6 mm, calf = 418.2 mm, foot_length = 258.4 mm, foot_width = 100 mm";
    let text = |rider: &str, (now, range): (&str, &str), least: f64| {
        chair("slope = 2 deg", &format!("require tip.rear.locked >= {least:.3} deg\n"))
            .replace("param seat_up = 500 mm within 400 mm .. 550 mm\n", "let seat_up = 500 mm\n")
            .replace("axle = 0 mm within 0 mm .. 150 mm", &format!("axle = {now} within {range}"))
            .replace("thigh = 470 mm,", &format!("thigh = 470 mm{rider},"))
    };
    let wide = "0 mm .. 150 mm";
    let drawn = plain(&text("", ("100 mm", wide), 0.0), &[]);
    let least = drawn.figures.si("tip.rear.locked").unwrap().to_degrees() + 1.0;
    let said =
        |rider: &str, range: &str| help(&checked(&text(rider, ("100 mm", range), least)), "requirement-unmet");
    let of_measured = offered(&said(MEASURED, wide)).1;
    let guessed = said("", wide);
    assert!(guessed.contains(" at either end of every measure that nobody took (it is 100 mm)"), "{guessed}");
    let doubts = |at: &str| {
        let all = checked(&text("", (at, wide), least));
        assert_eq!(count(&all, "requirement-unmet"), 0, "{at}");
        let of =
            |p: &&Diagnostic| p.code.name == "hangs-on-a-measure" && p.headline.contains("`tip.rear.locked`");
        all.iter().filter(of).count()
    };
    assert_eq!((doubts(&offered(&guessed).1), doubts(&of_measured)), (0, 1), "{guessed}; {of_measured}");
    let narrow = said("", &format!("{of_measured} .. 150 mm"));
    assert_eq!(offered(&narrow), ("axle".to_owned(), of_measured), "{narrow}");
    assert!(
        narrow.contains("as long as `rider.hip_ahead`, which nobody measured, is what stature says of it"),
        "{narrow}"
    );
}

/// Where no parameter is at hand, the number as it stands in the text is turned, each time that its line has it: with what is offered the
/// demand is met, and a millimetre less leaves it.
#[test]
fn a_plain_number_is_turned_where_no_parameter_is() {
    let text = chair("slope = 2 deg", "require seat.height.front <= 460 mm\n")
        .replace("param seat_up = 500 mm within 400 mm .. 550 mm\n", "")
        .replace("seat_up", "500 mm");
    let line = text.lines().position(|l| l.starts_with("seat =")).unwrap() + 1;
    let said = help(&checked(&text), "requirement-unmet");
    let wanted = format!("`up 460 mm` in line {line} (both times) would do it");
    assert!(said.contains(&wanted) && said.contains("(it is up 500 mm)"), "{said}");
    let unmet = |up: &str| count(&checked(&text.replace("up 500 mm", up)), "requirement-unmet");
    assert_eq!((unmet("up 460 mm"), unmet("up 461 mm")), (0, 1));
    // a name says what its drawer meant to change: it comes first
    let named = text.replace("up 500 mm", "up high") + "param high = 500 mm within 400 mm .. 550 mm\n";
    assert_eq!(offered(&help(&checked(&named), "requirement-unmet")).0, "high");
    // what `let` names may be the limit itself, and is left alone
    let held =
        text.replace("up 500 mm", "up high").replace("<= 460 mm", "<= high - 40 mm") + "let high = 500 mm\n";
    let said = help(&checked(&held), "requirement-unmet");
    assert!(!said.contains(&format!("in line {}", held.lines().count())), "{said}");
}

/// A seat that goes under the table is too low for the sofa, which only a state tells of: the change is offered with that. A sofa that is
/// low enough is not spoken of.
#[test]
fn a_change_is_tried_in_the_states() {
    let said = |least: &str| {
        let sofa = format!("state sofa {{ require seat.height.front >= {least} }}\n");
        help(&checked(&chair("table = 640 mm", &sofa)), "under-table")
    };
    let broken = said("495 mm");
    assert!(
        broken.contains("; but in state sofa it brings another error: this requirement is not met"),
        "{broken}"
    );
    let kept = said("300 mm");
    assert!(kept.contains("`seat_up`") && !kept.contains("sofa"), "{kept}");
}
