//! Texts from strangers: nothing panics, nothing hangs, nothing leaks out of the folder, and the same
//! text gives the same bytes.

#![allow(clippy::unwrap_used, clippy::panic)]

use chairwright_catalogue::PAGES;
use chairwright_diagnostics::{Severity, render_full};
use chairwright_driver::{Options, compile};
use chairwright_report::{View, bill_csv, cuts_csv, drawing, glb, json, report_text, sheet_json, sheet_page};
use chairwright_tests::{Disk, Memory, files, root};

/// A small generator of the same numbers on every machine (xorshift).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % u64::try_from(below.max(1)).unwrap()).unwrap()
    }
}

fn everything(text: &str) -> Vec<u8> {
    let (sources, c) = compile(&Memory::of(text), "main.chair", &Options::default());
    let mut all = render_full(&sources, &c.problems, false).into_bytes();
    all.extend(report_text(&c, &sources).into_bytes());
    all.extend(json(&c, &sources).unwrap().into_bytes());
    all.extend(sheet_page(&c).into_bytes());
    all.extend(sheet_json(&c).unwrap().into_bytes());
    all.extend(cuts_csv(&c).into_bytes());
    all.extend(bill_csv(&c).into_bytes());
    for view in [View::Side, View::Front, View::Top] {
        all.extend(drawing(&c, view).into_bytes());
    }
    all.extend(glb(&c));
    all
}

#[test]
fn random_edits_never_panic() {
    let texts: Vec<String> =
        files(&root().join("examples"), "chair").iter().map(|f| std::fs::read_to_string(f).unwrap()).collect();
    let bits = [
        "{",
        "}",
        "(",
        ")",
        "..",
        "=",
        "-",
        "0",
        "1e300",
        "9999999999999999999999",
        "/",
        "both sides {",
        "at ",
        "\"",
        "\n",
        "±",
        " mm",
        " deg",
        "é",
        "crossing(",
        "- - - -",
        "up ",
        "from",
        ",",
        "measured",
        "^9",
        "0 mm",
        "\u{0}",
        "within",
        "max(",
        "toward",
        "turned 33 deg",
    ];
    let mut dice = Dice(0x9E37_79B9_7F4A_7C15);
    for _ in 0..250 {
        let mut text: Vec<char> = texts[dice.roll(texts.len())].chars().collect();
        for _ in 0..1 + dice.roll(4) {
            let at = dice.roll(text.len());
            match dice.roll(3) {
                0 => {
                    let end = (at + dice.roll(60)).min(text.len());
                    text.drain(at..end);
                }
                1 => {
                    let bit: Vec<char> = bits[dice.roll(bits.len())].chars().collect();
                    text.splice(at..at, bit);
                }
                _ => {
                    let from = dice.roll(text.len());
                    let piece: Vec<char> = text[from..(from + dice.roll(80)).min(text.len())].to_vec();
                    text.splice(at..at, piece);
                }
            }
        }
        let text: String = text.into_iter().collect();
        let _ = everything(&text);
    }
}

#[test]
fn nonsense_sizes_are_refused_or_survived() {
    for text in [
        "joint a at up 1e200 m\njoint b at up -1e200 m\n",
        "let a = 1e308 mm * 1e308\njoint b at up a / 1 mm\n",
        "param a = 0 mm / 0 mm\n",
        &"let x = 1 mm\n".repeat(5000),
        &format!("let a = {}1 mm\n", "-".repeat(5000)),
        &format!("let a = {}1 mm{}\n", "(".repeat(3000), ")".repeat(3000)),
        &"both sides {\n".repeat(3000),
        &format!("let a = 1 mm{}\n", " ^ 2".repeat(3000)),
        &"x".repeat(100_000),
        &"}\n".repeat(20_000),
    ] {
        let _ = everything(text);
    }
}

