//! How likely is a piece out of tolerance, and how much of that do all pieces share? `cargo run --example chance`.

#![allow(clippy::print_stdout, reason = "an example shows its result")]

use std::error::Error;
use weldbow_engine::prelude::*;

const BEAM: &str = include_str!("../../../studies/jobs/light.toml");

fn main() -> Result<(), Box<dyn Error>> {
    let file: JobFile = toml::from_str(BEAM)?;
    let job = check(&file).map_err(|slips| format!("{slips:?}"))?;
    let mut prediction = predict(&job);
    say_chances(&job, &mut prediction);
    for verdict in &prediction.verdicts {
        let Some(likely) = verdict.likely else { continue };
        println!(
            "{:?}: {:.1} of {:.1} mm, out with a chance of {:.1} %",
            verdict.quantity,
            verdict.value,
            verdict.limit,
            100.0 * likely.chance
        );
    }
    Ok(())
}
