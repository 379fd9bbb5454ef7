//! An arc that travels along a joint: how the flange turns ahead of it and behind, which no slice shows.

use super::refused::{Refused, built, shape};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use weldbow_engine::member::Seam;
use weldbow_engine::moving_arc::Grip;
use weldbow_engine::verification::{
    Case, LayerNumbers, Meshing, Options, TravelledCase, formula, moving, travel_of,
};

/// Length of joint that the arc travels along, mm (a choice: long enough for a stretch amid that its ends do not reach).
const LENGTH_MM: f64 = 300.0;
/// Reach of rolls before and behind the arc, mm (a choice).
const ROLLS_MM: f64 = 60.0;

/// Which joint, and what holds it.
#[derive(Debug, Deserialize)]
pub(crate) struct TravelQuestion {
    job: Value,
    x_mm: f64,
    seam: Seam,
    /// "free", "square" until cold, or "rolls" about the arc.
    grip: Held,
}

/// What holds flange and web.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Held {
    Free,
    Square,
    Rolls,
}

/// A travelled joint.
#[derive(Debug, Serialize)]
pub(crate) struct TravelAnswer {
    /// Frames, and every slice after each pass.
    moved: TravelledCase,
    /// Amid the length after each pass.
    amid: Vec<LayerNumbers>,
    /// What the formulas say of the same joint, free.
    formula: Vec<LayerNumbers>,
}

impl TravelQuestion {
    /// Solves, coarsely.
    ///
    /// # Errors
    /// A job that makes no sense, a place without a weld, slices without equilibrium.
    pub(crate) fn solved(self) -> Result<TravelAnswer, Refused> {
        let job = built(&shape(self.job)?)?;
        let options = Options { meshing: Meshing::Coarse, quick: true, ..Options::default() };
        let refused = |error: &dyn std::fmt::Display| Refused::Error(error.to_string());
        let case = Case::of(&job, self.x_mm, self.seam, &options).map_err(|e| refused(&e))?;
        let mut travel = travel_of(&case, Meshing::Coarse, LENGTH_MM);
        travel.grip = match self.grip {
            Held::Free => Grip::Free,
            Held::Square => Grip::Square,
            Held::Rolls => Grip::Rolls(ROLLS_MM),
        };
        let moved = moving(&case, &options, &travel, &mut |_| true).map_err(|e| refused(&e))?;
        Ok(TravelAnswer { amid: moved.numbers(), formula: formula(&case, false), moved })
    }
}
