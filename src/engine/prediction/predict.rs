//! Job → prediction, one line a step.

use super::cross::CrossWelds;
use super::lay_formula::ByFormula;
use super::plan::Plan;
use super::result::{Allowance, Model, Prediction, ShapeAlone};
use super::shapes::Unsure;
use super::stations::{Stations, StripFailure};
use super::strip_forces::ByStations;
use super::uncertainty::Bias;
use super::verdicts::Shown;
use super::walk::{self, SUBSTEPS, Walk};
use super::{Job, cautions, cut_length, estimates, flanges, shapes, strip_notes, twist, verdicts, waves};
use crate::member::{Seam, Span};
use crate::steel::DENSITY_KG_PER_MM3;
use crate::strip::StripSettings;
use crate::tolerance::Verdict;

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
    let march = walk::walk(job, &plan, substeps, &mut ByFormula::default());
    read(job, &plan, &march, Bias::FORMULA, ["formula", TRUST], &Wanted::ALL)
}

/// The same with only what is wanted of it: the rest stays empty. What is there is bit for bit that of [`predict`].
pub fn predict_only(job: &Job, wanted: &Wanted) -> Prediction {
    let plan = Plan::of(job);
    let march = walk::walk(job, &plan, SUBSTEPS, &mut ByFormula::default());
    read(job, &plan, &march, Bias::FORMULA, ["formula", TRUST], wanted)
}

/// The same of many jobs, in their order.
pub fn predict_many(jobs: &[Job], wanted: &Wanted) -> Vec<Prediction> {
    jobs.iter().map(|job| predict_only(job, wanted)).collect()
}

/// The verdicts of [`predict`] alone.
pub fn judged(job: &Job) -> Vec<Verdict> {
    let plan = Plan::of(job);
    let march = walk::walk(job, &plan, SUBSTEPS, &mut ByFormula::default());
    let unsure = Unsure::of(job, Bias::FORMULA);
    let cross = CrossWelds::of(job);
    let shortening = shapes::shortening(&march, &cross, &unsure);
    let length = (shortening.centroid_mm, shortening.centroid_2s_mm);
    let (camber, sweep) = (shapes::camber(&march, &cross, &unsure), shapes::sweep(&march, &cross, &unsure));
    let twist = twist::twist(job, &plan, &march, &sweep, &unsure);
    let judges_web = verdicts::judges_web(job);
    let ripple = if judges_web { waves::ripple(job, &plan, &march, unsure.force) } else { Vec::new() };
    let flanges = flanges::flanges(job, &plan);
    let shown = Shown {
        camber: &camber,
        sweep: &sweep,
        twist: &twist,
        shortening: length,
        flanges: &flanges,
        ripple: &ripple,
    };
    verdicts::verdicts(job, shown)
}

/// What of a prediction is wanted beside its bows, shortening and flanges.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Wanted {
    /// Pass by pass, and the shape after each.
    pub passes: bool,
    /// Web compression.
    pub ripple: bool,
    /// Published estimates.
    pub estimates: bool,
    /// Verdicts.
    pub verdicts: bool,
    /// Mass.
    pub mass: bool,
    /// Title, allowances, flanges that joined late, warnings: what people read.
    pub words: bool,
}

impl Wanted {
    /// Everything.
    pub const ALL: Self =
        Self { passes: true, ripple: true, estimates: true, verdicts: true, mass: true, words: true };
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
    // what was learned is how far the formulas are off
    let bare = job.unlearned();
    let job = &bare;
    let plan = Plan::of(job);
    let stations = Stations::solve(job, &plan, settings)?;
    let march = walk::walk(job, &plan, SUBSTEPS, &mut ByStations::new(&stations));
    let mut prediction = read(job, &plan, &march, Bias::STRIP, ["strip", STRIP_TRUST], &Wanted::ALL);
    strip_notes::add(job, &stations, &predict(job), &mut prediction);
    Ok(prediction)
}

/// Reads a walk.
fn read(
    job: &Job,
    plan: &Plan,
    march: &Walk,
    bias: Bias,
    [level, trust]: [&'static str; 2],
    wanted: &Wanted,
) -> Prediction {
    let unsure = Unsure::of(job, bias);
    let cross = CrossWelds::of(job);
    let camber = shapes::camber(march, &cross, &unsure);
    let sweep = shapes::sweep(march, &cross, &unsure);
    let shortening = shapes::shortening(march, &cross, &unsure);
    let twist = twist::twist(job, plan, march, &sweep, &unsure);
    let flanges = flanges::flanges(job, plan);
    let judged = wanted.verdicts && verdicts::judges_web(job);
    let ripple = if wanted.ripple || wanted.words || judged {
        waves::ripple(job, plan, march, unsure.force)
    } else {
        Vec::new()
    };
    let length = (shortening.centroid_mm, shortening.centroid_2s_mm);
    Prediction {
        title: if wanted.words { job.title.clone() } else { String::new() },
        model: Model { level, e_mpa: job.member.steel.e_mpa, yield_mpa: job.member.steel.yield_mpa, trust },
        shortening_mm: shortening.centroid_mm,
        passes: if wanted.passes { shapes::passes(job, march) } else { Vec::new() },
        build_up: if wanted.passes { shapes::build_up(job, march, &cross) } else { Vec::new() },
        fit_up: if wanted.words { shapes::fit_up(job, plan) } else { Vec::new() },
        estimates: if wanted.estimates {
            estimates::estimates(job, plan, march, &flanges)
        } else {
            Vec::new()
        },
        verdicts: if wanted.verdicts {
            let shown = Shown {
                camber: &camber,
                sweep: &sweep,
                twist: &twist,
                shortening: length,
                flanges: &flanges,
                ripple: &ripple,
            };
            verdicts::verdicts(job, shown)
        } else {
            Vec::new()
        },
        allowance: if wanted.words {
            cut_length::allowance(job, march, &cross, &camber, &flanges)
        } else {
            Allowance { pieces: Vec::new(), web_edges: Vec::new(), presets: Vec::new() }
        },
        mass_kg: if wanted.mass { mass_kg(&plan.spans) } else { 0.0 },
        strip: None,
        warnings: if wanted.words {
            cautions::warnings(job, march, [&camber, &sweep], &twist, &flanges, &ripple)
        } else {
            // what takes the meaning of the numbers away is said always
            cautions::heated_through(march).into_iter().collect()
        },
        cross_welds: Some(cross).filter(|cross| !cross.is_empty()),
        shortening,
        camber,
        sweep,
        twist,
        flanges,
        hold: job.hold,
        ripple,
    }
}

/// The bows and flanges of [`predict`] alone, for many drawn pieces: bit for bit the same, at a part of its time.
pub fn predict_shape(job: &Job) -> ShapeAlone {
    let plan = Plan::of(job);
    let march = walk::walk(job, &plan, SUBSTEPS, &mut ByFormula::default());
    let unsure = Unsure::of(job, Bias::FORMULA);
    let cross = CrossWelds::of(job);
    ShapeAlone {
        camber: shapes::camber(&march, &cross, &unsure),
        sweep: shapes::sweep(&march, &cross, &unsure),
        flanges: flanges::flanges(job, &plan),
    }
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
