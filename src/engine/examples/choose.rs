//! Which welds hold the tolerances and carry the load? `cargo run --release --example choose`.

#![allow(clippy::print_stdout, reason = "an example shows its result")]

use std::error::Error;
use weldbow_engine::prelude::*;

const RAFTER: &str = include_str!("../../../studies/jobs/rafter.toml");
const SHOP: &str = include_str!("../../../studies/shop/shop.toml");

fn main() -> Result<(), Box<dyn Error>> {
    let file: JobFile = toml::from_str(RAFTER)?;
    let job = check(&file).map_err(|slips| format!("{slips:?}"))?;
    let shop: ShopFile = toml::from_str(SHOP)?;
    let book = shop.welding().map_err(|slips| format!("{slips:?}"))?;
    let wishes = Constraints::usual(job.units);
    let choice = choose(&Choosing { job: &job, file: &file, book: &book, wishes: &wishes })?;
    for option in &choice.options {
        println!("{}: {}, {:.0} s of arc", option.name, option.way, option.score.effort.arc_s);
    }
    Ok(())
}
