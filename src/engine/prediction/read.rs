//! Walk → prediction, one line a step.

use super::cross::CrossWelds;
use super::flanges::Folds;
use super::plan::WalkPlan;
use super::plates::Brought;
use super::result::{Allowance, Bow, Model, Prediction, Shortening, Twist};
use super::shapes::Beside;
use super::sizes::{Laid, Sizes};
use super::uncertainty::Bias;
use super::unsure::Unsure;
use super::verdicts::{self, JudgedShape, judges};
use super::walk::Walk;
use super::wanted::Wanted;
use super::waves::{Came, Waved};
use super::{Job, cautions, cut_length, estimates, shapes, twist, waves};
use crate::member::{Seam, Span};
use crate::numerics::Number;
use crate::steel::DENSITY_KG_PER_MM3;
use crate::tolerance::Quantity;

/// The formula level, and what its numbers rest on.
pub(super) const FORMULA: [&str; 2] = [
    "formula",
    "formula level: constants from own section calculations and recalled handbooks; not compared with a measured member",
];
/// The same of the strip level.
pub(super) const STRIP: [&str; 2] = [
    "strip",
    "strip level: forces and arms from first principles with recalled steel properties, cup and tilt from formulas; \
     not compared with a measured member",
];

const fn model(job: &Job, [level, trust]: [&'static str; 2]) -> Model {
    let member = &job.member;
    let (e_mpa, yield_mpa, length_mm) = (member.steel.e_mpa, member.steel.yield_mpa, member.length_mm);
    Model { level, e_mpa, yield_mpa, trust, length_mm }
}

/// A prediction of which nothing is read yet.
pub(super) fn nothing(job: &Job, level: [&'static str; 2]) -> Prediction {
    Prediction {
        title: String::new(),
        model: model(job, level),
        shortening_mm: 0.0,
        shortening: Shortening::default(),
        camber: Bow::default(),
        sweep: Bow::default(),
        twist: Twist::default(),
        passes: Vec::new(),
        build_up: Vec::new(),
        cross_welds: None,
        fit_up: Vec::new(),
        flanges: Vec::new(),
        hold: job.hold,
        ripple: Vec::new(),
        estimates: Vec::new(),
        verdicts: Vec::new(),
        allowance: Allowance::default(),
        mass_kg: 0.0,
        strip: None,
        warnings: Vec::new(),
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
    let unsure = Unsure::of(job, bias);
    let cross = CrossWelds::of(job);
    let brought = Brought::of(job, &march.x_mm);
    let shortening = shapes::shortening(job, march, &cross, &unsure);
    let judges = |quantity| wanted.verdicts.contains(quantity) && judges(job, quantity);
    let turns = wanted.words || wanted.twist || judges(Quantity::Twist);
    // single numbers are read off without the run along the member
    let along = turns || wanted.verdicts.any() || wanted.profiles;
    let beside = Beside { k: 0, cross: &cross, brought: &brought, rise_mm: unsure.rise_mm };
    let [camber, sweep] = shapes::bows(march, &beside, &unsure, along);
    let shortening_mm = shortening.centroid_mm;
    let mut p = Prediction { camber, sweep, shortening, shortening_mm, ..nothing(job, level) };
    if turns {
        p.twist = twist::twist(job, plan, (march, &brought), &p.sweep, &unsure);
    }
    if wanted.flanges || wanted.estimates || wanted.verdicts.any() || wanted.words {
        Folds::of(&[job], plan).stretches((job, 0), plan, &job.brought(), false, &mut p.flanges);
    }
    if wanted.waves || wanted.words || judges(Quantity::WebFlatness) {
        let came = Came { waves: unsure.waves, flat: false };
        let waved = waves::unsure_waves(&[job], plan, march, came, unsure.force.hypot(unsure.heat));
        p.ripple = waved.iter().map(|waved| waved.read(0)).collect();
    } else if wanted.ripple {
        p.ripple = waves::pressed(plan, march).map(|pressed| pressed.read(0)).collect();
    }
    if wanted.passes {
        p.passes = shapes::passes(job, march, along);
    }
    if wanted.build_up {
        p.build_up = shapes::build_up(job, march, &cross);
    }
    if wanted.estimates {
        p.estimates = estimates::estimates(job, plan, march, &p.flanges);
    }
    if wanted.verdicts.any() {
        let waves: Vec<[f64; 3]> = if wanted.piece {
            let came = Came { waves: unsure.waves, flat: false };
            let half_mm = waves::waves(&[job], plan, march, [came]);
            march.web.iter().zip(half_mm).map(|(part, [mm])| [part.x_mm, mm, 0.0]).collect()
        } else {
            p.ripple.iter().map(|r| [r.x_mm, r.wave_mm, r.wave_2s_mm]).collect()
        };
        let shown = JudgedShape {
            camber: &p.camber,
            sweep: &p.sweep,
            twist: &p.twist,
            shortening: (p.shortening.centroid_mm, p.shortening.centroid_2s_mm),
            flanges: &p.flanges,
            waves: &waves,
        };
        verdicts::verdicts(job, shown, |quantity| wanted.verdicts.contains(quantity), &mut p.verdicts);
    }
    if wanted.mass {
        p.mass_kg = mass_kg(&plan.spans, 0);
    }
    if wanted.words {
        p.title.clone_from(&job.title);
        p.fit_up = shapes::fit_up(job, plan);
        p.allowance = cut_length::allowance(job, march, &cross, &p.camber, &p.flanges);
        p.warnings = cautions::warnings(job, march, [&p.camber, &p.sweep], &p.twist, &p.flanges, &p.ripple);
    } else {
        // what takes the meaning of the numbers away is said always
        p.warnings = cautions::heated_through(march.warmest_k).into_iter().collect();
    }
    p.cross_welds = Some(cross).filter(|cross| !cross.is_empty());
    p
}

/// Reads the sizes of one job of a walk into a prediction of [`nothing`] else, which may have held those of another job; `waved` is the web of all of
/// them, if its waves are wanted or judged.
pub(super) fn read_sizes<N: Number>(
    job: &Job,
    k: usize,
    laid: &Laid<'_, N, 1>,
    waved: Option<&[Waved<N>]>,
    wanted: &Wanted,
    (p, room): &mut (Prediction, [Sizes; 1]),
) {
    // the waves of a piece are among its sizes
    let cross = laid.read(k, room);
    let [sizes] = room;
    p.ripple.clear();
    if wanted.waves || wanted.ripple {
        match waved {
            Some(waved) => p.ripple.extend(waved.iter().map(|waved| waved.read(k))),
            None => p.ripple.extend(laid.pressed(k)),
        }
    }
    if wanted.verdicts.any() {
        if !wanted.piece {
            sizes.waves.extend(waved.into_iter().flatten().map(|waved| waved.size(k)));
        }
        let judged = |quantity| wanted.verdicts.contains(quantity);
        verdicts::verdicts(job, sizes.judged(), judged, &mut p.verdicts);
    }
    (p.model, p.hold) = (model(job, FORMULA), job.hold);
    std::mem::swap(&mut p.camber, &mut sizes.camber);
    std::mem::swap(&mut p.sweep, &mut sizes.sweep);
    std::mem::swap(&mut p.flanges, &mut sizes.flanges);
    (p.shortening, p.shortening_mm) = (sizes.shortening, sizes.shortening.centroid_mm);
    p.mass_kg = if wanted.mass { mass_kg(&laid.plan.spans, k) } else { 0.0 };
    p.cross_welds = Some(cross).filter(|cross| !cross.is_empty());
    p.warnings.clear();
    p.warnings.extend(cautions::heated_through(laid.march.warmest_k.nth(k)));
}

/// Plates only; weld metal adds less than 1 %.
fn mass_kg<N: Number>(spans: &[Span<N>], k: usize) -> f64 {
    let volume = |span: Span| {
        let along = (1.0 + span.slope * span.slope).sqrt();
        let (outer, inner) = (span.plates.flange_mm(Seam::Outer), span.plates.flange_mm(Seam::Inner));
        let depth = span.depth_mm(span.middle_mm());
        span.length_mm() * (span.plates.web_mm * depth + outer.0 * outer.1 + inner.0 * inner.1 * along)
    };
    DENSITY_KG_PER_MM3 * spans.iter().map(|span| volume(span.nth(k))).sum::<f64>()
}
