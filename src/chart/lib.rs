//! Pictures of a prediction, as SVG and PNG. Draws what it is given and computes nothing of the member.
//!
//! In every picture x runs to the right from the start end, and up is toward the inner flange (camber)
//! or toward the near side (sweep), so that + is up wherever a bow is drawn.
//!
//! One file a picture: `elevation` (with `elevation_labels` and `plan`), `bow_along`, `cross_section`, `build_up`, `methods`, and `signs`, which
//! belongs to no job; `study` holds the pictures of studies, `joint` those of a refereed joint, `straightening` those of a
//! plan, `order` those of an order, `record` those of a shop's measured pieces. Under them: `canvas` (the sheet), `raster` (PNG), `theme` (the look), `axes`, `dimension`, `side` (the member from its near side), `chains` (lines of many pieces), `smooth` (bows without
//! corners), `spread` (labels apart), `number`, `measure` (units), `ramp` (shades).
//!
//! **To add a chart**: one file, listed in [`pictures`]; a chart of a study is a kind in `study/`. `theme` has sizes and colours,
//! `canvas` is the only file that knows plotters, `raster` the only one that knows resvg. Draw on the enlarged sheet, label lines
//! at their end. `cargo test --lib study::tests` leaves a PNG of each kind of study chart in the folder for temporary files;
//! `UPDATE_PLOTS=1 cargo test --test golden_charts` redraws `plots/`: open every one.

mod axes;
mod bow_along;
mod build_up;
mod canvas;
mod chains;
mod choice;
mod cross_section;
mod dimension;
#[cfg(test)]
mod drawn_tests;
mod elevation;
mod elevation_labels;
mod joint;
mod measure;
mod methods;
mod number;
mod order;
mod picture;
mod plan;
mod ramp;
mod raster;
mod record;
#[cfg(test)]
mod sample;
mod side;
mod signs;
mod smooth;
mod spread;
mod straightening;
mod study;
mod theme;
mod twist;

pub use choice::choice_pictures;
pub use joint::{joint_pictures, moving_pictures};
pub use order::order_pictures;
pub(crate) use picture::Done;
pub use picture::{ChartError, Picture};
pub use raster::png;
pub use record::{Rank, calibration, record_pictures};
pub use signs::signs;
pub use straightening::{straightening_pictures, straightening_setup, straightening_sketch};
pub use study::{ChartSpecFault, StudyView, check as check_spec, fits as spec_fits, study_pictures};

use weldbow_engine::prediction::{Job, Prediction};
use weldbow_engine::units::System;

/// All pictures of one prediction, labels in the units of `system`.
///
/// # Errors
/// [`ChartError::NotANumber`] if the prediction holds a value that is not finite; the other errors mean a
/// broken build.
pub fn pictures(job: &Job, prediction: &Prediction, system: System) -> Done<Vec<Picture>> {
    let mut all = vec![
        elevation::elevation(job, prediction, system)?,
        bow_along::bow(job, prediction, system)?,
        cross_section::section(job, prediction, system)?,
        build_up::build_up(job, prediction, system)?,
    ];
    all.extend(methods::methods(job, prediction, system)?);
    all.extend(twist::twist(job, prediction, system)?);
    Ok(all)
}
