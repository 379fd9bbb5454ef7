//! `--replace`: rows of an earlier study give way to new ones.

use super::label::Label;
use super::names::Names;
use crate::cli::files::{fault_at, named};
use crate::reading::was_read;
use std::fs::remove_file;
use std::io::{ErrorKind, Result};

/// Takes away what this program kept under these names; without a label of ours nothing is touched.
///
/// # Errors
/// If a file cannot be removed, is no ordinary one, or is one that this run has read.
pub(crate) fn replace(names: &Names) -> Result<()> {
    names.check()?;
    if Label::read(&names.label())?.is_none() {
        return Ok(());
    }
    // the label goes last: a run that is stopped in between leaves rows that are still known for ours
    for path in names.all() {
        if was_read(&path) {
            let said = " was read by this run and is not replaced";
            return Err(fault_at(ErrorKind::AlreadyExists, &path, said));
        }
        match remove_file(&path) {
            Err(error) if error.kind() != ErrorKind::NotFound => {
                return Err(named(&path, "cannot be removed", &error));
            }
            _ => {}
        }
    }
    Ok(())
}
