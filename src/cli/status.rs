//! Exit statuses.

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
