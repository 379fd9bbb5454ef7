//! What a run asks of the system: threads to compute on, and errors rather than signals.

use rayon::ThreadPoolBuilder;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

/// A file beyond the size that the system allows is then an error with its name, like a full disk, and no sudden end.
pub fn no_sudden_end() {
    #[cfg(unix)]
    {
        let _ = signal_hook::flag::register(libc::SIGXFSZ, Arc::new(AtomicBool::new(false)));
    }
}

/// Stack of a thread, bytes: that of a main thread.
const STACK: usize = 8 << 20;

/// Runs something on as many threads as there are cores, or as `RAYON_NUM_THREADS` says; on the only one there is where the system
/// gives no more.
pub fn on_all_cores<T: Send>(run: impl FnOnce() -> T + Send) -> T {
    // not the global pool: one that failed to start cannot be started again
    match ThreadPoolBuilder::new().stack_size(STACK).build() {
        Ok(pool) => pool.install(run),
        Err(_) => {
            // this thread alone needs nothing of the system; if even that fails, so will what follows, with its reason
            let _ = ThreadPoolBuilder::new().num_threads(1).use_current_thread().build_global();
            run()
        }
    }
}
