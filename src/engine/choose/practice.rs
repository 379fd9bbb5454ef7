//! What the passes of a job break today, what the line cannot take, and why nothing was found.

use super::book::{Book, WeldingLine};
use super::candidate::{CHANGE_S, CandidateCost, PROCEDURE_S, SearchSpace};
use super::known::Scored;
use super::requirement::{Governs, Stretch};
use super::score::{inside, met, tightest};
use super::weld::Weld;
use crate::job::file::{JobFile, PassShape, ProcedureShape};
use crate::prediction::{Carries, Job};
use crate::steel::DENSITY_KG_PER_MM3;
use crate::strength::{SAME_LEG_MM, Strengths, stitch_blocks};
use crate::units::{Message, Part};
use crate::welding::{Pass, Side, Wait, fillet};

/// Rules that the job's own passes break.
pub(crate) fn breaks(
    job: &Job,
    file: &JobFile,
    carries: &Carries,
    stretches: &[Stretch],
    strengths: &Strengths,
) -> Vec<Message> {
    let mut out = Vec::new();
    for s in stretches {
        let own: Vec<&Pass> = job
            .passes
            .iter()
            .filter(|p| p.seam == s.seam && p.from_mm < s.to_mm - 1.0 && p.to_mm > s.from_mm + 1.0)
            .collect();
        let place = place(s);
        let carried: f64 = own.iter().map(|p| p.welded_fraction * strengths.line_n_per_mm(p.leg_mm)).sum();
        if carried < s.flow.n_per_mm {
            let parts = [Part::Flow(carried), Part::Flow(s.flow.n_per_mm), carries.code.clause().into()];
            out.push(place.clone().then(Message::of(": carries {}, needs {} ({})", parts)));
        }
        let both = [Side::Near, Side::Far].iter().all(|side| own.iter().any(|p| p.side == *side));
        if let Some(why) = &s.both_sides
            && !both
        {
            out.push(place.clone().and(format!(": welded on one side where both are needed: {why}")));
        }
        let least = s.one.as_ref().filter(|_| !both).map_or(s.two.minimum_mm, |n| n.minimum_mm);
        if let Some(small) = own.iter().map(|p| p.leg_mm).find(|z| *z < least - SAME_LEG_MM / 2.0) {
            let legs = [small, least].map(Part::Plate);
            out.push(place.then(Message::of(": leg {} below the minimum of {}", legs)));
        }
    }
    out.extend(stitches(job, file, carries));
    out
}

/// Where a stretch is.
fn place(s: &Stretch) -> Message {
    let ends = [s.seam.name().into(), Part::Position(s.from_mm), Part::Position(s.to_mm)];
    Message::of("{} seam, {} to {}", ends)
}

/// Stitches that are too short for the code of the strength check.
fn stitches(job: &Job, file: &JobFile, carries: &Carries) -> Vec<Message> {
    let standard = carries.code.standard();
    let found = |pass: &PassShape| {
        let stitch = pass.intermittent.as_ref()?.weld_mm();
        let of_it = |p: &&Pass| p.seam == pass.seam && p.side == pass.side && p.order == pass.order;
        let leg = job.passes.iter().find(of_it)?.leg_mm;
        let rule = stitch_blocks(standard, stitch, leg)?;
        Some(Message::of(
            "{} seam: stitches of {}; {} ({})",
            [pass.seam.name().into(), Part::Plate(stitch), rule.words.into(), rule.origin.marked().into()],
        ))
    };
    file.passes.iter().filter_map(found).collect()
}

/// What the line cannot take of a member.
pub(crate) fn line_blocks(job: &Job, line: &WeldingLine) -> Vec<Message> {
    let mut out = Vec::new();
    let depths = job.member.depth.points().iter().map(|p| p.1);
    let (shallow, deep) = depths.fold((f64::INFINITY, 0.0_f64), |(l, h), d| (l.min(d), h.max(d)));
    if shallow < line.web_mm.0 || deep > line.web_mm.1 {
        let sizes = [shallow, deep, line.web_mm.0, line.web_mm.1].map(Part::Plate);
        out.push(Message::of("web {} to {} deep: the line takes {} to {}", sizes));
    }
    for p in job.member.outer_flange.iter().chain(&job.member.inner_flange) {
        let (low, high) = line.flange_width_mm;
        if p.width_mm < low || p.width_mm > high || p.thickness_mm > line.thickest_flange_mm {
            let sizes = [p.width_mm, p.thickness_mm, low, high, line.thickest_flange_mm].map(Part::Plate);
            out.push(Message::of("flange {} × {}: the line takes {} to {} wide and up to {} thick", sizes));
        }
    }
    let steepest = job.member.depth.steepest_deg();
    if steepest > line.head_pivot_deg {
        let angles = [format!("{steepest:.1}°").into(), format!("{:.0}°", line.head_pivot_deg).into()];
        out.push(Message::of("inner flange inclined by {}: the heads follow {}", angles));
    }
    out.dedup();
    out
}

