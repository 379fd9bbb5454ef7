//! Ctrl-C: the first ends a long run where it loses nothing; the second ends the program.

use super::ended::STOPPED;
use std::sync::atomic::{AtomicBool, Ordering};

static STOP: AtomicBool = AtomicBool::new(false);

/// From here on the first Ctrl-C ends the work after the step at hand, and the work after it; the second, or the first where none
/// can be watched for, ends the program.
pub(super) fn watch_for_interrupt() {
    let _ = ctrlc::set_handler(|| {
        if STOP.swap(true, Ordering::Relaxed) {
            std::process::exit(i32::from(STOPPED));
        }
    });
}

/// Whether the user wants no more.
pub(super) fn is_stopped() -> bool {
    STOP.load(Ordering::Relaxed)
}
