//! Time of one formula-level prediction: `cargo bench`.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

#[path = "../support/mod.rs"]
mod support;

use divan::{Bencher, black_box, counter::ItemsCount};
use rayon::prelude::*;
use weldbow::prediction::{Job, Wanted, predict, predict_only};
use weldbow::welding::Side;

fn main() {
    divan::main();
}

/// Two passes, taper with a kink, three flange pieces.
#[divan::bench]
fn rafter_two_passes(bencher: Bencher) {
    let job = support::rafter();
    bencher.counter(ItemsCount::new(1_usize)).bench(|| predict(black_box(&job)));
}

/// Of the same its bows and shortening alone, without deviations, estimates, verdicts and words.
#[divan::bench]
fn rafter_bows_alone(bencher: Bencher) {
    let job = support::rafter();
    bencher.counter(ItemsCount::new(1_usize)).bench(|| predict_only(black_box(&job), &Wanted::BOWS));
}

/// The same with its curves and flanges: what a plan or a drawn piece needs.
#[divan::bench]
fn rafter_shape_alone(bencher: Bencher) {
    let job = support::rafter();
    bencher.counter(ItemsCount::new(1_usize)).bench(|| predict_only(black_box(&job), &Wanted::SHAPE));
}

/// A level member of one plate each, two passes.
#[divan::bench]
fn plain_two_passes(bencher: Bencher) {
    let member = support::prismatic(9_000.0, (700.0, 6.0), (180.0, 10.0), (180.0, 12.0));
    let job = Job { member, ..support::rafter() };
    bencher.counter(ItemsCount::new(1_usize)).bench(|| predict(black_box(&job)));
}

/// A demo rafter with all that is welded across it, plates as they come, twist, waves and two standards.
#[divan::bench]
fn with_everything(bencher: Bencher) {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/studies/jobs/gate_rafter.toml");
    let job = weldbow::job::read_text("gate_rafter", &std::fs::read_to_string(file).unwrap()).unwrap();
    bencher.counter(ItemsCount::new(1_usize)).bench(|| predict(black_box(&job)));
}

/// The rafter turned over and welded on the other side too.
#[divan::bench]
fn rafter_four_passes(bencher: Bencher) {
    let job = four_passes();
    bencher.counter(ItemsCount::new(1_usize)).bench(|| predict(black_box(&job)));
}

/// Ten thousand rafters on all cores.
#[divan::bench]
fn ten_thousand_on_all_cores(bencher: Bencher) {
    let job = support::rafter();
    bencher.counter(ItemsCount::new(10_000_usize)).bench(|| {
        (0..10_000_u32)
            .into_par_iter()
            .map(|i| {
                let mut job = job.clone();
                job.passes[0].heat_j_per_mm += f64::from(i) * 0.01;
                predict(&job).camber.max_mm
            })
            .collect::<Vec<f64>>()
    });
}

fn four_passes() -> Job {
    let mut job = support::rafter();
    let far: Vec<_> = job
        .passes
        .iter()
        .map(|p| weldbow::welding::Pass { side: Side::Far, order: 2, ..p.clone() })
        .collect();
    job.passes.extend(far);
    job.orders.push(support::order(2, weldbow::welding::Wait::Cold));
    job
}
