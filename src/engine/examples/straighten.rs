//! What would it take to straighten the predicted shape? `cargo run --release --example straighten`.
//!
//! A plan is an estimate: press and heat can hurt, and the responsible engineer, the welding code and local law decide.

#![allow(clippy::print_stdout, reason = "an example shows its result")]

use std::error::Error;
use weldbow_engine::prelude::*;
use weldbow_engine::straighten::piece::Fabrication;

const BEAM: &str = include_str!("../../../studies/jobs/light.toml");
const SHOP: &str = include_str!("../../../studies/shop/shop.toml");

fn main() -> Result<(), Box<dyn Error>> {
    let file: JobFile = toml::from_str(BEAM)?;
    let job = check(&file).map_err(|slips| format!("{slips:?}"))?;
    let shop: ShopFile = toml::from_str(SHOP)?;
    let shop = shop.build().map_err(|slips| format!("{slips:?}"))?;
    let prediction = predict(&job);
    let shape = predicted(&job, &prediction, Fabrication::default())?;
    let piece = Piece::of(&job, &prediction, shape, goals(&job, &shop.measuring).goals, &shop.tools);
    println!("{}", serde_json::to_string_pretty(&piece.plan(&job.member))?);
    Ok(())
}
