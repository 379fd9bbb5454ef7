//! Files that are opened: which they were, and pipes that nobody writes into.

use std::collections::BTreeSet;
use std::fs::{File, Metadata};
use std::io::{Error, ErrorKind, Result};
use std::path::Path;
use std::sync::mpsc::channel;
use std::sync::{Mutex, PoisonError};
use std::thread::Builder;
use std::time::Duration;

/// What tells a file from every other, whatever it is called: device and number of the file.
#[cfg(unix)]
type Identity = (u64, u64);
/// Its full path, where the system has no such number.
#[cfg(not(unix))]
type Identity = std::path::PathBuf;

static OPENED: Mutex<BTreeSet<Identity>> = Mutex::new(BTreeSet::new());

#[cfg(unix)]
fn identity(_: &Path, metadata: &Metadata) -> Option<Identity> {
    use std::os::unix::fs::MetadataExt;
    Some((metadata.dev(), metadata.ino()))
}

#[cfg(not(unix))]
fn identity(path: &Path, _: &Metadata) -> Option<Identity> {
    path.canonicalize().ok()
}

/// Notes that a file was read.
pub(super) fn note(path: &Path, metadata: &Metadata) {
    if let Some(identity) = identity(path, metadata).filter(|_| metadata.is_file()) {
        OPENED.lock().unwrap_or_else(PoisonError::into_inner).insert(identity);
    }
}

/// Whether this run has read the file that stands there, under this name or another.
pub fn was_read(path: &Path) -> bool {
    let Ok(metadata) = path.metadata() else { return false };
    identity(path, &metadata)
        .is_some_and(|id| OPENED.lock().unwrap_or_else(PoisonError::into_inner).contains(&id))
}

/// How long a pipe may be without a writer (a choice: a shell that joins two programs opens both ends in some milliseconds).
const PATIENCE: Duration = Duration::from_secs(3);

/// Opens a file, or a pipe as soon as somebody writes into it.
///
/// # Errors
/// If it cannot be opened; `TimedOut` for a pipe without a writer.
pub(super) fn open(path: &Path) -> Result<File> {
    if !is_pipe(path) {
        return File::open(path);
    }
    let (give, taken) = channel();
    let own = path.to_owned();
    let waits = Builder::new().spawn(move || {
        // whoever asked may have given up
        let _ = give.send(File::open(own));
    });
    match waits {
        Ok(_) => taken.recv_timeout(PATIENCE).unwrap_or_else(|_| Err(Error::from(ErrorKind::TimedOut))),
        // without a thread to wait in there is no way but to wait
        Err(_) => File::open(path),
    }
}

#[cfg(unix)]
fn is_pipe(path: &Path) -> bool {
    use std::os::unix::fs::FileTypeExt;
    path.metadata().is_ok_and(|metadata| metadata.file_type().is_fifo())
}

#[cfg(not(unix))]
fn is_pipe(_: &Path) -> bool {
    false
}
