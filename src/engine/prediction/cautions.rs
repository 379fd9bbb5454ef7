//! Warnings the numbers call for. Each says what was found and what to do.

use super::march::March;
use super::result::{Bow, FlangeShape, Ripple, RippleVerdict};
use super::{Code, Factors, Job, Warning};
use crate::member::Seam;
use crate::shrinkage::tendon::HEATED_THROUGH_K;
use crate::strength::{LEG_OVER_PLATE, minimum_leg_mm};
use crate::units::show;
use crate::welding::Pass;

/// Heat parameter above which the cup curve is least certain, J/mm³.
const CUP_UNCERTAIN_Q: f64 = 10.0;
/// Bow over length beyond which something is unusual: finished members lie at L/3000 … L/500.
const LARGE_BOW: f64 = 1.0 / 300.0;
/// Deepest web, widest and thickest flange of a usual pull-through line, mm: 72 in, 20 in, 1-1/4 in
/// (common practice, no source).
const LINE_MM: (f64, f64, f64) = (1828.8, 508.0, 31.75);
/// Flange thickness from which codes usually ask for preheat, mm (3/4 in; AWS D1.1 preheat table, memory).
const PREHEAT_MM: f64 = 19.05;

/// What the job alone calls for, notes from reading it first: nothing is predicted.
pub fn job_warnings(job: &Job) -> Vec<Warning> {
    let mut out = job.notes.clone();
    steep(job, &mut out);
    line(job, &mut out);
    legs(job, &mut out);
    seams(job, &mut out);
    preheat(job, &mut out);
    factors(job, &mut out);
    out
}

/// All warnings, those of the job first.
pub fn warnings(
    job: &Job,
    march: &March,
    camber: &Bow,
    sweep: &Bow,
    flanges: &[FlangeShape],
    ripple: &[Ripple],
) -> Vec<Warning> {
    let mut out = job_warnings(job);
    cups(flanges, &mut out);
    heat(march, &mut out);
    waves(job, ripple, &mut out);
    bows(job, camber, sweep, &mut out);
    out
}

fn steep(job: &Job, out: &mut Vec<Warning>) {
    let steepest = job.member.depth.steepest_deg();
    if steepest > job.head_limit_deg {
        out.push(Warning::new(
            Code::TaperSteep,
            format!(
                "the inner flange is inclined by {steepest:.1}°, more than the {:.0}° the weld heads follow: plan a hand or \
                 tractor weld there, or flatten the taper",
                job.head_limit_deg
            ),
        ));
    }
}

fn line(job: &Job, out: &mut Vec<Warning>) {
    let (deepest, widest, thickest) = LINE_MM;
    let show = |mm| show::plate(mm, job.units);
    let depth = job.member.depth.deepest_mm();
    if depth > deepest {
        let text = format!("web {} deep: most pull-through lines take {}", show(depth), show(deepest));
        out.push(Warning::new(Code::LineLimit, text));
    }
    let flanges = || Seam::BOTH.into_iter().flat_map(|seam| job.member.flange(seam));
    let (width, thickness) =
        flanges().fold((0.0_f64, 0.0_f64), |(w, t), p| (w.max(p.width_mm), t.max(p.thickness_mm)));
    if width > widest || thickness > thickest {
        let text = format!(
            "flange {} × {}: most pull-through lines take {} × {}",
            show(width),
            show(thickness),
            show(widest),
            show(thickest)
        );
        out.push(Warning::new(Code::LineLimit, text));
    }
}

/// Thinnest of web and flange along a pass, mm.
fn thinner_mm(job: &Job, pass: &Pass) -> f64 {
    let along = |from: f64, to: f64| from < pass.to_mm && to > pass.from_mm;
    let web = job.member.web.iter().filter(|p| along(p.from_mm, p.to_mm)).map(|p| p.thickness_mm);
    let flange =
        job.member.flange(pass.seam).iter().filter(|p| along(p.from_mm, p.to_mm)).map(|p| p.thickness_mm);
    web.chain(flange).fold(f64::INFINITY, f64::min)
}

fn legs(job: &Job, out: &mut Vec<Warning>) {
    let show = |mm| show::plate(mm, job.units);
    for pass in &job.passes {
        let thinner = thinner_mm(job, pass);
        let name = format!("{} seam, {} side, order {}", pass.seam.name(), pass.side.name(), pass.order);
        let least = minimum_leg_mm(thinner);
        if pass.leg_mm > LEG_OVER_PLATE * thinner + 0.05 {
            let text = format!(
                "{name}: leg {} on a {} plate; above {:.1} times the plate a single pass risks burning through and \
                 distorts for nothing: use a smaller leg",
                show(pass.leg_mm),
                show(thinner),
                LEG_OVER_PLATE
            );
            out.push(Warning::new(Code::LegLarge, text));
        } else if pass.leg_mm < least - 0.05 {
            let text = format!(
                "{name}: leg {} is below {}, the usual minimum for a {} part (AISC 360-22 Table J2.4): check the code",
                show(pass.leg_mm),
                show(least),
                show(thinner)
            );
            out.push(Warning::new(Code::LegSmall, text));
        }
    }
}

