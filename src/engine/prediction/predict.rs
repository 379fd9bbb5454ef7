//! Job → prediction, one line a step.

use super::alike::{Alike, SUBSTEPS};
use super::cross::CrossWelds;
use super::lay_formula::ByFormula;
use super::learned::Assembly;
use super::plan::WalkPlan;
use super::plates::Brought;
use super::result::{Allowance, FlangeAngles, Model, Prediction, ShapeAlone, Twist};
use super::side_by_side::SideBySide;
use super::uncertainty::Bias;
use super::unsure::Unsure;
use super::verdicts::JudgedShape;
use super::walk::{self, Keep, Walk};
use super::wanted::Wanted;
use super::{Job, cautions, cut_length, estimates, flanges, shapes, twist, verdicts, waves};
use crate::member::{Seam, Span};
use crate::numerics::{LANES, Lanes, Work, wide};
use crate::steel::DENSITY_KG_PER_MM3;
use crate::tolerance::{Quantity, Verdict};

/// What the numbers of this level rest on.
const TRUST: &str = "formula level: constants from own section calculations and recalled handbooks; \
                     not compared with a measured member";

/// Predicts how the member of a checked job distorts. Never fails and never panics on a job whose values are
/// finite and positive, whose pieces cover the member and whose orders are those its passes name.
pub fn predict(job: &Job) -> Prediction {
    predict_with_substeps(job, SUBSTEPS)
}

/// The same with another number of substeps along the member, to see the error of integration fall.
pub fn predict_with_substeps(job: &Job, substeps: f64) -> Prediction {
    let plan = WalkPlan::of(job);
    let march = walk::walk(job, &plan, substeps, Keep::Passes, &mut ByFormula::new(&mut Vec::new()));
    read(job, &plan, &march, Bias::FORMULA, ["formula", TRUST], &Wanted::ALL)
}

/// The same with only what is wanted of it: the rest stays empty. What is there is bit for bit that of [`predict`].
pub fn predict_only(job: &Job, wanted: &Wanted) -> Prediction {
    let plan = WalkPlan::of(job);
    let march = walk::walk(job, &plan, SUBSTEPS, wanted.keep(), &mut ByFormula::new(&mut Vec::new()));
    read(job, &plan, &march, Bias::FORMULA, ["formula", TRUST], wanted)
}

/// The same of many jobs, those of one layout side by side, each shown in its turn as soon as it is there, with its job. What a job gets
/// does not depend on the others, and is that of [`predict`] but for the last bits of exponentials and logarithms.
pub(crate) fn predict_each(jobs: &[Job], wanted: &Wanted, mut take: impl FnMut(&Job, &Prediction)) {
    let mut all: Vec<Alike<'_>> = Vec::with_capacity(jobs.len());
    for job in jobs {
        all.push(Alike::after(all.last(), job));
    }
    let mut left = &all[..];
    let mut rooms = Default::default();
    while let Some(first) = left.first() {
        let many = 1 + left[1..].iter().take(LANES - 1).take_while(|other| first.is_like(other)).count();
        let (now, later) = left.split_at(many);
        side_by_side(now, wanted, &mut rooms, &mut take);
        left = later;
    }
}

