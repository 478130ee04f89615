//! What the reader sees of strength: prices of reinforcements by hand, the JSON report against its schema and against what was
//! computed, the drawings of bent chairs.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_diagnostics::Sources;
use chairwright_driver::{
    Compilation, Options, Project, Reinforcement, Situation, cost_words, percent, without_side,
};
use chairwright_report::{SCHEMA, bent_drawings, json, report_text};
use chairwright_strength::{How, Verdict};
use chairwright_tests::{Disk, EXAMPLES, Memory, root};
use serde_json::Value;

fn example(folder: &str, file: &str) -> (Sources, Compilation) {
    chairwright_driver::compile(&Disk(root().join("examples").join(folder)), file, &Options::default())
}

/// The lane chair with a sandbag on its push bar that a tube in it carries, with rows added to its price book.
fn laden(rows: &str) -> Compilation {
    let folder = root().join("examples/lane_ramp");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    let bag = "joint middle on push_bar at distance(left.top, right.top) / 2 from left.top
close middle with open
load sandbag at middle force 1300 N toward down lasting short
";
    let world = Memory::of(&(read("plan.chair") + bag))
        .with("parts.chair", &read("parts.chair"))
        .with("prices.csv", &(read("prices.csv") + rows));
    chairwright_driver::compile(&world, "main.chair", &Options::default()).1
}

fn sleeve<'c>(c: &'c Compilation, stock: &str) -> Option<&'c Reinforcement> {
    c.reinforcements.iter().find(|r| r.stock == stock && matches!(r.how, How::Sleeve(..)))
}

/// A sleeve of a pipe that the plan has nowhere else costs one whole length, here 3 m for 31.40. Its mass by
/// hand from the published 0.32 lb/ft of 1 in Schedule 40 (figures of ASTM D1785 pipe): 0.32·0.45359/0.3048 = 0.476 kg/m.
#[test]
fn a_sleeve_costs_a_whole_length_and_weighs_what_is_cut() {
    let c = laden("pipe 1 in sch40,pipe,length,3 m,31.40,USD,plumber,2026-03-02\n");
    let found = sleeve(&c, "pipe 1 in sch40").unwrap();
    let length: f64 = found.lengths.iter().sum();
    assert!(length > 0.05 && length < 2.9, "{:?}", found.lengths);
    assert_eq!(found.lengths.len(), found.parts.len());
    assert!((found.mass / (length * 0.476) - 1.0).abs() < 0.03, "{} for {length}", found.mass);
    assert_eq!(found.cost.money.map(chairwright_quantity::Quantity::si), Some(31.4));
    let words = cost_words(&found.cost);
    assert!(words.starts_with("31.40 USD more: 1 more of \"pipe 1 in sch40\""), "{words}");
    let help = c.problems.iter().filter_map(|p| p.help.as_deref()).find(|h| h.contains("1 in sch40"));
    assert!(help.is_some_and(|h| h.contains("31.40 USD more")), "{help:?}");
}

/// Without a row for it there is no sum, in text and JSON alike.
#[test]
fn a_reinforcement_without_a_price_says_so() {
    let c = laden("");
    let found = sleeve(&c, "pipe 1 in sch40").unwrap();
    assert!(found.cost.money.is_none());
    assert!(cost_words(&found.cost).contains("no price for \"pipe 1 in sch40\""));
    let report: Value = serde_json::from_str(&json(&c, &Sources::default()).unwrap()).unwrap();
    let mends = report["strength"]["mends"].as_array().unwrap();
    let row = mends.iter().find(|m| m["stock"] == "pipe 1 in sch40").unwrap();
    assert!(row["price"]["money"].is_null());
    // 33.4 mm goes into the bore of 1 1/4 in pipe, 35.05 mm
    assert_eq!(row["how"], "inner sleeve");
    assert_eq!(row["price"]["unpriced"][0], "pipe 1 in sch40");
}