#[test]
fn long_chains_of_names_are_bounded() {
    let mut text = String::from("let a0 = 1 mm\n");
    for i in 1..2000 {
        text.push_str(&format!("let a{i} = a{} + 1 mm\n", i - 1));
    }
    let (_, c) = compile(&Memory::of(&text), "main.chair", &Options::default());
    // worked out in order of writing, each name finds the one before it known
    assert!(c.problems.is_empty());
    let backward: String = text.lines().rev().map(|l| format!("{l}\n")).collect();
    let (_, c) = compile(&Memory::of(&backward), "main.chair", &Options::default());
    assert!(c.problems.iter().any(|p| p.code.name == "too-deep"));
}

#[test]
fn reports_carry_no_markup_and_no_formula() {
    let text = "design a\nlicence \"<script>x</script>\"\nprices \"p.csv\"\nuse catalogue.panels\nsupply \"=cmd()\" times 1\npart \"@SUM(A1)\" { kind = other, mass = 1 kg, source = \"x\" }\nitem bag = \"@SUM(A1)\" at up 300 mm\n";
    let mut memory = Memory::of(text);
    memory.0.insert(
        "p.csv".to_owned(),
        "key,description,sale unit,pack,price,currency,supplier,date\n@SUM(A1),x,each,1,2.00,USD,=evil(),2026-01-01\n".to_owned(),
    );
    let (_, c) = compile(&memory, "main.chair", &Options::default());
    for line in bill_csv(&c).lines().skip(1) {
        for field in line.split(',') {
            let first = field.trim_start_matches('"').chars().next().unwrap_or(' ');
            assert!(!"=+-@".contains(first), "{line}");
        }
    }
    for view in [View::Side, View::Front, View::Top] {
        assert!(!drawing(&c, view).contains("<script"));
    }
}

#[test]
fn the_same_text_gives_the_same_bytes() {
    for file in files(&root().join("examples"), "chair") {
        let text = std::fs::read_to_string(file).unwrap();
        assert_eq!(everything(&text), everything(&text));
    }
}

#[test]
fn every_shipped_page_passes_every_check() {
    for page in PAGES {
        let uses: String = PAGES
            .iter()
            .filter(|p| {
                p.name != page.name
                    && ["pipe_inch", "pipe_metric"].contains(&p.name)
                    && page.name.starts_with("fittings")
            })
            .map(|p| format!("use catalogue.{}\n", p.name))
            .collect();
        // as the builder's own text, so that every field is checked
        let text = format!("{uses}{}", page.text);
        let by_itself = ["body", "ground", "strength"].contains(&page.name);
        let (_, c) = compile(&Memory::of(&text), "main.chair", &Options::default());
        let all = c.problems.iter().map(|p| &p.headline);
        let said: Vec<&String> = all.filter(|h| !(by_itself && h.starts_with("there is already a"))).collect();
        assert!(said.is_empty(), "{}: {said:?}", page.name);
    }
}

#[test]
fn every_variant_of_every_example_compiles_and_only_the_door_fails() {
    for design in [
        "first_chair/first",
        "highland_school/highland_school",
        "highland_school/cousin",
        "porch_and_clinic/porch_and_clinic",
        "birch_cabin/birch_cabin",
        "river_track/river_track",
    ] {
        let (folder, file) = design.split_once('/').unwrap();
        let file = format!("{file}.chair");
        let (_, all) = chairwright_driver::compile_all(&Disk(root().join("examples").join(folder)), &file);
        for c in &all {
            for p in c.problems.iter().filter(|p| p.severity == Severity::Error) {
                let expected =
                    folder == "porch_and_clinic" || folder == "birch_cabin" && c.design.variant.is_some();
                // a seat of 600 mm is wider than the rule has it for her hips, besides
                let wide =
                    c.design.variant.as_deref() == Some("comfort_600") && p.code.name == "breaks-fit-rule";
                let door = ["requirement-unmet", "too-wide"].contains(&p.code.name) || wide;
                // which parts of which chair do not hold is pinned in `strength.rs`
                let weak = ["porch_and_clinic", "birch_cabin", "river_track", "lane_ramp", "highland_school"]
                    .contains(&folder);
                let known = weak && p.code.family == chairwright_diagnostics::Family::Strength;
                // its axle box hangs on bolts in bare pipe until somebody puts sleeves into the holes
                let bare = folder == "first_chair" && p.code.name == "forbidden-path";
                assert!(known || bare || expected && door, "{folder}: {}", p.headline);
            }
        }
    }
}

