//! A whole compile answers, renders and gives the same bytes again, whatever the text.
#![no_main]

use chairwright_diagnostics::{render_full, render_lines, render_sarif};
use chairwright_driver::{ReadError, World, compile_all};
use chairwright_report::{View, bill_csv, cuts_csv, drawing, glb, json, report_text};
use libfuzzer_sys::fuzz_target;

struct One<'a>(&'a str);

impl World for One<'_> {
    fn read(&self, path: &str) -> Result<String, ReadError> {
        if path == "main.chair" { Ok(self.0.to_owned()) } else { Err(ReadError::Missing) }
    }
}

fn everything(text: &str) -> Vec<u8> {
    let (sources, all) = compile_all(&One(text), "main.chair");
    let mut out = Vec::new();
    for c in all.iter().take(3) {
        out.extend(render_full(&sources, &c.problems, false).into_bytes());
        out.extend(render_lines(&sources, &c.problems).into_bytes());
        out.extend(render_sarif(&sources, &c.problems).into_bytes());
        out.extend(report_text(c, &sources).into_bytes());
        out.extend(json(c, &sources).unwrap_or_default().into_bytes());
        out.extend(cuts_csv(c).into_bytes());
        out.extend(bill_csv(c).into_bytes());
        out.extend(drawing(c, View::Side).into_bytes());
        out.extend(glb(c));
    }
    out
}

fuzz_target!(|text: &str| {
    assert_eq!(everything(text), everything(text));
});