/// Every report against the schema that is published with it, and its rows against what was computed.
#[test]
fn the_json_report_has_all_of_strength() {
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    for (folder, file) in EXAMPLES {
        let (sources, c) = example(folder, file);
        let report: Value = serde_json::from_str(&json(&c, &sources).unwrap()).unwrap();
        holds(&schema, &schema, &report, file);
        let (s, j) = (&c.strength, &report["strength"]);
        let count = |key: &str| j[key].as_array().unwrap().len();
        assert_eq!(count("items"), s.items.len());
        assert_eq!(count("cases"), s.cases.len());
        assert_eq!(count("untold"), s.untold.len());
        assert_eq!(count("lost"), s.lost.len());
        assert_eq!(count("bent"), s.bent.len());
        for (row, item) in j["items"].as_array().unwrap().iter().zip(&s.items) {
            assert_eq!(row["name"], item.name.as_str());
            let cautious = row["use"]["cautious"].as_f64().unwrap_or(f64::INFINITY);
            let written = (cautious / item.most.1 - 1.0).abs() < 1e-12;
            assert!(written || !item.most.1.is_finite() && row["use"]["cautious"].is_null());
        }
    }
}

/// The few words of JSON schema that this schema uses; `tests/outside/oracles.py` holds it against a whole validator.
fn holds(root: &Value, schema: &Value, value: &Value, at: &str) {
    for (word, rule) in schema.as_object().unwrap() {
        match word.as_str() {
            "$schema" | "$defs" | "title" | "description" | "pattern" | "minLength" => {}
            "$ref" => holds(root, root.pointer(&rule.as_str().unwrap()[1..]).unwrap(), value, at),
            "oneOf" => {
                let fits = |s: &&Value| s["type"] != "null" || value.is_null();
                let other = |s: &&Value| !(value.is_null() && s["type"] != "null");
                let one = rule.as_array().unwrap().iter().filter(fits).find(other);
                holds(root, one.unwrap_or_else(|| panic!("{at}: {value}")), value, at);
            }
            "type" => {
                let is = |t: &Value| match t.as_str().unwrap() {
                    "object" => value.is_object(),
                    "array" => value.is_array(),
                    "string" => value.is_string(),
                    "number" => value.is_number(),
                    "integer" => value.is_i64() || value.is_u64(),
                    "boolean" => value.is_boolean(),
                    "null" => value.is_null(),
                    other => panic!("{other}"),
                };
                let all = rule.as_array().map_or_else(|| is(rule), |types| types.iter().any(is));
                assert!(all, "{at}: {value} is no {rule}");
            }
            "enum" => assert!(rule.as_array().unwrap().contains(value), "{at}: {value} is none of {rule}"),
            "const" => assert_eq!(rule, value, "{at}"),
            "minimum" | "exclusiveMinimum" => {
                let (Some(v), Some(least)) = (value.as_f64(), rule.as_f64()) else { continue };
                assert!(v > least || (word == "minimum" && v == least), "{at}: {v} below {least}");
            }
            "minItems" | "maxItems" => {
                let Some(n) = value.as_array().map(|a| a.len() as u64) else { continue };
                let limit = rule.as_u64().unwrap();
                assert!(if word == "minItems" { n >= limit } else { n <= limit }, "{at}: {n} items");
            }
            "items" => {
                for (k, v) in value.as_array().into_iter().flatten().enumerate() {
                    holds(root, rule, v, &format!("{at}[{k}]"));
                }
            }
            // of what is no object nothing is required; its type is checked beside
            "required" if !value.is_object() => {}
            "required" => {
                for key in rule.as_array().unwrap() {
                    assert!(value.get(key.as_str().unwrap()).is_some(), "{at}: no {key}");
                }
            }
            "properties" => {
                for (key, rule) in rule.as_object().unwrap() {
                    if let Some(v) = value.get(key) {
                        holds(root, rule, v, &format!("{at}.{key}"));
                    }
                }
            }
            "additionalProperties" => {
                let known = |key: &String| schema.get("properties").is_some_and(|p| p.get(key).is_some());
                for (key, v) in value.as_object().into_iter().flatten().filter(|(k, _)| !known(k)) {
                    assert!(rule != &Value::Bool(false), "{at}: {key} is not in the schema");
                    holds(root, rule, v, &format!("{at}.{key}"));
                }
            }
            other => panic!("{other} is not understood here"),
        }
    }
}

