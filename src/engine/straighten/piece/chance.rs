//! How likely a piece of the predicted kind is out of its limits: scatter from piece to piece if the model is right, and the
//! range over what the model may be wrong by.

use super::{Judged, Making};
use crate::prediction::uncertainty::{ARM_BIAS, FORCE_BIAS, FORCE_SCATTER, HEAT_FROM_LEG_BIAS, SPAN};
use crate::prediction::{Bow, Job, Prediction};
use crate::scatter::{Deviations, input};
use crate::straighten::decide::{Capability, Family, Limits};
use crate::tolerance::Quantity;
use crate::welding::HeatSource;
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
    /// Chance that a piece is out if the model is right.
    pub chance_if_right: f64,
    /// The same over the middle 90 % of what the model may be wrong by.
    pub chance_range: (f64, f64),
    /// Over everything.
    pub chance: f64,
    /// How a process of that mean and scatter stands against the limits.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub capability: Option<Capability>,
    /// Mean and scatter as a family.
    #[serde(skip)]
    pub family: Family,
}

/// Points of a normal law whose middle 90 % is looked at.
const MIDDLE_90: f64 = 1.645;
const LOOKS: i32 = 20;
/// Scatter below this is none, mm: keeps the law defined.
const LEAST_SD_MM: f64 = 1e-6;

/// A deviation: the shop's own if it gave one, and what it is over the usual one.
fn deviation(own: &Deviations, name: &str) -> (f64, f64) {
    let Some(input) = input(name) else { return (0.0, 1.0) };
    let usual = input.spread.sd();
    let sd = input.with_deviation(own.get(name).copied()).map_or(0.0, |spread| spread.sd());
    (sd, if usual > 0.0 { sd / usual } else { 1.0 })
}

/// Toe, sweep and camber, in order of work; only what the job limits. `own`: deviations of the shop in place of the usual ones,
/// by the names of usual inputs.
pub fn expected(
    job: &Job,
    prediction: &Prediction,
    making: Making,
    judged: &Judged,
    own: &Deviations,
) -> Vec<Expected> {
    let goals = &judged.goals;
    let leg = job.passes.iter().any(|p| p.heat_source == HeatSource::Leg);
    let or = |name: &str, usual: f64| own.get(name).copied().unwrap_or(usual);
    let from_leg = |bias: f64| if leg { bias } else { 0.0 };
    let usual_force = FORCE_BIAS.hypot(from_leg(HEAT_FROM_LEG_BIAS));
    let force = or("force", FORCE_BIAS).hypot(from_leg(or("heat-from-leg", HEAT_FROM_LEG_BIAS)));
    let arm = or("arm", ARM_BIAS);
    let pass_over_usual = or("force-each-pass", FORCE_SCATTER) / FORCE_SCATTER;
    let middle = |quantity,
                  bow: &Bow,
                  [usual, bias]: [f64; 2],
                  limits: Limits,
                  basis,
                  removed: &dyn Fn(f64, f64) -> f64| {
        let length = job.member.length_mm;
        let stations = bow.profile.iter().zip(&bow.profile_2s_mm).map(|([x, offset], spread)| {
            let (bias_sd, usual_sd) = (bias * offset.abs(), usual * offset.abs());
            let sd = spread / SPAN;
            let scatter = pass_over_usual * (sd * sd - usual_sd * usual_sd).max(0.0).sqrt();
            let aside = limits.middle(0.5) - limits.middle(x / length);
            Spot { mean: removed(*x, *offset), aside, at: *x, scatter, bias: bias_sd, limits }
        });
        worst(quantity, basis, stations)
    };
    let mut out = Vec::new();
    out.extend(worst(
        Quantity::FlangeToe,
        making.toe_basis(),
        toes(prediction, making, judged, own).into_iter(),
    ));
    out.extend(middle(
        Quantity::Sweep,
        &prediction.sweep,
        [usual_force.hypot(ARM_BIAS), force.hypot(arm)],
        goals.sweep,
        "as welded",
        &|_, offset| offset,
    ));
    out.extend(middle(
        Quantity::Camber,
        &prediction.camber,
        [usual_force, force],
        goals.camber,
        making.camber_basis(),
        &|x, offset| {
            let wanted = job.wanted_camber.map_or(0.0, |w| w.offset_mm(x, job.member.length_mm));
            if making.web_cut { 0.0 } else { offset - wanted }
        },
    ));
    out
}

