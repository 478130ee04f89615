//! Files: reading inside a project's folder, and writing whole or not at all.

use chairwright_driver::{ReadError, World};
use chairwright_quantity::day_after;
use std::fs;
use std::path::{Path, PathBuf};

/// Bytes that one text may have.
const LIMIT: u64 = 4 << 20;
/// Folders inside folders that are searched for designs.
const DEPTH: usize = 16;

/// The day that this version was made: a clock that shows an earlier one has stopped or was never set, and nothing is held
/// against it.
const MADE: &str = "2026-11-26";

/// A project's folder on disk.
pub struct Folder {
    root: PathBuf,
}

impl World for Folder {
    fn today(&self) -> Option<String> {
        let seconds = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).ok()?.as_secs();
        // the day begins earliest at UTC+14
        let days = u32::try_from((seconds + 14 * 3600) / 86_400).ok()?;
        day_after("1970-01-01", days).filter(|today| today.as_str() >= MADE)
    }

    fn read(&self, path: &str) -> Result<String, ReadError> {
        let other = |e: std::io::Error| match e.kind() {
            std::io::ErrorKind::NotFound => ReadError::Missing,
            _ => ReadError::Other(e.to_string()),
        };
        // A link may lead anywhere, so the place is asked for after following it.
        let full = fs::canonicalize(self.root.join(path)).map_err(other)?;
        if !full.starts_with(&self.root) {
            return Err(ReadError::Outside);
        }
        let about = fs::metadata(&full).map_err(other)?;
        if !about.is_file() {
            return Err(ReadError::Other("it is no file".to_owned()));
        }
        if about.len() > LIMIT {
            return Err(ReadError::TooLarge);
        }
        String::from_utf8(fs::read(&full).map_err(other)?).map_err(|_| ReadError::NotText)
    }
}

impl Folder {
    /// Puts another text in a file's place, whole or not at all.
    pub fn replace(&self, path: &str, text: &str) -> Result<(), String> {
        let full = fs::canonicalize(self.root.join(path)).map_err(|e| format!("{path}: {e}"))?;
        if !full.starts_with(&self.root) {
            return Err(format!("{path}: it lies outside the project's folder"));
        }
        write_text(&full, text)
    }
}

/// Writes a text beside a file and then puts it in its place.
pub fn write_text(file: &Path, text: &str) -> Result<(), String> {
    let say = |e: std::io::Error| format!("{}: {e}", file.display());
    let fresh = file.with_extension(format!("{}.new", std::process::id()));
    let written = fs::write(&fresh, text).and_then(|()| fs::rename(&fresh, file));
    if written.is_err() {
        let _ = fs::remove_file(&fresh);
    }
    written.map_err(say)
}

/// The folder of a file, and the file's name in it.
pub fn open(file: &Path) -> Result<(Folder, String), String> {
    let name = file
        .file_name()
        .and_then(|n| n.to_str())
        .ok_or_else(|| format!("{} is no file name", file.display()))?
        .to_owned();
    let parent = file.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let root = fs::canonicalize(parent).map_err(|e| format!("{}: {e}", parent.display()))?;
    if !root.join(&name).is_file() {
        return Err(format!("{}: there is no such file", file.display()));
    }
    Ok((Folder { root }, name))
}

/// The name and text of a file that the command line names; it may lie anywhere.
pub fn read_named(file: &Path) -> Result<(String, String), String> {
    let (folder, name) = open(file)?;
    let text = folder.read(&name).map_err(|e| format!("{}: it cannot be read ({e:?})", file.display()))?;
    Ok((file.display().to_string(), text))
}

/// All `.chair` files named, or found in the folders named, in order.
pub fn chair_files(paths: &[PathBuf]) -> Result<Vec<PathBuf>, String> {
    let mut files = Vec::new();
    for path in paths {
        if path.is_dir() {
            walk(path, 0, &mut files)?;
        } else if path.is_file() {
            files.push(path.clone());
        } else {
            return Err(format!("{}: there is no such file or folder", path.display()));
        }
    }
    Ok(files)
}

fn walk(folder: &Path, depth: usize, files: &mut Vec<PathBuf>) -> Result<(), String> {
    if depth > DEPTH {
        return Ok(());
    }
    let entries = fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let mut found: Vec<(PathBuf, fs::FileType)> =
        entries.filter_map(Result::ok).filter_map(|e| Some((e.path(), e.file_type().ok()?))).collect();
    found.sort_by(|a, b| a.0.cmp(&b.0));
    for (path, kind) in found {
        let hidden = path.file_name().and_then(|n| n.to_str()).is_none_or(|n| n.starts_with('.'));
        if hidden || kind.is_symlink() {
            continue;
        }
        if kind.is_dir() {
            walk(&path, depth + 1, files)?;
        } else if path.extension().is_some_and(|e| e == "chair") {
            files.push(path);
        }
    }
    Ok(())
}

/// Writes a set of files into a folder, all of them or none.
///
/// They are written into a new folder beside it, which then takes its place, so that nothing of an earlier build is left in
/// it. A folder that holds anything but what builds write is refused.
pub fn write_folder(out: &Path, files: &[(String, Vec<u8>)], ours: &[&str]) -> Result<(), String> {
    let say = |e: std::io::Error| format!("{}: {e}", out.display());
    if out.exists() {
        refuse_foreign(out, ours)?;
    }
    let parent = out.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    fs::create_dir_all(parent).map_err(say)?;
    let name = out
        .file_name()
        .and_then(|n| n.to_str())
        .ok_or_else(|| format!("{} is no folder name", out.display()))?;
    let fresh = parent.join(format!(".{name}.{}.new", std::process::id()));
    let old = parent.join(format!(".{name}.{}.old", std::process::id()));
    let written = stage(&fresh, files);
    if let Err(error) = written {
        let _ = fs::remove_dir_all(&fresh);
        return Err(say(error));
    }
    if out.exists() {
        fs::rename(out, &old).map_err(say)?;
    }
    if let Err(error) = fs::rename(&fresh, out) {
        let _ = fs::rename(&old, out);
        let _ = fs::remove_dir_all(&fresh);
        return Err(say(error));
    }
    let _ = fs::remove_dir_all(&old);
    Ok(())
}

fn stage(folder: &Path, files: &[(String, Vec<u8>)]) -> std::io::Result<()> {
    fs::create_dir(folder)?;
    files.iter().try_for_each(|(name, bytes)| fs::write(folder.join(name), bytes))
}

fn refuse_foreign(out: &Path, ours: &[&str]) -> Result<(), String> {
    let entries = fs::read_dir(out).map_err(|e| format!("{}: {e}", out.display()))?;
    for entry in entries.filter_map(Result::ok) {
        let name = entry.file_name();
        if !ours.iter().any(|f| name.to_str() == Some(f)) {
            return Err(format!(
                "{} holds {}, which no build wrote; choose a new folder",
                out.display(),
                name.to_string_lossy()
            ));
        }
    }
    Ok(())
}