fn seams(job: &Job, out: &mut Vec<Warning>) {
    for seam in Seam::BOTH {
        if job.passes.iter().all(|p| p.seam != seam) {
            let text =
                format!("no pass on the {} seam: its flange is taken as joined but unwelded", seam.name());
            out.push(Warning::new(Code::SeamUnwelded, text));
        }
    }
}

fn preheat(job: &Job, out: &mut Vec<Warning>) {
    let thick = |seam| job.member.flange(seam).iter().map(|p| p.thickness_mm).fold(0.0, f64::max);
    let thickest = thick(Seam::Outer).max(thick(Seam::Inner));
    if thickest > PREHEAT_MM && job.passes.iter().any(|p| p.preheat_k < 1.0) {
        let text = format!(
            "flange {} thick and no preheat given: welding codes usually ask for some from {} on; check, and state it in \
             the procedure",
            show::plate(thickest, job.units),
            show::plate(PREHEAT_MM, job.units)
        );
        out.push(Warning::new(Code::Preheat, text));
    }
}

fn factors(job: &Job, out: &mut Vec<Warning>) {
    let Factors { force, heat_from_leg, arm, cup, tilt } = job.factors;
    let of_pass = job.passes.iter().any(|pass| (pass.force_factor - 1.0).abs() > 0.0);
    if !job.factors.is_none() || of_pass {
        let passes = if of_pass { ", and single passes by their own factors" } else { "" };
        let text = format!(
            "the job multiplies what the model computes: force × {force:.3}, heat from leg × {heat_from_leg:.3}, lateral arm × {arm:.3}, cup × {cup:.3}, \
             tilt × {tilt:.3}{passes}"
        );
        out.push(Warning::new(Code::Factors, text));
    }
}

fn cups(flanges: &[FlangeShape], out: &mut Vec<Warning>) {
    let worst = flanges.iter().max_by(|a, b| a.q_j_per_mm3.total_cmp(&b.q_j_per_mm3));
    if let Some(f) = worst.filter(|f| f.q_j_per_mm3 > CUP_UNCERTAIN_Q) {
        let text = format!(
            "{} flange: much heat for its thickness (q = {:.1} J/mm³, beyond {CUP_UNCERTAIN_Q:.0}); the cup there is the \
             least certain number of this prediction: measure the first piece",
            f.flange.name(),
            f.q_j_per_mm3
        );
        out.push(Warning::new(Code::CupUncertain, text));
    }
}

fn heat(march: &March, out: &mut Vec<Warning>) {
    if march.warmest_k > HEATED_THROUGH_K {
        let text = format!(
            "the whole section warms by {:.0} K while it is welded, more than the {HEATED_THROUGH_K:.0} K at which it yields \
             all over: forces are outside what this model covers; weld the seams one after the other or use less heat",
            march.warmest_k
        );
        out.push(Warning::new(Code::HeatedThrough, text));
    }
    if march.capped {
        let text = "several passes overlap warm: their force is held at what the junction can carry at yield";
        out.push(Warning::new(Code::YieldCap, text));
    }
}

fn waves(job: &Job, ripple: &[Ripple], out: &mut Vec<Warning>) {
    let over = |r: &Ripple| r.compression_mpa / r.critical_low_mpa;
    let Some(worst) = ripple.iter().max_by(|a, b| over(a).total_cmp(&over(b))) else { return };
    let words = match worst.verdict {
        RippleVerdict::Flat => return,
        RippleVerdict::Possible => "may ripple",
        RippleVerdict::Likely => "is likely to ripple",
    };
    let stress = |mpa| show::stress(mpa, job.units);
    let text = format!(
        "the web {words} about {}: weld shrinkage presses it with {}, it buckles between {} and {}; less heat, a thicker web \
         or stiffeners help, and camber and shortening are less sure",
        show::position(worst.x_mm, job.units),
        stress(worst.compression_mpa),
        stress(worst.critical_low_mpa),
        stress(worst.critical_high_mpa)
    );
    out.push(Warning::new(Code::Ripple, text));
}

fn bows(job: &Job, camber: &Bow, sweep: &Bow, out: &mut Vec<Warning>) {
    for (name, bow) in [("camber", camber), ("sweep", sweep)] {
        if bow.max_mm.abs() > LARGE_BOW * job.member.length_mm {
            let text = format!(
                "{name} of {} is more than 1/300 of the length; finished members usually lie within 1/500: check heat and legs",
                show::offset(bow.max_mm.abs(), job.units)
            );
            out.push(Warning::new(Code::BowLarge, text));
        }
    }
}