/// What gives first, in which case and by what margin stands in the first line of the section.
#[test]
fn the_first_line_says_what_gives_first() {
    for (folder, file) in EXAMPLES {
        let (sources, c) = example(folder, file);
        let report = report_text(&c, &sources);
        let section = report.split("DOES IT HOLD\n").nth(1).unwrap();
        let first = section.lines().skip(1).take(4).map(str::trim).collect::<Vec<_>>().join(" ");
        let item = &c.strength.items[0];
        let when = chairwright_driver::case_words(&c.design, &c.strength.cases[item.case].kind);
        let margin = if item.verdict == Verdict::Pass { item.most.1 } else { item.most.0 };
        for word in [without_side(&item.name), when, percent(margin)] {
            assert!(first.contains(&word), "{file}: {word} is not in: {first}");
        }
        assert!(section.lines().all(|l| l.chars().count() <= 80));
    }
}

/// The drawings: the case in words, the scale, the weakest part by name; and the last step of the scale is drawn if and only if
/// something is used beyond what is sound.
#[test]
fn bent_chairs_are_drawn() {
    for (folder, file) in EXAMPLES {
        let (_, c) = example(folder, file);
        let drawn = bent_drawings(&c);
        assert_eq!(drawn.len(), c.strength.bent.len(), "{file}");
        for ((name, svg), bent) in drawn.iter().zip(&c.strength.bent) {
            let all = || bent.bars.iter().flat_map(|b| &b.stations);
            let beyond = all().any(|s| s.used.is_some_and(|u| u > 1.0));
            let strokes = svg.matches("<path class=\"s3\"").count();
            assert_eq!(strokes > 1, beyond, "{file} {name}: {strokes} strokes, one of them in the legend");
            let case = &c.strength.cases[bent.case];
            assert!(svg.contains(&chairwright_driver::case_words(&c.design, &case.kind)));
            let scale = svg.split("Shifts are drawn ").nth(1).unwrap();
            let times: f64 = scale.split(' ').next().unwrap().parse().unwrap_or(1.0);
            let most = all().map(|s| s.shift.norm()).fold(0.0, f64::max);
            assert!(times == 1.0 || times * most <= 0.060, "{file}: {times} x {most}");
            let worst = c.strength.worst_of_case[bent.case].as_ref().unwrap();
            let plain = without_side(&worst.0);
            assert!(svg.contains(&worst.0) || svg.contains(&plain), "{file}: {}", worst.0);
            // what is said in numbers is what was computed
            assert!(svg.contains(&format!("the greatest is {:.1} mm", most * 1e3)));
        }
    }
}

/// A hole is drawn where the cut list has it: 150 mm from the left end of a beam of 400 mm is at 50 mm to the left; from above 300 mm
/// behind nothing, as a circle of its own diameter.
#[test]
fn holes_are_drawn_at_their_stations() {
    let text = "use catalogue.pipe_inch
joint a at left 200 mm, up 300 mm
joint b at right 200 mm, up 300 mm
member beam = \"pipe 1 1/4 in sch40\" from a to b
close a with open
close b with open
hole pin on beam at 150 mm from a diameter 10 mm toward up
";
    let (_, c) = chairwright_driver::compile(&Memory::of(text), "main.chair", &Options::default());
    let svg = chairwright_report::drawing(&c, chairwright_report::View::Top);
    let path = svg.split("class=\"hole\"").nth(1).unwrap().split("d=\"M").nth(1).unwrap();
    let path = path.split('Z').next().unwrap();
    let points: Vec<(f64, f64)> = path
        .split('L')
        .map(|p| p.split_once(' ').map(|(x, y)| (x.parse().unwrap(), y.parse().unwrap())).unwrap())
        .collect();
    let low = |f: fn(&(f64, f64)) -> f64| points.iter().map(f).fold(f64::INFINITY, f64::min);
    let high = |f: fn(&(f64, f64)) -> f64| points.iter().map(f).fold(f64::NEG_INFINITY, f64::max);
    // in the top view left is up: y = -50 mm; 10 mm across
    assert!((f64::midpoint(low(|p| p.1), high(|p| p.1)) + 50.0).abs() < 0.2);
    assert!(f64::midpoint(low(|p| p.0), high(|p| p.0)).abs() < 0.2);
    assert!((high(|p| p.0) - low(|p| p.0) - 10.0).abs() < 0.3);
}

