//! What is expected of a piece of the predicted kind, quantity by quantity: the deviation that is judged, and how likely it is
//! out of its limit by [`out_of_limits`], as every verdict says it.

use super::{Fabrication, Judged};
use crate::member::Seam;
use crate::prediction::{Job, Prediction};
use crate::scatter::{Draws, SamplingFault, out_of_limits};
use crate::straighten::decide::{Capability, Family, Limits};
use crate::tolerance::{Likely, Quantity, Verdict};
use serde::Serialize;

/// What is expected of one quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Expected {
    /// What.
    pub quantity: Quantity,
    /// What it is said of: how the plates were cut or preset.
    pub basis: &'static str,
    /// Mean of the deviation that is judged, mm, with sign, where it is worst.
    pub mean_mm: f64,
    /// Where, mm from the start end.
    pub at_mm: f64,
    /// Standard deviation from piece to piece, mm.
    pub scatter_sd_mm: f64,
    /// Standard deviation of what the model may be wrong by, the same for every piece, mm.
    pub bias_sd_mm: f64,
    /// Limits there.
    pub limits: Limits,
    /// How likely a piece is out of any limit on it.
    #[serde(flatten)]
    pub likely: Likely,
    /// How a process of that mean and scatter stands against the limits, by the normal law.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub capability: Option<Capability>,
    /// Mean and scatter as a family.
    #[serde(skip)]
    pub family: Family,
}

/// Scatter below this is none, mm: keeps the law of a family defined.
const LEAST_SD_MM: f64 = 1e-6;

/// What is straightened under: toe, tilt and cup of a flange are one thing at the press.
pub(crate) const fn judged_as(quantity: Quantity) -> Quantity {
    match quantity {
        Quantity::FlangeToe | Quantity::FlangeTilt | Quantity::FlangeCup => Quantity::FlangeToe,
        other => other,
    }
}

/// Toe, sweep and camber, in order of work; only what the job limits.
///
/// # Errors
/// Draws that cannot be drawn.
pub fn expected(
    job: &Job,
    prediction: &Prediction,
    making: Fabrication,
    judged: &Judged,
) -> Result<Vec<Expected>, SamplingFault> {
    let verdicts = &prediction.verdicts;
    let out = out_of_limits(job, verdicts, Draws::USUAL, |v| making.met(v))?;
    // camber is judged as more or less of the wanted one, and straightened toward a flange
    let turned = job.wanted_camber.is_some_and(|w| w.toward == Seam::Outer);
    let goals = &judged.goals;
    let one = |quantity: Quantity| {
        let limits = |v: &Verdict| match v.quantity {
            Quantity::FlangeToe => goals.toe,
            Quantity::FlangeCup => goals.cup,
            Quantity::FlangeTilt => goals.tilt,
            Quantity::Sweep => goals.sweep,
            // neither web, twist nor length is straightened
            Quantity::Camber | Quantity::WebFlatness | Quantity::Twist | Quantity::Length => goals.camber,
        };
        let of = verdicts.iter().enumerate().filter(|(_, v)| judged_as(v.quantity) == quantity);
        // of limits that are all sure, the one nearest to its edge speaks
        let near = |at: usize, v: &Verdict| {
            (out.likely[at].chance, (making.met(v) - v.band.middle_mm()).abs() / v.band.half_mm())
        };
        let (at, worst) = of.max_by(|a, b| {
            let (a, b) = (near(a.0, a.1), near(b.0, b.1));
            a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
        })?;
        let limits = Some(limits(worst)).filter(Limits::is_some)?;
        let sign = if turned && quantity == Quantity::Camber { -1.0 } else { 1.0 };
        let (mean_mm, size) = (sign * making.met(worst) + 0.0, out.sizes[at]);
        let family = Family { mean: mean_mm, sd: size.scatter_sd_mm.max(LEAST_SD_MM), pieces: None };
        Some(Expected {
            quantity,
            basis: match quantity {
                Quantity::Camber => making.camber_basis(),
                Quantity::Sweep => "as welded",
                _ => making.toe_basis(),
            },
            mean_mm,
            at_mm: worst.at_mm,
            scatter_sd_mm: size.scatter_sd_mm,
            bias_sd_mm: size.bias_sd_mm,
            limits,
            likely: out.of(|q| judged_as(q) == quantity),
            capability: family.against(&limits).ok(),
            family,
        })
    };
    Ok([Quantity::FlangeToe, Quantity::Sweep, Quantity::Camber].into_iter().filter_map(one).collect())
}
