//! Which level of model made the numbers, and what the other one says.

use super::report::Report;
use super::table::Columns;
use crate::prediction::Prediction;
use crate::units::{System, show};

/// Nothing at the formula level.
pub(super) fn level(prediction: &Prediction, system: System, out: &mut Report) {
    let Some(notes) = &prediction.strip else { return };
    let remark = format!(
        "{} solved, at most {:.1} % lost between stations, heat balanced to {:.0e}",
        if notes.stations == 1 { "1 section".to_owned() } else { format!("{} sections", notes.stations) },
        100.0 * notes.station_gap,
        notes.energy_balance
    );
    out.heading("Level of model: strip", &remark);
    let strip = [prediction.shortening_mm, prediction.camber.max_mm, prediction.sweep.max_mm];
    let formula = [notes.formula_shortening_mm, notes.formula_camber_mm, notes.formula_sweep_mm];
    Columns::of([("strip", strip), ("formula", formula)])
        .left("level", |(name, _)| *name)
        .right("shortening", |(_, mm)| show::offset(mm[0], system))
        .right("camber", |(_, mm)| show::offset(mm[1], system))
        .right("sweep", |(_, mm)| show::offset(mm[2], system))
        .put(out)
}
