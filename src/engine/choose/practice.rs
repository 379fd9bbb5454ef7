//! What the passes of a job break today, what the line cannot take, and why nothing was found.

use super::book::{Entry, WeldingLine};
use super::candidate::SearchSpace;
use super::known::Scored;
use super::laid::{Fillets, Laid};
use super::pieces::apart;
use super::requirement::{Governs, Requirements, Stretch};
use super::scheme::stitched;
use super::score::{inside, met, tightest};
use super::weld::Weld;
use crate::job::file::{JobFile, StitchShape};
use crate::member::Seam;
use crate::prediction::{Carries, Job, bare_mm, broken_stitches, stitch_rule_of, too_cold};
use crate::strength::SAME_LEG_MM;
use crate::units::{Message, Part};
use crate::welding::{Side, Stitch};

/// Rules that the job's own passes break. Each piece between two ends of passes is judged by what lies there; of a stretch the worst is
/// said.
pub(crate) fn breaks(job: &Job, file: &JobFile, carries: &Carries, needed: &Requirements) -> Vec<Message> {
    let mut out = Vec::new();
    let fillets = Fillets::of(job, file);
    let open_mm = |piece: &Stretch| bare_mm(job, piece.from_mm, piece.to_mm);
    for s in &needed.stretches {
        let inside = |p: &&Stretch| p.seam == s.seam && p.from_mm < s.to_mm && p.to_mm > s.from_mm;
        let laid: Vec<Laid<'_>> = needed
            .pieces
            .iter()
            .filter(inside)
            .map(|piece| Laid::of(&fillets, piece, &needed.strengths))
            .collect();
        let lacks = |l: &Laid<'_>| l.piece.flow.n_per_mm - l.carried();
        let weak = laid
            .iter()
            .filter(|l| lacks(l) > 0.0 && !(l.bare() && l.piece.to_mm - l.piece.from_mm <= open_mm(l.piece)));
        if let Some(weakest) = weak.max_by(|a, b| lacks(a).total_cmp(&lacks(b))) {
            let [carried, flow] = [weakest.carried(), weakest.piece.flow.n_per_mm].map(Part::Flow);
            let parts = [carried, flow, carries.code.clause().into()];
            out.push(
                place(weakest.piece)
                    .then(Message::of(": carries {}, needs {} ({})", parts))
                    .then(weakest.short()),
            );
        }
        let one_sided = laid.iter().find(|l| l.piece.both_sides.is_some() && !l.both());
        if let Some((l, why)) = one_sided.and_then(|l| Some((l, l.piece.both_sides.clone()?))) {
            out.push(place(l.piece).and(": welded on one side where both are needed: ").then(why));
        }
        let small = laid.iter().filter_map(|l| Some((l, l.smallest_mm()?)));
        let mut small = small.filter(|(l, leg)| *leg < l.minimum_mm() - SAME_LEG_MM / 2.0);
        if let Some((l, leg)) = small.next() {
            let legs = [leg, l.minimum_mm()].map(Part::Plate);
            out.push(
                place(l.piece).then(Message::of(": leg {} below the minimum of {}", legs)).then(l.short()),
            );
        }
    }
    out.extend(broken_stitches(job));
    out.extend(too_cold(job));
    out
}

/// Where a stretch is.
fn place(s: &Stretch) -> Message {
    let ends = [s.seam.name().into(), Part::Position(s.from_mm), Part::Position(s.to_mm)];
    Message::of("{} seam, {} to {}", ends)
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

/// How the job's own passes are laid.
pub(super) fn words(job: &Job, file: &JobFile) -> Message {
    let on = |side| job.passes.iter().any(|p| p.side == side);
    let sides = match [Side::Near, Side::Far].map(on) {
        [true, true] => "near and far side",
        [false, true] => "far side only",
        _ => "near side only",
    };
    let plain = match job.orders.len() {
        1 => format!("in one run, {sides}"),
        n => format!("in {n} runs, {sides}"),
    };
    let mut all = own_stitches(file).collect::<Vec<_>>();
    all.dedup();
    let partly = file.passes.iter().any(|p| p.intermittent.is_none());
    all.into_iter().fold(plain.into(), |said, stitch| said.then(stitched(stitch, partly)))
}

/// Stitches of the file.
fn own_stitches(file: &JobFile) -> impl Iterator<Item = Stitch> {
    file.passes.iter().filter_map(|p| p.intermittent.as_ref().map(StitchShape::stitch))
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
fn no_book_as_warm(ground: &SearchSpace<'_>) -> Option<Message> {
    let wished = |e: &&Entry| ground.wishes.only.is_empty() || ground.wishes.only.contains(&e.name);
    let entries = || ground.book.entries.iter().filter(wished);
    if entries().any(|e| ground.warm_enough(e)) {
        return None;
    }
    let least = entries().map(|e| ground.preheat(e)).min_by(|a, b| a.least_c.total_cmp(&b.least_c))?;
    let wanted = [format!("{:.0}", least.least_c).into()];
    Some(least.asked().then(Message::of(
        ", and no procedure that may be used is as warm: `preheat = \"{} °C\"` in its [[book]] makes it possible",
        wanted,
    )))
}

/// Thickest web that stitches are tried on without being asked for, mm (choice: light gauge).
const LIGHT_MM: f64 = 4.0;
/// Shortest stitch tried, mm (choice), and the step of a gap.
const STITCH_MM: f64 = 50.0;
const GAP_STEP_MM: f64 = 5.0;

/// Stitches worth trying: those the job has today, and on light webs the least that the code allows; none whose gap it does not allow.
pub fn stitches_to_try(job: &Job, file: &JobFile) -> Vec<Stitch> {
    let web = job.member.web.iter().map(|p| p.thickness_mm).fold(f64::INFINITY, f64::min);
    let flanges = Seam::BOTH.into_iter().flat_map(|seam| job.member.flange(seam));
    let thinner = flanges.map(|p| p.thickness_mm).fold(web, f64::min);
    let longest_mm = stitch_rule_of(job).longest_gap_mm(thinner, job.member.steel.yield_mpa);
    let mut all: Vec<Stitch> = own_stitches(file).filter(|s| s.gap_mm <= longest_mm + 1e-9).collect();
    if web <= LIGHT_MM {
        let gap_mm = (longest_mm / GAP_STEP_MM).floor() * GAP_STEP_MM;
        all.push(Stitch { weld_mm: STITCH_MM, gap_mm });
    }
    all.dedup();
    all
}

/// Why nothing was found: legs that no procedure lays, or the limits in the way.
pub(crate) fn why_nothing(ground: &SearchSpace<'_>, all: &[Scored], nearest: Option<&Weld>) -> Vec<Message> {
    let mut out = Vec::new();
    if all.is_empty() {
        if let Some(cold) = no_book_as_warm(ground) {
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
        let inside = format!("{} %", apart(weld.pieces.inside, ground.wishes.confidence, 1));
        out.push(format!("every tolerance is held by itself, all together only with {inside}").into());
    }
    out
}
