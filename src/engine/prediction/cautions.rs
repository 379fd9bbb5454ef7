//! Warnings the numbers call for. Each says what was found and what to do.

use super::cold::too_cold;
use super::open_seams;
use super::result::{Bow, FlangeAngles, Ripple, RippleVerdict, Twist};
use super::walk::Walk;
use super::{Factors, Job, Warning, WarningCode};
use crate::member::{Seam, spans};
use crate::shrinkage::tendon::HEATED_THROUGH_K;
use crate::strength::{LEG_OVER_PLATE, Needed, SAME_LEG_MM, minimum, needed_leg};
use crate::units::{Message, Part};
use crate::welding::{Pass, fillet};

/// Heat parameter above which the cup curve is least certain, J/mm³: the table it is fitted to ends at 12.
const CUP_UNCERTAIN_Q: f64 = 12.0;
/// Bow over length beyond which something is unusual: finished members lie at L/3000 … L/500 (common practice, no
/// source; the limit is a choice).
const LARGE_BOW: f64 = 1.0 / 300.0;
/// Sweep of the flanges apart from which the turn of the member is worth a warning, mm (choice: less is lost among cup and
/// tilt).
const APART_MM: f64 = 1.0;
/// Mean temperature rise of plates that a flange joins from which that is worth a warning, K (choice: what it locks in is a tenth of what a weld does).
const JOINED_WARM_K: f64 = 2.0;
/// Rule for the smallest fillet of a job that does not say what its welds carry.
const USUAL_MINIMUM: &str = "aisc-360";
/// Deepest web, widest and thickest flange that a welding line is taken to hold, mm (choice, round values of our own).
const LINE_MM: (f64, f64, f64) = (1800.0, 500.0, 32.0);

/// What the job alone calls for, notes from reading it first: nothing is predicted.
pub fn job_warnings(job: &Job) -> Vec<Warning> {
    let mut out = job.notes.clone();
    steep(job, &mut out);
    line(job, &mut out);
    legs(job, &mut out);
    open_seams::warn(job, &mut out);
    preheat(job, &mut out);
    factors(job, &mut out);
    out
}

/// All warnings, those of the job first.
pub(super) fn warnings(
    job: &Job,
    march: &Walk,
    [camber, sweep]: [&Bow; 2],
    twist: &Twist,
    flanges: &[FlangeAngles],
    ripple: &[Ripple],
) -> Vec<Warning> {
    let mut out = job_warnings(job);
    cups(flanges, &mut out);
    heat(march, &mut out);
    waves(ripple, &mut out);
    bows(job, camber, sweep, &mut out);
    turns(twist, &mut out);
    out
}

