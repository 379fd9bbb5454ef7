//! How long a calculation takes. In a page the engine has no clock: there every time is zero, and no result depends on it.

use std::time::Duration;

/// A moment to measure from.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Clock(#[cfg(not(target_family = "wasm"))] std::time::Instant);

impl Clock {
    /// Now.
    pub(crate) fn start() -> Self {
        Self(
            #[cfg(not(target_family = "wasm"))]
            std::time::Instant::now(),
        )
    }

    /// Time since then.
    pub(crate) fn elapsed(self) -> Duration {
        #[cfg(not(target_family = "wasm"))]
        return self.0.elapsed();
        #[cfg(target_family = "wasm")]
        Duration::ZERO
    }
}
