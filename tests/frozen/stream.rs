//! Random values for made-up cases: the same on every machine, and of no room of the engine.

use chacha20::ChaCha8Rng;
use chacha20::rand_core::{Rng, SeedableRng};

/// A stream of values; equal seeds give equal streams.
pub(crate) struct Stream(ChaCha8Rng);

impl Stream {
    /// The stream of a seed.
    pub(crate) fn new(seed: u64) -> Self {
        let mut bytes = [0; 32];
        bytes[..8].copy_from_slice(&seed.to_le_bytes());
        Self(ChaCha8Rng::from_seed(bytes))
    }

    /// From 0 up to 1: the upper 53 bits of 64.
    pub(crate) fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A multiple of `step` from `low` to `high`.
    pub(crate) fn step(&mut self, low: f64, high: f64, step: f64) -> f64 {
        let steps = ((high - low) / step).round();
        low + step * (self.unit() * (steps + 1.0)).floor()
    }

    /// One of these.
    pub(crate) fn pick<T: Copy>(&mut self, all: &[T]) -> T {
        all[(self.unit() * all.len() as f64) as usize]
    }

    /// True so often.
    pub(crate) fn chance(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }
}
