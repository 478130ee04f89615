//! The test sheet in words: what to write down, what is expected, what passes and why.

use crate::Compilation;
use crate::proving_numbers::Numbers;
use crate::proving_steps::{FIRST, bag_words, steps};
use crate::words_strength::percent;
use chairwright_proving::{FACTOR, FLOOR, Lack, Limit, Outcome, Place, Reading, Test, Weak, Why};
use chairwright_quantity::{Dimension, Display};
use chairwright_strength::{CaseKind, Verdict};

/// The sheet for a reader.
#[derive(Clone, PartialEq, Debug)]
pub struct SheetText {
    /// The heaviest rider that it is for.
    pub rider: String,
    /// Chair, rider and what rides along.
    pub total: String,
    /// What to heed in every test.
    pub first: Vec<String>,
    /// The bags of the sand rider.
    pub bags: Vec<BagText>,
    /// The tests.
    pub tests: Vec<TestText>,
    /// What this sheet cannot prove.
    pub unproven: Vec<String>,
}

/// One bag of sand.
#[derive(Clone, PartialEq, Debug)]
pub struct BagText {
    /// Where.
    pub place: &'static str,
    /// How much.
    pub mass: String,
    /// Its middle ahead of the seat's rear edge.
    pub ahead: String,
    /// Its middle above the floor.
    pub height: String,
}

/// One test.
#[derive(Clone, PartialEq, Debug)]
pub struct TestText {
    /// Its title.
    pub title: &'static str,
    /// How to do it.
    pub steps: Vec<String>,
    /// What to look at, the weakest first.
    pub look: Vec<String>,
    /// What to write down.
    pub readings: Vec<ReadingText>,
}

/// One thing to write down.
#[derive(Clone, PartialEq, Debug)]
pub struct ReadingText {
    /// The field of `as_built`.
    pub field: &'static str,
    /// What it is.
    pub what: &'static str,
    /// What the plan expects, or what is missing to say so.
    pub expected: String,
    /// What passes, the instrument's tolerance counted in.
    pub passes: String,
    /// Why.
    pub why: String,
    /// What was written down.
    pub result: String,
    /// What came of it, in a word or two.
    pub outcome: &'static str,
}

/// The sheet in words.
#[must_use]
pub fn sheet_text(c: &Compilation) -> SheetText {
    let n = Numbers(c.display());
    let bags = c.sheet.bags.iter().map(|b| BagText {
        place: bag_words(b.place),
        mass: n.mass(b.mass),
        ahead: n.length(b.ahead),
        height: n.length(b.height),
    });
    let tests = c.sheet.tests.iter().map(|t| {
        let (title, steps) = test_words(c, t);
        let readings = t.readings.iter().map(|r| reading_words(c.display(), r)).collect();
        TestText { title, steps, look: t.weakest.iter().map(weak).collect(), readings }
    });
    SheetText {
        rider: n.down(c.sheet.rider, Dimension::MASS),
        total: n.up(c.sheet.total, Dimension::MASS),
        first: FIRST.iter().map(|l| (*l).to_owned()).collect(),
        bags: bags.collect(),
        tests: tests.collect(),
        unproven: unproven(c),
    }
}

pub(crate) fn test_words(c: &Compilation, test: &Test) -> (&'static str, Vec<String>) {
    steps(&c.sheet, test, &Numbers(c.display()))
}

pub(crate) fn places(place: Place) -> &'static str {
    match place {
        Place::Back => "against the back (head, arms, trunk)",
        Place::Seat => "on the seat (thighs)",
        Place::Feet => "on the foot support (shanks, feet)",
    }
}

/// A part to look at, with its computed use.
fn weak(w: &Weak) -> String {
    let used = format!("{} of what is sound", percent(w.used));
    match w.verdict {
        Some(Verdict::Fail) => format!("{} ({used}: FAILS)", w.name),
        Some(Verdict::CannotTell) => format!("{} ({used}: only a test tells)", w.name),
        _ => format!("{} ({used})", w.name),
    }
}

/// One reading in words.
pub(crate) fn reading_words(display: Display, r: &Reading) -> ReadingText {
    let n = Numbers(display);
    ReadingText {
        field: r.field,
        what: what(r.field),
        expected: expected(&n, r),
        passes: passes(&n, r),
        why: why(&n, r),
        result: result(&n, r),
        outcome: outcome(r.outcome),
    }
}

fn outcome(o: Outcome) -> &'static str {
    match o {
        Outcome::Missing => "to be tested",
        Outcome::Passed => "passed",
        Outcome::Failed => "FAILED",
        Outcome::OffSheet => "OFF THE PLAN",
        Outcome::TooGentle => "TOO GENTLY TESTED",
        Outcome::CannotTell => "cannot tell",
        Outcome::NoLimit => "no limit",
    }
}

