//! How fast a chair compiles, beside a peer in the same run: `cargo bench -p chairwright-tests`.
#![allow(clippy::print_stdout, missing_docs)]

use chairwright_diagnostics::SourceId;
use chairwright_driver::{Options, Project, StrengthWanted, compile, compile_all};
use chairwright_syntax::{Limits, parse, tokens};
use chairwright_tests::{Disk, root};
use rayon::prelude::*;
use std::hint::black_box;
use std::time::Instant;

/// Median time of one run in microseconds, over at least 40 runs and half a second.
fn median(mut run: impl FnMut()) -> f64 {
    run();
    let mut times = Vec::new();
    let start = Instant::now();
    while times.len() < 40 || (start.elapsed().as_secs_f64() < 0.5 && times.len() < 2000) {
        let begin = Instant::now();
        run();
        times.push(begin.elapsed().as_secs_f64() * 1e6);
    }
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

fn main() {
    println!("whole compile, in process");
    for name in [
        "first_chair/first",
        "highland_school/highland_school",
        "porch_and_clinic/porch_and_clinic",
        "birch_cabin/birch_cabin",
        "river_track/river_track",
    ] {
        let (folder, file) = name.split_once('/').unwrap_or(("", name));
        let world = Disk(root().join("examples").join(folder));
        let path = format!("{file}.chair");
        let time = median(|| {
            black_box(compile(&world, &path, &Options::default()));
        });
        println!("  {file:<20} {:>8.2} ms", time / 1e3);
    }
    rooms();
    sets();
    let one = std::fs::read_to_string(root().join("examples/highland_school/highland_school.chair"))
        .unwrap_or_default();
    let text = one.repeat(1 + 1_000_000 / one.len().max(1));
    let size = text.len() as f64 / 1e6;
    let row = serde_json::json!({ "name": "left.seat_rail", "from": [0.1, 0.2, 0.3], "note": "a side frame of pipe", "size": 33.4 });
    let json = serde_json::to_string_pretty(&vec![row; 6000]).unwrap_or_default();
    let cut = median(|| {
        black_box(tokens(&text));
    });
    let tree = median(|| {
        black_box(parse(SourceId(0), &text, &Limits::default()));
    });
    let peer = median(|| {
        black_box(serde_json::from_str::<serde_json::Value>(&json).ok());
    });
    println!("front end on {size:.2} MB");
    println!("  tokens               {:>8.1} MB/s", size / cut * 1e6);
    println!("  tree                 {:>8.1} MB/s", size / tree * 1e6);
    println!("  serde_json, a tree   {:>8.1} MB/s", json.len() as f64 / peer);
    folder();
}

/// The checks and the strength of one chair by themselves, without reading and drawing it.
fn rooms() {
    println!("one chair: all checks, load cases with verdicts, and all of strength");
    for name in ["first_chair/first", "highland_school/highland_school", "porch_and_clinic/porch_and_clinic"] {
        let (folder, file) = name.split_once('/').unwrap_or(("", name));
        let world = Disk(root().join("examples").join(folder));
        let (_, c) = compile(&world, &format!("{file}.chair"), &Options::default());
        let checks = median(|| {
            black_box(chairwright_checks::check(&c.design, &c.frame));
        });
        let strength = |depth| {
            median(|| {
                black_box(chairwright_strength::strength(&c.design, &c.frame, &c.checked, depth));
            })
        };
        let (verdicts, whole) =
            (strength(chairwright_strength::Depth::Verdicts), strength(chairwright_strength::Depth::Whole));
        println!("  {file:<20} {:>8.2} {:>8.2} {:>8.2} ms", checks / 1e3, verdicts / 1e3, whole / 1e3);
    }
}

/// One design with many values of a parameter, on all threads, without and with strength.
fn sets() {
    for (strength, sets) in [
        (StrengthWanted::Nothing, 1000),
        (StrengthWanted::Nothing, 10_000),
        (StrengthWanted::Verdicts, 1000),
        (StrengthWanted::Verdicts, 3000),
    ] {
        let world = Disk(root().join("examples/highland_school"));
        let begin = Instant::now();
        (0..sets).into_par_iter().for_each_init(
            || Project::load(&world, "highland_school.chair"),
            |project, k| {
                let width = 235.0 + 50.0 * f64::from(k) / f64::from(sets);
                let settings = vec![("frame_width".to_owned(), format!("{width:.3} mm"))];
                black_box(project.compile(&Options { settings, strength, ..Options::default() }));
            },
        );
        let each = begin.elapsed().as_secs_f64() / f64::from(sets);
        let each_minute = 60.0 / each;
        let held = most_memory().map_or("memory unknown".to_owned(), |m| format!("at most {m:.1} MB so far"));
        println!("{sets:>6} parameter sets, {strength:?} of strength: {each_minute:.0} a minute, {held}");
    }
}

/// The most memory that this process held at any time, MB, where the system tells.
fn most_memory() -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"))?;
    line.split_whitespace().next()?.parse::<f64>().ok().map(|kb| kb / 1024.0)
}

/// A folder of designs, each read and compiled from the disk in all its variations.
fn folder() {
    println!("a folder of designs, each in all its variations, {} threads", rayon::current_num_threads());
    let world = Disk(root().join("examples/highland_school"));
    let one = || compile_all(&world, "highland_school.chair").1.len();
    for count in [2, 8] {
        let begin = Instant::now();
        let chairs: usize = (0..count).into_par_iter().map(|_| black_box(one())).sum();
        let all = begin.elapsed().as_secs_f64();
        println!("  {count:>5} designs        {:>8.2} ms each, {chairs} chairs", all / f64::from(count) * 1e3);
    }
    let begin = Instant::now();
    black_box(one());
    println!("  one thread           {:>8.2} ms each", begin.elapsed().as_secs_f64() * 1e3);
}
