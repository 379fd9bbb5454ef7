//! Files a command leaves behind: whole or not at all.

use std::fs::create_dir_all;
use std::io::{Error, Result, Write};
use std::path::Path;
use tempfile::NamedTempFile;

/// Makes a folder, with a message that names it.
///
/// # Errors
/// If it cannot be made.
pub fn folder(path: &Path) -> Result<()> {
    create_dir_all(path).map_err(|e| named(path, "the folder cannot be made", &e))
}

/// Writes a file under another name first, so that an interrupted run leaves the old one or the new one.
///
/// # Errors
/// If it cannot be written.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<()> {
    let folder = path.parent().unwrap_or(Path::new("."));
    let failed = |e: &Error| named(path, "cannot be written", e);
    let mut file = NamedTempFile::new_in(folder).map_err(|e| failed(&e))?;
    file.write_all(bytes).map_err(|e| failed(&e))?;
    persist(file, path)
}

/// Gives a finished temporary file its name.
///
/// # Errors
/// If it cannot be given.
pub fn persist(file: NamedTempFile, path: &Path) -> Result<()> {
    let failed = |e: &Error| named(path, "cannot be written", e);
    open_to_readers(&file).map_err(|e| failed(&e))?;
    file.persist(path).map_err(|e| failed(&e.error))?;
    Ok(())
}

/// A temporary file is private; a chart is for everyone who may read the folder.
fn open_to_readers(file: &NamedTempFile) -> Result<()> {
    #[cfg(unix)]
    {
        use std::fs::Permissions;
        use std::os::unix::fs::PermissionsExt;
        file.as_file().set_permissions(Permissions::from_mode(0o644))?;
    }
    let _ = file;
    Ok(())
}

fn named(path: &Path, what: &str, error: &Error) -> Error {
    Error::new(error.kind(), format!("{}: {what}: {error}", path.display()))
}
