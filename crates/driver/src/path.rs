//! Paths inside a project's folder.

/// Why a written path is refused.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PathError {
    /// It leaves the project's folder.
    Outside,
}

/// The path that `written` means when it stands in the file at `from`.
///
/// # Errors
/// When the path is absolute or climbs out of the project's folder.
pub fn join(from: &str, written: &str) -> Result<String, PathError> {
    let absolute = written.starts_with(['/', '\\', '~']) || written.contains(':');
    if absolute || written.contains('\\') || written.contains('\0') {
        return Err(PathError::Outside);
    }
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in written.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop().ok_or(PathError::Outside)?;
            }
            name => parts.push(name),
        }
    }
    if parts.is_empty() { Err(PathError::Outside) } else { Ok(parts.join("/")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_stay_inside() {
        assert_eq!(join("a/b.chair", "c.chair").unwrap(), "a/c.chair");
        assert_eq!(join("a/b.chair", "../c.chair").unwrap(), "c.chair");
        for bad in ["../../c.chair", "/etc/passwd", "C:\\x", "..", "~/x", "a\\..\\b"] {
            assert_eq!(join("a/b.chair", bad), Err(PathError::Outside), "{bad}");
        }
    }
}
