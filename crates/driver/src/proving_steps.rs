//! How each test of the sheet is made, step by step, in a builder's words.

use crate::proving_numbers::Numbers;
use crate::words_proving::places;
use chairwright_proving::{
    BATTEN, BATTENS, COAST, DROPS, FACTOR, HOURS, Kind, MINUTES, Place, Test, TestSheet, WALK,
};

/// Before everything else.
pub(crate) const FIRST: &[&str] = &[
    "Nobody sits in the chair, not even for a moment, until every test has passed.",
    "Cement and glue have cured for as long as their label says, at the temperature of the shed.",
    "Two helpers, both at the chair for every test with sand. Closed shoes; no hand and no foot under the chair or \
     between its parts.",
    "Weigh the sand in bags of 5 to 15 kg and tie the bags down. A strap holds the frame to something above or behind \
     it: slack, but too short for the chair to fall.",
    "Stop at the first crack, click or bang. Look with a bright light and soapy water at every joint, hole and glue \
     line after each test. What has cracked is not mended with cement: that part is made anew, and all tests are made again.",
];

/// The title and the steps of one test.
pub(crate) fn steps(sheet: &TestSheet, test: &Test, n: &Numbers) -> (&'static str, Vec<String>) {
    let (title, lines): (&str, Vec<String>) = match &test.kind {
        Kind::Pieces { count } => ("pieces as cut", pieces(*count)),
        Kind::Sizes => ("sizes", sizes()),
        Kind::Alignment { diameter, half } => ("alignment", alignment(*diameter, *half, n)),
        Kind::Wheels => ("wheels stay on", wheels()),
        Kind::Scales => ("on scales", scales(sheet, n)),
        Kind::Load { sand, sling } => ("sand for ten minutes", load(*sand, *sling, n)),
        Kind::Night { sand } => ("sand over a night", night(*sand, n)),
        Kind::Tilt { adjustable } => ("slopes that tip it", tilt(sheet, *adjustable)),
        Kind::AntiTip { devices } => ("anti-tip devices", guard(*devices)),
        Kind::Brakes { slope, drawn } => ("brakes", brakes(*slope, *drawn, n)),
        Kind::Coast { hold } => ("coasting straight", coast(*hold, n)),
        Kind::Flutter { speed } => ("caster flutter", flutter(*speed, n)),
        Kind::Edge { height } => ("casters at an edge", edge(*height, n)),
        Kind::Bumps => ("over a batten", bumps(n)),
        Kind::Drop { height, computed, factor, force } => {
            ("off a kerb", drop(*height, *computed, (*factor, *force), n))
        }
        Kind::Footrest { sand } => ("weight on the foot support", footrest(*sand, n)),
        Kind::Arms { arms } => ("weight on the arms", on_arms(arms, n)),
        Kind::Lift { by, whole, sand, heaviest } => ("lifting", lift((by, whole), *sand, *heaviest, n)),
    };
    (title, lines)
}

fn own(lines: &[&str]) -> Vec<String> {
    lines.iter().map(|l| (*l).to_owned()).collect()
}

fn pieces(count: usize) -> Vec<String> {
    vec![
        format!(
            "Before anything is joined, hold each of the {count} pieces against the cut list. Off by 1 mm is let pass \
                 (common practice, no source)."
        ),
        "After joining, measure both diagonals of the seat and of each side: they differ by 3 mm at most."
            .to_owned(),
        "Passed: every piece and diagonal is right, every end is deburred, every joint is home to its mark."
            .to_owned(),
    ]
}

fn sizes() -> Vec<String> {
    own(&[
        "On a level floor, empty, tyres as hard as they will be. Between two boards stood against it: greatest width, and \
         greatest length with the casters turned back.",
        "Front and rear edge of the seat above the floor, without cushion.",
        "Each axle below the seat: a straight board flat on the seat, standing out over its rear edge and side; with a square from \
         its lower side, square to the seat, to the middle of the axle hole, the wheel off. Measure the chair, not a print.",
    ])
}

