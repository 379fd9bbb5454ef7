//! Files that this run has read, so that none of them is written onto.

use std::collections::BTreeSet;
use std::fs::Metadata;
use std::path::Path;
use std::sync::{Mutex, PoisonError};

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