fn steep(job: &Job, out: &mut Vec<Warning>) {
    let steepest = job.member.depth.steepest_deg();
    if steepest > job.head_limit_deg {
        out.push(Warning::new(
            WarningCode::TaperSteep,
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
    let depth = job.member.depth.deepest_mm();
    if depth > deepest {
        let text = Message::of(
            "web {} deep: a pull-through line is taken to reach {} (our choice: ask what yours takes)",
            [depth, deepest].map(Part::Plate),
        );
        out.push(Warning::new(WarningCode::LineLimit, text));
    }
    let flanges = Seam::BOTH.into_iter().flat_map(|seam| job.member.flange(seam));
    let over = flanges.map(|p| (p.width_mm, p.thickness_mm)).filter(|(w, t)| *w > widest || *t > thickest);
    // of several the one that is farthest over: a plate of this member, not the sizes of two
    let part = |(w, t): &(f64, f64)| (w / widest).max(t / thickest);
    if let Some((width, thickness)) = over.max_by(|a, b| part(a).total_cmp(&part(b))) {
        let text = Message::of(
            "flange {} × {}: a pull-through line is taken to hold {} × {} (our choice: ask what yours takes)",
            [width, thickness, widest, thickest].map(Part::Plate),
        );
        out.push(Warning::new(WarningCode::LineLimit, text));
    }
}

fn legs(job: &Job, out: &mut Vec<Warning>) {
    // a run that a later one builds upon is no fillet by itself
    let goes_on = |pass: &Pass| {
        let over = |o: &Pass| o.from_mm < pass.to_mm && o.to_mm > pass.from_mm;
        let later = |o: &Pass| o.order > pass.order && o.leg_mm > pass.leg_mm;
        job.passes.iter().any(|o| (o.seam, o.side) == (pass.seam, pass.side) && later(o) && over(o))
    };
    for pass in job.passes.iter().filter(|&pass| !goes_on(pass)) {
        let thinner = job.plates_along_mm(pass).0;
        let name = format!("{} seam, {} side, step {}", pass.seam.name(), pass.side.name(), pass.order);
        // a run burns through by its own metal, with what a root gap takes of it
        let own_mm = pass.own_leg_mm();
        let filled_mm = fillet::leg_of_deposit_mm(pass.deposit_mm2);
        let laid_mm = fillet::laid_leg_mm(own_mm, job.fit_up_gap_mm).min(filled_mm).max(own_mm);
        let over_gap = if laid_mm > own_mm + SAME_LEG_MM { " with what fills the root gap" } else { "" };
        if laid_mm > LEG_OVER_PLATE * thinner + 0.05 {
            let text = Message::of(
                "{}: leg {}{} on a {} plate; above {} times the plate a single pass risks burning through and distorts for \
                 nothing: use a smaller leg",
                [
                    name.into(),
                    Part::Plate(laid_mm),
                    over_gap.into(),
                    Part::Plate(thinner),
                    format!("{LEG_OVER_PLATE:.1}").into(),
                ],
            );
            out.push(Warning::new(WarningCode::LegLarge, text));
        } else if let Some((needed, part_mm)) = least(job, pass).filter(|n| pass.leg_mm < n.0.leg_mm - 0.05) {
            let text = Message::of(
                "{}: leg {} is below {}, the usual minimum for a {} part ({}): check the code",
                [
                    name.into(),
                    Part::Plate(pass.leg_mm),
                    Part::Plate(needed.leg_mm),
                    Part::Plate(part_mm),
                    needed.rule.origin.marked().into(),
                ],
            );
            out.push(Warning::new(WarningCode::LegSmall, text));
        }
    }
}

/// Largest of the smallest legs that the rules of the strength check ask for along a pass, with the part that asks, mm; AISC without a
/// demand.
fn least(job: &Job, pass: &Pass) -> Option<(Needed, f64)> {
    let usual: Vec<_> = minimum(USUAL_MINIMUM).into_iter().collect();
    let rules = job.carries.as_ref().map_or(&usual, |carries| &carries.minimums);
    let other =
        |p: &&Pass| (p.seam, p.from_mm < pass.to_mm, p.to_mm > pass.from_mm) == (pass.seam, true, true);
    let one_sided = job.passes.iter().filter(other).all(|p| p.side == pass.side);
    let along =
        spans(&job.member, []).into_iter().filter(|s| s.from_mm < pass.to_mm && s.to_mm > pass.from_mm);
    let asked = along.filter_map(|span| {
        let plates = (span.plates.web_mm, span.plates.flange_mm(pass.seam).1);
        let needed = needed_leg(rules, plates, one_sided, job.units).ok()??;
        Some((needed, needed.rule.part_mm(plates)))
    });
    asked.max_by(|a, b| a.0.leg_mm.total_cmp(&b.0.leg_mm))
}

fn preheat(job: &Job, out: &mut Vec<Warning>) {
    if let Some(cold) = too_cold(job) {
        let text = cold.and(": check with the plate's certificate, and state the preheat in the procedure");
        out.push(Warning::new(WarningCode::Preheat, text));
    }
}

fn factors(job: &Job, out: &mut Vec<Warning>) {
    let Factors {
        force,
        outer_seam,
        inner_seam,
        outer_second,
        inner_second,
        heat_from_leg,
        arm,
        cross_welds,
        cup,
        tilt,
        near_tilt,
        far_tilt,
    } = job.factors;
    let of_pass = job.passes.iter().any(|pass| (pass.force_factor - 1.0).abs() > 0.0);
    // what was learned says so itself
    if (!job.factors.is_none() && job.learned.is_none()) || of_pass {
        let all = [
            ("force", force),
            ("force at the outer seam", outer_seam),
            ("force at the inner seam", inner_seam),
            ("what a second side takes back at the outer seam", outer_second),
            ("what a second side takes back at the inner seam", inner_second),
            ("heat from leg", heat_from_leg),
            ("lever arm sideways", arm),
            ("cross welds", cross_welds),
            ("cup", cup),
            ("tilt", tilt),
            ("tilt of near fillets", near_tilt),
            ("tilt of far fillets", far_tilt),
        ];
        let other = all.into_iter().filter(|(_, times)| (times - 1.0).abs() > 0.0);
        let mut said: Vec<String> = other.map(|(what, times)| format!("{what} × {times:.3}")).collect();
        said.extend(of_pass.then(|| "single passes by their own factors".to_owned()));
        let text = format!("the job multiplies what the model computes: {}", said.join(", "));
        out.push(Warning::new(WarningCode::Factors, text));
    }
}

/// Whether a fillet brings so much heat, q in J/mm³, that a plate may burn through.
pub(crate) fn may_burn_through(q_j_per_mm3: f64) -> bool {
    q_j_per_mm3 > CUP_UNCERTAIN_Q
}

fn cups(flanges: &[FlangeAngles], out: &mut Vec<Warning>) {
    let hot = || flanges.iter().filter(|f| may_burn_through(f.q_j_per_mm3));
    let worst = hot().map(|f| f.q_j_per_mm3).reduce(f64::max);
    if let Some(worst) = worst {
        let of = |seam: &Seam| hot().any(|f| f.flange == *seam);
        let names: Vec<&str> = Seam::BOTH.iter().filter(|seam| of(seam)).map(|seam| seam.name()).collect();
        let is = if names.len() > 1 { "up to" } else { "=" };
        let text = Message::of(
            "{} flange: much heat for its thickness (q {} {}, beyond {}). Heated through it folds less again, but may burn through: use less \
             heat, or measure the first piece; the cup there is the least certain number of this prediction",
            [
                names.join(" and ").into(),
                is.into(),
                Part::HeatDensity(worst),
                Part::HeatDensity(CUP_UNCERTAIN_Q),
            ],
        );
        out.push(Warning::new(WarningCode::CupUncertain, text));
    }
}

/// A section that yields all over, outside what this model covers.
pub(crate) fn heated_through(warmest_k: f64) -> Option<Warning> {
    (warmest_k > HEATED_THROUGH_K).then(|| {
        let text = Message::of(
            "the whole section warms by {} while it is welded, more than the {} at which steel of 355 MPa yields all over: forces are outside \
             what this model covers; weld the seams one after the other or use less heat",
            [warmest_k, HEATED_THROUGH_K].map(Part::Warmer),
        );
        Warning::new(WarningCode::HeatedThrough, text)
    })
}

fn heat(march: &Walk, out: &mut Vec<Warning>) {
    out.extend(heated_through(march.warmest_k));
    if march.joined_k > JOINED_WARM_K {
        let text = Message::of(
            "a flange joins plates that are still {} warmer on the mean than the shop: as they go on cooling they bend the whole member, against the \
             bow of their own weld. In still air plates stay warm two or three times longer than reckoned here: let them cool before the flange \
             goes on, or measure the first piece",
            [Part::Warmer(march.joined_k)],
        );
        out.push(Warning::new(WarningCode::WarmJoin, text));
    }
    if march.capped > 0.0 {
        let text = "several passes overlap warm: their force is held at what the junction can carry at yield";
        out.push(Warning::new(WarningCode::YieldCap, text));
    }
}

fn waves(ripple: &[Ripple], out: &mut Vec<Warning>) {
    let Some(worst) = Ripple::worst(ripple) else { return };
    let words = match worst.verdict {
        RippleVerdict::Flat => return,
        RippleVerdict::Possible => "may ripple",
        RippleVerdict::Likely => "is likely to ripple",
    };
    let mut text = Message::of(
        "the web {} about {}, pressed with {} (it buckles at {} to {})",
        [
            words.into(),
            Part::Position(worst.x_mm),
            Part::Stress(worst.compression_mpa),
            Part::Stress(worst.critical_low_mpa),
            Part::Stress(worst.critical_high_mpa),
        ],
    );
    let may = |r: &Ripple| r.wave_mm + r.wave_2s_mm;
    if let Some(r) = ripple.iter().max_by(|a, b| may(a).total_cmp(&may(b))).filter(|r| may(r) > 0.0) {
        let waves = [r.wave_mm, r.wave_2s_mm].map(Part::Offset);
        text = text.then(Message::of(". Waves of {} ± {} to either side", waves));
        if r.wave_2s_of.plates_mm > 0.0 {
            let plates = [Part::Offset(r.wave_2s_of.plates_mm)];
            text = text.then(Message::of(", {} of the ± by how flat the web comes", plates));
        }
    }
    let text = text.and(". Less heat, a thicker web or stiffeners help; bows are less sure");
    out.push(Warning::new(WarningCode::Ripple, text));
}

fn turns(twist: &Twist, out: &mut Vec<Warning>) {
    if twist.apart_mm.abs() < APART_MM {
        return;
    }
    let text = Message::of(
        "the member turns by {} ± {} at {} ({} end to end): the outer flange sweeps {}, the inner {} (+ near). {}; no plan straightens it",
        [
            Part::Turn(twist.max_rad),
            Part::Turn(twist.max_2s_rad),
            Part::Position(twist.at_mm),
            Part::Turn(twist.end_to_end_rad),
            Part::Offset(twist.flange_sweep_mm[0]),
            Part::Offset(twist.flange_sweep_mm[1]),
            turns_less(twist).into(),
        ],
    );
    out.push(Warning::new(WarningCode::Twist, text));
}

/// What makes a member turn less, by what turns it most.
fn turns_less(twist: &Twist) -> &'static str {
    if twist.by_plates_rad.abs() > 0.5 * twist.max_rad.abs() {
        "It is mostly the flange strips, bowed unlike: straighten them or lay their bows to the same side"
    } else {
        "Both seams from one side or flanges alike turn less"
    }
}

fn bows(job: &Job, camber: &Bow, sweep: &Bow, out: &mut Vec<Warning>) {
    for (name, bow) in [("camber", camber), ("sweep", sweep)] {
        if bow.max_mm.abs() > LARGE_BOW * job.member.length_mm {
            let text = Message::of(
                "{} of {} is more than 1/300 of the length (our choice; finished members usually lie within 1/500: common practice, no source): check heat and legs",
                [name.into(), Part::Offset(bow.max_mm.abs())],
            );
            out.push(Warning::new(WarningCode::BowLarge, text));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{STARTER, read_text};

    fn small(job: &str) -> String {
        let job = read_text("job", &job.replace("leg = \"6 mm\"\nprocedure = \"twin-6\"", "leg = \"4 mm\""))
            .unwrap();
        let said = job_warnings(&job).into_iter().filter(|w| w.code == WarningCode::LegSmall);
        said.map(|w| w.text.to_string()).collect()
    }

    /// 3 mm by AISC on a web of 5 mm, 5 mm where the web is 16 mm and the flange of 8 mm the thinner part; √2 · 3 = 4.2 mm by EN.
    #[test]
    fn the_smallest_leg_goes_by_the_code_of_the_demand_and_the_thickest_thinner_part() {
        assert_eq!(small(STARTER), "");
        let web = "web = [{ to = \"5 m\", thickness = \"5 mm\" }, { thickness = \"16 mm\" }]";
        let thick = small(&STARTER.replace("web = [{ thickness = \"5 mm\" }]", web));
        assert!(
            thick.contains(
                "leg 4 mm is below 5 mm, the usual minimum for a 8 mm part (AISC 360-22 Table J2.4)"
            ),
            "{thick}"
        );
        let european =
            small(&format!("{STARTER}\n[demand]\ncode = \"en-1993-1-8\"\nstart_shear = \"60 kN\"\n"));
        assert!(
            european.contains(
                "leg 4 mm is below 4.2 mm, the usual minimum for a 5 mm part (EN 1993-1-8:2005 4.5.2"
            ),
            "{european}"
        );
    }
}
