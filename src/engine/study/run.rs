//! Runs cases on all cores and hands their rows over in order.

use super::case::{CaseRoom, Row};
use super::definition::Study;
use rayon::prelude::*;
use std::ops::Range;
use std::sync::{Mutex, PoisonError};

/// Cases computed by one thread at a time (a choice: about 2 ms of work, so that threads end a wave together).
const CHUNK: u64 = 128;
/// Chunks a thread computes before rows are handed over: about 40 ms, so that little is lost when a run is killed.
const CHUNKS_A_THREAD: u64 = 16;

impl Study {
    /// Computes the cases of a range in waves of bounded size. Each chunk of rows is made into what `work` makes of it,
    /// on the thread that computed it; each wave is handed to `take` in order of its cases, with their number, while the next one
    /// is computed. Stops when `take` says no or fails.
    ///
    /// # Errors
    /// Those of `take`.
    pub fn run<T: Send, E>(
        &self,
        cases: Range<u64>,
        work: impl Fn(&[Row]) -> T + Sync,
        mut take: impl FnMut(Vec<T>, u64) -> Result<bool, E>,
    ) -> Result<(), E> {
        let (chunk, chunks) = if self.is_slow() { (1, 8) } else { (CHUNK, CHUNKS_A_THREAD) };
        let wave = chunk * chunks * rayon::current_num_threads() as u64;
        let end = |from: u64| cases.end.min(from + wave);
        let rooms = Rooms::default();
        let compute = |from: u64| -> Vec<T> {
            let to = end(from);
            let starts: Vec<u64> = (from..to).step_by(chunk as usize).collect();
            let of = |start: u64| rooms.with(|room| work(&self.rows_of(start..to.min(start + chunk), room)));
            starts.into_par_iter().map(of).collect()
        };
        // whoever stops a slow study waits for no wave that nobody will take
        let runs_ahead = !self.is_slow();
        let (mut from, mut ahead) = (cases.start, None);
        while from < cases.end {
            let done = ahead.take().unwrap_or_else(|| compute(from));
            let to = end(from);
            let goes_on = rayon::in_place_scope(|scope| {
                if runs_ahead && to < cases.end {
                    scope.spawn(|_| ahead = Some(compute(to)));
                }
                take(done, to - from)
            })?;
            if !goes_on {
                return Ok(());
            }
            from = to;
        }
        Ok(())
    }

    /// Rows of a range, in memory.
    pub fn rows(&self, cases: Range<u64>) -> Vec<Row> {
        let chunk = if self.is_slow() { 1 } else { CHUNK };
        let starts: Vec<u64> = cases.clone().step_by(chunk as usize).collect();
        let rooms = Rooms::default();
        let of = |start: u64| rooms.with(|room| self.rows_of(start..cases.end.min(start + chunk), room));
        starts.into_par_iter().map(of).flatten_iter().collect()
    }
}

/// Rooms to compute in, used again by whichever thread is next.
#[derive(Default)]
struct Rooms(Mutex<Vec<CaseRoom>>);

impl Rooms {
    fn with<T>(&self, work: impl FnOnce(&mut CaseRoom) -> T) -> T {
        let free = || self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let taken = free().pop();
        let mut room = taken.unwrap_or_default();
        let done = work(&mut room);
        free().push(room);
        done
    }
}

/// The cases of part `i` of `n` (from 1): as even as can be, in order.
pub fn shard(count: u64, i: u64, n: u64) -> Range<u64> {
    let edge = |k: u64| (u128::from(count) * u128::from(k) / u128::from(n)) as u64;
    edge(i - 1)..edge(i)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_even_and_leave_nothing_out() {
        for (count, n) in [(10, 3), (7, 7), (3, 5), (1_000_000_007, 12)] {
            let parts: Vec<_> = (1..=n).map(|i| shard(count, i, n)).collect();
            assert!(parts.windows(2).all(|p| p[0].end == p[1].start), "{parts:?}");
            assert_eq!((parts[0].start, parts[parts.len() - 1].end), (0, count));
            let sizes = parts.iter().map(|p| p.end - p.start);
            let (least, most) = sizes.fold((u64::MAX, 0), |(l, m), s| (l.min(s), m.max(s)));
            assert!(most - least <= 1, "{parts:?}");
        }
    }
}
