//! One file to be written.

use super::stamp::Kind;
use super::{fault_at, named, unread, unwritten};
use crate::input::text;
use crate::reading::was_read;
use std::fs::{File, Metadata, OpenOptions, Permissions};
use std::io::{Error, ErrorKind, Result, Write};
use std::path::{Path, PathBuf};
use tempfile::{Builder, NamedTempFile};

/// Links followed before they are called a ring.
const MOST_LINKS: usize = 40;
/// Places whose files are no files: what is opened there is another file, or none.
const NO_FILES: [&str; 2] = ["/dev", "/proc"];

/// A file to be written, looked at before there is anything to write.
#[derive(Debug, Clone)]
pub(crate) struct Target {
    /// As the user gave it.
    path: PathBuf,
    kind: Kind,
    place: Place,
    force: bool,
}

/// What stands there.
#[derive(Debug, Clone)]
enum Place {
    /// A device, a pipe: written straight into.
    Straight,
    /// Nothing yet; where links lead.
    New(PathBuf),
    /// A file, with what it allows to whom.
    Old(PathBuf, Metadata),
}

impl Target {
    /// Looks at the place of a file to be written.
    ///
    /// # Errors
    /// If nothing can be written there, or a file stands there that this program did not write and `force` is not given.
    pub(crate) fn new(path: &Path, kind: Kind, force: bool) -> Result<Self> {
        let target = Self { path: path.to_owned(), kind, place: place(path)?, force };
        match &target.place {
            Place::Straight => {}
            Place::New(at) => writable_folder(path, at)?,
            Place::Old(at, metadata) => {
                if metadata.permissions().readonly() {
                    return Err(refused(
                        path,
                        "is write-protected",
                        "give another name, or make it writable",
                    ));
                }
                writable_folder(path, at)?;
            }
        }
        // a table is known by its columns, a workbook by its sheets, which are not there yet
        if !matches!(kind, Kind::Csv | Kind::Workbook) {
            target.may_replace(None)?;
        }
        target.not_read()?;
        Ok(target)
    }

    /// A file that is known by what it begins with: the columns of a table, the sheets of a workbook.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub(crate) fn like(path: &Path, kind: Kind, content: &[u8], force: bool) -> Result<Self> {
        let target = Self::new(path, kind, force)?;
        target.may_replace(Some(content))?;
        Ok(target)
    }

    /// Writes the file.
    ///
    /// # Errors
    /// If it cannot be written; what stood there is then as it was.
    pub(crate) fn write(&self, content: &[u8]) -> Result<()> {
        self.not_read()?;
        self.may_replace(Some(content))?;
        let bytes = self.kind.stamped(content);
        match &self.place {
            Place::Straight => straight(&self.path, &bytes),
            Place::New(at) => replace(&self.path, at, &bytes, None),
            Place::Old(at, metadata) => replace(&self.path, at, &bytes, Some(metadata)),
        }
    }

    /// Its path as it is printed.
    pub(crate) fn said(&self) -> String {
        text::path(&self.path)
    }

    fn not_read(&self) -> Result<()> {
        if was_read(&self.path) {
            return Err(refused(
                &self.path,
                "was read in this run and is not written onto",
                "give another name",
            ));
        }
        Ok(())
    }

    /// Whether what stands there begins as one of ours, or may be lost.
    fn may_replace(&self, content: Option<&[u8]>) -> Result<()> {
        let Place::Old(at, _) = &self.place else { return Ok(()) };
        if self.force {
            return Ok(());
        }
        let file = File::open(at).map_err(unread(&self.path))?;
        if self.kind.is_ours(file, content).map_err(unread(&self.path))? {
            return Ok(());
        }
        Err(refused(
            &self.path,
            "stands there already and was not written by this command",
            "give another name, or --force to write over it",
        ))
    }
}

/// Writes a new file, whole, where none stands.
///
/// # Errors
/// `AlreadyExists` if one does; others if it cannot be written.
pub(crate) fn create(path: &Path, content: &[u8]) -> Result<()> {
    let mut file = temporary(path, path, None)?;
    file.as_file_mut().write_all(content).map_err(unwritten(path))?;
    file.persist_noclobber(path).map(drop).map_err(|e| unwritten(path)(e.error))
}

