//! What the tests share: texts in memory, sections of fixture files, and the folder of the project.

mod fixture;

pub use fixture::{Annotation, Section, asked_for, check_section, sections};

use chairwright_driver::{Compilation, Options, ReadError, World, compile};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Wheels, casters and a sheet of no particular make, for chairs that are about something else.
pub const PARTS: &str = r#"
part "w" { kind = wheel, mass = 2 kg, diameter = 600 mm, width = 35 mm, source = "tape" }
part "c" { kind = caster, mass = 1 kg, diameter = 150 mm, width = 30 mm, trail = 40 mm, drop = 90 mm, source = "tape" }
stock "ply" { shape = sheet, material = "m", thickness = 12 mm, source = "bench" }
material "m" { density = 600 kg/m3, source = "scale" }
"#;

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
    /// A day that no fixture is dated after, but where it is about that.
    fn today(&self) -> Option<String> {
        Some("2030-01-01".to_owned())
    }

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
pub const EXAMPLES: [(&str, &str); 11] = [
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
    ("lane_ramp", "of_light_pipe.chair"),
];

/// One of them, compiled as it stands.
#[must_use]
pub fn example(folder: &str, file: &str) -> Compilation {
    compile(&Disk(root().join("examples").join(folder)), file, &Options::default()).1
}

/// A chair of plywood boxes that holds, with more fields in the part of its rear wheels, more conditions and more statements.
#[must_use]
pub fn chair_of_boxes(wheel: &str, place: &str, more: &str) -> String {
    format!(
        "use catalogue.panels
use catalogue.fasteners
use catalogue.lumber
use catalogue.profiles
use catalogue.pipe_inch
part \"w\" {{ kind = wheel, mass = 2 kg, diameter = 600 mm, loaded_radius = 300 mm, width = 30 mm{wheel}, source = \"bench\" }}
part \"c\" {{ kind = caster, mass = 1 kg, diameter = 150 mm, width = 30 mm, trail = 40 mm, drop = 115 mm, source = \"bench\" }}
rider {{ mass = 20 kg, stature = 1.15 m, age = 20 years }}
conditions {{ temperature = 20 degC{place} }}
stock ply = \"plywood 18 mm\"
both sides {{
    wheel rear = \"w\" at outward 250 mm, up 300 mm
    caster front = \"c\" at outward 180 mm, forward 420 mm, up 190 mm
    box side = ply from outward 180 mm, back 60 mm, up 380 mm to outward 180 mm, forward 440 mm, up 380 mm outside 80 mm by 100 mm
    fasten side to axle_box using \"bolt M6 x 100\", \"washer M6 large\", \"washer M6 large\" times 8
    fasten side to nose using \"bolt M6 x 100\", \"washer M6 large\", \"washer M6 large\" times 6
    fasten seat to side using \"bolt M6 x 80\" times 4
}}
box axle_box = ply from left 220 mm, up 300 mm to right 220 mm, up 300 mm outside 160 mm by 60 mm
box nose = ply from left 220 mm, forward 420 mm, up 260 mm to right 220 mm, forward 420 mm, up 260 mm outside 160 mm by 140 mm
seat = ply from up 448 mm to forward 420 mm, up 448 mm width 420 mm
{more}
"
    )
}
