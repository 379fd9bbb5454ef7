//! The strip level: forces and where they act are solved from first principles at `stations` along the member and laid in the walk that
//! the formulas take too (`forces`); `notes` says how that came about and what the formulas say.

mod forces;
mod notes;
mod stations;

use super::alike::SUBSTEPS;
use super::plan::WalkPlan;
use super::predict::predict;
use super::read::{STRIP, read};
use super::uncertainty::Bias;
use super::walk::{self, Keep};
use super::wanted::Wanted;
use super::{Job, Prediction};
use crate::strip::StripSettings;
use forces::ByStations;
use stations::Stations;
pub use stations::StripFailure;

/// Predicts with the strip model of [`crate::strip`]: shrinkage forces and where they act are computed at stations
/// instead of taken from formulas. All else, cup and tilt too, is that of the formula level.
///
/// # Errors
/// [`StripFailure`] where the strip model has no answer: a fillet its plates cannot take, or a step without temperatures
/// or equilibrium.
pub fn predict_strip(job: &Job) -> Result<Prediction, StripFailure> {
    // what was learned is how far the formulas are off
    let bare = notes::without_record(job);
    let job = &bare;
    let plan = WalkPlan::of(job);
    let stations = Stations::solve(job, &plan, StripSettings::STANDARD)?;
    let march = walk::walk(job, &plan, SUBSTEPS, Keep::Passes, &mut ByStations::new(&stations));
    let mut prediction = read(job, &plan, &march, Bias::STRIP, STRIP, &Wanted::ALL);
    notes::add(job, &stations, &predict(job), &mut prediction);
    Ok(prediction)
}
