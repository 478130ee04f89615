//! All checks of one chair over and over, for `perf`.
#![allow(clippy::print_stdout)]
use chairwright_driver::{Options, compile};
use chairwright_tests::{Disk, root};
fn main() {
    let name = std::env::args().nth(1).unwrap_or_default();
    let n: u32 = std::env::args().nth(2).and_then(|n| n.parse().ok()).unwrap_or(1);
    let world = Disk(root().join("examples").join(&name));
    let (_, c) = compile(&world, &format!("{name}.chair"), &Options::default());
    for _ in 0..n {
        std::hint::black_box(chairwright_checks::check(std::hint::black_box(&c.design), &c.frame));
    }
    println!("{} problems", c.problems.len());
}
