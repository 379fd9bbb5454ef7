//! Opening what a name leads to, without waiting for ever before a pipe that nobody writes into.

use std::fs::File;
use std::io::{Error, ErrorKind, Result};
use std::path::Path;
use std::sync::mpsc::channel;
use std::thread::Builder;
use std::time::Duration;

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
