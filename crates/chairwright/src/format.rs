//! `format`: blanks and line ends.

use crate::arguments::Format;
use crate::{CLEAN, FINDINGS, disk, print};
use chairwright_syntax::format;
use std::fs;

/// Runs the command.
pub fn run(arguments: &Format) -> Result<u8, String> {
    let mut changed = 0;
    for file in disk::chair_files(&arguments.paths)? {
        if file.extension().is_none_or(|e| e != "chair") {
            return Err(format!("{}: only .chair files are formatted", file.display()));
        }
        let say = |e: std::io::Error| format!("{}: {e}", file.display());
        let text = fs::read_to_string(&file).map_err(say)?;
        let done = format(&text);
        if done == text {
            continue;
        }
        changed += 1;
        if arguments.check {
            print(&format!("{} is not formatted\n", file.display()));
        } else {
            disk::write_text(&file, &done)?;
            print(&format!("{} formatted\n", file.display()));
        }
    }
    Ok(if arguments.check && changed > 0 { FINDINGS } else { CLEAN })
}
