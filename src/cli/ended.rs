//! How a command ends: its exit status, and what is said where it ends before its results.

use super::complain::{complain_on_stderr, fault};
use crate::chart::ChartError;
use crate::reading::Diagnostics;
use std::fmt::Display;
use std::io::{Error, Result};
use std::path::{Path, PathBuf};

/// The exit status of a command, or what else it found; or why it ended early.
pub(super) type Outcome<T = u8> = std::result::Result<T, Ended>;

/// Why a command ended early. Where the command line ends it is said on the error stream.
#[derive(Debug)]
pub(super) enum Ended {
    /// The output or a file cannot be written.
    Unwritten(Error),
    /// Mistakes in files.
    Files(Vec<Diagnostics>),
    /// What is wrong, with the file it is about, if it is about one, and the exit status.
    Fault(Option<PathBuf>, String, u8),
}

impl Ended {
    /// By a file, or by what follows from it.
    pub(super) fn by_file(file: &Path, why: impl Display) -> Self {
        Self::Fault(Some(file.to_owned()), why.to_string(), BAD_INPUT)
    }

    /// By a command line that asks for what cannot be.
    pub(super) fn by_usage(file: Option<&Path>, why: impl Display) -> Self {
        Self::Fault(file.map(Path::to_owned), why.to_string(), BAD_USAGE)
    }

    /// Says it and gives the exit status.
    ///
    /// # Errors
    /// What could not be written.
    pub(super) fn say(self) -> Result<u8> {
        match self {
            Self::Unwritten(error) => Err(error),
            Self::Files(all) => all.iter().try_for_each(complain_on_stderr).map(|()| BAD_INPUT),
            Self::Fault(file, why, status) => fault(file.as_deref(), &why).map(|()| status),
        }
    }
}

/// What came out well, what is wrong with the others being said; and whether any was wrong.
///
/// # Errors
/// What could not be written.
pub(super) fn good_of<T, E: Into<Ended>>(
    all: impl IntoIterator<Item = std::result::Result<T, E>>,
) -> Result<(Vec<T>, bool)> {
    let (mut good, mut bad) = (Vec::new(), false);
    for one in all {
        match one {
            Ok(one) => good.push(one),
            Err(ended) => {
                ended.into().say()?;
                bad = true;
            }
        }
    }
    Ok((good, bad))
}

impl From<Error> for Ended {
    fn from(error: Error) -> Self {
        Self::Unwritten(error)
    }
}

impl From<ChartError> for Ended {
    fn from(error: ChartError) -> Self {
        Self::Unwritten(Error::other(error))
    }
}

impl From<Diagnostics> for Ended {
    fn from(complaint: Diagnostics) -> Self {
        Self::Files(vec![complaint])
    }
}

impl From<Vec<Diagnostics>> for Ended {
    fn from(complaints: Vec<Diagnostics>) -> Self {
        Self::Files(complaints)
    }
}

/// Everything asked was done.
pub(crate) const DONE: u8 = 0;
/// A file was wrong or could not be read or written.
pub(crate) const BAD_INPUT: u8 = 1;
/// The command line was wrong (clap's own status).
pub(crate) const BAD_USAGE: u8 = 2;
/// Stopped before the end; what is done is kept.
pub(crate) const STOPPED: u8 = 4;
/// `--strict`: done, and something is out of tolerance.
pub(crate) const OUT_OF_TOLERANCE: u8 = 3;