fn alignment(diameter: f64, half: f64, n: &Numbers) -> Vec<String> {
    vec![
        "On a sheet of glass or a door laid level: the gap under the wheel that does not touch.".to_owned(),
        format!(
            "Toe: stretch a string along the middle line of the chair. From the string to the rim at the height of the axle, \
             in front less behind: on a wheel of {} half a degree is {}. Wider in front is positive (toe-out).",
            n.length(diameter),
            n.length(half)
        ),
        "Camber: a level against rim and floor; top inward is positive. Casters turn freely, stems plumb."
            .to_owned(),
    ]
}

fn wheels() -> Vec<String> {
    own(&[
        "Lift each wheel in turn. Pull it outward by hand, as hard as one holds a full bucket (about 100 N), and \
         rock it: nothing shifts, no axle comes out, no nut turns.",
        "Spin it, swivel the casters round: nothing touches.",
    ])
}

fn scales(sheet: &TestSheet, n: &Numbers) -> Vec<String> {
    let mut out = vec!["Weigh the empty chair.".to_owned()];
    if sheet.reading("load_rear_left").is_some() {
        out.push(
            "Sand rider in (see above). One bathroom scale under each wheel, or one scale and three boards of its \
             height, wheel after wheel; casters trailing. system_mass is the sum of all four."
                .to_owned(),
        );
    } else {
        out.push("Sand rider in (see above). system_mass is what all wheels carry together.".to_owned());
    }
    out.push(format!("Planned in all: {}, what rides along included.", n.mass(sheet.total)));
    out
}

fn load(sand: f64, sling: bool, n: &Numbers) -> Vec<String> {
    let middle = if sling { "the middle of each seat rail" } else { "its middle" };
    let sunk = if sling {
        "the middle of the seat rail has sunk that sank more; how far the sling itself hangs through is no part of it"
    } else {
        "the middle of the seat has sunk"
    };
    vec![
        format!(
            "{FACTOR} times the heaviest rider (common practice, no source): {} of sand, shared out as the \
             sand rider is. Mark the height of the seat's front and rear edge and of {middle} first.",
            n.mass_up(sand)
        ),
        format!("Add the bags one by one, wait {MINUTES} minutes. sag: how far {sunk}."),
        "Take the sand out and wait half an hour. load_set: the most that any mark has not come back.".to_owned(),
        "Passed: no crack, no white line in plastic, no loose joint, nothing has slipped, all wheels still touch."
            .to_owned(),
    ]
}

fn night(sand: f64, n: &Numbers) -> Vec<String> {
    vec![
        format!(
            "{} of sand as the sand rider for {HOURS} hours, in the warmest place that the chair will be used in.",
            n.mass_up(sand)
        ),
        "Take it out and wait an hour. night_set: the most that any mark has not come back.".to_owned(),
        "Passed as above. Plastic creeps for years: this night tells of the first days only.".to_owned(),
    ]
}

fn tilt(sheet: &TestSheet, adjustable: bool) -> Vec<String> {
    let mut out = vec![
        "A door on trestles, hinged at one edge, rough on top; its level shows the angle. Sand rider in, tied; what rides \
         along in its place. Strap slack, one helper uphill of it, one at the door. Nobody stands downhill."
            .to_owned(),
        "Raise the door slowly. The angle at which a strip of paper under the uphill wheels just pulls free is the \
         reading; lower it again. Three times; write the least down."
            .to_owned(),
        "rear_locked: facing uphill, rear wheels tied to the frame. rear_free: rear wheels free, a batten of less than \
         a tenth of the wheel against them."
            .to_owned(),
        "forward, forward_free: facing downhill, casters tied so that they cannot turn, then free against such a batten; \
         swivelled every way, the least counts."
            .to_owned(),
        "side: across the slope, left then right, a batten against the lower wheels; the casters swivelled every way, held so \
         by hand until they bear, tied there; the least of all."
            .to_owned(),
    ];
    if adjustable {
        out.push(
            "Fields that end in _least: the same at the least stable stop that the chair can be set to. Where that is \
             how it is used, write the same angle again."
                .to_owned(),
        );
    }
    if sheet.bags.is_empty() {
        out.push(
            "The rider's parts could not be placed: how high the sand has to lie cannot be told.".to_owned(),
        );
    }
    out
}