fn refused(path: &Path, what: &str, then: &str) -> Error {
    fault_at(ErrorKind::AlreadyExists, path, format_args!(" {what}: {then}"))
}

/// What stands where a path leads.
fn place(path: &Path) -> Result<Place> {
    if NO_FILES.iter().any(|root| path.starts_with(root)) {
        return Ok(Place::Straight);
    }
    match path.metadata() {
        Ok(metadata) if metadata.is_dir() => Err(refused(path, "is a folder", "give the name of a file")),
        Ok(metadata) if metadata.is_file() => {
            let at = path.canonicalize().map_err(unwritten(path))?;
            let no_file = links_into_no_files(path);
            Ok(if no_file { Place::Straight } else { Place::Old(at, metadata) })
        }
        Ok(_) => Ok(Place::Straight),
        Err(error) if error.kind() == ErrorKind::NotFound => end_of_links(path).map(Place::New),
        Err(error) => Err(unwritten(path)(error)),
    }
}

/// A path, and where the links from there on lead one after another, until one is called a ring.
fn links(path: &Path) -> impl Iterator<Item = PathBuf> {
    let next = |here: &PathBuf| Some(here.parent().unwrap_or(Path::new("")).join(here.read_link().ok()?));
    std::iter::successors(Some(path.to_owned()), next).take(MOST_LINKS + 1)
}

/// Whether a link on the way leads to a file that is open elsewhere, as `/proc/self/fd/1`.
fn links_into_no_files(path: &Path) -> bool {
    links(path).skip(1).any(|here| NO_FILES.iter().any(|root| here.starts_with(root)))
}

/// Where a link leads at which nothing stands.
fn end_of_links(path: &Path) -> Result<PathBuf> {
    let end = links(path).take(MOST_LINKS).find(|here| here.read_link().is_err());
    end.ok_or_else(|| refused(path, "is a link that leads to itself", "give another name"))
}

/// The folder of a file; "." for a bare name.
fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

fn writable_folder(path: &Path, at: &Path) -> Result<()> {
    // a file without a name leaves nothing behind
    tempfile::tempfile_in(folder_of(at)).map(drop).map_err(|e| match e.kind() {
        ErrorKind::NotFound => named(path, "cannot be written, its folder is not there", &e),
        _ => unwritten(path)(e),
    })
}

/// A file beside the one to be written, with the permissions that one has or is to have.
fn temporary(path: &Path, at: &Path, old: Option<&Metadata>) -> Result<NamedTempFile> {
    let mut builder = Builder::new();
    builder.prefix(".weldbow-");
    #[cfg(unix)]
    let fresh = {
        use std::os::unix::fs::PermissionsExt;
        // less what the umask takes
        Permissions::from_mode(0o666)
    };
    #[cfg(unix)]
    builder.permissions(fresh);
    let file = builder.tempfile_in(folder_of(at)).map_err(unwritten(path))?;
    if let Some(old) = old {
        keep_owner(&file, old);
        let permissions: Permissions = old.permissions();
        file.as_file().set_permissions(permissions).map_err(unwritten(path))?;
    }
    Ok(file)
}

/// The owner stays, where this user may give files away.
fn keep_owner(file: &NamedTempFile, old: &Metadata) {
    #[cfg(unix)]
    {
        use std::os::unix::fs::{MetadataExt, fchown};
        let same = file.as_file().metadata().is_ok_and(|m| (m.uid(), m.gid()) == (old.uid(), old.gid()));
        if !same {
            let _ = fchown(file.as_file(), Some(old.uid()), Some(old.gid()));
        }
    }
    let _ = (file, old);
}

fn replace(path: &Path, at: &Path, bytes: &[u8], old: Option<&Metadata>) -> Result<()> {
    let mut file = temporary(path, at, old)?;
    file.as_file_mut().write_all(bytes).map_err(unwritten(path))?;
    file.persist(at).map(drop).map_err(|e| unwritten(path)(e.error))
}

fn straight(path: &Path, bytes: &[u8]) -> Result<()> {
    let mut file = OpenOptions::new().append(true).open(path).map_err(unwritten(path))?;
    file.write_all(bytes).map_err(unwritten(path))
}
