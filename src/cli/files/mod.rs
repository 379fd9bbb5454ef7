//! Files a command leaves behind. One policy for all:
//!
//! * whole or not at all: written under another name, then renamed;
//! * never onto a file that this run has read, under whatever name;
//! * onto a file that stands there only if it begins as one of ours, or with `--force`;
//! * through links, and straight into what is no ordinary file (a device, a pipe); neither is ever replaced;
//! * a file that is replaced keeps its permissions, a new one gets what the umask leaves;
//! * checked before anything is computed, so that nothing is computed in vain.
//!
//! `target` is a file to be written, `stamp` says what begins as ours, `charts` writes pictures, `names` finds names that are
//! free.
//!
//! Every command checks a `Target` before it computes and writes it afterwards; what was read is known by `reading::was_read`.

mod charts;
mod names;
mod stamp;
mod target;

pub(crate) use charts::{charts, charts_written, of as pictures_of};
pub(crate) use names::{free, stems};
pub(super) use stamp::Kind;
pub(super) use target::Target;
pub(crate) use target::create;

use crate::input::text;
use std::fmt::Display;
use std::fs::create_dir_all;
use std::io::{Error, ErrorKind, Result};
use std::path::Path;

/// The switch that lets a command write over what is not its own.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
pub(super) struct Force {
    /// Write over files that stand there already, even if this program did not write them
    #[arg(long)]
    pub force: bool,
}

/// Makes a folder and looks whether files can be made in it, with a message that names it.
///
/// # Errors
/// If it cannot be made or written into.
pub(super) fn folder(path: &Path) -> Result<()> {
    create_dir_all(path).map_err(|e| named(path, "the folder cannot be made", &e))?;
    // a file without a name leaves nothing behind
    tempfile::tempfile_in(path).map(drop).map_err(|e| named(path, "cannot be written into", &e))
}

/// An error that names a file.
pub(crate) fn named(path: &Path, what: &str, error: &Error) -> Error {
    Error::new(error.kind(), format!("{}: {what}: {}", text::path(path), bare(error)))
}

/// An error at a file: its name, and what is said behind it.
pub(crate) fn fault_at(kind: ErrorKind, path: &Path, said: impl Display) -> Error {
    Error::new(kind, format!("{}{said}", text::path(path)))
}

/// For an error of writing a file.
pub(crate) fn unwritten(path: &Path) -> impl Fn(Error) -> Error {
    move |error| named(path, "cannot be written", &error)
}

/// For an error of reading one.
pub(crate) fn unread(path: &Path) -> impl Fn(Error) -> Error {
    move |error| named(path, "cannot be read", &error)
}

/// What the system said, without the name of a temporary file around it.
fn bare(error: &Error) -> String {
    let inside = error.get_ref().and_then(|inner| inner.source());
    inside.map_or_else(|| error.to_string(), ToString::to_string)
}