fn guard(devices: usize) -> Vec<String> {
    let all = if devices > 1 { "all of them stand" } else { "it stands" };
    vec![
        format!(
            "On a level floor, sand rider in and tied, what rides along in its place, the strap from above and in front, both helpers at \
             the back, nobody behind. Lay the level on the seat rail and read it. Tip the chair back about its rear wheels, slowly, \
             until {all} on the floor, and read it again. antitip_touch: by how much it turned."
        ),
        "It must come down onto its casters by itself when it is let go from there.".to_owned(),
        "antitip_tip: on the door of the slopes, facing uphill, tipped back onto the devices, a batten behind their wheels. Raise \
         the door until a strip of paper under the rear wheels just pulls free. Three times; write the least down."
            .to_owned(),
        "antitip_test: on that door, a little less steep, it leans on the devices for a minute. Passed: no crack, nothing bent, \
         slipped or loose, and on the level it comes back onto its casters."
            .to_owned(),
    ]
}

fn brakes(slope: Option<f64>, drawn: bool, n: &Numbers) -> Vec<String> {
    let mut out = Vec::new();
    if !drawn {
        out.push(
            "The plan has no brake: add brakes to the plan and the chair. Without them nobody gets in or out safely \
             and it cannot be released."
                .to_owned(),
        );
    }
    let on =
        slope.map_or("the steepest slope of its paths".to_owned(), |s| format!("a ramp of {}", n.angle_up(s)));
    out.push(
        "On level, dry, rough floor, sand rider in, brakes on. Hook a luggage scale to the frame on the middle line, \
         low down; pull level and slowly backward, then forward, until it moves or the limit is passed by a fifth."
            .to_owned(),
    );
    out.push(
        "A wheel that slides without turning counts as moving. Write down what the scale showed last."
            .to_owned(),
    );
    out.push(format!(
        "Then stand it, strapped, on {on}, facing up, then down, five minutes each. If it creeps, write down 0 N."
    ));
    out
}

fn coast(hold: Option<f64>, n: &Numbers) -> Vec<String> {
    let mut out = vec![
        format!(
            "A chalk line of {} m on level, smooth floor. Sand rider in, casters trailing, the middle on the line. Give it \
             a push at a slow walk and let go; a helper catches it.",
            COAST
        ),
        "Three times each way along the line. Half of the difference between the mean of one way and of the other is the \
         chair's; the rest is the floor's. coast_drift: that, without sign."
            .to_owned(),
    ];
    if let Some(force) = hold {
        out.push(format!(
            "On the declared cross slope it turns downhill by itself: {} at each hand is what holds it straight, as computed.",
            n.force(force)
        ));
    }
    out
}

fn flutter(speed: Option<f64>, n: &Numbers) -> Vec<String> {
    let fast = match speed {
        Some(v) => format!("the declared speed of {}", n.speed(v)),
        None => format!("{}, a quick walk (no speed is declared)", n.speed(WALK)),
    };
    vec![
        format!(
            "Sand rider in and tied. A helper at each side runs with it, holding the back, up to {fast}; no hand \
             near the casters. Then coasting to a stop, on smooth floor and on the worst ground of the route."
        ),
        "Turn a caster aside by a quarter turn beforehand, and do it again.".to_owned(),
        "Passed: no caster shakes by itself, none stays across. No formula tells for a caster made by hand."
            .to_owned(),
    ]
}

fn edge(height: f64, n: &Numbers) -> Vec<String> {
    vec![
        format!(
            "A board of {} fastened across the floor. Sand rider in and tied, strap from the back, both helpers behind. \
             Run the casters into it at a slow walk: three times squarely, three times with each caster alone.",
            n.length_up(height)
        ),
        "Passed: stems and forks are straight, nothing is cracked or loose, the casters swivel as before. \
         That it stops dead is expected; the sand must not fall out."
            .to_owned(),
    ]
}