/// Time, metal and money of the job's own passes, by the travel speed of their procedures, and by the yardstick of candidates: changes of
/// setting and of wire take their time. A pass without a procedure takes the time of its heat at a usual arc power.
pub(super) fn effort(job: &Job, file: &JobFile, book: &Book) -> CandidateCost {
    /// Arc power of a usual twin-wire submerged arc, W (600 A, 30 V; choice): for passes known by their heat alone.
    const USUAL_ARC_W: f64 = 18_000.0;
    let line = &book.line;
    let mut effort = CandidateCost { settings: job.passes.len() as u32, ..CandidateCost::default() };
    for (at, order) in job.orders.iter().enumerate() {
        let own = || job.passes.iter().filter(|p| p.order == order.number);
        let seconds = |p: &Pass| {
            let speed = procedure(file, p).map(|(_, p)| p.travel_speed.value());
            let speed = speed.unwrap_or(USUAL_ARC_W / p.heat_j_per_mm);
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
        effort.line_s += arc_s + line.run_s + if turned { line.turn_over_s } else { 0.0 };
        if at > 0 && order.wait == Wait::Cold {
            effort.line_s += line.cold_s;
            effort.cold_s += line.cold_s;
            effort.waits += 1;
        }
        effort.deposit_kg += own()
            .map(|p| p.deposit_mm2 * p.welded_fraction * (p.to_mm - p.from_mm) * DENSITY_KG_PER_MM3)
            .sum::<f64>();
    }
    let (settings, wires) = changes(job, file);
    effort.line_s += CHANGE_S * f64::from(settings) + PROCEDURE_S * f64::from(wires);
    effort.changes = settings + wires;
    effort.priced(&book.costs)
}

/// How often a setting changes along a seam or between runs of one wire, and how often the wire or the process does.
fn changes(job: &Job, file: &JobFile) -> (u32, u32) {
    let mut settings = 0;
    let mut wires: Vec<&ProcedureShape> = Vec::new();
    let mut before: Vec<(&str, &ProcedureShape)> = Vec::new();
    for order in &job.orders {
        let mut own: Vec<&Pass> = job.passes.iter().filter(|p| p.order == order.number).collect();
        let lane = |p: &Pass| (p.seam, p.side == Side::Far);
        own.sort_by(|a, b| lane(a).cmp(&lane(b)).then(a.from_mm.total_cmp(&b.from_mm)));
        let heat = |p: &Pass| p.heat_j_per_mm.to_bits();
        let differ = |two: &&[&Pass]| lane(two[0]) == lane(two[1]) && heat(two[0]) != heat(two[1]);
        settings += own.windows(2).filter(differ).count();
        let laid: Vec<(&str, &ProcedureShape)> = own.iter().filter_map(|p| procedure(file, p)).collect();
        let other = |(name, with): &(&str, &ProcedureShape)| {
            before.iter().any(|b| b.1.same_wire(with)) && before.iter().all(|b| b.0 != *name)
        };
        settings += usize::from(laid.iter().any(other));
        for (_, with) in &laid {
            if wires.iter().all(|known| !known.same_wire(with)) {
                wires.push(*with);
            }
        }
        before.extend(laid);
    }
    (settings as u32, wires.len().saturating_sub(1) as u32)
}

/// The procedure a pass was written with, and its name.
fn procedure<'f>(file: &'f JobFile, pass: &Pass) -> Option<(&'f str, &'f ProcedureShape)> {
    let same = |p: &&PassShape| {
        let from = p.from.map_or(0.0, |from| from.value());
        p.seam == pass.seam
            && p.side == pass.side
            && p.order == pass.order
            && (from - pass.from_mm).abs() < 1.0
    };
    let name = file.passes.iter().find(same)?.procedure.as_ref()?;
    file.procedures.get_key_value(name).map(|(name, shape)| (name.as_str(), shape))
}

/// How the job's own passes are laid.
pub(super) fn words(job: &Job) -> String {
    let trips = job.orders.len();
    let far = job.passes.iter().any(|p| p.side == Side::Far);
    let sides = if far { "near and far side" } else { "near side only" };
    match trips {
        1 => format!("in one run, {sides}"),
        n => format!("in {n} runs, {sides}"),
    }
}

/// What opens a stretch whose leg is larger than it takes.
fn way_out(governs: &Governs) -> Message {
    match governs {
        Governs::Minimum(rule) => Message::of(
            "; it is the minimum of {}: `minimums` in [demand] names other rules, `minimums = []` none, and --least-leg is \
             your own",
            [rule.clone().into()],
        ),
        Governs::Strength(_) => "; it is the strength: weld both sides there (`both_sides` in [demand]), or a procedure with larger \
                                 legs"
            .into(),
        Governs::OwnBound | Governs::Process | Governs::Search => "; it is your own --least-leg".into(),
    }
}

