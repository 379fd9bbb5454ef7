//! Names of a study's files in a folder, and how they are opened.

use crate::cli::files::{fault_at, unread, unwritten};
use std::fs::{File, OpenOptions, remove_file, rename};
use std::io::{ErrorKind, Result};
use std::path::{Path, PathBuf};

/// Names of a study's files in a folder.
#[derive(Debug)]
pub(crate) struct Names {
    /// The folder.
    pub(crate) folder: PathBuf,
    stem: String,
}

impl Names {
    /// Of a whole study, or of one part of it.
    pub(crate) fn new(folder: &Path, study: &str, part: Option<(u64, u64)>) -> Self {
        let stem = part.map_or_else(|| study.to_owned(), |(i, n)| format!("{study}.part-{i}-of-{n}"));
        Self { folder: folder.to_owned(), stem }
    }

    /// The rows.
    pub(crate) fn csv(&self) -> PathBuf {
        self.folder.join(format!("{}.csv", self.stem))
    }

    /// The rows as JSON lines.
    pub(crate) fn json_lines(&self) -> PathBuf {
        self.folder.join(format!("{}.jsonl", self.stem))
    }

    /// The rows as Parquet.
    pub(crate) fn parquet(&self) -> PathBuf {
        self.folder.join(format!("{}.parquet", self.stem))
    }

    /// What they belong to, and what proves them.
    pub(crate) fn label(&self) -> PathBuf {
        self.folder.join(format!("{}.rows.json", self.stem))
    }

    /// All of them; the label last.
    pub(crate) fn all(&self) -> [PathBuf; 4] {
        [self.csv(), self.json_lines(), self.parquet(), self.label()]
    }

    /// # Errors
    /// If one of them is there and is no ordinary file of its own: rows go through no link and into no pipe.
    pub(crate) fn check(&self) -> Result<()> {
        for path in self.all() {
            match path.symlink_metadata() {
                Ok(metadata) if metadata.is_file() => {}
                Ok(_) => {
                    let text = " is no ordinary file: rows are written into files of their own. Give another folder, or remove it";
                    return Err(fault_at(ErrorKind::AlreadyExists, &path, text));
                }
                Err(error) if error.kind() == ErrorKind::NotFound => {}
                Err(error) => return Err(unread(&path)(error)),
            }
        }
        Ok(())
    }
}

/// A file of rows to be written, made if it is not there; never through a link.
///
/// # Errors
/// If it cannot be opened.
pub(crate) fn to_write(path: &Path) -> Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).create(true).truncate(false);
    #[cfg(unix)]
    {
        use std::os::unix::fs::OpenOptionsExt;
        options.custom_flags(libc::O_NOFOLLOW);
    }
    options.open(path).map_err(unwritten(path))
}

/// Where a file is written until it is whole: one name, so that a killed run leaves no more than one.
pub(crate) fn unfinished(path: &Path) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    path.with_file_name(format!(".{name}.unfinished"))
}

/// Writes a file of this program's own keeping, whole or not at all, over the one that is there; the permissions of that stay.
///
/// # Errors
/// If it cannot be written; what stood there is then as it was.
pub(super) fn whole(path: &Path, write: impl FnOnce(&mut File) -> Result<()>) -> Result<()> {
    let beside = unfinished(path);
    let mut file = to_write(&beside)?;
    let written = file.set_len(0).and_then(|()| write(&mut file));
    let written = written.and_then(|()| match path.metadata() {
        Ok(before) => file.set_permissions(before.permissions()),
        Err(_) => Ok(()),
    });
    let written = written.and_then(|()| rename(&beside, path));
    or_removed(written, [&beside]).map_err(unwritten(path))
}

/// What was made; where that failed, files that were begun are removed.
pub(super) fn or_removed(made: Result<()>, begun: impl IntoIterator<Item = impl AsRef<Path>>) -> Result<()> {
    if made.is_err() {
        begun.into_iter().for_each(|path| drop(remove_file(path)));
    }
    made
}
