//! What the passes of a job break today, what the line cannot take, and why nothing was found.

use super::book::Line;
use super::candidate::{Effort, Ground, PREHEAT_MM};
use super::choice::Weld;
use super::need::Stretch;
use super::score::{inside, met, tightest};
use super::search::Scored;
use crate::job::file::{JobFile, PassShape};
use crate::prediction::{Carries, Job};
use crate::steel::DENSITY_KG_PER_MM3;
use crate::strength::{Code, SAME_LEG_MM, Strengths, stitch_blocks};
use crate::units::show;
use crate::welding::{Pass, Side, Wait, fillet};

/// Rules that the job's own passes break.
pub fn breaks(
    job: &Job,
    file: &JobFile,
    carries: &Carries,
    stretches: &[Stretch],
    strengths: &Strengths,
) -> Vec<String> {
    let leg = |mm| show::plate(mm, job.units);
    let mut out = Vec::new();
    for s in stretches {
        let own: Vec<&Pass> = job
            .passes
            .iter()
            .filter(|p| p.seam == s.seam && p.from_mm < s.to_mm - 1.0 && p.to_mm > s.from_mm + 1.0)
            .collect();
        let place = format!(
            "{} seam, {} to {}",
            s.seam.name(),
            show::position(s.from_mm, job.units),
            show::position(s.to_mm, job.units)
        );
        let carried: f64 = own.iter().map(|p| p.welded_fraction * strengths.line_n_per_mm(p.leg_mm)).sum();
        if carried < s.flow.n_per_mm {
            out.push(format!(
                "{place}: carries {}, needs {} ({})",
                show::flow(carried, job.units),
                show::flow(s.flow.n_per_mm, job.units),
                carries.code.clause()
            ));
        }
        let both = [Side::Near, Side::Far].iter().all(|side| own.iter().any(|p| p.side == *side));
        if let Some(why) = &s.both_sides
            && !both
        {
            out.push(format!("{place}: welded on one side where both are needed: {why}"));
        }
        let least = s.one.as_ref().filter(|_| !both).map_or(s.two.minimum_mm, |n| n.minimum_mm);
        if let Some(small) = own.iter().map(|p| p.leg_mm).find(|z| *z < least - SAME_LEG_MM / 2.0) {
            out.push(format!("{place}: leg {} below the minimum of {}", leg(small), leg(least)));
        }
    }
    out.extend(stitches(job, file, carries));
    out
}

/// Stitches that are too short for the code of the strength check.
fn stitches(job: &Job, file: &JobFile, carries: &Carries) -> Vec<String> {
    let standard = match carries.code {
        Code::AiscLrfd | Code::AiscAsd => "AISC 360",
        Code::En1993 => "EN 1993-1-8",
    };
    let found = |pass: &PassShape| {
        let stitch = pass.intermittent.as_ref()?.weld_mm();
        let of_it = |p: &&Pass| p.seam == pass.seam && p.side == pass.side && p.order == pass.order;
        let leg = job.passes.iter().find(of_it)?.leg_mm;
        let rule = stitch_blocks(standard, stitch, leg)?;
        let shown = show::plate(stitch, job.units);
        Some(format!(
            "{} seam: stitches of {shown}; {} ({})",
            pass.seam.name(),
            rule.words,
            rule.origin.marked()
        ))
    };
    file.passes.iter().filter_map(found).collect()
}

/// What the line cannot take of a member.
pub fn line_blocks(job: &Job, line: &Line) -> Vec<String> {
    let size = |mm| show::plate(mm, job.units);
    let mut out = Vec::new();
    let depths = job.member.depth.points().iter().map(|p| p.1);
    let (shallow, deep) = depths.fold((f64::INFINITY, 0.0_f64), |(l, h), d| (l.min(d), h.max(d)));
    if shallow < line.web_mm.0 || deep > line.web_mm.1 {
        let text = format!(
            "web {} to {} deep: the line takes {} to {}",
            size(shallow),
            size(deep),
            size(line.web_mm.0),
            size(line.web_mm.1)
        );
        out.push(text);
    }
    for p in job.member.outer_flange.iter().chain(&job.member.inner_flange) {
        let (low, high) = line.flange_width_mm;
        if p.width_mm < low || p.width_mm > high || p.thickness_mm > line.thickest_flange_mm {
            let text = format!(
                "flange {} × {}: the line takes {} to {} wide and up to {} thick",
                size(p.width_mm),
                size(p.thickness_mm),
                size(low),
                size(high),
                size(line.thickest_flange_mm)
            );
            out.push(text);
        }
    }
    let steepest = job.member.depth.steepest_deg();
    if steepest > line.head_pivot_deg {
        out.push(format!(
            "inner flange inclined by {steepest:.1}°: the heads follow {:.0}°",
            line.head_pivot_deg
        ));
    }
    out.dedup();
    out
}