fn expected(n: &Numbers, r: &Reading) -> String {
    let Some(d) = r.dimension else { return String::new() };
    let Some(x) = r.expected else { return lack_words(r.lack).to_owned() };
    // a slope that tips it is never printed as more than it is
    let slope = is_slope(r.field);
    let text = if slope { n.down(x, d) } else { n.text(x, d) };
    let most = r.most.map_or(String::new(), |m| format!(", at best {}", n.down(m, d)));
    let adjusted = if r.adjusted.is_empty() { String::new() } else { format!(" ({})", r.adjusted) };
    format!("{text}{adjusted}{most}")
}

pub(crate) fn lack_words(lack: Option<Lack>) -> &'static str {
    match lack {
        Some(Lack::Slope) => "cannot tell: conditions say no slope",
        Some(Lack::NoBrake) => "cannot tell: the plan has no brake",
        Some(Lack::Brake) => "cannot tell: no brake says what it holds",
        Some(Lack::Strength) => "cannot tell: strength was not computed",
        Some(Lack::Stops) => "cannot tell: not worked out at every stop",
        Some(Lack::FourWheels) => "cannot tell: not two wheels and two casters",
        Some(Lack::Figure) | None => "cannot tell: not computed",
    }
}

fn is_slope(field: &str) -> bool {
    field == "antitip_tip"
        || field.starts_with("rear_")
        || field.starts_with("forward")
        || field.starts_with("side")
}

/// What has to be read: the limit with the instrument's tolerance on the safe side.
fn passes(n: &Numbers, r: &Reading) -> String {
    let Some(d) = r.dimension else { return "passed or failed".to_owned() };
    match r.lack {
        Some(Lack::Slope) => return "cannot tell: declare the slope of the path".to_owned(),
        Some(Lack::NoBrake) => return "cannot tell: draw the brakes".to_owned(),
        _ => {}
    }
    let (least, most) = r.range();
    let least = least.map(|x| x + r.tolerance);
    let most = most.map(|x| x - r.tolerance);
    match (least, most) {
        (Some(a), Some(b)) if a > b => "cannot tell: no reading is close enough".to_owned(),
        (Some(a), Some(b)) => format!("{} to {}", n.up(a, d), n.down(b, d)),
        (Some(a), None) if d == Dimension::FORCE => {
            format!("{} or more ({:.1} kg on the scale)", n.up(a, d), (a / 9.806_65 * 10.0).ceil() / 10.0)
        }
        (Some(a), None) => format!("{} or more", n.up(a, d)),
        (None, Some(b)) => format!("{} or less", n.down(b, d)),
        (None, None) => lack_words(r.lack).to_owned(),
    }
}

fn why(n: &Numbers, r: &Reading) -> String {
    let Some(d) = r.dimension else { return String::new() };
    let mut parts: Vec<String> = r.limit.iter().map(|l| limit_words(n, l, d)).collect();
    if let Some((least, most)) = r.near {
        parts.push(match (least.is_finite(), most.is_finite()) {
            (true, true) => {
                // a figure that is best at one swivel and worst at another lies between both
                let off = r.expected.map_or((most - least) / 2.0, |planned| planned - least);
                format!("no more than {} off the plan", n.down(off, d))
            }
            (true, false) => {
                format!("no more than {} under the plan", n.down(r.expected.unwrap_or(0.0) - least, d))
            }
            _ => format!("no more than {}: half again of what was computed, and 2 mm", n.down(most, d)),
        });
    }
    if !parts.is_empty() && r.tolerance > 0.0 {
        parts.push(format!("{} for the instrument", n.text(r.tolerance, d)));
    }
    parts.join("; ")
}

fn limit_words(n: &Numbers, l: &Limit, d: Dimension) -> String {
    match l.why {
        Why::Path { slope, margin, demand } => {
            let least = if slope <= FLOOR + 1e-9 { " (never less is tried)" } else { "" };
            let mut text = format!("slope of {}{least}", n.up(slope, d));
            if let Some(m) = margin {
                text += &format!(" and {} of margin in the use profile", n.up(m, d));
            }
            if let Some(x) = demand.filter(|x| *x > slope + margin.unwrap_or(0.0) + 1e-9) {
                text += &format!(", and the plan demands {}", n.up(x, d));
            } else if margin.is_none() {
                text += ", no profile asks for a margin";
            }
            text
        }
        Why::Balance { free, slope } => format!(
            "past its balance at {}: it tips at {} with its wheels free and the rider leaning back, on a slope of {}",
            n.down(free - slope, d),
            n.down(free, d),
            n.up(slope, d)
        ),
        Why::Demand => match (l.least, l.most) {
            (Some(a), Some(b)) => format!("the plan demands {} to {}", n.up(a, d), n.down(b, d)),
            (Some(a), None) => format!("the plan demands {} or more", n.up(a, d)),
            (_, b) => format!("the plan demands {} or less", n.down(b.unwrap_or(0.0), d)),
        },
        Why::Rock => "tyres take up 3 mm (common practice, no source)".to_owned(),
        Why::Toe => "one degree costs a quarter more push (RESNA 2016)".to_owned(),
        Why::Set => "2 mm of lasting set (common practice, no source)".to_owned(),
        Why::Brake { slope } => {
            format!(
                "1.5 times the downhill pull on {} (common practice, no source)",
                n.up(slope, Dimension::ANGLE)
            )
        }
        Why::Straight => "one degree over 5 m".to_owned(),
        Why::Hard => "what passed at less was never tried".to_owned(),
    }
}

