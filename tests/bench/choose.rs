//! Time of choosing a weld: `cargo bench --bench choose`. Prints wall time, and how much was looked at.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use std::fs::read_to_string;
use std::time::{Duration, Instant};
use weldbow::choose::{Choosing, Constraints, SearchSpace, Sides, base, choose, grid, needs, screen, ways};
use weldbow::job::{check, file_of_text};
use weldbow::shop::read_text;

/// Candidates screened at once, and the seconds that may take on two cores.
const CANDIDATES: usize = 100_000;
const SCREEN_S: f64 = 3.0;
/// Seconds that the demo may take.
const DEMO_S: f64 = 1.0;
const RUNS: usize = 3;

fn main() {
    let text = |path: &str| read_to_string(format!("{}/{path}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let file = file_of_text("rafter.toml", &text("studies/jobs/rafter.toml")).unwrap();
    let job = check(&file).unwrap();
    let book = read_text("shop.toml", &text("studies/shop/shop.toml")).unwrap().welding.unwrap();

    let wishes = Constraints::usual(job.units);
    let demo = fastest(|| {
        choose(&Choosing { job: &job, file: &file, book: &book, wishes: &wishes }).unwrap().counts.screened
    });
    println!("demo: {:.2?}, {} predicted; wanted below {DEMO_S} s", demo.0, demo.1);

    // both sides all along, the larger half of the ways, in fine steps
    let many = Constraints { candidates: CANDIDATES, step_mm: 0.25, sides: Sides::Both, ..wishes };
    let needed = needs(&job, job.carries.as_ref().unwrap(), &many);
    let ways = ways(&book.line, &needed.stretches, &many);
    let ground = SearchSpace { job: &job, book: &book, stretches: &needed.stretches, wishes: &many, ways };
    let mut candidates = grid(&ground);
    let once = candidates.clone();
    while candidates.len() < CANDIDATES {
        candidates.extend(once.iter().take(CANDIDATES - candidates.len()).cloned());
    }
    let base = base(&job);
    let (took, count) = fastest(|| screen(&ground, &candidates, &base).len());
    let each = took.as_secs_f64() / count as f64 * 1e6;
    println!(
        "screen: {took:.2?} for {count} candidates ({} different), {each:.1} us each; wanted below {SCREEN_S} s",
        once.len()
    );
}

/// Wall time of the fastest of some runs, and what it gave.
fn fastest(run: impl Fn() -> usize) -> (Duration, usize) {
    let timed = |_| {
        let started = Instant::now();
        let count = run();
        (started.elapsed(), count)
    };
    (0..RUNS).map(timed).min().unwrap_or_default()
}
