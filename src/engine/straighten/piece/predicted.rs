//! A predicted member as a piece on the floor.

use crate::member::Seam;
use crate::prediction::{Job, Prediction};
use crate::straighten::decide::Family;
use crate::straighten::press::WeldStress;
use crate::straighten::shape::{OutOfStraight, ShapeError, Toes, even_bow};
use crate::tolerance::{Quantity, Verdict};
use serde::Serialize;

/// What was done before welding against the predicted distortion.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Fabrication {
    /// The web was cut to the ordinates of the prediction: only what the prediction misses is left beside the camber that they aim at.
    pub web_cut: bool,
    /// The flanges were preset by the prediction: only what it misses is left of the toe offsets.
    pub flanges_preset: bool,
}

impl Fabrication {
    /// What the camber is judged for, in words.
    pub const fn camber_basis(self) -> &'static str {
        if self.web_cut { "web cut to the ordinates" } else { "web cut straight" }
    }

    /// The size that a verdict is expected to meet, mm.
    pub(crate) fn met(self, verdict: &Verdict) -> f64 {
        let made_up = match verdict.quantity {
            Quantity::Camber => self.web_cut,
            Quantity::FlangeTilt | Quantity::FlangeCup | Quantity::FlangeToe => self.flanges_preset,
            Quantity::Sweep | Quantity::WebFlatness | Quantity::Twist | Quantity::Length => false,
        };
        if made_up { verdict.made_up } else { verdict.value }
    }

    /// What the toes are judged for.
    pub const fn toe_basis(self) -> &'static str {
        if self.flanges_preset { "flanges preset" } else { "flanges not preset" }
    }
}

/// The mean piece: camber as it differs from the wanted one, sweep, toes at the middle of every stretch of flange.
///
/// # Errors
/// [`ShapeError`] if the prediction has too few stations to be a shape.
pub fn predicted(
    job: &Job,
    prediction: &Prediction,
    making: Fabrication,
) -> Result<OutOfStraight, ShapeError> {
    shape(job, prediction, making, [0.0; 3])
}

/// A piece at the far end of the prediction's ± (two standard deviations, bias and scatter together) in camber, sweep and toes,
/// where `ask` says so; on the side where it is off already.
///
/// # Errors
/// As [`predicted`].
pub fn far_end(
    job: &Job,
    prediction: &Prediction,
    making: Fabrication,
    ask: [bool; 3],
) -> Result<OutOfStraight, ShapeError> {
    let mean = predicted(job, prediction, making)?;
    let [camber, sweep] = mean.largest_mm();
    let one = |ask: bool, value: f64| match (ask, value < 0.0) {
        (false, _) => 0.0,
        (true, true) => -1.0,
        (true, false) => 1.0,
    };
    let ends = [one(ask[0], camber), one(ask[1], sweep), f64::from(u8::from(ask[2]))];
    shape(job, prediction, making, ends)
}

/// Two standard deviations, as the ± of a prediction.
const FAR: f64 = 2.0;

/// The even bow of a family's record, mm at stations x: its mean, or its far end on the side where the mean is off.
pub fn recorded_bow(x_mm: &[f64], family: &Family, at_far_end: bool) -> Vec<f64> {
    let out = if at_far_end { (FAR * family.sd).copysign(family.mean) } else { 0.0 };
    even_bow(x_mm, family.mean + out)
}

fn shape(
    job: &Job,
    prediction: &Prediction,
    making: Fabrication,
    ends: [f64; 3],
) -> Result<OutOfStraight, ShapeError> {
    let length = job.member.length_mm;
    let (camber, sweep) = (&prediction.camber, &prediction.sweep);
    let x: Vec<f64> = camber.profile.iter().map(|p| p[0]).collect();
    let camber_mm = camber.profile.iter().zip(&camber.profile_2s_mm).map(|([x, offset], spread)| {
        let wanted = job.wanted_camber.map_or(0.0, |w| w.offset_mm(*x, length));
        let mean = if making.web_cut { job.aimed_camber_mm(*x) } else { *offset } - wanted;
        mean + ends[0] * spread
    });
    let sweep_mm =
        sweep.profile.iter().zip(&sweep.profile_2s_mm).map(|([_, offset], spread)| offset + ends[1] * spread);
    let toes = prediction.flanges.iter().map(|f| {
        let end = |toe: f64| {
            let mean = if making.flanges_preset { 0.0 } else { toe };
            mean + ends[2] * f.toe_2s_mm.copysign(if toe < 0.0 { -1.0 } else { 1.0 })
        };
        Toes { seam: f.flange, x_mm: f.x_mm, near_mm: end(f.near_toe_mm), far_mm: end(f.far_toe_mm) }
    });
    OutOfStraight::new(length, x, camber_mm.collect(), sweep_mm.collect(), toes.collect())
}

/// The stress that the predicted forces stand for: at each seam F/f_y of plate in tension at yield, shared so that the
/// web takes as much depth as the flange takes to each side (own; the larger seam counts). The usual pattern
/// if nothing is welded.
pub fn weld_stress(job: &Job, prediction: &Prediction) -> WeldStress {
    let plates = job.member.plates_at(0.5 * job.member.length_mm);
    let reach = |seam: Seam| {
        let force: f64 = prediction.passes.iter().filter(|p| p.seam == seam).map(|p| p.force_n).sum();
        let area = force / job.member.steel.yield_mpa;
        area / (2.0 * plates.flange_mm(seam).1 + plates.web_mm)
    };
    let reach = Seam::BOTH.map(reach).into_iter().fold(0.0, f64::max);
    if reach > 0.0 && reach.is_finite() {
        WeldStress { flange_mm: 2.0 * reach, web_mm: reach }
    } else {
        WeldStress::USUAL
    }
}
