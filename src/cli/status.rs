//! Exit statuses.

/// Everything asked was done.
pub const DONE: u8 = 0;
/// A file was wrong or could not be read or written.
pub const BAD_INPUT: u8 = 1;
/// The command line was wrong (clap's own status).
pub const BAD_USAGE: u8 = 2;
/// Stopped before the end; what is done is kept.
pub const STOPPED: u8 = 4;
/// `--strict`: done, and something is out of tolerance.
pub const OUT_OF_TOLERANCE: u8 = 3;
