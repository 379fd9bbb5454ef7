//! Which level of model made the numbers, and what the other one says.

use super::table::{heading, row_table};
use crate::prediction::Prediction;
use crate::units::{System, show};
use std::io::{Result, Write};

/// Nothing at the formula level.
pub(super) fn level(prediction: &Prediction, system: System, out: &mut dyn Write) -> Result<()> {
    let Some(notes) = &prediction.strip else { return Ok(()) };
    let remark = format!(
        "{} solved, at most {:.1} % lost between stations, heat balanced to {:.0e}",
        if notes.stations == 1 { "1 section".to_owned() } else { format!("{} sections", notes.stations) },
        100.0 * notes.station_gap,
        notes.energy_balance
    );
    heading("Level of model: strip", &remark, out)?;
    let mut table = row_table(&["level", "shortening", "camber", "sweep"], 1..4);
    let mut row = |name: &str, values: [f64; 3]| {
        let [shortening, camber, sweep] = values.map(|v| show::offset(v, system));
        table.add_row([name.to_owned(), shortening, camber, sweep]);
    };
    row("strip", [prediction.shortening_mm, prediction.camber.max_mm, prediction.sweep.max_mm]);
    row("formula", [notes.formula_shortening_mm, notes.formula_camber_mm, notes.formula_sweep_mm]);
    table.put(out)
}