/// Codes of everything that is said about a text in all its variations.
fn said(text: &str) -> Vec<&'static str> {
    let (_, all) = chairwright_driver::compile_all(&Memory::of(text), "main.chair");
    all.iter().flat_map(|c| &c.problems).map(|p| p.code.name).collect()
}

#[test]
fn every_stop_of_every_adjustment_is_tried() {
    let slot = "adjust peg = 66 mm within 46 mm .. 86 mm every 10 mm\n";
    assert_eq!(said(&format!("{slot}require abs(peg - 56 mm) >= 1 mm\n")), ["requirement-unmet"]);
    assert!(said(&format!("{slot}require abs(peg - 51 mm) >= 1 mm\n")).is_empty());
    let steps = |k: usize| -> String {
        (0..k).map(|i| format!("adjust q{i} = 10 mm steps 10 mm, 20 mm, 30 mm\n")).collect()
    };
    let worst = "require q0 + q1 + q2 <= 85 mm\n";
    assert_eq!(said(&format!("{}{worst}", steps(3))), ["requirement-unmet"]);
    // too many to try together: said, not passed over
    assert!(said(&format!("{}{worst}", steps(6))).contains(&"cannot-tell"));
}

#[test]
fn more_variations_than_the_limit_are_refused() {
    let mut text = "param w = 1 mm\n".to_owned();
    for i in 0..40 {
        text.push_str(&format!("variant v{i} {{ w = 2 mm }}\nstate s{i} {{ w = 3 mm }}\n"));
    }
    assert!(said(&text).contains(&"too-much-work"));
}

/// Beyond the pairs of casters that are looked at, those that may meet are told as open: of 13 on each side 325 pairs, of which
/// some are apart.
#[test]
fn casters_that_are_not_looked_at_are_told_of() {
    let text = r#"
design trial
part "c" { kind = caster, mass = 1 kg, diameter = 150 mm, width = 30 mm, trail = 40 mm, drop = 90 mm, source = "tape" }
part "w" { kind = wheel, mass = 2 kg, diameter = 600 mm, width = 35 mm, source = "tape" }
rider { mass = 68 kg, stature = 1.70 m, thigh = 470 mm }
both sides {
    wheel rear = "w" at outward 260 mm, up 300 mm
    repeat k from 1 to 13 {
        caster front = "c" at outward 2 mm * k, forward 380 mm + 1 mm * k, up 165 mm
    }
}
"#;
    let (_, all) = chairwright_driver::compile_all(&Memory::of(text), "main.chair");
    let hits: Vec<_> = all.iter().flat_map(|c| &c.problems).filter(|p| p.code.name == "caster-hits").collect();
    let untold: Vec<_> = hits.iter().filter(|p| p.severity == Severity::CannotTell).collect();
    assert_eq!(untold.len(), 1, "{hits:?}");
    let said = untold[0];
    let open: usize = said.headline.split(' ').next().unwrap().parse().unwrap();
    assert!((325 - 66..325).contains(&open), "{open}");
    assert!(said.headline.ends_with("more pairs of casters may swing onto each other"), "{}", said.headline);
    assert!(said.primary.as_ref().unwrap().text.contains("is one of them"));
    assert!(said.notes[0].contains("only the 66 nearest pairs"), "{:?}", said.notes);
    assert!(said.help.as_ref().unwrap().starts_with("turn every caster of the built chair full round"));
}
