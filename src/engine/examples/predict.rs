//! A job in, what the member will do out: `cargo run --example predict`.

#![allow(clippy::print_stdout, reason = "an example shows its result")]

use std::error::Error;
use weldbow_engine::prelude::*;

const RAFTER: &str = include_str!("../../../studies/jobs/rafter.toml");

fn main() -> Result<(), Box<dyn Error>> {
    let file: JobFile = toml::from_str(RAFTER)?;
    let job = check(&file).map_err(|slips| format!("{slips:?}"))?;
    let prediction = predict(&job);
    println!("{}", prediction.title);
    println!("shortening {:.1} mm", prediction.shortening_mm);
    for (name, bow) in [("camber", &prediction.camber), ("sweep", &prediction.sweep)] {
        println!(
            "{name} {:.1} ± {:.1} mm at {:.2} m, {}",
            bow.max_mm,
            bow.max_2s_mm,
            bow.at_mm / 1000.0,
            bow.toward
        );
    }
    // the same numbers, one changed, without a file
    let mut thicker = job.clone();
    for plate in Field::webs(&job) {
        plate.set(&mut thicker, 8.0)?;
    }
    println!("sweep with a web of 8 mm: {:.1} mm", predict(&thicker).sweep.max_mm);
    Ok(())
}
