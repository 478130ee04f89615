//! What can be written on the command line.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Checks and works out hardware-shop wheelchairs that are written as text.
#[derive(Parser, Debug)]
#[command(name = "chairwright", version, max_term_width = 80)]
#[command(after_help = "Exit codes: 0 clean, 1 findings at error level, 2 could not run.\n\
A computed plan is no test and no fitting: see the cautions in every report.")]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Subcommand, Debug)]
pub enum Command {
    /// Check designs in all their variants
    Check(Check),
    /// Write every output of one design into a folder
    Build(Build),
    /// Print the report of one design
    Report(Report),
    /// Print the test sheet, or judge a built chair by it
    Prove(Prove),
    /// List the computed figures, or show where one comes from
    Figures(Figures),
    /// Explain a code of a finding, or a word of the language
    Explain(Explain),
    /// Set blanks and line ends as everybody does
    Format(Format),
    /// Apply the repairs that prove to mend their findings
    Repair(Repair),
}

/// How findings are written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
pub enum Form {
    /// With the places in the text, for people
    Full,
    /// One line each, for logs
    Line,
    /// For programs
    Json,
    /// For code hosts
    Sarif,
}

/// Texts from elsewhere that take the place of blocks of the plan.
#[derive(Args, Debug)]
pub struct Others {
    /// A file whose rider block takes the place of the plan's own
    #[arg(long, value_name = "FILE")]
    pub rider: Option<PathBuf>,
    /// A file whose conditions block takes the place of the plan's own
    #[arg(long, value_name = "FILE")]
    pub place: Option<PathBuf>,
    /// A file whose as_built block says what was measured on the built chair
    #[arg(long, value_name = "FILE")]
    pub built: Option<PathBuf>,
}

/// A design with changes.
#[derive(Args, Debug)]
pub struct Design {
    /// The design
    pub file: PathBuf,
    /// The variant instead of the base design
    #[arg(long, value_name = "NAME")]
    pub variant: Option<String>,
    /// The state instead of the chair as it is ridden
    #[arg(long, value_name = "NAME")]
    pub state: Option<String>,
    #[command(flatten)]
    pub instead: Others,
    /// Another value for a param, stock, part, measure or condition
    #[arg(long, value_name = "NAME=VALUE")]
    pub set: Vec<String>,
}

/// `check`
#[derive(Args, Debug)]
pub struct Check {
    /// Designs, or folders of them
    #[arg(required = true)]
    pub paths: Vec<PathBuf>,
    #[command(flatten)]
    pub instead: Others,
    /// How findings are written
    #[arg(long, value_enum, default_value = "full")]
    pub form: Form,
}

/// `build`
#[derive(Args, Debug)]
pub struct Build {
    #[command(flatten)]
    pub design: Design,
    /// The folder to write into: a new one, or one that an earlier build wrote
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
}

/// `report`
#[derive(Args, Debug)]
pub struct Report {
    #[command(flatten)]
    pub design: Design,
    /// How the report is written
    #[arg(long, value_enum, default_value = "full")]
    pub form: Form,
}

/// `prove`
#[derive(Args, Debug)]
pub struct Prove {
    #[command(flatten)]
    pub design: Design,
    /// Write it for programs
    #[arg(long)]
    pub json: bool,
}

/// `figures`
#[derive(Args, Debug)]
pub struct Figures {
    #[command(flatten)]
    pub design: Design,
    /// One figure, to see where it comes from; or all figures that begin alike: 'strength.*', and '*' for each of them
    pub name: Option<String>,
}

/// `explain`
#[derive(Args, Debug)]
pub struct Explain {
    /// A code such as needs-angle or CW0304; a statement, clause or field; a page or an entry of the catalogue; or: codes, statements, fields, functions, figures,
    /// catalogue. Nothing: what there is to ask for
    pub topic: Option<String>,
}

/// `format`
#[derive(Args, Debug)]
pub struct Format {
    /// Files, or folders of them
    #[arg(required = true)]
    pub paths: Vec<PathBuf>,
    /// Change nothing; exit 1 when a file is not formatted
    #[arg(long)]
    pub check: bool,
}

/// `repair`
#[derive(Args, Debug)]
pub struct Repair {
    /// The design
    pub file: PathBuf,
    /// Change nothing; list what would be changed and exit 1
    #[arg(long)]
    pub show: bool,
}
