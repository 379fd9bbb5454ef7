//! The long run of `tests/fuzz`: `cargo bench --bench fuzz -- MINUTES [SEED]`. Every core follows cases of its own.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stdout,
    dead_code,
    unused_imports,
    reason = "a bench that meets a surprise ends; what only the tests use is shared with them"
)]

#[path = "../fuzz/damage.rs"]
mod damage;
#[path = "../fuzz/families.rs"]
mod families;
#[path = "../fuzz/finder.rs"]
mod finder;
#[path = "../fuzz/hunt.rs"]
mod hunt;
#[path = "../fuzz/kept.rs"]
mod kept;

use families::FAMILIES;
use hunt::{Catch, Hunt, hunt};
use std::thread::{available_parallelism, scope};

fn main() {
    let numbers: Vec<u64> = std::env::args().skip(1).filter_map(|word| word.parse().ok()).collect();
    let minutes = numbers.first().copied().unwrap_or(1);
    let seed = numbers.get(1).copied().unwrap_or(1);
    let cores = available_parallelism().map_or(1, |n| n.get() as u64);
    let seconds = 60.0 * minutes as f64 / FAMILIES.len() as f64;
    let mut failed = false;
    for (name, family, _) in FAMILIES {
        // far apart, so that no two follow the same case
        let part = |core| Hunt { seed, from: core << 40, cases: u64::MAX, seconds: Some(seconds) };
        let parts: Vec<Catch> = scope(|threads| {
            let all: Vec<_> =
                (0..cores).map(|core| threads.spawn(move || hunt(family, part(core)))).collect();
            all.into_iter().map(|thread| thread.join().unwrap()).collect()
        });
        let mut all = Catch::default();
        for part in parts {
            all.tried += part.tried;
            all.taken += part.taken;
            all.seconds = [all.seconds[0].max(part.seconds[0]), all.seconds[1].max(part.seconds[1])];
            all.failures.extend(part.failures);
        }
        println!("{}", all.said(name, seed));
        all.failures.iter().for_each(|failure| println!("  {failure}"));
        failed |= !all.failures.is_empty();
    }
    assert!(!failed, "failures, told above");
}
