//! Results of a command as JSON: one, or a list; and what people alone are told.

use serde::Serialize;
use std::io::{Result, Write};

/// Results as JSON: the one if one was asked for, else a list.
///
/// # Errors
/// Only those of `out`.
pub(crate) fn json<T: Serialize>(asked: usize, all: &[T], out: &mut dyn Write) -> Result<()> {
    match all {
        [one] if asked == 1 => json_of(one, out),
        [] if asked == 1 => Ok(()),
        many => json_of(&many, out),
    }
}

/// What was done besides, under a blank line, unless programs read the output.
///
/// # Errors
/// Only those of `out`.
pub(crate) fn beside(json: bool, line: &str, out: &mut dyn Write) -> Result<()> {
    if json { Ok(()) } else { writeln!(out, "\n{line}") }
}

/// One value as JSON.
///
/// # Errors
/// Only those of `out`.
pub(crate) fn json_of<T: Serialize + ?Sized>(value: &T, out: &mut dyn Write) -> Result<()> {
    serde_json::to_writer_pretty(&mut *out, value)?;
    writeln!(out)
}
