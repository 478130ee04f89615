//! Reads expressions, one a line; writes for each its value in SI units, or the code of what is wrong.
//! For the check of the arithmetic against another library.

#![allow(clippy::print_stdout)]

use chairwright_driver::{Options, compile};
use chairwright_tests::Memory;
use std::io::BufRead as _;

fn main() {
    for line in std::io::stdin().lock().lines().map_while(Result::ok) {
        let text = format!("param x = {line}\n");
        let (_, c) = compile(&Memory::of(&text), "main.chair", &Options::default());
        match (c.problems.first(), c.design.params.first().and_then(|p| p.si)) {
            (None, Some(value)) => println!("{value:e}"),
            (Some(problem), _) => println!("error {}", problem.code.name),
            (None, None) => println!("error no-value"),
        }
    }
}