/// One place that may be the worst.
struct Spot {
    mean: f64,
    /// Added before it is judged: unequal limits follow the bow.
    aside: f64,
    at: f64,
    scatter: f64,
    bias: f64,
    limits: Limits,
}

impl Spot {
    fn out(&self, shift: f64, sd: f64) -> f64 {
        let family = Family { mean: self.mean + self.aside + shift, sd: sd.max(LEAST_SD_MM), pieces: None };
        family.against(&self.limits).map_or(0.0, |c| c.out)
    }
}

fn worst(quantity: Quantity, basis: &'static str, spots: impl Iterator<Item = Spot>) -> Option<Expected> {
    let all = spots.filter(|s| s.limits.is_some()).map(|s| {
        let chance = s.out(0.0, s.scatter.hypot(s.bias));
        // of places that are all sure, the one nearest to its limit speaks
        let (low, high) = (s.limits.lowest, s.limits.highest);
        let judged = s.mean + s.aside;
        let near = (judged - high).max(low - judged) + SPAN * s.scatter.hypot(s.bias);
        (near, chance, s)
    });
    let (_, chance, spot) = all.max_by(|a, b| a.0.total_cmp(&b.0))?;
    let shifts = (-LOOKS..=LOOKS).map(|i| MIDDLE_90 * f64::from(i) / f64::from(LOOKS) * spot.bias);
    let chance_range = shifts
        .map(|shift| spot.out(shift, spot.scatter))
        .fold((1.0_f64, 0.0_f64), |(low, high), c| (low.min(c), high.max(c)));
    let family = Family { mean: spot.mean, sd: spot.scatter.max(LEAST_SD_MM), pieces: None };
    Some(Expected {
        quantity,
        basis,
        mean_mm: spot.mean + 0.0,
        at_mm: spot.at,
        scatter_sd_mm: spot.scatter,
        bias_sd_mm: spot.bias,
        limits: spot.limits,
        chance_if_right: spot.out(0.0, spot.scatter),
        chance_range,
        chance,
        capability: family.against(&spot.limits).ok(),
        family,
    })
}

/// Toes, cup and tilt of every stretch, each against its own limit. Their ± is model bias; the scatter beside it is that of
/// the usual inputs `fold-each-piece` and `tilt-each-piece`.
fn toes(prediction: &Prediction, making: Making, judged: &Judged, own: &Deviations) -> Vec<Spot> {
    let (fold, tilt) = (deviation(own, "fold-each-piece").0, deviation(own, "tilt-each-piece").0);
    let over_usual = ["fold", "tilt"].map(|name| deviation(own, name).1);
    let goals = &judged.goals;
    let mut out = Vec::with_capacity(4 * prediction.flanges.len());
    for f in &prediction.flanges {
        let half = 0.5 * f.width_mm;
        let (cup_mm, tilt_mm) = (half * f.cup_rad, half * f.tilt_rad);
        let (cup_sd, tilt_sd) = (fold * cup_mm.abs(), tilt * tilt_mm.abs());
        let [cup_bias, tilt_bias] = [f.cup_2s_rad, f.tilt_2s_rad].map(|two| half * two / SPAN);
        let own_bias = [over_usual[0] * cup_bias, over_usual[1] * tilt_bias];
        let usual = cup_bias.hypot(tilt_bias);
        let toe_over_usual = if usual > 0.0 { own_bias[0].hypot(own_bias[1]) / usual } else { 1.0 };
        let toe_bias = toe_over_usual * f.toe_2s_mm / SPAN;
        let parts = [
            (f.near_toe_mm, cup_sd.hypot(tilt_sd), toe_bias, goals.toe),
            (f.far_toe_mm, cup_sd.hypot(tilt_sd), toe_bias, goals.toe),
            (0.5 * (f.near_toe_mm + f.far_toe_mm), cup_sd, own_bias[0], goals.cup),
            (0.5 * (f.near_toe_mm - f.far_toe_mm), tilt_sd, own_bias[1], goals.tilt),
        ];
        out.extend(parts.into_iter().map(|(value, scatter, bias, limits)| Spot {
            mean: if making.flanges_preset { 0.0 } else { value },
            aside: 0.0,
            at: f.x_mm,
            scatter,
            bias,
            limits,
        }));
    }
    out
}