/// The sentence that opens a search that failed for want of preheat alone.
fn too_cold(ground: &SearchSpace<'_>) -> Option<Message> {
    let wished =
        |e: &&super::book::Entry| ground.wishes.only.is_empty() || ground.wishes.only.contains(&e.name);
    let entries = || ground.book.entries.iter().filter(wished);
    if entries().any(|e| ground.warm_enough(e)) {
        return None;
    }
    let least = entries().map(|e| ground.preheat(e)).min_by(|a, b| a.least_c.total_cmp(&b.least_c))?;
    Some(Message::of(
        "plates of {} ask for steel of {} at least ({}), and no procedure that may be used is as warm: \
         `preheat = \"{} °C\"` in its [[book]] makes it possible",
        [
            Part::Plate(ground.thickest_mm()),
            Part::Hottest(least.least_c),
            least.by.into(),
            format!("{:.0}", least.least_c).into(),
        ],
    ))
}

/// Thickest web that stitches are tried on without being asked for, mm (choice: light gauge).
const LIGHT_MM: f64 = 4.0;
/// Shortest stitch tried, mm, and longest clear length between stitches over the thinner part and at most, mm (EN 1993-1-8 4.5.1:
/// 12 t and 200 mm in compression; memory, check).
const STITCH_MM: f64 = 50.0;
const STITCH_GAP: (f64, f64) = (12.0, 200.0);

/// Stitches worth trying: those the job has today, and on light webs the least that the code allows.
pub fn stitches_to_try(job: &Job, file: &JobFile) -> Vec<(f64, f64)> {
    let own = file.passes.iter().filter_map(|p| p.intermittent.as_ref().map(|s| (s.weld_mm(), s.gap_mm())));
    let mut all: Vec<(f64, f64)> = own.collect();
    let web = job.member.web.iter().map(|p| p.thickness_mm).fold(f64::INFINITY, f64::min);
    if web <= LIGHT_MM {
        let gap = (STITCH_GAP.0 * web).min(STITCH_GAP.1);
        all.push((STITCH_MM, (gap / 5.0).floor() * 5.0));
    }
    all.dedup();
    all
}

/// Why nothing was found: legs that no procedure lays, or the limits in the way.
pub(crate) fn why_nothing(ground: &SearchSpace<'_>, all: &[Scored], nearest: Option<&Weld>) -> Vec<Message> {
    let mut out = Vec::new();
    if all.is_empty() {
        if let Some(cold) = too_cold(ground) {
            return vec![cold];
        }
        for s in ground.stretches {
            let most =
                ground.book.entries.iter().filter(|e| ground.may_use(e)).map(|e| ground.largest_mm(s, e));
            let most = most.fold(0.0, f64::max);
            let need = s.one.as_ref().filter(|_| s.both_sides.is_none()).unwrap_or(&s.two);
            if s.two.leg_mm > most + 1e-9 {
                let largest = Message::of(
                    ": a leg of {} is needed, {} is the largest that plates, procedures and bounds take",
                    [need.leg_mm, most].map(Part::Plate),
                );
                out.push(place(s).then(largest).then(way_out(&need.governs)));
            }
        }
        if out.is_empty() {
            let text = "no travel speed fits all legs of a run inside the qualified currents and speeds and those of the line";
            out.push(text.into());
        }
        return out;
    }
    let Some(weld) = nearest else { return out };
    let verdicts = met(ground.wishes, &weld.prediction);
    for v in tightest(&verdicts) {
        let chance = inside(v);
        if chance < ground.wishes.confidence {
            out.push(Message::of(
                "{}: {} ± {} against {} ({} {}), inside with {}",
                [
                    v.quantity.name().into(),
                    Part::Offset(v.value),
                    Part::Offset(v.value_2s),
                    Part::Offset(v.limit),
                    v.standard.into(),
                    v.clause.into(),
                    format!("{:.0} %", 100.0 * chance).into(),
                ],
            ));
        }
    }
    if out.is_empty() {
        let inside = format!("{:.1} %", 100.0 * weld.pieces.inside);
        out.push(format!("every tolerance is held by itself, all together only with {inside}").into());
    }
    out
}

/// Leg that a deposit of so many mm² fills, for the window's lines.
pub(crate) fn leg_of(deposit_mm2: f64, gap_mm: f64) -> f64 {
    let leg = fillet::leg_of_deposit_mm(deposit_mm2);
    if gap_mm > fillet::GAP_FREE_MM { (leg - gap_mm).max(0.0) } else { leg }
}