fn bumps(n: &Numbers) -> Vec<String> {
    vec![
        format!(
            "A batten {} high fastened across the floor. Sand rider in and tied. Roll it over {BATTENS} times at walking \
             pace, forward and backward; look at it every fifty times.",
            n.length_up(BATTEN)
        ),
        "Passed: no crack, nothing loose, marks and toe as before. It says little of years: a drum test \
         has a thousand times as many."
            .to_owned(),
    ]
}

fn drop(height: f64, computed: f64, (factor, force): (f64, f64), n: &Numbers) -> Vec<String> {
    let mut out = vec![format!(
        "A firm board or slab {} high with a straight edge. Sand rider in and tied, both helpers with straps. Roll it \
         off slowly: forward, casters first, {DROPS} times; backward, rear wheels first, {DROPS} times.",
        n.length_up(height)
    )];
    if factor > 0.0 {
        out.push(format!(
            "Computed: a peak of {factor:.1} times the weight, about {} on all wheels together.",
            n.force(force)
        ));
    } else {
        out.push("How hard it lands could not be computed: begin with a quarter of the height.".to_owned());
    }
    if height > computed + 1e-9 {
        out.push(format!(
            "The strength check drops it from {} only: what it says does not cover this kerb.",
            n.length(computed)
        ));
    }
    out.push(
        "Passed: no crack, nothing loose, no mark further off than 2 mm. Test alignment and wheels again."
            .to_owned(),
    );
    out
}

fn footrest(sand: f64, n: &Numbers) -> Vec<String> {
    vec![
        format!(
            "Sand rider in, rear wheels held down by helpers or straps so that it cannot tip. Lay {} of sand onto the \
             front edge of the foot support, bag by bag, for a minute: as if somebody stood on it.",
            n.mass_up(sand)
        ),
        "Passed: no crack, nothing loose, it comes back within 2 mm. Nobody stands on it all the same."
            .to_owned(),
    ]
}

fn on_arms(arms: &[(String, f64)], n: &Numbers) -> Vec<String> {
    let mut out: Vec<String> = arms
        .iter()
        .map(|(name, kg)| {
            format!("Sand rider in. Hang {} of sand from the middle of {name}, for a minute.", n.mass_up(*kg))
        })
        .collect();
    out.push(
        "The load is 1.5 x weight / (2 cos 15 deg), as strength has it (ISO 7176-8, from memory).".to_owned(),
    );
    out.push("Passed: no crack, nothing loose, it comes back within 2 mm.".to_owned());
    out
}

fn lift((by, whole): (&[String], &[String]), sand: f64, heaviest: Option<f64>, n: &Numbers) -> Vec<String> {
    let heavy = match heaviest {
        Some(kg) => format!("up to {}", n.mass_up(kg)),
        None => "as much as cannot be told".to_owned(),
    };
    let mut out = Vec::new();
    if !by.is_empty() {
        out.push(format!(
            "{} of sand in it (instead of a jerk), tied. By each of these: {}. Lift that end a hand's width off the floor \
             with a hoist, a jack or a lever, not with the back ({heavy}); hold it ten seconds, set it down; three times.",
            n.mass_up(sand),
            by.join(", ")
        ));
    }
    if !whole.is_empty() {
        out.push(format!(
            "{} of sand in it, tied. By each of these pairs, left and right at once: {}. Lift all of it until no wheel touches, \
             with two hoists or jacks, not with the back ({heavy}); hold it ten seconds, set it down; three times.",
            n.mass_up(sand),
            whole.join(", ")
        ));
    }
    out.push("Whoever lifts stands aside of the chair, the other wheels are chocked.".to_owned());
    out.push("Passed: no crack, nothing turns, slips or comes off.".to_owned());
    out
}

/// Where a bag of the sand rider lies.
pub(crate) fn bag_words(place: Place) -> &'static str {
    places(place)
}
