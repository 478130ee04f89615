//! What the tests share: texts in memory, sections of fixture files, and the folder of the project.

mod fixture;

pub use fixture::{Annotation, Section, asked_for, check_section, sections};

use chairwright_driver::{Compilation, Options, ReadError, World, compile};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// A project in memory.
#[derive(Clone, Debug, Default)]
pub struct Memory(pub BTreeMap<String, String>);

impl Memory {
    /// A project of one file, `main.chair`.
    #[must_use]
    pub fn of(text: &str) -> Memory {
        Memory(BTreeMap::from([("main.chair".to_owned(), text.to_owned())]))
    }

    /// The project with one file more.
    #[must_use]
    pub fn with(mut self, name: &str, text: &str) -> Memory {
        self.0.insert(name.to_owned(), text.to_owned());
        self
    }
}

impl World for Memory {
    fn read(&self, path: &str) -> Result<String, ReadError> {
        self.0.get(path).cloned().ok_or(ReadError::Missing)
    }
}

/// The project's folder.
#[must_use]
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().map(Path::to_path_buf).unwrap_or_default()
}

/// All files below a folder with this ending, in order.
#[must_use]
pub fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(folder) = open.pop() {
        for entry in std::fs::read_dir(&folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|e| e == ending) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// A folder of the project as a world.
#[derive(Clone, Debug)]
pub struct Disk(pub PathBuf);

impl World for Disk {
    fn read(&self, path: &str) -> Result<String, ReadError> {
        std::fs::read_to_string(self.0.join(path)).map_err(|_| ReadError::Missing)
    }
}

/// Fenced blocks of one kind in a Markdown text.
#[must_use]
pub fn fences(text: &str, kind: &str) -> Vec<String> {
    let mut blocks = Vec::new();
    let mut open: Option<String> = None;
    for line in text.lines() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(k)) if k.trim() == kind => open = Some(String::new()),
            (Some(_), Some(_)) => blocks.extend(open.take()),
            (Some(block), None) => {
                block.push_str(line);
                block.push('\n');
            }
            _ => {}
        }
    }
    blocks
}

/// The main texts of the examples: folder and file.
pub const EXAMPLES: [(&str, &str); 10] = [
    ("first_chair", "first.chair"),
    ("highland_school", "highland_school.chair"),
    ("highland_school", "cousin.chair"),
    ("porch_and_clinic", "porch_and_clinic.chair"),
    ("porch_and_clinic", "of_pipe.chair"),
    ("river_track", "river_track.chair"),
    ("birch_cabin", "birch_cabin.chair"),
    ("lane_ramp", "plan.chair"),
    ("lane_ramp", "lane_ramp.chair"),
    ("lane_ramp", "copied.chair"),
];

/// One of them, compiled as it stands.
#[must_use]
pub fn example(folder: &str, file: &str) -> Compilation {
    compile(&Disk(root().join("examples").join(folder)), file, &Options::default()).1
}
