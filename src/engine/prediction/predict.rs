//! Job → prediction, one line a step.

use super::march::{self, March, SUBSTEPS};
use super::plan::Plan;
use super::result::{Model, Prediction, Ripple, RippleVerdict, ShapeAlone};
use super::stations::{Stations, StripFailure};
use super::strip_notes;
use super::{Job, allowance, cautions, estimates, flanges, shapes, verdicts};
use crate::bow::ripple::{K_CLAMPED, K_HINGED, critical_mpa};
use crate::member::{Seam, Span};
use crate::steel::DENSITY_KG_PER_MM3;
use crate::strip::StripSettings;

/// What the numbers of this level rest on.
const TRUST: &str = "formula level: constants from own section calculations and recalled handbooks; \
                     not compared with a measured member";
/// The same of the strip level.
const STRIP_TRUST: &str = "strip level: forces and arms from first principles with recalled steel properties, cup and tilt \
                           from formulas; not compared with a measured member";

/// Predicts how the member of a checked job distorts. Never fails and never panics on a job whose values are
/// finite and positive, whose pieces cover the member and whose orders are those its passes name.
pub fn predict(job: &Job) -> Prediction {
    predict_with_substeps(job, SUBSTEPS)
}

/// The same with another number of substeps along the member, to see the error of integration fall.
pub fn predict_with_substeps(job: &Job, substeps: f64) -> Prediction {
    let plan = Plan::of(job);
    let march = march::march(job, &plan, substeps, None);
    read(job, &plan, &march, ["formula", TRUST])
}

/// Predicts with the strip model of [`crate::strip`]: shrinkage forces and where they act are computed at stations
/// instead of taken from formulas. All else, cup and tilt too, is that of the formula level.
///
/// # Errors
/// [`StripFailure`] where the strip model has no answer: a fillet its plates cannot take, or a step without temperatures
/// or equilibrium.
pub fn predict_strip(job: &Job) -> Result<Prediction, StripFailure> {
    predict_strip_with(job, StripSettings::STANDARD)
}

/// The same with other settings, to see its errors fall.
///
/// # Errors
/// As [`predict_strip`].
pub fn predict_strip_with(job: &Job, settings: StripSettings) -> Result<Prediction, StripFailure> {
    let plan = Plan::of(job);
    let stations = Stations::solve(job, &plan, settings)?;
    let march = march::march(job, &plan, SUBSTEPS, Some(&stations));
    let mut prediction = read(job, &plan, &march, ["strip", STRIP_TRUST]);
    strip_notes::add(job, &stations, &predict(job), &mut prediction);
    Ok(prediction)
}

/// Reads a walk.
fn read(job: &Job, plan: &Plan, march: &March, [level, trust]: [&'static str; 2]) -> Prediction {
    let camber = shapes::camber(job, march);
    let sweep = shapes::sweep(job, march);
    let shortening = shapes::shortening(job, march);
    let flanges = flanges::flanges(job, plan);
    let ripple = ripple(job, march);
    let length = (shortening.centroid_mm, shortening.centroid_2s_mm);
    Prediction {
        title: job.title.clone(),
        model: Model { level, e_mpa: job.member.steel.e_mpa, yield_mpa: job.member.steel.yield_mpa, trust },
        shortening_mm: shortening.centroid_mm,
        passes: shapes::passes(job, march),
        build_up: shapes::build_up(job, march),
        fit_up: shapes::fit_up(job, plan),
        estimates: estimates::estimates(job, plan, march, &flanges),
        verdicts: verdicts::verdicts(job, &camber, &sweep, length, &flanges),
        allowance: allowance::allowance(job, march, &camber, &flanges),
        mass_kg: mass_kg(&plan.spans),
        strip: None,
        warnings: cautions::warnings(job, march, &camber, &sweep, &flanges, &ripple),
        shortening,
        camber,
        sweep,
        flanges,
        ripple,
    }
}

/// The bows and flanges of [`predict`] alone, for many drawn pieces: bit for bit the same, at a part of its time.
pub fn predict_shape(job: &Job) -> ShapeAlone {
    let plan = Plan::of(job);
    let march = march::march(job, &plan, SUBSTEPS, None);
    ShapeAlone {
        camber: shapes::camber(job, &march),
        sweep: shapes::sweep(job, &march),
        flanges: flanges::flanges(job, &plan),
    }
}

fn ripple(job: &Job, march: &March) -> Vec<Ripple> {
    march
        .web
        .iter()
        .map(|&(x_mm, compression_mpa, web_mm, depth_mm)| {
            let critical = |k| critical_mpa(k, web_mm, depth_mm, job.member.steel.e_mpa);
            let (low, high) = (critical(K_HINGED), critical(K_CLAMPED));
            let verdict = match compression_mpa {
                c if c <= low => RippleVerdict::Flat,
                c if c <= high => RippleVerdict::Possible,
                _ => RippleVerdict::Likely,
            };
            Ripple { x_mm, compression_mpa, critical_low_mpa: low, critical_high_mpa: high, verdict }
        })
        .collect()
}

/// Plates only; weld metal adds less than 1 %.
fn mass_kg(spans: &[Span]) -> f64 {
    let volume = |span: &Span| {
        let along = (1.0 + span.slope * span.slope).sqrt();
        let (outer, inner) = (span.plates.flange_mm(Seam::Outer), span.plates.flange_mm(Seam::Inner));
        let depth = span.depth_mm(span.middle_mm());
        span.length_mm() * (span.plates.web_mm * depth + outer.0 * outer.1 + inner.0 * inner.1 * along)
    };
    DENSITY_KG_PER_MM3 * spans.iter().map(volume).sum::<f64>()
}