/// Time and metal of the job's own passes, by the travel speed of their procedures; a pass without one takes the time of
/// its heat at a usual arc power.
pub fn effort(job: &Job, file: &JobFile, line: &Line) -> Effort {
    /// Arc power of a usual twin-wire submerged arc, W (600 A, 30 V; choice): for passes known by their heat alone.
    const USUAL_ARC_W: f64 = 18_000.0;
    let mut effort = Effort { settings: job.passes.len() as u32, ..Effort::default() };
    for (at, order) in job.orders.iter().enumerate() {
        let own = || job.passes.iter().filter(|p| p.order == order.number);
        let seconds = |p: &Pass| {
            let speed = speed_mm_s(file, p).unwrap_or(USUAL_ARC_W / p.heat_j_per_mm);
            (p.to_mm - p.from_mm) * p.welded_fraction / speed
        };
        let lanes = |p: &Pass| (p.seam, p.side);
        let mut arc_s = 0.0_f64;
        for pass in own() {
            let lane: f64 = own().filter(|q| lanes(q) == lanes(pass)).map(seconds).sum();
            arc_s = arc_s.max(lane);
        }
        effort.arc_s += arc_s;
        let turned = at > 0 && own().all(|p| p.side == Side::Far);
        effort.line_s += arc_s + line.trip_s + if turned { line.turn_over_s } else { 0.0 };
        if at > 0 {
            effort.line_s += match order.wait {
                Wait::Cold => line.cold_s,
                Wait::Seconds(_) => 0.0,
            };
        }
        effort.deposit_kg += own()
            .map(|p| p.deposit_mm2 * p.welded_fraction * (p.to_mm - p.from_mm) * DENSITY_KG_PER_MM3)
            .sum::<f64>();
    }
    effort
}

/// Travel speed of the procedure a pass was written with, mm/s.
fn speed_mm_s(file: &JobFile, pass: &Pass) -> Option<f64> {
    let same = |p: &&PassShape| {
        let from = p.from.map_or(0.0, |from| from.value());
        p.seam == pass.seam
            && p.side == pass.side
            && p.order == pass.order
            && (from - pass.from_mm).abs() < 1.0
    };
    let name = file.passes.iter().find(same)?.procedure.as_ref()?;
    file.procedures.get(name).map(|p| p.travel_speed.value())
}

/// How the job's own passes are laid.
pub fn words(job: &Job) -> String {
    let trips = job.orders.len();
    let far = job.passes.iter().any(|p| p.side == Side::Far);
    let sides = if far { "near and far side" } else { "near side only" };
    match trips {
        1 => format!("in one trip, {sides}"),
        n => format!("in {n} trips, {sides}"),
    }
}

/// Why nothing was found: legs that no procedure lays, or the limits in the way.
pub fn why_nothing(ground: &Ground<'_>, all: &[Scored], nearest: Option<&Weld>) -> Vec<String> {
    let units = ground.job.units;
    let leg = |mm| show::plate(mm, units);
    let mut out = Vec::new();
    if all.is_empty() {
        if !ground.book.entries.iter().any(|e| ground.may_use(e)) {
            let thick = show::plate(PREHEAT_MM, units);
            out.push(format!(
                "flanges over {thick} ask for preheat, and no procedure that may be used has one"
            ));
        }
        for s in ground.stretches {
            let most =
                ground.book.entries.iter().filter(|e| ground.may_use(e)).map(|e| ground.largest_mm(s, e));
            let most = most.fold(0.0, f64::max);
            let need = s.one.as_ref().filter(|_| s.both_sides.is_none()).unwrap_or(&s.two);
            if s.two.leg_mm > most + 1e-9 {
                out.push(format!(
                    "{} seam, {} to {}: a leg of {} is needed, {} is the largest that plates, procedures and bounds take",
                    s.seam.name(),
                    show::position(s.from_mm, units),
                    show::position(s.to_mm, units),
                    leg(need.leg_mm),
                    leg(most)
                ));
            }
        }
        if out.is_empty() {
            let text = "no travel speed fits all legs of a trip inside the qualified currents and speeds and those of the line";
            out.push(text.to_owned());
        }
        return out;
    }
    let Some(weld) = nearest else { return out };
    let verdicts = met(ground.wishes, &weld.prediction);
    for v in tightest(&verdicts) {
        let chance = inside(v);
        if chance < ground.wishes.confidence {
            out.push(format!(
                "{}: {} ± {} against {} ({} {}), inside with {:.0} %",
                v.quantity.name(),
                show::offset(v.value, units),
                show::offset(v.value_2s, units),
                show::offset(v.limit, units),
                v.standard,
                v.clause,
                100.0 * chance
            ));
        }
    }
    if out.is_empty() {
        out.push(format!(
            "every tolerance alone is held, all together only with {:.1} %",
            100.0 * weld.pieces.inside
        ));
    }
    out
}

/// Leg that a deposit of so many mm² fills, for the window's lines.
pub fn leg_of(deposit_mm2: f64, gap_mm: f64) -> f64 {
    let leg = fillet::leg_of_deposit_mm(deposit_mm2);
    if gap_mm > fillet::GAP_FREE_MM { (leg - gap_mm).max(0.0) } else { leg }
}
