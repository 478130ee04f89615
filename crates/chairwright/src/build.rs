//! `build`: every output of one design.

use crate::arguments::Build;
use crate::{code, compile, disk, print, refuse_page};
use chairwright_driver::{Compilation, Project};
use chairwright_report::{View, bill_csv, cuts_csv, drawing, glb, json, report_text, sheet_page};

/// Every file that a build may write; which of them it does hangs on the chair and its state.
const OUTPUTS: [&str; 12] = [
    "report.txt",
    "report.json",
    "test_sheet.txt",
    "cut_list.csv",
    "bill.csv",
    "side.svg",
    "front.svg",
    "top.svg",
    "chair.glb",
    "slopes.svg",
    "bent_seated.svg",
    "bent_worst.svg",
];

/// Runs the command.
pub fn run(arguments: &Build) -> Result<u8, String> {
    let (project, c) = compile(&arguments.design)?;
    refuse_page(&arguments.design, &c)?;
    let files = outputs(&project, &c)?;
    disk::write_folder(&arguments.out, &files, &OUTPUTS)?;
    print(&report_text(&c, &project.sources));
    print("\nWritten:\n");
    for (name, bytes) in &files {
        print(&format!("  {} ({} bytes)\n", arguments.out.join(name).display(), bytes.len()));
    }
    Ok(code(&c))
}

fn outputs(project: &Project, c: &Compilation) -> Result<Vec<(String, Vec<u8>)>, String> {
    let text = |name: &str, text: String| (name.to_owned(), text.into_bytes());
    let slopes = chairwright_report::slopes_drawing(c).map(|s| text("slopes.svg", s));
    let files = vec![
        text("report.txt", report_text(c, &project.sources)),
        text("report.json", json(c, &project.sources).map_err(|e| e.to_string())?),
        text("test_sheet.txt", sheet_page(c)),
        text("cut_list.csv", cuts_csv(c)),
        text("bill.csv", bill_csv(c)),
        text("side.svg", drawing(c, View::Side)),
        text("front.svg", drawing(c, View::Front)),
        text("top.svg", drawing(c, View::Top)),
        ("chair.glb".to_owned(), glb(c)),
    ];
    let bent = chairwright_report::bent_drawings(c).into_iter().map(|(name, svg)| text(name, svg));
    Ok(files.into_iter().chain(slopes).chain(bent).collect())
}