fn result(n: &Numbers, r: &Reading) -> String {
    let Some(d) = r.dimension else {
        return r.passed.map_or(String::new(), |p| if p { "passed".to_owned() } else { "failed".to_owned() });
    };
    let Some(b) = r.result else { return String::new() };
    if b.high - b.low > 1e-9 {
        format!("{} to {}", n.down(b.low, d), n.up(b.high, d))
    } else {
        n.text(b.low, d)
    }
}

/// What a field of the sheet is.
fn what(field: &str) -> &'static str {
    match field {
        "width" => "greatest width",
        "length" => "greatest length, casters trailing",
        "seat_front" => "front of the seat above the floor",
        "seat_rear" => "rear of the seat above the floor",
        "axle_left" => "left axle below the seat, square to it",
        "axle_right" => "right axle below the seat, square to it",
        "rock" => "gap under the fourth wheel",
        "toe_left" => "toe of the left rear wheel",
        "toe_right" => "toe of the right rear wheel",
        "camber_left" => "lean of the left rear wheel",
        "camber_right" => "lean of the right rear wheel",
        "mass" => "the empty chair",
        "system_mass" => "chair and sand rider",
        "load_rear_left" => "under the left rear wheel",
        "load_rear_right" => "under the right rear wheel",
        "load_front_left" => "under the left caster",
        "load_front_right" => "under the right caster",
        "rear_locked" => "backward, rear wheels held",
        "rear_free" => "backward, rear wheels free",
        "forward" => "forward, casters held",
        "forward_free" => "forward, casters free",
        "side" => "sideways, the worse side and swivel",
        "rear_locked_least" => "backward, held, least stable stop",
        "rear_free_least" => "backward, free, least stable stop",
        "forward_least" => "forward, held, least stable stop",
        "forward_free_least" => "forward, free, least stable stop",
        "side_least" => "sideways, least stable stop",
        "antitip_touch" => "turn back until the anti-tips touch",
        "antitip_tip" => "backward over the anti-tips",
        "sag" => "seat sinks under the sand",
        "load_set" | "night_set" => "what does not come back",
        "brake_back" => "pull backward that it holds",
        "brake_forward" => "pull forward that it holds",
        "coast_drift" => "off the line after 5 m",
        "load_sand" | "night_sand" | "lift_sand" => "sand that was in it",
        "flutter_speed" => "as fast as it was run",
        "edge_height" => "how high the board was",
        "drop_height" => "how high the kerb was",
        "footrest_sand" => "sand that lay on the foot support",
        "arm_sand" => "sand that lay on an arm",
        _ => "what came of it",
    }
}

/// What this sheet cannot prove, whatever is written down.
fn unproven(c: &Compilation) -> Vec<String> {
    let mut out: Vec<String> = [
        "wear: a drum test turns 200 000 times and drops 6 666 times; nothing of that is tried here",
        "heat, cold, sun and wet over the years; the tests say how the chair is today",
        "posture, pressure on skin, transfers: whoever fits the rider looks at those, after release",
        "riding in a vehicle, fire, washing: nothing was computed and nothing is tested",
        "how the chair behaves with the rider moving in it: first sitting with both helpers, on level ground",
    ]
    .map(str::to_owned)
    .to_vec();
    let s = &c.strength;
    let case = |f: fn(&CaseKind) -> bool| s.cases.iter().any(|x| f(&x.kind));
    if !case(|k| matches!(k, CaseKind::Arm(_))) {
        out.push("arms: none was found to push up from, so none is loaded".to_owned());
    }
    if !case(|k| matches!(k, CaseKind::Lift(_))) {
        out.push("handles: none was found to lift by, so nobody lifts it with a rider in it".to_owned());
    }
    if !c.design.supports.iter().any(|p| p.kind == chairwright_design::SupportKind::Footrest) {
        out.push("a foot support: the plan has none".to_owned());
    }
    if c.design.wheels.len() != 2 || c.design.casters.len() != 2 {
        out.push("each wheel's load: the chair does not have two wheels and two casters".to_owned());
    }
    let lacks =
        c.sheet.tests.iter().flat_map(|t| &t.readings).filter(|r| r.expected.is_none() && r.lack.is_some());
    out.extend(lacks.map(|r| format!("{}, {}: {}", r.field, what(r.field), lack_words(r.lack))));
    if s.cases.is_empty() {
        out.push("strength: no load case was computed, so nothing says what gives first".to_owned());
    }
    out.push(format!(
        "more than {FACTOR} times the rider: the sheet is for one of at most {}",
        Numbers(c.display()).down(c.sheet.rider, Dimension::MASS)
    ));
    out
}