/// Predicts up to as many jobs of one layout as there are lanes.
fn side_by_side(
    all: &[Alike<'_>],
    wanted: &Wanted,
    (march, one): &mut (Walk<Lanes>, Walk),
    take: &mut impl FnMut(&Job, &Prediction),
) {
    // the last one fills the lanes that are left
    let lanes: [&Alike<'_>; LANES] = std::array::from_fn(|k| &all[k.min(all.len() - 1)]);
    let work = SideBySide { all: &lanes, keep: wanted.keep(), walk: march };
    let plan = if cfg!(wide) { wide(work) } else { work.run() };
    let level = ["formula", TRUST];
    if wanted.bows_alone {
        for (k, Alike { job, .. }) in all.iter().enumerate() {
            march.put_sums(k, one);
            let plan = wanted.flanges.then(|| plan.nth(k));
            take(job, &read_bows(job, plan.as_ref(), one, model(job, level)));
        }
    } else {
        for (k, Alike { job, .. }) in all.iter().enumerate() {
            take(job, &read(job, &plan.nth(k), &march.nth(k), Bias::FORMULA, level, wanted));
        }
    }
}

const fn model(job: &Job, [level, trust]: [&'static str; 2]) -> Model {
    let member = &job.member;
    let (e_mpa, yield_mpa, length_mm) = (member.steel.e_mpa, member.steel.yield_mpa, member.length_mm);
    Model { level, e_mpa, yield_mpa, trust, length_mm }
}

/// The verdicts of [`predict`] alone, without their deviations: for drawn pieces, where each is one size.
pub(crate) fn judged(job: &Job) -> Vec<Verdict> {
    sizes(job, &Unsure::of(job, Bias::FORMULA).silent(), false).verdicts
}

/// What a search judges a job by: bit for bit that of [`predict`], at a part of its time. The twist only if asked for.
pub(crate) fn judged_by(job: &Job, twists: bool) -> Sizes {
    sizes(job, &Unsure::of(job, Bias::FORMULA), twists)
}

/// Verdicts, camber and twist of a job.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Sizes {
    /// Verdicts.
    pub(crate) verdicts: Vec<Verdict>,
    /// Camber, mm.
    pub(crate) camber_mm: f64,
    /// Twist, if asked for.
    pub(crate) twist: Option<Twist>,
}

/// The verdicts of a drawn piece, and as if its plates were straight and well set: by its welds alone. Without their deviations.
pub(crate) fn judged_with_and_without_plates(job: &Job) -> [Vec<Verdict>; 2] {
    let walked = Walked::of(job, false);
    let unsure = Unsure::of(job, Bias::FORMULA).silent();
    let with = walked.sizes(job, &unsure, false).verdicts;
    if job.drawn == Assembly::default() && !walked.brought.is_any() && !job.member.webs_come_wavy() {
        return [with.clone(), with];
    }
    let flanges = flanges::without(&walked.flanges, &job.drawn);
    let bare = Walked { flanges, brought: Brought::STRAIGHT, ..walked };
    [with, bare.sizes(job, &unsure.without(&job.drawn).flat(), false).verdicts]
}

fn sizes(job: &Job, unsure: &Unsure, twists: bool) -> Sizes {
    Walked::of(job, twists).sizes(job, unsure, twists)
}

/// A job walked for its sizes.
struct Walked {
    plan: WalkPlan,
    march: Walk,
    cross: CrossWelds,
    brought: Brought,
    flanges: Vec<FlangeAngles>,
}

impl Walked {
    /// With what a twist and waves of the web are read from, if they are asked for or judged.
    fn of(job: &Job, twists: bool) -> Self {
        let plan = WalkPlan::of(job);
        let judged = |quantity| verdicts::judges(job, quantity);
        let pulls = twists || judged(Quantity::Twist) || judged(Quantity::WebFlatness);
        let keep = if pulls { Keep::Passes } else { Keep::Bows };
        let march = walk::walk(job, &plan, SUBSTEPS, keep, &mut ByFormula::new(&mut Vec::new()));
        let (cross, brought) = (CrossWelds::of(job), Brought::of(job, &march.x_mm));
        let flanges = flanges::flanges(job, &plan);
        Self { plan, march, cross, brought, flanges }
    }

    fn sizes(&self, job: &Job, unsure: &Unsure, twists: bool) -> Sizes {
        let Self { plan, march, cross, brought, flanges } = self;
        let shortening = shapes::shortening(job, march, cross, unsure);
        let [camber, sweep] = shapes::bows(march, (cross, brought), unsure, true);
        let twists = twists || verdicts::judges(job, Quantity::Twist);
        let twist = twists.then(|| twist::twist(job, plan, (march, brought), &sweep, unsure));
        let judges_web = verdicts::judges(job, Quantity::WebFlatness);
        let ripple = if judges_web { waves::ripple(job, plan, march, unsure) } else { Vec::new() };
        let flat = Twist::default();
        let shown = JudgedShape {
            camber: &camber,
            sweep: &sweep,
            twist: twist.as_ref().unwrap_or(&flat),
            shortening: (shortening.centroid_mm, shortening.centroid_2s_mm),
            flanges,
            ripple: &ripple,
        };
        Sizes { verdicts: verdicts::verdicts(job, shown), camber_mm: camber.max_mm, twist }
    }
}

/// Reads the bows and the shortening of a walk, with a plan the flanges too, and nothing else.
fn read_bows(job: &Job, plan: Option<&WalkPlan>, march: &Walk, model: Model) -> Prediction {
    let cross = CrossWelds::of(job);
    let [camber, sweep] = shapes::bows_alone(job, march, &cross);
    let shortening = shapes::shortening_alone(job, march, &cross);
    Prediction {
        title: String::new(),
        model,
        shortening_mm: shortening.centroid_mm,
        shortening,
        camber,
        sweep,
        twist: Twist::default(),
        flanges: plan.map_or_else(Vec::new, |plan| flanges::flanges(job, plan)),
        hold: job.hold,
        passes: Vec::new(),
        build_up: Vec::new(),
        fit_up: Vec::new(),
        estimates: Vec::new(),
        verdicts: Vec::new(),
        allowance: Allowance::default(),
        mass_kg: 0.0,
        strip: None,
        // what takes the meaning of the numbers away is said always
        warnings: cautions::heated_through(march).into_iter().collect(),
        ripple: Vec::new(),
        cross_welds: None,
    }
}

/// Reads a walk.
pub(super) fn read(
    job: &Job,
    plan: &WalkPlan,
    march: &Walk,
    bias: Bias,
    level: [&'static str; 2],
    wanted: &Wanted,
) -> Prediction {
    let model = model(job, level);
    if wanted.bows_alone {
        return read_bows(job, wanted.flanges.then_some(plan), march, model);
    }
    let unsure = Unsure::of(job, bias);
    let cross = CrossWelds::of(job);
    let brought = Brought::of(job, &march.x_mm);
    let shortening = shapes::shortening(job, march, &cross, &unsure);
    let turns = wanted.words || wanted.twist || (wanted.verdicts && verdicts::judges(job, Quantity::Twist));
    // single numbers are read off without the run along the member
    let along = turns || wanted.verdicts || wanted.profiles;
    let [camber, sweep] = shapes::bows(march, (&cross, &brought), &unsure, along);
    let twist =
        if turns { twist::twist(job, plan, (march, &brought), &sweep, &unsure) } else { Twist::default() };
    let folds = wanted.flanges || wanted.estimates || wanted.verdicts || wanted.words;
    let flanges = if folds { flanges::flanges(job, plan) } else { Vec::new() };
    let judged = wanted.verdicts && verdicts::judges(job, Quantity::WebFlatness);
    let ripple = match (wanted.waves || wanted.words || judged, wanted.ripple) {
        (true, _) => waves::ripple(job, plan, march, &unsure),
        (false, true) => waves::pressed(job, plan, march),
        (false, false) => Vec::new(),
    };
    let length = (shortening.centroid_mm, shortening.centroid_2s_mm);
    Prediction {
        title: if wanted.words { job.title.clone() } else { String::new() },
        model,
        shortening_mm: shortening.centroid_mm,
        passes: if wanted.passes { shapes::passes(job, march, along) } else { Vec::new() },
        build_up: if wanted.build_up { shapes::build_up(job, march, &cross) } else { Vec::new() },
        fit_up: if wanted.words { shapes::fit_up(job, plan) } else { Vec::new() },
        estimates: if wanted.estimates {
            estimates::estimates(job, plan, march, &flanges)
        } else {
            Vec::new()
        },
        verdicts: if wanted.verdicts {
            let shown = JudgedShape {
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
            Allowance::default()
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
pub(crate) fn predict_shape(job: &Job) -> ShapeAlone {
    let plan = WalkPlan::of(job);
    let march = walk::walk(job, &plan, SUBSTEPS, Keep::Bows, &mut ByFormula::new(&mut Vec::new()));
    let unsure = Unsure::of(job, Bias::FORMULA);
    let (cross, brought) = (CrossWelds::of(job), Brought::of(job, &march.x_mm));
    let [camber, sweep] = shapes::bows(&march, (&cross, &brought), &unsure, true);
    ShapeAlone { camber, sweep, flanges: flanges::flanges(job, &plan) }
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
