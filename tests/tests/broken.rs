//! Designs as beginners write them, each with what the compiler says about it in full.

#![allow(clippy::unwrap_used)]

use chairwright_diagnostics::render_full;
use chairwright_driver::compile_all;
use chairwright_tests::{Disk, files, root};

#[test]
fn every_broken_design_is_answered_in_full() {
    let folder = root().join("tests/broken");
    let all = files(&folder, "chair");
    assert!(all.len() > 20, "only {}", all.len());
    for file in all {
        let name = file.file_name().unwrap().to_str().unwrap().to_owned();
        if name == "parts.chair" {
            continue;
        }
        let (sources, compiled) = compile_all(&Disk(folder.clone()), &name);
        let problems: Vec<_> = compiled.into_iter().flat_map(|c| c.problems).collect();
        let said = render_full(&sources, &problems, false);
        let widest = said.lines().filter(|l| !l.contains('│')).map(|l| l.chars().count()).max().unwrap_or(0);
        assert!(widest <= 80, "{name}: {widest} columns");
        insta::assert_snapshot!(name.trim_end_matches(".chair").to_owned(), said);
    }
}
