//! The bench of the record as a test, run by hand: `cargo test --test record_calibration -- --ignored --nocapture`.

#![allow(missing_docs)]

#[path = "bench/record.rs"]
mod bench;

#[test]
#[ignore = "minutes; draws plots/record-calibration"]
fn the_truth_lies_among_the_draws_as_evenly_as_one_of_them() {
    bench::main();
}