/// Growth is printed in the months that the text asks for, of whatever unit: half a year is 6 months of a twelfth of 365.25 days.
#[test]
fn a_step_of_growth_says_its_month() {
    let states =
        [("in_half_a_year", "0.5 years", "6"), ("in_a_year", "12 months", "12"), ("later", "52 weeks", "12")];
    let written: String =
        states.iter().map(|(name, after, _)| format!("state {name} {{ rider.after = {after} }}\n")).collect();
    let text = format!(
        r#"
use catalogue.panels
part "w" {{ kind = wheel, mass = 2 kg, diameter = 600 mm, width = 35 mm, source = "tape" }}
part "c" {{ kind = caster, mass = 1 kg, diameter = 150 mm, width = 30 mm, trail = 40 mm, drop = 90 mm, source = "tape" }}
rider {{ mass = 20 kg, stature = 1000 mm, thigh = 300 mm, age = 5 years, grown = 60 mm }}
{written}both sides {{
    wheel rear = "w" at outward 260 mm, up 300 mm
    caster front = "c" at outward 200 mm, forward 380 mm, up 165 mm
}}
seat = "plywood 12 mm" from up 480 mm to up 480 mm, forward 280 mm width 300 mm
"#
    );
    let world = Memory::of(&text);
    let mut project = Project::load(&world, "main.chair");
    let mut c = project.compile(&Options::default());
    project.study(&Options::default(), &mut c);
    let report = report_text(&c, &project.sources);
    for (name, _, months) in states {
        let line =
            report.lines().find(|l| l.trim_start().starts_with(name)).unwrap_or_else(|| panic!("{report}"));
        assert!(line.contains(&format!("rider {months}.0 months later")), "{line}");
        let situation = Situation { state: Some(name.to_owned()), ..Situation::default() };
        let there = project.compile(&Options { situation, ..Options::default() });
        let grown = format!("after {months} months: 60 mm of stature a year");
        assert!(there.assumptions.iter().any(|a| a.contains(&grown)), "{:?}", there.assumptions);
    }
}

/// Shares that the text of an example tells, such as `75/560 %`: what surely breaks, and what is sound.
fn told(text: &str) -> Vec<[String; 2]> {
    let number = |c: char| c.is_ascii_digit() || c == '.';
    let share = |(at, _): (usize, &str)| {
        let before = text[..at].rsplit(|c| !number(c)).next().unwrap_or_default();
        let after = text[at + 1..].split(|c| !number(c)).next().unwrap_or_default();
        let percent = text[at + 1 + after.len()..].starts_with(" %");
        (percent && !before.is_empty() && !after.is_empty()).then(|| [before.to_owned(), after.to_owned()])
    };
    text.match_indices('/').filter_map(share).collect()
}

/// What an example says of its own strength is what its check finds.
#[test]
fn examples_tell_their_own_shares() {
    let mut count = 0;
    for (folder, file) in EXAMPLES {
        let (_, c) = example(folder, file);
        let shown = |used: f64| percent(used).replace([' ', '%'], "");
        let found: Vec<[String; 2]> =
            c.strength.items.iter().map(|i| [shown(i.most.0), shown(i.most.1)]).collect();
        for pair in c.design.purpose.map(|p| told(&p.replace('\n', " "))).unwrap_or_default() {
            assert!(found.contains(&pair), "{file} tells {}/{} %", pair[0], pair[1]);
            count += 1;
        }
    }
    assert!(count > 10, "{count}");
}

/// What the README shows of a report is what the first chair's report says today, line by line and in that order.
#[test]
fn the_report_in_the_readme_is_the_first_chairs() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let (_, after) = readme.split_once("## What a report looks like").unwrap();
    let shown = after.split("```").nth(1).unwrap().trim_start_matches("text").trim();
    let (sources, c) = example("first_chair", "first.chair");
    let report = report_text(&c, &sources);
    let mut lines = report.lines().map(str::trim_end);
    let wanted: Vec<&str> = shown.lines().map(str::trim_end).filter(|l| !l.is_empty()).collect();
    assert!(wanted.len() > 12);
    for line in wanted {
        assert!(lines.any(|l| l == line), "the report does not say: {line}");
    }
}
