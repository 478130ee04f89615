//! The command line program: the only room with files, a terminal and exit codes.
//!
//! Exit codes: 0 clean, 1 findings at error level, 2 could not run.
#![allow(clippy::print_stdout, clippy::print_stderr)]

mod arguments;
mod build;
mod check;
mod disk;
mod explain;
mod format;
mod repair;

use arguments::{Arguments, Command, Design, Form, Others};
use chairwright_diagnostics::Severity;
use chairwright_driver::{Compilation, Instead, Options, Project, Situation};
use clap::Parser;
use std::path::PathBuf;
use std::process::ExitCode;

/// Clean.
const CLEAN: u8 = 0;
/// Findings at error level.
const FINDINGS: u8 = 1;
/// Could not run.
const FAILED: u8 = 2;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let result = match arguments.command {
        Command::Check(c) => check::run(&c),
        Command::Build(b) => build::run(&b),
        Command::Report(r) => report(&r.design, r.form),
        Command::Prove(p) => prove(&p.design, p.json),
        Command::Figures(f) => figures(&f.design, f.name.as_deref()),
        Command::Explain(e) => explain::run(e.topic.as_deref()),
        Command::Format(f) => format::run(&f),
        Command::Repair(r) => repair::run(&r),
    };
    match result {
        Ok(code) => ExitCode::from(code),
        Err(message) => {
            eprintln!("chairwright: {message}");
            ExitCode::from(FAILED)
        }
    }
}

/// Prints to standard output; a reader that went away is no failure.
fn print(text: &str) {
    use std::io::Write as _;
    let _ = std::io::stdout().lock().write_all(text.as_bytes());
}

fn code(c: &Compilation) -> u8 {
    if c.has_errors() { FINDINGS } else { CLEAN }
}

fn options(design: &Design) -> Result<Options, String> {
    let mut settings = Vec::new();
    for written in &design.set {
        let (name, value) =
            written.split_once('=').ok_or_else(|| format!("--set wants NAME=VALUE, not `{written}`"))?;
        settings.push((name.trim().to_owned(), value.trim().to_owned()));
    }
    let words = design.state.iter().map(|s| format!("state {s}")).collect();
    let situation = Situation { state: design.state.clone(), picks: Vec::new(), words };
    Ok(Options { variant: design.variant.clone(), situation, settings, ways: true, ..Options::default() })
}

/// A variant that does not exist leaves nothing to report on.
fn refuse_unknown_variant(project: &Project, c: &Compilation) -> Result<(), String> {
    if !c.problems.iter().any(|p| p.code.name == "unknown-variant") {
        return Ok(());
    }
    Err(format!("\n{}", chairwright_diagnostics::render_full(&project.sources, &c.problems, false)))
}

/// A setting that cannot be taken as it is written: everything else would be of a chair that nobody asked for.
fn refuse_setting(project: &Project, c: &Compilation) -> Result<(), String> {
    let refused = project.refused_settings(c);
    if refused.is_empty() {
        return Ok(());
    }
    Err(format!("\n{}", chairwright_diagnostics::render_full(&project.sources, &refused, false)))
}

/// A page of parts alone leaves nothing to report on; a design whose text is broken has findings to show.
fn refuse_page(design: &Design, c: &Compilation) -> Result<(), String> {
    if c.has_errors() || !c.design.is_page() {
        return Ok(());
    }
    let file = design.file.display();
    Err(format!("{file}: there is no chair in it; name the design that uses it"))
}

/// Another rider's and another place's text and what was measured, read from wherever the command line says.
fn instead(others: &Others) -> Result<Instead, String> {
    let read = |file: Option<&PathBuf>| file.map(|f| disk::read_named(f)).transpose();
    Ok(Instead {
        rider: read(others.rider.as_ref())?,
        place: read(others.place.as_ref())?,
        built: read(others.built.as_ref())?,
    })
}

/// Reads and compiles the design that the arguments name.
fn compile(design: &Design) -> Result<(Project, Compilation), String> {
    let (world, name) = disk::open(&design.file)?;
    let options = options(design)?;
    let instead = instead(&design.instead)?;
    let mut project = Project::load_with(&world, &name, &instead);
    project.shown = design.file.display().to_string();
    let mut compilation = project.compile(&options);
    refuse_unknown_variant(&project, &compilation)?;
    refuse_setting(&project, &compilation)?;
    if let Some(built) = design.instead.built.as_ref().filter(|_| compilation.design.as_built.is_none()) {
        return Err(format!("{}: there is no as_built block in it that can be read", built.display()));
    }
    project.study(&options, &mut compilation);
    Ok((project, compilation))
}

fn report(design: &Design, form: Form) -> Result<u8, String> {
    let (project, c) = compile(design)?;
    refuse_page(design, &c)?;
    let text = match form {
        Form::Full => chairwright_report::report_text(&c, &project.sources),
        Form::Json => chairwright_report::json(&c, &project.sources).map_err(|e| e.to_string())?,
        Form::Line => chairwright_diagnostics::render_lines(&project.sources, &c.problems),
        Form::Sarif => chairwright_diagnostics::render_sarif(&project.sources, &c.problems),
    };
    print(&text);
    Ok(code(&c))
}

/// The test sheet; with results of a built chair, exit code 1 as long as it is held.
fn prove(design: &Design, json: bool) -> Result<u8, String> {
    let (_, c) = compile(design)?;
    refuse_page(design, &c)?;
    print(&if json {
        chairwright_report::sheet_json(&c).map_err(|e| e.to_string())?
    } else {
        chairwright_report::sheet_page(&c)
    });
    let release = c.release();
    Ok(if release.tested && !release.released() { FINDINGS } else { code(&c) })
}

fn figures(design: &Design, name: Option<&str>) -> Result<u8, String> {
    let (mut project, c) = compile(design)?;
    let text = match name {
        None => chairwright_report::figures_text(&c),
        Some(name) => match name.strip_suffix('*') {
            Some(family) => family_of_figures(&c, family)?,
            None => trail(&mut project, &c, design, name)?,
        },
    };
    tell_errors(&c);
    print(&text);
    Ok(if name.is_some() { CLEAN } else { code(&c) })
}

/// Figures of a design with errors may be of a chair that cannot be built: whoever reads them alone is told.
fn tell_errors(c: &Compilation) {
    let errors = c.problems.iter().filter(|p| p.severity == Severity::Error).count();
    match errors {
        0 => (),
        1 => eprintln!("chairwright: this design has 1 error: chairwright check tells it"),
        n => eprintln!("chairwright: this design has {n} errors: chairwright check tells them"),
    }
}

/// Every figure whose name begins so: of `strength.` all of its family, of nothing all.
fn family_of_figures(c: &Compilation, family: &str) -> Result<String, String> {
    let text = chairwright_report::family_text(c, family);
    if text.is_empty() { Err(no_figure(c, &format!("{family}*"))) } else { Ok(text) }
}

fn trail(project: &mut Project, c: &Compilation, design: &Design, name: &str) -> Result<String, String> {
    let step = project.trail(&options(design)?, c, name).ok_or_else(|| no_figure(c, name))?;
    Ok(chairwright_report::trail_text(c, &project.sources, &step))
}

fn no_figure(c: &Compilation, name: &str) -> String {
    let known = c.figures.0.keys().map(String::as_str);
    let hint =
        chairwright_language::nearest(name, known).map_or(String::new(), |m| format!("; did you mean {m}?"));
    format!("this design has no figure and no name `{name}`{hint}")
}
